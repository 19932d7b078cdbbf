//! What every way of using a product says: the label's silence, the right target, what must never meet.

use std::collections::BTreeSet;

use chrono::NaiveDate;
use velamen_core::apply::{Before, Held, Meeting, MixFault, TankFault, Where, WhyHeld};
use velamen_core::event::{AgentClass, Method};
use velamen_core::reference::never::{Harm, Pair, Stuff};

use super::treat::rate_fault;
use super::{clean, format, treat};
use crate::words::parts::capital;

pub const TARGET_REASON: &str = "Why it is used all the same";
pub const TARGET_REASON_HINT: &str = "A laboratory's word, a mixed rot, nothing else at hand.";
pub const TARGET_NOT_KNOWN: &str = "Whether it acts on that cannot be said: an active on its label is not typed or not known here.";
pub const TARGET_PARTLY: &str = "It acts on some kinds of that only, or in part: read its label.";
pub const NEVER: &str = "Never together";
pub const NEVER_BESIDE: &str = "What must never meet it";
pub const RINSE: &str = "Rinse tub, can and measures three times first.";

/// "Does its label name dipping?"
#[must_use]
pub fn label_says(method: Method) -> &'static str {
    match method {
        Method::Bath | Method::Plunge => "Does its label name dipping?",
        Method::Drench => "Does its label name drenching?",
        Method::Spray => "Does its label name spraying?",
        Method::Swab => "Does its label name swabbing or painting?",
        Method::DustCut => "Does its label name dusting?",
    }
}

/// "Yes, dipping".
#[must_use]
pub fn label_names(method: Method) -> &'static str {
    match method {
        Method::Bath | Method::Plunge => "Yes, dipping",
        Method::Drench => "Yes, drenching",
        Method::Spray => "Yes, spraying",
        Method::Swab => "Yes, swabbing",
        Method::DustCut => "Yes, dusting",
    }
}

pub const SILENT: &str = "No, it is silent";

/// What a label's silence means for this way.
#[must_use]
pub fn silent_warning(method: Method) -> &'static str {
    match method {
        Method::Bath | Method::Plunge => {
            "A spray's rate and time do not carry over to a dip, and local rules may forbid it. Ask the maker or an adviser; test pieces first."
        }
        Method::Drench => {
            "A rate for spraying or dipping does not carry over to a drench, and local rules may forbid it. Ask the maker or an adviser; three test pots first."
        }
        Method::Spray => {
            "A rate for dipping or drenching does not carry over to a spray, and local rules may forbid it. Ask the maker or an adviser; three test plants first."
        }
        Method::Swab | Method::DustCut => {
            "Local rules may forbid what the label does not name. Ask the maker or an adviser; three test plants first."
        }
    }
}

fn agents(of: &BTreeSet<AgentClass>) -> String {
    let words: Vec<String> = of
        .iter()
        .map(|agent| treat::agent(*agent).to_lowercase())
        .collect();
    words.join(", ")
}

/// Why a product is held: "Its actives act on fungus, not on water mould: …".
#[must_use]
pub fn held(held: &Held) -> String {
    let against = treat::agent(held.against).to_lowercase();
    match &held.why {
        WhyHeld::ActsOnOthers(others) if others.is_empty() => {
            format!("Nothing in it is known to act on {against}.")
        }
        WhyHeld::ActsOnOthers(others) => format!(
            "What is in it acts on {}, and is not known to act on {against}: it would do nothing there.",
            agents(others)
        ),
        WhyHeld::LabelNamesOthers(others) => {
            format!("Its label names {}, and not {against}.", agents(others))
        }
        WhyHeld::NothingCures => {
            "No product cures a virus. Set the plants apart and test them.".to_owned()
        }
        WhyHeld::NoAgent => {
            "Nothing lives there for it to act on: put the culture right.".to_owned()
        }
    }
}

/// "On the shelf against it: …".
#[must_use]
pub fn instead(names: &[String]) -> String {
    if names.is_empty() {
        "Nothing on the shelf is known to act on it.".to_owned()
    } else {
        format!("On the shelf, and acting on it: {}.", names.join(", "))
    }
}

/// A kind of stuff.
#[must_use]
pub fn stuff(stuff: Stuff) -> &'static str {
    match stuff {
        Stuff::Hypochlorite => "bleach",
        Stuff::Acid => "vinegar, acid cleaner or acid fertiliser",
        Stuff::Ammonia => "ammonia, urea or ammonium fertiliser",
        Stuff::Alcohol => "alcohol or acetone",
        Stuff::Peroxide => "peroxide or peracetic acid",
        Stuff::Peroxymonosulfate => "peroxymonosulfate",
        Stuff::Quat => "quaternary ammonium",
        Stuff::Soap => "soap or detergent",
        Stuff::Pesticide => "a product for plants, or what is left of it",
        Stuff::Caustic => "trisodium phosphate or caustic soda",
        Stuff::Flame => "flame or heater",
        Stuff::MetalPowder => "metal powder",
        Stuff::Copper => "copper",
        Stuff::Phosphonate => "fosetyl or phosphonate",
        Stuff::Spreader => "a spreader or sticker",
        Stuff::Mancozeb => "mancozeb",
        Stuff::Chlorothalonil => "chlorothalonil",
        Stuff::Oil => "oil",
        Stuff::Sulfur => "sulfur",
        Stuff::Captan => "captan",
        Stuff::AcidWater => "water below pH 6",
        Stuff::HardWater => "hard water, above 300 mg lime a litre",
    }
}

fn harm(harm: Harm) -> &'static str {
    match harm {
        Harm::ChlorineGas => "chlorine gas",
        Harm::ToxicGas => "poisonous gas",
        Harm::Irritants => "chloroform and fumes that burn eyes and lungs",
        Harm::ViolentGas => "gas comes off violently, and both are lost",
        Harm::Inactivated => "one undoes the other",
        Harm::UnknownGas => "gas nobody can foretell",
        Harm::PeraceticAcid => "peracetic acid, which burns",
        Harm::HeatAndSpatter => "heat and spatter",
        Harm::Fire => "fire",
        Harm::Decomposes => "it falls apart, with heat and gas",
        Harm::CopperBurn => "copper burns the plants",
        Harm::ReadTheLabel => "not safe with some products: read both labels",
        Harm::LeafBurn => "leaves burn",
        Harm::ScumAndBurn => "scum, and leaves burn",
    }
}

/// "Copper with fosetyl or phosphonate: copper burns the plants."
#[must_use]
pub fn pair(of: &Pair) -> String {
    let days = of.days.map(|(least, most)| {
        let days = if least == most {
            most.to_string()
        } else {
            format!("{least} to {most}")
        };
        format!(" On one plant, {days} days apart.")
    });
    format!(
        "{} with {}: {}.{}",
        capital(stuff(of.a)),
        stuff(of.b),
        harm(of.harm),
        days.unwrap_or_default()
    )
}

/// One pair in short, for a list of what the built-in table holds.
#[must_use]
pub fn pair_in_short(of: &Pair) -> String {
    format!("{} with {}", stuff(of.a), stuff(of.b))
}

/// What the label itself says it must not meet.
#[must_use]
pub fn never_by_label(said: &str) -> String {
    format!("Never together, says its label: {said}")
}

/// What would meet, where, and how long to wait.
#[must_use]
pub fn meeting(met: &Meeting, today: NaiveDate) -> String {
    let before = match &met.before {
        Before::Product(name) => name.clone(),
        Before::Agent(key) => clean::agent(key),
    };
    let when = format::near_day(met.on, today);
    let what = pair(met.pair);
    match (met.at, met.wait_until) {
        (Where::Plants, Some(until)) => format!(
            "{what} These plants had {before} ({when}): wait until {}.",
            format::near_day(until, today)
        ),
        _ => format!("{what} {before} was in tub or measures ({when}). {RINSE}"),
    }
}

/// Why two products do not go into one tank.
#[must_use]
pub fn tank(fault: &TankFault, method: Method) -> String {
    match fault {
        TankFault::Same => "That is the same bottle twice.".to_owned(),
        TankFault::NotAllowed { labels } => {
            format!(
                "Not in one tank: it is not typed that the label of {} allows the other beside it. Type it from the label in the Shed if it stands there, or treat one after the other.",
                labels.join(" and that of ")
            )
        }
        TankFault::Never(of) => format!("Not in one tank. {}", pair(of)),
        TankFault::Mix(fault) => format!("The second product: {}", self::fault(fault, method)),
    }
}

/// What is in the way of a mixture.
#[must_use]
pub fn fault(fault: &MixFault, method: Method) -> String {
    match fault {
        MixFault::NoProduct => "Choose the bottle.".to_owned(),
        MixFault::NoRate => {
            "Type the label's rate: without it nothing can be measured.".to_owned()
        }
        MixFault::BadRate(fault) => rate_fault(fault),
        MixFault::RateByArea => match method {
            Method::Spray | Method::Drench => {
                "That rate is for an area. Choose a place whose area is typed in the Shed, or type the label's rate for an amount of water."
                    .to_owned()
            }
            _ => "That rate is for an area. A tub needs the label's rate for an amount of water."
                .to_owned(),
        },
        MixFault::NoContent => "The rate counts the active: type how much of it is in the product, at its label in the Shed.".to_owned(),
        MixFault::AboveLabel { most_typed } => {
            format!("That is stronger than the label allows: {most_typed} is the most.")
        }
        MixFault::NotTheLabels { most_typed } => {
            format!("Write the rate as the label counts it: {most_typed}.")
        }
        MixFault::NoAgent => "Say what it is against.".to_owned(),
        MixFault::MethodNotSaid => match method {
            Method::Bath | Method::Plunge => "Say whether the label names dipping.".to_owned(),
            _ => "Say whether the label names this way.".to_owned(),
        },
        MixFault::NoReason => match method {
            Method::Bath | Method::Plunge => {
                "The label is silent on dipping: write why it is done all the same.".to_owned()
            }
            _ => "The label is silent on this way: write why it is done all the same.".to_owned(),
        },
        MixFault::NoTargetReason => {
            "It is not known to act on that: write why it is used all the same, or take another bottle.".to_owned()
        }
        MixFault::Tank(fault) => tank(fault, method),
        MixFault::NoRotationReason => super::rotation::NO_REASON.to_owned(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use velamen_core::reference::never::PAIRS;
    use wasm_bindgen_test::wasm_bindgen_test;

    #[wasm_bindgen_test]
    fn every_pair_reads_as_a_sentence() {
        for one in PAIRS {
            let said = pair(one);
            assert!(said.ends_with('.') && said.contains(" with "), "{said}");
        }
    }
}
