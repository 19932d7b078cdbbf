//! Words for a bath as it is used: its age, its level, and why it is thrown out. Common practice, no source.

use velamen_core::bath::{Age, BathFault, StrengthLeft, ThrowOut, TubFault};
use velamen_core::event::{BathEnded, BathTopped, Held};
use velamen_core::quantity::{Amount, Volume};

use super::bath;
use super::format::{counted, in_litres, litres_exact};
use super::measure;

pub const LEVEL_AND_DIRT: &str = "Its level and its dirt";
pub const STANDS_NOW: &str = "The water stands at";
pub const READ: &str = "That is the level";
pub const DIRTY: &str = "It is dirty: soil, roots, scum";
pub const HIGHER: &str = "That is more than was in it before. Read it again.";
pub const HEALTHY_AFTER: &str = "Healthy pieces with or after spotted ones: what those had is in the water. Mix fresh for them.";

pub const OVER: &str = "That bath was emptied already, perhaps on another phone.";
pub const ENDED: &str = "A bath was emptied.";
pub const TOP_UP_HINT: &str =
    "At the strength it was mixed with: product into the water, then into the tub.";
pub const TOPPED: &str = "topped up";
pub const ELSEWHERE: &str = "Baths that stand on another phone";
pub const REST: &str = "Where the rest goes";
pub const REST_HINT: &str = "In your own words; it goes into the record.";
pub const REST_RULES: &str = "What dripped under the rack is spent bath too: it goes the same way.";
pub const ON_PLANTS: &str = "On plants of the label";
pub const COLLECTED: &str = "Collected, to be handed in";
pub const POTS_ALLOWED: &str = "Allows emptied pots in the bath of the plants";
pub const POTS_TOO: &str = "Emptied pots that go in with them";
pub const POTS_TOO_HINT: &str = "Its label allows it. They come out soaked in fungicide and are not clean: they still go to the wash. Tools never go in.";

/// The label of the box for so much water.
#[must_use]
pub fn litres_now() -> &'static str {
    in_litres("Litres in it now", "Gallons in it now")
}

/// "Top up: 3 mL in 2 L".
#[must_use]
pub fn top_up(water: Volume, amount: Amount) -> String {
    format!(
        "Topped up: {} in {}",
        measure::amount(amount),
        litres_exact(water)
    )
}

/// "6 emptied pots lay in it with them: soaked in fungicide, not clean."
#[must_use]
pub fn pots(pots: u32) -> Option<String> {
    (pots > 0).then(|| {
        format!(
            "{} lay in it with them: soaked in fungicide, not clean.",
            counted(i64::from(pots), "emptied pot", "emptied pots")
        )
    })
}

/// What an entry says of a top-up.
#[must_use]
pub fn topped(it: &BathTopped) -> String {
    let water = litres_exact(Volume::from_ul(it.water_ul));
    match Held::of(it.amount_ul, it.amount_mg) {
        Some(held) => format!(
            "A bath was topped up with {water}: {} of product.",
            measure::amount(held.amount(held.figure()))
        ),
        None => format!("A bath was topped up with {water}."),
    }
}

/// What was left of a bath and where it went.
#[must_use]
pub fn ended_with(it: &BathEnded) -> Option<String> {
    let left = it.left_ul.map(Volume::from_ul).map(litres_exact);
    match (left, it.disposal.as_str()) {
        (None, "") => None,
        (Some(left), "") => Some(format!("{left} were left.")),
        (None, gone) => Some(format!("The rest: {gone}.")),
        (Some(left), gone) => Some(format!("{left} were left: {gone}.")),
    }
}

/// "10:40, 34 pieces so far".
#[must_use]
pub fn elsewhere(clock: &str, pieces: u32, topped: usize) -> String {
    let pieces = counted(i64::from(pieces), "piece", "pieces");
    let topped = match topped {
        0 => String::new(),
        times => format!(
            ", topped up {} ",
            counted(i64::try_from(times).unwrap_or(i64::MAX), "time", "times")
        ),
    };
    format!("First out {clock}, {pieces} so far{topped}")
}

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
