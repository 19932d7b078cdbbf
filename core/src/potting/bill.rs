//! What to bring to the potting bench for so many pots.

use super::pot::FineFill;
use super::{Fill, FineVolume, Layers, Pot, PottingRejection};
use crate::quantity::{Mass, Ratio, Volume};

/// Mix lost to settling after potting and the first waterings: 10 % (common practice, no source; bark mixes 5 to 12 %).
pub const DEFAULT_SETTLE_PERMILLE: u32 = 100;
/// The most settling taken: half.
pub const MOST_SETTLE_PERMILLE: u32 = 500;
/// The most pots on one bill.
pub const MOST_POTS: u32 = 100_000;

/// The litres and kilograms for a number of like pots.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Bill {
    /// One pot, shared out; its mix is what fills the pot once settled.
    pub one: Fill,
    /// Pots.
    pub pots: u32,
    /// Loose mix for all pots. Settling is a share of the loose mix, so this is the settled volume divided by (1 − settling):
    /// at 10 % that is 11.1 % more, not 10 %.
    pub mix: Volume,
    /// Stone for all pots.
    pub stone: Volume,
    /// What that stone weighs, dry.
    pub stone_mass: Mass,
}

/// Mix and stone for `pots` pots of one kind.
///
/// `settle_permille` is the share of loose mix lost to settling; `stone_g_per_l` the stone's dry bulk density. Worked out
/// for all pots together and rounded once, so a hundred pots do not add up a hundred roundings.
///
/// # Errors
/// As [`Pot::fill`], and `TooManyPots`, `SettlesTooMuch`.
pub fn bill(
    pot: &Pot,
    layers: &Layers,
    pots: u32,
    settle_permille: u32,
    stone_g_per_l: u32,
) -> Result<Bill, PottingRejection> {
    if pots > MOST_POTS {
        return Err(PottingRejection::TooManyPots);
    }
    if settle_permille > MOST_SETTLE_PERMILLE {
        return Err(PottingRejection::SettlesTooMuch);
    }
    let FineFill { mix, stone, .. } = pot.fine_fill(layers)?;
    let sums = || {
        let all = |fine: FineVolume| fine.ratio_ul()?.checked_mul(Ratio::whole(pots.into()));
        let kept = Ratio::new(i128::from(1_000 - settle_permille), 1_000)?;
        let loose = all(mix)?.checked_div(kept)?.round_i64()?;
        let stone = all(stone)?;
        Some((
            Volume::from_ul(loose),
            Volume::from_ul(stone.round_i64()?),
            mass(stone, stone_g_per_l)?,
        ))
    };
    let (mix, stone, stone_mass) = sums().ok_or(PottingRejection::OutOfRange)?;
    Ok(Bill {
        one: pot.fill(layers)?,
        pots,
        mix,
        stone,
        stone_mass,
    })
}

/// What a volume of a component weighs once watered and drained: its dry bulk density plus the water it holds, a share of its
/// volume at a kilogram per litre.
///
/// `None` when out of range.
#[must_use]
pub fn watered_mass(volume: Volume, dry_g_per_l: u32, water_permille: u32) -> Option<Mass> {
    mass(volume.ratio(), dry_g_per_l.checked_add(water_permille)?)
}

/// µL at so many g/L, in mg: a gram in a litre is a thousandth of a milligram in a microlitre.
fn mass(ul: Ratio, g_per_l: u32) -> Option<Mass> {
    ul.checked_mul(Ratio::new(g_per_l.into(), 1_000)?)?
        .round_i64()
        .map(Mass::from_mg)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::Length;

    fn two_litre_pot() -> (Pot, Layers) {
        let mm = Length::from_mm;
        (
            Pot::Round {
                top: mm(170),
                base: mm(120),
                height: mm(130),
            },
            Layers {
                stone: mm(30),
                headspace: mm(15),
            },
        )
    }

    #[test]
    fn settling_is_a_share_of_what_is_brought() {
        let (pot, layers) = two_litre_pot();
        let settled = bill(&pot, &layers, 1_000, 0, 1_390).expect("a bill");
        let loose = bill(&pot, &layers, 1_000, 100, 1_390).expect("a bill");
        assert!((loose.mix.ul() * 9 - settled.mix.ul() * 10).abs() <= 10);
        assert_eq!(loose.stone, settled.stone, "stone does not settle");
    }

    #[test]
    fn limits_are_where_they_are_said_to_be() {
        let (pot, layers) = two_litre_pot();
        assert!(bill(&pot, &layers, 100_000, 500, 1_390).is_ok());
        assert_eq!(
            bill(&pot, &layers, 100_001, 0, 1_390),
            Err(PottingRejection::TooManyPots)
        );
        assert_eq!(
            bill(&pot, &layers, 1, 501, 1_390),
            Err(PottingRejection::SettlesTooMuch)
        );
        let none = bill(&pot, &layers, 0, 100, 1_390).expect("a bill");
        assert_eq!((none.mix, none.stone_mass), (Volume::ZERO, Mass::ZERO));
    }
}
