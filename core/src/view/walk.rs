//! The Round laid out: which work makes a row, and where on the walk it stands.
//!
//! A large book has rows by the thousand, and a phone shows ten: laying out looks at every task and keeps nothing of it
//! but where it is found again; what a row says is put together where the row is drawn.

use std::borrow::Cow;
use std::collections::BTreeMap;
use std::ops::Range;

use chrono::NaiveDate;

use crate::id::{LotId, NoteTaskId, PlaceId};
use crate::state::State;
use crate::task::derive::Task;
use crate::task::{TaskKind, Trigger};

use super::buying::{BuyRow, missing_soon};
use super::round::{
    BenchRow, OnRound, RANK_DUE, RANK_LATE, RoundView, Row, RowState, Stop, Words, on_round,
    on_the_bench, rank, state_of, words,
};
use super::{PlaceLabel, places};

/// Where a task is found again.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum TaskAt {
    /// Among the open tasks of a lot.
    Lot(LotId, u16),
    Note(NoteTaskId),
    /// Among the tasks that were kept.
    Kept(usize),
}

/// A task with what its row says of it.
#[derive(Debug)]
pub struct Found<'a> {
    pub task: Cow<'a, Task>,
    pub lot: Option<OnRound>,
    /// What the grower wrote down, and whether it is the washing-up a clump left.
    pub words: Option<Words<&'a str>>,
}

/// What a Round is made of.
pub trait Source {
    fn find(&self, at: TaskAt) -> Option<Found<'_>>;
}

/// The Round of a day without what its rows say.
#[derive(Clone, Debug, PartialEq, Eq, Default)]
pub struct Walk {
    pub on: NaiveDate,
    /// Clumps on the bench, those with bare pieces first.
    pub on_the_bench: Vec<BenchRow>,
    pub stops: Vec<WalkStop>,
    pub late: usize,
    pub due: usize,
    pub questions: usize,
    /// Products a planned treatment of the next two weeks lacks.
    pub missing: Vec<BuyRow>,
    /// Tasks of each row.
    rows: Vec<Range<usize>>,
    tasks: Vec<TaskAt>,
}

/// One place on the walk.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct WalkStop {
    /// `None` for lots without a place.
    pub place: Option<PlaceLabel>,
    /// Its rows among those of the walk.
    pub rows: Range<usize>,
    /// Rows that are late or due.
    pub to_do: usize,
}

impl Walk {
    /// How many rows there are.
    #[must_use]
    pub fn rows(&self) -> usize {
        self.rows.len()
    }

    /// What these rows say; of rows whose work is gone, nothing.
    #[must_use]
    pub fn say(&self, rows: Range<usize>, source: &impl Source) -> Vec<Row> {
        let rows = self.rows.get(rows).unwrap_or_default();
        let tasks = |row: &Range<usize>| self.tasks.get(row.clone()).unwrap_or_default();
        rows.iter()
            .filter_map(|row| self.row(tasks(row), source))
            .collect()
    }

    /// The same with what every row says.
    #[must_use]
    pub fn in_full(self, source: &impl Source) -> RoundView {
        let stops = self.stops.iter().map(|stop| Stop {
            place: stop.place.clone(),
            rows: self.say(stop.rows.clone(), source),
            to_do: stop.to_do,
        });
        RoundView {
            stops: stops.collect(),
            on: self.on,
            on_the_bench: self.on_the_bench,
            late: self.late,
            due: self.due,
            questions: self.questions,
            missing: self.missing,
        }
    }

    fn row(&self, tasks: &[TaskAt], source: &impl Source) -> Option<Row> {
        let mut tasks = tasks.iter().filter_map(|at| source.find(*at));
        let first = tasks.next()?;
        let mut row = begun(&first.task, state_of(&first.task, self.on)?);
        // The book may have gone on since this was laid out, and have another task in that place.
        let of = |task: &Task| {
            let about = (task.place, task.kind, task.trigger, task.note_task);
            (about, task.due_on, task.anchor_on)
        };
        let common = of(&first.task);
        let alike = tasks.filter(|found| of(&found.task) == common);
        for found in std::iter::once(first).chain(alike) {
            add(&mut row, found);
        }
        Some(row)
    }
}

fn begun(task: &Task, state: RowState) -> Row {
    Row {
        state,
        kind: task.kind,
        trigger: task.trigger,
        anchor_on: task.anchor_on,
        due_on: task.due_on,
        priority: task.priority,
        put_off: task.put_off,
        moved_by_season: task.moved_by_season,
        weather: task.weather,
        mix_spent: task.mix_spent,
        generation: task.generation,
        tasks: Vec::new(),
        lots: Vec::new(),
        plants: 0,
        stands: 0,
        class: None,
        text: String::new(),
        washes_up: false,
        washing: None,
        last_sight: None,
    }
}

fn add(row: &mut Row, found: Found<'_>) {
    if let Some(lot) = found.lot {
        row.plants = row.plants.saturating_add(lot.label.plants);
        row.stands = row.stands.saturating_add(lot.label.stands);
        row.lots.push(lot.label);
        row.class = lot.class;
        row.last_sight = lot.last_sight.or(row.last_sight);
    }
    if let Some((words, washes_up, washing)) = found.words {
        words.clone_into(&mut row.text);
        row.washes_up = washes_up;
        row.washing = washing;
    }
    row.tasks.push(found.task.into_owned());
}

/// The walk of a day.
#[must_use]
pub fn walk(state: &State, on: NaiveDate) -> Walk {
    let facts = state.facts();
    let mut layout = Layout::new(on, places(facts));
    let mut number = Numbers::default();
    state.each_task(|task| {
        if let Some(at) = number.next(task) {
            layout.add(task, at);
        }
    });
    Walk {
        missing: missing_soon(state, on),
        ..layout.laid_out(on_the_bench(state), state.anomalies().len())
    }
}

impl Source for State {
    fn find(&self, at: TaskAt) -> Option<Found<'_>> {
        let task = match at {
            TaskAt::Lot(lot, number) => self.task_of_lot(lot, number)?,
            TaskAt::Note(note) => Cow::Owned(self.task_of_note(note)?),
            TaskAt::Kept(_) => return None,
        };
        let facts = self.facts();
        Some(Found {
            lot: on_round(facts, &task),
            words: words(facts, &task),
            task,
        })
    }
}

/// Numbers the tasks of each lot, in the order in which they come.
#[derive(Default)]
struct Numbers(Option<(LotId, u16)>);

impl Numbers {
    fn next(&mut self, task: &Task) -> Option<TaskAt> {
        if let Some(note) = task.note_task {
            return Some(TaskAt::Note(note));
        }
        let lot = task.lot?;
        let number = match self.0 {
            Some((before, number)) if before == lot => number.saturating_add(1),
            _ => 0,
        };
        self.0 = Some((lot, number));
        Some(TaskAt::Lot(lot, number))
    }
}

/// Where a row stands, in the order of the walk.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
struct Standing {
    stop: usize,
    rank: (u8, i64),
    priority: u8,
    due_on: NaiveDate,
    kind: TaskKind,
    place: usize,
    anchor_on: NaiveDate,
    trigger: Option<Trigger>,
    /// Its first task, in the order in which they came.
    first: usize,
}

/// What work of one row has in common; the grower's own stands for itself.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
struct Common {
    place: usize,
    kind: TaskKind,
    due_on: NaiveDate,
    anchor_on: NaiveDate,
    trigger: Option<Trigger>,
}

/// A walk as it grows, task by task.
pub(super) struct Layout {
    on: NaiveDate,
    places: Vec<PlaceLabel>,
    /// Number of each place: its place on the walk, then, after none at all, those that are not on it, as they come.
    numbers: BTreeMap<PlaceId, usize>,
    last: Option<(PlaceId, usize)>,
    tasks: Vec<TaskAt>,
    /// Rows of own work, and work that may share a row, with its place in the order of coming.
    own: Vec<Standing>,
    shared: Vec<(Common, Standing)>,
}

impl Layout {
    pub(super) fn new(on: NaiveDate, places: Vec<PlaceLabel>) -> Self {
        Self {
            on,
            numbers: places.iter().map(|place| place.place).zip(0..).collect(),
            last: None,
            places,
            tasks: Vec::new(),
            own: Vec::new(),
            shared: Vec::new(),
        }
    }

    /// Puts a task where it belongs, if it is shown on that day. Tasks come by lot, then the grower's own.
    pub(super) fn add(&mut self, task: &Task, at: TaskAt) {
        let Some(state) = state_of(task, self.on) else {
            return;
        };
        let place = self.number(task.place);
        let standing = Standing {
            stop: place.min(self.places.len()),
            rank: rank(state),
            priority: task.priority,
            due_on: task.due_on,
            kind: task.kind,
            place,
            anchor_on: task.anchor_on,
            trigger: task.trigger,
            first: self.tasks.len(),
        };
        self.tasks.push(at);
        if task.note_task.is_some() {
            self.own.push(standing);
            return;
        }
        let common = Common {
            place,
            kind: task.kind,
            due_on: task.due_on,
            anchor_on: task.anchor_on,
            trigger: task.trigger,
        };
        self.shared.push((common, standing));
    }

    fn number(&mut self, place: Option<PlaceId>) -> usize {
        let Some(place) = place else {
            return self.places.len();
        };
        match self.last {
            Some((last, number)) if last == place => number,
            _ => {
                let next = self.numbers.len() + 1;
                let number = *self.numbers.entry(place).or_insert(next);
                self.last = Some((place, number));
                number
            }
        }
    }

    /// The walk with these rows: by place, what has no place on it last.
    pub(super) fn laid_out(mut self, on_the_bench: Vec<BenchRow>, questions: usize) -> Walk {
        // What shares a row stands where its first task does.
        self.shared
            .sort_unstable_by_key(|(common, standing)| (*common, standing.first));
        let mut standings: Vec<(Standing, Range<usize>)> = Vec::new();
        let mut from = 0;
        for row in self.shared.chunk_by(|(a, _), (b, _)| a == b) {
            let upto = from + row.len();
            standings.extend(row.first().map(|(_, standing)| (*standing, from..upto)));
            from = upto;
        }
        standings.extend(self.own.into_iter().map(|standing| (standing, 0..0)));
        standings.sort_unstable_by_key(|(standing, _)| *standing);

        let mut walk = Walk {
            on: self.on,
            on_the_bench,
            questions,
            tasks: Vec::with_capacity(self.tasks.len()),
            rows: Vec::with_capacity(standings.len()),
            ..Walk::default()
        };
        let mut places = self.places.into_iter().enumerate().peekable();
        for stop in standings.chunk_by(|(a, _), (b, _)| a.stop == b.stop) {
            let number = stop.first().map_or(0, |(standing, _)| standing.stop);
            while places.next_if(|(at, _)| *at < number).is_some() {}
            let place = places.next_if(|(at, _)| *at == number);
            let (first, mut late, mut due) = (walk.rows.len(), 0, 0);
            for (standing, shared) in stop {
                late += usize::from(standing.rank.0 == RANK_LATE);
                due += usize::from(standing.rank.0 == RANK_DUE);
                let begins = walk.tasks.len();
                let shared = self.shared.get(shared.clone()).unwrap_or_default();
                let mut tasks = shared.iter().map(|(_, of)| of.first).collect::<Vec<_>>();
                if tasks.is_empty() {
                    tasks.push(standing.first);
                }
                let tasks = tasks.iter().filter_map(|at| self.tasks.get(*at).copied());
                walk.tasks.extend(tasks);
                walk.rows.push(begins..walk.tasks.len());
            }
            walk.late += late;
            walk.due += due;
            walk.stops.push(WalkStop {
                place: place.map(|(_, place)| place),
                rows: first..walk.rows.len(),
                to_do: late + due,
            });
        }
        walk
    }
}
