//! Will it fall over: how far a potted plant can be tilted before it tips, and the stone that would hold it.
//!
//! A pot tips when the middle of all weight passes over the edge it stands on: the tangent of the angle is half the base
//! over the height of that middle. Stone, mix and plant are taken as even layers, the wall as a thin shell. Roots and
//! water are in the densities that are given. `f64` inside; angles come out in hundredths of a degree.

use super::{Layers, Pot};
use crate::quantity::{Length, Mass};

/// A potted plant on its base.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Standing {
    pub pot: Pot,
    pub layers: Layers,
    /// Densities of the layers as they stand, in grams per litre.
    pub stone_g_per_l: u32,
    pub mix_g_per_l: u32,
    /// The empty pot.
    pub wall: Mass,
    pub plant: Mass,
    /// Height of the middle of the plant's weight above the ground.
    pub plant_middle: Length,
}

/// Tilted less than this it should not fall: a hose or a sleeve does as much (common practice, no source).
pub const HOLDS_CDEG: i32 = 2_000;

/// Steps of a stone layer that are tried.
const STONE_STEP_MM: i64 = 5;

impl Standing {
    /// How far it can be tilted, in hundredths of a degree; `None` for a pot whose measures are not known.
    #[must_use]
    pub fn tips_at_cdeg(&self) -> Option<i32> {
        let (half_base, half_top, height, square) = shape(&self.pot)?;
        let cut = |depth: Length| (depth.um() as f64).clamp(0.0, height);
        let stone = cut(self.layers.stone);
        let filled = (height - cut(self.layers.headspace)).max(stone);
        let wide = |at: f64| half_base + (half_top - half_base) * at / height;
        let mut sum = Weights::default();
        let per_um3 = |g_per_l: u32| f64::from(g_per_l) / 1e15;
        let area = if square { 4.0 } else { core::f64::consts::PI };
        for (from, to, density) in [
            (0.0, stone, per_um3(self.stone_g_per_l)),
            (stone, filled, per_um3(self.mix_g_per_l)),
        ] {
            let (volume, middle) = slice(wide(from), wide(to), to - from);
            sum.add(area * volume * density, from + middle);
        }
        // A thin wall's middle, as of the mantle of the cone it is cut from.
        let mantle = height / 3.0 * (half_base + 2.0 * half_top) / (half_base + half_top);
        sum.add(grams(self.wall), mantle);
        sum.add(grams(self.plant), self.plant_middle.um() as f64);
        let high = sum.middle()?;
        let degrees = libm::atan2(half_base, high).to_degrees();
        #[expect(clippy::cast_possible_truncation)]
        let cdeg = libm::round(degrees * 100.0).clamp(0.0, 9_000.0) as i32;
        Some(cdeg)
    }

    /// The least stone, in steps of 5 mm, with which it holds; `None` where no layer in this pot would do.
    #[must_use]
    pub fn stone_to_hold(&self) -> Option<Length> {
        let (.., height, _) = shape(&self.pot)?;
        let most = Length::from_um(self.pot_height()?.um() - self.layers.headspace.um());
        let steps = (height / 1_000.0 / STONE_STEP_MM as f64).max(0.0) as i64;
        (0..=steps)
            .map(|step| Length::from_um(step * STONE_STEP_MM * 1_000))
            .filter(|stone| *stone <= most)
            .find(|stone| {
                let with = Self {
                    layers: Layers {
                        stone: *stone,
                        ..self.layers
                    },
                    ..*self
                };
                with.tips_at_cdeg().is_some_and(|cdeg| cdeg >= HOLDS_CDEG)
            })
    }

    fn pot_height(&self) -> Option<Length> {
        match self.pot {
            Pot::Round { height, .. } | Pot::Square { height, .. } => Some(height),
            Pot::Holds { .. } => None,
        }
    }
}

/// Half the base, half the top and the height in micrometres, and whether it is square.
fn shape(pot: &Pot) -> Option<(f64, f64, f64, bool)> {
    pot.check().ok()?;
    let um = |length: Length| length.um() as f64;
    match *pot {
        Pot::Round { top, base, height } => {
            Some((um(base) / 2.0, um(top) / 2.0, um(height), false))
        }
        // A square pot tips over a side before it tips over a corner.
        Pot::Square { top, base, height } => {
            Some((um(base) / 2.0, um(top) / 2.0, um(height), true))
        }
        Pot::Holds { .. } => None,
    }
}

/// Volume of a slice over the square of its half width, and the height of its middle above its lower face.
fn slice(below: f64, above: f64, high: f64) -> (f64, f64) {
    let sum = below * below + below * above + above * above;
    if sum <= 0.0 || high <= 0.0 {
        return (0.0, 0.0);
    }
    let middle = high / 4.0 * (below * below + 2.0 * below * above + 3.0 * above * above) / sum;
    (high / 3.0 * sum, middle)
}

fn grams(mass: Mass) -> f64 {
    mass.mg() as f64 / 1_000.0
}

/// Weights with their heights.
#[derive(Default)]
struct Weights {
    weight: f64,
    moment: f64,
}

impl Weights {
    fn add(&mut self, weight: f64, high: f64) {
        self.weight += weight.max(0.0);
        self.moment += weight.max(0.0) * high;
    }

    fn middle(&self) -> Option<f64> {
        (self.weight > 0.0).then(|| self.moment / self.weight)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::potting::default_stone;

    fn tall(stone: Length) -> Standing {
        Standing {
            pot: Pot::Round {
                top: Length::from_mm(130),
                base: Length::from_mm(100),
                height: Length::from_mm(110),
            },
            layers: Layers {
                stone,
                headspace: Length::from_mm(10),
            },
            stone_g_per_l: 1_490,
            mix_g_per_l: 350,
            wall: Mass::from_mg(50_000),
            plant: Mass::from_mg(300_000),
            plant_middle: Length::from_mm(280),
        }
    }

    #[test]
    fn stone_in_the_bottom_holds_what_would_fall() {
        let bare = tall(Length::ZERO);
        let stone = tall(default_stone(&bare.pot));
        assert!(bare.tips_at_cdeg() < stone.tips_at_cdeg());
        assert!(bare.tips_at_cdeg().unwrap() < HOLDS_CDEG);
        let enough = bare.stone_to_hold().unwrap();
        assert!(tall(enough).tips_at_cdeg().unwrap() >= HOLDS_CDEG);
        let less = Length::from_um(enough.um() - 5_000);
        assert!(tall(less).tips_at_cdeg().unwrap() < HOLDS_CDEG);
    }

    #[test]
    fn no_stone_in_the_world_holds_a_tower_and_water_alone_says_nothing() {
        let tower = Standing {
            plant: Mass::from_mg(5_000_000),
            plant_middle: Length::from_mm(900),
            ..tall(Length::ZERO)
        };
        assert_eq!(tower.stone_to_hold(), None);
        let holds = Standing {
            pot: Pot::Holds {
                water: crate::quantity::Volume::from_ul(1_000_000),
            },
            ..tall(Length::ZERO)
        };
        assert_eq!(holds.tips_at_cdeg(), None);
        assert_eq!(holds.stone_to_hold(), None);
    }
}
