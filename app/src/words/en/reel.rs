//! A file as squares from one phone's screen to another's camera.

use super::format::many;
use crate::ledger::NoReel;

pub const SHOW: &str = "Show as squares";
pub const READ: &str = "Read squares";
pub const READ_HINT: &str =
    "Without network and cable: a few entries off the other phone's screen, with the camera.";
/// What the file is called that came as squares.
pub const NAME: &str = "squares";
pub const MAKING: &str = "Drawing the squares";
pub const HOW: &str = "On the other phone: Book, Hand over or take in, Read squares. Hold its camera over this screen until it has all of them; the order does not matter.";
pub const NEXT: &str = "Next square";
pub const BY_ITSELF: &str = "Changes by itself";
pub const WAS_READ: &str = "The other phone has them all";
pub const HANDED_OVER: &str = "Handed over by squares.";
pub const BY_FILE: &str = "Hand over as a file";
pub const READING: &str = "Squares";
pub const LOOKING: &str =
    "Hold the square on the other phone into the picture, until all of them are read.";
pub const REFUSED: &str = "The camera is not allowed here. Ask for a file instead, or allow it in this page's settings in the browser.";
pub const MISSING: &str = "There is no camera to be had here. Ask for a file instead.";
pub const CANNOT_READ: &str = "This phone cannot read squares just now. Ask for a file instead.";
pub const FOREIGN: &str =
    "That square is of something else. The other phone shows its own under \"Show as squares\".";
pub const NEWER: &str = "A newer version of the program shows these squares. Update the program on this phone, or ask for a file.";
pub const DAMAGED: &str =
    "That square came out wrong. Hold the camera still; it comes round again.";

/// Which square is shown.
#[must_use]
pub fn square(number: usize, of: usize) -> String {
    format!("Square {number} of {of}")
}

/// What lies in the squares.
#[must_use]
pub fn entries(count: usize) -> String {
    many(count, "entry", "entries")
}

/// How many were read.
#[must_use]
pub fn read(count: usize, of: usize) -> String {
    format!("{count} of {of} read")
}

/// Which are missing; they are named once they are few.
#[must_use]
pub fn missing(numbers: &[usize]) -> String {
    match numbers {
        [] => String::new(),
        some if some.len() > 5 => format!("{} still missing", some.len()),
        some => {
            let some: Vec<String> = some.iter().map(ToString::to_string).collect();
            format!("Still missing: {}", some.join(", "))
        }
    }
}

/// Why there are no squares.
#[must_use]
pub fn none(none: NoReel) -> &'static str {
    match none {
        NoReel::Nothing => "The other phone lacks nothing, as far as is known here.",
        NoReel::TooMuch => {
            "That is more than squares are for: they carry a few dozen entries, and nobody holds a camera still for longer. Save it as a file or share it."
        }
        NoReel::NotDrawn => "The squares could not be drawn just now. Save a file or share it.",
    }
}
