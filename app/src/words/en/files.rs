//! The book as a file: handing over and taking in.

use chrono::NaiveDate;
use velamen_core::exchange::album::AlbumFault;
use velamen_core::exchange::envelope::{EnvelopeFault, Unfit};
use velamen_core::exchange::lack::{Other, Urgency};
use velamen_core::exchange::{FileFault, Plan};
use velamen_core::limits::{PASSPHRASE_CHARS_MAX, PASSPHRASE_CHARS_MIN};

use super::format::{counted, many};
use super::stock::grouped;
use super::trouble;
use crate::storage::StorageError;

pub const HAND_OVER: &str = "Hand over";
pub const TAKE_IN: &str = "Take in";

pub const WHAT: &str = "What goes into the file";
pub const WHOLE: &str = "The whole book";
pub const UNDER_PASSPHRASE: &str = "Under a passphrase";
pub const UNDER_PASSPHRASE_HINT: &str =
    "Nobody reads the file without it, and nobody finds it again once it is forgotten.";
pub const PASSPHRASE: &str = "Passphrase";
pub const PASSPHRASE_HINT: &str = "Four words or more that you do not use elsewhere.";
pub const OPEN_IT: &str = "Open the file";
pub const CLOSED: &str = "This file is under a passphrase.";
pub const TRIED: &str = "That passphrase does not open the file. Type it again; if it is right, the file was changed on its way: ask for it again.";
pub const ON: &str = "yes";
pub const OFF: &str = "no";
pub const TAKING_IN: &str = "Taking in";
pub const STAY_OUT: &str = "These files stay out";
pub const PHOTOGRAPHS: &str = "Photographs";
pub const PHOTOGRAPHS_HINT: &str =
    "They travel apart from the book, in a ZIP. Take it in like a file of the book, and after it.";
pub const COUNTING: &str = "Counting";
pub const PHONES: &str = "Phones of the book";
pub const THIS_PHONE: &str = "this phone";
pub const OFF_THE_BOOK: &str = "off the book";
pub const TAKE_OFF: &str = "Take it off the book";
pub const TAKE_OFF_HINT: &str = "For a phone that is lost, sold or broken. What it recorded stays. What it records from now on is asked about. It still holds the book as it was; a passphrase it knew should no longer be used.";
pub const TAKEN_OFF: &str = "Taken off the book.";
pub const KEEP_IT: &str = "Leave it";
pub const SAVE_RESCUE: &str = "Save what can be read";
pub const REBUILD: &str = "Build the book anew from it";
pub const RESCUE_HINT: &str = "Something in the phone's own store is damaged. First save what can be read as a file. Then the book can be built anew from it, here or on another phone. What a file handed over earlier holds can be taken in afterwards.";

pub const PLACES: &str = "Other ways";

pub const FINGERPRINT: &str = "Fingerprint of the book";
pub const FINGERPRINT_HINT: &str =
    "Two phones that show the same eight letters hold the same book.";

fn entries(count: usize) -> String {
    let number = grouped(i64::try_from(count).unwrap_or(i64::MAX));
    let word = if count == 1 { "entry" } else { "entries" };
    format!("{number} {word}")
}

fn photographs(count: usize) -> String {
    many(count, "photograph", "photographs")
}

/// Name of a file: plain text, so that any phone passes it on. `to` is the phone that lacks what is in it.
#[must_use]
pub fn file_name(today: NaiveDate, to: Option<&str>, closed: bool) -> String {
    let to = to.map(|to| format!("-for-{to}")).unwrap_or_default();
    let closed = if closed { "-passphrase" } else { "" };
    format!("nursery-book-{today}{to}{closed}.txt")
}

/// Name of a ZIP of photographs.
#[must_use]
pub fn album_name(today: NaiveDate, number: usize, of: usize) -> String {
    if of > 1 {
        format!("nursery-photographs-{today}-{number}-of-{of}.zip")
    } else {
        format!("nursery-photographs-{today}.zip")
    }
}

/// Name of what could be read of a damaged book.
#[must_use]
pub fn rescue_name(today: NaiveDate) -> String {
    format!("nursery-book-{today}-rescued.txt")
}

#[must_use]
pub fn not_written() -> String {
    "The file could not be written. Try \"Share\", or free some space on the phone.".to_owned()
}

/// That a file cannot be put under a passphrase.
#[must_use]
pub fn not_closed() -> String {
    "This browser could not put the file under a passphrase. Nothing was written.".to_owned()
}

/// That a file under a passphrase cannot be opened.
#[must_use]
pub fn no_ciphers() -> String {
    "This browser cannot open a file under a passphrase. Open the program at an address that begins with https.".to_owned()
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

/// What is in the file: the whole book, or so many entries.
#[must_use]
pub fn handed_over(part: Option<usize>) -> String {
    match part {
        None => "The whole book is in the file.".to_owned(),
        Some(count) => format!("In the file: {}.", entries(count)),
    }
}

#[must_use]
pub fn album_saved(count: usize) -> String {
    format!("In the ZIP: {}.", photographs(count))
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

/// A packed file that becomes far more than a book does.
#[must_use]
pub fn bomb() -> String {
    "This file becomes far larger than a book when it is unpacked. It was left alone.".to_owned()
}

#[must_use]
pub fn badly_packed() -> String {
    "This file is packed and was damaged on its way, or ends early. Nothing was taken in; ask for it again.".to_owned()
}

#[must_use]
pub fn cannot_unpack() -> String {
    "This browser cannot unpack the file. Ask for it with \"Share\", which does not pack it."
        .to_owned()
}

#[must_use]
pub fn too_many_files(most: usize) -> String {
    format!("Choose at most {most} files at once.")
}

/// Why every file stays out: one sentence for one file, a line a file for several.
#[must_use]
pub fn all_refused(refused: &[(String, String)]) -> String {
    match refused {
        [] => fault(&FileFault::Empty),
        [(_, why)] => why.clone(),
        several => several
            .iter()
            .map(|(name, why)| refused_file(name, why))
            .collect::<Vec<_>>()
            .join("\n"),
    }
}

/// One file that stays out.
#[must_use]
pub fn refused_file(name: &str, why: &str) -> String {
    format!("\u{2068}{name}\u{2069}: {why}")
}

#[must_use]
pub fn taken_in(count: usize, photos: usize) -> String {
    match (count, photos) {
        (0, 1..) => format!("Taken in: {}.", photographs(photos)),
        (_, 0) => format!("Taken in: {}.", entries(count)),
        _ => format!("Taken in: {}, {}.", entries(count), photographs(photos)),
    }
}

/// That photographs stopped coming in.
#[must_use]
pub fn photos_stopped(error: &StorageError) -> String {
    format!(
        "Not all photographs were kept. {} Take the ZIP in again afterwards.",
        trouble::why(error)
    )
}

/// What was saved of a damaged book.
#[must_use]
pub fn rescued(lines: usize, lost_rows: usize) -> String {
    format!("Saved: {}. {}", entries(lines), lost(lost_rows))
}

/// What a book was built from.
#[must_use]
pub fn rebuilt(lines: usize, lost_rows: usize) -> String {
    format!(
        "The book was built anew from {}. {} Take in a file handed over earlier, or one of another phone.",
        entries(lines),
        lost(lost_rows)
    )
}

fn lost(rows: usize) -> String {
    match rows {
        0 => "All rows could be read.".to_owned(),
        rows => format!("{} could not be read.", many(rows, "row", "rows")),
    }
}

/// That entries of this phone are missing, and it goes on under another name.
#[must_use]
pub fn torn() -> String {
    "An entry of this phone is missing, and later ones wait for it. Take in a file handed over earlier, or one of another phone.".to_owned()
}

/// How long the words of a passphrase have to be.
#[must_use]
pub fn unfit(unfit: Unfit) -> String {
    match unfit {
        Unfit::Short => format!("Too short: {PASSPHRASE_CHARS_MIN} letters at least."),
        Unfit::Long => format!("Too long: {PASSPHRASE_CHARS_MAX} letters at most."),
    }
}

/// Why a file under a passphrase is refused.
#[must_use]
pub fn envelope_fault(told: EnvelopeFault) -> String {
    match told {
        EnvelopeFault::NotOne => fault(&FileFault::NotABook),
        EnvelopeFault::NewerFormat => fault(&FileFault::NewerFormat { format: 0 }),
        EnvelopeFault::Absurd => "This file asks for a way of opening that this program does not follow. Nothing was taken in; ask for it again.".to_owned(),
        EnvelopeFault::TooLarge => fault(&FileFault::TooLarge {
            most_bytes: velamen_core::limits::FILE_BYTES_MAX,
        }),
        EnvelopeFault::Damaged { line } => format!(
            "This file was changed or cut off on its way, at line {line}. Nothing was taken in; ask for it again."
        ),
    }
}

/// Why a ZIP is refused.
#[must_use]
pub fn album_fault(fault: AlbumFault) -> String {
    match fault {
        AlbumFault::NotWhole => {
            "This ZIP ends early or was damaged on its way. Ask for it again.".to_owned()
        }
        AlbumFault::PackedAnew => {
            "Another program packed this ZIP anew. Ask for the one this program wrote.".to_owned()
        }
        AlbumFault::TooMany { most } => {
            format!("This ZIP holds more than {most} photographs.")
        }
        AlbumFault::TooLarge { most_bytes } => {
            format!(
                "This ZIP is too large: one may have up to {} MB.",
                most_bytes >> 20
            )
        }
    }
}

#[must_use]
pub fn no_photographs() -> String {
    "This ZIP holds no photographs of this program.".to_owned()
}

/// How the photographs of the book stand on this phone.
#[must_use]
pub fn photographs_here(here: usize, missing: usize) -> String {
    match (here, missing) {
        (0, 0) => "The book speaks of no photographs.".to_owned(),
        (here, 0) => format!("{} of the book, all on this phone.", photographs(here)),
        (here, missing) => format!(
            "{} of the book on this phone; {missing} missing: another phone has them.",
            photographs(here)
        ),
    }
}

/// The key that saves one part of the photographs.
#[must_use]
pub fn save_photographs(number: usize, of: usize) -> String {
    if of > 1 {
        format!("Save photographs, {number} of {of}")
    } else {
        "Save the photographs".to_owned()
    }
}

/// What another phone lacks, as a choice.
#[must_use]
pub fn lacking(other: &Other) -> String {
    format!("Only what {} lacks", phone(other))
}

/// The same in a number.
#[must_use]
pub fn lacking_count(count: usize) -> String {
    match count {
        0 => "Nothing, as far as is known here".to_owned(),
        count => format!("{}, as far as is known here", entries(count)),
    }
}

/// What another phone lacks, as a sentence.
#[must_use]
pub fn lacks(count: usize) -> String {
    match count {
        0 => "Holds everything, as far as is known here.".to_owned(),
        count => format!("Lacks {}, as far as is known here.", entries(count)),
    }
}

/// Another phone by its name, or by the beginning of its codes.
#[must_use]
pub fn phone(other: &Other) -> String {
    match (&other.name, other.prefix) {
        (name, _) if !name.is_empty() => name.clone(),
        (_, Some(prefix)) => format!("phone {prefix}"),
        _ => "a phone".to_owned(),
    }
}

/// Why a file is refused, and what to do.
#[must_use]
pub fn fault(fault: &FileFault) -> String {
    match fault {
        FileFault::Empty => "This file is empty. Ask for it again.".to_owned(),
        FileFault::TooLarge { most_bytes } => {
            format!("This file is too large: a book may have up to {} MB.", most_bytes >> 20)
        }
        FileFault::TooManyLines { most } => {
            format!("This file has more than {most} lines, more than any book. It was left alone.")
        }
        FileFault::TooManyEntries { most } => {
            format!("With this file the book would hold more than {most} entries. Nothing was taken in.")
        }
        FileFault::OnlyAPart => "This file holds only what another phone lacked, and this phone has no book yet. Ask for the whole book first.".to_owned(),
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

/// What taking files in would do, line by line.
#[must_use]
pub fn plan(plan: &Plan, asks: usize, photos: usize, photos_known: usize) -> Vec<String> {
    let mut lines = Vec::new();
    if plan.by.is_some() {
        lines.push(format!("{} new", entries(plan.new.len())));
        lines.push(format!("{} known already", entries(plan.known)));
    }
    if photos + photos_known > 0 {
        lines.push(format!("{} new", photographs(photos)));
        lines.push(format!("{} here already", photographs(photos_known)));
    }
    if asks > 0 {
        lines.push(format!(
            "{} to answer afterwards: phones contradict each other",
            many(asks, "question", "questions")
        ));
    }
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

pub const SAVED_HERE: &str = "Saved on this phone. It is safe once it lies somewhere else.";
pub const LIES_ELSEWHERE: &str = "It lies somewhere else now";

/// How safe the book is.
#[must_use]
pub fn safety(days: Option<i64>) -> String {
    match days {
        None => "Never handed over. If this phone is lost, the book is lost.".to_owned(),
        Some(0) => "Handed over today.".to_owned(),
        Some(1) => "Handed over yesterday.".to_owned(),
        Some(days) => format!("Last handed over {days} days ago."),
    }
}

/// What would be lost with this phone.
#[must_use]
pub fn at_stake(count: usize, urgency: Urgency) -> String {
    match urgency {
        Urgency::Nothing => "Nothing would be lost with this phone.".to_owned(),
        Urgency::Some => format!("{} on this phone alone.", entries(count)),
        Urgency::Much => format!("{} on this phone alone: hand over today.", entries(count)),
    }
}
