//! The facts of keeping a lot apart: its stays in quarantine, what ended them, and its tests.
//!
//! A release ends the stays its phone knew of: one that was entered elsewhere meanwhile goes on, for the cautious answer
//! counts. Stays that came with the plants from another lot are a view over lineage (see `quarantine`), by the same rule.

use std::sync::Arc;

use chrono::NaiveDate;
use serde::Serialize;

use crate::entry::Marks;
use crate::event::{Event, QuarantineEntered, VirusTested};
use crate::id::EntryRef;
use crate::log::{Fact, knew_by};
use crate::time::Stamp;

/// A lot went into quarantine.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Stay {
    pub entry: EntryRef,
    pub event: u16,
    pub order: Stamp,
    pub on: NaiveDate,
    pub terms: QuarantineEntered,
    /// When it was ended, in the order of entries.
    pub ended: Option<Stamp>,
}

/// A lot came out of quarantine.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Release {
    pub entry: EntryRef,
    pub order: Stamp,
    pub on: NaiveDate,
    /// Why it came out before all held.
    pub early: String,
    /// What its phone had seen when it let the lot out.
    #[serde(skip)]
    pub seen: Arc<Marks>,
}

impl Release {
    /// Whether its phone knew of an entry.
    #[must_use]
    pub fn knew(&self, other: EntryRef) -> bool {
        knew_by(self.entry, &self.seen, other)
    }
}

/// A test for a virus.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Tested {
    pub entry: EntryRef,
    pub order: Stamp,
    pub on: NaiveDate,
    pub test: VirusTested,
}

/// Stays, releases and tests of one lot, in the order of entries.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize)]
pub struct Apart {
    pub stays: Vec<Stay>,
    pub releases: Vec<Release>,
    pub tests: Vec<Tested>,
}

impl Apart {
    /// Whether nothing of the kind was ever recorded.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        self.stays.is_empty() && self.releases.is_empty() && self.tests.is_empty()
    }

    pub(super) fn apply(&mut self, fact: &Fact<'_>) {
        let header = &fact.entry.header;
        let (entry, order, on) = (fact.entry.id, header.order, header.on);
        match fact.event {
            Event::QuarantineEntered(event) => self.stays.push(Stay {
                entry,
                event: fact.index,
                order,
                on,
                terms: (**event).clone(),
                ended: None,
            }),
            Event::QuarantineReleased(event) => {
                let known = self.stays.iter_mut();
                for stay in known.filter(|stay| stay.ended.is_none() && fact.knew(stay.entry)) {
                    stay.ended = Some(order);
                }
                self.releases.push(Release {
                    entry,
                    order,
                    on,
                    early: event.early.clone(),
                    seen: Arc::clone(&fact.entry.seen),
                });
            }
            Event::VirusTested(event) => self.tests.push(Tested {
                entry,
                order,
                on,
                test: (**event).clone(),
            }),
            _ => {}
        }
    }
}
