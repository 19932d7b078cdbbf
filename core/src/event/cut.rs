//! Events of a cut that is planned: what a clump is meant to become, said before anything is cut.
//!
//! The plan is an entry of its own and not a draft, because it is made at the table and cut at the bench, often by
//! somebody else on another phone, and because the forecast and the list of pots to bring rest on it. What goes onto
//! the bench carries the plan along, so that a clump reads alone: said six, came off seven.

use chrono::NaiveDate;
use serde::{Deserialize, Serialize};

use crate::id::{ClumpId, LotId, Subject};

use super::is_default;
use super::lot::PieceClass;

/// A way to divide, or not to.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Way {
    /// Potted on as it is.
    KeepWhole,
    /// Pieces of a size to flower in the coming season.
    FewLarge,
    /// Pieces that are just large enough to live.
    ManySmall,
    /// Plants of one stem: offshoots with roots of their own come off, the plant stays.
    Offshoots,
    /// Plants of one stem: the top comes off with its roots, the stump stays.
    TopCut,
    /// Numbers of the grower's own.
    Own,
}

/// How large a clump looks, where nobody counted anything.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum RoughSize {
    Small,
    #[default]
    Middling,
    Large,
}

/// Pieces of one class that are expected.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct PlannedPieces {
    pub class: PieceClass,
    pub plants: u32,
    /// Between how many it may be, where that was not certain.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub low: Option<u32>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub high: Option<u32>,
}

/// What a clump, or each plant of a lot, is meant to become, with what was known of it then.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct CutPlan {
    pub way: Way,
    /// All pieces together; plants that stay whole are not among them.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub pieces: Vec<PlannedPieces>,
    /// Plants that stay whole.
    #[serde(default, skip_serializing_if = "is_default")]
    pub whole: u32,
    /// Seen from outside; bulbs are never counted in an unopened clump, only guessed.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub leads: Option<u32>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub growths: Option<u32>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub size: Option<RoughSize>,
    /// When it is meant to be cut.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub by_on: Option<NaiveDate>,
}

impl CutPlan {
    /// Pieces expected of a class, and between how many.
    #[must_use]
    pub fn of_class(&self, class: PieceClass) -> Option<(u32, u32, u32)> {
        let row = self.pieces.iter().find(|row| row.class == class)?;
        let low = row.low.unwrap_or(row.plants).min(row.plants);
        let high = row.high.unwrap_or(row.plants).max(row.plants);
        Some((low, row.plants, high))
    }

    /// Kept pieces expected in all.
    #[must_use]
    pub fn kept(&self) -> u32 {
        let kept = self.pieces.iter().filter(|row| row.class.is_kept());
        kept.fold(0, |sum, row| sum.saturating_add(row.plants))
    }
}

/// A cut was planned, or a plan dropped.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct DivisionPlanned {
    /// Lots that are cut as one clump, or the one lot whose plants are.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub lots: Vec<LotId>,
    /// A clump that lies on the bench, uncut.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub clump: Option<ClumpId>,
    /// Nothing where the plan was dropped.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub plan: Option<CutPlan>,
}

impl DivisionPlanned {
    pub(crate) fn subjects(&self) -> Vec<Subject> {
        let lots = self.lots.iter().map(|lot| Subject::Lot(*lot));
        self.clump
            .iter()
            .map(|clump| Subject::Clump(*clump))
            .chain(lots)
            .collect()
    }
}
