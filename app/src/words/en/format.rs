//! Numbers, days and amounts as they are written here.

use chrono::{Datelike, NaiveDate};
use velamen_core::season::{MonthDay, Window};
use velamen_core::time::days_between;

pub use crate::words::figures::{
    area, celsius, decimal, degrees, fixed, in_litres, kilograms, length, litres, litres_exact,
    measured, millimetres, money, pot_width, rain, sign, square_metres, whole_millimetres,
};

/// Between whole and parts of a number.
pub const POINT: char = '.';

const MONTHS: [&str; 12] = [
    "January",
    "February",
    "March",
    "April",
    "May",
    "June",
    "July",
    "August",
    "September",
    "October",
    "November",
    "December",
];
const WEEKDAYS: [&str; 7] = [
    "Monday",
    "Tuesday",
    "Wednesday",
    "Thursday",
    "Friday",
    "Saturday",
    "Sunday",
];

fn of<'a>(names: &[&'a str], at: u32) -> &'a str {
    usize::try_from(at)
        .ok()
        .and_then(|at| names.get(at))
        .copied()
        .unwrap_or("")
}

/// "Wednesday 11 March".
#[must_use]
pub fn long_day(day: NaiveDate) -> String {
    format!(
        "{} {} {}",
        of(&WEEKDAYS, day.weekday().num_days_from_monday()),
        day.day(),
        of(&MONTHS, day.month0())
    )
}

/// "11 March 2027".
#[must_use]
pub fn full_day(day: NaiveDate) -> String {
    format!("{} {} {}", day.day(), of(&MONTHS, day.month0()), day.year())
}

/// "11 Mar", with the year when it is not this one.
#[must_use]
pub fn short_day(day: NaiveDate, today: NaiveDate) -> String {
    let month: String = of(&MONTHS, day.month0()).chars().take(3).collect();
    if day.year() == today.year() {
        format!("{} {month}", day.day())
    } else {
        format!("{} {month} {}", day.day(), day.year())
    }
}

/// A month, "Mar", in a run of months: each January says its year.
#[must_use]
pub fn short_month(first: NaiveDate) -> String {
    let month: String = of(&MONTHS, first.month0()).chars().take(3).collect();
    if first.month0() == 0 {
        format!("{month} {}", first.year())
    } else {
        month
    }
}

/// "March 2027".
#[must_use]
pub fn month_year(day: NaiveDate) -> String {
    format!("{} {}", of(&MONTHS, day.month0()), day.year())
}

/// A day as one speaks of it: "today", "tomorrow", "Saturday", "11 Mar".
#[must_use]
pub fn near_day(day: NaiveDate, today: NaiveDate) -> String {
    match days_between(today, day) {
        0 => "today".to_owned(),
        1 => "tomorrow".to_owned(),
        -1 => "yesterday".to_owned(),
        2..=6 => of(&WEEKDAYS, day.weekday().num_days_from_monday()).to_owned(),
        _ => short_day(day, today),
    }
}

/// "3 days ago", "today".
#[must_use]
pub fn days_ago(day: NaiveDate, today: NaiveDate) -> String {
    match days_between(day, today) {
        0 => "today".to_owned(),
        1 => "yesterday".to_owned(),
        days if days > 1 && days < 60 => format!("{days} days ago"),
        _ => short_day(day, today),
    }
}

/// "10:40".
#[must_use]
pub fn clock(minute_of_day: u16) -> String {
    format!("{}:{:02}", minute_of_day / 60, minute_of_day % 60)
}

/// "1 pot", "3 pots".
#[must_use]
pub fn counted(count: i64, one: &str, many: &str) -> String {
    format!("{count} {}", if count == 1 { one } else { many })
}

/// The same for what is counted in a program.
#[must_use]
pub fn many(count: usize, one: &str, more: &str) -> String {
    counted(i64::try_from(count).unwrap_or(i64::MAX), one, more)
}

/// A part of the year: "March to May".
#[must_use]
pub fn window(window: &Window) -> String {
    let month = |day: MonthDay| of(&MONTHS, u32::from(day.month()).saturating_sub(1));
    let (from, to) = (month(window.from), month(window.to));
    if from == to {
        from.to_owned()
    } else {
        format!("{from} to {to}")
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use wasm_bindgen_test::wasm_bindgen_test;

    #[wasm_bindgen_test]
    fn near_days_have_names_and_far_ones_dates() {
        let day = |text: &str| text.parse::<NaiveDate>().unwrap_or_default();
        let today = day("2027-03-11");
        assert_eq!(near_day(today, today), "today");
        assert_eq!(near_day(day("2027-03-13"), today), "Saturday");
        assert_eq!(near_day(day("2027-03-19"), today), "19 Mar");
        assert_eq!(near_day(day("2029-03-19"), today), "19 Mar 2029");
        assert_eq!(days_ago(day("2027-03-08"), today), "3 days ago");
    }
}
