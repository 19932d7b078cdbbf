//! Words for a bath as it is used: its age, its level, and why it is thrown out. Common practice, no source.

use velamen_core::bath::{Age, BathFault, StrengthLeft, ThrowOut, TubFault};
use velamen_core::quantity::Volume;

use super::bath;
use super::format::{counted, litres_exact};

pub const LEVEL_AND_DIRT: &str = "Its level and its dirt";
pub const LITRES_NOW: &str = "Litres in it now";
pub const STANDS_NOW: &str = "The water stands at";
pub const READ: &str = "That is the level";
pub const DIRTY: &str = "It is dirty: soil, roots, scum";
pub const HIGHER: &str = "That is more than was in it before. Read it again.";
pub const HEALTHY_AFTER: &str = "Healthy pieces with or after spotted ones: what those had is in the water. Mix fresh for them.";

/// Why it is thrown out now.
#[must_use]
pub const fn throw_out(why: ThrowOut) -> &'static str {
    match why {
        ThrowOut::DayOver => "Throw it out: it was mixed on an earlier day. Fresh each day.",
        ThrowOut::Dirty => "Throw it out: dirt takes the product up.",
        ThrowOut::SymptomsDipped => {
            "Throw it out: pieces with symptoms lay in it. Nothing healthy after them."
        }
        ThrowOut::VirusDipped => {
            "Throw it out now: a virus is suspected in what lay in it. Nothing more goes in."
        }
    }
}

/// "Mixed 3 hours ago; 34 pieces lay in it."
#[must_use]
pub fn age(age: Age, pieces: u32) -> String {
    let age = match age {
        Age::Minutes(0) => "Mixed just now".to_owned(),
        Age::Minutes(minutes @ 1..60) => {
            format!(
                "Mixed {} ago",
                counted(i64::from(minutes), "minute", "minutes")
            )
        }
        Age::Minutes(minutes) => {
            let hours = i64::from(minutes / 60);
            format!("Mixed {} ago", counted(hours, "hour", "hours"))
        }
        Age::ClockBehind => {
            "The phone's clock stands before it was mixed, so its age is not known".to_owned()
        }
        Age::Unknown => "When it was mixed is not known".to_owned(),
    };
    match pieces {
        0 => format!("{age}."),
        pieces => format!(
            "{age}; {} lay in it.",
            counted(i64::from(pieces), "piece", "pieces")
        ),
    }
}

/// "5 L fell, about 50 mL a piece. Strength left: about 100 %, or 94 % if the plants take product out faster than water."
#[must_use]
pub fn strength(left: StrengthLeft, fell: Option<Volume>, each: Option<Volume>) -> String {
    let fell = fell.map_or_else(String::new, |fell| {
        let each = each.map_or_else(String::new, |each| {
            format!(", about {} a piece", litres_exact(each))
        });
        format!("{} were carried out{each}. ", litres_exact(fell))
    });
    let per_cent = |permille: u32| (permille + 5) / 10;
    format!(
        "{fell}Strength left, reckoned and not measured: about {} %, or {} % if the plants take product out a fifth faster than water.",
        per_cent(left.alike_permille),
        per_cent(left.faster_permille)
    )
}

#[must_use]
pub fn level_fault(fault: &TubFault) -> String {
    match fault {
        TubFault::Missing(_) => "Type where the water stands now.".to_owned(),
        other => bath::fault(&BathFault::Tub(other.clone())),
    }
}
