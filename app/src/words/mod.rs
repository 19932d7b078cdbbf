//! Every sentence the program says, in one place. Core speaks in data; screens ask here for the words.
//!
//! A language is a folder of files, one per theme. What reads the same in every language stands beside it.

mod en;
mod figures;
mod parts;

pub use en::*;
