//! A file that grows: one file of the book after the other, as a phone leaves them in a shared folder.
//!
//! Each part has its own header, digests and trailer, so that it is taken whole or not at all. What a folder's keeper
//! has not brought over completely yet is a part that ends early: it is read again later, from where it began.

use super::read::{FileFault, Incoming, read};

/// What every header begins with.
const HEAD: &str = "{\"velamen_book\":";

/// What was read of a file that grows.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Parts {
    pub sound: Vec<Incoming>,
    /// Bytes that need not be read again.
    pub read_to: usize,
    /// A part in the middle is not what was written; the others are taken all the same.
    pub damaged: usize,
    /// The last part is not whole yet.
    pub unfinished: bool,
    /// Written by a newer version in a form this one does not know.
    pub newer: bool,
}

/// Reads every part of a text that begins at a part.
#[must_use]
pub fn parts(text: &str) -> Parts {
    let mut found = Parts::default();
    let starts = starts(text);
    let first = starts.first().copied().unwrap_or(text.len());
    let before = text.get(..first).unwrap_or_default();
    if !before
        .trim_matches(['\u{feff}', '\n', '\r', ' '])
        .is_empty()
    {
        found.damaged += 1;
    }
    for (at, start) in starts.iter().copied().enumerate() {
        let end = starts.get(at.saturating_add(1)).copied();
        let Some(part) = text.get(start..end.unwrap_or(text.len())) else {
            continue;
        };
        match read(part) {
            Ok(incoming) => {
                found.sound.push(incoming);
                found.read_to = start.saturating_add(part.len());
            }
            Err(FileFault::NewerFormat { .. }) => found.newer = true,
            // More may come, or it is still being written over: it is looked at again.
            Err(_) if end.is_none() => {
                found.unfinished = true;
                // The torn line may be the beginning of a next part.
                let whole = part.rfind('\n').map_or(0, |at| at.saturating_add(1));
                let before = part.get(..whole).unwrap_or_default();
                if let Ok(incoming) = read(before) {
                    found.sound.push(incoming);
                    found.read_to = start.saturating_add(whole);
                }
            }
            Err(_) => {
                found.damaged += 1;
                found.read_to = end.unwrap_or(text.len());
            }
        }
    }
    found
}

fn starts(text: &str) -> Vec<usize> {
    let all = text.match_indices(HEAD).map(|(at, _)| at);
    let at_line = |at: &usize| {
        let before = text.get(..*at).unwrap_or_default();
        before.is_empty() || before.ends_with(['\n', '\u{feff}'])
    };
    all.filter(at_line).collect()
}
