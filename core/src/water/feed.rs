//! Feed by the nitrogen wanted: so many grams to a can, or to the stock of an injector.
//!
//! Invariants: what is wanted stands in what the plants get. An injector of 1:100 makes its stock a hundred times as much,
//! not a hundred and one times: so it is printed on them. Rounded once, to a milligram or a microlitre.

use crate::event::Nitrogen;
use crate::limits::{FEED_PPM_MAX, INJECTOR_MAX, TUB_UL_MAX};
use crate::quantity::{
    Amount, Content, ContentBy, Decimal, QuantityError, Rate, RateKind, Ratio, Volume,
};
use crate::reference::thirst::STOCK_G_PER_L;
use crate::rejection::{Input, Rejection};

/// What the feed is measured into.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum MixedFor {
    /// A can made up to so much.
    Can(Volume),
    /// The stock of an injector, and how many times as much it makes of it.
    Stock { made_up_to: Volume, times: u32 },
}

/// Feed measured out.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Mixed {
    pub amount: Amount,
    /// What the plants get in all.
    pub reaches: Volume,
    /// Of a weighed feed, more may stand in the stock than dissolves.
    pub may_not_dissolve: bool,
}

fn rate(nitrogen: Nitrogen, ppm: u32) -> Result<Rate, Rejection> {
    let wrong = Rejection::OutOfRange {
        input: Input::Nitrogen,
        least: 1,
        most: i64::from(FEED_PPM_MAX),
    };
    if !(1..=FEED_PPM_MAX).contains(&ppm) || nitrogen.mg <= 0 {
        return Err(wrong);
    }
    let value = i32::try_from(ppm).map(Decimal::whole).map_err(|_| wrong)?;
    let by = if nitrogen.by_litre {
        ContentBy::Litre
    } else {
        ContentBy::Kilogram
    };
    let content = Content {
        by,
        mg: nitrogen.mg,
    };
    Rate::PartsPerMillion { value }
        .through(content)
        .map_err(Rejection::BadRate)
}

/// Feed for so much of what the plants get.
///
/// # Errors
/// What is beyond the limits.
pub fn amount(nitrogen: Nitrogen, ppm: u32, finished: Volume) -> Result<Amount, Rejection> {
    let rate = rate(nitrogen, ppm)?;
    rate.amount_for(finished).map_err(Rejection::BadRate)
}

/// Feed for a can or for the stock of an injector.
///
/// # Errors
/// What is beyond the limits.
pub fn mixed(nitrogen: Nitrogen, ppm: u32, into: MixedFor) -> Result<Mixed, Rejection> {
    let (made_up_to, times) = match into {
        MixedFor::Can(water) => (water, 1),
        MixedFor::Stock { made_up_to, times } => (made_up_to, times),
    };
    is_water(made_up_to)?;
    is_injector(times)?;
    let reaches = Volume::from_ul(made_up_to.ul().saturating_mul(i64::from(times)));
    let amount = amount(nitrogen, ppm, reaches)?;
    let may_not_dissolve = match amount {
        // mg in µL against g in L: a thousand times.
        Amount::Mass(mass) => {
            mass.mg().saturating_mul(1_000) > STOCK_G_PER_L.saturating_mul(made_up_to.ul())
        }
        Amount::Volume(volume) => volume.ul() > made_up_to.ul(),
    };
    Ok(Mixed {
        amount,
        reaches,
        may_not_dissolve,
    })
}

/// Whether a can or a stock may be made up to so much.
///
/// # Errors
/// None, or more than a tub holds.
pub(crate) fn is_water(made_up_to: Volume) -> Result<(), Rejection> {
    if (1..=TUB_UL_MAX).contains(&made_up_to.ul()) {
        return Ok(());
    }
    Err(Rejection::OutOfRange {
        input: Input::Water,
        least: 1,
        most: TUB_UL_MAX / 1_000_000,
    })
}

/// Whether an injector may thin so many times.
///
/// # Errors
/// Not at all, or more than any does.
pub(crate) fn is_injector(times: u32) -> Result<(), Rejection> {
    if (1..=INJECTOR_MAX).contains(&times) {
        return Ok(());
    }
    Err(Rejection::OutOfRange {
        input: Input::Injector,
        least: 1,
        most: i64::from(INJECTOR_MAX),
    })
}

/// Conductivity to be expected in what the plants get: the water's own, and what the label says the feed adds.
#[must_use]
pub fn expected_ec(
    nitrogen: Nitrogen,
    ppm: u32,
    each_us_cm: u32,
    water_us_cm: Option<u32>,
) -> Option<u32> {
    if each_us_cm == 0 {
        return None;
    }
    let (_, per_litre): (RateKind, Ratio) = rate(nitrogen, ppm).ok()?.exact().ok()?;
    let adds = per_litre
        .checked_mul(Ratio::whole(i128::from(each_us_cm)))?
        .round_i64()?;
    let sum = adds.checked_add(i64::from(water_us_cm.unwrap_or(0)))?;
    u32::try_from(sum).ok()
}

/// Why a feed's own figures cannot be taken.
///
/// # Errors
/// None above nothing, or more nitrogen than feed.
pub(crate) fn is_sound(nitrogen: Nitrogen) -> Result<(), QuantityError> {
    let most = if nitrogen.by_litre {
        2_000_000
    } else {
        1_000_000
    };
    match nitrogen.mg {
        ..=0 => Err(QuantityError::Zero),
        mg if mg > most => Err(QuantityError::TooLarge {
            most: crate::quantity::MOST_GRAMS_PER_LITRE,
        }),
        _ => Ok(()),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::Mass;

    const TWENTY: Nitrogen = Nitrogen {
        mg: 200_000,
        by_litre: false,
    };

    fn litres(litres: i64) -> Volume {
        Volume::from_ul(litres * 1_000_000)
    }

    #[test]
    fn a_gram_in_a_litre_of_a_feed_with_a_fifth_of_nitrogen_is_two_hundred_parts() {
        let can = mixed(TWENTY, 200, MixedFor::Can(litres(10))).unwrap();
        assert_eq!(can.amount, Amount::Mass(Mass::from_mg(10_000)));
        assert_eq!(can.reaches, litres(10));
        assert!(!can.may_not_dissolve);
    }

    #[test]
    fn an_injector_makes_its_stock_a_hundred_times_as_much() {
        let into = MixedFor::Stock {
            made_up_to: litres(10),
            times: 100,
        };
        let stock = mixed(TWENTY, 100, into).unwrap();
        assert_eq!(stock.amount, Amount::Mass(Mass::from_mg(500_000)));
        assert_eq!(stock.reaches, litres(1_000));
        let strong = mixed(TWENTY, 1_000, into).unwrap();
        assert!(strong.may_not_dissolve, "500 g in a litre");
    }

    #[test]
    fn a_liquid_feed_is_measured_by_volume() {
        let liquid = Nitrogen {
            mg: 70_000,
            by_litre: true,
        };
        let can = mixed(liquid, 70, MixedFor::Can(litres(10))).unwrap();
        assert_eq!(can.amount, Amount::Volume(Volume::from_ul(10_000)));
    }

    #[test]
    fn conductivity_is_the_sum_of_water_and_feed_and_unknown_where_the_label_is_silent() {
        assert_eq!(expected_ec(TWENTY, 100, 1_200, Some(300)), Some(900));
        assert_eq!(expected_ec(TWENTY, 100, 1_200, None), Some(600));
        assert_eq!(expected_ec(TWENTY, 100, 0, Some(300)), None);
    }

    #[test]
    fn no_feed_no_water_and_no_injector_are_refused() {
        let can = MixedFor::Can(litres(10));
        assert!(mixed(TWENTY, 0, can).is_err());
        assert!(mixed(TWENTY, 2_001, can).is_err());
        assert!(mixed(TWENTY, 100, MixedFor::Can(Volume::from_ul(0))).is_err());
        let turned = MixedFor::Stock {
            made_up_to: litres(1),
            times: 0,
        };
        assert!(mixed(TWENTY, 100, turned).is_err());
    }
}
