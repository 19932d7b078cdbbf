//! A cut that is planned: what lots, or a clump on the bench, are meant to become.

use crate::event::{CutPlan, DivisionPlanned, PieceClass, Way};
use crate::id::{ClumpId, LotId};
use crate::limits;
use crate::rejection::{Input, Rejection};
use crate::time::plus_days;

use super::{Desk, Done};

impl Desk<'_> {
    pub(super) fn plan_division(
        &mut self,
        lots: Vec<LotId>,
        clump: Option<ClumpId>,
        plan: Option<CutPlan>,
    ) -> Done {
        if lots.is_empty() && clump.is_none() {
            return Err(Rejection::Missing { input: Input::Pots });
        }
        if lots.len() > limits::CLUMP_LOTS_MAX {
            return Err(Rejection::TooMany {
                input: Input::Pots,
                most: limits::CLUMP_LOTS_MAX as u64,
            });
        }
        for (at, lot) in lots.iter().enumerate() {
            if lots.iter().skip(at + 1).any(|other| other == lot) {
                return Err(Rejection::LotTwice { lot: *lot });
            }
            if self.lot(*lot)?.plants <= 0 && plan.is_some() {
                return Err(Rejection::AllOnTheBench { lot: *lot });
            }
        }
        if let Some(clump) = clump {
            let known = self.open_clump(clump)?;
            let cut = PieceClass::ALL
                .into_iter()
                .any(|class| known.taken_of(class) > 0);
            if cut {
                return Err(Rejection::AlreadyCut);
            }
        }
        let plan = self.cut_plan(plan)?;
        self.push(DivisionPlanned { lots, clump, plan });
        Ok(())
    }

    /// A plan within the limits; one that comes to nothing is none.
    pub(super) fn cut_plan(&self, plan: Option<CutPlan>) -> Result<Option<CutPlan>, Rejection> {
        let Some(mut plan) = plan else {
            return Ok(None);
        };
        plan.pieces
            .retain(|row| row.plants > 0 || row.high > Some(0));
        if plan.pieces.is_empty() && plan.whole == 0 {
            return Err(Rejection::Missing {
                input: Input::Pieces,
            });
        }
        let most = limits::PIECES_MAX;
        let counts = plan
            .pieces
            .iter()
            .flat_map(|row| [Some(row.plants), row.low, row.high].into_iter().flatten());
        let seen = [plan.leads, plan.growths, Some(plan.whole)];
        if counts
            .chain(seen.into_iter().flatten())
            .any(|count| count > most)
        {
            return Err(Rejection::TooMany {
                input: Input::Pieces,
                most: u64::from(most),
            });
        }
        let (first, last) = (
            self.at.today,
            plus_days(self.at.today, limits::AHEAD_DAYS_MAX),
        );
        if plan.by_on.is_some_and(|on| on < first || on > last) {
            // A plan goes with a clump on the day it was meant for or later: only a new one looks ahead.
            if plan.by_on.is_some_and(|on| on > last) {
                return Err(Rejection::DayOutOfRange { first, last });
            }
            plan.by_on = None;
        }
        if plan.way == Way::KeepWhole {
            plan.pieces.clear();
        }
        Ok(Some(plan))
    }
}
