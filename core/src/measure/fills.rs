//! What one measure can give: totals near an amount, and how a total is filled.

use super::{Measure, floor};
use crate::quantity::Ratio;

/// How often, and how much each time.
pub(super) type Part = (u32, i64);

/// Totals of one measure nearest to an amount, below and above, whether or not they can be filled.
pub(super) fn totals(measure: &Measure, want: Ratio) -> Vec<i64> {
    let step = i128::from(measure.graduation);
    let marks = Ratio::new(want.num(), want.den().saturating_mul(step));
    let below = marks
        .and_then(floor)
        .and_then(|marks| marks.checked_mul(measure.graduation));
    let Some(below) = below else {
        return Vec::new();
    };
    let (first, last) = (measure.first(), measure.last());
    // Where the least is more than half the most, some totals cannot be filled: the edges of the gap are the nearest.
    let full = (below / last).max(1);
    let mut found = vec![
        below.saturating_sub(measure.graduation),
        below,
        below.saturating_add(measure.graduation),
        first,
        full.saturating_mul(last),
        full.saturating_add(1).saturating_mul(first),
    ];
    found.sort_unstable();
    found.dedup();
    found.retain(|total| *total >= first);
    found
}

/// A total as fills of one measure: full ones first, then the rest; `None` where no fills come to it.
pub(super) fn fill(measure: &Measure, total: i64) -> Option<Vec<Part>> {
    let (first, last) = (measure.first(), measure.last());
    if total < first || total % measure.graduation != 0 {
        return None;
    }
    let (full, rest) = (total / last, total % last);
    let full_fills = u32::try_from(full).ok()?;
    if rest == 0 {
        return Some(vec![(full_fills, last)]);
    }
    if rest >= first {
        return Some(kept([(full_fills, last), (1, rest), (0, 0)]));
    }
    // Less is left than it measures well: the last full fill gives some of its own.
    let shared = last.checked_add(rest)?.checked_sub(first)?;
    if full_fills == 0 || shared < first {
        return None;
    }
    Some(kept([(full_fills - 1, last), (1, shared), (1, first)]))
}

fn kept(parts: [Part; 3]) -> Vec<Part> {
    let mut out: Vec<Part> = Vec::new();
    for (times, each) in parts.into_iter().filter(|(times, _)| *times > 0) {
        match out.last_mut() {
            Some(before) if before.1 == each => before.0 = before.0.saturating_add(times),
            _ => out.push((times, each)),
        }
    }
    out
}
