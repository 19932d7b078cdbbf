//! The beta distribution: what is believed of a share after some cases.
//!
//! The incomplete beta function by its continued fraction (modified Lentz), the quantile by halving; `libm`'s
//! logarithms give the same bits on every machine.

/// Steps of the continued fraction; it converges long before for what occurs here.
const STEPS: u32 = 400;
const TINY: f64 = 1e-300;
const HALVINGS: u32 = 200;

/// A belief about a share: `a` cases for and `b` against, fractions allowed.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Beta {
    pub a: f64,
    pub b: f64,
}

impl Beta {
    /// The belief that a range is meant to hold in four of five cases, from 0 to 1 both.
    ///
    /// The mean is the middle of the range, the spread that of a normal with the same 80 % range; at least one case in
    /// all, so that a wide range never believes in the ends alone.
    #[must_use]
    pub fn of_range(low: f64, high: f64) -> Self {
        /// Half the width of the middle four fifths of a normal, in standard deviations.
        const FOUR_FIFTHS: f64 = 1.281_551_565_544_600_5;
        let mean = ((low + high) / 2.0).clamp(0.01, 0.99);
        let sd = ((high - low) / 2.0 / FOUR_FIFTHS).max(0.005);
        let cases = (mean * (1.0 - mean) / (sd * sd) - 1.0).max(1.0);
        Self {
            a: mean * cases,
            b: (1.0 - mean) * cases,
        }
    }

    /// After further cases: `alive` of `of`.
    #[must_use]
    pub fn after(self, alive: u32, of: u32) -> Self {
        let alive = alive.min(of);
        Self {
            a: self.a + f64::from(alive),
            b: self.b + f64::from(of - alive),
        }
    }

    #[must_use]
    pub fn mean(self) -> f64 {
        self.a / (self.a + self.b)
    }

    #[must_use]
    pub fn variance(self) -> f64 {
        let n = self.a + self.b;
        self.a * self.b / (n * n * (n + 1.0))
    }

    /// The share of belief at or below `x`.
    #[must_use]
    pub fn at_most(self, x: f64) -> f64 {
        if x <= 0.0 {
            return 0.0;
        }
        if x >= 1.0 {
            return 1.0;
        }
        let Self { a, b } = self;
        let front = libm::exp(
            libm::lgamma(a + b) - libm::lgamma(a) - libm::lgamma(b)
                + a * libm::log(x)
                + b * libm::log1p(-x),
        );
        if x < (a + 1.0) / (a + b + 2.0) {
            front * fraction(a, b, x) / a
        } else {
            1.0 - front * fraction(b, a, 1.0 - x) / b
        }
    }

    /// The value that this share of belief lies at or below.
    #[must_use]
    pub fn quantile(self, share: f64) -> f64 {
        let (mut low, mut high) = (0.0, 1.0);
        for _ in 0..HALVINGS {
            let middle = f64::midpoint(low, high);
            if self.at_most(middle) < share {
                low = middle;
            } else {
                high = middle;
            }
        }
        f64::midpoint(low, high)
    }
}

/// The continued fraction of the incomplete beta function.
fn fraction(a: f64, b: f64, x: f64) -> f64 {
    let whole = |value: f64| if value.abs() < TINY { TINY } else { value };
    let mut c = 1.0;
    let mut d = 1.0 / whole(1.0 - (a + b) * x / (a + 1.0));
    let mut value = d;
    for step in 1..STEPS {
        let m = f64::from(step);
        let even = m * (b - m) * x / ((a + 2.0 * m - 1.0) * (a + 2.0 * m));
        d = 1.0 / whole(1.0 + even * d);
        c = whole(1.0 + even / c);
        value *= d * c;
        let odd = -(a + m) * (a + b + m) * x / ((a + 2.0 * m) * (a + 2.0 * m + 1.0));
        d = 1.0 / whole(1.0 + odd * d);
        c = whole(1.0 + odd / c);
        let by = d * c;
        value *= by;
        if (by - 1.0).abs() < 1e-16 {
            break;
        }
    }
    value
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_range_comes_back_as_its_middle_four_fifths() {
        for (low, high) in [(0.92, 0.98), (0.80, 0.92), (0.50, 0.80), (0.15, 0.50)] {
            let belief = Beta::of_range(low, high);
            assert!((belief.mean() - (low + high) / 2.0).abs() < 1e-12);
            assert!((belief.quantile(0.1) - low).abs() < 0.02, "{low}");
            assert!((belief.quantile(0.9) - high).abs() < 0.02, "{high}");
        }
    }

    #[test]
    fn cases_move_the_belief_and_many_cases_move_it_all_the_way() {
        let before = Beta::of_range(0.5, 0.8);
        let some = before.after(2, 10);
        assert!(some.mean() < before.mean() && some.mean() > 0.2);
        let many = before.after(2_000, 10_000);
        assert!((many.mean() - 0.2).abs() < 0.001);
        assert_eq!(
            before.after(5, 3),
            before.after(3, 3),
            "more than all is all"
        );
    }
}
