//! Tasks: derived from what happened and from the protocols in the book, never stored.
//!
//! A protocol is written into the book whole, so a task means the same whatever version reads it. What is due for a
//! lot follows from its anchors (the events that set a protocol going), the protocol's revisions and what was decided;
//! see [`derive`].

pub mod apart;
pub mod derive;
pub mod generation;
mod kind;
mod line;
pub mod looks;
mod protocol;
pub mod weather;
pub mod windows;

pub use kind::{KINDS, KindDef, TaskKind};
pub use protocol::*;
