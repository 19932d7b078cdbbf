//! The facts of a clump in work: what came onto the bench, what came off it, what is potted.

use std::collections::BTreeMap;

use chrono::NaiveDate;
use serde::Serialize;

use crate::event::{ClosedHow, CutPlan, Event, OpenedLot, PieceClass, SeenOn, TreatedPart};
use crate::id::{EntryRef, FindingId, LotId, PlaceId, TreatmentId};
use crate::log::Fact;
use crate::name::PlantName;

/// How a clump came to the bench.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct ClumpOpened {
    pub entry: EntryRef,
    pub on: NaiveDate,
    pub at_ms: i64,
    pub off_min: i16,
    pub tray: u32,
    pub lots: Vec<OpenedLot>,
    pub unbooked_pots: u32,
    pub name: PlantName,
    pub place: Option<PlaceId>,
    pub leads: Option<u32>,
    pub bulbs: Option<u32>,
    #[serde(skip_serializing_if = "String::is_empty")]
    pub tool: String,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub cut_before: Option<u32>,
}

/// Pieces of one class that came off.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize)]
pub struct Taken {
    pub plants: i64,
    /// Bulbs on them, where somebody counted.
    pub bulbs: Option<u64>,
}

/// How work on a clump ended.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct ClumpClosed {
    pub on: NaiveDate,
    pub how: ClosedHow,
    pub dirty_pots: u32,
    pub took_min: Option<u32>,
}

/// The facts of a clump in work.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize)]
pub struct Clump {
    pub opened: Option<ClumpOpened>,
    pub taken: BTreeMap<PieceClass, Taken>,
    pub potted: BTreeMap<PieceClass, i64>,
    /// Lots potted from it, in order.
    pub lots: Vec<LotId>,
    /// Since when pieces lie bare: the day as said, the phone's clock and its offset.
    pub bare_since: Option<(NaiveDate, i64, i16)>,
    pub closed: Option<ClumpClosed>,
    pub findings: Vec<FindingId>,
    pub treated: Vec<(TreatmentId, PieceClass, u32)>,
    pub settled: std::collections::BTreeSet<String>,
    /// What it is meant to become, as it was said last.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub plan: Option<CutPlan>,
}

impl Clump {
    #[must_use]
    pub fn is_open(&self) -> bool {
        self.opened.is_some() && self.closed.is_none()
    }

    /// Pieces of a class that came off so far; never below nothing.
    #[must_use]
    pub fn taken_of(&self, class: PieceClass) -> u64 {
        self.taken
            .get(&class)
            .map_or(0, |taken| u64::try_from(taken.plants).unwrap_or(0))
    }

    #[must_use]
    pub fn potted_of(&self, class: PieceClass) -> u64 {
        self.potted
            .get(&class)
            .map_or(0, |plants| u64::try_from(*plants).unwrap_or(0))
    }

    /// Kept pieces that are not potted yet.
    #[must_use]
    pub fn bare_of(&self, class: PieceClass) -> u64 {
        if class.is_kept() {
            self.taken_of(class).saturating_sub(self.potted_of(class))
        } else {
            0
        }
    }

    /// All kept pieces that lie bare.
    #[must_use]
    pub fn bare(&self) -> u64 {
        PieceClass::ALL
            .into_iter()
            .map(|class| self.bare_of(class))
            .sum()
    }

    /// Booked lots that may be the parents.
    #[must_use]
    pub fn parents(&self) -> Vec<LotId> {
        self.opened
            .iter()
            .flat_map(|opened| &opened.lots)
            .map(|opened| opened.lot)
            .collect()
    }

    /// Pieces lie bare from the first that came off since all were last potted.
    fn note_bare(&mut self, fact: &Fact<'_>) {
        let header = &fact.entry.header;
        if self.bare() == 0 {
            self.bare_since = None;
        } else if self.bare_since.is_none() {
            self.bare_since = Some((header.on, header.at_ms, header.off_min));
        }
    }

    pub(super) fn apply(&mut self, fact: &Fact<'_>) {
        let header = &fact.entry.header;
        match fact.event {
            Event::DivisionPlanned(event) => self.plan.clone_from(&event.plan),
            Event::DivisionOpened(event) => {
                self.plan.clone_from(&event.plan);
                self.opened = Some(ClumpOpened {
                    entry: fact.entry.id,
                    on: header.on,
                    at_ms: header.at_ms,
                    off_min: header.off_min,
                    tray: event.tray,
                    lots: event.lots.clone(),
                    unbooked_pots: event.unbooked_pots,
                    name: event.name.clone(),
                    place: event.place,
                    leads: event.leads,
                    bulbs: event.bulbs,
                    tool: event.tool.clone(),
                    cut_before: event.cut_before,
                });
            }
            Event::PiecesTaken(event) => {
                let taken = self.taken.entry(event.class).or_default();
                taken.plants = taken.plants.saturating_add(i64::from(event.plants));
                if let Some(bulbs) = event.bulbs {
                    taken.bulbs = Some(taken.bulbs.unwrap_or(0).saturating_add(u64::from(bulbs)));
                }
                self.note_bare(fact);
            }
            Event::PiecesPotted(event) => {
                let potted = self.potted.entry(event.class).or_default();
                *potted = potted.saturating_add(i64::from(event.plants));
                self.lots.push(event.lot);
                self.note_bare(fact);
            }
            Event::DivisionClosed(event) => {
                self.closed = Some(ClumpClosed {
                    on: header.on,
                    how: event.how,
                    dirty_pots: event.dirty_pots,
                    took_min: event.took_min,
                });
            }
            Event::Found(event) if matches!(event.on, SeenOn::Clump(_)) => {
                self.findings.push(event.finding);
            }
            Event::Treated(event) => {
                for part in &event.parts {
                    if let TreatedPart::Pieces { class, plants, .. } = part {
                        self.treated.push((event.treatment, *class, *plants));
                    }
                }
            }
            Event::Settled(event) => drop(self.settled.insert(event.anomaly.clone())),
            _ => {}
        }
    }
}
