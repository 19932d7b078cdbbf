//! What the Round shows, kept as bytes, so that the first screen of a large book does not wait for the whole of it.
//!
//! A cache that may be thrown away: it is shown only where it stands for the very lines that are stored, read by the very
//! program that wrote it. Then what it gives is what [`super::round::round`] gives of the whole book, for any day. It comes
//! in pieces: a head, parts of tasks by the day they are due, and a tail for each change since. A day's Round needs the
//! parts up to a week after it.

use std::collections::BTreeSet;

use chrono::NaiveDate;

use crate::climate::Mean;
use crate::code::Prefix;
use crate::event::{PieceClass, Sight, TaskKey};
use crate::id::{ClumpId, LotId, NoteTaskId, PlaceId, ProtocolId, Subject};
use crate::name::PlantName;
use crate::pack::{Packer, Unpacker};
use crate::state::{Born, Renewed, State};
use crate::task::derive::Task;
use crate::task::weather::WeatherMove;
use crate::task::{KINDS, Trigger};
use crate::time::plus_days;

use super::round::{
    BenchRow, COMING_DAYS, OnRound, RoundView, Rows, on_round, on_the_bench, words,
};
use super::{LotLabel, PlaceLabel, places};

/// Form of these bytes.
const FORM: u64 = 2;
/// Tasks of one part.
const PART_TASKS: usize = 4_096;

/// What the pieces rest on: the last line in the storage, and the program that wrote them.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Basis<'a> {
    pub arrival: u64,
    pub build: &'a str,
}

/// A task with what its row says.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct KeptTask {
    pub task: Task,
    pub lot: Option<OnRound>,
    /// What the grower wrote down, and whether it is the washing-up a clump left.
    pub words: Option<(String, bool)>,
    /// What another program calls the task and its lot.
    pub outside_ref: String,
    pub lot_outside_ref: String,
    /// Its number among the tasks of its lot.
    number: u16,
}

/// What the Round shows beside tasks.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
struct Beside {
    places: Vec<PlaceLabel>,
    on_the_bench: Vec<BenchRow>,
    questions: usize,
    no_lots: bool,
    /// Until when a treatment may keep people out of somewhere: that is never left unsaid, not for a moment.
    bound_until_ms: i64,
    /// Containers are kept, or a pest's next generation is looked for: what the Round says of these is worked out of the
    /// whole book.
    needs_all: bool,
}

impl Beside {
    fn of(state: &State) -> Self {
        let facts = state.facts();
        Self {
            places: places(facts),
            on_the_bench: on_the_bench(state),
            questions: state.anomalies().len(),
            no_lots: facts.lots.is_empty(),
            bound_until_ms: facts.bound_until_ms().unwrap_or(i64::MIN),
            needs_all: !facts.containers.is_empty() || facts.looks().next().is_some(),
        }
    }

    fn pack(&self, packer: &mut Packer) {
        packer.size(self.places.len());
        for place in &self.places {
            packer.thing(place.place.0);
            packer.once(&place.name);
            packer.num(place.walk);
            packer.num(u8::from(place.open_to_rain));
        }
        packer.size(self.on_the_bench.len());
        for row in &self.on_the_bench {
            packer.thing(row.clump.0);
            packer.num(row.tray);
            pack_name(packer, &row.name);
            packer.num(row.pots);
            packer.num(row.bare);
            packer.maybe(row.bare_since, |packer, (on, minute)| {
                packer.day(on);
                packer.num(minute);
            });
            packer.day(row.opened_on);
        }
        packer.size(self.questions);
        packer.num(u8::from(self.no_lots));
        packer.int(self.bound_until_ms);
        packer.num(u8::from(self.needs_all));
    }

    fn unpack(reader: &mut Unpacker<'_>) -> Option<Self> {
        let mut beside = Self::default();
        for _ in 0..reader.num()? {
            beside.places.push(PlaceLabel {
                place: PlaceId(reader.thing()?),
                name: reader.once()?.to_owned(),
                walk: reader.small()?,
                open_to_rain: reader.num()? == 1,
            });
        }
        for _ in 0..reader.num()? {
            beside.on_the_bench.push(BenchRow {
                clump: ClumpId(reader.thing()?),
                tray: reader.small()?,
                name: name(reader)?,
                pots: reader.num()?,
                bare: reader.num()?,
                bare_since: reader.maybe(|reader| Some((reader.day()?, reader.small()?)))?,
                opened_on: reader.day()?,
            });
        }
        beside.questions = reader.small()?;
        beside.no_lots = reader.num()? == 1;
        beside.bound_until_ms = reader.int()?;
        beside.needs_all = reader.num()? == 1;
        Some(beside)
    }
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
    pub fn whole(&mut self, state: &State, basis: Basis<'_>) -> Pieces {
        self.beside = Beside::of(state);
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
    pub fn tail(&mut self, state: &State, renewed: &Renewed, arrival: u64) -> Option<Vec<u8>> {
        let before = self.arrival.replace(arrival)?;
        if renewed.all {
            return None;
        }
        self.since.lots.extend(&renewed.lots);
        self.since.notes.extend(&renewed.notes);
        let beside = Beside::of(state);
        let changed = beside != self.beside;
        self.beside = beside;
        let beside = changed.then_some(&self.beside);
        Some(packed_tail(state, (before, arrival), renewed, beside))
    }

    /// What changed since the Round was last written whole, in place of every tail there is; `None` where that is so much
    /// that it is better written whole. So the work of keeping follows what is done, and not the size of the book.
    pub fn gathered(&mut self, state: &State, renewed: &Renewed, arrival: u64) -> Option<Vec<u8>> {
        self.arrival?;
        self.since.lots.extend(&renewed.lots);
        self.since.notes.extend(&renewed.notes);
        let changed = self.since.lots.len() + self.since.notes.len();
        let all = state.facts().lots.len() + state.facts().note_tasks.len();
        if renewed.all || changed.saturating_mul(WHOLE_AGAIN) > all {
            return None;
        }
        self.arrival = Some(arrival);
        self.beside = Beside::of(state);
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
        let mut tasks: Vec<&KeptTask> = self.tasks.iter().collect();
        tasks.sort_by_key(|kept| (kept.task.note_task, kept.task.lot, kept.number));
        tasks
    }

    /// Whether the Round may be shown from this alone: not while a treatment may keep people out of somewhere, and not
    /// where what it says rests on more than is kept.
    #[must_use]
    pub const fn says_all(&self, now_ms: i64) -> bool {
        self.beside.bound_until_ms <= now_ms && !self.beside.needs_all
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
    pub fn round(&self, on: NaiveDate) -> RoundView {
        let mut rows = Rows::on(on);
        for kept in self.tasks() {
            rows.add(
                &kept.task,
                || kept.lot.clone(),
                || {
                    kept.words
                        .as_ref()
                        .map(|(text, washes_up)| (text.as_str(), *washes_up))
                },
            );
        }
        let beside = self.beside.clone();
        rows.laid_out(beside.places, beside.on_the_bench, beside.questions)
    }
}

fn is_of(task: &Task, lots: &BTreeSet<LotId>, notes: &BTreeSet<NoteTaskId>) -> bool {
    match (task.note_task, task.lot) {
        (Some(note), _) => notes.contains(&note),
        (None, Some(lot)) => lots.contains(&lot),
        (None, None) => false,
    }
}

fn pack_name(packer: &mut Packer, name: &PlantName) {
    // A name always is JSON.
    packer.text(&serde_json::to_string(name).unwrap_or_default());
}

fn name(reader: &mut Unpacker<'_>) -> Option<PlantName> {
    serde_json::from_str(reader.text()?).ok()
}

fn place_of<T: PartialEq>(all: &[T], one: &T) -> usize {
    all.iter().position(|it| it == one).unwrap_or(usize::MAX)
}

fn pack_task(packer: &mut Packer, state: &State, number: u16, task: &Task) {
    let facts = state.facts();
    packer.num(number);
    packer.maybe(task.lot, |packer, lot| packer.thing(lot.0));
    packer.maybe(task.note_task, |packer, note| packer.thing(note.0));
    packer.entry(task.key.anchor);
    packer.num(task.key.event);
    let own = own_subject(task.lot, task.note_task);
    let other = (own != Some(task.key.subject)).then_some(task.key.subject);
    packer.maybe(other, |packer, other| packer.once(&other.to_string()));
    packer.text(&task.key.step);
    packer.num(task.key.repeat);
    packer.size(
        KINDS
            .iter()
            .position(|row| row.kind == task.kind)
            .unwrap_or(usize::MAX),
    );
    packer.maybe(task.place, |packer, place| packer.thing(place.0));
    packer.day(task.due_on);
    packer.day(task.from_on);
    packer.day(task.until_on);
    packer.day(task.anchor_on);
    packer.maybe(task.trigger, |packer, trigger| {
        packer.size(place_of(&Trigger::ALL, &trigger))
    });
    packer.maybe(task.protocol, |packer, protocol| packer.thing(protocol.0));
    packer.num(task.revision);
    packer.num(task.priority);
    packer.num(task.minutes_tenths);
    let marks = [task.put_off, task.moved_by_season, task.mix_spent];
    packer.num(
        marks
            .iter()
            .fold(0u8, |bits, mark| bits << 1 | u8::from(*mark)),
    );
    packer.maybe(task.weather, |packer, moved| {
        packer.int(i64::from(moved.days));
        packer.int(i64::from(moved.mean.mc));
        packer.num(moved.mean.read);
        packer.num(moved.mean.of);
        packer.day(moved.mean.last_on);
    });
    packer.maybe(on_round(facts, task), |packer, lot| {
        packer.maybe(lot.label.code, |packer, code| {
            packer.text(&code.prefix().to_string());
            packer.num(code.counter());
        });
        pack_name(packer, &lot.label.name);
        packer.int(lot.label.plants);
        packer.int(lot.label.stands);
        packer.maybe(lot.class, |packer, class| {
            packer.size(place_of(&PieceClass::ALL, &class))
        });
        packer.maybe(lot.last_sight, |packer, sight| {
            packer.size(place_of(&Sight::ALL, &sight))
        });
    });
    packer.maybe(words(facts, task), |packer, (text, washes_up)| {
        packer.text(text);
        packer.num(u8::from(washes_up));
    });
    let noted = task
        .note_task
        .and_then(|id| facts.note_tasks.get(&id)?.noted.as_ref());
    packer.once(noted.map_or("", |(_, noted)| &noted.outside_ref));
    let lot = task.lot.and_then(|id| facts.lots.get(&id)?.born.as_ref());
    packer.once(match lot {
        Some(Born::Received { outside_ref, .. }) if noted.is_some() => outside_ref,
        _ => "",
    });
}

fn own_subject(lot: Option<LotId>, note: Option<NoteTaskId>) -> Option<Subject> {
    note.map(Subject::NoteTask).or(lot.map(Subject::Lot))
}

fn task(reader: &mut Unpacker<'_>) -> Option<KeptTask> {
    let number = reader.small()?;
    let lot = reader.maybe(|reader| reader.thing().map(LotId))?;
    let note_task = reader.maybe(|reader| reader.thing().map(NoteTaskId))?;
    let anchor = reader.entry()?;
    let event = reader.small()?;
    let other = reader.maybe(Unpacker::parsed::<Subject>)?;
    let key = TaskKey {
        anchor,
        event,
        subject: other.or_else(|| own_subject(lot, note_task))?,
        step: reader.text()?.to_owned(),
        repeat: reader.small()?,
    };
    let mut kept = Task {
        key,
        kind: KINDS.get(reader.small::<usize>()?)?.kind,
        lot,
        note_task,
        place: reader.maybe(|reader| reader.thing().map(PlaceId))?,
        due_on: reader.day()?,
        from_on: reader.day()?,
        until_on: reader.day()?,
        anchor_on: reader.day()?,
        trigger: reader.maybe(|reader| Trigger::ALL.get(reader.small::<usize>()?).copied())?,
        protocol: reader.maybe(|reader| reader.thing().map(ProtocolId))?,
        revision: reader.small()?,
        priority: reader.small()?,
        minutes_tenths: reader.small()?,
        put_off: false,
        moved_by_season: false,
        weather: None,
        mix_spent: false,
        generation: None,
    };
    let marks = reader.num()?;
    kept.put_off = marks & 4 != 0;
    kept.moved_by_season = marks & 2 != 0;
    kept.mix_spent = marks & 1 != 0;
    kept.weather = reader.maybe(|reader| {
        Some(WeatherMove {
            days: i32::try_from(reader.int()?).ok()?,
            mean: Mean {
                mc: i32::try_from(reader.int()?).ok()?,
                read: reader.small()?,
                of: reader.small()?,
                last_on: reader.day()?,
            },
        })
    })?;
    let on_round = reader.maybe(|reader| {
        Some(OnRound {
            label: LotLabel {
                lot: lot?,
                code: reader
                    .maybe(|reader| Prefix::parse(reader.text()?)?.code(reader.small()?))?,
                name: name(reader)?,
                plants: reader.int()?,
                stands: reader.int()?,
            },
            class: reader.maybe(|reader| PieceClass::ALL.get(reader.small::<usize>()?).copied())?,
            last_sight: reader.maybe(|reader| Sight::ALL.get(reader.small::<usize>()?).copied())?,
        })
    })?;
    Some(KeptTask {
        task: kept,
        lot: on_round,
        words: reader.maybe(|reader| Some((reader.text()?.to_owned(), reader.num()? == 1)))?,
        outside_ref: reader.once()?.to_owned(),
        lot_outside_ref: reader.once()?.to_owned(),
        number,
    })
}
