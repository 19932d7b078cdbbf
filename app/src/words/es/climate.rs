//! Weather in the houses: minimum and maximum, and what they mean.

use velamen_core::climate::{Air, Counted, Daylight, Reading, ReadingFault};
use velamen_core::climate_draft::{Figure, TypedFault};
use velamen_core::reference::taxa::Group;
use velamen_core::season::Season;
use velamen_core::view::climate::{ColdNights, DayOfYear};

use velamen_core::quantity::Unit;

use super::format::{self, celsius, decimal, degrees, fixed, full_day, near_day, short_day, sign};

pub const OPEN: &str = "Mínima y máxima";
pub const TITLE: &str = "Mínima y máxima";
pub const KEEP: &str = "Guardar las lecturas";
pub const KEPT: &str = "mínima y máxima";
pub const TODAY: &str = "Hoy";
pub const YESTERDAY: &str = "Ayer";
pub const OF_DAY: &str = "Leído";
pub const HUMIDITY_TOO: &str = "También humedad";
pub const HINT: &str = "Lo que guardó el termómetro desde la última lectura. Una segunda lectura del día corrige la primera.";
pub const FROM_FILE: &str = "De un archivo de registrador";
pub const OTHER_PLACES: &str = "Otros lugares";
pub const NO_PLACE: &str = "Aún no hay invernadero";
pub const NO_PLACE_HINT: &str =
    "Las lecturas son de un lugar. Añade antes el invernadero en el Almacén.";
pub const BELOW_NOUGHT: &str = "− bajo cero";

/// The name of a box.
#[must_use]
pub fn figure(figure: Figure) -> &'static str {
    match figure {
        Figure::Min => "Mínima",
        Figure::Max => "Máxima",
        Figure::HumidityMin => "Más seco",
        Figure::HumidityMax => "Más húmedo",
        Figure::Rain => "Lluvia",
    }
}

/// The same in a sentence.
fn in_sentence(figure: Figure) -> &'static str {
    match figure {
        Figure::Min => "la mínima",
        Figure::Max => "la máxima",
        Figure::HumidityMin => "la humedad más baja",
        Figure::HumidityMax => "la humedad más alta",
        Figure::Rain => "la lluvia",
    }
}

/// Its unit.
#[must_use]
pub fn unit(figure: Figure) -> &'static str {
    match figure {
        Figure::Min | Figure::Max => sign(Unit::DegreeCelsius),
        Figure::HumidityMin | Figure::HumidityMax => "%",
        Figure::Rain => sign(Unit::Millimetre),
    }
}

/// A box for who cannot see it.
#[must_use]
pub fn box_label(house: &str, which: Figure, shown: &str) -> String {
    let shown = if shown.is_empty() {
        "sin escribir"
    } else {
        shown
    };
    format!("{house}, {}: {shown}", figure(which).to_lowercase())
}

/// What the pad types.
#[must_use]
pub fn typing(house: &str, which: Figure) -> String {
    format!("{house}, {}", figure(which).to_lowercase())
}

/// "El día anterior, 9 a 21 °C".
#[must_use]
pub fn day_before(reading: &Reading) -> String {
    format!("El día anterior, {}", span(reading))
}

/// A link to the last weeks of a house.
#[must_use]
pub fn weeks_of(house: &str) -> String {
    format!("Las últimas semanas en {house}")
}

/// What a box holds where the day was read already.
#[must_use]
pub fn kept(reading: &Reading, figure: Figure) -> Option<String> {
    match figure {
        Figure::Min => Some(degrees(reading.min_mc)),
        Figure::Max => Some(degrees(reading.max_mc)),
        Figure::HumidityMin => reading.humidity_min_permille.map(whole_percent),
        Figure::HumidityMax => reading.humidity_max_permille.map(whole_percent),
        Figure::Rain => reading.rain_um.map(format::rain),
    }
}

fn whole_percent(permille: u16) -> String {
    percent(permille).trim_end_matches(" %").to_owned()
}

/// Why the numbers of a house make no reading.
#[must_use]
pub fn typed_fault(why: &TypedFault) -> String {
    match why {
        TypedFault::Missing(which) => {
            format!("Falta {}.", in_sentence(*which))
        }
        TypedFault::NotANumber(which) => format!(
            "No es un número: {}. Escríbelo como -9,5.",
            in_sentence(*which)
        ),
        TypedFault::Reading(why) => fault(why),
    }
}

/// "54 %".
#[must_use]
pub fn percent(permille: u16) -> String {
    format!("{} %", decimal(i64::from(permille), 1))
}

/// "9 a 21 °C".
#[must_use]
pub fn span(reading: &Reading) -> String {
    format!("{} a {}", degrees(reading.min_mc), celsius(reading.max_mc))
}

/// "9 a 21 °C, humedad 54 % a 82 %, 4,2 mm de lluvia".
#[must_use]
pub fn reading(reading: &Reading) -> String {
    let humidity = match (reading.humidity_min_permille, reading.humidity_max_permille) {
        (Some(min), Some(max)) => Some(format!("humedad {} a {}", percent(min), percent(max))),
        (Some(one), None) | (None, Some(one)) => Some(format!("humedad {}", percent(one))),
        (None, None) => None,
    };
    let rain = reading
        .rain_um
        .map(|um| format!("{} {} de lluvia", format::rain(um), sign(Unit::Millimetre)));
    let parts = [Some(span(reading)), humidity, rain];
    let parts: Vec<String> = parts.into_iter().flatten().collect();
    parts.join(", ")
}

/// Why a reading is not taken.
#[must_use]
pub fn fault(fault: &ReadingFault) -> String {
    match fault {
        ReadingFault::MinAboveMax { min_mc, max_mc } => format!(
            "La mínima, {}, está por encima de la máxima, {}. Mira cuál es cuál.",
            celsius(*min_mc),
            celsius(*max_mc)
        ),
        ReadingFault::NotBelieved {
            mc,
            least_mc,
            most_mc,
        } => format!(
            "{} no es el aire de un invernadero: se puede guardar de {} a {}.",
            celsius(*mc),
            degrees(*least_mc),
            celsius(*most_mc)
        ),
        ReadingFault::HumidityTurned {
            min_permille,
            max_permille,
        } => format!(
            "La humedad más baja, {}, está por encima de la más alta, {}. Mira cuál es cuál.",
            percent(*min_permille),
            percent(*max_permille)
        ),
        ReadingFault::HumidityBeyond { permille } => {
            format!(
                "{} es más de lo que cabe en el aire: lo máximo es 100 %.",
                percent(*permille)
            )
        }
        ReadingFault::RainBeyond { most_um } => {
            format!(
                "No se pueden guardar más de {} {} de lluvia en un día.",
                format::rain(*most_um),
                sign(Unit::Millimetre)
            )
        }
        ReadingFault::DayTwice { on } => format!("El {} está dos veces.", full_day(*on)),
    }
}

pub const LINE: &str = "Los últimos sesenta días";
pub const AIR: &str = "Sequedad del aire";
pub const COLD_NIGHTS: &str = "Noches frescas";
pub const WARMTH: &str = "Calor acumulado";
pub const DAY: &str = "Hoy";
pub const NOTHING_READ: &str = "Aquí aún no se ha leído nada";
pub const NOTHING_READ_HINT: &str =
    "Bastan dos números al día: la mínima y la máxima. Lo que significan se calcula aquí.";
pub const AIR_HINT: &str = "Déficit de presión de vapor según FAO-56. Por debajo de 0,4 kPa las hojas siguen mojadas; por encima de 1,5 kPa se secan los esquejes nuevos y las plantas montadas. Práctica común, sin fuente.";
pub const DEW_HINT: &str = "Punto de rocío sobre agua.";
pub const WARMTH_HINT: &str =
    "Grados-día sobre 10 °C, sin subir más desde 30 °C, por un seno entre mínima y máxima.";
pub const NO_AIR: &str = "En los últimos días no se leyó la humedad.";
pub const NO_COLD_NIGHTS: &str =
    "De ningún grupo de los que están aquí se sabe cuántas noches frescas pide.";
pub const MIN_LINE: &str = "mínima";
pub const MAX_LINE: &str = "máxima";
pub const BELOW_OWN: &str = "Noches por debajo de";
pub const NIGHTS_SINCE: &str = "Noches desde el";

/// Kilopascals in hundredths, from pascals: "0,91 kPa".
#[must_use]
pub fn kilopascals(pa: i32) -> String {
    format!("{} kPa", fixed(i64::from((pa + 5) / 10), 2))
}

/// The least and the most of a day, and its mean.
#[must_use]
pub fn air(air: &Air) -> (String, String) {
    let range = format!(
        "{} a {}",
        kilopascals(air.least_vpd_pa).trim_end_matches(" kPa"),
        kilopascals(air.most_vpd_pa)
    );
    (range, kilopascals(air.mean_vpd_pa))
}

/// What a count rests on: "Días leídos: 40 de 44; los demás no cuentan."
#[must_use]
pub fn rests_on(counted: &Counted) -> String {
    if counted.has_gaps() {
        format!(
            "Días leídos: {} de {}; los demás no cuentan.",
            counted.read, counted.of
        )
    } else {
        format!("Días leídos: todos, {}.", counted.of)
    }
}

/// "Cymbidium: 12 de 21 noches por debajo de 15,5 °C desde el 1 oct."
#[must_use]
pub fn cold_nights(nights: &ColdNights, today: chrono::NaiveDate) -> String {
    let group = group(nights.group);
    let count = match nights.enough {
        Some(enough) => format!("{} de {enough} noches", nights.counted.sum),
        None => super::format::counted(nights.counted.sum, "noche", "noches"),
    };
    format!(
        "{group}: {count} por debajo de {} desde el {}.",
        celsius(nights.below_mc),
        short_day(nights.since, today)
    )
}

/// Degree-days: "312 grados-día desde el 1 mar."
#[must_use]
pub fn warmth(since: chrono::NaiveDate, counted: &Counted, today: chrono::NaiveDate) -> String {
    format!(
        "{} grados-día desde el {}.",
        (counted.sum + 500) / 1_000,
        short_day(since, today)
    )
}

/// Season and light of a day.
#[must_use]
pub fn day_of_year(day: &DayOfYear) -> String {
    let season = match day.season {
        Season::Spring => "Primavera",
        Season::Summer => "Verano",
        Season::Autumn => "Otoño",
        Season::Winter => "Invierno",
    };
    match day.light {
        None => {
            format!("{season}. Con una latitud en el Almacén, aquí se ve cuánto dura el día.")
        }
        Some(Daylight::Minutes(minutes)) => format!(
            "{season}. El sol está fuera {} h {:02} min.",
            minutes / 60,
            minutes % 60
        ),
        Some(Daylight::MidnightSun) => format!("{season}. El sol no se pone."),
        Some(Daylight::PolarNight) => format!("{season}. El sol no sale."),
    }
}

/// The line in words: from when to when, the extremes, how many days were read.
#[must_use]
pub fn line(days: &[(chrono::NaiveDate, Option<Reading>)], today: chrono::NaiveDate) -> String {
    let read = || {
        days.iter()
            .filter_map(|(on, reading)| Some((*on, (*reading)?)))
    };
    let coldest = read().min_by_key(|(_, reading)| reading.min_mc);
    let hottest = read().max_by_key(|(_, reading)| reading.max_mc);
    let (Some(coldest), Some(hottest)) = (coldest, hottest) else {
        return format!("No se leyó ninguno de los últimos {} días.", days.len());
    };
    format!(
        "Leídos {} de los últimos {} días. Lo más frío, {} ({}); lo más caluroso, {} ({}).",
        read().count(),
        days.len(),
        celsius(coldest.1.min_mc),
        near_day(coldest.0, today),
        celsius(hottest.1.max_mc),
        near_day(hottest.0, today)
    )
}

/// A group as it is called here.
#[must_use]
pub fn group(group: Group) -> &'static str {
    match group {
        Group::Cymbidium => "Cymbidium",
        Group::CymbidiumWarm => "Cymbidium de calor",
        Group::Cattleya => "Cattleya",
        Group::Laelia => "Laelia",
        Group::Dendrobium => "Dendrobium",
        Group::DendrobiumNobile => "Dendrobium nobile",
        Group::DendrobiumPhalaenopsis => "Dendrobium phalaenopsis",
        Group::DendrobiumSpeciosum => "Dendrobium speciosum",
        Group::Oncidium => "Oncidium",
        Group::OncidiumSummer => "Oncidium de verano",
        Group::Odontoglossum => "Odontoglossum",
        Group::Zygopetalum => "Zygopetalum",
        Group::Coelogyne => "Coelogyne",
        Group::Lycaste => "Lycaste",
        Group::Paphiopedilum => "Paphiopedilum",
        Group::PaphiopedilumMottled => "Paphiopedilum de hoja moteada",
        Group::Phragmipedium => "Phragmipedium",
        Group::Masdevallia => "Masdevallia",
        Group::Phalaenopsis => "Phalaenopsis",
        Group::Vanda => "Vanda",
        Group::Sarcochilus => "Sarcochilus",
        Group::Other => "Otras orquídeas",
    }
}

pub const AIR_MEAN: &str = "media del día";
pub const NOT_A_NUMBER: &str = "Escribe una temperatura como 10 o -2,5, y un día.";

/// What the range of a day's dryness is of.
#[must_use]
pub fn air_range(on: chrono::NaiveDate, today: chrono::NaiveDate) -> String {
    format!(
        "{}, de la hora más húmeda a la más seca",
        near_day(on, today)
    )
}

/// Nights below a threshold of one's own.
#[must_use]
pub fn own_nights(counted: &Counted) -> String {
    format!(
        "{}. {}",
        super::format::counted(counted.sum, "noche", "noches"),
        rests_on(counted)
    )
}
