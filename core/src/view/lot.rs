//! One lot: what it is, where it comes from, what became of it, what is due.

use chrono::NaiveDate;

use crate::event::{CutPlan, Event, PieceClass, Potting, TreatedPart};
use crate::id::{ClumpId, EntryRef, LotId, Subject};
use crate::reference::taxa::Habit;
use crate::season::Window;
use crate::state::{Born, Lot, SightSeen, State};
use crate::task::derive::{self, Task};
use crate::task::windows::{self, WindowsFrom};

use super::book::{Row, row_of};
use super::round::{RowState, state_of};
use super::{LotLabel, PlaceLabel, lot_label, place_label};

/// Everything a lot's page shows.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct LotView {
    pub label: LotLabel,
    pub place: Option<PlaceLabel>,
    pub class: Option<PieceClass>,
    pub born: Option<Born>,
    pub born_on: Option<NaiveDate>,
    pub potted: Option<(NaiveDate, Potting)>,
    pub habit: Habit,
    pub light: bool,
    pub repot_windows: Vec<Window>,
    pub flowering_windows: Vec<Window>,
    pub root_windows: Vec<Window>,
    pub rest_windows: Vec<Window>,
    /// Who says when to repot, and when it flowers.
    pub repot_from: WindowsFrom,
    pub flowering_from: WindowsFrom,
    /// The lot of its line that was seen so, where it was another one.
    pub seen_of: Option<LotLabel>,
    pub lineage: Lineage,
    /// What it is meant to become when it next comes to the bench.
    pub plan: Option<CutPlan>,
    /// Open work with how it stands today; what is too far off to stand anywhere has `None`.
    pub tasks: Vec<(Task, Option<RowState>)>,
    pub sights: Vec<SightSeen>,
    /// Plants kept for somebody, and those that are nobody's.
    pub reserved: Vec<ReservedRow>,
    pub unreserved: i64,
    /// Plants now on the bench in clumps.
    pub on_bench: Vec<(ClumpId, u32)>,
    /// What was recorded about it, newest first, what it shares with the whole it was split from included.
    pub history: Vec<Row>,
    pub locked: bool,
}

/// Plants kept for somebody.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct ReservedRow {
    pub by: EntryRef,
    pub plants: u32,
    /// A free word; may be empty.
    pub to: String,
    pub until_on: Option<NaiveDate>,
    /// That day is over.
    pub is_past: bool,
}

/// Plants of a lot kept for somebody, the oldest first.
#[must_use]
pub fn reserved(lot: &Lot, on: NaiveDate) -> Vec<ReservedRow> {
    let kept = lot.reserved.iter().map(|(by, kept)| ReservedRow {
        by: *by,
        plants: u32::try_from(kept.plants).unwrap_or(0),
        to: kept.to.clone(),
        until_on: kept.until_on,
        is_past: kept.until_on.is_some_and(|until| until < on),
    });
    kept.collect()
}

/// Where a lot comes from and what came from it, one step each way.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Lineage {
    /// Several: which one is not known.
    pub parents: Vec<LotLabel>,
    pub clump: Option<ClumpId>,
    pub tray: Option<u32>,
    pub unbooked_pots: u32,
    /// Other lots out of the same clump.
    pub siblings: Vec<LotLabel>,
    pub thrown: u64,
    pub split_from: Option<LotLabel>,
    pub parts: Vec<LotLabel>,
    pub children: Vec<LotLabel>,
}

/// The page of a lot; `None` when the book does not know it.
#[must_use]
pub fn lot(state: &State, id: LotId, on: NaiveDate) -> Option<LotView> {
    let facts = state.facts();
    let lot = facts.lots.get(&id)?;
    let row = derive::group_row(lot);
    let mut tasks = state.tasks_of(id);
    tasks.extend(state.tasks_noted_for(id));
    tasks.sort_by_key(|task| (task.due_on, task.priority));
    let (repot, flowering) = (windows::repot(facts, lot), windows::flowering(facts, lot));
    Some(LotView {
        label: lot_label(facts, id),
        place: lot.place.get().and_then(|place| place_label(facts, *place)),
        class: lot.class,
        born: lot.born.clone(),
        born_on: lot.born_on,
        potted: lot
            .potted
            .as_ref()
            .map(|potted| (potted.on, potted.potting.clone())),
        habit: row.habit,
        light: derive::is_light(facts, lot),
        seen_of: seen_of(repot.from)
            .or(seen_of(flowering.from))
            .map(|lot| lot_label(facts, lot)),
        repot_windows: repot.windows,
        flowering_windows: flowering.windows,
        root_windows: windows::roots(facts, lot).windows,
        rest_windows: windows::rest(facts, lot).windows,
        repot_from: repot.from,
        flowering_from: flowering.from,
        lineage: lineage(state, id),
        plan: lot.plan.as_ref().map(|cut| cut.plan.clone()),
        tasks: tasks
            .into_iter()
            .map(|task| {
                let stands = state_of(&task, on);
                (task, stands)
            })
            .collect(),
        sights: lot.sights.clone(),
        on_bench: lot
            .on_bench
            .iter()
            .map(|(clump, (plants, _))| (*clump, *plants))
            .collect(),
        reserved: reserved(lot, on),
        unreserved: lot.unreserved(),
        history: history(state, id),
        locked: facts.locked.contains_key(&Subject::Lot(id)),
    })
}

/// The ancestor that windows were seen of.
fn seen_of(from: WindowsFrom) -> Option<LotId> {
    match from {
        WindowsFrom::Seen { of, .. } => of,
        WindowsFrom::Own | WindowsFrom::Table => None,
    }
}

fn lineage(state: &State, id: LotId) -> Lineage {
    let facts = state.facts();
    let Some(lot) = facts.lots.get(&id) else {
        return Lineage::default();
    };
    let labels = |lots: &mut dyn Iterator<Item = LotId>| {
        lots.map(|lot| lot_label(facts, lot)).collect::<Vec<_>>()
    };
    let mut lineage = Lineage {
        parents: labels(&mut lot.parents().iter().copied()),
        split_from: lot.split_from().map(|from| lot_label(facts, from)),
        parts: labels(&mut lot.parts.keys().copied()),
        children: labels(&mut lot.children.iter().copied()),
        ..Lineage::default()
    };
    if let Some(Born::Potted { clump, .. }) = &lot.born
        && let Some(known) = facts.clumps.get(clump)
    {
        lineage.clump = Some(*clump);
        lineage.tray = known.opened.as_ref().map(|opened| opened.tray);
        lineage.unbooked_pots = known
            .opened
            .as_ref()
            .map_or(0, |opened| opened.unbooked_pots);
        lineage.siblings = labels(&mut known.lots.iter().copied().filter(|sibling| *sibling != id));
        lineage.thrown = known.taken_of(PieceClass::Thrown);
    }
    lineage
}

fn history(state: &State, id: LotId) -> Vec<Row> {
    let mut places: std::collections::BTreeSet<crate::log::Place> =
        state.log().about(Subject::Lot(id)).collect();
    let mut part = id;
    let mut limit = None;
    while let Some(whole) = state
        .facts()
        .lots
        .get(&part)
        .and_then(|lot| lot.split_from())
    {
        let Some(lot) = state.facts().lots.get(&whole) else {
            break;
        };
        limit = match (limit, lot.parts.get(&part).copied()) {
            (Some(a), Some(b)) => Some(std::cmp::min(a, b)),
            (a, b) => a.or(b),
        };
        let before = places.len();
        places.extend(
            state
                .log()
                .about(Subject::Lot(whole))
                .filter(|place| limit.is_none_or(|limit| place.order < limit)),
        );
        if places.len() == before {
            break;
        }
        part = whole;
    }
    places.extend(at_the_bench(state, part));
    let mut rows: Vec<Row> = places
        .into_iter()
        .rev()
        .filter_map(|place| row_of(state, place.id))
        .collect();
    rows.sort_by_key(|row| std::cmp::Reverse((row.on, row.at_ms)));
    rows
}

/// What was seen on the clump a lot came from, and what its pieces were treated with before they had a lot.
fn at_the_bench(state: &State, id: LotId) -> Vec<crate::log::Place> {
    let lot = state.facts().lots.get(&id);
    let Some((Born::Potted { clump, .. }, class)) =
        lot.and_then(|lot| Some((lot.born.as_ref()?, lot.class)))
    else {
        return Vec::new();
    };
    let concerns = |event: &Event| match event {
        Event::Found(_) => true,
        Event::Treated(treated) => treated.parts.iter().any(|part| {
            matches!(part, TreatedPart::Pieces { clump: of, class: was, .. }
                if of == clump && Some(*was) == class)
        }),
        _ => false,
    };
    let about = state.log().about(Subject::Clump(*clump));
    about
        .filter(|place| {
            let entry = state.log().entry(place.id);
            let events = entry.and_then(|entry| entry.events.as_ref().ok());
            events.is_some_and(|events| events.iter().any(concerns))
        })
        .collect()
}
