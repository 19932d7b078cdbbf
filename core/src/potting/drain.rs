//! The grower's own drain test: a lined pot of mix is flooded, then left to drain, and two amounts say how much air and
//! water it holds.
//!
//! Of the volume of mix: what drains in ten to fifteen minutes leaves air; what went in until it stood full is all the
//! pore space; the difference is water that is kept (method: a pore-space note of Purdue University).

use crate::quantity::Volume;

/// What a drain test says, in thousandths of the mix's volume.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Drained {
    pub air_permille: u32,
    /// Where it was measured how much went in.
    pub pores_permille: Option<u32>,
    pub water_permille: Option<u32>,
}

/// Why a drain test cannot be.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum DrainFault {
    /// No mix, or less than nothing.
    NotAboveZero,
    /// More ran out than went in.
    MoreOutThanIn,
    /// More water than there is pot.
    MoreThanMix,
}

/// What a drain test says.
///
/// # Errors
/// [`DrainFault`].
pub fn drained(
    mix: Volume,
    went_in: Option<Volume>,
    ran_out: Volume,
) -> Result<Drained, DrainFault> {
    let most = mix.ul();
    if most <= 0 || ran_out.ul() < 0 {
        return Err(DrainFault::NotAboveZero);
    }
    if went_in.is_some_and(|went_in| ran_out > went_in) {
        return Err(DrainFault::MoreOutThanIn);
    }
    let full = went_in.unwrap_or(ran_out);
    if full > mix {
        return Err(DrainFault::MoreThanMix);
    }
    let permille = |part: i64| -> u32 {
        let half = most / 2;
        let whole = part.saturating_mul(1_000).saturating_add(half);
        u32::try_from(whole / most).unwrap_or(1_000)
    };
    Ok(Drained {
        air_permille: permille(ran_out.ul()),
        pores_permille: went_in.map(|went_in| permille(went_in.ul())),
        water_permille: went_in.map(|went_in| permille(went_in.ul() - ran_out.ul())),
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    fn ml(ml: i64) -> Volume {
        Volume::from_ul(ml * 1_000)
    }

    #[test]
    fn a_litre_that_takes_six_hundred_and_drains_two_hundred_and_fifty() {
        // The note's own example: porosity 60 %, air 25 %, water 35 %.
        assert_eq!(
            drained(ml(1_000), Some(ml(600)), ml(250)),
            Ok(Drained {
                air_permille: 250,
                pores_permille: Some(600),
                water_permille: Some(350),
            })
        );
        let two_numbers = drained(ml(800), None, ml(240)).unwrap();
        assert_eq!(
            (two_numbers.air_permille, two_numbers.pores_permille),
            (300, None)
        );
    }

    #[test]
    fn what_cannot_be_is_said() {
        assert_eq!(drained(ml(0), None, ml(1)), Err(DrainFault::NotAboveZero));
        assert_eq!(drained(ml(9), None, ml(-1)), Err(DrainFault::NotAboveZero));
        assert_eq!(
            drained(ml(1_000), Some(ml(200)), ml(250)),
            Err(DrainFault::MoreOutThanIn)
        );
        assert_eq!(
            drained(ml(200), None, ml(250)),
            Err(DrainFault::MoreThanMix)
        );
    }
}
