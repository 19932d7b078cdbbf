//! A lot's year as a strip: its windows, what was done, what is due, cut to twelve months around today.

use std::iter;

use chrono::{Datelike, NaiveDate};

use crate::event::Sight;
use crate::season::{Window, add_months};
use crate::task::TaskKind;
use crate::time::{days_between, plus_days};

use super::lot::LotView;

/// Days on a strip.
const STRIP_DAYS: i64 = 365;
/// Whole months shown before this one.
const MONTHS_BEFORE: i32 = 2;
/// Due work shown, nearest first; more would be a list.
const WORK_MOST: usize = 3;

/// What a span on the strip is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum YearMark {
    RepotWindow,
    FloweringWindow,
    RestWindow,
    RootWindow,
    Potted,
    Seen(Sight),
    Work(TaskKind),
}

/// One thing on the strip; days are counted from its first.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct YearSpan {
    pub mark: YearMark,
    pub from_day: u32,
    pub to_day: u32,
    /// The first day as it is, even where it lies before the strip.
    pub from_on: NaiveDate,
}

/// Twelve months around today.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Year {
    /// The first of a month.
    pub first: NaiveDate,
    /// The months in order, numbered 1 to 12.
    pub months: Vec<u8>,
    pub today_day: u32,
    /// The most important first.
    pub spans: Vec<YearSpan>,
}

impl Year {
    /// Twelve empty months from the first of this one.
    pub(super) fn from(today: NaiveDate) -> Self {
        let first = today.with_day(1).unwrap_or(today);
        Self {
            first,
            months: months(first),
            today_day: day_of(first, today).unwrap_or(0),
            spans: Vec::new(),
        }
    }

    /// Puts something on the strip; `false` where it lies outside.
    pub(super) fn put(&mut self, mark: YearMark, from_on: NaiveDate, to_on: NaiveDate) -> bool {
        let span = cut(self.first, mark, from_on, to_on);
        let lies_on_it = span.is_some();
        self.spans.extend(span);
        lies_on_it
    }
}

fn months(first: NaiveDate) -> Vec<u8> {
    (0..12)
        .filter_map(|ahead| add_months(first, ahead))
        .map(|month| u8::try_from(month.month()).unwrap_or(1))
        .collect()
}

/// The strip of a lot.
#[must_use]
pub fn year(lot: &LotView, today: NaiveDate) -> Year {
    let start = today.with_day(1).unwrap_or(today);
    let first = add_months(start, -MONTHS_BEFORE).unwrap_or(start);
    let span = |mark, from_on, to_on| cut(first, mark, from_on, to_on);
    let windows = |windows: &[Window], mark: YearMark| -> Vec<YearSpan> {
        let falls = windows
            .iter()
            .flat_map(|window| occurrences(*window, first));
        joined(falls.collect())
            .into_iter()
            .filter_map(|(from, to)| span(mark, from, to))
            .collect()
    };
    let mut spans = windows(&lot.repot_windows, YearMark::RepotWindow);
    spans.extend(windows(&lot.flowering_windows, YearMark::FloweringWindow));
    spans.extend(windows(&lot.rest_windows, YearMark::RestWindow));
    if lot.root_windows != lot.repot_windows {
        spans.extend(windows(&lot.root_windows, YearMark::RootWindow));
    }
    let potted = lot.potted.as_ref().map(|(on, _)| (YearMark::Potted, *on));
    let seen = lot.sights.iter().rev();
    let seen = seen.filter(|seen| matches!(seen.what, Sight::SpikeSeen | Sight::FirstOpen));
    let seen = seen
        .map(|seen| (YearMark::Seen(seen.what), seen.on))
        .take(1);
    spans.extend(
        potted
            .into_iter()
            .chain(seen)
            .filter_map(|(mark, on)| span(mark, on, on)),
    );
    let work = lot.tasks.iter();
    let work = work.filter_map(|(task, _)| {
        let on = task.due_on.max(first);
        span(YearMark::Work(task.kind), on, on)
    });
    spans.extend(work.take(WORK_MOST));
    Year {
        first,
        months: months(first),
        today_day: day_of(first, today).unwrap_or(0),
        spans,
    }
}

/// A window as it falls in the years a strip may touch.
fn occurrences(window: Window, first: NaiveDate) -> impl Iterator<Item = (NaiveDate, NaiveDate)> {
    let mut year = first.year().saturating_sub(1);
    iter::from_fn(move || {
        let from = window.from.in_year(year)?;
        let over = window.to < window.from;
        let to = window.to.in_year(year.checked_add(i32::from(over))?)?;
        year = year.checked_add(1)?;
        Some((from, to))
    })
    .take(3)
}

/// Windows that overlap or follow one another without a day between them, as one.
fn joined(mut falls: Vec<(NaiveDate, NaiveDate)>) -> Vec<(NaiveDate, NaiveDate)> {
    falls.sort_unstable();
    let mut joined: Vec<(NaiveDate, NaiveDate)> = Vec::new();
    for (from, to) in falls {
        match joined.last_mut() {
            Some(last) if from <= plus_days(last.1, 1) => last.1 = last.1.max(to),
            _ => joined.push((from, to)),
        }
    }
    joined
}

fn cut(first: NaiveDate, mark: YearMark, from_on: NaiveDate, to_on: NaiveDate) -> Option<YearSpan> {
    let last = plus_days(first, STRIP_DAYS - 1);
    if to_on < first || from_on > last {
        return None;
    }
    Some(YearSpan {
        mark,
        from_day: day_of(first, from_on.max(first))?,
        to_day: day_of(first, to_on.min(last))?,
        from_on,
    })
}

fn day_of(first: NaiveDate, on: NaiveDate) -> Option<u32> {
    u32::try_from(days_between(first, on)).ok()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn day(text: &str) -> NaiveDate {
        text.parse().unwrap()
    }

    #[test]
    fn a_window_over_the_new_year_is_one_span() {
        let first = day("2026-09-01");
        let spans: Vec<YearSpan> = occurrences(Window::months(11, 2), first)
            .filter_map(|(from, to)| cut(first, YearMark::FloweringWindow, from, to))
            .collect();
        assert_eq!(spans.len(), 1);
        assert_eq!((spans[0].from_day, spans[0].to_day), (61, 180));
        assert_eq!(spans[0].from_on, day("2026-11-01"));
    }

    #[test]
    fn windows_that_adjoin_are_one_and_a_day_between_keeps_them_apart() {
        let days = |from: &str, to: &str| (day(from), day(to));
        let adjoining = vec![
            days("2027-03-01", "2027-05-31"),
            days("2027-01-01", "2027-02-28"),
            days("2027-05-15", "2027-06-30"),
            days("2027-07-02", "2027-08-31"),
        ];
        assert_eq!(
            joined(adjoining),
            [
                days("2027-01-01", "2027-06-30"),
                days("2027-07-02", "2027-08-31")
            ]
        );
    }

    #[test]
    fn a_window_cut_by_the_strip_s_ends_shows_both_parts() {
        let first = day("2026-04-01");
        let spans: Vec<YearSpan> = occurrences(Window::months(3, 5), first)
            .filter_map(|(from, to)| cut(first, YearMark::RepotWindow, from, to))
            .collect();
        let days: Vec<(u32, u32)> = spans
            .iter()
            .map(|span| (span.from_day, span.to_day))
            .collect();
        assert_eq!(days, [(0, 60), (334, 364)]);
    }
}
