//! How much of an active a product holds, as its label says: g/L, g/kg, lb per gallon, per cent.
//!
//! A content by volume and one by weight do not meet without the product's density, so which of the two it is stays with
//! the figure. A bare per cent may be either and is asked about: for a heavy liquid the two differ by a fifth.

use super::{Decimal, QuantityError, Rate, RateKind, Ratio, Typed, Unit, parse_rate};

/// What the content is counted in.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum ContentBy {
    Litre,
    Kilogram,
}

/// Active in a litre or a kilogram of product.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Content {
    pub by: ContentBy,
    /// Milligrams in each, rounded once.
    pub mg: i64,
}

/// Why a content cannot be taken.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum ContentFault {
    Unreadable(QuantityError),
    /// Per cent of the weight or weight in the volume: the two ways to write it.
    WhichPercent {
        meant: [String; 2],
    },
    /// More active than product.
    MoreThanWhole,
}

/// Heaviest liquid thought of: two kilograms a litre.
const MOST_MG_PER_LITRE: i64 = 2_000_000;
const MOST_MG_PER_KILOGRAM: i64 = 1_000_000;

/// Reads a content: `190 g/L`, `500 g/kg`, `50 % w/w`, `25 % w/v`, `2 lb/US gal`.
///
/// # Errors
/// [`ContentFault`]; a bare per cent comes back with the two ways to write it.
pub fn parse_content(text: &str) -> Result<Content, ContentFault> {
    let text = text.trim();
    let small = text.to_lowercase();
    let squeezed: String = small.chars().filter(|c| !c.is_whitespace()).collect();
    if let Some(number) = squeezed.strip_suffix('%') {
        let value = Decimal::parse(number).map_err(ContentFault::Unreadable)?;
        let number = text.trim_end_matches('%').trim_end();
        positive(value)?;
        return Err(ContentFault::WhichPercent {
            meant: ["w/w", "w/v"].map(|of| format!("{number} % {of}")),
        });
    }
    for (unit, by, each) in [
        ("%w/w", ContentBy::Kilogram, 10_000),
        ("g/kg", ContentBy::Kilogram, 1_000),
        ("mg/kg", ContentBy::Kilogram, 1),
        ("%w/v", ContentBy::Litre, 10_000),
    ] {
        let Some(number) = squeezed.strip_suffix(unit) else {
            continue;
        };
        if unit == "g/kg" && number.ends_with('m') {
            continue;
        }
        let value = Decimal::parse(number).map_err(ContentFault::Unreadable)?;
        positive(value)?;
        return whole(by, value.ratio().checked_mul(Ratio::whole(each)));
    }
    let rate = parse_rate(text).map_err(ContentFault::Unreadable)?;
    match (rate, rate.exact().map_err(ContentFault::Unreadable)?) {
        (Rate::Amount { .. }, (RateKind::GramsPerLitre, grams)) => {
            whole(ContentBy::Litre, grams.checked_mul(Ratio::whole(1_000)))
        }
        _ => Err(ContentFault::Unreadable(QuantityError::UnknownUnit)),
    }
}

fn positive(value: Decimal) -> Result<(), ContentFault> {
    if value.is_negative() {
        Err(ContentFault::Unreadable(QuantityError::Negative))
    } else if value.is_zero() {
        Err(ContentFault::Unreadable(QuantityError::Zero))
    } else {
        Ok(())
    }
}

fn whole(by: ContentBy, mg: Option<Ratio>) -> Result<Content, ContentFault> {
    let most = match by {
        ContentBy::Litre => MOST_MG_PER_LITRE,
        ContentBy::Kilogram => MOST_MG_PER_KILOGRAM,
    };
    let mg = mg
        .and_then(Ratio::round_i64)
        .filter(|mg| *mg <= most)
        .ok_or(ContentFault::MoreThanWhole)?;
    if mg == 0 {
        return Err(ContentFault::Unreadable(QuantityError::Zero));
    }
    Ok(Content { by, mg })
}

impl Rate {
    /// The product a rate in ppm of active asks for: mL of a product with its content by volume, g of one by weight.
    /// Any other rate is of product already and stays as it is.
    ///
    /// # Errors
    /// As [`Rate::checked`].
    pub fn through(self, content: Content) -> Result<Self, QuantityError> {
        let Self::PartsPerMillion { value } = self else {
            return Ok(self);
        };
        // 200 mg/L out of 400 g/L is 200 mL in 400 L; out of 700 g/kg it is 200 g in 700 L.
        let unit = match content.by {
            ContentBy::Litre => Unit::Millilitre,
            ContentBy::Kilogram => Unit::Gram,
        };
        let litres = Decimal::new(content.mg, 3).ok_or(QuantityError::NotARate)?;
        Self::per(Typed::new(value, unit), Typed::new(litres, Unit::Litre))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::{Amount, Mass, Volume};

    #[test]
    fn a_content_is_read_as_labels_write_it() {
        let read = |text: &str| parse_content(text).map(|content| (content.by, content.mg));
        for text in ["190 g/L", "190g/l", "19 % w/v", "19% W/V", "190 000 mg/L"] {
            assert_eq!(read(text), Ok((ContentBy::Litre, 190_000)), "{text}");
        }
        for text in [
            "500 g/kg",
            "50 % w/w",
            "50% w/w",
            "500000 mg/kg",
            "500 G/KG",
        ] {
            assert_eq!(read(text), Ok((ContentBy::Kilogram, 500_000)), "{text}");
        }
        // 2 lb in a US gallon, by the definitions of NIST Handbook 44: 239.653 g/L.
        assert_eq!(read("2 lb/US gal"), Ok((ContentBy::Litre, 239_653)));
    }

    #[test]
    fn a_bare_per_cent_is_asked_about_with_both_ways_to_write_it() {
        let fault = parse_content("12.5 %").expect_err("a question");
        let ContentFault::WhichPercent { meant } = fault else {
            panic!("{fault:?}");
        };
        assert_eq!(meant, ["12.5 % w/w", "12.5 % w/v"]);
        let read = meant.map(|text| parse_content(&text).expect("a content"));
        assert_eq!(read[0].by, ContentBy::Kilogram);
        assert_eq!(read[1].by, ContentBy::Litre);
        assert_eq!((read[0].mg, read[1].mg), (125_000, 125_000));
    }

    #[test]
    fn what_is_no_content_is_refused() {
        for text in [
            "",
            "50",
            "much",
            "101 % w/w",
            "-5 g/L",
            "0 g/kg",
            "5 mL/L",
            "200 ppm",
            "3000 g/L",
            "5 g/m2",
            "🌱 %",
        ] {
            assert!(parse_content(text).is_err(), "{text}");
        }
    }

    #[test]
    fn parts_per_million_of_the_active_are_measured_through_the_content() {
        let tub = Volume::from_ul(20_000_000);
        let ppm = parse_rate("200 ppm").expect("a rate");
        let liquid = parse_content("400 g/L").expect("a content");
        let rate = ppm.through(liquid).expect("a rate");
        assert_eq!(
            rate.amount_for(tub),
            Ok(Amount::Volume(Volume::from_ul(10_000)))
        );
        let powder = parse_content("70 % w/w").expect("a content");
        let rate = ppm.through(powder).expect("a rate");
        assert_eq!(rate.amount_for(tub), Ok(Amount::Mass(Mass::from_mg(5_714))));
        let other = parse_rate("2 g/L").expect("a rate");
        assert_eq!(other.through(powder), Ok(other));
    }
}
