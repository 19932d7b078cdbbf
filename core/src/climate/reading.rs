//! Readings of a house, a day at a time, and what is counted over them.
//!
//! Invariant: nothing stands in for a day that was not read. What is counted says how many days were.

use std::collections::BTreeMap;

use chrono::NaiveDate;
use serde::Serialize;

use crate::limits;
use crate::time::{days_between, plus_days};

use super::warmth::{DegreeDays, degree_days_mk};

/// What was read of a house on one day.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize)]
pub struct Reading {
    pub min_mc: i32,
    pub max_mc: i32,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub humidity_min_permille: Option<u16>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub humidity_max_permille: Option<u16>,
    /// Rain since the reading before, in thousandths of a millimetre.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub rain_um: Option<u32>,
}

impl Reading {
    /// The two numbers alone.
    #[must_use]
    pub const fn of(min_mc: i32, max_mc: i32) -> Self {
        Self {
            min_mc,
            max_mc,
            humidity_min_permille: None,
            humidity_max_permille: None,
            rain_um: None,
        }
    }

    /// The middle of minimum and maximum, rounded down.
    #[must_use]
    pub const fn mean_mc(&self) -> i32 {
        (self.min_mc as i64 + self.max_mc as i64).div_euclid(2) as i32
    }
}

/// What is wrong with a reading.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum ReadingFault {
    MinAboveMax {
        min_mc: i32,
        max_mc: i32,
    },
    /// No house is that cold or hot.
    NotBelieved {
        mc: i32,
        least_mc: i32,
        most_mc: i32,
    },
    HumidityTurned {
        min_permille: u16,
        max_permille: u16,
    },
    HumidityBeyond {
        permille: u16,
    },
    RainBeyond {
        most_um: u32,
    },
    DayTwice {
        on: NaiveDate,
    },
}

impl Reading {
    /// Checks what was typed or logged.
    ///
    /// # Errors
    /// The first [`ReadingFault`] found.
    pub fn check(&self) -> Result<(), ReadingFault> {
        let believed = limits::AIR_MC_MIN..=limits::AIR_MC_MAX;
        for mc in [self.min_mc, self.max_mc] {
            if !believed.contains(&mc) {
                return Err(ReadingFault::NotBelieved {
                    mc,
                    least_mc: limits::AIR_MC_MIN,
                    most_mc: limits::AIR_MC_MAX,
                });
            }
        }
        if self.min_mc > self.max_mc {
            return Err(ReadingFault::MinAboveMax {
                min_mc: self.min_mc,
                max_mc: self.max_mc,
            });
        }
        let humidities = [self.humidity_min_permille, self.humidity_max_permille];
        if let Some(permille) = humidities.into_iter().flatten().find(|it| *it > 1_000) {
            return Err(ReadingFault::HumidityBeyond { permille });
        }
        if let [Some(min_permille), Some(max_permille)] = humidities
            && min_permille > max_permille
        {
            return Err(ReadingFault::HumidityTurned {
                min_permille,
                max_permille,
            });
        }
        if self.rain_um.is_some_and(|um| um > limits::RAIN_UM_MAX) {
            return Err(ReadingFault::RainBeyond {
                most_um: limits::RAIN_UM_MAX,
            });
        }
        Ok(())
    }
}

/// Readings by day.
pub type Readings = BTreeMap<NaiveDate, Reading>;

/// A number of days or an amount, and what it rests on.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Counted {
    /// Nights, or thousandths of degree-days.
    pub sum: i64,
    /// Days read.
    pub read: u32,
    /// Days there were.
    pub of: u32,
}

impl Counted {
    /// Whether a day is missing.
    #[must_use]
    pub const fn has_gaps(&self) -> bool {
        self.read < self.of
    }
}

/// A mean temperature, and what it rests on.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Mean {
    pub mc: i32,
    pub read: u32,
    pub of: u32,
    pub last_on: NaiveDate,
}

fn days(from: NaiveDate, to: NaiveDate) -> u32 {
    u32::try_from(days_between(from, to).saturating_add(1)).unwrap_or(0)
}

/// Adds up what `amount` gives for each day read, both ends included.
fn counted(
    readings: &Readings,
    from: NaiveDate,
    to: NaiveDate,
    amount: impl Fn(&Reading) -> i64,
) -> Counted {
    let mut counted = Counted {
        of: days(from, to),
        ..Counted::default()
    };
    if from <= to {
        for (_, reading) in readings.range(from..=to) {
            counted.read = counted.read.saturating_add(1);
            counted.sum = counted.sum.saturating_add(amount(reading));
        }
    }
    counted
}

/// Nights whose minimum lay below a threshold, both days included. A night at the threshold is not below it.
#[must_use]
pub fn nights_below(
    readings: &Readings,
    from: NaiveDate,
    to: NaiveDate,
    threshold_mc: i32,
) -> Counted {
    counted(readings, from, to, |reading| {
        i64::from(reading.min_mc < threshold_mc)
    })
}

/// Degree-days in thousandths, both days included.
#[must_use]
pub fn warmth_sum(
    readings: &Readings,
    from: NaiveDate,
    to: NaiveDate,
    rule: DegreeDays,
) -> Counted {
    counted(readings, from, to, |reading| {
        i64::from(degree_days_mk(rule, reading.min_mc, reading.max_mc))
    })
}

/// Mean of the days read, both ends included; `None` when none was.
#[must_use]
pub fn mean(readings: &Readings, from: NaiveDate, to: NaiveDate) -> Option<Mean> {
    let sum = counted(readings, from, to, |reading| i64::from(reading.mean_mc()));
    let last_on = readings.range(from..=to).next_back().map(|(day, _)| *day)?;
    let mc = sum.sum.div_euclid(i64::from(sum.read.max(1)));
    Some(Mean {
        mc: i32::try_from(mc).unwrap_or(0),
        read: sum.read,
        of: sum.of,
        last_on,
    })
}

/// Mean of the `of` days that end with the last reading up to `until`, which must not lie before `since`.
#[must_use]
pub fn recent_mean(
    readings: &Readings,
    since: NaiveDate,
    until: NaiveDate,
    of: u32,
) -> Option<Mean> {
    if since > until {
        return None;
    }
    let (last_on, _) = readings.range(since..=until).next_back()?;
    let from = plus_days(*last_on, 1 - i64::from(of));
    mean(readings, from, *last_on)
}

#[cfg(test)]
mod tests {
    use super::super::warmth::Method;
    use super::*;

    fn on(text: &str) -> NaiveDate {
        text.parse().unwrap()
    }

    fn book() -> Readings {
        [
            ("2026-10-01", 9_000, 21_000),
            ("2026-10-02", 10_000, 20_000),
            ("2026-10-05", 8_000, 14_000),
        ]
        .map(|(day, min, max)| (on(day), Reading::of(min, max)))
        .into()
    }

    #[test]
    fn a_reading_no_house_can_have_is_a_fault() {
        let fault = |min, max| Reading::of(min, max).check();
        assert_eq!(fault(9_000, 21_000), Ok(()));
        assert!(matches!(
            fault(21_000, 9_000),
            Err(ReadingFault::MinAboveMax { .. })
        ));
        assert!(matches!(
            fault(9_000, 60_000),
            Err(ReadingFault::NotBelieved { mc: 60_000, .. })
        ));
        let humid = |min, max| Reading {
            humidity_min_permille: min,
            humidity_max_permille: max,
            ..Reading::of(9_000, 21_000)
        };
        assert_eq!(humid(Some(400), None).check(), Ok(()));
        assert!(humid(Some(700), Some(600)).check().is_err());
        assert!(humid(None, Some(1_001)).check().is_err());
    }

    #[test]
    fn nights_are_counted_over_the_days_read_and_the_gap_is_told() {
        let cold = nights_below(&book(), on("2026-10-01"), on("2026-10-05"), 10_000);
        assert_eq!((cold.sum, cold.read, cold.of), (2, 3, 5));
        assert!(cold.has_gaps());
        let none = nights_below(&book(), on("2026-10-05"), on("2026-10-01"), 10_000);
        assert_eq!((none.sum, none.read, none.of), (0, 0, 0));
    }

    #[test]
    fn a_gap_adds_no_warmth() {
        let rule = DegreeDays {
            method: Method::Average,
            lower_mc: 10_000,
            upper_mc: None,
        };
        let sum = warmth_sum(&book(), on("2026-10-01"), on("2026-10-05"), rule);
        assert_eq!((sum.sum, sum.read, sum.of), (5_000 + 5_000 + 1_000, 3, 5));
    }

    #[test]
    fn the_mean_of_the_last_days_ends_with_the_last_reading() {
        let mean = recent_mean(&book(), on("2026-10-01"), on("2026-10-20"), 4).unwrap();
        assert_eq!((mean.mc, mean.read, mean.of), (13_000, 2, 4));
        assert_eq!(mean.last_on, on("2026-10-05"));
        assert_eq!(
            recent_mean(&book(), on("2026-10-06"), on("2026-10-20"), 4),
            None
        );
    }

    #[test]
    fn a_mean_below_freezing_is_rounded_down_like_any_other() {
        assert_eq!(Reading::of(-3, 0).mean_mc(), -2);
    }
}
