//! Typed text to amounts.
//!
//! Invariants: any text gives an amount or an error, never a panic; a bare "tbsp" or "gal" is answered with what it may mean;
//! the typed half comes back beside the amount so that both are stored.

use super::{
    Area, Decimal, Dimension, Length, Mass, Meaning, QuantityError, Temperature, Typed, Unit,
    Volume,
};

/// Characters a typed amount may have.
pub const MOST_TEXT: usize = 64;

/// Reads a volume: `2,5 L`, `3 US fl oz`, `1 AU tbsp`.
///
/// # Errors
/// As data, see [`QuantityError`].
pub fn parse_volume(text: &str) -> Result<(Volume, Typed), QuantityError> {
    let typed = parse_typed(text, &[Dimension::Volume])?;
    Ok((Volume::from_typed(&typed)?, typed))
}

/// Reads a mass: `12 g`, `1.5 lb`.
///
/// # Errors
/// As data, see [`QuantityError`].
pub fn parse_mass(text: &str) -> Result<(Mass, Typed), QuantityError> {
    let typed = parse_typed(text, &[Dimension::Mass])?;
    Ok((Mass::from_typed(&typed)?, typed))
}

/// Reads a length: `130 mm`, `0.5 in`.
///
/// # Errors
/// As data, see [`QuantityError`].
pub fn parse_length(text: &str) -> Result<(Length, Typed), QuantityError> {
    let typed = parse_typed(text, &[Dimension::Length])?;
    Ok((Length::from_typed(&typed)?, typed))
}

/// Reads an area: `12 m²`, `100 sq ft`.
///
/// # Errors
/// As data, see [`QuantityError`].
pub fn parse_area(text: &str) -> Result<(Area, Typed), QuantityError> {
    let typed = parse_typed(text, &[Dimension::Area])?;
    Ok((Area::from_typed(&typed)?, typed))
}

/// Reads a temperature: `-2 °C`, `55 F`, `283.15 K`.
///
/// # Errors
/// As data, see [`QuantityError`].
pub fn parse_temperature(text: &str) -> Result<(Temperature, Typed), QuantityError> {
    let typed = parse_typed(text, &[Dimension::Temperature])?;
    Ok((Temperature::from_typed(&typed)?, typed))
}

/// Reads a number and a unit of one of the wanted dimensions.
pub(crate) fn parse_typed(
    text: &str,
    wanted: &'static [Dimension],
) -> Result<Typed, QuantityError> {
    let (value, unit) = number_and_rest(text)?;
    if unit.is_empty() {
        return Err(QuantityError::NoUnit { value });
    }
    let unit = one_unit(value, unit, wanted)?;
    Ok(Typed::new(value, unit))
}

/// The number at the start and what follows it.
pub(crate) fn number_and_rest(text: &str) -> Result<(Decimal, &str), QuantityError> {
    let text = text.trim();
    if text.is_empty() {
        return Err(QuantityError::Empty);
    }
    if text.chars().nth(MOST_TEXT).is_some() {
        return Err(QuantityError::NotANumber);
    }
    let number_like =
        |c: char| c.is_ascii_digit() || c.is_whitespace() || "+-\u{2212}.,'\u{2019}".contains(c);
    let end = text.find(|c| !number_like(c)).unwrap_or(text.len());
    let (number, rest) = text.split_at_checked(end).unwrap_or((text, ""));
    if number.trim().is_empty() {
        return Err(QuantityError::NotANumber);
    }
    Ok((Decimal::parse(number)?, rest.trim()))
}

/// The single unit of the wanted dimensions that the text names.
pub(crate) fn one_unit(
    value: Decimal,
    text: &str,
    wanted: &'static [Dimension],
) -> Result<Unit, QuantityError> {
    let named = Unit::named(text);
    if named.is_empty() {
        return Err(QuantityError::UnknownUnit);
    }
    let fitting: Vec<Unit> = named
        .into_iter()
        .filter(|unit| wanted.contains(&unit.dimension()))
        .collect();
    match fitting.as_slice() {
        [] => Err(QuantityError::WrongUnit { wanted }),
        [unit] => Ok(*unit),
        several => {
            let meanings = several.iter().copied().map(Meaning::Unit).collect();
            Err(QuantityError::AmbiguousUnit { value, meanings })
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn meanings(text: &str) -> Vec<Meaning> {
        match parse_volume(text) {
            Err(QuantityError::AmbiguousUnit { meanings, .. }) => meanings,
            other => panic!("{text} gave {other:?}"),
        }
    }

    #[test]
    fn a_volume_keeps_what_was_typed_beside_it() {
        let (volume, typed) = parse_volume("2,50 L").expect("a volume");
        assert_eq!(volume.ul(), 2_500_000);
        assert_eq!(typed.to_string(), "2.50 L");
        assert_eq!(parse_volume("1 US gal").map(|(v, _)| v.ul()), Ok(3_785_412));
        assert_eq!(
            parse_volume("1 imp gal").map(|(v, _)| v.ul()),
            Ok(4_546_090)
        );
        assert_eq!(
            parse_volume("12 345 ml").map(|(v, _)| v.ul()),
            Ok(12_345_000)
        );
        assert_eq!(parse_volume("750µL").map(|(v, _)| v.ul()), Ok(750));
        assert_eq!(parse_volume("750 \u{3bc}l").map(|(v, _)| v.ul()), Ok(750));
    }

    #[test]
    fn a_bare_tablespoon_is_answered_with_the_three_there_are() {
        let three = [
            Unit::UsTablespoon,
            Unit::MetricTablespoon,
            Unit::AustralianTablespoon,
        ]
        .map(Meaning::Unit);
        for text in ["1 tbsp", "1 tablespoon", "2 Tablespoons", "1tbsp."] {
            assert_eq!(meanings(text), three, "{text}");
        }
        assert_eq!(parse_volume("1 AU tbsp").map(|(v, _)| v.ul()), Ok(20_000));
        assert_eq!(parse_volume("1 UK tbsp").map(|(v, _)| v.ul()), Ok(15_000));
        assert_eq!(parse_volume("1 US tbsp").map(|(v, _)| v.ul()), Ok(14_787));
    }

    #[test]
    fn a_gallon_a_pint_an_ounce_and_a_teaspoon_are_asked_about_too() {
        for text in ["1 gal", "1 pt", "1 qt", "1 fl oz", "1 oz", "1 tsp", "1 cup"] {
            assert!(meanings(text).len() > 1, "{text}");
        }
        assert_eq!(parse_mass("1 oz").map(|(m, _)| m.mg()), Ok(28_350));
    }

    #[test]
    fn what_is_no_volume_says_why() {
        let wanted: &[Dimension] = &[Dimension::Volume];
        assert_eq!(parse_volume(""), Err(QuantityError::Empty));
        assert_eq!(parse_volume("litre"), Err(QuantityError::NotANumber));
        assert_eq!(
            parse_volume("5"),
            Err(QuantityError::NoUnit {
                value: Decimal::whole(5)
            })
        );
        assert_eq!(parse_volume("-5 L"), Err(QuantityError::Negative));
        assert_eq!(
            parse_volume("5 kg"),
            Err(QuantityError::WrongUnit { wanted })
        );
        assert_eq!(parse_volume("5 firkin"), Err(QuantityError::UnknownUnit));
        assert_eq!(
            parse_volume("1 000 000 000 000 L"),
            Err(QuantityError::TooLarge {
                most: super::super::MOST_VOLUME
            })
        );
    }

    #[test]
    fn emoji_right_to_left_full_width_and_endless_text_are_errors() {
        let endless = "1 L ".repeat(2_500);
        let nines = "9".repeat(10_000);
        for text in [
            "🌱 L",
            "5 🌱",
            "\u{200f}5 L",
            "5 L\u{200f}",
            "٥ لتر",
            "\u{ff15} L",
            "5 L\0",
            &endless,
            &nines,
            "5 5 L",
            "1/2 L",
        ] {
            assert!(parse_volume(text).is_err(), "{text}");
            assert!(parse_temperature(text).is_err(), "{text}");
        }
    }

    #[test]
    fn temperatures_are_read_in_three_scales() {
        let mc = |text: &str| parse_temperature(text).map(|(t, _)| t.mc());
        assert_eq!(mc("-2,5 °C"), Ok(-2_500));
        assert_eq!(mc("55 F"), Ok(12_778));
        assert_eq!(mc("−40 ° F"), Ok(-40_000));
        assert_eq!(mc("283.15 K"), Ok(10_000));
        assert_eq!(mc("-459.67 °F"), Ok(-273_150));
        assert_eq!(mc("-459.68 °F"), Err(QuantityError::BelowAbsoluteZero));
        assert_eq!(
            mc("1001 °C"),
            Err(QuantityError::TooLarge {
                most: super::super::HOTTEST
            })
        );
    }

    fn any_unit_of(dimension: Dimension) -> impl Strategy<Value = Unit> {
        prop::sample::select(
            Unit::all()
                .filter(|unit| unit.dimension() == dimension)
                .collect::<Vec<_>>(),
        )
    }

    proptest! {
        #[test]
        fn a_written_amount_reads_back_the_same(mantissa in 1_000_i64..999_999_999, places in 0_u8..=3, unit in any_unit_of(Dimension::Volume)) {
            let typed = Typed::new(Decimal::new(mantissa, places).expect("in range"), unit);
            if let Ok(volume) = Volume::from_typed(&typed) {
                prop_assert_eq!(parse_volume(&typed.to_string()), Ok((volume, typed)));
            }
        }

        #[test]
        fn the_same_amount_in_another_unit_is_the_same_amount(gallons in 1_i32..100_000) {
            let of = |count: i32, unit| Typed::new(Decimal::whole(count), unit).exact();
            prop_assert_eq!(of(gallons, Unit::UsGallon), of(gallons * 4, Unit::UsQuart));
            prop_assert_eq!(of(gallons, Unit::UsGallon), of(gallons * 768, Unit::UsTeaspoon));
            prop_assert_eq!(of(gallons, Unit::UsGallon), of(gallons * 231, Unit::CubicInch));
            prop_assert_eq!(of(gallons, Unit::ImperialGallon), of(gallons * 160, Unit::ImperialFluidOunce));
            prop_assert_eq!(of(gallons, Unit::Pound), of(gallons * 7_000, Unit::Grain));
            prop_assert_eq!(of(gallons, Unit::Litre), of(gallons * 1_000, Unit::Millilitre));
        }

        #[test]
        fn any_text_is_an_amount_or_an_error(text in ".{0,80}") {
            let _ = (parse_volume(&text), parse_mass(&text), parse_length(&text), parse_area(&text), parse_temperature(&text));
        }
    }
}
