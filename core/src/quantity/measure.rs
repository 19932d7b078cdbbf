//! Amounts of one dimension, as whole smallest units, and the typed amount that is kept beside them.
//!
//! Stored as a plain integer. Invariants: made from typed text they are not negative and within the limits below; sums and
//! differences are checked, and a difference may be negative (a stock can be overdrawn; that is the ledger's to say).
//! Length counts micrometres because an inch is 25.4 mm: in whole millimetres half an inch would be off by 2.4 %,
//! in micrometres every sixteenth of an inch is right to half a thousandth of a millimetre.

use serde::{Deserialize, Serialize};
use std::fmt;

use super::{Decimal, Dimension, QuantityError, Ratio, Unit};

/// A number and its unit, as typed.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Typed {
    /// The number, digit for digit.
    pub value: Decimal,
    /// The unit it was typed in.
    pub unit: Unit,
}

impl Typed {
    /// A typed amount from its two halves.
    #[must_use]
    pub const fn new(value: Decimal, unit: Unit) -> Self {
        Self { value, unit }
    }

    /// What it comes to in the smallest unit of its dimension, exactly; `None` when out of range.
    #[must_use]
    pub fn exact(&self) -> Option<Ratio> {
        let def = self.unit.def();
        self.value
            .ratio()
            .checked_mul(def.factor)?
            .checked_add(def.offset)
    }
}

impl fmt::Display for Typed {
    /// The number with a point and the unit's unmistakable symbol: the form that reads back the same.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{} {}", self.value, self.unit.def().symbol)
    }
}

/// Rounds a typed amount once, after checking that it can stand in a nursery's book.
fn settle(
    typed: &Typed,
    dimension: &'static [Dimension],
    least: Unit,
    most: Typed,
) -> Result<i64, QuantityError> {
    if !dimension.contains(&typed.unit.dimension()) {
        return Err(QuantityError::WrongUnit { wanted: dimension });
    }
    if typed.value.is_negative() {
        return Err(QuantityError::Negative);
    }
    let too_large = QuantityError::TooLarge { most };
    let exact = typed.exact().ok_or_else(|| too_large.clone())?;
    if most.exact().is_none_or(|most| exact > most) {
        return Err(too_large);
    }
    let whole = exact.round_i64().ok_or(too_large)?;
    if whole == 0 && !typed.value.is_zero() {
        return Err(QuantityError::TooSmall {
            least: Typed::new(Decimal::whole(1), least),
        });
    }
    Ok(whole)
}

macro_rules! measure {
    ($(#[$doc:meta])* $name:ident, $from:ident, $smallest:ident, $dimension:ident, $least:ident, $most:ident) => {
        $(#[$doc])*
        #[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
        #[serde(transparent)]
        pub struct $name(i64);

        impl $name {
            /// None of it.
            pub const ZERO: Self = Self(0);

            /// From whole smallest units.
            #[must_use]
            pub const fn $from($smallest: i64) -> Self {
                Self($smallest)
            }

            /// In whole smallest units.
            #[must_use]
            pub const fn $smallest(self) -> i64 {
                self.0
            }

            /// The exact value, for further arithmetic.
            #[must_use]
            pub const fn ratio(self) -> Ratio {
                Ratio::whole(self.0 as i128)
            }

            /// The sum; `None` when out of range.
            #[must_use]
            pub fn checked_add(self, other: Self) -> Option<Self> {
                self.0.checked_add(other.0).map(Self)
            }

            /// The difference, which may be negative; `None` when out of range.
            #[must_use]
            pub fn checked_sub(self, other: Self) -> Option<Self> {
                self.0.checked_sub(other.0).map(Self)
            }

            /// So many times as much; `None` when out of range.
            #[must_use]
            pub fn checked_mul(self, times: i64) -> Option<Self> {
                self.0.checked_mul(times).map(Self)
            }

            /// A typed amount, rounded once.
            ///
            /// # Errors
            /// `WrongUnit`, `Negative`, `TooLarge`, `TooSmall`.
            pub fn from_typed(typed: &Typed) -> Result<Self, QuantityError> {
                settle(typed, &[Dimension::$dimension], Unit::$least, $most).map(Self)
            }
        }
    };
}

measure!(
    /// A volume in µL.
    Volume, from_ul, ul, Volume, Microlitre, MOST_VOLUME
);
measure!(
    /// A mass in mg.
    Mass, from_mg, mg, Mass, Milligram, MOST_MASS
);
measure!(
    /// A length in µm.
    Length, from_um, um, Length, Micrometre, MOST_LENGTH
);
measure!(
    /// An area in mm².
    Area, from_mm2, mm2, Area, SquareMillimetre, MOST_AREA
);

impl Length {
    /// From whole millimetres; for tables of pots.
    #[must_use]
    pub const fn from_mm(mm: u32) -> Self {
        Self(mm as i64 * 1_000)
    }
}

/// The largest volume taken: a thousand cubic metres, a nursery's reservoir.
pub const MOST_VOLUME: Typed = Typed::new(Decimal::whole(1_000_000), Unit::Litre);
/// The largest mass taken: a hundred tonnes, several lorries of stone.
pub const MOST_MASS: Typed = Typed::new(Decimal::whole(100_000), Unit::Kilogram);
/// The longest length taken: a kilometre.
pub const MOST_LENGTH: Typed = Typed::new(Decimal::whole(1_000), Unit::Metre);
/// The largest area taken: a hundred hectares.
pub const MOST_AREA: Typed = Typed::new(Decimal::whole(100), Unit::Hectare);

/// A temperature in thousandths of a degree Celsius.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(transparent)]
pub struct Temperature(i64);

/// The coldest there is, -273.15 °C.
pub const ABSOLUTE_ZERO: Temperature = Temperature(-273_150);
/// The hottest taken: 1000 °C, above any steriliser or flame-cleaned tool's reading.
pub const HOTTEST: Typed = Typed::new(Decimal::whole(1_000), Unit::DegreeCelsius);

impl Temperature {
    /// From thousandths of a degree Celsius.
    #[must_use]
    pub const fn from_mc(mc: i64) -> Self {
        Self(mc)
    }

    /// In thousandths of a degree Celsius.
    #[must_use]
    pub const fn mc(self) -> i64 {
        self.0
    }

    /// How much warmer than `other`, in thousandths of a kelvin; negative when colder.
    #[must_use]
    pub fn warmer_by_mk(self, other: Self) -> Option<i64> {
        self.0.checked_sub(other.0)
    }

    /// Warmer by so many thousandths of a kelvin.
    #[must_use]
    pub fn checked_add_mk(self, mk: i64) -> Option<Self> {
        self.0.checked_add(mk).map(Self)
    }

    /// A typed temperature, rounded once.
    ///
    /// # Errors
    /// `WrongUnit`, `BelowAbsoluteZero`, `TooLarge`.
    pub fn from_typed(typed: &Typed) -> Result<Self, QuantityError> {
        const WANTED: &[Dimension] = &[Dimension::Temperature];
        if typed.unit.dimension() != Dimension::Temperature {
            return Err(QuantityError::WrongUnit { wanted: WANTED });
        }
        let too_large = QuantityError::TooLarge { most: HOTTEST };
        let exact = typed.exact().ok_or_else(|| too_large.clone())?;
        if exact < Ratio::whole(ABSOLUTE_ZERO.0.into()) {
            return Err(QuantityError::BelowAbsoluteZero);
        }
        if HOTTEST.exact().is_none_or(|most| exact > most) {
            return Err(too_large);
        }
        exact.round_i64().map(Self).ok_or(too_large)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn half_an_inch_is_exact() {
        let half = Typed::new(Decimal::parse("0.5").expect("a number"), Unit::Inch);
        assert_eq!(Length::from_typed(&half).map(Length::um), Ok(12_700));
    }

    #[test]
    fn the_largest_is_taken_and_a_microlitre_more_is_not() {
        let most = Typed::new(Decimal::parse("1000000").expect("a number"), Unit::Litre);
        let over = Typed::new(
            Decimal::parse("1000000.000001").expect("a number"),
            Unit::Litre,
        );
        assert_eq!(
            Volume::from_typed(&most).map(Volume::ul),
            Ok(1_000_000_000_000)
        );
        assert_eq!(
            Volume::from_typed(&over),
            Err(QuantityError::TooLarge { most: MOST_VOLUME })
        );
    }

    #[test]
    fn what_would_round_to_nothing_is_refused_and_nothing_is_taken() {
        let dust = Typed::new(Decimal::parse("0.0004").expect("a number"), Unit::Milligram);
        let least = Typed::new(Decimal::whole(1), Unit::Milligram);
        assert_eq!(
            Mass::from_typed(&dust),
            Err(QuantityError::TooSmall { least })
        );
        assert_eq!(
            Mass::from_typed(&Typed::new(Decimal::whole(0), Unit::Pound)),
            Ok(Mass::ZERO)
        );
    }

    #[test]
    fn stored_forms_are_plain_numbers_and_words() {
        let typed = Typed::new(
            Decimal::parse("2,50").expect("a number"),
            Unit::UsFluidOunce,
        );
        let json =
            serde_json::to_string(&(typed, Volume::from_ul(-7), Temperature::from_mc(12_500)))
                .expect("json");
        assert_eq!(
            json,
            r#"[{"value":"2.50","unit":"us_fluid_ounce"},-7,12500]"#
        );
        let back: (Typed, Volume, Temperature) = serde_json::from_str(&json).expect("stored");
        assert_eq!(
            back,
            (typed, Volume::from_ul(-7), Temperature::from_mc(12_500))
        );
        assert!(
            serde_json::from_str::<Typed>(r#"{"value":"1","unit":"litre","note":""}"#).is_err()
        );
        assert!(serde_json::from_str::<Typed>(r#"{"value":"1","unit":"firkin"}"#).is_err());
    }

    #[test]
    fn sums_out_of_range_are_refused() {
        assert_eq!(
            Volume::from_ul(i64::MAX).checked_add(Volume::from_ul(1)),
            None
        );
        assert_eq!(Mass::from_mg(i64::MAX).checked_mul(2), None);
        assert_eq!(
            Temperature::from_mc(5_000).warmer_by_mk(Temperature::from_mc(13_000)),
            Some(-8_000)
        );
    }
}
