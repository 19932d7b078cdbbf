//! The Round's own words.

use velamen_core::task::TaskKind;
use velamen_core::view::round::RowState;

use super::apart;
use super::format::counted;
use super::stock::grouped;

pub use crate::words::parts::Because;

pub const SEEN_HERE: &str = "Seen here";
pub const NO_PLACE: &str = "Without a place";
pub const NOT_YET: &str = "not yet";
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
pub const TREAT_THEM: &str = "Treat them";
pub const DONE_UNTREATED: &str = "Mark done without a treatment";
/// Kept as the reason why it counts as done.
pub const UNTREATED: &str = "done without a treatment";
pub const ALL_DONE: &str = "All done";
pub const MORE_OF_THE_WALK: &str = "More of the walk";
pub const EXCEPT: &str = "Not these";
pub const EXCEPT_HINT: &str = "Tap what was left out.";
pub const LOOKS_WELL: &str = "Looks well";
pub const NEEDS_MORE: &str = "Needs more";
pub const DID_IT_WORK: &str = "How does it look?";

pub const MONTH: &str = "The month to come";
pub const MONTH_SHOW: &str = "Show the month to come";
pub const MONTH_HOW: &str = "Work that is open now, on the day it is due, with walking and set-ups. The minutes there are stand under \"What fits?\".";
pub const BECAUSE: &str = "If you put it off: why?";
pub const NO_REASON: &str = "No reason";

/// The reason as it is kept.
#[must_use]
pub fn because(why: Because) -> &'static str {
    match why {
        Because::NoTime => "No time",
        Because::Weather => "The weather",
        Because::NotReady => "The plants are not ready",
        Because::Missing => "Something is missing",
    }
}

/// The way to a finding on a place.
#[must_use]
pub fn seen_at(place: &str) -> String {
    format!("Seen at {place}")
}

#[must_use]
pub fn month_line(minutes: u32) -> String {
    format!(
        "{} there are",
        super::day::minutes(minutes.saturating_mul(10))
    )
}

/// The columns in words.
#[must_use]
pub fn month_text(days: &[(String, String)]) -> String {
    let said: Vec<String> = days
        .iter()
        .map(|(on, minutes)| format!("{on} {minutes}"))
        .collect();
    if said.is_empty() {
        "No open work in the month to come.".to_owned()
    } else {
        format!("Open work: {}.", said.join(", "))
    }
}

/// Which days ask for more than there is.
#[must_use]
pub fn month_over(named: &[(String, String)], all: usize, minutes: u32) -> String {
    let room = super::day::minutes(minutes.saturating_mul(10));
    if named.is_empty() {
        return format!("No day asks for more than {room}.");
    }
    let said: Vec<String> = named
        .iter()
        .map(|(on, minutes)| format!("{on} ({minutes})"))
        .collect();
    let more = match all.saturating_sub(named.len()) {
        0 => String::new(),
        more => format!(
            " and {}",
            counted(
                i64::try_from(more).unwrap_or(i64::MAX),
                "more day",
                "more days"
            )
        ),
    };
    format!("More than {room}: {}{more}.", said.join(", "))
}

#[must_use]
pub fn month_late(tasks: u32) -> String {
    format!(
        "Today holds {} as well.",
        counted(i64::from(tasks), "late task", "late tasks")
    )
}

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
pub fn summary(late: usize, due: usize, bare: u64) -> String {
    let say = |count: usize| grouped(i64::try_from(count).unwrap_or(i64::MAX));
    match (late, due) {
        (0, 0) if bare > 0 => self::bare(bare, "").0,
        (0, 0) => "all in hand".to_owned(),
        (0, due) => format!("{} due", say(due)),
        (late, 0) => format!("{} late", say(late)),
        (late, due) => format!("{} late, {} due", say(late), say(due)),
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
        RowState::Held { .. } => NOT_YET.to_owned(),
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
