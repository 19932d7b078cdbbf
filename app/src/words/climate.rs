//! Weather in the houses: minimum and maximum, and what they mean.

use velamen_core::climate::{Reading, ReadingFault};

use super::format::full_day;

/// "9.5 °C", "-1 °C": tenths, without a needless nought.
#[must_use]
pub fn celsius(mc: i32) -> String {
    format!("{} °C", degrees(mc))
}

/// The number alone, in tenths.
#[must_use]
pub fn degrees(mc: i32) -> String {
    let tenths = (mc.abs() + 50) / 100;
    let sign = if mc < 0 && tenths > 0 { "-" } else { "" };
    match tenths % 10 {
        0 => format!("{sign}{}", tenths / 10),
        part => format!("{sign}{}.{part}", tenths / 10),
    }
}

/// "54 %".
#[must_use]
pub fn percent(permille: u16) -> String {
    match permille % 10 {
        0 => format!("{} %", permille / 10),
        part => format!("{}.{part} %", permille / 10),
    }
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
    let rain = reading.rain_um.map(|um| {
        let um = i32::try_from(um).unwrap_or(i32::MAX);
        format!("{} mm of rain", degrees(um))
    });
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
            let most = i32::try_from(*most_um).unwrap_or(i32::MAX);
            format!(
                "More than {} mm of rain in a day cannot be kept.",
                degrees(most)
            )
        }
        ReadingFault::DayTwice { on } => format!("{} is there twice.", full_day(*on)),
    }
}
