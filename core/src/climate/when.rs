//! Days and times as loggers write them.

use chrono::NaiveDate;

/// In which order a day is written.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, serde::Serialize, serde::Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum DayOrder {
    #[default]
    YearFirst,
    DayFirst,
    MonthFirst,
}

impl DayOrder {
    pub const ALL: [Self; 3] = [Self::YearFirst, Self::DayFirst, Self::MonthFirst];
}

/// A day, and the minute of it where one is written. The time is the wall's: an offset behind it is passed over.
#[must_use]
pub fn when(text: &str, order: DayOrder) -> Option<(NaiveDate, Option<u16>)> {
    let text = text.trim();
    let cut = text.find([' ', 'T', 't']).unwrap_or(text.len());
    let (day, time) = (text.get(..cut)?, text.get(cut..)?);
    let day = day_of(day, order)?;
    let time = time.trim_start_matches([' ', 'T', 't']).trim();
    if time.is_empty() {
        return Some((day, None));
    }
    Some((day, Some(minute_of(time)?)))
}

fn day_of(text: &str, order: DayOrder) -> Option<NaiveDate> {
    let parts: Vec<&str> = text.trim_matches('.').split(['-', '/', '.']).collect();
    let [a, b, c] = parts.as_slice() else {
        return None;
    };
    let (year, month, day) = match order {
        DayOrder::YearFirst => (a, b, c),
        DayOrder::DayFirst => (c, b, a),
        DayOrder::MonthFirst => (c, a, b),
    };
    let number = |text: &str| {
        let digits =
            !text.is_empty() && text.len() <= 4 && text.bytes().all(|b| b.is_ascii_digit());
        digits.then(|| text.parse::<u32>().ok()).flatten()
    };
    let written = number(year)?;
    let year = match year.len() {
        2 => 2_000 + written,
        4 => written,
        _ => return None,
    };
    NaiveDate::from_ymd_opt(i32::try_from(year).ok()?, number(month)?, number(day)?)
}

/// Minutes since midnight of `14:30`, `2:30:05 PM`, `23:00+02:00`, `08:15:00.000Z`.
fn minute_of(text: &str) -> Option<u16> {
    let lower = text.to_ascii_lowercase();
    let (clock, half) = match lower.find(['a', 'p']) {
        Some(at) => (lower.get(..at)?.trim(), lower.get(at..)?.chars().next()),
        None => (lower.as_str(), None),
    };
    let end = clock.find(['z', '+', ' ']).unwrap_or(clock.len());
    let clock = clock.get(..end)?;
    // A negative offset stands behind the seconds.
    let clock = clock.split_once('-').map_or(clock, |(clock, _)| clock);
    let mut parts = clock.split([':', '.']);
    let (hour, minute) = (parts.next()?, parts.next()?);
    let number = |text: &str| {
        let digits = matches!(text.len(), 1 | 2) && text.bytes().all(|byte| byte.is_ascii_digit());
        digits.then(|| text.parse::<u16>().ok()).flatten()
    };
    let (hour, minute) = (number(hour)?, number(minute)?);
    let hour = match half {
        None => hour,
        Some('a') if (1..=12).contains(&hour) => hour % 12,
        Some('p') if (1..=12).contains(&hour) => hour % 12 + 12,
        Some(_) => return None,
    };
    (hour < 24 && minute < 60).then_some(hour * 60 + minute)
}

/// The order in which all these days can be read; the first that can.
#[must_use]
pub(super) fn order_of<'a>(texts: impl Iterator<Item = &'a str> + Clone) -> Option<DayOrder> {
    DayOrder::ALL.into_iter().find(|order| {
        let mut texts = texts.clone().peekable();
        texts.peek().is_some() && texts.all(|text| when(text, *order).is_some())
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    fn read(text: &str, order: DayOrder) -> Option<(String, Option<u16>)> {
        when(text, order).map(|(day, minute)| (day.to_string(), minute))
    }

    #[test]
    fn loggers_write_the_same_minute_in_many_ways() {
        let half_past_two = Some(("2026-10-05".to_owned(), Some(870)));
        for text in [
            "2026-10-05 14:30",
            "2026-10-05T14:30:00Z",
            "2026/10/05 14:30:59",
            "2026-10-05T14:30:00.000+02:00",
            "2026-10-05T14:30:00-03:00",
            "2026-10-05 2:30 PM",
        ] {
            assert_eq!(read(text, DayOrder::YearFirst), half_past_two, "{text}");
        }
        assert_eq!(read("05.10.2026 14:30", DayOrder::DayFirst), half_past_two);
        assert_eq!(read("10/5/26 2:30 pm", DayOrder::MonthFirst), half_past_two);
        let midnight = read("10/5/26 12:00 am", DayOrder::MonthFirst);
        assert_eq!(midnight, Some(("2026-10-05".to_owned(), Some(0))));
    }

    #[test]
    fn a_day_alone_has_no_minute_and_nonsense_is_nothing() {
        let day = read("2026-10-05", DayOrder::YearFirst);
        assert_eq!(day, Some(("2026-10-05".to_owned(), None)));
        for bad in [
            "",
            "2026-13-05",
            "yesterday",
            "2026-10-05 25:00",
            "2026-10-05 9",
            "05.10.2026",
        ] {
            assert_eq!(read(bad, DayOrder::YearFirst), None, "{bad}");
        }
    }

    #[test]
    fn a_thirteenth_says_which_number_is_the_day() {
        let order = |days: &[&'static str]| order_of(days.iter().copied());
        assert_eq!(
            order(&["05/10/2026", "13/10/2026"]),
            Some(DayOrder::DayFirst)
        );
        assert_eq!(
            order(&["10/05/2026", "10/13/2026"]),
            Some(DayOrder::MonthFirst)
        );
        assert_eq!(order(&["2026-10-13"]), Some(DayOrder::YearFirst));
        assert_eq!(order(&["soon"]), None);
        assert_eq!(order(&[]), None);
    }
}
