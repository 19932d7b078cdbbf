//! A drain test, in words.

use velamen_core::potting::{DrainFault, Drained};

pub const TITLE: &str = "A drain test of your own";
pub const HOW: &str = "Line a pot so that it holds water and fill it with mix, wetted the day before. Pour water in until it stands level with the top, and note how much went in. Let it drain for fifteen minutes into a jug, and measure what ran out.";
pub const MIX: &str = "Mix in the pot";
pub const WENT_IN: &str = "Water that went in, if measured";
pub const RAN_OUT: &str = "Water that ran out";
pub const UNREADABLE: &str = "Type amounts such as 1 L or 250 mL.";
pub const TARGETS: &str = "Air that growers look for, of 100: Vanda and Cattleya 50 and more; Cymbidium, Zygopetalum and slipper orchids 30 to 40; moss for back-bulbs 25 to 35 (common practice, no source).";
pub const CLIMATE: &str = "Where rain falls on it or the air stands above 80 %: one grade of bark coarser, or 10 to 20 of 100 more of what does not rot. Where it is dry, hot and windy: one grade finer, or as much coir or moss. Clay pots want about one grade finer than plastic (common practice, no source).";
pub const FINE_OVER_STONE: &str = "A fine mix over stone stays wet at its lower end: the stone takes room from the roots and drains nothing. Less stone here, and weight in another way.";

/// What the test says.
#[must_use]
pub fn drained(it: Drained) -> String {
    let hundredths = |permille: u32| (permille + 5) / 10;
    let air = format!(
        "{} of 100 is air after draining",
        hundredths(it.air_permille)
    );
    match (it.water_permille, it.pores_permille) {
        (Some(water), Some(pores)) => format!(
            "{air}, {} is water; {} is pore space.",
            hundredths(water),
            hundredths(pores)
        ),
        _ => format!("{air}."),
    }
}

/// What is wrong.
#[must_use]
pub fn fault(fault: DrainFault) -> &'static str {
    match fault {
        DrainFault::NotAboveZero => "There has to be some mix, and some water.",
        DrainFault::MoreOutThanIn => "More ran out than went in: was it wet before?",
        DrainFault::MoreThanMix => "More water than the pot holds of mix: look at the amounts.",
    }
}
