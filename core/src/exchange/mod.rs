//! The book as a file: written whole, read in two steps.
//!
//! JSON Lines: a header, the entries' own lines byte for byte, a digest after every block, and a trailer. The first
//! step reads and judges the file without touching the book ([`read`], [`plan`]); the second takes the new lines in,
//! all in one transaction. A file that was cut off, altered or belongs to another nursery is refused with the reason,
//! and nothing is half taken in.

mod read;
mod write;

pub use read::{FileFault, Incoming, Plan, plan, read};
pub use write::{FileHead, write, write_since};

/// Version of the file's own form.
pub const FORMAT: u16 = 1;
