//! Handing the book over as a file: whole, or what another phone lacks; open, or under a passphrase.

use std::collections::BTreeMap;

use leptos::prelude::*;
use leptos::task::spawn_local;
use velamen_core::code::Prefix;
use velamen_core::command::Command;
use velamen_core::entry::Marks;
use velamen_core::exchange;
use velamen_core::exchange::envelope::{self, CHUNK_BYTES, SALT_BYTES, base64, first_line, nonce};
use velamen_core::exchange::lack::{Other, Urgency, at_stake, held_by, others, urgency};
use velamen_core::id::Dev;
use velamen_core::state::State;
use velamen_core::time::{Moment, civil_day, days_between};

use super::{Act, Ledger, Phase, ToldKind};
use crate::platform::files::{self, Pieces, Shared};
use crate::platform::{ciphers, clock, random, streams};
use crate::storage::Storage;
use crate::words;

/// When the last file was written, and how far it went.
pub(super) const HANDED_OVER: &str = "handed_over_ms";
pub(super) const HANDED_OVER_HEADS: &str = "handed_over_heads";
/// How far a file went that was saved on this phone, until somebody says that it lies elsewhere.
pub(super) const SAVED_HERE: &str = "saved_here_heads";
/// What a file of another phone told of what it holds; its name follows.
pub(super) const HEADS_OF: &str = "heads-";
/// A text from this size on is packed when it is saved. Smaller ones stay readable, and gain little.
const PACKED_FROM_BYTES: usize = 1 << 20;
/// Chunks enciphered before the page may breathe.
const CHUNKS_AT_ONCE: usize = 16;

/// How a file leaves the phone.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Way {
    Save,
    Share,
}

/// How safe the book is, should this phone be lost.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Safety {
    /// Entries on this phone alone, as far as is known.
    pub at_stake: usize,
    /// Days since the last file was written.
    pub days: Option<i64>,
    pub urgency: Urgency,
    /// A file holds more of it, but lies on this phone as far as is known.
    pub saved_here: bool,
}

pub(super) fn has_joined(state: &State, at: &Moment) -> bool {
    let known = state.facts().phones.get(&at.dev);
    known.is_some_and(|phone| !phone.has_left())
}

/// What is known of how far others hold the book, beside their own entries.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub(super) struct Holdings {
    pub(super) handed_over: Marks,
    pub(super) told: BTreeMap<Dev, Marks>,
}

impl Holdings {
    pub(super) fn of(marks: &BTreeMap<String, String>) -> Self {
        let read = |text: &String| serde_json::from_str::<Marks>(text).ok();
        let told = marks.iter().filter_map(|(key, text)| {
            let dev = key.strip_prefix(HEADS_OF)?.parse().ok()?;
            Some((dev, read(text)?))
        });
        Self {
            handed_over: marks
                .get(HANDED_OVER_HEADS)
                .and_then(read)
                .unwrap_or_default(),
            told: told.collect(),
        }
    }
}

impl Ledger {
    /// Whether this phone can pass a file to another app.
    #[must_use]
    pub fn can_share(self) -> bool {
        files::can_share("book.txt")
    }

    /// Whether a file can be put under a passphrase here.
    #[must_use]
    pub fn can_encipher(self) -> bool {
        ciphers::can_encipher()
    }

    /// Hands over the whole book, or what one phone lacks. An empty passphrase leaves the file open.
    pub fn hand_over(self, to: Option<Dev>, passphrase: String, way: Way) {
        spawn_local(async move {
            let Some(text) = self.text_for(to) else {
                self.say(words::files::not_written(), ToldKind::Refused);
                return;
            };
            let heads = self.look(|state, _| state.log().marks());
            let today = self.moment().today;
            let prefix = to.and_then(|dev| self.prefix_of(dev));
            let entries = to.and_then(|_| entries_of(&text));
            let closed = !passphrase.is_empty();
            let text = match closed {
                true => match under_passphrase(&text, &passphrase).await {
                    Some(text) => text,
                    None => {
                        self.say(words::files::not_closed(), ToldKind::Refused);
                        return;
                    }
                },
                false => text,
            };
            let name = words::files::file_name(today, prefix.as_deref(), closed);
            if self.send(&name, text, way, closed).await {
                let said = words::files::handed_over(entries);
                match way {
                    // Downloads lie on the phone that is to be lost.
                    Way::Save => self.saved_here(heads, said),
                    Way::Share => self.handed_over(heads, said),
                }
            }
        });
    }

    /// True when it is on its way.
    async fn send(self, name: &str, text: String, way: Way, closed: bool) -> bool {
        if way == Way::Share {
            return match files::share(name, &text).await {
                Shared::Done => true,
                Shared::Cancelled => false,
                Shared::Unavailable => {
                    self.say(words::files::not_shared(), ToldKind::Refused);
                    false
                }
            };
        }
        let packed = match text.len() >= PACKED_FROM_BYTES && !closed {
            true => streams::pack(text.as_bytes()).await,
            false => None,
        };
        let saved = match packed {
            Some(bytes) => {
                let pieces = Pieces::default();
                pieces.push(&bytes);
                pieces.download(&format!("{name}.gz"), "application/gzip")
            }
            None => files::download(name, "text/plain", &text),
        };
        if !saved {
            self.say(words::files::not_written(), ToldKind::Refused);
        }
        saved
    }

    pub(super) fn text_for(self, to: Option<Dev>) -> Option<String> {
        let Some(dev) = to else {
            return self.look(exchange::write);
        };
        let told = self.told_by(dev);
        self.look(|state, at| {
            let holds = held_by(state.log(), dev, &told);
            exchange::write_since(state, at, &holds)
        })
    }

    fn told_by(self, dev: Dev) -> Marks {
        let told = self
            .inside
            .with_value(|inside| inside.holdings.told.get(&dev).cloned());
        told.unwrap_or_default()
    }

    fn prefix_of(self, dev: Dev) -> Option<String> {
        self.look(|state, _| {
            let phone = state.facts().phones.get(&dev)?;
            phone.prefix.get().map(ToString::to_string)
        })
    }

    /// The other phones of the book, and what each lacks.
    #[must_use]
    pub fn others(self) -> Memo<Vec<Other>> {
        Memo::new(move |_| self.follow(|state, at| others(state, at, |dev| self.told_by(dev))))
    }

    /// How safe the book is, should this phone be lost.
    #[must_use]
    pub fn safety(self) -> Memo<Safety> {
        Memo::new(move |_| {
            let handed_over_ms = self.handed_over_ms.get();
            let off_min = self.moment().off_min;
            let on = handed_over_ms.and_then(|at_ms| civil_day(at_ms, off_min));
            let days = on.map(|on| days_between(on, self.today.get()));
            let handed = self
                .inside
                .with_value(|inside| inside.holdings.handed_over.clone());
            let at_stake = self.follow(|state, at| {
                let all = others(state, at, |dev| self.told_by(dev));
                at_stake(state, at.dev, &handed, &all)
            });
            Safety {
                at_stake,
                days,
                urgency: urgency(at_stake, days),
                saved_here: at_stake > 0 && self.saved_here.with(Option::is_some),
            }
        })
    }

    /// Offers a text as a file, and says what was written.
    pub fn save_text(self, name: &str, media_type: &str, text: &str, said: String) {
        if files::download(name, media_type, text) {
            self.say(said, ToldKind::Done);
        } else {
            self.say(words::files::not_written(), ToldKind::Refused);
        }
    }

    /// Opens the phone's way of printing, for the screen as it stands.
    pub fn print(self) {
        if !files::print() {
            self.say(words::files::not_printed(), ToldKind::Refused);
        }
    }

    fn saved_here(self, heads: Marks, said: String) {
        self.say(said, ToldKind::Done);
        let text = serde_json::to_string(&heads).unwrap_or_default();
        self.saved_here.set(Some(heads));
        self.keep_saved_here(text);
    }

    /// Only the reminder depends on it.
    fn keep_saved_here(self, text: String) {
        if let Some(storage) = self.storage() {
            spawn_local(async move {
                let _ = storage.put_mark(SAVED_HERE, &text).await;
            });
        }
    }

    /// The file that was saved on this phone lies somewhere else now.
    pub fn lies_elsewhere(self) {
        if let Some(heads) = self.saved_here.get_untracked() {
            self.handed_over(heads, String::new());
        }
    }

    pub(super) fn handed_over(self, heads: Marks, said: String) {
        let now_ms = self.moment().now_ms;
        if self.saved_here.with_untracked(Option::is_some) {
            self.saved_here.set(None);
            self.keep_saved_here(String::new());
        }
        if !said.is_empty() {
            self.say(said, ToldKind::Done);
        }
        let text = serde_json::to_string(&heads).unwrap_or_default();
        self.inside
            .update_value(|inside| inside.holdings.handed_over = heads);
        self.handed_over_ms.set(Some(now_ms));
        if let Some(storage) = self.storage() {
            spawn_local(async move {
                // Only the reminder depends on them.
                let _ = storage.put_mark(HANDED_OVER_HEADS, &text).await;
                let _ = storage.put_mark(HANDED_OVER, &now_ms.to_string()).await;
            });
        }
    }

    /// A phone that took a book in for the first time, or learned that it is a copy, joins under a prefix of its own.
    pub(super) fn join_if_new(self) {
        let left = self.look(|state, at| {
            let known = state.facts().phones.get(&at.dev);
            known.is_some_and(velamen_core::state::Phone::has_left)
        });
        // One that was taken off the book joins again when somebody says so.
        if self.phase.get_untracked() == Phase::Ready && !left && !self.look(has_joined) {
            self.join_book("");
        }
    }

    /// Whether this phone may write in the book: one that was copied joins again first.
    #[must_use]
    pub fn joined(self) -> Memo<bool> {
        self.ask(has_joined)
    }

    /// Joins the book under a prefix that no other phone has.
    pub fn join_book(self, said: &str) {
        let taken = self.look(|state, _| {
            let phones = state.facts().phones.values();
            phones
                .filter_map(|phone| phone.prefix.get().copied())
                .collect()
        });
        if let Some(prefix) = Prefix::pick_free(self.chance(), &taken) {
            let command = Command::JoinPhone {
                prefix,
                name: String::new(),
            };
            self.act(Act::new(command, said).for_good());
        }
    }

    /// A random number for a new book's identity and prefix.
    #[must_use]
    pub fn chance(self) -> u64 {
        random::word().unwrap_or_else(|| self.moment().now_ms.unsigned_abs())
    }
}

/// How many entries a file says it holds.
pub(super) fn entries_of(text: &str) -> Option<usize> {
    let head: exchange::FileHead = serde_json::from_str(text.lines().next()?).ok()?;
    usize::try_from(head.entries).ok()
}

/// The text of a file under a passphrase; `None` where the browser has no ciphers.
async fn under_passphrase(text: &str, passphrase: &str) -> Option<String> {
    let packed = streams::pack(text.as_bytes()).await;
    let is_packed = packed.is_some();
    let bytes = packed.unwrap_or_else(|| text.as_bytes().to_vec());
    let salt: [u8; SALT_BYTES] = ciphers::random()?;
    let first = first_line(&salt, is_packed)?;
    let key = ciphers::key_of(passphrase, &salt, envelope::ROUNDS).await?;
    let chunks: Vec<&[u8]> = bytes.chunks(CHUNK_BYTES).collect();
    let mut file = format!("{first}\n");
    for (at, chunk) in chunks.iter().enumerate() {
        let nonce = nonce(at, at.saturating_add(1) == chunks.len());
        let hidden = key.encipher(&nonce, first.as_bytes(), chunk).await?;
        file.push_str(&base64(&hidden));
        file.push('\n');
        if at % CHUNKS_AT_ONCE == CHUNKS_AT_ONCE - 1 {
            clock::breathe().await;
        }
    }
    Some(file)
}
