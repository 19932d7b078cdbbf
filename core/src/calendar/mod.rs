//! Open work as a calendar file (RFC 5545), for the calendar of the phone.
//!
//! Invariants: a piece of work keeps its name (UID) while its day moves, so that taking the file in again moves it
//! instead of doubling it; days are days (`VALUE=DATE`), never instants that a change of clocks could shift; lines are
//! folded at 75 octets and no character is ever cut. Words come from the caller.

mod open_work;

pub use open_work::{OpenWork, open_work};

use std::fmt::Write;

use chrono::{DateTime, Datelike, NaiveDate, Timelike};
use sha2::{Digest, Sha256};

use crate::id::Dev;
use crate::time::plus_days;

/// Longest line in octets, without its line break (RFC 5545, section 3.1).
const LINE_OCTETS: usize = 75;

/// When something is to be done.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum When {
    /// A civil day, with an alarm so many minutes after midnight.
    Day {
        on: NaiveDate,
        alarm_min: Option<u16>,
    },
    /// An instant in milliseconds since 1970 in UTC, with an alarm at it.
    Instant { at_ms: i64 },
}

/// One line of a calendar.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Appointment {
    /// What it is called for ever: see [`uid`].
    pub uid: String,
    pub when: When,
    pub summary: String,
    pub description: String,
    pub location: String,
}

/// A name that stays: from what the work is, never from its day.
#[must_use]
pub fn uid(book: Dev, parts: &[&str]) -> String {
    let mut digest = Sha256::new();
    digest.update(book.to_string());
    for part in parts {
        digest.update([0]);
        digest.update(part);
    }
    let mut name = String::new();
    for byte in digest.finalize().iter().take(10) {
        let _ = write!(name, "{byte:02x}");
    }
    name.push_str("@velamen.invalid");
    name
}

/// The file. `now_ms` stamps it: a later one stands for an earlier one.
#[must_use]
pub fn write(appointments: &[Appointment], now_ms: i64) -> String {
    let mut text = String::new();
    let stamp = utc(now_ms);
    let sequence = now_ms.div_euclid(60_000).max(0);
    for line in [
        "BEGIN:VCALENDAR",
        "VERSION:2.0",
        "PRODID:-//Velamen//Open work//EN",
        "CALSCALE:GREGORIAN",
        "METHOD:PUBLISH",
    ] {
        push(&mut text, line);
    }
    for one in appointments {
        push(&mut text, "BEGIN:VEVENT");
        push(&mut text, &format!("UID:{}", one.uid));
        push(&mut text, &format!("DTSTAMP:{stamp}"));
        push(&mut text, &format!("SEQUENCE:{sequence}"));
        let trigger = match one.when {
            When::Day { on, alarm_min } => {
                push(&mut text, &format!("DTSTART;VALUE=DATE:{}", day(on)));
                push(
                    &mut text,
                    &format!("DTEND;VALUE=DATE:{}", day(plus_days(on, 1))),
                );
                push(&mut text, "TRANSP:TRANSPARENT");
                alarm_min.map(|minutes| format!("TRIGGER:PT{minutes}M"))
            }
            When::Instant { at_ms } => {
                push(&mut text, &format!("DTSTART:{}", utc(at_ms)));
                push(&mut text, "DURATION:PT1M");
                Some("TRIGGER:PT0S".to_owned())
            }
        };
        push(&mut text, &format!("SUMMARY:{}", escaped(&one.summary)));
        for (name, value) in [
            ("DESCRIPTION", &one.description),
            ("LOCATION", &one.location),
        ] {
            if !value.is_empty() {
                push(&mut text, &format!("{name}:{}", escaped(value)));
            }
        }
        if let Some(trigger) = trigger {
            push(&mut text, "BEGIN:VALARM");
            push(&mut text, "ACTION:DISPLAY");
            push(&mut text, &format!("DESCRIPTION:{}", escaped(&one.summary)));
            push(&mut text, &trigger);
            push(&mut text, "END:VALARM");
        }
        push(&mut text, "END:VEVENT");
    }
    push(&mut text, "END:VCALENDAR");
    text
}

/// A text as a value: backslash, semicolon, comma and line break have a meaning of their own (section 3.3.11).
#[must_use]
pub fn escaped(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    let mut rest = text.chars().peekable();
    while let Some(c) = rest.next() {
        match c {
            '\\' | ';' | ',' => {
                out.push('\\');
                out.push(c);
            }
            '\r' if rest.peek() == Some(&'\n') => {}
            '\n' | '\r' => out.push_str("\\n"),
            // Other control characters have no place in a text value.
            c if c.is_control() && c != '\t' => {}
            c => out.push(c),
        }
    }
    out
}

/// Adds a line, folded where it is long.
fn push(text: &mut String, line: &str) {
    text.push_str(&folded(line));
    text.push_str("\r\n");
}

/// A line folded at 75 octets; what follows a break begins with one space (section 3.1).
#[must_use]
pub fn folded(line: &str) -> String {
    let mut out = String::with_capacity(line.len());
    let mut octets = 0;
    for c in line.chars() {
        if octets + c.len_utf8() > LINE_OCTETS {
            out.push_str("\r\n ");
            octets = 1;
        }
        octets += c.len_utf8();
        out.push(c);
    }
    out
}

fn day(on: NaiveDate) -> String {
    format!("{:04}{:02}{:02}", on.year(), on.month(), on.day())
}

fn utc(at_ms: i64) -> String {
    let at = DateTime::from_timestamp_millis(at_ms).unwrap_or_default();
    format!(
        "{}T{:02}{:02}{:02}Z",
        day(at.date_naive()),
        at.hour(),
        at.minute(),
        at.second()
    )
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_name_depends_on_the_work_and_on_nothing_else() {
        let book = Dev(7);
        let name = uid(book, &["a", "bc"]);
        assert_eq!(name, uid(book, &["a", "bc"]));
        assert_ne!(name, uid(book, &["ab", "c"]));
        assert_ne!(name, uid(Dev(8), &["a", "bc"]));
        assert!(name.len() < 60 && name.ends_with("@velamen.invalid"));
    }

    #[test]
    fn no_character_is_cut_and_no_line_is_too_long() {
        let folded = folded(&format!("SUMMARY:{}", "ж€😀".repeat(60)));
        for line in folded.split("\r\n") {
            assert!(line.len() <= LINE_OCTETS, "{} octets", line.len());
        }
        assert_eq!(
            folded.replace("\r\n ", ""),
            format!("SUMMARY:{}", "ж€😀".repeat(60))
        );
    }
}
