//! What must never meet, looked for on record: what was in tub and measures these days, and what these plants had within
//! the days that matter, through every plant they may come from.
//!
//! It warns and says how long to wait. A tub that was disinfected was emptied and rinsed for it: from then on only the
//! disinfectant counts.

use chrono::NaiveDate;

use crate::event::{ActiveCopy, Object};
use crate::id::{EntryRef, TreatmentId};
use crate::reference::never::{Pair, Stuff, Stuffs, between, of_agent, of_product};
use crate::rotation::{Target, history};
use crate::state::State;
use crate::time::{Stamp, days_between, plus_days};

/// Days for which something is looked for in tub and measures (common practice, no source).
pub const VESSEL_DAYS: i64 = 2;

/// Where two things would meet.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Where {
    /// In the tub, the can, the measures, on the tools.
    Vessel,
    /// On the plants.
    Plants,
}

/// What it was that is there already.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Before {
    /// A product by its label.
    Product(String),
    /// A disinfectant by its key.
    Agent(String),
}

/// Two things that would meet.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Meeting {
    pub pair: &'static Pair,
    /// Which of the two is about to be used.
    pub new: Stuff,
    pub old: Stuff,
    pub at: Where,
    pub before: Before,
    pub on: NaiveDate,
    /// The first day on which it is far enough from it on the plants; tub and measures wait for rinsing alone.
    pub wait_until: Option<NaiveDate>,
}

/// What is about to be used with what is there: first what is in tub and measures, then what is on the plants.
#[must_use]
pub fn meetings(state: &State, new: &Stuffs, targets: &[Target], today: NaiveDate) -> Vec<Meeting> {
    let mut met = in_vessels(state, new, today);
    let mut on_plants = on_plants(state, new, targets, today);
    on_plants.sort_by_key(|one| std::cmp::Reverse(one.wait_until));
    met.append(&mut on_plants);
    met
}

/// What is still in tub and measures, the last first.
fn in_vessels(state: &State, new: &Stuffs, today: NaiveDate) -> Vec<Meeting> {
    let facts = state.facts();
    let near = |on: NaiveDate| (0..=VESSEL_DAYS).contains(&days_between(on, today));
    let order = |entry: EntryRef| -> Option<(NaiveDate, Stamp)> {
        let header = &state.log().entry(entry)?.header;
        Some((header.on, header.order))
    };
    let cleanings = &facts.book.materials.cleanings;
    let tub_cleaned = cleanings
        .iter()
        .filter(|one| one.event.what == Object::Tub)
        .filter_map(|one| order(one.entry))
        .max();
    let still_there =
        |entry: EntryRef| order(entry).filter(|order| tub_cleaned.is_none_or(|tub| *order >= tub));
    let mixtures = facts
        .treatments
        .values()
        .filter(|known| near(known.on) && known.event.water_ul.is_some())
        .filter_map(|known| {
            let product = &known.event.product;
            let before = Before::Product(product.label_name.clone());
            Some((
                still_there(known.entry)?,
                before,
                of_product(&product.actives),
            ))
        });
    let agents = cleanings
        .iter()
        .filter(|one| near(one.on))
        .filter_map(|one| {
            let before = Before::Agent(one.event.agent.clone());
            Some((still_there(one.entry)?, before, of_agent(&one.event.agent)))
        });
    let mut there: Vec<_> = mixtures.chain(agents).collect();
    there.sort_by_key(|(order, ..)| std::cmp::Reverse(*order));
    let mut met: Vec<Meeting> = Vec::new();
    for ((on, _), before, stuffs) in there {
        for (pair, stuff) in between(new, &stuffs) {
            let known = |one: &Meeting| one.pair == pair && one.before == before;
            if met.iter().any(known) {
                continue;
            }
            met.push(Meeting {
                pair,
                new: stuff,
                old: pair.other(stuff).unwrap_or(stuff),
                at: Where::Vessel,
                before: before.clone(),
                on,
                wait_until: None,
            });
        }
    }
    met
}

/// What the plants had within the days that matter; each pair once, at its last use.
fn on_plants(state: &State, new: &Stuffs, targets: &[Target], today: NaiveDate) -> Vec<Meeting> {
    let mut met: Vec<Meeting> = Vec::new();
    let lines = targets.iter().flat_map(|target| history(state, *target));
    for one in lines.flatten() {
        let stuffs = of_product(&actives_of(state, one.treatment));
        for (pair, stuff) in between(new, &stuffs) {
            let Some((_, most)) = pair.days else {
                continue;
            };
            let wait_until = plus_days(one.on, i64::from(most));
            if wait_until <= today {
                continue;
            }
            let meeting = Meeting {
                pair,
                new: stuff,
                old: pair.other(stuff).unwrap_or(stuff),
                at: Where::Plants,
                before: Before::Product(one.label_name.clone()),
                on: one.on,
                wait_until: Some(wait_until),
            };
            match met.iter_mut().find(|known| known.pair == pair) {
                Some(known) if known.wait_until < meeting.wait_until => *known = meeting,
                Some(_) => {}
                None => met.push(meeting),
            }
        }
    }
    met
}

fn actives_of(state: &State, treatment: TreatmentId) -> Vec<ActiveCopy> {
    let known = state.facts().treatments.get(&treatment);
    known
        .map(|known| known.event.product.actives.clone())
        .unwrap_or_default()
}
