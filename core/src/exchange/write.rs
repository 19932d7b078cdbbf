//! Writing the book out.

use serde::{Deserialize, Serialize};
use sha2::{Digest, Sha256};

use crate::entry::Marks;
use crate::event::VOCABULARY;
use crate::id::Dev;
use crate::limits::BLOCK_LINES;
use crate::state::{RULES, State};
use crate::time::Moment;

use super::FORMAT;

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
    write_lines(state, at, &state.log().lines().collect::<Vec<_>>())
}

/// Writes what came after these marks, by phone; `None` when there is no book.
#[must_use]
pub fn write_since(state: &State, at: &Moment, marks: &Marks) -> Option<String> {
    let log = state.log();
    let lines = log.phones().flat_map(|dev| {
        let known = marks.get(&dev).map_or(0, |(seq, _)| *seq);
        log.lines_of(dev, known.saturating_add(1))
    });
    write_lines(state, at, &lines.collect::<Vec<_>>())
}

fn write_lines(state: &State, at: &Moment, lines: &[&str]) -> Option<String> {
    let facts = state.facts();
    let entries = u64::try_from(lines.len()).ok()?;
    let head = FileHead {
        velamen_book: FORMAT,
        book: facts.book.book?,
        nursery: facts.book.nursery.or_default(),
        demo: facts.book.demo,
        vocabulary: VOCABULARY,
        rules: RULES,
        by: at.dev,
        made_ms: at.now_ms,
        entries,
        heads: state.log().marks(),
    };
    let mut text = serde_json::to_string(&head).ok()?;
    text.push('\n');
    let mut all = Sha256::new();
    for (block, lines) in (0u64..).zip(lines.chunks(BLOCK_LINES)) {
        let mut digest = Sha256::new();
        for line in lines {
            for hash in [&mut digest, &mut all] {
                hash.update(line.as_bytes());
                hash.update(b"\n");
            }
            text.push_str(line);
            text.push('\n');
        }
        push_json(
            &mut text,
            &BlockLine {
                block,
                sha256: hex(digest),
            },
        )?;
    }
    push_json(
        &mut text,
        &EndLine {
            end: entries,
            sha256: hex(all),
        },
    )?;
    Some(text)
}

fn push_json(text: &mut String, line: &impl Serialize) -> Option<()> {
    text.push_str(&serde_json::to_string(line).ok()?);
    text.push('\n');
    Some(())
}

pub(super) fn hex(hash: Sha256) -> String {
    hash.finalize()
        .iter()
        .map(|byte| format!("{byte:02x}"))
        .collect()
}
