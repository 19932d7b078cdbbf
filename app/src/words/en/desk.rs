//! At a table: the keys, and printing.

pub use crate::words::parts::Deed;

pub const TITLE: &str = "Keys";
pub const PRINT: &str = "Print";
pub const HINT: &str =
    "Keys wait while you type in a field. Tab goes from one thing to the next, Enter opens it.";
pub const LETTERS: &str = "Single letters do things";
pub const LETTERS_HINT: &str = "At a wide window only.";

#[must_use]
pub const fn does(deed: Deed) -> &'static str {
    match deed {
        Deed::Rooms => "Round, Repot, Treat, Stock, Book; the Shed",
        Deed::Look => "Look for a lot",
        Deed::Next => "Next in the list",
        Deed::Before => "The one before",
        Deed::Choose => "Choose the lot, or not",
        Deed::Done => "The work of this row is done",
        Deed::Across => "From the list into what is open, and back",
        Deed::Undo => "Undo, while it is offered",
        Deed::Print => "Print this page",
        Deed::Back => "Out of a field; back to the list",
        Deed::Keys => "These keys",
    }
}
