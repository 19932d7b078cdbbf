//! Water and feed: what is looked at, who gets none, what goes into a can.

use chrono::NaiveDate;
use velamen_core::event::{Fed, FeedSet, Nitrogen, WaterHow, Watered};
use velamen_core::id::{LotId, PlaceId};
use velamen_core::quantity::{Amount, Volume};
use velamen_core::season::{Season, Warmth};
use velamen_core::view::water::{Bench, BenchState, FeedState, Got};
use velamen_core::water::{By, Factor, Hold, Last, LotWater, Rhythm, RhythmFrom, Stand};
use velamen_core::water_draft::{BoxFault, WaterBox};

use velamen_core::quantity::Unit;

use super::format::{
    celsius, counted, days_ago, fixed, litres_exact, measured, near_day, pot_width, rain, sign,
};

pub const OPEN: &str = "Riego";
pub const TITLE: &str = "Riego y abono";
pub const HINT: &str = "Cuándo mirar y levantar una maceta. Si está seca, solo lo sabe la mano.";
pub const WATERED_ALL: &str = "Todo regado";
pub const WATERED: &str = "Regado";
pub const EXCEPTIONS: &str = "Excepciones, días";
pub const FEED: &str = "Abonar";
pub const FEED_IT: &str = "Abonar esta bancada";
pub const NO_BENCH: &str = "No hay plantas que regar";
pub const NO_BENCH_HINT: &str = "Las bancadas aparecen aquí cuando hay plantas en ellas.";
pub const WHO: &str = "A cuáles les toca";
pub const WHO_HINT: &str =
    "Las marcadas reciben. Toca para dejar una fuera, o para incluir una que espera.";
pub const HOW: &str = "Cómo";
pub const FLUSH: &str = "Hasta que escurra por abajo";
pub const FLUSH_HINT: &str = "Agua sola que se lleva las sales viejas.";
pub const OWN_DAYS: &str = "Tus días entre miradas";
pub const OWN_DAYS_HINT: &str =
    "Van antes que toda cifra de aquí. Vacío o 0 lo deja en lo habitual.";
pub const OWN_FEED_DAYS: &str = "Tus días entre abonados";
pub const KEEP_DAYS: &str = "Guardar los días";
pub const NOT_DAYS: &str = "Escribe días enteros, como 4.";
pub const PRACTICE: &str =
    "Estos días son práctica común, sin fuente: un comienzo, hasta que pongas los tuyos.";
pub const WHICH: &str = "Qué abono";
pub const NO_FEED: &str = "Sin etiqueta";
pub const FEEDS: &str = "Abonos";
pub const FEEDS_HINT: &str = "Lo que la etiqueta dice del nitrógeno, para medir una regadera por lo que reciben las plantas.";
pub const ANOTHER: &str = "Otro abono";
pub const ADD: &str = "Añadir el abono";
pub const ADDED: &str = "el abono";
pub const NAME: &str = "Cómo lo llamas";
pub const NPK: &str = "Las tres cifras";
pub const NPK_HINT: &str = "Como están en él, por ejemplo 20-10-20.";
pub const MEASURED_BY: &str = "Se mide";
pub const WEIGHED: &str = "Por peso";
pub const BY_VOLUME: &str = "Por volumen";
pub const NITROGEN: &str = "Nitrógeno, N";
pub const NITROGEN_HINT: &str =
    "La primera de las tres cifras. Un líquido cuya etiqueta solo da por ciento del peso se pesa.";
pub const PER_CENT: &str = "%";
pub const GRAMS_A_LITRE: &str = "g por litro";
pub const LABEL_EC: &str = "Conductividad, si la da la etiqueta";
pub const LABEL_EC_HINT: &str = "Lo que añade 1 g o 1 mL en un litro.";
pub const EC_UNIT: &str = "mS/cm";
pub const PPM: &str = "Nitrógeno que se quiere";
pub const PPM_UNIT: &str = "mg/L (ppm)";
pub const INTO: &str = "En qué";
pub const A_CAN: &str = "Una regadera";
pub const AN_INJECTOR: &str = "Solución madre de un inyector";
pub const CAN: &str = "La regadera se completa hasta";
pub const STOCK: &str = "La solución madre se completa hasta";
pub const TIMES: &str = "El inyector está puesto a 1 en";
pub const TIMES_HINT: &str = "1:100 hace de un litro de solución madre cien litros.";
pub const EC: &str = "Conductividad medida";
pub const WATER_EC: &str = "Conductividad del agua sola";
pub const FED: &str = "Abonado";
pub const MAY_NOT_DISSOLVE: &str =
    "Tanto puede no disolverse en la solución madre: haz más solución, o baja el inyector.";
pub const STRONG: &str = "Eso es fuerte para orquídeas.";
pub const CHLORINE: &str = "Nunca en una cubeta o regadera que tuvo cloro: con abono ácido o amoniacal suelta gas venenoso. La etiqueta va primero.";
pub const FLUSH_DUE: &str = "Varios abonados desde que pasó agua sola: antes, enjuaga.";
pub const NO_MORE: &str = "Ya no se usa";
pub const CHANGE: &str = "Guardar el cambio";
pub const OF_LOT: &str = "Riego";
pub const NOTHING_YET: &str = "Aún no hay riegos anotados.";
pub const UNDER_COVER: &str = "Poner a cubierto";
pub const THE_BENCH: &str = "Riego y abono aquí";

/// How water comes.
#[must_use]
pub fn how(how: WaterHow) -> &'static str {
    match how {
        WaterHow::Hose => "Con manguera",
        WaterHow::Can => "Con regadera",
        WaterHow::Overhead => "Desde arriba",
        WaterHow::Dipped => "Por inmersión",
        WaterHow::Drip => "Por goteo",
        WaterHow::Rain => "Por la lluvia",
    }
}

fn lots(count: usize) -> String {
    counted(i64::try_from(count).unwrap_or(i64::MAX), "lote", "lotes")
}

/// What a bench asks for: "Mirar y levantar una maceta: 5 de 12 lotes".
#[must_use]
pub fn bench(bench: &Bench) -> String {
    match bench.state {
        BenchState::Late { .. } | BenchState::Look if bench.look == bench.lots => {
            "Mirar y levantar una maceta".to_owned()
        }
        BenchState::Late { .. } | BenchState::Look => {
            format!(
                "Mirar y levantar una maceta: {} de {}",
                bench.look,
                lots(bench.lots)
            )
        }
        BenchState::Later { .. } => "Aún no toca mirar".to_owned(),
        BenchState::Nothing => "Aquí no hay nada que regar".to_owned(),
    }
}

/// Its state for a screen reader.
#[must_use]
pub fn state(state: BenchState) -> String {
    match state {
        BenchState::Late { days } => {
            format!("{} más de lo habitual", counted(days, "día", "días"))
        }
        BenchState::Look => "toca hoy".to_owned(),
        BenchState::Later { days } => format!("en {}", counted(days, "día", "días")),
        BenchState::Nothing => "nada".to_owned(),
    }
}

/// What the last water was: "regado ayer", "12 mm de lluvia hace 2 días".
#[must_use]
pub fn last(last: Last, today: NaiveDate) -> String {
    let when = days_ago(last.on, today);
    match last.by {
        By::Water | By::First => format!("regado {when}"),
        By::Feed { ppm: Some(ppm) } => format!("abonado {when}, {ppm} mg/L de nitrógeno"),
        By::Feed { ppm: None } => format!("abonado {when}"),
        By::Rain { um } => format!("{} de lluvia {when}", millimetres(um)),
    }
}

fn millimetres(um: u32) -> String {
    format!("{} {}", rain(um), sign(Unit::Millimetre))
}

/// Why a bench stands as it does.
#[must_use]
pub fn why(bench: &Bench, rained_at: Option<&str>, today: NaiveDate) -> String {
    let usual = match bench.days {
        (0, 0) => None,
        (a, b) if a == b => Some(format!("cada {}", counted(i64::from(a), "día", "días"))),
        (a, b) => Some(format!("cada {a} a {b} días")),
    };
    let last = match bench.last {
        Some(it) => last(it, today),
        None => "nada anotado".to_owned(),
    };
    let first = match bench.first {
        0 => None,
        count => Some(format!("primer riego para {}", lots(count))),
    };
    let rest = match bench.look_at_rest {
        0 => None,
        _ => Some("en reposo: mira si se arrugan".to_owned()),
    };
    let gauge = bench.rained.zip(rained_at);
    let rained = gauge.map(|(rain, at)| {
        let when = days_ago(rain.on, today);
        format!("{} de lluvia {when}, leído en {at}", millimetres(rain.um))
    });
    let parts = [Some(last), usual, first, rest, rained];
    let parts: Vec<String> = parts.into_iter().flatten().collect();
    parts.join(" · ")
}

/// What must not be done yet, and on a bench open to rain what to do about it.
#[must_use]
pub fn held(until: &str, open_to_rain: bool) -> String {
    if open_to_rain {
        format!("{UNDER_COVER}. No regar hasta {until}")
    } else {
        format!("No regar hasta {until}")
    }
}

/// Lo tratado no se toca todavía.
#[must_use]
pub fn hands_off(until: &str) -> String {
    format!("Sin tocar hasta {until}")
}

/// "Podredumbre vista ayer: sin agua hasta volver a mirar".
#[must_use]
pub fn kept_dry(seen_on: NaiveDate, today: NaiveDate) -> String {
    format!(
        "Podredumbre vista {}: sin agua hasta volver a mirar",
        days_ago(seen_on, today)
    )
}

/// "En reposo hasta el 31 ene: seca o casi".
#[must_use]
pub fn rest(until: Option<NaiveDate>, today: NaiveDate) -> String {
    match until {
        Some(until) => format!("En reposo hasta {}: seca o casi", near_day(until, today)),
        None => "En reposo: seca o casi".to_owned(),
    }
}

/// How a lot stands, in a line.
#[must_use]
pub fn lot(water: &LotWater, no_feed: Option<Hold>, feeding: bool, today: NaiveDate) -> String {
    if let Some(Hold::NoFeedBefore(until)) = no_feed.filter(|_| feeding) {
        return format!("No abonar hasta {}", near_day(until, today));
    }
    let stands = match water.stand {
        Stand::Held(Hold::NoWaterBefore(until)) => held(&near_day(until, today), false),
        Stand::Held(Hold::KeptDry(seen_on)) => kept_dry(seen_on, today),
        Stand::Held(Hold::Rest(until)) => rest(until, today),
        Stand::Held(Hold::NoFeedBefore(until)) => {
            format!("No abonar hasta {}", near_day(until, today))
        }
        Stand::Look { .. } if water.is_first => "Ya se puede dar el primer riego".to_owned(),
        Stand::Look { late: 0 } => "Mirar hoy".to_owned(),
        Stand::Look { late } => {
            format!("Mirar: {} más de lo habitual", counted(late, "día", "días"))
        }
        Stand::Later { days } => format!("Mirar en {}", counted(days, "día", "días")),
    };
    match water.last {
        Some(it) => format!("{stands} · {}", last(it, today)),
        None => stands,
    }
}

/// What the days rest on.
#[must_use]
pub fn rhythm(rhythm: &Rhythm) -> String {
    let days = counted(i64::from(rhythm.days), "día", "días");
    match &rhythm.from {
        RhythmFrom::OwnBench => format!("Cada {days}: lo tuyo para esta bancada."),
        RhythmFrom::OwnGroup => format!("Cada {days}: lo tuyo para este grupo de plantas."),
        RhythmFrom::Usual { days: usual, by } => {
            let usual = counted(i64::from(*usual), "día", "días");
            let by: Vec<String> = by.iter().map(factor).collect();
            if by.is_empty() {
                format!("Cada {days} más o menos, lo habitual en el grupo.")
            } else {
                format!(
                    "Cada {days} más o menos: {usual} por el grupo, {}.",
                    by.join(", ")
                )
            }
        }
    }
}

fn factor(factor: &Factor) -> String {
    let more = if factor.percent() > 100 {
        "más tarde"
    } else {
        "antes"
    };
    match factor {
        Factor::Pot { mm, .. } => format!("{more} por la maceta de {}", pot_width(*mm)),
        Factor::Mix { .. } => format!("{more} por el sustrato"),
        Factor::Read { mean, .. } => format!("{more} con {} en el invernadero", celsius(mean.mc)),
        Factor::Season { season, .. } => format!("{more} en {}", self::season(*season)),
        Factor::House { warmth, .. } => format!("{more} en {}", house(*warmth)),
    }
}

const fn season(season: Season) -> &'static str {
    match season {
        Season::Spring => "primavera",
        Season::Summer => "verano",
        Season::Autumn => "otoño",
        Season::Winter => "invierno",
    }
}

const fn house(warmth: Warmth) -> &'static str {
    match warmth {
        Warmth::Cool => "un invernadero fresco",
        Warmth::Intermediate => "un invernadero templado",
        Warmth::Warm => "un invernadero cálido",
    }
}

/// The feed of a bench in a line.
#[must_use]
pub fn feed(bench: &Bench, today: NaiveDate) -> String {
    let feed = &bench.feed;
    let last = feed
        .last_on
        .map(|on| format!("el último {}", days_ago(on, today)));
    let every = format!("cada {}", counted(i64::from(feed.days), "día", "días"));
    let weak = (feed.weak > 0).then(|| {
        let lots = counted(
            i64::try_from(feed.weak).unwrap_or(i64::MAX),
            "lote dividido",
            "lotes divididos",
        );
        format!("el más flojo para {lots} hace poco")
    });
    let flush = feed.flush_due.then(|| "antes, enjuagar".to_owned());
    let parts = [last, Some(every), weak, flush];
    let parts: Vec<String> = parts.into_iter().flatten().collect();
    parts.join(" · ")
}

/// Whether a bench is to be fed, as a row of its own.
#[must_use]
pub const fn feed_is_due(state: FeedState) -> bool {
    matches!(state, FeedState::Due { .. })
}

/// Why the feed begins where it does.
#[must_use]
pub fn ppm_hint(weak: usize, last: Option<u32>) -> String {
    match (weak, last) {
        (0, None) => "100 es lo habitual, práctica común, sin fuente.".to_owned(),
        (0, Some(last)) => format!("La última vez, {last} aquí."),
        (weak, _) => format!(
            "{} hace poco: lo más flojo, 50, práctica común, sin fuente. O deja fuera lo dividido y abona lo demás como siempre.",
            counted(
                i64::try_from(weak).unwrap_or(i64::MAX),
                "lote dividido",
                "lotes divididos"
            )
        ),
    }
}

/// What is measured out: figure and unit.
#[must_use]
pub fn amount(amount: Amount) -> (String, &'static str) {
    match amount {
        Amount::Mass(mass) => measured(mass.mg(), "g", "kg"),
        Amount::Volume(volume) => measured(volume.ul(), "mL", "L"),
    }
}

/// "g, completado hasta 10 L".
#[must_use]
pub fn made_up(unit: &str, to: Volume) -> String {
    format!("{unit}, completado hasta {}", litres_exact(to))
}

/// How far it reaches.
#[must_use]
pub fn reaches(volume: Volume) -> String {
    format!("Da para {} en las plantas.", litres_exact(volume))
}

/// The conductivity to be expected.
#[must_use]
pub fn expected(us_cm: u32, with_water: bool) -> String {
    let of = if with_water {
        "agua y abono juntos"
    } else {
        "además de la del agua"
    };
    format!("Espera unos {} {EC_UNIT}, {of}.", ec(us_cm))
}

/// Microsiemens as they are read off: "0,85".
#[must_use]
pub fn ec(us_cm: u32) -> String {
    fixed(i64::from(us_cm / 10), 2)
}

/// What a box wants.
#[must_use]
pub fn fault(fault: BoxFault) -> String {
    let name = |of: WaterBox| match of {
        WaterBox::Nitrogen => "el nitrógeno que se quiere",
        WaterBox::Litres => "los litros",
        WaterBox::Times => "el ajuste del inyector",
        WaterBox::Ec => "la conductividad",
        WaterBox::WaterEc => "la conductividad del agua",
        WaterBox::Name => "cómo lo llamas",
        WaterBox::Content => "el nitrógeno de la etiqueta",
    };
    match fault {
        BoxFault::Missing(of) => format!("Indica {}.", name(of)),
        BoxFault::NotANumber(of) => {
            format!("Escribe {} como número, por ejemplo 12 o 0,8.", name(of))
        }
    }
}

/// A feed of the shelf: "20 % N" or "70 g N por litro".
#[must_use]
pub fn nitrogen(nitrogen: Nitrogen) -> String {
    if nitrogen.by_litre {
        let (figure, unit) = measured(nitrogen.mg, "g", "kg");
        format!("{figure} {unit} N por litro")
    } else {
        let (figure, _) = measured(nitrogen.mg / 10, "", "");
        format!("{figure} % N")
    }
}

/// What is said once a bench got it.
#[must_use]
pub fn said(done: &str, place: &str, left_out: usize) -> String {
    match left_out {
        0 => format!("{done}: {place}."),
        count => format!("{done}: {place}, sin {}.", lots(count)),
    }
}

/// How many get it.
#[must_use]
pub fn getting(given: usize, all: usize) -> String {
    format!("{given} de {}", lots(all))
}

/// "Riego (3)", with 3 benches to water.
#[must_use]
pub fn open(benches: usize) -> String {
    match benches {
        0 => OPEN.to_owned(),
        count => format!("{OPEN} ({count})"),
    }
}

/// What a lot got, for its page.
#[must_use]
pub fn got(got: &Got) -> String {
    let how = how(got.how).to_lowercase();
    match (got.fed, got.flush) {
        (Some(Some(ppm)), _) => format!("Abonado, {ppm} mg/L de nitrógeno, {how}"),
        (Some(None), _) => format!("Abonado, {how}"),
        (None, true) => format!("Enjuagado, {how}"),
        (None, false) => format!("Regado, {how}"),
    }
}

fn where_or_who(
    place: Option<PlaceId>,
    named: &[LotId],
    except: usize,
    lots_called: &dyn Fn(LotId) -> String,
    places: &dyn Fn(PlaceId) -> String,
) -> String {
    let what = match place {
        Some(place) => places(place),
        None => {
            let named: Vec<String> = named.iter().map(|lot| lots_called(*lot)).collect();
            named.join(", ")
        }
    };
    match except {
        0 => what,
        count => format!("{what} sin {}", lots(count)),
    }
}

/// A watering as a sentence of the Book.
#[must_use]
pub fn watered(
    it: &Watered,
    lots: &dyn Fn(LotId) -> String,
    places: &dyn Fn(PlaceId) -> String,
) -> String {
    let done = match (it.how, it.flush) {
        (WaterHow::Rain, _) => "Regado por la lluvia",
        (_, true) => "Enjuagado con agua sola",
        (_, false) => "Regado",
    };
    let who = where_or_who(it.place, &it.lots, it.except.len(), lots, places);
    format!("{done}: {who}.")
}

/// A feed that was given, as a sentence of the Book.
#[must_use]
pub fn fed(it: &Fed, lots: &dyn Fn(LotId) -> String, places: &dyn Fn(PlaceId) -> String) -> String {
    let who = where_or_who(it.place, &it.lots, it.except.len(), lots, places);
    let ppm = it
        .nitrogen_ppm
        .map(|ppm| format!(", {ppm} mg/L de nitrógeno"));
    let with = if it.feed.name.is_empty() {
        String::new()
    } else {
        format!(" con {}", it.feed.name)
    };
    format!("Abonado{with}: {who}{}.", ppm.unwrap_or_default())
}

/// What else is on record of it: what was measured, and conductivity.
#[must_use]
pub fn fed_beside(it: &Fed) -> Vec<Option<String>> {
    let measured = Amount::Mass;
    let mass = it.amount_mg.map(velamen_core::quantity::Mass::from_mg);
    let volume = it.amount_ul.map(Volume::from_ul).map(Amount::Volume);
    let amount = mass.map(measured).or(volume);
    let measured = amount.zip(it.water_ul).map(|(amount, ul)| {
        let (figure, unit) = self::amount(amount);
        let made_up = made_up(unit, Volume::from_ul(ul));
        match it.injector {
            Some(times) => format!("{figure} {made_up} de solución madre, 1:{times}."),
            None => format!("{figure} {made_up}."),
        }
    });
    let ec = it
        .ec_us_cm
        .map(|us_cm| format!("{} {EC_UNIT} medidos.", ec(us_cm)));
    let water = it
        .water_ec_us_cm
        .map(|us_cm| format!("El agua sola, {} {EC_UNIT}.", self::ec(us_cm)));
    vec![measured, ec, water]
}

/// A feed put on the shelf, as a sentence of the Book.
#[must_use]
pub fn feed_set(it: &FeedSet) -> String {
    match (&it.name, it.retired) {
        (_, Some(true)) => "Un abono ya no se usa.".to_owned(),
        (Some(name), _) => match it.nitrogen {
            Some(content) => format!("Abono: {name}, {}.", nitrogen(content)),
            None => format!("Abono: {name}."),
        },
        (None, _) => "Un abono se cambió.".to_owned(),
    }
}
