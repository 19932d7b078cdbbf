//! A swab or a brush: a small cup of mixture, or a little as it is in the bottle, on the pest or the spot alone.

use crate::quantity::Volume;

/// The cup that is made up where nothing else is said, in microlitres.
pub const CUP_UL: i64 = 100_000;

/// The cup: as typed, or the small one.
#[must_use]
pub(super) fn cup(typed: Option<Volume>) -> Volume {
    typed.unwrap_or(Volume::from_ul(CUP_UL))
}
