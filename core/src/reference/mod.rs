//! Built-in figures, each with where it comes from.
//!
//! They are defaults a grower edits, never facts that bind: the label and the grower's own measurements come first.

pub mod actives;
pub mod airing;
pub mod cites;
pub mod courses;
pub mod labour;
pub mod media;
pub mod never;
pub mod pots;
pub mod protocols;
pub mod sanitizers;
pub mod signs;
pub mod spacing;
pub mod taxa;
pub mod thirst;
pub mod virus;

/// How far a figure can be trusted.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Kind {
    /// Read in the named publication.
    Published,
    /// Published figure remembered, not looked up again.
    Memory,
    /// What growers do; nobody measured it.
    CommonPractice,
}
