//! What was seen of a plant and not looked at since: between the sign and the next look the plant is not what it was, and
//! whoever waters or sells it is told so.
//!
//! A plant was looked at once the look a protocol asks for was decided, after this sign or a later one, or once one of the
//! looks noted for the sign's own days was done. Where nobody writes any look down, a sign is old news after the last of
//! those days.

use std::collections::{BTreeMap, BTreeSet};

use chrono::NaiveDate;

use crate::event::{SeenOn, TaskAnswer};
use crate::id::{ClumpId, EntryRef, FindingId, LotId, ThingId};
use crate::reference::signs::{self, SignRow};
use crate::state::{Born, Decision, Facts, Finding, Lot};
use crate::time::{Stamp, days_between, plus_days};

use super::line::{Before, line};

/// Days after which a sign in the grower's own words is old news.
const OWN_WORDS_DAYS: u16 = 14;

/// What was seen of a lot and is not looked at since, the newest last.
#[must_use]
pub fn unlooked(facts: &Facts, id: LotId, on: NaiveDate) -> Vec<Finding> {
    let line = line(facts, id);
    let mut found: Vec<&Finding> = line
        .iter()
        .flat_map(|(_, lot, limit)| {
            let findings = lot.findings.iter();
            let findings = findings.filter_map(|finding| facts.findings.get(finding));
            findings.filter(move |finding| limit.is_none_or(|limit| finding.order < limit))
        })
        .filter(|finding| is_news(finding, on) && !is_looked_at(facts, &line, finding))
        .collect();
    found.sort_by_key(|finding| (finding.order, finding.entry));
    found.dedup();
    found.into_iter().cloned().collect()
}

/// Lots that get no water before somebody looks again, with the day the sign was seen.
#[must_use]
pub fn kept_dry(facts: &Facts, on: NaiveDate) -> BTreeMap<LotId, NaiveDate> {
    let mut kept: BTreeMap<LotId, NaiveDate> = BTreeMap::new();
    for finding in facts.findings.values() {
        let keep_dry = row(finding).is_some_and(|row| row.keep_dry);
        let (SeenOn::Lot(lot), true) = (finding.event.on, keep_dry && is_news(finding, on)) else {
            continue;
        };
        let (mut open, mut gone_through) = (vec![lot], BTreeSet::new());
        while let Some(lot) = open.pop() {
            // Parts of each other cannot be; the guard keeps even a made-up book from going round.
            if !gone_through.insert(lot) {
                continue;
            }
            if !is_looked_at(facts, &line(facts, lot), finding) {
                let seen_on = kept.entry(lot).or_insert(finding.on);
                *seen_on = finding.on.max(*seen_on);
            }
            // Parts that left it since took the rot along.
            if let Some(known) = facts.lots.get(&lot) {
                let later = known
                    .parts
                    .iter()
                    .filter(|(_, left)| **left > finding.order);
                open.extend(later.map(|(part, _)| *part));
            }
        }
    }
    kept
}

/// The same of one lot.
#[must_use]
pub fn kept_dry_since(facts: &Facts, lot: LotId, on: NaiveDate) -> Option<NaiveDate> {
    let dry = unlooked(facts, lot, on).into_iter();
    dry.filter(|finding| row(finding).is_some_and(|row| row.keep_dry))
        .map(|finding| finding.on)
        .max()
}

fn row(finding: &Finding) -> Option<&'static SignRow> {
    signs::sign(&finding.event.sign)
}

fn is_news(finding: &Finding, on: NaiveDate) -> bool {
    let days = row(finding).and_then(|row| row.again_days.last().copied());
    let last = plus_days(finding.on, i64::from(days.unwrap_or(OWN_WORDS_DAYS)));
    (finding.on..=last).contains(&on)
}

fn is_looked_at(facts: &Facts, line: &[Before<'_>], finding: &Finding) -> bool {
    let decided = line.iter().any(|(_, lot, limit)| {
        lot.decisions.iter().any(|(key, decisions)| {
            let of_this_or_later =
                || found_in(facts, key.anchor).any(|found| found.order >= finding.order);
            decisions.iter().any(|it| is_a_look(it, finding, *limit)) && of_this_or_later()
        })
    });
    decided || is_noted_look_done(facts, line, finding)
}

/// A look that was noted for one of the sign's own days.
fn is_noted_look_done(facts: &Facts, line: &[Before<'_>], finding: &Finding) -> bool {
    let days = row(finding).map(|row| row.again_days).unwrap_or_default();
    facts.note_tasks.values().any(|note| {
        let Some((entry, noted)) = &note.noted else {
            return false;
        };
        let own = line.iter().find(|(id, ..)| noted.lot == Some(*id));
        let after = days_between(finding.on, noted.due_on);
        own.is_some_and(|(_, _, limit)| {
            *entry > finding.entry
                && days.iter().any(|days| i64::from(*days) == after)
                && note
                    .decisions
                    .values()
                    .flatten()
                    .any(|it| is_a_look(it, finding, *limit))
        })
    })
}

/// Whether a decision says that somebody looked, after the sign and before a part left.
fn is_a_look(decision: &Decision, finding: &Finding, limit: Option<Stamp>) -> bool {
    !matches!(decision.answer, TaskAnswer::PutOff { .. })
        && decision.order > finding.order
        && limit.is_none_or(|limit| decision.order < limit)
}

/// Findings an entry wrote down.
fn found_in(facts: &Facts, entry: EntryRef) -> impl Iterator<Item = &Finding> {
    let first = FindingId(ThingId { entry, n: 0 });
    let last = FindingId(ThingId { entry, n: u16::MAX });
    facts.findings.range(first..=last).map(|(_, found)| found)
}

/// Whether rot was seen at the bench on the clump a lot was potted from.
#[must_use]
pub fn cut_from_rot(facts: &Facts, lot: &Lot) -> bool {
    let Some(Born::Potted { clump, .. }) = &lot.born else {
        return false;
    };
    seen_on_clump(facts, *clump).any(|finding| row(finding).is_some_and(|row| row.rots))
}

/// What was seen of a clump at the bench.
fn seen_on_clump(facts: &Facts, clump: ClumpId) -> impl Iterator<Item = &Finding> {
    let known = facts.clumps.get(&clump);
    let findings = known.into_iter().flat_map(|clump| &clump.findings);
    findings.filter_map(|id| facts.findings.get(id))
}
