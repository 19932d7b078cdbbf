//! What goes into a bath together: nothing with a virus suspected into a shared one, healthy pieces before spotted ones.
//!
//! A shared bath spreads what it touches. Suspicion of a virus goes through the whole lineage and does not pass with
//! time; spots count on the plants they were seen on.

use std::collections::BTreeSet;

use serde::{Deserialize, Serialize};

use super::{BathDraft, BathFault};
use crate::event::{AgentClass, Event, SplitWhy, TreatedPart};
use crate::id::{ClumpId, FindingId, LotId, Subject};
use crate::state::{Born, State};

/// What is suspected of plants, the worst last.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Suspicion {
    #[default]
    Nothing,
    /// Something that spreads was seen on them, or they were set apart as ill.
    Symptoms,
    Virus,
}

/// What is suspected of the plants of one part.
#[must_use]
pub fn suspicion(state: &State, part: &TreatedPart) -> Suspicion {
    match part {
        TreatedPart::Lot { lot, .. } => of_lot(state, *lot),
        TreatedPart::Pieces { clump, .. } => of_clump(state, *clump),
    }
}

fn of_lot(state: &State, lot: LotId) -> Suspicion {
    let known = state.facts().lots.get(&lot);
    let seen = known.map_or(Suspicion::Nothing, |known| seen(state, &known.findings));
    let ill = if set_apart_as_ill(state, lot) {
        Suspicion::Symptoms
    } else {
        Suspicion::Nothing
    };
    seen.max(ill).max(through_the_lineage(state, vec![lot]))
}

fn of_clump(state: &State, clump: ClumpId) -> Suspicion {
    let Some(known) = state.facts().clumps.get(&clump) else {
        return Suspicion::Nothing;
    };
    let lots = known.opened.iter().flat_map(|opened| &opened.lots);
    let lots: Vec<LotId> = lots.map(|opened| opened.lot).collect();
    let on_lots = lots.iter().map(|lot| of_lot(state, *lot)).max();
    seen(state, &known.findings).max(on_lots.unwrap_or_default())
}

/// The worst of what was seen.
fn seen(state: &State, findings: &[FindingId]) -> Suspicion {
    let known = findings
        .iter()
        .filter_map(|id| state.facts().findings.get(id));
    let each = known.map(|finding| match finding.event.agent {
        Some(AgentClass::Virus) => Suspicion::Virus,
        Some(AgentClass::Fungus | AgentClass::WaterMould | AgentClass::Bacterium) => {
            Suspicion::Symptoms
        }
        _ => Suspicion::Nothing,
    });
    each.max().unwrap_or_default()
}

/// A virus suspected of any plant it may come from, or of a clump it came off.
fn through_the_lineage(state: &State, mut open: Vec<LotId>) -> Suspicion {
    let mut looked_at = BTreeSet::new();
    let virus = |findings: &[FindingId]| seen(state, findings) == Suspicion::Virus;
    while let Some(lot) = open.pop() {
        let Some(known) = state
            .facts()
            .lots
            .get(&lot)
            .filter(|_| looked_at.insert(lot))
        else {
            continue;
        };
        if virus(&known.findings) {
            return Suspicion::Virus;
        }
        match &known.born {
            Some(Born::Split { from }) => open.push(*from),
            Some(Born::Potted { clump, parents, .. }) => {
                let clump = state.facts().clumps.get(clump);
                if clump.is_some_and(|clump| virus(&clump.findings)) {
                    return Suspicion::Virus;
                }
                open.extend(parents);
            }
            Some(Born::Received { .. }) | None => {}
        }
    }
    Suspicion::Nothing
}

fn set_apart_as_ill(state: &State, lot: LotId) -> bool {
    let about = state.log().about(Subject::Lot(lot));
    let mut entries = about.filter_map(|place| state.log().entry(place.id));
    entries.any(|entry| {
        let events = entry.events.as_ref().map_or(&[][..], Vec::as_slice);
        events.iter().any(|event| {
            matches!(event, Event::LotSplit(it) if it.lot == lot && it.why == SplitWhy::Ill)
        })
    })
}

impl BathDraft {
    /// Whether what was chosen may go in together, and after what was in it before. Says the worst that goes in.
    ///
    /// # Errors
    /// A virus is suspected and the bath would be shared, or was in it already.
    pub(super) fn may_share(
        &self,
        state: &State,
        parts: &[TreatedPart],
    ) -> Result<Suspicion, BathFault> {
        if self.life.worst_in == Suspicion::Virus {
            return Err(BathFault::AfterVirus);
        }
        let worst = parts.iter().map(|part| suspicion(state, part)).max();
        let worst = worst.unwrap_or_default();
        if worst == Suspicion::Virus {
            let plants: BTreeSet<Subject> = parts
                .iter()
                .map(|part| match part {
                    TreatedPart::Lot { lot, .. } => Subject::Lot(*lot),
                    TreatedPart::Pieces { clump, .. } => Subject::Clump(*clump),
                })
                .collect();
            if self.dips > 0 || plants.len() > 1 {
                return Err(BathFault::VirusShared);
            }
        }
        Ok(worst)
    }

    /// Healthy plants are chosen although spotted ones were in it, or go in beside them.
    #[must_use]
    pub fn healthy_after_spotted(&self, state: &State) -> bool {
        let parts = self.parts(state);
        let each: Vec<Suspicion> = parts.iter().map(|part| suspicion(state, part)).collect();
        let healthy = each.contains(&Suspicion::Nothing);
        let beside = each.iter().any(|one| *one > Suspicion::Nothing);
        healthy && (beside || self.life.worst_in > Suspicion::Nothing)
    }
}
