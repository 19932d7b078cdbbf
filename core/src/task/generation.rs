//! When to look again for a pest's next generation: by the warmth of the house where its figures are known, else by days.
//!
//! Invariants: the days of the table hold for a house at twenty degrees; warmth moves a look to the day on which as much
//! of a generation has passed as had then. Without figures, or where too few days were read, the days of the table stand,
//! and which it was is told.

use chrono::NaiveDate;

use crate::climate::{Counted, reach};
use crate::event::SeenOn;
use crate::id::{FindingId, LotId, PlaceId};
use crate::reference::signs::{self, SignRow};
use crate::state::{Facts, Finding};
use crate::time::plus_days;

/// A look comes after three times its days at the latest, however cold it is.
const LATEST: u16 = 3;
/// Days a look may be made early or late.
pub const WIDTH_DAYS: i64 = 2;

/// What a day rests on.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum By {
    /// Degree-days: read so far, and wanted, over a threshold.
    Warmth {
        so_far: Counted,
        wanted_mk: i64,
        lower_mc: i32,
        /// Too cold to come together: the latest day is given.
        at_last: bool,
    },
    /// Nobody says how much warmth this pest needs.
    NoFigure,
    /// Too few days of the house were read.
    FewRead { read: u32, of: u32 },
}

/// A look by a pest's generation.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct GenerationDay {
    pub on: NaiveDate,
    pub by: By,
    /// Days of the table, which hold where nothing better is known.
    pub table_days: u16,
}

/// The row of a finding's sign, when it is a pest that comes in generations.
#[must_use]
pub fn pest(finding: &Finding) -> Option<&'static SignRow> {
    signs::sign(&finding.event.sign).filter(|row| row.series > 0)
}

/// The place whose weather counts for a finding.
#[must_use]
pub fn house_of(facts: &Facts, finding: &Finding, lot: Option<LotId>) -> Option<PlaceId> {
    let lot = match finding.event.on {
        SeenOn::Place(place) => return Some(place),
        SeenOn::Lot(seen) => lot.or(Some(seen)),
        SeenOn::Clump(_) => lot,
    };
    let stands = lot.and_then(|lot| facts.lots.get(&lot)?.place.get().copied());
    stands.or(finding.event.place)
}

/// The look of that number after a finding; `None` where the table has none.
#[must_use]
pub fn look(
    facts: &Facts,
    finding: &Finding,
    house: Option<PlaceId>,
    nth: u8,
) -> Option<GenerationDay> {
    let row = pest(finding)?;
    let days = *row.again_days.get(usize::from(nth))?;
    let by_table = |by: By| GenerationDay {
        on: plus_days(finding.on, i64::from(days)),
        by,
        table_days: days,
    };
    let Some(generation) = row.generation else {
        return Some(by_table(By::NoFigure));
    };
    let readings = house.and_then(|place| facts.places.get(&place));
    let Some(readings) = readings.map(|place| &place.house.readings) else {
        return Some(by_table(By::FewRead { read: 0, of: 0 }));
    };
    let whole = i64::from(row.again_days.last().copied().unwrap_or(days).max(1));
    let wanted_mk = generation.sum_mk.saturating_mul(i64::from(days)) / whole;
    let rule = generation.rule();
    let most = days.saturating_mul(LATEST);
    Some(match reach(readings, finding.on, rule, wanted_mk, most) {
        Ok(reached) => GenerationDay {
            on: reached.on,
            by: By::Warmth {
                so_far: reached.so_far,
                wanted_mk,
                lower_mc: rule.lower_mc,
                at_last: reached.at_last,
            },
            table_days: days,
        },
        Err(few) => by_table(By::FewRead {
            read: few.read,
            of: few.of,
        }),
    })
}

/// Every look after a finding, as it stands now.
#[must_use]
pub fn looks(facts: &Facts, id: FindingId) -> Vec<GenerationDay> {
    let Some(finding) = facts.findings.get(&id) else {
        return Vec::new();
    };
    let house = house_of(facts, finding, None);
    (0u8..)
        .map_while(|nth| look(facts, finding, house, nth))
        .collect()
}
