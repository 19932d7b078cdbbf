//! What was lost, one line each time it was written down, oldest first.

use super::{Table, known, text, wire};
use crate::event::Event;
use crate::state::State;
use crate::view::place_label;

const COLUMNS: [&str; 9] = [
    "date",
    "code",
    "name",
    "plants",
    "pots",
    "cause",
    "place_now",
    "note",
    "entry",
];

/// Losses that count, as they read now.
#[must_use]
pub fn losses(state: &State) -> Table {
    let facts = state.facts();
    let mut rows = Vec::new();
    for entry in state.log().in_order() {
        for fact in state.log().facts(entry.id) {
            let Event::Lost(lost) = fact.event else {
                continue;
            };
            let lot = facts.lots.get(&lost.lot);
            let place = lot
                .and_then(|lot| lot.place.get())
                .and_then(|place| place_label(facts, *place));
            let on = fact.entry.header.on;
            let row = vec![
                text(on),
                known(lot.and_then(|lot| lot.code.get().copied())),
                text(
                    lot.map(|lot| lot.name.or_default().plain())
                        .unwrap_or_default(),
                ),
                lost.plants.into(),
                lost.stands.into(),
                wire(&lost.cause),
                known(place.map(|place| place.name)),
                text(&lost.note),
                text(entry.id),
            ];
            rows.push((on, row));
        }
    }
    rows.sort_by_key(|(on, _)| *on);
    Table {
        columns: &COLUMNS,
        rows: rows.into_iter().map(|(_, row)| row).collect(),
    }
}
