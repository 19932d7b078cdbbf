//! First start, and the example to look around in.

use super::format::decimal;
use super::trouble;
use crate::storage::StorageError;

pub const WELCOME: &str = "The nursery's book";
pub const ABOUT: &str =
    "What you divided, potted and treated, and what is due for it. Everything stays on this phone.";
pub const NURSERY: &str = "Name of the nursery";
pub const WHERE: &str = "Where are you?";
pub const NORTH: &str = "North of the equator";
pub const SOUTH: &str = "South of the equator";
pub const OPEN: &str = "Start my book";
pub const TAKE_IN: &str = "From a file";
pub const OPENING: &str = "Opening the book";
pub const OPENED: &str = "Your book is open.";
pub const OR_LOOK: &str = "Or look around first";
pub const ABOUT_EXAMPLE: &str =
    "An invented nursery with two seasons in its book. Try everything; it goes without a trace.";
pub const LOOK_AROUND: &str = "Look around in an example";
pub const EXAMPLE_NURSERY: &str = "Example nursery";
pub const MAKING: &str = "Writing the example";
pub const MAKING_HINT: &str = "Two seasons of an invented nursery, day by day, up to last evening.";
pub const IN_EXAMPLE: &str = "An example, not your book";
pub const START_OWN: &str = "Start my own";
pub const END_EXAMPLE: &str = "Start your own book";
pub const END_HINT: &str =
    "The example goes, with everything tapped in it. It cannot be brought back.";
pub const END_IT: &str = "Throw it away and start";
pub const KEEP_LOOKING: &str = "Keep looking around";
pub const COARSE_BARK: &str = "Coarse bark";
pub const MEDIUM_BARK: &str = "Medium bark";
pub const MOSS: &str = "Long-fibre moss";

/// A round pot by its width across the top.
#[must_use]
pub fn pot_name(top_mm: u32) -> String {
    format!("{} cm", decimal(i64::from(top_mm), 1))
}

/// How far the example is written.
#[must_use]
pub fn made(pct: u32) -> String {
    format!("{pct} %")
}

/// Why there is no example.
#[must_use]
pub fn no_example(error: &StorageError) -> String {
    format!("The example could not be kept. {}", trouble::why(error))
}
