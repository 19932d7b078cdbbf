//! What may flower and what may be sold, month by month; and the same if what is planned is cut.
//!
//! Every lot is a cohort that is stepped by a matrix of two stages, growing and ready: its plants live on with the share
//! believed of its class, and are ready some time within the
//! months usual for it, evenly spread between the first and the last. A plant is counted in flower in the months its
//! kind flowers, once ready. The range holds in four cases of five: chance from plant to plant, what is not known of the
//! share itself, which all plants of a cohort have in common, and for pieces still to come their number. Nothing is
//! taken off for what will be sold.

use std::collections::BTreeMap;

use chrono::{Datelike, NaiveDate};

use crate::reference::taxa::Group;
use crate::season::add_months;
use crate::state::State;
use crate::time::plus_days;

use super::cohort::{Cohort, Sum, beliefs, whole};
use super::planned::with_planned;

/// Months looked ahead.
const MONTHS: i32 = 24;

/// A number of plants with its range.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Span {
    pub low: u32,
    pub middle: u32,
    pub high: u32,
}

/// One month.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Month {
    /// Its first day.
    pub first: NaiveDate,
    /// Plants that may stand in flower.
    pub in_flower: Span,
    /// Plants that may be of a size to sell, by the end of it, if none is sold.
    pub saleable: Span,
    /// Groups that flower in it, the most plants first.
    pub of: Vec<(Group, u32)>,
}

/// The months to come.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Forecast {
    pub months: Vec<Month>,
    /// Plants there are now.
    pub plants: u32,
    /// Of those, plants whose kind has no flowering months in the table or from the grower: never counted in flower.
    pub no_season: u32,
}

/// The forecast if what is planned is cut on its day.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct AsPlanned {
    pub forecast: Forecast,
    /// Clumps that are planned for.
    pub cuts: u32,
    /// Kept pieces they are to give.
    pub pieces: u32,
}

/// The forecast from a day on.
#[must_use]
pub fn forecast(state: &State, today: NaiveDate) -> Forecast {
    let known = beliefs(state, today);
    let lots = state.facts().live_lots();
    let cohorts: Vec<Cohort> = lots
        .filter(|(_, lot)| lot.plants > 0)
        .map(|(_, lot)| Cohort::of_lot(state, lot, &known, today))
        .collect();
    of_cohorts(&cohorts, today)
}

/// The same if what is planned is cut; `None` where nothing is planned.
#[must_use]
pub fn forecast_as_planned(state: &State, today: NaiveDate) -> Option<AsPlanned> {
    let (cohorts, cuts, pieces) = with_planned(state, today)?;
    Some(AsPlanned {
        forecast: of_cohorts(&cohorts, today),
        cuts,
        pieces,
    })
}

fn of_cohorts(cohorts: &[Cohort], today: NaiveDate) -> Forecast {
    let plants = |cohorts: &mut dyn Iterator<Item = &Cohort>| -> u32 {
        whole(cohorts.map(|cohort| cohort.plants).sum())
    };
    let start = today.with_day(1).unwrap_or(today);
    let months = (0..MONTHS)
        .filter_map(|ahead| add_months(start, ahead))
        .map(|first| month(cohorts, first))
        .collect();
    Forecast {
        months,
        plants: plants(&mut cohorts.iter()),
        no_season: plants(&mut cohorts.iter().filter(|cohort| cohort.windows.is_empty())),
    }
}

fn month(cohorts: &[Cohort], first: NaiveDate) -> Month {
    let middle = plus_days(first, 14);
    let last = add_months(first, 1).map_or(middle, |next| plus_days(next, -1));
    let mut of: BTreeMap<Group, f64> = BTreeMap::new();
    let (mut flower, mut sale) = (Sum::default(), Sum::default());
    for cohort in cohorts {
        sale.add(cohort, last);
        if cohort.flowers(first, middle) {
            let counted = flower.add(cohort, middle);
            *of.entry(cohort.group).or_default() += counted;
        }
    }
    let mut of: Vec<(Group, u32)> = of
        .into_iter()
        .map(|(group, plants)| (group, whole(plants)))
        .filter(|(_, plants)| *plants > 0)
        .collect();
    of.sort_by_key(|(group, plants)| (std::cmp::Reverse(*plants), *group));
    debug_assert!(first.day() == 1);
    Month {
        first,
        in_flower: flower.span(),
        saleable: sale.span(),
        of,
    }
}
