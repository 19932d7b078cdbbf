//! One entry and its stored form.
//!
//! An entry is one line of JSON, and the line's bytes are the entry: they are hashed, passed on and stored as they
//! came, never written anew. Reading is in two steps. The [`Header`] can be read by every version for ever. The events
//! are read only by a program that understands all of them; otherwise the entry is kept whole, passed on, and locks
//! the things it is about until this phone is updated.
//!
//! `prev` is the short hash of the line before it from the same phone. It lets every line find its own
//! place even when two phones carry on from one copied numbering, and it costs nothing in a file, where it can be
//! computed from the line before.

use std::collections::BTreeMap;
use std::sync::Arc;

use chrono::NaiveDate;
use serde::{Deserialize, Serialize};
use sha2::{Digest, Sha256};

use crate::event::{Event, VOCABULARY};
use crate::id::{Dev, EntryRef, Subject};
use crate::limits;
use crate::scan;
use crate::time::Stamp;
use crate::upcast;

/// First four bytes of a line's SHA-256, as a number.
#[derive(
    Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize,
)]
#[serde(from = "u32", into = "u32")]
pub struct LineHash(pub u32);

impl From<u32> for LineHash {
    fn from(value: u32) -> Self {
        Self(value)
    }
}

impl From<LineHash> for u32 {
    fn from(hash: LineHash) -> Self {
        hash.0
    }
}

impl LineHash {
    /// Hash of a line's bytes, without its line end.
    #[must_use]
    pub fn of(line: &str) -> Self {
        LineDigest::of(line).hash()
    }
}

/// A line's SHA-256.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub(crate) struct LineDigest([u8; 32]);

impl LineDigest {
    /// Digest of a line's bytes, without its line end.
    pub(crate) fn of(line: &str) -> Self {
        Self(Sha256::digest(line.as_bytes()).into())
    }

    pub(crate) const fn bytes(&self) -> &[u8; 32] {
        &self.0
    }

    pub(crate) fn hash(&self) -> LineHash {
        let first = self.0.iter().take(4);
        LineHash(first.fold(0, |value, byte| (value << 8) | u32::from(*byte)))
    }
}

/// How far a phone's entries were known: the last number without a gap, and the hash of that line.
pub type Marks = BTreeMap<Dev, (u32, LineHash)>;

/// The part of an entry that every version can read.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Header {
    pub dev: Dev,
    pub seq: u32,
    /// Hash of this phone's line before; 0 for its first.
    pub prev: LineHash,
    pub order: Stamp,
    /// The phone's clock and its offset from UTC: advisory.
    pub at_ms: i64,
    pub off_min: i16,
    /// The civil day it happened, as the grower said; may be backdated.
    pub on: NaiveDate,
    /// What had newly been seen of other phones since this phone's entry before.
    #[serde(default, skip_serializing_if = "BTreeMap::is_empty")]
    pub seen: Marks,
    /// Every thing touched.
    pub about: Vec<Subject>,
    /// Lowest vocabulary that understands the events.
    pub needs: u16,
}

#[derive(Serialize)]
struct LineOut<'a> {
    #[serde(flatten)]
    header: &'a Header,
    events: &'a [Event],
}

#[derive(Deserialize)]
struct Events {
    events: Vec<Event>,
}

/// Why the events of an entry cannot be read here. It is kept and passed on all the same.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize)]
pub enum Locked {
    /// Written by a newer version.
    NewerVersion,
    /// Claims a known version but holds something unknown.
    Unreadable,
}

/// An entry as the log holds it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Entry {
    /// Under its name in the log, which differs from the line's own `dev` only on a forked branch.
    pub id: EntryRef,
    pub header: Header,
    /// Everything this phone knew when it wrote the entry.
    pub seen: Arc<Marks>,
    pub events: Result<Vec<Event>, Locked>,
}

/// A line that is not an entry.
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
pub enum NotAnEntry {
    #[error("longer than a line may be")]
    TooLong,
    #[error("not a line of a book")]
    NotALine,
    #[error("numbered 0")]
    NoNumber,
    #[error("holds nothing")]
    Empty,
    #[error("holds more than an entry may")]
    TooMuch,
}

/// Writes the stored form of a new entry.
///
/// # Errors
/// [`NotAnEntry`] when it is empty or beyond a limit.
pub fn write_line(header: &Header, events: &[Event]) -> Result<String, NotAnEntry> {
    if events.is_empty() {
        return Err(NotAnEntry::Empty);
    }
    if events.len() > limits::EVENTS_MAX {
        return Err(NotAnEntry::TooMuch);
    }
    let line =
        serde_json::to_string(&LineOut { header, events }).map_err(|_| NotAnEntry::NotALine)?;
    if line.len() > limits::LINE_BYTES_MAX {
        Err(NotAnEntry::TooLong)
    } else {
        Ok(line)
    }
}

/// Reads what every version can read of a line.
///
/// # Errors
/// [`NotAnEntry`] when the line is not an entry at all.
pub fn read_header(line: &str) -> Result<Header, NotAnEntry> {
    if line.len() > limits::LINE_BYTES_MAX {
        return Err(NotAnEntry::TooLong);
    }
    let header: Header = serde_json::from_str(line).map_err(|_| NotAnEntry::NotALine)?;
    if header.seq == 0 {
        Err(NotAnEntry::NoNumber)
    } else {
        Ok(header)
    }
}

/// A line, read as far as it may be before the log knows whose it is.
#[derive(Clone, Debug)]
pub(crate) struct Read {
    pub(crate) header: Header,
    /// Its events as they stand, where they were read along with the header and the line means itself by its names.
    events: Option<Vec<Event>>,
}

impl Read {
    /// A line whose events are still to be read.
    pub(crate) const fn header_of(header: Header) -> Self {
        Self {
            header,
            events: None,
        }
    }

    /// Its events, with ids renamed where a phone's numbering forked.
    pub(crate) fn events(
        events: Option<Vec<Event>>,
        line: &str,
        header: &Header,
        rename: Rename<'_>,
    ) -> Result<Vec<Event>, Locked> {
        match events.filter(|_| rename.is_none()) {
            Some(events) => within_limits(events),
            None => read_events(line, header, rename),
        }
    }

    /// Header and events apart.
    pub(crate) fn parts(self) -> (Header, Option<Vec<Event>>) {
        (self.header, self.events)
    }
}

/// Reads a line, in one go where it stands as this program writes it.
///
/// # Errors
/// As [`read_header`].
pub(crate) fn read(line: &str) -> Result<Read, NotAnEntry> {
    let plain = Some(line)
        .filter(|line| line.len() <= limits::LINE_BYTES_MAX)
        .and_then(scan::header)
        .filter(|(header, _)| header.seq > 0 && header.needs == VOCABULARY);
    if let Some((header, text)) = plain
        && let Ok(events) = serde_json::from_str(text)
    {
        return Ok(Read {
            header,
            events: Some(events),
        });
    }
    read_header(line).map(Read::header_of)
}

fn within_limits(mut events: Vec<Event>) -> Result<Vec<Event>, Locked> {
    // Most hold one, and the reader took room for four.
    events.shrink_to_fit();
    if events.is_empty() || events.len() > limits::EVENTS_MAX {
        Err(Locked::Unreadable)
    } else {
        Ok(events)
    }
}

/// Reads the events of a line whose header is known, with ids renamed where a phone's numbering forked.
///
/// # Errors
/// [`Locked`] when this version does not understand all of them.
pub fn read_events(line: &str, header: &Header, rename: Rename<'_>) -> Result<Vec<Event>, Locked> {
    if header.needs > VOCABULARY {
        return Err(Locked::NewerVersion);
    }
    let rewritten = if header.needs == VOCABULARY && rename.is_none() {
        None
    } else {
        // Through text again, so that events have one reader: a second one would weigh as much as the first.
        let mut value: serde_json::Value =
            serde_json::from_str(line).map_err(|_| Locked::Unreadable)?;
        upcast::to_current(&mut value, header.needs);
        if let Some(rename) = rename {
            rename_ids(&mut value, rename);
        }
        Some(value.to_string())
    };
    let plain = serde_json::from_str::<Events>(rewritten.as_deref().unwrap_or(line));
    within_limits(plain.map_err(|_| Locked::Unreadable)?.events)
}

/// How ids of forked phones read in the log: from the line's own `(dev, seq)` to the branch's.
pub type Rename<'a> = Option<&'a dyn Fn(EntryRef) -> EntryRef>;

/// Renames the header's subjects the same way.
pub(crate) fn rename_about(about: &mut [Subject], rename: &dyn Fn(EntryRef) -> EntryRef) {
    for subject in about {
        if let Some(Ok(renamed)) =
            renamed_text(&subject.to_string(), rename).map(|text| text.parse())
        {
            *subject = renamed;
        }
    }
}

fn rename_ids(value: &mut serde_json::Value, rename: &dyn Fn(EntryRef) -> EntryRef) {
    match value {
        serde_json::Value::String(text) => {
            if let Some(renamed) = renamed_text(text, rename) {
                *text = renamed;
            }
        }
        serde_json::Value::Array(list) => {
            list.iter_mut().for_each(|value| rename_ids(value, rename))
        }
        serde_json::Value::Object(map) => {
            map.values_mut().for_each(|value| rename_ids(value, rename))
        }
        _ => {}
    }
}

/// The same text with its entry renamed, if it is an id (with or without a subject's letter) and the name differs.
///
/// A text that merely looks like an id would have to be 15 characters of exactly this form; no field a grower types
/// comes near it by chance.
fn renamed_text(text: &str, rename: &dyn Fn(EntryRef) -> EntryRef) -> Option<String> {
    for (letter, id) in [("", text), text.split_at_checked(1).unwrap_or(("", ""))] {
        let (entry, tail) = match id.parse::<crate::id::ThingId>() {
            Ok(thing) => (thing.entry, format!("-{}", thing.n)),
            Err(_) => match id.parse::<EntryRef>() {
                Ok(entry) => (entry, String::new()),
                Err(_) => continue,
            },
        };
        let renamed = rename(entry);
        return (renamed != entry).then(|| format!("{letter}{renamed}{tail}"));
    }
    None
}
