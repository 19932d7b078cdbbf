//! The Treat room: writing down a treatment that was done.
//!
//! The safety lines are common practice, no source, unless a label or local rule says more.

use velamen_core::event::{AgentClass, Aim, Treated};
use velamen_core::quantity::{Amount, Mass, Meaning, QuantityError, Volume};
use velamen_core::treat_draft::TreatFault;
use velamen_core::view::treat::StillMissing;

use super::bath;
use super::format::{counted, litres_exact};

pub const RECORD: &str = "Write down a treatment";
pub const RECORD_HINT: &str = "For what was done away from the phone. Nothing is worked out here.";
pub const ADD: &str = "Record this treatment";
pub const ADDED: &str = "treatment";
pub const LAW: &str = "The label is the law and beats this program.";
pub const LAW_MORE: &str = "A spray rate is not a dip rate: where the label is silent on dipping, rate and time do not carry over, and local rules may forbid it.";
pub const SAFETY: &str = "On contact, and while it dries";
pub const CONTACT: &str = "If it touches skin or eyes: clothes off, rinse for 15 to 20 minutes, call the poisons number, take the label along.";
pub const HANDLE: &str = "Gloves stay on for treated pieces and for what drips off them: catch it. Keep children, pets, ponds and bees away.";
pub const ORIGIN: &str = "Common practice; the label and local rules come first.";
pub const NO_POISONS: &str = "No poisons number yet: add it under The Shed, This phone.";
pub const WHAT: &str = "What was treated";
pub const BARE: &str = "Lying bare on the bench";
pub const FIND_HINT: &str = "Name, code or place";
pub const PRODUCT: &str = "Product";
pub const PRODUCT_HINT: &str = "The name as it stands on the label";
pub const RATE: &str = "Rate as you mixed it";
pub const RATE_HINT: &str = "As typed, with its unit; may be left empty.";
pub const METHOD: &str = "How";
pub const AGAINST: &str = "Against";
pub const PREVENTING: &str = "To prevent it, nothing was seen";
pub const YES: &str = "yes";
pub const NO: &str = "no";
pub const SOAKED: &str = "Minutes in it";
pub const REENTRY: &str = "Hours until re-entry";
pub const REENTRY_HINT: &str = "As the label says.";
pub const REENTRY_NOT_SAID: &str = "Not typed from the label yet.";
pub const NOTE: &str = "Note";
pub const ON_RECORD: &str = "On record";
pub const EMPTY: &str = "No treatments recorded yet.";

/// What a treatment was against, as a chip.
#[must_use]
pub fn agent(agent: AgentClass) -> &'static str {
    match agent {
        AgentClass::Fungus => "Fungus",
        AgentClass::WaterMould => "Water mould",
        AgentClass::Bacterium => "Bacterium",
        AgentClass::Insect => "Insects",
        AgentClass::Mite => "Mites",
        AgentClass::Mollusc => "Slugs, snails",
        AgentClass::Virus => "Virus",
        AgentClass::Culture => "A fault of culture",
        AgentClass::Unknown => "Not known",
    }
}

/// "Against insects, to prevent them."
#[must_use]
pub fn against(agent: AgentClass, aim: Aim) -> String {
    let what = self::agent(agent).to_lowercase();
    match aim {
        Aim::Curing => format!("Against: {what}."),
        Aim::Preventing => format!("Against: {what}; nothing was seen, to prevent it."),
    }
}

/// What is wrong with a label's rate, and how to write it.
#[must_use]
pub fn rate_fault(fault: &QuantityError) -> String {
    match fault {
        QuantityError::NoUnit { .. } => {
            "Write both units as the label has them: 12.5 mL per 10 L, 2 g/L.".to_owned()
        }
        QuantityError::AmbiguousUnit { meanings, .. }
            if meanings.contains(&Meaning::PartsOfWater) =>
        {
            "One part to so many of water, or in so many in all? Write it as mL/L instead."
                .to_owned()
        }
        QuantityError::AmbiguousUnit { meanings, .. }
            if meanings.contains(&Meaning::PercentByVolume) =>
        {
            "Per cent of what? Write % v/v for a liquid, % w/v for a powder.".to_owned()
        }
        QuantityError::AmbiguousUnit { .. } => {
            "Whose spoon, ounce, pint or gallon? Write US or imp before it, or mL.".to_owned()
        }
        QuantityError::Zero | QuantityError::Negative => {
            "A rate has to be more than nothing.".to_owned()
        }
        QuantityError::TooLarge { .. } => {
            "That is more product than water. Look at the label again.".to_owned()
        }
        _ => "That is not a rate. Write it as the label does: 12.5 mL per 10 L, 2 g/L.".to_owned(),
    }
}

/// "Still missing: active ingredient, re-entry." Nothing when all is there.
#[must_use]
pub fn still_missing(missing: &[StillMissing]) -> String {
    let words: Vec<&str> = missing
        .iter()
        .map(|what| match what {
            StillMissing::Rate => "rate",
            StillMissing::Actives => "active ingredient",
            StillMissing::Registration => "registration number",
            StillMissing::Reentry => "re-entry",
            StillMissing::Uses => "what it may be used for",
        })
        .collect();
    if words.is_empty() {
        String::new()
    } else {
        format!("Still missing: {}.", words.join(", "))
    }
}

/// "25 mL in 20 L.", or that nothing was measured anew.
#[must_use]
pub fn mixed(it: &Treated) -> Option<String> {
    if it.same_mix_as.is_some() {
        return Some(bath::SAME_MIX.to_owned());
    }
    let amount = match (it.amount_ul, it.amount_mg) {
        (Some(ul), _) => Some(Amount::Volume(Volume::from_ul(ul))),
        (None, Some(mg)) => Some(Amount::Mass(Mass::from_mg(mg))),
        (None, None) => None,
    };
    let water = it.water_ul.map(|ul| litres_exact(Volume::from_ul(ul)));
    match (amount.map(bath::amount), water) {
        (Some((figure, unit)), Some(water)) => Some(bath::in_water(&figure, unit, &water)),
        (Some((figure, unit)), None) => Some(format!("{figure} {unit}.")),
        (None, Some(water)) => Some(format!("In {water}.")),
        (None, None) => None,
    }
}

/// "17 minutes in it, 5 minutes wanted; the label gives no time."
#[must_use]
pub fn soaked(it: &Treated) -> Option<String> {
    let lay = it.soaked_s?;
    let time = |seconds: u32| match seconds {
        0..60 => counted(i64::from(seconds), "second", "seconds"),
        _ => bath::minutes(seconds.saturating_add(30)),
    };
    let wanted = it
        .soak_s
        .filter(|wanted| *wanted != lay)
        .map(|wanted| format!(", {} wanted", time(wanted)));
    let own = it.soak_own.then_some("; the label gives no time");
    Some(format!(
        "{} in it{}{}.",
        time(lay),
        wanted.unwrap_or_default(),
        own.unwrap_or_default()
    ))
}

/// That a second product was in the same tank.
#[must_use]
pub fn in_one_tank(it: &Treated) -> Option<String> {
    it.tank_with
        .map(|_| "In one tank with the other product of this entry.".to_owned())
}

/// "Airing: fans on, 2 h."
#[must_use]
pub fn aired(it: &Treated) -> Option<String> {
    it.airing
        .map(|how| format!("Airing: {}.", super::apply::airing(how).to_lowercase()))
}

/// What the label said of re-entry.
#[must_use]
pub fn reentry(hours: u32) -> String {
    format!(
        "Re-entry after {}, as the label said.",
        counted(i64::from(hours), "hour", "hours")
    )
}

/// Whom to call.
#[must_use]
pub fn poisons(number: &str) -> String {
    format!("Poisons number: {number}")
}

/// What is still missing.
#[must_use]
pub fn fault(fault: TreatFault) -> &'static str {
    match fault {
        TreatFault::NothingTreated => "Pick what was treated: a lot, or pieces on the bench.",
        TreatFault::NoProduct => "Type the product as its label names it.",
        TreatFault::NoMethod => "Say how it was done.",
        TreatFault::NoAgent => "Say what it was against.",
    }
}
