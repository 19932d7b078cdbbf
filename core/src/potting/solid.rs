//! Volumes of straight-sided solids, filled to a height, in whole numbers.
//!
//! With sides that taper evenly the cross-section at height z is a(z) times b(z), both linear, so the volume up to f is
//! f/6 (2 a0 b0 + a0 bf + af b0 + 2 af bf): for a square that is h/3 (A² + AB + B²), for a circle with a factor π/4 the
//! frustum's πh/12 (D² + Dd + d²). The same formula at f = h is brimful, so part-filled meets brimful exactly and never
//! exceeds it.
//!
//! Measures are at most 5 000 000 µm (checked by the callers), which keeps every product below inside `i128`.

use super::FineVolume;

/// π as a fraction, a convergent of its continued fraction, right to 8 parts in 10^23.
const PI: (i128, i128) = (21_053_343_141, 6_701_487_259);
/// Guard digits kept between the two roundings.
const GUARD: i128 = 1_000;

/// A solid with two pairs of sides, or two axes, that taper evenly from base to top; all in µm.
#[derive(Clone, Copy, Debug)]
pub(super) struct Solid {
    pub(super) base: (i128, i128),
    pub(super) top: (i128, i128),
    pub(super) height: i128,
    /// An ellipse or circle with these axes instead of a rectangle with these sides.
    pub(super) round: bool,
}

impl Solid {
    /// Its volume from the base up to `fill`, which is between zero and the height.
    pub(super) fn up_to(&self, fill: i128) -> Option<FineVolume> {
        let h = self.height;
        // Widths at the fill height, times h so that they stay whole.
        let at_fill = |base: i128, top: i128| {
            base.checked_mul(h)?
                .checked_add((top - base).checked_mul(fill)?)
        };
        let a0 = self.base.0.checked_mul(h)?;
        let b0 = self.base.1.checked_mul(h)?;
        let af = at_fill(self.base.0, self.top.0)?;
        let bf = at_fill(self.base.1, self.top.1)?;
        let corners = a0.checked_mul(b0)?.checked_mul(2)?;
        let mixed = a0.checked_mul(bf)?.checked_add(af.checked_mul(b0)?)?;
        let upper = af.checked_mul(bf)?.checked_mul(2)?;
        let sum = corners.checked_add(mixed)?.checked_add(upper)?;
        let over = h.checked_mul(h)?.checked_mul(6)?;
        let guarded = div_round(sum.checked_mul(fill)?.checked_mul(GUARD)?, over)?;
        let um3 = if self.round {
            div_round(
                guarded.checked_mul(PI.0)?,
                PI.1.checked_mul(4)?.checked_mul(GUARD)?,
            )?
        } else {
            div_round(guarded, GUARD)?
        };
        Some(FineVolume::from_um3(um3))
    }

    /// Its volume to the brim.
    pub(super) fn brimful(&self) -> Option<FineVolume> {
        self.up_to(self.height)
    }
}

/// The nearest whole quotient of two numbers that are not negative.
fn div_round(num: i128, den: i128) -> Option<i128> {
    let rest = num.checked_rem(den)?;
    let whole = num.checked_div(den)?;
    if rest >= den - rest {
        whole.checked_add(1)
    } else {
        Some(whole)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn the_largest_tub_stays_in_range() {
        let most = super::super::MOST_SIDE.um().into();
        for round in [false, true] {
            let solid = Solid {
                base: (most, most),
                top: (most, most),
                height: most,
                round,
            };
            assert!(solid.brimful().is_some());
        }
    }

    #[test]
    fn a_metre_cube_is_a_thousand_litres() {
        let m = 1_000_000;
        let cube = Solid {
            base: (m, m),
            top: (m, m),
            height: m,
            round: false,
        };
        assert_eq!(
            cube.brimful().and_then(FineVolume::volume).map(|v| v.ul()),
            Some(1_000_000_000)
        );
    }

    proptest! {
        #[test]
        fn more_fill_is_never_less_and_never_above_brimful(
            base in 1_i128..5_000_000, top in 1_i128..5_000_000, height in 1_i128..5_000_000, f in 0_i128..5_000_000, g in 0_i128..5_000_000, round: bool,
        ) {
            let solid = Solid { base: (base, base), top: (top, top), height, round };
            let (low, high) = (f.min(g) % (height + 1), f.max(g) % (height + 1));
            let (low, high) = (low.min(high), low.max(high));
            let at = |fill| solid.up_to(fill).expect("in range");
            prop_assert!(at(0) == FineVolume::from_um3(0));
            prop_assert!(at(low) <= at(high));
            prop_assert!(at(high) <= solid.brimful().expect("in range"));
        }

        #[test]
        fn a_straight_pot_filled_to_a_part_of_its_height_holds_that_part(side in 1_000_i128..2_000_000, height in 1_000_i128..2_000_000) {
            let solid = Solid { base: (side, side), top: (side, side), height: height * 4, round: true };
            let quarter = solid.up_to(height).expect("in range").um3() * 4;
            prop_assert!((quarter - solid.brimful().expect("in range").um3()).abs() <= 4);
        }
    }
}
