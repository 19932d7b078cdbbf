//! A book in memory, which behaves as the one in the browser does. Books of the same name are the same book until it
//! is erased, so that closing and opening again can be tried.

use std::cell::{Cell, RefCell};
use std::collections::BTreeMap;
use std::fmt;
use std::rc::Rc;

use super::rows::Segment;
use super::runs::Runs;
use super::{
    Arrived, First, Line, Lost, Opened, Photo, Piece, Record, SEGMENT_LINES, Storage, StorageError,
    Stored, check_mark, check_record,
};

/// The version of the stores, as the one in the browser has it.
const SCHEMA: u32 = 1;

#[derive(Default)]
struct Shelf {
    entries: BTreeMap<u64, Line>,
    segments: BTreeMap<u64, Segment>,
    sealed: Runs,
    last: u64,
    drafts: BTreeMap<String, String>,
    marks: BTreeMap<String, String>,
    photos: BTreeMap<String, Photo>,
    snapshot: BTreeMap<String, Vec<u8>>,
    erased: bool,
}

impl Shelf {
    fn arrived_after(&self, arrival: u64) -> Arrived {
        let after = arrival.saturating_add(1);
        let mut texts = Vec::new();
        for segment in self.segments.range(after..).map(|(_, segment)| segment) {
            texts.push(segment.clone().after(arrival));
        }
        texts.extend(
            self.entries
                .range(after..)
                .map(|(_, line)| line.text.clone()),
        );
        Arrived {
            texts,
            last: self.last.max(arrival),
        }
    }

    fn holds(&self, dev: u64, seq: u64) -> bool {
        self.sealed.holds(dev, seq)
            || self
                .entries
                .values()
                .any(|line| line.dev == dev && line.seq == seq)
    }
}

type Shared = Rc<RefCell<Shelf>>;

thread_local! {
    static SHELVES: RefCell<BTreeMap<String, Shared>> = const { RefCell::new(BTreeMap::new()) };
}

/// The book in memory.
pub struct Memory {
    shelf: Shared,
    closed: Cell<bool>,
    fail_next: RefCell<Option<StorageError>>,
}

impl fmt::Debug for Memory {
    fn fmt(&self, formatter: &mut fmt::Formatter<'_>) -> fmt::Result {
        formatter
            .debug_struct("Memory")
            .field("closed", &self.closed.get())
            .finish_non_exhaustive()
    }
}

impl Memory {
    /// Lets the next thing asked fail with this error, with nothing written, so that tests can fill the disk.
    pub fn fail_next(&self, error: StorageError) {
        *self.fail_next.borrow_mut() = Some(error);
    }

    fn with<T>(
        &self,
        work: impl FnOnce(&mut Shelf) -> Result<T, StorageError>,
    ) -> Result<T, StorageError> {
        let mut shelf = self.shelf.borrow_mut();
        if self.closed.get() || shelf.erased {
            return Err(StorageError::Closed);
        }
        if let Some(error) = self.fail_next.borrow_mut().take() {
            return Err(error);
        }
        work(&mut shelf)
    }
}

impl Storage for Memory {
    async fn open(name: &str) -> Result<Opened<Self>, StorageError> {
        SHELVES.with_borrow_mut(|shelves| {
            let existed = shelves.contains_key(name);
            let shelf = Rc::clone(shelves.entry(name.to_owned()).or_default());
            Ok(Opened {
                storage: Self {
                    shelf,
                    closed: Cell::new(false),
                    fail_next: RefCell::new(None),
                },
                schema: SCHEMA,
                schema_before: existed.then_some(SCHEMA),
            })
        })
    }

    async fn erase(name: &str) -> Result<(), StorageError> {
        SHELVES.with_borrow_mut(|shelves| {
            if let Some(shelf) = shelves.remove(name) {
                *shelf.borrow_mut() = Shelf {
                    erased: true,
                    ..Shelf::default()
                };
            }
            Ok(())
        })
    }

    async fn load(&self) -> Result<Stored, StorageError> {
        self.with(|shelf| {
            Ok(Stored {
                arrived: shelf.arrived_after(0),
                drafts: shelf.drafts.clone(),
                marks: shelf.marks.clone(),
            })
        })
    }

    async fn load_first(&self, beginning: &str) -> Result<First, StorageError> {
        self.with(|shelf| {
            let pieces = shelf.snapshot.iter();
            Ok(First {
                pieces: pieces
                    .filter(|(name, _)| name.starts_with(beginning))
                    .map(|(name, bytes)| (name.clone(), bytes.clone()))
                    .collect(),
                last: shelf.last,
                rows: u64::try_from(shelf.entries.len()).unwrap_or(u64::MAX),
                drafts: shelf.drafts.clone(),
                marks: shelf.marks.clone(),
            })
        })
    }

    async fn lines_after(&self, arrival: u64) -> Result<Arrived, StorageError> {
        self.with(|shelf| Ok(shelf.arrived_after(arrival)))
    }

    async fn append(&self, record: &Record<'_>) -> Result<u64, StorageError> {
        check_record(record)?;
        self.with(|shelf| {
            if record
                .lines
                .iter()
                .any(|line| shelf.holds(line.dev, line.seq))
            {
                return Err(StorageError::Duplicate);
            }
            for line in record.lines {
                shelf.last = shelf.last.saturating_add(1);
                shelf.entries.insert(shelf.last, line.clone());
            }
            for photo in record.photos {
                shelf.photos.insert(photo.sha256.clone(), photo.clone());
            }
            for key in record.drafts_done {
                shelf.drafts.remove(key);
            }
            shelf.drafts.extend(record.drafts_left.iter().cloned());
            shelf.marks.extend(record.marks.iter().cloned());
            Ok(shelf.last)
        })
    }

    async fn put_draft(&self, key: &str, text: &str) -> Result<(), StorageError> {
        self.with(|shelf| {
            shelf.drafts.insert(key.to_owned(), text.to_owned());
            Ok(())
        })
    }

    async fn remove_draft(&self, key: &str) -> Result<(), StorageError> {
        self.with(|shelf| {
            shelf.drafts.remove(key);
            Ok(())
        })
    }

    async fn put_photo(&self, photo: &Photo) -> Result<(), StorageError> {
        self.with(|shelf| {
            shelf.photos.insert(photo.sha256.clone(), photo.clone());
            Ok(())
        })
    }

    async fn get_photo(&self, sha256: &str) -> Result<Option<Photo>, StorageError> {
        self.with(|shelf| Ok(shelf.photos.get(sha256).cloned()))
    }

    async fn list_photo_keys(&self) -> Result<Vec<String>, StorageError> {
        self.with(|shelf| Ok(shelf.photos.keys().cloned().collect()))
    }

    async fn remove_photos(&self, keys: &[String]) -> Result<(), StorageError> {
        self.with(|shelf| {
            shelf.photos.retain(|key, _| !keys.contains(key));
            Ok(())
        })
    }

    async fn put_mark(&self, key: &str, text: &str) -> Result<(), StorageError> {
        check_mark(key)?;
        self.with(|shelf| {
            shelf.marks.insert(key.to_owned(), text.to_owned());
            Ok(())
        })
    }

    async fn remove_mark(&self, key: &str) -> Result<(), StorageError> {
        check_mark(key)?;
        self.with(|shelf| {
            shelf.marks.remove(key);
            Ok(())
        })
    }

    async fn keep_pieces(
        &self,
        pieces: &[Piece],
        instead: Option<&str>,
    ) -> Result<(), StorageError> {
        self.with(|shelf| {
            if let Some(beginning) = instead {
                shelf
                    .snapshot
                    .retain(|name, _| !name.starts_with(beginning));
            }
            shelf.snapshot.extend(pieces.iter().cloned());
            Ok(())
        })
    }

    async fn pieces(&self, names: &[String]) -> Result<Vec<Piece>, StorageError> {
        self.with(|shelf| {
            let kept = names.iter().filter_map(|name| {
                let bytes = shelf.snapshot.get(name)?;
                Some((name.clone(), bytes.clone()))
            });
            Ok(kept.collect())
        })
    }

    async fn clear_snapshots(&self) -> Result<(), StorageError> {
        self.with(|shelf| {
            shelf.snapshot.clear();
            Ok(())
        })
    }

    async fn seal(&self, keep: usize) -> Result<usize, StorageError> {
        self.with(|shelf| {
            let count = shelf.entries.len().saturating_sub(keep);
            let rows: Vec<(u64, Line)> = shelf
                .entries
                .iter()
                .take(count)
                .map(|(arrival, line)| (*arrival, line.clone()))
                .collect();
            for chunk in rows.chunks(SEGMENT_LINES) {
                let (Some((first, _)), Some((last, _))) = (chunk.first(), chunk.last()) else {
                    continue;
                };
                let text = chunk
                    .iter()
                    .map(|(_, line)| format!("{}\n", line.text))
                    .collect();
                let segment = Segment {
                    first: *first,
                    last: *last,
                    text,
                };
                shelf.segments.insert(*last, segment);
            }
            for (arrival, line) in rows {
                shelf.entries.remove(&arrival);
                shelf.sealed.add(line.dev, line.seq);
            }
            Ok(count)
        })
    }

    async fn check(&self) -> Result<(), StorageError> {
        self.with(|_| Ok(()))
    }

    fn on_lost(&self, _listener: Box<dyn Fn(Lost)>) {
        // No other window can take a book in memory away.
    }

    fn close(&self) {
        self.closed.set(true);
    }
}
