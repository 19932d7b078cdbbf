//! Weather in the houses: minimum and maximum, and what they mean.

use velamen_core::climate::{Air, Counted, Daylight, Reading, ReadingFault};
use velamen_core::climate_draft::{Figure, TypedFault};
use velamen_core::reference::taxa::Group;
use velamen_core::season::Season;
use velamen_core::view::climate::{ColdNights, DayOfYear};

use velamen_core::quantity::Unit;

use super::format::{self, celsius, decimal, degrees, fixed, full_day, near_day, short_day, sign};

pub const OPEN: &str = "Min and max";
pub const TITLE: &str = "Minimum and maximum";
pub const KEEP: &str = "Keep the readings";
pub const KEPT: &str = "minimum and maximum";
pub const TODAY: &str = "Today";
pub const YESTERDAY: &str = "Yesterday";
pub const OF_DAY: &str = "Read";
pub const HUMIDITY_TOO: &str = "Humidity too";
pub const HINT: &str = "What the thermometer kept since it was last read. A second reading of a day corrects the first.";
pub const FROM_FILE: &str = "From a logger's file";
pub const OTHER_PLACES: &str = "Other places";
pub const NO_PLACE: &str = "No house yet";
pub const NO_PLACE_HINT: &str = "Readings belong to a place. Add the house in the Shed first.";
pub const BELOW_NOUGHT: &str = "− below zero";

/// The name of a box.
#[must_use]
pub fn figure(figure: Figure) -> &'static str {
    match figure {
        Figure::Min => "Minimum",
        Figure::Max => "Maximum",
        Figure::HumidityMin => "Driest",
        Figure::HumidityMax => "Moistest",
        Figure::Rain => "Rain",
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
    let shown = if shown.is_empty() { "not typed" } else { shown };
    format!("{house}, {}: {shown}", figure(which).to_lowercase())
}

/// What the pad types.
#[must_use]
pub fn typing(house: &str, which: Figure) -> String {
    format!("{house}, {}", figure(which).to_lowercase())
}

/// "The day before: 9 to 21 °C".
#[must_use]
pub fn day_before(reading: &Reading) -> String {
    format!("The day before {}", span(reading))
}

/// A link to the last weeks of a house.
#[must_use]
pub fn weeks_of(house: &str) -> String {
    format!("The last weeks in {house}")
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
            format!("The {} is missing.", figure(*which).to_lowercase())
        }
        TypedFault::NotANumber(which) => format!(
            "The {} is not a number. Type it like -9.5.",
            figure(*which).to_lowercase()
        ),
        TypedFault::Reading(why) => fault(why),
    }
}

/// "54 %".
#[must_use]
pub fn percent(permille: u16) -> String {
    format!("{} %", decimal(i64::from(permille), 1))
}

/// "9 to 21 °C".
#[must_use]
pub fn span(reading: &Reading) -> String {
    format!("{} to {}", degrees(reading.min_mc), celsius(reading.max_mc))
}

/// "9 to 21 °C, humidity 54 % to 82 %, 4.2 mm of rain".
#[must_use]
pub fn reading(reading: &Reading) -> String {
    let humidity = match (reading.humidity_min_permille, reading.humidity_max_permille) {
        (Some(min), Some(max)) => Some(format!("humidity {} to {}", percent(min), percent(max))),
        (Some(one), None) | (None, Some(one)) => Some(format!("humidity {}", percent(one))),
        (None, None) => None,
    };
    let rain = reading
        .rain_um
        .map(|um| format!("{} {} of rain", format::rain(um), sign(Unit::Millimetre)));
    let parts = [Some(span(reading)), humidity, rain];
    let parts: Vec<String> = parts.into_iter().flatten().collect();
    parts.join(", ")
}

/// Why a reading is not taken.
#[must_use]
pub fn fault(fault: &ReadingFault) -> String {
    match fault {
        ReadingFault::MinAboveMax { min_mc, max_mc } => format!(
            "The minimum, {}, is above the maximum, {}. Look which is which.",
            celsius(*min_mc),
            celsius(*max_mc)
        ),
        ReadingFault::NotBelieved {
            mc,
            least_mc,
            most_mc,
        } => format!(
            "{} is not a house's air: {} to {} can be kept.",
            celsius(*mc),
            degrees(*least_mc),
            celsius(*most_mc)
        ),
        ReadingFault::HumidityTurned {
            min_permille,
            max_permille,
        } => format!(
            "The lowest humidity, {}, is above the highest, {}. Look which is which.",
            percent(*min_permille),
            percent(*max_permille)
        ),
        ReadingFault::HumidityBeyond { permille } => {
            format!(
                "{} is more than air can hold: 100 % is the most.",
                percent(*permille)
            )
        }
        ReadingFault::RainBeyond { most_um } => {
            format!(
                "More than {} {} of rain in a day cannot be kept.",
                format::rain(*most_um),
                sign(Unit::Millimetre)
            )
        }
        ReadingFault::DayTwice { on } => format!("{} is there twice.", full_day(*on)),
    }
}

pub const LINE: &str = "The last sixty days";
pub const AIR: &str = "Dryness of the air";
pub const COLD_NIGHTS: &str = "Cool nights";
pub const WARMTH: &str = "Warmth added up";
pub const DAY: &str = "Today";
pub const NOTHING_READ: &str = "Nothing was read here yet";
pub const NOTHING_READ_HINT: &str =
    "Two numbers a day are enough: the minimum and the maximum. What they mean is worked out here.";
pub const AIR_HINT: &str = "Vapour-pressure deficit after FAO-56. Below 0.4 kPa leaves stay wet; above 1.5 kPa new cuttings and mounted plants dry out. Common practice, no source.";
pub const DEW_HINT: &str = "Dew point over water.";
pub const WARMTH_HINT: &str =
    "Degree-days over 10 °C, level from 30 °C, by a sine through minimum and maximum.";
pub const NO_AIR: &str = "No humidity was read in the last days.";
pub const NO_COLD_NIGHTS: &str = "No group that stands here has a known count of cool nights.";
pub const MIN_LINE: &str = "minimum";
pub const MAX_LINE: &str = "maximum";
pub const BELOW_OWN: &str = "Nights below";
pub const NIGHTS_SINCE: &str = "Nights since";

/// Kilopascals in hundredths, from pascals: "0.91 kPa".
#[must_use]
pub fn kilopascals(pa: i32) -> String {
    format!("{} kPa", fixed(i64::from((pa + 5) / 10), 2))
}

/// The least and the most of a day, and its mean.
#[must_use]
pub fn air(air: &Air) -> (String, String) {
    let range = format!(
        "{} to {}",
        kilopascals(air.least_vpd_pa).trim_end_matches(" kPa"),
        kilopascals(air.most_vpd_pa)
    );
    (range, kilopascals(air.mean_vpd_pa))
}

/// What a count rests on: "40 of 44 days read".
#[must_use]
pub fn rests_on(counted: &Counted) -> String {
    if counted.has_gaps() {
        format!(
            "{} of {} days read; the others count for nothing.",
            counted.read, counted.of
        )
    } else {
        format!("All {} days read.", counted.of)
    }
}

/// "12 of 21 nights below 15.5 °C since 1 Oct".
#[must_use]
pub fn cold_nights(nights: &ColdNights, today: chrono::NaiveDate) -> String {
    let group = group(nights.group);
    let count = match nights.enough {
        Some(enough) => format!("{} of {enough} nights", nights.counted.sum),
        None => super::format::counted(nights.counted.sum, "night", "nights"),
    };
    format!(
        "{group}: {count} below {} since {}.",
        celsius(nights.below_mc),
        short_day(nights.since, today)
    )
}

/// Degree-days: "312 degree-days since 1 Mar".
#[must_use]
pub fn warmth(since: chrono::NaiveDate, counted: &Counted, today: chrono::NaiveDate) -> String {
    format!(
        "{} degree-days since {}.",
        (counted.sum + 500) / 1_000,
        short_day(since, today)
    )
}

/// Season and light of a day.
#[must_use]
pub fn day_of_year(day: &DayOfYear) -> String {
    let season = match day.season {
        Season::Spring => "Spring",
        Season::Summer => "Summer",
        Season::Autumn => "Autumn",
        Season::Winter => "Winter",
    };
    match day.light {
        None => format!("{season}. With a latitude in the Shed, day length is shown here."),
        Some(Daylight::Minutes(minutes)) => format!(
            "{season}. The sun is up for {} h {:02} min.",
            minutes / 60,
            minutes % 60
        ),
        Some(Daylight::MidnightSun) => format!("{season}. The sun does not set."),
        Some(Daylight::PolarNight) => format!("{season}. The sun does not rise."),
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
        return format!("None of the last {} days was read.", days.len());
    };
    format!(
        "Read on {} of the last {} days. Coldest {} ({}), hottest {} ({}).",
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
        Group::CymbidiumWarm => "Warm Cymbidium",
        Group::Cattleya => "Cattleya",
        Group::Laelia => "Laelia",
        Group::Dendrobium => "Dendrobium",
        Group::DendrobiumNobile => "Dendrobium nobile",
        Group::DendrobiumPhalaenopsis => "Dendrobium phalaenopsis",
        Group::DendrobiumSpeciosum => "Dendrobium speciosum",
        Group::Oncidium => "Oncidium",
        Group::OncidiumSummer => "Summer Oncidium",
        Group::Odontoglossum => "Odontoglossum",
        Group::Zygopetalum => "Zygopetalum",
        Group::Coelogyne => "Coelogyne",
        Group::Lycaste => "Lycaste",
        Group::Paphiopedilum => "Paphiopedilum",
        Group::PaphiopedilumMottled => "Mottled Paphiopedilum",
        Group::Phragmipedium => "Phragmipedium",
        Group::Masdevallia => "Masdevallia",
        Group::Phalaenopsis => "Phalaenopsis",
        Group::Vanda => "Vanda",
        Group::Sarcochilus => "Sarcochilus",
        Group::Other => "Other orchids",
    }
}

pub const AIR_MEAN: &str = "over the day";
pub const NOT_A_NUMBER: &str = "Type a temperature like 10 or -2.5, and a day.";

/// What the range of a day's dryness is of.
#[must_use]
pub fn air_range(on: chrono::NaiveDate, today: chrono::NaiveDate) -> String {
    format!(
        "{}, from the moistest to the driest hour",
        near_day(on, today)
    )
}

/// Nights below a threshold of one's own.
#[must_use]
pub fn own_nights(counted: &Counted) -> String {
    format!(
        "{}. {}",
        super::format::counted(counted.sum, "night", "nights"),
        rests_on(counted)
    )
}
