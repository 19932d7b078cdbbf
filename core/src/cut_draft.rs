//! A cut being thought over: what was said of the clump, and the way that is chosen, until it is kept as a plan.

use std::collections::BTreeMap;

use chrono::NaiveDate;
use serde::{Deserialize, Serialize};

use crate::command::Command;
use crate::cut::{Known, of_clump, of_lots, of_opening};
use crate::draft::{DRAFT_VERSION, OpeningDraft, Versioned};
use crate::event::{CutPlan, PieceClass, RoughSize, Way};
use crate::id::{ClumpId, LotId};
use crate::state::{Facts, State};
use crate::view::cut::plan_of_lots;

/// A cut being thought over.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct CutDraft {
    #[serde(default)]
    pub version: u16,
    #[serde(default)]
    pub leads: Option<u32>,
    #[serde(default)]
    pub growths: Option<u32>,
    #[serde(default)]
    pub size: RoughSize,
    #[serde(default)]
    pub way: Option<Way>,
    /// The grower's own numbers.
    #[serde(default)]
    pub own: BTreeMap<PieceClass, u32>,
    #[serde(default)]
    pub by_on: Option<NaiveDate>,
}

impl Versioned for CutDraft {
    fn touch(&mut self) {
        self.version = DRAFT_VERSION;
    }
}

impl CutDraft {
    /// As a kept plan would be thought over again.
    #[must_use]
    pub fn of(plan: &CutPlan) -> Self {
        let own = plan.pieces.iter().map(|row| (row.class, row.plants));
        Self {
            version: DRAFT_VERSION,
            leads: plan.leads,
            growths: plan.growths,
            size: plan.size.unwrap_or_default(),
            way: Some(plan.way),
            own: own.collect(),
            by_on: plan.by_on,
        }
    }

    /// A day as the calendar gives it; nothing for none.
    pub fn set_day(&mut self, typed: &str) {
        self.by_on = typed.parse().ok();
    }
}

/// What a cut is planned for.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum CutWhat {
    /// Lots cut as one clump, or the plants of one lot.
    Lots(Vec<LotId>),
    /// A clump on the bench.
    Clump(ClumpId),
    /// What is being chosen for the bench.
    Opening(OpeningDraft),
}

impl CutWhat {
    /// What is known of it from the book.
    #[must_use]
    pub fn known(&self, state: &State) -> Option<Known> {
        match self {
            Self::Lots(lots) => of_lots(state.facts(), lots),
            Self::Clump(clump) => of_clump(state, *clump),
            Self::Opening(draft) => of_opening(state.facts(), draft),
        }
    }

    /// The plan that is kept for it.
    #[must_use]
    pub fn kept(&self, facts: &Facts) -> Option<CutPlan> {
        match self {
            Self::Lots(lots) => plan_of_lots(facts, lots),
            Self::Clump(clump) => facts.clumps.get(clump)?.plan.clone(),
            Self::Opening(draft) => draft
                .plan
                .clone()
                .or_else(|| plan_of_lots(facts, &draft.lots)),
        }
    }

    /// The command that keeps a plan, or drops it; `None` for what is not in the book yet, which keeps it itself.
    #[must_use]
    pub fn keep(&self, plan: Option<CutPlan>) -> Option<Command> {
        let (lots, clump) = match self {
            Self::Lots(lots) => (lots.clone(), None),
            Self::Clump(clump) => (Vec::new(), Some(*clump)),
            Self::Opening(_) => return None,
        };
        Some(Command::PlanDivision { lots, clump, plan })
    }
}
