//! What a bath's label and water come to as a dose to measure out.

use super::BathDraft;
use crate::measure::Dose;
use crate::quantity::Volume;
use crate::state::State;

impl BathDraft {
    /// The dose as an exact amount, with what the label allows; `None` until it can be worked out.
    #[must_use]
    pub fn dose(&self, state: &State) -> Option<Dose> {
        self.dose_for(state, self.tub.water().ok()?)
    }

    /// The same for other water: what is added later is of the same strength.
    pub(super) fn dose_for(&self, state: &State, water: Volume) -> Option<Dose> {
        self.mixing.dose(state, crate::event::Method::Bath, water)
    }
}
