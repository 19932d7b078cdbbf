//! Reading a file, and planning what taking it in would do. Nothing here changes the book.

use std::collections::{BTreeMap, BTreeSet};

use sha2::{Digest, Sha256};

use crate::entry::{LineHash, read_header};
use crate::event::VOCABULARY;
use crate::id::{Dev, EntryRef};
use crate::limits::{BLOCK_LINES, CLOCK_ASTRAY_MS, FILE_BYTES_MAX};
use crate::log::{Inserted, Log};
use crate::state::State;
use crate::time::Moment;

use super::FORMAT;
use super::write::{BlockLine, EndLine, FileHead, hex};

/// Bytes of a line that may be one of a digest: an entry's own is longer.
const DIGEST_LINE_MAX: usize = 200;

/// Why a file cannot be taken in.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum FileFault {
    Empty,
    TooLarge {
        most_bytes: usize,
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
}

/// A file that is whole and sound in itself.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Incoming {
    pub head: FileHead,
    pub lines: Vec<String>,
    /// What each line says of itself, read once.
    marks: Vec<Mark>,
}

/// Who wrote a line, and what it follows.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
struct Mark {
    id: EntryRef,
    prev: LineHash,
    hash: LineHash,
    needs: u16,
    at_ms: i64,
}

impl Mark {
    fn of(line: &str) -> Option<Self> {
        let header = read_header(line).ok()?;
        Some(Self {
            id: EntryRef {
                dev: header.dev,
                seq: header.seq,
            },
            prev: header.prev,
            hash: LineHash::of(line),
            needs: header.needs,
            at_ms: header.at_ms,
        })
    }
}

/// What taking a file in would do.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Plan {
    /// Lines to store, in the file's order.
    pub new: Vec<String>,
    /// Who wrote each of them, under the name it carries.
    pub ids: Vec<EntryRef>,
    pub known: usize,
    /// New ones that wait for others that are missing.
    pub waiting: usize,
    /// New ones written by a newer version: kept, passed on, not read.
    pub newer: usize,
    /// New ones dated later than this phone's clock by more than a day.
    pub from_the_future: usize,
    /// A phone was copied with its book and both wrote on.
    pub copied_phone: bool,
    /// Phones in the file that this book does not know yet.
    pub new_phones: usize,
    /// The book is empty: the file becomes the book.
    pub first: bool,
    /// It is the example: kept apart from real books wherever it goes.
    pub example: bool,
}

/// Reads a file and checks that it is whole.
///
/// # Errors
/// The [`FileFault`] that stands in the way; nothing is taken from a faulty file.
pub fn read(text: &str) -> Result<Incoming, FileFault> {
    if text.len() > FILE_BYTES_MAX {
        return Err(FileFault::TooLarge {
            most_bytes: FILE_BYTES_MAX,
        });
    }
    let text = text.strip_prefix('\u{feff}').unwrap_or(text);
    let mut lines = (1usize..)
        .zip(text.lines().map(|line| line.trim_end_matches('\r')))
        .peekable();
    let head = loop {
        match lines.next() {
            None => return Err(FileFault::Empty),
            Some((_, line)) if line.trim().is_empty() => {}
            Some((_, line)) => break read_head(line)?,
        }
    };
    let mut reader = Reader {
        kept: Vec::new(),
        marks: Vec::new(),
        block: Sha256::new(),
        all: Sha256::new(),
        in_block: 0,
        blocks: 0,
        from: 2,
    };
    let mut ended = false;
    while let Some((number, line)) = lines.next() {
        if line.trim().is_empty() {
            continue;
        }
        if ended {
            return Err(FileFault::Damaged {
                from_line: number,
                to_line: number,
            });
        }
        let torn_off = lines.peek().is_none();
        ended = match reader.line(number, line) {
            // The last line there is, and not whole: the file ends in the middle of it.
            Err(_) if torn_off && read_header(line).is_err() => false,
            told => told?,
        };
    }
    let arrived = u64::try_from(reader.kept.len()).unwrap_or(u64::MAX);
    if !ended {
        return Err(FileFault::CutOff {
            arrived,
            announced: head.entries,
        });
    }
    check_links(&reader.marks)?;
    Ok(Incoming {
        head,
        lines: reader.kept,
        marks: reader.marks,
    })
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

struct Reader {
    kept: Vec<String>,
    marks: Vec<Mark>,
    block: Sha256,
    all: Sha256,
    in_block: usize,
    blocks: u64,
    /// First line of the file in the current block.
    from: usize,
}

impl Reader {
    /// Takes one line; true when it was the trailer.
    fn line(&mut self, number: usize, line: &str) -> Result<bool, FileFault> {
        let damaged = Err(FileFault::Damaged {
            from_line: self.from,
            to_line: number,
        });
        let short = line.len() <= DIGEST_LINE_MAX;
        if let Some(end) = short
            .then(|| serde_json::from_str::<EndLine>(line).ok())
            .flatten()
        {
            let whole = std::mem::take(&mut self.all);
            let count = u64::try_from(self.kept.len()).unwrap_or(u64::MAX);
            let sound = self.in_block == 0 && end.end == count && end.sha256 == hex(whole);
            return if sound { Ok(true) } else { damaged };
        }
        let block = short.then(|| serde_json::from_str::<BlockLine>(line).ok());
        if let Some(block) = block.flatten() {
            let digest = std::mem::take(&mut self.block);
            if block.block != self.blocks || self.in_block == 0 || block.sha256 != hex(digest) {
                return damaged;
            }
            self.blocks += 1;
            self.in_block = 0;
            self.from = number + 1;
            return Ok(false);
        }
        let Some(mark) = Mark::of(line).filter(|_| self.in_block < BLOCK_LINES) else {
            return damaged;
        };
        for hash in [&mut self.block, &mut self.all] {
            hash.update(line.as_bytes());
            hash.update(b"\n");
        }
        self.in_block += 1;
        self.kept.push(line.to_owned());
        self.marks.push(mark);
        Ok(false)
    }
}

/// Every line of a phone must follow a line that is there, where its predecessor is in the file at all.
fn check_links(marks: &[Mark]) -> Result<(), FileFault> {
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

/// What taking the file in would do to this book.
///
/// # Errors
/// [`FileFault::OtherBook`] or [`FileFault::Demo`] when it does not belong here.
pub fn plan(state: &State, at: &Moment, incoming: &Incoming) -> Result<Plan, FileFault> {
    let book = &state.facts().book;
    let first = state.log().is_empty();
    if !first && book.book != Some(incoming.head.book) {
        return Err(if incoming.head.demo != book.demo {
            FileFault::Demo
        } else {
            FileFault::OtherBook {
                nursery: incoming.head.nursery.clone(),
            }
        });
    }
    let mut plan = Plan {
        first,
        example: incoming.head.demo,
        ..Plan::default()
    };
    let now_ms = at.now_ms;
    let log = state.log();
    let told = went_on(log, incoming);
    debug_assert!(
        told.as_ref()
            .is_none_or(|told| *told == tried_out(log, incoming))
    );
    let tried = told.unwrap_or_else(|| tried_out(log, incoming));
    plan.known = incoming.lines.len().saturating_sub(tried.new.len());
    plan.copied_phone = tried.copied_phone;
    plan.waiting = tried.waiting;
    plan.new_phones = tried.new_phones;
    for at in tried.new {
        let (Some(mark), Some(line)) = (incoming.marks.get(at), incoming.lines.get(at)) else {
            continue;
        };
        plan.newer += usize::from(mark.needs > VOCABULARY);
        let ahead_ms = mark.at_ms.saturating_sub(now_ms);
        plan.from_the_future += usize::from(ahead_ms > CLOCK_ASTRAY_MS);
        plan.ids.push(mark.id);
        plan.new.push(line.clone());
    }
    Ok(plan)
}

/// What putting the lines of a file into a log comes to.
#[derive(Debug, Default, PartialEq, Eq)]
struct Tried {
    /// Which lines are new.
    new: Vec<usize>,
    waiting: usize,
    new_phones: usize,
    copied_phone: bool,
}

/// The usual case, told without trying: no phone was ever copied, nothing waits, and each line is known or follows the
/// last one of its phone. `None` where that is not so.
fn went_on(log: &Log, incoming: &Incoming) -> Option<Tried> {
    if log.parked() > 0 || !log.copied_phones().is_empty() {
        return None;
    }
    let mut tried = Tried::default();
    let mut heads = log.marks();
    for (at, (mark, line)) in incoming.marks.iter().zip(&incoming.lines).enumerate() {
        if let Some(known) = log.line(mark.id) {
            if known != line {
                return None;
            }
            continue;
        }
        let follows = match heads.get(&mark.id.dev) {
            Some((seq, hash)) => seq.checked_add(1) == Some(mark.id.seq) && *hash == mark.prev,
            None => mark.id.seq == 1,
        };
        if !follows {
            return None;
        }
        let before = heads.insert(mark.id.dev, (mark.id.seq, mark.hash));
        tried.new_phones += usize::from(before.is_none());
        tried.new.push(at);
    }
    Some(tried)
}

/// Any case, tried on a copy of the log.
fn tried_out(log: &Log, incoming: &Incoming) -> Tried {
    let mut tried = Tried::default();
    let mut copy = log.clone();
    for (at, line) in incoming.lines.iter().enumerate() {
        match copy.insert(line) {
            Ok(Inserted::Known) | Err(_) => continue,
            Ok(Inserted::Forked) => tried.copied_phone = true,
            Ok(Inserted::Added(_) | Inserted::Parked) => {}
        }
        tried.new.push(at);
    }
    tried.waiting = copy.parked().saturating_sub(log.parked());
    let known: BTreeSet<Dev> = log.phones().collect();
    tried.new_phones = copy.phones().filter(|dev| !known.contains(dev)).count();
    tried
}
