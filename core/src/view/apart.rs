//! A lot kept apart: why, how far it is, what was tested, and whether the book proposes to keep it apart at all.

use chrono::NaiveDate;

use crate::event::{QuarantineWhy, Source, VirusTested};
use crate::id::{EntryRef, LotId};
use crate::quarantine::{self, Progress, Suspicion};
use crate::state::{Born, Facts, State};
use crate::time::days_between;

use super::{LotLabel, lot_label};

/// Days after its arrival for which a lot from elsewhere is still proposed for quarantine.
const PROPOSED_DAYS: i64 = 30;

/// One stay of a lot.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct StayRow {
    pub why: QuarantineWhy,
    /// The sign that was found.
    pub sign: Option<String>,
    /// The lot it came with, where that is another.
    pub came_with: Option<LotLabel>,
    pub progress: Progress,
}

/// A test on record, newest first.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct TestRow {
    pub entry: EntryRef,
    pub on: NaiveDate,
    pub test: VirusTested,
    /// The lot that was tested, where that is the whole this one was split from.
    pub of: LotId,
}

/// Everything the page of a lot says of it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct ApartView {
    pub stays: Vec<StayRow>,
    pub may_come_out: bool,
    /// Came from elsewhere lately and was never kept apart.
    pub arrival: bool,
    pub suspicion: Option<(Suspicion, LotLabel)>,
    pub tests: Vec<TestRow>,
}

/// What is to be said of a lot on a day.
#[must_use]
pub fn apart(state: &State, id: LotId, on: NaiveDate) -> ApartView {
    let facts = state.facts();
    let held = quarantine::held(facts, id);
    let stays: Vec<StayRow> = held
        .iter()
        .map(|held| StayRow {
            why: held.stay.terms.why,
            sign: held
                .stay
                .terms
                .finding
                .and_then(|finding| facts.findings.get(&finding))
                .map(|finding| finding.event.sign.clone()),
            came_with: (held.began_as != id).then(|| lot_label(facts, held.began_as)),
            progress: quarantine::progress(facts, id, held.stay, on),
        })
        .collect();
    let suspicion = quarantine::suspicion(facts, id).map(|why| {
        let (Suspicion::Detected { of, .. } | Suspicion::Sign { of, .. }) = why;
        (why, lot_label(facts, of))
    });
    ApartView {
        may_come_out: !stays.is_empty() && stays.iter().all(|stay| stay.progress.holds()),
        stays,
        arrival: arrival(facts, id, on),
        suspicion,
        tests: tests(facts, id),
    }
}

/// Whether a lot is proposed for quarantine because it came from elsewhere.
#[must_use]
pub fn arrival(facts: &Facts, id: LotId, on: NaiveDate) -> bool {
    let Some(lot) = facts.lots.get(&id).filter(|lot| lot.is_stocked()) else {
        return false;
    };
    let elsewhere = matches!(
        lot.born,
        Some(Born::Received {
            source: Source::Bought | Source::Exchanged,
            ..
        })
    );
    let late = lot
        .born_on
        .is_none_or(|born| days_between(born, on) > PROPOSED_DAYS);
    elsewhere && !late && lot.apart.stays.is_empty()
}

fn tests(facts: &Facts, id: LotId) -> Vec<TestRow> {
    let line = quarantine::line(facts, id);
    let mut rows: Vec<TestRow> = quarantine::tests_of(&line)
        .into_iter()
        .map(|tested| TestRow {
            entry: tested.entry,
            on: tested.on,
            test: tested.test.clone(),
            of: tested.test.lot,
        })
        .collect();
    rows.sort_by_key(|row| std::cmp::Reverse((row.on, row.entry)));
    rows
}
