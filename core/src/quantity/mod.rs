//! Amounts as the grower types them and as the book keeps them.
//!
//! What is stored is an integer in the smallest unit (µL, mg, µm, mm², thousandths of a degree), with the typed value
//! and unit kept beside it. Invariants: factors are exact fractions; a conversion rounds once, at the end; arithmetic is
//! checked; a name with two meanings is asked about, never guessed; nothing here holds a float or a sentence.

mod content;
mod decimal;
mod meant;
mod measure;
mod rate;
mod ratio;
mod read;
mod system;
mod unit;
mod unit_table;

pub use content::{Content, ContentBy, ContentFault, parse_content};
pub use decimal::{Decimal, MOST_DIGITS, MOST_PLACES};
pub use meant::{Meant, meant};
pub use measure::{
    ABSOLUTE_ZERO, Area, HOTTEST, Length, MOST_AREA, MOST_LENGTH, MOST_MASS, MOST_VOLUME, Mass,
    Temperature, Typed, Volume,
};
pub use rate::{
    Amount, MOST_GRAMS_PER_LITRE, MOST_ML_PER_LITRE, Rate, RateKind, Strength, parse_rate,
};
pub use ratio::Ratio;
pub use read::{MOST_TEXT, parse_area, parse_length, parse_mass, parse_temperature, parse_volume};
pub use system::{System, in_unit};
pub use unit::{Dimension, Unit, UnitDef};

/// What an unclear unit or ratio may have meant.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Meaning {
    /// This unit.
    Unit(Unit),
    /// "1:100" as one part and 100 parts of water.
    PartsOfWater,
    /// "1:100" as one part in 100 parts of the finished mixture.
    PartsInTotal,
    /// "%" as mL in 100 mL.
    PercentByVolume,
    /// "%" as g in 100 mL.
    PercentWeightInVolume,
}

/// Why a typed amount was not taken. Data only; the words are the screen's.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum QuantityError {
    /// Nothing was typed.
    Empty,
    /// Not readable as a number.
    NotANumber,
    /// More digits than anybody measures.
    TooManyDigits {
        /// Digits allowed.
        most: u32,
    },
    /// `1,250`: both readings, in the order decimal, thousands.
    AmbiguousNumber {
        /// The two numbers it may be.
        meanings: Vec<Decimal>,
    },
    /// Below zero where that cannot be.
    Negative,
    /// Zero where there has to be something.
    Zero,
    /// So little that it rounds to nothing; the smallest amount kept.
    TooSmall {
        /// The smallest amount that can be recorded.
        least: Typed,
    },
    /// Larger than anything in a nursery.
    TooLarge {
        /// The largest amount taken.
        most: Typed,
    },
    /// Colder than absolute zero.
    BelowAbsoluteZero,
    /// A number without a unit.
    NoUnit {
        /// The number that was read.
        value: Decimal,
    },
    /// No unit of this name.
    UnknownUnit,
    /// A unit of something else.
    WrongUnit {
        /// What could have stood there.
        wanted: &'static [Dimension],
    },
    /// A unit or ratio that means several things.
    AmbiguousUnit {
        /// The number that was read, so that choosing a meaning completes the amount. For "1:100" the 100.
        value: Decimal,
        /// What it may mean; never empty.
        meanings: Vec<Meaning>,
    },
    /// Neither an amount per amount, nor a percentage, nor ppm.
    NotARate,
    /// The rate is for an area and was asked for a volume, or the other way round.
    RateIsPer {
        /// What the rate is for.
        per: Dimension,
    },
}
