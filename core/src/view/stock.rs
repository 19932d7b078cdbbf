//! What there is: lots by name, place and code, found by any part of a name or by the code on a label.

use std::cmp::Ordering;
use std::collections::{BTreeMap, BTreeSet};

use crate::code::LotCode;
use crate::event::PieceClass;
use crate::id::{LotId, PlaceId};
use crate::name::PlantName;
use crate::quarantine;
use crate::state::{Born, Facts, Lot, Place, State};
use crate::text::{Closeness, Question, fold};

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
    let facts = state.facts();
    let question = Question::new(typed);
    let mut view = StockView::default();
    let mut found: Vec<Match> = Vec::new();
    let mut names = FoldedNames::default();
    for (id, lot) in facts.live_lots().filter(|(_, lot)| lot.is_stocked()) {
        view.lots += 1;
        view.plants = view.plants.saturating_add(lot.plants);
        let place = lot.place.get().and_then(|place| facts.places.get(place));
        let plain = lot.name.get().map(PlantName::plain).unwrap_or_default();
        let closeness = if question.is_empty() {
            None
        } else {
            let text = search_text(names.folded(&plain), lot, place);
            match question.find_in(&text) {
                Some(closeness) => Some(closeness),
                None => continue,
            }
        };
        let walk = place.map_or(u32::MAX, |place| place.walk.or_default());
        let code = lot.code.get().copied();
        found.push(Match {
            order: (closeness, walk, plain, code),
            id,
        });
    }
    view.found = found.len();
    nearest(&mut found, most);
    // Quarantine and suspicion go through the lineage: asked only for what is shown.
    view.rows = found.into_iter().map(|it| row(facts, it.id)).collect();
    view
}

/// The first `most` in their order; the others need none.
fn nearest(found: &mut Vec<Match>, most: usize) {
    if most < found.len() {
        found.select_nth_unstable_by(most, Match::cmp);
        found.truncate(most);
    }
    found.sort_unstable_by(Match::cmp);
}

/// Lots there are plants of, in walking order, without these: at most `most`.
pub(super) fn on_the_walk(facts: &Facts, without: &BTreeSet<LotId>, most: usize) -> Vec<StockRow> {
    let mut found: Vec<Match> = facts
        .live_lots()
        .filter(|(id, lot)| lot.plants > 0 && !without.contains(id))
        .map(|(id, lot)| {
            let place = lot.place.get().and_then(|place| facts.places.get(place));
            let walk = place.map_or(u32::MAX, |place| place.walk.or_default());
            let plain = lot.name.get().map(PlantName::plain).unwrap_or_default();
            Match {
                order: (None, walk, plain, lot.code.get().copied()),
                id,
            }
        })
        .collect();
    nearest(&mut found, most);
    found.into_iter().map(|it| row(facts, it.id)).collect()
}

/// A lot that answers to what was typed.
struct Match {
    /// How near it comes, where it stands on the walk, its name and its code.
    order: (Option<Closeness>, u32, String, Option<LotCode>),
    id: LotId,
}

impl Match {
    fn cmp(&self, other: &Self) -> Ordering {
        (&self.order, self.id).cmp(&(&other.order, other.id))
    }
}

/// Names made ready for searching: a nursery has many lots and few names.
#[derive(Default)]
struct FoldedNames(BTreeMap<String, String>);

impl FoldedNames {
    fn folded(&mut self, plain: &str) -> &str {
        if !self.0.contains_key(plain) {
            self.0.insert(plain.to_owned(), fold(plain));
        }
        self.0.get(plain).map(String::as_str).unwrap_or_default()
    }
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
        reserved: lot.map_or(0, Lot::reserved),
        reserved_for: lot.map(kept_for).unwrap_or_default(),
        on_bench: on_bench.map(|(plants, _)| plants).sum(),
        apart: quarantine::is_held(facts, id),
        suspect: quarantine::suspicion(facts, id).is_some(),
    }
}

fn search_text(name: &str, lot: &Lot, place: Option<&Place>) -> String {
    let code = lot.code.get().map(ToString::to_string).unwrap_or_default();
    let place = place.and_then(|place| place.name.get());
    let place = place.map(String::as_str).unwrap_or_default();
    let number = match &lot.born {
        Some(Born::Received { outside_ref, .. }) => outside_ref.as_str(),
        _ => "",
    };
    let kept = kept_for(lot).join(" ");
    let rest = fold(&format!("{code} {place} {number} {kept}"));
    format!("{name} {rest}")
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
