//! A logger's file in words: its columns, what it comes to, what of it was not taken and why.

use chrono::NaiveDate;
use velamen_core::climate::{DayOrder, Logged, RowFault};

use super::climate;
use super::format::{celsius, full_day, many, short_day};

pub const TITLE: &str = "From a logger's file";
pub const HINT: &str = "A text file whose first row names its columns. Minimum and maximum of each day are taken from it; days of which less than 18 hours were logged are left out.";
pub const WHERE: &str = "Where it hung";
pub const FIRST_ROWS: &str = "The first rows";
pub const NO_COLUMN: &str = "None";
pub const DAY_COLUMN: &str = "Day, or day and time";
pub const CLOCK_COLUMN: &str = "Time, where it stands apart";
pub const DAY_ORDER: &str = "Days are written";
pub const TEMPERATURE_COLUMN: &str = "Temperature, or the minimum";
pub const MAX_COLUMN: &str = "Maximum, where there are two";
pub const UNIT: &str = "In";
pub const HUMIDITY_COLUMN: &str = "Humidity";
pub const COMES_TO: &str = "What it comes to";

/// An order of day, month and year.
#[must_use]
pub fn order(order: DayOrder) -> &'static str {
    match order {
        DayOrder::YearFirst => "2026-10-31",
        DayOrder::DayFirst => "31/10/2026",
        DayOrder::MonthFirst => "10/31/2026",
    }
}

/// How many rows there are.
#[must_use]
pub fn rows(count: usize, too_many: bool) -> String {
    let rows = many(count, "row", "rows");
    if too_many {
        format!("{rows}; the rest of the file is more than can be read at once.")
    } else {
        format!("{rows}.")
    }
}

/// The main key.
#[must_use]
pub fn take(days: usize) -> String {
    format!("Take {}", many(days, "day", "days"))
}

/// That they are in the book.
#[must_use]
pub fn taken(days: usize) -> String {
    format!("{} from the logger", many(days, "day", "days"))
}

/// Days that were read already with other numbers.
#[must_use]
pub fn replaces(count: usize) -> String {
    format!(
        "{} read already with other numbers: the logger's stand in their place. The old ones stay in the Book.",
        many(count, "day was", "days were")
    )
}

/// What a file comes to, a sentence each.
#[must_use]
pub fn comes_to(logged: &Logged, today: NaiveDate) -> Vec<String> {
    let mut said = Vec::new();
    match (logged.days.first(), logged.days.last()) {
        (Some(first), Some(last)) => {
            let low = logged.days.iter().map(|day| day.reading.min_mc).min();
            let high = logged.days.iter().map(|day| day.reading.max_mc).max();
            said.push(format!(
                "{}, {} to {}: {} to {}.",
                many(logged.days.len(), "day", "days"),
                short_day(first.on, today),
                short_day(last.on, today),
                celsius(low.unwrap_or(0)),
                celsius(high.unwrap_or(0))
            ));
        }
        _ => said.push("No day can be read with these columns.".to_owned()),
    }
    for (from, to) in logged.gaps.iter().take(6) {
        said.push(if from == to {
            format!("Nothing on {}: it stays a gap.", short_day(*from, today))
        } else {
            format!(
                "Nothing from {} to {}: it stays a gap.",
                short_day(*from, today),
                short_day(*to, today)
            )
        });
    }
    if logged.gaps.len() > 6 {
        said.push(format!("And {} more gaps.", logged.gaps.len() - 6));
    }
    for part in logged.part_days.iter().take(6) {
        said.push(format!(
            "{}: {} of 24 hours, left out.",
            short_day(part.on, today),
            part.hours
        ));
    }
    if logged.part_days.len() > 6 {
        said.push(format!(
            "And {} more such days.",
            logged.part_days.len() - 6
        ));
    }
    if logged.repeated > 0 {
        said.push(format!(
            "{} there twice with the same numbers: counted once.",
            many(logged.repeated, "row is", "rows are")
        ));
    }
    if logged.twice > 0 {
        said.push(format!(
            "{} at a time that was there before, as when clocks go back: both count.",
            many(logged.twice, "row stands", "rows stand")
        ));
    }
    said
}

/// How many rows were refused.
#[must_use]
pub fn refused_count(count: usize) -> String {
    format!("{} not taken, and why", many(count, "row was", "rows were"))
}

/// The rows refused, with their lines.
#[must_use]
pub fn refused(logged: &Logged) -> Vec<String> {
    let mut said: Vec<String> = logged
        .refused
        .iter()
        .map(|(line, why)| format!("Line {line}: {}", row_fault(why)))
        .collect();
    let more = logged.refused_count.saturating_sub(logged.refused.len());
    if more > 0 {
        said.push(format!("And {more} more."));
    }
    said
}

fn row_fault(why: &RowFault) -> String {
    match why {
        RowFault::Short { cells } => {
            format!("it has only {}.", many(*cells, "cell", "cells"))
        }
        RowFault::NotADay { text } => format!("\"{}\" is no day in this order.", cut(text)),
        RowFault::NotANumber { text } => format!("\"{}\" is no number.", cut(text)),
        RowFault::Humidity { text } => format!("\"{}\" is no humidity from 0 to 100.", cut(text)),
        RowFault::Reading(fault) => climate::fault(fault),
        RowFault::Ahead { on } => format!("{} lies ahead.", full_day(*on)),
    }
}

/// A cell short enough for a sentence.
fn cut(text: &str) -> String {
    text.chars().take(30).collect()
}
