//! The facts of a house's weather: one reading a day, and what was read of the same day without knowing of it.

use std::collections::BTreeMap;

use chrono::NaiveDate;
use serde::Serialize;

use crate::climate::Readings;
use crate::event::ClimateRead;
use crate::id::EntryRef;
use crate::log::Fact;

/// Readings of a place. The causally last one of a day counts, as for every field of a place.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize)]
pub struct House {
    pub readings: Readings,
    by: BTreeMap<NaiveDate, EntryRef>,
    /// Days another phone read otherwise, without knowing of the reading that counts.
    lost: Vec<(NaiveDate, EntryRef)>,
}

impl House {
    /// Whether nobody ever read anything here.
    #[must_use]
    pub fn never_read(&self) -> bool {
        self.by.is_empty()
    }

    /// The day of the first reading.
    #[must_use]
    pub fn first_on(&self) -> Option<NaiveDate> {
        self.readings.first_key_value().map(|(day, _)| *day)
    }

    pub(super) fn apply(&mut self, event: &ClimateRead, fact: &Fact<'_>) {
        let on = event.read_on.unwrap_or(fact.entry.header.on);
        let reading = event.reading();
        self.lost.retain(|(day, by)| *day != on || !fact.knew(*by));
        if let Some(by) = self.by.get(&on).filter(|by| !fact.knew(**by))
            && self.readings.get(&on) != Some(&reading)
        {
            self.lost.push((on, *by));
        }
        self.by.insert(on, fact.entry.id);
        self.readings.insert(on, reading);
    }

    /// Entries that read a day differently, each pair once: the one that counts, and the other.
    pub(super) fn disputed(&self) -> Vec<(EntryRef, EntryRef)> {
        let pairs = self.lost.iter();
        let mut pairs: Vec<(EntryRef, EntryRef)> = pairs
            .filter_map(|(day, other)| Some((*self.by.get(day)?, *other)))
            .collect();
        pairs.sort_unstable();
        pairs.dedup();
        pairs
    }
}
