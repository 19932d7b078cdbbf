//! How long each step at the bench took, read off the entries it left: nobody starts a clock.
//!
//! From the opening to the last count of pieces they were cut, from there to the last pot they were potted, and from
//! there to the end they were labelled and cleared up. A soak lies in the second step. A clump that lay over night says
//! nothing of the work.

use crate::event::{ClosedHow, Event};
use crate::id::{ClumpId, Subject};
use crate::state::State;

/// A step that took longer was interrupted: four hours.
const STEP_MIN_MAX: i64 = 240;
/// Clumps that must have been timed before a middle is told.
const TIMED_LEAST: usize = 3;
const MINUTE_MS: i64 = 60_000;

/// Minutes of the three steps of one clump.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct StepMinutes {
    pub cut: i64,
    pub pot: i64,
    pub label: i64,
}

/// The steps of a clump that is done; `None` where it was interrupted or a step left no entry.
#[must_use]
pub fn steps_of(state: &State, clump: ClumpId) -> Option<StepMinutes> {
    let (mut opened, mut taken, mut potted, mut closed) = (None, None, None, None);
    for place in state.log().about(Subject::Clump(clump)) {
        let at_ms = state.log().entry(place.id)?.header.at_ms;
        for fact in state.log().facts(place.id) {
            match fact.event {
                Event::DivisionOpened(it) if it.clump == clump => opened = Some(at_ms),
                Event::PiecesTaken(it) if it.clump == clump => taken = Some(at_ms),
                Event::PiecesPotted(it) if it.clump == clump => potted = Some(at_ms),
                Event::DivisionClosed(it) if it.clump == clump && it.how == ClosedHow::Done => {
                    closed = Some(at_ms);
                }
                _ => {}
            }
        }
    }
    let minutes = |from: i64, to: i64| {
        let minutes = to.saturating_sub(from).saturating_add(MINUTE_MS / 2) / MINUTE_MS;
        (0..=STEP_MIN_MAX).contains(&minutes).then_some(minutes)
    };
    Some(StepMinutes {
        cut: minutes(opened?, taken?)?,
        pot: minutes(taken?, potted?)?,
        label: minutes(potted?, closed?)?,
    })
}

/// One step over all clumps: the shortest, the middle and the longest, in minutes.
pub type StepSpan = [i64; 3];

/// What the steps took here.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct LearnedSteps {
    pub clumps: usize,
    pub cut: StepSpan,
    pub pot: StepSpan,
    pub label: StepSpan,
}

/// The steps over all clumps that are done; `None` while there are too few.
#[must_use]
pub fn learned_steps(state: &State) -> Option<LearnedSteps> {
    let clumps = state.facts().clumps.keys();
    let timed: Vec<StepMinutes> = clumps.filter_map(|id| steps_of(state, *id)).collect();
    if timed.len() < TIMED_LEAST {
        return None;
    }
    let span = |of: fn(&StepMinutes) -> i64| -> Option<StepSpan> {
        let mut minutes: Vec<i64> = timed.iter().map(of).collect();
        minutes.sort_unstable();
        Some([
            *minutes.first()?,
            *minutes.get(minutes.len() / 2)?,
            *minutes.last()?,
        ])
    };
    Some(LearnedSteps {
        clumps: timed.len(),
        cut: span(|it| it.cut)?,
        pot: span(|it| it.pot)?,
        label: span(|it| it.label)?,
    })
}
