//! A stock list from elsewhere in words: its columns, what it comes to, what of it is not taken and why.

use chrono::NaiveDate;
use velamen_core::rejection::{Input, Rejection};
use velamen_core::stock_list::{Comes, Holds, Listed, RowFault};

use super::format::{full_day, many, short_day};
use super::{rejection, trade};

pub const TITLE: &str = "A list you have";
pub const LINK: &str = "From a list you have";
pub const HINT: &str = "A table with one row a lot, saved as CSV or text. What is in it is shown first; nothing is in the book before you tap.";
pub const COLUMNS: &str = "What its columns hold";
pub const HEADED: &str = "The first row names the columns";
pub const SIZES: &str = "What its words of size mean";
pub const NO_SIZE: &str = "Not said";
pub const COMES_TO: &str = "What it comes to";
pub const AGAIN: &str = "Take what is in the book already once more";

/// What a column holds.
#[must_use]
pub fn holds(holds: Holds) -> &'static str {
    match holds {
        Holds::Nothing => "Leave it out",
        Holds::Name => "Name, or a part of it",
        Holds::Plants => "How many plants",
        Holds::Pots => "How many pots or trays",
        Holds::Place => "Place",
        Holds::Potted => "Last potted",
        Holds::Size => "Size",
        Holds::Number => "Old number",
        Holds::From => "From whom",
        Holds::Note => "Note",
    }
}

/// A column by its head, or by its place where the first row is none.
#[must_use]
pub fn column(head: Option<&str>, at: usize) -> String {
    match head.filter(|head| !head.is_empty()) {
        Some(head) => cut(head),
        None => format!("Column {}", at + 1),
    }
}

/// What stands in a column.
#[must_use]
pub fn sample(cells: &[&str]) -> String {
    cells
        .iter()
        .map(|cell| cut(cell))
        .collect::<Vec<_>>()
        .join(", ")
}

/// The main key.
#[must_use]
pub fn take(lots: usize) -> String {
    format!("Take in {}", many(lots, "lot", "lots"))
}

/// That they are in the book.
#[must_use]
pub fn taken(lots: usize) -> String {
    format!("{} from the list", many(lots, "lot", "lots"))
}

/// What the list comes to, a sentence each.
#[must_use]
pub fn comes_to(comes: &Comes) -> Vec<String> {
    if comes.lots.is_empty() {
        return vec!["No lot can be read with these columns.".to_owned()];
    }
    let mut said = vec![format!(
        "{} with {} plants.",
        many(comes.lots.len(), "lot", "lots"),
        comes.plants
    )];
    match comes.new_places.as_slice() {
        [] => {}
        places => {
            let named: Vec<String> = places.iter().take(6).map(|name| cut(name)).collect();
            let more = places.len().saturating_sub(named.len());
            let more = if more > 0 {
                format!(" and {more} more")
            } else {
                String::new()
            };
            said.push(format!(
                "{} will be made, last on the walk: {}{more}.",
                many(places.len(), "new place", "new places"),
                named.join(", ")
            ));
        }
    }
    if comes.counted_one > 0 {
        said.push(format!(
            "{} no count: one plant each.",
            many(comes.counted_one, "row has", "rows have")
        ));
    }
    if comes.left_over > 0 {
        said.push(format!(
            "{} are the most at once: choose the file again afterwards, and the other {} follow.",
            comes.lots.len(),
            comes.left_over
        ));
    }
    said
}

/// A lot as it would stand in the book.
#[must_use]
pub fn lot(lot: &Listed, today: NaiveDate) -> String {
    let mut said = vec![
        trade::name_plain(&lot.name),
        trade::plants_in_pots(i64::from(lot.plants), i64::from(lot.stands)),
    ];
    said.extend(lot.place.as_deref().map(cut));
    said.extend(lot.class.map(|class| trade::class(class).to_owned()));
    said.extend(
        lot.potted_on
            .map(|on| format!("potted {}", short_day(on, today))),
    );
    if !lot.number.is_empty() {
        said.push(format!("old number {}", cut(&lot.number)));
    }
    said.join(" · ")
}

/// How many more there are than are shown.
#[must_use]
pub fn and_more(more: usize) -> String {
    format!("And {more} more.")
}

/// How many rows were refused.
#[must_use]
pub fn refused_count(count: usize) -> String {
    format!("{} not taken, and why", many(count, "row is", "rows are"))
}

/// A refused row.
#[must_use]
pub fn refused(line: usize, why: &RowFault) -> String {
    let why = match why {
        RowFault::SaysNothing => "it has no name, no number and no count.".to_owned(),
        RowFault::NotACount { text } => format!("\"{}\" is no count.", cut(text)),
        RowFault::None => "none are left.".to_owned(),
        RowFault::TooMany { most } => format!("{most} is the most for one lot."),
        RowFault::NotADay { text } => format!(
            "\"{}\" is no day. A month or a year alone will do.",
            cut(text)
        ),
        RowFault::DayOutOfRange { on } => {
            format!("{} cannot be when it was last potted.", full_day(*on))
        }
        RowFault::Text { holds, fault } => {
            let input = if *holds == Holds::Note {
                Input::Note
            } else {
                Input::Text
            };
            let fault = *fault;
            rejection::say(&Rejection::BadText { input, fault })
        }
        RowFault::Name(fault) => rejection::say(&Rejection::BadName(*fault)),
        RowFault::InTheBook => "this name, place and count are in the book already.".to_owned(),
    };
    format!("Line {line}: {why}")
}

/// A cell short enough for a sentence.
fn cut(text: &str) -> String {
    text.chars()
        .take(40)
        .map(|sign| if sign == '\n' { ' ' } else { sign })
        .collect()
}
