//! Kept apart: quarantine, tests for viruses, and who is at risk.

use chrono::NaiveDate;
use velamen_core::event::{QuarantineWhy, TestMethod, TestResult, Tissue, Virus, VirusTested};
use velamen_core::quarantine::{Progress, Suspicion};
use velamen_core::trace::{Followed, Rank, Why};

use super::format::{counted, full_day, near_day};
use super::{task, trade};

pub const QUARANTINE: &str = "Quarantine";
pub const IN_QUARANTINE: &str = "In quarantine";
pub const SUSPECT: &str = "Suspect: virus";
pub const APART: &str = "Put in quarantine";
pub const ARRIVAL: &str =
    "It came from somebody else. Keep it apart until it has shown what it brought.";
pub const RELEASE: &str = "Out of quarantine";
pub const RELEASE_EARLY: &str = "Out early";
pub const EARLY_HINT: &str =
    "Not everything holds yet. It may come out all the same, if you write down why.";
pub const EARLY_WHY: &str = "Why it comes out early";
pub const STAYS: &str = "While it is in: not sold, not moved, not divided or potted with others.";
pub const NO_CURE: &str = "A virus was found in it. Days do not heal that.";
pub const PRACTICE: &str =
    "Days and looks are common practice, no source. Local rules for bought plants come first.";
pub const CLEAN: &str = "Looked at: clean";
pub const SOMETHING: &str = "Something is there";
pub const HOW_LOOKS: &str = "How does it look?";
pub const TEST: &str = "Write down a test";
pub const TESTS: &str = "Tests for viruses";
pub const NO_TESTS: &str = "None yet.";
pub const TRACE: &str = "Who else is at risk?";
pub const TEST_TITLE: &str = "A test for viruses";
pub const HOW: &str = "How";
pub const SAMPLED: &str = "Sample from";
pub const POOLED: &str = "Plants in this sample";
pub const POOLED_HINT: &str = "several together: found means one of them at least";
pub const LABORATORY: &str = "Laboratory";
pub const OPTIONAL: &str = "May stay empty.";
pub const NOTE: &str = "Note";
pub const RECORD: &str = "Record the test";
pub const NOT_TESTED: &str = "Not tested";
pub const NOT_PROOF: &str = "Nothing found is no proof of health: after an exposure test on day 30 or later, and again on day 240 or later.";
pub const DAYS: &str = "Days, at least";
pub const LOOKS: &str = "Clean looks in a row";
pub const SERIES: &str = "Treatments";
pub const WITH_TESTS: &str = "Two tests, after 30 and 240 days";
pub const WHERE: &str = "Where it is put";
pub const STAYS_HERE: &str = "It stays where it is";
pub const AT_RISK: &str = "At risk";
pub const NOBODY: &str = "The book knows of nobody it met.";
pub const NOBODY_HINT: &str = "It follows blades, baths, parents and children, and neighbours.";
pub const ORDER: &str =
    "The most at risk first. The order is no probability: it comes from how they met.";
pub const GONE: &str = "No longer here";
pub const TEST_THEM: &str = "Test it";
pub const LOOK_AT: &str = "Look it over";
pub const CLEAR: &str = "Clear it";
pub const CLEAR_WHY: &str = "Why it is not at risk";
pub const MARK_ALL: &str = "Test all that are near";
pub const FOLLOWED: &str = "Written down.";

#[must_use]
pub fn virus(virus: Virus) -> &'static str {
    match virus {
        Virus::Cymmv => "Cymbidium mosaic",
        Virus::Orsv => "Odontoglossum ringspot",
        Virus::Other => "another virus",
    }
}

#[must_use]
pub fn method(method: TestMethod) -> &'static str {
    match method {
        TestMethod::Strip => "Test strip",
        TestMethod::Elisa => "ELISA",
        TestMethod::Pcr => "PCR",
        TestMethod::Other => "Other",
    }
}

#[must_use]
pub fn tissue(tissue: Tissue) -> &'static str {
    match tissue {
        Tissue::Leaf => "Leaf",
        Tissue::Root => "Root",
        Tissue::Flower => "Flower",
        Tissue::Other => "Other",
    }
}

#[must_use]
pub fn result(result: TestResult) -> &'static str {
    match result {
        TestResult::NotDetected => "Not detected",
        TestResult::Detected => "Detected",
        TestResult::Unclear => "Unclear",
    }
}

/// "Cymbidium mosaic: tested, not detected on 3 March 2027 (test strip, leaf, 3 plants together)".
#[must_use]
pub fn tested(it: &VirusTested, on: NaiveDate) -> String {
    let what = match it.result {
        TestResult::NotDetected => "tested, not detected",
        TestResult::Detected => "tested, DETECTED",
        TestResult::Unclear => "tested, unclear",
    };
    let pooled = match it.pooled {
        0 | 1 => String::new(),
        more => format!(", {more} plants together"),
    };
    format!(
        "{}: {what} on {} ({}, {}{pooled})",
        virus(it.virus),
        full_day(on),
        method(it.method).to_lowercase(),
        tissue(it.tissue).to_lowercase()
    )
}

/// Why it is kept apart.
#[must_use]
pub fn why(why: QuarantineWhy, sign: Option<&str>) -> String {
    match (why, sign) {
        (QuarantineWhy::Finding, Some(sign)) => trade::sign(sign),
        (QuarantineWhy::Finding, None) => "Something seen".to_owned(),
        (QuarantineWhy::Arrival, _) => "Came from elsewhere".to_owned(),
        (QuarantineWhy::Virus, _) => "A virus was found".to_owned(),
        (QuarantineWhy::Exposed, _) => "Met a suspect lot".to_owned(),
        (QuarantineWhy::Caution, _) => "Set apart with care".to_owned(),
    }
}

#[must_use]
pub fn since(on: NaiveDate, today: NaiveDate) -> String {
    format!("since {}", near_day(on, today))
}

#[must_use]
pub fn came_with(code: &str) -> String {
    format!("It came with {code}.")
}

/// Each thing that is waited for, whether it holds, and how far it is.
#[must_use]
pub fn waits(it: &Progress, today: NaiveDate) -> Vec<(bool, String)> {
    let of = |done: u32, wanted: u32, what: &str| {
        (wanted > 0).then(|| {
            (
                done >= wanted,
                format!("{} of {wanted} {what}", done.min(wanted)),
            )
        })
    };
    let days = if it.days_left > 0 {
        let left = counted(it.days_left, "day", "days");
        format!("{left} more, until {}", full_day(it.until_on))
    } else {
        format!("The days are over, since {}", full_day(it.until_on))
    };
    let next = it
        .next_test_on
        .map(|on| format!("clean tests; the next counts from {}", near_day(on, today)));
    let tests = next.unwrap_or_else(|| "clean tests".to_owned());
    let all = [
        Some((it.days_left <= 0, days)),
        of(it.clean, it.clean_wanted, "clean looks in a row"),
        of(it.treated, it.treated_wanted, "treatments"),
        of(it.tests, it.tests_wanted, &tests),
    ];
    all.into_iter().flatten().collect()
}

#[must_use]
pub fn holds(holds: bool) -> &'static str {
    if holds { "holds" } else { "not yet" }
}

#[must_use]
pub fn suspicion(it: &Suspicion, of: Option<&str>) -> String {
    let whose = of.map_or_else(String::new, |code| {
        format!(" in {code}, which it comes from")
    });
    match it {
        Suspicion::Detected {
            virus: found, on, ..
        } => {
            format!(
                "{} was detected{whose} on {}.",
                virus(*found),
                full_day(*on)
            )
        }
        Suspicion::Sign { on, .. } => format!(
            "A sign of virus was seen{whose} on {}. Two tests that find nothing end the suspicion.",
            full_day(*on)
        ),
    }
}

#[must_use]
pub fn rank(rank: Rank) -> &'static str {
    match rank {
        Rank::Near => "Near",
        Rank::Likely => "Likely",
        Rank::Possible => "Possible",
    }
}

/// One step of a way.
#[must_use]
pub fn step(why: &Why) -> String {
    match why {
        Why::WasCut => "it was cut on the bench".to_owned(),
        Why::CameFrom => "it was potted from a clump".to_owned(),
        Why::PottedFrom => "potted from it".to_owned(),
        Why::Together => "on the bench in the same clump".to_owned(),
        Why::SameBlade { nth, changed } => {
            let nth = match nth {
                1 => "the next clump".to_owned(),
                more => format!("{more} clumps later"),
            };
            let changed = if *changed {
                ", tools changed in between"
            } else {
                ""
            };
            format!("{nth} on the same blade{changed}")
        }
        Why::Part => "a part of the same plants".to_owned(),
        Why::Whole => "the lot it is a part of".to_owned(),
        Why::IntoBath => "it lay in a bath".to_owned(),
        Why::SameBath => "in that bath, then or later".to_owned(),
        Why::Emptied => "its pots or stone went to the wash".to_owned(),
        Why::UsedAgain { stone, disinfected } => {
            let what = if *stone {
                "may be in that stone"
            } else {
                "may be in those pots"
            };
            let how = if *disinfected {
                "washed and disinfected"
            } else {
                "washed"
            };
            format!("{what}, {how} in between")
        }
        Why::Neighbour { .. } => "stands in the same place".to_owned(),
    }
}

#[must_use]
pub fn followed(it: &Followed, today: NaiveDate) -> Option<String> {
    match it {
        Followed::Open => None,
        Followed::ToDo { kind, on } => {
            Some(format!("{}: {}", task::kind(*kind), near_day(*on, today)))
        }
        Followed::Done => Some("Looked into.".to_owned()),
        Followed::Cleared => Some("Cleared.".to_owned()),
    }
}

#[must_use]
pub fn gone(lots: usize) -> String {
    let lots = i64::try_from(lots).unwrap_or(i64::MAX);
    format!(
        "{} it met are no longer here.",
        counted(lots, "lot", "lots")
    )
}

#[must_use]
pub fn at_risk(lots: usize) -> String {
    counted(i64::try_from(lots).unwrap_or(i64::MAX), "lot", "lots")
}
