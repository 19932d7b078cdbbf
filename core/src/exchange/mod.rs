//! The book as a file: written whole, read in two steps.
//!
//! JSON Lines: a header, the entries' own lines (dense, and byte for byte again when read), a digest after every block,
//! and a trailer. The first
//! step reads and judges the file without touching the book ([`read`], [`plan`]); the second takes the new lines in,
//! all in one transaction. A file that was cut off, altered or belongs to another nursery is refused with the reason,
//! and nothing is half taken in.
//! Several files are read as one. A file may hold the whole book or only what another phone lacks ([`lack`]), may grow
//! ([`mod@parts`]), and may lie under a passphrase ([`envelope`]). Photographs travel in a ZIP of their own ([`album`]),
//! and a small file as squares from screen to camera ([`reel`]).

use crate::limits;

pub mod album;
mod base45;
mod dense;
mod digest;
pub mod envelope;
pub mod lack;
mod parts;
mod plan;
mod read;
pub mod reel;
mod write;

pub use parts::{Parts, parts};
pub use plan::{Plan, belongs, plan, plan_within, would_ask};
pub use read::{Bounds, FileFault, Incoming, Reading, read, read_within};
pub use write::{FileHead, write, write_more, write_rescue, write_since, write_unread};

/// Version of the file's own form: 1 held every line as it is, 2 leaves out what follows from others (`dense`), 3 takes
/// its digests over those of the lines (`digest`). All of them are read.
pub const FORMAT: u16 = 3;

/// Whether a packed file may become so many bytes.
#[must_use]
pub fn may_become(packed: usize, unpacked: usize) -> bool {
    let most = packed
        .saturating_mul(limits::EXPANSION_MAX)
        .saturating_add(limits::EXPANSION_FREE_BYTES);
    unpacked <= most.min(limits::FILE_BYTES_MAX)
}

/// What a chosen file is, by its first bytes; its name says nothing, for mail programs change it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Kind {
    /// The text of a book.
    Text,
    /// The same, packed.
    Packed,
    /// A book under a passphrase.
    Envelope,
    /// A ZIP of photographs.
    Album,
    Empty,
    /// Something else.
    Unknown,
}

/// How many bytes [`kind`] wants to see.
pub const KIND_BYTES: usize = 4_096;

/// Tells what a file is.
#[must_use]
pub fn kind(first: &[u8]) -> Kind {
    match first {
        [] => return Kind::Empty,
        [0x1f, 0x8b, ..] => return Kind::Packed,
        [b'P', b'K', 3 | 5, 4 | 6, ..] => return Kind::Album,
        _ => {}
    }
    let first = first.strip_prefix(b"\xef\xbb\xbf").unwrap_or(first);
    let first = first.trim_ascii_start();
    if first.is_empty() {
        Kind::Empty
    } else if first.starts_with(envelope::BEGINNING.as_bytes()) {
        Kind::Envelope
    } else if first.starts_with(b"{") {
        Kind::Text
    } else {
        Kind::Unknown
    }
}
