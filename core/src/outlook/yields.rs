//! What a division gave, looked back at: pieces alive after a month, a quarter and a year; and pieces that had a bath
//! beside those that had none.
//!
//! Invariants: a piece counts only once it is old enough for the day that is asked; what was sold or moved lived; losses
//! that say nothing of the plant (missing, thrown out, not known) leave the case out. Two groups are shown with their
//! intervals and never with a verdict: nobody drew lots who was bathed.

use std::collections::BTreeMap;

use chrono::NaiveDate;

use crate::event::{Event, LossCause, PieceClass};
use crate::id::{ClumpId, LotId};
use crate::state::{Born, State};
use crate::stats::{Share, share};
use crate::time::plus_days;

use super::learn::{potted_as, whole_of};

/// Days after potting at which it is looked back.
pub const YIELD_DAYS: [i64; 3] = [30, 90, 365];

/// Alive of so many, at one of the days.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Alive {
    pub of: u32,
    pub alive: u32,
}

impl Alive {
    fn add(&mut self, other: Self) {
        self.of = self.of.saturating_add(other.of);
        self.alive = self.alive.saturating_add(other.alive);
    }

    /// The share with its interval; `None` of nothing.
    #[must_use]
    pub fn share(self) -> Option<Share> {
        share(self.alive, self.of)
    }
}

/// One class of pieces over the three days.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct YieldRow {
    pub class: PieceClass,
    /// After 30, 90 and 365 days.
    pub after: [Alive; 3],
}

/// What became of pieces, class by class: of one clump, or of all.
#[must_use]
pub fn yields(state: &State, of: Option<ClumpId>, today: NaiveDate) -> Vec<YieldRow> {
    let mut rows: BTreeMap<PieceClass, [Alive; 3]> = BTreeMap::new();
    for piece in pieces(state) {
        if of.is_some_and(|clump| clump != piece.clump) {
            continue;
        }
        let row = rows.entry(piece.class).or_default();
        for (alive, days) in row.iter_mut().zip(YIELD_DAYS) {
            alive.add(piece.after(days, today));
        }
    }
    rows.into_iter()
        .filter(|(_, after)| after.iter().any(|alive| alive.of > 0))
        .map(|(class, after)| YieldRow { class, after })
        .collect()
}

/// Pieces of one class that had a bath before they were potted, beside those of the same class that had none.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct BathHelp {
    pub class: PieceClass,
    pub bathed: Alive,
    pub bare: Alive,
}

/// The two groups after ninety days, by class; only classes that have both.
#[must_use]
pub fn bath_help(state: &State, today: NaiveDate) -> Vec<BathHelp> {
    let mut rows: BTreeMap<PieceClass, (Alive, Alive)> = BTreeMap::new();
    for piece in pieces(state) {
        let (bathed, bare) = rows.entry(piece.class).or_default();
        let group = if piece.bathed { bathed } else { bare };
        group.add(piece.after(YIELD_DAYS[1], today));
    }
    rows.into_iter()
        .filter(|(_, (bathed, bare))| bathed.of > 0 && bare.of > 0)
        .map(|(class, (bathed, bare))| BathHelp {
            class,
            bathed,
            bare,
        })
        .collect()
}

/// Pieces of one class and one potting.
struct Potted {
    clump: ClumpId,
    class: PieceClass,
    on: NaiveDate,
    plants: u32,
    /// Whether its class had a treatment on the clump before it was potted.
    bathed: bool,
    /// Losses by day: those that ended a plant, and those that say nothing.
    died: Vec<(NaiveDate, u32)>,
    unsaid: Vec<(NaiveDate, u32)>,
}

impl Potted {
    fn after(&self, days: i64, today: NaiveDate) -> Alive {
        let until = plus_days(self.on, days);
        if until > today {
            return Alive::default();
        }
        let by = |rows: &[(NaiveDate, u32)]| {
            let rows = rows.iter().filter(|(on, _)| *on <= until);
            rows.fold(0_u32, |sum, (_, plants)| sum.saturating_add(*plants))
        };
        let of = self
            .plants
            .saturating_sub(by(&self.unsaid).min(self.plants));
        Alive {
            of,
            alive: of.saturating_sub(by(&self.died)),
        }
    }
}

fn pieces(state: &State) -> Vec<Potted> {
    let facts = state.facts();
    let mut died: BTreeMap<LotId, Vec<(NaiveDate, u32)>> = BTreeMap::new();
    let mut unsaid: BTreeMap<LotId, Vec<(NaiveDate, u32)>> = BTreeMap::new();
    let entries = state.log().in_order();
    for fact in entries.flat_map(|entry| state.log().facts(entry.id)) {
        let Event::Lost(event) = fact.event else {
            continue;
        };
        let says_nothing = matches!(
            event.cause,
            LossCause::Missing | LossCause::Discarded | LossCause::Unknown
        );
        let lot = whole_of(facts, event.lot);
        let rows = if says_nothing { &mut unsaid } else { &mut died };
        let row = (fact.entry.header.on, event.plants);
        rows.entry(lot).or_default().push(row);
    }
    let lots = facts.lots.iter().filter_map(|(id, lot)| {
        let Some(Born::Potted { clump, .. }) = &lot.born else {
            return None;
        };
        let (class, plants) = potted_as(state, *id)?;
        let treated = facts.clumps.get(clump).map(|clump| &clump.treated);
        Some(Potted {
            clump: *clump,
            class,
            on: lot.born_on?,
            plants,
            bathed: treated.is_some_and(|rows| rows.iter().any(|(_, of, _)| *of == class)),
            died: died.get(id).cloned().unwrap_or_default(),
            unsaid: unsaid.get(id).cloned().unwrap_or_default(),
        })
    });
    lots.collect()
}
