//! Whether a line of the record is complete under a rule, was made in time, and how long it is kept.

use chrono::{Datelike, NaiveDate};

use crate::event::Method;
use crate::season::add_months;

use super::profile::{Field, Rule};
use super::row::Row;

/// What a rule says of a line.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Judged {
    /// Asked for and not there; empty when complete.
    pub missing: Vec<Field>,
    /// Not there, and asked for only where the rule's condition holds.
    pub where_asked: Vec<Field>,
    /// Hours after the treatment at which it was written down, where that was too late.
    pub late_h: Option<i64>,
    /// Kept until the end of this day.
    pub keep_until: NaiveDate,
}

/// Judges one line.
#[must_use]
pub fn judge(row: &Row, rule: &Rule) -> Judged {
    let missing = rule
        .fields
        .iter()
        .copied()
        .filter(|field| !has(row, *field))
        .collect();
    let where_asked = rule.where_asked.iter().copied();
    let where_asked = where_asked.filter(|field| !has(row, *field)).collect();
    // Where no end was written, the time runs from the end of the day.
    let ended_ms = row.treated.ended_ms.or_else(|| end_of(row.on, row.off_min));
    let after_h = ended_ms.map(|ended| row.made_ms.saturating_sub(ended).div_euclid(3_600_000));
    let late_h = after_h.filter(|hours| {
        rule.made_within_h
            .is_some_and(|within| *hours > i64::from(within))
    });
    let from = if rule.keep_from_new_year {
        NaiveDate::from_ymd_opt(row.on.year().saturating_add(1), 1, 1).unwrap_or(row.on)
    } else {
        row.on
    };
    Judged {
        missing,
        where_asked,
        late_h,
        keep_until: add_months(from, i32::from(rule.keep_months)).unwrap_or(from),
    }
}

/// The last instant of a civil day.
fn end_of(on: NaiveDate, off_min: i16) -> Option<i64> {
    let next = on.succ_opt()?.and_hms_opt(0, 0, 0)?.and_utc();
    let away_ms = i64::from(off_min).saturating_mul(60_000);
    next.timestamp_millis().checked_sub(away_ms)
}

/// Whether the line holds what the field asks for.
fn has(row: &Row, field: Field) -> bool {
    let treated = &row.treated;
    let said = |text: &str| !text.trim().is_empty();
    // What was measured once for several batches stands in the first of them.
    let measured = row.mixed_for.as_ref().unwrap_or(treated);
    match field {
        Field::Product => said(&treated.product.label_name),
        Field::Registration => said(&treated.product.registration),
        Field::Actives => !treated.product.actives.is_empty(),
        Field::Amount => measured.amount_ul.is_some() || measured.amount_mg.is_some(),
        Field::Rate => said(&treated.product.rate_typed),
        Field::Water => measured.water_ul.is_some(),
        Field::Quantity => row.plants > 0,
        Field::Crop => !row.crops.is_empty(),
        Field::Place => !row.places.is_empty(),
        // Every entry has a day and a method; they cannot be missing.
        Field::Date | Field::Method | Field::Target => true,
        Field::StartTime => treated.started_ms.is_some(),
        Field::EndTime => treated.ended_ms.is_some(),
        Field::Reentry => treated.product.reentry_h.is_some(),
        Field::Person => said(&treated.person),
        Field::Licence => said(&treated.licence),
        Field::UseType => row.closed_space.is_some(),
        Field::Batch => said(&treated.product.batch),
        Field::Gear => said(&treated.gear),
        Field::Weather => said(&treated.weather),
        // Under a roof, or by another way than a spray, no wind is asked for.
        Field::WindOutdoors => {
            treated.method != Method::Spray
                || row.closed_space == Some(true)
                || said(&treated.weather)
        }
        Field::Disposal => said(&row.disposal),
        Field::PlantCode => said(&treated.plant_code),
        Field::GrowthStage => said(&treated.growth_stage),
        Field::Coordinates => !row.coordinates.is_empty(),
    }
}
