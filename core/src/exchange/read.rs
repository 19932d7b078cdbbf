//! Reading a file, some lines at a time, so that a page can breathe in between. Nothing here changes the book.

use std::collections::{BTreeMap, BTreeSet};
use std::iter::{Enumerate, Peekable};
use std::str::Lines;

use crate::entry::{Header, LineHash, read_header};
use crate::id::{Dev, EntryRef};
use crate::limits::{BLOCK_LINES, BOOK_ENTRIES_MAX, FILE_BYTES_MAX, FILE_LINES_MAX};

use super::FORMAT;
use super::dense::Dense;
use super::digest::Digests;
use super::write::{BlockLine, EndLine, FileHead};

/// Bytes of a line that may be one of a digest: an entry's own is longer.
const DIGEST_LINE_MAX: usize = 200;

/// Why a file cannot be taken in.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum FileFault {
    Empty,
    TooLarge {
        most_bytes: usize,
    },
    /// More lines than any file has.
    TooManyLines {
        most: usize,
    },
    /// More entries than a book may hold.
    TooManyEntries {
        most: usize,
    },
    NotABook,
    NewerFormat {
        format: u16,
    },
    /// It ends early: so many of the announced entries arrived whole.
    CutOff {
        arrived: u64,
        announced: u64,
    },
    /// A digest does not fit: lines from `from_line` to `to_line` of the file are not what was written.
    Damaged {
        from_line: usize,
        to_line: usize,
    },
    /// An entry was altered after the next one was written.
    Altered {
        entry: EntryRef,
    },
    OtherBook {
        nursery: String,
    },
    /// The demo stays apart from real books.
    Demo,
    /// Only what another phone lacked, and this phone has no book yet: the whole book comes first.
    OnlyAPart,
}

/// How much a file may hold.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Bounds {
    pub bytes: usize,
    pub lines: usize,
    pub entries: usize,
}

impl Default for Bounds {
    fn default() -> Self {
        Self {
            bytes: FILE_BYTES_MAX,
            lines: FILE_LINES_MAX,
            entries: BOOK_ENTRIES_MAX,
        }
    }
}

/// A file that is whole and sound in itself.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Incoming {
    pub head: FileHead,
    pub lines: Vec<String>,
    /// What each line says of itself, read once.
    pub(super) marks: Vec<Mark>,
}

impl Incoming {
    /// Several files of one book as one, each line once; the header is that of the file written last.
    ///
    /// # Errors
    /// [`FileFault::OtherBook`] when they are not of one book.
    pub fn joined(mut files: Vec<Self>) -> Result<Option<Self>, FileFault> {
        files.sort_by_key(|file| file.head.made_ms);
        let mut files = files.into_iter();
        let Some(mut all) = files.next() else {
            return Ok(None);
        };
        let known = all.marks.iter().map(|mark| (mark.id, mark.hash));
        let mut known: BTreeSet<(EntryRef, LineHash)> = known.collect();
        for file in files {
            if file.head.book != all.head.book {
                return Err(FileFault::OtherBook {
                    nursery: file.head.nursery,
                });
            }
            let part = all.head.part && file.head.part;
            all.head = file.head;
            all.head.part = part;
            for (mark, line) in file.marks.into_iter().zip(file.lines) {
                if known.insert((mark.id, mark.hash)) {
                    all.marks.push(mark);
                    all.lines.push(line);
                }
            }
        }
        check_links(&all.marks)?;
        Ok(Some(all))
    }
}

/// Who wrote a line, and what it follows.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Mark {
    pub(super) id: EntryRef,
    pub(super) prev: LineHash,
    pub(super) hash: LineHash,
    pub(super) needs: u16,
    pub(super) at_ms: i64,
}

impl Mark {
    fn of(header: &Header, hash: LineHash) -> Self {
        Self {
            id: EntryRef {
                dev: header.dev,
                seq: header.seq,
            },
            prev: header.prev,
            hash,
            needs: header.needs,
            at_ms: header.at_ms,
        }
    }
}

/// Reads a file and checks that it is whole.
///
/// # Errors
/// The [`FileFault`] that stands in the way; nothing is taken from a faulty file.
pub fn read(text: &str) -> Result<Incoming, FileFault> {
    read_within(text, Bounds::default())
}

/// The same within other bounds.
///
/// # Errors
/// As [`read`].
pub fn read_within(text: &str, bounds: Bounds) -> Result<Incoming, FileFault> {
    let mut reading = Reading::begin(text, bounds)?;
    while !reading.go_on(usize::MAX)? {}
    reading.end()
}

/// A file being read.
#[derive(Debug)]
pub struct Reading<'a> {
    head: FileHead,
    lines: Peekable<Enumerate<Lines<'a>>>,
    reader: Reader,
    bounds: Bounds,
    ended: bool,
}

impl<'a> Reading<'a> {
    /// Begins a file: the header is read, and nothing else.
    ///
    /// # Errors
    /// The [`FileFault`] that can be told by now.
    pub fn begin(text: &'a str, bounds: Bounds) -> Result<Self, FileFault> {
        if text.len() > bounds.bytes {
            return Err(FileFault::TooLarge {
                most_bytes: bounds.bytes,
            });
        }
        let text = text.strip_prefix('\u{feff}').unwrap_or(text);
        let mut lines = text.lines().enumerate().peekable();
        let head = loop {
            match lines.next() {
                None => return Err(FileFault::Empty),
                Some((_, line)) if line.trim().is_empty() => {}
                Some((_, line)) => break read_head(without_return(line))?,
            }
        };
        let most = u64::try_from(bounds.entries).unwrap_or(u64::MAX);
        if head.entries > most {
            return Err(FileFault::TooManyEntries {
                most: bounds.entries,
            });
        }
        Ok(Self {
            reader: Reader::of_format(head.velamen_book),
            head,
            lines,
            bounds,
            ended: false,
        })
    }

    /// How many of the announced entries have been read, and how many were announced.
    #[must_use]
    pub fn so_far(&self) -> (u64, u64) {
        let read = u64::try_from(self.reader.kept.len()).unwrap_or(u64::MAX);
        (read, self.head.entries)
    }

    /// Reads so many lines more; true once there are none left.
    ///
    /// # Errors
    /// The [`FileFault`] found in them.
    pub fn go_on(&mut self, lines: usize) -> Result<bool, FileFault> {
        for _ in 0..lines {
            let Some((at, line)) = self.lines.next() else {
                return Ok(true);
            };
            let number = at.saturating_add(1);
            if number > self.bounds.lines {
                return Err(FileFault::TooManyLines {
                    most: self.bounds.lines,
                });
            }
            let line = without_return(line);
            if line.trim().is_empty() {
                continue;
            }
            if self.ended {
                return Err(FileFault::Damaged {
                    from_line: number,
                    to_line: number,
                });
            }
            let torn_off = self.lines.peek().is_none();
            self.ended = match self.reader.line(number, line) {
                // The last line there is, and not whole: the file ends in the middle of it.
                Err(_) if torn_off && read_header(line).is_err() => false,
                told => told?,
            };
            if self.reader.kept.len() > self.bounds.entries {
                return Err(FileFault::TooManyEntries {
                    most: self.bounds.entries,
                });
            }
        }
        Ok(self.lines.peek().is_none())
    }

    /// The file, once every line was read.
    ///
    /// # Errors
    /// [`FileFault::CutOff`] when it ends early, [`FileFault::Altered`] when a line does not follow the one before.
    pub fn end(self) -> Result<Incoming, FileFault> {
        let (arrived, announced) = self.so_far();
        if !self.ended {
            return Err(FileFault::CutOff { arrived, announced });
        }
        check_links(&self.reader.marks)?;
        Ok(Incoming {
            head: self.head,
            lines: self.reader.kept,
            marks: self.reader.marks,
        })
    }
}

/// A line without what some programs leave at its end.
fn without_return(mut line: &str) -> &str {
    while let Some(shorter) = line.strip_suffix('\r') {
        line = shorter;
    }
    line
}

fn read_head(line: &str) -> Result<FileHead, FileFault> {
    let value: serde_json::Value = serde_json::from_str(line).map_err(|_| FileFault::NotABook)?;
    let format = value
        .get("velamen_book")
        .and_then(serde_json::Value::as_u64)
        .ok_or(FileFault::NotABook)?;
    let format = u16::try_from(format).unwrap_or(u16::MAX);
    if format > FORMAT {
        return Err(FileFault::NewerFormat { format });
    }
    serde_json::from_str(line).map_err(|_| FileFault::NotABook)
}

#[derive(Debug)]
struct Reader {
    kept: Vec<String>,
    marks: Vec<Mark>,
    dense: Dense,
    digests: Digests,
    in_block: usize,
    blocks: u64,
    /// First line of the file in the current block.
    from: usize,
}

impl Reader {
    fn of_format(format: u16) -> Self {
        Self {
            kept: Vec::new(),
            marks: Vec::new(),
            dense: Dense::default(),
            digests: Digests::of_format(format),
            in_block: 0,
            blocks: 0,
            from: 2,
        }
    }
}

impl Reader {
    /// Takes one line; true when it was the trailer.
    fn line(&mut self, number: usize, line: &str) -> Result<bool, FileFault> {
        let damaged = Err(FileFault::Damaged {
            from_line: self.from,
            to_line: number,
        });
        let short = line.len() <= DIGEST_LINE_MAX && line.starts_with('{');
        if let Some(end) = short
            .then(|| serde_json::from_str::<EndLine>(line).ok())
            .flatten()
        {
            let count = u64::try_from(self.kept.len()).unwrap_or(u64::MAX);
            let sound = self.in_block == 0 && end.end == count && end.sha256 == self.digests.end();
            return if sound { Ok(true) } else { damaged };
        }
        let block = short.then(|| serde_json::from_str::<BlockLine>(line).ok());
        if let Some(block) = block.flatten() {
            let digest = self.digests.end_block();
            if block.block != self.blocks || self.in_block == 0 || block.sha256 != digest {
                return damaged;
            }
            self.blocks += 1;
            self.in_block = 0;
            self.from = number + 1;
            return Ok(false);
        }
        let Some(line) = self.dense.whole(line) else {
            return damaged;
        };
        let follows = self.dense.before().filter(|_| self.in_block < BLOCK_LINES);
        let Some(mark) = follows.map(|(header, hash)| Mark::of(header, *hash)) else {
            return damaged;
        };
        self.digests.line(&line, self.dense.digest());
        self.in_block += 1;
        self.kept.push(line);
        self.marks.push(mark);
        Ok(false)
    }
}

/// Whether each line follows the one before it of its phone, as in every file of phones that were never copied.
fn each_follows(marks: &[Mark]) -> bool {
    let mut last: BTreeMap<Dev, (u32, LineHash)> = BTreeMap::new();
    marks.iter().all(|mark| {
        let before = last.insert(mark.id.dev, (mark.id.seq, mark.hash));
        before
            .is_none_or(|(seq, hash)| seq.checked_add(1) == Some(mark.id.seq) && hash == mark.prev)
    })
}

/// Every line of a phone must follow a line that is there, where its predecessor is in the file at all.
fn check_links(marks: &[Mark]) -> Result<(), FileFault> {
    if each_follows(marks) {
        return Ok(());
    }
    let mut hashes: BTreeMap<EntryRef, Vec<LineHash>> = BTreeMap::new();
    for mark in marks {
        hashes.entry(mark.id).or_default().push(mark.hash);
    }
    for mark in marks {
        let Some(before) = mark.id.seq.checked_sub(1) else {
            continue;
        };
        let before = EntryRef {
            dev: mark.id.dev,
            seq: before,
        };
        let followed = hashes
            .get(&before)
            .is_none_or(|before| before.contains(&mark.prev));
        if !followed {
            return Err(FileFault::Altered { entry: before });
        }
    }
    Ok(())
}
