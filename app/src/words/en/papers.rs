//! Passports, the convention on trade in endangered species, and lists as tables.

use velamen_core::lists::List;
use velamen_core::papers::{Appendix, Listing, PassportFault, PassportForm, SourceCode};

pub const PASSPORT: &str = "Plant passport";
pub const OPERATOR: &str = "Operator's registration number";
pub const OPERATOR_HINT: &str = "As your plant health service gave it to you, such as NL-123456. Without one no passport is printed.";
pub const KEEP_OPERATOR: &str = "Keep the number";
pub const OPERATOR_KEPT: &str = "The number is kept.";
pub const ORIGIN: &str = "Where the plants were grown";
pub const ORIGIN_HINT: &str =
    "Two letters of the state, or the country's name; empty where it is your own";
pub const PASSPORT_CAUTION: &str = "Only an operator whom the plant health service has authorised may issue a passport, for plants that were examined. Which plants need one, and what else it must say, is for the service and the law of your country; they come before this program.";

#[must_use]
pub fn form(form: PassportForm) -> &'static str {
    match form {
        PassportForm::None => "None",
        PassportForm::Eu => "European Union",
        PassportForm::Uk => "United Kingdom",
    }
}

/// The words in the upper right corner, fixed by the law.
#[must_use]
pub fn heading(form: PassportForm) -> &'static str {
    match form {
        PassportForm::Uk => "UK Plant Passport",
        PassportForm::Eu | PassportForm::None => "Plant Passport",
    }
}

#[must_use]
pub fn passport_fault(fault: PassportFault) -> &'static str {
    match fault {
        PassportFault::NoOperator => "A passport needs your operator's number first.",
        PassportFault::OperatorForm => {
            "The union's passport wants the number with the state before it: two letters, a hyphen, the number."
        }
        PassportFault::NoName => {
            "A passport needs a botanical name, and one of these lots has none."
        }
        PassportFault::NoCode => "A passport needs the lot's code, and one of these lots has none.",
        PassportFault::NoOrigin => "Say where the plants were grown.",
        PassportFault::OriginTooLong => "Where the plants were grown: no more than 60 letters.",
    }
}

/// What goes with one lot.
pub mod lot {
    use super::{Appendix, Listing, SourceCode};

    pub const TITLE: &str = "Papers";
    pub const LINK: &str = "Papers that go with it";
    pub const PRINT: &str = "Print";
    pub const NAME: &str = "Name";
    pub const CODE: &str = "Lot";
    pub const PLANTS: &str = "Plants";
    pub const APPENDIX: &str = "CITES appendix";
    pub const SOURCE: &str = "Source code";
    pub const WHICH: &str = "Source code, as you know it";
    pub const NOT_SAID: &str = "not said";
    pub const COMES_FROM: &str = "Comes from";
    pub const NURSERY: &str = "Nursery";
    pub const DAY: &str = "Printed";
    pub const NO_GENUS: &str = "not known without a genus";
    pub const NO_PERMIT: &str = "This paper is no permit and no certificate. What a consignment needs before it crosses a border, the CITES authority and the plant health service of both countries say.";
    pub const LOOK_UP: &str = "Lists change: look the name up in the current appendices.";
    pub const HYBRID: &str = "A hybrid stands as the strictest of its parents does.";
    pub const IF_ANCESTOR: &str =
        "If a species of Appendix I is among its ancestors, it stands in Appendix I.";
    pub const FIRST_HYBRID: &str =
        "For a hybrid of Appendix I the authority says whether it is A or D.";
    pub const FROM_BOOK: &str = "The book knows that these were raised here.";
    pub const GONE: &str = "This lot is not in the book.";

    #[must_use]
    pub fn appendix(listing: &Listing) -> &'static str {
        match listing.appendix {
            Appendix::First => "I",
            Appendix::Second => "II",
        }
    }

    #[must_use]
    pub fn source_code(code: SourceCode) -> &'static str {
        match code {
            SourceCode::A => "A, artificially propagated",
            SourceCode::D => "D, Appendix I, propagated for trade",
            SourceCode::W => "W, taken from the wild",
        }
    }

    #[must_use]
    pub fn read_in(source: &str) -> String {
        format!("Listed after: {source}.")
    }

    #[must_use]
    pub fn received(how: &str, number: &str) -> String {
        if number.is_empty() {
            how.to_owned()
        } else {
            format!("{how} Their number: {number}.")
        }
    }

    #[must_use]
    pub fn divided(on: &str, parents: &str) -> String {
        if parents.is_empty() {
            format!("divided here {on}")
        } else {
            format!("divided here {on} from {parents}")
        }
    }

    #[must_use]
    pub fn split(on: &str, from: &str) -> String {
        format!("part of {from}, taken off {on}")
    }
}

/// The tables.
pub mod lists {
    use super::List;
    use crate::words::format::counted;
    use chrono::NaiveDate;

    pub const TITLE: &str = "Lists";
    pub const WHICH: &str = "Which list";
    pub const TABLE: &str = "Save as a table";
    pub const PRINT: &str = "Print";
    pub const EMPTY: &str = "Nothing in it yet.";
    pub const TYPE: &str = "text/csv";
    pub const HINT: &str = "The table on paper and in the file hold the same lines.";

    #[must_use]
    pub fn name(list: List) -> &'static str {
        match list {
            List::Stock => "Stock",
            List::Yields => "Divisions",
            List::Losses => "Losses",
        }
    }

    #[must_use]
    pub fn lines(count: usize) -> String {
        counted(i64::try_from(count).unwrap_or(0), "line", "lines")
    }

    #[must_use]
    pub fn shown_of(shown: usize, all: usize) -> String {
        format!("{shown} of {all} lines; the file holds all.")
    }

    #[must_use]
    pub fn file_name(list: List, on: NaiveDate) -> String {
        format!("velamen-{}-{on}.csv", list.key())
    }

    #[must_use]
    pub fn written(lines: usize) -> String {
        format!("{} written.", self::lines(lines))
    }

    /// A column as a heading: its name with the underscores read as spaces.
    #[must_use]
    pub fn column(name: &str) -> String {
        name.replace('_', " ")
    }
}
