//! What the plants of a lot had before, over every way the lot may have come about.
//!
//! A part of a lot carries what the whole had until it left; a lot from the bench carries what its pieces were treated
//! with after the cut, and what one of its possible parents had before the clump was opened. Invariants: what a parent
//! got afterwards never counts; batches of one mixture, and one product on one day, are one use; the same book gives the
//! same lines on every phone.

use std::collections::BTreeSet;

use chrono::NaiveDate;

use super::codes_of;
use crate::event::{AgentClass, Event, PieceClass, TreatedPart};
use crate::id::{ClumpId, EntryRef, LotId, ProductId, TreatmentId};
use crate::reference::actives::Code;
use crate::state::{Born, State};
use crate::time::Stamp;

/// Ways a lot may have come about that are told apart; beyond, those with the most uses are kept.
const LINES_MAX: usize = 64;
/// Generations looked back.
const BACK_MAX: u32 = 32;
/// Batches of one mixture followed back to the first.
const BATCHES_MAX: u32 = 256;

/// What is judged: a lot, or pieces that have no lot yet.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Target {
    Lot(LotId),
    Pieces(ClumpId, PieceClass),
}

impl From<&TreatedPart> for Target {
    fn from(part: &TreatedPart) -> Self {
        match part {
            TreatedPart::Lot { lot, .. } => Self::Lot(*lot),
            TreatedPart::Pieces { clump, class, .. } => Self::Pieces(*clump, *class),
        }
    }
}

/// One use of a product.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Use {
    pub treatment: TreatmentId,
    pub on: NaiveDate,
    pub against: AgentClass,
    pub codes: Vec<Code>,
    /// Some of it has no known code.
    pub unknown: bool,
    pub product: Option<ProductId>,
    pub label_name: String,
    /// It was given to an ancestor, not to these plants under their own name.
    pub inherited: bool,
}

/// Uses from first to last.
pub type Line = Vec<Use>;

#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
struct Step {
    on: NaiveDate,
    order: Stamp,
    treatment: TreatmentId,
}

type Steps = BTreeSet<Vec<Step>>;

/// Every line that may be behind these plants; one empty line where nothing was ever used.
#[must_use]
pub fn history(state: &State, target: Target) -> Vec<Line> {
    let steps = match target {
        Target::Lot(lot) => of_lot(state, lot, None, BACK_MAX),
        Target::Pieces(clump, class) => of_pieces(state, clump, class, None, BACK_MAX),
    };
    let mut lines: Vec<Line> = Vec::new();
    for line in steps {
        let line = uses(state, &line, target);
        if !lines.contains(&line) {
            lines.push(line);
        }
    }
    lines
}

/// A place in time: the day, and within it the order of entries.
type Cut = (NaiveDate, Stamp);

fn when(state: &State, entry: EntryRef) -> Option<Cut> {
    let header = &state.log().entry(entry)?.header;
    Some((header.on, header.order))
}

fn own<'a>(
    state: &State,
    treatments: impl Iterator<Item = &'a TreatmentId>,
    cut: Option<Cut>,
) -> Vec<Step> {
    treatments
        .filter_map(|id| {
            let known = state.facts().treatments.get(id)?;
            let (_, order) = when(state, known.entry)?;
            let step = Step {
                on: known.on,
                order,
                treatment: *id,
            };
            cut.is_none_or(|cut| (step.on, step.order) < cut)
                .then_some(step)
        })
        .collect()
}

fn earlier(a: Option<Cut>, b: Option<Cut>) -> Option<Cut> {
    match (a, b) {
        (Some(a), Some(b)) => Some(a.min(b)),
        (a, b) => a.or(b),
    }
}

fn of_lot(state: &State, id: LotId, cut: Option<Cut>, back: u32) -> Steps {
    let Some(lot) = state.facts().lots.get(&id) else {
        return nothing();
    };
    let own = own(state, lot.treatments.iter(), cut);
    let cut = earlier(cut, when(state, id.0.entry));
    let before = match (&lot.born, back.checked_sub(1)) {
        (Some(Born::Split { from }), Some(back)) => of_lot(state, *from, cut, back),
        (Some(Born::Potted { clump, parents, .. }), Some(back)) => {
            let class = potted_as(state, id).or(lot.class);
            let on_bench = class.map(|class| bathed(state, *clump, class, cut));
            let cut = earlier(cut, opened(state, *clump));
            let lines = of_parents(state, parents, cut, back);
            joined(lines, &on_bench.unwrap_or_default())
        }
        _ => nothing(),
    };
    joined(before, &own)
}

fn of_pieces(
    state: &State,
    clump: ClumpId,
    class: PieceClass,
    cut: Option<Cut>,
    back: u32,
) -> Steps {
    let parents = state.facts().clumps.get(&clump);
    let parents = parents.map(|clump| clump.parents()).unwrap_or_default();
    let lines = of_parents(state, &parents, earlier(cut, opened(state, clump)), back);
    joined(lines, &bathed(state, clump, class, cut))
}

fn of_parents(state: &State, parents: &[LotId], cut: Option<Cut>, back: u32) -> Steps {
    let Some(back) = back.checked_sub(1) else {
        return nothing();
    };
    let lines: Steps = parents
        .iter()
        .flat_map(|parent| of_lot(state, *parent, cut, back))
        .collect();
    if lines.is_empty() {
        nothing()
    } else {
        few(lines)
    }
}

fn nothing() -> Steps {
    Steps::from([Vec::new()])
}

fn few(lines: Steps) -> Steps {
    if lines.len() <= LINES_MAX {
        return lines;
    }
    let mut lines: Vec<Vec<Step>> = lines.into_iter().collect();
    lines.sort_by_key(|line| std::cmp::Reverse(line.len()));
    lines.truncate(LINES_MAX);
    lines.into_iter().collect()
}

fn joined(lines: Steps, more: &[Step]) -> Steps {
    let join = |mut line: Vec<Step>| {
        line.extend_from_slice(more);
        line.sort();
        line.dedup();
        line
    };
    few(lines.into_iter().map(join).collect())
}

fn opened(state: &State, clump: ClumpId) -> Option<Cut> {
    let opened = state.facts().clumps.get(&clump)?.opened.as_ref()?;
    when(state, opened.entry)
}

/// What pieces of that class were treated with on the bench.
fn bathed(state: &State, clump: ClumpId, class: PieceClass, cut: Option<Cut>) -> Vec<Step> {
    let Some(clump) = state.facts().clumps.get(&clump) else {
        return Vec::new();
    };
    let of_class = clump.treated.iter().filter(|(_, of, _)| *of == class);
    own(state, of_class.map(|(treatment, ..)| treatment), cut)
}

/// The class a lot was potted as; it may have grown into another since.
fn potted_as(state: &State, id: LotId) -> Option<PieceClass> {
    let mut facts = state.log().facts(id.0.entry);
    facts.find_map(|fact| match fact.event {
        Event::PiecesPotted(event) if event.lot == id => Some(event.class),
        _ => None,
    })
}

/// The treatment a mixture was measured for.
fn measured_for(state: &State, mut id: TreatmentId) -> TreatmentId {
    for _ in 0..BATCHES_MAX {
        let known = state.facts().treatments.get(&id);
        match known.and_then(|known| known.event.same_mix_as) {
            Some(first) => id = first,
            None => break,
        }
    }
    id
}

fn uses(state: &State, steps: &[Step], target: Target) -> Line {
    let mut seen: BTreeSet<TreatmentId> = BTreeSet::new();
    let mut line: Line = Vec::new();
    for step in steps {
        let Some(known) = state.facts().treatments.get(&step.treatment) else {
            continue;
        };
        let event = &known.event;
        let again = !seen.insert(measured_for(state, step.treatment))
            || line
                .iter()
                .any(|one| one.on == known.on && one.label_name == event.product.label_name);
        if again {
            continue;
        }
        let known_codes = codes_of(state, &event.product, event.against);
        line.push(Use {
            treatment: step.treatment,
            on: known.on,
            against: event.against,
            codes: known_codes.codes.into_iter().collect(),
            unknown: !known_codes.unknown.is_empty(),
            product: event.product.product,
            label_name: event.product.label_name.clone(),
            inherited: !event.parts.iter().any(|part| Target::from(part) == target),
        });
    }
    line
}
