//! What may flower and what may be sold, month by month.
//!
//! Every lot is a cohort: its plants live on with the share believed of its class, and are ready some time within the
//! months usual for it, evenly spread between the first and the last. A plant is counted in flower in the months its
//! kind flowers, once ready. The range holds in four cases of five: chance from plant to plant, and what is not known
//! of the share itself, which all plants of a cohort have in common. Nothing is taken off for what will be sold.

use std::collections::BTreeMap;

use chrono::{Datelike, NaiveDate};

use crate::event::PieceClass;
use crate::reference::taxa::Group;
use crate::season::{Window, add_months};
use crate::state::{Lot, State};
use crate::task::derive::{flowering_windows, group_row};
use crate::time::plus_days;

use super::beta::Beta;
use super::lead::class_row;
use super::learn::{belief, learn};

/// Months looked ahead.
const MONTHS: i32 = 24;
const FOUR_FIFTHS: f64 = 1.281_551_565_544_600_5;

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

/// One lot as it is counted.
struct Cohort {
    plants: f64,
    group: Group,
    belief: Beta,
    /// Already lived long enough for its class to say nothing more.
    settled: bool,
    /// Ready between these days.
    from: NaiveDate,
    to: NaiveDate,
    windows: Vec<Window>,
}

/// The forecast from a day on.
#[must_use]
pub fn forecast(state: &State, today: NaiveDate) -> Forecast {
    let facts = state.facts();
    let known: BTreeMap<(PieceClass, Group), Beta> = learn(state, today)
        .into_iter()
        .map(|row| ((row.class, row.group), row.belief))
        .collect();
    let cohorts: Vec<Cohort> = facts
        .live_lots()
        .filter(|(_, lot)| lot.plants > 0)
        .map(|(_, lot)| cohort(state, lot, &known, today))
        .collect();
    let plants = |cohorts: &mut dyn Iterator<Item = &Cohort>| -> u32 {
        whole(cohorts.map(|cohort| cohort.plants).sum())
    };
    let start = today.with_day(1).unwrap_or(today);
    let months = (0..MONTHS)
        .filter_map(|ahead| add_months(start, ahead))
        .map(|first| month(&cohorts, first))
        .collect();
    Forecast {
        months,
        plants: plants(&mut cohorts.iter()),
        no_season: plants(&mut cohorts.iter().filter(|cohort| cohort.windows.is_empty())),
    }
}

fn cohort(
    state: &State,
    lot: &Lot,
    known: &BTreeMap<(PieceClass, Group), Beta>,
    today: NaiveDate,
) -> Cohort {
    let group = group_row(lot).group;
    let potted = lot.born_on.unwrap_or(today);
    // A plant that came as it is has lived, and is of the size it came in.
    let row = lot.class.and_then(|class| class_row(class, group));
    let belief = lot.class.and_then(|class| {
        let seen = known.get(&(class, group)).copied();
        seen.or_else(|| belief(class, group, 0, 0).map(|row| row.belief))
    });
    let (least, most) = row.map_or((0, 0), |row| row.months);
    let after = |months: u16| add_months(potted, i32::from(months)).unwrap_or(potted);
    Cohort {
        plants: f64::from(u32::try_from(lot.plants).unwrap_or(0)),
        group,
        settled: belief.is_none() || plus_days(potted, super::learn::COUNTED_AFTER_DAYS) <= today,
        belief: belief.unwrap_or(Beta { a: 1.0, b: 0.0 }),
        from: after(least),
        to: after(most),
        windows: flowering_windows(state.facts(), lot),
    }
}

impl Cohort {
    /// The share that is ready on a day.
    fn ready(&self, on: NaiveDate) -> f64 {
        if on >= self.to {
            return 1.0;
        }
        if on < self.from {
            return 0.0;
        }
        let all = (self.to - self.from).num_days().max(1);
        let gone = (on - self.from).num_days();
        let days = |days: i64| f64::from(i32::try_from(days).unwrap_or(i32::MAX));
        days(gone) / days(all)
    }

    /// Mean and variance of how many are alive and ready.
    fn counted(&self, on: NaiveDate) -> (f64, f64) {
        let ready = self.ready(on);
        if self.settled {
            // They are counted alive; only when they are ready is open.
            let chance = self.plants * ready * (1.0 - ready);
            return (self.plants * ready, chance);
        }
        let share = self.belief.mean() * ready;
        let common = self.belief.variance() * ready * ready;
        let chance = (share * (1.0 - share) - common).max(0.0);
        let n = self.plants;
        (n * share, n * chance + n * n * common)
    }

    fn flowers(&self, first: NaiveDate, middle: NaiveDate) -> bool {
        let falls = |window: &Window| window.contains(first) || window.contains(middle);
        self.windows.iter().any(falls)
    }
}

fn month(cohorts: &[Cohort], first: NaiveDate) -> Month {
    let middle = plus_days(first, 14);
    let last = add_months(first, 1).map_or(middle, |next| plus_days(next, -1));
    let mut of: BTreeMap<Group, f64> = BTreeMap::new();
    let (mut flower, mut sale) = (Sum::default(), Sum::default());
    for cohort in cohorts {
        sale.add(cohort.plants, cohort.counted(last));
        if cohort.flowers(first, middle) {
            let counted = cohort.counted(middle);
            flower.add(cohort.plants, counted);
            *of.entry(cohort.group).or_default() += counted.0;
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

/// Sums of independent cohorts.
#[derive(Default)]
struct Sum {
    plants: f64,
    mean: f64,
    variance: f64,
}

impl Sum {
    fn add(&mut self, plants: f64, (mean, variance): (f64, f64)) {
        self.plants += plants;
        self.mean += mean;
        self.variance += variance;
    }

    /// Mean with four fifths around it, within what there is.
    fn span(&self) -> Span {
        let half = FOUR_FIFTHS * libm::sqrt(self.variance);
        Span {
            low: floor(self.mean - half),
            middle: whole(self.mean),
            high: whole(libm::ceil(self.mean + half).min(self.plants)),
        }
    }
}

pub(super) fn whole(plants: f64) -> u32 {
    // In range by the clamp; a count of plants never comes near the end of it.
    #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss)]
    {
        libm::round(plants).clamp(0.0, f64::from(u32::MAX)) as u32
    }
}

fn floor(plants: f64) -> u32 {
    whole(libm::floor(plants.max(0.0)))
}
