//! The morning round: what is late, due and coming, in walking order; and first of all, pieces lying bare.
//!
//! Few rows: work of one kind in one place, set going on one day and due on one day, is one row.

use chrono::NaiveDate;

use crate::event::{PieceClass, Sight};
use crate::id::ClumpId;
use crate::name::PlantName;
use crate::state::{Facts, State, Washing};
use crate::task::derive::Task;
use crate::task::generation::GenerationDay;
use crate::task::weather::WeatherMove;
use crate::task::{TaskKind, Trigger};
use crate::time::{days_between, minute_of_day, plus_days};

use super::buying::BuyRow;
use super::walk::walk;
use super::{LotLabel, PlaceLabel, lot_label};

/// Days ahead that are shown as coming.
pub const COMING_DAYS: i64 = 7;

/// Everything the Round shows.
#[derive(Clone, Debug, PartialEq, Eq, Default)]
pub struct RoundView {
    pub on: NaiveDate,
    /// Clumps on the bench, those with bare pieces first.
    pub on_the_bench: Vec<BenchRow>,
    pub stops: Vec<Stop>,
    pub late: usize,
    pub due: usize,
    pub questions: usize,
    /// Products a planned treatment of the next two weeks lacks.
    pub missing: Vec<BuyRow>,
}

/// A clump in work.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct BenchRow {
    pub clump: ClumpId,
    pub tray: u32,
    pub name: PlantName,
    pub pots: u64,
    pub bare: u64,
    /// Since when pieces lie bare: the day, and minutes since midnight.
    pub bare_since: Option<(NaiveDate, u16)>,
    pub opened_on: NaiveDate,
}

/// One place on the walk with its work.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Stop {
    /// `None` for lots without a place.
    pub place: Option<PlaceLabel>,
    pub rows: Vec<Row>,
    /// Rows that are late or due.
    pub to_do: usize,
}

/// How a row stands today; in the order of the walk.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum RowState {
    Late {
        days: i64,
    },
    Due,
    /// Its window is open, the day is not reached.
    MayStart {
        days: i64,
    },
    Coming {
        days: i64,
    },
    /// The opposite holds until a day: no water before it.
    Held {
        until: NaiveDate,
    },
}

/// Work of one kind, one place and one day.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Row {
    pub state: RowState,
    pub kind: TaskKind,
    pub trigger: Option<Trigger>,
    pub anchor_on: NaiveDate,
    pub due_on: NaiveDate,
    pub priority: u8,
    pub put_off: bool,
    pub moved_by_season: bool,
    /// Moved by the weather of the house.
    pub weather: Option<WeatherMove>,
    /// Outside its window: the mix would be past its life before it opens.
    pub mix_spent: bool,
    /// A look for a pest's next generation, and what its day rests on.
    pub generation: Option<GenerationDay>,
    pub tasks: Vec<Task>,
    pub lots: Vec<LotLabel>,
    pub plants: i64,
    pub stands: i64,
    pub class: Option<PieceClass>,
    /// The grower's own words, for own tasks.
    pub text: String,
    /// The washing-up a clump left.
    pub washes_up: bool,
    /// The same in figures, while it stands in the program's own words.
    pub washing: Option<Washing>,
    /// What was last seen of the plants.
    pub last_sight: Option<Sight>,
}

/// What a row says of a lot.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct OnRound {
    pub label: LotLabel,
    pub class: Option<PieceClass>,
    /// What was last seen of the plants.
    pub last_sight: Option<Sight>,
}

/// The Round of a day, with what every row says.
#[must_use]
pub fn round(state: &State, on: NaiveDate) -> RoundView {
    walk(state, on).in_full(state)
}

/// What the row of a task says of its lot.
pub(super) fn on_round(facts: &Facts, task: &Task) -> Option<OnRound> {
    task.lot.map(|id| {
        let lot = facts.lots.get(&id);
        OnRound {
            label: lot_label(facts, id),
            class: lot.and_then(|lot| lot.class),
            last_sight: lot.and_then(|lot| lot.sights.last().map(|sight| sight.what)),
        }
    })
}

/// What is written down for a task, whether it is the washing-up a clump left, and that in figures.
pub(super) type Words<T> = (T, bool, Option<Washing>);

/// What the grower wrote down for a task, and whether it is the washing-up a clump left.
pub(super) fn words<'a>(facts: &'a Facts, task: &Task) -> Option<Words<&'a str>> {
    let own = task.note_task.and_then(|id| facts.note_tasks.get(&id))?;
    let text = own.noted.as_ref().map_or("", |noted| &noted.1.text);
    Some((text, own.washes_up, own.washing))
}

pub(super) const RANK_LATE: u8 = 0;
pub(super) const RANK_DUE: u8 = 1;

/// Late rows by how late they are, then due, then what may start, what is coming and what is held.
pub(super) fn rank(state: RowState) -> (u8, i64) {
    match state {
        RowState::Late { days } => (RANK_LATE, -days),
        RowState::Due => (RANK_DUE, 0),
        RowState::MayStart { days } => (2, days),
        RowState::Held { .. } => (3, 0),
        RowState::Coming { days } => (4, days),
    }
}

/// How a task stands on a day; `None` when it is too far off to show.
#[must_use]
pub fn state_of(task: &Task, on: NaiveDate) -> Option<RowState> {
    let days = days_between(on, task.due_on);
    if on > task.until_on {
        return Some(RowState::Late { days: -days });
    }
    if on >= task.due_on {
        return Some(RowState::Due);
    }
    if task.kind.def().holds && on < task.from_on {
        return Some(RowState::Held {
            until: task.from_on,
        });
    }
    // Months of room at the bench are not shown for months: only the last week before the day.
    let near = task.due_on <= plus_days(on, COMING_DAYS);
    if on >= task.from_on && (near || days_between(task.from_on, task.due_on) <= COMING_DAYS) {
        return Some(RowState::MayStart { days });
    }
    near.then_some(RowState::Coming { days })
}

pub(super) fn on_the_bench(state: &State) -> Vec<BenchRow> {
    let mut rows: Vec<BenchRow> = state
        .facts()
        .open_clumps()
        .filter_map(|(id, clump)| {
            let opened = clump.opened.as_ref()?;
            let bare = clump.bare();
            let since = clump.bare_since.filter(|_| bare > 0);
            Some(BenchRow {
                clump: id,
                tray: opened.tray,
                name: opened.name.clone(),
                pots: pots(opened),
                bare,
                bare_since: since.map(|(on, ms, off)| (on, minute_of_day(ms, off))),
                opened_on: opened.on,
            })
        })
        .collect();
    rows.sort_by_key(|row| (row.bare == 0, row.bare_since, row.tray));
    rows
}

/// Pots that came to the bench with a clump, booked or not.
#[must_use]
pub fn pots(opened: &crate::state::ClumpOpened) -> u64 {
    let booked: u64 = opened.lots.iter().map(|lot| u64::from(lot.stands)).sum();
    booked.saturating_add(u64::from(opened.unbooked_pots))
}
