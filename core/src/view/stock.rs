//! What there is: lots by name, place and code, found by any part of a name or by the code on a label.

use std::collections::BTreeSet;

use crate::event::PieceClass;
use crate::id::{LotId, PlaceId};
use crate::quarantine;
use crate::state::{Facts, Hit, Lot, State};

use super::{LotLabel, PlaceLabel, lot_label, place_label};

/// One lot in the list.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct StockRow {
    pub label: LotLabel,
    pub place: Option<PlaceLabel>,
    pub class: Option<PieceClass>,
    /// Plants on the bench in an open clump.
    pub on_bench: u32,
    /// Plants kept for somebody, and for whom.
    pub reserved: i64,
    pub reserved_for: Vec<String>,
    /// In quarantine, or suspect of a virus.
    pub apart: bool,
    pub suspect: bool,
}

/// The stock list.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct StockView {
    pub rows: Vec<StockRow>,
    /// How many match in all.
    pub found: usize,
    pub lots: usize,
    pub plants: i64,
}

/// Lots that match what was typed, best first, at most `most`; in walking order when nothing was typed.
#[must_use]
pub fn stock(state: &State, typed: &str, most: usize) -> StockView {
    let finder = state.finder();
    let mut hits = finder.find(typed);
    let found = hits.len();
    nearest(&mut hits, most);
    // Quarantine and suspicion go through the lineage: asked only for what is shown.
    let rows = hits.into_iter().map(|hit| row(state.facts(), hit.lot));
    StockView {
        rows: rows.collect(),
        found,
        lots: finder.lots(),
        plants: finder.plants(),
    }
}

/// The first `most` in their order; the others need none.
fn nearest(hits: &mut Vec<Hit>, most: usize) {
    if most < hits.len() {
        hits.select_nth_unstable(most);
        hits.truncate(most);
    }
    hits.sort_unstable();
}

/// Lots there are plants of, in walking order, without these: at most `most`.
pub(super) fn on_the_walk(state: &State, without: &BTreeSet<LotId>, most: usize) -> Vec<StockRow> {
    let facts = state.facts();
    let there = |id: &LotId| facts.lots.get(id).is_some_and(|lot| lot.plants > 0);
    let mut hits = state.finder().find("");
    hits.retain(|hit| there(&hit.lot) && !without.contains(&hit.lot));
    nearest(&mut hits, most);
    hits.into_iter().map(|hit| row(facts, hit.lot)).collect()
}

/// The row of a lot.
pub(super) fn row(facts: &Facts, id: LotId) -> StockRow {
    let lot = facts.lots.get(&id);
    let place = lot.and_then(|lot| lot.place.get().copied());
    let on_bench = lot.into_iter().flat_map(|lot| lot.on_bench.values());
    StockRow {
        label: lot_label(facts, id),
        place: place.and_then(|place| place_label(facts, place)),
        class: lot.and_then(|lot| lot.class),
        reserved: lot.map_or(0, |lot| lot.reserved()),
        reserved_for: lot.map(|lot| kept_for(lot)).unwrap_or_default(),
        on_bench: on_bench.map(|(plants, _)| plants).sum(),
        apart: quarantine::is_held(facts, id),
        suspect: quarantine::suspicion(facts, id).is_some(),
    }
}

/// For whom plants of a lot are kept, each once.
fn kept_for(lot: &Lot) -> Vec<String> {
    let mut names: Vec<String> = Vec::new();
    for kept in lot.reserved.values() {
        if !kept.to.is_empty() && !names.contains(&kept.to) {
            names.push(kept.to.clone());
        }
    }
    names
}

/// Lots of one place.
#[must_use]
pub fn of_place(state: &State, place: PlaceId) -> Vec<LotLabel> {
    let here = state
        .facts()
        .live_lots()
        .filter(|(_, lot)| lot.is_stocked() && lot.place.get() == Some(&place));
    here.map(|(id, _)| lot_label(state.facts(), id)).collect()
}
