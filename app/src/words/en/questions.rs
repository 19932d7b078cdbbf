//! What the book asks, in words: what does not agree, who said what, and what can be answered.

use velamen_core::id::{ContainerId, Dev, LotId};
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
pub const CLOCK_SET: &str = "Their times are put right.";
pub const NOT_JOINED: &str = "This phone was copied from another, or taken off the book, and has not joined the book under a name of its own. Until it does, nothing can be recorded on it.";
pub const JOIN: &str = "Join the book";
pub const JOINED: &str = "Joined. Codes from this phone now begin with letters of their own.";
const HOUR_MS: i64 = 3_600_000;
pub const COUNTS_NOW: &str = "counts now";

/// A question in words.
#[must_use]
pub fn question(
    anomaly: &Anomaly,
    lot: &dyn Fn(LotId) -> String,
    phone: &dyn Fn(Dev) -> String,
    product: &dyn Fn(ContainerId) -> String,
) -> String {
    match anomaly {
        Anomaly::Overdrawn { lot: id, plants, stands } => format!(
            "More left {} than there was: the book comes to {plants} plants in {stands} pots. Count what stands there.",
            lot(*id)
        ),
        Anomaly::ReservedTooMany { lot: id, plants, reserved, .. } => format!(
            "{reserved} of {} are kept for somebody, but only {plants} are there. Let some of them go on the lot's page.",
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
        Anomaly::ContainerOverdrawn { container, .. } => {
            super::containers::overdrawn(&product(*container))
        }
        Anomaly::ClockAstray {
            dev,
            from_seq,
            to_seq,
            off_ms,
        } => {
            let these = if from_seq == to_seq {
                "this"
            } else {
                "from the first to the last of these"
            };
            format!(
                "The clock of {} was {} when it wrote {these}. Set its clock; the order of entries stays as it is.",
                phone(*dev),
                clock_off(*off_ms)
            )
        }
        Anomaly::WroteAfterLeaving { dev, .. } => format!(
            "After {} was taken off the book it wrote on. If that was you or yours, it is right as it stands; if not, withdraw what it wrote.",
            phone(*dev)
        ),
        Anomaly::PhoneCopied { .. } => {
            "A phone was copied together with its book, and both wrote on. Both are kept, each under a name of its own.".to_owned()
        }
    }
}

/// "about 106 days ahead", "about 5 hours behind".
fn clock_off(off_ms: i64) -> String {
    let way = if off_ms > 0 { "ahead" } else { "behind" };
    format!("{} {way}", about(off_ms))
}

/// A span as a person says it: hours up to two days, then days.
fn about(span_ms: i64) -> String {
    let hours = span_ms.saturating_abs().saturating_add(HOUR_MS / 2) / HOUR_MS;
    let said = if hours < 48 {
        counted(hours, "hour", "hours")
    } else {
        counted((hours + 12) / 24, "day", "days")
    };
    format!("about {said}")
}

/// A phone by the beginning of its codes.
#[must_use]
pub fn phone_called(prefix: &str) -> String {
    if prefix.is_empty() {
        "a phone".to_owned()
    } else {
        format!("phone {prefix}")
    }
}

/// The key that sets the times of a run of entries right.
#[must_use]
pub fn shift_clock(shift_ms: i64) -> String {
    if shift_ms < 0 {
        format!("Take {} off their times", about(shift_ms))
    } else {
        format!("Add {} to their times", about(shift_ms))
    }
}

/// The key that gives a lot another code.
#[must_use]
pub fn another_code(lot: &str, place: &str) -> String {
    if place.is_empty() {
        format!("Another code for {lot}")
    } else {
        format!("Another code for {lot}, {place}")
    }
}

/// What is said once a lot has another code.
#[must_use]
pub fn recoded(code: &str) -> String {
    format!("Write {code} on its label.")
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
        FieldKey::Uses => "what a label allows",
        FieldKey::Reentry => "the hours until re-entry",
        FieldKey::Actives => "the active ingredients of a product",
        FieldKey::Registration => "the registration number of a product",
        FieldKey::Formulation => "the formulation of a product",
        FieldKey::Protocol => "a protocol",
        FieldKey::Windows => "the seasons of a group",
        FieldKey::Marks => "the marks of a measure",
        FieldKey::Batch => "the batch of a container",
        FieldKey::Expiry => "how long a container is good",
        FieldKey::Held => "what a container holds",
        FieldKey::OpenBag => "the bag of a mix that is in use",
        FieldKey::OpenLoad => "the load of stone that is in use",
        FieldKey::WaterDays => "the days between waterings",
        FieldKey::FeedDays => "the days between feeds",
        FieldKey::Nitrogen => "the nitrogen of a feed",
        FieldKey::Price => "what something costs",
        FieldKey::Money => "the sign of your money",
        FieldKey::Reading => "a house's minimum and maximum",
    }
}

/// The key that leads to a lot.
#[must_use]
pub fn open_lot(name: &str) -> String {
    format!("Open {name}")
}
