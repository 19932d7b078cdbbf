//! A product's label, in words. What the table says of an active is a help to type; the label goes first.

use velamen_core::event::{LabelUse, Method, ProductSet};
use velamen_core::label_draft::{LabelFault, UseNumber};
use velamen_core::quantity::{ContentFault, Meaning};
use velamen_core::reference::actives::{Active, Level, Minding, Risk};
use velamen_core::view::treat::StillMissing;

use super::format::decimal;
use super::treat;

pub const PRODUCTS: &str = "Products";
pub const NONE_YET: &str = "No bottle on the shelf yet.";
pub const NEW: &str = "Another bottle";
pub const ADD: &str = "Put it on the shelf";
pub const KEEP: &str = "Keep the label so";
pub const RETIRE: &str = "Not on the shelf any more";
pub const RETIRE_HINT: &str = "Records of its use stay as they are.";
pub const MISSING: &str = "Still missing";
pub const PHOTO_REPLACE: &str = "Another photograph of the label";
pub const PHOTO_HINT: &str = "It takes the place of the one before.";
pub const REGISTRATION: &str = "Registration number";
pub const REGISTRATION_HINT: &str = "As on the label; a record asks for it.";
pub const FORMULATION: &str = "Formulation";
pub const FORMULATION_HINT: &str = "The letters behind the name: EC, SC, WG, WP, SL.";
pub const RATE_FOR_ALL: &str = "The label's rate, where it gives one for all";
pub const ACTIVES: &str = "Active ingredients";
pub const ACTIVE: &str = "Name of the active";
pub const CONTENT: &str = "Content";
pub const CONTENT_HINT: &str = "With its unit: 190 g/L, 500 g/kg, 50 % w/w";
pub const CODES: &str = "Mode-of-action codes";
pub const CODES_HINT: &str = "As on the label; they go before the table. Commas between.";
pub const ANOTHER_ACTIVE: &str = "Add an active";
pub const ANOTHER_ACTIVE_HINT: &str = "Begin to type its name.";
pub const USES: &str = "What the label allows";
pub const USES_HINT: &str =
    "One by one, each with its ways of applying: a rate for spraying is none for dipping.";
pub const ANOTHER_USE: &str = "Add a use of the label";
pub const METHODS: &str = "Ways the label names";
pub const RATE_LEAST: &str = "Rate, the lowest where it gives two";
pub const RATE_MOST: &str = "Highest rate";
pub const RATE_MOST_HINT: &str = "Nothing stronger is mixed.";
pub const GEAR: &str = "Gear to wear";
pub const MIX_WITH: &str = "Allowed in one tank with";
pub const CALLS_FOR_AIRING: &str = "Calls for airing: a mist, a fog, a respirator";
pub const NEVER_WITH: &str = "Never together with";
pub const WHICH_MEANT: &str = "Which is meant?";
pub const TO_THE_LABEL: &str = "Its label in the Shed";
pub const OWN_RATE: &str = "Another rate of the label's range";
pub const BATCH: &str = "Batch number on the bottle";
pub const BATCH_HINT: &str = "Goes into the record; may be left empty.";
pub const BELOW: &str =
    "Weaker than the label's lowest: it may do nothing, and the pest or fungus gets used to it.";

/// A way of applying, on a chip.
#[must_use]
pub fn method(method: Method) -> &'static str {
    match method {
        Method::Bath => "Dipping",
        Method::Plunge => "Plunging pots",
        Method::Drench => "Drenching",
        Method::Spray => "Spraying",
        Method::Swab => "Swabbing",
        Method::DustCut => "Dusting cuts",
    }
}

/// "For dipping, spraying".
#[must_use]
pub fn use_title(methods: &[Method]) -> String {
    if methods.is_empty() {
        return "A use; no way is named yet".to_owned();
    }
    let ways: Vec<String> = methods
        .iter()
        .map(|way| method(*way).to_lowercase())
        .collect();
    format!("For {}", ways.join(", "))
}

/// What was said of a product, as far as it was said: two phones may have said different things.
#[must_use]
pub fn set(it: &ProductSet) -> String {
    let named = it.label_name.as_deref().filter(|name| !name.is_empty());
    let text = |text: &Option<String>| text.clone().filter(|text| !text.is_empty());
    let mut said: Vec<String> = Vec::new();
    said.extend(text(&it.registration).map(|text| format!("registration {text}")));
    said.extend(text(&it.formulation).map(|text| format!("formulation {text}")));
    said.extend(it.actives.as_ref().map(|actives| {
        let names: Vec<String> = actives
            .iter()
            .map(|active| format!("{} {}", active.name, active.content_typed))
            .map(|one| one.trim_end().to_owned())
            .collect();
        match names.as_slice() {
            [] => "no active".to_owned(),
            names => format!("active: {}", names.join(", ")),
        }
    }));
    said.extend(text(&it.rate_typed).map(|text| format!("rate {text}")));
    said.extend(
        it.reentry_h
            .map(|hours| format!("re-entry after {hours} h")),
    );
    match it.uses.as_deref() {
        Some([]) => said.push("no use of the label".to_owned()),
        Some(uses) => said.extend(uses.iter().map(one_use)),
        None => {}
    }
    let said = said.join("; ");
    match (named, said.is_empty()) {
        (Some(name), true) => format!("Product: {name}."),
        (Some(name), false) => format!("Product: {name}; {said}."),
        (None, true) => "Product: changed.".to_owned(),
        (None, false) => format!("Product: {said}."),
    }
}

/// "for dipping (5 mL/L, re-entry after 48 h)".
fn one_use(it: &LabelUse) -> String {
    let title = use_title(&it.methods).to_lowercase();
    let rate = match (it.rate_typed.as_str(), it.most_typed.as_str()) {
        ("", most) => most.to_owned(),
        (least, "") => least.to_owned(),
        (least, most) => format!("{least} to {most}"),
    };
    let agents = it.against.iter().map(|agent| treat::agent(*agent));
    let agents = agents.collect::<Vec<_>>().join(", ").to_lowercase();
    let against = (!agents.is_empty()).then(|| format!("against {agents}"));
    let said = [
        Some(rate).filter(|rate| !rate.is_empty()),
        against,
        it.soak_s
            .map(|s| format!("{} in the dip", super::bath::minutes(s))),
        it.interval_days.map(|days| format!("{days} days between")),
        it.most_per_year
            .map(|most| format!("{most} times a year at most")),
        it.reentry_h
            .map(|hours| format!("re-entry after {hours} h")),
        Some(&it.gear)
            .filter(|text| !text.is_empty())
            .map(|text| format!("gear: {text}")),
        ph(it),
        it.pots_too
            .then(|| "emptied pots in the same bath".to_owned()),
        it.airing.then(|| CALLS_FOR_AIRING.to_lowercase()),
        (!it.mix_with.is_empty())
            .then(|| format!("allowed in one tank with {} others", it.mix_with.len())),
        Some(&it.never_with)
            .filter(|text| !text.is_empty())
            .map(|text| format!("{} {text}", NEVER_WITH.to_lowercase())),
        Some(it.note.clone()).filter(|text| !text.is_empty()),
    ];
    let said: Vec<String> = said.into_iter().flatten().collect();
    if said.is_empty() {
        title
    } else {
        format!("{title} ({})", said.join(", "))
    }
}

fn ph(it: &LabelUse) -> Option<String> {
    let tenths = |ph: u8| decimal(i64::from(ph), 1);
    let said = match (it.ph_least.map(tenths), it.ph_most.map(tenths)) {
        (None, None) => return None,
        (Some(least), Some(most)) => format!("{least} to {most}"),
        (one, other) => one.or(other).unwrap_or_default(),
    };
    Some(format!("pH {said}"))
}

#[must_use]
pub fn remove_use(title: &str) -> String {
    format!("Take out: {}", title.to_lowercase())
}

#[must_use]
pub fn remove_active(name: &str) -> String {
    format!("Take out: {name}")
}

#[must_use]
pub fn as_typed(name: &str) -> String {
    format!("Add \"{name}\" as typed")
}

/// The number of a use.
#[must_use]
pub fn number(which: UseNumber) -> &'static str {
    match which {
        UseNumber::SoakMin => "Minutes in a dip, as the label says",
        UseNumber::IntervalDays => "Days between two uses",
        UseNumber::MostPerYear => "Most uses in a year",
        UseNumber::ReentryHours => "Hours until re-entry, for this use",
        UseNumber::PhLeast => "pH of the water, least",
        UseNumber::PhMost => "pH of the water, most",
    }
}

/// What to type, as a key that leads there.
#[must_use]
pub fn missing(what: StillMissing) -> &'static str {
    match what {
        StillMissing::Rate => "The rate",
        StillMissing::Actives => "The active ingredient",
        StillMissing::Registration => "The registration number",
        StillMissing::Reentry => "The time until re-entry",
        StillMissing::Uses => "What it may be used for",
    }
}

/// What is wrong at a field of the label.
#[must_use]
pub fn fault(fault: &LabelFault) -> String {
    match fault {
        LabelFault::Missing => "Fill in the name.".to_owned(),
        LabelFault::Rate(fault) => treat::rate_fault(fault),
        LabelFault::Content(ContentFault::WhichPercent { .. }) => {
            "Per cent of the weight, or weight in the volume? Choose below.".to_owned()
        }
        LabelFault::Content(ContentFault::MoreThanWhole) => {
            "That is more active than product. Look at the label again.".to_owned()
        }
        LabelFault::Content(ContentFault::Unreadable(_)) => {
            "Write the content with its unit: 190 g/L, 500 g/kg, 50 % w/w.".to_owned()
        }
        LabelFault::Number { most } => format!("Type a number from 0 to {most}."),
        LabelFault::MostBelowLeast => "The highest rate is lower than the lowest.".to_owned(),
        LabelFault::RatesDiffer => {
            "The two rates count different things: write both in the same units.".to_owned()
        }
        LabelFault::PhTurned => "The most is below the least.".to_owned(),
    }
}

/// One meaning of an unclear rate, as a key.
#[must_use]
pub fn meaning(meaning: Meaning, text: &str) -> String {
    match meaning {
        Meaning::PartsOfWater => format!("One part and so many of water: {text}"),
        Meaning::PartsInTotal => format!("One part in so many of the finished mixture: {text}"),
        Meaning::PercentByVolume => format!("{text}: mL in 100 mL, for a liquid"),
        Meaning::PercentWeightInVolume => format!("{text}: g in 100 mL, for a powder"),
        Meaning::Unit(_) => text.to_owned(),
    }
}

/// "50 % w/w: g in 100 g".
#[must_use]
pub fn percent_meaning(text: &str) -> String {
    if text.ends_with("w/w") {
        format!("{text}: g in 100 g of product")
    } else {
        format!("{text}: g in 100 mL of product")
    }
}

/// "FRAC 3 · DMI".
#[must_use]
pub fn codes_and_group(row: &Active) -> String {
    if row.codes.is_empty() {
        format!("no code · {}", row.group)
    } else {
        format!("{} · {}", row.codes.join(", "), row.group)
    }
}

/// What the table says of an active, line by line, its origin last.
#[must_use]
pub fn of_the_table(row: &Active) -> Vec<String> {
    let mut lines = vec![codes_and_group(row)];
    if let Some(risk) = row.risk {
        lines.push(format!("Risk of resistance: {}.", risk_words(risk)));
    }
    let named = |agents: &[velamen_core::event::AgentClass]| {
        let words: Vec<String> = agents
            .iter()
            .map(|agent| treat::agent(*agent).to_lowercase())
            .collect();
        words.join(", ")
    };
    if !row.acts_on.is_empty() {
        lines.push(format!("Acts on: {}.", named(row.acts_on)));
    }
    if !row.partly_on.is_empty() {
        lines.push(format!("Acts on some: {}.", named(row.partly_on)));
    }
    lines.extend(row.minding.iter().map(|what| minding(*what).to_owned()));
    lines.push(format!(
        "From the built-in table ({}). It says nothing of what is permitted.",
        row.sources()
    ));
    lines
}

fn risk_words(risk: Risk) -> String {
    let word = |level: Level| match level {
        Level::Low => "low",
        Level::Medium => "medium",
        Level::High => "high",
    };
    if risk.least == risk.most {
        word(risk.least).to_owned()
    } else {
        format!("{} to {}", word(risk.least), word(risk.most))
    }
}

/// What to mind with an active.
#[must_use]
pub fn minding(what: Minding) -> &'static str {
    match what {
        Minding::GrowthRegulating => "Repeated drenches can keep growth short.",
        Minding::OneUseThenChange => "One use, then another group.",
        Minding::NotWithOil => "Not together with oil.",
        Minding::NotInHeat => "Not in heat or sun.",
        Minding::NotNearCopper => "Not within weeks of copper.",
        Minding::NotNearPhosphonate => "Not within weeks of a phosphonate.",
        Minding::AlkalineWater => "Falls apart in alkaline water: measure its pH.",
        Minding::TenderPlants => {
            "Can harm Dendrobium, and flowers and buds of Phalaenopsis and Paphiopedilum."
        }
        Minding::MarksFlowers => "Its solvents can mark flowers and soft growth.",
        Minding::HostDefence => "Wakes the plant's own defence; kills nothing itself.",
        Minding::Living => "Alive: not in one bath with what kills it.",
        Minding::PartnerAsked => "A label may ask for a partner of another code.",
        Minding::OftenRestricted => "Often restricted by law: look twice.",
        Minding::Bees => "Dangerous to bees.",
        Minding::HighHazard => "High hazard to people: look at the label's gear.",
        Minding::MiteFlare => "Mites may multiply after it.",
        Minding::YoungStagesOnly => "Reaches eggs or young stages, not adults.",
        Minding::ContactOnly => "Only where the liquid touches.",
        Minding::SameMainGroup => {
            "Of one main group with its neighbours by letter: no change from them."
        }
    }
}
