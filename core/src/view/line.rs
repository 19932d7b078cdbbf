//! The whole line of a lot, walked both ways: what it may come from, what came of it, and what was done with each.
//!
//! Descent is a graph, not a tree: a piece has every lot of its clump for a possible parent. Each lot stands once, at the
//! fewest steps from where the walk began; parents are walked to their parents and children to their children, so that
//! the children of an ancestor by another clump are not of the line.

use std::collections::{BTreeMap, VecDeque};

use chrono::NaiveDate;

use crate::event::{PieceClass, Sight, Source, TestResult};
use crate::id::LotId;
use crate::state::{Born, Facts, Lot, State};

use super::{LotLabel, lot_label};

/// Lots walked at most.
pub const LINE_MOST: usize = 400;

/// How a lot began.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Began {
    Came {
        source: Source,
        from: String,
    },
    /// Off a clump: with several possible parents, which one is not known.
    Cut {
        tray: Option<u32>,
        parents: usize,
    },
    Part,
    /// The entry that brought it in is missing.
    NotKnown,
}

/// One lot of the line.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Kin {
    pub label: LotLabel,
    /// Steps from the lot: below nothing for what it comes from, above for what came of it.
    pub steps: i32,
    pub class: Option<PieceClass>,
    pub began: Began,
    pub on: Option<NaiveDate>,
    pub treatments: usize,
    /// The worst of its tests for a virus, and their number.
    pub tests: usize,
    pub detected: bool,
    /// The last day it was seen in flower.
    pub flowered_on: Option<NaiveDate>,
    /// One step up and down, within the line.
    pub parents: Vec<LotId>,
    pub children: Vec<LotId>,
}

/// The line.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Line {
    /// From the oldest to the youngest, the lot itself at nothing.
    pub kin: Vec<Kin>,
    /// There is more than is walked.
    pub cut_short: bool,
}

/// The line of a lot; `None` when the book does not know it.
#[must_use]
pub fn line(state: &State, id: LotId) -> Option<Line> {
    let facts = state.facts();
    facts.lots.get(&id)?;
    let (mut steps, mut cut_short) = (BTreeMap::from([(id, 0_i32)]), false);
    for down in [false, true] {
        let mut next: VecDeque<(LotId, i32)> = VecDeque::from([(id, 0)]);
        while let Some((from, at)) = next.pop_front() {
            let Some(lot) = facts.lots.get(&from) else {
                continue;
            };
            let kin = if down { below(lot) } else { above(lot) };
            for to in kin {
                if steps.contains_key(&to) {
                    continue;
                }
                if steps.len() >= LINE_MOST {
                    cut_short = true;
                    continue;
                }
                let at = if down {
                    at.saturating_add(1)
                } else {
                    at.saturating_sub(1)
                };
                steps.insert(to, at);
                next.push_back((to, at));
            }
        }
    }
    let mut kin: Vec<Kin> = steps
        .iter()
        .filter_map(|(id, at)| of(facts, *id, *at, &steps))
        .collect();
    kin.sort_by_key(|kin| (kin.steps, kin.on, kin.label.lot));
    Some(Line { kin, cut_short })
}

fn above(lot: &Lot) -> Vec<LotId> {
    lot.split_from()
        .into_iter()
        .chain(lot.parents().iter().copied())
        .collect()
}

fn below(lot: &Lot) -> Vec<LotId> {
    lot.parts
        .keys()
        .copied()
        .chain(lot.children.iter().copied())
        .collect()
}

fn of(facts: &Facts, id: LotId, steps: i32, line: &BTreeMap<LotId, i32>) -> Option<Kin> {
    let lot = facts.lots.get(&id)?;
    let within = |lots: Vec<LotId>| {
        lots.into_iter()
            .filter(|lot| line.contains_key(lot))
            .collect()
    };
    let began = match &lot.born {
        Some(Born::Received { source, from, .. }) => Began::Came {
            source: *source,
            from: from.clone(),
        },
        Some(Born::Potted { clump, parents, .. }) => {
            let opened = facts.clumps.get(clump).and_then(|it| it.opened.as_ref());
            let unbooked = opened.map_or(0, |opened| opened.unbooked_pots);
            Began::Cut {
                tray: opened.map(|opened| opened.tray),
                parents: parents
                    .len()
                    .saturating_add(usize::try_from(unbooked).unwrap_or(0)),
            }
        }
        Some(Born::Split { .. }) => Began::Part,
        None => Began::NotKnown,
    };
    let flowers = lot
        .sights
        .iter()
        .filter(|sight| matches!(sight.what, Sight::FirstOpen | Sight::FlowerOver));
    Some(Kin {
        label: lot_label(facts, id),
        steps,
        class: lot.class,
        began,
        on: lot.born_on,
        treatments: lot.treatments.len(),
        tests: lot.apart.tests.len(),
        detected: lot
            .apart
            .tests
            .iter()
            .any(|test| test.test.result == TestResult::Detected),
        flowered_on: flowers.map(|sight| sight.on).max(),
        parents: within(above(lot)),
        children: within(below(lot)),
    })
}
