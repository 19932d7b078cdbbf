//! When things happen, and in which order.
//!
//! Two different questions, two different values. [`Stamp`] orders entries and tells no time: it is a hybrid
//! logical clock (Kulkarni, Demirbas, Madappa, Avva, Leone: "Logical Physical Clocks", OPODIS 2014) that always
//! advances past everything its phone had seen. [`Moment`] is what the phone's clock said: advisory, and never
//! read in here: it comes in as an argument. A civil day (`on`) is a third thing and is never derived from
//! milliseconds with the reader's own time zone.

use chrono::NaiveDate;
use serde::{Deserialize, Serialize};

use crate::id::Dev;

/// Place in the order of entries: milliseconds of the fastest clock seen, then a counter.
///
/// Stored as `[ms, count]`.
#[derive(
    Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize,
)]
#[serde(from = "(i64, u32)", into = "(i64, u32)")]
pub struct Stamp {
    pub ms: i64,
    pub count: u32,
}

impl From<(i64, u32)> for Stamp {
    fn from((ms, count): (i64, u32)) -> Self {
        Self { ms, count }
    }
}

impl From<Stamp> for (i64, u32) {
    fn from(stamp: Stamp) -> Self {
        (stamp.ms, stamp.count)
    }
}

impl Stamp {
    /// The next stamp of a phone whose clock says `now_ms` and which has seen everything up to `self`.
    ///
    /// Having taken in other phones' entries counts as having seen them, so `self` is the greatest stamp in the
    /// log; that folds the paper's receive rule into its send rule.
    #[must_use]
    pub fn next(self, now_ms: i64) -> Self {
        if now_ms > self.ms {
            Self {
                ms: now_ms,
                count: 0,
            }
        } else if self.count == u32::MAX {
            Self {
                ms: self.ms.saturating_add(1),
                count: 0,
            }
        } else {
            Self {
                ms: self.ms,
                count: self.count + 1,
            }
        }
    }
}

/// What the outside world says at the instant of a command: clock, civil day, and which phone this is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Moment {
    /// The phone's clock, milliseconds since 1970-01-01T00:00Z. May be wrong.
    pub now_ms: i64,
    /// Offset of the phone's civil time from UTC in minutes, east positive.
    pub off_min: i16,
    /// The civil day in the nursery.
    pub today: NaiveDate,
    pub dev: Dev,
}

impl Moment {
    /// Minutes since midnight of the phone's civil time, from an instant and this moment's offset.
    #[must_use]
    pub fn minute_of_day(&self, at_ms: i64) -> u16 {
        minute_of_day(at_ms, self.off_min)
    }
}

/// Minutes since civil midnight for an instant with its own recorded offset (0..=1439).
#[must_use]
pub fn minute_of_day(at_ms: i64, off_min: i16) -> u16 {
    let minutes = at_ms.div_euclid(60_000).saturating_add(i64::from(off_min));
    u16::try_from(minutes.rem_euclid(1440)).unwrap_or(0)
}

/// The civil day of an instant where the phone that wrote it was.
#[must_use]
pub fn civil_day(at_ms: i64, off_min: i16) -> Option<NaiveDate> {
    let local_ms = at_ms.checked_add(i64::from(off_min).checked_mul(60_000)?)?;
    chrono::DateTime::from_timestamp_millis(local_ms).map(|there| there.date_naive())
}

/// Whole days from `from` to `to`, negative when `to` is earlier.
#[must_use]
pub fn days_between(from: NaiveDate, to: NaiveDate) -> i64 {
    to.signed_duration_since(from).num_days()
}

/// `day` plus whole days; stops at the ends of the calendar instead of failing.
#[must_use]
pub fn plus_days(day: NaiveDate, days: i64) -> NaiveDate {
    chrono::TimeDelta::try_days(days)
        .and_then(|delta| day.checked_add_signed(delta))
        .unwrap_or(if days < 0 {
            NaiveDate::MIN
        } else {
            NaiveDate::MAX
        })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_stamp_follows_the_clock_when_the_clock_is_ahead_and_counts_when_it_is_not() {
        let seen = Stamp { ms: 10, count: 3 };
        assert_eq!(seen.next(11), Stamp { ms: 11, count: 0 });
        assert_eq!(seen.next(10), Stamp { ms: 10, count: 4 });
        assert_eq!(seen.next(2), Stamp { ms: 10, count: 4 });
        let full = Stamp {
            ms: 10,
            count: u32::MAX,
        };
        assert_eq!(full.next(0), Stamp { ms: 11, count: 0 });
    }

    #[test]
    fn every_next_stamp_is_greater_than_what_was_seen() {
        let mut stamp = Stamp::default();
        for now in [5, 5, 4, 1_000, -7, i64::MAX, i64::MAX] {
            let next = stamp.next(now);
            assert!(next > stamp);
            stamp = next;
        }
    }

    #[test]
    fn minutes_of_the_day_go_by_the_recorded_offset() {
        assert_eq!(minute_of_day(0, 0), 0);
        assert_eq!(minute_of_day(0, -60), 23 * 60);
        assert_eq!(minute_of_day(-60_000, 0), 1439);
        assert_eq!(
            minute_of_day(10 * 3_600_000 + 40 * 60_000, 60),
            11 * 60 + 40
        );
    }
}
