//! What weather readings mean for plants: dryness of the air, warmth added up, cold nights counted, length of the day.
//!
//! Invariants. Pure functions of readings, dates and latitude. Floating point lives inside [`fine`] alone; what leaves
//! this module is whole: thousandths of a degree Celsius, thousandths of saturation, pascals, minutes. A day nobody
//! read stays a day nobody read: every sum and count says how many days of how many it rests on, and nothing is filled.
//!
//! A minimum and a maximum belong to the day they were read on, since the reading before.

mod air;
pub mod fine;
mod logger;
#[cfg(test)]
mod logger_tests;
mod reach;
mod reading;
mod sun;
mod typed;
mod warmth;
mod when;

pub use air::{Air, day_air, dew_point_mc, saturation_pa, vpd_pa};
pub use logger::{Columns, Logged, LoggedDay, PartDay, RowFault, logged};
pub use reach::{Reach, TooFewRead, reach};
pub use reading::{
    Counted, Mean, Reading, ReadingFault, Readings, mean, nights_below, recent_mean, warmth_sum,
};
pub use sun::{Daylight, daylight, fao_day_min, hemisphere_at};
pub use typed::{celsius_of_fahrenheit, milli_of};
pub use warmth::{Chill, DegreeDays, Method, degree_days_mk, minutes_below};
pub use when::{DayOrder, when};
