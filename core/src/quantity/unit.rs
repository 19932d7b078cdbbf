//! The units a grower meets on labels, jugs and rulers, each with its exact factor and where the factor comes from.
//!
//! Invariants: one row per unit; wire names never change; factors are fractions of the smallest stored unit of their
//! dimension, so no float is ever written down. A name that means two things ("gal", "tbsp") finds both rows, and the
//! caller has to ask.

use serde::{Deserialize, Serialize};

use super::Ratio;
use super::unit_table::UNITS;

/// What is measured. The smallest unit in brackets is what factors in the table count.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Dimension {
    /// Volume [microlitre].
    Volume,
    /// Mass [milligram].
    Mass,
    /// Length [micrometre].
    Length,
    /// Area [square millimetre].
    Area,
    /// Temperature [thousandth of a degree Celsius].
    Temperature,
    /// Pressure [pascal].
    Pressure,
    /// Light falling on a surface [lux].
    Illuminance,
    /// Salts in water as conductivity [microsiemens per centimetre].
    Conductivity,
}

/// A unit. Stored by its wire name.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
#[allow(
    missing_docs,
    reason = "the table has a row with symbol and source for each"
)]
pub enum Unit {
    Microlitre,
    Millilitre,
    Litre,
    CubicMetre,
    UsGallon,
    UsQuart,
    UsPint,
    UsCup,
    UsFluidOunce,
    UsTablespoon,
    UsTeaspoon,
    UsDryGallon,
    UsDryQuart,
    UsDryPint,
    UsBushel,
    ImperialGallon,
    ImperialQuart,
    ImperialPint,
    ImperialFluidOunce,
    MetricCup,
    MetricTablespoon,
    AustralianTablespoon,
    MetricTeaspoon,
    CubicInch,
    CubicFoot,
    CubicYard,
    Milligram,
    Gram,
    Kilogram,
    OunceAvoirdupois,
    Pound,
    Grain,
    UsShortTon,
    Micrometre,
    Millimetre,
    Centimetre,
    Metre,
    Inch,
    Foot,
    Yard,
    SquareMillimetre,
    SquareCentimetre,
    SquareMetre,
    Hectare,
    SquareFoot,
    SquareYard,
    AcreInternational,
    DegreeCelsius,
    DegreeFahrenheit,
    Kelvin,
    Pascal,
    Kilopascal,
    Millibar,
    Psi,
    Lux,
    FootCandle,
    MicrosiemensPerCm,
    MillisiemensPerCm,
}

/// One row of the table.
#[derive(Debug)]
pub struct UnitDef {
    /// Which unit this row is.
    pub unit: Unit,
    /// The name in stored entries; never changes.
    pub wire: &'static str,
    /// How it is written beside a number, unmistakably; reading this text finds this row alone within its dimension.
    pub symbol: &'static str,
    /// Spellings divided by `|`, lower case, without the word that says whose unit it is.
    pub(crate) names: &'static str,
    /// Words divided by `|` that say whose unit it is ("us", "imp"); empty where there is only one.
    pub(crate) marks: &'static str,
    /// What it measures.
    pub dimension: Dimension,
    /// Smallest units in one of these.
    pub factor: Ratio,
    /// Smallest units at its zero; only temperatures have one.
    pub offset: Ratio,
    /// Where the factor comes from.
    pub source: &'static str,
}

impl Unit {
    /// The row of this unit.
    #[must_use]
    pub fn def(self) -> &'static UnitDef {
        // The table lists the units in the order of the enum; a test holds it to that.
        match UNITS.get(self as usize) {
            Some(def) => def,
            None => &super::unit_table::LITRE,
        }
    }

    /// What it measures.
    #[must_use]
    pub fn dimension(self) -> Dimension {
        self.def().dimension
    }

    /// Every unit, in table order.
    pub fn all() -> impl Iterator<Item = Self> {
        UNITS.iter().map(|def| def.unit)
    }

    /// The unit with this stored name.
    #[must_use]
    pub fn from_wire(wire: &str) -> Option<Self> {
        UNITS
            .iter()
            .find(|def| def.wire == wire)
            .map(|def| def.unit)
    }

    /// Every unit this text may mean, in table order; none when it is not known.
    pub(crate) fn named(text: &str) -> Vec<Self> {
        let (mark, name) = spelling(text);
        UNITS
            .iter()
            .filter(|def| lists(def.names, &name))
            .filter(|def| mark.as_deref().is_none_or(|mark| lists(def.marks, mark)))
            .map(|def| def.unit)
            .collect()
    }
}

/// Whether one of the words divided by `|` is this one.
fn lists(words: &str, word: &str) -> bool {
    !word.is_empty() && words.split('|').any(|listed| listed == word)
}

/// Words that say whose gallon it is.
const MARKS: &[&str] = &[
    "us",
    "american",
    "imp",
    "imperial",
    "uk",
    "british",
    "metric",
    "nz",
    "au",
    "aus",
    "australian",
];

/// The text in the table's spelling: whose unit it is (if said), and the name without that word.
fn spelling(text: &str) -> (Option<String>, String) {
    let mut plain = String::new();
    for c in text.chars() {
        match c {
            '.' => {}
            '(' | ')' => plain.push(' '),
            '²' => plain.push('2'),
            '³' => plain.push('3'),
            'º' => plain.push('°'),
            // The Greek letter and the micro sign look alike and are typed alike.
            '\u{3bc}' => plain.push('\u{b5}'),
            c => plain.push(c.to_ascii_lowercase()),
        }
    }
    let mut mark = None;
    let mut name: Vec<&str> = Vec::new();
    for word in plain.split_whitespace() {
        if mark.is_none() && MARKS.contains(&word) {
            mark = Some(word.to_owned());
        } else {
            name.push(word);
        }
    }
    (mark, name.join(" "))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_unit_has_its_own_row_and_its_own_stored_name() {
        let mut wires = std::collections::BTreeSet::new();
        let mut symbols = std::collections::BTreeSet::new();
        for (row, def) in UNITS.iter().enumerate() {
            assert_eq!(
                def.unit as usize, row,
                "{} stands in the wrong place",
                def.wire
            );
            assert_eq!(
                serde_json::to_string(&def.unit).expect("json"),
                format!("\"{}\"", def.wire)
            );
            assert_eq!(Unit::from_wire(def.wire), Some(def.unit));
            assert!(
                def.wire.chars().all(|c| c.is_ascii_lowercase() || c == '_'),
                "{}",
                def.wire
            );
            assert!(wires.insert(def.wire), "{} twice", def.wire);
            assert!(symbols.insert(def.symbol), "{} twice", def.symbol);
            assert!(
                !def.source.is_empty() && def.factor > Ratio::ZERO,
                "{}",
                def.wire
            );
        }
        assert_eq!(
            Unit::MillisiemensPerCm as usize + 1,
            UNITS.len(),
            "a unit without a row"
        );
    }

    #[test]
    fn stored_names_stay_as_they_are() {
        // Entries hold these words for ever. A new unit is added at the end of its group; none is renamed.
        let wires: Vec<&str> = UNITS.iter().map(|def| def.wire).collect();
        assert_eq!(
            wires.join(" "),
            "microlitre millilitre litre cubic_metre us_gallon us_quart us_pint us_cup us_fluid_ounce us_tablespoon \
             us_teaspoon us_dry_gallon us_dry_quart us_dry_pint us_bushel imperial_gallon imperial_quart imperial_pint \
             imperial_fluid_ounce metric_cup metric_tablespoon australian_tablespoon metric_teaspoon cubic_inch \
             cubic_foot cubic_yard milligram gram kilogram ounce_avoirdupois pound grain us_short_ton micrometre \
             millimetre centimetre metre inch foot yard square_millimetre square_centimetre square_metre hectare \
             square_foot square_yard acre_international degree_celsius degree_fahrenheit kelvin pascal kilopascal \
             millibar psi lux foot_candle microsiemens_per_cm millisiemens_per_cm"
        );
    }

    #[test]
    fn the_written_symbol_means_one_unit_of_its_dimension() {
        for def in UNITS {
            let same: Vec<_> = Unit::named(def.symbol)
                .into_iter()
                .filter(|unit| unit.dimension() == def.dimension)
                .collect();
            assert_eq!(same, [def.unit], "{}", def.symbol);
        }
    }

    #[test]
    fn every_spelling_can_be_typed() {
        for def in UNITS {
            for name in def.names.split('|') {
                assert!(
                    Unit::named(name).contains(&def.unit),
                    "{name} does not find {}",
                    def.wire
                );
                for mark in def.marks.split('|').filter(|mark| !mark.is_empty()) {
                    assert!(
                        Unit::named(&format!("{mark} {name}")).contains(&def.unit),
                        "{mark} {name}"
                    );
                    assert!(
                        Unit::named(&format!("{name} ({mark})")).contains(&def.unit),
                        "{name} ({mark})"
                    );
                }
            }
        }
    }

    #[test]
    fn a_gallon_of_nobody_in_particular_finds_both() {
        assert_eq!(Unit::named("gal"), [Unit::UsGallon, Unit::ImperialGallon]);
        assert_eq!(Unit::named("U.S. gal."), [Unit::UsGallon]);
        assert_eq!(Unit::named("fl. oz (imp)"), [Unit::ImperialFluidOunce]);
        assert_eq!(Unit::named("tablespoon").len(), 3);
        assert_eq!(Unit::named("UK tbsp"), [Unit::MetricTablespoon]);
        assert_eq!(Unit::named("US litre"), []);
        assert_eq!(Unit::named("us us gal"), []);
        assert_eq!(Unit::named("us"), []);
        assert_eq!(Unit::named(""), []);
    }
}
