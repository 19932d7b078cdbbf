//! A shared folder in place of a server.

use super::format::counted;

pub const FOLDER: &str = "A shared folder";
pub const HINT: &str = "A folder that a program of yours keeps alike on several devices, such as one in the cloud or on a home network. Each phone writes a file of its own there and reads the others'. Anyone who may read the folder can read the book.";
pub const UNAVAILABLE: &str = "This browser lets no program keep a folder. Hand over by file.";
pub const CHOOSE: &str = "Choose a folder";
pub const ALLOW: &str = "Allow the folder again";
pub const LOOK_NOW: &str = "Look now";
pub const LEAVE: &str = "No longer use it";
pub const LOOKING: &str = "Looking into the folder";

fn number(count: usize) -> i64 {
    i64::try_from(count).unwrap_or(i64::MAX)
}

/// Which folder is in use.
#[must_use]
pub fn in_use(name: &str) -> String {
    format!("The book is kept in step with the folder \u{2068}{name}\u{2069}.")
}

/// Which folder has to be allowed again.
#[must_use]
pub fn to_be_allowed(name: &str) -> String {
    format!(
        "The browser wants to be asked again before it opens the folder \u{2068}{name}\u{2069}."
    )
}

/// When it was looked at, and how many phones write there.
#[must_use]
pub fn looked(clock: &str, phones: usize) -> String {
    format!(
        "Last looked at {clock}: files of {}.",
        counted(number(phones), "phone", "phones")
    )
}

#[must_use]
pub fn taken_in(count: usize) -> String {
    format!(
        "From the shared folder: {}.",
        counted(number(count), "entry", "entries")
    )
}

/// A file there that is of another book: its name, and why it stays out.
#[must_use]
pub fn foreign(name: &str, why: &str) -> String {
    format!("\u{2068}{name}\u{2069} stays out. {why}")
}

#[must_use]
pub fn not_chosen() -> String {
    "The browser did not open the folder. Choose another, or hand over by file.".to_owned()
}

#[must_use]
pub fn not_remembered() -> String {
    "The browser does not remember the folder. It has to be chosen again at the next start."
        .to_owned()
}

#[must_use]
pub fn not_there() -> String {
    "The folder cannot be read. It may have been moved or taken away.".to_owned()
}

#[must_use]
pub fn not_written() -> String {
    "The folder does not take this phone's file. It may be full or closed for writing.".to_owned()
}

#[must_use]
pub fn too_many(most: usize) -> String {
    format!("There are files of more than {most} phones in the folder. Take old ones out.")
}

#[must_use]
pub fn unreadable(name: &str) -> String {
    format!("The file {name} cannot be read just now.")
}

#[must_use]
pub fn damaged(name: &str) -> String {
    format!(
        "A part of the file {name} is damaged. The phone that writes it puts that right when it looks next."
    )
}
