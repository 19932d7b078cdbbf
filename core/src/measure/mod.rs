//! Measuring an amount with the measures on the shelf.
//!
//! A rate and a tub give an exact amount; a syringe has marks. Invariants: a fill is a whole number of graduations within
//! what its measure takes; no plan is above the label's maximum; a powder is weighed, a liquid measured, never one for
//! the other; everything is whole microlitres or milligrams, and fractions until the last step.

mod draft;
mod fills;
mod finer;
mod plan;
mod sizes;

pub use draft::{MeasureDraft, MeasureFault, MeasureField, ready_made};
pub use finer::water_for;
pub use plan::{Fill, MOST_FILLS, NoPlan, Plan, plan};
pub use sizes::{SIZES, Size};

use crate::event::MeasureKind;
use crate::id::MeasureId;
use crate::quantity::{Amount, QuantityError, Rate, RateKind, Ratio, Volume};

/// An error beyond this is called too coarse, in thousandths of the dose (common practice, no source).
pub const MOST_OFF_PERMILLE: i64 = 50;

/// A measure as it can be read: microlitres, or milligrams on a scale.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Measure {
    pub id: MeasureId,
    pub kind: MeasureKind,
    /// The least it measures well.
    pub least: i64,
    pub most: i64,
    /// From one mark to the next.
    pub graduation: i64,
}

impl Measure {
    /// Whether it can be worked with: some amount between its least and its most falls on a mark.
    #[must_use]
    pub fn is_sound(&self) -> bool {
        self.graduation > 0 && self.least > 0 && self.first() <= self.last()
    }

    /// The lowest mark that may be read.
    pub(crate) fn first(&self) -> i64 {
        let over = self.least.rem_euclid(self.graduation);
        if over == 0 {
            self.least
        } else {
            self.least.saturating_add(self.graduation - over)
        }
    }

    /// The highest mark.
    pub(crate) fn last(&self) -> i64 {
        self.most - self.most.rem_euclid(self.graduation)
    }
}

/// What is to be measured: exact microlitres or milligrams, and what the label allows for this water.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Dose {
    pub exact: Ratio,
    /// By mass, so on a scale.
    pub weighed: bool,
    /// The label's lowest, where it gives two rates.
    pub least: Option<Ratio>,
    /// Never more than this; the rate itself, where the label gives one.
    pub most: Ratio,
}

impl Dose {
    /// The dose for so much water at a rate, within the rates the label gives: the lowest, and the highest where there
    /// are two.
    ///
    /// # Errors
    /// As [`Rate::amount_for`]. `NotARate` when the rates do not count the same thing.
    pub fn of(
        rate: &Rate,
        lowest: &Rate,
        highest: Option<&Rate>,
        water: Volume,
    ) -> Result<Self, QuantityError> {
        let exact = |one: &Rate| one.amount_exact_for(water);
        let counts = |one: &Rate| one.exact().map(|(kind, _)| kind);
        let kind = counts(rate)?;
        for other in [Some(lowest), highest].into_iter().flatten() {
            if counts(other)? != kind {
                return Err(QuantityError::NotARate);
            }
        }
        Ok(Self {
            exact: exact(rate)?,
            weighed: matches!(
                kind,
                RateKind::GramsPerLitre | RateKind::GramsPerSquareMetre
            ),
            least: highest.map(|_| exact(lowest)).transpose()?,
            most: exact(highest.unwrap_or(lowest))?,
        })
    }

    /// So many microlitres or milligrams, in the form an amount has.
    #[must_use]
    pub fn amount(&self, smallest_units: i64) -> Amount {
        in_its_unit(self.weighed, smallest_units)
    }

    fn scaled(&self, by: Ratio) -> Option<Self> {
        let least = match self.least {
            Some(least) => Some(least.checked_mul(by)?),
            None => None,
        };
        Some(Self {
            exact: self.exact.checked_mul(by)?,
            least,
            most: self.most.checked_mul(by)?,
            ..*self
        })
    }
}

/// Milligrams where it is weighed, microlitres where it is measured.
#[must_use]
pub fn in_its_unit(weighed: bool, smallest_units: i64) -> Amount {
    if weighed {
        Amount::Mass(crate::quantity::Mass::from_mg(smallest_units))
    } else {
        Amount::Volume(Volume::from_ul(smallest_units))
    }
}

/// The whole number below or at a fraction.
pub(crate) fn floor(ratio: Ratio) -> Option<i64> {
    i64::try_from(ratio.num().div_euclid(ratio.den())).ok()
}

/// The whole number above or at a fraction.
pub(crate) fn ceil(ratio: Ratio) -> Option<i64> {
    let below = ratio.num().div_euclid(ratio.den());
    let up = i128::from(ratio.num().rem_euclid(ratio.den()) != 0);
    i64::try_from(below.checked_add(up)?).ok()
}
