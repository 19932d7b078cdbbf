//! What pieces have cost so far: pots, mix and stone, labels, what they were bathed in, minutes at the bench, and the
//! bench they stood on; a piece, and a plant that is still alive.
//!
//! Invariants: integers and fractions, each line rounded once; nothing without a price is counted, and each such thing is
//! told beside the sum; a thing many share (a tub, the minutes of a clump) is shared by the number of plants; what was
//! sold lived.

mod bill;
mod took;

use chrono::NaiveDate;

use crate::event::PriceOf;
use crate::id::{ClumpId, LotId};
use crate::quantity::Ratio;
use crate::state::{Born, Facts, State};

use took::Took;

/// Splits of splits that are followed; a lot split from itself cannot be.
const SPLITS: usize = 64;

/// Something that was counted.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct CostLine {
    pub of: PriceOf,
    pub name: String,
    /// Pots and labels; microlitres; minutes; hundredths of a square metre for a month; of a product microlitres or
    /// milligrams.
    pub amount: i64,
    /// The product is weighed.
    pub weighs: bool,
    pub cents: i64,
}

/// Something that is not in the sum.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum LeftOut {
    NoPrice {
        of: PriceOf,
        name: String,
    },
    /// It has a price, and nobody said what a bottle holds, or it was measured in the other unit.
    NoSize {
        of: PriceOf,
        name: String,
    },
    /// Pots nobody measured, or that were not said: no mix, stone and bench of them.
    NotMeasured {
        stands: u32,
    },
    /// Pots of which no mix was said.
    NoMix,
    /// Treatments without the amount that was measured.
    NoAmount {
        treatments: u32,
    },
    /// The clump was not timed, or is not finished.
    NoTime,
    /// What the lot itself was bought for, or the plant that was divided.
    Plant,
    /// Water, feed and looking after them.
    Care,
}

/// What pieces have cost.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Cost {
    /// Sign or word of the money; empty where none was said.
    pub money: String,
    pub lines: Vec<CostLine>,
    pub left_out: Vec<LeftOut>,
    pub cents: i64,
    /// Plants that began, and those still here, on the bench again, or sold.
    pub plants: u32,
    pub alive: u32,
}

impl Cost {
    /// A piece that was potted, in hundredths.
    #[must_use]
    pub fn a_piece(&self) -> Option<i64> {
        each(self.cents, self.plants)
    }

    /// A plant that lives: those that died are paid by it.
    #[must_use]
    pub fn a_plant_alive(&self) -> Option<i64> {
        each(self.cents, self.alive)
    }
}

fn each(cents: i64, plants: u32) -> Option<i64> {
    Ratio::new(i128::from(cents), i128::from(plants))?.round_i64()
}

/// What all pieces of a clump have cost.
#[must_use]
pub fn of_clump(state: &State, clump: ClumpId, today: NaiveDate) -> Cost {
    let lots = state.facts().clumps.get(&clump).map(|it| it.lots.clone());
    cost(state, &lots.unwrap_or_default(), today)
}

/// What the plants of a lot have cost, those that were split off among them; a part is counted with its whole.
#[must_use]
pub fn of_lot(state: &State, lot: LotId, today: NaiveDate) -> Cost {
    cost(state, &[whole_of(state.facts(), lot)], today)
}

/// The lot a part was split from, through all splits.
#[must_use]
pub fn whole_of(facts: &Facts, mut lot: LotId) -> LotId {
    for _ in 0..SPLITS {
        match facts.lots.get(&lot).and_then(|lot| lot.split_from()) {
            Some(from) => lot = from,
            None => break,
        }
    }
    lot
}

fn cost(state: &State, lots: &[LotId], today: NaiveDate) -> Cost {
    let mut took = Took::new(state, today);
    for lot in lots {
        took.lot(*lot, None, 0);
    }
    took.bill()
}

/// Clumps a lot came off or was cut into, with their trays: the divisions of which a cost can be asked.
#[must_use]
pub fn divisions(facts: &Facts, lot: LotId) -> Vec<(ClumpId, u32)> {
    let born = facts
        .lots
        .get(&whole_of(facts, lot))
        .and_then(|lot| match &lot.born {
            Some(Born::Potted { clump, .. }) => Some(*clump),
            _ => None,
        });
    let clumps = facts.clumps.iter().filter_map(|(id, clump)| {
        let concerns = born == Some(*id) || clump.parents().contains(&lot);
        let opened = clump
            .opened
            .as_ref()
            .filter(|_| concerns && !clump.lots.is_empty())?;
        Some((*id, opened.tray))
    });
    clumps.collect()
}
