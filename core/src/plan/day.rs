//! The plan for a day's minutes, over the rows of the Round.
//!
//! Worth grows with the days work is late, with a window about to close, with its priority and with the pots it is for.
//! Order: the walk, place by place; then the bench, healthy plants before suspects; baths last, because what was
//! bathed has to lie and dry.

use std::collections::BTreeMap;

use chrono::NaiveDate;

use crate::event::AgentClass;
use crate::id::{LotId, PlaceId};
use crate::quarantine;
use crate::state::{Facts, State};
use crate::task::TaskKind;
use crate::task::derive::Task;
use crate::time::days_between;
use crate::view::PlaceLabel;
use crate::view::reentry::{Bound, BoundWhat, bound};
use crate::view::round::{RoundView, Row, RowState, round};

use super::choose::{Job, choose};
use super::minutes::{BATH_TENTHS, BENCH_TENTHS, Learned, OWN_TENTHS, WALK_TENTHS, learned_bench};

/// Days before its end at which a window counts as closing.
const CLOSING_DAYS: i64 = 5;
/// Pots beyond which a lot counts no more.
const POTS_MAX: u32 = 50;

/// Why work was chosen.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Why {
    Late {
        days: i64,
    },
    Closing {
        days: i64,
    },
    Due,
    /// Its day has not come, but its window is open and there is room.
    Room {
        days: i64,
    },
}

/// Why work was left out.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum LeftOutWhy {
    /// It needs so many tenths of a minute, set-up included, and other work is worth more.
    NoTime { tenths: u32 },
    /// Nobody goes near before this instant, at this offset of the phone that recorded it.
    Bound { until_ms: i64, off_min: i16 },
}

/// Chosen work: a row of the Round, or the part of it that fits.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Chosen {
    pub row: Row,
    pub tenths: u32,
    pub why: Why,
    /// Tasks of the same row that do not fit.
    pub left_out: usize,
}

/// Work that was left out.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct LeftOut {
    pub place: Option<PlaceLabel>,
    pub row: Row,
    pub why: LeftOutWhy,
}

/// One stop of the plan.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct PlanStop {
    pub at: Stage,
    pub set_up_tenths: u32,
    pub rows: Vec<Chosen>,
}

/// Where work is done.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Stage {
    Place(Option<PlaceLabel>),
    Bench,
    Bath,
}

/// A plan for so many minutes.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct DayPlan {
    pub stops: Vec<PlanStop>,
    pub left_out: Vec<LeftOut>,
    /// Tenths of a minute planned, set-ups included.
    pub tenths: u32,
    /// What the timers say a pot takes at the bench, where they say anything.
    pub learned: Option<Learned>,
}

/// One task that may be chosen.
struct Open<'a> {
    row: &'a Row,
    place: Option<&'a PlaceLabel>,
    task: &'a Task,
    /// Which row of the Round, and which task of it.
    nth: usize,
    at: usize,
    set_up: SetUp,
    job: Job,
    suspect: bool,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum SetUp {
    Place(Option<PlaceId>),
    Bench,
    Bath,
}

impl SetUp {
    pub(super) fn tenths(self) -> u32 {
        match self {
            Self::Place(_) => WALK_TENTHS,
            Self::Bench => BENCH_TENTHS,
            Self::Bath => BATH_TENTHS,
        }
    }
}

/// The plan for so many tenths of a minute on a day, at an instant of it.
#[must_use]
pub fn day_plan(state: &State, on: NaiveDate, now_ms: i64, room_tenths: u32) -> DayPlan {
    let view = round(state, on);
    let learned = learned_bench(state);
    let bound = bound(state, now_ms);
    let mut left_out = Vec::new();
    let mut open: Vec<Open<'_>> = Vec::new();
    let rows = view
        .stops
        .iter()
        .flat_map(|stop| stop.rows.iter().map(move |row| (stop, row)));
    for (nth, (stop, row)) in rows.enumerate() {
        if !may_be_done(row.state) {
            continue;
        }
        let place = stop.place.as_ref();
        for (at, task) in row.tasks.iter().enumerate() {
            match binding(&bound, task) {
                Some(bound) => leave_out(
                    &mut left_out,
                    place,
                    &part(row, &[at]),
                    LeftOutWhy::Bound {
                        until_ms: bound.until_ms,
                        off_min: bound.off_min,
                    },
                ),
                None => open.push(Open {
                    nth,
                    at,
                    ..candidate(state.facts(), on, place, row, task, learned)
                }),
            }
        }
    }
    // The most urgent first: should there ever be more than can be looked at, those are.
    open.sort_by_key(|one| std::cmp::Reverse(one.job.worth));
    let mut keys: Vec<SetUp> = open.iter().map(|one| one.set_up).collect();
    keys.sort_unstable();
    keys.dedup();
    let set_ups: Vec<u32> = keys.iter().map(|key| key.tenths()).collect();
    for one in &mut open {
        one.job.set_up = keys.binary_search(&one.set_up).unwrap_or(usize::MAX);
    }
    let jobs: Vec<Job> = open.iter().map(|one| one.job).collect();
    let chosen = choose(&jobs, &set_ups, room_tenths);
    let (stops, tenths) = put_in_order(&view, on, &open, &chosen);
    for (one, _) in open.iter().zip(&chosen).filter(|(_, chosen)| !**chosen) {
        let tenths = one.job.tenths.saturating_add(one.set_up.tenths());
        let why = LeftOutWhy::NoTime { tenths };
        leave_out(&mut left_out, one.place, &part(one.row, &[one.at]), why);
    }
    DayPlan {
        stops,
        left_out,
        tenths,
        learned,
    }
}

fn may_be_done(state: RowState) -> bool {
    matches!(
        state,
        RowState::Late { .. } | RowState::Due | RowState::MayStart { .. }
    )
}

fn binding<'a>(bound: &'a [Bound], task: &Task) -> Option<&'a Bound> {
    bound
        .iter()
        .filter(|row| match row.what {
            BoundWhat::Lot(lot) => task.lot == Some(lot),
            BoundWhat::Place(place) => task.place == Some(place),
            BoundWhat::Clump(_) | BoundWhat::TableAndTub => false,
        })
        .max_by_key(|row| row.until_ms)
}

fn candidate<'a>(
    facts: &Facts,
    on: NaiveDate,
    place: Option<&'a PlaceLabel>,
    row: &'a Row,
    task: &'a Task,
    learned: Option<Learned>,
) -> Open<'a> {
    let (set_up, tenths, stands) = cost(facts, task, learned);
    Open {
        row,
        place,
        task,
        nth: 0,
        at: 0,
        set_up,
        job: Job {
            tenths,
            worth: worth(task, row.state, on, stands),
            set_up: 0,
        },
        suspect: task.lot.is_some_and(|lot| is_suspect(facts, lot)),
    }
}

/// The set-up a task needs, the tenths of a minute it takes, and the pots it is for.
pub(super) fn cost(facts: &Facts, task: &Task, learned: Option<Learned>) -> (SetUp, u32, u32) {
    let stands = task
        .lot
        .and_then(|lot| u32::try_from(facts.lots.get(&lot)?.stands).ok())
        .unwrap_or(1)
        .max(1);
    let set_up = match task.kind {
        kind if kind.def().at_bench => SetUp::Bench,
        TaskKind::RepeatTreatment => SetUp::Bath,
        _ => SetUp::Place(task.place),
    };
    let each = match (set_up, learned) {
        (SetUp::Bench, Some(learned)) => learned.tenths,
        _ if task.minutes_tenths == 0 => OWN_TENTHS,
        _ => u32::from(task.minutes_tenths),
    };
    (set_up, each.saturating_mul(stands), stands)
}

/// What doing it today is worth. Common sense, no source: late work grows by the day, a closing window by its end.
fn worth(task: &Task, state: RowState, on: NaiveDate, stands: u32) -> u32 {
    let closing = match days_between(on, task.until_on) {
        days @ 0..=CLOSING_DAYS => 4 * (CLOSING_DAYS + 1 - days),
        _ => 0,
    };
    let urgency = match state {
        RowState::Late { days } => 80 + 4 * days.clamp(0, 30),
        RowState::Due => 50 + closing,
        RowState::MayStart { days } => 20 + closing - days.clamp(0, 10),
        RowState::Coming { .. } | RowState::Held { .. } => 0,
    };
    let priority = i64::from(4u8.saturating_sub(task.priority).max(1));
    let worth = urgency.saturating_mul(priority);
    u32::try_from(worth)
        .unwrap_or(0)
        .saturating_mul(stands.min(POTS_MAX))
}

/// Whether a lot goes to the bench after the healthy ones: a virus is suspected, or a bacterium was guessed at.
fn is_suspect(facts: &Facts, id: LotId) -> bool {
    let findings = facts.lots.get(&id).map_or(&[][..], |lot| &lot.findings);
    let mut known = findings.iter().filter_map(|id| facts.findings.get(id));
    known.any(|finding| finding.event.agent == Some(AgentClass::Bacterium))
        || quarantine::suspicion(facts, id).is_some()
}

/// A row with these of its tasks alone.
fn part(row: &Row, at: &[usize]) -> Row {
    let keep = |here: usize| at.contains(&here);
    let pick = |here: usize| row.lots.get(here).filter(|_| keep(here));
    let lots: Vec<_> = (0..row.lots.len()).filter_map(pick).cloned().collect();
    let tasks = (0..)
        .zip(&row.tasks)
        .filter(|(here, _)| keep(*here))
        .map(|(_, task)| task.clone())
        .collect();
    Row {
        plants: lots.iter().map(|lot| lot.plants).sum(),
        stands: lots.iter().map(|lot| lot.stands).sum(),
        lots,
        tasks,
        ..row.clone()
    }
}

/// Adds to what is left out; tasks of one row left out for one reason are one line.
fn leave_out(rows: &mut Vec<LeftOut>, place: Option<&PlaceLabel>, row: &Row, why: LeftOutWhy) {
    let same = rows.iter_mut().find(|known| {
        let row_is = |known: &Row| {
            (known.kind, known.due_on, known.anchor_on, known.trigger)
                == (row.kind, row.due_on, row.anchor_on, row.trigger)
                && known.text == row.text
        };
        row_is(&known.row)
            && known.place.as_ref() == place
            && std::mem::discriminant(&known.why) == std::mem::discriminant(&why)
    });
    match same {
        Some(known) => {
            known.row.tasks.extend(row.tasks.iter().cloned());
            known.row.lots.extend(row.lots.iter().cloned());
            known.row.plants = known.row.plants.saturating_add(row.plants);
            known.row.stands = known.row.stands.saturating_add(row.stands);
            match (&mut known.why, why) {
                (LeftOutWhy::NoTime { tenths }, LeftOutWhy::NoTime { tenths: more }) => {
                    *tenths = (*tenths).min(more);
                }
                (
                    LeftOutWhy::Bound { until_ms, off_min },
                    LeftOutWhy::Bound {
                        until_ms: later,
                        off_min: there,
                    },
                ) if later > *until_ms => {
                    *until_ms = later;
                    *off_min = there;
                }
                _ => {}
            }
        }
        None => rows.push(LeftOut {
            place: place.cloned(),
            row: row.clone(),
            why,
        }),
    }
}

/// Chosen work in the order it is walked, and the tenths of a minute it takes.
fn put_in_order(
    view: &RoundView,
    on: NaiveDate,
    open: &[Open<'_>],
    chosen: &[bool],
) -> (Vec<PlanStop>, u32) {
    let mut stages: BTreeMap<(usize, SetUp), Vec<&Open<'_>>> = BTreeMap::new();
    for (one, _) in open.iter().zip(chosen).filter(|(_, chosen)| **chosen) {
        let walk = match one.set_up {
            SetUp::Place(_) => view
                .stops
                .iter()
                .position(|stop| stop.place.as_ref() == one.place)
                .unwrap_or(usize::MAX - 2),
            SetUp::Bench => usize::MAX - 1,
            SetUp::Bath => usize::MAX,
        };
        stages.entry((walk, one.set_up)).or_default().push(one);
    }
    let mut total = 0u32;
    let mut stops = Vec::new();
    for ((_, set_up), mut members) in stages {
        // As the Round has them; at the bench the healthy ones before the suspects.
        members.sort_by_key(|one| (one.suspect, one.nth, one.at));
        let mut rows: Vec<(bool, Chosen)> = Vec::new();
        let mut from = 0;
        while let Some(first) = members.get(from) {
            let same = members
                .iter()
                .skip(from)
                .take_while(|one| one.nth == first.nth && one.suspect == first.suspect);
            let same: Vec<_> = same.collect();
            from += same.len();
            let at: Vec<usize> = same.iter().map(|one| one.at).collect();
            let tenths = same.iter().map(|one| one.job.tenths).sum();
            total = total.saturating_add(tenths);
            let row = part(first.row, &at);
            rows.push((
                first.suspect,
                Chosen {
                    left_out: first.row.tasks.len().saturating_sub(row.tasks.len()),
                    why: why(first.task, row.state, on),
                    row,
                    tenths,
                },
            ));
        }
        total = total.saturating_add(set_up.tenths());
        stops.push(PlanStop {
            at: match set_up {
                SetUp::Place(_) => Stage::Place(members.first().and_then(|one| one.place.cloned())),
                SetUp::Bench => Stage::Bench,
                SetUp::Bath => Stage::Bath,
            },
            set_up_tenths: set_up.tenths(),
            rows: rows.into_iter().map(|(_, row)| row).collect(),
        });
    }
    (stops, total)
}

fn why(task: &Task, state: RowState, on: NaiveDate) -> Why {
    let left = days_between(on, task.until_on);
    match state {
        RowState::Late { days } => Why::Late { days },
        _ if left <= CLOSING_DAYS => Why::Closing { days: left },
        RowState::MayStart { days } => Why::Room { days },
        _ => Why::Due,
    }
}
