//! Numbers, days and amounts as they are written here.
//!
//! `near_day`, `days_ago` and `window` are ready for a sentence: "el sábado", "hace 3 días", "de marzo a mayo".
//! `short_day`, `full_day` and `long_day` are bare: an article goes before them where a sentence wants one.

use chrono::{Datelike, NaiveDate};
use velamen_core::season::{MonthDay, Window};
use velamen_core::time::days_between;

pub use crate::words::figures::{
    area, celsius, decimal, degrees, fixed, in_litres, kilograms, length, litres, litres_exact,
    measured, millimetres, money, pot_width, rain, sign, square_metres, whole_millimetres,
};

/// Between whole and parts of a number.
pub const POINT: char = ',';

const MONTHS: [&str; 12] = [
    "enero",
    "febrero",
    "marzo",
    "abril",
    "mayo",
    "junio",
    "julio",
    "agosto",
    "septiembre",
    "octubre",
    "noviembre",
    "diciembre",
];
const WEEKDAYS: [&str; 7] = [
    "lunes",
    "martes",
    "miércoles",
    "jueves",
    "viernes",
    "sábado",
    "domingo",
];

fn of<'a>(names: &[&'a str], at: u32) -> &'a str {
    usize::try_from(at)
        .ok()
        .and_then(|at| names.get(at))
        .copied()
        .unwrap_or("")
}

/// "miércoles 11 de marzo".
#[must_use]
pub fn long_day(day: NaiveDate) -> String {
    format!(
        "{} {} de {}",
        of(&WEEKDAYS, day.weekday().num_days_from_monday()),
        day.day(),
        of(&MONTHS, day.month0())
    )
}

/// "11 de marzo de 2027".
#[must_use]
pub fn full_day(day: NaiveDate) -> String {
    format!(
        "{} de {} de {}",
        day.day(),
        of(&MONTHS, day.month0()),
        day.year()
    )
}

/// "11 mar", with the year when it is not this one.
#[must_use]
pub fn short_day(day: NaiveDate, today: NaiveDate) -> String {
    let month: String = of(&MONTHS, day.month0()).chars().take(3).collect();
    if day.year() == today.year() {
        format!("{} {month}", day.day())
    } else {
        format!("{} {month} {}", day.day(), day.year())
    }
}

/// A month, "mar", in a run of months: each January says its year.
#[must_use]
pub fn short_month(first: NaiveDate) -> String {
    let month: String = of(&MONTHS, first.month0()).chars().take(3).collect();
    if first.month0() == 0 {
        format!("{month} {}", first.year())
    } else {
        month
    }
}

/// "marzo de 2027".
#[must_use]
pub fn month_year(day: NaiveDate) -> String {
    format!("{} de {}", of(&MONTHS, day.month0()), day.year())
}

/// A day as one speaks of it: "hoy", "mañana", "el sábado", "el 11 mar". It goes after "hasta", "desde" or "para", never after "de" or "a".
#[must_use]
pub fn near_day(day: NaiveDate, today: NaiveDate) -> String {
    match days_between(today, day) {
        0 => "hoy".to_owned(),
        1 => "mañana".to_owned(),
        -1 => "ayer".to_owned(),
        2..=6 => format!("el {}", of(&WEEKDAYS, day.weekday().num_days_from_monday())),
        _ => format!("el {}", short_day(day, today)),
    }
}

/// "hace 3 días", "hoy", "el 11 mar".
#[must_use]
pub fn days_ago(day: NaiveDate, today: NaiveDate) -> String {
    match days_between(day, today) {
        0 => "hoy".to_owned(),
        1 => "ayer".to_owned(),
        days if days > 1 && days < 60 => format!("hace {days} días"),
        _ => format!("el {}", short_day(day, today)),
    }
}

/// "10:40".
#[must_use]
pub fn clock(minute_of_day: u16) -> String {
    format!("{}:{:02}", minute_of_day / 60, minute_of_day % 60)
}

/// "1 maceta", "3 macetas".
#[must_use]
pub fn counted(count: i64, one: &str, many: &str) -> String {
    format!("{count} {}", if count == 1 { one } else { many })
}

/// The same for what is counted in a program.
#[must_use]
pub fn many(count: usize, one: &str, more: &str) -> String {
    counted(i64::try_from(count).unwrap_or(i64::MAX), one, more)
}

/// A part of the year: "de marzo a mayo", "en marzo".
#[must_use]
pub fn window(window: &Window) -> String {
    let month = |day: MonthDay| of(&MONTHS, u32::from(day.month()).saturating_sub(1));
    let (from, to) = (month(window.from), month(window.to));
    if from == to {
        format!("en {from}")
    } else {
        format!("de {from} a {to}")
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
        assert_eq!(near_day(today, today), "hoy");
        assert_eq!(near_day(day("2027-03-13"), today), "el sábado");
        assert_eq!(near_day(day("2027-03-19"), today), "el 19 mar");
        assert_eq!(near_day(day("2029-03-19"), today), "el 19 mar 2029");
        assert_eq!(days_ago(day("2027-03-08"), today), "hace 3 días");
        assert_eq!(full_day(today), "11 de marzo de 2027");
        assert_eq!(long_day(today), "jueves 11 de marzo");
    }
}
