//! A step of a protocol beside its days.

use velamen_core::event::Outcome;
use velamen_core::reference::taxa::Habit;
use velamen_core::season::Warmth;
use velamen_core::task::{SeasonRule, TaskKind};

use super::format::counted;

pub const MORE: &str = "Season, weather, which lots, time";
pub const SEASON: &str = "Season";
pub const RANK: &str = "When time is short";
pub const SECONDS: &str = "Seconds a plant";
pub const REPEATS: &str = "Again and again";
pub const EVERY: &str = "Every so many days";
pub const UNTIL: &str = "Until day";
pub const LATER_IN_COLD: &str = "Later in the cold";
pub const EARLIER_IN_HEAT: &str = "Earlier in the heat";
pub const COLD_BELOW: &str = "Mean below, °C";
pub const HOT_ABOVE: &str = "Mean above, °C";
pub const DAYS_LATER: &str = "Days later";
pub const DAYS_EARLIER: &str = "Days earlier";
pub const ONLY_HINT: &str = "For these lots alone; with none chosen, for all.";
pub const CLASSES: &str = "Pieces";
pub const HABITS: &str = "How they grow";
pub const WARMTHS: &str = "How warm they like it";
pub const ONLY_COLD: &str = "Only in the cold";
pub const ONLY_WARM: &str = "Only in the warm";
pub const MEAN_HINT: &str = "The mean of the house where they stand, over the week before. With fewer than three days read, nothing moves and no step is left out.";
pub const ADD: &str = "Add a step";
pub const ADD_HINT: &str = "What is to be done? Its days and the rest are set afterwards.";
pub const REMOVE: &str = "Take this step out";
pub const AFTER: &str = "Only when an earlier step says so";
pub const AT_ONCE: &str = "In any case";
pub const YEAR: &str = "The year with these days";

/// Another step with what has to come of it.
#[must_use]
pub fn after(kind: TaskKind, outcome: Outcome) -> String {
    let answers = super::round::outcome(kind);
    let answer = match outcome {
        Outcome::NeedsMore => answers.1,
        Outcome::Well => answers.2,
    };
    format!("{} {answer}", super::task::kind(kind))
}

/// What the season does to a step.
#[must_use]
pub fn season(rule: SeasonRule) -> &'static str {
    match rule {
        SeasonRule::None => "Any time",
        SeasonRule::IntoRepotWindow => "In its repotting season",
        SeasonRule::AfterRest => "After its rest",
    }
}

/// How much a step matters.
#[must_use]
pub fn rank(rank: u8) -> &'static str {
    match rank {
        1 => "First",
        2 => "Second",
        _ => "Last",
    }
}

/// How a plant grows.
#[must_use]
pub fn habit(habit: Habit) -> &'static str {
    match habit {
        Habit::Bulbs => "With bulbs",
        Habit::Canes => "With canes",
        Habit::Growths => "Without bulbs",
        Habit::Monopodial => "On one stem",
    }
}

/// Kinds by the nights they like.
#[must_use]
pub fn kinds(warmth: Warmth) -> &'static str {
    match warmth {
        Warmth::Cool => "Cool kinds",
        Warmth::Intermediate => "Mild kinds",
        Warmth::Warm => "Warm kinds",
    }
}

/// What the strip shows.
#[must_use]
pub fn as_if_today(lot: Option<&str>, later: usize) -> String {
    let later = match later {
        0 => String::new(),
        count => format!(
            " {} later than shown.",
            counted(
                i64::try_from(count).unwrap_or(i64::MAX),
                "step falls",
                "steps fall"
            )
        ),
    };
    match lot {
        Some(lot) => format!("As if it happened today, in the seasons of {lot}.{later}"),
        None => format!("As if it happened today.{later}"),
    }
}
