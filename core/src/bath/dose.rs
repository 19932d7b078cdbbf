//! What a bath's label and water come to as a dose to measure out.

use super::BathDraft;
use crate::measure::Dose;
use crate::quantity::{Volume, parse_rate};
use crate::state::State;

impl BathDraft {
    /// The dose as an exact amount, with what the label allows; `None` until it can be worked out.
    ///
    /// Where the label gives a second, higher rate that counts the same thing, that is the most; else its one rate is.
    #[must_use]
    pub fn dose(&self, state: &State) -> Option<Dose> {
        self.dose_for(state, self.mixture(state).ok()?.water)
    }

    /// The same for other water: what is added later is of the same strength.
    pub(super) fn dose_for(&self, state: &State, water: Volume) -> Option<Dose> {
        let rate = &self.mixture(state).ok()?.rate;
        let most = parse_rate(&self.label(state).most_typed).ok();
        Dose::of(rate, rate, most.as_ref(), water)
            .or_else(|_| Dose::of(rate, rate, None, water))
            .ok()
    }
}
