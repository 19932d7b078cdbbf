//! The houses' weather: what was read, what the air was like, nights counted; gaps shown as gaps.

use chrono::{Datelike, NaiveDate};

use crate::climate::{
    Air, Counted, Daylight, DegreeDays, Method, Reading, day_air, daylight, hemisphere_at,
    nights_below, warmth_sum,
};
use crate::id::PlaceId;
use crate::reference::courses::bud_nights;
use crate::reference::taxa::Group;
use crate::season::{Season, season_of};
use crate::state::{Facts, State};
use crate::task::derive::group_row;
use crate::time::plus_days;

use super::{place_label, places};

/// A house on the screen where readings are typed.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct HouseRow {
    pub place: PlaceId,
    pub name: String,
    /// Of the day itself, where it was read already.
    pub read: Option<Reading>,
    pub day_before: Option<Reading>,
    /// Rain is read there too.
    pub open_to_rain: bool,
}

/// Days back in which a place counts as one with a thermometer.
const IN_USE_DAYS: i64 = 60;

/// Places with a thermometer in walking order, and the other places. Before the first reading every place is offered.
#[must_use]
pub fn houses(facts: &Facts, on: NaiveDate) -> (Vec<HouseRow>, Vec<HouseRow>) {
    let since = plus_days(on, -IN_USE_DAYS);
    let rows = places(facts).into_iter().filter_map(|label| {
        let readings = &facts.places.get(&label.place)?.house.readings;
        let row = HouseRow {
            place: label.place,
            name: label.name,
            open_to_rain: label.open_to_rain,
            read: readings.get(&on).copied(),
            day_before: readings.get(&plus_days(on, -1)).copied(),
        };
        Some((row, readings.range(since..=on).next().is_some()))
    });
    let (with, without): (Vec<_>, Vec<_>) = rows.partition(|(_, in_use)| *in_use);
    let rows = |rows: Vec<(HouseRow, bool)>| rows.into_iter().map(|(row, _)| row).collect();
    if with.is_empty() {
        (rows(without), Vec::new())
    } else {
        (rows(with), rows(without))
    }
}

/// Whether any place was read today.
#[must_use]
pub fn read_today(facts: &Facts, on: NaiveDate) -> bool {
    let mut houses = facts.places.values();
    houses.any(|place| place.house.readings.contains_key(&on))
}

/// Days a place's line shows.
pub const LINE_DAYS: i64 = 60;
/// Warmth added up for pests and growth: over 10 C, level from 30 C. Common practice, no source.
const GROWTH: DegreeDays = DegreeDays {
    method: Method::Sine,
    lower_mc: 10_000,
    upper_mc: Some(30_000),
};

/// A day on the line; `None` where nobody read.
pub type LineDay = (NaiveDate, Option<Reading>);

/// Cool nights of one group that stands here.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct ColdNights {
    pub group: Group,
    pub below_mc: i32,
    pub enough: Option<u16>,
    pub since: NaiveDate,
    pub counted: Counted,
}

/// The weather of one place.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct PlaceClimate {
    pub name: String,
    pub line: Vec<LineDay>,
    pub last: Option<(NaiveDate, Reading)>,
    /// The air of the last day read with both humidities.
    pub air: Option<(NaiveDate, Air)>,
    pub cold_nights: Vec<ColdNights>,
    /// Degree-days over 10 C since the first of the year's growing half.
    pub warmth: Option<(NaiveDate, Counted)>,
}

/// The weather of a place up to a day; `None` where the book does not know it.
#[must_use]
pub fn place_climate(state: &State, place: PlaceId, today: NaiveDate) -> Option<PlaceClimate> {
    let facts = state.facts();
    let name = place_label(facts, place)?.name;
    let house = &facts.places.get(&place)?.house;
    let first = house.first_on().unwrap_or(today);
    let from = plus_days(today, 1 - LINE_DAYS);
    let line = (0..LINE_DAYS).map(|day| {
        let on = plus_days(from, day);
        (on, house.readings.get(&on).copied())
    });
    let upto = || house.readings.range(..=today).rev();
    let last = upto().next().map(|(on, reading)| (*on, *reading));
    let air = upto()
        .take(7)
        .find_map(|(on, reading)| Some((*on, day_air(reading)?)));
    let since = growing_since(facts, today).max(first);
    let warmth = (!house.never_read()).then(|| {
        let sum = warmth_sum(&house.readings, since, today, GROWTH);
        (since, sum)
    });
    Some(PlaceClimate {
        name,
        line: line.collect(),
        last,
        air,
        cold_nights: cold_nights(facts, place, today),
        warmth,
    })
}

/// The first day of the last spring.
fn growing_since(facts: &Facts, today: NaiveDate) -> NaiveDate {
    let spring = |on: NaiveDate| season_of(on, facts.book.hemisphere()).0 == Season::Spring;
    let mut month = today.with_day(1).unwrap_or(today);
    let before = |month: NaiveDate| plus_days(month, -1).with_day(1).unwrap_or(month);
    for _ in 0..12 {
        if spring(month) && !spring(before(month)) {
            break;
        }
        month = before(month);
    }
    month
}

/// Cool nights of the groups that stand in a place, since each one's season began and not before the first reading.
fn cold_nights(facts: &Facts, place: PlaceId, today: NaiveDate) -> Vec<ColdNights> {
    let house = facts.places.get(&place).map(|place| &place.house);
    let Some(house) = house.filter(|house| !house.never_read()) else {
        return Vec::new();
    };
    let here = facts
        .live_lots()
        .filter(|(_, lot)| lot.plants > 0 && lot.place.get() == Some(&place));
    let groups: std::collections::BTreeSet<Group> =
        here.map(|(_, lot)| group_row(lot).group).collect();
    let rows = groups.into_iter().filter_map(|group| {
        let nights = bud_nights(group)?;
        let starts = nights.starts(facts.book.hemisphere());
        let this_year = starts.in_year(today.year())?;
        let since = if this_year > today {
            starts.in_year(today.year().checked_sub(1)?)?
        } else {
            this_year
        };
        Some(ColdNights {
            group,
            below_mc: nights.below_mc,
            enough: nights.enough,
            since,
            counted: nights_below(&house.readings, since, today, nights.below_mc),
        })
    });
    rows.collect()
}

/// Nights below a threshold of one's own since a day, and hours of those days below it.
#[must_use]
pub fn nights_since(
    facts: &Facts,
    place: PlaceId,
    since: NaiveDate,
    today: NaiveDate,
    below_mc: i32,
) -> Option<Counted> {
    let house = &facts.places.get(&place)?.house;
    Some(nights_below(&house.readings, since, today, below_mc))
}

/// Season and light of a day, by the nursery's latitude where it is known.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct DayOfYear {
    pub season: Season,
    /// `None` where no latitude was given.
    pub light: Option<Daylight>,
}

/// Season and light of a day here.
#[must_use]
pub fn day_of_year(facts: &Facts, on: NaiveDate) -> DayOfYear {
    let latitude = facts.book.latitude_cdeg.get().copied();
    let hemisphere = latitude
        .and_then(hemisphere_at)
        .unwrap_or_else(|| facts.book.hemisphere());
    DayOfYear {
        season: season_of(on, hemisphere).0,
        light: latitude.map(|latitude| daylight(latitude, on)),
    }
}

/// How many of these days were read already with other numbers.
#[must_use]
pub fn read_already(facts: &Facts, place: PlaceId, days: &[(NaiveDate, Reading)]) -> usize {
    let Some(place) = facts.places.get(&place) else {
        return 0;
    };
    let other = |(on, reading): &&(NaiveDate, Reading)| {
        let known = place.house.readings.get(on);
        known.is_some_and(|known| known != reading)
    };
    days.iter().filter(other).count()
}
