//! Label rates: so much product to so much water, or to so much area.
//!
//! The label is the law, so a rate is kept as it was typed and only its exact fraction is worked with. Invariants: a rate
//! converts as a fraction; an amount is rounded once, to µL or mg; "1:100" and a bare "%" are asked about.

use serde::{Deserialize, Serialize};

use super::read::{MOST_TEXT, number_and_rest, one_unit, parse_typed};
use super::{Area, Decimal, Dimension, Mass, Meaning, QuantityError, Ratio, Typed, Unit, Volume};

/// The strongest liquid rate taken: neat product.
pub const MOST_ML_PER_LITRE: Typed = Typed::new(Decimal::whole(1_000), Unit::Millilitre);
/// The strongest weight rate taken, in each litre.
pub const MOST_GRAMS_PER_LITRE: Typed = Typed::new(Decimal::whole(2_000), Unit::Gram);

const PRODUCT: &[Dimension] = &[Dimension::Volume, Dimension::Mass];
const TARGET: &[Dimension] = &[Dimension::Volume, Dimension::Area];

/// A rate as the label gives it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case", deny_unknown_fields)]
pub enum Rate {
    /// So much product to so much finished mixture, medium or area: `6 US fl oz` per `100 US gal`.
    Amount {
        /// The product, by volume or mass.
        product: Typed,
        /// What it is for, a volume or an area.
        per: Typed,
    },
    /// mL of product in 100 mL of finished mixture.
    PercentByVolume {
        /// The percentage.
        value: Decimal,
    },
    /// g of product in 100 mL of finished mixture.
    PercentWeightInVolume {
        /// The percentage.
        value: Decimal,
    },
    /// mg in a litre of finished mixture.
    PartsPerMillion {
        /// mg/L.
        value: Decimal,
    },
}

/// What the fraction of a rate counts.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum RateKind {
    /// mL in a litre.
    MlPerLitre,
    /// g in a litre.
    GramsPerLitre,
    /// mL on a square metre.
    MlPerSquareMetre,
    /// g on a square metre.
    GramsPerSquareMetre,
}

/// Product to measure out.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Amount {
    /// By volume.
    Volume(Volume),
    /// By mass.
    Mass(Mass),
}

/// How much active ingredient a product holds, from its label.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Strength {
    /// g of active in a litre of product.
    GramsPerLitre(Decimal),
    /// g of active in 100 g of product.
    PercentByWeight(Decimal),
}

impl Rate {
    /// A checked rate of an amount per amount.
    ///
    /// # Errors
    /// `WrongUnit`, `Negative`, `Zero`, `TooLarge`.
    pub fn per(product: Typed, per: Typed) -> Result<Self, QuantityError> {
        if !PRODUCT.contains(&product.unit.dimension()) {
            return Err(QuantityError::WrongUnit { wanted: PRODUCT });
        }
        if !TARGET.contains(&per.unit.dimension()) {
            return Err(QuantityError::WrongUnit { wanted: TARGET });
        }
        Self::Amount { product, per }.checked()
    }

    /// The same rate, if its numbers can be a label's.
    ///
    /// # Errors
    /// `Negative`, `Zero`, `TooLarge`, `NotARate`.
    pub fn checked(self) -> Result<Self, QuantityError> {
        let numbers = match self {
            Self::Amount { product, per } => [product.value, per.value],
            Self::PercentByVolume { value }
            | Self::PercentWeightInVolume { value }
            | Self::PartsPerMillion { value } => [value, Decimal::whole(1)],
        };
        if numbers.iter().any(|n| n.is_negative()) {
            return Err(QuantityError::Negative);
        }
        if numbers.iter().any(|n| n.is_zero()) {
            return Err(QuantityError::Zero);
        }
        let (kind, exact) = self.exact()?;
        let most = match kind {
            RateKind::MlPerLitre => MOST_ML_PER_LITRE,
            RateKind::GramsPerLitre => MOST_GRAMS_PER_LITRE,
            RateKind::MlPerSquareMetre | RateKind::GramsPerSquareMetre => return Ok(self),
        };
        if exact > most.value.ratio() {
            Err(QuantityError::TooLarge { most })
        } else {
            Ok(self)
        }
    }

    /// The rate as an exact fraction, and what the fraction counts.
    ///
    /// # Errors
    /// `NotARate` when the units make none, `Zero` when it is per nothing, `TooLarge` when out of range.
    pub fn exact(&self) -> Result<(RateKind, Ratio), QuantityError> {
        let too_large = QuantityError::TooLarge {
            most: MOST_GRAMS_PER_LITRE,
        };
        let (kind, fraction) = match *self {
            Self::Amount { product, per } => {
                let kind = match (product.unit.dimension(), per.unit.dimension()) {
                    (Dimension::Volume, Dimension::Volume) => RateKind::MlPerLitre,
                    (Dimension::Mass, Dimension::Volume) => RateKind::GramsPerLitre,
                    (Dimension::Volume, Dimension::Area) => RateKind::MlPerSquareMetre,
                    (Dimension::Mass, Dimension::Area) => RateKind::GramsPerSquareMetre,
                    _ => return Err(QuantityError::NotARate),
                };
                if per.value.is_zero() {
                    return Err(QuantityError::Zero);
                }
                (
                    kind,
                    product
                        .exact()
                        .zip(per.exact())
                        .and_then(|(product, per)| product.checked_div(per)),
                )
            }
            Self::PercentByVolume { value } => (
                RateKind::MlPerLitre,
                value.ratio().checked_mul(Ratio::of(1, 100)),
            ),
            Self::PercentWeightInVolume { value } => (
                RateKind::GramsPerLitre,
                value.ratio().checked_mul(Ratio::of(1, 100)),
            ),
            Self::PartsPerMillion { value } => (
                RateKind::GramsPerLitre,
                value.ratio().checked_mul(Ratio::of(1, 1_000_000)),
            ),
        };
        // µL in a µL, mg in a µL, µL on a mm² and mg on a mm² are all a thousand times the units of `RateKind`.
        let thousand = Ratio::whole(1_000);
        fraction
            .and_then(|fraction| fraction.checked_mul(thousand))
            .map(|exact| (kind, exact))
            .ok_or(too_large)
    }

    /// The dimension the rate is for: a volume or an area.
    ///
    /// # Errors
    /// As [`Rate::exact`].
    pub fn is_per(&self) -> Result<Dimension, QuantityError> {
        Ok(match self.exact()?.0 {
            RateKind::MlPerLitre | RateKind::GramsPerLitre => Dimension::Volume,
            RateKind::MlPerSquareMetre | RateKind::GramsPerSquareMetre => Dimension::Area,
        })
    }

    /// Product for a tub of this much finished mixture, rounded once to µL or mg.
    ///
    /// # Errors
    /// `RateIsPer` for a rate by area; `TooLarge`.
    pub fn amount_for(&self, tub: Volume) -> Result<Amount, QuantityError> {
        self.amount(self.amount_exact(Dimension::Volume, tub.ratio())?)
    }

    /// Product for this much area, rounded once to µL or mg.
    ///
    /// # Errors
    /// `RateIsPer` for a rate by volume; `TooLarge`.
    pub fn amount_for_area(&self, area: Area) -> Result<Amount, QuantityError> {
        self.amount(self.amount_exact(Dimension::Area, area.ratio())?)
    }

    /// Product for a volume or area as typed, as an exact number of µL or mg: nothing is rounded on the way.
    ///
    /// # Errors
    /// `RateIsPer`, `TooLarge`.
    pub fn amount_for_typed(&self, target: &Typed) -> Result<Ratio, QuantityError> {
        let exact = target.exact().ok_or(QuantityError::TooLarge {
            most: super::MOST_VOLUME,
        })?;
        self.amount_exact(target.unit.dimension(), exact)
    }

    /// Product for a tub of this much finished mixture, as an exact number of µL or mg.
    ///
    /// # Errors
    /// `RateIsPer` for a rate by area; `TooLarge`.
    pub fn amount_exact_for(&self, tub: Volume) -> Result<Ratio, QuantityError> {
        self.amount_exact(Dimension::Volume, tub.ratio())
    }

    fn amount_exact(
        &self,
        target: Dimension,
        smallest_units: Ratio,
    ) -> Result<Ratio, QuantityError> {
        let per = self.is_per()?;
        if per != target {
            return Err(QuantityError::RateIsPer { per });
        }
        if smallest_units.is_negative() {
            return Err(QuantityError::Negative);
        }
        let (_, rate) = self.exact()?;
        rate.checked_mul(smallest_units)
            .and_then(|amount| amount.checked_mul(Ratio::of(1, 1_000)))
            .ok_or(QuantityError::TooLarge {
                most: super::MOST_VOLUME,
            })
    }

    fn amount(&self, exact: Ratio) -> Result<Amount, QuantityError> {
        let whole = exact.round_i64().ok_or(QuantityError::TooLarge {
            most: super::MOST_VOLUME,
        })?;
        Ok(match self.exact()?.0 {
            RateKind::MlPerLitre | RateKind::MlPerSquareMetre => {
                Amount::Volume(Volume::from_ul(whole))
            }
            RateKind::GramsPerLitre | RateKind::GramsPerSquareMetre => {
                Amount::Mass(Mass::from_mg(whole))
            }
        })
    }

    /// Active ingredient in the finished mixture in mg/L, exactly.
    ///
    /// `None` when the label's two figures do not meet without the product's density (a weight rate of a product given in
    /// g/L, or a liquid rate of one given in per cent by weight), or for a rate by area.
    #[must_use]
    pub fn active_mg_per_litre(&self, strength: Strength) -> Option<Ratio> {
        match (self.exact().ok()?, strength) {
            // mL/L x g/L is mg/L.
            ((RateKind::MlPerLitre, rate), Strength::GramsPerLitre(active)) => {
                rate.checked_mul(active.ratio())
            }
            // g/L x % is 10 mg/L.
            ((RateKind::GramsPerLitre, rate), Strength::PercentByWeight(active)) => rate
                .checked_mul(active.ratio())?
                .checked_mul(Ratio::whole(10)),
            _ => None,
        }
    }
}

/// Reads a label rate: `1.5 mL/L`, `25 mL per 10 L`, `8 oz wt/100 US gal`, `0.75 % v/v`, `200 ppm`, `5 g/m²`.
///
/// # Errors
/// As data, see [`QuantityError`]. "1:100" and a bare "%" come back as `AmbiguousUnit` with what they may mean.
pub fn parse_rate(text: &str) -> Result<Rate, QuantityError> {
    let text = text.trim();
    if text.chars().nth(MOST_TEXT).is_some() {
        return Err(QuantityError::NotARate);
    }
    if let Some((one, parts)) = text.split_once(':') {
        let (one, parts) = (Decimal::parse(one)?, Decimal::parse(parts)?);
        if one.is_zero() || parts.is_zero() {
            return Err(QuantityError::Zero);
        }
        let meanings = vec![Meaning::PartsOfWater, Meaning::PartsInTotal];
        return Err(QuantityError::AmbiguousUnit {
            value: parts,
            meanings,
        });
    }
    let (value, rest) = number_and_rest(text)?;
    if rest.trim().is_empty() {
        return Err(QuantityError::NoUnit { value });
    }
    if let Some(of_what) = rest.strip_prefix('%') {
        return percent(value, of_what)?.checked();
    }
    let lower = rest.to_ascii_lowercase();
    if lower == "ppm" || lower == "ppm w/v" {
        return Rate::PartsPerMillion { value }.checked();
    }
    let (product, per) = split_per(rest).ok_or(QuantityError::NotARate)?;
    if product.trim().is_empty() {
        return Err(QuantityError::NoUnit { value });
    }
    let product = Typed::new(value, one_unit(value, product, PRODUCT)?);
    let per = per.trim();
    let per = per
        .strip_prefix('(')
        .and_then(|inner| inner.strip_suffix(')'))
        .unwrap_or(per);
    // "mL/L" has no number after the stroke: it is per one.
    let per = if per.starts_with(|c: char| c.is_ascii_digit() || "+-\u{2212}.,".contains(c)) {
        parse_typed(per, TARGET)?
    } else {
        Typed::new(Decimal::whole(1), one_unit(Decimal::whole(1), per, TARGET)?)
    };
    Rate::per(product, per)
}

fn percent(value: Decimal, of_what: &str) -> Result<Rate, QuantityError> {
    match of_what.trim().to_ascii_lowercase().as_str() {
        "v/v" | "by volume" | "vol" => Ok(Rate::PercentByVolume { value }),
        "w/v" | "m/v" => Ok(Rate::PercentWeightInVolume { value }),
        "" => {
            let meanings = vec![Meaning::PercentByVolume, Meaning::PercentWeightInVolume];
            Err(QuantityError::AmbiguousUnit { value, meanings })
        }
        _ => Err(QuantityError::UnknownUnit),
    }
}

/// The two sides of "product / target"; none when there is not exactly one stroke, one "per" or one "por".
pub(super) fn split_per(text: &str) -> Option<(&str, &str)> {
    let mut by_stroke = text.split('/');
    if let (Some(product), Some(per), None) = (by_stroke.next(), by_stroke.next(), by_stroke.next())
    {
        return Some((product, per));
    }
    // As labels say it in English and in Spanish.
    [" per ", " por "].into_iter().find_map(|word| {
        let mut by_word = text.split(word);
        match (by_word.next(), by_word.next(), by_word.next()) {
            (Some(product), Some(per), None) => Some((product, per)),
            _ => None,
        }
    })
}

#[cfg(test)]
mod tests;
