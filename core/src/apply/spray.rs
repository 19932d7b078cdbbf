//! A spray to just before run-off: so many litres, or so much on every square metre of the place; and how a house is
//! aired after it.

use crate::event::Cover;
use crate::id::PlaceId;
use crate::quantity::{Area, Volume};
use crate::state::State;

/// Millilitres on a square metre of densely standing plants: the middle of 0.1 to 0.2 L (from memory). A label that
/// names a volume of water comes first.
pub const ML_PER_M2: i64 = 150;

/// The bench area of a place, where it is typed.
#[must_use]
pub fn area_of(state: &State, place: PlaceId) -> Option<Area> {
    let cm2 = *state.facts().places.get(&place)?.area_cm2.get()?;
    (cm2 > 0).then(|| Area::from_mm2(i64::from(cm2).saturating_mul(100)))
}

/// What goes on an area at so much on every square metre.
#[must_use]
pub(super) fn on_area(area: Area, per_m2: Volume) -> Volume {
    let ul = i128::from(area.mm2()).saturating_mul(i128::from(per_m2.ul())) / 1_000_000;
    Volume::from_ul(i64::try_from(ul).unwrap_or(i64::MAX))
}

/// Whether a place has a roof, so that what is sprayed there stays in the air.
#[must_use]
pub(super) fn is_roofed(state: &State, place: PlaceId) -> bool {
    let place = state.facts().places.get(&place);
    place.is_some_and(|place| place.cover.get() != Some(&Cover::OpenToRain))
}
