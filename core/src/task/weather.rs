//! What the weather of a house does to a step: days more or fewer, and whether the step is for such weather at all.
//!
//! Invariants. It rests on readings of that house alone, over the week that ends with the last reading before the step
//! could first be due: so a day is settled by the time it comes, and what was read later moves nothing back. With fewer
//! than three days read nothing is moved and no step is left out: work is never hidden for want of a thermometer.

use chrono::NaiveDate;

use crate::climate::{Mean, Readings, recent_mean};
use crate::time::plus_days;

use super::{Step, WeatherShift};

/// Days a mean is taken over, and how many of them have to be read.
pub const MEAN_DAYS: u32 = 7;
const READ_LEAST: u32 = 3;

/// Days a step was moved by, and the mean it was moved for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct WeatherMove {
    pub days: i32,
    pub mean: Mean,
}

impl WeatherShift {
    fn is_met(&self, mc: i32) -> bool {
        (self.below_mc.is_some() || self.above_mc.is_some())
            && self.below_mc.is_none_or(|below| mc < below)
            && self.above_mc.is_none_or(|above| mc > above)
    }
}

/// The mean that counts for a step that would be due on `plain`.
fn mean_for(
    readings: &Readings,
    step: &Step,
    anchor_on: NaiveDate,
    plain: NaiveDate,
) -> Option<Mean> {
    let earlier = step.weather.iter().map(|shift| shift.days).min();
    let until = plus_days(plain, i64::from(earlier.unwrap_or(0).min(0)));
    let since = plus_days(anchor_on, -i64::from(MEAN_DAYS));
    recent_mean(readings, since, until, MEAN_DAYS).filter(|mean| mean.read >= READ_LEAST)
}

/// What the weather moves a step by.
#[must_use]
pub fn shift(
    readings: &Readings,
    step: &Step,
    anchor_on: NaiveDate,
    plain: NaiveDate,
) -> Option<WeatherMove> {
    if step.weather.is_empty() {
        return None;
    }
    let mean = mean_for(readings, step, anchor_on, plain)?;
    let shift = step.weather.iter().find(|shift| shift.is_met(mean.mc))?;
    (shift.days != 0).then_some(WeatherMove {
        days: shift.days,
        mean,
    })
}

/// Whether a step is for the weather there was. Where it is not known, it is.
#[must_use]
pub fn is_for(
    readings: Option<&Readings>,
    step: &Step,
    anchor_on: NaiveDate,
    plain: NaiveDate,
) -> bool {
    let only = &step.only;
    if only.mean_below_mc.is_none() && only.mean_above_mc.is_none() {
        return true;
    }
    let mean = readings.and_then(|readings| mean_for(readings, step, anchor_on, plain));
    mean.is_none_or(|mean| {
        only.mean_below_mc.is_none_or(|below| mean.mc < below)
            && only.mean_above_mc.is_none_or(|above| mean.mc > above)
    })
}
