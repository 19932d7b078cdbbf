//! How full the benches are: the ground of every pot by its own width against the area of the place.
//!
//! Square spacing gives each pot a square as wide as its rim; staggered rows of round pots take √3/2 of that. Both are
//! by area: edges and gaps for the hand are not in it. Pots nobody measured are counted beside and never guessed.

use std::collections::BTreeMap;

use crate::id::{PlaceId, PotId};
use crate::potting::Pot;
use crate::quantity::Length;
use crate::state::{Facts, State};

use super::{PlaceLabel, places};

/// √3/2 in millionths.
const STAGGERED: u64 = 866_025;

/// One place.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct BenchFill {
    pub place: PlaceLabel,
    /// Where the grower gave it.
    pub area_cm2: Option<u32>,
    pub pots: u32,
    /// Pots whose width nobody measured.
    pub unmeasured: u32,
    /// Ground of the measured ones, in square millimetres.
    pub square_mm2: u64,
    pub staggered_mm2: u64,
    /// How many more of the kind most of them are would go there.
    pub more: Option<More>,
}

/// Room for further pots.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct More {
    pub pot: PotId,
    pub name: String,
    pub square: u32,
    pub staggered: u32,
}

impl BenchFill {
    /// Filled in hundredths of the area, square and staggered; above a hundred where pots stand over the edge.
    #[must_use]
    pub fn percent(&self) -> Option<(u32, u32)> {
        let area = u64::from(self.area_cm2?).saturating_mul(100);
        let of = |mm2: u64| -> Option<u32> {
            let percent = mm2.saturating_mul(100).checked_div(area)?;
            Some(u32::try_from(percent).unwrap_or(u32::MAX))
        };
        Some((of(self.square_mm2)?, of(self.staggered_mm2)?))
    }
}

/// Ground of one pot in square millimetres, square and staggered; square pots gain nothing by staggering.
#[must_use]
pub fn ground(form: &Pot) -> Option<(u64, u64)> {
    let square = |top: Length| -> Option<u64> {
        let um = u64::try_from(top.um()).ok()?;
        um.checked_mul(um)?.checked_div(1_000_000)
    };
    match form {
        Pot::Round { top, .. } => {
            let square = square(*top)?;
            Some((square, square.saturating_mul(STAGGERED) / 1_000_000))
        }
        Pot::Square { top, .. } => {
            let square = square(*top)?;
            Some((square, square))
        }
        Pot::Holds { .. } => None,
    }
}

/// Pots of one kind that stand on so much ground, square and staggered; `None` where its width is not known.
#[must_use]
pub fn fit(form: &Pot, area_mm2: u64) -> Option<(u32, u32)> {
    let (square, staggered) = ground(form)?;
    let count = |each: u64| u32::try_from(area_mm2.checked_div(each)?).ok();
    Some((count(square)?, count(staggered)?))
}

/// All places in walking order.
#[must_use]
pub fn benches(state: &State) -> Vec<BenchFill> {
    let facts = state.facts();
    let places = places(facts).into_iter();
    places.map(|place| fill(facts, place)).collect()
}

fn fill(facts: &Facts, place: PlaceLabel) -> BenchFill {
    let (mut kinds, unmeasured) = standing(facts, place.place);
    let area_cm2 = facts
        .places
        .get(&place.place)
        .and_then(|place| place.area_cm2.get().copied())
        .filter(|area| *area > 0);
    let mut filled = BenchFill {
        place,
        area_cm2,
        pots: unmeasured,
        unmeasured,
        square_mm2: 0,
        staggered_mm2: 0,
        more: None,
    };
    for (pot, stands) in &kinds {
        let form = facts.pots.get(pot).and_then(|pot| pot.form.get());
        if let Some((square, staggered)) = form.and_then(ground) {
            let times = |mm2: u64| mm2.saturating_mul(u64::from(*stands));
            filled.square_mm2 = filled.square_mm2.saturating_add(times(square));
            filled.staggered_mm2 = filled.staggered_mm2.saturating_add(times(staggered));
            filled.pots = filled.pots.saturating_add(*stands);
        }
    }
    kinds.sort_by_key(|(pot, stands)| (std::cmp::Reverse(*stands), *pot));
    filled.more = area_cm2.and_then(|area| {
        let (pot, _) = kinds.first()?;
        let known = facts.pots.get(pot)?;
        let area = u64::from(area).saturating_mul(100);
        let left = |taken: u64| area.saturating_sub(taken);
        let form = known.form.get()?;
        Some(More {
            pot: *pot,
            name: known.name.or_default(),
            square: fit(form, left(filled.square_mm2))?.0,
            staggered: fit(form, left(filled.staggered_mm2))?.1,
        })
    });
    filled
}

/// Pots on a place by measured kind, and how many nobody measured.
fn standing(facts: &Facts, place: PlaceId) -> (Vec<(PotId, u32)>, u32) {
    let mut kinds: BTreeMap<PotId, u32> = BTreeMap::new();
    let mut unmeasured = 0_u32;
    let here = facts
        .live_lots()
        .filter(|(_, lot)| lot.place.get() == Some(&place) && lot.stands > 0);
    for (_, lot) in here {
        let stands = u32::try_from(lot.stands).unwrap_or(0);
        let pot = lot.potted.as_ref().and_then(|potted| potted.potting.pot);
        let measured = pot.filter(|pot| {
            let form = facts.pots.get(pot).and_then(|pot| pot.form.get());
            form.and_then(ground).is_some()
        });
        match measured {
            Some(pot) => {
                let known = kinds.entry(pot).or_insert(0);
                *known = known.saturating_add(stands);
            }
            None => unmeasured = unmeasured.saturating_add(stands),
        }
    }
    (kinds.into_iter().collect(), unmeasured)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_square_metre_holds_fifty_nine_of_thirteen_centimetres_and_sixty_eight_staggered() {
        let pot = |mm| Pot::Round {
            top: Length::from_mm(mm),
            base: Length::from_mm(mm * 3 / 4),
            height: Length::from_mm(mm),
        };
        assert_eq!(fit(&pot(130), 1_000_000), Some((59, 68)));
        assert_eq!(fit(&pot(170), 1_000_000).map(|it| it.0), Some(34));
        let box_shaped = Pot::Square {
            top: Length::from_mm(100),
            base: Length::from_mm(80),
            height: Length::from_mm(90),
        };
        assert_eq!(fit(&box_shaped, 1_000_000), Some((100, 100)));
    }
}
