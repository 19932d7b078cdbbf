//! Warmth and cold of single days: degree-days, time below a threshold, chill.

use super::air::{celsius, milli};
use super::fine;

/// How a day's warmth over a threshold is worked out from its minimum and maximum.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Method {
    /// The mean of the two, less the threshold. McMaster and Wilhelm, Agricultural and Forest Meteorology 87 (1997),
    /// call it method 1 and show that it is not the other average in use.
    Average,
    /// One sine through both (Baskerville and Emin 1969).
    Sine,
}

/// What is added up: between two thresholds, in thousandths of a degree Celsius.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct DegreeDays {
    pub method: Method,
    pub lower_mc: i32,
    /// Warmth above it counts no more (level cut).
    pub upper_mc: Option<i32>,
}

/// Degree-days of one day in thousandths.
#[must_use]
pub fn degree_days_mk(rule: DegreeDays, min_mc: i32, max_mc: i32) -> i32 {
    let (min, max) = (celsius(min_mc), celsius(max_mc));
    let (lower, upper) = (celsius(rule.lower_mc), rule.upper_mc.map(celsius));
    milli(match rule.method {
        Method::Average => fine::average_degree_days(min, max, lower, upper),
        Method::Sine => fine::sine_degree_days(min, max, lower, upper),
    })
}

/// Minutes of a day below a threshold, by one sine through minimum and maximum.
#[must_use]
pub fn minutes_below(threshold_mc: i32, min_mc: i32, max_mc: i32) -> i32 {
    let part = fine::part_below(celsius(min_mc), celsius(max_mc), celsius(threshold_mc));
    libm::round(part * 1_440.0) as i32
}

/// What "a chill hour" means; the word has several meanings in use, so it never stands alone.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Chill {
    /// An hour below 7.2 C, frost too (common practice).
    Below7,
    /// An hour from 0 C to below 7.2 C (after Weinberger 1950).
    From0To7,
    /// Weighed units, halves that warmth takes back (after Richardson, Seeley and Walker 1974).
    Weighed,
}

impl Chill {
    /// Half units of an hour at this temperature. Equality falls to the warmer side at 7.2 C.
    #[must_use]
    pub const fn halves(self, t_mc: i32) -> i8 {
        match self {
            Self::Below7 => (t_mc < 7_200) as i8 * 2,
            Self::From0To7 => (0 <= t_mc && t_mc < 7_200) as i8 * 2,
            Self::Weighed => match t_mc {
                ..=1_399 => 0,
                1_400..=2_399 => 1,
                2_400..=9_099 => 2,
                9_100..=12_399 => 1,
                12_400..=15_899 => 0,
                15_900..=18_000 => -1,
                _ => -2,
            },
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn base_10(method: Method) -> DegreeDays {
        DegreeDays {
            method,
            lower_mc: 10_000,
            upper_mc: None,
        }
    }

    #[test]
    fn a_warm_day_counts_its_mean_and_a_cool_one_only_its_afternoon() {
        let sine = |min, max| degree_days_mk(base_10(Method::Sine), min, max);
        assert_eq!(sine(16_000, 28_000), 12_000);
        assert_eq!(sine(6_000, 14_000), 1_273);
        assert_eq!(sine(2_000, 9_000), 0);
        let average = |min, max| degree_days_mk(base_10(Method::Average), min, max);
        assert_eq!(average(16_000, 28_000), 12_000);
        assert_eq!(average(1_000, 4_000), 0);
    }

    #[test]
    fn warmth_over_the_upper_threshold_counts_no_more() {
        let rule = DegreeDays {
            upper_mc: Some(30_000),
            ..base_10(Method::Sine)
        };
        assert_eq!(degree_days_mk(rule, 32_000, 40_000), 20_000);
        assert!(degree_days_mk(rule, 20_000, 40_000) < 20_000);
    }

    #[test]
    fn half_the_day_lies_below_the_middle_of_its_span() {
        assert_eq!(minutes_below(10_000, 5_000, 15_000), 720);
        assert_eq!(minutes_below(5_000, 5_000, 15_000), 0);
        assert_eq!(minutes_below(15_001, 5_000, 15_000), 1_440);
        assert_eq!(minutes_below(9_000, 9_000, 9_000), 0);
    }

    #[test]
    fn frost_is_a_chill_hour_by_one_meaning_and_none_by_the_other() {
        assert_eq!(Chill::Below7.halves(-1_000), 2);
        assert_eq!(Chill::From0To7.halves(-1_000), 0);
        assert_eq!(Chill::Below7.halves(7_200), 0);
        assert_eq!(Chill::Weighed.halves(25_000), -2);
    }
}
