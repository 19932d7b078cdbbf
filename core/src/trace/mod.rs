//! Who is at risk from a suspect lot, and by which way: blades, baths, lineage, pots and stone, neighbours; and where a bag,
//! a bath or a bottle went.
//!
//! A search for the cheapest way from the lot to every other, over ties that run forward in time: what met the lot before
//! it was ill is not at risk by it. Nobody knows since when the lot itself is ill, so everything it ever met counts, and
//! what it came from may have been ill before. A way's cost ranks it and is not a probability. Nothing is stored but what
//! the grower makes of it.

mod stuff;
mod ties;
mod went;

use std::collections::{BTreeMap, BTreeSet};

use chrono::NaiveDate;

use crate::event::{TaskAnswer, TaskKey};
use crate::id::{ClumpId, LotId, PlaceId, Subject, TreatmentId};
use crate::state::State;
use crate::task::TaskKind;
use crate::task::apart::{TRACED, TRACED_LOOK};
use crate::time::Stamp;

pub use stuff::Emptied;
pub use ties::{LONGEST_RUN, Ties};
pub use went::{How, Met, Thing, Went};

/// What a way leads over.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Node {
    Lot(LotId),
    /// A clump on the bench: it was cut there.
    Cut(ClumpId),
    /// One mixture, by the treatment it was measured for.
    Bath(TreatmentId),
    /// Pots or stone that came off plants.
    Emptied(Emptied),
}

/// Why one thing may have got it from another.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Why {
    /// It went onto the bench in this clump.
    WasCut,
    /// It was potted from this clump, which may have carried it.
    CameFrom,
    /// Potted from that clump.
    PottedFrom,
    /// On the bench in one clump.
    Together,
    /// Cut with the same blade, so many clumps later, the tools changed in between or not.
    SameBlade {
        nth: u16,
        changed: bool,
    },
    /// A part of the same plants.
    Part,
    /// The lot it is a part of.
    Whole,
    /// Into this bath.
    IntoBath,
    /// In the same bath, then or later.
    SameBath,
    /// Its pots or stone went to the wash.
    Emptied,
    /// Potted into some of those pots or that stone, perhaps.
    UsedAgain {
        stone: bool,
        disinfected: bool,
    },
    Neighbour {
        place: PlaceId,
    },
}

/// One step of a way.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Step {
    pub why: Why,
    pub to: Node,
    pub on: NaiveDate,
}

/// How likely a lot got it, as an order and no more.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Rank {
    Near,
    Likely,
    Possible,
}

/// What was made of a risk.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Followed {
    Open,
    /// A test or a look is to come.
    ToDo {
        kind: TaskKind,
        on: NaiveDate,
    },
    Done,
    Cleared,
}

/// A lot at risk.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Risk {
    pub lot: LotId,
    pub cost: u16,
    pub rank: Rank,
    pub path: Vec<Step>,
    /// The day it met it.
    pub exposed_on: NaiveDate,
    /// Whether there are plants still.
    pub stocked: bool,
    pub followed: Followed,
}

/// Ways longer than this say nothing any more.
pub const COST_MAX: u16 = 12;
const NEAR_MAX: u16 = 3;
const LIKELY_MAX: u16 = 6;

impl Rank {
    fn of(cost: u16) -> Self {
        if cost <= NEAR_MAX {
            Self::Near
        } else if cost <= LIKELY_MAX {
            Self::Likely
        } else {
            Self::Possible
        }
    }
}

/// A way so far. `since` is when it got there; `None` is not known, and what it came from may have had it before.
#[derive(Clone, Debug)]
struct Way {
    cost: u16,
    since: Option<Stamp>,
    steps: Vec<Step>,
}

/// Every lot at risk by another, the most at risk first.
#[must_use]
pub fn at_risk(state: &State, source: LotId) -> Vec<Risk> {
    let ties = Ties::of(state);
    let ways = cheapest(&ties, source);
    let facts = state.facts();
    let mut risks: Vec<Risk> = ways
        .into_iter()
        .filter_map(|(lot, way)| {
            let known = facts.lots.get(&lot)?;
            Some(Risk {
                lot,
                cost: way.cost,
                rank: Rank::of(way.cost),
                exposed_on: way.steps.last()?.on,
                path: way.steps,
                stocked: known.is_stocked(),
                followed: followed(state, source, lot),
            })
        })
        .collect();
    risks.sort_by_key(|risk| (!risk.stocked, risk.cost, risk.lot));
    risks
}

/// The cheapest way to every lot but the source. Of two ways to one thing the dearer is kept too where it got there
/// earlier: more may follow from it.
fn cheapest(ties: &Ties, source: LotId) -> BTreeMap<LotId, Way> {
    let start = Way {
        cost: 0,
        since: None,
        steps: Vec::new(),
    };
    let mut open: BTreeMap<u16, Vec<(Node, Way)>> = BTreeMap::new();
    open.entry(0).or_default().push((Node::Lot(source), start));
    let mut kept: BTreeMap<Node, Vec<Option<Stamp>>> = BTreeMap::new();
    let mut best: BTreeMap<LotId, Way> = BTreeMap::new();
    while let Some((cost, ways)) = open.pop_first() {
        let mut now = ways;
        // Ties that cost nothing lead on within the same round.
        while let Some((node, way)) = now.pop() {
            let earlier = kept.entry(node.clone()).or_default();
            if earlier.iter().any(|since| *since <= way.since) {
                continue;
            }
            earlier.push(way.since);
            if let Node::Lot(lot) = node
                && lot != source
            {
                best.entry(lot).or_insert_with(|| way.clone());
            }
            for tie in ties.leading_from(&node, way.since, way.steps.is_empty()) {
                let total = cost.saturating_add(tie.cost);
                if total > COST_MAX || tie.step.to == Node::Lot(source) {
                    continue;
                }
                let there = kept.get(&tie.step.to).into_iter().flatten();
                if there.into_iter().any(|since| *since <= tie.since) {
                    continue;
                }
                let mut steps = way.steps.clone();
                steps.push(tie.step.clone());
                let next = Way {
                    cost: total,
                    since: tie.since,
                    steps,
                };
                if total == cost {
                    now.push((tie.step.to, next));
                } else {
                    open.entry(total).or_default().push((tie.step.to, next));
                }
            }
        }
    }
    best
}

/// Under what the answer to a risk is kept.
#[must_use]
pub fn key(source: LotId, lot: LotId, step: &str, repeat: u16) -> TaskKey {
    TaskKey {
        anchor: source.0.entry,
        event: source.0.n,
        subject: Subject::Lot(lot),
        step: step.to_owned(),
        repeat,
    }
}

fn followed(state: &State, source: LotId, lot: LotId) -> Followed {
    let Some(known) = state.facts().lots.get(&lot) else {
        return Followed::Open;
    };
    let open = crate::task::apart::of_lot(state.facts(), lot);
    let keys = [(TRACED, 0), (TRACED, 1), (TRACED_LOOK, 0)];
    let keys = keys.map(|(step, repeat)| key(source, lot, step, repeat));
    let to_do = open.iter().find(|task| keys.contains(&task.key));
    if let Some(task) = to_do {
        return Followed::ToDo {
            kind: task.kind,
            on: task.due_on,
        };
    }
    let answers: BTreeSet<u8> = keys
        .iter()
        .filter_map(|key| known.decisions.get(key)?.last())
        .map(|decision| match decision.answer {
            TaskAnswer::NotNeeded => 0,
            TaskAnswer::Done { .. } | TaskAnswer::PutOff { .. } => 1,
        })
        .collect();
    match answers.last() {
        None => Followed::Open,
        Some(0) => Followed::Cleared,
        Some(_) => Followed::Done,
    }
}

/// Where a thing went, in the order it met what it met.
#[must_use]
pub fn went(state: &State, thing: &Thing) -> Vec<Went> {
    let mut rows = Ties::of(state).went(thing);
    let lots = &state.facts().lots;
    for row in &mut rows {
        if let Met::Lot(lot) = row.met {
            row.still &= lots.get(&lot).is_some_and(|lot| lot.is_stocked());
        }
    }
    rows
}

/// What can be asked for: batches of mix, stone and products as their labels said, and fillings of tubs.
#[must_use]
pub fn things(state: &State) -> Vec<Thing> {
    Ties::of(state).things()
}
