//! A pot as measured, and how its height is shared between stone, mix and the room under the rim.

use serde::{Deserialize, Serialize};

use super::solid::Solid;
use super::{FineVolume, MOST_HOLDS, Measure, PottingRejection, depth, side};
use crate::quantity::{Length, Volume};

/// A pot. Measures are inside ones, in µm as stored.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case", deny_unknown_fields)]
pub enum Pot {
    /// Round: diameters and height.
    Round {
        /// Diameter across the top.
        top: Length,
        /// Diameter across the base.
        base: Length,
        /// Height.
        height: Length,
    },
    /// Square: sides and height.
    Square {
        /// Side at the top.
        top: Length,
        /// Side at the base.
        base: Length,
        /// Height.
        height: Length,
    },
    /// Known only by the water it holds, brimful: a litre of water weighs a kilogram.
    Holds {
        /// The water.
        water: Volume,
    },
}

/// What lies below and above the mix.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Layers {
    /// Depth of the stone layer.
    pub stone: Length,
    /// Room under the rim.
    pub headspace: Length,
}

/// One pot's volume, shared out. The three parts make the whole to within a microlitre each.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Fill {
    /// To the brim.
    pub brimful: Volume,
    /// The stone layer.
    pub stone: Volume,
    /// The mix.
    pub mix: Volume,
    /// Left free under the rim.
    pub headspace: Volume,
}

/// The shares before rounding.
#[derive(Clone, Copy, Debug)]
pub(super) struct FineFill {
    pub(super) brimful: FineVolume,
    pub(super) stone: FineVolume,
    pub(super) mix: FineVolume,
    pub(super) headspace: FineVolume,
}

/// A stone layer of a quarter of the pot's height, where the grower has not said otherwise (common practice, no source).
/// Nothing for a pot whose height is not known.
#[must_use]
pub fn default_stone(pot: &Pot) -> Length {
    match *pot {
        Pot::Round { height, .. } | Pot::Square { height, .. } => Length::from_um(height.um() / 4),
        Pot::Holds { .. } => Length::ZERO,
    }
}

impl Pot {
    /// Whether these measures can be a pot's.
    ///
    /// # Errors
    /// `NotAboveZero`, `TooLarge`, `BaseWiderThanTop`.
    pub fn check(&self) -> Result<(), PottingRejection> {
        self.fine_brimful().map(|_| ())
    }

    /// Its volume to the brim.
    ///
    /// # Errors
    /// As [`Pot::check`].
    pub fn brimful(&self) -> Result<Volume, PottingRejection> {
        self.fine_brimful()?
            .volume()
            .ok_or(PottingRejection::OutOfRange)
    }

    /// Its volume to the brim, before rounding.
    ///
    /// # Errors
    /// As [`Pot::check`].
    pub fn fine_brimful(&self) -> Result<FineVolume, PottingRejection> {
        match *self {
            Self::Holds { water } if water <= Volume::ZERO => {
                Err(PottingRejection::NotAboveZero(Measure::Holds))
            }
            Self::Holds { water } if water > MOST_HOLDS => {
                Err(PottingRejection::TooLarge(Measure::Holds))
            }
            Self::Holds { water } => Ok(FineVolume::of(water)),
            _ => self.solid()?.brimful().ok_or(PottingRejection::OutOfRange),
        }
    }

    /// Its volume from the base up to `fill`, before rounding.
    ///
    /// # Errors
    /// As [`Pot::check`], and `ShapeNotMeasured`, `BelowZero`, `LayersDeeperThanPot`.
    pub fn fine_up_to(&self, fill: Length) -> Result<FineVolume, PottingRejection> {
        let solid = self.solid()?;
        let fill = depth(fill, Measure::Depth)?;
        if fill > solid.height {
            return Err(PottingRejection::LayersDeeperThanPot);
        }
        solid.up_to(fill).ok_or(PottingRejection::OutOfRange)
    }

    /// How stone, mix and headspace share the pot.
    ///
    /// # Errors
    /// As [`Pot::check`], and `ShapeNotMeasured`, `BelowZero`, `LayersDeeperThanPot`.
    pub fn fill(&self, layers: &Layers) -> Result<Fill, PottingRejection> {
        let fine = self.fine_fill(layers)?;
        let rounded = |volume: FineVolume| volume.volume().ok_or(PottingRejection::OutOfRange);
        Ok(Fill {
            brimful: rounded(fine.brimful)?,
            stone: rounded(fine.stone)?,
            mix: rounded(fine.mix)?,
            headspace: rounded(fine.headspace)?,
        })
    }

    pub(super) fn fine_fill(&self, layers: &Layers) -> Result<FineFill, PottingRejection> {
        let stone = depth(layers.stone, Measure::Stone)?;
        let headspace = depth(layers.headspace, Measure::Headspace)?;
        let brimful = self.fine_brimful()?;
        if let Self::Holds { .. } = self {
            if stone > 0 || headspace > 0 {
                return Err(PottingRejection::ShapeNotMeasured);
            }
            let none = FineVolume::from_um3(0);
            return Ok(FineFill {
                brimful,
                stone: none,
                mix: brimful,
                headspace: none,
            });
        }
        let solid = self.solid()?;
        let surface = solid.height - headspace;
        if surface <= stone {
            return Err(PottingRejection::LayersDeeperThanPot);
        }
        let shares = || {
            let to_stone = solid.up_to(stone)?;
            let to_surface = solid.up_to(surface)?;
            let (mix, headspace) = (to_surface.minus(to_stone)?, brimful.minus(to_surface)?);
            Some(FineFill {
                brimful,
                stone: to_stone,
                mix,
                headspace,
            })
        };
        shares().ok_or(PottingRejection::OutOfRange)
    }

    fn solid(&self) -> Result<Solid, PottingRejection> {
        let (top, base, height, round) = match *self {
            Self::Round { top, base, height } => (top, base, height, true),
            Self::Square { top, base, height } => (top, base, height, false),
            Self::Holds { .. } => return Err(PottingRejection::ShapeNotMeasured),
        };
        let (top, base) = (side(top, Measure::Top)?, side(base, Measure::Base)?);
        let height = side(height, Measure::Height)?;
        if base > top {
            return Err(PottingRejection::BaseWiderThanTop);
        }
        Ok(Solid {
            base: (base, base),
            top: (top, top),
            height,
            round,
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn round(top: u32, base: u32, height: u32) -> Pot {
        Pot::Round {
            top: Length::from_mm(top),
            base: Length::from_mm(base),
            height: Length::from_mm(height),
        }
    }

    fn layers(stone: u32, headspace: u32) -> Layers {
        Layers {
            stone: Length::from_mm(stone),
            headspace: Length::from_mm(headspace),
        }
    }

    #[test]
    fn impossible_pots_are_refused_with_the_measure_that_is_wrong() {
        use PottingRejection::{BaseWiderThanTop, NotAboveZero, TooLarge};
        assert_eq!(
            round(170, 120, 0).check(),
            Err(NotAboveZero(Measure::Height))
        );
        assert_eq!(round(0, 0, 130).check(), Err(NotAboveZero(Measure::Top)));
        assert_eq!(round(170, 0, 130).check(), Err(NotAboveZero(Measure::Base)));
        assert_eq!(round(120, 170, 130).check(), Err(BaseWiderThanTop));
        assert_eq!(round(5_000, 5_000, 5_000).check(), Ok(()));
        assert_eq!(round(5_001, 170, 130).check(), Err(TooLarge(Measure::Top)));
        let water = Volume::from_ul(0);
        assert_eq!(
            Pot::Holds { water }.check(),
            Err(NotAboveZero(Measure::Holds))
        );
    }

    #[test]
    fn layers_have_to_leave_room_for_mix() {
        let pot = round(170, 120, 130);
        assert!(pot.fill(&layers(100, 29)).is_ok());
        assert_eq!(
            pot.fill(&layers(100, 30)),
            Err(PottingRejection::LayersDeeperThanPot)
        );
        assert_eq!(
            pot.fill(&layers(0, 131)),
            Err(PottingRejection::LayersDeeperThanPot)
        );
        let below = Layers {
            stone: Length::from_um(-1),
            headspace: Length::ZERO,
        };
        assert_eq!(
            pot.fill(&below),
            Err(PottingRejection::BelowZero(Measure::Stone))
        );
    }

    #[test]
    fn a_pot_known_by_its_water_has_no_layers_to_work_out() {
        let pot = Pot::Holds {
            water: Volume::from_ul(1_900_000),
        };
        assert_eq!(
            pot.fill(&Layers::default()).map(|fill| fill.mix.ul()),
            Ok(1_900_000)
        );
        assert_eq!(
            pot.fill(&layers(30, 0)),
            Err(PottingRejection::ShapeNotMeasured)
        );
        assert_eq!(default_stone(&pot), Length::ZERO);
        assert_eq!(default_stone(&round(170, 120, 130)).um(), 32_500);
    }

    #[test]
    fn a_pot_is_stored_in_words_and_whole_numbers() {
        let json = serde_json::to_string(&(round(170, 120, 130), layers(30, 15))).expect("json");
        assert_eq!(
            json,
            r#"[{"round":{"top":170000,"base":120000,"height":130000}},{"stone":30000,"headspace":15000}]"#
        );
        assert!(serde_json::from_str::<(Pot, Layers)>(&json).is_ok());
        assert!(serde_json::from_str::<Pot>(r#"{"holds":{"water":5,"colour":"green"}}"#).is_err());
    }

    proptest! {
        #[test]
        fn the_parts_make_the_whole(top in 40_u32..600, base in 40_u32..600, height in 40_u32..600, stone in 0_u32..600, headspace in 0_u32..600, square: bool) {
            let (top, base) = (top.max(base), top.min(base));
            let pot = match (round(top, base, height), square) {
                (Pot::Round { top, base, height }, true) => Pot::Square { top, base, height },
                (pot, _) => pot,
            };
            if let Ok(fill) = pot.fill(&layers(stone, headspace)) {
                let parts = fill.stone.ul() + fill.mix.ul() + fill.headspace.ul();
                prop_assert!((parts - fill.brimful.ul()).abs() <= 2);
                prop_assert!(fill.mix.ul() >= 0 && fill.mix <= fill.brimful);
                // A tapered pot holds less in its lowest part than that part of its height suggests.
                let share = i128::from(fill.brimful.ul()) * i128::from(stone) / i128::from(height);
                prop_assert!(i128::from(fill.stone.ul()) <= share + 1);
            }
        }

        #[test]
        fn any_stored_numbers_give_a_pot_or_a_refusal(top: i64, base: i64, height: i64, stone: i64, headspace: i64) {
            let um = Length::from_um;
            let pot = Pot::Square { top: um(top), base: um(base), height: um(height) };
            let _ = (pot.fill(&Layers { stone: um(stone), headspace: um(headspace) }), default_stone(&pot));
        }
    }
}
