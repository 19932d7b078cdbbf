//! A product judged by what the plants had before: advice with its reason, and the grower's own reason to go on.

use chrono::NaiveDate;

use super::{MixFault, Mixing, TankFault};
use crate::event::Method;
use crate::rotation::{Judged, Proposed, Target, TrueChange, judge, proposed, true_changes};
use crate::state::State;

/// What is said of a product for the plants chosen.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Rotated {
    pub new: Proposed,
    /// Plants that stand alike, what is advised against first.
    pub judged: Vec<Judged>,
    /// Products on the shelf that would be a true change; looked for only where something is advised against.
    pub changes: Vec<TrueChange>,
}

impl Rotated {
    /// Whether anything is advised against.
    #[must_use]
    pub fn is_advised_against(&self) -> bool {
        self.judged.iter().any(|one| !one.advice.is_empty())
    }
}

impl Mixing {
    /// What is said for the lots and pieces chosen; `None` before product and target are known, or nothing is chosen.
    #[must_use]
    pub fn rotated(
        &self,
        state: &State,
        method: Method,
        targets: &[Target],
        today: NaiveDate,
    ) -> Option<Rotated> {
        if targets.is_empty() {
            return None;
        }
        let new = proposed(state, self.product?, method, self.against?, today)?;
        let judged = judge(state, targets, &new);
        let mut rotated = Rotated {
            new,
            judged,
            changes: Vec::new(),
        };
        if rotated.is_advised_against() {
            rotated.changes = true_changes(state, targets, &rotated.new, method);
        }
        Some(rotated)
    }

    /// Lets it go on: what is advised against wants a reason, and a reason for nothing is dropped.
    ///
    /// # Errors
    /// [`MixFault::NoRotationReason`].
    pub fn go_on_rotated(
        &mut self,
        state: &State,
        method: Method,
        targets: &[Target],
        today: NaiveDate,
    ) -> Result<(), MixFault> {
        let advised = self
            .rotated(state, method, targets, today)
            .is_some_and(|rotated| rotated.is_advised_against());
        if !advised {
            self.rotation_reason.clear();
        } else if self.rotation_reason.trim().is_empty() {
            return Err(MixFault::NoRotationReason);
        }
        match self.partner.as_mut() {
            None => Ok(()),
            Some(partner) => partner
                .go_on_rotated(state, method, targets, today)
                .map_err(|fault| MixFault::Tank(TankFault::Mix(Box::new(fault)))),
        }
    }
}
