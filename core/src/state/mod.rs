//! What the book says: the facts of every subject, folded from the log.
//!
//! Invariants. [`State::take`] never fails on a line that is an entry, and never panics. What an entry does to a
//! subject depends on that subject's facts and the entry alone: inheritance, sums, rotation and tracing are views over
//! the result. So a late entry folds anew only what it is about, and any order of arrival gives the same facts. State
//! holds no float; maps are ordered; arithmetic saturates.
//!
//! What the facts contradict is an anomaly: the grower is asked, nothing is dropped.

mod anomaly;
mod apart;
mod clock;
mod clump;
mod containers;
mod due;
mod field;
mod finder;
mod house;
mod lot;
mod materials;
mod measures;
mod reserve;
mod shelf;
mod water;
mod ways;

pub use anomaly::{Anomaly, FieldKey};
pub use apart::{Apart, Release, Stay, Tested};
pub use clump::{Clump, ClumpClosed, ClumpOpened, Taken};
pub use containers::{Container, Counted, Level, levels};
pub use due::Renewed;
pub use field::Field;
pub use finder::{Finder, Hit};
pub use house::House;
pub use lot::{Anchor, Born, Change, Decision, Lot, PlannedCut, Potted, SightSeen, Stood};
pub use materials::{Cleaning, Heap, MaterialKind, Materials, Standing};
pub use measures::MeasureFacts;
pub use reserve::Reserve;
pub use shelf::{
    BookFacts, Finding, Group, Left, Mix, NoteTask, Phone, Place, Pot, PriceFacts, Product,
    ProtocolFacts, Revision, Treatment, Washing,
};
pub use water::{FeedFacts, Watering, Waterings};

use std::borrow::Cow;
use std::collections::{BTreeMap, BTreeSet};
use std::sync::OnceLock;

use serde::Serialize;
use sha2::{Digest, Sha256};

use crate::entry::{LineHash, Locked, NotAnEntry};
use crate::id::*;
use crate::log::{Fact, Inserted, Log};
use crate::task::derive::{self, Task};
use due::Due;
use ways::{Known, Ways};

/// Version of the rules by which entries become facts. Raised whenever the golden fold changes.
pub const RULES: u32 = 3;

const FINGERPRINT_LETTERS: usize = 8;

/// The log and what follows from it.
#[derive(Clone, Debug, Default)]
pub struct State {
    log: Log,
    facts: Facts,
    /// Open work, where somebody asked for it to be kept.
    due: Option<Due>,
    /// Whose work was worked out again since somebody asked.
    renewed: Renewed,
    /// Lots ready to be looked for, once somebody looked, until something changes.
    finder: OnceLock<Finder>,
}

/// The facts of all subjects.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize)]
pub struct Facts {
    pub book: BookFacts,
    pub phones: BTreeMap<Dev, Phone>,
    pub places: BTreeMap<PlaceId, Place>,
    pub pots: BTreeMap<PotId, Pot>,
    pub mixes: BTreeMap<MixId, Mix>,
    #[serde(skip_serializing_if = "BTreeMap::is_empty")]
    pub feeds: BTreeMap<FeedId, FeedFacts>,
    #[serde(skip_serializing_if = "BTreeMap::is_empty")]
    pub measures: BTreeMap<MeasureId, MeasureFacts>,
    pub products: BTreeMap<ProductId, Product>,
    #[serde(skip_serializing_if = "BTreeMap::is_empty")]
    pub containers: BTreeMap<ContainerId, Container>,
    /// Apart: a map of many moves what it holds, and has room for twice as much.
    pub lots: BTreeMap<LotId, Box<Lot>>,
    pub clumps: BTreeMap<ClumpId, Clump>,
    pub treatments: BTreeMap<TreatmentId, Treatment>,
    pub findings: BTreeMap<FindingId, Finding>,
    pub protocols: BTreeMap<ProtocolId, ProtocolFacts>,
    pub note_tasks: BTreeMap<NoteTaskId, Box<NoteTask>>,
    /// Subjects with entries this version cannot read.
    pub locked: BTreeMap<Subject, BTreeMap<EntryRef, Locked>>,
    #[serde(skip)]
    ways: Ways,
}

/// What came of taking a line.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Took {
    Known,
    Parked,
    /// These entries count now.
    Added(Vec<EntryRef>),
    /// A copied phone was found and all facts were folded anew.
    Refolded,
}

impl State {
    /// Takes a line into the book.
    ///
    /// # Errors
    /// [`NotAnEntry`] when the line is not an entry; nothing has changed.
    pub fn take(&mut self, line: &str) -> Result<Took, NotAnEntry> {
        let mut touched = BTreeSet::new();
        let took = self.take_in(line, LineHash::of(line), &mut touched)?;
        self.renew(took == Took::Refolded, &touched);
        Ok(took)
    }

    /// Takes many lines, in any order; gives how many are no entries.
    pub fn take_all<'a>(&mut self, lines: impl IntoIterator<Item = &'a str>) -> usize {
        self.take_hashed(lines.into_iter().map(|line| (line, LineHash::of(line))))
    }

    /// The same for lines whose hashes were worked out before.
    pub fn take_hashed<'a>(
        &mut self,
        lines: impl IntoIterator<Item = (&'a str, LineHash)>,
    ) -> usize {
        let mut touched = BTreeSet::new();
        let mut refolded = false;
        let mut refused = 0;
        for (line, hash) in lines {
            match self.take_in(line, hash, &mut touched) {
                Ok(took) => refolded |= took == Took::Refolded,
                Err(_) => refused += 1,
            }
        }
        self.renew(refolded, &touched);
        refused
    }

    fn take_in(
        &mut self,
        line: &str,
        hash: LineHash,
        touched: &mut BTreeSet<Subject>,
    ) -> Result<Took, NotAnEntry> {
        let inserted = self.log.insert_hashed(line, hash)?;
        if matches!(inserted, Inserted::Added(_) | Inserted::Forked) {
            self.finder = OnceLock::new();
        }
        Ok(match inserted {
            Inserted::Known => Took::Known,
            Inserted::Parked => Took::Parked,
            Inserted::Added(added) => {
                match added.as_slice() {
                    [id] => self.fold_in(*id, touched),
                    // A gap closed: the log holds all of them already, so none of them is simply the next.
                    several => {
                        let about: BTreeSet<Subject> = several
                            .iter()
                            .flat_map(|id| self.log.touched_by(*id))
                            .collect();
                        for subject in &about {
                            self.facts.fold_anew(&self.log, *subject);
                        }
                        touched.extend(about);
                    }
                }
                Took::Added(added)
            }
            Inserted::Forked => {
                self.fold_all();
                Took::Refolded
            }
        })
    }

    fn renew(&mut self, refolded: bool, touched: &BTreeSet<Subject>) {
        let Some(due) = &mut self.due else { return };
        if refolded {
            *due = Due::of(&self.facts);
            self.renewed.all = true;
        } else {
            let renewed = due.renew(&self.facts, touched);
            self.renewed.all |= renewed.all;
            self.renewed.lots.extend(renewed.lots);
            self.renewed.notes.extend(renewed.notes);
        }
    }

    /// From now on open work is kept as entries come in, and asking for it costs nothing.
    pub fn keep_work(&mut self) {
        if self.due.is_none() {
            self.due = Some(Due::of(&self.facts));
        }
    }

    /// Before a book's worth of lines comes in: working all of it out once, afterwards, takes less than keeping up.
    pub fn rest_from_work(&mut self) {
        if self.due.take().is_some() {
            self.renewed.all = true;
        }
    }

    /// Whose work was worked out again since this was last asked.
    pub fn take_renewed(&mut self) -> Renewed {
        std::mem::take(&mut self.renewed)
    }

    /// Every open task of the book, by lot and then the grower's own; worked out now where it is not kept.
    pub fn each_task(&self, mut look: impl FnMut(&Task)) {
        match &self.due {
            Some(due) => due.tasks().for_each(look),
            None => derive::all(&self.facts).iter().for_each(&mut look),
        }
    }

    /// Lots in stock, ready to be looked for.
    pub fn finder(&self) -> &Finder {
        self.finder.get_or_init(|| Finder::of(&self.facts))
    }

    /// Open tasks of a lot.
    #[must_use]
    pub fn tasks_of(&self, id: LotId) -> Vec<Task> {
        match &self.due {
            Some(due) => due.of_lot(id).to_vec(),
            None => derive::of_lot(&self.facts, id),
        }
    }

    /// One of them, by its number.
    #[must_use]
    pub fn task_of_lot(&self, id: LotId, number: u16) -> Option<Cow<'_, Task>> {
        let number = usize::from(number);
        match &self.due {
            Some(due) => due.of_lot(id).get(number).map(Cow::Borrowed),
            None => derive::of_lot(&self.facts, id)
                .into_iter()
                .nth(number)
                .map(Cow::Owned),
        }
    }

    /// Open tasks the grower noted for a lot.
    #[must_use]
    pub fn tasks_noted_for(&self, id: LotId) -> Vec<Task> {
        match &self.due {
            Some(due) => due.noted_for(id).cloned().collect(),
            None => {
                let notes = self.facts.note_tasks.iter();
                notes
                    .filter_map(|(note, task)| derive::of_note(&self.facts, *note, task))
                    .filter(|task| task.lot == Some(id))
                    .collect()
            }
        }
    }

    /// The open task of a note.
    #[must_use]
    pub fn task_of_note(&self, id: NoteTaskId) -> Option<Task> {
        match &self.due {
            Some(due) => due.of_note(id).cloned(),
            None => derive::of_note(&self.facts, id, self.facts.note_tasks.get(&id)?),
        }
    }

    /// Builds a state from lines in any order; lines that are not entries are counted, not taken.
    #[must_use]
    pub fn of_lines<'a>(lines: impl IntoIterator<Item = &'a str>) -> (Self, usize) {
        let mut state = Self::default();
        let refused = state.take_all(lines);
        (state, refused)
    }

    fn fold_in(&mut self, id: EntryRef, touched: &mut BTreeSet<Subject>) {
        let Some(entry) = self.log.entry(id) else {
            return;
        };
        let corrects = entry
            .header
            .about
            .iter()
            .any(|subject| matches!(subject, Subject::Entry(_)));
        let corrected = self.log.withdrawn_by(id).next().is_some();
        for subject in self.log.touched_by(id) {
            if !corrects && !corrected && self.log.is_last_about(subject, id) {
                self.facts.fold_entry(&self.log, subject, id);
            } else {
                self.facts.fold_anew(&self.log, subject);
            }
            let plain = !corrects && !corrected;
            if self.due.is_some() && !(plain && due::moves_no_work(entry, subject)) {
                touched.insert(subject);
            }
        }
    }

    fn fold_all(&mut self) {
        self.facts = Facts::default();
        let subjects: Vec<Subject> = self.log.subjects().collect();
        for subject in subjects {
            self.facts.fold_anew(&self.log, subject);
        }
    }

    #[must_use]
    pub fn log(&self) -> &Log {
        &self.log
    }

    #[must_use]
    pub fn facts(&self) -> &Facts {
        &self.facts
    }

    /// Digest of the facts, the same on every phone with the same entries and rules.
    #[must_use]
    pub fn digest(&self) -> String {
        let text = serde_json::to_string(&self.facts).unwrap_or_default();
        Sha256::digest(text.as_bytes())
            .iter()
            .map(|byte| format!("{byte:02x}"))
            .collect()
    }

    /// Eight letters for two people to compare: the same where both phones hold the same entries and read them to the
    /// same facts. They come of the facts' digest and of how far each phone's entries are held, four bits a letter.
    #[must_use]
    pub fn fingerprint(&self) -> String {
        let held = serde_json::to_string(&self.log.marks()).unwrap_or_default();
        let whole = Sha256::digest(format!("{} {held}", self.digest()).as_bytes());
        let letters = crate::code::LETTERS.as_bytes();
        let four_bits = whole.iter().flat_map(|byte| [byte >> 4, byte & 15]);
        four_bits
            .filter_map(|value| letters.get(usize::from(value)).copied().map(char::from))
            .take(FINGERPRINT_LETTERS)
            .collect()
    }

    /// Everything that wants an answer, settled questions left out.
    #[must_use]
    pub fn anomalies(&self) -> Vec<Anomaly> {
        anomaly::all(self)
    }
}

impl Facts {
    fn fold_anew(&mut self, log: &Log, subject: Subject) {
        let before = Known::of(self, subject);
        self.clear(subject);
        for place in log.about(subject) {
            self.fold_plain(log, subject, place.id);
        }
        self.ways.turn(subject, before, Known::of(self, subject));
    }

    fn fold_entry(&mut self, log: &Log, subject: Subject, id: EntryRef) {
        let before = Known::of(self, subject);
        self.fold_plain(log, subject, id);
        self.ways.turn(subject, before, Known::of(self, subject));
    }

    fn fold_plain(&mut self, log: &Log, subject: Subject, id: EntryRef) {
        if let Some(Err(locked)) = log.entry(id).map(|entry| &entry.events) {
            self.locked.entry(subject).or_default().insert(id, *locked);
        }
        for fact in log.facts(id) {
            if fact.event.subjects().contains(&subject) {
                self.apply(subject, &fact);
            }
        }
    }

    fn apply(&mut self, subject: Subject, fact: &Fact<'_>) {
        match subject {
            Subject::Book => self.book.apply(fact),
            Subject::Phone(dev) => self.phones.entry(dev).or_default().apply(fact),
            Subject::Place(id) => self.places.entry(id).or_default().apply(fact),
            Subject::Pot(id) => self.pots.entry(id).or_default().apply(fact),
            Subject::Mix(id) => self.mixes.entry(id).or_default().apply(fact),
            Subject::Measure(id) => self.measures.entry(id).or_default().apply(fact),
            Subject::Feed(id) => self.feeds.entry(id).or_default().apply(fact),
            Subject::Product(id) => self.products.entry(id).or_default().apply(fact),
            Subject::Container(id) => self.containers.entry(id).or_default().apply(fact),
            Subject::Lot(id) => self.lots.entry(id).or_default().apply(id, fact),
            Subject::Clump(id) => self.clumps.entry(id).or_default().apply(fact),
            Subject::Treatment(id) => shelf::keep_treatment(&mut self.treatments, id, fact),
            Subject::Finding(id) => shelf::keep_finding(&mut self.findings, id, fact),
            Subject::Protocol(id) => self.protocols.entry(id).or_default().apply(fact),
            Subject::NoteTask(id) => self.note_tasks.entry(id).or_default().apply(fact),
            Subject::Entry(_) => {}
        }
    }

    fn clear(&mut self, subject: Subject) {
        self.locked.remove(&subject);
        match subject {
            Subject::Book => self.book = BookFacts::default(),
            Subject::Phone(dev) => drop(self.phones.remove(&dev)),
            Subject::Place(id) => drop(self.places.remove(&id)),
            Subject::Pot(id) => drop(self.pots.remove(&id)),
            Subject::Mix(id) => drop(self.mixes.remove(&id)),
            Subject::Measure(id) => drop(self.measures.remove(&id)),
            Subject::Feed(id) => drop(self.feeds.remove(&id)),
            Subject::Product(id) => drop(self.products.remove(&id)),
            Subject::Container(id) => drop(self.containers.remove(&id)),
            Subject::Lot(id) => drop(self.lots.remove(&id)),
            Subject::Clump(id) => drop(self.clumps.remove(&id)),
            Subject::Treatment(id) => drop(self.treatments.remove(&id)),
            Subject::Finding(id) => drop(self.findings.remove(&id)),
            Subject::Protocol(id) => drop(self.protocols.remove(&id)),
            Subject::NoteTask(id) => drop(self.note_tasks.remove(&id)),
            Subject::Entry(_) => {}
        }
    }

    /// Lots that are in the book and not withdrawn.
    pub fn live_lots(&self) -> impl Iterator<Item = (LotId, &Lot)> {
        self.lots
            .iter()
            .filter(|(_, lot)| lot.born.is_some())
            .map(|(id, lot)| (*id, &**lot))
    }

    /// Clumps on the bench now.
    pub fn open_clumps(&self) -> impl Iterator<Item = (ClumpId, &Clump)> {
        self.clumps_open()
            .filter_map(|id| Some((id, self.clumps.get(&id)?)))
    }
}
