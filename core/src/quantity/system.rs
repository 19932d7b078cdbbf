//! The units a grower thinks in. The book keeps the SI; this says what a figure is shown in and what a bare number typed
//! into a box means.
//!
//! What is measured for a tub stays in millilitres and grams: syringes and scales are marked so, and a fluid ounce is two
//! different things.

use serde::{Deserialize, Serialize};

use super::{Decimal, Ratio, Unit};

/// Whose units.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum System {
    #[default]
    Metric,
    /// US customary, with degrees Fahrenheit.
    Us,
    /// British imperial. Temperatures stay in degrees Celsius, as forecasts there are given (common practice, no source).
    Imperial,
}

impl System {
    /// Whether it is the usual one.
    #[must_use]
    pub fn is_metric(&self) -> bool {
        *self == Self::Metric
    }

    /// The unit that stands in place of a metric one.
    #[must_use]
    pub fn of(self, metric: Unit) -> Unit {
        match (self, metric) {
            (Self::Us, Unit::Litre) => Unit::UsGallon,
            (Self::Imperial, Unit::Litre) => Unit::ImperialGallon,
            (Self::Us | Self::Imperial, Unit::Millimetre | Unit::Centimetre) => Unit::Inch,
            (Self::Us | Self::Imperial, Unit::SquareMetre) => Unit::SquareFoot,
            (Self::Us | Self::Imperial, Unit::Kilogram) => Unit::Pound,
            (Self::Us, Unit::DegreeCelsius) => Unit::DegreeFahrenheit,
            (_, other) => other,
        }
    }

    /// The unit in which less than one of those that stand for the litre is told.
    #[must_use]
    pub fn quart(self) -> Unit {
        match self {
            Self::Metric => Unit::Litre,
            Self::Us => Unit::UsQuart,
            Self::Imperial => Unit::ImperialQuart,
        }
    }

    /// What is typed into a box of this metric unit, with its own unit where it says none.
    #[must_use]
    pub fn typed(self, text: String, metric: Unit) -> String {
        let own = self.of(metric);
        if own != metric && Decimal::parse(text.trim()).is_ok() {
            format!("{} {}", text.trim(), own.def().symbol)
        } else {
            text
        }
    }

    /// What such a box shows of a text: its own unit stands beside the box, any other one is said.
    #[must_use]
    pub fn shown(self, text: &str, metric: Unit) -> String {
        let own = self.of(metric);
        if own == metric {
            return text.to_owned();
        }
        match text.trim().strip_suffix(own.def().symbol) {
            Some(bare) => bare.trim_end().to_owned(),
            None if Decimal::parse(text.trim()).is_ok() => {
                format!("{} {}", text.trim(), metric.def().symbol)
            }
            None => text.to_owned(),
        }
    }
}

/// How many of a unit an amount is, in so many decimal places and rounded once; `smallest` counts the smallest unit of its
/// dimension. `None` beyond what can be counted.
#[must_use]
pub fn in_unit(smallest: i64, unit: Unit, places: u32) -> Option<i64> {
    let def = unit.def();
    Ratio::whole(smallest.into())
        .checked_sub(def.offset)?
        .checked_div(def.factor)?
        .checked_mul(Ratio::whole(10_i128.checked_pow(places)?))?
        .round_i64()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn amounts_in_other_units_are_those_of_their_definitions() {
        // NIST Handbook 44: 3.785 411 784 L; Weights and Measures Act 1985: 4.546 09 L.
        assert_eq!(in_unit(3_785_412, Unit::UsGallon, 3), Some(1_000));
        assert_eq!(in_unit(4_546_090, Unit::ImperialGallon, 3), Some(1_000));
        assert_eq!(in_unit(453_592, Unit::Pound, 2), Some(100));
        assert_eq!(in_unit(170_000, Unit::Inch, 2), Some(669));
        // Freezing, boiling and the scale where both agree.
        assert_eq!(in_unit(0, Unit::DegreeFahrenheit, 1), Some(320));
        assert_eq!(in_unit(100_000, Unit::DegreeFahrenheit, 1), Some(2_120));
        assert_eq!(in_unit(-40_000, Unit::DegreeFahrenheit, 1), Some(-400));
        assert_eq!(in_unit(1_000_000, Unit::SquareFoot, 2), Some(1_076));
    }

    #[test]
    fn a_bare_number_means_the_unit_of_the_box_and_any_other_one_is_said() {
        let us = System::Us;
        assert_eq!(us.typed("5".to_owned(), Unit::Litre), "5 US gal");
        assert_eq!(us.typed("20 L".to_owned(), Unit::Litre), "20 L");
        assert_eq!(us.typed(String::new(), Unit::Litre), "");
        assert_eq!(us.shown("5 US gal", Unit::Litre), "5");
        assert_eq!(us.shown("20", Unit::Litre), "20 L");
        assert_eq!(us.shown("20 L", Unit::Litre), "20 L");
        let metric = System::Metric;
        assert_eq!(metric.typed("5".to_owned(), Unit::Litre), "5");
        assert_eq!(metric.shown("5 US gal", Unit::Litre), "5 US gal");
        assert_eq!(
            System::Imperial.of(Unit::DegreeCelsius),
            Unit::DegreeCelsius
        );
    }
}
