//! What a lot got last: with the bench it stood on then, by itself, as its first water, or from the sky.
//!
//! Invariant: a watering of a bench counts for a lot where it stood there in the order of entries and was not left out;
//! a part that was split off shares what the whole got until then.

use std::collections::BTreeSet;

use chrono::NaiveDate;

use crate::event::{Cover, TaskAnswer};
use crate::id::{EntryRef, LotId, PlaceId};
use crate::reference::thirst::RAIN_WATERS_UM;
use crate::state::{Facts, Lot, Watering};
use crate::task::TaskKind;
use crate::time::{Stamp, plus_days};
use crate::view;

/// What it was.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum By {
    Water,
    Feed {
        ppm: Option<u32>,
    },
    /// First water answered on the Round.
    First,
    Rain {
        um: u32,
    },
}

/// What a lot got and when.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Last {
    pub on: NaiveDate,
    pub by: By,
    /// `None` for rain.
    pub entry: Option<EntryRef>,
}

/// Rain of a day, and where it was read.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Rain {
    pub on: NaiveDate,
    pub um: u32,
    pub at: PlaceId,
}

/// Days looked back for rain.
const RAIN_DAYS: i64 = 60;

/// Days on which it rained enough to water, newest last: read at the place itself, else at another one that is open to
/// rain, else at any, since a nursery has one gauge. Nothing under a roof.
#[must_use]
pub fn rain_since(facts: &Facts, place: PlaceId, on: NaiveDate) -> Vec<Rain> {
    let is_open = |id: &PlaceId| {
        let place = facts.places.get(id);
        place.is_some_and(|place| place.cover.or_default() == Cover::OpenToRain)
    };
    if !is_open(&place) {
        return Vec::new();
    }
    let days = plus_days(on, -RAIN_DAYS)..=on;
    let read = |id: &PlaceId| -> Vec<Rain> {
        let readings = facts.places.get(id).map(|place| &place.house.readings);
        let read = readings.into_iter().flat_map(|it| it.range(days.clone()));
        let rain = read.filter_map(|(on, reading)| {
            Some(Rain {
                on: *on,
                um: reading.rain_um?,
                at: *id,
            })
        });
        rain.collect()
    };
    let walk: Vec<PlaceId> = view::places(facts).iter().map(|it| it.place).collect();
    let (open, roofed): (Vec<PlaceId>, Vec<PlaceId>) = walk.into_iter().partition(is_open);
    let gauges = std::iter::once(place).chain(open).chain(roofed);
    let gauge = gauges.map(|id| read(&id)).find(|read| !read.is_empty());
    let mut rain = gauge.unwrap_or_default();
    rain.retain(|rain| rain.um >= RAIN_WATERS_UM);
    rain
}

/// Every watering a lot had, in no order: with its benches, by itself, and as a part of the whole it was split from.
pub fn waterings<'a>(facts: &'a Facts, id: LotId, lot: &'a Lot) -> Vec<&'a Watering> {
    let mut had = Vec::new();
    let mut part: (LotId, &Lot, Option<Stamp>) = (id, lot, None);
    let mut seen = BTreeSet::from([id]);
    loop {
        let (id, lot, until) = part;
        let in_time = |order: Stamp| until.is_none_or(|until| order < until);
        had.extend(lot.waterings.0.iter().filter(|it| in_time(it.order)));
        for (at, stood) in lot.stood.iter().enumerate() {
            let to = lot.stood.get(at + 1).map(|next| next.order);
            let here = facts.places.get(&stood.place);
            let here = here.into_iter().flat_map(|place| &place.waterings.0);
            let here = here.filter(|it| {
                it.order > stood.order
                    && to.is_none_or(|to| it.order < to)
                    && in_time(it.order)
                    && !it.except.contains(&id)
            });
            had.extend(here);
        }
        let whole = lot.split_from().filter(|whole| seen.insert(*whole));
        let Some((whole_id, whole)) = whole.and_then(|id| Some((id, facts.lots.get(&id)?))) else {
            return had;
        };
        let left_at = whole.parts.get(&id).copied();
        let until = match (until, left_at) {
            (Some(a), Some(b)) => Some(a.min(b)),
            (a, b) => a.or(b),
        };
        part = (whole_id, whole, until);
    }
}

/// What a lot got last, up to a day.
#[must_use]
pub fn last(facts: &Facts, id: LotId, lot: &Lot, rain: &[Rain], on: NaiveDate) -> Option<Last> {
    let had = waterings(facts, id, lot).into_iter().map(|it| Last {
        on: it.on,
        by: match &it.fed {
            Some(fed) => By::Feed {
                ppm: fed.nitrogen_ppm,
            },
            None => By::Water,
        },
        entry: Some(it.entry),
    });
    let decided = lot.decisions.values().filter_map(|decided| decided.last());
    let firsts = decided.filter(|it| {
        it.kind == TaskKind::FirstWater && matches!(it.answer, TaskAnswer::Done { .. })
    });
    let firsts = firsts.map(|it| Last {
        on: it.on,
        by: By::First,
        entry: Some(it.entry),
    });
    // What fell before it came to stand here fell elsewhere.
    let since = lot.stood.last().map(|stood| stood.on);
    let fell = rain
        .iter()
        .filter(|rain| since.is_none_or(|since| rain.on >= since));
    let fell = fell.map(|rain| Last {
        on: rain.on,
        by: By::Rain { um: rain.um },
        entry: None,
    });
    had.chain(firsts)
        .chain(fell)
        .filter(|last| last.on <= on)
        .max_by_key(|last| (last.on, std::cmp::Reverse(last.by)))
}
