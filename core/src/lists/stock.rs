//! What there is, one line a lot.

use super::{Table, known, text, wire};
use crate::quarantine;
use crate::state::{Born, State};
use crate::view::place_label;

const COLUMNS: [&str; 17] = [
    "code",
    "name",
    "kind",
    "plants",
    "pots",
    "on_the_bench",
    "place",
    "since",
    "potted_on",
    "pot",
    "mix",
    "origin",
    "from",
    "their_number",
    "in_quarantine",
    "virus_suspect",
    "lot",
];

/// The stock in walking order, then by name and code.
#[must_use]
pub fn stock(state: &State) -> Table {
    let facts = state.facts();
    let mut lots: Vec<_> = facts
        .live_lots()
        .filter(|(_, lot)| lot.is_stocked())
        .map(|(id, lot)| {
            let place = lot.place.get().and_then(|place| place_label(facts, *place));
            let walk = place.as_ref().map_or(u32::MAX, |place| place.walk);
            let name = lot.name.or_default().plain();
            (walk, name, lot.code.get().copied(), id, lot, place)
        })
        .collect();
    lots.sort_by(|a, b| (a.0, &a.1, a.2, a.3).cmp(&(b.0, &b.1, b.2, b.3)));
    let rows = lots.into_iter().map(|(_, name, code, id, lot, place)| {
        let potted = lot.potted.as_ref();
        let bench: u32 = lot.on_bench.values().map(|(plants, _)| plants).sum();
        let (origin, from, number) = match &lot.born {
            Some(Born::Received {
                source,
                from,
                outside_ref,
            }) => (wire(source), from.clone(), outside_ref.clone()),
            Some(Born::Potted { .. }) => (text("division"), String::new(), String::new()),
            Some(Born::Split { .. }) => (text("part"), String::new(), String::new()),
            None => (serde_json::Value::Null, String::new(), String::new()),
        };
        vec![
            known(code),
            text(name),
            lot.class
                .map_or(serde_json::Value::Null, |class| wire(&class)),
            lot.plants.into(),
            lot.stands.into(),
            bench.into(),
            known(place.map(|place| place.name)),
            known(lot.born_on),
            known(potted.map(|potted| potted.on)),
            known(potted.map(|potted| potted.potting.pot_name.clone())),
            known(potted.map(|potted| potted.potting.mix_name.clone())),
            origin,
            text(from),
            text(number),
            text(yes(quarantine::is_held(facts, id))),
            text(yes(quarantine::suspicion(facts, id).is_some())),
            text(id),
        ]
    });
    Table {
        columns: &COLUMNS,
        rows: rows.collect(),
    }
}

fn yes(it: bool) -> &'static str {
    if it { "yes" } else { "no" }
}
