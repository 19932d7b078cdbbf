//! Dust on a cut: weighed in grams, without water, on the cut alone and off the roots.
//!
//! Nothing is made up, so no rate is worked with: what the scale says is what was used.

use crate::quantity::{Mass, QuantityError, parse_mass};

/// Grams as typed; a bare number is grams.
///
/// # Errors
/// What cannot be read.
pub(super) fn grams(typed: &str) -> Result<Mass, QuantityError> {
    let read = match parse_mass(typed) {
        Err(QuantityError::NoUnit { .. }) => parse_mass(&format!("{} g", typed.trim())),
        read => read,
    };
    read.map(|(mass, _)| mass)
}
