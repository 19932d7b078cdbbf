//! Findings that still wait to be looked at again: between the sign and the next look the plant is not what it was, and
//! whoever waters or sells it is told so.

use crate::id::{ClumpId, EntryRef, FindingId, LotId, ThingId};
use crate::reference::signs;
use crate::state::{Born, Facts, Finding, Lot, State};

use super::TaskKind;
use super::derive::Task;

/// What a task to look again looks for.
#[must_use]
pub fn looked_for<'a>(facts: &'a Facts, task: &Task) -> Vec<&'a Finding> {
    if task.kind != TaskKind::LookAgain {
        return Vec::new();
    }
    found_in(facts, task.key.anchor)
        .map(|(_, finding)| finding)
        .collect()
}

/// Findings an entry wrote down.
fn found_in(facts: &Facts, entry: EntryRef) -> impl Iterator<Item = (FindingId, &Finding)> {
    let first = FindingId(ThingId { entry, n: 0 });
    let last = FindingId(ThingId { entry, n: u16::MAX });
    facts
        .findings
        .range(first..=last)
        .map(|(id, finding)| (*id, finding))
}

/// What was seen of a lot and not looked at since, the newest last.
#[must_use]
pub fn unlooked(state: &State, lot: LotId) -> Vec<Finding> {
    let facts = state.facts();
    let tasks = state.tasks_of(lot);
    let mut found: Vec<Finding> = tasks
        .iter()
        .flat_map(|task| looked_for(facts, task))
        .cloned()
        .collect();
    found.sort_by_key(|finding| (finding.on, finding.entry));
    found.dedup();
    found
}

/// Whether a plant with this sign gets no water before it was looked at again.
#[must_use]
pub fn keeps_dry(finding: &Finding) -> bool {
    signs::sign(&finding.event.sign).is_some_and(|row| row.keep_dry)
}

/// Whether rot was seen at the bench on the clump a lot was potted from.
#[must_use]
pub fn cut_from_rot(facts: &Facts, lot: &Lot) -> bool {
    let Some(Born::Potted { clump, .. }) = &lot.born else {
        return false;
    };
    seen_on_clump(facts, *clump)
        .any(|finding| signs::sign(&finding.event.sign).is_some_and(|row| row.rots))
}

/// What was seen of a clump at the bench.
fn seen_on_clump(facts: &Facts, clump: ClumpId) -> impl Iterator<Item = &Finding> {
    let known = facts.clumps.get(&clump);
    let findings = known.into_iter().flat_map(|clump| &clump.findings);
    findings.filter_map(|id| facts.findings.get(id))
}
