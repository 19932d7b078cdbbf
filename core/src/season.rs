//! The gardener's year: windows that open and close, and the half year between the hemispheres.
//!
//! Windows are written for the northern hemisphere and shifted by six months for the south. Whole months stay whole
//! months: March to May is September to November, November to January is May to July. A window may run over the new
//! year. Both its ends belong to it.
//!
//! A season warns and never refuses; what a grower has seen flower beats any window here.

use chrono::{Datelike, Months, NaiveDate};
use serde::{Deserialize, Serialize};

/// Which half of the world the nursery stands in.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Debug, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Hemisphere {
    North,
    South,
}

/// House classes by the nights they keep, coolest first.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Debug, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Warmth {
    Cool,
    Intermediate,
    Warm,
}

impl Warmth {
    /// The class of a house by its night minimum in thousandths of a degree Celsius: cool below 13, warm from 16.
    ///
    /// Source: orchid growers' temperature pages, low authority; authors differ by 3 degrees.
    pub fn of_night(night_min_mc: i32) -> Warmth {
        match night_min_mc {
            ..13_000 => Warmth::Cool,
            13_000..16_000 => Warmth::Intermediate,
            _ => Warmth::Warm,
        }
    }
}

/// A season of whole calendar months.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Debug, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Season {
    Spring,
    Summer,
    Autumn,
    Winter,
}

/// The season of a day, and the year in which that season began.
///
/// Meteorological seasons: whole months, spring from 1 March in the north and 1 September in the south. Common practice.
pub fn season_of(day: NaiveDate, hemisphere: Hemisphere) -> (Season, i32) {
    let season = match (day.month(), hemisphere) {
        (3..=5, Hemisphere::North) | (9..=11, Hemisphere::South) => Season::Spring,
        (6..=8, Hemisphere::North) | (12 | 1 | 2, Hemisphere::South) => Season::Summer,
        (9..=11, Hemisphere::North) | (3..=5, Hemisphere::South) => Season::Autumn,
        _ => Season::Winter,
    };
    let began = if day.month() <= 2 {
        day.year().saturating_sub(1)
    } else {
        day.year()
    };
    (season, began)
}

/// A day `months` after (or before) the anchor; where the month is too short, its last day.
///
/// Always count from the anchor: one month at a time would carry a short February through the year.
/// `None` outside the calendar's range.
pub fn add_months(anchor: NaiveDate, months: i32) -> Option<NaiveDate> {
    let by = Months::new(months.unsigned_abs());
    if months < 0 {
        anchor.checked_sub_months(by)
    } else {
        anchor.checked_add_months(by)
    }
}

/// A day of the year without its year. 29 February stands, and means the 28th in a common year.
///
/// Stored as `"03-01"`.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Debug, Serialize, Deserialize)]
#[serde(into = "String", try_from = "String")]
pub struct MonthDay {
    month: u8,
    day: u8,
}

/// The days of a month, February with its 29th; 0 for a month that is none.
const fn longest(month: u8) -> u8 {
    match month {
        2 => 29,
        4 | 6 | 9 | 11 => 30,
        1 | 3 | 5 | 7 | 8 | 10 | 12 => 31,
        _ => 0,
    }
}

const fn half_a_year_on(month: u8) -> u8 {
    if month <= 6 { month + 6 } else { month - 6 }
}

impl MonthDay {
    /// A day of a month; `None` for 31 April and the like.
    pub const fn new(month: u8, day: u8) -> Option<MonthDay> {
        if day >= 1 && day <= longest(month) {
            Some(MonthDay { month, day })
        } else {
            None
        }
    }

    /// The day of the year a date falls on.
    pub fn of(date: NaiveDate) -> MonthDay {
        MonthDay {
            month: u8::try_from(date.month()).unwrap_or(1),
            day: u8::try_from(date.day()).unwrap_or(1),
        }
    }

    /// 1 to 12.
    pub fn month(self) -> u8 {
        self.month
    }

    /// 1 to 31.
    pub fn day(self) -> u8 {
        self.day
    }

    /// This day in a year.
    pub fn in_year(self, year: i32) -> Option<NaiveDate> {
        let (month, day) = (u32::from(self.month), u32::from(self.day));
        NaiveDate::from_ymd_opt(year, month, day)
            .or_else(|| NaiveDate::from_ymd_opt(year, month, day.checked_sub(1)?))
    }

    /// The last days of February are both its end: a window "to 28 February" means the whole month.
    fn ends_its_month(self) -> bool {
        self.day == longest(self.month) || (self.month == 2 && self.day == 28)
    }
}

impl From<MonthDay> for String {
    fn from(day: MonthDay) -> String {
        format!("{:02}-{:02}", day.month, day.day)
    }
}

/// A stored day of the year that is not `MM-DD` or not a day.
#[derive(Clone, Copy, PartialEq, Eq, Debug, thiserror::Error)]
#[error("not a day of the year")]
pub struct NotADayOfTheYear;

impl TryFrom<String> for MonthDay {
    type Error = NotADayOfTheYear;
    fn try_from(stored: String) -> Result<MonthDay, NotADayOfTheYear> {
        let read = || {
            let (month, day) = stored.split_once('-')?;
            let day = MonthDay::new(month.parse().ok()?, day.parse().ok()?)?;
            (String::from(day) == stored).then_some(day)
        };
        read().ok_or(NotADayOfTheYear)
    }
}

/// A stretch of the year, both ends included; it may run over the new year.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Debug, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Window {
    pub from: MonthDay,
    pub to: MonthDay,
}

impl Window {
    /// Whole months from the first to the last, numbered 1 to 12; other numbers are taken into that range.
    pub const fn months(first: u8, last: u8) -> Window {
        let first = (first.saturating_sub(1) % 12) + 1;
        let last = (last.saturating_sub(1) % 12) + 1;
        Window {
            from: MonthDay {
                month: first,
                day: 1,
            },
            to: MonthDay {
                month: last,
                day: longest(last),
            },
        }
    }

    /// The window as it falls in a hemisphere, given as it falls in the north.
    pub fn seen_from(self, hemisphere: Hemisphere) -> Window {
        match hemisphere {
            Hemisphere::North => self,
            Hemisphere::South => self.half_a_year_on(),
        }
    }

    /// Six months later in the year. The end of a month stays the end of a month.
    pub fn half_a_year_on(self) -> Window {
        let month = half_a_year_on(self.from.month);
        let from = MonthDay {
            month,
            day: self.from.day.min(longest(month)),
        };
        let month = half_a_year_on(self.to.month);
        let day = if self.to.ends_its_month() {
            longest(month)
        } else {
            self.to.day.min(longest(month))
        };
        // Nearly a whole year must not collapse to a day when a month is too short.
        let around = self.from.month == self.to.month && self.from.day > self.to.day;
        let day = if around {
            day.min(from.day.saturating_sub(1).max(1))
        } else {
            day
        };
        Window {
            from,
            to: MonthDay { month, day },
        }
    }

    /// Whether the window is open on a day.
    pub fn contains(self, date: NaiveDate) -> bool {
        let (Some(from), Some(to)) = (self.from.in_year(date.year()), self.to.in_year(date.year()))
        else {
            return false;
        };
        if self.from <= self.to {
            from <= date && date <= to
        } else {
            from <= date || date <= to
        }
    }

    /// The next day, `date` included, on which the window opens.
    pub fn next_opening(self, date: NaiveDate) -> Option<NaiveDate> {
        next(self.from, date)
    }

    /// The last day of the window that is open on `date`; `None` when it is shut.
    pub fn closes_on(self, date: NaiveDate) -> Option<NaiveDate> {
        if self.contains(date) {
            next(self.to, date)
        } else {
            None
        }
    }
}

fn next(day: MonthDay, date: NaiveDate) -> Option<NaiveDate> {
    let this_year = day.in_year(date.year())?;
    if this_year >= date {
        Some(this_year)
    } else {
        day.in_year(date.year().checked_add(1)?)
    }
}

/// A day set into a window, and whether that moved it.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct Snapped {
    pub date: NaiveDate,
    pub moved: bool,
}

/// The day itself when a window is open on it or there are no windows, else the first day one opens.
pub fn snap(date: NaiveDate, windows: &[Window]) -> Snapped {
    let stay = Snapped { date, moved: false };
    if windows.iter().any(|window| window.contains(date)) {
        return stay;
    }
    let opening = windows
        .iter()
        .filter_map(|window| window.next_opening(date))
        .min();
    match opening {
        Some(date) => Snapped { date, moved: true },
        None => stay,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn on(text: &str) -> NaiveDate {
        text.parse().unwrap()
    }

    fn md(month: u8, day: u8) -> MonthDay {
        MonthDay::new(month, day).unwrap()
    }

    fn south(first: u8, last: u8) -> Window {
        Window::months(first, last).seen_from(Hemisphere::South)
    }

    #[test]
    fn march_to_may_in_the_north_is_september_to_november_in_the_south() {
        assert_eq!(south(3, 5), Window::months(9, 11));
        assert_eq!(south(11, 1), Window::months(5, 7));
        assert_eq!(
            Window::months(3, 5).seen_from(Hemisphere::North),
            Window::months(3, 5)
        );
    }

    #[test]
    fn whole_months_come_back_as_whole_months_after_a_year() {
        for first in 1..=12 {
            for last in 1..=12 {
                let window = Window::months(first, last);
                assert_eq!(window.half_a_year_on().half_a_year_on(), window);
            }
        }
    }

    #[test]
    fn the_end_of_february_is_the_end_of_a_month_in_the_south_too() {
        let to_28 = Window {
            from: md(1, 15),
            to: md(2, 28),
        };
        assert_eq!(
            to_28.half_a_year_on(),
            Window {
                from: md(7, 15),
                to: md(8, 31)
            }
        );
        let from_30 = Window {
            from: md(8, 30),
            to: md(8, 31),
        };
        assert_eq!(
            from_30.half_a_year_on(),
            Window {
                from: md(2, 29),
                to: md(2, 29)
            }
        );
    }

    #[test]
    fn a_window_around_the_whole_year_does_not_collapse() {
        let around = Window {
            from: md(8, 31),
            to: md(8, 30),
        };
        let shifted = around.half_a_year_on();
        assert_eq!(
            shifted,
            Window {
                from: md(2, 29),
                to: md(2, 28)
            }
        );
        assert!(shifted.contains(on("2027-08-10")));
    }

    #[test]
    fn the_29th_of_february_means_the_28th_in_a_common_year() {
        let winter = Window::months(12, 2);
        assert!(winter.contains(on("2028-02-29")));
        assert!(winter.contains(on("2027-02-28")));
        assert!(!winter.contains(on("2027-03-01")));
        assert_eq!(winter.closes_on(on("2027-01-10")), Some(on("2027-02-28")));
        assert_eq!(winter.closes_on(on("2027-12-10")), Some(on("2028-02-29")));
        let leap_day = Window {
            from: md(2, 29),
            to: md(2, 29),
        };
        assert_eq!(
            leap_day.next_opening(on("2026-11-25")),
            Some(on("2027-02-28"))
        );
        assert!(leap_day.contains(on("2027-02-28")));
    }

    #[test]
    fn both_ends_of_a_window_belong_to_it_also_over_the_new_year() {
        let window = Window::months(11, 1);
        for inside in ["2026-11-01", "2026-12-31", "2027-01-01", "2027-01-31"] {
            assert!(window.contains(on(inside)), "{inside}");
        }
        for outside in ["2026-10-31", "2027-02-01", "2026-06-15"] {
            assert!(!window.contains(on(outside)), "{outside}");
        }
        assert_eq!(window.closes_on(on("2026-10-31")), None);
    }

    #[test]
    fn work_due_in_a_shut_season_moves_to_the_first_window_that_opens() {
        let windows = [Window::months(3, 5), Window::months(9, 10)];
        let moved = |date| Snapped {
            date: on(date),
            moved: true,
        };
        let stayed = |date| Snapped {
            date: on(date),
            moved: false,
        };
        assert_eq!(snap(on("2026-11-25"), &windows), moved("2027-03-01"));
        assert_eq!(snap(on("2026-06-01"), &windows), moved("2026-09-01"));
        assert_eq!(snap(on("2026-04-09"), &windows), stayed("2026-04-09"));
        assert_eq!(snap(on("2026-06-01"), &[]), stayed("2026-06-01"));
    }

    #[test]
    fn december_to_february_is_one_winter_named_after_its_december() {
        let north = |day| season_of(on(day), Hemisphere::North);
        assert_eq!(north("2026-12-01"), (Season::Winter, 2026));
        assert_eq!(north("2027-02-28"), (Season::Winter, 2026));
        assert_eq!(north("2027-03-01"), (Season::Spring, 2027));
        assert_eq!(
            season_of(on("2027-01-05"), Hemisphere::South),
            (Season::Summer, 2026)
        );
    }

    #[test]
    fn the_31st_of_october_comes_back_after_a_short_february() {
        assert_eq!(add_months(on("2026-10-31"), 4), Some(on("2027-02-28")));
        assert_eq!(add_months(on("2026-10-31"), 5), Some(on("2027-03-31")));
        assert_eq!(add_months(NaiveDate::MAX, 1), None);
        assert_eq!(add_months(NaiveDate::MIN, -1), None);
        assert_eq!(add_months(on("2026-10-31"), i32::MIN), None);
    }

    #[test]
    fn houses_are_classed_by_their_nights() {
        assert_eq!(Warmth::of_night(12_999), Warmth::Cool);
        assert_eq!(Warmth::of_night(13_000), Warmth::Intermediate);
        assert_eq!(Warmth::of_night(16_000), Warmth::Warm);
    }

    #[test]
    fn a_window_is_stored_as_two_days_of_the_year() {
        let stored = r#"{"from":"11-01","to":"02-29"}"#;
        let window = Window::months(11, 2);
        assert_eq!(serde_json::to_string(&window).unwrap(), stored);
        assert_eq!(serde_json::from_str::<Window>(stored).unwrap(), window);
        for bad in [
            "\"2-3\"",
            "\"02-30\"",
            "\"13-01\"",
            "\"00-01\"",
            "\"+1-01\"",
        ] {
            assert!(serde_json::from_str::<MonthDay>(bad).is_err(), "{bad}");
        }
    }

    prop_compose! {
        fn any_day()(month in 1u8..=12, day in 1u8..=31) -> MonthDay {
            md(month, day.min(longest(month)))
        }
    }

    proptest! {
        #[test]
        fn a_day_is_in_a_window_exactly_when_it_closes_after_it_and_did_not_open_since(
            from in any_day(), to in any_day(), day in 0i64..20_000,
        ) {
            let date = on("2000-01-01") + chrono::Days::new(day as u64);
            let window = Window { from, to };
            // Walk back to the last opening and forward from there to the close.
            let opened = (0..=366)
                .map(|back| date - chrono::Days::new(back))
                .find(|day| from.in_year(day.year()) == Some(*day))
                .unwrap();
            let closes = next(to, opened).unwrap();
            // 28 and 29 February fall together in a common year.
            prop_assume!(from != to && String::from(from) != "02-29" && String::from(from) != "02-28");
            prop_assert_eq!(window.contains(date), date <= closes);
            prop_assert_eq!(snap(date, &[window]).moved, !window.contains(date));
            prop_assert!(window.contains(snap(date, &[window]).date));
        }
    }
}
