//! Numbers, days and amounts as they are written here.

use chrono::{Datelike, NaiveDate};
use velamen_core::quantity::{Mass, Volume};
use velamen_core::season::{MonthDay, Window};
use velamen_core::time::days_between;

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

/// Litres with two digits that matter: "0.41 L", "5.8 L", "23 L".
#[must_use]
pub fn litres(volume: Volume) -> String {
    format!("{} L", thousandths(volume.ul() / 1_000))
}

/// Litres to the hundredth, for what is measured: "20 L", "18.93 L".
#[must_use]
pub fn litres_exact(volume: Volume) -> String {
    let (figure, unit) = measured(volume.ul() / 10 * 10, "mL", "L");
    format!("{figure} {unit}")
}

/// Kilograms with two digits that matter: "0.57 kg".
#[must_use]
pub fn kilograms(mass: Mass) -> String {
    format!("{} kg", thousandths(mass.mg() / 1_000))
}

/// An amount to be measured out, in thousandths of the small unit, with three digits that matter: ("12.5", "mL").
#[must_use]
pub fn measured(
    thousandths: i64,
    small: &'static str,
    large: &'static str,
) -> (String, &'static str) {
    let (number, unit) = if thousandths.abs() < 1_000_000 {
        (thousandths, small)
    } else {
        (thousandths / 1_000, large)
    };
    let places: u32 = match number.abs() {
        0..1_000 => 3,
        1_000..10_000 => 2,
        10_000..100_000 => 1,
        _ => 0,
    };
    let step = 10_i64.pow(3 - places);
    let rounded = (number + number.signum() * step / 2) / step;
    let whole = 10_i64.pow(places);
    let mut text = format!("{}", rounded / whole);
    if places > 0 {
        let part = format!(
            ".{:0width$}",
            (rounded % whole).abs(),
            width = places as usize
        );
        text.push_str(part.trim_end_matches('0').trim_end_matches('.'));
    }
    (text, unit)
}

/// A number of thousandths, rounded to hundredths below 1, tenths below 10, else whole.
fn thousandths(number: i64) -> String {
    let sign = if number < 0 { "-" } else { "" };
    let number = number.abs();
    match number {
        0..995 => format!("{sign}0.{:02}", (number + 5) / 10),
        995..9_950 => {
            let tenths = (number + 50) / 100;
            format!("{sign}{}.{}", tenths / 10, tenths % 10)
        }
        _ => format!("{sign}{}", (number + 500) / 1_000),
    }
}

/// Millimetres of a length in micrometres: "32.5 mm".
#[must_use]
pub fn millimetres(um: i64) -> String {
    let tenths = (um + 50) / 100;
    if tenths % 10 == 0 {
        format!("{} mm", tenths / 10)
    } else {
        format!("{}.{} mm", tenths / 10, tenths % 10)
    }
}

/// Whole millimetres of a length in micrometres, as a layer is measured with a thumb: "33 mm".
#[must_use]
pub fn whole_millimetres(um: i64) -> String {
    format!("{} mm", (um + 500) / 1_000)
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
    fn amounts_keep_the_digits_that_matter() {
        let litre = |ul| litres(Volume::from_ul(ul));
        assert_eq!(litre(406_900), "0.41 L");
        assert_eq!(litre(994_900), "0.99 L");
        assert_eq!(litre(5_774_000), "5.8 L");
        assert_eq!(litre(9_960_000), "10 L");
        assert_eq!(litre(162_900_000), "163 L");
        assert_eq!(millimetres(32_500), "32.5 mm");
        assert_eq!(whole_millimetres(32_500), "33 mm");
    }

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
