//! Whether a lot is suspect of a virus: tested so, or with a sign of it, itself, any lot it may come from, or a clump
//! that one came off. The one rule for quarantine, the bath, the wash and the order at the bench.
//!
//! A cut carries sap to every piece of a clump, so suspicion goes down the lineage and never up it.

use std::collections::BTreeSet;

use chrono::NaiveDate;

use crate::event::{AgentClass, TestResult, Virus};
use crate::id::{ClumpId, FindingId, LotId};
use crate::reference::signs::{self, Apart};
use crate::reference::virus::RETEST_DAYS;
use crate::state::{Born, Clump, Facts, Finding, Lot};

use super::{line, matched, tests_of};

/// Why a lot is suspect, the worst first.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Suspicion {
    /// A test found a virus in this lot, or in one it comes from.
    Detected {
        virus: Virus,
        on: NaiveDate,
        of: LotId,
    },
    /// A sign of virus was seen, and no two tests have said otherwise since.
    Sign {
        finding: FindingId,
        on: NaiveDate,
        of: LotId,
    },
}

/// Whether a lot is suspect. A virus is not cured and shows late: a parent found ill after the division counts too.
#[must_use]
pub fn suspicion(facts: &Facts, id: LotId) -> Option<Suspicion> {
    let family = family(facts, id);
    let detected = family.iter().find_map(|of| {
        let tests = facts.lots.get(of)?.apart.tests.iter();
        let mut found = tests.filter(|tested| tested.test.result == TestResult::Detected);
        found.next().map(|tested| Suspicion::Detected {
            virus: tested.test.virus,
            on: tested.on,
            of: *of,
        })
    });
    let tests = tests_of(&line(facts, id));
    let cleared = |on| matched(&tests, on, &RETEST_DAYS) >= RETEST_DAYS.len();
    let sign = || {
        family.iter().find_map(|of| {
            let lot = facts.lots.get(of)?;
            let of_clump = clump_of(facts, lot).map_or(&[][..], |clump| &clump.findings);
            let mut seen = virus_signs(facts, lot.findings.iter().chain(of_clump));
            let finding = seen.find(|finding| !cleared(finding.on))?;
            Some(Suspicion::Sign {
                finding: finding.event.finding,
                on: finding.on,
                of: *of,
            })
        })
    };
    detected.or_else(sign)
}

/// Whether a clump is: by what was seen on it at the bench, or by a lot that went into it.
#[must_use]
pub fn clump_is_suspect(facts: &Facts, id: ClumpId) -> bool {
    facts.clumps.get(&id).is_some_and(|clump| {
        virus_signs(facts, clump.findings.iter()).next().is_some()
            || clump
                .parents()
                .iter()
                .any(|lot| suspicion(facts, *lot).is_some())
    })
}

/// Findings that mean a virus: guessed so, or of a sign that is one until somebody says otherwise.
fn virus_signs<'a>(
    facts: &'a Facts,
    findings: impl Iterator<Item = &'a FindingId>,
) -> impl Iterator<Item = &'a Finding> {
    let known = findings.filter_map(|id| facts.findings.get(id));
    known.filter(|finding| match finding.event.agent {
        Some(AgentClass::Virus) => true,
        None | Some(AgentClass::Unknown) => signs::sign(&finding.event.sign)
            .is_some_and(|row| row.agent == AgentClass::Virus && row.apart == Apart::UntilTested),
        Some(_) => false,
    })
}

fn clump_of<'a>(facts: &'a Facts, lot: &Lot) -> Option<&'a Clump> {
    match lot.born.as_ref()? {
        Born::Potted { clump, .. } => facts.clumps.get(clump),
        Born::Split { .. } | Born::Received { .. } => None,
    }
}

/// A lot and all it may come from, itself first.
fn family(facts: &Facts, id: LotId) -> Vec<LotId> {
    let mut seen = BTreeSet::from([id]);
    let mut family = vec![id];
    let mut at = 0;
    while let Some(here) = family.get(at).copied() {
        at += 1;
        let before: Vec<LotId> = match facts.lots.get(&here).and_then(|lot| lot.born.as_ref()) {
            Some(Born::Split { from }) => vec![*from],
            Some(Born::Potted { parents, .. }) => parents.clone(),
            Some(Born::Received { .. }) | None => Vec::new(),
        };
        family.extend(before.into_iter().filter(|from| seen.insert(*from)));
    }
    family
}
