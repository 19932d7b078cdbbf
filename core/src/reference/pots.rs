//! Pots to start from. The grower's own measure always replaces these.
//!
//! Litres are never derived from a width alone: pots of one width differ by half as much again. So the table of printed
//! widths and litres below only shows how far they spread.

use super::Kind;
use crate::potting::Pot;
use crate::quantity::Length;

/// A pot with printed measures.
#[derive(Debug)]
pub struct PotRow {
    /// The name in stored entries; never changes. It carries the nominal size.
    pub key: &'static str,
    /// Diameter across the top in mm.
    pub top_mm: u32,
    /// Diameter across the base in mm.
    pub base_mm: u32,
    /// Height in mm.
    pub height_mm: u32,
    /// How far the row can be trusted.
    pub kind: Kind,
    /// Where the measures come from.
    pub source: &'static str,
}

impl PotRow {
    /// The pot with these measures.
    #[must_use]
    pub const fn pot(&self) -> Pot {
        Pot::Round {
            top: Length::from_mm(self.top_mm),
            base: Length::from_mm(self.base_mm),
            height: Length::from_mm(self.height_mm),
        }
    }
}

/// Litres printed for a pot of this width.
#[derive(Debug)]
pub struct PrintedLitres {
    /// Width in mm.
    pub width_mm: u32,
    /// Printed usable volume in mL.
    pub usable_ml: u32,
    /// Where it was printed.
    pub source: &'static str,
}

/// A class of nursery containers by the volume it may have.
#[derive(Debug)]
pub struct ContainerClass {
    /// The class as written on the trade's lists.
    pub class: &'static str,
    /// Smallest and largest volume in cubic inches.
    pub cubic_inches: (u32, u32),
    /// How far the row can be trusted.
    pub kind: Kind,
    /// Where the limits come from.
    pub source: &'static str,
}

const GUIDE: &str = "UK retail pot guide, measures; litres computed";
const LIST: &str = "UK retail list of pot volumes";
const TABLE: &str = "table of standard pots on a gardening page";
const CLASSES: &str =
    "ANSI Z60.1, American Standard for Nursery Stock, container classes; limits from memory";

const fn pot(key: &'static str, top_mm: u32, base_mm: u32, height_mm: u32) -> PotRow {
    PotRow {
        key,
        top_mm,
        base_mm,
        height_mm,
        kind: Kind::Published,
        source: GUIDE,
    }
}

const fn printed(width_mm: u32, usable_ml: u32, source: &'static str) -> PrintedLitres {
    PrintedLitres {
        width_mm,
        usable_ml,
        source,
    }
}

const fn class(class: &'static str, low: u32, high: u32) -> ContainerClass {
    ContainerClass {
        class,
        cubic_inches: (low, high),
        kind: Kind::Memory,
        source: CLASSES,
    }
}

/// Pots with all three measures.
pub const POTS: &[PotRow] = &[
    pot("round_9_cm", 90, 60, 85),
    pot("round_1_l", 130, 100, 110),
    pot("round_2_l", 170, 120, 130),
    pot("round_3_l", 190, 130, 150),
    pot("round_4_l", 200, 155, 165),
    pot("round_5_l", 225, 165, 180),
    pot("round_7_l", 250, 190, 200),
    pot("round_10_l", 280, 240, 225),
    pot("round_15_l", 330, 255, 300),
];

/// Printed widths and litres, to show the spread.
pub const PRINTED_LITRES: &[PrintedLitres] = &[
    printed(90, 270, LIST),
    printed(105, 430, LIST),
    printed(110, 500, LIST),
    printed(130, 1_000, LIST),
    printed(150, 1_350, LIST),
    printed(170, 2_000, LIST),
    printed(190, 3_000, LIST),
    printed(230, 5_000, LIST),
    printed(100, 500, TABLE),
    printed(150, 1_900, TABLE),
    printed(200, 4_500, TABLE),
    printed(250, 8_000, TABLE),
    printed(300, 13_500, TABLE),
];

/// Container classes.
pub const CONTAINER_CLASSES: &[ContainerClass] = &[
    class("SP3", 20, 30),
    class("SP4", 51, 63),
    class("SP5", 93, 136),
    class("#1", 152, 251),
    class("#2", 320, 474),
    class("#3", 628, 742),
    class("#5", 785, 1_242),
    class("#7", 1_337, 1_790),
    class("#10", 2_080, 2_646),
    class("#15", 2_768, 3_696),
    class("#20", 4_520, 5_152),
    class("#25", 5_775, 6_861),
];

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_pot_has_a_name_of_its_own_a_source_and_possible_measures() {
        let mut keys = std::collections::BTreeSet::new();
        for row in POTS {
            assert!(keys.insert(row.key), "{} twice", row.key);
            assert!(!row.source.is_empty(), "{} without a source", row.key);
            assert_eq!(row.pot().check(), Ok(()), "{}", row.key);
        }
        assert!(PRINTED_LITRES.iter().all(|row| !row.source.is_empty()));
    }

    #[test]
    fn a_pot_holds_at_least_the_litres_in_its_name() {
        for row in POTS {
            let Some(litres) = row
                .key
                .strip_prefix("round_")
                .and_then(|rest| rest.strip_suffix("_l"))
            else {
                continue;
            };
            let nominal_ul = litres.parse::<i64>().expect("litres") * 1_000_000;
            let brimful = row.pot().brimful().expect("a pot").ul();
            assert!(
                brimful >= nominal_ul && brimful < nominal_ul * 14 / 10,
                "{}: {brimful}",
                row.key
            );
        }
    }

    #[test]
    fn container_classes_rise_and_name_where_they_come_from() {
        for pair in CONTAINER_CLASSES.windows(2) {
            assert!(
                pair[0].cubic_inches.1 < pair[1].cubic_inches.1,
                "{}",
                pair[1].class
            );
        }
        assert!(
            CONTAINER_CLASSES
                .iter()
                .all(|row| row.cubic_inches.0 < row.cubic_inches.1 && !row.source.is_empty())
        );
    }
}
