//! The facts of the containers on the shelf, and how much is left in each.
//!
//! The level is an estimate and a view over the facts: what it held, or what was last counted, less what treatments
//! and other uses took since. Nothing of a treatment is written down twice, so putting one right or taking it back
//! gives back what it took. Invariants: any order of arrival gives the same level; a use is in a count if it was on an
//! earlier day, or on the same day and whoever counted knew of it.

use std::collections::BTreeMap;

use chrono::NaiveDate;
use serde::Serialize;

use crate::event::{ContainerUsed, Event, Held};
use crate::id::{ContainerId, EntryRef, ProductId};
use crate::log::{Fact, knew};
use crate::time::Stamp;

use super::State;
use super::field::Field;

/// A look at what was left.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Counted {
    pub on: NaiveDate,
    pub order: Stamp,
    pub entry: EntryRef,
    pub left: Held,
}

/// A container of a product.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize)]
pub struct Container {
    pub product: Option<ProductId>,
    pub batch: Field<String>,
    pub opened_on: Field<NaiveDate>,
    pub expires_on: Field<NaiveDate>,
    pub held: Field<Held>,
    pub retired: Field<bool>,
    pub counts: Vec<Counted>,
    /// What left it without treating a plant.
    pub uses: Vec<(NaiveDate, EntryRef, ContainerUsed)>,
}

impl Container {
    pub(super) fn apply(&mut self, fact: &Fact<'_>) {
        let header = &fact.entry.header;
        match fact.event {
            Event::ContainerSet(event) => {
                self.product.get_or_insert(event.product);
                self.batch.set_if(event.batch.as_ref(), fact);
                self.opened_on.set_if(event.opened_on.as_ref(), fact);
                self.expires_on.set_if(event.expires_on.as_ref(), fact);
                self.held.set_if(event.held().as_ref(), fact);
                self.retired.set_if(event.retired.as_ref(), fact);
            }
            Event::ContainerCounted(event) => self.counts.push(Counted {
                on: header.on,
                order: header.order,
                entry: fact.entry.id,
                left: event.held(),
            }),
            Event::ContainerUsed(event) => {
                self.uses
                    .push((header.on, fact.entry.id, (**event).clone()));
            }
            _ => {}
        }
    }

    /// The count that stands: of the latest day, and of that day the last in order.
    #[must_use]
    pub fn counted(&self) -> Option<&Counted> {
        let counts = self.counts.iter();
        counts.max_by_key(|count| (count.on, count.order, count.entry))
    }
}

/// How much is left, as far as it can be reckoned.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Level {
    /// What is left, in its own unit; below nothing where more was taken than it held. `None` where nobody said what
    /// it held and nobody counted.
    pub left: Option<i64>,
    /// The day of its first use.
    pub first_use_on: Option<NaiveDate>,
    /// Uses measured in the other unit, which take nothing off.
    pub other_unit: u32,
}

/// Something taken from a container.
struct Draw {
    on: NaiveDate,
    entry: EntryRef,
    /// `None` where it was measured in the other unit.
    amount: Option<i64>,
}

/// An amount in the unit of the container.
fn in_unit(held: Option<&Held>, amount: Held) -> Option<i64> {
    let same = held.is_none_or(|held| held.weighs() == amount.weighs());
    same.then_some(amount.figure())
}

/// The level of every container in the book.
#[must_use]
pub fn levels(state: &State) -> BTreeMap<ContainerId, Level> {
    let facts = state.facts();
    let mut draws: BTreeMap<ContainerId, Vec<Draw>> = BTreeMap::new();
    let mut draw = |on, entry, id: Option<ContainerId>, measured: Option<Held>| {
        let (Some(id), Some(measured)) = (id, measured) else {
            return;
        };
        let held = facts.containers.get(&id).and_then(|it| it.held.get());
        let amount = in_unit(held, measured);
        draws
            .entry(id)
            .or_default()
            .push(Draw { on, entry, amount });
    };
    for treatment in facts.treatments.values() {
        let event = &treatment.event;
        let (on, entry) = (treatment.on, treatment.entry);
        if event.same_mix_as.is_none() {
            let measured = Held::of(event.amount_ul, event.amount_mg);
            draw(on, entry, event.product.container, measured);
        }
        for (on, entry, topped) in &treatment.topped {
            let measured = Held::of(topped.amount_ul, topped.amount_mg);
            draw(*on, *entry, topped.container, measured);
        }
    }
    let known = facts.containers.iter();
    known
        .map(|(id, container)| {
            let mut drawn = draws.remove(id).unwrap_or_default();
            drawn.extend(container.uses.iter().map(|(on, entry, used)| Draw {
                on: *on,
                entry: *entry,
                amount: in_unit(container.held.get(), used.held()),
            }));
            (*id, level(state, container, &drawn))
        })
        .collect()
}

fn level(state: &State, container: &Container, drawn: &[Draw]) -> Level {
    let counted = container.counted();
    let counting = counted.and_then(|count| state.log().entry(count.entry));
    let in_the_count = |draw: &Draw| {
        counting.is_some_and(|count| {
            let on = count.header.on;
            draw.on < on || draw.on == on && knew(count, draw.entry)
        })
    };
    let since = drawn.iter().filter(|draw| !in_the_count(draw));
    let taken = since.filter_map(|draw| draw.amount);
    let from = counted
        .map(|count| count.left)
        .or(container.held.get().copied())
        .map(Held::figure);
    Level {
        left: from.map(|from| taken.fold(from, i64::saturating_sub)),
        first_use_on: drawn.iter().map(|draw| draw.on).min(),
        other_unit: u32::try_from(drawn.iter().filter(|draw| draw.amount.is_none()).count())
            .unwrap_or(u32::MAX),
    }
}
