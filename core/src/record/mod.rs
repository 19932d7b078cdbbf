//! The record of treatments: what a rule asks to be written down, what is missing, and the record as a file.
//!
//! Invariants: a treatment is recorded whatever is missing, and only its completeness is judged; a correction adds a
//! line and removes none, so the file holds what was first said beside what counts; figures are those of the entry,
//! never of the product as it is now. This is no legal advice: rules are the grower's to choose and to add to.

mod file;
mod judge;
mod profile;
mod row;
mod texts;

pub(crate) use file::cell;
pub use file::{COLUMNS, csv, json};
pub use judge::{Judged, judge};
pub use profile::{Field, PROFILES, Profile, Rule, profile, rule};
pub use row::{Row, Standing, rows};
pub use texts::RecordTexts;
