//! The facts of everything that is not a lot or a clump: the nursery, phones, places, pots, mixes, products,
//! protocols, findings, treatments, the grower's own tasks.

use std::collections::{BTreeMap, BTreeSet};

use chrono::NaiveDate;
use serde::Serialize;

use crate::code::Prefix;
use crate::event::{
    ActiveCopy, BathEnded, BathTopped, Coordinates, Cover, Event, Found, LabelUse, MixShare, Pack,
    PriceOf, RecordRule, Shade, TaskKey, TaskNoted, ToolChange, Treated,
};
use crate::id::{Dev, EntryRef, FindingId, MixId, Subject, TreatmentId};
use crate::log::Fact;
use crate::potting;
use crate::reference::taxa;
use crate::rotation::RotationRules;
use crate::season::{Hemisphere, Warmth, Window};
use crate::task::Protocol;
use crate::time::Stamp;

use super::field::Field;
use super::house::House;
use super::lot::{Decision, as_list, keep_decision};
use super::materials::Materials;
use super::water::Waterings;

/// What the grower knows of a group of plants here.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize)]
pub struct Group {
    pub repot_windows: Field<Vec<Window>>,
    pub flowering_windows: Field<Vec<Window>>,
    pub light: Field<bool>,
    #[serde(skip_serializing_if = "Field::never_set")]
    pub water_days: Field<u16>,
}

/// What something is bought in, and what that costs.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize)]
pub struct PriceFacts {
    pub pack: Field<Pack>,
    pub cents: Field<i64>,
}

impl PriceFacts {
    /// The size it is bought in, where one is known.
    #[must_use]
    pub fn pack(&self) -> Option<Pack> {
        self.pack.get().copied().filter(|pack| pack.figure() > 0)
    }

    /// The price in hundredths, where one is known.
    #[must_use]
    pub fn cents(&self) -> Option<i64> {
        self.cents.get().copied().filter(|cents| *cents >= 0)
    }
}

/// The facts of the nursery itself.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize)]
pub struct BookFacts {
    /// Identity of the book; `None` in an empty log.
    pub book: Option<Dev>,
    pub opened_on: Option<NaiveDate>,
    pub demo: bool,
    pub nursery: Field<String>,
    pub hemisphere: Field<Hemisphere>,
    pub latitude_cdeg: Field<i32>,
    pub poisons_number: Field<String>,
    pub operator_number: Field<String>,
    #[serde(skip_serializing_if = "Field::never_set")]
    pub record: Field<RecordRule>,
    /// The batch of each mix that is potted from, and the load of stone.
    #[serde(skip_serializing_if = "BTreeMap::is_empty")]
    pub mix_open: BTreeMap<MixId, Field<String>>,
    #[serde(skip_serializing_if = "Field::never_set")]
    pub stone_open: Field<String>,
    pub groups: BTreeMap<taxa::Group, Group>,
    #[serde(skip_serializing_if = "Field::never_set")]
    pub rotation: Field<RotationRules>,
    /// Phones' confirmations that tools and gloves were clean, by day.
    pub hygiene: BTreeMap<Dev, (NaiveDate, ToolChange)>,
    /// Tools that alternate, where more than one was said.
    #[serde(skip_serializing_if = "BTreeMap::is_empty")]
    pub hygiene_tools: BTreeMap<Dev, u8>,
    /// Sign or word of the nursery's money, and what things cost.
    #[serde(skip_serializing_if = "Field::never_set")]
    pub money: Field<String>,
    #[serde(skip_serializing_if = "BTreeMap::is_empty", serialize_with = "as_list")]
    pub prices: BTreeMap<PriceOf, PriceFacts>,
    #[serde(skip_serializing_if = "Materials::never_moved")]
    pub materials: Materials,
    pub settled: BTreeSet<String>,
}

impl BookFacts {
    #[must_use]
    pub fn hemisphere(&self) -> Hemisphere {
        self.hemisphere.get().copied().unwrap_or(Hemisphere::North)
    }

    /// The table by which runs of one mode of action are judged.
    #[must_use]
    pub fn rotation(&self) -> RotationRules {
        self.rotation
            .get()
            .cloned()
            .unwrap_or_else(crate::rotation::usual)
    }

    pub(super) fn apply(&mut self, fact: &Fact<'_>) {
        let on = fact.entry.header.on;
        match fact.event {
            Event::BookOpened(event) => {
                if self.book.is_none() {
                    self.book = Some(event.book);
                    self.opened_on = Some(on);
                    self.demo = event.demo;
                }
                self.nursery.set(&event.nursery, fact);
                self.hemisphere.set(&event.hemisphere, fact);
                self.latitude_cdeg
                    .set_if(event.latitude_cdeg.as_ref(), fact);
            }
            Event::BookSet(event) => {
                self.nursery.set_if(event.nursery.as_ref(), fact);
                self.hemisphere.set_if(event.hemisphere.as_ref(), fact);
                self.latitude_cdeg
                    .set_if(event.latitude_cdeg.as_ref(), fact);
                self.poisons_number
                    .set_if(event.poisons_number.as_ref(), fact);
                self.operator_number
                    .set_if(event.operator_number.as_ref(), fact);
                self.record.set_if(event.record.as_ref(), fact);
                if let Some(open) = &event.mix_open {
                    let batch = self.mix_open.entry(open.mix).or_default();
                    batch.set(&open.batch, fact);
                }
                self.stone_open.set_if(event.stone_open.as_ref(), fact);
                self.money.set_if(event.money.as_ref(), fact);
            }
            Event::PriceSet(event) => {
                let price = self.prices.entry(event.of.clone()).or_default();
                price.pack.set_if(event.pack.as_ref(), fact);
                price.cents.set_if(event.cents.as_ref(), fact);
            }
            Event::GroupSet(event) => {
                let group = self.groups.entry(event.group).or_default();
                group
                    .repot_windows
                    .set_if(event.repot_windows.as_ref(), fact);
                group
                    .flowering_windows
                    .set_if(event.flowering_windows.as_ref(), fact);
                group.light.set_if(event.light.as_ref(), fact);
                group.water_days.set_if(event.water_days.as_ref(), fact);
            }
            Event::RotationSet(event) => self.rotation.set(&event.rules, fact),
            Event::HygieneConfirmed(event) => {
                self.hygiene
                    .insert(fact.entry.id.dev, (on, event.tool_change));
                match event.tools {
                    Some(tools) => drop(self.hygiene_tools.insert(fact.entry.id.dev, tools)),
                    None => drop(self.hygiene_tools.remove(&fact.entry.id.dev)),
                }
            }
            Event::MaterialsMoved(_) | Event::Sanitised(_) => self.materials.apply(fact),
            Event::Settled(event) => {
                let key = settled_key(event.subject, &event.anomaly);
                self.settled.insert(key);
            }
            _ => {}
        }
    }
}

/// Under what the book keeps the answer to a question about one of its things.
pub(super) fn settled_key(subject: Subject, anomaly: &str) -> String {
    if subject == Subject::Book {
        anomaly.to_owned()
    } else {
        format!("{subject} {anomaly}")
    }
}

/// A phone that writes in the book.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize)]
pub struct Phone {
    pub prefix: Field<Prefix>,
    pub name: String,
    /// Corrections of its clock: over a run of entries, so many milliseconds.
    pub clock: Vec<(u32, u32, i64)>,
    pub settled: BTreeSet<String>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub left: Option<Left>,
}

/// When a phone was taken off the book.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
pub struct Left {
    pub by: EntryRef,
    /// Its last entry that was known then.
    pub known: u32,
    /// It joined again since.
    pub back: bool,
}

impl Phone {
    /// Whether it is off the book now.
    #[must_use]
    pub fn has_left(&self) -> bool {
        self.left.is_some_and(|left| !left.back)
    }

    pub(super) fn apply(&mut self, fact: &Fact<'_>) {
        match fact.event {
            Event::PhoneJoined(event) => {
                self.prefix.set(&event.prefix, fact);
                self.name.clone_from(&event.name);
                if let Some(left) = &mut self.left {
                    left.back = true;
                }
            }
            Event::PhoneLeft(event) => {
                let known = fact.entry.seen.get(&event.dev).map_or(0, |(seq, _)| *seq);
                self.left = Some(Left {
                    by: fact.entry.id,
                    known,
                    back: false,
                });
            }
            Event::ClockCorrected(event) => {
                self.clock
                    .push((event.from_seq, event.to_seq, event.shift_ms))
            }
            Event::Settled(event) => drop(self.settled.insert(event.anomaly.clone())),
            _ => {}
        }
    }

    /// An entry's instant with the corrections of this phone's clock.
    #[must_use]
    pub fn corrected_ms(&self, seq: u32, at_ms: i64) -> i64 {
        let shifts = self
            .clock
            .iter()
            .filter(|(from, to, _)| (*from..=*to).contains(&seq));
        shifts.fold(at_ms, |at, (_, _, shift)| at.saturating_add(*shift))
    }
}

/// A place on the walk.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize)]
pub struct Place {
    pub name: Field<String>,
    pub walk: Field<u32>,
    pub cover: Field<Cover>,
    pub shade: Field<Shade>,
    pub warmth: Field<Warmth>,
    pub area_cm2: Field<u32>,
    #[serde(skip_serializing_if = "Field::never_set")]
    pub act_permille: Field<u16>,
    #[serde(skip_serializing_if = "Field::never_set")]
    pub coordinates: Field<Coordinates>,
    #[serde(skip_serializing_if = "Field::never_set")]
    pub water_days: Field<u16>,
    #[serde(skip_serializing_if = "Field::never_set")]
    pub feed_days: Field<u16>,
    pub retired: Field<bool>,
    pub findings: Vec<FindingId>,
    pub treatments: Vec<TreatmentId>,
    #[serde(skip_serializing_if = "House::never_read")]
    pub house: House,
    /// What was watered and fed here, in order.
    #[serde(skip_serializing_if = "Waterings::is_empty")]
    pub waterings: Waterings,
    pub settled: BTreeSet<String>,
}

impl Place {
    pub(super) fn apply(&mut self, fact: &Fact<'_>) {
        match fact.event {
            Event::PlaceSet(event) => {
                self.name.set_if(event.name.as_ref(), fact);
                self.walk.set_if(event.walk.as_ref(), fact);
                self.cover.set_if(event.cover.as_ref(), fact);
                self.shade.set_if(event.shade.as_ref(), fact);
                self.warmth.set_if(event.warmth.as_ref(), fact);
                self.area_cm2.set_if(event.area_cm2.as_ref(), fact);
                self.act_permille.set_if(event.act_permille.as_ref(), fact);
                self.coordinates.set_if(event.coordinates.as_ref(), fact);
                self.water_days.set_if(event.water_days.as_ref(), fact);
                self.feed_days.set_if(event.feed_days.as_ref(), fact);
                self.retired.set_if(event.retired.as_ref(), fact);
            }
            Event::Found(event) => self.findings.push(event.finding),
            Event::Treated(event) => self.treatments.push(event.treatment),
            Event::ClimateRead(event) => self.house.apply(event, fact),
            Event::Watered(_) | Event::Fed(_) => self.waterings.apply(fact),
            Event::Settled(event) => drop(self.settled.insert(event.anomaly.clone())),
            _ => {}
        }
    }

    #[must_use]
    pub fn is_retired(&self) -> bool {
        self.retired.or_default()
    }
}

/// A kind of pot or tray.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize)]
pub struct Pot {
    pub name: Field<String>,
    pub form: Field<potting::Pot>,
    pub retired: Field<bool>,
}

impl Pot {
    pub(super) fn apply(&mut self, fact: &Fact<'_>) {
        if let Event::PotSet(event) = fact.event {
            self.name.set_if(event.name.as_ref(), fact);
            self.form.set_if(event.form.as_ref(), fact);
            self.retired.set_if(event.retired.as_ref(), fact);
        }
    }
}

/// A potting mix.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize)]
pub struct Mix {
    pub name: Field<String>,
    pub shares: Field<Vec<MixShare>>,
    pub life_months: Field<u16>,
    pub retired: Field<bool>,
}

impl Mix {
    pub(super) fn apply(&mut self, fact: &Fact<'_>) {
        if let Event::MixSet(event) = fact.event {
            self.name.set_if(event.name.as_ref(), fact);
            self.shares.set_if(event.shares.as_ref(), fact);
            self.life_months.set_if(event.life_months.as_ref(), fact);
            self.retired.set_if(event.retired.as_ref(), fact);
        }
    }
}

/// A product on the shelf.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize)]
pub struct Product {
    pub label_name: Field<String>,
    pub registration: Field<String>,
    #[serde(skip_serializing_if = "Field::never_set")]
    pub formulation: Field<String>,
    pub actives: Field<Vec<ActiveCopy>>,
    #[serde(skip_serializing_if = "Field::never_set")]
    pub uses: Field<Vec<LabelUse>>,
    pub rate_typed: Field<String>,
    pub reentry_h: Field<u32>,
    pub label_photo: Field<String>,
    pub retired: Field<bool>,
}

impl Product {
    pub(super) fn apply(&mut self, fact: &Fact<'_>) {
        if let Event::ProductSet(event) = fact.event {
            self.label_name.set_if(event.label_name.as_ref(), fact);
            self.registration.set_if(event.registration.as_ref(), fact);
            self.formulation.set_if(event.formulation.as_ref(), fact);
            self.actives.set_if(event.actives.as_ref(), fact);
            self.uses.set_if(event.uses.as_ref(), fact);
            self.rate_typed.set_if(event.rate_typed.as_ref(), fact);
            self.reentry_h.set_if(event.reentry_h.as_ref(), fact);
            self.label_photo.set_if(event.label_photo.as_ref(), fact);
            self.retired.set_if(event.retired.as_ref(), fact);
        }
    }
}

/// A treatment as recorded.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Treatment {
    pub on: NaiveDate,
    pub entry: EntryRef,
    /// Where its entry stands in the one order.
    #[serde(skip)]
    pub order: Stamp,
    pub event: Treated,
    /// How the bath was filled up, in order.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub topped: Vec<(NaiveDate, EntryRef, BathTopped)>,
    /// The bath is over.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub ended: Option<(NaiveDate, BathEnded)>,
}

/// A finding as recorded.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Finding {
    pub on: NaiveDate,
    pub entry: EntryRef,
    /// Where its entry stands in the one order.
    #[serde(skip)]
    pub order: Stamp,
    pub event: Found,
}

pub(super) fn keep_treatment(
    kept: &mut BTreeMap<TreatmentId, Treatment>,
    id: TreatmentId,
    fact: &Fact<'_>,
) {
    let on = fact.entry.header.on;
    match fact.event {
        Event::Treated(event) => {
            kept.insert(
                id,
                Treatment {
                    on,
                    entry: fact.entry.id,
                    order: fact.entry.header.order,
                    event: (**event).clone(),
                    topped: Vec::new(),
                    ended: None,
                },
            );
        }
        // Of a treatment that was taken back there is nothing left to fill up or to end.
        Event::BathTopped(event) => {
            if let Some(known) = kept.get_mut(&id) {
                known.topped.push((on, fact.entry.id, (**event).clone()));
            }
        }
        Event::BathEnded(event) => {
            if let Some(known) = kept.get_mut(&id) {
                known.ended.get_or_insert((on, (**event).clone()));
            }
        }
        _ => {}
    }
}

pub(super) fn keep_finding(
    kept: &mut BTreeMap<FindingId, Finding>,
    id: FindingId,
    fact: &Fact<'_>,
) {
    if let Event::Found(event) = fact.event {
        kept.insert(
            id,
            Finding {
                on: fact.entry.header.on,
                entry: fact.entry.id,
                order: fact.entry.header.order,
                event: (**event).clone(),
            },
        );
    }
}

/// One revision of a protocol, in force from the day it was adopted.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Revision {
    pub revision: u16,
    pub on: NaiveDate,
    pub entry: EntryRef,
    pub order: Stamp,
    pub content: Protocol,
}

/// A protocol with all its revisions, oldest first.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize)]
pub struct ProtocolFacts {
    pub revisions: Vec<Revision>,
    /// Entries that revised it without knowing of the one in force.
    pub disputed: Vec<EntryRef>,
    pub settled: BTreeSet<String>,
}

impl ProtocolFacts {
    pub(super) fn apply(&mut self, fact: &Fact<'_>) {
        match fact.event {
            Event::ProtocolAdopted(event) => {
                self.disputed.retain(|by| !fact.knew(*by));
                if let Some(before) = self
                    .revisions
                    .last()
                    .filter(|before| !fact.knew(before.entry))
                {
                    self.disputed.push(before.entry);
                }
                self.revisions.push(Revision {
                    revision: event.revision,
                    on: fact.entry.header.on,
                    entry: fact.entry.id,
                    order: fact.entry.header.order,
                    content: event.content.clone(),
                });
            }
            Event::Settled(event) => drop(self.settled.insert(event.anomaly.clone())),
            _ => {}
        }
    }

    /// The protocol as it stands.
    #[must_use]
    pub fn current(&self) -> Option<&Revision> {
        self.revisions.last()
    }
}

/// What a clump left to be washed, in figures: who reads it may read another language than who wrote it down.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Washing {
    pub pots: u32,
    pub stone_ul: i64,
    pub tray: u32,
}

/// The washing-up as the entry says that ended the work on a clump. The tray stands last in the words of any language.
fn washing(noted: &TaskNoted, events: &[Event]) -> Option<Washing> {
    let pots = events.iter().find_map(|event| match event {
        Event::DivisionClosed(closed) => Some(closed.dirty_pots),
        _ => None,
    })?;
    let mut figures = noted.text.split(|letter: char| !letter.is_ascii_digit());
    let tray = figures.rfind(|figure| !figure.is_empty())?;
    let tray: u32 = tray.parse().ok()?;
    figures.find(|figure| !figure.is_empty())?;
    let moved = events.iter().flat_map(|event| match event {
        Event::MaterialsMoved(it) => &it.moved[..],
        _ => &[],
    });
    let stone = moved.map(|row| row.stone_ul);
    Some(Washing {
        pots,
        stone_ul: stone.fold(0, i64::saturating_add),
        tray,
    })
}

fn ends_a_clump(event: &Event) -> bool {
    matches!(event, Event::DivisionClosed(_))
}

/// A task of the grower's own.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize)]
pub struct NoteTask {
    /// The task as last written, and the entry that brought it in.
    pub noted: Option<(EntryRef, TaskNoted)>,
    /// It is the washing-up of a clump: written down by the entry that ended the work on it.
    #[serde(skip)]
    pub washes_up: bool,
    /// The same in figures, while it stands in the program's own words.
    #[serde(skip)]
    pub washing: Option<Washing>,
    #[serde(serialize_with = "as_list")]
    pub decisions: BTreeMap<TaskKey, Vec<Decision>>,
}

impl NoteTask {
    pub(super) fn apply(&mut self, fact: &Fact<'_>) {
        match fact.event {
            Event::TaskNoted(event) => {
                let first = self.noted.take().map_or(fact.entry.id, |(first, _)| first);
                self.washes_up |= fact.entry.events.iter().flatten().any(ends_a_clump);
                let events = fact.entry.events.as_deref().unwrap_or_default();
                self.washing = washing(event, events);
                self.noted = Some((first, (**event).clone()));
            }
            Event::TaskDecided(event) => {
                let decision = Decision {
                    answer: event.answer,
                    kind: event.kind,
                    due_on: event.due_on,
                    on: fact.entry.header.on,
                    entry: fact.entry.id,
                    order: fact.entry.header.order,
                };
                keep_decision(&mut self.decisions, &event.task, decision, fact);
            }
            _ => {}
        }
    }
}
