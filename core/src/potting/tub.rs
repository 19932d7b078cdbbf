//! Tubs, trays and barrels for baths, filled to a depth.
//!
//! How much water stands in the tub decides the dose, so the depth is measured and the litres follow. Everything but a lying
//! barrel is exact in whole numbers. The lying barrel needs an arc cosine: `libm`'s, which gives the same bits on every
//! machine, rounded to a whole number before it is used.

use serde::{Deserialize, Serialize};

use super::solid::Solid;
use super::{FineVolume, Measure, PottingRejection, depth, side};
use crate::quantity::{Length, Volume};

/// A tub by its inside measures, in µm as stored.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case", deny_unknown_fields)]
pub enum Tub {
    /// A box with upright sides.
    Rectangle {
        /// Longer side.
        length: Length,
        /// Shorter side.
        width: Length,
        /// Height.
        height: Length,
    },
    /// A box whose sides taper evenly.
    Tapered {
        /// Longer side at the top.
        top_length: Length,
        /// Shorter side at the top.
        top_width: Length,
        /// Longer side at the base.
        base_length: Length,
        /// Shorter side at the base.
        base_width: Length,
        /// Height.
        height: Length,
    },
    /// A bucket or drum that stands; give both diameters alike when its side is upright.
    Cylinder {
        /// Diameter across the top.
        top: Length,
        /// Diameter across the base.
        base: Length,
        /// Height.
        height: Length,
    },
    /// An oval tub with upright sides.
    Ellipse {
        /// Longer axis, from side to side.
        major: Length,
        /// Shorter axis, from side to side.
        minor: Length,
        /// Height.
        height: Length,
    },
    /// A barrel on its side, ends flat.
    LyingCylinder {
        /// Diameter.
        diameter: Length,
        /// Length.
        length: Length,
    },
}

impl Tub {
    /// What stands in it up to this depth, rounded to µL.
    ///
    /// # Errors
    /// `NotAboveZero`, `BelowZero`, `TooLarge`, `DeeperThanTub`.
    pub fn filled_to(&self, fill: Length) -> Result<Volume, PottingRejection> {
        self.fine_filled_to(fill)?
            .volume()
            .ok_or(PottingRejection::OutOfRange)
    }

    /// What stands in it up to this depth, before rounding.
    ///
    /// # Errors
    /// As [`Tub::filled_to`].
    pub fn fine_filled_to(&self, fill: Length) -> Result<FineVolume, PottingRejection> {
        let fill = depth(fill, Measure::Depth)?;
        if let Self::LyingCylinder { diameter, length } = *self {
            let (diameter, length) = (
                side(diameter, Measure::Top)?,
                side(length, Measure::Length)?,
            );
            if fill > diameter {
                return Err(PottingRejection::DeeperThanTub);
            }
            return Ok(lying(diameter, length, fill));
        }
        let solid = self.solid()?;
        if fill > solid.height {
            return Err(PottingRejection::DeeperThanTub);
        }
        solid.up_to(fill).ok_or(PottingRejection::OutOfRange)
    }

    /// What it holds to the brim, rounded to µL.
    ///
    /// # Errors
    /// As [`Tub::filled_to`].
    pub fn brimful(&self) -> Result<Volume, PottingRejection> {
        let height = match *self {
            Self::Rectangle { height, .. }
            | Self::Tapered { height, .. }
            | Self::Cylinder { height, .. }
            | Self::Ellipse { height, .. } => height,
            Self::LyingCylinder { diameter, .. } => diameter,
        };
        self.filled_to(height)
    }

    fn solid(&self) -> Result<Solid, PottingRejection> {
        let (base, top, height, round) = match *self {
            Self::Rectangle {
                length,
                width,
                height,
            } => ((length, width), (length, width), height, false),
            Self::Tapered {
                top_length,
                top_width,
                base_length,
                base_width,
                height,
            } => (
                (base_length, base_width),
                (top_length, top_width),
                height,
                false,
            ),
            Self::Cylinder { top, base, height } => ((base, base), (top, top), height, true),
            Self::Ellipse {
                major,
                minor,
                height,
            } => ((major, minor), (major, minor), height, true),
            Self::LyingCylinder { diameter, length } => {
                ((diameter, length), (diameter, length), diameter, true)
            }
        };
        Ok(Solid {
            base: (
                side(base.0, Measure::Base)?,
                side(base.1, Measure::BaseWidth)?,
            ),
            top: (side(top.0, Measure::Top)?, side(top.1, Measure::TopWidth)?),
            height: side(height, Measure::Height)?,
            round,
        })
    }
}

/// A lying barrel's segment: length × (r² acos((r − d) / r) − (r − d) √(2rd − d²)), in floats, rounded to cubic µm.
fn lying(diameter: i128, length: i128, fill: i128) -> FineVolume {
    let (r, d) = (diameter as f64 / 2.0, fill as f64);
    // Rounding may carry the root's argument a hair below zero when the barrel is full.
    let root = libm::sqrt((2.0 * r * d - d * d).max(0.0));
    let segment = r * r * libm::acos(((r - d) / r).clamp(-1.0, 1.0)) - (r - d) * root;
    FineVolume::from_um3(libm::round(segment * length as f64) as i128)
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    const fn mm(mm: u32) -> Length {
        Length::from_mm(mm)
    }

    #[test]
    fn a_crate_of_sixty_by_forty_holds_24_litres_at_ten_centimetres() {
        let tub = Tub::Rectangle {
            length: mm(600),
            width: mm(400),
            height: mm(300),
        };
        assert_eq!(tub.filled_to(mm(100)).map(Volume::ul), Ok(24_000_000));
        assert_eq!(tub.brimful().map(Volume::ul), Ok(72_000_000));
        assert_eq!(tub.filled_to(mm(301)), Err(PottingRejection::DeeperThanTub));
        assert_eq!(tub.filled_to(mm(0)), Ok(Volume::ZERO));
    }

    #[test]
    fn a_lying_barrel_half_full_holds_half() {
        let barrel = Tub::LyingCylinder {
            diameter: mm(570),
            length: mm(880),
        };
        let half = barrel.filled_to(mm(285)).expect("in range").ul();
        assert!((barrel.brimful().expect("in range").ul() - 2 * half).abs() <= 1);
        let upright = Tub::Cylinder {
            top: mm(570),
            base: mm(570),
            height: mm(880),
        };
        assert_eq!(barrel.brimful(), upright.brimful());
    }

    #[test]
    fn impossible_tubs_are_refused() {
        let flat = Tub::Ellipse {
            major: mm(600),
            minor: mm(0),
            height: mm(300),
        };
        assert_eq!(
            flat.brimful(),
            Err(PottingRejection::NotAboveZero(Measure::BaseWidth))
        );
        let endless = Tub::LyingCylinder {
            diameter: mm(600),
            length: mm(5_001),
        };
        assert_eq!(
            endless.brimful(),
            Err(PottingRejection::TooLarge(Measure::Length))
        );
    }

    proptest! {
        #[test]
        fn a_lying_barrel_never_loses_water_by_filling(diameter in 1_u32..2_000, length in 1_u32..2_000, f in 0_u32..2_000, g in 0_u32..2_000) {
            let barrel = Tub::LyingCylinder { diameter: mm(diameter), length: mm(length) };
            let (low, high) = (f.min(g).min(diameter), f.max(g).min(diameter));
            let at = |depth| barrel.filled_to(mm(depth)).expect("in range");
            prop_assert!(at(low) <= at(high));
            prop_assert!(at(high) <= barrel.brimful().expect("in range"));
        }
    }
}
