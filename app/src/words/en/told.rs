//! What is told once something is recorded.

use super::format::counted;

#[must_use]
pub fn undone() -> String {
    "Undone. It stays in the Book as undone.".to_owned()
}

#[must_use]
pub fn undo() -> String {
    "Undo".to_owned()
}

#[must_use]
pub fn close() -> String {
    "Close".to_owned()
}

#[must_use]
pub fn done(what: &str) -> String {
    let stop = if what.ends_with('?') { "" } else { "." };
    format!("Recorded: {what}{stop}")
}

#[must_use]
pub fn put_off(to: &str) -> String {
    format!("Put off to {to}.")
}

#[must_use]
pub fn not_needed() -> String {
    "Recorded as not needed.".to_owned()
}

#[must_use]
pub fn seen(lots: usize) -> String {
    format!(
        "Recorded for {}.",
        counted(i64::try_from(lots).unwrap_or(i64::MAX), "lot", "lots")
    )
}
