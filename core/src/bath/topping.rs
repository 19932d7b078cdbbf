//! A bath filled up at its own strength, and its end: what is written down of them for the other phones.
//!
//! Both speak of the treatment the mixture was made for; before the first batch is out nobody else knows of the bath,
//! and what was mixed and never used is taken off its container instead.

use super::{BathDraft, Level};
use crate::command::Command;
use crate::event::UsedWhy;
use crate::id::TreatmentId;
use crate::quantity::{Amount, Volume};
use crate::state::State;

impl BathDraft {
    /// The treatment the mixture was made for, once it is on record.
    #[must_use]
    pub fn bath(&self, state: &State) -> Option<TreatmentId> {
        let bath = self.same_mix_as(state)?;
        let known = state.facts().treatments.get(&bath)?;
        known.ended.is_none().then_some(bath)
    }

    /// What fills it up to its first level: water in all, and the product in it. `None` while nothing is missing, or
    /// before a batch is out.
    #[must_use]
    pub fn top_up(&self, state: &State) -> Option<(Volume, Amount)> {
        self.bath(state)?;
        // Two products in one tub are mixed fresh: nobody knows how each of them is left.
        if self.mixing.partner.is_some() {
            return None;
        }
        let fell = self.fell()?;
        let rate = self.mixture(state).ok()?.rate;
        Some((fell, rate.amount_for(fell).ok()?))
    }

    /// The command that writes the top-up down, and the draft as it stands after it.
    #[must_use]
    pub fn topped_up(&self, state: &State) -> Option<(Command, Self)> {
        let (water, amount) = self.top_up(state)?;
        let command = Command::TopUpBath {
            bath: self.bath(state)?,
            water,
            amount,
            container: self.mixing.container_in_use(state),
        };
        let mut after = self.clone();
        after.life.levels.push(Level::Added { ul: water.ul() });
        Some((command, after))
    }

    /// The command that ends it, where there is something to write down.
    #[must_use]
    pub fn ending(&self, state: &State, disposal: &str) -> Option<Command> {
        if let Some(bath) = self.bath(state) {
            return Some(Command::EndBath {
                bath,
                left: self.level().ok(),
                disposal: disposal.trim().to_owned(),
            });
        }
        // Mixed, and nothing went into it: its container is the emptier for it all the same.
        self.life.mixed_ms.filter(|_| self.dips == 0)?;
        Some(Command::UseFromContainer {
            container: self.mixing.container_in_use(state)?,
            amount: self.mixture(state).ok()?.amount,
            why: UsedWhy::MixedUnused,
            note: disposal.trim().to_owned(),
        })
    }
}
