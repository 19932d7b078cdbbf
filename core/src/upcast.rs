//! Older stored forms, brought to the current one.
//!
//! Numbered, pure, one after the other: number `n` turns a line of vocabulary `n` into one of `n + 1`. Additive fields
//! with defaults need none. The meaning of a stored version never changes; a new meaning gets a new number. A test
//! fails when an upcast in the table was never run on a kept line of its version.

use serde_json::Value;

use crate::event::VOCABULARY;

/// One step from a vocabulary to the next.
pub type Upcast = fn(&mut Value);

/// `UPCASTS[0]` brings vocabulary 1 to 2, and so on; as long as `VOCABULARY - 1`.
pub const UPCASTS: &[Upcast] = &[];

/// Brings a whole line of vocabulary `from` to the current one.
pub(crate) fn to_current(line: &mut Value, from: u16) {
    for upcast in UPCASTS.iter().skip(usize::from(from.saturating_sub(1))) {
        upcast(line);
    }
}

const _: () = assert!(
    UPCASTS.len() + 1 == VOCABULARY as usize,
    "one upcast between each two vocabularies"
);
