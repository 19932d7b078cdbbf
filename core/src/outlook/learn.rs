//! What the book itself has seen: of pieces potted long enough ago, how many still live, and what the others died of.
//!
//! A lot counts from the day it was potted; what was sold, moved or split off lived. Losses without an end of the plant's
//! own (missing on a count, discarded to make room) say nothing about survival and leave the case out.

use std::collections::BTreeMap;

use chrono::NaiveDate;

use crate::event::{Event, LossCause, PieceClass, Potting};
use crate::id::LotId;
use crate::reference::taxa::Group;
use crate::state::{Born, Facts, State};
use crate::task::derive::group_row;
use crate::time::plus_days;

use super::beta::Beta;
use super::lead::class_row;

/// Days after potting at which a piece counts as having lived: growers count survivors at 30, 90 and 180.
pub(super) const COUNTED_AFTER_DAYS: i64 = 90;

/// What is believed of one class in one group of plants.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Learned {
    pub class: PieceClass,
    pub group: Group,
    /// Cases in this book: pieces potted long enough ago, and of those alive.
    pub of: u32,
    pub alive: u32,
    /// The table's range, in per cent.
    pub table_pct: (u8, u8),
    pub belief: Beta,
}

impl Learned {
    /// What is believed of a hundred: four fifths of the belief lie between the first and the last; the middle is its mean.
    #[must_use]
    pub fn per_hundred(&self) -> [u32; 3] {
        let belief = self.belief;
        [belief.quantile(0.1), belief.mean(), belief.quantile(0.9)]
            .map(|share| super::cohort::whole(share * 100.0))
    }
}

/// Plants lost to one cause.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Lost {
    pub cause: LossCause,
    pub plants: u64,
    pub times: u32,
}

/// Survival by class and group of plants, for every pair the book has a case of, the most cases first.
#[must_use]
pub fn learn(state: &State, today: NaiveDate) -> Vec<Learned> {
    let mut sums: BTreeMap<(PieceClass, Group), (u32, u32)> = BTreeMap::new();
    for case in cases(state, today) {
        let known = sums.entry((case.class, case.group)).or_insert((0, 0));
        known.0 = known.0.saturating_add(case.of);
        known.1 = known.1.saturating_add(case.alive);
    }
    let mut rows: Vec<Learned> = sums
        .into_iter()
        .filter(|(_, (of, _))| *of > 0)
        .filter_map(|((class, group), (of, alive))| belief(class, group, of, alive))
        .collect();
    rows.sort_by_key(|row| (std::cmp::Reverse(row.of), row.class, row.group));
    rows
}

/// What became of one lot that was potted long enough ago.
pub(super) struct Case {
    pub(super) lot: LotId,
    pub(super) class: PieceClass,
    pub(super) group: Group,
    pub(super) of: u32,
    pub(super) alive: u32,
}

/// Every lot that was potted long enough ago, with how many of it lived.
pub(super) fn cases(state: &State, today: NaiveDate) -> Vec<Case> {
    let mut cases = Vec::new();
    let lost = lost_by_lot(state);
    for (id, lot) in &state.facts().lots {
        let (Some(Born::Potted { .. }), Some(class), Some(potted)) =
            (&lot.born, lot.class, lot.born_on)
        else {
            continue;
        };
        if plus_days(potted, COUNTED_AFTER_DAYS) > today {
            continue;
        }
        let Some(began) = potted_plants(state, *id) else {
            continue;
        };
        let (died, unsaid) = lost.get(id).copied().unwrap_or((0, 0));
        let of = began.saturating_sub(unsaid.min(began));
        cases.push(Case {
            lot: *id,
            class,
            group: group_row(lot).group,
            of,
            alive: of.saturating_sub(died),
        });
    }
    cases
}

/// The belief about a class of a group after these cases.
pub(super) fn belief(class: PieceClass, group: Group, of: u32, alive: u32) -> Option<Learned> {
    let row = class_row(class, group)?;
    let (low, high) = row.alive_pct;
    let table = Beta::of_range(f64::from(low) / 100.0, f64::from(high) / 100.0);
    Some(Learned {
        class,
        group,
        of,
        alive,
        table_pct: row.alive_pct,
        belief: table.after(alive, of),
    })
}

/// All losses by cause, the most plants first.
#[must_use]
pub fn loss_ledger(state: &State) -> Vec<Lost> {
    let mut causes: BTreeMap<LossCause, (u64, u32)> = BTreeMap::new();
    for fact in state
        .log()
        .in_order()
        .flat_map(|entry| state.log().facts(entry.id))
    {
        if let Event::Lost(lost) = fact.event {
            let known = causes.entry(lost.cause).or_insert((0, 0));
            known.0 = known.0.saturating_add(u64::from(lost.plants));
            known.1 = known.1.saturating_add(1);
        }
    }
    let mut rows: Vec<Lost> = causes
        .into_iter()
        .map(|(cause, (plants, times))| Lost {
            cause,
            plants,
            times,
        })
        .collect();
    rows.sort_by_key(|row| (std::cmp::Reverse(row.plants), row.cause));
    rows
}

/// Plants a lot began with when it was potted.
fn potted_plants(state: &State, id: LotId) -> Option<u32> {
    potted_as(state, id).map(|(_, plants)| plants)
}

/// What a lot was potted in off its clump.
pub(super) fn potting_of(state: &State, id: LotId) -> Option<Potting> {
    let mut facts = state.log().facts(id.0.entry);
    facts.find_map(|fact| match fact.event {
        Event::PiecesPotted(potted) if potted.lot == id => Some(potted.potting.clone()),
        _ => None,
    })
}

/// What a lot was potted as off its clump, and how many.
pub(super) fn potted_as(state: &State, id: LotId) -> Option<(PieceClass, u32)> {
    state
        .log()
        .facts(id.0.entry)
        .find_map(|fact| match fact.event {
            Event::PiecesPotted(potted) if potted.lot == id => Some((potted.class, potted.plants)),
            _ => None,
        })
}

/// Losses by the lot that was potted: those that ended the plant, and those that say nothing of it.
fn lost_by_lot(state: &State) -> BTreeMap<LotId, (u32, u32)> {
    let mut lost: BTreeMap<LotId, (u32, u32)> = BTreeMap::new();
    for fact in state
        .log()
        .in_order()
        .flat_map(|entry| state.log().facts(entry.id))
    {
        let Event::Lost(event) = fact.event else {
            continue;
        };
        let known = lost
            .entry(whole_of(state.facts(), event.lot))
            .or_insert((0, 0));
        let says_nothing = matches!(
            event.cause,
            LossCause::Missing | LossCause::Discarded | LossCause::Unknown
        );
        let count = if says_nothing {
            &mut known.1
        } else {
            &mut known.0
        };
        *count = count.saturating_add(event.plants);
    }
    lost
}

/// The lot a part was split from, through all splits.
pub(super) fn whole_of(facts: &Facts, mut id: LotId) -> LotId {
    // A lot split from itself cannot be; the bound keeps even a made-up book from going round.
    for _ in 0..64 {
        match facts.lots.get(&id).and_then(|lot| lot.split_from()) {
            Some(from) => id = from,
            None => break,
        }
    }
    id
}
