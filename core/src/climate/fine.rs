//! The formulas, in floating point between whole numbers.
//!
//! Sources: Allen, Pereira, Raes and Smith, "Crop evapotranspiration", FAO Irrigation and Drainage Paper 56 (1998), by
//! equation; Baskerville and Emin, "Rapid estimation of heat accumulation from maximum and minimum temperatures",
//! Ecology 50 (1969); the sunrise equations of the United States weather service, after Meeus. `libm` gives the same
//! bits on every machine.

use core::f64::consts::PI;

/// Saturation vapour pressure over water in kilopascals (FAO-56 Eq 11). Over water below freezing, too.
#[must_use]
pub fn saturation_kpa(t_c: f64) -> f64 {
    0.6108 * libm::exp(17.27 * t_c / (t_c + 237.3))
}

/// Mean saturation pressure of a day: of the two ends, not of their mean (FAO-56 Eq 12).
#[must_use]
pub fn mean_saturation_kpa(min_c: f64, max_c: f64) -> f64 {
    f64::midpoint(saturation_kpa(min_c), saturation_kpa(max_c))
}

/// Actual vapour pressure of a day from its humidities as parts of one (FAO-56 Eq 17, with the halving that the first
/// print of its example lost). The moistest air goes with the minimum.
#[must_use]
pub fn actual_kpa(min_c: f64, max_c: f64, humidity_min: f64, humidity_max: f64) -> f64 {
    f64::midpoint(
        saturation_kpa(min_c) * humidity_max,
        saturation_kpa(max_c) * humidity_min,
    )
}

/// Dew point over water: Eq 11 turned round. `None` for dry air.
#[must_use]
pub fn dew_point_c(t_c: f64, humidity: f64) -> Option<f64> {
    if humidity <= 0.0 {
        return None;
    }
    let log = libm::log(saturation_kpa(t_c) * humidity / 0.6108);
    Some(237.3 * log / (17.27 - log))
}

/// Degree-days of a day by its mean, not below nothing, the maximum cut at the upper threshold.
#[must_use]
pub fn average_degree_days(min_c: f64, max_c: f64, lower: f64, upper: Option<f64>) -> f64 {
    let cut = |t: f64| upper.map_or(t, |upper| t.min(upper));
    (f64::midpoint(cut(min_c), cut(max_c)) - lower).max(0.0)
}

/// Degree-days under one sine through minimum and maximum (Baskerville and Emin), cut level at the upper threshold.
#[must_use]
pub fn sine_degree_days(min_c: f64, max_c: f64, lower: f64, upper: Option<f64>) -> f64 {
    let above = |threshold: f64| sine_above(min_c, max_c, threshold);
    let beyond = upper.map_or(0.0, |upper| above(upper.max(lower)));
    (above(lower) - beyond).max(0.0)
}

/// Mean height of the sine over a threshold.
fn sine_above(min_c: f64, max_c: f64, threshold: f64) -> f64 {
    let mean = f64::midpoint(min_c, max_c);
    if threshold <= min_c {
        return mean - threshold;
    }
    if threshold >= max_c {
        return 0.0;
    }
    let half = (max_c - min_c) / 2.0;
    let crossing = libm::asin(((threshold - mean) / half).clamp(-1.0, 1.0));
    ((mean - threshold) * (PI / 2.0 - crossing) + half * libm::cos(crossing)) / PI
}

/// Part of the day, 0 to 1, that the sine lies below a threshold; air at the threshold is not below it.
#[must_use]
pub fn part_below(min_c: f64, max_c: f64, threshold: f64) -> f64 {
    if threshold <= min_c {
        return 0.0;
    }
    if threshold > max_c {
        return 1.0;
    }
    let half = (max_c - min_c) / 2.0;
    let place = ((threshold - f64::midpoint(min_c, max_c)) / half).clamp(-1.0, 1.0);
    0.5 + libm::asin(place) / PI
}

/// Day length in hours without refraction or the sun's disc (FAO-56 Eq 24, 25, 34), for sums of evaporation.
#[must_use]
pub fn fao_day_h(lat_deg: f64, day_of_year: u32) -> f64 {
    let declination = 0.409 * libm::sin(2.0 * PI / 365.0 * f64::from(day_of_year) - 1.39);
    let edge = -libm::tan(lat_deg.to_radians()) * libm::tan(declination);
    24.0 / PI * libm::acos(edge.clamp(-1.0, 1.0))
}

/// The sun's centre stands this far from the zenith when its upper edge rises: half a degree of disc halved, and
/// 34 minutes of refraction.
const ZENITH_DEG: f64 = 90.833;
/// Days of a Julian century.
const CENTURY_DAYS: f64 = 36_525.0;

/// Sunrise to sunset in hours as a grower sees it: with refraction and the sun's disc. `days` from 1 January 2000,
/// whole days. 24 under the midnight sun, 0 in the polar night.
#[must_use]
pub fn seen_day_h(lat_deg: f64, days: i32) -> f64 {
    let half = |part: f64| half_day_deg(lat_deg, declination(f64::from(days) - 0.5 + part));
    // Morning and evening are weighed apart: the sun climbs or sinks between them.
    let mut reach = half(0.5);
    let mut length = 2.0 * reach;
    for _ in 0..2 {
        let (morning, evening) = (half(0.5 - reach / 360.0), half(0.5 + reach / 360.0));
        length = morning + evening;
        reach = length / 2.0;
    }
    length / 15.0
}

/// The hour angle of sunset in degrees, 0 to 180.
fn half_day_deg(lat_deg: f64, declination: f64) -> f64 {
    let lat = lat_deg.to_radians();
    let edge = libm::cos(ZENITH_DEG.to_radians()) / (libm::cos(lat) * libm::cos(declination))
        - libm::tan(lat) * libm::tan(declination);
    libm::acos(edge.clamp(-1.0, 1.0)).to_degrees()
}

/// The sun's apparent declination in radians, `days` after noon of 1 January 2000.
fn declination(days: f64) -> f64 {
    let t = days / CENTURY_DAYS;
    let sin_deg = |deg: f64| libm::sin(deg.to_radians());
    let mean_longitude = 280.466_46 + t * (36_000.769_83 + t * 0.000_303_2);
    let anomaly = 357.529_11 + t * (35_999.050_29 - t * 0.000_153_7);
    let centre = sin_deg(anomaly) * (1.914_602 - t * (0.004_817 + t * 0.000_014))
        + sin_deg(2.0 * anomaly) * (0.019_993 - t * 0.000_101)
        + sin_deg(3.0 * anomaly) * 0.000_289;
    let node = 125.04 - 1_934.136 * t;
    let longitude = mean_longitude + centre - 0.005_69 - 0.004_78 * sin_deg(node);
    let seconds = 21.448 - t * (46.815 + t * (0.000_59 - t * 0.001_813));
    let tilt = 23.0 + (26.0 + seconds / 60.0) / 60.0 + 0.002_56 * libm::cos(node.to_radians());
    libm::asin(sin_deg(tilt) * sin_deg(longitude))
}
