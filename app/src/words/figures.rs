//! Figures with their units. They read the same in every language but for the point.

use velamen_core::quantity::{Mass, Volume};

use super::format::POINT;

/// Litres with two digits that matter: "0.41 L", "5.8 L", "23 L".
#[must_use]
pub fn litres(volume: Volume) -> String {
    format!("{} L", thousandths(volume.ul() / 1_000))
}

/// Litres to the hundredth, for what is measured: "20 L", "18.93 L".
#[must_use]
pub fn litres_exact(volume: Volume) -> String {
    let (figure, unit) = measured(volume.ul() / 10 * 10, "mL", "L");
    format!("{figure} {unit}")
}

/// Kilograms with two digits that matter: "0.57 kg".
#[must_use]
pub fn kilograms(mass: Mass) -> String {
    format!("{} kg", thousandths(mass.mg() / 1_000))
}

/// An amount to be measured out, in thousandths of the small unit, with three digits that matter: ("12.5", "mL").
#[must_use]
pub fn measured(
    thousandths: i64,
    small: &'static str,
    large: &'static str,
) -> (String, &'static str) {
    let (number, unit) = if thousandths.abs() < 1_000_000 {
        (thousandths, small)
    } else {
        (thousandths / 1_000, large)
    };
    let places: u32 = match number.abs() {
        0..1_000 => 3,
        1_000..10_000 => 2,
        10_000..100_000 => 1,
        _ => 0,
    };
    let step = 10_i64.pow(3 - places);
    let rounded = (number + number.signum() * step / 2) / step;
    (decimal(rounded, places), unit)
}

/// A number of thousandths, rounded to hundredths below 1, tenths below 10, else whole.
fn thousandths(number: i64) -> String {
    match number.abs() {
        0..995 => fixed(rounded(number, 10), 2),
        995..9_950 => fixed(rounded(number, 100), 1),
        _ => rounded(number, 1_000).to_string(),
    }
}

/// Halves go away from nothing.
fn rounded(number: i64, by: i64) -> i64 {
    (number + number.signum() * by / 2) / by
}

/// Millimetres of a length in micrometres: "32.5 mm".
#[must_use]
pub fn millimetres(um: i64) -> String {
    format!("{} mm", decimal(rounded(um, 100), 1))
}

/// Whole millimetres of a length in micrometres, as a layer is measured with a thumb: "33 mm".
#[must_use]
pub fn whole_millimetres(um: i64) -> String {
    format!("{} mm", (um + 500) / 1_000)
}

/// A number of which the last `places` digits are parts of one: (1234, 2) is "12.34".
#[must_use]
pub fn fixed(number: i64, places: u32) -> String {
    let one = 10_i64.pow(places);
    let sign = if number < 0 { "-" } else { "" };
    let (whole, part) = (number.abs() / one, number.abs() % one);
    if places == 0 {
        return format!("{sign}{whole}");
    }
    format!(
        "{sign}{whole}{POINT}{part:0width$}",
        width = places as usize
    )
}

/// The same without the noughts at its end: (1250, 2) is "12.5", (1200, 2) is "12".
#[must_use]
pub fn decimal(number: i64, places: u32) -> String {
    let text = fixed(number, places);
    if text.contains(POINT) {
        text.trim_end_matches('0')
            .trim_end_matches(POINT)
            .to_owned()
    } else {
        text
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use wasm_bindgen_test::wasm_bindgen_test;

    #[wasm_bindgen_test]
    fn amounts_keep_the_digits_that_matter() {
        let litre = |ul| litres(Volume::from_ul(ul));
        let said = |text: &str| text.replace('.', &POINT.to_string());
        assert_eq!(fixed(-1_204, 2), said("-12.04"));
        assert_eq!(decimal(1_250, 2), said("12.5"));
        assert_eq!(decimal(1_200, 2), "12");
        assert_eq!(decimal(1_200, 0), "1200");
        assert_eq!(litre(406_900), said("0.41 L"));
        assert_eq!(litre(994_900), said("0.99 L"));
        assert_eq!(litre(5_774_000), said("5.8 L"));
        assert_eq!(litre(9_960_000), "10 L");
        assert_eq!(litre(162_900_000), "163 L");
        assert_eq!(millimetres(32_500), said("32.5 mm"));
        assert_eq!(whole_millimetres(32_500), "33 mm");
    }
}
