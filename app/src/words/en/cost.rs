//! What pieces have cost, in words.

use velamen_core::event::PriceOf;
use velamen_core::view::cost::{Cost, CostLine, LeftOut};

use super::format::{counted, decimal, litres, money};
use super::{prices, trade};

pub const TITLE: &str = "What it has cost";
pub const LINK: &str = "What it has cost so far";
pub const NONE: &str = "Nothing that went into it has a price yet.";
pub const NONE_HINT: &str =
    "Say in the Shed what pots, mixes, an hour of work and the bench cost. Nothing is guessed.";
pub const THIS_LOT: &str = "This lot";
pub const WITH_PARTS: &str = "with what was split off it";
pub const ALIVE: &str = "a plant that lives";
pub const PIECE: &str = "a piece potted";
pub const NOBODY_ALIVE: &str = "none lives";
pub const NOT_IN_IT: &str = "Not in these sums";
pub const BASIS: &str = "Every pot is counted at its price, used ones too. What many share, a tub or the minutes of a clump, is shared by the number of plants. Those that died are paid by those that live; what was sold lived.";

#[must_use]
pub fn division(tray: u32) -> String {
    format!("The division under tray tag {tray}")
}

/// "7 of 12 live or were sold".
#[must_use]
pub fn lived(cost: &Cost) -> String {
    format!(
        "{} of {} live or were sold",
        cost.alive,
        trade::plants(i64::from(cost.plants))
    )
}

#[must_use]
pub fn sum(cost: &Cost) -> String {
    format!("All together: {}", money(cost.cents, &cost.money))
}

/// One line: "12 pots 9 cm: 3.60 €".
#[must_use]
pub fn line(line: &CostLine, sign: &str) -> String {
    let what = prices::of(&line.of, &line.name);
    let much = match &line.of {
        PriceOf::Pot(_) | PriceOf::Label => format!("{what}, {}", line.amount),
        PriceOf::Hour => format!("{what}, {}", counted(line.amount, "minute", "minutes")),
        PriceOf::BenchMonth => {
            format!("{what}, {} m² for a month", decimal(line.amount, 2))
        }
        PriceOf::Product(_) if line.weighs => format!("{what}, {} g", decimal(line.amount, 3)),
        PriceOf::Product(_) => format!("{what}, {} mL", decimal(line.amount, 3)),
        _ => format!(
            "{what}, {}",
            litres(velamen_core::quantity::Volume::from_ul(line.amount))
        ),
    };
    format!("{much}: {}", money(line.cents, sign))
}

/// Something that is not in the sum.
#[must_use]
pub fn left_out(left: &LeftOut) -> String {
    match left {
        LeftOut::NoPrice { of, name } => {
            format!("{}: no price, not counted.", prices::of(of, name))
        }
        LeftOut::NoSize { of, name } => format!(
            "{}: no size of its bottle in that unit, not counted.",
            prices::of(of, name)
        ),
        LeftOut::NotMeasured { stands } => format!(
            "{} nobody measured: the bench under them, and perhaps mix and stone, are not counted.",
            counted(i64::from(*stands), "pot or tray", "pots or trays")
        ),
        LeftOut::NoMix => "Pots without a mix that was said: their mix is not counted.".to_owned(),
        LeftOut::NoAmount { treatments } => format!(
            "{} without a measured amount: not counted.",
            counted(i64::from(*treatments), "treatment", "treatments")
        ),
        LeftOut::NoTime => "Minutes of a clump that is not finished or was not timed.".to_owned(),
        LeftOut::Plant => "What the plant itself was bought for.".to_owned(),
        LeftOut::Care => "Watering, feeding, walking round, and later work.".to_owned(),
    }
}
