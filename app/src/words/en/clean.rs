//! The wash's own words. Cautions are common practice, no source, unless the list of origins names one.

use velamen_core::clean::{CleanFault, DilutionFault, Tool};
use velamen_core::event::{DivisionOpened, Material, MaterialsMoved, Object, Sanitised, Stage};
use velamen_core::quantity::{Amount, Mass, QuantityError, Volume};
use velamen_core::reference::sanitizers::{self, Agent, Mind, Reach};

use super::format::{self, counted, decimal, litres};
use super::{bath, trade};

pub const WASH: &str = "The wash";
pub const EMPTY: &str = "Nothing here.";
pub const LESSON: &str =
    "Pots and stone that a repot empties come here by themselves. New ones can be put in.";
pub const DISINFECT: &str = "Disinfect";
pub const DISINFECT_STONE: &str = "Disinfect stone";
pub const ADD: &str = "Put pots or stone in";
pub const PUT_IN: &str = "Put in";
pub const WHICH: &str = "What";
pub const STONE: &str = "Stone";
pub const OTHER_POT: &str = "Another pot";
pub const POT_NAME: &str = "What kind of pot";
pub const HOW: &str = "They are";
pub const NEW: &str = "new";
pub const FOUND_DIRTY: &str = "used, dirty";
pub const HOW_MANY: &str = "How many";
pub const NOTHING_SAID: &str = "Say how much goes in.";
pub const HOW_MUCH: &str = "Millilitres of stone";
pub const THROW: &str = "Throw away";
pub const NOT_THERE: &str = "They are not there";
pub const AGAIN: &str = "Dirty again";
pub const LEAVE: &str = "Leave it";
pub const IN_HAND: &str = "Baths for cleaning";
pub const CLEAN_ELSE: &str = "Tools, bench, tub";
pub const NEVER: &str = "Chlorine: what it never meets";
pub const ON_RECORD: &str = "Disinfected lately";
pub const APART_HINT: &str = "A virus is suspected. Its pots and stone stay in a crate of their own: stone through the oven or boiled, pots thrown away.";
pub const GLOVES: &str = "Gloves are changed, not disinfected: a pair for each clump, and one for each plant where a virus is suspected.";
pub const WITH: &str = "With";
pub const WHAT: &str = "What is cleaned";
pub const STOCK: &str = "Strength on the bottle";
pub const STOCK_HINT: &str = "Available chlorine, as the bottle says it: 5.25 %, 48 g/L";
pub const STOCK_HINT_OTHER: &str = "As the bottle says it: 96 %";
pub const STRENGTH: &str = "Strength wanted, if not the usual";
pub const SUSPECT: &str = "A virus is suspected";
pub const CONTACT: &str = "Minutes in it";
pub const WATER: &str = "The bath";
pub const MEASURE: &str = "Measure";
pub const BY_LABEL: &str = "Mix it as its label says.";
pub const MADE: &str = "Made";
pub const HEATED: &str = "Ready";
pub const TAKE_ALL_IN: &str = "Last one goes in";
pub const CLEANED_FIRST: &str = "Scrubbed and rinsed first";
pub const CLEANED_HINT: &str = "Dirt and soap use the disinfectant up.";
pub const NO_WASHED: &str = "Nothing washed stands ready. Wash first: brush, water, rinse.";
pub const LOOKS_DIRTY: &str = "It looks dirty";
pub const MAKE_ANEW: &str = "Make it anew";
pub const THROW_OUT: &str = "Throw it out";
pub const GIVE_UP: &str = "Give it up";
pub const LIES: &str = "In the disinfectant";
pub const OUT: &str = "Out, rinse";
pub const TAKEN_OUT: &str = "disinfected";
pub const NOT_IN: &str = "Nothing went in";
pub const TOO_SHORT: &str = "Out too soon: recorded, but they stay with the washed ones.";
pub const LABEL_LAW: &str = "The label on the bottle and local rules come first. This list says what is usual, not what is permitted.";
pub const ORIGIN: &str = "The sources stand in the Shed under \"Where the figures come from\".";
pub const TOOLS_NOW: &str = "Tools in turn";
pub const ONE_TOOL: &str = "One";
pub const TWO_TOOLS: &str = "Two";
pub const THREE_TOOLS: &str = "Three";
pub const TURN_HINT: &str = "One lies in the tool bath while another cuts.";
pub const SAME_TOOL: &str = "Tool not changed after the last clump";
pub const CUT_ORDER: &str = "Cut today, in this order";
pub const SUSPECTED: &str = "virus suspected";

/// Gear and air before bleach is opened, in the order they are seen to.
pub const CAUTIONS: [&str; 4] = [
    "Gloves, goggles and an apron; a door or a roof vent open.",
    "Bleach into the water, never water into the bleach. Measure, then water up to the mark.",
    "Never beside vinegar or another acid, ammonia, fertiliser, alcohol, peroxide or any product left in the tub: gas.",
    "Never in a sprayer with aluminium or brass. It eats steel: rinse blades.",
];

/// What chlorine never meets, one a line.
pub const NEVER_WITH: [&str; 6] = [
    "acids: vinegar, acid cleaner, acid fertiliser: chlorine gas",
    "ammonia, urea or ammonium fertiliser, cleaners with ammonia: toxic gas",
    "alcohol or acetone: irritating fumes",
    "peroxide or peracetic acid: gas, and both are lost",
    "peroxymonosulfate, which is an acid salt: chlorine gas",
    "any pesticide left in tub or measure: rinse three times first",
];
pub const FLAME: &str =
    "A flame never comes near alcohol: not after an alcohol dip, not beside its tub.";

#[must_use]
pub fn object(object: Object) -> &'static str {
    match object {
        Object::Tools => "Tools",
        Object::Gloves => "Gloves",
        Object::Pots => "Pots",
        Object::Stone => "Stone",
        Object::Bench => "Bench",
        Object::Tub => "Tub",
    }
}

#[must_use]
pub fn stage(stage: Stage) -> &'static str {
    match stage {
        Stage::Uncounted => "Not counted",
        Stage::New => "New",
        Stage::InUse => "With plants",
        Stage::Dirty => "Dirty",
        Stage::Washed => "Washed",
        Stage::Disinfected => "Disinfected, drying",
        Stage::Clean => "Dry and clean",
        Stage::Discarded => "Thrown away",
    }
}

/// What the key says that moves a pile on: "Washed: 12".
#[must_use]
pub fn on_to(to: Stage, material: &Material) -> String {
    let word = match to {
        Stage::Clean => "Dry and clean",
        other => stage(other),
    };
    format!("{word}: {}", amount(material))
}

/// "12 pots", "4.5 L of stone".
#[must_use]
pub fn amount(material: &Material) -> String {
    if material.is_stone() {
        format!("{} of stone", litres(Volume::from_ul(material.stone_ul)))
    } else {
        trade::pots(i64::from(material.pots))
    }
}

/// A figure alone: "12", "4.5 L".
#[must_use]
pub fn figure(material: &Material) -> String {
    if material.is_stone() {
        litres(Volume::from_ul(material.stone_ul))
    } else {
        material.pots.to_string()
    }
}

/// The kind of a pile.
#[must_use]
pub fn kind(material: &Material, name: &str) -> String {
    match (material.is_stone(), name) {
        (true, _) => STONE.to_owned(),
        (false, "") => "Pots, kind not noted".to_owned(),
        (false, name) => name.to_owned(),
    }
}

/// "Dirty · tray 3".
#[must_use]
pub fn where_it_is(at: Stage, from: &str) -> String {
    if from.is_empty() {
        stage(at).to_owned()
    } else {
        format!("{} · {from}", stage(at))
    }
}

/// "Kept apart: tray 3".
#[must_use]
pub fn apart(of: &str) -> String {
    format!("Kept apart: {of}")
}

#[must_use]
pub fn tray(number: u32, day: &str) -> String {
    format!("tray {number}, {day}")
}

#[must_use]
pub fn among(trays: &str) -> String {
    format!(
        "A virus is suspected by now of what came from {trays}. Its pots and stone went among the others before."
    )
}

/// What washing saved.
#[must_use]
pub fn saved(pots: u64, stone: Option<Volume>) -> Option<String> {
    let pots = (pots > 0).then(|| trade::pots(i64::try_from(pots).unwrap_or(i64::MAX)));
    let stone = stone.map(|stone| format!("{} of stone", litres(stone)));
    let both: Vec<String> = [pots, stone].into_iter().flatten().collect();
    (!both.is_empty()).then(|| format!("Washed and used again so far: {}.", both.join(" and ")))
}

#[must_use]
pub fn fewer(at: Stage, left: i64, stone: bool) -> String {
    let left = if stone {
        litres(Volume::from_ul(left))
    } else {
        trade::pots(left)
    };
    format!("Only {left} there: {}.", stage(at).to_lowercase())
}

#[must_use]
pub fn few(clean: i64, wanted: u32) -> String {
    format!("Only {} counted, {wanted} wanted.", clean_pots(clean))
}

fn clean_pots(clean: i64) -> String {
    counted(clean, "clean pot", "clean pots")
}

/// "Only 4 clean 13 cm pots counted."
#[must_use]
pub fn only_clean(clean: i64, pot: &str) -> String {
    let pots = if clean == 1 { "pot" } else { "pots" };
    format!("Only {clean} clean {pots} counted: {pot}.")
}

#[must_use]
pub fn clean_left(clean: i64) -> String {
    format!("{} counted in the wash.", clean_pots(clean))
}

/// An agent by its key; the grower's own word stands as typed.
#[must_use]
pub fn agent(key: &str) -> String {
    match key {
        "chlorine" => "Chlorine (bleach)",
        "chlorine_powder" => "Chlorine powder",
        "peroxymonosulfate" => "Peroxymonosulfate salt",
        "trisodium_phosphate" => "Trisodium phosphate",
        "quaternary_ammonium" => "Quaternary ammonium",
        "peroxide" => "Peroxide or peracetic",
        "alcohol" => "Alcohol, 70 %",
        "milk" => "Skimmed milk",
        "flame" => "Flame",
        "pasteurised" => "Moist heat, 60 °C",
        "steam" => "Steam, 82 to 93 °C",
        "boiled" => "Boiled from cold",
        "oven" => "Oven, 150 to 180 °C",
        own => own,
    }
    .to_owned()
}

/// What an agent reaches and what not, in one line.
#[must_use]
pub fn reaches(agent: &Agent) -> String {
    let of = [
        ("fungi", agent.reaches.fungi),
        ("bacteria", agent.reaches.bacteria),
        ("spores", agent.reaches.spores),
        ("ORSV", agent.reaches.orsv),
        ("CymMV", agent.reaches.cymmv),
    ];
    let named = |wanted: Reach| {
        let names = of.iter().filter(|(_, reach)| *reach == wanted);
        names.map(|(name, _)| *name).collect::<Vec<_>>().join(", ")
    };
    let parts = [
        ("reaches", named(Reach::Yes)),
        ("in part", named(Reach::Partly)),
        ("not", named(Reach::No)),
        ("nobody knows", named(Reach::Unknown)),
    ];
    let said = parts.iter().filter(|(_, names)| !names.is_empty());
    let said: Vec<String> = said
        .map(|(word, names)| format!("{word} {names}"))
        .collect();
    let mut line = said.join("; ");
    if let Some(first) = line.get_mut(0..1) {
        first.make_ascii_uppercase();
    }
    format!("{line}.")
}

/// What to mind with an agent.
#[must_use]
pub fn mind(mind: Mind) -> &'static str {
    match mind {
        Mind::IntoWater => "Into the water, never the water to it.",
        Mind::Ventilate => "A door or roof vent open.",
        Mind::NeverWithAcid => "Never beside acid, ammonia, alcohol or another disinfectant.",
        Mind::NoAluminiumOrBrass => "Not in a sprayer with aluminium or brass.",
        Mind::CorrodesSteel => "It eats steel: rinse and dry.",
        Mind::Caustic => "Caustic: gloves and goggles.",
        Mind::Flammable => "It burns: no heater, no spark.",
        Mind::FlameAwayFromAlcohol => FLAME,
        Mind::Burns => "Hot: gloves, goggles, tongs.",
        Mind::DryStoneOnly => "Clean, dry stone alone: wet stones burst.",
        Mind::FromCold => "From cold, dense stone alone: others burst. Goggles.",
        Mind::SoftensPlastic => "Plastic softens: clay, stone and steel alone.",
        Mind::Fades => "It fades fast: fresh each time.",
    }
}

/// "mL, then water up to 10 L"; a powder says grams.
#[must_use]
pub fn into_bath(unit: &str, bath: &str) -> String {
    format!("{unit}, then water up to {bath}")
}

#[must_use]
pub fn measured(amount: Amount) -> (String, &'static str) {
    bath::amount(amount)
}

/// "5 000 ppm (0.5 %) from 5.25 %".
#[must_use]
pub fn strength(ppm: u32) -> String {
    format!("{} % ({ppm} ppm)", percent(ppm))
}

/// Parts per million as per cent: "5.25".
#[must_use]
pub fn percent(ppm: u32) -> String {
    decimal(i64::from(ppm), 4)
}

#[must_use]
pub fn usual(ppm: u32) -> String {
    format!("Usual: {}.", strength(ppm))
}

#[must_use]
pub fn good_until(clock: &str) -> String {
    format!("Good until {clock}.")
}

#[must_use]
pub fn too_old(clock: &str) -> String {
    format!("Past its time since {clock}: throw it out and make it anew.")
}

pub const DIRTY_SPENT: &str = "It is dirty, so it is spent: throw it out and make it anew.";

#[must_use]
pub fn batches(batches: u32) -> String {
    match batches {
        0 => "not used yet".to_owned(),
        batches => format!("{} so far", counted(i64::from(batches), "batch", "batches")),
    }
}

/// "Disinfectant: 3:12 left".
#[must_use]
pub fn running(seconds: u32) -> String {
    format!("Disinfectant: {} left", bath::digits(seconds))
}

#[must_use]
pub fn to_take_out(since_s: u32) -> String {
    match since_s {
        0..60 => "Disinfectant: take them out now".to_owned(),
        since_s => format!("Disinfectant: over since {}", bath::minutes(since_s)),
    }
}

/// What is done once it is out.
#[must_use]
pub fn rinses(rinses: u8, rinse: bool) -> &'static str {
    match (rinse, rinses) {
        (false, _) => "No rinse: let it dry.",
        (true, 3) => "Rinse three times, then dry.",
        (true, 2) => "Rinse twice, then dry in the air.",
        (true, _) => "Rinse, then dry in the air.",
    }
}

#[must_use]
pub fn fault(fault: &CleanFault) -> String {
    match fault {
        CleanFault::NoAgent => "Choose what it is disinfected with.".to_owned(),
        CleanFault::Dilution(fault) => dilution(fault),
        CleanFault::Bath(fault) => bath::tub(fault),
        CleanFault::NoContact => "Say how many minutes it lies in it.".to_owned(),
        CleanFault::ContactTooLong => "Two days is the longest.".to_owned(),
        CleanFault::NotCleanedFirst => {
            "Scrub and rinse it first: dirt uses the disinfectant up.".to_owned()
        }
        CleanFault::NothingIn => "Pick what goes in.".to_owned(),
        CleanFault::Spent => "The mixture is spent: make it anew.".to_owned(),
        CleanFault::NotLying => "Nothing lies in it.".to_owned(),
    }
}

fn dilution(fault: &DilutionFault) -> String {
    match fault {
        DilutionFault::NoStock => {
            "Type the strength on the bottle: without it nothing can be measured.".to_owned()
        }
        DilutionFault::BadStock(QuantityError::AmbiguousNumber { .. }) => {
            "Is that comma a decimal comma? Type it with a point.".to_owned()
        }
        DilutionFault::BadStock(_) => {
            "Type a strength, such as 5.25 %, 48 g/L or 52500 ppm.".to_owned()
        }
        DilutionFault::OverWhole => "Nothing is stronger than 100 %.".to_owned(),
        DilutionFault::NoStrength => "Type the strength that is wanted.".to_owned(),
        DilutionFault::Weaker {
            stock_ppm,
            wanted_ppm,
        } => format!(
            "The bottle has {} %, {} % is wanted. Take a stronger one.",
            percent(*stock_ppm),
            percent(*wanted_ppm)
        ),
        DilutionFault::NoBath => "There is no water in it yet.".to_owned(),
        DilutionFault::TooMuch => "2 000 litres is the most for one tub.".to_owned(),
    }
}

/// The next tool: "Tool 2, clean", "Tool 2, not clean since 1 clump".
#[must_use]
pub fn tool(tool: &Tool) -> String {
    let which = if tool.mark.is_empty() {
        "Tool".to_owned()
    } else {
        format!("Tool {}", tool.mark)
    };
    match tool.cut_before {
        None => format!("{which}: nobody said whether it is clean"),
        Some(0) => format!("{which}, clean"),
        Some(before) => format!(
            "{which}, has cut {} since it was clean",
            counted(i64::from(before), "clump", "clumps")
        ),
    }
}

#[must_use]
pub fn sanitised(it: &Sanitised) -> String {
    let mut said = format!("{}: {}", object(it.what), agent(&it.agent).to_lowercase());
    if let Some(ppm) = it.strength_ppm {
        said.push_str(&format!(" at {} %", percent(ppm)));
    }
    if let Some(s) = it.contact_s {
        said.push_str(&match s {
            0..120 => format!(", {s} s"),
            s => format!(", {}", bath::minutes(s)),
        });
    }
    let what: Vec<String> = it.materials.iter().map(amount).collect();
    if !what.is_empty() {
        said.push_str(&format!(" ({})", what.join(", ")));
    }
    if !it.long_enough() {
        said.push_str(", shorter than wanted");
    }
    if it.misses_virus_on_blade() {
        said.push_str(", not counted as free of virus");
    }
    if it.suspect_source {
        said.push_str(", virus suspected");
    }
    format!("{said}.")
}

#[must_use]
pub fn moved(it: &MaterialsMoved) -> String {
    let what: Vec<String> = it.moved.iter().map(amount).collect();
    let what = what.join(" and ");
    let said = match (it.from, it.to) {
        (Stage::InUse, Stage::Dirty) => format!("{what} to the wash"),
        (Stage::Clean, Stage::InUse) => format!("{what} from the clean ones"),
        (Stage::New, _) => format!("{what}, new"),
        (_, Stage::Discarded) => format!("{what} thrown away"),
        (Stage::Uncounted, to) => format!("{what} found: {}", stage(to).to_lowercase()),
        (from, Stage::Uncounted) => format!("{what} not there: {}", stage(from).to_lowercase()),
        (_, to) => format!("{what}: {}", stage(to).to_lowercase()),
    };
    if it.apart.is_some() {
        format!("{said}, kept apart.")
    } else {
        format!("{said}.")
    }
}

/// What was measured for a mixture: "190 mL of 5.25 % made up to 2 L".
#[must_use]
pub fn mixed(it: &Sanitised) -> Option<String> {
    let bath = litres(Volume::from_ul(it.bath_ul?));
    let stock = match (it.stock_ul, it.stock_mg) {
        (Some(ul), _) => Amount::Volume(Volume::from_ul(ul)),
        (None, Some(mg)) => Amount::Mass(Mass::from_mg(mg)),
        (None, None) => return None,
    };
    let (figure, unit) = measured(stock);
    let from = it
        .stock_ppm
        .map(|ppm| format!(" of {} %", percent(ppm)))
        .unwrap_or_default();
    Some(format!("{figure} {unit}{from}, made up to {bath}."))
}

/// The tool a clump was cut with, where it was said.
#[must_use]
pub fn cut_with(it: &DivisionOpened) -> Option<String> {
    it.cut_before.map(|before| {
        let tool = Tool {
            mark: it.tool.clone(),
            cut_before: Some(before),
        };
        format!("{}.", self::tool(&tool))
    })
}

/// Whether an agent's strength is typed from a bottle.
#[must_use]
pub fn stock_hint(agent: &Agent) -> &'static str {
    if agent.key.starts_with("chlorine") {
        STOCK_HINT
    } else {
        STOCK_HINT_OTHER
    }
}

/// Keys of the agents that serve an object, the usual one first.
#[must_use]
pub fn agents_for(object: Object) -> Vec<&'static str> {
    let Some(usual) = sanitizers::usual(object) else {
        return Vec::new();
    };
    usual.agent.iter().chain(usual.others).copied().collect()
}

/// "12:10" of an instant.
#[must_use]
pub fn clock(ms: i64, off_min: i16) -> String {
    format::clock(velamen_core::time::minute_of_day(ms, off_min))
}

#[cfg(test)]
mod tests {
    use super::*;
    use wasm_bindgen_test::wasm_bindgen_test;

    #[wasm_bindgen_test]
    fn strengths_read_as_on_a_bottle() {
        assert_eq!(strength(5_000), "0.5 % (5000 ppm)");
        assert_eq!(percent(52_500), "5.25");
        assert_eq!(percent(700_000), "70");
    }

    #[wasm_bindgen_test]
    fn every_agent_has_a_name_and_says_what_it_does_not_reach() {
        for row in sanitizers::AGENTS {
            assert!(!agent(row.key).contains('_'), "{}", row.key);
            assert!(reaches(row).ends_with('.'));
        }
        let alcohol = sanitizers::agent("alcohol").unwrap();
        assert_eq!(
            reaches(alcohol),
            "Reaches fungi, bacteria; not spores, ORSV, CymMV."
        );
    }
}
