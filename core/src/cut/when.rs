//! Whether to repot now at all: the age of the medium over its life, growths past the rim, years, and the window.

use chrono::NaiveDate;

use crate::event::Sight;
use crate::id::LotId;
use crate::season::{Window, snap};
use crate::state::State;
use crate::task::derive::group_row;
use crate::task::windows::{self, WindowsFrom};
use crate::time::days_between;

/// Of the mix's life, in hundredths: past this it is repotted out of its season too (common practice, no source).
const PAST_WAITING_PCT: u32 = 130;

/// What follows.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Due {
    /// It is time, and the window is open.
    Now,
    /// The mix is past waiting for the window.
    NowOutOfSeason { opens_on: Option<NaiveDate> },
    /// It is time, and better done when the window opens.
    Wait { opens_on: NaiveDate },
    /// Nothing asks for it.
    NotYet,
    /// Nobody knows when it was potted last.
    NotKnown,
}

/// A lot, and whether to repot it now.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct RepotNow {
    pub lot: LotId,
    pub potted_on: Option<NaiveDate>,
    /// Months since, and the life of its mix.
    pub months: Option<u32>,
    pub life_months: u32,
    /// Whether the life is that of the mix as potted, or the usual one of its kind.
    pub own_life: bool,
    pub life_pct: Option<u32>,
    /// Months after which its kind is usually repotted.
    pub usual_months: (u8, u8),
    /// Since when it is out of its pot, or falls over.
    pub outgrown_on: Option<NaiveDate>,
    pub windows: Vec<Window>,
    pub windows_from: WindowsFrom,
    pub window_open: bool,
    pub opens_on: Option<NaiveDate>,
    pub due: Due,
}

/// Whether to repot a lot now; `None` when the book does not know it.
#[must_use]
pub fn repot_now(state: &State, id: LotId, today: NaiveDate) -> Option<RepotNow> {
    let facts = state.facts();
    let lot = facts.lots.get(&id)?;
    let row = group_row(lot);
    let windows = windows::repot(facts, lot);
    let snapped = snap(today, &windows.windows);
    let opens_on = snapped.moved.then_some(snapped.date);
    let potted = lot.potted.as_ref();
    let potted_on = potted.map(|potted| potted.on);
    let months = potted_on.map(|on| {
        let days = u64::try_from(days_between(on, today)).unwrap_or(0);
        u32::try_from(days.saturating_mul(12) / 365).unwrap_or(u32::MAX)
    });
    let own = potted.map_or(0, |potted| potted.potting.mix_life_months);
    let (low, high) = row.media_life_months;
    let life_months = if own > 0 {
        u32::from(own)
    } else {
        u32::from(low.midpoint(high))
    };
    let life_pct = months.map(|months| months.saturating_mul(100) / life_months.max(1));
    let outgrown_on = lot
        .sights
        .iter()
        .filter(|sight| matches!(sight.what, Sight::Outgrown | Sight::FallenOver))
        .map(|sight| sight.on)
        .filter(|on| potted_on.is_none_or(|potted| *on >= potted))
        .max();
    let old = life_pct.is_some_and(|pct| pct >= 100)
        || months.is_some_and(|months| months >= u32::from(row.repot_months.1));
    let past_waiting = life_pct.is_some_and(|pct| pct > PAST_WAITING_PCT);
    let due = match (old || outgrown_on.is_some(), opens_on) {
        (false, _) if months.is_none() => Due::NotKnown,
        (false, _) => Due::NotYet,
        (true, None) => Due::Now,
        (true, Some(_)) if past_waiting => Due::NowOutOfSeason { opens_on },
        (true, Some(opens_on)) => Due::Wait { opens_on },
    };
    Some(RepotNow {
        lot: id,
        potted_on,
        months,
        life_months,
        own_life: own > 0,
        life_pct,
        usual_months: row.repot_months,
        outgrown_on,
        window_open: opens_on.is_none(),
        windows: windows.windows,
        windows_from: windows.from,
        opens_on,
        due,
    })
}
