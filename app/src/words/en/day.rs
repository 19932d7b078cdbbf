//! The day's plan in words.

use velamen_core::plan::{LeftOutWhy, WALK_TENTHS, Why};

use super::format::{clock, counted};

pub const TITLE: &str = "What fits today";
pub const OPEN: &str = "What fits?";
pub const ROOM: &str = "Time there is";
pub const BENCH: &str = "At the bench";
pub const BATH: &str = "Treatments";
pub const LEFT_OUT: &str = "Left for another day";
pub const NOTHING: &str = "Nothing open fits into this time.";
pub const NOTHING_HINT: &str = "Give it more minutes, or walk the round.";
pub const ALL_DONE: &str = "Nothing is open today.";
pub const HOW: &str = "Late work first of all, then windows about to close; more pots count more. Nothing else that fits would be worth more. Times are common practice, no source, unless your own are named.";
pub const BEGIN_AGAIN: &str = "Begin again";
pub const CALENDAR: &str = "Into the calendar";
pub const CALENDAR_HINT: &str = "A file for the phone's calendar: the open work of three months, ringing at seven. Taken in again later, it moves what has moved; what was done meanwhile stays until you erase it there.";
pub const SOAK_FILE: &str = "bath.ics";

/// Name of the calendar file.
#[must_use]
pub fn calendar_name(today: chrono::NaiveDate) -> String {
    format!("work-{today}.ics")
}

/// That it was written.
#[must_use]
pub fn calendar_written(rows: usize) -> String {
    let rows = i64::try_from(rows).unwrap_or(i64::MAX);
    format!("A calendar file with {}.", counted(rows, "line", "lines"))
}

/// Tenths of a minute as a time.
#[must_use]
pub fn minutes(tenths: u32) -> String {
    let minutes = tenths.div_ceil(10);
    match (minutes / 60, minutes % 60) {
        (0, minutes) => format!("{minutes} min"),
        (hours, 0) => format!("{hours} h"),
        (hours, minutes) => format!("{hours} h {minutes} min"),
    }
}

/// The figure over the plan.
#[must_use]
pub fn of_room(tenths: u32, room_tenths: u32) -> String {
    format!("{} of {}", minutes(tenths), minutes(room_tenths))
}

/// What was done of it already.
#[must_use]
pub fn spent(tenths: u32) -> String {
    format!("{} of it done", minutes(tenths))
}

/// Minutes of a stop, with what it takes to begin there where that is more than walking up.
#[must_use]
pub fn stop(tenths: u32, set_up_tenths: u32) -> String {
    let all = minutes(tenths.saturating_add(set_up_tenths));
    if set_up_tenths <= WALK_TENTHS {
        all
    } else {
        format!("{all}, {} of it to begin", minutes(set_up_tenths))
    }
}

/// Why it was chosen.
#[must_use]
pub fn why(why: Why) -> String {
    match why {
        Why::Late { days } => format!("{} late", counted(days, "day", "days")),
        Why::Closing { days: 0 } => "last day".to_owned(),
        Why::Closing { days } => format!("{} left", counted(days, "day", "days")),
        Why::Due => "due".to_owned(),
        Why::Room { days } => format!("due in {}, and there is room", counted(days, "day", "days")),
    }
}

/// That a part of the row does not fit.
#[must_use]
pub fn part(left_out: usize) -> String {
    let left_out = i64::try_from(left_out).unwrap_or(i64::MAX);
    format!("{} of it another day", counted(left_out, "lot", "lots"))
}

/// Why it was left out.
#[must_use]
pub fn left_out(why: LeftOutWhy) -> String {
    match why {
        LeftOutWhy::NoTime { tenths } => {
            format!("needs {}, the others are worth more", minutes(tenths))
        }
        LeftOutWhy::Bound { until_ms, off_min } => format!(
            "treated: not before {}",
            clock(velamen_core::time::minute_of_day(until_ms, off_min))
        ),
    }
}

/// Times learned from the program's own timers.
#[must_use]
pub fn learned(tenths: u32, clumps: usize) -> String {
    let clumps = i64::try_from(clumps).unwrap_or(i64::MAX);
    format!(
        "At the bench: {} a pot, the middle of your last {}.",
        minutes(tenths),
        counted(clumps, "clump", "clumps")
    )
}
