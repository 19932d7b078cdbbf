//! Readings of a house: two numbers today, or the days a logger kept.

use std::collections::BTreeSet;

use chrono::NaiveDate;

use crate::climate::{Reading, ReadingFault};
use crate::event::ClimateRead;
use crate::id::PlaceId;
use crate::limits;
use crate::rejection::{Input, Rejection};

use super::{Desk, Done};

impl Desk<'_> {
    /// A reading a day; days that read so already are passed over.
    pub(super) fn read_climate(&mut self, place: PlaceId, days: Vec<(NaiveDate, Reading)>) -> Done {
        self.place_is_known(Some(place))?;
        if days.len() > limits::READINGS_MAX {
            return Err(Rejection::TooMany {
                input: Input::Date,
                most: u64::try_from(limits::READINGS_MAX).unwrap_or(u64::MAX),
            });
        }
        let known = self.state.facts().places.get(&place);
        let known = known.map(|place| &place.house.readings);
        let mut seen: BTreeSet<NaiveDate> = BTreeSet::new();
        for (on, reading) in days {
            self.day(on)?;
            if !seen.insert(on) {
                return Err(Rejection::Reading(ReadingFault::DayTwice { on }));
            }
            reading.check().map_err(Rejection::Reading)?;
            if known.and_then(|known| known.get(&on)) == Some(&reading) {
                continue;
            }
            let read_on = (on != self.on).then_some(on);
            self.push(ClimateRead::of(place, read_on, reading));
        }
        Ok(())
    }
}
