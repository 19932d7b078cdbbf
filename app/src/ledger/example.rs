//! The example: a book in a database of its own, made on this phone and thrown away without a trace.
//!
//! The own book's database says what became of it, because that outlives a flat battery at any moment: it is in use
//! (and made anew when the power went before its one transaction was on disk), or it is over (and erased at the next
//! start when the power went before). An own book ends the example.

use leptos::prelude::*;
use leptos::task::spawn_local;
use velamen_core::demo;
use velamen_core::id::Dev;
use velamen_core::season::Hemisphere;
use velamen_core::time::Moment;

use super::start::{DEV, OWN};
use super::{Ledger, Phase, Role, ToldKind};
use crate::platform::{clock, random};
use crate::rest::{self, doors};
use crate::storage::{Indexed, Line, Record, Storage, StorageError};
use crate::words;

/// Name of the example's database.
const EXAMPLE: &str = "velamen-demo";
/// The mark in the own book's database, and what it may say.
const MARK: &str = "example";
const IN_USE: &str = "in_use";
const OVER: &str = "over";
/// Days of the example made before the screen is shown again.
const DAYS_AT_ONCE: i64 = 14;

impl Ledger {
    /// Whether the book that is open is the example.
    #[must_use]
    pub fn is_example(self) -> bool {
        self.follow(|state, _| state.facts().book.demo)
    }

    /// How far the example is made, in per cent.
    #[must_use]
    pub fn made_pct(self) -> Signal<u32> {
        self.made_pct.into()
    }

    /// Opens the example in place of a book.
    pub fn look_around(self) {
        if self.role.get_untracked() != Role::Writes {
            self.say(words::trouble::other_window_writes(), ToldKind::Refused);
            return;
        }
        self.made_pct.set(0);
        self.phase.set(Phase::Making);
        spawn_local(async move {
            let begun = match self.storage() {
                Some(storage) => storage.put_mark(MARK, IN_USE).await,
                None => Err(StorageError::Closed),
            };
            let opened = match begun {
                Ok(()) => self.enter().await,
                Err(error) => Err(error),
            };
            if let Err(error) = opened {
                self.go_back(&error).await;
            }
        });
    }

    /// Throws the example away with everything in it, and goes to the first start.
    pub fn discard_example(self) {
        if self.role.get_untracked() != Role::Writes {
            self.say(words::trouble::other_window_writes(), ToldKind::Refused);
            return;
        }
        // What is on its way to the disk belongs to the example, and must not arrive in another book.
        if self.busy.get_untracked() {
            return;
        }
        self.phase.set(Phase::Opening);
        spawn_local(async move {
            if let Err(error) = self.discard().await {
                self.phase.set(Phase::Trouble(error));
            }
        });
    }

    /// Opens the own book, or the example where that is in use.
    pub(super) async fn open(self) -> Result<(), StorageError> {
        let first = self.turn_to(OWN).await?;
        let mark = first.marks.get(MARK).map(String::as_str);
        let own = first.last > 0;
        match mark {
            Some(IN_USE) if !own => {
                if let Err(error) = self.enter().await {
                    self.go_back(&error).await;
                }
                return Ok(());
            }
            Some(_) => self.erase_example().await,
            None => {}
        }
        self.show(first).await
    }

    /// Opens the example's database, and makes the example when it is not there.
    async fn enter(self) -> Result<(), StorageError> {
        let first = self.turn_to(EXAMPLE).await?;
        if first.last > 0 {
            return self.show(first).await;
        }
        self.phase.set(Phase::Making);
        if self.role.get_untracked() == Role::Writes {
            rest::wanted().await?;
            doors::make_example(self).await.await
        } else {
            // Another window is making it, and tells when it is there.
            Ok(())
        }
    }

    /// Opens the example's database, empty, for an example that comes as a file.
    ///
    /// Should the power go before the file is in it, the next start makes an example of its own.
    pub(super) async fn make_room_for_example(self) -> Result<(), StorageError> {
        if self.role.get_untracked() != Role::Writes {
            return Err(StorageError::Closed);
        }
        let own = self.storage().ok_or(StorageError::Closed)?;
        own.put_mark(MARK, IN_USE).await?;
        // One that was being thrown away may have left something.
        Indexed::erase(EXAMPLE).await?;
        self.turn_to(EXAMPLE).await.map(|_| ())
    }

    /// Another window has written while this one waited for the example.
    pub(super) async fn see_what_was_made(self, storage: &Indexed) {
        if let Ok(first) = self.look_first(storage).await
            && first.last > 0
            && self.phase.get_untracked() == Phase::Making
        {
            // Its own marks are there already, so nothing is written that could fail.
            let _ = self.show(first).await;
        }
    }

    /// When the window that was making the example has gone, this one makes it.
    pub(super) fn make_what_is_missing(self) {
        let example = self.inside.with_value(|inside| inside.book == EXAMPLE);
        if example && self.phase.get_untracked() == Phase::Making {
            spawn_local(async move {
                if let Err(error) = self.enter().await {
                    self.go_back(&error).await;
                }
            });
        }
    }

    pub(crate) async fn make(self) -> Result<(), StorageError> {
        let storage = self.storage().ok_or(StorageError::Closed)?;
        let dev = Dev(random::word().ok_or(StorageError::Refused)?);
        let at = Moment {
            dev,
            ..self.moment()
        };
        let open = self.opening(words::start::EXAMPLE_NURSERY.to_owned(), Hemisphere::North);
        let mut making = demo::begin(&at, demo::SEED, open, &words::demo::PHRASES);
        loop {
            let pct = making.go_on(DAYS_AT_ONCE);
            self.made_pct.set(pct);
            if pct >= 100 {
                break;
            }
            clock::breathe().await;
        }
        let lines = making.done().lines.into_iter().map(|(entry, text)| Line {
            dev: entry.dev.0,
            seq: u64::from(entry.seq),
            text,
        });
        let lines: Vec<Line> = lines.collect();
        let marks = [(DEV.to_owned(), dev.to_string())];
        self.write(&Record {
            lines: &lines,
            marks: &marks,
            ..Record::default()
        })
        .await?;
        self.show(self.look_first(&storage).await?).await
    }

    /// The example could not be opened: back to the first start, and why.
    async fn go_back(self, error: &StorageError) {
        match self.discard().await {
            Ok(()) => self.say(words::start::no_example(error), ToldKind::Refused),
            Err(error) => self.phase.set(Phase::Trouble(error)),
        }
    }

    async fn discard(self) -> Result<(), StorageError> {
        let first = self.turn_to(OWN).await?;
        let storage = self.storage().ok_or(StorageError::Closed)?;
        storage.put_mark(MARK, OVER).await?;
        self.erase_example().await;
        self.show(first).await
    }

    /// Erases the example's database, and then the mark. What stays behind is erased at the next start.
    async fn erase_example(self) {
        if Indexed::erase(EXAMPLE).await.is_ok()
            && let Some(storage) = self.storage()
        {
            // A mark that stays behind is looked at again at the next start.
            let _ = storage.remove_mark(MARK).await;
        }
    }
}
