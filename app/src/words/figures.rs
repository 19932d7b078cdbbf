//! Figures with their units: in every language the same but for the point, and in the units this phone is set to.

use std::cell::Cell;

use velamen_core::quantity::{Mass, System, Unit, Volume, in_unit};

use super::format::POINT;

thread_local! {
    static SYSTEM: Cell<System> = const { Cell::new(System::Metric) };
}

/// From now on figures are said in these units.
pub fn measure_in(system: System) {
    SYSTEM.set(system);
}

/// The units of this phone.
#[must_use]
pub fn system() -> System {
    SYSTEM.get()
}

/// The sign of the unit that stands in place of a metric one.
#[must_use]
pub fn sign(metric: Unit) -> &'static str {
    system().of(metric).def().symbol
}

/// The word where water is told in litres, or the one where it is told in gallons.
#[must_use]
pub fn in_litres(litres: &'static str, gallons: &'static str) -> &'static str {
    if system().is_metric() {
        litres
    } else {
        gallons
    }
}

/// The figure of an amount in the unit that stands in place of a metric one, in so many places.
fn own(smallest: i64, metric: Unit, places: u32) -> i64 {
    in_unit(smallest, system().of(metric), places).unwrap_or(i64::MAX)
}

/// Litres with two digits that matter: "0.41 L", "5.8 L", "23 L"; below a gallon in quarts.
#[must_use]
pub fn litres(volume: Volume) -> String {
    let ul = volume.ul();
    if system().is_metric() {
        return format!("{} L", thousandths(ul / 1_000));
    }
    let whole = system().of(Unit::Litre);
    let unit = match in_unit(ul, whole, 3) {
        Some(gallons) if gallons.abs() < 1_000 => system().quart(),
        _ => whole,
    };
    let figure = in_unit(ul, unit, 3).unwrap_or(i64::MAX);
    format!("{} {}", thousandths(figure), unit.def().symbol)
}

/// Litres to the hundredth, for what is measured: "20 L", "18.93 L".
#[must_use]
pub fn litres_exact(volume: Volume) -> String {
    if !system().is_metric() {
        let figure = decimal(own(volume.ul(), Unit::Litre, 2), 2);
        return format!("{figure} {}", sign(Unit::Litre));
    }
    let (figure, unit) = measured(volume.ul() / 10 * 10, "mL", "L");
    format!("{figure} {unit}")
}

/// Kilograms with two digits that matter: "0.57 kg".
#[must_use]
pub fn kilograms(mass: Mass) -> String {
    let figure = if system().is_metric() {
        mass.mg() / 1_000
    } else {
        own(mass.mg(), Unit::Kilogram, 3)
    };
    format!("{} {}", thousandths(figure), sign(Unit::Kilogram))
}

/// A temperature without its unit, in tenths: "9.5".
#[must_use]
pub fn degrees(mc: i32) -> String {
    decimal(own(mc.into(), Unit::DegreeCelsius, 1), 1)
}

/// A temperature: "9.5 °C".
#[must_use]
pub fn celsius(mc: i32) -> String {
    format!("{} {}", degrees(mc), sign(Unit::DegreeCelsius))
}

/// Rain without its unit: "4.2".
#[must_use]
pub fn rain(um: u32) -> String {
    let places = if system().is_metric() { 1 } else { 2 };
    decimal(own(um.into(), Unit::Millimetre, places), places)
}

/// Square centimetres as square metres, rounded up so that what is said to fit does: "0.09 m²".
#[must_use]
pub fn square_metres(cm2: u64) -> String {
    let up = cm2.div_ceil(100).saturating_mul(100);
    let mm2 = i64::try_from(up.saturating_mul(100)).unwrap_or(i64::MAX);
    format!(
        "{} {}",
        fixed(own(mm2, Unit::SquareMetre, 2), 2),
        sign(Unit::SquareMetre)
    )
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
    format!("{} {}", length(um), sign(Unit::Millimetre))
}

/// The same without its unit.
#[must_use]
pub fn length(um: i64) -> String {
    let places = if system().is_metric() { 1 } else { 2 };
    decimal(own(um, Unit::Millimetre, places), places)
}

/// The width of a pot, in millimetres: "12 cm", "4.7 in".
#[must_use]
pub fn pot_width(mm: i64) -> String {
    if system().is_metric() {
        format!("{} cm", mm / 10)
    } else {
        whole_millimetres(mm.saturating_mul(1_000))
    }
}

/// Square centimetres as square metres without the unit, to the digits that matter: "12.5".
#[must_use]
pub fn area(cm2: u32) -> String {
    if system().is_metric() {
        return measured(i64::from(cm2) / 10, "", "").0;
    }
    decimal(
        own(i64::from(cm2).saturating_mul(100), Unit::SquareMetre, 1),
        1,
    )
}

/// Whole millimetres of a length in micrometres, as a layer is measured with a thumb: "33 mm", "1.3 in".
#[must_use]
pub fn whole_millimetres(um: i64) -> String {
    let places = u32::from(!system().is_metric());
    format!(
        "{} {}",
        decimal(own(um, Unit::Millimetre, places), places),
        sign(Unit::Millimetre)
    )
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

/// Hundredths of the nursery's money with its sign or word: "14.50 €".
#[must_use]
pub fn money(cents: i64, sign: &str) -> String {
    let text = fixed(cents, 2);
    if sign.is_empty() {
        text
    } else {
        format!("{text} {sign}")
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

    #[wasm_bindgen_test]
    fn other_units_are_shown_with_signs_that_leave_no_doubt() {
        let said = |text: &str| text.replace('.', &POINT.to_string());
        measure_in(System::Us);
        assert_eq!(litres(Volume::from_ul(406_900)), said("0.43 US qt"));
        assert_eq!(litres(Volume::from_ul(37_854_118)), "10 US gal");
        assert_eq!(litres_exact(Volume::from_ul(18_927_059)), "5 US gal");
        assert_eq!(kilograms(Mass::from_mg(453_592)), said("1.0 lb"));
        assert_eq!(
            (celsius(10_000), degrees(-40_000)),
            ("50 °F".to_owned(), "-40".to_owned())
        );
        assert_eq!(millimetres(170_000), said("6.69 in"));
        assert_eq!(rain(12_700), said("0.5"));
        measure_in(System::Imperial);
        assert_eq!(litres_exact(Volume::from_ul(4_546_090)), "1 imp gal");
        assert_eq!(celsius(10_000), "10 °C");
        measure_in(System::Metric);
        assert_eq!(square_metres(900), said("0.09 m²"));
    }
}
