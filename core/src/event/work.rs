//! Events of a clump in work: onto the bench, apart, into pots.
//!
//! A clump in work is a subject of its own, so that two people can take pieces off it and every child keeps all its
//! possible parents. Nobody counts bulbs in an unopened clump: `bulbs` is there only where somebody counted.

use serde::{Deserialize, Serialize};

use crate::code::LotCode;
use crate::id::{ClumpId, LotId, PlaceId, Subject};
use crate::name::PlantName;

use super::cut::CutPlan;
use super::is_default;
use super::lot::{PieceClass, Potting};

/// What of a booked lot went onto the bench.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct OpenedLot {
    pub lot: LotId,
    pub plants: u32,
    pub stands: u32,
}

/// A clump, often several pots grown into one another, came to the bench under a tray tag.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct DivisionOpened {
    pub clump: ClumpId,
    /// Number on the tray tag that lies beside the clump until the last label is written.
    pub tray: u32,
    /// Booked lots that went into it. With several, which piece is from which is not known.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub lots: Vec<OpenedLot>,
    /// Pots that were never in the book.
    #[serde(default, skip_serializing_if = "is_default")]
    pub unbooked_pots: u32,
    /// Name of the clump as far as it is known.
    #[serde(default, skip_serializing_if = "is_default")]
    pub name: PlantName,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub place: Option<PlaceId>,
    /// Rough size, where somebody looked: leads, and bulbs only if counted.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub leads: Option<u32>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub bulbs: Option<u32>,
    /// The cutting tool's mark, and how many clumps it had cut before since it was last changed: what tracing follows.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub tool: String,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub cut_before: Option<u32>,
    /// What it is meant to become, as it was planned.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub plan: Option<CutPlan>,
}

/// Pieces of one class came off a clump; negative when some were put back or had been miscounted.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct PiecesTaken {
    pub clump: ClumpId,
    pub class: PieceClass,
    pub plants: i32,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub bulbs: Option<u32>,
}

/// Pieces of one class were potted and became a lot.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct PiecesPotted {
    pub clump: ClumpId,
    pub class: PieceClass,
    pub lot: LotId,
    pub code: LotCode,
    #[serde(default, skip_serializing_if = "is_default")]
    pub name: PlantName,
    /// Every possible parent in the book, copied from the clump.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub parents: Vec<LotId>,
    pub plants: u32,
    /// Pots or trays; 0 when they sit in another lot's pots (`with`).
    pub stands: u32,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub with: Option<LotId>,
    #[serde(default, skip_serializing_if = "is_default")]
    pub potting: Potting,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub place: Option<PlaceId>,
}

/// How work on a clump ended.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum ClosedHow {
    /// All kept pieces potted.
    #[default]
    Done,
    /// Nothing was cut: the lots went back as they came.
    PutBack,
}

/// Work on a clump ended; what was left over goes to the wash.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct DivisionClosed {
    pub clump: ClumpId,
    /// Booked lots, repeated here so that each hears of the end.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub lots: Vec<LotId>,
    #[serde(default, skip_serializing_if = "is_default")]
    pub how: ClosedHow,
    /// Emptied pots that go to be washed.
    #[serde(default, skip_serializing_if = "is_default")]
    pub dirty_pots: u32,
    /// Minutes from first to last tap on this clump, measured without asking.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub took_min: Option<u32>,
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub note: String,
}

/// Tools and gloves were clean when this session at the bench began, and how they are changed during it.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct HygieneConfirmed {
    pub tool_change: ToolChange,
    /// Tools that alternate, one lying in the tool bath while another cuts; one where nothing is said.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub tools: Option<u8>,
}

/// When the cutting tool is changed for a clean one.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum ToolChange {
    #[default]
    BetweenClumps,
    BetweenPlants,
}

impl DivisionOpened {
    pub(crate) fn subjects(&self) -> Vec<Subject> {
        let lots = self.lots.iter().map(|opened| Subject::Lot(opened.lot));
        std::iter::once(Subject::Clump(self.clump))
            .chain(lots)
            .collect()
    }

    /// Pots opened, booked or not.
    #[must_use]
    pub fn pots(&self) -> u64 {
        let booked: u64 = self
            .lots
            .iter()
            .map(|opened| u64::from(opened.stands))
            .sum();
        booked + u64::from(self.unbooked_pots)
    }
}

impl PiecesTaken {
    pub(crate) fn subjects(&self) -> Vec<Subject> {
        vec![Subject::Clump(self.clump)]
    }
}

impl PiecesPotted {
    pub(crate) fn subjects(&self) -> Vec<Subject> {
        let parents = self.parents.iter().map(|lot| Subject::Lot(*lot));
        [Subject::Clump(self.clump), Subject::Lot(self.lot)]
            .into_iter()
            .chain(parents)
            .collect()
    }
}

impl DivisionClosed {
    pub(crate) fn subjects(&self) -> Vec<Subject> {
        let lots = self.lots.iter().map(|lot| Subject::Lot(*lot));
        std::iter::once(Subject::Clump(self.clump))
            .chain(lots)
            .collect()
    }
}

impl HygieneConfirmed {
    pub(crate) fn subjects(&self) -> Vec<Subject> {
        vec![Subject::Book]
    }
}
