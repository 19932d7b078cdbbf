//! Measures, and how an amount is measured with them.

use velamen_core::event::{MeasureKind, MeasureSet};
use velamen_core::measure::{MeasureFault, in_its_unit};
use velamen_core::quantity::{Amount, QuantityError};
use velamen_core::view::measures::{MeasureRow, Measuring, MeasuringStep};

use super::format::{decimal, litres_exact};
use super::rejection;

pub const TITLE: &str = "Measures";
pub const HINT: &str = "For the shelf of chemicals alone: none of them goes back to a kitchen.";
pub const COMMON: &str = "Common sizes";
pub const COMMON_HINT: &str =
    "One tap puts it on the shelf. Look at its marks: where they differ, change it.";
pub const OWN: &str = "By its own marks";
pub const KIND: &str = "What it is";
pub const NAME: &str = "What you call it";
pub const NAME_HINT: &str = "May be left empty: its size names it.";
pub const MOST: &str = "The most it takes";
pub const GRADUATION: &str = "From one mark to the next";
pub const LEAST: &str = "The least it measures well";
pub const LEAST_HINT: &str =
    "A tenth of what it holds is a good rule. Empty: its first mark. Common practice, no source.";
pub const ADD: &str = "Put this measure on the shelf";
pub const ADDED: &str = "measure on the shelf";
pub const NONE_YET: &str = "No measures yet.";
pub const WITH: &str = "With your measures";
pub const TO_SHELF: &str = "Put your measures on the shelf";
pub const QUIET: &str =
    "With your syringes and scales on the shelf, the fills are worked out here.";
pub const BELOW: &str = "That is less than the label's lowest rate.";

#[must_use]
pub fn kind(kind: MeasureKind) -> &'static str {
    match kind {
        MeasureKind::Syringe => "Syringe",
        MeasureKind::Cylinder => "Cylinder",
        MeasureKind::Spoon => "Spoon",
        MeasureKind::Jug => "Jug",
        MeasureKind::Scale => "Scale",
    }
}

/// The unit its boxes say.
#[must_use]
pub const fn unit(kind: MeasureKind) -> &'static str {
    if kind.weighs() { "g" } else { "mL" }
}

/// An amount without rounding: "12.34 mL", "1.25 L", "0.1 g".
#[must_use]
pub fn amount(amount: Amount) -> String {
    let (thousandths, small, large) = match amount {
        Amount::Volume(volume) => (volume.ul(), "mL", "L"),
        Amount::Mass(mass) => (mass.mg(), "g", "kg"),
    };
    // A litre is said where no more than two digits follow it.
    if thousandths >= 1_000_000 && thousandths % 10_000 == 0 {
        format!("{} {large}", decimal(thousandths / 1_000, 3))
    } else {
        format!("{} {small}", decimal(thousandths, 3))
    }
}

/// "5 mL syringe", "0.1 g scale": a scale goes by its steps, the others by what they hold.
#[must_use]
pub fn size(kind: MeasureKind, most: i64, graduation: i64) -> String {
    let figure = if kind.weighs() { graduation } else { most };
    let figure = amount(in_its_unit(kind.weighs(), figure));
    format!("{figure} {}", self::kind(kind).to_lowercase())
}

/// What it is called here, or its size.
#[must_use]
pub fn name(row: &MeasureRow) -> String {
    if row.name.is_empty() {
        size(row.measure.kind, row.measure.most, row.measure.graduation)
    } else {
        row.name.clone()
    }
}

/// "0.6 to 5 mL, marks every 0.2 mL".
#[must_use]
pub fn marks(row: &MeasureRow) -> String {
    let it = &row.measure;
    let figure = |smallest| amount(in_its_unit(it.kind.weighs(), smallest));
    if it.least == it.most {
        return format!("{} each time", figure(it.most));
    }
    let steps = if it.kind.weighs() {
        "steps of"
    } else {
        "marks every"
    };
    format!(
        "{} to {}, {steps} {}",
        figure(it.least),
        figure(it.most),
        figure(it.graduation)
    )
}

/// "5 mL syringe: 4 × 5 mL, then 1 × 3.4 mL".
#[must_use]
pub fn step(step: &MeasuringStep) -> String {
    let fills: Vec<String> = step
        .fills
        .iter()
        .map(|(times, each)| format!("{times} × {}", amount(*each)))
        .collect();
    format!("{}: {}", name(&step.row), fills.join(", then "))
}

/// What an entry says of a measure.
#[must_use]
pub fn set(it: &MeasureSet) -> String {
    if it.retired == Some(true) {
        return "A measure is no longer used.".to_owned();
    }
    let name = it.name.clone().filter(|name| !name.is_empty());
    let size = match (it.kind, it.most, it.graduation) {
        (Some(kind), Some(most), Some(graduation)) => Some(size(kind, most, graduation)),
        _ => None,
    };
    match name.or(size) {
        Some(name) => format!("Measure: {name}."),
        None => "The marks of a measure were read again.".to_owned(),
    }
}

fn per_cent(permille: i64) -> String {
    let permille = permille.abs();
    if permille == 0 {
        return "less than 0.1 %".to_owned();
    }
    format!("{} %", decimal(permille, 1))
}

/// "23.4 mL in all: 0.6 % under."
#[must_use]
pub fn sum(total: Amount, exact: bool, over: bool, off_permille: i64) -> String {
    let total = amount(total);
    if exact {
        return format!("{total} in all: exactly it.");
    }
    let side = if over { "over" } else { "under" };
    format!("{total} in all: {} {side}.", per_cent(off_permille))
}

/// Where it lies between the label's lowest and highest rate.
#[must_use]
pub fn in_range(permille: i64) -> String {
    match permille {
        ..=0 => "The label's lowest rate.".to_owned(),
        1000.. => "The label's highest rate.".to_owned(),
        within => format!(
            "{} of the way from the label's lowest rate to its highest.",
            per_cent(within)
        ),
    }
}

/// Why no fills are named, and what helps.
#[must_use]
pub fn cannot(why: &Measuring) -> String {
    match why {
        Measuring::NoMeasures | Measuring::Steps { .. } => QUIET.to_owned(),
        Measuring::NoScale => {
            "A powder is weighed, and there is no scale on the shelf. A spoon does not weigh."
                .to_owned()
        }
        Measuring::OnlyScales => {
            "A liquid is measured, and there are only scales on the shelf.".to_owned()
        }
        Measuring::TooOften => {
            "Your largest measure would be filled more than 20 times: one loses count. Take a larger one."
                .to_owned()
        }
        Measuring::TooCoarse {
            off_permille,
            water,
        } => {
            let off = off_permille.map_or_else(
                || "No measure on the shelf goes so low.".to_owned(),
                |off| {
                    let off = per_cent(off);
                    format!("No measure on the shelf is fine enough: the nearest is {off} off.")
                },
            );
            let water = water.map_or_else(String::new, |water| {
                let water = litres_exact(water);
                format!(" In {water} of water it could be measured; or take a finer measure.")
            });
            format!("{off}{water}")
        }
    }
}

/// What is wrong with a figure as typed.
#[must_use]
pub fn fault(fault: &MeasureFault) -> String {
    match &fault.fault {
        QuantityError::Empty => "Type what stands on it.".to_owned(),
        other => rejection::quantity(other),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use velamen_core::quantity::{Mass, Volume};
    use wasm_bindgen_test::wasm_bindgen_test;

    #[wasm_bindgen_test]
    fn a_fill_keeps_every_digit_of_its_mark() {
        let ml = |ul| amount(Amount::Volume(Volume::from_ul(ul)));
        assert_eq!(ml(12_340), "12.34 mL");
        assert_eq!(ml(5_000), "5 mL");
        assert_eq!(ml(1_250_000), "1.25 L");
        assert_eq!(ml(1_251_000), "1251 mL");
        assert_eq!(amount(Amount::Mass(Mass::from_mg(100))), "0.1 g");
        assert_eq!(size(MeasureKind::Scale, 500_000, 100), "0.1 g scale");
    }

    #[wasm_bindgen_test]
    fn an_error_is_said_in_per_cent_and_small_ones_too() {
        let ml = |ul| Amount::Volume(Volume::from_ul(ul));
        assert_eq!(
            sum(ml(23_400), false, false, -6),
            "23.4 mL in all: 0.6 % under."
        );
        assert_eq!(
            sum(ml(23_400), false, true, 0),
            "23.4 mL in all: less than 0.1 % over."
        );
        assert_eq!(sum(ml(25_000), true, false, 0), "25 mL in all: exactly it.");
    }
}
