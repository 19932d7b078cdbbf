//! What goes into a pot: how much mix, how much stone, and what it weighs.
//!
//! Growers buy by the litre and pots are sold by a width that says little: two 20 cm pots differ by half as much again. So a pot
//! is what was measured on it, top, base and height, or the water it holds. Invariants: volumes are worked out in whole
//! numbers, a thousand million times finer than stored, and rounded once; a stone layer is the lowest slice of the pot's own
//! shape, never a share of its litres; what cannot be is refused as data.

mod bill;
mod drain;
mod fine;
pub mod parts;
mod pot;
mod solid;
mod stability;
mod tub;

pub use bill::{
    Bill, DEFAULT_SETTLE_PERMILLE, MOST_POTS, MOST_SETTLE_PERMILLE, bill, watered_mass,
};
pub use drain::{DrainFault, Drained, drained};
pub use fine::FineVolume;
pub use pot::{Fill, Layers, Pot, default_stone};
pub use stability::{HOLDS_CDEG, Standing};
pub use tub::Tub;

use crate::quantity::{Length, Volume};

/// The longest measure of a pot or tub taken: five metres.
pub const MOST_SIDE: Length = Length::from_mm(5_000);
/// The most water a pot or tub given by its water holds: 100 000 L.
pub const MOST_HOLDS: Volume = Volume::from_ul(100_000_000_000);

/// A measure of a pot or tub.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Measure {
    /// Width across the top, or the longer side there.
    Top,
    /// Width across the base, or the longer side there.
    Base,
    /// The shorter side of the top.
    TopWidth,
    /// The shorter side of the base.
    BaseWidth,
    /// Height, inside.
    Height,
    /// Length of a lying tub.
    Length,
    /// Depth of water or mix.
    Depth,
    /// The stone layer.
    Stone,
    /// Room left under the rim.
    Headspace,
    /// The water it holds.
    Holds,
}

/// Why a pot, tub or bill was refused. Data only.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum PottingRejection {
    /// Zero or less where there has to be something.
    NotAboveZero(Measure),
    /// Below zero where zero is the least.
    BelowZero(Measure),
    /// Larger than [`MOST_SIDE`] or [`MOST_HOLDS`].
    TooLarge(Measure),
    /// The base is wider than the top.
    BaseWiderThanTop,
    /// Stone and headspace leave no room for mix.
    LayersDeeperThanPot,
    /// Layers or a depth were asked of a pot known only by the water it holds.
    ShapeNotMeasured,
    /// Deeper than the tub is high.
    DeeperThanTub,
    /// More pots than [`MOST_POTS`].
    TooManyPots,
    /// Settling above [`MOST_SETTLE_PERMILLE`].
    SettlesTooMuch,
    /// The sum does not fit the book.
    OutOfRange,
}

/// A measure that has to be above zero and within reason.
fn side(length: Length, measure: Measure) -> Result<i128, PottingRejection> {
    if length <= Length::ZERO {
        Err(PottingRejection::NotAboveZero(measure))
    } else if length > MOST_SIDE {
        Err(PottingRejection::TooLarge(measure))
    } else {
        Ok(length.um().into())
    }
}

/// A depth that may be zero.
fn depth(length: Length, measure: Measure) -> Result<i128, PottingRejection> {
    if length < Length::ZERO {
        Err(PottingRejection::BelowZero(measure))
    } else if length > MOST_SIDE {
        Err(PottingRejection::TooLarge(measure))
    } else {
        Ok(length.um().into())
    }
}
