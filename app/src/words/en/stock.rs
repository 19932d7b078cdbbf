//! Stock: the list, a lot's page, adding a lot and changing one.

use chrono::NaiveDate;
use velamen_core::event::{GainWhy, PieceClass, Source, SplitWhy};
use velamen_core::lot_draft::{Change, ChangeFault, PottedWhen};
use velamen_core::task::TaskKind;
use velamen_core::task::windows::WindowsFrom;
use velamen_core::view::lot::ReservedRow;
use velamen_core::view::year::YearMark;

use super::format::{counted, days_ago, short_day};
use super::{rejection, task, trade};

pub const SEARCH: &str = "Find a lot";
pub const SEARCH_HINT: &str = "Any part of a name, place or code";
pub const CLEAR: &str = "Show all";
pub const ADD_LOT: &str = "Add a lot";
pub const NO_PLACE: &str = "Without a place";
pub const EMPTY: &str = "No plants in the book yet.";
pub const EMPTY_HINT: &str = "A lot is what shares one label: the same plant, potted alike, in one place. Begin with the first that stands on a bench.";
pub const NOTHING_FOUND: &str = "Nothing is called that.";
pub const NOTHING_FOUND_HINT: &str = "Try fewer letters, or the code on the label.";
pub const ON_THE_BENCH: &str = "on the bench";

pub const NEW_LOT: &str = "A new lot";
pub const NAME: &str = "Name of the plant";
pub const NAME_HINT: &str = "As on the old label, or leave it empty";
pub const LABEL: &str = "On the label";
pub const NAME_REST: &str = "Kept beside the name:";
pub const PLANTS: &str = "Plants";
pub const POTS: &str = "Pots or trays";
pub const POTS_HINT: &str = "as many as plants until you change it";
pub const FIVE: &str = "+5";
pub const TYPE_NUMBER: &str = "Type the number";
pub const NUMBER_DONE: &str = "That is the number";
pub const ERASE: &str = "Wipe one digit";
pub const POINT: &str = "Point";
pub const PLACE: &str = "Place";
pub const NEW_PLACE: &str = "A new place";
pub const NEW_PLACE_NAME: &str = "Name of the new place";
pub const NEW_PLACE_HINT: &str = "A house and a bench, as you call them";
pub const CLASS: &str = "What kind of plants";
pub const CLASS_OPEN: &str = "Not said";
pub const POTTED: &str = "Last potted";
pub const POTTED_ON: &str = "Day it was potted";
pub const SOURCE: &str = "Where from";
pub const FROM: &str = "From whom";
pub const RECORD: &str = "Add this lot";
pub const WRITE_LABEL: &str = "Write this on its label.";
pub const ANOTHER: &str = "Another one like it";
pub const OPEN_LOT: &str = "Open the lot";
pub const ADDED: &str = "In the book";

pub const LOT: &str = "Lot";
pub const UNKNOWN: &str = "This lot is not in the book.";
pub const UNKNOWN_HINT: &str =
    "It may have come from another phone whose file was not taken in yet.";
pub const WITHDRAWN: &str = "The entry that brought this lot in was withdrawn.";
pub const LOCKED: &str = "A newer version of the program wrote about this lot. Update this phone, then it can be changed here.";
pub const SEEN_HERE: &str = "Seen here";
pub const CHANGE: &str = "Change";
pub const CHANGE_WHAT: &str = "What changed?";
pub const TO_THE_BENCH: &str = "To the bench, to divide";
pub const THE_YEAR: &str = "Its year";
pub const REPOTTED: &str = "repotted";
pub const FLOWERS: &str = "In flower";
pub const OWN_SEASON: &str = "by your own seasons";
pub const USUAL_SEASON: &str = "as usual for its group";
pub const TODAY: &str = "today";
pub const COMES_FROM: &str = "Where it comes from";
pub const PARENTS: &str = "Divided from";
pub const SIBLINGS: &str = "From the same clump";
pub const SPLIT_FROM: &str = "Split off this lot";
pub const PARTS: &str = "Split off from it";
pub const CHILDREN: &str = "Divided from it";
pub const WORK: &str = "Work";
pub const NO_WORK: &str = "Nothing is due for it.";
pub const DONE_KEY: &str = "Done";
pub const OTHER_ANSWER: &str = "Put off, or not needed";
pub const HISTORY: &str = "What was done";
pub const UNDONE: &str = "withdrawn";
pub const NEWER: &str = "Written by a newer version";
pub const NO_LABEL: &str = "no label";
pub const CLASS_SAME: &str = "As before";
pub const PLANT_UNIT: &str = "plant";
pub const PLANTS_UNIT: &str = "plants";
pub const NOTHING_DUE: &str = "none";
pub const NEXT: &str = "work";
pub const KIND: &str = "kind";
pub const AT_POTTING: &str = "Damp the mix, so that nothing dusty is breathed. Gloves for moss: it scratches. (Common practice.)";

pub const WHY: &str = "Why";
pub const TO_WHOM: &str = "To whom";
pub const OPTIONAL: &str = "May stay empty";
pub const PRICE: &str = "Price of all together";
pub const NOTE: &str = "Note";
pub const POT: &str = "Pot";
pub const MIX: &str = "Mix";
pub const NOT_SAID: &str = "Not said";
pub const RESERVED: &str = "Kept for somebody";
pub const SELL_THESE: &str = "Sell these";
pub const RELEASE: &str = "Let them go";
pub const RELEASED: &str = "For anybody again.";
pub const UNTIL: &str = "Until";
pub const FOR_WHOM: &str = "For whom";
pub const FOR_WHOM_HINT: &str = "A name, an order, any word";
pub const SELL_ANYWAY: &str = "Sell them all the same";
pub const UNTIL_HINT: &str =
    "No day is needed. Nothing is let go by itself: after the day it says so here.";

/// "1 430", with a narrow space between thousands.
#[must_use]
pub fn grouped(number: i64) -> String {
    let digits = number.unsigned_abs().to_string();
    let mut out = String::new();
    for (at, digit) in digits.chars().enumerate() {
        if at > 0 && (digits.len() - at).is_multiple_of(3) {
            out.push('\u{202f}');
        }
        out.push(digit);
    }
    if number < 0 { format!("-{out}") } else { out }
}

/// "212 lots, 1 430 plants".
#[must_use]
pub fn summary(lots: usize, plants: i64) -> String {
    let lots = i64::try_from(lots).unwrap_or(i64::MAX);
    let word = |number: i64, one, many| {
        format!(
            "{} {}",
            grouped(number),
            if number == 1 { one } else { many }
        )
    };
    format!(
        "{}, {}",
        word(lots, "lot", "lots"),
        word(plants, "plant", "plants")
    )
}

/// "3 found" of what was typed.
#[must_use]
pub fn found(found: usize) -> String {
    format!(
        "{} found",
        grouped(i64::try_from(found).unwrap_or(i64::MAX))
    )
}

/// The key at the end of what is drawn of a list.
pub const MORE_ROWS: &str = "More lots";

/// Under a list that does not show all.
#[must_use]
pub fn more(hidden: usize) -> String {
    let hidden = i64::try_from(hidden).unwrap_or(i64::MAX);
    format!("{} more. Type part of a name to see them.", grouped(hidden))
}

#[must_use]
pub fn lots(count: usize) -> String {
    counted(i64::try_from(count).unwrap_or(i64::MAX), "lot", "lots")
}

#[must_use]
pub fn less_of(what: &str) -> String {
    format!("One less: {what}")
}

#[must_use]
pub fn more_of(what: &str) -> String {
    format!("One more: {what}")
}

#[must_use]
pub fn gets_code(code: &str) -> String {
    format!("It gets the code {code}.")
}

#[must_use]
pub fn added(code: &str) -> String {
    format!("{code} is in the book.")
}

#[must_use]
pub fn potted_when(when: PottedWhen) -> &'static str {
    match when {
        PottedWhen::NotKnown => "Not known",
        PottedWhen::ThisMonth => "This month",
        PottedWhen::LastYear => "Last year",
        PottedWhen::TwoYearsAgo => "Two years ago",
        PottedWhen::On => "On a day",
    }
}

#[must_use]
pub fn source(source: Source) -> &'static str {
    match source {
        Source::Here => "Was here before",
        Source::Bought => "Bought",
        Source::Exchanged => "Exchanged",
        Source::Seed => "Own seed",
        Source::Flask => "From a flask",
    }
}

/// How a lot came, as a sentence.
#[must_use]
pub fn came(source: Source, from: &str, on: &str) -> String {
    let what = match source {
        Source::Here => "Here before the book",
        Source::Bought => "Bought",
        Source::Exchanged => "Exchanged",
        Source::Seed => "From own seed",
        Source::Flask => "Out of a flask",
    };
    let from = if from.is_empty() {
        String::new()
    } else {
        format!(" from {from}")
    };
    format!("{what}{from}, entered {on}.")
}

/// "Black rot: seen yesterday, and not looked at since."
#[must_use]
pub fn not_looked_at_since(sign: &str, on: NaiveDate, today: NaiveDate) -> String {
    format!(
        "{sign}: seen {}, and not looked at since.",
        days_ago(on, today)
    )
}

/// How many of a lot are nobody's, beside those that are kept.
#[must_use]
pub fn free(plants: i64) -> String {
    match plants {
        0 => "none free".to_owned(),
        plants => format!("{} free", grouped(plants)),
    }
}

/// "4 for Ana, until 3 May".
#[must_use]
pub fn reserved(row: &ReservedRow, today: NaiveDate) -> String {
    let whom = if row.to.is_empty() {
        "kept".to_owned()
    } else {
        format!("for {}", row.to)
    };
    let until = match row.until_on {
        Some(on) if row.is_past => format!(", until {}: that day is over", short_day(on, today)),
        Some(on) => format!(", until {}", short_day(on, today)),
        None => String::new(),
    };
    format!("{} {whom}{until}", trade::plants(i64::from(row.plants)))
}

/// In the list: "4 kept for Ana".
#[must_use]
pub fn kept_for(plants: i64, names: &[String]) -> String {
    if names.is_empty() {
        format!("{} kept", grouped(plants))
    } else {
        format!("{} kept for {}", grouped(plants), names.join(", "))
    }
}

/// The head of a sale out of what was kept.
#[must_use]
pub fn out_of_kept(to: &str) -> String {
    if to.is_empty() {
        "Out of those that were kept.".to_owned()
    } else {
        format!("Out of those kept for {to}.")
    }
}

/// A kind of plants, short enough for a fact.
#[must_use]
pub fn class_short(class: PieceClass) -> &'static str {
    match class {
        PieceClass::Flowering => "To flower",
        PieceClass::Starter => "Starters",
        PieceClass::BackBulb => "Back-bulbs",
        PieceClass::BrokenShoot => "Shoots",
        PieceClass::Keiki => "Offshoots",
        PieceClass::Thrown => "Thrown",
    }
}

/// The pots of a lot beside its plants.
#[must_use]
pub fn in_pots(stands: i64) -> String {
    format!("in {}", trade::pots(stands))
}

/// The same, with plants that lie on the bench.
#[must_use]
pub fn benched(stands: i64, plants: u32) -> String {
    format!("in {}, {plants} {ON_THE_BENCH}", trade::pots(stands))
}

/// What must wait, over the day it waits for.
#[must_use]
pub fn not_before(kind: TaskKind) -> String {
    match kind {
        TaskKind::FirstWater => "no water before".to_owned(),
        other => format!("{}: not before", task::kind(other).to_lowercase()),
    }
}

/// A month's letter over the year.
#[must_use]
pub fn month_letter(month: u8) -> String {
    let at = usize::from(month.saturating_sub(1));
    "JFMAMJJASOND"
        .chars()
        .nth(at)
        .map(String::from)
        .unwrap_or_default()
}

#[must_use]
pub fn flowers(window: &str) -> String {
    format!("flowers {window}")
}

/// Several lots went into one clump.
#[must_use]
pub fn parents_unsure(parents: usize, unbooked_pots: u32) -> Option<String> {
    let known = match parents {
        0 | 1 => None,
        _ => Some("Which of these it came from is not known.".to_owned()),
    };
    let unbooked = (unbooked_pots > 0).then(|| {
        let pots = trade::pots(i64::from(unbooked_pots));
        format!("{pots} without a label went into the clump too.")
    });
    let said: Vec<String> = known.into_iter().chain(unbooked).collect();
    (!said.is_empty()).then(|| said.join(" "))
}

/// The drawing of a lineage in a sentence.
#[must_use]
pub fn lineage_sentence(parents: &[String], tray: &str, siblings: usize) -> String {
    let from = if parents.is_empty() {
        "plants without a label".to_owned()
    } else {
        parents.join(" or ")
    };
    let others = match siblings {
        0 => String::new(),
        count => format!(", together with {}", lots(count)),
    };
    format!("Divided from {from} under tray tag {tray}{others}.")
}

pub const THROWN: &str = "thrown away";

/// What a mark on the year says.
#[must_use]
pub fn mark(mark: YearMark, day: &str) -> String {
    match mark {
        YearMark::RepotWindow => "repot".to_owned(),
        YearMark::FloweringWindow => "in flower".to_owned(),
        YearMark::RestWindow => "rest".to_owned(),
        YearMark::RootWindow => "roots".to_owned(),
        YearMark::Potted => format!("potted {day}"),
        YearMark::Seen(sight) => format!("{} {day}", trade::sight(sight).to_lowercase()),
        YearMark::Work(kind) => format!("{} {day}", task::kind(kind).to_lowercase()),
    }
}

/// Who says when it flowers and is repotted.
#[must_use]
pub fn season_from(from: WindowsFrom, of: Option<&str>, today: NaiveDate) -> String {
    match from {
        WindowsFrom::Own => OWN_SEASON.to_owned(),
        WindowsFrom::Table => USUAL_SEASON.to_owned(),
        WindowsFrom::Seen { what, on, of: lot } => {
            let what = trade::sight(what).to_lowercase();
            let when = short_day(on, today);
            match lot.and(of) {
                Some(code) => format!("by {what} seen {when} on {code}, where it comes from"),
                None => format!("by {what} seen {when}"),
            }
        }
    }
}

/// The year in a sentence.
#[must_use]
pub fn year_sentence(repot: &[String], flowering: &[String]) -> String {
    let part = |what: &str, windows: &[String]| match windows {
        [] => format!("{what}: not known."),
        windows => format!("{what}: {}.", windows.join(", ")),
    };
    format!(
        "{} {}",
        part("Repotting", repot),
        part("Flowering", flowering)
    )
}

#[must_use]
pub fn change(change: Change) -> &'static str {
    match change {
        Change::Move => "Moved",
        Change::Count => "Counted",
        Change::Split => "Split off",
        Change::Lose => "Lost",
        Change::Sell => "Sold",
        Change::Gain => "More came",
        Change::PotOn => "Potted on",
        Change::Name => "Name",
        Change::Reserve => "Keep for somebody",
    }
}

/// The key that records a change.
#[must_use]
pub fn record(change: Change) -> &'static str {
    match change {
        Change::Move => "Record the move",
        Change::Count => "Record the count",
        Change::Split => "Split them off",
        Change::Lose => "Record the loss",
        Change::Sell => "Record the sale",
        Change::Gain => "Record what came",
        Change::PotOn => "Record the potting",
        Change::Name => "Keep this name",
        Change::Reserve => "Keep them",
    }
}

/// What is asked for in a change's count of plants.
#[must_use]
pub fn how_many(change: Change) -> &'static str {
    match change {
        Change::Sell => "Plants sold",
        Change::Lose => "Plants lost",
        Change::Split => "Plants split off",
        Change::Gain => "Plants more",
        Change::Reserve => "Plants kept",
        _ => PLANTS,
    }
}

#[must_use]
pub fn split_why(why: SplitWhy) -> &'static str {
    match why {
        SplitWhy::Moved => "Moved apart",
        SplitWhy::Quarantined => "Set apart to watch",
        SplitWhy::Ill => "Ill",
        SplitWhy::Sorted => "Sorted",
    }
}

#[must_use]
pub fn gain_why(why: GainWhy) -> &'static str {
    match why {
        GainWhy::Offshoot => "Offshoots",
        GainWhy::CameApart => "Came apart",
        GainWhy::Returned => "Came back",
        GainWhy::Found => "Found",
    }
}

/// What is missing from a change.
#[must_use]
pub fn fault(fault: &ChangeFault) -> String {
    match fault {
        ChangeFault::NoPlace => "Choose a place.".to_owned(),
        ChangeFault::NoCause => "Choose why.".to_owned(),
        ChangeFault::NotAPrice => {
            "Type the price as a number, with two digits after the mark at most.".to_owned()
        }
        ChangeFault::Pot(fault) => rejection::pot(fault),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use wasm_bindgen_test::wasm_bindgen_test;

    #[wasm_bindgen_test]
    fn thousands_stand_apart() {
        assert_eq!(grouped(7), "7");
        assert_eq!(grouped(1_430), "1\u{202f}430");
        assert_eq!(grouped(-12_000), "-12\u{202f}000");
        assert_eq!(summary(1, 2), "1 lot, 2 plants");
    }
}
