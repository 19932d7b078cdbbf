//! The minutes that open work asks for, day by day, over the month to come.
//!
//! Work counts on the day it is due, late work today; set-ups count once a day. A step that repeats counts once: its next
//! occurrence is all that is open.

use std::collections::BTreeSet;

use chrono::NaiveDate;

use crate::state::State;
use crate::time::{days_between, plus_days};

use super::day::{SetUp, cost};
use super::minutes::learned_bench;

/// Days looked ahead, today included.
pub const LOAD_DAYS: usize = 30;

/// One day's work.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct LoadDay {
    pub on: NaiveDate,
    /// Tenths of a minute, set-ups included.
    pub tenths: u32,
    pub tasks: u32,
    /// Tasks of it that are late today.
    pub late: u32,
}

/// The month from a day on.
#[must_use]
pub fn load(state: &State, today: NaiveDate) -> Vec<LoadDay> {
    let facts = state.facts();
    let learned = learned_bench(state);
    let mut days: Vec<(LoadDay, BTreeSet<SetUp>)> = (0..LOAD_DAYS)
        .map(|day| {
            let day = LoadDay {
                on: plus_days(today, i64::try_from(day).unwrap_or(0)),
                tenths: 0,
                tasks: 0,
                late: 0,
            };
            (day, BTreeSet::new())
        })
        .collect();
    state.each_task(|task| {
        let ahead = days_between(today, task.due_on).max(0);
        let Some((day, set_ups)) = usize::try_from(ahead).ok().and_then(|at| days.get_mut(at))
        else {
            return;
        };
        let (set_up, tenths, _) = cost(facts, task, learned);
        if set_ups.insert(set_up) {
            day.tenths = day.tenths.saturating_add(set_up.tenths());
        }
        day.tenths = day.tenths.saturating_add(tenths);
        day.tasks = day.tasks.saturating_add(1);
        day.late = day.late.saturating_add(u32::from(today > task.until_on));
    });
    days.into_iter().map(|(day, _)| day).collect()
}
