//! The record of treatments, in words.

use chrono::NaiveDate;
use velamen_core::record::{Field, Judged};

use super::format::{counted, full_day};

pub const TITLE: &str = "Treatment record";
pub const RULE: &str = "Kept after";
pub const NO_LAW: &str = "A help, not legal advice: rules differ by place and change. The label, local rules and licensed practice come first.";
pub const TABLE: &str = "Save as a table";
pub const JSON: &str = "Save as JSON";
pub const PRINT: &str = "Print it";
pub const EMPTY: &str = "No treatment is on record yet.";
pub const COMPLETE: &str = "complete";
pub const FILL_IN: &str = "Fill in";
pub const REPLACED: &str = "said first:";
pub const CHANGED: &str = "The record is kept after another list.";
pub const OPEN: &str = "The whole record: complete or not, as a table, on paper";
pub const PERSON: &str = "Who works with this phone";
pub const PERSON_HINT: &str = "Goes into every treatment written on it.";
pub const LICENCE: &str = "Number of the licence";
pub const REGISTRATION: &str = "Registration number of the product";
pub const BATCH: &str = "Batch";
pub const GEAR: &str = "Gear worn";
pub const WEATHER: &str = "Weather";
pub const DISPOSAL: &str = "Where the rest went";
pub const PLANT_CODE: &str = "EPPO code of the plant";
pub const PLANT_CODE_HINT: &str = "Where your rule asks for it and the plant has one.";
pub const GROWTH_STAGE: &str = "Growth stage (BBCH)";
pub const GROWTH_STAGE_HINT: &str = "Where the approval is for certain stages only.";
pub const WITHIN: &str = "Written down within";
pub const MONTHS: &str = "months";
pub const KEEP: &str = "Kept for";
pub const EDIT: &str = "Change this list";
pub const EDIT_HINT: &str = "What your state, label or buyer wants to see. Hours and months left empty are those of the list.";
pub const EDIT_NUMBERS: &str = "Keep these times";
pub const NOT_A_NUMBER: &str = "Type whole numbers, or leave it empty.";
pub const ACTIVES: &str = "Active ingredients";
pub const ACTIVES_HINT: &str = "Each with its content: triforine 190 g/L; captan 50 %";
pub const RATE: &str = "Rate";
pub const AMOUNT: &str = "Product used, undiluted";
pub const AMOUNT_HINT: &str = "With its unit: 25 mL, 12 g";
pub const WATER: &str = "Water";
pub const WATER_HINT: &str = "With its unit: 20 L";
pub const START: &str = "Start";
pub const END: &str = "End";
pub const TIME_HINT: &str = "As 14:10";
pub const REENTRY: &str = "Hours until re-entry";
pub const REENTRY_HINT: &str = "A whole number";
pub const PERSON_THEN: &str = "Who did it";
pub const CSV_TYPE: &str = "text/csv";
pub const JSON_TYPE: &str = "application/json";

/// Figures that cannot be read, by name.
#[must_use]
pub fn unreadable(fields: &[Field]) -> String {
    let names: Vec<&str> = fields.iter().map(|one| field(*one)).collect();
    format!(
        "Cannot be read as written: {}. Amounts want their unit, times are written 14:10.",
        names.join(", ")
    )
}

/// A list of rules by its key.
#[must_use]
pub fn profile(key: &str) -> &'static str {
    match key {
        "us_states" => "US: state rules",
        "us_workers" => "US: worker protection",
        "eu" => "EU: plant protection",
        "gb" => "Great Britain",
        "au_nsw" => "New South Wales",
        "au_vic" => "Victoria",
        "au_qld" => "Queensland",
        "au_wa" => "Western Australia",
        "au_nt" => "Northern Territory",
        "au_states" => "Australia: the strictest state",
        _ => "Good practice",
    }
}

/// A field by its plain name.
#[must_use]
pub fn field(field: Field) -> &'static str {
    match field {
        Field::Product => "product",
        Field::Registration => "registration number",
        Field::Actives => "active ingredients",
        Field::Amount => "amount of product",
        Field::Rate => "rate",
        Field::Water => "amount of water",
        Field::Quantity => "how many plants",
        Field::Crop => "names of the plants",
        Field::Place => "place",
        Field::Date => "date",
        Field::StartTime => "time it began",
        Field::EndTime => "time it ended",
        Field::Reentry => "re-entry time",
        Field::Person => "who did it",
        Field::Licence => "licence number",
        Field::UseType => "closed space or open",
        Field::Batch => "batch",
        Field::Target => "against what",
        Field::Method => "method",
        Field::Gear => "gear worn",
        Field::Weather => "weather",
        Field::WindOutdoors => "wind, for a spray outdoors",
        Field::Disposal => "where the rest went",
        Field::PlantCode => "EPPO code of the plant",
        Field::GrowthStage => "growth stage",
        Field::Coordinates => "latitude and longitude",
    }
}

/// How many are complete.
#[must_use]
pub fn figure(complete: usize, all: usize) -> String {
    format!("{complete} of {all} complete")
}

/// What a line lacks, or that it lacks nothing.
#[must_use]
pub fn judged(judged: &Judged) -> String {
    let mut said = Vec::new();
    if !judged.missing.is_empty() {
        let fields: Vec<&str> = judged.missing.iter().copied().map(field).collect();
        said.push(format!("missing: {}", fields.join(", ")));
    }
    if let Some(hours) = judged.late_h {
        said.push(format!(
            "written down {} after",
            counted(hours, "hour", "hours")
        ));
    }
    if said.is_empty() {
        said.push(COMPLETE.to_owned());
    }
    if !judged.where_asked.is_empty() {
        let fields: Vec<&str> = judged.where_asked.iter().copied().map(field).collect();
        said.push(format!("where it is asked for: {}", fields.join(", ")));
    }
    said.join("; ")
}

/// How long a line is kept.
#[must_use]
pub fn kept_until(on: NaiveDate) -> String {
    format!("kept until {}", full_day(on))
}

/// What the chosen list says of itself.
#[must_use]
pub fn asks(fields: &[Field], within_h: Option<u32>, keep_months: u16) -> String {
    let fields: Vec<&str> = fields.iter().copied().map(field).collect();
    let within = match within_h {
        Some(hours) if hours % 24 == 0 => {
            format!("within {}", counted(i64::from(hours / 24), "day", "days"))
        }
        Some(hours) => format!("within {}", counted(i64::from(hours), "hour", "hours")),
        None => "without delay".to_owned(),
    };
    format!(
        "Asks for: {}. Written down {within}, kept {}.",
        fields.join(", "),
        counted(i64::from(keep_months), "month", "months")
    )
}

/// Where the list is from.
#[must_use]
pub fn source(source: &str, as_of: &str) -> String {
    format!("From: {source}. Read {as_of}.")
}

/// Name of a file of the record.
#[must_use]
pub fn file_name(today: NaiveDate, ending: &str) -> String {
    format!("treatments-{today}.{ending}")
}

/// That a file was written.
#[must_use]
pub fn written(rows: usize) -> String {
    let rows = i64::try_from(rows).unwrap_or(i64::MAX);
    format!("A file with {}.", counted(rows, "line", "lines"))
}
