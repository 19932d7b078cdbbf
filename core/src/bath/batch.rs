//! What goes into a bath together: nothing with a virus suspected into a shared one, healthy pieces before spotted ones.
//!
//! A shared bath spreads what it touches. Suspicion of a virus goes through the whole lineage; spots count on the plants
//! they were seen on.

use std::collections::BTreeSet;

use serde::{Deserialize, Serialize};

use super::{BathDraft, BathFault};
use crate::event::{AgentClass, Event, SplitWhy, TreatedPart};
use crate::id::{ClumpId, FindingId, LotId, Subject};
use crate::quarantine;
use crate::state::State;

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
    if quarantine::suspicion(state.facts(), lot).is_some() {
        return Suspicion::Virus;
    }
    let known = state.facts().lots.get(&lot);
    let spotted = known.is_some_and(|known| spreads(state, &known.findings));
    symptoms(spotted || set_apart_as_ill(state, lot))
}

fn of_clump(state: &State, clump: ClumpId) -> Suspicion {
    if quarantine::clump_is_suspect(state.facts(), clump) {
        return Suspicion::Virus;
    }
    let Some(known) = state.facts().clumps.get(&clump) else {
        return Suspicion::Nothing;
    };
    let lots = known.opened.iter().flat_map(|opened| &opened.lots);
    let on_lots = lots.map(|opened| of_lot(state, opened.lot)).max();
    symptoms(spreads(state, &known.findings)).max(on_lots.unwrap_or_default())
}

fn symptoms(seen: bool) -> Suspicion {
    if seen {
        Suspicion::Symptoms
    } else {
        Suspicion::Nothing
    }
}

/// Whether something that spreads in water was seen.
fn spreads(state: &State, findings: &[FindingId]) -> bool {
    let known = findings
        .iter()
        .filter_map(|id| state.facts().findings.get(id));
    known.into_iter().any(|finding| {
        matches!(
            finding.event.agent,
            Some(AgentClass::Fungus | AgentClass::WaterMould | AgentClass::Bacterium)
        )
    })
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
