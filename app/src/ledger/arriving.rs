//! Taking files in, in two steps: each chosen file is looked at and judged, then what is new goes in together, in one
//! transaction. A file that is refused stands in no other's way, and nothing of it is used.

use std::collections::BTreeSet;

use leptos::prelude::*;
use leptos::task::spawn_local;
use velamen_core::entry::LineHash;
use velamen_core::exchange::album::Item;
use velamen_core::exchange::envelope::{self, EnvelopeFault};
use velamen_core::exchange::{self, Bounds, FileFault, KIND_BYTES, Kind, Plan, Reading, kind};
use velamen_core::id::{Dev, EntryRef};
use velamen_core::limits::{FILE_BYTES_MAX, FILES_MAX};
use velamen_core::state::State;

use super::files::HEADS_OF;
use super::start::DEV;
use super::{Ledger, ToldKind};
use crate::platform::ciphers;
use crate::platform::files::{self, FileError};
use crate::platform::streams::{self, UnpackError};
use crate::platform::{clock, passed_on, room};
use crate::storage::{Line, Record, Storage, StorageError};
use crate::words;

/// Lines read, or taken in, before it is asked whether the page should breathe.
const READ_AT_ONCE: usize = 500;
const TAKEN_AT_ONCE: usize = 500;
/// Beyond so many entries in the book, or so many new ones, questions are not worked out beforehand: it would take
/// longer than taking the file in.
const ASKED_ENTRIES_MAX: usize = 20_000;
const ASKED_NEW_MAX: usize = 2_000;

/// What was looked at and not yet taken in.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Incoming {
    pub nursery: String,
    pub plan: Plan,
    /// Files that stay out, and why.
    pub refused: Vec<(String, String)>,
    /// Questions the book would ask anew, where that was worked out.
    pub asks: usize,
    /// Photographs that would come, and those that are here already.
    pub photos: usize,
    pub photos_known: usize,
}

/// What came of choosing files.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Arrival {
    Nothing,
    /// How far the reading is, in per cent.
    Reading(u32),
    Fault(String),
    /// A file is under a passphrase; whether the one that was tried did not fit.
    Closed {
        tried: bool,
    },
    Ready(Box<Incoming>),
    TakingIn(u32),
}

/// Why a file stays out.
enum Out {
    Words(String),
    Closed { tried: bool },
}

impl From<FileFault> for Out {
    fn from(fault: FileFault) -> Self {
        Self::Words(words::files::fault(&fault))
    }
}

impl From<EnvelopeFault> for Out {
    fn from(fault: EnvelopeFault) -> Self {
        Self::Words(words::files::envelope_fault(fault))
    }
}

impl From<FileError> for Out {
    fn from(error: FileError) -> Self {
        Self::Words(match error {
            FileError::TooLarge => words::files::fault(&FileFault::TooLarge {
                most_bytes: FILE_BYTES_MAX,
            }),
            FileError::NotText => words::files::fault(&FileFault::NotABook),
            FileError::Unreadable => words::files::unreadable(),
        })
    }
}

impl From<UnpackError> for Out {
    fn from(error: UnpackError) -> Self {
        Self::Words(match error {
            UnpackError::TooLarge => words::files::bomb(),
            UnpackError::Damaged => words::files::badly_packed(),
            UnpackError::Unavailable => words::files::cannot_unpack(),
        })
    }
}

/// What a file turned out to be.
enum Opened {
    Book(exchange::Incoming),
    Album(Vec<Item>),
}

impl Ledger {
    /// Looks at files that another app passed on, if there are any.
    pub fn look_at_passed_on(self, arrival: RwSignal<Arrival>) {
        spawn_local(async move {
            let files = passed_on::take().await;
            if !files.is_empty() {
                self.look_at_files(files, "", arrival);
            }
        });
    }

    /// Reads chosen files and says what taking them in would do. Changes nothing.
    pub fn look_at_files(
        self,
        files: Vec<web_sys::File>,
        passphrase: &str,
        arrival: RwSignal<Arrival>,
    ) {
        self.inside
            .update_value(|inside| inside.chosen.clone_from(&files));
        let turn = self.next_choice();
        arrival.set(Arrival::Reading(0));
        let passphrase = passphrase.to_owned();
        spawn_local(async move {
            let told = self.look_at(files, &passphrase, arrival).await;
            if self.is_last_choice(turn) {
                arrival.set(told);
            }
        });
    }

    /// Something is chosen to be read. Of two files chosen one soon after the other, the second counts, whichever is
    /// read first.
    pub(super) fn next_choice(self) -> u64 {
        self.inside
            .try_update_value(|inside| {
                inside.choices += 1;
                inside.choices
            })
            .unwrap_or_default()
    }

    pub(super) fn is_last_choice(self, turn: u64) -> bool {
        self.inside.with_value(|inside| inside.choices == turn)
    }

    /// The same files once more, with a passphrase.
    pub fn look_again(self, passphrase: &str, arrival: RwSignal<Arrival>) {
        let files = self.inside.with_value(|inside| inside.chosen.clone());
        self.look_at_files(files, passphrase, arrival);
    }

    async fn look_at(
        self,
        files: Vec<web_sys::File>,
        passphrase: &str,
        arrival: RwSignal<Arrival>,
    ) -> Arrival {
        if files.len() > FILES_MAX {
            return Arrival::Fault(words::files::too_many_files(FILES_MAX));
        }
        let (mut books, mut albums, mut refused) = (Vec::new(), Vec::new(), Vec::new());
        for file in files {
            // The sentence that it is being read comes first.
            clock::breathe().await;
            match opened(&file, passphrase, arrival).await {
                Ok(Opened::Book(book)) => match self.belongs(&book, &books) {
                    Ok(()) => books.push(book),
                    Err(fault) => refused.push((file.name(), words::files::fault(&fault))),
                },
                Ok(Opened::Album(items)) => albums.push((file, items)),
                Err(Out::Closed { tried }) => return Arrival::Closed { tried },
                Err(Out::Words(words)) => refused.push((file.name(), words)),
            }
        }
        self.planned(books, albums, refused).await
    }

    /// Whether a file is of this book, or where there is none yet, of the same one as the files before it.
    fn belongs(
        self,
        file: &exchange::Incoming,
        before: &[exchange::Incoming],
    ) -> Result<(), FileFault> {
        self.look(|state, _| exchange::belongs(state, &file.head))?;
        match before.first() {
            Some(first) if first.head.book != file.head.book => Err(FileFault::OtherBook {
                nursery: file.head.nursery.clone(),
            }),
            _ => Ok(()),
        }
    }

    async fn planned(
        self,
        books: Vec<exchange::Incoming>,
        albums: Vec<(web_sys::File, Vec<Item>)>,
        refused: Vec<(String, String)>,
    ) -> Arrival {
        let joined = exchange::Incoming::joined(books);
        let plan = joined.and_then(|joined| match joined {
            Some(joined) => {
                let nursery = joined.head.nursery.clone();
                let plan = self.look(|state, at| exchange::plan(state, at, joined))?;
                Ok(Some((nursery, plan)))
            }
            None => Ok(None),
        });
        let (nursery, plan) = match plan {
            Ok(Some(found)) => found,
            Ok(None) if albums.is_empty() => {
                return Arrival::Fault(words::files::all_refused(&refused));
            }
            Ok(None) => (String::new(), Plan::default()),
            Err(fault) => return Arrival::Fault(words::files::fault(&fault)),
        };
        let here = match self.storage() {
            Some(storage) => storage.list_photo_keys().await.unwrap_or_default(),
            None => Vec::new(),
        };
        let here: BTreeSet<String> = here.into_iter().collect();
        let items = albums.iter().flat_map(|(_, items)| items);
        let all: BTreeSet<&String> = items.map(|item| &item.sha256).collect();
        let photos_known = all.iter().filter(|name| here.contains(**name)).count();
        let photos = all.len().saturating_sub(photos_known);
        self.inside.update_value(|inside| inside.albums = albums);
        let small = self.look(|state, _| state.log().len() <= ASKED_ENTRIES_MAX);
        let asks = match !plan.first && small && plan.new.len() <= ASKED_NEW_MAX {
            true => self.look(|state, _| exchange::would_ask(state, &plan)),
            false => 0,
        };
        Arrival::Ready(Box::new(Incoming {
            nursery,
            plan,
            refused,
            asks,
            photos,
            photos_known,
        }))
    }

    /// What taking the text of a file in would do.
    #[must_use]
    pub fn judge(self, text: &str) -> Arrival {
        room::for_text(text.len());
        let judged: Result<Incoming, FileFault> = exchange::read(text).and_then(|incoming| {
            let nursery = incoming.head.nursery.clone();
            let plan = self.look(|state, at| exchange::plan(state, at, incoming))?;
            Ok(Incoming::plain(nursery, plan))
        });
        match judged {
            Ok(incoming) => Arrival::Ready(Box::new(incoming)),
            Err(fault) => Arrival::Fault(words::files::fault(&fault)),
        }
    }

    /// Takes the new entries of files in, all in one transaction. `then` runs once they count.
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
        let new = incoming.plan.new.len();
        if let Err(error) = self.put_in(incoming.plan, Some(arrival)).await {
            arrival.set(Arrival::Fault(words::trouble::not_recorded(&error)));
            return;
        }
        let photos = self.take_photos_in(arrival).await;
        arrival.set(Arrival::Nothing);
        match photos {
            Ok(photos) => self.say(words::files::taken_in(new, photos), ToldKind::Done),
            Err(error) => self.say(words::files::photos_stopped(&error), ToldKind::Warning),
        }
        self.join_if_new();
        then();
    }

    /// Commits what a plan brings, lets it count, and goes on under the name this phone then has.
    pub(super) async fn put_in(
        self,
        mut plan: Plan,
        arrival: Option<RwSignal<Arrival>>,
    ) -> Result<(), StorageError> {
        let at = self.moment();
        let own = self.look(|state, _| state.log().marks().get(&at.dev).copied());
        let example = plan.first && plan.example;
        if !example {
            // What is tapped meanwhile is decided by the whole book.
            self.busy.set(true);
        }
        let lines = self.keyed(std::mem::take(&mut plan.new), &plan.marks);
        let kept = self.commit(&plan, &lines, example).await;
        if kept.is_ok() && !example {
            self.let_count(&lines, &plan.marks, arrival).await;
        }
        if kept.is_ok()
            && let Some((seq, hash)) = own
            && let Some(name) = self.look(|state, _| state.log().name_of(at.dev, seq, hash))
        {
            self.go_by(name).await;
        }
        if !example {
            self.work_off();
        }
        kept
    }

    async fn commit(self, plan: &Plan, lines: &[Line], example: bool) -> Result<(), StorageError> {
        if example {
            self.make_room_for_example().await?;
        }
        let told = plan.by.filter(|by| Some(*by) != self.dev.get_untracked());
        let marks: Vec<(String, String)> = told
            .and_then(|by| {
                let heads = serde_json::to_string(&plan.heads).ok()?;
                Some((format!("{HEADS_OF}{by}"), heads))
            })
            .into_iter()
            .collect();
        let drafts_left: Vec<(String, String)> = plan.drafts.clone().into_iter().collect();
        let record = |lines| Record {
            lines,
            drafts_left: &drafts_left,
            marks: &marks,
            ..Record::default()
        };
        let written = self.write(&record(lines)).await;
        if written == Err(StorageError::Duplicate) {
            // Under one of the keys lies something that is no entry any more: these get keys of their own.
            let own: Vec<Line> = lines.iter().map(with_own_key).collect();
            self.write(&record(&own)).await?;
        } else {
            written?;
        }
        if let Some(by) = told {
            let heads = plan.heads.clone();
            self.inside
                .update_value(|inside| drop(inside.holdings.told.insert(by, heads)));
        }
        match self.storage().filter(|_| example) {
            Some(storage) => self.show(self.look_first(&storage).await?).await,
            None => {
                self.remember_drafts(drafts_left);
                Ok(())
            }
        }
    }

    /// Lets lines that are on disk count; with many of them the page breathes in between.
    async fn let_count(
        self,
        lines: &[Line],
        marks: &[(EntryRef, LineHash)],
        arrival: Option<RwSignal<Arrival>>,
    ) {
        let all = lines.len();
        let a_book = self.look(|state, _| all > state.log().len());
        if a_book {
            self.state.update_value(State::rest_from_work);
        }
        let both = lines.chunks(TAKEN_AT_ONCE).zip(marks.chunks(TAKEN_AT_ONCE));
        let mut stretch = clock::Stretch::begin();
        for (at, (some, marks)) in both.enumerate() {
            if stretch.is_long() {
                let done = at.saturating_mul(TAKEN_AT_ONCE);
                if let Some(arrival) = arrival {
                    arrival.set(Arrival::TakingIn(percent(done, all)));
                }
                stretch.rest().await;
            }
            room::for_text(some.iter().map(|line| line.text.len()).sum());
            self.state.update_value(|state| {
                // What is not an entry stays in storage and is handed on; it says nothing here.
                let hashed = some.iter().zip(marks);
                let _ =
                    state.take_hashed(hashed.map(|(line, (_, hash))| (line.text.as_str(), *hash)));
            });
        }
        if a_book {
            room::for_text(lines.iter().map(|line| line.text.len()).sum());
            self.state.update_value(State::keep_work);
        }
        self.follow_what_counts();
    }

    /// Lines with the key each is stored under. Two lines that claim one number (a copied phone) get keys of their own.
    fn keyed(self, lines: Vec<String>, marks: &[(EntryRef, LineHash)]) -> Vec<Line> {
        let lines = marks.iter().map(|(id, _)| *id).zip(lines);
        self.look(|state, _| keyed(lines, |id| state.log().line(id).is_some()))
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
}

impl Incoming {
    pub(super) fn plain(nursery: String, plan: Plan) -> Self {
        Self {
            nursery,
            plan,
            refused: Vec::new(),
            asks: 0,
            photos: 0,
            photos_known: 0,
        }
    }
}

/// Lines with keys: the second that claims a number gets a key of its own.
pub(super) fn keyed(
    lines: impl Iterator<Item = (EntryRef, String)>,
    known: impl Fn(EntryRef) -> bool,
) -> Vec<Line> {
    let mut used: BTreeSet<EntryRef> = BTreeSet::new();
    let keyed = lines.map(|(id, text)| {
        let taken = !used.insert(id) || known(id);
        let dev = if taken {
            id.dev.of_branch(&text)
        } else {
            id.dev
        };
        Line {
            dev: dev.0,
            seq: u64::from(id.seq),
            text,
        }
    });
    keyed.collect()
}

fn with_own_key(line: &Line) -> Line {
    Line {
        dev: Dev(line.dev).of_branch(&line.text).0,
        ..line.clone()
    }
}

/// How much of a whole, in per cent.
pub(super) fn percent(done: usize, all: usize) -> u32 {
    let pct = done.saturating_mul(100).checked_div(all).unwrap_or(100);
    u32::try_from(pct.min(100)).unwrap_or(100)
}

/// Finds out what a file is, and reads it.
async fn opened(
    file: &web_sys::File,
    passphrase: &str,
    arrival: RwSignal<Arrival>,
) -> Result<Opened, Out> {
    let first = files::part(file, 0, KIND_BYTES as u64).await?;
    if kind(&first) == Kind::Album {
        return super::albums::directory_of(file)
            .await
            .map(Opened::Album)
            .map_err(Out::Words);
    }
    let text = match kind(&first) {
        Kind::Text | Kind::Envelope => text_of(file).await?,
        Kind::Packed => unpacked(file).await?,
        Kind::Empty => return Err(FileFault::Empty.into()),
        Kind::Unknown | Kind::Album => return Err(FileFault::NotABook.into()),
    };
    let text = match kind(text.as_bytes().get(..KIND_BYTES).unwrap_or(text.as_bytes())) {
        Kind::Envelope => out_of_envelope(&text, passphrase).await?,
        _ => text,
    };
    read_book(&text, arrival).await.map(Opened::Book)
}

async fn text_of(file: &web_sys::File) -> Result<String, FileError> {
    files::read_text(file, u32::try_from(FILE_BYTES_MAX).unwrap_or(u32::MAX)).await
}

async fn unpacked(file: &web_sys::Blob) -> Result<String, Out> {
    let packed = usize::try_from(files::size(file)).unwrap_or(usize::MAX);
    let bytes = streams::unpack(file, |bytes| exchange::may_become(packed, bytes)).await?;
    String::from_utf8(bytes).map_err(|_| FileFault::NotABook.into())
}

/// What lies under a passphrase. All of it is opened before any of it is used.
async fn out_of_envelope(text: &str, passphrase: &str) -> Result<String, Out> {
    let closed = envelope::read(text)?;
    if passphrase.is_empty() {
        return Err(Out::Closed { tried: false });
    }
    let key = ciphers::key_of(passphrase, &closed.salt, closed.rounds).await;
    let key = key.ok_or_else(|| Out::Words(words::files::no_ciphers()))?;
    let bound_to = closed.bound_to.as_bytes();
    let mut bytes = Vec::new();
    for at in 0..closed.len() {
        let hidden = closed.chunk(at)?;
        match key.open(&closed.nonce(at), bound_to, &hidden).await {
            Some(more) => bytes.extend(more),
            // The first one tells the passphrase; a later one, that the file is not as it was.
            None if at == 0 => return Err(Out::Closed { tried: true }),
            None => {
                let line = at.saturating_add(2);
                return Err(EnvelopeFault::Damaged { line }.into());
            }
        }
    }
    if closed.packed {
        let blob = files::blob_of(&bytes).ok_or(UnpackError::Unavailable)?;
        return unpacked(&blob).await;
    }
    String::from_utf8(bytes).map_err(|_| FileFault::NotABook.into())
}

/// Reads a book some lines at a time.
async fn read_book(text: &str, arrival: RwSignal<Arrival>) -> Result<exchange::Incoming, Out> {
    let mut reading = Reading::begin(text, Bounds::default())?;
    let mut stretch = clock::Stretch::begin();
    room::for_text(text.len());
    while !reading.go_on(READ_AT_ONCE)? {
        room::for_text(text.len());
        if !stretch.is_long() {
            continue;
        }
        let (read, of) = reading.so_far();
        let whole = |count: u64| usize::try_from(count).unwrap_or(usize::MAX);
        // A file that was given up for another says no more how far it is.
        if arrival.with_untracked(|arrival| matches!(arrival, Arrival::Reading(_))) {
            arrival.set(Arrival::Reading(percent(whole(read), whole(of))));
        }
        stretch.rest().await;
    }
    Ok(reading.end()?)
}
