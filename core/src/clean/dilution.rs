//! From the strength on the bottle to the strength wanted.
//!
//! A percentage on a bottle of bleach is read as grams of available chlorine in 100 mL. Where the label means grams in
//! 100 g, the bath comes out stronger by the bottle's density (up to a fifth at 12.5 %), never weaker. A powder's
//! percentage is by weight.

use crate::quantity::{Amount, Decimal, Mass, QuantityError, Ratio, Volume};

/// Milligrams per litre, or per kilogram, of a whole: 100 %.
pub const PPM_WHOLE: u32 = 1_000_000;
const PPM_PERCENT: i128 = 10_000;
const PPM_G_PER_L: i128 = 1_000;

/// What is in the bottle.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Form {
    Liquid,
    Powder,
}

/// What goes into the bath.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Dilution {
    pub stock: Amount,
    /// Water beside a liquid; a powder takes the whole bath of it.
    pub water: Volume,
    pub bath: Volume,
}

/// Why it cannot be made.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum DilutionFault {
    NoStock,
    BadStock(QuantityError),
    /// More than all of it.
    OverWhole,
    NoStrength,
    /// The bottle is weaker than what is wanted.
    Weaker {
        stock_ppm: u32,
        wanted_ppm: u32,
    },
    NoBath,
    TooMuch,
}

/// How much of the bottle makes this bath.
///
/// # Errors
/// [`DilutionFault`].
pub fn dilute(
    form: Form,
    stock_ppm: u32,
    wanted_ppm: u32,
    bath: Volume,
) -> Result<Dilution, DilutionFault> {
    if stock_ppm == 0 {
        return Err(DilutionFault::NoStock);
    }
    if stock_ppm > PPM_WHOLE {
        return Err(DilutionFault::OverWhole);
    }
    if wanted_ppm == 0 {
        return Err(DilutionFault::NoStrength);
    }
    if form == Form::Liquid && wanted_ppm > stock_ppm {
        return Err(DilutionFault::Weaker {
            stock_ppm,
            wanted_ppm,
        });
    }
    if bath.ul() <= 0 {
        return Err(DilutionFault::NoBath);
    }
    // µL of bath by wanted over stock: µL of liquid, and mg of powder, since a litre of bath takes grams as it takes mL.
    let share = Ratio::new(wanted_ppm.into(), stock_ppm.into());
    let amount = share
        .and_then(|share| share.checked_mul(bath.ratio()))
        .and_then(Ratio::round_i64)
        .ok_or(DilutionFault::TooMuch)?;
    let (stock, water) = match form {
        Form::Liquid => {
            let stock = Volume::from_ul(amount);
            let water = bath.checked_sub(stock).ok_or(DilutionFault::TooMuch)?;
            (Amount::Volume(stock), water)
        }
        Form::Powder => (Amount::Mass(Mass::from_mg(amount)), bath),
    };
    Ok(Dilution { stock, water, bath })
}

/// Parts of water to one part of the bottle, as the leaflets say it: 3.5 % to 0.5 % is one part and six of water.
#[must_use]
pub fn parts_of_water(stock_ppm: u32, wanted_ppm: u32) -> Option<Ratio> {
    Ratio::new(stock_ppm.into(), wanted_ppm.into())?.checked_sub(Ratio::ONE)
}

/// A strength as it stands on a bottle, in parts per million: "5.25", "5.25 %", "52 500 ppm", "48 g/L". A bare number is
/// per cent, because the box says so.
///
/// # Errors
/// Not a number, a unit of something else, nothing, or too many digits.
pub fn parse_strength(text: &str) -> Result<u32, QuantityError> {
    let text = text.trim();
    if text.is_empty() {
        return Err(QuantityError::Empty);
    }
    let at = text
        .find(|c: char| c.is_alphabetic() || c == '%')
        .unwrap_or(text.len());
    let (number, unit) = text.split_at(at);
    let times = match unit.trim().to_lowercase().as_str() {
        "" | "%" | "percent" | "per cent" => PPM_PERCENT,
        "ppm" | "mg/l" => 1,
        "g/l" => PPM_G_PER_L,
        _ => return Err(QuantityError::UnknownUnit),
    };
    let number = Decimal::parse(number.trim())?;
    if number.is_negative() {
        return Err(QuantityError::Negative);
    }
    let ppm = number
        .ratio()
        .checked_mul(Ratio::whole(times))
        .and_then(Ratio::round_i64)
        .and_then(|ppm| u32::try_from(ppm).ok())
        .ok_or(QuantityError::TooManyDigits {
            most: crate::quantity::MOST_DIGITS,
        })?;
    if ppm == 0 {
        return Err(QuantityError::Zero);
    }
    Ok(ppm)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn ml(stock: &str, wanted_ppm: u32, litres: i64) -> (i64, i64) {
        let stock = parse_strength(stock).unwrap();
        let bath = Volume::from_ul(litres * 1_000_000);
        let made = dilute(Form::Liquid, stock, wanted_ppm, bath).unwrap();
        let Amount::Volume(of) = made.stock else {
            panic!("a liquid is measured by volume")
        };
        (of.ul(), made.water.ul())
    }

    #[test]
    fn ten_litres_at_a_tenth_of_the_bottle_take_a_litre_of_it() {
        assert_eq!(ml("5.25 %", 5_250, 10), (1_000_000, 9_000_000));
        assert_eq!(ml("12,5", 5_000, 20), (800_000, 19_200_000));
        assert_eq!(ml("40 g/L", 6_000, 5), (750_000, 4_250_000));
        assert_eq!(ml("52500 ppm", 5_250, 10).0, 1_000_000);
    }

    #[test]
    fn what_is_made_up_to_the_mark_is_never_more_than_the_bath() {
        for (stock, wanted) in [
            ("3", 5_000),
            ("5.25", 5_000),
            ("12.5", 5_000),
            ("0.5", 5_000),
        ] {
            let (of, water) = ml(stock, wanted, 7);
            assert_eq!(of + water, 7_000_000, "{stock}");
        }
    }

    #[test]
    fn a_powder_is_weighed_by_its_available_chlorine() {
        let made = dilute(Form::Powder, 350_000, 5_000, Volume::from_ul(1_000_000)).unwrap();
        assert_eq!(made.stock, Amount::Mass(Mass::from_mg(14_286)));
        assert_eq!(made.water, made.bath);
    }

    #[test]
    fn a_bottle_weaker_than_what_is_wanted_and_one_over_the_whole_are_refused() {
        let bath = Volume::from_ul(1_000_000);
        assert_eq!(
            dilute(Form::Liquid, 4_000, 5_000, bath),
            Err(DilutionFault::Weaker {
                stock_ppm: 4_000,
                wanted_ppm: 5_000
            })
        );
        let none = Volume::ZERO;
        assert_eq!(
            dilute(Form::Liquid, 0, 5_000, bath),
            Err(DilutionFault::NoStock)
        );
        assert_eq!(
            dilute(Form::Liquid, PPM_WHOLE + 1, 1, bath),
            Err(DilutionFault::OverWhole)
        );
        assert_eq!(
            dilute(Form::Liquid, 52_500, 0, bath),
            Err(DilutionFault::NoStrength)
        );
        assert_eq!(
            dilute(Form::Liquid, 52_500, 5_000, none),
            Err(DilutionFault::NoBath)
        );
    }

    #[test]
    fn what_is_no_strength_is_refused_with_its_reason() {
        assert_eq!(parse_strength(""), Err(QuantityError::Empty));
        assert_eq!(parse_strength("0 %"), Err(QuantityError::Zero));
        assert_eq!(parse_strength("5 mL"), Err(QuantityError::UnknownUnit));
        assert_eq!(parse_strength("-5"), Err(QuantityError::Negative));
        assert!(parse_strength("1:10").is_err());
    }
}
