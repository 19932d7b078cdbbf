//! Exact fractions, so that a dose is converted without loss and rounded once.
//!
//! Invariants: the denominator is positive, the fraction is in lowest terms, and arithmetic that would
//! leave the range of `i128` answers `None` instead of wrapping.

use std::cmp::Ordering;

/// A fraction in lowest terms with a positive denominator.
///
/// Not stored: only typed numbers and whole smallest units are.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct Ratio {
    num: i128,
    den: i128,
}

const fn gcd(a: i128, b: i128) -> i128 {
    let (mut a, mut b) = (a.unsigned_abs(), b.unsigned_abs());
    while b != 0 {
        (a, b) = (b, a % b);
    }
    // Only the magnitude of i128::MIN does not fit; a divisor of one is always right.
    if a == 0 || a > i128::MAX as u128 {
        1
    } else {
        a as i128
    }
}

impl Ratio {
    /// Nothing.
    pub const ZERO: Self = Self::whole(0);
    /// One.
    pub const ONE: Self = Self::whole(1);

    /// A whole number.
    #[must_use]
    pub const fn whole(n: i128) -> Self {
        Self { num: n, den: 1 }
    }

    /// A fraction written down in a table of constants; a zero or negative denominator does not compile there.
    pub(crate) const fn of(num: i128, den: i128) -> Self {
        assert!(den > 0, "a factor needs a positive denominator");
        let g = gcd(num, den);
        Self {
            num: num / g,
            den: den / g,
        }
    }

    /// A fraction from any two numbers; `None` for a zero denominator or one out of range.
    #[must_use]
    pub fn new(num: i128, den: i128) -> Option<Self> {
        if den == 0 {
            return None;
        }
        let g = gcd(num, den);
        let (num, den) = (num / g, den / g);
        if den < 0 {
            Some(Self {
                num: num.checked_neg()?,
                den: den.checked_neg()?,
            })
        } else {
            Some(Self { num, den })
        }
    }

    /// The numerator, which carries the sign.
    #[must_use]
    pub const fn num(self) -> i128 {
        self.num
    }

    /// The denominator, always positive.
    #[must_use]
    pub const fn den(self) -> i128 {
        self.den
    }

    /// Below zero.
    #[must_use]
    pub const fn is_negative(self) -> bool {
        self.num < 0
    }

    /// Exactly zero.
    #[must_use]
    pub const fn is_zero(self) -> bool {
        self.num == 0
    }

    /// The product, cancelled crosswise first so that long chains stay in range.
    #[must_use]
    pub fn checked_mul(self, other: Self) -> Option<Self> {
        let g = gcd(self.num, other.den);
        let h = gcd(other.num, self.den);
        let num = (self.num / g).checked_mul(other.num / h)?;
        let den = (self.den / h).checked_mul(other.den / g)?;
        Self::new(num, den)
    }

    /// The quotient; `None` when dividing by zero.
    #[must_use]
    pub fn checked_div(self, other: Self) -> Option<Self> {
        self.checked_mul(Self::new(other.den, other.num)?)
    }

    /// The sum.
    #[must_use]
    pub fn checked_add(self, other: Self) -> Option<Self> {
        let g = gcd(self.den, other.den);
        let left = self.num.checked_mul(other.den / g)?;
        let right = other.num.checked_mul(self.den / g)?;
        Self::new(
            left.checked_add(right)?,
            (self.den / g).checked_mul(other.den)?,
        )
    }

    /// The difference.
    #[must_use]
    pub fn checked_sub(self, other: Self) -> Option<Self> {
        self.checked_add(Self {
            num: other.num.checked_neg()?,
            den: other.den,
        })
    }

    /// The nearest whole number; halves go away from zero, as on paper.
    #[must_use]
    pub fn round(self) -> i128 {
        let whole = self.num / self.den;
        let rest = (self.num % self.den).unsigned_abs();
        // rest < den, so den - rest is in range and this is "rest >= den / 2" without overflow.
        if rest >= self.den.unsigned_abs() - rest {
            whole + self.num.signum()
        } else {
            whole
        }
    }

    /// The nearest whole number as a stored integer; `None` when it does not fit.
    #[must_use]
    pub fn round_i64(self) -> Option<i64> {
        i64::try_from(self.round()).ok()
    }
}

impl PartialOrd for Ratio {
    fn partial_cmp(&self, other: &Self) -> Option<Ordering> {
        Some(self.cmp(other))
    }
}

impl Ord for Ratio {
    /// Compares by continued fractions: exact, and nothing is multiplied that could overflow.
    fn cmp(&self, other: &Self) -> Ordering {
        let (mut a, mut b) = ((self.num, self.den), (other.num, other.den));
        loop {
            let by_whole = a.0.div_euclid(a.1).cmp(&b.0.div_euclid(b.1));
            if by_whole != Ordering::Equal {
                return by_whole;
            }
            let (ra, rb) = (a.0.rem_euclid(a.1), b.0.rem_euclid(b.1));
            match (ra == 0, rb == 0) {
                (true, true) => return Ordering::Equal,
                (true, false) => return Ordering::Less,
                (false, true) => return Ordering::Greater,
                // Both fractions lie between 0 and 1: the larger one has the smaller reciprocal.
                (false, false) => (a, b) = ((b.1, rb), (a.1, ra)),
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn halves_round_away_from_zero() {
        assert_eq!(Ratio::of(5, 2).round(), 3);
        assert_eq!(Ratio::of(-5, 2).round(), -3);
        assert_eq!(Ratio::of(7, 3).round(), 2);
        assert_eq!(Ratio::of(8, 3).round(), 3);
        assert_eq!(Ratio::of(i128::MAX, 1).round(), i128::MAX);
    }

    #[test]
    fn what_does_not_fit_is_refused_and_does_not_wrap() {
        let big = Ratio::whole(i128::MAX);
        assert_eq!(big.checked_mul(Ratio::whole(2)), None);
        assert_eq!(big.checked_add(Ratio::ONE), None);
        assert_eq!(Ratio::ONE.checked_div(Ratio::ZERO), None);
        assert_eq!(Ratio::new(1, 0), None);
        assert_eq!(Ratio::new(3, -6), Some(Ratio::of(-1, 2)));
    }

    proptest! {
        #[test]
        fn order_agrees_with_cross_multiplication(a in -9_999_i128..9_999, b in 1_i128..9_999, c in -9_999_i128..9_999, d in 1_i128..9_999) {
            prop_assert_eq!(Ratio::of(a, b).cmp(&Ratio::of(c, d)), (a * d).cmp(&(c * b)));
        }

        #[test]
        fn what_is_added_can_be_taken_away(a in any::<i32>(), b in 1_i32.., c in any::<i32>(), d in 1_i32..) {
            let (x, y) = (Ratio::of(a.into(), b.into()), Ratio::of(c.into(), d.into()));
            prop_assert_eq!(x.checked_add(y).and_then(|sum| sum.checked_sub(y)), Some(x));
            if !y.is_zero() {
                prop_assert_eq!(x.checked_mul(y).and_then(|product| product.checked_div(y)), Some(x));
            }
        }
    }
}
