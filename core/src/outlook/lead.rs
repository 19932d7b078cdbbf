//! What is usual for a class of pieces: how many live, and how long until they can be sold.
//!
//! All common practice among growers without a publication, given as ranges; the times of Cymbidium back-bulbs are told
//! alike on several growers' pages.

use crate::event::PieceClass;
use crate::reference::taxa::Group;

/// What is usual for one class.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct ClassRow {
    pub class: PieceClass,
    /// Of a hundred, so many live, from and to.
    pub alive_pct: (u8, u8),
    /// Months until it can be sold in flower, from and to.
    pub months: (u16, u16),
    pub source: &'static str,
}

const COMMON: &str = "common practice, no source";

const ROWS: [ClassRow; 5] = [
    row(PieceClass::Flowering, (92, 98), (6, 18)),
    row(PieceClass::Starter, (80, 92), (18, 36)),
    row(PieceClass::BackBulb, (30, 60), (36, 60)),
    row(PieceClass::BrokenShoot, (15, 50), (36, 60)),
    row(PieceClass::Keiki, (85, 95), (18, 36)),
];

/// Back-bulbs of Cymbidium sprout more readily than others.
const CYMBIDIUM_BACK_BULB: ClassRow = row(PieceClass::BackBulb, (50, 80), (36, 60));

/// Of a plant of one stem, the stump its top was cut from.
const STUMP: ClassRow = row(PieceClass::BackBulb, (20, 50), (36, 60));

const fn row(class: PieceClass, alive_pct: (u8, u8), months: (u16, u16)) -> ClassRow {
    ClassRow {
        class,
        alive_pct,
        months,
        source: COMMON,
    }
}

/// Every class that grows on.
#[must_use]
pub fn classes() -> &'static [ClassRow] {
    &ROWS
}

/// The row of a class in a group of plants; `None` for what is thrown away.
#[must_use]
pub fn class_row(class: PieceClass, group: Group) -> Option<ClassRow> {
    let cymbidium = matches!(group, Group::Cymbidium | Group::CymbidiumWarm);
    if class == PieceClass::BackBulb && cymbidium {
        return Some(CYMBIDIUM_BACK_BULB);
    }
    if class == PieceClass::BackBulb && matches!(group, Group::Phalaenopsis | Group::Vanda) {
        return Some(STUMP);
    }
    ROWS.iter().copied().find(|row| row.class == class)
}
