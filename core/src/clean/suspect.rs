//! Which lots are suspected of a virus: what was seen on them, on the clump they came of, or on what they descend from.
//!
//! A cut carries sap to every piece of a clump, so suspicion goes down the lineage and never up it.

use std::collections::BTreeSet;

use crate::event::{AgentClass, Found};
use crate::id::{ClumpId, FindingId, LotId};
use crate::state::{Born, Facts};

/// A sign that is a virus until somebody says otherwise.
const VIRUS_SIGN: &str = "streaks";

fn means_virus(found: &Found) -> bool {
    match found.agent {
        Some(AgentClass::Virus) => true,
        None | Some(AgentClass::Unknown) => found.sign == VIRUS_SIGN,
        Some(_) => false,
    }
}

fn any_virus(facts: &Facts, findings: &[FindingId]) -> bool {
    let known = findings.iter().filter_map(|id| facts.findings.get(id));
    known.into_iter().any(|finding| means_virus(&finding.event))
}

/// Whether a lot is suspected of a virus, by itself or by what it descends from.
#[must_use]
pub fn lot_suspect(facts: &Facts, lot: LotId) -> bool {
    let mut seen: BTreeSet<LotId> = BTreeSet::new();
    let mut open = vec![lot];
    while let Some(id) = open.pop() {
        let Some(lot) = facts.lots.get(&id).filter(|_| seen.insert(id)) else {
            continue;
        };
        if any_virus(facts, &lot.findings) {
            return true;
        }
        if let Some(Born::Potted { clump, .. }) = &lot.born
            && facts
                .clumps
                .get(clump)
                .is_some_and(|clump| any_virus(facts, &clump.findings))
        {
            return true;
        }
        open.extend(lot.parents());
        open.extend(lot.split_from());
    }
    false
}

/// Whether a clump is: something seen on it at the bench, or one of the lots that went into it.
#[must_use]
pub fn clump_suspect(facts: &Facts, id: ClumpId) -> bool {
    facts.clumps.get(&id).is_some_and(|clump| {
        any_virus(facts, &clump.findings)
            || clump.parents().iter().any(|lot| lot_suspect(facts, *lot))
    })
}
