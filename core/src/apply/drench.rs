//! A drench: so much poured on every pot, by the pot's own volume or as the grower says.
//!
//! In open bark an eighth of the pot wets the mix without running through; peat takes less. The figure is what growers
//! do, and a label that names one comes first.

use crate::event::TreatedPart;
use crate::id::LotId;
use crate::quantity::Volume;
use crate::state::State;

/// Thousandths of a pot's volume poured on it: the middle of 10 to 15 % (common practice, no source).
pub const OF_POT_PERMILLE: i64 = 125;

/// What a drench takes.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Drench {
    pub pots: u32,
    /// Pots of which no volume is known, where the grower gave no amount either.
    pub unknown: u32,
    pub water: Volume,
}

/// What goes on all pots of the parts: an amount the grower gave for each, or an eighth of each pot.
#[must_use]
pub(super) fn drench(state: &State, parts: &[TreatedPart], per_pot: Option<Volume>) -> Drench {
    let lots = parts.iter().filter_map(|part| match part {
        TreatedPart::Lot { lot, .. } => Some(*lot),
        TreatedPart::Pieces { .. } => None,
    });
    let mut all = Drench::default();
    for lot in lots {
        let stands = state.facts().lots.get(&lot).map_or(0, |lot| lot.stands);
        let pots = u32::try_from(stands).unwrap_or(0);
        all.pots = all.pots.saturating_add(pots);
        match per_pot.or_else(|| of_pot(state, lot)) {
            Some(each) => {
                let ul = each.ul().saturating_mul(i64::from(pots));
                all.water = Volume::from_ul(all.water.ul().saturating_add(ul));
            }
            None => all.unknown = all.unknown.saturating_add(pots),
        }
    }
    all
}

/// What goes on one pot of a lot, where its kind of pot is known.
fn of_pot(state: &State, lot: LotId) -> Option<Volume> {
    let facts = state.facts();
    let pot = facts.lots.get(&lot)?.potted.as_ref()?.potting.pot?;
    let full = facts.pots.get(&pot)?.form.get()?.brimful().ok()?.ul();
    let poured = full.saturating_mul(OF_POT_PERMILLE) / 1_000;
    (poured > 0).then(|| Volume::from_ul(poured))
}
