//! Where the book is kept on this phone.
//!
//! The storage knows nothing of the nursery. It keeps lines of text whose meaning belongs to the core, photographs
//! under the digest of their bytes, drafts of work in hand, and a few marks. What it promises:
//!
//! - A record is written whole or not at all, and [`Storage::append`] answers only after it is on disk.
//! - A line is never written twice and never overwritten: its identity is (device, sequence).
//! - Lines come back in the order in which they arrived, byte for byte as they were given.
//! - A connection lost underneath is opened again once, and the same record is tried once more. Because a line has an
//!   identity, trying again cannot record a thing twice.
//! - A book written by a newer version of the program is refused, never opened and never changed.
//!
//! Two implementors: [`Indexed`] keeps the book in the browser's IndexedDB, [`Memory`] in memory, for tests. Both pass
//! the same suite.

mod connection;
mod fault;
mod indexed;
mod memory;
mod orphans;
mod rows;
mod runs;
mod salvage;
mod schema;
mod sealing;
mod snapshot;
#[cfg(test)]
#[cfg(target_arch = "wasm32")]
mod suite;
#[cfg(test)]
#[cfg(target_arch = "wasm32")]
mod tests;

use std::collections::BTreeMap;
use std::future::Future;

pub use indexed::Indexed;
pub use memory::Memory;
pub use orphans::{UNNAMED, sweep_photos};
pub use salvage::Salvaged;

/// How many lines are sealed into one segment.
pub const SEGMENT_LINES: usize = 1000;

/// Lines that come in one record, from which on they are segments at once.
pub const SEALED_LEAST: usize = 200;

/// Marks whose key starts so belong to the storage itself; they are neither shown nor accepted.
pub(crate) const OWN_MARK: &str = "storage.";

/// The mark that says which identities lie in sealed segments.
pub(crate) const SEALED_MARK: &str = "storage.sealed";

/// The largest whole number the browser keeps exactly, 2^53 - 1.
const LARGEST_NUMBER: u64 = 9_007_199_254_740_991;

/// Why the storage could not do what was asked.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum StorageError {
    /// The phone has no room left for this. Nothing was written.
    Full,
    /// Another window holds an older version of the book open.
    Blocked,
    /// The book was made by a newer version of the program.
    Newer,
    /// The browser allows no storage here, as in some private windows.
    Refused,
    /// The connection is gone and could not be had again, or was given up on purpose.
    Closed,
    /// A line with this identity is in the book already, with other bytes. Nothing was written.
    Duplicate,
    /// What reads the book could not be had, from the phone or the network. The book itself was not touched.
    NoReader,
    /// Anything else, in the browser's own words.
    Other(String),
}

/// Why a connection was given up while the book was open.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Lost {
    /// Another window opens the book with a newer version of the program; this one has to be loaded again.
    Superseded,
    /// The book was erased.
    Erased,
}

/// A book that was opened.
#[derive(Debug)]
pub struct Opened<S> {
    /// The book itself.
    pub storage: S,
    /// The version of the stores now.
    pub schema: u32,
    /// The version of the stores before opening; `None` when the book did not exist.
    pub schema_before: Option<u32>,
}

/// One line of the book and its identity.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Line {
    /// The device that wrote it.
    pub dev: u64,
    /// Its number on that device; below 2^53.
    pub seq: u64,
    /// Its bytes, without a line break.
    pub text: String,
}

/// One photograph.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Photo {
    /// SHA-256 of the bytes, as hexadecimal digits. The storage does not check it.
    pub sha256: String,
    /// The media type, such as `image/jpeg`.
    pub media_type: String,
    /// The picture.
    pub bytes: Vec<u8>,
}

/// What belongs to one command and is written together or not at all.
#[derive(Debug, Clone, Copy, Default)]
pub struct Record<'a> {
    /// The new lines, in order.
    pub lines: &'a [Line],
    /// Photographs the lines speak of. One that is there already stays as it is.
    pub photos: &'a [Photo],
    /// Drafts that this record finishes.
    pub drafts_done: &'a [String],
    /// Drafts as they stand once it is recorded, as key and text.
    pub drafts_left: &'a [(String, String)],
    /// Marks to set, as key and text.
    pub marks: &'a [(String, String)],
}

/// Lines of the book in the order of their arrival.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Arrived {
    /// The lines as they were given, some to a text, one after the other with a line end between them: whoever lets them
    /// count gives up a text before the next, and no line lies about by itself.
    pub texts: Vec<String>,
    /// The arrival number of the last line in the book; 0 for an empty book.
    pub last: u64,
}

impl Arrived {
    /// Each line.
    pub fn lines(&self) -> impl Iterator<Item = &str> {
        self.texts.iter().flat_map(|text| text.lines())
    }
}

/// One piece of the snapshot and its name.
pub type Piece = (String, Vec<u8>);

/// What a start needs first.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct First {
    /// Pieces of the snapshot, by name.
    pub pieces: Vec<Piece>,
    /// The arrival number of the last line; 0 for an empty book.
    pub last: u64,
    /// How many of the newest lines are rows of their own, at most.
    pub rows: u64,
    /// Drafts of work in hand, by key.
    pub drafts: BTreeMap<String, String>,
    /// The device's identity and other marks, by key.
    pub marks: BTreeMap<String, String>,
}

/// Everything there is in the book.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Stored {
    /// All lines.
    pub arrived: Arrived,
    /// Drafts of work in hand, by key.
    pub drafts: BTreeMap<String, String>,
    /// The device's identity and other marks, by key.
    pub marks: BTreeMap<String, String>,
}

/// The book on this phone. Everything is asynchronous, and one future at a time is all that is asked of a caller.
pub trait Storage: Sized + 'static {
    /// Opens the book of this name, making it when there is none.
    fn open(name: &str) -> impl Future<Output = Result<Opened<Self>, StorageError>>;

    /// Removes a whole book, as when a demonstration is thrown away. Windows that hold it open are told.
    fn erase(name: &str) -> impl Future<Output = Result<(), StorageError>>;

    /// Reads all that is needed to start, from one moment.
    fn load(&self) -> impl Future<Output = Result<Stored, StorageError>>;

    /// Reads what a start needs before the lines, from one moment: the pieces of the snapshot whose names begin so.
    fn load_first(&self, beginning: &str) -> impl Future<Output = Result<First, StorageError>>;

    /// Reads what arrived after the line with this arrival number, for a window that only reads. A line may be
    /// repeated; none is left out.
    fn lines_after(&self, arrival: u64) -> impl Future<Output = Result<Arrived, StorageError>>;

    /// Writes a record and answers when it is on disk, with the arrival number of the last line in the book.
    fn append(&self, record: &Record<'_>) -> impl Future<Output = Result<u64, StorageError>>;

    /// Keeps a draft. Quick rather than certain: it outlives the program being killed, perhaps not a flat battery.
    fn put_draft(&self, key: &str, text: &str) -> impl Future<Output = Result<(), StorageError>>;

    /// Removes a draft; a draft that is not there is no error.
    fn remove_draft(&self, key: &str) -> impl Future<Output = Result<(), StorageError>>;

    /// Keeps a photograph that belongs to a draft.
    fn put_photo(&self, photo: &Photo) -> impl Future<Output = Result<(), StorageError>>;

    /// Reads a photograph by the digest of its bytes.
    fn get_photo(&self, sha256: &str) -> impl Future<Output = Result<Option<Photo>, StorageError>>;

    /// The digests of all photographs, in ascending order.
    fn list_photo_keys(&self) -> impl Future<Output = Result<Vec<String>, StorageError>>;

    /// Removes photographs, as when nothing speaks of them any more.
    fn remove_photos(&self, keys: &[String]) -> impl Future<Output = Result<(), StorageError>>;

    /// Sets one mark.
    fn put_mark(&self, key: &str, text: &str) -> impl Future<Output = Result<(), StorageError>>;

    /// Removes one mark; a mark that is not there is no error.
    fn remove_mark(&self, key: &str) -> impl Future<Output = Result<(), StorageError>>;

    /// Keeps pieces of the snapshot, a cache that may be thrown away: all or none of them. `instead` throws away first
    /// what was kept before under names that begin so; the empty name begins all.
    fn keep_pieces(
        &self,
        pieces: &[Piece],
        instead: Option<&str>,
    ) -> impl Future<Output = Result<(), StorageError>>;

    /// Reads pieces of the snapshot by name; one that is not there is left out.
    fn pieces(&self, names: &[String]) -> impl Future<Output = Result<Vec<Piece>, StorageError>>;

    /// Throws the whole snapshot away.
    fn clear_snapshots(&self) -> impl Future<Output = Result<(), StorageError>>;

    /// Moves all but the newest `keep` rows into segments, which read faster, and answers how many it moved. One
    /// transaction; the lines, their order and their arrival numbers stay the same.
    fn seal(&self, keep: usize) -> impl Future<Output = Result<usize, StorageError>>;

    /// A cheap read, which finds out whether the connection still lives and opens it again if not.
    fn check(&self) -> impl Future<Output = Result<(), StorageError>>;

    /// Says what to do when the connection has to be given up. There is one listener; a second replaces the first.
    fn on_lost(&self, listener: Box<dyn Fn(Lost)>);

    /// Gives the connection up. Everything asked afterwards is answered with [`StorageError::Closed`].
    fn close(&self);
}

/// Refuses a record that could not be kept faithfully, before anything is opened.
fn check_record(record: &Record<'_>) -> Result<(), StorageError> {
    // Numbers of a phone come in runs, so this holds next to nothing however many lines there are.
    let mut seen = runs::Runs::default();
    for line in record.lines {
        if seen.holds(line.dev, line.seq) {
            return Err(StorageError::Duplicate);
        }
        seen.add(line.dev, line.seq);
        if line.seq > LARGEST_NUMBER {
            return Err(StorageError::Other("a sequence number is too large".into()));
        }
        if line.text.bytes().any(|byte| matches!(byte, b'\n' | b'\r')) {
            return Err(StorageError::Other("a line holds a line break".into()));
        }
    }
    for (key, _) in record.marks {
        check_mark(key)?;
    }
    Ok(())
}

/// Refuses a mark under a key that belongs to the storage itself.
fn check_mark(key: &str) -> Result<(), StorageError> {
    if key.starts_with(OWN_MARK) {
        return Err(StorageError::Other(
            "this mark belongs to the storage".into(),
        ));
    }
    Ok(())
}
