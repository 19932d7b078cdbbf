//! What goes into so much mix, and how many bags: parts are measured before they are mixed, and mixed they are less.
//!
//! Fines fill the gaps between coarse pieces, so the parts together are more than the mix. Loose mix in, loose parts
//! out; settling in the pot is counted where pots are filled.

use crate::event::MixShare;
use crate::quantity::{Ratio, Volume};
use crate::reference::media::{self, Component};

/// What parts lose when they are mixed, in thousandths, from and to (common practice, no source).
const ALIKE: (u32, u32) = (0, 50);
const UNLIKE: (u32, u32) = (50, 100);
const COARSE_WITH_FINE: (u32, u32) = (100, 200);

/// One part of a mix.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Part {
    pub component: String,
    pub volume: Volume,
}

/// How much less the mix is than its parts, in thousandths, from and to: nothing for one part alone.
#[must_use]
pub fn shrinks_permille(shares: &[MixShare]) -> (u32, u32) {
    let parts: Vec<Option<&Component>> = shares
        .iter()
        .filter(|share| share.permille > 0)
        .map(|share| media::component(&share.component))
        .collect();
    if parts.len() < 2 {
        return (0, 0);
    }
    // Moss has no grade and goes between everything.
    let fine = |part: &Component| part.grade_mm.is_none_or(|(_, to)| to <= 6);
    let coarse = |part: &Component| part.grade_mm.is_some_and(|(from, _)| from >= 9);
    let known = || parts.iter().flatten();
    if known().any(|part| fine(part)) && known().any(|part| coarse(part)) {
        return COARSE_WITH_FINE;
    }
    let inert = known().filter(|part| part.inert).count();
    if inert > 0 && inert < parts.len() {
        return UNLIKE;
    }
    ALIKE
}

/// Whether fines make up so much of a mix that it stays wet above a coarser layer: a third and more of it.
#[must_use]
pub fn is_fine(shares: &[MixShare]) -> bool {
    const THIRD: u32 = 333;
    let fine = shares.iter().filter(|share| {
        let part = media::component(&share.component);
        part.is_some_and(|part| part.water_permille.0 >= 400)
    });
    fine.map(|share| u32::from(share.permille)).sum::<u32>() >= THIRD
}

/// The parts of so much loose mix, at the middle of what they lose; `None` where a sum does not fit the book.
#[must_use]
pub fn parts(mix: Volume, shares: &[MixShare]) -> Option<Vec<Part>> {
    let (low, high) = shrinks_permille(shares);
    let sum: i128 = shares.iter().map(|share| i128::from(share.permille)).sum();
    let kept = Ratio::new(i128::from(1_000 - low.midpoint(high)), 1_000)?;
    let all = mix.ratio().checked_div(kept)?;
    shares
        .iter()
        .filter(|share| share.permille > 0)
        .map(|share| {
            let part = all.checked_mul(Ratio::new(i128::from(share.permille), sum)?)?;
            Some(Part {
                component: share.component.clone(),
                volume: Volume::from_ul(part.round_i64()?),
            })
        })
        .collect()
}

/// Bags to buy for so much; `None` for a bag that holds nothing.
#[must_use]
pub fn bags(needed: Volume, bag: Volume) -> Option<u32> {
    let (needed, bag) = (needed.ul().max(0), bag.ul());
    if bag <= 0 {
        return None;
    }
    let more = i64::from(needed % bag > 0);
    u32::try_from((needed / bag).saturating_add(more)).ok()
}

/// Pots one bag fills; `None` where a pot takes nothing.
#[must_use]
pub fn pots_of_a_bag(bag: Volume, each: Volume) -> Option<u32> {
    if each.ul() <= 0 {
        return None;
    }
    u32::try_from(bag.ul().max(0) / each.ul()).ok()
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn shares(parts: &[(&str, u16)]) -> Vec<MixShare> {
        let share = |(component, permille): &(&str, u16)| MixShare {
            component: (*component).to_owned(),
            permille: *permille,
        };
        parts.iter().map(share).collect()
    }

    #[test]
    fn one_bark_loses_nothing_and_moss_between_coarse_bark_a_seventh() {
        assert_eq!(shrinks_permille(&shares(&[("bark_medium", 1_000)])), (0, 0));
        let two_barks = shares(&[("bark_medium", 500), ("bark_coarse", 500)]);
        assert_eq!(shrinks_permille(&two_barks), (0, 50));
        let stones = shares(&[("bark_medium", 700), ("pumice", 300)]);
        assert_eq!(shrinks_permille(&stones), (50, 100));
        let moss = shares(&[("bark_coarse", 800), ("sphagnum_long", 200)]);
        assert_eq!(shrinks_permille(&moss), (100, 200));
        // 85 L of it take 100 L of parts.
        let parts = parts(Volume::from_ul(85_000_000), &moss).unwrap();
        let litres: Vec<i64> = parts
            .iter()
            .map(|part| part.volume.ul() / 1_000_000)
            .collect();
        assert_eq!(litres, [80, 20]);
    }

    #[test]
    fn twenty_five_litres_fill_thirteen_pots_of_one_point_nine() {
        let litre = |tenths: i64| Volume::from_ul(tenths * 100_000);
        assert_eq!(pots_of_a_bag(litre(250), litre(19)), Some(13));
        assert_eq!(bags(litre(501), litre(250)), Some(3));
        assert_eq!(bags(litre(500), litre(250)), Some(2));
        assert_eq!(bags(litre(0), litre(250)), Some(0));
        assert_eq!(bags(litre(1), Volume::ZERO), None);
        assert_eq!(pots_of_a_bag(litre(250), Volume::ZERO), None);
    }

    proptest! {
        #[test]
        fn parts_are_never_less_than_the_mix_and_keep_their_shares(
            mix in 0_i64..10_000_000_000,
            a in 1_u16..1_000,
        ) {
            let shares = shares(&[("bark_coarse", a), ("perlite_coarse", 1_000 - a)]);
            let parts = parts(Volume::from_ul(mix), &shares).unwrap();
            let sum: i64 = parts.iter().map(|part| part.volume.ul()).sum();
            prop_assert!(sum + 2 >= mix);
            let first = i128::from(parts[0].volume.ul()) * 1_000;
            let share = i128::from(sum) * i128::from(a);
            prop_assert!((first - share).abs() <= 2_000);
        }
    }
}
