//! What nobody goes near yet, by the way it was treated: a dip binds the treated pieces, the drying table and the tub, and
//! follows the pieces when they are moved; a spray or a drench binds the place it was done in, and what was wetted wherever
//! it goes from there, onto the bench and into other pots too.
//!
//! Nothing here locks anything: it says until when, and what may be done meanwhile is the label's and local rule's to
//! say.

use std::collections::{BTreeMap, BTreeSet};

use crate::event::{Method, TreatedPart};
use crate::id::{ClumpId, EntryRef, LotId, PlaceId, TreatmentId};
use crate::state::{Born, State, Treatment};

/// Something nobody goes near yet.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Bound {
    pub what: BoundWhat,
    /// The treatment that binds it longest.
    pub treatment: TreatmentId,
    pub label_name: String,
    pub until_ms: i64,
    /// Of the phone that recorded it, for the time of day.
    pub off_min: i16,
}

/// What is bound.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum BoundWhat {
    Lot(LotId),
    Clump(ClumpId),
    Place(PlaceId),
    /// The drying table and the tub, after a dip.
    TableAndTub,
}

/// All that is bound at an instant, the longest last. Pieces that were potted meanwhile are bound as the lot they
/// became, and parts of a lot that were taken off it since are bound with it.
#[must_use]
pub fn bound(state: &State, now_ms: i64) -> Vec<Bound> {
    let facts = state.facts();
    let mut found: BTreeMap<BoundWhat, Bound> = BTreeMap::new();
    for id in facts.binding_after(now_ms) {
        let Some(treatment) = facts.treatments.get(&id) else {
            continue;
        };
        let Some(until_ms) = treatment.event.until_ms else {
            continue;
        };
        let off_min = state
            .log()
            .entry(treatment.entry)
            .map_or(0, |entry| entry.header.off_min);
        for what in binds(state, treatment) {
            let bound = Bound {
                what,
                treatment: id,
                label_name: treatment.event.product.label_name.clone(),
                until_ms,
                off_min,
            };
            match found.get(&what) {
                Some(known) if known.until_ms >= until_ms => {}
                _ => drop(found.insert(what, bound)),
            }
        }
    }
    let mut rows: Vec<Bound> = found.into_values().collect();
    rows.sort_by_key(|row| (row.until_ms, row.what));
    rows
}

/// What one treatment binds while it binds.
fn binds(state: &State, treatment: &Treatment) -> Vec<BoundWhat> {
    let facts = state.facts();
    let mut what: Vec<BoundWhat> = Vec::new();
    for part in &treatment.event.parts {
        match part {
            TreatedPart::Lot { lot, .. } => with_parts(state, *lot, treatment, &mut what),
            TreatedPart::Pieces { clump, class, .. } => {
                if let Some(known) = facts.clumps.get(clump) {
                    if known.is_open() {
                        what.push(BoundWhat::Clump(*clump));
                    }
                    let of_class = known.lots.iter().filter(|lot| {
                        facts
                            .lots
                            .get(lot)
                            .is_some_and(|lot| lot.class == Some(*class))
                    });
                    for lot in of_class {
                        with_parts(state, *lot, treatment, &mut what);
                    }
                }
            }
        }
    }
    match treatment.event.method {
        Method::Bath | Method::Plunge => what.push(BoundWhat::TableAndTub),
        Method::Spray | Method::Drench => {
            what.extend(treatment.event.place.map(BoundWhat::Place));
        }
        Method::Swab | Method::DustCut => {}
    }
    what
}

/// A treated lot, every part that left it after the treatment, and what it went into on the bench since: the product
/// went along. Of a clump that lay open before, nothing was treated with it.
fn with_parts(state: &State, lot: LotId, treatment: &Treatment, what: &mut Vec<BoundWhat>) {
    let facts = state.facts();
    let order_of = |entry: EntryRef| Some(state.log().entry(entry)?.header.order);
    let order = order_of(treatment.entry);
    let mut open = vec![lot];
    while let Some(lot) = open.pop() {
        if what.contains(&BoundWhat::Lot(lot)) {
            continue;
        }
        what.push(BoundWhat::Lot(lot));
        if let Some(known) = facts.lots.get(&lot) {
            let later = known.parts.iter().filter(|(_, left)| Some(**left) > order);
            open.extend(later.map(|(part, _)| *part));
            let potted =
                known
                    .children
                    .iter()
                    .filter_map(|child| match facts.lots.get(child)?.born {
                        Some(Born::Potted { clump, .. }) => Some(clump),
                        _ => None,
                    });
            let on_bench = known.on_bench.keys().copied();
            for clump in on_bench.chain(potted).collect::<BTreeSet<ClumpId>>() {
                let Some(clumped) = facts.clumps.get(&clump) else {
                    continue;
                };
                // A clump is named after the entry that opened it.
                if order_of(clump.0.entry) <= order {
                    continue;
                }
                if clumped.is_open() && !what.contains(&BoundWhat::Clump(clump)) {
                    what.push(BoundWhat::Clump(clump));
                }
                open.extend(&clumped.lots);
            }
        }
    }
}

/// The treatments of the tank that one of them came from, the first product before what went with it, and until when they
/// keep people out together: one may have been put right alone.
#[must_use]
pub fn of_one_tank(state: &State, id: TreatmentId) -> (Vec<&Treatment>, Option<i64>) {
    let treatments = &state.facts().treatments;
    let known = treatments.get(&id);
    let first = known.and_then(|known| known.event.tank_with);
    let first = first.filter(|first| treatments.contains_key(first));
    let first = first.unwrap_or(id);
    let along = treatments.values();
    let along = along.filter(|other| other.event.tank_with == Some(first));
    let tank: Vec<&Treatment> = treatments.get(&first).into_iter().chain(along).collect();
    let until_ms = tank.iter().filter_map(|one| one.event.until_ms).max();
    (tank, until_ms)
}

/// What binds a lot longest: itself, or the place it stands in.
#[must_use]
pub fn bound_lot(state: &State, lot: LotId, now_ms: i64) -> Option<Bound> {
    let place = state
        .facts()
        .lots
        .get(&lot)
        .and_then(|known| known.place.get())
        .copied();
    let rows = bound(state, now_ms).into_iter();
    rows.filter(|row| {
        row.what == BoundWhat::Lot(lot)
            || place.is_some_and(|place| row.what == BoundWhat::Place(place))
    })
    .max_by_key(|row| row.until_ms)
}

/// What is bound, without lots that stand in a place that is bound as long: one line says it for all of them.
#[must_use]
pub fn bound_in_short(state: &State, now_ms: i64) -> Vec<Bound> {
    let rows = bound(state, now_ms);
    let in_bound_place = |row: &Bound| {
        let BoundWhat::Lot(lot) = row.what else {
            return false;
        };
        let known = state.facts().lots.get(&lot);
        let place = known.and_then(|known| known.place.get());
        place.is_some_and(|place| {
            rows.iter().any(|other| {
                other.what == BoundWhat::Place(*place) && other.until_ms >= row.until_ms
            })
        })
    };
    rows.iter()
        .filter(|row| !in_bound_place(row))
        .cloned()
        .collect()
}
