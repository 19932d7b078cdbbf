//! The words and figures of a record that are filled in or put right afterwards.
//!
//! A figure that is left as it reads changes nothing; one that cannot be read is named, and nothing is recorded until it
//! can. A time of day is one of the treatment's own day, where the phone was.

use chrono::NaiveDate;
use serde::{Deserialize, Serialize};

use crate::event::{ActiveCopy, Treated};
use crate::label_draft::UseNumber;
use crate::quantity::{parse_mass, parse_volume};
use crate::time::minute_of_day;

use super::profile::Field;

/// Texts of a treatment's record. Filling one in is a correction: the entry before stays readable.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct RecordTexts {
    #[serde(default)]
    pub person: String,
    #[serde(default)]
    pub licence: String,
    #[serde(default)]
    pub registration: String,
    #[serde(default)]
    pub batch: String,
    #[serde(default)]
    pub gear: String,
    #[serde(default)]
    pub weather: String,
    #[serde(default)]
    pub plant_code: String,
    #[serde(default)]
    pub growth_stage: String,
    #[serde(default)]
    pub disposal: String,
    #[serde(default)]
    pub rate: String,
    /// Each with its content, parted by semicolons: `triforine 190 g/L; captan 50 %`.
    #[serde(default)]
    pub actives: String,
    /// With its unit: `25 mL`, `12 g`.
    #[serde(default)]
    pub amount: String,
    /// With its unit: `20 L`.
    #[serde(default)]
    pub water: String,
    /// Whole hours.
    #[serde(default)]
    pub reentry: String,
    /// `14:10`.
    #[serde(default)]
    pub start: String,
    #[serde(default)]
    pub end: String,
    /// The treatment's day and the phone's offset, for times of day; without it they stay as they are.
    #[serde(default)]
    pub day: Option<(NaiveDate, i16)>,
}

impl RecordTexts {
    /// As the treatment says now.
    #[must_use]
    pub fn of(treated: &Treated) -> Self {
        Self {
            person: treated.person.clone(),
            licence: treated.licence.clone(),
            registration: treated.product.registration.clone(),
            batch: treated.product.batch.clone(),
            gear: treated.gear.clone(),
            weather: treated.weather.clone(),
            plant_code: treated.plant_code.clone(),
            growth_stage: treated.growth_stage.clone(),
            disposal: treated.disposal.clone(),
            rate: treated.product.rate_typed.clone(),
            actives: actives_text(&treated.product.actives),
            amount: match (treated.amount_ul, treated.amount_mg) {
                (Some(ul), _) => format!("{} mL", super::file::thousandths(ul)),
                (None, Some(mg)) => format!("{} g", super::file::thousandths(mg)),
                (None, None) => String::new(),
            },
            water: treated
                .water_ul
                .map(|ul| format!("{} L", super::file::millionths(ul)))
                .unwrap_or_default(),
            reentry: treated
                .product
                .reentry_h
                .map(|hours| hours.to_string())
                .unwrap_or_default(),
            ..Self::default()
        }
    }

    /// The same, with times of day on the treatment's own day.
    #[must_use]
    pub fn on_day(mut self, treated: &Treated, on: NaiveDate, off_min: i16) -> Self {
        let clock = |ms: Option<i64>| {
            ms.map(|ms| {
                let minute = minute_of_day(ms, off_min);
                format!("{:02}:{:02}", minute / 60, minute % 60)
            })
            .unwrap_or_default()
        };
        self.start = clock(treated.started_ms);
        self.end = clock(treated.ended_ms);
        self.day = Some((on, off_min));
        self
    }

    /// Figures that cannot be read, in the order of the form.
    #[must_use]
    pub fn unreadable(&self) -> Vec<Field> {
        let bad = |text: &str, read: bool| !text.trim().is_empty() && !read;
        let time = |text: &str| self.day.is_none() || self.instant(text).is_some();
        [
            (
                Field::Amount,
                bad(&self.amount, amount(&self.amount).is_some()),
            ),
            (
                Field::Water,
                bad(&self.water, volume(&self.water).is_some()),
            ),
            (
                Field::Reentry,
                bad(&self.reentry, hours(&self.reentry).is_some()),
            ),
            (Field::StartTime, bad(&self.start, time(&self.start))),
            (Field::EndTime, bad(&self.end, time(&self.end))),
        ]
        .into_iter()
        .filter_map(|(field, bad)| bad.then_some(field))
        .collect()
    }

    /// Puts them into the treatment. A figure left as it read stays exact, one left empty or unreadable stays as it was.
    pub fn put_into(&self, treated: &mut Treated) {
        let mut was = Self::of(treated);
        if let Some((on, off_min)) = self.day {
            was = was.on_day(treated, on, off_min);
        }
        let product = &mut treated.product;
        let texts = [
            (&self.person, &mut treated.person),
            (&self.licence, &mut treated.licence),
            (&self.registration, &mut product.registration),
            (&self.batch, &mut product.batch),
            (&self.gear, &mut treated.gear),
            (&self.weather, &mut treated.weather),
            (&self.plant_code, &mut treated.plant_code),
            (&self.growth_stage, &mut treated.growth_stage),
            (&self.disposal, &mut treated.disposal),
            (&self.rate, &mut product.rate_typed),
        ];
        for (typed, stored) in texts {
            typed.trim().clone_into(stored);
        }
        if self.actives.trim() != was.actives {
            product.actives = actives_read(&self.actives, &product.actives);
        }
        if let Some(read) = amount(&self.amount).filter(|_| self.amount != was.amount) {
            (treated.amount_ul, treated.amount_mg) = read;
        }
        if let Some(ul) = volume(&self.water).filter(|_| self.water != was.water) {
            treated.water_ul = Some(ul);
        }
        if let Some(hours) = hours(&self.reentry).filter(|_| self.reentry != was.reentry) {
            product.reentry_h = Some(hours);
        }
        if self.start != was.start {
            treated.started_ms = self.instant(&self.start).or(treated.started_ms);
        }
        if self.end != was.end {
            treated.ended_ms = self.instant(&self.end).or(treated.ended_ms).map(|ended| {
                let over_midnight = treated.started_ms.is_some_and(|started| ended < started);
                ended.saturating_add(if over_midnight { 86_400_000 } else { 0 })
            });
        }
    }

    /// A time of day on the treatment's day: `14:10` or `14.10`.
    fn instant(&self, text: &str) -> Option<i64> {
        let (on, off_min) = self.day?;
        let (hour, minute) = text.trim().split_once([':', '.'])?;
        let at = on.and_hms_opt(hour.parse().ok()?, minute.parse().ok()?, 0)?;
        let away_ms = i64::from(off_min).saturating_mul(60_000);
        Some(at.and_utc().timestamp_millis().saturating_sub(away_ms))
    }
}

/// Millilitres as microlitres, or grams as milligrams.
fn amount(text: &str) -> Option<(Option<i64>, Option<i64>)> {
    if let Ok((mass, _)) = parse_mass(text) {
        return (mass.mg() >= 0).then_some((None, Some(mass.mg())));
    }
    volume(text).map(|ul| (Some(ul), None))
}

fn volume(text: &str) -> Option<i64> {
    let (volume, _) = parse_volume(text).ok()?;
    Some(volume.ul()).filter(|ul| *ul >= 0)
}

/// Whole hours, no more than a label may have: somebody is kept out for as long.
fn hours(text: &str) -> Option<u32> {
    let read = text.trim().trim_end_matches(['h', 'H']).trim().parse().ok();
    read.filter(|hours| *hours <= UseNumber::ReentryHours.most())
}

fn actives_text(actives: &[ActiveCopy]) -> String {
    let said = actives.iter().map(|active| {
        format!("{} {}", active.name, active.content_typed)
            .trim()
            .to_owned()
    });
    said.collect::<Vec<_>>().join("; ")
}

/// Actives as typed; one that reads as before keeps its content and codes.
fn actives_read(text: &str, before: &[ActiveCopy]) -> Vec<ActiveCopy> {
    let each = text.split(';').map(str::trim).filter(|one| !one.is_empty());
    each.map(|one| {
        let known = before
            .iter()
            .find(|active| actives_text(std::slice::from_ref(active)) == one);
        known.cloned().unwrap_or_else(|| {
            let beside = one.char_indices().zip(one.chars().skip(1));
            let at = beside
                .into_iter()
                .find(|((_, here), next)| *here == ' ' && next.is_ascii_digit())
                .map_or(one.len(), |((at, _), _)| at);
            let (name, content) = one.split_at(at);
            ActiveCopy {
                name: name.trim().to_owned(),
                content_typed: content.trim().to_owned(),
                ..ActiveCopy::default()
            }
        })
    })
    .collect()
}
