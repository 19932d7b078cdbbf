//! A bath judged by what the pieces had before: advice with its reason, and the grower's own reason to go on.

use chrono::NaiveDate;

use super::{BathDraft, BathFault};
use crate::event::Method;
use crate::rotation::{Judged, Proposed, Target, TrueChange, judge, proposed, true_changes};
use crate::state::State;

/// What is said of a bath's product for what goes in.
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

impl BathDraft {
    /// What is said for the lots and pieces chosen; `None` before product and target are known, or nothing is chosen.
    #[must_use]
    pub fn rotated(&self, state: &State, today: NaiveDate) -> Option<Rotated> {
        let targets: Vec<Target> = self.parts(state).iter().map(Target::from).collect();
        if targets.is_empty() {
            return None;
        }
        let new = proposed(state, self.product?, Method::Bath, self.against?, today)?;
        let judged = judge(state, &targets, &new);
        let mut rotated = Rotated {
            new,
            judged,
            changes: Vec::new(),
        };
        if rotated.is_advised_against() {
            rotated.changes = true_changes(state, &targets, &rotated.new, Method::Bath);
        }
        Some(rotated)
    }

    /// Lets the bath go on: what is advised against wants a reason, and a reason for nothing is dropped.
    ///
    /// # Errors
    /// [`BathFault::NoRotationReason`].
    pub fn go_on_rotated(&mut self, state: &State, today: NaiveDate) -> Result<(), BathFault> {
        let advised = self
            .rotated(state, today)
            .is_some_and(|rotated| rotated.is_advised_against());
        if !advised {
            self.rotation_reason.clear();
        } else if self.rotation_reason.trim().is_empty() {
            return Err(BathFault::NoRotationReason);
        }
        Ok(())
    }
}

/// Several reasons as one text, each a paragraph.
pub(super) fn reasons(each: [&str; 2]) -> String {
    let said = each
        .into_iter()
        .map(str::trim)
        .filter(|one| !one.is_empty());
    said.collect::<Vec<_>>().join("\n")
}
