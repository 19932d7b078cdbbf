//! Who is kept apart, why, and how far it is from coming out.
//!
//! A lot is in quarantine by its own stays and by those of every lot it may come from: a part by the whole, a piece by
//! all possible parents, as they stood when it left them. It comes out by its own release, from the stays whoever let it
//! out knew of. Nothing here is stored. A stay is over only when its days, its clean looks in a row, its treatments and its
//! tests all hold, and never by itself; what was done to the whole after a part had left it is none of the part's.

mod suspicion;
mod terms;

use std::collections::BTreeSet;

use chrono::NaiveDate;

use crate::event::{AgentClass, Outcome, TestResult, Virus};
use crate::id::{EntryRef, LotId, PlaceId};
use crate::reference::signs;
use crate::state::{Born, Facts, Finding, Lot, Release, Stay, Tested, Treatment};
use crate::task::{TaskKind, Trigger};
use crate::time::{Stamp, days_between, plus_days};

pub use suspicion::{Suspicion, clump_is_suspect, suspicion};
pub use terms::{Terms, usual};

/// A stay a lot is under, and the lot that entered it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Held<'a> {
    pub began_as: LotId,
    pub stay: &'a Stay,
}

/// The stays a lot is under, own ones first. Empty when it is free.
#[must_use]
pub fn held(facts: &Facts, id: LotId) -> Vec<Held<'_>> {
    let mut found = Vec::new();
    gather(facts, id, None, &[], &mut BTreeSet::new(), &mut found);
    let mut seen = BTreeSet::new();
    found.retain(|held| seen.insert((held.stay.entry, held.stay.event)));
    found
}

/// Whether a lot is in quarantine.
#[must_use]
pub fn is_held(facts: &Facts, id: LotId) -> bool {
    !held(facts, id).is_empty()
}

/// A lot, until when it matters, and the releases between it and the lot that is asked about.
type Stop = (LotId, Option<Stamp>, Vec<EntryRef>);

/// Collects the stays a lot was under before a place in the order, but for those that one of `released` knew of; a
/// made-up book that goes round is walked once.
fn gather<'a>(
    facts: &'a Facts,
    id: LotId,
    before: Option<Stamp>,
    released: &[&'a Release],
    seen: &mut BTreeSet<Stop>,
    found: &mut Vec<Held<'a>>,
) {
    let by = released.iter().map(|release| release.entry).collect();
    let fresh = seen.insert((id, before, by));
    let Some(lot) = facts.lots.get(&id).filter(|_| fresh) else {
        return;
    };
    let earlier = |order: Stamp| before.is_none_or(|before| order <= before);
    let own = lot
        .apart
        .stays
        .iter()
        .filter(|stay| earlier(stay.order) && stay.ended.is_none_or(|ended| !earlier(ended)))
        .filter(|stay| !released.iter().any(|release| release.knew(stay.entry)));
    found.extend(own.map(|stay| Held { began_as: id, stay }));
    let here = lot.apart.releases.iter();
    let mut released: Vec<&Release> = released
        .iter()
        .copied()
        .chain(here.filter(|release| earlier(release.order)))
        .collect();
    released.sort_by_key(|release| release.entry);
    released.dedup_by_key(|release| release.entry);
    for (from, left) in came_from(facts, id, lot) {
        let before = before.map_or(left, |before| before.min(left));
        gather(facts, from, Some(before), &released, seen, found);
    }
}

/// Lots a lot may come from, and when it left them.
fn came_from(facts: &Facts, id: LotId, lot: &Lot) -> Vec<(LotId, Stamp)> {
    match &lot.born {
        Some(Born::Split { from }) => {
            let left = facts.lots.get(from).and_then(|whole| whole.parts.get(&id));
            left.map(|left| (*from, *left)).into_iter().collect()
        }
        Some(Born::Potted { parents, .. }) => {
            let potted = |anchor: &&crate::state::Anchor| anchor.trigger == Trigger::Divided;
            let began = lot.anchors.iter().find(potted).map(|anchor| anchor.order);
            let began = began.into_iter();
            began
                .flat_map(|began| parents.iter().map(move |parent| (*parent, began)))
                .collect()
        }
        Some(Born::Received { .. }) | None => Vec::new(),
    }
}

/// A lot with the wholes it was split from, each up to where the part left.
pub(crate) fn line(facts: &Facts, id: LotId) -> Vec<(LotId, &Lot, Option<Stamp>)> {
    let mut line: Vec<(LotId, &Lot, Option<Stamp>)> = Vec::new();
    let (mut next, mut until) = (Some(id), None::<Stamp>);
    while let Some(id) = next {
        let known = line.iter().any(|(seen, ..)| *seen == id);
        let Some(lot) = facts.lots.get(&id).filter(|_| !known) else {
            break;
        };
        line.push((id, lot, until));
        next = lot.split_from();
        let left = next
            .and_then(|from| facts.lots.get(&from))
            .and_then(|whole| whole.parts.get(&id).copied());
        until = match (until, left) {
            (Some(a), Some(b)) => Some(a.min(b)),
            (a, b) => a.or(b),
        };
    }
    line
}

/// How far a stay is: what is there, and what is waited for.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Progress {
    pub since_on: NaiveDate,
    pub until_on: NaiveDate,
    pub days_left: i64,
    pub clean: u32,
    pub clean_wanted: u32,
    pub treated: u32,
    pub treated_wanted: u32,
    pub tests: u32,
    pub tests_wanted: u32,
    /// From when the next test counts.
    pub next_test_on: Option<NaiveDate>,
    /// A virus was found in it: no number of days heals that.
    pub found: Option<Virus>,
}

impl Progress {
    /// Whether all hold.
    #[must_use]
    pub fn holds(&self) -> bool {
        self.days_left <= 0 && self.all_but_days()
    }

    /// Whether it waits for days alone.
    #[must_use]
    pub fn all_but_days(&self) -> bool {
        self.clean >= self.clean_wanted
            && self.treated >= self.treated_wanted
            && self.tests >= self.tests_wanted
            && self.found.is_none()
    }
}

/// How far a lot is with a stay on a day.
#[must_use]
pub fn progress(facts: &Facts, id: LotId, stay: &Stay, on: NaiveDate) -> Progress {
    let line = line(facts, id);
    let tests = tests_of(&line);
    let until_on = stay.terms.until_on.unwrap_or(stay.on);
    let wanted = &stay.terms.test_days;
    let negatives = matched(&tests, stay.on, wanted);
    let next = wanted.get(negatives).copied();
    let found = tests
        .iter()
        .find(|tested| tested.test.result == TestResult::Detected);
    let count = |number: usize| u32::try_from(number).unwrap_or(u32::MAX);
    Progress {
        since_on: stay.on,
        until_on,
        days_left: days_between(on, until_on).max(0),
        clean: count(clean_looks(facts, &line, stay).len()),
        clean_wanted: u32::from(stay.terms.inspections),
        treated: count(treated_on(facts, &line, stay).len()),
        treated_wanted: u32::from(stay.terms.treatments),
        tests: count(negatives),
        tests_wanted: count(wanted.len()),
        next_test_on: next.map(|days| plus_days(stay.on, i64::from(days))),
        found: found.map(|tested| tested.test.virus),
    }
}

type Line<'a> = [(LotId, &'a Lot, Option<Stamp>)];

/// Tests of a lot and of the wholes it was split from.
pub(crate) fn tests_of<'a>(line: &Line<'a>) -> Vec<&'a Tested> {
    let tests = line.iter().flat_map(|(_, lot, until)| {
        let tests = lot.apart.tests.iter();
        tests.filter(move |tested| until.is_none_or(|until| tested.order <= until))
    });
    tests.collect()
}

/// How many of the days waited for have a test of their own that found neither virus, the latest day first.
pub(crate) fn matched(tests: &[&Tested], since_on: NaiveDate, days: &[u16]) -> usize {
    let of = |virus: Virus| {
        let clean = |tested: &&&Tested| {
            tested.test.virus == virus && tested.test.result == TestResult::NotDetected
        };
        let mut left: BTreeSet<NaiveDate> =
            tests.iter().filter(clean).map(|tested| tested.on).collect();
        let mut days = days.to_vec();
        days.sort_unstable();
        let mut met = 0;
        for day in days.into_iter().rev() {
            let from = plus_days(since_on, i64::from(day));
            if let Some(last) = left.last().copied().filter(|last| *last >= from) {
                left.remove(&last);
                met += 1;
            }
        }
        met
    };
    Virus::BOTH.into_iter().map(of).min().unwrap_or(0)
}

/// Days on which a look found nothing, since something was last found.
fn clean_looks(facts: &Facts, line: &Line<'_>, stay: &Stay) -> BTreeSet<NaiveDate> {
    let mut clean = BTreeSet::new();
    let mut found_on = stay.on;
    for (_, lot, until) in line {
        let looks = lot.decisions.values().filter_map(|decided| {
            let held = |order: Stamp| until.is_none_or(|until| order <= until);
            decided.iter().rev().find(|decision| held(decision.order))
        });
        for look in looks.filter(|look| look.kind == TaskKind::QuarantineLook && look.on > stay.on)
        {
            match look.outcome() {
                Some(Outcome::Well) => drop(clean.insert(look.on)),
                Some(Outcome::NeedsMore) => found_on = found_on.max(look.on),
                None => {}
            }
        }
        let findings = lot.findings.iter().filter_map(|id| facts.findings.get(id));
        let of_it = |finding: &&Finding| until.is_none_or(|until| finding.order <= until);
        for finding in findings
            .filter(of_it)
            .filter(|finding| finding.on >= stay.on)
        {
            let own = stay.terms.finding == Some(finding.event.finding);
            let agent = finding
                .event
                .agent
                .or_else(|| signs::sign(&finding.event.sign).map(|row| row.agent));
            if !own && agent != Some(AgentClass::Culture) {
                found_on = found_on.max(finding.on);
            }
        }
    }
    clean.retain(|on| *on > found_on);
    clean
}

/// Days on which the lot, or a place while it stood there, was treated since it was kept apart; of the wholes it was
/// split from, what was done before it left them.
fn treated_on(facts: &Facts, line: &Line<'_>, stay: &Stay) -> BTreeSet<NaiveDate> {
    let mut treated = BTreeSet::new();
    for (_, lot, until) in line {
        let of_it = |it: &&Treatment| until.is_none_or(|until| it.order <= until);
        let of_lot = lot.treatments.iter();
        let of_lot = of_lot.filter_map(|id| facts.treatments.get(id));
        let all = of_lot.chain(with_its_places(facts, lot)).filter(of_it);
        let all = all.map(|treatment| treatment.on);
        treated.extend(all.filter(|on| *on >= stay.on));
    }
    treated
}

/// Treatments of whole places while a lot stood in them.
fn with_its_places<'a>(facts: &'a Facts, lot: &'a Lot) -> impl Iterator<Item = &'a Treatment> {
    let stood = lot.stood.iter().enumerate();
    stood.flat_map(move |(at, stood)| {
        let to = lot.stood.get(at.saturating_add(1)).map(|next| next.order);
        let place = facts.places.get(&stood.place);
        let here = place.into_iter().flat_map(|place| &place.treatments);
        let here = here.filter_map(|id| facts.treatments.get(id));
        here.filter(move |it| {
            let stands = it.order >= stood.order && to.is_none_or(|to| it.order < to);
            stands && it.event.parts.is_empty()
        })
    })
}

/// Lots kept apart that a treatment of a place may count for although they stand elsewhere by now: they, or a whole they
/// were split from, stood there once.
pub(crate) fn stood_there(facts: &Facts, place: PlaceId) -> Vec<LotId> {
    let mut seen = BTreeSet::new();
    let mut open: Vec<LotId> = facts.lots_with_stays().collect();
    while let Some(id) = open.pop() {
        if let Some(lot) = facts.lots.get(&id).filter(|_| seen.insert(id)) {
            open.extend(lot.children.iter().chain(lot.parts.keys()).copied());
        }
    }
    let once = |lot: &Lot| lot.stood.iter().any(|stood| stood.place == place);
    let was_there = |id: &LotId| line(facts, *id).iter().any(|(_, lot, _)| once(lot));
    seen.into_iter()
        .filter(|id| was_there(id) && is_held(facts, *id))
        .collect()
}
