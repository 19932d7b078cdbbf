//! Survival set apart by what the pieces stand in and by what they were treated with, and how long until they flowered.
//!
//! The same cases as in [`super::learn`], counted under a further word: the table's range of the class stays the prior, so
//! that three pieces in a new mix move little. Nobody drew lots for mixes or treatments either.

use std::collections::BTreeMap;

use chrono::NaiveDate;

use crate::event::{PieceClass, Sight};
use crate::id::LotId;
use crate::reference::taxa::Group;
use crate::state::{Born, Facts, Lot, State};
use crate::task::derive::group_row;
use crate::time::days_between;

use super::learn::{Learned, belief, cases, potting_of};

/// What cases are set apart by.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum By {
    /// The mix they were potted in.
    Mix,
    /// The product they were treated with between the cut and the pot.
    Treatment,
}

/// What is believed of a class under one word.
#[derive(Clone, Debug, PartialEq)]
pub struct LearnedBy {
    /// The mix or the product; nothing for none.
    pub word: String,
    pub row: Learned,
}

/// Survival by class, group and a further word; only where there are two words to set against each other.
#[must_use]
pub fn learn_by(state: &State, today: NaiveDate, by: By) -> Vec<LearnedBy> {
    let facts = state.facts();
    let mut sums: BTreeMap<(PieceClass, Group), BTreeMap<String, (u32, u32)>> = BTreeMap::new();
    for case in cases(state, today) {
        let word = match by {
            By::Mix => mix_of(state, case.lot),
            By::Treatment => treatment_of(facts, case.lot, case.class),
        };
        let known = sums.entry((case.class, case.group)).or_default();
        let known = known.entry(word).or_insert((0, 0));
        known.0 = known.0.saturating_add(case.of);
        known.1 = known.1.saturating_add(case.alive);
    }
    let mut rows: Vec<LearnedBy> = Vec::new();
    for ((class, group), words) in sums {
        let words: Vec<_> = words.into_iter().filter(|(_, (of, _))| *of > 0).collect();
        if words.len() < 2 {
            continue;
        }
        rows.extend(words.into_iter().filter_map(|(word, (of, alive))| {
            let row = belief(class, group, of, alive)?;
            Some(LearnedBy { word, row })
        }));
    }
    rows
}

fn mix_of(state: &State, lot: LotId) -> String {
    let potting = potting_of(state, lot);
    let named = potting.and_then(|potting| {
        let mix = potting.mix.and_then(|mix| state.facts().mixes.get(&mix));
        let now = mix.map(|mix| mix.name.or_default());
        now.filter(|name| !name.is_empty())
            .or(Some(potting.mix_name))
    });
    named.unwrap_or_default()
}

fn treatment_of(facts: &Facts, id: LotId, class: PieceClass) -> String {
    let clump = facts.lots.get(&id).and_then(|lot| match &lot.born {
        Some(Born::Potted { clump, .. }) => facts.clumps.get(clump),
        _ => None,
    });
    let treated = clump.into_iter().flat_map(|clump| &clump.treated);
    let mut names: Vec<String> = treated
        .filter(|(_, of, _)| *of == class)
        .filter_map(|(treatment, ..)| facts.treatments.get(treatment))
        .map(|treatment| treatment.event.product.label_name.clone())
        .collect();
    names.sort_unstable();
    names.dedup();
    names.join(" + ")
}

/// How long pieces of a class took from the pot to their first open flower.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Flowered {
    pub class: PieceClass,
    pub group: Group,
    /// Lots that were seen in flower: each counts once.
    pub lots: u32,
    /// The shortest, the middle and the longest, in days.
    pub days: [i64; 3],
}

/// Time to flower by class and group, the most lots first.
#[must_use]
pub fn flowered(state: &State) -> Vec<Flowered> {
    let mut seen: BTreeMap<(PieceClass, Group), Vec<i64>> = BTreeMap::new();
    for lot in state.facts().lots.values() {
        let (Some(Born::Potted { .. }), Some(potted), Some(opened)) =
            (&lot.born, lot.born_on, first_open(lot))
        else {
            continue;
        };
        // What it was potted as is its class, until it is potted on as another one.
        if let Some(class) = lot.class {
            let known = seen.entry((class, group_row(lot).group)).or_default();
            known.push(days_between(potted, opened));
        }
    }
    let mut rows: Vec<Flowered> = seen
        .into_iter()
        .filter_map(|((class, group), mut days)| {
            days.sort_unstable();
            let middle = *days.get(days.len() / 2)?;
            Some(Flowered {
                class,
                group,
                lots: u32::try_from(days.len()).unwrap_or(u32::MAX),
                days: [*days.first()?, middle, *days.last()?],
            })
        })
        .collect();
    rows.sort_by_key(|row| (std::cmp::Reverse(row.lots), row.class, row.group));
    rows
}

fn first_open(lot: &Lot) -> Option<NaiveDate> {
    let sights = lot.sights.iter();
    let open = sights.filter(|sight| sight.what == Sight::FirstOpen);
    open.map(|sight| sight.on).min()
}
