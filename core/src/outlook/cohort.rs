//! Plants counted together: those of a lot, or pieces that are still to come off a clump.

use std::collections::BTreeMap;

use chrono::NaiveDate;

use crate::event::PieceClass;
use crate::reference::taxa::Group;
use crate::season::{Window, add_months};
use crate::state::{Lot, State};
use crate::task::derive::{flowering_windows, group_row};
use crate::time::plus_days;

use super::Span;
use super::beta::Beta;
use super::lead::class_row;
use super::learn::{COUNTED_AFTER_DAYS, belief, learn};
use super::stage::step;

/// Half the width of the middle four fifths of a normal, in standard deviations.
pub(super) const FOUR_FIFTHS: f64 = 1.281_551_565_544_600_5;

/// What the book believes of each class in each group.
pub(super) type Beliefs = BTreeMap<(PieceClass, Group), Beta>;

/// What this book has learned, by class and group.
pub(super) fn beliefs(state: &State, today: NaiveDate) -> Beliefs {
    let rows = learn(state, today).into_iter();
    rows.map(|row| ((row.class, row.group), row.belief))
        .collect()
}

/// Plants of one kind and one day.
#[derive(Clone, Debug)]
pub(super) struct Cohort {
    pub(super) plants: f64,
    /// Of the number of plants, where nobody counted them: its spread, and the most there may be.
    unsure: f64,
    most: f64,
    pub(super) group: Group,
    belief: Beta,
    /// Already lived long enough for its class to say nothing more.
    settled: bool,
    /// Ready between these days.
    from: NaiveDate,
    to: NaiveDate,
    pub(super) windows: Vec<Window>,
    /// There from this day until that one.
    since: NaiveDate,
    until: Option<NaiveDate>,
}

impl Cohort {
    /// The plants of a lot.
    pub(super) fn of_lot(state: &State, lot: &Lot, known: &Beliefs, today: NaiveDate) -> Self {
        let group = group_row(lot).group;
        let plants = f64::from(u32::try_from(lot.plants).unwrap_or(0));
        let potted = lot.born_on.unwrap_or(today);
        let mut cohort = Self::grown(group, lot.class, potted, known);
        cohort.plants = plants;
        cohort.most = plants;
        cohort.settled |= plus_days(potted, COUNTED_AFTER_DAYS) <= today;
        cohort.windows = flowering_windows(state.facts(), lot);
        cohort
    }

    /// Pieces that are to be potted on a day; plants without a class are those that stay whole.
    pub(super) fn to_come(
        group: Group,
        class: Option<PieceClass>,
        plants: Span,
        on: NaiveDate,
        windows: Vec<Window>,
        known: &Beliefs,
    ) -> Self {
        let (low, high) = (f64::from(plants.low), f64::from(plants.high));
        Self {
            plants: f64::from(plants.middle),
            unsure: (high - low).max(0.0) / 2.0 / FOUR_FIFTHS,
            most: high,
            windows,
            since: on,
            ..Self::grown(group, class, on, known)
        }
    }

    fn grown(group: Group, class: Option<PieceClass>, potted: NaiveDate, known: &Beliefs) -> Self {
        // A plant that came as it is has lived, and is of the size it came in.
        let row = class.and_then(|class| class_row(class, group));
        let belief = class.and_then(|class| {
            let seen = known.get(&(class, group)).copied();
            seen.or_else(|| belief(class, group, 0, 0).map(|row| row.belief))
        });
        let (least, most) = row.map_or((0, 0), |row| row.months);
        let after = |months: u16| add_months(potted, i32::from(months)).unwrap_or(potted);
        Self {
            plants: 0.0,
            unsure: 0.0,
            most: 0.0,
            group,
            settled: belief.is_none(),
            belief: belief.unwrap_or(Beta { a: 1.0, b: 0.0 }),
            from: after(least),
            to: after(most),
            windows: Vec::new(),
            since: NaiveDate::MIN,
            until: None,
        }
    }

    /// The same until it goes under the knife: so many plants of it then.
    pub(super) fn cut_on(&self, day: NaiveDate, plants: u32) -> [Self; 2] {
        let going = f64::from(plants).min(self.plants);
        let part = |plants: f64, until| Self {
            plants,
            most: plants,
            until,
            ..self.clone()
        };
        [
            part(going, Some(day)),
            part(self.plants - going, self.until),
        ]
    }

    fn is_there(&self, on: NaiveDate) -> bool {
        on >= self.since && self.until.is_none_or(|until| on < until)
    }

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

    /// The shares of one plant, by what may have become of it on a day: growing, and ready. What is in neither died.
    fn stages(&self, on: NaiveDate) -> [f64; 2] {
        // Counted alive: only when they are ready is open.
        let alive = if self.settled {
            1.0
        } else {
            self.belief.mean()
        };
        let ready = self.ready(on);
        let since_potted = [[alive * (1.0 - ready), 0.0], [alive * ready, alive]];
        step(&since_potted, &[1.0, 0.0])
    }

    /// Mean and variance of how many are alive and ready.
    pub(super) fn counted(&self, on: NaiveDate) -> (f64, f64) {
        if !self.is_there(on) {
            return (0.0, 0.0);
        }
        let [_, share] = self.stages(on);
        let n = self.plants;
        if self.settled {
            let chance = n * share * (1.0 - share) + self.unsure * self.unsure * share * share;
            return (n * share, chance);
        }
        let ready = self.ready(on);
        let common = self.belief.variance() * ready * ready;
        let chance = (share * (1.0 - share) - common).max(0.0);
        let number = self.unsure * self.unsure * (share * share + common);
        (n * share, n * chance + n * n * common + number)
    }

    pub(super) fn flowers(&self, first: NaiveDate, middle: NaiveDate) -> bool {
        let falls = |window: &Window| window.contains(first) || window.contains(middle);
        self.windows.iter().any(falls)
    }
}

/// Sums of independent cohorts.
#[derive(Default)]
pub(super) struct Sum {
    most: f64,
    mean: f64,
    variance: f64,
}

impl Sum {
    /// Adds a cohort as it stands on a day.
    pub(super) fn add(&mut self, cohort: &Cohort, on: NaiveDate) -> f64 {
        let (mean, variance) = cohort.counted(on);
        if cohort.is_there(on) {
            self.most += cohort.most;
        }
        self.mean += mean;
        self.variance += variance;
        mean
    }

    /// Mean with four fifths around it, within what there is.
    pub(super) fn span(&self) -> Span {
        let half = FOUR_FIFTHS * libm::sqrt(self.variance);
        let low = libm::floor((self.mean - half).max(0.0));
        Span {
            low: whole(low),
            middle: whole(self.mean),
            high: whole(libm::ceil(self.mean + half).min(self.most)),
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
