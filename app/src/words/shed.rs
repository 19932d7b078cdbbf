//! The Shed: places, pots, mixes, protocols, this phone; and questions, tasks, treatments.

use velamen_core::season::Warmth;
use velamen_core::state::Anomaly;

use super::trade;

pub const PLACES: &str = "Places";
pub const PLACES_HINT: &str = "In the order you walk them.";
pub const POTS: &str = "Pots";
pub const MIXES: &str = "Mixes";
pub const PROTOCOLS: &str = "Protocols";
pub const PHONE: &str = "This phone";
pub const ADD_PLACE: &str = "Add this place";
pub const PLACE_NAME: &str = "Name of the place";
pub const PLACE_ADDED: &str = "place added";
pub const RENAME: &str = "Keep this name";
pub const EARLIER: &str = "Earlier on the walk";
pub const LATER: &str = "Later on the walk";
pub const RETIRE: &str = "No longer used";
pub const WARMTH: &str = "Warmth";
pub const COVER: &str = "Cover";
pub const ROOFED: &str = "Roofed";
pub const OPEN_TO_RAIN: &str = "Open to rain";
pub const CHANGED: &str = "Changed.";
pub const POT_NAME: &str = "What you call it";
pub const TOP: &str = "Across the top";
pub const BASE: &str = "Across the base";
pub const HEIGHT: &str = "Height";
pub const INSIDE: &str = "Measured inside, such as 17 cm or 170 mm.";
pub const ADD_POT: &str = "Add this pot";
pub const POT_ADDED: &str = "pot added";
pub const MIX_NAME: &str = "Name of the mix";
pub const MIX_LIFE: &str = "Months until it breaks down";
pub const ADD_MIX: &str = "Add this mix";
pub const MIX_ADDED: &str = "mix added";
pub const DAYS_AFTER: &str = "Days after";
pub const ON: &str = "on";
pub const OFF: &str = "off";
pub const IN_USE: &str = "In use";
pub const FOR_TOUGH: &str = "Also for tough kinds";
pub const KEEP: &str = "Keep these days";
pub const KEPT: &str = "Kept. What was decided stays decided; nothing moves to before today.";
pub const THEME: &str = "Light or dark";
pub const AS_PHONE: &str = "As the phone";
pub const LIGHT: &str = "Light";
pub const DARK: &str = "Dark";
pub const HAND: &str = "Hand";
pub const RIGHT: &str = "Right";
pub const LEFT: &str = "Left";
pub const BENCH_SIZE: &str = "Large keys for wet hands";
pub const CODES: &str = "Codes from this phone begin with";
pub const TASK: &str = "A task";
pub const TASK_TEXT: &str = "What is to be done";
pub const TASK_DAY: &str = "When";
pub const TODAY: &str = "Today";
pub const TOMORROW: &str = "Tomorrow";
pub const IN_A_WEEK: &str = "In a week";
pub const IN_A_MONTH: &str = "In a month";
pub const ADD_TASK: &str = "Add this task";
pub const TASK_ADDED: &str = "task added";
pub const TREAT_EMPTY: &str = "No treatments recorded yet.";
pub const TREAT_HINT: &str =
    "The label is the law and beats this program. Treatments that other phones recorded show here.";

/// Warmth of a house by its nights.
#[must_use]
pub fn warmth(warmth: Warmth) -> &'static str {
    match warmth {
        Warmth::Cool => "Cool nights",
        Warmth::Intermediate => "Mild nights",
        Warmth::Warm => "Warm nights",
    }
}

/// "7 days after, from 3 to 10".
#[must_use]
pub fn timing(due: i32, from: i32, until: i32) -> String {
    format!("{due} days after; from {from} to {until}")
}

/// A question in words. `lot` and `entry` say things as the book knows them.
#[must_use]
pub fn question(
    anomaly: &Anomaly,
    lot: &dyn Fn(velamen_core::id::LotId) -> String,
    entry: &dyn Fn(velamen_core::id::EntryRef) -> String,
) -> String {
    match anomaly {
        Anomaly::Overdrawn {
            lot: id,
            plants,
            stands,
        } => format!(
            "More left {} than there was: the book comes to {}. Count it.",
            lot(*id),
            trade::plants_in_pots(*plants, *stands)
        ),
        Anomaly::CountCrossed {
            lot: id,
            count,
            change,
        } => format!(
            "{}: \"{}\" and \"{}\" did not know of each other. Was the change before or after the count? Count again if unsure.",
            lot(*id),
            entry(*count),
            entry(*change)
        ),
        Anomaly::Disputed { kept, other, .. } => format!(
            "Two phones said different things: \"{}\" counts now, \"{}\" does not. Say it once more to decide.",
            entry(*kept),
            entry(*other)
        ),
        Anomaly::PottedMoreThanTaken {
            class,
            taken,
            potted,
            ..
        } => format!(
            "{}: {potted} were potted, but {taken} came off.",
            trade::class(*class)
        ),
        Anomaly::CodeTwice { code, lots } => {
            let names: Vec<String> = lots.iter().map(|id| lot(*id)).collect();
            format!(
                "The code {code} is on {} lots: {}.",
                lots.len(),
                names.join(", ")
            )
        }
        Anomaly::PrefixTwice { prefix, .. } => {
            format!("Two phones hand out codes that begin with {prefix}. Codes may clash.")
        }
        Anomaly::RestsOnWithdrawn { entry: id, .. } => {
            format!("\"{}\" rests on something that was withdrawn.", entry(*id))
        }
        Anomaly::ClockAstray { off_ms, .. } => {
            format!(
                "A phone's clock was {} hours away from the others.",
                off_ms.abs() / 3_600_000
            )
        }
        Anomaly::PhoneCopied { .. } => {
            "A phone was copied together with its book, and both wrote on. Both are kept."
                .to_owned()
        }
    }
}
