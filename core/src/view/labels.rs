//! What labels are printed for and what leads back from one: lots by their code, divisions whose work is done.

use chrono::NaiveDate;

use crate::code::LotCode;
use crate::event::ClosedHow;
use crate::id::{ClumpId, LotId};
use crate::state::State;

use super::{LotLabel, lot_label};

/// A division with what was potted from it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Division {
    pub clump: ClumpId,
    pub tray: u32,
    pub closed_on: NaiveDate,
    pub lots: Vec<LotId>,
}

/// Lots that carry a code, emptied ones too; several where two phones shared a prefix.
#[must_use]
pub fn by_code(state: &State, code: LotCode) -> Vec<LotLabel> {
    let facts = state.facts();
    let lots = facts.live_lots();
    lots.filter(|(_, lot)| lot.code.get() == Some(&code))
        .map(|(id, _)| lot_label(facts, id))
        .collect()
}

/// The last divisions whose work is done, the newest first, at most `most`.
#[must_use]
pub fn divisions(state: &State, most: usize) -> Vec<Division> {
    let clumps = state.facts().clumps.iter();
    let mut done: Vec<Division> = clumps
        .filter_map(|(id, clump)| {
            let closed = clump.closed.as_ref()?;
            let tray = clump.opened.as_ref()?.tray;
            let potted = closed.how == ClosedHow::Done && !clump.lots.is_empty();
            potted.then(|| Division {
                clump: *id,
                tray,
                closed_on: closed.on,
                lots: clump.lots.clone(),
            })
        })
        .collect();
    done.sort_by_key(|row| std::cmp::Reverse((row.closed_on, row.clump)));
    done.truncate(most);
    done
}

/// Labels a lot wants: one for every pot.
#[must_use]
pub fn labels_of(state: &State, lot: LotId) -> u32 {
    let stands = state.facts().lots.get(&lot).map_or(0, |lot| lot.stands);
    u32::try_from(stands).unwrap_or(0).max(1)
}

/// Every lot there is, in walking order, with the labels it wants.
#[must_use]
pub fn all(state: &State) -> Vec<(LotId, u32)> {
    let rows = super::stock::stock(state, "", usize::MAX).rows.into_iter();
    rows.map(|row| (row.label.lot, labels_of(state, row.label.lot)))
        .collect()
}
