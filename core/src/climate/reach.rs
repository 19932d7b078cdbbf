//! The day on which a sum of warmth is reached: of the days read, and of days as warm as those last read.
//!
//! Invariants: a day that was read counts what was read and nothing else; every other day, past or to come, counts the
//! mean of the last days read and is told apart; where most past days were not read, no day is given.

use chrono::NaiveDate;

use crate::time::{days_between, plus_days};

use super::reading::{Counted, Readings};
use super::warmth::{DegreeDays, degree_days_mk};

/// Days read whose mean stands for days nobody read, and how many of them there have to be.
const RATE_DAYS: usize = 7;
const RATE_LEAST: usize = 3;

/// When a sum is reached, and what that rests on.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Reach {
    pub on: NaiveDate,
    /// Read so far, from the day after the first up to the day it is reached; `of` counts to the last day read.
    pub so_far: Counted,
    /// Not reached within the most days: the last of them is given.
    pub at_last: bool,
}

/// Too few days were read to say.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct TooFewRead {
    pub read: u32,
    pub of: u32,
}

/// The day by which `wanted_mk` thousandths of a degree-day have come together since the day after `from`, within so many
/// days.
///
/// # Errors
/// [`TooFewRead`] with fewer than three days read, or with more past days missed than read.
pub fn reach(
    readings: &Readings,
    from: NaiveDate,
    rule: DegreeDays,
    wanted_mk: i64,
    most_days: u16,
) -> Result<Reach, TooFewRead> {
    let warmth = |on: NaiveDate| {
        let reading = readings.get(&on)?;
        let mk = degree_days_mk(rule, reading.min_mc, reading.max_mc);
        Some(i64::from(mk))
    };
    let first = plus_days(from, 1);
    let end = plus_days(from, i64::from(most_days));
    let last_read = readings.range(first..=end).next_back().map(|(on, _)| *on);
    let of = last_read.map_or(0, |last| days_between(from, last));
    let read = last_read.map_or(0, |last| readings.range(first..=last).count());
    let counts = |value: i64| u32::try_from(value.max(0)).unwrap_or(u32::MAX);
    let read = i64::try_from(read).unwrap_or(i64::MAX);
    let too_few = TooFewRead {
        read: counts(read),
        of: counts(of),
    };
    let before = plus_days(from, -i64::try_from(RATE_DAYS).unwrap_or(0));
    let recent = readings.range(before..=end).rev().take(RATE_DAYS);
    let recent: Vec<i64> = recent.filter_map(|(on, _)| warmth(*on)).collect();
    if recent.len() < RATE_LEAST || read.saturating_mul(2) < of {
        return Err(too_few);
    }
    let days = i64::try_from(recent.len()).unwrap_or(1).max(1);
    let rate: i64 = recent.iter().sum();
    let (mut sum, mut others) = (0i64, 0i64);
    let mut so_far = Counted::default();
    for day in 1..=i64::from(most_days) {
        let on = plus_days(from, day);
        let known = warmth(on);
        match known {
            Some(mk) => sum = sum.saturating_add(mk),
            None => others = others.saturating_add(rate),
        }
        if last_read.is_some_and(|last| on <= last) {
            so_far.of = so_far.of.saturating_add(1);
            so_far.read = so_far.read.saturating_add(u32::from(known.is_some()));
            so_far.sum = sum;
        }
        // In sevenths, or as many parts as days were read: nothing is rounded.
        let total = sum.saturating_mul(days).saturating_add(others);
        if total >= wanted_mk.saturating_mul(days) {
            return Ok(Reach {
                on,
                so_far,
                at_last: false,
            });
        }
    }
    Ok(Reach {
        on: end,
        so_far,
        at_last: true,
    })
}

#[cfg(test)]
mod tests {
    use super::super::reading::Reading;
    use super::super::warmth::Method;
    use super::*;

    const OVER_FIVE: DegreeDays = DegreeDays {
        method: Method::Sine,
        lower_mc: 5_000,
        upper_mc: Some(30_000),
    };

    fn on(day: i64) -> NaiveDate {
        plus_days(NaiveDate::from_ymd_opt(2027, 6, 1).unwrap(), day)
    }

    fn steady(days: std::ops::Range<i64>, mc: i32) -> Readings {
        days.map(|day| (on(day), Reading::of(mc - 2_000, mc + 2_000)))
            .collect()
    }

    #[test]
    fn twenty_degrees_bring_three_hundred_over_five_together_in_twenty_days() {
        let reached = reach(&steady(-7..40, 20_000), on(0), OVER_FIVE, 300_000, 60).unwrap();
        assert_eq!(reached.on, on(20));
        assert_eq!((reached.so_far.read, reached.so_far.of), (20, 20));
        assert_eq!(reached.so_far.sum, 300_000);
    }

    #[test]
    fn what_is_not_read_yet_goes_on_as_the_last_days_read() {
        let reached = reach(&steady(-7..4, 20_000), on(0), OVER_FIVE, 300_000, 60).unwrap();
        assert_eq!(reached.on, on(20));
        assert_eq!((reached.so_far.read, reached.so_far.of), (3, 3));
        let hot = reach(
            &steady(-7..4, 30_000 - 2_000),
            on(0),
            OVER_FIVE,
            300_000,
            60,
        )
        .unwrap();
        assert!(hot.on < on(20));
    }

    #[test]
    fn with_more_days_missed_than_read_no_day_is_given() {
        let mut gap = steady(-7..3, 20_000);
        gap.extend(steady(7..8, 20_000));
        let no = reach(&gap, on(0), OVER_FIVE, 300_000, 60).unwrap_err();
        assert_eq!((no.read, no.of), (3, 7));
        let none = reach(&Readings::new(), on(0), OVER_FIVE, 300_000, 60).unwrap_err();
        assert_eq!((none.read, none.of), (0, 0));
    }

    #[test]
    fn a_house_too_cold_for_it_is_looked_at_on_the_last_day_all_the_same() {
        let cold = steady(-7..60, 2_000);
        let reached = reach(&cold, on(0), OVER_FIVE, 300_000, 60).unwrap();
        assert_eq!((reached.on, reached.at_last), (on(60), true));
    }
}
