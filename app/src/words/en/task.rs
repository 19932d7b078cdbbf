//! What work is called.

use velamen_core::task::weather::WeatherMove;
use velamen_core::task::{TaskKind, Trigger};

use super::format::{celsius, counted};

pub(crate) use crate::words::parts::{done, then};

pub const MIX_SPENT: &str = "outside its season: the mix would be past its life before it opens";

/// What the weather did to a day: "3 days later: cold, 12.4 °C over 6 of 7 days".
#[must_use]
pub fn moved(moved: &WeatherMove) -> String {
    let days = counted(i64::from(moved.days.abs()), "day", "days");
    let (how, why) = if moved.days > 0 {
        ("later", "cold")
    } else {
        ("earlier", "warm")
    };
    let mean = moved.mean;
    format!(
        "{days} {how}: {why}, {} over {} of {} days",
        celsius(mean.mc),
        mean.read,
        mean.of
    )
}

/// Work as a verb, for a row.
#[must_use]
pub fn kind(kind: TaskKind) -> &'static str {
    match kind {
        TaskKind::KeepShaded => "Keep shaded",
        TaskKind::FirstWater => "First water",
        TaskKind::RotCheck => "Look for rot",
        TaskKind::NormalLight => "Back to normal light",
        TaskKind::FirstFeed => "First weak feed",
        TaskKind::RootCheck => "Tug: have they rooted?",
        TaskKind::Restake => "Stake again",
        TaskKind::Repot => "Repot",
        TaskKind::PotOn => "Pot on",
        TaskKind::ShootCheck => "Look for shoots",
        TaskKind::PotShoots => "Pot what has shot and rooted",
        TaskKind::WriteOff => "Throw out what never shot",
        TaskKind::MossCheck => "Is the moss moist?",
        TaskKind::ResultLook => "Did the treatment work?",
        TaskKind::RepeatTreatment => "Treat again, with another kind of product",
        TaskKind::ToTheBench => "To the bench",
        TaskKind::LookAgain => "Look again",
        TaskKind::LookOver => "Look it over",
        TaskKind::QuarantineLook => "Look it over in quarantine",
        TaskKind::VirusTest => "Test for viruses",
        TaskKind::ReleaseReview => "Out of quarantine",
        TaskKind::Own => "Task",
    }
}

/// What set the work going, before a day: "divided 7 days ago".
#[must_use]
pub fn since(trigger: Trigger, when: &str) -> String {
    let what = match trigger {
        Trigger::Divided => "divided",
        Trigger::Repotted => "potted on",
        Trigger::Treated => "treated",
        Trigger::Received => "came",
        Trigger::Standing => "potted",
        Trigger::WantsBench => "seen",
        Trigger::Found => "found",
    };
    format!("{what} {when}")
}

/// The same of a place that is open to rain, where not watering is not enough.
#[must_use]
pub fn held_in_rain(kind: TaskKind, until: &str) -> Option<String> {
    (kind == TaskKind::FirstWater).then(|| super::water::held(until, true))
}

/// What must not be done yet: "No water before Saturday".
#[must_use]
pub fn held(kind: TaskKind, until: &str) -> String {
    match kind {
        TaskKind::FirstWater => format!("No water before {until}"),
        other => format!("{}: not before {until}", self::kind(other)),
    }
}
