//! What divisions yielded, one line a clump whose work is done.
//!
//! Plants that live after so many days are those potted less those lost by then; what was sold lives. What a count
//! misses ("missing") says nothing of living and counts as alive, as it does where survival is learned.

use std::collections::BTreeSet;

use chrono::{Days, NaiveDate};
use serde_json::Value;

use super::{Table, known, text};
use crate::event::{ClosedHow, Event, LossCause, PieceClass};
use crate::id::{ClumpId, LotId, Subject};
use crate::state::{Born, Clump, Facts, State};

/// Days after the potting at which the living are counted.
pub const AFTER_DAYS: [u16; 3] = [30, 90, 365];

const COLUMNS: [&str; 20] = [
    "opened",
    "tray",
    "name",
    "from_lots",
    "unbooked_pots",
    "flowering",
    "starter",
    "back_bulb",
    "broken_shoot",
    "keiki",
    "thrown",
    "potted",
    "into_lots",
    "alive_30_days",
    "alive_90_days",
    "alive_365_days",
    "in_stock",
    "sold",
    "lost",
    "minutes",
];

/// The yields, oldest first. A number of days that are not over yet is empty.
#[must_use]
pub fn yields(state: &State, today: NaiveDate) -> Table {
    let facts = state.facts();
    let mut done: Vec<(NaiveDate, ClumpId, &Clump)> = facts
        .clumps
        .iter()
        .filter(|(_, clump)| {
            let closed = clump.closed.as_ref();
            closed.is_some_and(|closed| closed.how == ClosedHow::Done)
        })
        .filter_map(|(id, clump)| Some((clump.opened.as_ref()?.on, *id, clump)))
        .collect();
    done.sort_by_key(|(on, id, _)| (*on, *id));
    let rows = done
        .into_iter()
        .map(|(on, id, clump)| row(state, today, on, id, clump));
    Table {
        columns: &COLUMNS,
        rows: rows.collect(),
    }
}

/// What became of the plants of a clump.
#[derive(Default)]
struct Fate {
    potted: u64,
    in_stock: i64,
    sold: u64,
    lost: u64,
    /// Lost within each number of days.
    lost_by: [u64; AFTER_DAYS.len()],
    last_potted: Option<NaiveDate>,
}

fn row(state: &State, today: NaiveDate, on: NaiveDate, id: ClumpId, clump: &Clump) -> Vec<Value> {
    let facts = state.facts();
    let fate = fate(state, id, clump);
    let opened = clump.opened.as_ref();
    let parents: Vec<LotId> = clump.parents();
    let mut row = vec![
        text(on),
        opened.map_or(Value::Null, |opened| opened.tray.into()),
        text(name(facts, clump, &parents)),
        text(codes(facts, &parents)),
        opened.map_or(Value::Null, |opened| opened.unbooked_pots.into()),
    ];
    row.extend(PieceClass::ALL.map(|class| Value::from(clump.taken_of(class))));
    row.push(fate.potted.into());
    row.push(text(codes(facts, &clump.lots)));
    for (days, lost) in AFTER_DAYS.into_iter().zip(fate.lost_by) {
        let over = fate
            .last_potted
            .and_then(|potted| potted.checked_add_days(Days::new(u64::from(days))))
            .is_some_and(|day| day <= today);
        row.push(if over {
            fate.potted.saturating_sub(lost).into()
        } else {
            Value::Null
        });
    }
    row.push(fate.in_stock.into());
    row.push(fate.sold.into());
    row.push(fate.lost.into());
    row.push(known(
        clump.closed.as_ref().and_then(|closed| closed.took_min),
    ));
    row
}

fn name(facts: &Facts, clump: &Clump, parents: &[LotId]) -> String {
    let own = clump.opened.as_ref().map(|opened| opened.name.plain());
    let own = own.filter(|name| !name.is_empty());
    own.unwrap_or_else(|| {
        let names = parents.iter().filter_map(|lot| facts.lots.get(lot));
        let names: BTreeSet<String> = names.map(|lot| lot.name.or_default().plain()).collect();
        names.into_iter().collect::<Vec<_>>().join("; ")
    })
}

fn codes(facts: &Facts, lots: &[LotId]) -> String {
    let codes = lots
        .iter()
        .filter_map(|lot| facts.lots.get(lot)?.code.get());
    codes
        .map(ToString::to_string)
        .collect::<Vec<_>>()
        .join("; ")
}

fn fate(state: &State, id: ClumpId, clump: &Clump) -> Fate {
    let facts = state.facts();
    let mut fate = Fate::default();
    for lot in &clump.lots {
        for fact in state.log().facts(lot.0.entry) {
            if let Event::PiecesPotted(potted) = fact.event
                && potted.clump == id
                && potted.lot == *lot
            {
                let on = fact.entry.header.on;
                fate.potted = fate.potted.saturating_add(u64::from(potted.plants));
                fate.last_potted = fate.last_potted.max(Some(on));
                for part in with_parts(facts, *lot) {
                    follow(state, part, on, &mut fate);
                }
            }
        }
    }
    fate
}

/// What became of one lot that was potted on a day.
fn follow(state: &State, lot: LotId, potted_on: NaiveDate, fate: &mut Fate) {
    fate.in_stock = fate
        .in_stock
        .saturating_add(state.facts().lots.get(&lot).map_or(0, |known| known.plants));
    for place in state.log().about(Subject::Lot(lot)) {
        for fact in state.log().facts(place.id) {
            match fact.event {
                Event::Sold(sold) if sold.lot == lot => {
                    fate.sold = fate.sold.saturating_add(u64::from(sold.plants));
                }
                Event::Lost(lost) if lost.lot == lot && lost.cause != LossCause::Missing => {
                    let plants = u64::from(lost.plants);
                    fate.lost = fate.lost.saturating_add(plants);
                    let days = fact
                        .entry
                        .header
                        .on
                        .signed_duration_since(potted_on)
                        .num_days();
                    for (within, lost_by) in AFTER_DAYS.iter().zip(&mut fate.lost_by) {
                        if days <= i64::from(*within) {
                            *lost_by = lost_by.saturating_add(plants);
                        }
                    }
                }
                _ => {}
            }
        }
    }
}

/// A lot and all parts that left it.
fn with_parts(facts: &Facts, lot: LotId) -> BTreeSet<LotId> {
    let mut found = BTreeSet::new();
    let mut open = vec![lot];
    while let Some(lot) = open.pop() {
        let known = facts.lots.get(&lot);
        let split = |part: &LotId| {
            let part = facts.lots.get(part).and_then(|part| part.born.as_ref());
            matches!(part, Some(Born::Split { from }) if *from == lot)
        };
        if found.insert(lot) {
            let parts = known.into_iter().flat_map(|known| known.parts.keys());
            open.extend(parts.filter(|part| split(part)).copied());
        }
    }
    found
}
