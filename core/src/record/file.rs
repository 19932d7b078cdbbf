//! The record as a file: a table for a spreadsheet (RFC 4180) and the same as JSON.
//!
//! Columns have English names that never change. A cell that a spreadsheet would take for a formula gets an apostrophe
//! before it. Amounts are in millilitres or grams, exactly; instants are in the offset of the phone that recorded them.

use chrono::{DateTime, FixedOffset};
use serde_json::{Map, Value, json as object};

use crate::event::{BathTopped, Treated};
use crate::quantity::Decimal;

use super::judge::judge;
use super::profile::{Field, Rule};
use super::row::{Row, Standing};

/// The columns, in order.
pub const COLUMNS: [&str; 40] = [
    "entry",
    "standing",
    "date",
    "start",
    "end",
    "written",
    "product",
    "registration",
    "actives",
    "codes",
    "batch",
    "rate",
    "amount",
    "amount_unit",
    "water_l",
    "same_mixture_as",
    "plants",
    "crop",
    "lots",
    "place",
    "use_type",
    "method",
    "target",
    "aim",
    "soak_s",
    "reentry_h",
    "person",
    "licence",
    "gear",
    "weather",
    "disposal",
    "reason",
    "note",
    "missing",
    "corrected",
    "correction_reason",
    "plant_code",
    "growth_stage",
    "coordinates",
    "topped_up",
];

/// A line as the values of its columns.
fn values(row: &Row, rule: &Rule) -> [Value; COLUMNS.len()] {
    let treated = &row.treated;
    let product = &treated.product;
    let text = |text: &str| Value::String(text.to_owned());
    let joined = |texts: Vec<String>| Value::String(texts.join("; "));
    let instant = |ms: Option<i64>| ms.map_or(Value::Null, |ms| text(&local(ms, row.off_min)));
    let number = |number: Option<u32>| number.map_or(Value::Null, |number| object!(number));
    let (amount, unit) = amount(treated);
    let missing = judge(row, rule).missing;
    [
        text(&row.entry.to_string()),
        text(match row.standing {
            Standing::Counts => "counts",
            Standing::Replaced => "replaced",
            Standing::Withdrawn(_) => "withdrawn",
        }),
        text(&row.on.to_string()),
        instant(treated.started_ms),
        instant(treated.ended_ms),
        instant(Some(row.made_ms)),
        text(&product.label_name),
        text(&product.registration),
        joined(product.actives.iter().map(active).collect()),
        joined(
            product
                .actives
                .iter()
                .flat_map(|active| active.codes.clone())
                .collect(),
        ),
        text(&product.batch),
        text(&product.rate_typed),
        amount,
        text(unit),
        treated
            .water_ul
            .map_or(Value::Null, |ul| text(&millionths(ul))),
        text(
            &treated
                .same_mix_as
                .map(|id| id.to_string())
                .unwrap_or_default(),
        ),
        object!(row.plants),
        joined(row.crops.clone()),
        joined(row.codes.clone()),
        joined(row.places.clone()),
        text(match row.closed_space {
            Some(true) => "closed space",
            Some(false) => "open",
            None => "",
        }),
        wire(&treated.method),
        wire(&treated.against),
        wire(&treated.aim),
        number(treated.soaked_s),
        number(product.reentry_h),
        text(&treated.person),
        text(&treated.licence),
        text(&treated.gear),
        text(&treated.weather),
        text(&row.disposal),
        text(&treated.reason),
        text(&treated.note),
        joined(
            missing
                .into_iter()
                .map(Field::key)
                .map(str::to_owned)
                .collect(),
        ),
        instant(row.corrected.as_ref().map(|(at_ms, _)| *at_ms)),
        text(row.corrected.as_ref().map_or("", |(_, why)| why)),
        text(&treated.plant_code),
        text(&treated.growth_stage),
        joined(row.coordinates.clone()),
        joined(row.topped.iter().map(topped).collect()),
    ]
}

/// The record as a table.
#[must_use]
pub fn csv(rows: &[Row], rule: &Rule) -> String {
    let mut text = COLUMNS.join(",");
    text.push_str("\r\n");
    for row in rows {
        let cells = values(row, rule).map(|value| cell(&value));
        text.push_str(&cells.join(","));
        text.push_str("\r\n");
    }
    text
}

/// The record as JSON: a list of objects, without the columns that say nothing.
#[must_use]
pub fn json(rows: &[Row], rule: &Rule) -> String {
    let lines = rows.iter().map(|row| {
        let pairs = COLUMNS.iter().zip(values(row, rule));
        let said = pairs.filter(|(_, value)| !value.is_null() && value.as_str() != Some(""));
        Value::Object(
            said.map(|(name, value)| ((*name).to_owned(), value))
                .collect::<Map<_, _>>(),
        )
    });
    let mut text = Value::Array(lines.collect()).to_string();
    text.push('\n');
    text
}

fn active(active: &crate::event::ActiveCopy) -> String {
    format!("{} {}", active.name, active.content_typed)
        .trim()
        .to_owned()
}

/// "3 mL in 2 L".
fn topped(it: &BathTopped) -> String {
    let product = match (it.amount_ul, it.amount_mg) {
        (Some(ul), _) => format!("{} mL in ", thousandths(ul)),
        (None, Some(mg)) => format!("{} g in ", thousandths(mg)),
        (None, None) => String::new(),
    };
    format!("{product}{} L", millionths(it.water_ul))
}

fn amount(treated: &Treated) -> (Value, &'static str) {
    match (treated.amount_ul, treated.amount_mg) {
        (Some(ul), _) => (Value::String(thousandths(ul)), "mL"),
        (None, Some(mg)) => (Value::String(thousandths(mg)), "g"),
        (None, None) => (Value::Null, ""),
    }
}

pub(super) fn thousandths(value: i64) -> String {
    decimal(value, 3)
}

pub(super) fn millionths(value: i64) -> String {
    decimal(value, 6)
}

fn decimal(value: i64, places: u8) -> String {
    let text = Decimal::new(value, places).map(|number| number.to_string());
    let text = text.unwrap_or_default();
    text.trim_end_matches('0').trim_end_matches('.').to_owned()
}

/// The wire name of a choice.
fn wire<T: serde::Serialize>(choice: &T) -> Value {
    serde_json::to_value(choice).unwrap_or(Value::Null)
}

/// An instant in civil time with its offset (RFC 3339).
fn local(ms: i64, off_min: i16) -> String {
    let offset = FixedOffset::east_opt(i32::from(off_min).saturating_mul(60));
    let at = DateTime::from_timestamp_millis(ms);
    match (at, offset) {
        (Some(at), Some(offset)) => at.with_timezone(&offset).to_rfc3339(),
        _ => String::new(),
    }
}

/// A cell of a table: quoted where RFC 4180 asks for it, and no formula.
pub(crate) fn cell(value: &Value) -> String {
    let text = match value {
        Value::Null => String::new(),
        Value::String(text) => harmless(text),
        other => other.to_string(),
    };
    if text.contains(['"', ',', '\n', '\r']) {
        format!("\"{}\"", text.replace('"', "\"\""))
    } else {
        text
    }
}

/// A text that no spreadsheet takes for a formula.
fn harmless(text: &str) -> String {
    let begins = text.trim_start_matches([' ', '\u{a0}']);
    if begins.starts_with(['=', '+', '-', '@', '\t', '\r', '\n', '＝', '＋', '－', '＠']) {
        format!("'{text}")
    } else {
        text.to_owned()
    }
}
