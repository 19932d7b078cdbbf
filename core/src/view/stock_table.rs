//! The stock as a table: a line for every lot, sifted and put in order by its columns; and the open work of chosen lots.
//!
//! Lines are made once for the state of the book and hold what they are sifted and ordered by, so that typing and
//! turning the order round go through plain data alone.

use std::collections::BTreeMap;

use chrono::NaiveDate;

use crate::code::LotCode;
use crate::event::PieceClass;
use crate::id::{LotId, PlaceId};
use crate::name::PlantName;
use crate::state::State;
use crate::task::TaskKind;
use crate::task::derive::Task;
use crate::text::{Question, fold};

use super::round::{RowState, rank, state_of};
use super::{lot_label, place_label};

/// A column the lines are put in order by.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Column {
    Name,
    Code,
    /// In walking order.
    #[default]
    Place,
    Kind,
    Plants,
    Pots,
    /// What is next, the most pressing first.
    Next,
    Potted,
}

impl Column {
    pub const ALL: [Self; 8] = [
        Self::Name,
        Self::Code,
        Self::Place,
        Self::Kind,
        Self::Plants,
        Self::Pots,
        Self::Next,
        Self::Potted,
    ];
}

/// Lots by how their work stands.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Pressing {
    #[default]
    Any,
    Late,
    /// Late ones too.
    Due,
    Held,
    Nothing,
}

impl Pressing {
    pub const ALL: [Self; 5] = [Self::Any, Self::Late, Self::Due, Self::Held, Self::Nothing];

    fn lets(self, next: Option<&NextWork>) -> bool {
        let stands = next.and_then(|next| next.stands);
        match self {
            Self::Any => true,
            Self::Late => matches!(stands, Some(RowState::Late { .. })),
            Self::Due => matches!(stands, Some(RowState::Late { .. } | RowState::Due)),
            Self::Held => matches!(stands, Some(RowState::Held { .. })),
            Self::Nothing => next.is_none(),
        }
    }
}

/// The most pressing work of a lot.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct NextWork {
    pub kind: TaskKind,
    pub due_on: NaiveDate,
    /// `None` where it is too far off for the Round.
    pub stands: Option<RowState>,
}

impl NextWork {
    fn of(task: &Task, on: NaiveDate) -> Self {
        Self {
            kind: task.kind,
            due_on: task.due_on,
            stands: state_of(task, on),
        }
    }

    fn pressing(&self) -> (Option<(u8, i64)>, NaiveDate) {
        (self.stands.map(rank), self.due_on)
    }

    fn before(&self, other: &Self) -> bool {
        let (a, b) = (self.pressing(), other.pressing());
        // What the Round shows goes before what it does not.
        (a.0.is_none(), a) < (b.0.is_none(), b)
    }
}

/// A lot as a line of the table.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Line {
    pub lot: LotId,
    pub name: PlantName,
    pub code: Option<LotCode>,
    pub place: Option<PlaceId>,
    pub place_name: String,
    pub class: Option<PieceClass>,
    pub plants: i64,
    pub stands: i64,
    pub next: Option<NextWork>,
    pub potted_on: Option<NaiveDate>,
    walk: u32,
    /// The name as it is ordered and, with code and place, as it is looked for.
    plain: String,
    text: String,
}

/// What of the table is shown, and in which order.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Sieve {
    pub typed: String,
    /// `Some(None)`: lots without a place.
    pub place: Option<Option<PlaceId>>,
    pub class: Option<PieceClass>,
    pub pressing: Pressing,
    pub by: Column,
    pub down: bool,
}

impl Sieve {
    /// Turns the order round, or takes another column.
    pub fn order_by(&mut self, column: Column) {
        if self.by == column {
            self.down = !self.down;
        } else {
            self.by = column;
            self.down = false;
        }
    }

    /// Whether every line passes.
    #[must_use]
    pub fn is_open(&self) -> bool {
        self.typed.trim().is_empty()
            && self.place.is_none()
            && self.class.is_none()
            && self.pressing == Pressing::Any
    }
}

/// A line for every lot in stock.
#[must_use]
pub fn lines(state: &State, on: NaiveDate) -> Vec<Line> {
    let facts = state.facts();
    let mut next: BTreeMap<LotId, NextWork> = BTreeMap::new();
    state.each_task(|task| {
        let Some(lot) = task.lot else { return };
        let work = NextWork::of(task, on);
        next.entry(lot)
            .and_modify(|kept| {
                if work.before(kept) {
                    *kept = work;
                }
            })
            .or_insert(work);
    });
    let stocked = facts.live_lots().filter(|(_, lot)| lot.is_stocked());
    stocked
        .map(|(id, lot)| {
            let label = lot_label(facts, id);
            let place = lot.place.get().and_then(|place| place_label(facts, *place));
            let plain = label.name.plain();
            let code = label.code.map(|code| code.to_string()).unwrap_or_default();
            let place_name = place
                .as_ref()
                .map(|place| place.name.clone())
                .unwrap_or_default();
            Line {
                lot: id,
                code: label.code,
                place: place.as_ref().map(|place| place.place),
                class: lot.class,
                plants: label.plants,
                stands: label.stands,
                next: next.get(&id).copied(),
                potted_on: lot.potted.as_ref().map(|potted| potted.on),
                walk: place.map_or(u32::MAX, |place| place.walk),
                text: fold(&format!("{plain} {code} {place_name}")),
                plain: fold(&plain),
                place_name,
                name: label.name,
            }
        })
        .collect()
}

/// Places in `lines` of those that pass, in order. What a column lacks comes last, whichever way the order runs.
#[must_use]
pub fn sifted(lines: &[Line], sieve: &Sieve) -> Vec<usize> {
    let question = Question::new(&sieve.typed);
    let passes = |line: &Line| {
        sieve.place.is_none_or(|place| line.place == place)
            && sieve.class.is_none_or(|class| line.class == Some(class))
            && sieve.pressing.lets(line.next.as_ref())
            && (question.is_empty() || question.find_in(&line.text).is_some())
    };
    let mut kept: Vec<(usize, &Line)> = lines
        .iter()
        .enumerate()
        .filter(|(_, line)| passes(line))
        .collect();
    kept.sort_by(|(_, a), (_, b)| {
        let (lacks_a, lacks_b) = (lacks(a, sieve.by), lacks(b, sieve.by));
        let order = in_order(a, b, sieve.by);
        let order = if sieve.down { order.reverse() } else { order };
        lacks_a
            .cmp(&lacks_b)
            .then(order)
            .then_with(|| (a.walk, &a.plain, a.code, a.lot).cmp(&(b.walk, &b.plain, b.code, b.lot)))
    });
    kept.into_iter().map(|(at, _)| at).collect()
}

fn lacks(line: &Line, by: Column) -> bool {
    match by {
        Column::Name => line.plain.is_empty(),
        Column::Code => line.code.is_none(),
        Column::Place => line.place.is_none(),
        Column::Kind => line.class.is_none(),
        Column::Next => line.next.is_none(),
        Column::Potted => line.potted_on.is_none(),
        Column::Plants | Column::Pots => false,
    }
}

fn in_order(a: &Line, b: &Line, by: Column) -> std::cmp::Ordering {
    let pressing = |line: &Line| {
        line.next.as_ref().map(|next| {
            let pressing = next.pressing();
            (pressing.0.is_none(), pressing)
        })
    };
    match by {
        Column::Name => a.plain.cmp(&b.plain),
        Column::Code => a
            .code
            .map(|code| code.to_string())
            .cmp(&b.code.map(|code| code.to_string())),
        Column::Place => (a.walk, &a.place_name).cmp(&(b.walk, &b.place_name)),
        Column::Kind => a.class.cmp(&b.class),
        Column::Plants => a.plants.cmp(&b.plants),
        Column::Pots => a.stands.cmp(&b.stands),
        Column::Next => pressing(a).cmp(&pressing(b)),
        Column::Potted => a.potted_on.cmp(&b.potted_on),
    }
}

/// Work of the chosen lots that can be answered where one sits, by kind: what may be done today and asks nothing further.
#[must_use]
pub fn open_work(state: &State, lots: &[LotId], on: NaiveDate) -> Vec<(TaskKind, Vec<Task>)> {
    let mut by_kind: BTreeMap<TaskKind, Vec<Task>> = BTreeMap::new();
    for task in lots.iter().flat_map(|lot| state.tasks_of(*lot)) {
        let def = task.kind.def();
        let now = matches!(
            state_of(&task, on),
            Some(RowState::Late { .. } | RowState::Due | RowState::MayStart { .. })
        );
        if now && !def.at_bench && !def.on_page && !def.asks_outcome && !def.treats {
            by_kind.entry(task.kind).or_default().push(task);
        }
    }
    by_kind.into_iter().collect()
}
