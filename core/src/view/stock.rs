//! What there is: lots by name, place and code, found by any part of a name or by the code on a label.

use crate::event::PieceClass;
use crate::id::PlaceId;
use crate::name::PlantName;
use crate::quarantine;
use crate::state::State;
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
    let mut found: Vec<(Option<Closeness>, StockRow)> = Vec::new();
    for (id, lot) in facts.live_lots().filter(|(_, lot)| lot.is_stocked()) {
        view.lots += 1;
        view.plants = view.plants.saturating_add(lot.plants);
        let label = lot_label(facts, id);
        let place = lot.place.get().and_then(|place| place_label(facts, *place));
        let closeness = if question.is_empty() {
            None
        } else {
            let text = search_text(&label, place.as_ref());
            match question.find_in(&text) {
                Some(closeness) => Some(closeness),
                None => continue,
            }
        };
        let on_bench = lot.on_bench.values().map(|(plants, _)| plants).sum();
        found.push((
            closeness,
            StockRow {
                label,
                place,
                class: lot.class,
                on_bench,
                apart: quarantine::is_held(facts, id),
                suspect: quarantine::suspicion(facts, id).is_some(),
            },
        ));
    }
    found.sort_by(|(a_close, a), (b_close, b)| {
        let walk = |row: &StockRow| row.place.as_ref().map_or(u32::MAX, |place| place.walk);
        (a_close, walk(a), sort_name(&a.label.name), a.label.code).cmp(&(
            b_close,
            walk(b),
            sort_name(&b.label.name),
            b.label.code,
        ))
    });
    view.found = found.len();
    view.rows = found.into_iter().take(most).map(|(_, row)| row).collect();
    view
}

fn search_text(label: &LotLabel, place: Option<&PlaceLabel>) -> String {
    let code = label.code.map(|code| code.to_string()).unwrap_or_default();
    let place = place.map(|place| place.name.as_str()).unwrap_or_default();
    fold(&format!("{} {code} {place}", label.name.plain()))
}

fn sort_name(name: &PlantName) -> String {
    name.plain()
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
