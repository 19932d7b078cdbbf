//! What an unclear rate may have meant, as whole texts: choosing one completes what was typed.

use super::rate::split_per;
use super::read::number_and_rest;
use super::{Dimension, Meaning, QuantityError, Unit, parse_rate};

/// A meaning, and the rate as it would be written out.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Meant {
    pub meaning: Meaning,
    pub text: String,
}

/// What a typed rate may have meant; nothing where it is clear or cannot be read at all.
///
/// A rate with two unclear units is asked about one after the other: the product's first.
#[must_use]
pub fn meant(typed: &str) -> Vec<Meant> {
    let Err(QuantityError::AmbiguousUnit { meanings, .. }) = parse_rate(typed) else {
        return Vec::new();
    };
    let whole = |meaning: Meaning| {
        let text = write_out(typed.trim(), meaning)?;
        Some(Meant { meaning, text })
    };
    meanings.into_iter().filter_map(whole).collect()
}

fn write_out(typed: &str, meaning: Meaning) -> Option<String> {
    match meaning {
        Meaning::PartsOfWater | Meaning::PartsInTotal => {
            let (one, parts) = typed.split_once(':')?;
            let (one, parts) = (one.trim(), parts.trim());
            if meaning == Meaning::PartsInTotal {
                return Some(format!("{one} mL / {parts} mL"));
            }
            let total = super::Decimal::parse(one)
                .ok()?
                .ratio()
                .checked_add(super::Decimal::parse(parts).ok()?.ratio())?;
            // Whole parts alone have a total that can be written; nobody gives others.
            (total.den() == 1).then(|| format!("{one} mL / {} mL", total.num()))
        }
        Meaning::PercentByVolume | Meaning::PercentWeightInVolume => {
            let (number, _) = typed.split_once('%')?;
            let of = if meaning == Meaning::PercentByVolume {
                "v/v"
            } else {
                "w/v"
            };
            Some(format!("{} % {of}", number.trim()))
        }
        Meaning::Unit(unit) => with_unit(typed, unit),
    }
}

/// The rate with the first unclear unit written out.
fn with_unit(typed: &str, unit: Unit) -> Option<String> {
    let (_, rest) = number_and_rest(typed).ok()?;
    let number = typed.strip_suffix(rest)?.trim();
    let (product, per) = split_per(rest)?;
    let (product, per) = (product.trim(), per.trim());
    let symbol = unit.def().symbol;
    let is_product = [Dimension::Volume, Dimension::Mass].contains(&unit.dimension())
        && unclear(product, &[Dimension::Volume, Dimension::Mass]);
    if is_product {
        return Some(format!("{number} {symbol} / {per}"));
    }
    let per = per
        .strip_prefix('(')
        .and_then(|inner| inner.strip_suffix(')'))
        .unwrap_or(per);
    let count = match number_and_rest(per) {
        Ok((_, unit)) => per.strip_suffix(unit).map(str::trim)?,
        Err(_) => "",
    };
    let gap = if count.is_empty() { "" } else { " " };
    Some(format!("{number} {product} / {count}{gap}{symbol}"))
}

fn unclear(unit: &str, wanted: &[Dimension]) -> bool {
    let named = Unit::named(unit).into_iter();
    named
        .filter(|unit| wanted.contains(&unit.dimension()))
        .count()
        > 1
}

#[cfg(test)]
mod tests {
    use super::*;

    fn texts(typed: &str) -> Vec<String> {
        meant(typed).into_iter().map(|meant| meant.text).collect()
    }

    #[test]
    fn a_bare_spoon_is_offered_as_the_three_there_are() {
        let texts = texts("1 tbsp/US gal");
        assert_eq!(texts.len(), 3);
        let rates: Vec<_> = texts.iter().map(|text| parse_rate(text)).collect();
        for (text, rate) in texts.iter().zip(&rates) {
            assert!(rate.is_ok(), "{text}: {rate:?}");
        }
        assert!(
            rates
                .iter()
                .enumerate()
                .all(|(at, rate)| !rates[..at].contains(rate))
        );
    }

    #[test]
    fn spoon_and_gallon_are_asked_about_one_after_the_other() {
        let first = texts("2 tsp per gal");
        assert!(first.len() > 1);
        for text in first {
            let second = texts(&text);
            assert!(second.len() > 1, "{text}");
            for whole in second {
                assert!(parse_rate(&whole).is_ok(), "{whole}");
            }
        }
        for whole in texts("8 oz wt/100 gal") {
            assert!(parse_rate(&whole).is_ok(), "{whole}");
        }
        assert!(
            texts("6 mL per (10 gal)")
                .iter()
                .all(|text| parse_rate(text).is_ok())
        );
    }

    #[test]
    fn one_to_a_hundred_is_a_hundred_and_one_parts_or_a_hundred() {
        let exact = |text: &str| {
            parse_rate(text)
                .and_then(|rate| rate.exact())
                .expect("a rate")
                .1
        };
        let texts = texts("1:100");
        assert_eq!(texts, ["1 mL / 101 mL", "1 mL / 100 mL"]);
        assert_eq!(exact(&texts[1]), crate::quantity::Ratio::whole(10));
        assert_eq!(exact(&texts[0]), crate::quantity::Ratio::of(1_000, 101));
    }

    #[test]
    fn a_bare_per_cent_is_offered_both_ways() {
        assert_eq!(texts("0.5 %"), ["0.5 % v/v", "0.5 % w/v"]);
        for text in texts("0,5%") {
            assert!(parse_rate(&text).is_ok(), "{text}");
        }
    }

    #[test]
    fn what_is_clear_or_no_rate_is_not_asked_about() {
        for typed in ["2 g/L", "1 US tsp/US gal", "", "much", "5", "5 L/m2/x"] {
            assert!(meant(typed).is_empty(), "{typed}");
        }
    }

    proptest::proptest! {
        #[test]
        fn every_choice_differs_from_what_was_typed(typed in "[0-9]{1,3} ?(oz|fl oz|pt|qt|gal|tsp|tbsp|cup|lb|mL|g)( per |/)(100 )?(gal|L|pt|qt)") {
            for one in meant(&typed) {
                proptest::prop_assert_ne!(&one.text, &typed);
                // Choosing gets nearer: what is still unclear is another unit.
                for next in meant(&one.text) {
                    proptest::prop_assert!(meant(&next.text).is_empty(), "{}", next.text);
                }
            }
        }
    }
}
