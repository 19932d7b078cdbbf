//! One entry: what it says beside its sentence, taking it back, putting it right.

use velamen_core::event::{Event, WithdrawWhy};

use super::format::{counted, full_day};
use super::{apart, seen, signs, treat};

pub const ENTRY: &str = "One entry";
pub const NOW: &str = "As it reads now";
pub const FIRST: &str = "As it was first recorded";
pub const CORRECT: &str = "Correct this";
pub const CORRECTION: &str = "Correct it";
pub const KEEP: &str = "Keep the correction";
pub const CORRECTED: &str = "Corrected. The first wording stays readable.";
pub const CORRECT_HINT: &str =
    "The day cannot be corrected. If it was another day, withdraw the entry and record it again.";
pub const WHY: &str = "Why";
pub const WHY_HINT: &str = "A word for later, such as \"counted again\".";
pub const NAME: &str = "Name of the plant";
pub const PLANTS: &str = "Plants";
pub const POTS: &str = "Pots";
pub const PLACE: &str = "Place";
pub const NOT_SAID: &str = "Not said";
pub const NOTE: &str = "Note";
pub const TAKE_BACK: &str = "Take it back";
pub const WITHDRAW: &str = "Withdraw it";
pub const MISTAKE: &str = "A mistake";
pub const TWICE: &str = "Recorded twice";
pub const RESTORE: &str = "Restore it";
pub const WITHDREW: &str = "Withdrawn. It stays in the Book, struck through.";
pub const RESTORED: &str = "Restored.";
pub const WITHDRAW_HINT: &str =
    "Nothing is overwritten: a withdrawn entry stays readable and no longer counts.";
pub const RESTS: &str = "These rest on it";
pub const OPENS_THE_BOOK: &str = "With this entry the book begins. It cannot be withdrawn.";

/// The key that withdraws an entry with all that rests on it.
#[must_use]
pub fn withdraw_all(others: usize) -> String {
    let others = i64::try_from(others).unwrap_or(i64::MAX);
    format!(
        "Withdraw it with {}",
        counted(others, "later entry", "later entries")
    )
}

/// Why an entry no longer counts.
#[must_use]
pub fn withdrawn(why: WithdrawWhy) -> &'static str {
    match why {
        WithdrawWhy::Undone => "Undone at once",
        WithdrawWhy::Mistake => "Withdrawn: a mistake",
        WithdrawWhy::Twice => "Withdrawn: recorded twice",
        WithdrawWhy::Restored => "Withdrawn again",
    }
}

/// What else an event says: notes, reasons, what the label said.
#[must_use]
pub fn beside(event: &Event) -> Vec<String> {
    let mut said: Vec<Option<String>> = Vec::new();
    let text = |text: &str| (!text.is_empty()).then(|| text.to_owned());
    match event {
        Event::LotReceived(it) => said.extend([
            text(&it.from).map(|from| format!("From {from}.")),
            text(&it.outside_ref).map(|number| format!("Their number: {number}.")),
            it.potted_on
                .map(|on| format!("Last potted {}.", full_day(on))),
            text(&it.note),
        ]),
        Event::Lost(it) => said.push(text(&it.note)),
        Event::Sold(it) => said.extend([
            text(&it.passport).map(|passport| format!("Plant passport {passport}.")),
            text(&it.note),
        ]),
        Event::Gained(it) => said.push(text(&it.note)),
        Event::Reserved(it) => said.push(text(&it.note)),
        Event::DivisionClosed(it) => said.push(text(&it.note)),
        Event::Treated(it) => said.extend([
            Some(treat::against(it.against, it.aim)),
            treat::mixed(it),
            treat::soaked(it),
            treat::in_one_tank(it),
            treat::aired(it),
            super::bath_life::pots(it.pots),
            text(&it.product.rate_typed).map(|rate| format!("Rate as on the label: {rate}.")),
            it.product.reentry_h.map(treat::reentry),
            text(&it.gear).map(|gear| format!("Gear: {gear}.")),
            text(&it.person).map(|person| format!("Done by {person}.")),
            text(&it.reason),
            text(&it.note),
        ]),
        Event::Sanitised(it) => said.extend([super::clean::mixed(it), text(&it.note)]),
        Event::BathEnded(it) => said.push(super::bath_life::ended_with(it)),
        Event::MaterialsMoved(it) => said.push(text(&it.note)),
        Event::Watered(it) => said.push(text(&it.note)),
        Event::Fed(it) => {
            said.extend(super::water::fed_beside(it));
            said.push(text(&it.note));
        }
        Event::ContainerUsed(it) => said.push(text(&it.note)),
        Event::DivisionOpened(it) => said.extend([
            super::clean::cut_with(it),
            it.plan
                .as_ref()
                .map(|plan| format!("Planned: {}.", super::cut::plan(plan))),
        ]),
        Event::Found(it) => said.extend([
            text(&signs::part(&it.part)),
            seen::of_looked_at(it.affected, it.looked_at),
            it.severity.map(seen::how_bad),
            text(&it.note),
        ]),
        Event::QuarantineEntered(it) => said.extend([
            it.until_on
                .map(|on| format!("Until {} at least.", full_day(on))),
            text(&it.note),
        ]),
        Event::QuarantineReleased(it) => said.push(text(&it.early)),
        Event::VirusTested(it) => said.extend([
            Some(format!(
                "{}, {}.",
                apart::method(it.method),
                apart::tissue(it.tissue).to_lowercase()
            )),
            (it.pooled > 1).then(|| format!("{} plants together.", it.pooled)),
            text(&it.laboratory),
            text(&it.note),
        ]),
        Event::Observed(it) => said.push(text(&it.note)),
        Event::TaskDecided(it) => said.push(text(&it.why)),
        Event::Amended(it) => said.push(text(&it.why)),
        Event::Withdrawn(it) => said.push(text(&it.note)),
        Event::Settled(it) => said.push(text(&it.note)),
        Event::ProtocolAdopted(it) => said.push(text(&it.content.source)),
        Event::BookOpened(_)
        | Event::DivisionPlanned(_)
        | Event::BookSet(_)
        | Event::PhoneJoined(_)
        | Event::PhoneLeft(_)
        | Event::PlaceSet(_)
        | Event::ClimateRead(_)
        | Event::PotSet(_)
        | Event::MixSet(_)
        | Event::MeasureSet(_)
        | Event::FeedSet(_)
        | Event::ProductSet(_)
        | Event::ContainerSet(_)
        | Event::BathTopped(_)
        | Event::ContainerCounted(_)
        | Event::GroupSet(_)
        | Event::RotationSet(_)
        | Event::PriceSet(_)
        | Event::Released(_)
        | Event::LotSplit(_)
        | Event::LotNamed(_)
        | Event::LotCoded(_)
        | Event::Moved(_)
        | Event::Counted(_)
        | Event::Repotted(_)
        | Event::PiecesTaken(_)
        | Event::PiecesPotted(_)
        | Event::HygieneConfirmed(_)
        | Event::TaskNoted(_)
        | Event::ClockCorrected(_) => {}
    }
    said.into_iter().flatten().collect()
}
