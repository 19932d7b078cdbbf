//! Whether this phone's clock can be right: a screen asks before anything is recorded, and nobody asks the network.

use chrono::NaiveDate;

use crate::id::EntryRef;
use crate::limits::{CLOCK_ASTRAY_MS, CLOCK_FIRST_MS};
use crate::state::State;
use crate::time::Moment;

/// Why a clock cannot be right.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum ClockDoubt {
    /// It stands before this program was there.
    Unset,
    /// It stands before the entry this phone recorded last, on this day.
    BehindOwn(NaiveDate),
}

/// What speaks against this phone's clock. A clock that is ahead has nothing to be told by.
#[must_use]
pub fn doubt(state: &State, at: &Moment) -> Option<ClockDoubt> {
    if at.now_ms < CLOCK_FIRST_MS {
        return Some(ClockDoubt::Unset);
    }
    let (next, _, _) = state.log().next_of(at.dev);
    let last = state.log().entry(EntryRef {
        dev: at.dev,
        seq: next.checked_sub(1)?,
    })?;
    let said_ms = last.header.at_ms;
    let phone = state.facts().phones.get(&at.dev);
    let last_ms = phone.map_or(said_ms, |phone| phone.corrected_ms(last.id.seq, said_ms));
    (last_ms.saturating_sub(at.now_ms) > CLOCK_ASTRAY_MS)
        .then_some(ClockDoubt::BehindOwn(last.header.on))
}
