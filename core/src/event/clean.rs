//! Events of cleaning: what was disinfected with what, and pots and stone on their way from dirty to clean.
//!
//! One ledger of moves carries all stock of pots and stone: what a closed clump empties, what is washed, what a potting
//! takes and what is bought or thrown away. What comes of plants suspected of a virus is kept apart under the clump or
//! lot it came of.

use serde::{Deserialize, Serialize};

use crate::id::{PlaceId, PotId, Subject};
use crate::reference::sanitizers::{self, Agent};

use super::is_default;

/// What is cleaned.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Object {
    #[default]
    Tools,
    Gloves,
    Pots,
    Stone,
    Bench,
    Tub,
}

impl Object {
    pub const ALL: [Self; 6] = [
        Self::Tools,
        Self::Gloves,
        Self::Pots,
        Self::Stone,
        Self::Bench,
        Self::Tub,
    ];
}

/// Where pots and stone are on their way; the first three and the last lie outside the wash.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Stage {
    /// Not in the count: found, or missing when somebody counted.
    Uncounted,
    /// Bought.
    New,
    /// With plants.
    InUse,
    Dirty,
    Washed,
    /// Out of the disinfectant, rinsed, drying.
    Disinfected,
    /// Dry: may be potted into.
    Clean,
    Discarded,
}

impl Stage {
    /// The four that are counted, in their order.
    pub const COUNTED: [Self; 4] = [Self::Dirty, Self::Washed, Self::Disinfected, Self::Clean];

    #[must_use]
    pub const fn is_counted(self) -> bool {
        matches!(
            self,
            Self::Dirty | Self::Washed | Self::Disinfected | Self::Clean
        )
    }
}

/// Pots of one kind, or stone.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Material {
    /// The kind of pot, where the book knows it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub pot: Option<PotId>,
    /// A kind the book does not know, in words; empty with no `pot` is a kind nobody noted.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub pot_name: String,
    #[serde(default, skip_serializing_if = "is_default")]
    pub pots: u32,
    /// Drainage stone in microlitres; a row is pots or stone.
    #[serde(default, skip_serializing_if = "is_default")]
    pub stone_ul: i64,
}

impl Material {
    /// Pots of a kind the book knows.
    #[must_use]
    pub fn pots_of(pot: PotId, pots: u32) -> Self {
        Self {
            pot: Some(pot),
            pots,
            ..Self::default()
        }
    }

    /// Pots of a kind in words.
    #[must_use]
    pub fn pots_called(pot_name: &str, pots: u32) -> Self {
        Self {
            pot_name: pot_name.trim().to_owned(),
            pots,
            ..Self::default()
        }
    }

    #[must_use]
    pub fn stone(stone_ul: i64) -> Self {
        Self {
            stone_ul,
            ..Self::default()
        }
    }

    #[must_use]
    pub const fn is_stone(&self) -> bool {
        self.stone_ul != 0
    }
}

/// Pots and stone went on: washed, disinfected, dry, potted into, bought or thrown away.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct MaterialsMoved {
    pub moved: Vec<Material>,
    pub from: Stage,
    pub to: Stage,
    /// The clump or lot under suspicion of a virus that they came of. What is clean is kept apart no longer.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub apart: Option<Subject>,
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub note: String,
}

/// Something was disinfected: with what, how strong, how long.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Sanitised {
    pub what: Object,
    /// The pots or stone; empty for everything else.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub materials: Vec<Material>,
    /// Key of the agent in the table of sanitizers, or the grower's own word.
    pub agent: String,
    /// Strength used, in milligrams of active or salt per litre.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub strength_ppm: Option<u32>,
    /// Strength on the bottle it was made from.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub stock_ppm: Option<u32>,
    /// The bath, and what of the bottle went into it: in the first record of a mixture alone.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub bath_ul: Option<i64>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub stock_ul: Option<i64>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub stock_mg: Option<i64>,
    /// When the mixture was made, by the phone's clock.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub mixed_ms: Option<i64>,
    /// Seconds it was to lie, and how long it lay as far as the clock can say.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub wanted_s: Option<u32>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub contact_s: Option<u32>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub started_ms: Option<i64>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub ended_ms: Option<i64>,
    /// Scrubbed and rinsed before.
    #[serde(default, skip_serializing_if = "is_default")]
    pub cleaned_first: bool,
    /// It had touched plants suspected of a virus.
    #[serde(default, skip_serializing_if = "is_default")]
    pub suspect_source: bool,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub apart: Option<Subject>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub place: Option<PlaceId>,
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub person: String,
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub note: String,
}

impl MaterialsMoved {
    pub(crate) fn subjects(&self) -> Vec<Subject> {
        vec![Subject::Book]
    }
}

impl Sanitised {
    /// Whether it lay as long as it was to, as far as the clock can say.
    #[must_use]
    pub fn long_enough(&self) -> bool {
        match (self.contact_s, self.wanted_s) {
            (Some(lay), Some(wanted)) => lay >= wanted,
            _ => true,
        }
    }

    /// Whether it is known to have reached both orchid viruses, whatever it was to lie: strong enough, long enough.
    #[must_use]
    pub fn reached_viruses(&self) -> bool {
        let agent = sanitizers::agent(&self.agent);
        agent.is_some_and(|agent| agent.reached_viruses(self.strength_ppm, self.contact_s))
            && self.long_enough()
    }

    /// Whether what went through it may leave the crate it was kept apart in: heat that reached both viruses.
    #[must_use]
    pub fn frees(&self) -> bool {
        sanitizers::agent(&self.agent).is_some_and(Agent::frees) && self.reached_viruses()
    }

    /// Whether it was meant for a blade and could have reached both viruses, but too weak, too short, or not scrubbed.
    #[must_use]
    pub fn misses_virus_on_blade(&self) -> bool {
        let could = sanitizers::agent(&self.agent).is_some_and(|agent| agent.reaches.viruses());
        self.what == Object::Tools && could && !(self.reached_viruses() && self.cleaned_first)
    }

    pub(crate) fn subjects(&self) -> Vec<Subject> {
        vec![Subject::Book]
    }
}
