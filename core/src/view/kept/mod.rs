//! What the Round shows, kept as bytes, so that the first screen of a large book does not wait for the whole of it.
//!
//! A cache that may be thrown away: it is shown only where it stands for the very lines that are stored, read by the very
//! program that wrote it. Then what it gives is what [`super::round::round`] gives of the whole book, for any day. It comes
//! in pieces: a head, parts of tasks by the day they are due, and a tail for each change since. A day's Round needs the
//! parts up to a week after it.

mod beside;
mod task;

use std::borrow::Cow;
use std::collections::BTreeSet;

use chrono::NaiveDate;

use crate::id::{LotId, NoteTaskId};
use crate::pack::{Packer, Unpacker};
use crate::state::{Renewed, State};
use crate::task::derive::Task;
use crate::time::plus_days;

use super::PlaceLabel;
use super::reentry::Bound;
use super::round::COMING_DAYS;
use super::walk::{Found, Layout, Source, TaskAt, Walk};

use beside::Beside;
pub use task::KeptTask;
use task::{pack_task, task};

/// Form of these bytes.
const FORM: u64 = 3;
/// Tasks of one part.
const PART_TASKS: usize = 4_096;

/// What the pieces rest on: the last line in the storage, and the program that wrote them.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Basis<'a> {
    pub arrival: u64,
    pub build: &'a str,
}

/// The pieces of a whole Round: head and parts.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Pieces {
    pub head: Vec<u8>,
    pub parts: Vec<Vec<u8>>,
}

/// Of so many things in the book one may have changed since the Round was written whole, before it is again.
const WHOLE_AGAIN: usize = 4;

/// Writes a Round out whole, and tails after it.
#[derive(Clone, Debug, Default)]
pub struct Keeper {
    beside: Beside,
    /// Where it stands; nothing is kept before the first whole one.
    arrival: Option<u64>,
    /// Where the last whole one stands, and whose work changed since.
    whole_at: u64,
    since: Renewed,
}

impl Keeper {
    /// Goes on after what was kept and opened.
    #[must_use]
    pub fn going_on(kept: &Kept, basis: Basis<'_>) -> Self {
        Self {
            beside: kept.beside.clone(),
            arrival: Some(basis.arrival),
            whole_at: kept.whole_at,
            since: Renewed {
                all: false,
                lots: kept.lots.clone(),
                notes: kept.notes.clone(),
            },
        }
    }

    /// Whether what was written stands for these lines already.
    #[must_use]
    pub fn stands_at(&self, arrival: u64) -> bool {
        self.arrival == Some(arrival)
    }

    /// Everything anew.
    pub fn whole(&mut self, state: &State, now_ms: i64, basis: Basis<'_>) -> Pieces {
        self.beside = Beside::of(state, now_ms);
        self.arrival = Some(basis.arrival);
        self.whole_at = basis.arrival;
        self.since = Renewed::default();
        let mut tasks: Vec<(u16, Task)> = Vec::new();
        state.each_task(|task| {
            let before = tasks
                .last()
                .filter(|(_, before)| (before.lot, before.note_task) == (task.lot, task.note_task));
            let number = before.map_or(0, |(number, _)| number.saturating_add(1));
            tasks.push((number, task.clone()));
        });
        tasks.sort_by_key(|(_, task)| shown_from(task));
        let mut head = Packer::default();
        head.num(FORM);
        head.once(basis.build);
        head.num(basis.arrival);
        let chunks = tasks.chunks(PART_TASKS);
        head.size(chunks.len());
        let mut parts = Vec::new();
        for chunk in chunks {
            let first = chunk.first();
            head.day(first.map_or(NaiveDate::MAX, |(_, task)| shown_from(task)));
            let mut part = Packer::default();
            for (number, task) in chunk {
                pack_task(&mut part, state, *number, task);
            }
            parts.push(part.done());
        }
        self.beside.pack(&mut head);
        Pieces {
            head: head.done(),
            parts,
        }
    }

    /// What changed; `None` where it has to be written whole.
    pub fn tail(
        &mut self,
        state: &State,
        now_ms: i64,
        renewed: &Renewed,
        arrival: u64,
    ) -> Option<Vec<u8>> {
        let before = self.arrival.replace(arrival)?;
        if renewed.all {
            return None;
        }
        self.since.lots.extend(&renewed.lots);
        self.since.notes.extend(&renewed.notes);
        let beside = Beside::of(state, now_ms);
        let changed = beside != self.beside;
        self.beside = beside;
        let beside = changed.then_some(&self.beside);
        Some(packed_tail(state, (before, arrival), renewed, beside))
    }

    /// What changed since the Round was last written whole, in place of every tail there is; `None` where that is so much
    /// that it is better written whole. So the work of keeping follows what is done, and not the size of the book.
    pub fn gathered(
        &mut self,
        state: &State,
        now_ms: i64,
        renewed: &Renewed,
        arrival: u64,
    ) -> Option<Vec<u8>> {
        self.arrival?;
        self.since.lots.extend(&renewed.lots);
        self.since.notes.extend(&renewed.notes);
        let changed = self.since.lots.len() + self.since.notes.len();
        let all = state.facts().lots.len() + state.facts().note_tasks.len();
        if renewed.all || changed.saturating_mul(WHOLE_AGAIN) > all {
            return None;
        }
        self.arrival = Some(arrival);
        self.beside = Beside::of(state, now_ms);
        let span = (self.whole_at, arrival);
        Some(packed_tail(state, span, &self.since, Some(&self.beside)))
    }
}

fn packed_tail(
    state: &State,
    (before, arrival): (u64, u64),
    renewed: &Renewed,
    beside: Option<&Beside>,
) -> Vec<u8> {
    let mut tail = Packer::default();
    tail.num(before);
    tail.num(arrival);
    tail.size(renewed.lots.len());
    for lot in &renewed.lots {
        tail.thing(lot.0);
    }
    tail.size(renewed.notes.len());
    for note in &renewed.notes {
        tail.thing(note.0);
    }
    tail.maybe(beside, |tail, beside| beside.pack(tail));
    for lot in &renewed.lots {
        for (number, task) in (0u16..).zip(state.tasks_of(*lot)) {
            pack_task(&mut tail, state, number, &task);
        }
    }
    for note in &renewed.notes {
        if let Some(task) = state.task_of_note(*note) {
            pack_task(&mut tail, state, 0, &task);
        }
    }
    tail.done()
}

/// The first day a task can be shown on.
fn shown_from(task: &Task) -> NaiveDate {
    if task.kind.def().holds {
        return NaiveDate::MIN;
    }
    plus_days(task.due_on, -COMING_DAYS).min(task.until_on)
}

/// A Round that was kept, as far as its parts were read.
#[derive(Clone, Debug, Default)]
pub struct Kept {
    beside: Beside,
    /// The line up to which its parts stand, tails left out.
    whole_at: u64,
    /// First day of each part, and whether it was read.
    parts: Vec<(NaiveDate, bool)>,
    /// Whose tasks in the parts are out of date.
    lots: BTreeSet<LotId>,
    notes: BTreeSet<NoteTaskId>,
    tasks: Vec<KeptTask>,
}

impl Kept {
    /// Reads head and tails; `None` where they do not stand for these lines and this program.
    #[must_use]
    pub fn open(head: &[u8], tails: &[impl AsRef<[u8]>], basis: Basis<'_>) -> Option<Self> {
        let mut reader = Unpacker::new(head);
        if reader.num()? != FORM || reader.once()? != basis.build {
            return None;
        }
        let mut arrival = reader.num()?;
        let mut kept = Self {
            whole_at: arrival,
            ..Self::default()
        };
        for _ in 0..reader.num()? {
            kept.parts.push((reader.day()?, false));
        }
        kept.beside = Beside::unpack(&mut reader)?;
        for tail in tails {
            let mut reader = Unpacker::new(tail.as_ref());
            if reader.num()? != arrival {
                return None;
            }
            arrival = reader.num()?;
            kept.take_tail(&mut reader)?;
        }
        (arrival == basis.arrival).then_some(kept)
    }

    fn take_tail(&mut self, reader: &mut Unpacker<'_>) -> Option<()> {
        let (mut lots, mut notes) = (BTreeSet::new(), BTreeSet::new());
        for _ in 0..reader.num()? {
            lots.insert(LotId(reader.thing()?));
        }
        for _ in 0..reader.num()? {
            notes.insert(NoteTaskId(reader.thing()?));
        }
        if let Some(beside) = reader.maybe(Beside::unpack)? {
            self.beside = beside;
        }
        self.tasks.retain(|kept| !is_of(&kept.task, &lots, &notes));
        while !reader.is_at_end() {
            self.tasks.push(task(reader)?);
        }
        self.lots.extend(lots);
        self.notes.extend(notes);
        Some(())
    }

    /// Parts that the Round of a day, or tasks due up to it, still need.
    #[must_use]
    pub fn missing(&self, on: NaiveDate) -> Vec<usize> {
        let parts = self.parts.iter().enumerate();
        let needed = parts.filter(|(_, (from, read))| !read && *from <= on);
        needed.map(|(number, _)| number).collect()
    }

    /// Adds a part that was read; `None` where it is damaged.
    pub fn add(&mut self, number: usize, bytes: &[u8]) -> Option<()> {
        let mut reader = Unpacker::new(bytes);
        while !reader.is_at_end() {
            let kept = task(&mut reader)?;
            if !is_of(&kept.task, &self.lots, &self.notes) {
                self.tasks.push(kept);
            }
        }
        self.parts.get_mut(number)?.1 = true;
        Some(())
    }

    /// Tasks as far as they were read, in the order in which the Round takes them.
    #[must_use]
    pub fn tasks(&self) -> Vec<&KeptTask> {
        let in_turn = self.in_turn().into_iter();
        in_turn.filter_map(|at| self.tasks.get(at)).collect()
    }

    fn in_turn(&self) -> Vec<usize> {
        let mut turns: Vec<_> = (0..)
            .zip(&self.tasks)
            .map(|(at, kept)| (kept.task.note_task, kept.task.lot, kept.number, at))
            .collect();
        turns.sort_unstable();
        turns.into_iter().map(|(.., at)| at).collect()
    }

    /// Whether the Round may be shown from this alone: not where what it says rests on more than is kept.
    #[must_use]
    pub const fn says_all(&self) -> bool {
        !self.beside.needs_all
    }

    /// All that nobody goes near at an instant, as [`super::reentry::bound`] gives it: never left unsaid, not for a moment.
    #[must_use]
    pub fn bounds(&self, now_ms: i64) -> Vec<Bound> {
        let rows = self.beside.bounds.iter();
        rows.filter(|row| row.until_ms > now_ms).cloned().collect()
    }

    /// Whether the book holds no lots yet.
    #[must_use]
    pub const fn no_lots(&self) -> bool {
        self.beside.no_lots
    }

    /// Places in use, in walking order.
    #[must_use]
    pub fn places(&self) -> &[PlaceLabel] {
        &self.beside.places
    }

    /// The Round of a day whose parts were read.
    #[must_use]
    pub fn walk(&self, on: NaiveDate) -> Walk {
        let beside = self.beside.clone();
        let mut layout = Layout::new(on, beside.places);
        for at in self.in_turn() {
            if let Some(kept) = self.tasks.get(at) {
                layout.add(&kept.task, TaskAt::Kept(at));
            }
        }
        layout.laid_out(beside.on_the_bench, beside.questions)
    }
}

impl Source for Kept {
    fn find(&self, at: TaskAt) -> Option<Found<'_>> {
        let TaskAt::Kept(at) = at else {
            return None;
        };
        let kept = self.tasks.get(at)?;
        let words = kept.words.as_ref();
        Some(Found {
            task: Cow::Borrowed(&kept.task),
            lot: kept.lot.clone(),
            words: words.map(|(text, washes_up, washing)| (text.as_str(), *washes_up, *washing)),
        })
    }
}

fn is_of(task: &Task, lots: &BTreeSet<LotId>, notes: &BTreeSet<NoteTaskId>) -> bool {
    match (task.note_task, task.lot) {
        (Some(note), _) => notes.contains(&note),
        (None, Some(lot)) => lots.contains(&lot),
        (None, None) => false,
    }
}
