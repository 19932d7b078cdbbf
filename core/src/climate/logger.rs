//! Daily readings out of a logger's file: which column is what, and what was not taken and why.
//!
//! Invariants: no row is dropped without a reason; a day of which too little was logged gives no reading; the hour that
//! comes twice when clocks go back counts twice and does no harm to a minimum, and the hour that is missing in spring is
//! not a gap.

use std::collections::{BTreeMap, BTreeSet};

use chrono::NaiveDate;
use serde::{Deserialize, Serialize};

use super::reading::{Reading, ReadingFault};
use super::typed::{celsius_of_fahrenheit, milli_of};
use super::when::{DayOrder, order_of, when};
use crate::cells::Cells;
use crate::time::{days_between, plus_days};

/// Hours of a day that have to be there before its minimum and maximum are believed.
const HOURS_LEAST: usize = 18;
/// Reasons kept for the screen; the rest is counted.
const REASONS_MOST: usize = 50;

/// Which column is what, counted from 0.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct Columns {
    #[serde(default)]
    pub when: usize,
    /// The time, where it has a column of its own.
    #[serde(default)]
    pub clock: Option<usize>,
    #[serde(default)]
    pub temperature: usize,
    /// A second temperature, for files with a minimum and a maximum a day.
    #[serde(default)]
    pub max: Option<usize>,
    #[serde(default)]
    pub humidity: Option<usize>,
    #[serde(default)]
    pub fahrenheit: bool,
    #[serde(default)]
    pub order: DayOrder,
}

/// Why a row was not taken.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum RowFault {
    /// Fewer cells than the columns chosen.
    Short {
        cells: usize,
    },
    NotADay {
        text: String,
    },
    NotANumber {
        text: String,
    },
    Humidity {
        text: String,
    },
    Reading(ReadingFault),
    /// The day lies ahead.
    Ahead {
        on: NaiveDate,
    },
}

/// A day made of rows.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct LoggedDay {
    pub on: NaiveDate,
    pub reading: Reading,
    pub rows: u32,
}

/// A day of which too little was logged.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct PartDay {
    pub on: NaiveDate,
    pub hours: usize,
}

/// What a file comes to.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Logged {
    pub days: Vec<LoggedDay>,
    /// Days too short to be believed; they are left out.
    pub part_days: Vec<PartDay>,
    /// Days nobody logged between the first and the last: from, to.
    pub gaps: Vec<(NaiveDate, NaiveDate)>,
    /// Lines refused and why, the first of them; and how many in all.
    pub refused: Vec<(usize, RowFault)>,
    pub refused_count: usize,
    /// Rows whose time was there before with the same numbers: passed over.
    pub repeated: usize,
    /// Rows whose time was there before with other numbers: counted, as when clocks go back.
    pub twice: usize,
}

impl Columns {
    /// What the columns seem to be, by their heads and first rows; the first row is their heads.
    #[must_use]
    pub fn guess(cells: &Cells) -> Option<Self> {
        let (_, head) = cells.rows.first()?;
        let named = |words: &[&str]| {
            head.iter().position(|cell| {
                let cell = cell.to_lowercase();
                words.iter().any(|word| cell.contains(word))
            })
        };
        let body = || cells.rows.iter().skip(1).take(20).map(|(_, row)| row);
        let reads = |at: usize, test: &dyn Fn(&str) -> bool| {
            let mut some = body().filter_map(|row| row.get(at)).peekable();
            some.peek().is_some() && some.all(|cell| test(cell))
        };
        let order_at = |at: usize| {
            order_of(
                body()
                    .filter_map(move |row| row.get(at))
                    .map(String::as_str),
            )
        };
        let when = (0..head.len()).find(|at| order_at(*at).is_some())?;
        let is_number = |text: &str| milli_of(text).is_some();
        let min = named(&["min"]);
        let temperature = min
            .or_else(|| named(&["temp", "°c", "°f", "celsius", "fahrenheit"]))
            .filter(|at| *at != when && reads(*at, &is_number))
            .or_else(|| (0..head.len()).find(|at| *at != when && reads(*at, &is_number)))?;
        let max = min.and(named(&["max"])).filter(|at| *at != temperature);
        let humidity = named(&["hum", "rh", "%"])
            .filter(|at| *at != temperature && Some(*at) != max && reads(*at, &is_number));
        let clock = named(&["time", "hour"])
            .filter(|at| *at != when && reads(*at, &|text| text.contains(':')));
        let heads = head.get(temperature)?.to_lowercase();
        Some(Self {
            when,
            clock,
            temperature,
            max,
            humidity,
            fahrenheit: heads.contains("°f") || heads.contains("fahr") || heads.contains("(f)"),
            order: order_at(when)?,
        })
    }
}

#[derive(Default)]
struct Day {
    min_mc: Option<i32>,
    max_mc: Option<i32>,
    dry: Option<u16>,
    moist: Option<u16>,
    hours: BTreeSet<u16>,
    whole: bool,
    rows: u32,
}

/// Lowest, highest, humidity.
type Numbers = (i32, i32, Option<u16>);

struct Row {
    on: NaiveDate,
    minute: Option<u16>,
    low_mc: i32,
    high_mc: i32,
    humidity: Option<u16>,
}

fn row(cells: &[String], columns: &Columns, today: NaiveDate) -> Result<Row, RowFault> {
    let cell = |at: usize| cells.get(at).ok_or(RowFault::Short { cells: cells.len() });
    let mut text = cell(columns.when)?.clone();
    if let Some(clock) = columns.clock {
        text = format!("{text} {}", cell(clock)?);
    }
    let (on, minute) =
        when(&text, columns.order).ok_or_else(|| RowFault::NotADay { text: text.clone() })?;
    if on > today {
        return Err(RowFault::Ahead { on });
    }
    let degrees = |at: usize| {
        let text = cell(at)?;
        let number = milli_of(text).ok_or_else(|| RowFault::NotANumber { text: text.clone() })?;
        Ok(if columns.fahrenheit {
            celsius_of_fahrenheit(number)
        } else {
            number
        })
    };
    let low_mc = degrees(columns.temperature)?;
    let high_mc = columns.max.map_or(Ok(low_mc), degrees)?;
    let reading = Reading::of(low_mc, high_mc);
    reading.check().map_err(RowFault::Reading)?;
    let humidity = match columns.humidity {
        None => None,
        Some(at) => {
            let text = cell(at)?;
            let number = milli_of(text.trim_end_matches('%'));
            match number.map(|milli| u16::try_from(milli / 100)) {
                Some(Ok(permille)) if permille <= 1_000 => Some(permille),
                _ if text.is_empty() => None,
                _ => return Err(RowFault::Humidity { text: text.clone() }),
            }
        }
    };
    Ok(Row {
        on,
        minute,
        low_mc,
        high_mc,
        humidity,
    })
}

/// Reads a file whose first row is its heads. Days after `today` are refused.
#[must_use]
pub fn logged(cells: &Cells, columns: &Columns, today: NaiveDate) -> Logged {
    let mut logged = Logged::default();
    let mut days: BTreeMap<NaiveDate, Day> = BTreeMap::new();
    let mut seen: BTreeMap<(NaiveDate, Option<u16>), Numbers> = BTreeMap::new();
    for (line, cells) in cells.rows.iter().skip(1) {
        let row = match row(cells, columns, today) {
            Ok(row) => row,
            Err(why) => {
                logged.refused_count += 1;
                if logged.refused.len() < REASONS_MOST {
                    logged.refused.push((*line, why));
                }
                continue;
            }
        };
        let numbers: Numbers = (row.low_mc, row.high_mc, row.humidity);
        match seen.insert((row.on, row.minute), numbers) {
            Some(before) if before == numbers => {
                logged.repeated += 1;
                continue;
            }
            Some(_) => logged.twice += 1,
            None => {}
        }
        let day = days.entry(row.on).or_default();
        day.min_mc = Some(day.min_mc.map_or(row.low_mc, |mc| mc.min(row.low_mc)));
        day.max_mc = Some(day.max_mc.map_or(row.high_mc, |mc| mc.max(row.high_mc)));
        day.dry = [day.dry, row.humidity].into_iter().flatten().min();
        day.moist = day.moist.max(row.humidity);
        day.rows = day.rows.saturating_add(1);
        match row.minute {
            Some(minute) => drop(day.hours.insert(minute / 60)),
            None => day.whole = true,
        }
    }
    let mut last: Option<NaiveDate> = None;
    for (on, day) in days {
        if let Some(last) = last.filter(|last| days_between(*last, on) > 1) {
            logged.gaps.push((plus_days(last, 1), plus_days(on, -1)));
        }
        last = Some(on);
        logged.end_day(on, &day);
    }
    logged
}

impl Logged {
    fn end_day(&mut self, on: NaiveDate, day: &Day) {
        let (Some(min_mc), Some(max_mc)) = (day.min_mc, day.max_mc) else {
            return;
        };
        if !day.whole && day.hours.len() < HOURS_LEAST {
            let hours = day.hours.len();
            self.part_days.push(PartDay { on, hours });
            return;
        }
        let reading = Reading {
            humidity_min_permille: day.dry,
            humidity_max_permille: day.moist,
            ..Reading::of(min_mc, max_mc)
        };
        let rows = day.rows;
        self.days.push(LoggedDay { on, reading, rows });
    }
}
