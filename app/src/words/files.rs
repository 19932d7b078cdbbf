//! The book as a file: handing over and taking in.

use chrono::NaiveDate;
use velamen_core::exchange::{FileFault, Plan};
use velamen_core::time::days_between;

use super::format::counted;

pub const HAND_OVER: &str = "Hand over";
pub const TAKE_IN: &str = "Take in";

pub const FINGERPRINT: &str = "Fingerprint of the book";
pub const FINGERPRINT_HINT: &str =
    "Two phones that show the same eight letters hold the same book.";

fn entries(count: usize) -> String {
    counted(i64::try_from(count).unwrap_or(i64::MAX), "entry", "entries")
}

/// Name of a file: plain text, so that any phone passes it on.
#[must_use]
pub fn file_name(today: NaiveDate) -> String {
    format!("nursery-book-{today}.txt")
}

#[must_use]
pub fn not_written() -> String {
    "The file could not be written. Try \"Share\", or free some space on the phone.".to_owned()
}

/// That this browser prints nothing.
#[must_use]
pub fn not_printed() -> String {
    "This browser has no way to print. Save the table and print that.".to_owned()
}

#[must_use]
pub fn not_shared() -> String {
    "The phone did not pass the file on. Use \"Save as a file\" instead.".to_owned()
}

#[must_use]
pub fn handed_over() -> String {
    "The whole book is in the file.".to_owned()
}

#[must_use]
pub fn unreadable() -> String {
    "The phone could not read this file. Choose it again, or ask for it once more.".to_owned()
}

#[must_use]
pub fn no_table() -> String {
    "This is no table of text. In the spreadsheet, save it as CSV and choose that file.".to_owned()
}

#[must_use]
pub fn too_large(most_bytes: u32) -> String {
    format!(
        "This file is larger than {} MB. Save it in parts, or leave columns out.",
        most_bytes >> 20
    )
}

#[must_use]
pub fn taken_in(count: usize) -> String {
    format!("Taken in: {}.", entries(count))
}

/// Why a file is refused, and what to do.
#[must_use]
pub fn fault(fault: &FileFault) -> String {
    match fault {
        FileFault::Empty => "This file is empty. Ask for it again.".to_owned(),
        FileFault::TooLarge { most_bytes } => {
            format!("This file is too large: a book may have up to {} MB.", most_bytes >> 20)
        }
        FileFault::NotABook => "This file is not a book of this program. Choose another.".to_owned(),
        FileFault::NewerFormat { .. } => {
            "A newer version of the program wrote this file. Update the program on this phone, then take it in.".to_owned()
        }
        FileFault::CutOff { arrived, announced } => format!(
            "This file ends early: {arrived} of {announced} entries arrived. Nothing was taken in; ask for it again."
        ),
        FileFault::Damaged { from_line, to_line } => format!(
            "This file was damaged on its way, between lines {from_line} and {to_line}. Nothing was taken in; ask for it again."
        ),
        FileFault::Altered { entry } => format!(
            "Entry {} of one phone was altered after it was written. Nothing was taken in.",
            entry.seq
        ),
        FileFault::OtherBook { nursery } => {
            format!("This is the book of another nursery, \u{2068}{nursery}\u{2069}. Two books are never mixed.")
        }
        FileFault::Demo => "The example and real books are kept apart.".to_owned(),
    }
}

/// What taking the file in would do, line by line.
#[must_use]
pub fn plan(plan: &Plan) -> Vec<String> {
    let mut lines = vec![
        format!("{} new", entries(plan.new.len())),
        format!("{} known already", entries(plan.known)),
    ];
    if plan.example {
        lines.push("The example: it stays apart from a real book".to_owned());
    }
    if plan.new_phones > 0 {
        lines.push(counted(
            i64::try_from(plan.new_phones).unwrap_or(0),
            "new phone",
            "new phones",
        ));
    }
    if plan.waiting > 0 {
        lines.push(format!(
            "{} wait for earlier ones that are missing",
            entries(plan.waiting)
        ));
    }
    if plan.newer > 0 {
        lines.push(format!(
            "{} from a newer version: kept, and shown after an update",
            entries(plan.newer)
        ));
    }
    if plan.from_the_future > 0 {
        lines.push(format!(
            "{} dated later than this phone's clock",
            entries(plan.from_the_future)
        ));
    }
    if plan.copied_phone {
        lines.push("A phone was copied with its book and both wrote on; both are kept.".to_owned());
    }
    lines
}

/// How safe the book is.
#[must_use]
pub fn safety(handed_over_on: Option<NaiveDate>, today: NaiveDate) -> String {
    match handed_over_on.map(|on| days_between(on, today)) {
        None => "Never handed over. If this phone is lost, the book is lost.".to_owned(),
        Some(0) => "Handed over today.".to_owned(),
        Some(1) => "Handed over yesterday.".to_owned(),
        Some(days) => format!("Last handed over {days} days ago."),
    }
}
