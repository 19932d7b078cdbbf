//! Read models: what a screen asks, answered from the state. Plain data in the grower's terms, no prose.
//!
//! A view is a function of the state and the day; nothing in it is stored.

pub mod apart;
pub mod batches;
pub mod benches;
pub mod book;
pub mod book_sieve;
pub mod buying;
pub mod climate;
pub mod clock;
pub mod containers;
pub mod cost;
pub mod cut;
pub mod finding;
pub mod kept;
pub mod labels;
pub mod line;
pub mod lot;
pub mod measures;
pub mod nursery;
pub mod origins;
pub mod potting;
pub mod prepare;
pub mod prices;
pub mod protocol;
pub mod questions;
pub mod reentry;
pub mod repot;
pub mod round;
pub mod shed;
pub mod stock;
pub mod stock_table;
pub mod treat;
pub mod walk;
pub mod wash;
pub mod water;
pub mod year;

use crate::code::LotCode;
use crate::event::Cover;
use crate::id::{LotId, PlaceId};
use crate::name::PlantName;
use crate::state::Facts;

/// A lot as it stands on its label.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct LotLabel {
    pub lot: LotId,
    pub code: Option<LotCode>,
    pub name: PlantName,
    pub plants: i64,
    pub stands: i64,
}

/// A place as it is called, in walking order.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct PlaceLabel {
    pub place: PlaceId,
    pub name: String,
    pub walk: u32,
    /// Nothing keeps the rain off.
    pub open_to_rain: bool,
}

/// The label of a lot; empty where the book does not know it.
#[must_use]
pub fn lot_label(facts: &Facts, id: LotId) -> LotLabel {
    let lot = facts.lots.get(&id);
    LotLabel {
        lot: id,
        code: lot.and_then(|lot| lot.code.get().copied()),
        name: lot.map(|lot| lot.name.or_default()).unwrap_or_default(),
        plants: lot.map_or(0, |lot| lot.plants),
        stands: lot.map_or(0, |lot| lot.stands),
    }
}

/// The label of a place.
#[must_use]
pub fn place_label(facts: &Facts, id: PlaceId) -> Option<PlaceLabel> {
    let place = facts.places.get(&id)?;
    Some(PlaceLabel {
        place: id,
        name: place.name.or_default(),
        walk: place.walk.or_default(),
        open_to_rain: place.cover.or_default() == Cover::OpenToRain,
    })
}

/// All places in use, in walking order.
#[must_use]
pub fn places(facts: &Facts) -> Vec<PlaceLabel> {
    let in_use = facts.places.iter().filter(|(_, place)| !place.is_retired());
    let mut places: Vec<PlaceLabel> = in_use
        .filter_map(|(id, _)| place_label(facts, *id))
        .collect();
    places.sort_by(|a, b| (a.walk, &a.name, a.place).cmp(&(b.walk, &b.name, b.place)));
    places
}

/// A number on the walk that puts a place one stop earlier or later; `None` when it is first or last already.
///
/// Where no whole number lies between the neighbours, the place takes the far neighbour's number, and the name decides.
#[must_use]
pub fn walk_beside(facts: &Facts, place: PlaceId, earlier: bool) -> Option<u32> {
    let walk = places(facts);
    let at = walk.iter().position(|stop| stop.place == place)?;
    let number = |at: Option<usize>| at.and_then(|at| walk.get(at)).map(|stop| stop.walk);
    if earlier {
        let next = number(at.checked_sub(1))?;
        let beyond = number(at.checked_sub(2)).unwrap_or(0);
        Some(beyond.midpoint(next))
    } else {
        let next = number(at.checked_add(1))?;
        let beyond = number(at.checked_add(2)).unwrap_or(next.saturating_add(20));
        Some(
            next.saturating_add(1)
                .midpoint(beyond.max(next.saturating_add(1))),
        )
    }
}
