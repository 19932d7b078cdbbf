//! What a cut would bring: flowers by season and plants of a size to sell by year, for a way that is looked at, and the
//! cohorts of all cuts that are planned.
//!
//! Invariants: a lot that is cut leaves what it was on that day; the number of pieces is as unsure as it was said; a
//! clump counts once however many lots grew into it.

use chrono::NaiveDate;

use crate::event::{CutPlan, PieceClass};
use crate::reference::taxa::{self, Group};
use crate::season::{Window, add_months};
use crate::state::{Lot, State};
use crate::task::derive::{flowering_windows, group_row};
use crate::time::plus_days;

use super::Span;
use super::cohort::{Beliefs, Cohort, Sum, beliefs};

/// Seasons and years looked at.
const SEASONS: usize = 3;
const YEARS: u8 = 5;
/// Months looked through for seasons.
const MONTHS: i32 = 40;

/// Plants in flower in one season.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Season {
    /// The first of its middle month.
    pub month: NaiveDate,
    pub in_flower: Span,
}

/// What one way would bring.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Ahead {
    /// The next seasons; none where its kind has no flowering months.
    pub seasons: Vec<Season>,
    /// Plants of a size to sell so many years on, if none is sold.
    pub saleable: Vec<(u8, Span)>,
}

/// What is to come of pieces and whole plants potted on a day.
#[must_use]
pub fn ahead(
    state: &State,
    group: Group,
    windows: &[Window],
    pieces: &[(PieceClass, Span)],
    whole: u32,
    on: NaiveDate,
) -> Ahead {
    let known = beliefs(state, on);
    let cohorts = cohorts(group, windows, pieces, whole, on, &known);
    let sum = |on: NaiveDate| {
        let mut sum = Sum::default();
        for cohort in &cohorts {
            sum.add(cohort, on);
        }
        sum.span()
    };
    let seasons = seasons(windows, on)
        .into_iter()
        .map(|month| Season {
            month,
            in_flower: sum(plus_days(month, 14)),
        })
        .collect();
    let saleable = (1..=YEARS)
        .filter_map(|year| Some((year, add_months(on, i32::from(year).checked_mul(12)?)?)))
        .map(|(year, on)| (year, sum(on)))
        .collect();
    Ahead { seasons, saleable }
}

/// Flowering months of lots that are cut, as they hold here: those of the first, else of the group.
#[must_use]
pub fn windows_of(state: &State, lots: &[crate::id::LotId], group: Group) -> Vec<Window> {
    let facts = state.facts();
    let first = lots.first().and_then(|lot| facts.lots.get(lot));
    first.map_or_else(
        || {
            let own = facts
                .book
                .groups
                .get(&group)
                .and_then(|known| known.flowering_windows.get());
            own.cloned()
                .unwrap_or_else(|| taxa::flowering_windows(group, facts.book.hemisphere()))
        },
        |lot| flowering_windows(facts, lot),
    )
}

fn cohorts(
    group: Group,
    windows: &[Window],
    pieces: &[(PieceClass, Span)],
    whole: u32,
    on: NaiveDate,
    known: &Beliefs,
) -> Vec<Cohort> {
    let kept = pieces.iter().filter(|(class, _)| class.is_kept());
    let kept = kept.map(|(class, span)| (Some(*class), *span));
    let stays = (whole > 0).then_some((
        None,
        Span {
            low: whole,
            middle: whole,
            high: whole,
        },
    ));
    kept.chain(stays)
        .map(|(class, span)| Cohort::to_come(group, class, span, on, windows.to_vec(), known))
        .collect()
}

/// The middle months of the next seasons that open after a day; one that is open on it is not the next.
fn seasons(windows: &[Window], on: NaiveDate) -> Vec<NaiveDate> {
    let mut runs: Vec<Vec<NaiveDate>> = Vec::new();
    let start = chrono::Datelike::with_day(&on, 1).unwrap_or(on);
    let flowers = |first: NaiveDate| {
        let middle = plus_days(first, 14);
        let falls = |window: &Window| window.contains(first) || window.contains(middle);
        windows.iter().any(falls)
    };
    let months: Vec<(NaiveDate, bool)> = (0..=MONTHS)
        .filter_map(|ahead| add_months(start, ahead))
        .map(|first| (first, flowers(first)))
        .collect();
    // A kind that never pauses has its seasons from now on.
    let pauses = months.iter().position(|(_, falls)| !falls);
    let mut open = false;
    for (first, falls) in months.into_iter().skip(pauses.unwrap_or(1)) {
        match runs.last_mut() {
            // A kind that flowers all the year has a season a year.
            Some(run) if falls && open && run.len() < 12 => run.push(first),
            _ if falls => runs.push(vec![first]),
            _ => {}
        }
        open = falls;
    }
    runs.iter()
        .filter_map(|run| run.get(run.len() / 2).copied())
        .take(SEASONS)
        .collect()
}

/// All plants as they would be if what is planned were cut, with the number of cuts and of kept pieces.
pub(super) fn with_planned(state: &State, today: NaiveDate) -> Option<(Vec<Cohort>, u32, u32)> {
    let facts = state.facts();
    let known = beliefs(state, today);
    let (mut cohorts_all, mut cuts, mut kept) = (Vec::new(), 0_u32, 0_u32);
    let mut give = |lots: &[crate::id::LotId], group, plan: &CutPlan, on: NaiveDate| {
        let windows = windows_of(state, lots, group);
        let pieces = spans(plan);
        cohorts_all.extend(cohorts(group, &windows, &pieces, plan.whole, on, &known));
        cuts = cuts.saturating_add(1);
        kept = kept.saturating_add(plan.kept());
    };
    let mut standing: Vec<Cohort> = Vec::new();
    for (id, lot) in facts.live_lots().filter(|(_, lot)| lot.plants > 0) {
        let cohort = Cohort::of_lot(state, lot, &known, today);
        let Some(cut) = &lot.plan else {
            standing.push(cohort);
            continue;
        };
        let on = day_of(&cut.plan, today);
        let plants = u32::try_from(lot.plants).unwrap_or(0);
        standing.extend(cohort.cut_on(on, plants));
        // The first of them that is still there stands for the clump.
        let there = |lot: &Lot| lot.plants > 0 && lot.plan.is_some();
        let first = cut
            .lots
            .iter()
            .find(|lot| facts.lots.get(lot).is_some_and(|lot| there(lot)));
        if first.is_none_or(|first| *first == id) {
            give(&cut.lots, group_row(lot).group, &cut.plan, on);
        }
    }
    for (_, clump) in facts.open_clumps() {
        let uncut = PieceClass::ALL
            .into_iter()
            .all(|class| clump.taken_of(class) == 0);
        if let (Some(plan), Some(opened), true) = (&clump.plan, &clump.opened, uncut) {
            give(&clump.parents(), opened.name.plant_group(), plan, today);
        }
    }
    if cuts == 0 {
        return None;
    }
    standing.extend(cohorts_all);
    Some((standing, cuts, kept))
}

/// The day a plan is for; what is late is cut today.
fn day_of(plan: &CutPlan, today: NaiveDate) -> NaiveDate {
    plan.by_on.unwrap_or(today).max(today)
}

/// A plan's pieces with their ranges.
#[must_use]
pub fn spans(plan: &CutPlan) -> Vec<(PieceClass, Span)> {
    let rows = plan.pieces.iter().filter_map(|row| {
        let (low, middle, high) = plan.of_class(row.class)?;
        Some((row.class, Span { low, middle, high }))
    });
    rows.collect()
}
