//! Open work, kept as entries come in instead of worked out whenever somebody asks.
//!
//! Invariant: what is kept is what [`crate::task::derive::all`] would give. Work of a lot rests on the lot, on all it may
//! come from, on the clump it was potted from, on its place, on the protocols and on the book's own choices; so an entry
//! that touches one of these has the work of all that rest on it worked out again, and no other. An entry that says of them
//! only what no work rests on has none worked out again: a potting moves pots and stone at every plant, and the book is
//! large.

use std::collections::{BTreeMap, BTreeSet};

use crate::entry::Entry;
use crate::event::Event;
use crate::id::{LotId, NoteTaskId, Subject};
use crate::quarantine;
use crate::task::derive::{self, Task};

use super::Facts;
use super::ways::FIRST_THING;

/// The open work of a book.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub(super) struct Due {
    lots: BTreeMap<LotId, Vec<Task>>,
    /// Apart: a map moves what it holds about.
    notes: BTreeMap<NoteTaskId, Box<Task>>,
    /// Notes by the lot they are for, decided ones too: they open again with it.
    of: BTreeSet<(LotId, NoteTaskId)>,
    about: BTreeMap<NoteTaskId, LotId>,
}

/// Whose work was worked out again.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Renewed {
    /// Everything may have changed.
    pub all: bool,
    pub lots: BTreeSet<LotId>,
    pub notes: BTreeSet<NoteTaskId>,
}

impl Renewed {
    /// Whether nobody's work was.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        !self.all && self.lots.is_empty() && self.notes.is_empty()
    }
}

impl Due {
    pub(super) fn of(facts: &Facts) -> Self {
        let mut due = Self::default();
        for id in facts.lots.keys() {
            due.renew_lot(facts, *id);
        }
        for id in facts.note_tasks.keys() {
            due.renew_note(facts, *id);
        }
        due
    }

    /// All tasks in the order of [`derive::all`].
    pub(super) fn tasks(&self) -> impl Iterator<Item = &Task> {
        let notes = self.notes.values().map(|task| &**task);
        self.lots.values().flatten().chain(notes)
    }

    /// Tasks of one lot and of one note.
    pub(super) fn of_lot(&self, id: LotId) -> &[Task] {
        self.lots.get(&id).map(Vec::as_slice).unwrap_or_default()
    }

    /// Tasks noted for a lot.
    pub(super) fn noted_for(&self, id: LotId) -> impl Iterator<Item = &Task> {
        let first = NoteTaskId(FIRST_THING);
        let notes = self.of.range((id, first)..);
        let notes = notes.take_while(move |(of, _)| *of == id);
        notes.filter_map(|(_, note)| self.of_note(*note))
    }

    pub(super) fn of_note(&self, id: NoteTaskId) -> Option<&Task> {
        self.notes.get(&id).map(|task| &**task)
    }

    /// Works out again what rests on these subjects, whose facts have changed.
    pub(super) fn renew(&mut self, facts: &Facts, touched: &BTreeSet<Subject>) -> Renewed {
        let renewed = self.resting_on(facts, touched);
        if renewed.all {
            *self = Self::of(facts);
            return renewed;
        }
        for id in &renewed.lots {
            self.renew_lot(facts, *id);
        }
        for id in &renewed.notes {
            self.renew_note(facts, *id);
        }
        renewed
    }

    /// Lots and notes whose work rests on these subjects.
    fn resting_on(&self, facts: &Facts, touched: &BTreeSet<Subject>) -> Renewed {
        let mut renewed = Renewed::default();
        let mut open: Vec<LotId> = Vec::new();
        let mut whole_book = false;
        for subject in touched {
            match subject {
                Subject::Lot(id) => open.push(*id),
                Subject::NoteTask(id) => drop(renewed.notes.insert(*id)),
                // A lot that is no longer potted from it is about the entry that says so itself.
                Subject::Clump(id) => {
                    let clump = facts.clumps.get(id);
                    open.extend(clump.iter().flat_map(|clump| &clump.lots));
                }
                // Weather of a house reaches all that stand in it, and looks for pests that were seen elsewhere; a
                // treatment that comes in late counts for who stood there then.
                Subject::Place(id) => {
                    open.extend(facts.lots_at(*id));
                    open.extend(quarantine::stood_there(facts, *id));
                    renewed.notes.extend(facts.looks());
                }
                Subject::Finding(_) => renewed.notes.extend(facts.looks()),
                Subject::Book | Subject::Protocol(_) => whole_book = true,
                // What was found or treated is about the lot or the place too; a correction of it reaches them as well.
                Subject::Phone(_)
                | Subject::Pot(_)
                | Subject::Mix(_)
                | Subject::Measure(_)
                | Subject::Feed(_)
                | Subject::Product(_)
                | Subject::Container(_)
                | Subject::Treatment(_)
                | Subject::Entry(_) => {}
            }
        }
        if whole_book {
            renewed.all = true;
            return renewed;
        }
        while let Some(id) = open.pop() {
            if !renewed.lots.insert(id) {
                continue;
            }
            if let Some(lot) = facts.lots.get(&id) {
                open.extend(lot.children.iter().chain(lot.parts.keys()).copied());
            }
        }
        let first = NoteTaskId(FIRST_THING);
        for lot in &renewed.lots {
            let notes = self.of.range((*lot, first)..);
            let notes = notes.take_while(|(of, _)| of == lot);
            renewed.notes.extend(notes.map(|(_, note)| *note));
        }
        renewed
    }

    fn renew_lot(&mut self, facts: &Facts, id: LotId) {
        let tasks = derive::of_lot(facts, id);
        if tasks.is_empty() {
            self.lots.remove(&id);
        } else {
            self.lots.insert(id, tasks);
        }
    }

    fn renew_note(&mut self, facts: &Facts, id: NoteTaskId) {
        let noted = facts.note_tasks.get(&id);
        let lot = noted.and_then(|noted| noted.noted.as_ref()?.1.lot);
        let before = match lot {
            Some(lot) => self.about.insert(id, lot),
            None => self.about.remove(&id),
        };
        if before != lot {
            before.map(|lot| self.of.remove(&(lot, id)));
            self.of.extend(lot.map(|lot| (lot, id)));
        }
        match noted.and_then(|noted| derive::of_note(facts, id, noted)) {
            Some(task) => drop(self.notes.insert(id, Box::new(task))),
            None => drop(self.notes.remove(&id)),
        }
    }
}

/// Whether an entry says nothing of a subject that open work could rest on.
pub(super) fn moves_no_work(entry: &Entry, subject: Subject) -> bool {
    let Ok(events) = &entry.events else {
        return false;
    };
    let mut said = events
        .iter()
        .filter(|event| event.subjects().contains(&subject))
        .peekable();
    said.peek().is_some() && said.all(|event| is_beside_work(event, subject))
}

/// Whether no work rests on what an event says of a subject.
fn is_beside_work(event: &Event, subject: Subject) -> bool {
    let of_place = matches!(subject, Subject::Place(_));
    match event {
        Event::Watered(_)
        | Event::Fed(_)
        | Event::PriceSet(_)
        | Event::Reserved(_)
        | Event::Released(_)
        | Event::MaterialsMoved(_)
        | Event::Sanitised(_)
        | Event::HygieneConfirmed(_)
        | Event::RotationSet(_)
        | Event::Settled(_) => true,
        // Windows lie in the other half of the year there.
        Event::BookSet(set) => set.hemisphere.is_none(),
        // A warm house has other windows.
        Event::PlaceSet(set) => set.warmth.is_none(),
        // What is seen in a place sets its own looks going, and a lot apart waits for treatments of the whole place.
        Event::Found(_) => of_place,
        Event::Treated(treated) => of_place && !treated.parts.is_empty(),
        _ => false,
    }
}
