//! The wash: pots and stone by kind and stage, what is kept apart, and what washing saved.

use std::collections::BTreeMap;

use chrono::NaiveDate;

use crate::event::{ClosedHow, Event, Material, Stage};
use crate::id::{EntryRef, PotId, Subject};
use crate::quantity::Volume;
use crate::quarantine::clump_is_suspect;
use crate::state::{MaterialKind, State};

use super::{LotLabel, lot_label};

/// So much of one kind at one stage.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Pile {
    pub material: Material,
    /// The kind of pot as the book calls it; empty for stone, and where nobody noted the kind.
    pub name: String,
}

/// What stands at one stage.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct StagePiles {
    pub stage: Stage,
    pub piles: Vec<Pile>,
}

/// What is kept apart, because its plants are suspected of a virus.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Apart {
    pub source: Subject,
    /// The clump it came of: its tray and the day it came to the bench.
    pub tray: Option<(u32, NaiveDate)>,
    /// Or the lot that was potted on.
    pub lot: Option<LotLabel>,
    pub stages: Vec<StagePiles>,
}

/// The wash.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct WashView {
    /// The four stages in their order, empty ones too.
    pub stages: Vec<StagePiles>,
    pub apart: Vec<Apart>,
    /// Trays whose pots went among the others before a virus was suspected, with the day they did.
    pub among: Vec<(u32, NaiveDate)>,
    pub reused_pots: u64,
    pub reused_stone: Option<Volume>,
    pub discarded_pots: u64,
    pub discarded_stone: Option<Volume>,
}

/// Trays named at most.
const AMONG_MOST: usize = 3;

/// The wash as it stands.
#[must_use]
pub fn wash(state: &State) -> WashView {
    let facts = state.facts();
    let materials = &facts.book.materials;
    let mut by_source: BTreeMap<Option<Subject>, Vec<StagePiles>> = BTreeMap::new();
    let empty = || {
        let stages = Stage::COUNTED.map(|stage| StagePiles {
            stage,
            piles: Vec::new(),
        });
        stages.to_vec()
    };
    by_source.insert(None, empty());
    for (heap, standing) in &materials.heaps {
        let stages = by_source.entry(heap.apart).or_insert_with(empty);
        for row in stages {
            let amount = standing.at(row.stage);
            if amount > 0 {
                row.piles.push(Pile {
                    material: heap.kind.row(amount),
                    name: name_of(state, &heap.kind),
                });
            }
        }
    }
    let stages = by_source.remove(&None).unwrap_or_default();
    let stands = stages.iter().any(|row| !row.piles.is_empty());
    let apart = by_source.into_iter().filter_map(|(source, stages)| {
        let some = stages.iter().any(|row| !row.piles.is_empty());
        some.then(|| kept_apart(state, source?, stages)).flatten()
    });
    let some = |ul: i64| (ul > 0).then(|| Volume::from_ul(ul));
    WashView {
        apart: apart.collect(),
        among: if stands { among(state) } else { Vec::new() },
        stages,
        reused_pots: materials.reused_pots,
        reused_stone: some(materials.reused_stone_ul),
        discarded_pots: materials.discarded_pots,
        discarded_stone: some(materials.discarded_stone_ul),
    }
}

fn name_of(state: &State, kind: &MaterialKind) -> String {
    match kind {
        MaterialKind::Pot(id) => state
            .facts()
            .pots
            .get(id)
            .map(|pot| pot.name.or_default())
            .unwrap_or_default(),
        MaterialKind::Named(name) => name.clone(),
        MaterialKind::Stone => String::new(),
    }
}

fn kept_apart(state: &State, source: Subject, stages: Vec<StagePiles>) -> Option<Apart> {
    let facts = state.facts();
    let stages = stages.into_iter().filter(|row| !row.piles.is_empty());
    let (tray, lot) = match source {
        Subject::Clump(id) => {
            let opened = facts.clumps.get(&id)?.opened.as_ref()?;
            (Some((opened.tray, opened.on)), None)
        }
        Subject::Lot(id) => (None, Some(lot_label(facts, id))),
        _ => return None,
    };
    Some(Apart {
        source,
        tray,
        lot,
        stages: stages.collect(),
    })
}

/// Clumps suspected by now whose pots went among the others, the last ones first.
fn among(state: &State) -> Vec<(u32, NaiveDate)> {
    let facts = state.facts();
    let heaps = &facts.book.materials.heaps;
    let mut trays: Vec<(NaiveDate, u32)> = Vec::new();
    for (id, clump) in &facts.clumps {
        let (Some(opened), Some(closed)) = (&clump.opened, &clump.closed) else {
            continue;
        };
        let apart = heaps
            .keys()
            .any(|heap| heap.apart == Some(Subject::Clump(*id)));
        let emptied = closed.how == ClosedHow::Done && closed.dirty_pots > 0;
        if emptied && !apart && clump_is_suspect(facts, *id) {
            trays.push((closed.on, opened.tray));
        }
    }
    trays.sort_unstable();
    let last = trays.into_iter().rev().take(AMONG_MOST);
    last.map(|(on, tray)| (tray, on)).collect()
}

/// Clean pots of a kind; `None` where they are not counted.
#[must_use]
pub fn clean_pots(state: &State, pot: PotId) -> Option<i64> {
    let materials = &state.facts().book.materials;
    let kind = MaterialKind::Pot(pot);
    let counted = materials.counted.contains(&kind);
    counted.then(|| materials.at(None, &kind, Stage::Clean))
}

/// Clean stone; `None` where it is not counted.
#[must_use]
pub fn clean_stone(state: &State) -> Option<Volume> {
    let materials = &state.facts().book.materials;
    let counted = materials.counted.contains(&MaterialKind::Stone);
    counted.then(|| Volume::from_ul(materials.at(None, &MaterialKind::Stone, Stage::Clean)))
}

/// What was disinfected, the last first, at most so many.
#[must_use]
pub fn cleanings(state: &State, most: usize) -> Vec<(EntryRef, NaiveDate, Event)> {
    let mut known: Vec<_> = state.facts().book.materials.cleanings.iter().collect();
    known.sort_by_key(|cleaning| std::cmp::Reverse((cleaning.on, cleaning.entry)));
    let rows = known.into_iter().take(most);
    rows.map(|cleaning| {
        let event = Event::from(cleaning.event.clone());
        (cleaning.entry, cleaning.on, event)
    })
    .collect()
}
