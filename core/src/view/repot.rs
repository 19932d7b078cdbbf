//! The Repot room: clumps on the bench, and lots that want to come to it.

use std::collections::BTreeSet;

use chrono::NaiveDate;

use crate::code::LotCode;
use crate::event::{CutPlan, OpenedLot, PieceClass};
use crate::id::{ClumpId, FindingId, LotId, PlaceId};
use crate::name::PlantName;
use crate::quantity::Volume;
use crate::state::{Facts, State};
use crate::task::TaskKind;
use crate::task::derive::{self, Task};
use crate::time::Moment;

use super::potting::bill_of;
use super::round::{BenchRow, RowState, on_the_bench, state_of};
use super::stock::{StockRow, on_the_walk, stock};
use super::{LotLabel, lot_label};

/// A lot that wants the bench. What its row says is asked for where it is drawn: in the season there are thousands.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Waiting {
    pub lot: LotId,
    pub kind: TaskKind,
    pub due_on: NaiveDate,
    pub state: Option<RowState>,
}

impl Waiting {
    /// What its row says: the lot, and whether it is planned what becomes of it.
    #[must_use]
    pub fn row(&self, facts: &Facts) -> (LotLabel, bool) {
        let known = facts.lots.get(&self.lot);
        let planned = known.is_some_and(|lot| lot.plan.is_some());
        (lot_label(facts, self.lot), planned)
    }
}

/// What the Repot room opens with.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct BenchView {
    pub open: Vec<BenchRow>,
    /// Late first.
    pub waiting: Vec<Waiting>,
    /// Number for the next tray tag.
    pub next_tray: u32,
    /// Whether tools and gloves were confirmed clean today on this phone.
    pub hygiene_today: bool,
}

/// One class of pieces of a clump.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct ClassLine {
    pub class: PieceClass,
    pub taken: u64,
    pub potted: u64,
    pub bare: u64,
}

/// A clump in work.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct ClumpView {
    pub clump: ClumpId,
    pub tray: u32,
    pub name: PlantName,
    pub pots: u64,
    pub plants_opened: u64,
    pub parents: Vec<LotLabel>,
    pub unbooked_pots: u32,
    pub place: Option<PlaceId>,
    pub classes: Vec<ClassLine>,
    pub bulbs: Option<u64>,
    pub kept: u64,
    pub thrown: u64,
    pub bare: u64,
    pub potted_lots: Vec<PottedLot>,
    pub is_open: bool,
    /// What was seen of it, by its sign.
    pub findings: Vec<(FindingId, String)>,
    pub flowering_min: Option<(u8, u8)>,
    /// Stone that came out of the opened pots, as far as the book knows what was in them.
    pub dirty_stone: Volume,
    /// What it was meant to become.
    pub plan: Option<CutPlan>,
}

/// A lot potted from the clump.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct PottedLot {
    pub lot: LotId,
    pub code: Option<LotCode>,
    pub class: Option<PieceClass>,
    pub plants: i64,
    pub stands: i64,
}

/// What the Repot room opens with.
#[must_use]
pub fn bench(state: &State, at: &Moment) -> BenchView {
    let facts = state.facts();
    let mut waiting: Vec<Waiting> = Vec::new();
    state.each_task(|task| {
        let Some(id) = task.lot.filter(|_| wants_the_bench(task)) else {
            return;
        };
        let row = state_of(task, at.today);
        if row.is_some() {
            waiting.push(Waiting {
                lot: id,
                kind: task.kind,
                due_on: task.due_on,
                state: row,
            });
        }
    });
    waiting.sort_by_key(|waiting| (waiting.due_on, waiting.lot));
    BenchView {
        open: on_the_bench(state),
        waiting,
        next_tray: next_tray(state),
        hygiene_today: facts
            .book
            .hygiene
            .get(&at.dev)
            .is_some_and(|(on, _)| *on == at.today),
    }
}

/// Lots to choose for a clump: as the stock list finds them, and where nothing was typed those that want the bench
/// first, late first.
#[must_use]
pub fn to_open(state: &State, at: &Moment, typed: &str, most: usize) -> Vec<StockRow> {
    if !typed.trim().is_empty() {
        return stock(state, typed, most).rows;
    }
    let facts = state.facts();
    let mut wanting: Vec<(NaiveDate, LotId)> = Vec::new();
    state.each_task(|task| {
        let lot = task.lot.filter(|_| wants_the_bench(task));
        let due = |_: &LotId| state_of(task, at.today).is_some();
        wanting.extend(lot.filter(due).map(|lot| (task.due_on, lot)));
    });
    wanting.sort_unstable();
    let there = |id: &LotId| facts.lots.get(id).is_some_and(|lot| lot.plants > 0);
    let mut first = BTreeSet::new();
    let mut rows: Vec<StockRow> = wanting
        .into_iter()
        .map(|(_, lot)| lot)
        .filter(|lot| there(lot) && first.insert(*lot))
        .take(most)
        .map(|lot| super::stock::row(facts, lot))
        .collect();
    let left = most.saturating_sub(rows.len());
    if left > 0 {
        rows.extend(on_the_walk(state, &first, left));
    }
    rows
}

/// Work of a lot that is done at the bench.
fn wants_the_bench(task: &Task) -> bool {
    task.note_task.is_none() && task.kind.def().at_bench
}

/// The lowest tray number not lying beside an open clump.
#[must_use]
pub fn next_tray(state: &State) -> u32 {
    let used: std::collections::BTreeSet<u32> = state
        .facts()
        .open_clumps()
        .filter_map(|(_, clump)| clump.opened.as_ref().map(|opened| opened.tray))
        .collect();
    (1..).find(|tray| !used.contains(tray)).unwrap_or(1)
}

/// A clump in work; `None` when the book does not know it.
#[must_use]
pub fn clump(state: &State, id: ClumpId) -> Option<ClumpView> {
    let facts = state.facts();
    let clump = facts.clumps.get(&id)?;
    let opened = clump.opened.as_ref()?;
    let classes: Vec<ClassLine> = PieceClass::ALL
        .into_iter()
        .map(|class| ClassLine {
            class,
            taken: clump.taken_of(class),
            potted: clump.potted_of(class),
            bare: clump.bare_of(class),
        })
        .collect();
    let bulbs: Vec<u64> = clump
        .taken
        .values()
        .filter_map(|taken| taken.bulbs)
        .collect();
    let kept = classes
        .iter()
        .filter(|line| line.class.is_kept())
        .map(|line| line.taken)
        .sum();
    let row = crate::reference::taxa::row(opened.name.plant_group());
    Some(ClumpView {
        clump: id,
        tray: opened.tray,
        name: opened.name.clone(),
        pots: super::round::pots(opened),
        plants_opened: opened.lots.iter().map(|lot| u64::from(lot.plants)).sum(),
        parents: clump
            .parents()
            .into_iter()
            .map(|lot| lot_label(facts, lot))
            .collect(),
        unbooked_pots: opened.unbooked_pots,
        place: opened.place,
        kept,
        thrown: clump.taken_of(PieceClass::Thrown),
        bare: clump.bare(),
        classes,
        bulbs: (!bulbs.is_empty()).then(|| bulbs.iter().sum()),
        potted_lots: clump
            .lots
            .iter()
            .map(|lot| potted_lot(state, *lot))
            .collect(),
        is_open: clump.is_open(),
        findings: clump
            .findings
            .iter()
            .filter_map(|id| Some((*id, facts.findings.get(id)?.event.sign.clone())))
            .collect(),
        flowering_min: row.pieces.flowering,
        plan: clump.plan.clone(),
        dirty_stone: Volume::from_ul(dirty_stone_ul(facts, &opened.lots)),
    })
}

/// The stone in the pots that were opened: as each was potted, where that was recorded.
fn dirty_stone_ul(facts: &Facts, opened: &[OpenedLot]) -> i64 {
    let stone = opened.iter().filter_map(|opened| {
        let potting = &facts.lots.get(&opened.lot)?.potted.as_ref()?.potting;
        let bill = bill_of(facts, potting.pot?, &potting.layers, opened.stands).ok()??;
        Some(bill.stone.ul())
    });
    stone.fold(0, i64::saturating_add)
}

fn potted_lot(state: &State, id: LotId) -> PottedLot {
    let label = lot_label(state.facts(), id);
    let class = state.facts().lots.get(&id).and_then(|lot| lot.class);
    PottedLot {
        lot: id,
        code: label.code,
        class,
        plants: label.plants,
        stands: label.stands,
    }
}

/// Days until a lot's next repot, as the tasks have it.
#[must_use]
pub fn next_repot_on(state: &State, id: LotId) -> Option<NaiveDate> {
    let tasks = derive::of_lot(state.facts(), id);
    tasks
        .iter()
        .filter(|task| task.kind.def().at_bench)
        .map(|task| task.due_on)
        .min()
}
