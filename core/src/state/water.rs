//! The facts of water and feed: what a place, or a lot by itself, got and when; and the feeds of the shelf.
//!
//! Invariant: no task rests on them. Whoever waters plants whose first water was due answers that task in the same entry,
//! by an event of its own; so a bench watered on a large book works nothing out again.

use chrono::NaiveDate;
use serde::Serialize;

use crate::event::{Event, Fed, Nitrogen, WaterHow};
use crate::id::{EntryRef, LotId};
use crate::log::Fact;
use crate::time::Stamp;

use super::field::Field;

/// One watering, with feed or without.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Watering {
    pub on: NaiveDate,
    pub order: Stamp,
    pub entry: EntryRef,
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub except: Vec<LotId>,
    pub how: WaterHow,
    pub flush: bool,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub fed: Option<Box<Fed>>,
}

/// Waterings in order.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize)]
pub struct Waterings(pub Vec<Watering>);

impl Waterings {
    pub(super) const fn is_empty(&self) -> bool {
        self.0.is_empty()
    }

    pub(super) fn apply(&mut self, fact: &Fact<'_>) {
        let (except, how, flush, fed) = match fact.event {
            Event::Watered(it) => (&it.except, it.how, it.flush, None),
            Event::Fed(it) => (&it.except, it.how, false, Some(it.clone())),
            _ => return,
        };
        self.0.push(Watering {
            on: fact.entry.header.on,
            order: fact.entry.header.order,
            entry: fact.entry.id,
            except: except.clone(),
            how,
            flush,
            fed,
        });
    }
}

/// A feed of the shelf.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize)]
pub struct FeedFacts {
    pub name: Field<String>,
    pub npk_typed: Field<String>,
    pub nitrogen: Field<Nitrogen>,
    pub ec_us_cm: Field<u32>,
    pub retired: Field<bool>,
}

impl FeedFacts {
    pub(super) fn apply(&mut self, fact: &Fact<'_>) {
        if let Event::FeedSet(event) = fact.event {
            self.name.set_if(event.name.as_ref(), fact);
            self.npk_typed.set_if(event.npk_typed.as_ref(), fact);
            self.nitrogen.set_if(event.nitrogen.as_ref(), fact);
            self.ec_us_cm.set_if(event.ec_us_cm.as_ref(), fact);
            self.retired.set_if(event.retired.as_ref(), fact);
        }
    }
}
