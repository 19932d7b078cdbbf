//! The Round's own words.

use velamen_core::task::TaskKind;
use velamen_core::view::round::RowState;

use super::apart;
use super::format::counted;

pub const SEEN_HERE: &str = "Seen here";
pub const NO_PLACE: &str = "Without a place";
pub const DAYS: &str = "days";
pub const DAY: &str = "day";
pub const POT_THEM: &str = "Pot them";
pub const GO_ON: &str = "Go on";
pub const NOTHING_DUE: &str = "Nothing is due today.";
pub const NOTHING_DUE_HINT: &str = "Walk anyway: what you see becomes work.";
pub const FIRST_LOT: &str = "No plants in the book yet.";
pub const FIRST_LOT_HINT: &str = "Start with a bench and the first lot that stands on it.";
pub const ADD_LOT: &str = "Add a lot";
pub const ADD_TASK: &str = "Add a task";
pub const CHANGE: &str = "Change";
pub const NOT_NEEDED: &str = "Not needed";
pub const ALL_DONE: &str = "All done";
pub const EXCEPT: &str = "Not these";
pub const EXCEPT_HINT: &str = "Tap what was left out.";
pub const LOOKS_WELL: &str = "Looks well";
pub const NEEDS_MORE: &str = "Needs more";
pub const DID_IT_WORK: &str = "How does it look?";

#[must_use]
pub fn put_off_days(days: i64) -> String {
    match days {
        1 => "Put off to tomorrow".to_owned(),
        7 => "Put off a week".to_owned(),
        days => format!("Put off {days} days"),
    }
}

#[must_use]
pub fn to_do(count: usize) -> String {
    format!("{count} to do")
}

#[must_use]
pub fn bare(pieces: u64, since: &str) -> (String, String) {
    (
        format!(
            "{} bare",
            counted(i64::try_from(pieces).unwrap_or(i64::MAX), "piece", "pieces")
        ),
        format!("since {since}"),
    )
}

#[must_use]
pub fn on_the_bench(pots: u64) -> String {
    format!(
        "{} on the bench",
        super::trade::pots(i64::try_from(pots).unwrap_or(i64::MAX))
    )
}

#[must_use]
pub fn summary(late: usize, due: usize) -> String {
    match (late, due) {
        (0, 0) => "all in hand".to_owned(),
        (0, due) => format!("{due} due"),
        (late, 0) => format!("{late} late"),
        (late, due) => format!("{late} late, {due} due"),
    }
}

/// The state of a row for a screen reader.
#[must_use]
pub fn state(state: RowState) -> String {
    match state {
        RowState::Late { days } => format!("{} late", counted(days, "day", "days")),
        RowState::Due => "due today".to_owned(),
        RowState::MayStart { days } | RowState::Coming { days } => {
            format!("in {}", counted(days, "day", "days"))
        }
        RowState::Held { .. } => "not yet".to_owned(),
    }
}

#[must_use]
pub fn questions(count: usize) -> String {
    counted(
        i64::try_from(count).unwrap_or(i64::MAX),
        "question",
        "questions",
    )
}

/// What a look asks, and its two answers: something to do, and well.
#[must_use]
pub fn outcome(kind: TaskKind) -> (&'static str, &'static str, &'static str) {
    match kind {
        TaskKind::QuarantineLook => (apart::HOW_LOOKS, apart::SOMETHING, apart::CLEAN),
        _ => (DID_IT_WORK, NEEDS_MORE, LOOKS_WELL),
    }
}
