//! Length of the day from date and latitude, and which half of the world that is.

use chrono::{Datelike, NaiveDate};

use crate::season::Hemisphere;
use crate::time::days_between;

use super::fine;

/// The light of a day.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Daylight {
    /// Minutes from sunrise to sunset.
    Minutes(i32),
    /// The sun does not set.
    MidnightSun,
    /// The sun does not rise.
    PolarNight,
}

fn degrees(lat_cdeg: i32) -> f64 {
    f64::from(lat_cdeg.clamp(-9_000, 9_000)) / 100.0
}

/// The light of a day at a latitude in hundredths of a degree, north positive: sunrise and sunset of the sun's upper
/// edge, with refraction, within two minutes up to 60 degrees.
#[must_use]
pub fn daylight(lat_cdeg: i32, on: NaiveDate) -> Daylight {
    let start = NaiveDate::from_ymd_opt(2000, 1, 1).unwrap_or(NaiveDate::MIN);
    let days = i32::try_from(days_between(start, on)).unwrap_or(0);
    let hours = fine::seen_day_h(degrees(lat_cdeg), days);
    if hours >= 24.0 {
        Daylight::MidnightSun
    } else if hours <= 0.0 {
        Daylight::PolarNight
    } else {
        Daylight::Minutes(libm::round(hours * 60.0) as i32)
    }
}

/// Day length by FAO-56 in minutes: for sums of evaporation, up to half an hour shorter than what is seen at 60 degrees.
#[must_use]
pub fn fao_day_min(lat_cdeg: i32, on: NaiveDate) -> i32 {
    libm::round(fine::fao_day_h(degrees(lat_cdeg), on.ordinal()) * 60.0) as i32
}

/// The half of the world of a latitude; on the line it has none of its own.
#[must_use]
pub const fn hemisphere_at(lat_cdeg: i32) -> Option<Hemisphere> {
    match lat_cdeg {
        0 => None,
        1.. => Some(Hemisphere::North),
        _ => Some(Hemisphere::South),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn on(text: &str) -> NaiveDate {
        text.parse().unwrap()
    }

    #[test]
    fn beyond_the_circles_the_sun_stays_up_or_down() {
        assert_eq!(daylight(6_960, on("2025-06-21")), Daylight::MidnightSun);
        assert_eq!(daylight(6_960, on("2025-12-21")), Daylight::PolarNight);
        assert_eq!(daylight(-9_000, on("2025-12-21")), Daylight::MidnightSun);
        assert_eq!(daylight(9_000, on("2025-12-21")), Daylight::PolarNight);
        assert_eq!(fao_day_min(9_000, on("2025-12-21")), 0);
        assert_eq!(fao_day_min(9_000, on("2025-06-21")), 1_440);
    }

    #[test]
    fn on_the_line_every_day_is_as_long_as_the_next() {
        for day in ["2024-02-29", "2025-03-20", "2025-06-21", "2025-12-31"] {
            let Daylight::Minutes(minutes) = daylight(0, on(day)) else {
                panic!("{day}");
            };
            assert!((725..=729).contains(&minutes), "{day}: {minutes}");
        }
    }

    #[test]
    fn the_third_of_september_at_20_south_is_as_fao_56_prints_it() {
        assert_eq!(fao_day_min(-2_000, on("2025-09-03")), 700);
    }

    #[test]
    fn the_longest_day_of_one_half_is_the_shortest_of_the_other() {
        let minutes = |lat, day| match daylight(lat, on(day)) {
            Daylight::Minutes(minutes) => minutes,
            other => panic!("{other:?}"),
        };
        assert!(minutes(4_500, "2025-06-21") > 15 * 60);
        assert!(minutes(-4_500, "2025-06-21") < 9 * 60);
        assert_eq!(hemisphere_at(-1), Some(Hemisphere::South));
        assert_eq!(hemisphere_at(0), None);
    }
}
