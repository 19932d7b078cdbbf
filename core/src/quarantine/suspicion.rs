//! Whether a lot is suspect of a virus: tested so, or with a sign of it, itself or any lot it may come from.

use std::collections::BTreeSet;

use chrono::NaiveDate;

use crate::event::{AgentClass, TestResult, Virus};
use crate::id::{FindingId, LotId};
use crate::reference::signs::{self, Apart};
use crate::reference::virus::RETEST_DAYS;
use crate::state::{Born, Facts};

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
    let sign = || {
        family.iter().find_map(|of| {
            let seen = facts.lots.get(of)?.findings.iter();
            let mut seen = seen.filter_map(|finding| facts.findings.get(finding));
            let finding = seen.find(|finding| {
                let row = signs::sign(&finding.event.sign);
                let virus = row.is_some_and(|row| {
                    row.agent == AgentClass::Virus && row.apart == Apart::UntilTested
                });
                virus && matched(&tests, finding.on, &RETEST_DAYS) < RETEST_DAYS.len()
            })?;
            Some(Suspicion::Sign {
                finding: finding.event.finding,
                on: finding.on,
                of: *of,
            })
        })
    };
    detected.or_else(sign)
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
