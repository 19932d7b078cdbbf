//! First start.

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
pub const COARSE_BARK: &str = "Coarse bark";
pub const MEDIUM_BARK: &str = "Medium bark";
pub const MOSS: &str = "Long-fibre moss";

/// A round pot by its width across the top.
#[must_use]
pub fn pot_name(top_mm: u32) -> String {
    if top_mm.is_multiple_of(10) {
        format!("{} cm", top_mm / 10)
    } else {
        format!("{}.{} cm", top_mm / 10, top_mm % 10)
    }
}
