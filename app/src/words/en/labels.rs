//! Labels, the sheets they are printed on, and finding a lot by what stands on one.

use chrono::NaiveDate;
use velamen_core::code::CodeFault;
use velamen_core::label_sheet::{Caution, SheetFault, SheetField};
use velamen_core::time::{civil_day, minute_of_day};

use super::format::{clock, counted, full_day, millimetres};

pub const TITLE: &str = "Labels";
pub const WHICH: &str = "Which lots";
pub const SEARCH: &str = "Add a lot";
pub const NOT_PRINTED: &str = "All without a printed label";
pub const ALL: &str = "All of the stock";
pub const NO_LOTS: &str = "Take all out";
pub const FROM_DIVISION: &str = "From a division";
pub const PLACES: &str = "For a place";
pub const TRAYS: &str = "For a tray on the bench";
pub const HOW_MANY: &str = "How many of each";
pub const SHEET: &str = "Sheet";
pub const MEASURES: &str = "Measures of the sheet";
pub const MEASURES_HINT: &str =
    "As printed on its packet, or with a ruler. Print at 100 %, without fitting to the page.";
pub const ON_IT: &str = "On the label";
pub const DAY: &str = "Day";
pub const POT: &str = "Pot";
pub const CAUTION: &str = "Caution after a treatment";
pub const CAUTION_HINT: &str = "While the label's time lasts";
pub const YES: &str = "on";
pub const NO: &str = "off";
pub const PREVIEW: &str = "The first one";
pub const NOTHING_YET: &str = "Choose a lot above: one label for each of its pots.";
pub const NO_CODE_HERE: &str =
    "This label is too small for a code that a phone can read. The code in letters is on it.";
pub const CODES_AWAY: &str = "The codes could not be drawn just now. Nothing was printed; try again once the program is kept on this phone.";
pub const TOO_MANY: &str = "No more than 2 000 labels at a time.";
pub const PRINTING: &str = "Getting labels ready";
pub const STOP: &str = "Stop";
pub const UNNAMED: &str = "Unnamed";
pub const PRINT_ONE: &str = "Print a label";
pub const PRINT_TAG: &str = "Print its tray tag";
pub const PRINT_THESE: &str = "Print these labels";

#[must_use]
pub fn print(labels: u32) -> String {
    format!("Print {}", counted(i64::from(labels), "label", "labels"))
}

#[must_use]
pub fn pages(labels: u32, pages: u32) -> String {
    format!(
        "{} on {}",
        counted(i64::from(labels), "label", "labels"),
        counted(i64::from(pages), "page", "pages")
    )
}

#[must_use]
pub fn done(done: u32, of: u32) -> String {
    format!("{done} of {of} labels")
}

#[must_use]
pub fn handed(labels: u32) -> String {
    format!(
        "{} handed to the printer.",
        counted(i64::from(labels), "label", "labels")
    )
}

/// The tag on a tray.
#[must_use]
pub fn tray(tray: u32) -> String {
    format!("Tray {tray}")
}

/// A tray with what lies in it.
#[must_use]
pub fn tray_of(tray: u32, name: &str) -> String {
    format!("Tray {tray}, {name}")
}

/// What is on the list.
#[must_use]
pub fn things(count: usize) -> String {
    format!("{count} on the list")
}

#[must_use]
pub fn lots(count: usize) -> String {
    counted(i64::try_from(count).unwrap_or(0), "lot", "lots")
}

#[must_use]
pub fn division(tray: u32, on: &str, lots: usize) -> String {
    format!("Tray {tray}, done {on} · {}", self::lots(lots))
}

#[must_use]
pub fn printed_on(day: &str) -> String {
    format!("printed {day}")
}

/// Names that do not fit.
#[must_use]
pub fn too_long(codes: &[String]) -> String {
    let named = codes.iter().take(3).cloned().collect::<Vec<_>>().join(", ");
    let more = codes.len().saturating_sub(3);
    let more = if more > 0 {
        format!(" and {more} more")
    } else {
        String::new()
    };
    format!(
        "What belongs on the label of {named}{more} does not fit, and nothing is cut off. Take a larger label, or leave the day or the pot off."
    )
}

/// The day on a label.
#[must_use]
pub fn on_label(potted: bool, tray: bool, day: Option<NaiveDate>, pot: Option<&str>) -> String {
    let day = day.map(|day| {
        let word = match (potted, tray) {
            (true, _) => "potted",
            (false, true) => "on the bench since",
            (false, false) => "here since",
        };
        format!("{word} {}", full_day(day))
    });
    let pot = pot.filter(|pot| !pot.is_empty()).map(str::to_owned);
    day.into_iter().chain(pot).collect::<Vec<_>>().join(" · ")
}

/// What to heed, as the product's label and the record said.
#[must_use]
pub fn caution(it: &Caution) -> String {
    let day = civil_day(it.until_ms, it.off_min)
        .map(full_day)
        .unwrap_or_default();
    let time = clock(minute_of_day(it.until_ms, it.off_min));
    let gear = if it.gear.is_empty() {
        "hands off"
    } else {
        it.gear.as_str()
    };
    format!("treated {}: {gear} until {day}, {time}", full_day(it.on))
}

/// A sheet to begin from.
#[must_use]
pub fn preset(key: &str) -> &'static str {
    match key {
        "roll_50_25" => "Roll, 50 × 25 mm",
        "roll_57_32" => "Roll, 57 × 32 mm",
        "a4_70_37" => "A4, 24 of 70 × 37 mm",
        "a4_63_38" => "A4, 21 of 63.5 × 38.1 mm",
        "a4_48_25" => "A4, 40 of 48.5 × 25.4 mm",
        "a4_38_21" => "A4, 65 of 38.1 × 21.2 mm",
        _ => "Own",
    }
}

#[must_use]
pub fn field(field: SheetField) -> &'static str {
    match field {
        SheetField::LabelAcross => "Label, width",
        SheetField::LabelDown => "Label, height",
        SheetField::Columns => "Columns",
        SheetField::Rows => "Rows",
        SheetField::GapAcross => "Gap between columns",
        SheetField::GapDown => "Gap between rows",
        SheetField::Left => "Left margin",
        SheetField::Top => "Top margin",
        SheetField::PageAcross => "Page, width",
        SheetField::PageDown => "Page, height",
        SheetField::Start => "First free place",
    }
}

pub const START_HINT: &str = "On a used sheet: count from the upper left, row by row";

/// Which field a fault is about; `None` where several do not go together.
#[must_use]
pub fn fault_field(fault: SheetFault) -> Option<SheetField> {
    match fault {
        SheetFault::NotANumber(field) | SheetFault::OutOfBounds { field, .. } => Some(field),
        SheetFault::StartBeyond { .. } => Some(SheetField::Start),
        SheetFault::TooWide { .. } | SheetFault::TooHigh { .. } => None,
    }
}

#[must_use]
pub fn sheet_fault(fault: SheetFault) -> String {
    let mm = |um: u32| millimetres(i64::from(um));
    match fault {
        SheetFault::NotANumber(at) if at.is_count() => {
            format!("{}: a whole number is needed.", field(at))
        }
        SheetFault::NotANumber(at) => format!("{}: a number of millimetres is needed.", field(at)),
        SheetFault::OutOfBounds {
            field: at,
            least,
            most,
        } if at.is_count() => {
            format!("{}: between {least} and {most}.", field(at))
        }
        SheetFault::OutOfBounds {
            field: at,
            least,
            most,
        } => {
            format!("{}: between {} and {}.", field(at), mm(least), mm(most))
        }
        SheetFault::TooWide { needs, page } => format!(
            "The columns need {} and the page is {} wide.",
            mm(needs),
            mm(page)
        ),
        SheetFault::TooHigh { needs, page } => format!(
            "The rows need {} and the page is {} high.",
            mm(needs),
            mm(page)
        ),
        SheetFault::StartBeyond { places } => format!("This sheet has {places} places."),
    }
}

/// Finding a lot by its label.
pub mod find {
    use super::CodeFault;

    pub const TITLE: &str = "Find by code";
    pub const TYPE: &str = "Code on the label";
    pub const TYPE_HINT: &str = "Such as K3-118R; capitals and hyphen do not matter";
    pub const OPEN: &str = "Open";
    pub const CAMERA: &str = "Use the camera";
    pub const LOOKING: &str = "Hold the square on the label into the picture.";
    pub const VIDEO: &str = "What the camera sees";
    pub const LIGHT: &str = "Light";
    pub const REFUSED: &str = "The camera is not allowed here. That is fine: type the code below. To allow it, use this page's settings in the browser.";
    pub const MISSING: &str = "There is no camera to be had here. Type the code below.";
    pub const CANNOT_READ: &str =
        "This phone cannot read the square just now. Type the code beside it.";
    pub const NO_LABEL: &str = "That is not a label of this program.";
    pub const STRANGER: &str = "That label is a stranger's: this book knows nothing of it. It may be another nursery's, or of a phone whose file was not taken in yet.";
    pub const SEVERAL: &str = "Several lots carry this code. Which one is it?";
    pub const AGAIN: &str = "Look again";

    #[must_use]
    pub fn unknown(code: &str) -> String {
        format!("No lot of this book has the code {code}.")
    }

    /// Why a code was not taken. Never what it may have been: a lot that was guessed is worse than none.
    #[must_use]
    pub fn fault(fault: CodeFault) -> String {
        match fault {
            CodeFault::Empty => "Type the code that stands on the label.".to_owned(),
            CodeFault::TooShort => "That is too short for a code: a letter, a digit, a number and a letter.".to_owned(),
            CodeFault::TooLong => "That is too long for a code.".to_owned(),
            CodeFault::BadCharacter { found, .. } => {
                format!("\u{201c}{found}\u{201d} cannot stand there. Look at the label again.")
            }
            CodeFault::NoCounter => "The number in the code is nought. Look at the label again.".to_owned(),
            CodeFault::MissingCheck { .. } => "The letter at the end is missing.".to_owned(),
            CodeFault::BadCheck { .. } => {
                "The letter at the end does not go with the rest: something was misread or swapped. Look at the label again.".to_owned()
            }
        }
    }
}
