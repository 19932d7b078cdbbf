//! The one place where screens, book and storage meet.
//!
//! Write order: decided, committed to storage, then in memory, then on the screen; one command at a time. What a screen
//! shows as recorded is on disk. Screens ask with [`Ledger::ask`] and act with [`Ledger::act`]; they know neither
//! storage nor platform.

mod albums;
mod arriving;
mod calendar;
mod drafts;
mod early;
mod example;
mod files;
mod folder;
mod likes;
mod many;
mod opening;
mod paper;
mod photos;
mod program;
mod reel;
mod rescue;
mod soaking;
mod start;
mod table;

use std::collections::{BTreeMap, VecDeque};
use std::rc::Rc;

use chrono::NaiveDate;
use leptos::prelude::*;
use leptos::task::spawn_local;
use serde::Serialize;
use velamen_core::command::Command;
use velamen_core::decide::{Decision, decide};
use velamen_core::entry::Marks;
use velamen_core::event::WithdrawWhy;
use velamen_core::exchange::album::Item;
use velamen_core::id::{Dev, EntryRef};
use velamen_core::rejection::{Caution, Rejection};
use velamen_core::state::State;
use velamen_core::time::Moment;
use velamen_core::view::kept::Kept;

use crate::platform::{
    channel::Channel, clock, feedback, locks, program::Program, program::Standing,
};
use crate::rest::{self, doors};
use crate::storage::{Indexed, Line, Record, Storage};
use crate::words;

pub use crate::storage::StorageError;
pub use albums::Photographs;
pub use arriving::{Arrival, Incoming};
pub use drafts::LEFT_AT;
pub use files::{Safety, Way};
pub use folder::FolderStand;
pub use likes::{Hand, Preferences, Theme};
pub use many::NoneKept;
pub use paper::{Camera, CameraFault, Drawn, Dress, Faced, Seen};
pub use photos::{PhotoFault, PhotoShown};
pub use program::Keeping;
pub use reel::{NoReel, Reel};
pub use table::TableFile;

/// How far the start has come.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Phase {
    Opening,
    /// The book cannot be opened; why.
    Trouble(StorageError),
    /// There is no book on this phone yet.
    NoBook,
    /// The example is being made.
    Making,
    /// The Round can be shown; the rest of the book is still being read.
    Early,
    Ready,
}

/// Whether this window may write.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Role {
    Writes,
    /// Another window writes; this one follows.
    Follows,
    /// Another window took over, or holds a newer version: this one has to be loaded again.
    Stopped,
}

/// What is told after an action.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Told {
    pub number: u64,
    pub words: String,
    pub kind: ToldKind,
    /// The entry that Undo would withdraw.
    pub undo: Option<EntryRef>,
}

/// The kind of what is told.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum ToldKind {
    Done,
    Refused,
    Warning,
}

/// A command on its way, with what follows it.
pub struct Act {
    command: Command,
    said: String,
    drafts_done: Vec<String>,
    drafts_left: Vec<(String, String)>,
    undoable: bool,
    /// Where the page was at the tap.
    tapped_at: String,
    then: Option<Box<dyn FnOnce(Decision)>>,
    otherwise: Option<Box<dyn FnOnce(Rejection)>>,
}

impl std::fmt::Debug for Act {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.debug_struct("Act")
            .field("command", &self.command)
            .finish_non_exhaustive()
    }
}

impl Act {
    /// An action, and what is said once it is recorded. An empty sentence says nothing.
    pub fn new(command: Command, said: impl Into<String>) -> Self {
        Self {
            command,
            said: said.into(),
            drafts_done: Vec::new(),
            drafts_left: Vec::new(),
            undoable: true,
            tapped_at: crate::route::address(),
            then: None,
            otherwise: None,
        }
    }

    /// Removes a draft in the same transaction.
    #[must_use]
    pub fn ends_draft(mut self, key: impl Into<String>) -> Self {
        self.drafts_done.push(key.into());
        self
    }

    /// Leaves a draft as it stands once this is recorded, in the same transaction: what the entry counts, the draft no
    /// longer does.
    #[must_use]
    pub fn leaves_draft(mut self, key: impl Into<String>, draft: &impl Serialize) -> Self {
        self.drafts_left
            .push((key.into(), velamen_core::draft::write(draft)));
        self
    }

    /// Runs once it is on disk and in memory.
    #[must_use]
    pub fn then(mut self, work: impl FnOnce(Decision) + 'static) -> Self {
        self.then = Some(Box::new(work));
        self
    }

    /// Runs instead of a notice when the book refuses.
    #[must_use]
    pub fn otherwise(mut self, work: impl FnOnce(Rejection) + 'static) -> Self {
        self.otherwise = Some(Box::new(work));
        self
    }

    /// Offers no Undo.
    #[must_use]
    pub fn for_good(mut self) -> Self {
        self.undoable = false;
        self
    }
}

#[derive(Default)]
struct Inside {
    /// Name of the database that is open; empty before the first.
    book: &'static str,
    storage: Option<Rc<Indexed>>,
    lock: Option<locks::Lock>,
    channel: Option<Channel>,
    listening: Vec<Box<dyn std::any::Any>>,
    program: Option<Program>,
    queue: VecDeque<Act>,
    last_arrival: u64,
    kept_round: early::KeptRound,
    holdings: files::Holdings,
    /// Files that were chosen to be looked at, and the ZIPs among them.
    chosen: Vec<leptos::web_sys::File>,
    /// How often something was chosen to be read.
    choices: u64,
    /// The program ended when it opened this book the last time.
    opening_failed: bool,
    albums: Vec<(leptos::web_sys::File, Vec<Item>)>,
    folder: folder::FolderState,
}

/// Handle to the book on this phone. Cheap to copy.
#[derive(Clone, Copy)]
pub struct Ledger {
    inside: StoredValue<Inside, LocalStorage>,
    state: StoredValue<State>,
    /// What was kept of the Round, until the book itself is there.
    early: StoredValue<Option<Kept>>,
    drafts: StoredValue<BTreeMap<String, String>>,
    revision: RwSignal<u64>,
    draft_revision: RwSignal<u64>,
    dev: RwSignal<Option<Dev>>,
    phase: RwSignal<Phase>,
    role: RwSignal<Role>,
    today: RwSignal<NaiveDate>,
    told: RwSignal<Option<Told>>,
    busy: RwSignal<bool>,
    handed_over_ms: RwSignal<Option<i64>>,
    /// How far a file went that lies on this phone alone, as far as is known.
    saved_here: RwSignal<Option<Marks>>,
    kept_safe: RwSignal<Option<bool>>,
    folder: RwSignal<FolderStand>,
    program: RwSignal<Standing>,
    news: RwSignal<String>,
    made_pct: RwSignal<u32>,
}

impl std::fmt::Debug for Ledger {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.write_str("Ledger")
    }
}

/// Asking.
impl Ledger {
    /// The ledger of this page, from any component.
    #[must_use]
    pub fn here() -> Self {
        expect_context::<Self>()
    }

    /// A read model that follows the book and the day.
    pub fn ask<T>(self, question: impl Fn(&State, &Moment) -> T + Send + Sync + 'static) -> Memo<T>
    where
        T: PartialEq + Send + Sync + 'static,
    {
        Memo::new(move |_| self.follow(&question))
    }

    /// A read model that stands in the rest of the program, and says nothing until that is here.
    pub(crate) fn ask_later<T, Door>(self, door: fn(Self) -> Door) -> Memo<T>
    where
        T: Default + PartialEq + Send + Sync + 'static,
        Door: Future<Output = T> + 'static,
    {
        Memo::new(move |_| {
            self.revision.track();
            self.today.track();
            rest::soon(door(self)).unwrap_or_default()
        })
    }

    /// The same inside a reader that already follows signals of its own.
    pub fn follow<T>(self, question: impl FnOnce(&State, &Moment) -> T) -> T {
        self.revision.track();
        self.today.track();
        self.look(question)
    }

    /// A look at the book now, without following it.
    pub fn look<T>(self, question: impl FnOnce(&State, &Moment) -> T) -> T {
        let at = self.moment();
        self.state.with_value(|state| question(state, &at))
    }

    /// The moment of a command.
    #[must_use]
    pub fn moment(self) -> Moment {
        let clock = clock::read();
        let dev = self.dev.get_untracked().unwrap_or(Dev(0));
        Moment {
            now_ms: clock.now_ms,
            off_min: clock.off_min,
            today: clock.today,
            dev,
        }
    }

    /// What a command would come to, without recording it.
    ///
    /// # Errors
    /// The refusal.
    pub fn try_out(self, command: Command) -> Result<Vec<Caution>, Rejection> {
        let at = self.moment();
        self.state
            .with_value(|state| decide(state, &at, command))
            .map(|decision| decision.cautions)
    }

    #[must_use]
    pub fn today(self) -> NaiveDate {
        self.today.get()
    }

    #[must_use]
    pub fn phase(self) -> Phase {
        self.phase.get()
    }

    #[must_use]
    pub fn role(self) -> Role {
        self.role.get()
    }

    /// True from a tap until its record is committed.
    #[must_use]
    pub fn busy(self) -> Signal<bool> {
        self.busy.into()
    }

    /// What is to be told now.
    #[must_use]
    pub fn told(self) -> Option<Told> {
        self.told.get()
    }

    /// When the book was last handed over from this phone.
    #[must_use]
    pub fn handed_over_ms(self) -> Option<i64> {
        self.handed_over_ms.get()
    }

    /// Whether the browser promised to keep the book; `None` when it does not say.
    #[must_use]
    pub fn kept_safe(self) -> Option<bool> {
        self.kept_safe.get()
    }
}

/// Acting.
impl Ledger {
    /// Records a command; one at a time, in the order asked.
    pub fn act(self, act: Act) {
        if self.role.get_untracked() != Role::Writes {
            self.tell(
                ToldKind::Refused,
                words::trouble::other_window_writes(),
                None,
            );
            return;
        }
        self.inside
            .update_value(|inside| inside.queue.push_back(act));
        if !self.busy.get_untracked() {
            self.busy.set(true);
            self.work_off();
        }
    }

    /// Carries out what was asked, once the book is there to decide by.
    fn work_off(self) {
        if self.phase.get_untracked() == Phase::Early {
            return;
        }
        spawn_local(async move {
            while let Some(act) = self
                .inside
                .try_update_value(|inside| inside.queue.pop_front())
                .flatten()
            {
                doors::carry_out(self, act).await.await;
            }
            self.busy.set(false);
            doors::keep_round(self).await;
        });
    }

    /// Withdraws an entry that was a slip.
    pub fn undo(self, entry: EntryRef) {
        let command = Command::Withdraw {
            targets: vec![entry],
            with_dependents: true,
            why: WithdrawWhy::Undone,
            note: String::new(),
        };
        self.act(Act::new(command, words::told::undone()).for_good());
    }

    /// Clears what was told, if it is still that.
    pub fn clear_told(self, number: u64) {
        if self
            .told
            .get_untracked()
            .is_some_and(|told| told.number == number)
        {
            self.told.set(None);
        }
    }

    /// Tells something without recording anything.
    pub fn say(self, words: impl Into<String>, kind: ToldKind) {
        self.tell(kind, words.into(), None);
    }

    fn tell(self, kind: ToldKind, words: String, undo: Option<EntryRef>) {
        if !self.preferences().quiet {
            feedback::sound(match kind {
                ToldKind::Done => feedback::Tone::Recorded,
                ToldKind::Refused | ToldKind::Warning => feedback::Tone::Refused,
            });
        }
        self.told.update(|told| {
            let number = told.as_ref().map_or(0, |told| told.number + 1);
            *told = Some(Told {
                number,
                words,
                kind,
                undo,
            });
        });
    }

    pub(crate) async fn carry_out(self, mut act: Act) {
        self.sign(&mut act.command);
        let at = self.moment();
        let decided = self
            .state
            .with_value(|state| decide(state, &at, act.command));
        let decision = match decided {
            Ok(decision) => decision,
            Err(no) => {
                match act.otherwise {
                    Some(otherwise) => otherwise(no),
                    None => self.tell(ToldKind::Refused, words::rejection::say(&no), None),
                }
                return;
            }
        };
        let line = Line {
            dev: decision.entry.dev.0,
            seq: u64::from(decision.entry.seq),
            text: decision.line.clone(),
        };
        let record = Record {
            lines: &[line],
            drafts_done: &act.drafts_done,
            drafts_left: &act.drafts_left,
            ..Record::default()
        };
        if let Err(error) = self.write(&record).await {
            self.tell(
                ToldKind::Refused,
                words::trouble::not_recorded(&error),
                None,
            );
            return;
        }
        self.forget_drafts(&act.drafts_done);
        self.take_lines(std::iter::once(decision.line.as_str()));
        self.remember_drafts(act.drafts_left);
        if !act.said.is_empty() {
            self.tell(
                ToldKind::Done,
                act.said,
                act.undoable.then_some(decision.entry),
            );
        }
        if let Some(then) = act.then {
            crate::route::follow_up(act.tapped_at, || then(decision));
        }
        self.ask_to_be_kept();
        self.look_at_folder_soon();
    }

    async fn write(self, record: &Record<'_>) -> Result<(), StorageError> {
        let storage = self.storage().ok_or(StorageError::Closed)?;
        let arrival = storage.append(record).await?;
        self.inside.update_value(|inside| {
            inside.last_arrival = arrival;
            if let Some(channel) = &inside.channel {
                channel.tell_written(arrival);
            }
        });
        Ok(())
    }

    /// Lets lines that are on disk count, and the screens follow.
    fn take_lines<'a>(self, lines: impl Iterator<Item = &'a str>) {
        self.state.update_value(|state| {
            // What is not an entry stays in storage and is handed on; it says nothing here.
            let _ = state.take_all(lines);
        });
        self.follow_what_counts();
    }

    /// Lets a whole state count that is on disk.
    fn stand_at(self, state: State) {
        self.state.set_value(state);
        self.follow_what_counts();
    }

    fn follow_what_counts(self) {
        if self.phase.get_untracked() == Phase::NoBook
            && self.look(|state, _| state.facts().book.book.is_some())
        {
            self.phase.set(Phase::Ready);
        }
        self.revision.update(|revision| *revision += 1);
        self.keep_round();
    }

    fn storage(self) -> Option<Rc<Indexed>> {
        self.inside.with_value(|inside| inside.storage.clone())
    }
}
