//! What is to come, in words.

use velamen_core::outlook::Span;
use velamen_core::reference::taxa::{self, Group};

use super::format::counted;

pub const TITLE: &str = "What is to come";
pub const IN_FLOWER: &str = "May stand in flower";
pub const SALEABLE: &str = "May be of a size to sell";
pub const SALEABLE_NOTE: &str = "if none is sold";
pub const WHICH: &str = "Which kinds, by month";
pub const IF_CUT: &str = "If what is planned is cut";
pub const IF_CUT_HOW: &str = "A clump that is cut gives its pots up that day, and its pieces grow ready later: fewer to sell at first, more in the end.";
pub const LIVING: &str = "How many live";
pub const LOSSES: &str = "What was lost";
pub const NONE: &str = "Nothing is in the book that could flower or be sold.";
pub const NONE_HINT: &str = "Lots with a name and a class are counted here.";
pub const NO_LOSSES: &str = "No loss is in the book.";
pub const NOTHING_LEARNED: &str =
    "Nothing was potted ninety days ago or more; until then the usual ranges count.";
pub const HOW: &str = "Plants live and grow ready as is usual for their class (common practice, no source), moved by what this book has seen. The line shows where four of five such years would fall. A forecast, not a promise: weather, feeding and buyers are not in it.";
pub const LIVING_NOTE: &str = "of pieces potted ninety days ago or more";

pub const BY_MIX: &str = "What they stand in";
pub const BY_TREATMENT: &str = "What they were treated with";
pub const APART_NOTE: &str = "of pieces potted ninety days ago or more";
pub const APART_WARN: &str =
    "Nobody drew lots for mixes or treatments: a difference here is a reason to look, not a proof.";
pub const NO_MIX: &str = "a mix that was not said";
pub const NO_TREATMENT: &str = "nothing";
pub const TO_FLOWER: &str = "From the pot to the first flower";
pub const TO_FLOWER_NOTE: &str = "as seen in this book";
pub const MINUTES: &str = "Minutes at the bench";
pub const MINUTES_NOTE: &str = "a clump, from what was tapped";
pub const CUTTING: &str = "Cutting and counting";
pub const POTTING: &str = "To the last pot, a bath within it";
pub const LABELLING: &str = "Labels and clearing up";

/// How long until the first flower: always with the number of lots.
#[must_use]
pub fn took_to_flower(days: [i64; 3], lots: u32) -> String {
    let months = days.map(|days| days.saturating_mul(12).saturating_add(182) / 365);
    let [least, middle, most] = months;
    let of = counted(i64::from(lots), "lot", "lots");
    if lots == 1 {
        format!("{}, one lot alone", counted(middle, "month", "months"))
    } else {
        format!(
            "{} in the middle, {least} to {most}; {of}",
            counted(middle, "month", "months")
        )
    }
}

/// Minutes of a step over so many clumps.
#[must_use]
pub fn step_took([least, middle, most]: [i64; 3], clumps: usize) -> String {
    let clumps = i64::try_from(clumps).unwrap_or(i64::MAX);
    format!(
        "{} in the middle, {least} to {most}; {}",
        counted(middle, "minute", "minutes"),
        counted(clumps, "clump", "clumps")
    )
}

/// A count with its range.
#[must_use]
pub fn span(span: Span) -> String {
    if span.low == span.high {
        span.middle.to_string()
    } else {
        format!("{} ({} to {})", span.middle, span.low, span.high)
    }
}

/// The bars in a sentence.
#[must_use]
pub fn sentence(what: &str, rows: &[(String, Span)]) -> String {
    let rows: Vec<String> = rows
        .iter()
        .map(|(month, count)| format!("{month} {}", span(*count)))
        .collect();
    format!("{what}: {}.", rows.join(", "))
}

/// Planned cuts, and what they are to give.
#[must_use]
pub fn cuts(cuts: u32, pieces: u32) -> String {
    format!(
        "{}, {}",
        counted(i64::from(cuts), "clump", "clumps"),
        counted(i64::from(pieces), "piece", "pieces")
    )
}

/// A count as it is and as it would be.
#[must_use]
pub fn changes(what: &str, now: Span, then: Span) -> String {
    format!("{what}: {} instead of {}", span(then), span(now))
}

/// A group of plants by its first genus.
#[must_use]
pub fn group(group: Group) -> &'static str {
    match group {
        Group::Other => "others",
        group => taxa::row(group)
            .genera
            .first()
            .copied()
            .unwrap_or(match group {
                Group::CymbidiumWarm => "warm-growing Cymbidium",
                Group::DendrobiumNobile => "nobile Dendrobium",
                Group::DendrobiumPhalaenopsis => "phalaenopsis Dendrobium",
                Group::DendrobiumSpeciosum => "speciosum Dendrobium",
                Group::OncidiumSummer => "summer Oncidium",
                Group::PaphiopedilumMottled => "mottled-leaf Paphiopedilum",
                _ => "others",
            }),
    }
}

/// Plants without flowering months.
#[must_use]
pub fn no_season(plants: u32) -> String {
    format!(
        "{} of kinds without known flowering months: not counted here.",
        counted(i64::from(plants), "plant", "plants")
    )
}

/// What was seen of a class: always with the number of cases.
#[must_use]
pub fn lived(alive: u32, of: u32) -> String {
    format!("{alive} of {of} lived")
}

/// What is believed, with its range and the table's.
#[must_use]
pub fn believed(middle: u32, low: u32, high: u32, table: (u8, u8)) -> String {
    format!(
        "believed now: {middle} of 100, between {low} and {high}; usual {} to {}",
        table.0, table.1
    )
}

/// One cause of loss.
#[must_use]
pub fn lost(plants: u64, times: u32) -> String {
    format!(
        "{}, {}",
        counted(i64::try_from(plants).unwrap_or(i64::MAX), "plant", "plants"),
        counted(i64::from(times), "time", "times")
    )
}
