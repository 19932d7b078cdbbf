//! The room a piece needs in its pot: the ground its growths cover, and two years of growth on.
//!
//! Growths are taken to cover a round patch, one spacing square each; a piece with one lead grows to one side, with
//! several to both (our own reading of the growers' rule of two years' room; common practice, no source).

use crate::id::PotId;
use crate::potting::Pot;
use crate::reference::spacing::spacing_mm;
use crate::reference::taxa::Group;
use crate::state::Facts;

/// Years of growth a pot leaves room for, one growth a lead a year.
const YEARS: u64 = 2;

/// Millimetres across that a piece of so many growths and leads needs.
#[must_use]
pub fn room_mm(group: Group, growths: u32, leads: u32) -> u32 {
    let (low, high) = spacing_mm(group);
    let spacing = u64::from(low.midpoint(high));
    // The patch is as wide as a round of that area: 4 n s² / π, with π as 355/113, in hundredths of a millimetre.
    let area = u64::from(growths.max(1))
        .saturating_mul(4)
        .saturating_mul(spacing.saturating_mul(spacing))
        .saturating_mul(10_000)
        .saturating_mul(113)
        / 355;
    let patch = area.isqrt().div_ceil(100);
    let sides = if leads > 1 { 2 } else { 1 };
    let grown = YEARS.saturating_mul(spacing).saturating_mul(sides);
    u32::try_from(patch.saturating_add(grown)).unwrap_or(u32::MAX)
}

/// Width across the top, in micrometres; `None` for a pot known by its water alone.
#[must_use]
pub(super) fn width_um(pot: &Pot) -> Option<i64> {
    match pot {
        Pot::Round { top, .. } | Pot::Square { top, .. } => Some(top.um()),
        Pot::Holds { .. } => None,
    }
}

/// The smallest pot of the shelf that is wide enough, else the widest, and whether it is wide enough.
#[must_use]
pub fn pot_for(facts: &Facts, room_mm: u32) -> Option<(PotId, bool)> {
    let mut pots: Vec<(i64, PotId)> = facts
        .pots
        .iter()
        .filter(|(_, pot)| !pot.retired.or_default())
        .filter_map(|(id, pot)| Some((width_um(pot.form.get()?)?, *id)))
        .collect();
    pots.sort_unstable();
    let wanted = i64::from(room_mm).saturating_mul(1_000);
    let fits = pots.iter().find(|(width, _)| *width >= wanted);
    fits.map(|(_, id)| (*id, true))
        .or_else(|| pots.last().map(|(_, id)| (*id, false)))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_piece_of_four_bulbs_goes_into_a_pot_of_fifteen_and_a_thin_cane_into_a_small_one() {
        // Four spacings of 35 mm: a patch of 79 mm, and 70 mm to grow.
        assert_eq!(room_mm(Group::Cymbidium, 4, 1), 149);
        assert!(room_mm(Group::DendrobiumNobile, 4, 1) < 70);
        assert!(room_mm(Group::Zygopetalum, 3, 1) > room_mm(Group::Oncidium, 3, 1));
        assert!(room_mm(Group::Cymbidium, 18, 3) > 300);
        assert!(
            room_mm(Group::Cymbidium, u32::MAX, 9) > 1_000,
            "no overflow"
        );
    }
}
