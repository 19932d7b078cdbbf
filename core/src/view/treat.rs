//! What can be treated now: pieces lying bare on the bench, class by class, and what was treated already.

use chrono::NaiveDate;

use crate::event::{Event, PieceClass};
use crate::id::{ClumpId, EntryRef};
use crate::state::State;

/// Pieces of one class of an open clump that lie bare.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct BarePieces {
    pub clump: ClumpId,
    pub tray: u32,
    pub class: PieceClass,
    pub plants: u32,
}

/// Bare pieces of all open clumps.
#[must_use]
pub fn bare_pieces(state: &State) -> Vec<BarePieces> {
    let mut pieces = Vec::new();
    for (clump, known) in state.facts().open_clumps() {
        let tray = known.opened.as_ref().map_or(0, |opened| opened.tray);
        for class in PieceClass::ALL {
            let plants = u32::try_from(known.bare_of(class)).unwrap_or(u32::MAX);
            if plants > 0 {
                pieces.push(BarePieces {
                    clump,
                    tray,
                    class,
                    plants,
                });
            }
        }
    }
    pieces
}

/// A treatment on record.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct TreatedRow {
    pub entry: EntryRef,
    pub on: NaiveDate,
    pub event: Event,
    /// Hours until re-entry, as the label said when it was recorded.
    pub reentry_h: Option<u32>,
}

/// The newest treatments, at most so many.
#[must_use]
pub fn treated(state: &State, most: usize) -> Vec<TreatedRow> {
    let mut known: Vec<_> = state.facts().treatments.values().collect();
    known.sort_by_key(|treatment| std::cmp::Reverse((treatment.on, treatment.entry)));
    let rows = known.into_iter().take(most).map(|treatment| TreatedRow {
        entry: treatment.entry,
        on: treatment.on,
        event: Event::Treated(treatment.event.clone()),
        reentry_h: treatment.event.product.reentry_h,
    });
    rows.collect()
}
