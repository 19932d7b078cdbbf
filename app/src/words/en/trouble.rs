//! When something goes wrong with the phone: what happened, what is safe, what to do.

use crate::platform::failure::FailureWords;
use crate::storage::StorageError;

pub const FAILURE: FailureWords = FailureWords {
    stopped: "This screen has stopped.",
    safe: "Everything that was shown as recorded is safe.",
    reload: "Open again",
    carry_out: "Save the book as a file",
};

/// The phone's clock is in doubt: the day it shows, and the day of what was recorded last where that is later.
#[must_use]
pub fn clock_in_doubt(day: &str, last: Option<&str>) -> String {
    match last {
        None => format!(
            "The phone's clock stands at {day}: put it right in the phone's settings. Every entry takes its day from it."
        ),
        Some(last) => format!(
            "The phone's clock stands at {day}, but the last entry from here says {last}. Look at the clock in the phone's settings before you record."
        ),
    }
}

/// The program ended while it opened the book.
#[must_use]
pub fn stopped_opening(words: &str) -> String {
    format!("the program ended while it opened the book ({words})")
}

#[must_use]
pub fn other_window_writes() -> String {
    "Another window has the book open for writing. Close it, or choose \"Work here\".".to_owned()
}

#[must_use]
pub fn work_here() -> String {
    "Work here".to_owned()
}

#[must_use]
pub fn follows() -> String {
    "Another window is writing. This one only shows.".to_owned()
}

#[must_use]
pub fn stopped() -> String {
    "The book was opened by a newer window. Load this one again.".to_owned()
}

/// Why a record did not reach the disk.
#[must_use]
pub fn not_recorded(error: &StorageError) -> String {
    format!(
        "Not recorded. {} What you tapped is still here.",
        why(error)
    )
}

#[must_use]
pub fn draft_not_kept(error: &StorageError) -> String {
    format!("{} This step is on the screen only.", why(error))
}

#[must_use]
pub fn storage_lost() -> String {
    "The phone has closed the book. Open the program again before you go on.".to_owned()
}

#[must_use]
pub fn preferences_not_kept() -> String {
    "This browser does not let the program keep that choice.".to_owned()
}

/// Headline of the screen shown when the book cannot be opened.
#[must_use]
pub fn cannot_open() -> String {
    "The book cannot be opened".to_owned()
}

#[must_use]
pub fn try_again() -> String {
    "Try again".to_owned()
}

/// Headline of a screen whose part of the program could not be had.
#[must_use]
pub fn part_missing() -> String {
    "A part of the program is missing".to_owned()
}

pub const REST_LATE: &str = "This is the Round as it was kept. The rest of the program cannot be fetched yet; what you tap is recorded when it comes.";

pub const PART_MISSING_HINT: &str = "The book is safe. A part of the program could not be read from this phone or fetched; with a connection, try again.";

/// Why, as a sentence.
#[must_use]
pub fn why(error: &StorageError) -> String {
    match error {
        StorageError::Full => "The phone is full. Free some space, then try again.".to_owned(),
        StorageError::Blocked => {
            "Another window holds an older version open. Close all other windows of this program.".to_owned()
        }
        StorageError::Newer => {
            "This book was written by a newer version of the program. Update the program on this phone.".to_owned()
        }
        StorageError::Refused => {
            "The browser allows no storage here. Private windows often do not: open the program in a normal one."
                .to_owned()
        }
        StorageError::Closed => "The connection to the book is gone. Open the program again.".to_owned(),
        StorageError::Duplicate => "This was recorded already.".to_owned(),
        StorageError::NoReader => PART_MISSING_HINT.to_owned(),
        StorageError::Other(words) => format!("The browser says: {words}."),
    }
}
