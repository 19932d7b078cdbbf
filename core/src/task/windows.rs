//! Windows that hold for a lot: when to repot, when it makes roots, flowers and rests, and who says so.
//!
//! Invariant: the grower's own windows for the group come first, then what was seen of the lot or of the line it comes
//! from, then the table; the answer says which of them it was.

use std::collections::BTreeSet;

use chrono::NaiveDate;

use crate::event::Sight;
use crate::id::LotId;
use crate::reference::courses;
use crate::reference::taxa::{self, Why};
use crate::season::{MonthDay, Window};
use crate::state::{Facts, Group, Lot};
use crate::time::plus_days;

use super::derive::group_row;

/// Generations looked back for what was seen of a lot's line.
const GENERATIONS: usize = 6;
/// Days a flush of roots, a flower and a rest last where their end was not seen. Common practice, no source.
const ROOTS_DAYS: i64 = 56;
const FLOWER_DAYS: i64 = 42;
const REST_DAYS: i64 = 75;
/// Days after the last flower in which plants that are repotted after flowering are.
const AFTER_FLOWER_DAYS: i64 = 60;
/// An end is looked for no longer than this after its beginning.
const END_WITHIN_DAYS: i64 = 200;

/// Who says when a window is open.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum WindowsFrom {
    /// The grower's own windows for the group.
    Own,
    /// Seen of the lot itself, or of the lot it comes from.
    Seen {
        what: Sight,
        on: NaiveDate,
        /// The ancestor it was seen of; `None` for the lot itself.
        of: Option<LotId>,
    },
    #[default]
    Table,
}

/// Windows and who says so; none where nobody does.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Windows {
    pub windows: Vec<Window>,
    pub from: WindowsFrom,
}

impl Windows {
    fn own(windows: &[Window]) -> Self {
        Self {
            windows: windows.to_vec(),
            from: WindowsFrom::Own,
        }
    }

    fn table(windows: Vec<Window>) -> Self {
        Self {
            windows,
            from: WindowsFrom::Table,
        }
    }
}

/// What was seen of a lot's line: the lot itself first, then the lots it was split from or cut from.
struct Line {
    /// Newest first, of the nearest generation that has any.
    seen: Vec<(Sight, NaiveDate, Option<LotId>)>,
}

impl Line {
    fn of(facts: &Facts, lot: &Lot) -> Self {
        let mut seen = Vec::new();
        let mut known: BTreeSet<LotId> = BTreeSet::new();
        let mut generation: Vec<(Option<LotId>, &Lot)> = vec![(None, lot)];
        for _ in 0..GENERATIONS {
            let mut before: Vec<(Option<LotId>, &Lot)> = Vec::new();
            for (id, lot) in generation {
                let of = lot.sights.iter().rev();
                seen.extend(of.map(|sight| (sight.what, sight.on, id)));
                for parent in lot.split_from().iter().chain(lot.parents()) {
                    if known.insert(*parent)
                        && let Some(facts) = facts.lots.get(parent)
                    {
                        before.push((Some(*parent), facts));
                    }
                }
            }
            generation = before;
        }
        Self { seen }
    }

    /// The latest sight of a kind, of the nearest lot of the line that was seen so.
    fn last(&self, what: Sight) -> Option<(NaiveDate, Option<LotId>)> {
        let (_, _, lot) = self.seen.iter().find(|(it, ..)| *it == what)?;
        let of_lot = self
            .seen
            .iter()
            .filter(|(it, _, of)| *it == what && of == lot);
        let on = of_lot.map(|(_, on, _)| *on).max()?;
        Some((on, *lot))
    }

    /// The first sight of a kind on the same lot within the days after another.
    fn end(&self, what: Sight, lot: Option<LotId>, after: NaiveDate) -> Option<NaiveDate> {
        let latest = plus_days(after, END_WITHIN_DAYS);
        let of_lot = self
            .seen
            .iter()
            .filter(|(it, on, of)| *it == what && *of == lot && *on > after && *on <= latest);
        of_lot.map(|(_, on, _)| *on).min()
    }

    /// The window that begins with one sight and ends with another, or after so many days.
    fn window(&self, what: Sight, ends: Option<Sight>, days: i64) -> Option<Windows> {
        let (on, lot) = self.last(what)?;
        let end = ends.and_then(|ends| self.end(ends, lot, on));
        let to = end.unwrap_or(plus_days(on, days));
        let window = Window {
            from: MonthDay::of(on),
            to: MonthDay::of(to),
        };
        Some(Windows {
            windows: vec![window],
            from: WindowsFrom::Seen { what, on, of: lot },
        })
    }
}

fn known<'a>(facts: &'a Facts, lot: &Lot) -> Option<&'a Group> {
    facts.book.groups.get(&group_row(lot).group)
}

/// When to repot a lot here. Root tips seen of its line open the window; of plants that are repotted after flowering,
/// the end of the flower does.
#[must_use]
pub fn repot(facts: &Facts, lot: &Lot) -> Windows {
    if let Some(own) = known(facts, lot).and_then(|known| known.repot_windows.get()) {
        return Windows::own(own);
    }
    let row = group_row(lot);
    let line = Line::of(facts, lot);
    let after_flower = row.repot.iter().any(|it| it.why == Why::AfterFlowering);
    let seen = line.window(Sight::RootTips, None, ROOTS_DAYS).or_else(|| {
        let over = || line.window(Sight::FlowerOver, None, AFTER_FLOWER_DAYS);
        after_flower.then(over).flatten()
    });
    seen.unwrap_or_else(|| {
        let house = lot
            .place
            .get()
            .and_then(|place| facts.places.get(place))
            .and_then(|place| place.warmth.get().copied());
        let windows = taxa::repot_windows(row.group, facts.book.hemisphere(), house);
        Windows::table(windows.into_iter().map(|repot| repot.window).collect())
    })
}

/// When a lot flowers here.
#[must_use]
pub fn flowering(facts: &Facts, lot: &Lot) -> Windows {
    if let Some(own) = known(facts, lot).and_then(|known| known.flowering_windows.get()) {
        return Windows::own(own);
    }
    let line = Line::of(facts, lot);
    let seen = line.window(Sight::FirstOpen, Some(Sight::FlowerOver), FLOWER_DAYS);
    let (group, hemisphere) = (group_row(lot).group, facts.book.hemisphere());
    seen.unwrap_or_else(|| Windows::table(taxa::flowering_windows(group, hemisphere)))
}

/// When a lot makes roots here.
#[must_use]
pub fn roots(facts: &Facts, lot: &Lot) -> Windows {
    let line = Line::of(facts, lot);
    let (group, hemisphere) = (group_row(lot).group, facts.book.hemisphere());
    line.window(Sight::RootTips, None, ROOTS_DAYS)
        .unwrap_or_else(|| Windows::table(courses::root_windows(group, hemisphere)))
}

/// When a lot rests here: kept dry or nearly so, and not fed.
#[must_use]
pub fn rest(facts: &Facts, lot: &Lot) -> Windows {
    let line = Line::of(facts, lot);
    let (group, hemisphere) = (group_row(lot).group, facts.book.hemisphere());
    line.window(Sight::Resting, Some(Sight::NewGrowth), REST_DAYS)
        .unwrap_or_else(|| Windows::table(courses::rest_windows(group, hemisphere)))
}
