//! A book whose database is damaged: saved as far as it can be read, and built anew from that.

use leptos::prelude::*;
use leptos::task::spawn_local;
use velamen_core::entry::read_header;
use velamen_core::exchange;
use velamen_core::id::{Dev, EntryRef};
use velamen_core::state::State;

use super::arriving::keyed;
use super::drafts::LEFT_AT;
use super::start::{DEV, OWN};
use super::{Ledger, Phase, Role, ToldKind};
use crate::platform::{files, random};
use crate::storage::{Indexed, Salvaged, Storage, StorageError};
use crate::words;

impl Ledger {
    /// Saves what can be read of a book that cannot be opened; `saved` tells once there is a file.
    pub fn save_rescue(self, saved: RwSignal<bool>) {
        spawn_local(async move {
            match self.salvaged().await {
                Ok(found) => {
                    let (name, text) = self.rescue_file(&found);
                    if files::download(&name, "text/plain", &text) {
                        let said = words::files::rescued(found.lines.len(), found.lost_rows);
                        self.say(said, ToldKind::Done);
                        saved.set(true);
                    } else {
                        self.say(words::files::not_written(), ToldKind::Refused);
                    }
                }
                Err(error) => self.say(words::trouble::why(&error), ToldKind::Refused),
            }
        });
    }

    /// Builds the book anew from what can be read, and opens it under a new identity of this phone.
    pub fn rebuild(self) {
        self.phase.set(Phase::Opening);
        spawn_local(async move {
            if let Err(error) = self.try_rebuild().await {
                self.phase.set(Phase::Trouble(error));
            }
        });
    }

    async fn try_rebuild(self) -> Result<(), StorageError> {
        let found = self.salvaged().await?;
        let lines = found.lines.iter().filter_map(|line| {
            let header = read_header(line).ok()?;
            let id = EntryRef {
                dev: header.dev,
                seq: header.seq,
            };
            Some((id, line.clone()))
        });
        let lines = keyed(lines, |_| false);
        let storage = self.storage().ok_or(StorageError::Closed)?;
        storage.rebuild(&lines, &found.drafts, DEV).await?;
        self.show(self.look_first(&storage).await?).await?;
        self.join_if_new();
        self.say(
            words::files::rebuilt(lines.len(), found.lost_rows),
            ToldKind::Warning,
        );
        Ok(())
    }

    async fn salvaged(self) -> Result<Salvaged, StorageError> {
        if self.storage().is_none() {
            let opened = Indexed::open(OWN).await?;
            let storage = std::rc::Rc::new(opened.storage);
            self.inside.update_value(|inside| {
                inside.book = OWN;
                inside.storage = Some(storage);
            });
        }
        let storage = self.storage().ok_or(StorageError::Closed)?;
        storage.salvage().await
    }

    /// A book where the lines make one; else the lines themselves, for a person to look at.
    fn rescue_file(self, found: &Salvaged) -> (String, String) {
        let name = words::files::rescue_name(self.moment().today);
        if self.inside.with_value(|inside| inside.opening_failed) {
            // What ended the program may be in the reading of these very lines.
            let lines: Vec<&str> = found.lines.iter().map(String::as_str).collect();
            let text = exchange::write_unread(&lines, &self.moment(), found.drafts.clone());
            return (name, text.unwrap_or_else(|| found.lines.join("\n")));
        }
        let (state, _) = State::of_lines(found.lines.iter().map(String::as_str));
        let mut drafts = found.drafts.clone();
        // Another phone begins at its own first screen.
        drafts.remove(LEFT_AT);
        let book = exchange::write_rescue(&state, &self.moment(), drafts);
        (name, book.unwrap_or_else(|| found.lines.join("\n")))
    }

    /// A number this phone had given is missing: it writes on as another, so that no number comes twice.
    pub(super) async fn leave_a_torn_name(self) -> Result<(), StorageError> {
        let torn = self.look(|state, at| state.log().gaps().iter().any(|gap| gap.dev == at.dev));
        if !torn || self.role.get_untracked() != Role::Writes {
            return Ok(());
        }
        let storage = self.storage().ok_or(StorageError::Closed)?;
        let dev = Dev(random::word().ok_or(StorageError::Refused)?);
        storage.put_mark(DEV, &dev.to_string()).await?;
        self.dev.set(Some(dev));
        self.join_if_new();
        self.say(words::files::torn(), ToldKind::Warning);
        Ok(())
    }
}
