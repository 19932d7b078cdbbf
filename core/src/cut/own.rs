//! The grower's own numbers: taken as they are, with what speaks against them.

use crate::event::{CutPlan, PieceClass};
use crate::outlook::Span;

use super::known::Known;

/// What speaks against a plan; never a refusal.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Against {
    /// Pieces of the least size would take so many growths.
    MoreThanGrowths { needed: u32, there: Span },
    /// Pieces that want a lead, against leads there may be.
    MoreThanLeads { pieces: u32, there: Span },
    /// A plant of one stem is not divided.
    OneStem,
    /// Old growths of this kind make no shoot.
    NoBackBulbs,
    /// Nothing is to be kept.
    Nothing,
}

/// What speaks against a plan for this clump.
#[must_use]
pub fn against(known: &Known, plan: &CutPlan) -> Vec<Against> {
    let count = |class| plan.of_class(class).map_or(0, |(_, plants, _)| plants);
    let (large, small, back) = (
        count(PieceClass::Flowering),
        count(PieceClass::Starter),
        count(PieceClass::BackBulb),
    );
    let mut said = Vec::new();
    if plan.kept() == 0 && plan.whole == 0 {
        said.push(Against::Nothing);
        return said;
    }
    let row = known.row().pieces;
    let divided = large.saturating_add(small);
    if !known.divides() {
        if divided > known.wholes {
            said.push(Against::OneStem);
        }
        return said;
    }
    if back > 0 && !known.has_back_bulbs() {
        said.push(Against::NoBackBulbs);
    }
    let least = |pieces: u32, size: u8| pieces.saturating_mul(u32::from(size));
    let needed = least(large, row.flowering.unwrap_or(row.starter).0)
        .saturating_add(least(small, row.starter.0))
        .saturating_add(back);
    let (growths, leads) = (known.growths(), known.leads());
    if needed > growths.high {
        said.push(Against::MoreThanGrowths {
            needed,
            there: growths,
        });
    }
    if divided > leads.high {
        said.push(Against::MoreThanLeads {
            pieces: divided,
            there: leads,
        });
    }
    said
}
