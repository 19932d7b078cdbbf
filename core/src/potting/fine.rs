//! Volumes between steps, finer than stored.

use crate::quantity::{Ratio, Volume};

/// A volume in cubic micrometres, a thousand-millionth of a microlitre each.
///
/// Not stored. Sums and differences of layers are taken here, and [`FineVolume::volume`] rounds once.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct FineVolume(i128);

/// Cubic micrometres in a microlitre, which is a cubic millimetre.
const PER_UL: i128 = 1_000_000_000;

impl FineVolume {
    /// From cubic micrometres.
    #[must_use]
    pub const fn from_um3(um3: i128) -> Self {
        Self(um3)
    }

    /// From a stored volume.
    #[must_use]
    pub const fn of(volume: Volume) -> Self {
        Self(volume.ul() as i128 * PER_UL)
    }

    /// In cubic micrometres.
    #[must_use]
    pub const fn um3(self) -> i128 {
        self.0
    }

    /// In µL, exactly.
    #[must_use]
    pub fn ratio_ul(self) -> Option<Ratio> {
        Ratio::new(self.0, PER_UL)
    }

    /// Rounded to µL for the book; `None` when out of range.
    #[must_use]
    pub fn volume(self) -> Option<Volume> {
        self.ratio_ul()?.round_i64().map(Volume::from_ul)
    }

    /// The difference.
    pub(crate) fn minus(self, other: Self) -> Option<Self> {
        self.0.checked_sub(other.0).map(Self)
    }
}
