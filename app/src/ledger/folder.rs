//! A shared folder in place of a server. Each phone writes a file of its own there and reads the others'; whatever keeps
//! folders alike carries them between the phones.
//!
//! Invariants: no two phones write one file. A file grows by parts that are each whole or not taken; one that is still on
//! its way is read again. What the folder holds already, by whoever, is not written into it once more. What comes in goes
//! the way of every other file: judged, committed, and then it counts.

use std::collections::BTreeMap;

use leptos::prelude::*;
use leptos::task::spawn_local;
use velamen_core::exchange::lack::{Coverage, count_missing};
use velamen_core::exchange::{self, FileFault, parts};
use velamen_core::limits::{FILE_BYTES_MAX, FOLDER_FILES_MAX};

use super::{Ledger, Phase, Role, ToldKind};
use crate::platform::folder::{self, Chosen, Entry, Folder, Leave};
use crate::platform::{clock, files};
use crate::rest::{self, doors};
use crate::words;

/// How a phone's file in the folder is called: its name between these.
const BEGINNING: &str = "velamen-";
const ENDING: &str = ".txt";
/// The folder is looked at again after this time, and this soon after something was recorded.
const LOOK_EVERY_MS: i32 = 60_000;
const SOON_MS: i32 = 1_500;
/// Bytes by which a file that was written anew is told: its header says when it was begun.
const FIRST_BYTES: u64 = 400;
/// How often it is looked at in one go, as after writing into it.
const ROUNDS_MAX: usize = 3;

/// How the book stands with a shared folder.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub enum FolderStand {
    /// This browser lets no page keep a folder.
    #[default]
    Unavailable,
    NoneChosen,
    /// The browser wants to be asked again.
    ToBeAllowed {
        name: String,
    },
    InUse {
        name: String,
        /// When it was last looked at; none while that goes on for the first time.
        looked_ms: Option<i64>,
        phones: usize,
        /// What stands in the way, in words.
        troubles: Vec<String>,
    },
}

/// What is known of one file.
#[derive(Debug, Default)]
struct Known {
    bytes: u64,
    modified: u64,
    /// How the file begins: one that was written anew begins otherwise.
    first: Vec<u8>,
    read_to: u64,
    coverage: Coverage,
    damaged: bool,
    unfinished: bool,
    /// It is no part of this book: why, in words. Nothing of it is used, and it stands in no other's way.
    foreign: Option<String>,
}

/// What is known of the folder.
#[derive(Debug, Default)]
pub(super) struct FolderState {
    folder: Option<Folder>,
    known: BTreeMap<String, Known>,
    busy: bool,
    again: bool,
    soon: bool,
    watched: bool,
}

impl FolderState {
    /// For another book: only the watch goes on.
    pub(super) fn for_another_book(&self) -> Self {
        Self {
            watched: self.watched,
            ..Self::default()
        }
    }
}

impl Ledger {
    #[must_use]
    pub fn folder(self) -> Signal<FolderStand> {
        self.folder.into()
    }

    /// Takes the folder chosen before up again, once the book is open.
    pub(super) fn take_folder_up(self) {
        if !folder::can_choose() || self.is_example_open() {
            self.folder.set(FolderStand::Unavailable);
            return;
        }
        spawn_local(async move {
            match folder::remembered().await {
                Some(found) => {
                    let leave = found.leave().await;
                    self.use_folder(found, leave);
                }
                None => self.folder.set(FolderStand::NoneChosen),
            }
        });
    }

    /// Lets the person choose a folder.
    pub fn choose_folder(self) {
        spawn_local(async move {
            match folder::choose().await {
                Chosen::Folder(found) => {
                    if !found.remember().await {
                        self.say(words::folder::not_remembered(), ToldKind::Warning);
                    }
                    let leave = found.leave().await;
                    self.use_folder(found, leave);
                }
                Chosen::Cancelled => {}
                Chosen::Unavailable => {
                    self.say(words::folder::not_chosen(), ToldKind::Refused);
                }
            }
        });
    }

    /// Asks the browser for leave once more.
    pub fn allow_folder(self) {
        let found = self
            .inside
            .with_value(|inside| inside.folder.folder.clone());
        let Some(found) = found else { return };
        spawn_local(async move {
            let leave = found.ask().await;
            self.use_folder(found, leave);
        });
    }

    /// No longer keeps in step with the folder; its files stay.
    pub fn leave_folder(self) {
        self.inside.update_value(|inside| {
            inside.folder.folder = None;
            inside.folder.known.clear();
        });
        self.folder.set(FolderStand::NoneChosen);
        spawn_local(folder::forget());
    }

    fn use_folder(self, found: Folder, leave: Leave) {
        let name = found.name();
        self.inside.update_value(|inside| {
            inside.folder.folder = Some(found);
            inside.folder.known.clear();
        });
        if leave != Leave::Given {
            self.folder.set(FolderStand::ToBeAllowed { name });
            return;
        }
        self.folder.set(FolderStand::InUse {
            name,
            looked_ms: None,
            phones: 0,
            troubles: Vec::new(),
        });
        let watched = self
            .inside
            .try_update_value(|inside| std::mem::replace(&mut inside.folder.watched, true));
        if watched == Some(false) {
            spawn_local(async move {
                loop {
                    clock::wait(LOOK_EVERY_MS).await;
                    self.look_at_folder();
                }
            });
        }
        self.look_at_folder();
    }

    /// Looks at the folder soon, as after something was recorded.
    pub(super) fn look_at_folder_soon(self) {
        let waits = self.inside.try_update_value(|inside| {
            let state = &mut inside.folder;
            state.folder.is_none() || std::mem::replace(&mut state.soon, true)
        });
        if waits == Some(false) {
            spawn_local(async move {
                clock::wait(SOON_MS).await;
                self.inside
                    .update_value(|inside| inside.folder.soon = false);
                self.look_at_folder();
            });
        }
    }

    /// Looks at the folder, as soon as the rest of the program is here.
    pub fn look_at_folder(self) {
        // Before that there is no book to compare with.
        let _ = rest::now(doors::look_at_folder(self));
    }

    /// Reads what the others wrote, and writes what is not in the folder yet.
    pub(crate) fn look_at_folder_now(self) {
        let found = self.inside.try_update_value(|inside| {
            let state = &mut inside.folder;
            let free = !std::mem::replace(&mut state.busy, true);
            state.again |= !free;
            state.folder.clone().filter(|_| free)
        });
        let Some(Some(found)) = found else {
            // Nothing is under way where there is no folder.
            self.inside.update_value(|inside| {
                if inside.folder.folder.is_none() {
                    inside.folder.busy = false;
                }
            });
            return;
        };
        spawn_local(async move {
            for _ in 0..ROUNDS_MAX {
                self.keep_in_step(&found).await;
                let again = self
                    .inside
                    .try_update_value(|inside| std::mem::take(&mut inside.folder.again));
                if again != Some(true) {
                    break;
                }
            }
            self.inside
                .update_value(|inside| inside.folder.busy = false);
        });
    }

    async fn keep_in_step(self, found: &Folder) {
        let ready = matches!(self.phase.get_untracked(), Phase::Ready | Phase::NoBook);
        if !ready || self.role.get_untracked() != Role::Writes || self.busy.get_untracked() {
            return;
        }
        let name = found.name();
        if found.leave().await != Leave::Given {
            self.folder.set(FolderStand::ToBeAllowed { name });
            return;
        }
        let mut troubles = Vec::new();
        let mut phones = 0;
        match self.read_folder(found, &mut troubles).await {
            Some((entries, all_known)) => {
                phones = entries.len();
                // What lies there is known, or it would all be written once more at every look.
                if all_known && self.write_to_folder(found, &entries).await == Some(false) {
                    troubles.push(words::folder::not_written());
                }
            }
            None => troubles.push(words::folder::not_there()),
        }
        self.folder.set(FolderStand::InUse {
            name,
            looked_ms: Some(self.moment().now_ms),
            phones,
            troubles,
        });
    }

    /// The phones' files in the folder, each read as far as it goes, and whether what they hold is in the book now.
    async fn read_folder(
        self,
        found: &Folder,
        troubles: &mut Vec<String>,
    ) -> Option<(Vec<Entry>, bool)> {
        let mut entries = found.files().await?;
        entries.retain(|entry| entry.name.starts_with(BEGINNING) && entry.name.ends_with(ENDING));
        entries.sort_by(|a, b| a.name.cmp(&b.name));
        if entries.len() > FOLDER_FILES_MAX {
            troubles.push(words::folder::too_many(FOLDER_FILES_MAX));
            entries.truncate(FOLDER_FILES_MAX);
        }
        self.inside.update_value(|inside| {
            let there = |name: &String| entries.iter().any(|entry| entry.name == *name);
            inside.folder.known.retain(|name, _| there(name));
        });
        let mut books = Vec::new();
        let mut read = Vec::new();
        for entry in &entries {
            match self.read_entry(entry).await {
                Ok(Some((mut sound, mut known))) => {
                    known.foreign = self.foreign(&sound).or(known.foreign);
                    if known.foreign.is_some() {
                        sound.clear();
                    }
                    read.push((entry.name.clone(), sound.clone(), known));
                    books.extend(sound);
                }
                Ok(None) => {}
                Err(words) => troubles.push(words),
            }
        }
        match self.take_from_folder(books).await {
            Ok(0) => {}
            Ok(count) => self.say(words::folder::taken_in(count), ToldKind::Done),
            Err(words) => {
                troubles.push(words);
                return Some((entries, false));
            }
        }
        for (name, sound, mut known) in read {
            self.look(|state, _| {
                for file in &sound {
                    known.coverage.add(state.log(), file);
                }
            });
            self.inside
                .update_value(|inside| drop(inside.folder.known.insert(name, known)));
        }
        troubles.extend(self.troubles_of_files());
        Some((entries, true))
    }

    /// What is wrong with files that are as they were, too.
    fn troubles_of_files(self) -> Vec<String> {
        let own = self.own_file();
        self.inside.with_value(|inside| {
            let files = inside.folder.known.iter();
            let said = files.filter_map(|(name, known)| match &known.foreign {
                Some(why) => Some(words::folder::foreign(name, why)),
                None => (known.damaged && Some(name) != own.as_ref())
                    .then(|| words::folder::damaged(name)),
            });
            said.collect()
        })
    }

    /// Why the parts of a file are none of this book, if they are not.
    fn foreign(self, sound: &[exchange::Incoming]) -> Option<String> {
        let mut faults = sound.iter().filter_map(|part| {
            let belongs = self.look(|state, _| exchange::belongs(state, &part.head));
            belongs.err()
        });
        faults.next().map(|fault| words::files::fault(&fault))
    }

    /// What is new in a file; nothing where it is as it was.
    async fn read_entry(
        self,
        entry: &Entry,
    ) -> Result<Option<(Vec<exchange::Incoming>, Known)>, String> {
        if entry.bytes > FILE_BYTES_MAX as u64 {
            return Err(words::files::fault(&FileFault::TooLarge {
                most_bytes: FILE_BYTES_MAX,
            }));
        }
        let unreadable = |_| words::folder::unreadable(&entry.name);
        let first = files::part(&entry.file, 0, FIRST_BYTES).await;
        let first = first.map_err(unreadable)?;
        let grew = self.inside.with_value(|inside| {
            let known = inside.folder.known.get(&entry.name);
            known.is_some_and(|known| known.bytes < entry.bytes && first.starts_with(&known.first))
        });
        let before = self.inside.with_value(|inside| {
            let known = inside.folder.known.get(&entry.name)?;
            let as_it_was = known.bytes == entry.bytes && known.modified == entry.modified;
            let coverage = known.coverage.clone();
            Some((as_it_was, known.read_to, coverage, known.damaged))
        });
        let foreign = self.inside.with_value(|inside| {
            let known = inside.folder.known.get(&entry.name);
            known.and_then(|known| known.foreign.clone())
        });
        let (from, coverage, damaged) = match before {
            Some((true, ..)) => return Ok(None),
            // It grew: what was read stays read.
            Some((false, read_to, coverage, damaged)) if grew => (read_to, coverage, damaged),
            _ => (0, Coverage::default(), false),
        };
        let bytes = files::part(&entry.file, from, entry.bytes).await;
        let bytes = bytes.map_err(unreadable)?;
        // A letter cut in two at the end belongs to a part that is not whole yet.
        let text = String::from_utf8_lossy(&bytes);
        let found = parts(&text);
        if found.newer {
            return Err(words::files::fault(&FileFault::NewerFormat { format: 0 }));
        }
        let known = Known {
            bytes: entry.bytes,
            modified: entry.modified,
            first,
            read_to: from.saturating_add(found.read_to as u64),
            coverage,
            damaged: damaged || found.damaged > 0,
            unfinished: found.unfinished,
            foreign: foreign.filter(|_| from > 0),
        };
        Ok(Some((found.sound, known)))
    }

    async fn take_from_folder(self, books: Vec<exchange::Incoming>) -> Result<usize, String> {
        let say = |fault: &FileFault| words::files::fault(fault);
        let joined = exchange::Incoming::joined(books).map_err(|fault| say(&fault))?;
        let Some(joined) = joined else {
            return Ok(0);
        };
        let plan = self.look(|state, at| exchange::plan(state, at, joined));
        let plan = plan.map_err(|fault| say(&fault))?;
        if plan.example {
            return Err(say(&FileFault::Demo));
        }
        let count = plan.new.len();
        if count == 0 {
            return Ok(0);
        }
        let kept = self.put_in(plan, None).await;
        kept.map_err(|error| words::trouble::not_recorded(&error))?;
        self.join_if_new();
        Ok(count)
    }

    fn own_file(self) -> Option<String> {
        let dev = self.dev.get_untracked()?;
        Some(format!("{BEGINNING}{dev}{ENDING}"))
    }

    /// Writes what the folder lacks at the end of this phone's file; a file that was damaged is written anew. Nothing
    /// where nothing is lacking.
    async fn write_to_folder(self, found: &Folder, entries: &[Entry]) -> Option<bool> {
        let own = self.own_file()?;
        let entry = entries.iter().find(|entry| entry.name == own);
        let (held, sound) = self.inside.with_value(|inside| {
            let known = &inside.folder.known;
            let sound = known.get(&own);
            let sound = sound.is_none_or(|it| !it.damaged && !it.unfinished);
            let mut held = Coverage::default();
            for (name, file) in known {
                if sound || *name != own {
                    held.join(&file.coverage);
                }
            }
            (held, sound)
        });
        let (text, heads) = self.look(|state, at| {
            let log = state.log();
            let marks = held.marks(log);
            if count_missing(log, at.dev, &marks) == 0 && sound {
                return None;
            }
            Some((exchange::write_more(state, at, &marks)?, log.marks()))
        })?;
        let at = entry.filter(|_| sound).map(|entry| entry.bytes);
        let written = found
            .write(&own, &text, Some(at.unwrap_or(0)).filter(|_| sound))
            .await;
        if written {
            if !sound {
                self.inside
                    .update_value(|inside| drop(inside.folder.known.remove(&own)));
            }
            self.handed_over(heads, String::new());
            // What was written is read again, so that it is known to be there.
            self.inside
                .update_value(|inside| inside.folder.again = true);
        }
        Some(written)
    }

    fn is_example_open(self) -> bool {
        self.look(|state, _| state.facts().book.demo)
    }
}
