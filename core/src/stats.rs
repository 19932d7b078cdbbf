//! How sure a count makes one: k of n looked at, with its interval.
//!
//! Computed when it is shown; nothing of it is stored. Wilson's score interval (Wilson, J. Am. Stat. Assoc. 22, 1927)
//! stays within 0 and 1 and means something for none and for all of a few plants, which is what a walk along a bench
//! yields.

/// Two-sided 95 per cent.
const Z: f64 = 1.959_963_984_540_054;

/// A share and the interval it lies in, in thousandths.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Share {
    pub permille: u16,
    pub low: u16,
    pub high: u16,
}

/// Bounds of the 95 per cent interval of k of n; `None` of nothing looked at, or of more found than looked at.
#[must_use]
pub fn wilson(found: u32, looked_at: u32) -> Option<(f64, f64)> {
    if looked_at == 0 || found > looked_at {
        return None;
    }
    let (k, n) = (f64::from(found), f64::from(looked_at));
    let (p, z2) = (k / n, Z * Z);
    let middle = (p + z2 / (2.0 * n)) / (1.0 + z2 / n);
    let half = Z / (1.0 + z2 / n) * libm::sqrt(p * (1.0 - p) / n + z2 / (4.0 * n * n));
    let low = if found == 0 { 0.0 } else { middle - half };
    let high = if found == looked_at {
        1.0
    } else {
        middle + half
    };
    Some((low, high))
}

/// The same for the screen.
#[must_use]
pub fn share(found: u32, looked_at: u32) -> Option<Share> {
    let (low, high) = wilson(found, looked_at)?;
    let permille = u64::from(found) * 1_000 + u64::from(looked_at) / 2;
    let permille = u16::try_from(permille / u64::from(looked_at)).unwrap_or(1_000);
    Some(Share {
        permille,
        low: thousandths(low),
        high: thousandths(high),
    })
}

#[allow(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "between 0 and 1000 by the clamp before it"
)]
fn thousandths(share: f64) -> u16 {
    libm::round(share * 1_000.0).clamp(0.0, 1_000.0) as u16
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn forty_six_of_fifty_lie_between_81_and_97_in_a_hundred() {
        let share = share(46, 50).unwrap();
        assert_eq!((share.permille, share.low, share.high), (920, 812, 968));
    }

    #[test]
    fn none_of_a_few_says_little_and_more_than_all_says_nothing() {
        assert_eq!(
            share(0, 5).map(|share| (share.low, share.high)),
            Some((0, 434))
        );
        assert_eq!(share(5, 5).map(|share| share.high), Some(1_000));
        assert_eq!(wilson(3, 2), None);
        assert_eq!(wilson(0, 0), None);
    }
}
