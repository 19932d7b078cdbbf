//! The nursery as one walks it: houses with their benches, what stands on each, and what is late, due and held there.
//!
//! Places have no coordinates: their order is the walk, and a house is what neighbours on the walk are called before a
//! comma. The counts are rows of the Round, so that the map and the Round say the same.

use std::collections::BTreeMap;

use chrono::NaiveDate;

use crate::id::PlaceId;
use crate::state::State;

use super::places;
use super::round::{RoundView, RowState, round};

/// A stop of the walk.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Bench {
    /// `None` for lots without a place.
    pub place: Option<PlaceId>,
    /// Its name within the house.
    pub name: String,
    pub lots: usize,
    pub plants: i64,
    pub late: usize,
    pub due: usize,
    pub held: usize,
}

/// Neighbours on the walk under one roof; without a name where there is one place alone.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct House {
    pub name: String,
    pub benches: Vec<Bench>,
}

/// The nursery on a day, in walking order; lots without a place come last.
#[must_use]
pub fn nursery(state: &State, on: NaiveDate) -> Vec<House> {
    laid_out(state, &round(state, on))
}

fn laid_out(state: &State, round: &RoundView) -> Vec<House> {
    let facts = state.facts();
    let mut stands: BTreeMap<Option<PlaceId>, (usize, i64)> = BTreeMap::new();
    let walk = places(facts);
    for (_, lot) in facts.live_lots().filter(|(_, lot)| lot.is_stocked()) {
        let place = lot.place.get().copied();
        let place = place.filter(|place| walk.iter().any(|stop| stop.place == *place));
        let (lots, plants) = stands.entry(place).or_default();
        *lots += 1;
        *plants = plants.saturating_add(lot.plants);
    }
    let bench = |place: Option<PlaceId>, name: &str| {
        let (lots, plants) = stands.get(&place).copied().unwrap_or_default();
        let stop = round
            .stops
            .iter()
            .find(|stop| stop.place.as_ref().map(|place| place.place) == place);
        let count = |wanted: fn(RowState) -> bool| {
            stop.map_or(0, |stop| {
                stop.rows.iter().filter(|row| wanted(row.state)).count()
            })
        };
        Bench {
            place,
            name: name.to_owned(),
            lots,
            plants,
            late: count(|state| matches!(state, RowState::Late { .. })),
            due: count(|state| state == RowState::Due),
            held: count(|state| matches!(state, RowState::Held { .. })),
        }
    };
    let mut houses: Vec<House> = Vec::new();
    for stop in &walk {
        let (house, name) = match stop.name.split_once(',') {
            Some((house, name)) if !name.trim().is_empty() => (house.trim(), name.trim()),
            _ => ("", stop.name.as_str()),
        };
        let bench = bench(Some(stop.place), name);
        match houses.last_mut() {
            Some(last) if last.name == house => last.benches.push(bench),
            _ => houses.push(House {
                name: house.to_owned(),
                benches: vec![bench],
            }),
        }
    }
    let loose = bench(None, "");
    if loose.lots > 0 || loose.late + loose.due + loose.held > 0 {
        houses.push(House {
            name: String::new(),
            benches: vec![loose],
        });
    }
    houses
}
