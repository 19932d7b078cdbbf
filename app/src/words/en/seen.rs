//! "Seen here".

use chrono::NaiveDate;
use velamen_core::stats::Share;
use velamen_core::task::generation::{By, GenerationDay};

use super::format::{celsius, counted, short_day};

pub const ON_WHICH_LOT: &str = "On which lot";
pub const OR_WHICH_PLACE: &str = "Or on a place as a whole";
pub const THE_PLANT: &str = "The plant";
pub const DISEASE_OR_PEST: &str = "Disease or pest";
pub const OWN_WORDS: &str = "In your own words";
pub const RECORD: &str = "Record this";
pub const MORE_SIGNS: &str = "More signs";
pub const HOW_MANY: &str = "How many, where, how bad";
pub const LOOKED_AT: &str = "Plants looked at";
pub const AFFECTED: &str = "Of them with it";
pub const WHICH_PART: &str = "Part of the plant";
pub const NOT_SAID: &str = "Not said";
pub const BAD: &str = "The worst of them";
pub const FIRST: &str = "First";
pub const NEXT: &str = "What next?";
pub const NEXT_HINT: &str = "Each is one tap. None is a must.";
pub const TREAT: &str = "Make up a bath";
pub const TREAT_PLACE: &str = "Spray or drench this place";
pub const BENCH: &str = "Bring to the bench";
pub const DONE: &str = "To the lot";
pub const TO_PLACE: &str = "To the place";
pub const ON_A_PLACE: &str = "For the place as a whole: how many of its plants you looked at, and how many have it. Then tap the sign.";
pub const WHICH_LOTS: &str = "Which lots have it?";
pub const BACK_TO_BENCH: &str = "Back to the clump";
pub const LABEL_FIRST: &str = "The label and local rules decide what may be used.";
pub const TAKEN: &str = "Noted for the Round.";
pub const OVER_TIME: &str = "Seen here over time";
pub const THRESHOLD: &str = "Act from, in a hundred plants";
pub const THRESHOLD_HINT: &str = "Your own line. Empty: none.";
pub const NOT_A_SHARE: &str = "Type a number from 0 to 100.";
pub const KEEP: &str = "Keep";
pub const LINE: &str = "your line";

/// "3 of 20 looked at."
#[must_use]
pub fn of_looked_at(affected: Option<u32>, looked_at: Option<u32>) -> Option<String> {
    Some(format!("{} of {} looked at.", affected?, looked_at?))
}

/// "15 in a hundred; between 5 and 36."
#[must_use]
pub fn share(share: &Share) -> String {
    format!(
        "{} in a hundred; between {} and {} is likely.",
        hundredth(share.permille),
        hundredth(share.low),
        hundredth(share.high)
    )
}

fn hundredth(permille: u16) -> u16 {
    (permille + 5) / 10
}

/// How bad, 1 to 5.
#[must_use]
pub fn how_bad(severity: u8) -> String {
    bad(severity).to_owned()
}

#[must_use]
pub fn bad(severity: u8) -> &'static str {
    match severity {
        1 => "A trace",
        2 => "Slight",
        3 => "Plain",
        4 => "Bad",
        _ => "Dying",
    }
}

#[must_use]
pub fn reached(permille: u16) -> String {
    format!(
        "At or above your line for this place, {} in a hundred.",
        hundredth(permille)
    )
}

#[must_use]
pub fn look_again(days: &[u16]) -> String {
    let days: Vec<String> = days.iter().map(u16::to_string).collect();
    match days.split_last() {
        Some((last, [])) => format!("Look again in {last} days"),
        Some((last, before)) => format!("Look again after {} and {last} days", before.join(", ")),
        None => String::new(),
    }
}

/// When a pest's generations are looked for, and what the days rest on.
#[must_use]
pub fn by_generation(looks: &[GenerationDay], today: NaiveDate) -> String {
    let days: Vec<String> = looks.iter().map(|look| short_day(look.on, today)).collect();
    match days.split_last() {
        Some((last, [])) => format!("Look again about {last}"),
        Some((last, before)) => format!("Look again about {} and {last}", before.join(", ")),
        None => String::new(),
    }
}

/// What the day of a look rests on.
#[must_use]
pub fn rests_on(by: &By) -> String {
    match by {
        By::Warmth {
            so_far,
            wanted_mk,
            lower_mc,
            at_last,
        } => {
            let whole = |mk: i64| mk.div_euclid(1_000);
            let read = format!("{} of {} days read", so_far.read, so_far.of);
            let late = if *at_last {
                "; too cold for it, so the latest day"
            } else {
                ""
            };
            format!(
                "by warmth: {} of {} degree-days over {}, {read}{late}",
                whole(so_far.sum),
                whole(*wanted_mk),
                celsius(*lower_mc)
            )
        }
        By::NoFigure => "by days: how much warmth it needs is not known".to_owned(),
        By::FewRead { read: 0, .. } => "by days: the house was not read".to_owned(),
        By::FewRead { read, of } => format!("by days: only {read} of {of} days were read"),
    }
}

pub const GENERATION_HOW: &str = "Days not read count as the mean of the last seven read. A look comes after three times its days at the latest.";

#[must_use]
pub fn look_for(sign: &str) -> String {
    format!("Look again: {}", sign.to_lowercase())
}

#[must_use]
pub fn bench_for(sign: &str) -> String {
    format!("To the bench: {}", sign.to_lowercase())
}

#[must_use]
pub fn apart(days: u16, tests: bool) -> String {
    if tests {
        "Quarantine until two tests".to_owned()
    } else {
        format!("Quarantine, {days} days")
    }
}

#[must_use]
pub fn series(treatments: u8) -> String {
    format!("It takes {treatments} treatments: one does not reach every generation.")
}

#[must_use]
pub fn source(source: &str) -> String {
    format!("From: {source}.")
}

/// A line in words, for who cannot see it.
#[must_use]
pub fn line(sign: &str, points: &[(String, u16)]) -> String {
    let said: Vec<String> = points
        .iter()
        .map(|(on, permille)| format!("{on} {} in a hundred", hundredth(*permille)))
        .collect();
    format!("{sign}: {}.", said.join(", "))
}

#[must_use]
pub fn uncounted(times: u32) -> String {
    format!(
        "{} without a count.",
        counted(i64::from(times), "time", "times")
    )
}
