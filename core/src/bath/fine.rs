//! The one place in a bath where a power is taken: floats live here alone, and come out as whole thousandths.
//!
//! Carried out at k times the bath's strength, what falls from V to W leaves (W/V)^(k-1) of the strength; what is added
//! at the first strength is averaged by volume. Own derivation from the balance of the product in the tub.

use super::life::Level;

/// The strength left, in thousandths of the first, for levels read and water added, where plants carry out at
/// `k_permille` thousandths of the bath's strength.
pub(super) fn after(full_ul: i64, levels: &[Level], k_permille: u32) -> u32 {
    let power = f64::from(k_permille) / 1_000.0 - 1.0;
    let mut volume = litres(full_ul);
    let mut strength = 1.0_f64;
    for level in levels {
        match *level {
            Level::Read { ul } => {
                let now = litres(ul);
                if volume > 0.0 && now > 0.0 {
                    strength *= libm::pow(now / volume, power);
                }
                volume = now;
            }
            Level::Added { ul } => {
                let added = litres(ul);
                let sum = volume + added;
                if sum > 0.0 {
                    strength = (strength * volume + added) / sum;
                }
                volume = sum;
            }
        }
    }
    whole_permille(strength)
}

#[expect(clippy::cast_precision_loss, reason = "no tub holds 2^53 microlitres")]
fn litres(ul: i64) -> f64 {
    ul as f64 / 1_000_000.0
}

#[expect(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "a share of one, clamped before"
)]
fn whole_permille(share: f64) -> u32 {
    (share * 1_000.0).clamp(0.0, 1_000_000.0).round() as u32
}
