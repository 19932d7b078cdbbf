//! The book as a file: handing over, and taking in, in two steps.

use std::collections::BTreeSet;

use leptos::prelude::*;
use leptos::task::spawn_local;
use velamen_core::code::Prefix;
use velamen_core::command::Command;
use velamen_core::exchange::{self, FileFault, Plan};
use velamen_core::id::{Dev, EntryRef};
use velamen_core::state::State;
use velamen_core::time::Moment;

use super::start::{DEV, HANDED_OVER};
use super::{Act, Ledger, Phase, ToldKind};
use crate::platform::files::{self, Shared};
use crate::platform::random;
use crate::storage::{Line, Record, Storage};
use crate::words;

/// Largest file read, in bytes.
const FILE_BYTES_MAX: u32 = 256 << 20;

/// A file that was looked at and not yet taken in.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Incoming {
    pub nursery: String,
    pub plan: Plan,
}

fn has_joined(state: &State, at: &Moment) -> bool {
    state.facts().phones.contains_key(&at.dev)
}

/// What came of choosing a file.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Arrival {
    Nothing,
    Reading,
    Fault(String),
    Ready(Box<Incoming>),
}

impl Ledger {
    /// The whole book as the text of a file, with the name the file gets.
    #[must_use]
    pub fn book_file(self) -> Option<(String, String)> {
        let text = self.look(exchange::write)?;
        Some((words::files::file_name(self.moment().today), text))
    }

    /// Whether this phone can pass a file to another app.
    #[must_use]
    pub fn can_share(self) -> bool {
        files::can_share("book.txt")
    }

    /// Downloads the whole book.
    pub fn download_book(self) {
        match self.book_file() {
            Some((name, text)) if files::download(&name, "text/plain", &text) => self.handed_over(),
            _ => self.say(words::files::not_written(), ToldKind::Refused),
        }
    }

    /// Passes the whole book to another app.
    pub fn share_book(self) {
        let Some((name, text)) = self.book_file() else {
            return;
        };
        spawn_local(async move {
            match files::share(&name, &text).await {
                Shared::Done => self.handed_over(),
                Shared::Cancelled => {}
                _ => self.say(words::files::not_shared(), ToldKind::Refused),
            }
        });
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

    fn handed_over(self) {
        let now_ms = self.moment().now_ms;
        self.handed_over_ms.set(Some(now_ms));
        self.say(words::files::handed_over(), ToldKind::Done);
        if let Some(storage) = self.storage() {
            spawn_local(async move {
                // Only the reminder depends on it.
                let _ = storage.put_mark(HANDED_OVER, &now_ms.to_string()).await;
            });
        }
    }

    /// Reads a chosen file and says what taking it in would do. Changes nothing.
    pub fn look_at_file(self, file: web_sys::File, arrival: RwSignal<Arrival>) {
        arrival.set(Arrival::Reading);
        spawn_local(async move {
            let told = match files::read_text(&file, FILE_BYTES_MAX).await {
                Ok(text) => self.judge(&text),
                Err(_) => Arrival::Fault(words::files::unreadable()),
            };
            arrival.set(told);
        });
    }

    /// What taking the text of a file in would do.
    #[must_use]
    pub fn judge(self, text: &str) -> Arrival {
        let judged: Result<Incoming, FileFault> = exchange::read(text).and_then(|incoming| {
            let plan = self.look(|state, at| exchange::plan(state, at, &incoming))?;
            Ok(Incoming {
                nursery: incoming.head.nursery,
                plan,
            })
        });
        match judged {
            Ok(incoming) => Arrival::Ready(Box::new(incoming)),
            Err(fault) => Arrival::Fault(words::files::fault(&fault)),
        }
    }

    /// Takes the new entries of a file in, all in one transaction. `then` runs once they count.
    pub fn take_in(
        self,
        incoming: Incoming,
        arrival: RwSignal<Arrival>,
        then: impl FnOnce() + 'static,
    ) {
        spawn_local(self.taken_in(incoming, arrival, then));
    }

    /// The same, for who waits for it.
    pub async fn taken_in(
        self,
        incoming: Incoming,
        arrival: RwSignal<Arrival>,
        then: impl FnOnce() + 'static,
    ) {
        let plan = incoming.plan;
        let lines = self.keyed(&plan);
        let at = self.moment();
        let own = self.look(|state, _| state.log().marks().get(&at.dev).copied());
        let example = plan.first && plan.example;
        let kept = async {
            if example {
                self.make_room_for_example().await?;
            }
            self.write(&Record {
                lines: &lines,
                ..Record::default()
            })
            .await?;
            let storage = self.storage().filter(|_| example);
            match storage {
                Some(storage) => self.show(self.look_first(&storage).await?).await,
                None => Ok(()),
            }
        };
        if let Err(error) = kept.await {
            arrival.set(Arrival::Fault(words::trouble::not_recorded(&error)));
            return;
        }
        if !example {
            self.take_lines(plan.new.iter().map(String::as_str));
        }
        if let Some((seq, hash)) = own
            && let Some(name) = self.look(|state, _| state.log().name_of(at.dev, seq, hash))
        {
            self.go_by(name).await;
        }
        arrival.set(Arrival::Nothing);
        self.say(words::files::taken_in(plan.new.len()), ToldKind::Done);
        self.join_if_new();
        then();
    }

    /// Lines with the key each is stored under. Two lines that claim one number (a copied phone) get keys of their own.
    fn keyed(self, plan: &Plan) -> Vec<Line> {
        let mut used: BTreeSet<EntryRef> = BTreeSet::new();
        self.look(|state, _| {
            let lines = plan.ids.iter().zip(&plan.new).map(|(id, text)| {
                let taken = !used.insert(*id) || state.log().line(*id).is_some();
                let dev = if taken {
                    id.dev.of_branch(text)
                } else {
                    id.dev
                };
                Line {
                    dev: dev.0,
                    seq: u64::from(id.seq),
                    text: text.clone(),
                }
            });
            lines.collect()
        })
    }

    /// A phone that was copied goes on under the name of its own branch.
    async fn go_by(self, name: Dev) {
        if self.dev.get_untracked() == Some(name) {
            return;
        }
        self.dev.set(Some(name));
        if let Some(storage) = self.storage() {
            // Should it fail, the same name is found again at the next file.
            let _ = storage.put_mark(DEV, &name.to_string()).await;
        }
    }

    /// A phone that took a book in for the first time, or learned that it is a copy, joins under a prefix of its own.
    fn join_if_new(self) {
        if self.phase.get_untracked() == Phase::Ready && !self.look(has_joined) {
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
