//! Words for bottles, jars and bags on the shelf, what is left in them, and what to buy.

use chrono::NaiveDate;
use velamen_core::container_draft::ContainerFault;
use velamen_core::event::{ContainerCounted, ContainerSet, ContainerUsed, Held, UsedWhy};
use velamen_core::quantity::{Amount, QuantityError};
use velamen_core::view::buying::{BuyRow, Shelf};
use velamen_core::view::containers::{ContainerRow, Dated};

use super::format::{counted, full_day, near_day, short_day};
use super::measure::amount;
use crate::words::parts::capital;

pub const TITLE: &str = "On the shelf";
pub const NEW: &str = "Put a container on the shelf";
pub const NEW_TITLE: &str = "A container for the shelf";
pub const NONE_YET: &str =
    "None yet. With its bottles here, each bath takes from one, and what runs out is said in time.";
pub const HELD: &str = "It holds, as it says";
pub const HELD_HINT: &str = "With its unit: 500 mL, 1 L, 250 g, 1 kg";
pub const LEFT_NOW: &str = "Left in it now";
pub const LEFT_NOW_HINT: &str = "Empty where it is full.";
pub const BATCH: &str = "Batch number on it";
pub const OPENED: &str = "Opened on";
pub const EXPIRES: &str = "Good until";
pub const COUNT: &str = "Count it again";
pub const COUNT_HINT: &str =
    "Hold it against the light, or weigh it. What is reckoned here is an estimate.";
pub const COUNTED: &str = "That is what is left";
pub const GONE: &str = "Something left it without treating a plant";
pub const GONE_HOW_MUCH: &str = "How much";
pub const SPILT: &str = "It was spilt";
pub const TAKE_OFF: &str = "Take it off";
pub const STANDS_ON_IT: &str = "What stands on it";
pub const EMPTY: &str = "It is empty, or gone";
pub const EMPTY_HINT: &str = "Rinse it three times at once, unless its label says otherwise: drain it half a minute, fill a quarter, close it, shake half a minute, pour that into the bath. Then take it where the label says. Its uses stay on record.";
pub const ADDED: &str = "container on the shelf";
pub const TAKEN_FROM: &str = "Taken from";
pub const ANOTHER: &str = "Another container";
pub const SPILL_CAUTION: &str =
    "Gloves on. Take it up with sand or litter, into a bag of its own; nothing down a drain.";

pub const BUY: &str = "What to buy";
pub const BUY_HINT: &str =
    "For the treatments planned in the next four weeks. Tick what you have bought.";
pub const BUY_NONE: &str = "No treatment is planned for the next four weeks.";
pub const BUY_ORIGIN: &str = "What a treatment will take is the median of the last uses, brought to as many plants. The label and the tub decide.";
pub const BOUGHT: &str = "bought";
pub const PRINT: &str = "Print this list";

/// "340 mL left of 500 mL".
#[must_use]
pub fn left(row: &ContainerRow) -> String {
    let held = amount(row.held.amount(row.held.figure()));
    match row.left {
        Some(left) => format!("{} left of {held}", amount(left)),
        None => format!("{held}; what is left was not counted"),
    }
}

/// "mL left of 500 mL".
#[must_use]
pub fn left_of(unit: &str, held: Amount) -> String {
    format!("{unit} left of {}", amount(held))
}

/// What a container is called where several are told apart: its batch, or when it was opened.
#[must_use]
pub fn name(row: &ContainerRow, today: NaiveDate) -> String {
    let opened = match row.opened_on {
        Some(on) => format!("opened {}", short_day(on, today)),
        None => "not opened yet".to_owned(),
    };
    if row.batch.is_empty() {
        capital(&opened)
    } else {
        format!("Batch {}, {opened}", row.batch)
    }
}

/// What is wrong with a container, worst first.
#[must_use]
pub fn warnings(row: &ContainerRow) -> Vec<String> {
    let mut said = Vec::new();
    if let Some(on) = row.expires_on {
        match row.dated {
            Dated::Expired => said.push(format!(
                "Past its date: it was good until {}. Ask where it may be handed in.",
                full_day(on)
            )),
            Dated::Soon => said.push(format!("Good until {} only.", full_day(on))),
            Dated::Good => {}
        }
    }
    if row.overdrawn {
        said.push("More was taken than it held. Count it again.".to_owned());
    } else if row.low {
        said.push("Low: less than a common use takes, or a tenth of it.".to_owned());
    }
    if row.other_unit > 0 {
        let uses = counted(i64::from(row.other_unit), "use", "uses");
        said.push(format!(
            "{uses} measured in the other unit took nothing off."
        ));
    }
    said
}

/// Less in it than is to be measured.
#[must_use]
pub fn lacks(row: &ContainerRow) -> String {
    let left = row.left.map(amount).unwrap_or_default();
    format!(
        "By what is reckoned only {left} are left in it. Count it again, or take the rest from another; it is recorded all the same."
    )
}

/// "More was taken than the 40 mL that were left…".
#[must_use]
pub fn more_than_held(left: Amount) -> String {
    format!(
        "Recorded. By the book only {} were left in that container: count it again.",
        amount(left)
    )
}

#[must_use]
pub fn expired(on: NaiveDate) -> String {
    format!("Recorded. That container was good until {}.", full_day(on))
}

/// The grams or millilitres that were wanted.
#[must_use]
pub const fn other_unit(weighs: bool) -> &'static str {
    if weighs {
        "It was filled by weight: type grams."
    } else {
        "It was filled by volume: type millilitres."
    }
}

/// What is wrong with a figure as typed.
#[must_use]
pub fn fault(fault: &ContainerFault) -> String {
    let words = match fault {
        ContainerFault::OtherUnit { weighs } => other_unit(*weighs),
        ContainerFault::MoreThanItHolds => {
            "That is more than it holds. Put right what it holds, or count again."
        }
        ContainerFault::Typed(QuantityError::Empty) => {
            "Type how much, with its unit: 500 mL, 1 kg."
        }
        ContainerFault::Typed(QuantityError::NoUnit { .. }) => "Add the unit: 500 mL, 1 kg.",
        ContainerFault::Typed(QuantityError::Negative | QuantityError::Zero) => {
            "It has to be more than nothing."
        }
        ContainerFault::Typed(QuantityError::TooLarge { .. }) => "That is too large.",
        ContainerFault::Typed(QuantityError::AmbiguousUnit { .. }) => {
            "That unit means several things: write mL, L, g or kg."
        }
        ContainerFault::Typed(_) => "That is no amount. Type it with its unit: 500 mL, 1 kg.",
    };
    words.to_owned()
}

/// What an entry says of a container.
#[must_use]
pub fn set(it: &ContainerSet) -> String {
    if it.retired == Some(true) {
        return "A container is empty or gone.".to_owned();
    }
    let mut said = Vec::new();
    if let Some(held) = it.held() {
        said.push(figure(held));
    }
    if let Some(batch) = it.batch.as_ref().filter(|batch| !batch.is_empty()) {
        said.push(format!("batch {batch}"));
    }
    if let Some(on) = it.opened_on {
        said.push(format!("opened {}", full_day(on)));
    }
    if let Some(on) = it.expires_on {
        said.push(format!("good until {}", full_day(on)));
    }
    if said.is_empty() {
        "A container was changed.".to_owned()
    } else {
        format!("Container: {}.", said.join(", "))
    }
}

fn figure(held: Held) -> String {
    amount(held.amount(held.figure()))
}

/// "A container was counted: 120 mL left, 150 mL had been reckoned."
#[must_use]
pub fn counted_again(it: &ContainerCounted) -> String {
    let left = it.held();
    let reckoned = it.believed.map_or_else(String::new, |believed| {
        let believed = figure(left.with(believed.max(0)));
        format!(", {believed} had been reckoned")
    });
    format!("A container was counted: {} left{reckoned}.", figure(left))
}

#[must_use]
pub fn used(it: &ContainerUsed) -> String {
    let why = match it.why {
        UsedWhy::Spilt => "spilt",
        UsedWhy::MixedUnused => "mixed and thrown out unused",
        UsedWhy::Other => "taken out without treating a plant",
    };
    format!("{} of a container: {why}.", figure(it.held()))
}

/// What a question says of a container that more was taken from than it held.
#[must_use]
pub fn overdrawn(product: &str) -> String {
    format!(
        "More {product} was taken from a container than it held. Count what is left in it, or which one it was."
    )
}

/// "30 mL for 10 plants on 15 March; 12 mL left".
#[must_use]
pub fn needs(row: &BuyRow, today: NaiveDate) -> String {
    let plants = counted(i64::from(row.plants), "plant", "plants");
    let when = near_day(row.first_on, today);
    let times = if row.times > 1 {
        format!(", {} treatments", row.times)
    } else {
        String::new()
    };
    match row.needed {
        Some(needed) => format!(
            "About {} for {plants}{times}, first {when}; the median of {}.",
            amount(needed),
            counted(i64::from(row.uses), "last use", "last uses")
        ),
        None => format!("For {plants}{times}, first {when}; nothing was measured of it yet."),
    }
}

/// What stands on the shelf of it.
#[must_use]
pub fn shelf(row: &BuyRow) -> String {
    match (row.shelf, row.short) {
        (Shelf::NotKept, _) => "No container of it is kept here: look.".to_owned(),
        (Shelf::Unknown, _) => "What is left is not known: count it.".to_owned(),
        (Shelf::Left(left), None) => format!("Enough: {} left in date.", amount(left)),
        (Shelf::Left(left), Some(short)) => {
            format!("Missing {}; {} left in date.", amount(short), amount(left))
        }
    }
}

/// Planned treatments without a product.
#[must_use]
pub fn open(on: NaiveDate, plants: u32, today: NaiveDate) -> String {
    format!(
        "{}: a treatment of {} whose product is not chosen yet.",
        near_day(on, today),
        counted(i64::from(plants), "plant", "plants")
    )
}

/// The row of the Round.
#[must_use]
pub fn missing_soon(rows: &[BuyRow], today: NaiveDate) -> String {
    let names: Vec<&str> = rows.iter().map(|row| row.label_name.as_str()).collect();
    let first = rows.iter().map(|row| row.first_on).min();
    let when = first.map_or_else(String::new, |on| format!(" for {}", near_day(on, today)));
    format!("Not enough on the shelf{when}: {}", names.join(", "))
}
