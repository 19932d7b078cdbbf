//! Writing the book out.

use std::collections::BTreeMap;

use serde::{Deserialize, Serialize};

use crate::entry::{Marks, read_events, read_header};
use crate::event::{Event, VOCABULARY};
use crate::id::Dev;
use crate::limits::BLOCK_LINES;
use crate::state::{RULES, State};
use crate::time::Moment;

use super::FORMAT;
use super::dense::Dense;
use super::digest::Digests;
use super::lack::missing_from;

/// First line of a file.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct FileHead {
    /// Format version; its name is how a file is known to be a book.
    pub velamen_book: u16,
    pub book: Dev,
    pub nursery: String,
    #[serde(default)]
    pub demo: bool,
    pub vocabulary: u16,
    pub rules: u32,
    pub by: Dev,
    pub made_ms: i64,
    pub entries: u64,
    pub heads: Marks,
    /// It holds only what another phone lacked.
    #[serde(default, skip_serializing_if = "std::ops::Not::not")]
    pub part: bool,
    /// Work in hand, in a file written out of a damaged database.
    #[serde(default, skip_serializing_if = "BTreeMap::is_empty")]
    pub drafts: BTreeMap<String, String>,
}

/// Digest after a block of lines, and at the end over all of them.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct BlockLine {
    pub block: u64,
    pub sha256: String,
}

/// Last line of a file.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct EndLine {
    pub end: u64,
    pub sha256: String,
}

/// Writes the whole book; `None` when there is none.
#[must_use]
pub fn write(state: &State, at: &Moment) -> Option<String> {
    let lines: Vec<&str> = state.log().lines().collect();
    write_lines(&head(state, at)?, &lines)
}

/// Writes the whole book with the work in hand beside it: what could be read of a damaged database.
#[must_use]
pub fn write_rescue(
    state: &State,
    at: &Moment,
    drafts: BTreeMap<String, String>,
) -> Option<String> {
    let lines: Vec<&str> = state.log().lines().collect();
    let head = FileHead {
        drafts,
        ..head(state, at)?
    };
    write_lines(&head, &lines)
}

/// The same of lines that nobody has put together: for a program that ends when it does. `None` where none of them opens
/// a book.
#[must_use]
pub fn write_unread(
    lines: &[&str],
    at: &Moment,
    drafts: BTreeMap<String, String>,
) -> Option<String> {
    let opened = lines.iter().find_map(|line| {
        let header = read_header(line).ok()?;
        let events = read_events(line, &header, None).ok()?;
        events.into_iter().find_map(|event| match event {
            Event::BookOpened(opened) => Some(opened),
            _ => None,
        })
    })?;
    let head = FileHead {
        velamen_book: FORMAT,
        book: opened.book,
        nursery: opened.nursery,
        demo: opened.demo,
        vocabulary: VOCABULARY,
        rules: RULES,
        by: at.dev,
        made_ms: at.now_ms,
        entries: 0,
        heads: Marks::new(),
        part: false,
        drafts,
    };
    write_lines(&head, lines)
}

/// Writes what came after these marks, by phone, and what waits for others; `None` when there is no book.
#[must_use]
pub fn write_since(state: &State, at: &Moment, marks: &Marks) -> Option<String> {
    write_part(state, at, marks, state.log().parked_lines())
}

/// The same without what waits: for a file that grows, into which that would go again and again.
#[must_use]
pub fn write_more(state: &State, at: &Moment, marks: &Marks) -> Option<String> {
    write_part(state, at, marks, std::iter::empty())
}

fn write_part<'a>(
    state: &'a State,
    at: &Moment,
    marks: &Marks,
    waiting: impl Iterator<Item = &'a str>,
) -> Option<String> {
    let log = state.log();
    let after = missing_from(log, at.dev, marks);
    let lines = after
        .into_iter()
        .flat_map(|(dev, from_seq)| log.lines_of(dev, from_seq));
    let lines: Vec<&str> = lines.chain(waiting).collect();
    let head = FileHead {
        part: true,
        ..head(state, at)?
    };
    write_lines(&head, &lines)
}

fn head(state: &State, at: &Moment) -> Option<FileHead> {
    let facts = state.facts();
    Some(FileHead {
        velamen_book: FORMAT,
        book: facts.book.book?,
        nursery: facts.book.nursery.or_default(),
        demo: facts.book.demo,
        vocabulary: VOCABULARY,
        rules: RULES,
        by: at.dev,
        made_ms: at.now_ms,
        entries: 0,
        heads: state.log().marks(),
        part: false,
        drafts: BTreeMap::new(),
    })
}

fn write_lines(head: &FileHead, lines: &[&str]) -> Option<String> {
    let entries = u64::try_from(lines.len()).ok()?;
    let head = FileHead {
        entries,
        ..head.clone()
    };
    let mut text = serde_json::to_string(&head).ok()?;
    text.push('\n');
    let mut digests = Digests::default();
    let mut dense = Dense::default();
    for (block, lines) in (0u64..).zip(lines.chunks(BLOCK_LINES)) {
        for line in lines {
            text.push_str(&dense.line(line));
            text.push('\n');
            digests.line(line, dense.digest());
        }
        push_json(
            &mut text,
            &BlockLine {
                block,
                sha256: digests.end_block(),
            },
        )?;
    }
    push_json(
        &mut text,
        &EndLine {
            end: entries,
            sha256: digests.end(),
        },
    )?;
    Some(text)
}

fn push_json(text: &mut String, line: &impl Serialize) -> Option<()> {
    text.push_str(&serde_json::to_string(line).ok()?);
    text.push('\n');
    Some(())
}
