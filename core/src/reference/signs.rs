//! The vocabulary of findings: what is seen, who is likely behind it, and what usually follows.
//!
//! A row proposes and never diagnoses: culture comes before a product, the class of treatment is whom a label would have
//! to name, and days are days to look again by how fast the pest or rot goes on. Keys are stored with findings, so a key
//! is never taken back or used for something else.

use crate::climate::{DegreeDays, Method};
use crate::event::{AgentClass, Urgency};

/// How a trouble gets from plant to plant.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Spread {
    /// Tools, hands.
    Tools,
    Water,
    Air,
    /// Carried by an insect or mite.
    Vector,
    /// By touch, or crawling.
    Contact,
    Mix,
    /// With the plants themselves.
    Plants,
}

/// How long a lot with this sign is kept apart.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Apart {
    No,
    Days(u16),
    /// Until tests 30 and 240 days later both find nothing.
    UntilTested,
}

/// A part of the plant, by its key as stored.
pub const PARTS: [&str; 9] = [
    "leaf", "growth", "bulb", "rhizome", "root", "base", "spike", "flower", "mix",
];

/// The warmth a pest needs from egg to egg.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Generation {
    pub lower_mc: i32,
    /// Warmth above it is not known to hurry anything.
    pub upper_mc: i32,
    /// Thousandths of a degree-day.
    pub sum_mk: i64,
    pub source: &'static str,
}

impl Generation {
    /// How it is added up: under one sine through minimum and maximum.
    #[must_use]
    pub const fn rule(&self) -> DegreeDays {
        DegreeDays {
            method: Method::Sine,
            lower_mc: self.lower_mc,
            upper_mc: Some(self.upper_mc),
        }
    }
}

/// Worked out from the two figures there are: twelve days at 30 °C and twenty at 20 °C are 300 degree-days over 5 °C, and
/// nothing warmer was measured.
const THRIPS_GENERATION: Generation = Generation {
    lower_mc: 5_000,
    upper_mc: 30_000,
    sum_mk: 300_000,
    source: "worked out from twelve days a generation at 30 °C and twenty at 20 °C: University of Florida, IFAS Extension",
};

/// One sign.
#[derive(Clone, Copy, Debug)]
pub struct SignRow {
    pub key: &'static str,
    /// What is likely behind it.
    pub agent: AgentClass,
    /// Parts it is looked for on, the usual one first.
    pub parts: &'static [&'static str],
    pub urgency: Urgency,
    pub spread: &'static [Spread],
    /// Whom a treatment would be against; `None` where none is of use.
    pub treat: Option<AgentClass>,
    /// Treatments in a series that outlasts a generation; 0 where one answers.
    pub series: u8,
    /// Days to look again; for a pest, those of a house at twenty degrees, the last of them a whole generation.
    pub again_days: &'static [u16],
    /// What a generation needs of warmth, where somebody says so.
    pub generation: Option<Generation>,
    pub apart: Apart,
    /// It is rot: what was cut with it is looked at for more, however tough the plant.
    pub rots: bool,
    /// No water before it was looked at again.
    pub keep_dry: bool,
    /// The plants want fresh mix: bring them to the bench.
    pub to_the_bench: bool,
    pub source: &'static str,
}

use AgentClass::{Bacterium, Culture, Fungus, Insect, Mite, Mollusc, Unknown, Virus, WaterMould};
use Spread::{Air, Contact, Mix, Plants, Tools, Vector, Water};
use Urgency::{ThisWeek, Today, Watch};

const COMMON: &str = "common practice, no source";
const MEMORY: &str = "from memory";
const BOISDUVAL: &str =
    "life of Boisduval scale: University of Florida, IFAS Extension; days: common practice";
const THRIPS: &str = "twelve days a generation at 30 °C, twenty at 20 °C: University of Florida, IFAS Extension; days: common practice";
const VIRUS: &str =
    "Hu and others, Plant Disease 78 (1994), for 30 and 240 days; the rest: common practice";
const SPOTS: &str = "Pacific Northwest Plant Disease Management Handbook; days: common practice";

const fn row(key: &'static str, agent: AgentClass, parts: &'static [&'static str]) -> SignRow {
    SignRow {
        key,
        agent,
        parts,
        urgency: ThisWeek,
        spread: &[],
        treat: None,
        series: 0,
        again_days: &[7],
        generation: None,
        apart: Apart::No,
        rots: false,
        keep_dry: false,
        to_the_bench: false,
        source: COMMON,
    }
}

/// All signs, in the order they are tapped most.
pub const SIGNS: &[SignRow] = &[
    SignRow {
        spread: &[Tools, Water],
        again_days: &[7, 21],
        apart: Apart::UntilTested,
        source: SPOTS,
        ..row("black_spots", Unknown, &["leaf"])
    },
    SignRow {
        urgency: Today,
        spread: &[Water, Tools],
        treat: Some(Bacterium),
        again_days: &[1, 3, 7, 14],
        apart: Apart::Days(30),
        rots: true,
        ..row("soft_rot", Bacterium, &["leaf", "growth", "bulb"])
    },
    SignRow {
        urgency: Today,
        spread: &[Water, Mix, Tools],
        treat: Some(WaterMould),
        again_days: &[1, 3, 7, 14],
        apart: Apart::Days(30),
        rots: true,
        keep_dry: true,
        ..row("black_rot", WaterMould, &["growth", "base", "bulb", "root"])
    },
    SignRow {
        urgency: Watch,
        spread: &[Water, Air],
        treat: Some(Fungus),
        again_days: &[14, 28],
        ..row("leaf_spots", Fungus, &["leaf"])
    },
    SignRow {
        spread: &[Contact, Air, Plants],
        treat: Some(Insect),
        series: 4,
        again_days: &[12, 24, 36, 50],
        apart: Apart::Days(60),
        source: BOISDUVAL,
        ..row("scale", Insect, &["leaf", "bulb", "base"])
    },
    SignRow {
        spread: &[Contact, Plants],
        treat: Some(Insect),
        series: 3,
        again_days: &[12, 24, 36],
        apart: Apart::Days(45),
        ..row("mealybug", Insect, &["base", "leaf", "root", "mix"])
    },
    SignRow {
        spread: &[Contact, Air],
        treat: Some(Mite),
        series: 3,
        again_days: &[6, 12, 18],
        apart: Apart::Days(21),
        ..row("mites", Mite, &["leaf"])
    },
    SignRow {
        spread: &[Vector, Air],
        treat: Some(Insect),
        series: 2,
        again_days: &[7, 14],
        apart: Apart::Days(14),
        ..row("aphids", Insect, &["spike", "flower"])
    },
    SignRow {
        spread: &[Air, Plants],
        treat: Some(Insect),
        series: 3,
        again_days: &[6, 12, 20],
        generation: Some(THRIPS_GENERATION),
        apart: Apart::Days(21),
        source: THRIPS,
        ..row("thrips", Insect, &["flower", "growth"])
    },
    SignRow {
        spread: &[Mix, Plants],
        treat: Some(Mollusc),
        again_days: &[7, 14, 28],
        apart: Apart::Days(30),
        ..row("slugs", Mollusc, &["root", "flower", "growth"])
    },
    SignRow {
        urgency: Today,
        spread: &[Tools, Water, Plants],
        again_days: &[30],
        apart: Apart::UntilTested,
        source: VIRUS,
        ..row("streaks", Virus, &["leaf", "flower"])
    },
    SignRow {
        again_days: &[30],
        to_the_bench: true,
        ..row("root_loss", Culture, &["root", "leaf", "bulb"])
    },
    SignRow {
        spread: &[Contact],
        treat: Some(Insect),
        series: 3,
        again_days: &[10, 20, 30, 45],
        apart: Apart::Days(45),
        ..row("soft_scale", Insect, &["leaf", "spike"])
    },
    SignRow {
        spread: &[Contact],
        treat: Some(Mite),
        series: 3,
        again_days: &[7, 14, 28],
        apart: Apart::Days(30),
        ..row("false_mites", Mite, &["leaf"])
    },
    SignRow {
        urgency: Today,
        spread: &[Tools, Water, Plants],
        again_days: &[30],
        apart: Apart::UntilTested,
        source: VIRUS,
        ..row("colour_break", Virus, &["flower"])
    },
    SignRow {
        spread: &[Vector],
        treat: Some(Mite),
        series: 3,
        again_days: &[14, 28],
        apart: Apart::Days(60),
        source: MEMORY,
        ..row("flecks", Virus, &["leaf"])
    },
    SignRow {
        spread: &[Vector],
        again_days: &[14, 28],
        apart: Apart::Days(60),
        source: MEMORY,
        ..row("ring_spots", Virus, &["leaf"])
    },
    SignRow {
        urgency: Today,
        spread: &[Water, Tools],
        treat: Some(Bacterium),
        again_days: &[3, 7, 14],
        apart: Apart::Days(30),
        ..row("brown_spots", Bacterium, &["leaf"])
    },
    SignRow {
        urgency: Today,
        spread: &[Tools, Mix, Plants],
        treat: Some(Fungus),
        again_days: &[14, 28, 60],
        apart: Apart::Days(60),
        ..row("purple_ring", Fungus, &["rhizome"])
    },
    SignRow {
        spread: &[Mix],
        treat: Some(Fungus),
        again_days: &[14, 28],
        apart: Apart::Days(30),
        to_the_bench: true,
        rots: true,
        ..row("root_rot", Fungus, &["root", "base"])
    },
    SignRow {
        urgency: Today,
        spread: &[Mix],
        again_days: &[7, 14, 28],
        apart: Apart::Days(60),
        rots: true,
        ..row("collar_rot", Fungus, &["base"])
    },
    SignRow {
        urgency: Watch,
        spread: &[Water],
        treat: Some(Fungus),
        again_days: &[14],
        ..row("sunken_spots", Fungus, &["leaf", "bulb"])
    },
    SignRow {
        spread: &[Air],
        again_days: &[3, 7],
        ..row("petal_spots", Fungus, &["flower"])
    },
    SignRow {
        urgency: Watch,
        again_days: &[14],
        ..row("sooty_mould", Fungus, &["leaf"])
    },
    SignRow {
        urgency: Watch,
        spread: &[Mix],
        again_days: &[28],
        to_the_bench: true,
        ..row("mix_mould", Fungus, &["mix"])
    },
    SignRow {
        urgency: Watch,
        spread: &[Air],
        treat: Some(Insect),
        again_days: &[14, 28],
        apart: Apart::Days(14),
        ..row("gnats", Insect, &["mix", "root"])
    },
    SignRow {
        urgency: Watch,
        treat: Some(Insect),
        again_days: &[14],
        ..row("ants", Insect, &["mix"])
    },
    SignRow {
        spread: &[Air],
        treat: Some(Insect),
        again_days: &[7, 14],
        ..row("chewed", Insect, &["flower", "growth"])
    },
    SignRow {
        urgency: Watch,
        again_days: &[30],
        ..row("burnt", Culture, &["leaf"])
    },
    SignRow {
        urgency: Watch,
        again_days: &[30],
        to_the_bench: true,
        ..row("root_bound", Culture, &["root"])
    },
];

/// The row of a sign; `None` for one in the grower's own words.
#[must_use]
pub fn sign(key: &str) -> Option<&'static SignRow> {
    SIGNS.iter().find(|row| row.key == key)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_sign_stands_once_with_a_part_a_look_and_an_origin() {
        for (at, row) in SIGNS.iter().enumerate() {
            assert!(
                !SIGNS[at + 1..].iter().any(|other| other.key == row.key),
                "{}",
                row.key
            );
            assert!(
                !row.parts.is_empty() && !row.again_days.is_empty(),
                "{}",
                row.key
            );
            assert!(
                row.parts.iter().all(|part| PARTS.contains(part)),
                "{}",
                row.key
            );
            assert!(row.again_days.is_sorted(), "{}", row.key);
            assert!(!row.source.is_empty(), "{}", row.key);
        }
    }

    #[test]
    fn looks_at_armoured_scale_outlast_a_generation_and_stay_within_the_days_apart() {
        let scale = sign("scale").unwrap();
        assert_eq!(
            scale.again_days.last(),
            Some(&50),
            "fifty days from egg to female"
        );
        assert_eq!(scale.apart, Apart::Days(60));
    }

    #[test]
    fn a_generation_of_thrips_takes_the_days_that_were_measured() {
        let row = sign("thrips").and_then(|row| row.generation).unwrap();
        for (mc, days) in [(30_000, 12), (20_000, 20)] {
            let a_day = crate::climate::degree_days_mk(row.rule(), mc, mc);
            assert_eq!(i64::from(a_day) * days, row.sum_mk, "{mc}");
        }
        assert!(!row.source.is_empty());
    }

    #[test]
    fn no_product_is_proposed_against_a_virus_or_what_is_not_known() {
        for row in SIGNS
            .iter()
            .filter(|row| matches!(row.agent, Unknown | Culture))
        {
            assert_eq!(row.treat, None, "{}", row.key);
        }
        assert!(SIGNS.iter().all(|row| row.treat != Some(Virus)));
    }
}
