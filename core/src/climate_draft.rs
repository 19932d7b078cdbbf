//! The morning's readings being typed: two numbers a house, humidity where it is known.
//!
//! Invariants: what was typed stays as it was typed until it is kept; a house with nothing typed is passed over; the day
//! the numbers are of stays with them over midnight.

use std::collections::BTreeMap;

use chrono::NaiveDate;
use serde::{Deserialize, Serialize};

use crate::climate::{Reading, ReadingFault, celsius_of_fahrenheit, milli_of};
use crate::command::Command;
use crate::id::PlaceId;
use crate::quantity::{System, Unit, parse_length};
use crate::time::plus_days;

/// Numbers of one house as typed.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct TypedReading {
    #[serde(default)]
    pub min: String,
    #[serde(default)]
    pub max: String,
    #[serde(default)]
    pub humidity_min: String,
    #[serde(default)]
    pub humidity_max: String,
    /// Millimetres, where a place is open to rain.
    #[serde(default)]
    pub rain: String,
}

/// A box to type into.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Figure {
    Min,
    Max,
    HumidityMin,
    HumidityMax,
    Rain,
}

impl Figure {
    /// Whether it is a temperature.
    #[must_use]
    pub const fn is_warmth(self) -> bool {
        matches!(self, Self::Min | Self::Max)
    }

    /// The boxes of a house in the order they are typed.
    #[must_use]
    pub const fn all(humidity: bool, rain: bool) -> &'static [Self] {
        const ALL: &[Figure] = &[
            Figure::Min,
            Figure::Max,
            Figure::HumidityMin,
            Figure::HumidityMax,
            Figure::Rain,
        ];
        match (humidity, rain) {
            (true, true) => ALL,
            (true, false) => &[Self::Min, Self::Max, Self::HumidityMin, Self::HumidityMax],
            (false, true) => &[Self::Min, Self::Max, Self::Rain],
            (false, false) => &[Self::Min, Self::Max],
        }
    }
}

/// What is wrong at a house.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum TypedFault {
    /// One of the two is missing.
    Missing(Figure),
    NotANumber(Figure),
    Reading(ReadingFault),
}

impl TypedReading {
    /// The text of a box.
    #[must_use]
    pub fn text(&self, figure: Figure) -> &str {
        match figure {
            Figure::Min => &self.min,
            Figure::Max => &self.max,
            Figure::HumidityMin => &self.humidity_min,
            Figure::HumidityMax => &self.humidity_max,
            Figure::Rain => &self.rain,
        }
    }

    fn text_mut(&mut self, figure: Figure) -> &mut String {
        match figure {
            Figure::Min => &mut self.min,
            Figure::Max => &mut self.max,
            Figure::HumidityMin => &mut self.humidity_min,
            Figure::HumidityMax => &mut self.humidity_max,
            Figure::Rain => &mut self.rain,
        }
    }

    fn is_empty(&self) -> bool {
        Figure::all(true, true)
            .iter()
            .all(|figure| self.text(*figure).trim().is_empty())
    }

    /// The reading, where the numbers make one.
    ///
    /// # Errors
    /// A [`TypedFault`] that names the box.
    pub fn reading(&self, system: System) -> Result<Reading, TypedFault> {
        let number = |figure: Figure| match self.text(figure).trim() {
            "" => Ok(None),
            text => match milli_of(text) {
                Some(milli) if figure.is_warmth() => Ok(Some(celsius_of(milli, system))),
                Some(milli) => Ok(Some(milli)),
                None => Err(TypedFault::NotANumber(figure)),
            },
        };
        let needed = |figure| number(figure)?.ok_or(TypedFault::Missing(figure));
        // Typed as a percentage: 54 is 540 thousandths.
        let humidity = |figure| {
            let permille = number(figure)?.map(|milli| u16::try_from(milli / 100));
            permille
                .transpose()
                .map_err(|_| TypedFault::NotANumber(figure))
        };
        let reading = Reading {
            min_mc: needed(Figure::Min)?,
            max_mc: needed(Figure::Max)?,
            humidity_min_permille: humidity(Figure::HumidityMin)?,
            humidity_max_permille: humidity(Figure::HumidityMax)?,
            rain_um: rain(self.rain.trim(), system)?,
        };
        reading.check().map_err(TypedFault::Reading)?;
        Ok(reading)
    }
}

/// A temperature as a thermometer of these units shows it.
#[must_use]
pub fn celsius_of(milli: i32, system: System) -> i32 {
    match system.of(Unit::DegreeCelsius) {
        Unit::DegreeFahrenheit => celsius_of_fahrenheit(milli),
        _ => milli,
    }
}

/// Rain in thousandths of a millimetre.
fn rain(text: &str, system: System) -> Result<Option<u32>, TypedFault> {
    if text.is_empty() {
        return Ok(None);
    }
    let typed = system.typed(text.to_owned(), Unit::Millimetre);
    let um = if system.is_metric() {
        milli_of(text)
    } else {
        let read = parse_length(&typed).ok();
        read.and_then(|(length, _)| i32::try_from(length.um()).ok())
    };
    um.and_then(|um| u32::try_from(um).ok())
        .map(Some)
        .ok_or(TypedFault::NotANumber(Figure::Rain))
}

/// The morning's readings.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct ClimateDraft {
    #[serde(default)]
    pub version: u16,
    /// The day the numbers were typed for; `None` before the first key.
    #[serde(default)]
    pub on: Option<NaiveDate>,
    #[serde(default)]
    pub humidity: bool,
    #[serde(default)]
    pub typed: BTreeMap<PlaceId, TypedReading>,
    /// The box the pad types into.
    #[serde(default)]
    pub at: Option<(PlaceId, Figure)>,
    /// The units it was typed in.
    #[serde(default, skip_serializing_if = "System::is_metric")]
    pub system: System,
}

impl ClimateDraft {
    /// The text of a box.
    #[must_use]
    pub fn text(&self, place: PlaceId, figure: Figure) -> String {
        let typed = self.typed.get(&place);
        typed.map_or_else(String::new, |typed| typed.text(figure).to_owned())
    }

    /// Types into a box.
    pub fn put(&mut self, place: PlaceId, figure: Figure, text: String, today: NaiveDate) {
        self.on.get_or_insert(today);
        *self.typed.entry(place).or_default().text_mut(figure) = text;
    }

    /// The day the numbers are of.
    #[must_use]
    pub fn day(&self, today: NaiveDate) -> NaiveDate {
        self.on.unwrap_or(today)
    }

    /// Sets them down for today or for the day before.
    pub fn set_day(&mut self, today: NaiveDate, yesterday: bool) {
        let on = if yesterday {
            plus_days(today, -1)
        } else {
            today
        };
        self.on = Some(on);
    }

    /// The box after this one, through the houses in the order of the walk, each with whether rain is read there.
    #[must_use]
    pub fn next_box(
        &self,
        houses: &[(PlaceId, bool)],
        (place, figure): (PlaceId, Figure),
    ) -> Option<(PlaceId, Figure)> {
        let house = houses.iter().position(|(it, _)| *it == place)?;
        let rain = houses.get(house).is_some_and(|(_, rain)| *rain);
        let figures = Figure::all(self.humidity, rain);
        let at = figures.iter().position(|it| *it == figure)?;
        if let Some(next) = figures.get(at + 1) {
            return Some((place, *next));
        }
        let first = figures.first()?;
        houses.get(house + 1).map(|(next, _)| (*next, *first))
    }

    /// Whether anything was typed.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        self.typed.values().all(TypedReading::is_empty)
    }

    /// The command that keeps them all in one entry.
    ///
    /// # Errors
    /// The first house whose numbers make no reading, and why.
    pub fn command(&self, today: NaiveDate) -> Result<Command, (PlaceId, TypedFault)> {
        let on = self.day(today);
        let mut houses = Vec::new();
        for (place, typed) in &self.typed {
            if typed.is_empty() {
                continue;
            }
            let reading = typed
                .reading(self.system)
                .map_err(|fault| (*place, fault))?;
            houses.push(Command::ReadClimate {
                place: *place,
                days: vec![(on, reading)],
            });
        }
        Ok(Command::Together(houses))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::id::{Dev, EntryRef, ThingId};

    fn house(seq: u32) -> PlaceId {
        let entry = EntryRef { dev: Dev(1), seq };
        PlaceId(ThingId { entry, n: 0 })
    }

    fn today() -> NaiveDate {
        "2026-10-05".parse().unwrap()
    }

    #[test]
    fn the_pad_goes_from_minimum_to_maximum_and_on_to_the_next_house() {
        let (cool, warm) = (house(1), house(2));
        let mut draft = ClimateDraft::default();
        let next = |draft: &ClimateDraft, at| draft.next_box(&[(cool, false), (warm, true)], at);
        assert_eq!(next(&draft, (cool, Figure::Min)), Some((cool, Figure::Max)));
        assert_eq!(next(&draft, (cool, Figure::Max)), Some((warm, Figure::Min)));
        let rain = Some((warm, Figure::Rain));
        assert_eq!(next(&draft, (warm, Figure::Max)), rain);
        assert_eq!(next(&draft, (warm, Figure::Rain)), None);
        draft.humidity = true;
        let more = next(&draft, (cool, Figure::Max));
        assert_eq!(more, Some((cool, Figure::HumidityMin)));
    }

    #[test]
    fn a_house_without_numbers_is_passed_over_and_half_a_reading_is_asked_for() {
        let mut draft = ClimateDraft::default();
        draft.put(house(1), Figure::Min, "9,5".to_owned(), today());
        let missing = draft.command(today());
        assert_eq!(missing, Err((house(1), TypedFault::Missing(Figure::Max))));
        draft.put(house(1), Figure::Max, "21".to_owned(), today());
        draft.put(house(2), Figure::Min, String::new(), today());
        let Ok(Command::Together(kept)) = draft.command(today()) else {
            panic!("readings");
        };
        assert_eq!(kept.len(), 1);
    }

    #[test]
    fn humidity_is_typed_as_a_percentage() {
        let typed = TypedReading {
            min: "9".to_owned(),
            max: "21".to_owned(),
            humidity_min: "54".to_owned(),
            humidity_max: "82.5".to_owned(),
            rain: "12,4".to_owned(),
        };
        let reading = typed.reading(System::Metric).unwrap();
        assert_eq!(reading.humidity_min_permille, Some(540));
        assert_eq!(reading.humidity_max_permille, Some(825));
        assert_eq!(reading.rain_um, Some(12_400));
    }

    #[test]
    fn a_thermometer_in_fahrenheit_and_a_gauge_in_inches_are_read_as_they_are() {
        let typed = TypedReading {
            min: "50".to_owned(),
            max: "77".to_owned(),
            rain: "0.5".to_owned(),
            ..TypedReading::default()
        };
        let reading = typed.reading(System::Us).unwrap();
        assert_eq!((reading.min_mc, reading.max_mc), (10_000, 25_000));
        assert_eq!(reading.rain_um, Some(12_700));
        let british = typed.reading(System::Imperial);
        assert!(british.is_err(), "77 degrees Celsius is no house");
    }

    #[test]
    fn numbers_typed_before_midnight_stay_of_that_day() {
        let mut draft = ClimateDraft::default();
        draft.put(house(1), Figure::Min, "9".to_owned(), today());
        let tomorrow = "2026-10-06".parse().unwrap();
        draft.put(house(1), Figure::Max, "21".to_owned(), tomorrow);
        assert_eq!(draft.day(tomorrow), today());
    }
}
