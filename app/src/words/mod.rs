//! Every sentence the program says, in one place. Core speaks in data; screens ask here for the words.
//!
//! A language is a folder of files, one per theme, and a build of the page: each carries one set of words, so that a
//! further language adds nothing to what a phone loads, and a word that is missing fails its build. What reads the same
//! in every language stands beside the folders.

#[cfg(not(feature = "es"))]
mod en;
#[cfg(feature = "es")]
mod es;
mod figures;
mod parts;

#[cfg(not(feature = "es"))]
pub use en::*;
#[cfg(feature = "es")]
pub use es::*;
pub use figures::{measure_in, system};
pub use parts::LANGUAGES;
