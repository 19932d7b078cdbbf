//! How long work takes: defaults until the book knows better.
//!
//! All defaults are common practice without a source, in tenths of a minute. What a task takes a pot comes from its
//! protocol, which the grower edits; here are the set-ups that several tasks share, and what the timers have learned.

use crate::event::ClosedHow;
use crate::state::State;
use crate::view::round::pots;

/// Walking to a place and looking round.
pub const WALK_TENTHS: u32 = 10;
/// Bench stripped, tools and gloves clean, bark damped.
pub const BENCH_TENTHS: u32 = 50;
/// A bath of twenty litres made up, gloves on and off.
pub const BATH_TENTHS: u32 = 120;
/// A task of the grower's own, about which nothing is known.
pub const OWN_TENTHS: u32 = 50;

/// Clumps that must have been timed before they count.
const TIMED_LEAST: usize = 3;
/// A clump that lay open longer was left lying: its time says nothing about the work.
const TIMED_MIN_MAX: u32 = 480;

/// A time learned from the program's own timers.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Learned {
    /// Tenths of a minute for one pot opened at the bench, from first cut to last label.
    pub tenths: u32,
    /// Clumps it is the median of.
    pub clumps: usize,
}

/// Minutes a pot takes at the bench: the median over finished clumps; `None` while there are too few.
#[must_use]
pub fn learned_bench(state: &State) -> Option<Learned> {
    let mut timed: Vec<u32> = state
        .facts()
        .clumps
        .values()
        .filter_map(|clump| {
            let closed = clump
                .closed
                .as_ref()
                .filter(|closed| closed.how == ClosedHow::Done)?;
            let took = closed
                .took_min
                .filter(|took| (1..=TIMED_MIN_MAX).contains(took))?;
            let pots = u32::try_from(pots(clump.opened.as_ref()?)).ok()?.max(1);
            Some(took.saturating_mul(10).div_ceil(pots))
        })
        .collect();
    if timed.len() < TIMED_LEAST {
        return None;
    }
    timed.sort_unstable();
    Some(Learned {
        tenths: *timed.get(timed.len() / 2)?,
        clumps: timed.len(),
    })
}
