//! Open work, kept as entries come in instead of worked out whenever somebody asks.
//!
//! Invariant: what is kept is what [`crate::task::derive::all`] would give. Work of a lot rests on the lot, on all it may
//! come from, on the clump it was potted from, on its place, on the protocols and on the book's own choices; so an entry
//! that touches one of these has the work of all that rest on it worked out again, and no other.

use std::collections::{BTreeMap, BTreeSet};

use crate::id::{Dev, EntryRef, LotId, NoteTaskId, Subject, ThingId};
use crate::task::derive::{self, Task};

use super::{Born, Facts};

/// The open work of a book.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub(super) struct Due {
    lots: BTreeMap<LotId, Vec<Task>>,
    notes: BTreeMap<NoteTaskId, Task>,
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
        self.lots.values().flatten().chain(self.notes.values())
    }

    /// Tasks of one lot and of one note.
    pub(super) fn of_lot(&self, id: LotId) -> &[Task] {
        self.lots.get(&id).map(Vec::as_slice).unwrap_or_default()
    }

    pub(super) fn of_note(&self, id: NoteTaskId) -> Option<&Task> {
        self.notes.get(&id)
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
                // A clump speaks of lots that are about it in the same entry; those of before are found by their birth.
                Subject::Clump(clump) => open.extend(potted_from(
                    facts,
                    |born| matches!(born, Born::Potted { clump: from, .. } if from == clump),
                )),
                // Weather of a house and what was found reach further than one lot.
                Subject::Book | Subject::Protocol(_) | Subject::Place(_) | Subject::Finding(_) => {
                    whole_book = true;
                }
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
        let first = NoteTaskId(ThingId {
            entry: EntryRef {
                dev: Dev(0),
                seq: 0,
            },
            n: 0,
        });
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
            Some(task) => drop(self.notes.insert(id, task)),
            None => drop(self.notes.remove(&id)),
        }
    }
}

fn potted_from(facts: &Facts, from: impl Fn(&Born) -> bool) -> Vec<LotId> {
    let lots = facts.lots.iter();
    let lots = lots.filter(|(_, lot)| lot.born.as_ref().is_some_and(&from));
    lots.map(|(id, _)| *id).collect()
}
