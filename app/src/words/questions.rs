//! What the book asks, in words: what does not agree, who said what, and what can be answered.

use velamen_core::id::LotId;
use velamen_core::state::{Anomaly, FieldKey};

use super::format::counted;
use super::trade;

pub const QUESTIONS: &str = "Questions";
pub const HINT: &str =
    "Where phones contradict each other, the book asks. Nothing is settled silently.";
pub const NONE: &str = "No questions. The book agrees with itself.";
pub const RIGHT_AS_IT_IS: &str = "Right as it stands";
pub const THIS_ONE: &str = "This one is right";
pub const SETTLED: &str = "Settled.";
pub const SAID_AGAIN: &str = "Said again; the question is answered.";
pub const COUNTS_NOW: &str = "counts now";

/// A question in words.
#[must_use]
pub fn question(anomaly: &Anomaly, lot: &dyn Fn(LotId) -> String) -> String {
    match anomaly {
        Anomaly::Overdrawn { lot: id, plants, stands } => format!(
            "More left {} than there was: the book comes to {plants} plants in {stands} pots. Count what stands there.",
            lot(*id)
        ),
        Anomaly::CountCrossed { lot: id, .. } => format!(
            "{}: a count and a change did not know of each other. Was the change before or after the count? Count again if unsure.",
            lot(*id)
        ),
        Anomaly::Disputed { field, .. } => {
            format!("Two phones said different things about {}. Which is right?", field_name(*field))
        }
        Anomaly::PottedMoreThanTaken { class, taken, potted, .. } => format!(
            "{}: {potted} were potted, but {taken} came off the clump.",
            trade::class(*class)
        ),
        Anomaly::CodeTwice { code, lots } => format!(
            "The code {code} is on {} lots. Give one of them another code and a new label.",
            lots.len()
        ),
        Anomaly::PrefixTwice { prefix, phones } => format!(
            "{} hand out codes that begin with {prefix}. Look at the labels of new lots: a code may come twice.",
            counted(i64::try_from(phones.len()).unwrap_or(i64::MAX), "phone", "phones")
        ),
        Anomaly::RestsOnWithdrawn { .. } => {
            "An entry rests on something that was withdrawn. Withdraw it too, or restore what it rests on.".to_owned()
        }
        Anomaly::ClockAstray { off_ms, .. } => format!(
            "A phone's clock was {} away from the others. Set its clock; the order of entries is kept either way.",
            counted(off_ms.saturating_abs() / 3_600_000, "hour", "hours")
        ),
        Anomaly::PhoneCopied { .. } => {
            "A phone was copied together with its book, and both wrote on. Both are kept.".to_owned()
        }
    }
}

fn field_name(field: FieldKey) -> &'static str {
    match field {
        FieldKey::Name => "a name",
        FieldKey::Code => "a code",
        FieldKey::Place => "where a lot stands",
        FieldKey::Walk => "the order of the walk",
        FieldKey::Nursery => "the nursery's name",
        FieldKey::Hemisphere => "the side of the equator",
        FieldKey::Latitude => "the latitude",
        FieldKey::Warmth => "the warmth of a house",
        FieldKey::Form => "the measures of a pot",
        FieldKey::Shares => "what is in a mix",
        FieldKey::Rate => "a rate",
        FieldKey::Protocol => "a protocol",
        FieldKey::Windows => "the seasons of a group",
    }
}

/// The key that leads to a lot.
#[must_use]
pub fn open_lot(name: &str) -> String {
    format!("Open {name}")
}
