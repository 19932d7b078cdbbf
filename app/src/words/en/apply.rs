//! Drench, spray, swab and dust: their own words. The cautions are common practice, no source, unless a label or local
//! rule says more.

use velamen_core::apply::{ApplyFault, Drench, WaterFault};
use velamen_core::event::{Airing, Method};
use velamen_core::quantity::{QuantityError, Volume};

use super::format::{self, counted, in_litres};
use super::{mixing, trade, treat};

pub const ANOTHER_WAY: &str = "Another way";
pub const HOW: &str = "How?";
pub const WHAT: &str = "What is treated";
pub const WHOLE_PLACE: &str = "A whole place";
pub const LEAVE_OUT: &str = "Tap what is left out.";
pub const NEXT: &str = "Next: the bottle";
pub const BACK_TO_WHAT: &str = "Change what is treated";
pub const GIVE_UP: &str = "Give this treatment up";
pub const BEGIN: &str = "All so: begin";
pub const DONE: &str = "It is done";
pub const NOT_DONE: &str = "Nothing was done";
pub const RECORDED: &str = "treatment";
pub const HOW_MUCH: &str = "How much";
pub const BY_AREA: &str = "By the area of the place";
pub const PER_M2: &str = "Millilitres on a square metre";
pub const PER_M2_HINT: &str =
    "As the label says. Empty takes 150 mL, for plants that stand close (from memory).";
pub const PER_POT: &str = "Millilitres on a pot";
pub const PER_POT_HINT: &str = "As the label says. Empty takes an eighth of the pot, onto moist mix, nothing running through (common practice, no source).";
pub const CUP: &str = "Millilitres in the cup";
pub const CUP_HINT: &str = "Empty takes 100 mL.";
pub const NEAT: &str = "As it is in the bottle";
pub const GRAMS: &str = "Grams of dust";
pub const AIRING: &str = "Airing afterwards";
pub const AIRING_WHY: &str = "After a mist or a fog, or where the label asks for a respirator, a closed house is aired before anybody goes in. A cautious grower airs after every spray indoors.";
pub const AIRING_CALLED_FOR: &str = "The label calls for airing.";
pub const NOT_CALLED_FOR: &str = "Not called for: coarse drops, label silent";
pub const IN_HAND: &str = "Treatment in hand";
pub const YES: &str = "yes";
pub const NO: &str = "no";
pub const ANOTHER_IN_HAND: &str = "Another treatment is in hand: finish it or give it up first.";
pub const HANDS_OFF: &str = "What was treated is not touched before that.";

/// The label of the box for so much water.
#[must_use]
pub fn litres() -> &'static str {
    in_litres("Litres made up", "Gallons made up")
}

/// A way of treating, as a heading.
#[must_use]
pub fn method(method: Method) -> &'static str {
    match method {
        Method::Bath => "Bath",
        Method::Plunge => "Plunge",
        Method::Drench => "Drench",
        Method::Spray => "Spray to run-off",
        Method::Swab => "Swab or brush",
        Method::DustCut => "Dust on cuts",
    }
}

/// What it is, in a line.
#[must_use]
pub fn method_hint(method: Method) -> &'static str {
    match method {
        Method::Bath | Method::Plunge => "washed pieces or pots into a tub",
        Method::Drench => "poured on every pot",
        Method::Spray => "all leaves, undersides too, until it just drips",
        Method::Swab => "on the pest or the spot alone",
        Method::DustCut => "on the cut alone, off the roots",
    }
}

/// Cautions before a bottle is opened, by way.
#[must_use]
pub fn cautions(method: Method) -> [&'static str; 5] {
    let gear = "Gloves to the elbow, goggles, apron, and what else the label asks for. Some concentrates burn eyes and carry solvent.";
    let away = "Children, pets, ponds and bees kept away; nobody else in the house.";
    match method {
        Method::Spray => [
            gear,
            "A dust mask stops no vapour: the label says which respirator.",
            "In the cool of the day, out of the sun, plants watered the day before; not on open flowers or buds. Oil and soap not above 30 °C.",
            "Doors shut and marked before the first drop. Tank and nozzle rinsed; no bleach in a tank of aluminium or brass.",
            away,
        ],
        Method::Drench => [
            gear,
            "Open air or a wide door.",
            "Onto moist mix, not onto dry roots. What runs through is caught: it is spent product.",
            "Can and measures rinsed; no measure goes back to a kitchen.",
            away,
        ],
        Method::Swab => [
            gear,
            "Open air or a wide door. Alcohol burns: no flame and no heater near it.",
            "Three plants first, and a look after a week. Not on open flowers or in the sun.",
            "A fresh swab for every plant: a swab carries sap from one to the next.",
            away,
        ],
        Method::DustCut => [
            gear,
            "No wind; a mask against dust as the label says. Sulfur burns eyes.",
            "On the dry cut alone: dust on roots dries them out.",
            "A fresh brush for every clump: a brush carries sap from one to the next.",
            away,
        ],
        Method::Bath | Method::Plunge => super::bath::CAUTIONS,
    }
}

/// A way of airing.
#[must_use]
pub fn airing(how: Airing) -> String {
    let hours = velamen_core::reference::airing::hours(how);
    match how {
        Airing::Fans => format!("Fans on, {hours} h"),
        Airing::Vents => format!("Vents open, no fan, {hours} h"),
        Airing::Shut => format!("Left shut, {hours} h, then opened"),
    }
}

/// "12 plants of 3 lots".
#[must_use]
pub fn chosen(plants: i64, lots: usize) -> String {
    let lots = i64::try_from(lots).unwrap_or(i64::MAX);
    format!(
        "{} of {}",
        trade::plants(plants),
        counted(lots, "lot", "lots")
    )
}

/// "24 pots, about 80 mL on each".
#[must_use]
pub fn drenched(all: &Drench) -> String {
    let pots = i64::from(all.pots.saturating_sub(all.unknown)).max(1);
    let each = all.water.ul() / pots;
    let (figure, unit) = format::measured(each, "mL", "L");
    format!(
        "{}, about {figure} {unit} on each: {} in all.",
        trade::pots(i64::from(all.pots)),
        format::litres_exact(all.water)
    )
}

/// "4 m² take 0.6 L".
#[must_use]
pub fn on_area(square_metres: &str, water: Volume) -> String {
    format!("{square_metres} m² take {}.", format::litres_exact(water))
}

/// "Spray against fungus".
#[must_use]
pub fn in_hand(method: Option<Method>) -> String {
    method.map_or_else(|| HOW.to_owned(), |of| self::method(of).to_owned())
}

fn water(fault: &WaterFault, method: Option<Method>) -> String {
    match fault {
        WaterFault::Missing => match method {
            Some(Method::DustCut) => "Weigh the dust: type the grams.".to_owned(),
            _ => "Type the litres that are made up.".to_owned(),
        },
        WaterFault::Unreadable(QuantityError::AmbiguousUnit { .. }) => {
            "Whose gallon, pint or ounce? Write US or imp before it, or litres.".to_owned()
        }
        WaterFault::Unreadable(_) => match method {
            Some(Method::DustCut) => "Type the dust as a weight: 2 g.".to_owned(),
            _ => "Type the water as an amount: 2 L, 500 mL.".to_owned(),
        },
        WaterFault::Nothing => "It has to be more than nothing.".to_owned(),
        WaterFault::TooMuch => "2 000 litres is the most at one time.".to_owned(),
        WaterFault::NoPotVolume { pots } => format!(
            "How much goes on a pot? Of {} the size is not in the book.",
            trade::pots(i64::from(*pots))
        ),
        WaterFault::NoArea => {
            "The area of that place is not in the book: type it in the Shed, or type litres."
                .to_owned()
        }
    }
}

/// What is in the way.
#[must_use]
pub fn fault(fault: &ApplyFault, method: Option<Method>) -> String {
    match fault {
        ApplyFault::NoMethod => "Say how it is done.".to_owned(),
        ApplyFault::NothingTreated => {
            "Pick what is treated: a place, a lot, or pieces on the bench.".to_owned()
        }
        ApplyFault::Mix(fault) => mixing::fault(fault, method.unwrap_or(Method::Bath)),
        ApplyFault::Water(fault) => water(fault, method),
        ApplyFault::AiringNotSaid => "Say how the house is aired.".to_owned(),
    }
}

pub mod notice {
    //! The paper on the door.

    pub const TITLE: &str = "Door notice";
    pub const OPEN: &str = "Door notice";
    pub const KEEP_OUT: &str = "Keep out";
    pub const HANDS_OFF: &str = "Hands off";
    pub const PRINT: &str = "Print it";
    pub const WHERE: &str = "Where";
    pub const WITH: &str = "Treated with";
    pub const HOLDS: &str = "Holds";
    pub const REGISTRATION: &str = "Registration";
    pub const DONE: &str = "Done";
    pub const AIRING: &str = "Airing";
    pub const GEAR: &str = "Gear of the label";
    pub const BY: &str = "By";
    pub const NO_INTERVAL: &str =
        "No time was typed from the label. Read it before anybody goes in.";
    pub const OVER: &str = "This time is over. Take the notice down before anybody goes in.";
    pub const MEANWHILE: &str = "Before that only as label and local rule allow, with the label's gear. Children and pets never.";
    pub const GONE: &str = "That treatment is no longer in the book.";

    /// "until 14:10, Thursday 11 March 2027".
    #[must_use]
    pub fn until(clock: &str, day: &str) -> String {
        format!("until {clock}, {day}")
    }
}

/// "Begun at 10:42."
#[must_use]
pub fn since(clock: &str) -> String {
    format!("Begun at {clock}.")
}

/// What the Round says of a place nobody goes into yet.
#[must_use]
pub fn place_bound(label: &str, until: &str) -> String {
    format!(
        "Keep out until {until}: {label}. Before that only as label and local rule allow, with the label's gear."
    )
}

/// What the Round says of plants nobody touches yet.
#[must_use]
pub fn lots_bound(label: &str, until: &str) -> String {
    format!("Hands off until {until}: {label}.")
}

pub mod pair {
    //! Two products: in one tank, or one after the other.

    use chrono::NaiveDate;
    use velamen_core::event::AgentClass;

    use super::{format, treat};

    pub const TANK: &str = "A second product in the same tank";
    pub const TANK_HINT: &str = "Only where both labels allow it, as typed from them in the Shed.";
    pub const ADD: &str = "Add a second product";
    pub const ONLY_ONE: &str = "Only one product";
    pub const THEN: &str = "Another treatment after this one";
    pub const THEN_HINT: &str = "Against something else: it becomes a task on the Round.";
    pub const THEN_WITH: &str = "With";
    pub const DAYS: &str = "Days after this one";
    pub const DAYS_OWN: &str = "Your own: nothing built in asks for a time between the two.";
    pub const DAYS_ASKED: &str = "As far apart as the two ask for; their labels may ask for more.";
    pub const TOO_SOON: &str = "That is sooner than the two ask for.";
    pub const NONE: &str = "None";

    /// The task on the Round.
    #[must_use]
    pub fn task(product: &str, against: Option<AgentClass>) -> String {
        match against {
            Some(against) => format!(
                "Treat against {}: {product}",
                treat::agent(against).to_lowercase()
            ),
            None => format!("Treat with {product}"),
        }
    }

    /// "Due Thursday 18 March."
    #[must_use]
    pub fn due(on: NaiveDate, today: NaiveDate) -> String {
        format!("Due {}.", format::near_day(on, today))
    }

    /// "4 mL of Spinosad into the same water".
    #[must_use]
    pub fn also(figure: &str, unit: &str, product: &str) -> String {
        format!("{figure} {unit} of {product} into the same water.")
    }
}
