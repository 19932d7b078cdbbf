//! Dryness of the air.

use super::fine;
use super::reading::Reading;

/// A thousandth of a degree, and a thousandth of saturation.
const MILLI: f64 = 1_000.0;

pub(super) fn celsius(mc: i32) -> f64 {
    f64::from(mc) / MILLI
}

fn part(permille: u16) -> f64 {
    f64::from(permille) / MILLI
}

/// Thousandths, rounded once.
pub(super) fn milli(value: f64) -> i32 {
    libm::round(value * MILLI) as i32
}

/// Saturation vapour pressure over water in pascals (FAO-56 Eq 11).
#[must_use]
pub fn saturation_pa(t_mc: i32) -> i32 {
    milli(fine::saturation_kpa(celsius(t_mc)))
}

/// Vapour-pressure deficit of one moment in pascals.
#[must_use]
pub fn vpd_pa(t_mc: i32, humidity_permille: u16) -> i32 {
    let saturation = fine::saturation_kpa(celsius(t_mc));
    milli(saturation * (1.0 - part(humidity_permille)))
}

/// Dew point over water, in thousandths of a degree; `None` for air without any water. Ice forms at a frost point that
/// lies a little higher.
#[must_use]
pub fn dew_point_mc(t_mc: i32, humidity_permille: u16) -> Option<i32> {
    fine::dew_point_c(celsius(t_mc), part(humidity_permille)).map(milli)
}

/// The air of a day, in pascals and thousandths of a degree.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Air {
    /// At the minimum with the moistest air.
    pub least_vpd_pa: i32,
    /// At the maximum with the driest.
    pub most_vpd_pa: i32,
    /// Over the day (FAO-56 Eq 12 and 17).
    pub mean_vpd_pa: i32,
    /// Dew point over water of the night.
    pub dew_point_mc: Option<i32>,
}

/// The air of a day, where both humidities were read.
#[must_use]
pub fn day_air(reading: &Reading) -> Option<Air> {
    let (dry, moist) = (
        reading.humidity_min_permille?,
        reading.humidity_max_permille?,
    );
    let (min, max) = (celsius(reading.min_mc), celsius(reading.max_mc));
    let mean =
        fine::mean_saturation_kpa(min, max) - fine::actual_kpa(min, max, part(dry), part(moist));
    Some(Air {
        least_vpd_pa: vpd_pa(reading.min_mc, moist),
        most_vpd_pa: vpd_pa(reading.max_mc, dry),
        mean_vpd_pa: milli(mean),
        dew_point_mc: dew_point_mc(reading.min_mc, moist),
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_air_of_a_day_agrees_with_the_example_of_fao_56() {
        let day = Reading {
            humidity_min_permille: Some(540),
            humidity_max_permille: Some(820),
            ..Reading::of(18_000, 25_000)
        };
        let air = day_air(&day).unwrap();
        assert_eq!(air.mean_vpd_pa, 914);
        assert!(air.least_vpd_pa < air.mean_vpd_pa && air.mean_vpd_pa < air.most_vpd_pa);
        assert_eq!(day_air(&Reading::of(18_000, 25_000)), None);
    }

    #[test]
    fn the_deficit_of_a_moment_is_what_is_missing_to_saturation() {
        assert_eq!(vpd_pa(25_000, 600), 1_267);
        assert_eq!(vpd_pa(20_000, 800), 468);
        assert_eq!(vpd_pa(30_000, 500), 2_122);
        assert_eq!(vpd_pa(20_000, 1_000), 0);
        assert_eq!(saturation_pa(15_000), 1_705);
    }

    #[test]
    fn saturated_air_has_its_dew_point_at_its_own_warmth_and_dry_air_has_none() {
        assert_eq!(dew_point_mc(18_500, 1_000), Some(18_500));
        assert_eq!(dew_point_mc(18_500, 0), None);
    }
}
