//! Opening the book: storage, identity of this phone, the one writer among windows, the day.

use std::collections::BTreeMap;
use std::rc::Rc;

use leptos::prelude::*;
use leptos::task::spawn_local;
use velamen_core::id::Dev;
use velamen_core::state::State;

use super::files::{HANDED_OVER, Holdings, SAVED_HERE};
use super::{Inside, Keeping, Ledger, Phase, Role, ToldKind, early};
use crate::platform::{
    channel::Channel, clock, failure, lifecycle, locks, persist, program::Standing, random,
};
use crate::rest::{self, doors};
use crate::storage::{First, Indexed, SEGMENT_LINES, Storage, StorageError};
use crate::words;

/// Name of the own book's database on this origin. A lock and a channel of that name belong to each database.
pub(super) const OWN: &str = "velamen";
/// Marks in the storage.
pub(super) const DEV: &str = "dev";
/// Between two tries to fetch the rest of the program.
const ASK_AGAIN_MS: i32 = 3_000;
/// Lines that are rows of their own, beyond which they are put together.
const ROWS_MAX: u64 = 2 * SEGMENT_LINES as u64;

impl Ledger {
    /// Starts opening the book of this phone.
    #[must_use]
    pub fn start() -> Self {
        let ledger = Self {
            inside: StoredValue::new_local(Inside::default()),
            state: StoredValue::new(State::default()),
            early: StoredValue::new(None),
            drafts: StoredValue::new(BTreeMap::new()),
            revision: RwSignal::new(0),
            draft_revision: RwSignal::new(0),
            dev: RwSignal::new(None),
            phase: RwSignal::new(Phase::Opening),
            role: RwSignal::new(Role::Follows),
            today: RwSignal::new(clock::read().today),
            told: RwSignal::new(None),
            busy: RwSignal::new(false),
            handed_over_ms: RwSignal::new(None),
            saved_here: RwSignal::new(None),
            kept_safe: RwSignal::new(None),
            folder: RwSignal::new(super::FolderStand::default()),
            program: RwSignal::new(Standing::only(Keeping::OnItsWay)),
            news: RwSignal::new(String::new()),
            made_pct: RwSignal::new(0),
        };
        super::likes::dress(&ledger.preferences());
        ledger.watch_the_day();
        spawn_local(async move {
            match failure::stopped_opening() {
                Some(words) => {
                    ledger
                        .inside
                        .update_value(|inside| inside.opening_failed = true);
                    let words = words::trouble::stopped_opening(&words);
                    ledger.phase.set(Phase::Trouble(StorageError::Other(words)));
                }
                None => ledger.open_noted().await,
            }
            // After the first screen, and also when the book cannot be opened: a newer version may open it.
            ledger.keep_program();
        });
        ledger
    }

    /// Tries to open the book again after trouble.
    pub fn open_again(self) {
        self.phase.set(Phase::Opening);
        spawn_local(self.open_noted());
    }

    async fn open_noted(self) {
        failure::note_opening(true);
        if let Err(error) = self.open().await {
            self.phase.set(Phase::Trouble(error));
        }
        failure::note_opening(false);
    }

    /// Opens a database in place of the one that is open, and reads it.
    pub(super) async fn turn_to(self, book: &'static str) -> Result<First, StorageError> {
        self.leave();
        let opened = Indexed::open(book).await?;
        let storage = Rc::new(opened.storage);
        storage.on_lost(Box::new(move |_| self.role.set(Role::Stopped)));
        self.inside.update_value(|inside| {
            inside.book = book;
            inside.storage = Some(Rc::clone(&storage));
        });
        self.become_writer(book).await;
        self.look_first(&storage).await
    }

    /// What a start needs before the lines of a book.
    pub(super) async fn look_first(self, storage: &Indexed) -> Result<First, StorageError> {
        storage.load_first(early::BEGINNING).await
    }

    /// Gives up the database that is open: its connection, its lock and its channel.
    fn leave(self) {
        let before = self.inside.try_update_value(std::mem::take);
        let Some(before) = before else { return };
        if let Some(storage) = &before.storage {
            storage.close();
        }
        // What belongs to the page and not to a book stays.
        self.inside.update_value(|inside| {
            inside.listening = before.listening;
            inside.program = before.program;
            inside.folder = before.folder.for_another_book();
        });
        self.role.set(Role::Follows);
        self.told.set(None);
    }

    /// Lets what was read count, and shows it.
    pub(super) async fn show(self, first: First) -> Result<(), StorageError> {
        let storage = self.storage().ok_or(StorageError::Closed)?;
        let dev = match first
            .marks
            .get(DEV)
            .and_then(|text| text.parse::<Dev>().ok())
        {
            Some(dev) => dev,
            None => {
                let word = random::word().ok_or(StorageError::Refused)?;
                let dev = Dev(word);
                storage.put_mark(DEV, &dev.to_string()).await?;
                dev
            }
        };
        self.dev.set(Some(dev));
        self.inside
            .update_value(|inside| inside.holdings = Holdings::of(&first.marks));
        self.handed_over_ms.set(
            first
                .marks
                .get(HANDED_OVER)
                .and_then(|text| text.parse().ok()),
        );
        let saved = first.marks.get(SAVED_HERE);
        self.saved_here
            .set(saved.and_then(|text| serde_json::from_str(text).ok()));
        let early = first.last > 0 && self.show_early(&first).await;
        self.drafts.set_value(first.drafts.clone());
        self.draft_revision.update(|revision| *revision += 1);
        if early {
            self.phase.set(Phase::Early);
            clock::breathe().await;
        }
        if early {
            self.wait_for_the_rest().await;
        } else {
            rest::wanted().await?;
        }
        doors::read_on(self, first, early).await.await
    }

    /// What is shown early stays, and so does what was tapped on it, however long the rest of the program takes.
    async fn wait_for_the_rest(self) {
        let mut told = false;
        while !rest::fetch().await {
            if !told {
                self.say(words::trouble::REST_LATE, ToldKind::Warning);
                told = true;
            }
            clock::wait(ASK_AGAIN_MS).await;
        }
    }

    /// Reads the lines of the book, and lets them count.
    pub(crate) async fn read_on(self, first: First, early: bool) -> Result<(), StorageError> {
        let storage = self.storage().ok_or(StorageError::Closed)?;
        let arrived = storage.lines_after(0).await?;
        let (state, strange) = self.fold(arrived.texts, early).await;
        let has_book = state.facts().book.book.is_some();
        self.state.set_value(state);
        self.inside.update_value(|inside| {
            inside.last_arrival = arrived.last;
            if arrived.last != first.last {
                // Another window wrote meanwhile: what was kept says nothing of that.
                inside.kept_round = early::KeptRound::default();
            }
        });
        self.revision.update(|revision| *revision += 1);
        self.phase.set(if has_book {
            Phase::Ready
        } else {
            Phase::NoBook
        });
        self.early.set_value(None);
        self.work_off();
        self.leave_a_torn_name().await?;
        self.tidy_up(&storage, &first, strange).await;
        self.take_folder_up();
        self.kept_safe.set(persist::persisted().await);
        Ok(())
    }

    /// What can wait until the book is shown.
    async fn tidy_up(self, storage: &Indexed, first: &First, strange: usize) {
        // A line nobody understands may name a photograph.
        if strange == 0 {
            self.sweep(storage, first).await;
        }
        if first.rows > ROWS_MAX {
            self.seal(storage).await;
        }
        // What another window wrote while this one was reading.
        self.catch_up();
    }

    /// One window writes; the others follow what it has written.
    async fn become_writer(self, book: &'static str) {
        let channel = Channel::join(&format!("{book}.written"), move |_| self.catch_up());
        self.inside.update_value(|inside| inside.channel = channel);
        match locks::claim(&lock_of(book)).await {
            locks::Claim::Held(lock) => self.hold(book, lock),
            // Without locks there is no telling; a second window is rare on a phone.
            locks::Claim::Unknown => self.role.set(Role::Writes),
            locks::Claim::Taken => {
                self.role.set(Role::Follows);
                spawn_local(async move {
                    if let locks::Claim::Held(lock) = locks::wait_for(&lock_of(book)).await {
                        self.catch_up();
                        self.hold(book, lock);
                        self.make_what_is_missing();
                    }
                });
            }
        }
    }

    /// Makes this window the one that writes.
    pub fn take_over(self) {
        let book = self.inside.with_value(|inside| inside.book);
        spawn_local(async move {
            if let locks::Claim::Held(lock) = locks::take_over(&lock_of(book)).await {
                self.catch_up();
                self.hold(book, lock);
            }
        });
    }

    /// Keeps the lock of the database that is open; one that comes late, for another, goes back at once.
    fn hold(self, book: &str, lock: locks::Lock) {
        if self.inside.with_value(|inside| inside.book != book) {
            return;
        }
        lock.on_stolen(move || self.role.set(Role::Follows));
        self.inside.update_value(|inside| inside.lock = Some(lock));
        self.role.set(Role::Writes);
    }

    /// Takes in what another window has written.
    fn catch_up(self) {
        let Some(storage) = self.storage() else {
            return;
        };
        let after = self.inside.with_value(|inside| inside.last_arrival);
        spawn_local(async move {
            if self.phase.get_untracked() == Phase::Early {
                // It is read together with the rest of the book.
            } else if self.phase.get_untracked() == Phase::Making {
                self.see_what_was_made(&storage).await;
            } else if rest::fetch().await {
                doors::take_written(self, after).await.await;
            }
        });
    }

    /// Takes in what was written after a line.
    pub(crate) async fn take_written(self, after: u64) {
        let Some(storage) = self.storage() else {
            return;
        };
        if let Ok(arrived) = storage.lines_after(after).await {
            self.inside
                .update_value(|inside| inside.last_arrival = arrived.last);
            self.take_lines(arrived.lines());
        }
    }

    fn watch_the_day(self) {
        let day = clock::on_new_day(move |today| self.today.set(today));
        let seen = lifecycle::on_visible(move || {
            self.today.set(clock::read().today);
            self.look_at_folder();
            if let Some(storage) = self.storage() {
                spawn_local(async move {
                    if storage.check().await.is_err() {
                        self.say(words::trouble::storage_lost(), ToldKind::Warning);
                    }
                });
            }
        });
        self.inside.update_value(|inside| {
            inside.listening.push(Box::new(day));
            inside.listening.push(Box::new(seen));
        });
    }

    /// Asks the browser to keep the book, once there is something to keep.
    pub(super) fn ask_to_be_kept(self) {
        if self.kept_safe.get_untracked() == Some(true)
            || self.look(|state, _| state.facts().book.demo)
        {
            return;
        }
        spawn_local(async move { self.kept_safe.set(persist::ask().await) });
    }
}

fn lock_of(book: &str) -> String {
    format!("{book}.writer")
}
