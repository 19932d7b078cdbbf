//! The fills that come nearest to a dose.

use std::cmp::Reverse;

use super::fills::{Part, fill, totals};
use super::{Dose, MOST_OFF_PERMILLE, Measure};
use crate::id::MeasureId;
use crate::quantity::Ratio;

/// Beyond this many fills one loses count (common practice, no source).
pub const MOST_FILLS: u32 = 20;
/// Plans this near to the dose are equally near, in thousandths: fewer fills are worth more then.
const AS_NEAR_PERMILLE: i128 = 5;

/// So many fills of one measure.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Fill {
    pub measure: MeasureId,
    pub times: u32,
    /// Microlitres or milligrams each time.
    pub each: i64,
}

/// How to measure a dose.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Plan {
    /// In the order they are taken: the larger measure first.
    pub fills: Vec<Fill>,
    /// All fills together.
    pub total: i64,
    /// Thousandths of the dose over it, or under it when negative.
    pub off_permille: i64,
    /// The fills come to the dose exactly.
    pub exact: bool,
    /// More than the dose, by however little.
    pub over: bool,
    /// Less than the label's lowest rate would want.
    pub below_least: bool,
    /// Where it lies from the label's lowest (0) to its highest (1000), where the label gives two.
    pub in_range_permille: Option<i64>,
}

/// Why there is no plan.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum NoPlan {
    /// The shelf holds no measure at all.
    NoMeasures,
    /// A powder wants a scale, and there is none.
    NoScale,
    /// A liquid wants a measure for liquids, and there is none.
    OnlyScales,
    /// No measure is fine enough; the nearest that is not above the label's maximum, where there is one.
    TooCoarse { nearest: Option<Plan> },
    /// The largest measure would have to be filled too often.
    TooOften,
}

struct Candidate {
    parts: Vec<(MeasureId, Part)>,
    total: i64,
}

impl Candidate {
    fn fills(&self) -> u32 {
        self.parts
            .iter()
            .fold(0_u32, |sum, (_, (times, _))| sum.saturating_add(*times))
    }

    fn measures(&self) -> u32 {
        let first = self.parts.first().map(|(id, _)| *id);
        1 + u32::from(self.parts.iter().any(|(id, _)| Some(*id) != first))
    }
}

/// The fills that come nearest to a dose without going above the label's maximum: few fills, few measures.
///
/// Within the label's two rates comes before outside them. Plans within half a per cent of the dose count as equally
/// near, and among those fewer fills win; a second measure counts as one fill more.
///
/// # Errors
/// Why there is none.
pub fn plan(measures: &[Measure], dose: &Dose) -> Result<Plan, NoPlan> {
    let usable: Vec<&Measure> = measures
        .iter()
        .filter(|one| one.is_sound() && one.kind.weighs() == dose.weighed)
        .collect();
    if usable.is_empty() {
        return Err(match (measures.is_empty(), dose.weighed) {
            (true, _) => NoPlan::NoMeasures,
            (false, true) => NoPlan::NoScale,
            (false, false) => NoPlan::OnlyScales,
        });
    }
    let mut all: Vec<Candidate> = Vec::new();
    let mut too_often = false;
    for one in &usable {
        alone(one, dose, &mut all);
        let finer = usable.iter().filter(|two| two.graduation < one.graduation);
        for two in finer {
            together(one, two, dose, &mut all);
        }
    }
    all.retain(|candidate| {
        let takes_few = candidate.fills() <= MOST_FILLS;
        too_often |= !takes_few;
        takes_few
    });
    let best = all.iter().min_by_key(|candidate| rank(candidate, dose));
    match best.map(|best| worked(best, dose)) {
        Some(found) if found.off_permille.abs() <= MOST_OFF_PERMILLE => Ok(found),
        None if too_often => Err(NoPlan::TooOften),
        // All that is left is a fill or two, nowhere near: what is missing is a larger measure, not a finer one.
        Some(far) if too_often && far.off_permille.abs() > 500 => Err(NoPlan::TooOften),
        nearest => Err(NoPlan::TooCoarse { nearest }),
    }
}

fn allowed(total: i64, dose: &Dose) -> bool {
    Ratio::whole(i128::from(total)) <= dose.most
}

/// One measure does it all.
fn alone(one: &Measure, dose: &Dose, into: &mut Vec<Candidate>) {
    let wanted = std::iter::once(dose.exact).chain(dose.least);
    for total in wanted.flat_map(|want| totals(one, want)) {
        let Some(parts) = fill(one, total).filter(|_| allowed(total, dose)) else {
            continue;
        };
        let parts = parts.into_iter().map(|part| (one.id, part)).collect();
        into.push(Candidate { parts, total });
    }
}

/// The coarser measure takes most of it, the finer one the rest.
fn together(coarse: &Measure, fine: &Measure, dose: &Dose, into: &mut Vec<Candidate>) {
    let full = super::floor(dose.exact).map_or(0, |want| want - want % coarse.last());
    let mut first_part = totals(coarse, dose.exact);
    first_part.push(full);
    for taken in first_part {
        let Some(parts) = fill(coarse, taken).filter(|_| taken > 0) else {
            continue;
        };
        let taken_ratio = Ratio::whole(i128::from(taken));
        let Some(rest) = dose
            .exact
            .checked_sub(taken_ratio)
            .filter(|rest| !rest.is_negative() && !rest.is_zero())
        else {
            continue;
        };
        for more in totals(fine, rest) {
            let Some(total) = taken.checked_add(more).filter(|sum| allowed(*sum, dose)) else {
                continue;
            };
            let Some(finer_parts) = fill(fine, more) else {
                continue;
            };
            let parts = parts.iter().map(|part| (coarse.id, *part));
            let parts = parts.chain(finer_parts.into_iter().map(|part| (fine.id, part)));
            into.push(Candidate {
                parts: parts.collect(),
                total,
            });
        }
    }
}

type Rank = (bool, Option<Ratio>, u32, Ratio, Reverse<i64>);

/// Lower is better.
fn rank(candidate: &Candidate, dose: &Dose) -> Rank {
    let total = Ratio::whole(i128::from(candidate.total));
    let off = total.checked_sub(dose.exact).unwrap_or(total);
    let off = if off.is_negative() {
        Ratio::ZERO.checked_sub(off).unwrap_or(total)
    } else {
        off
    };
    let near = dose
        .exact
        .checked_mul(Ratio::of(AS_NEAR_PERMILLE, 1_000))
        .is_some_and(|close| off <= close);
    let below = dose.least.is_some_and(|least| total < least);
    let work = candidate.fills().saturating_add(candidate.measures() - 1);
    (
        below,
        (!near).then_some(off),
        work,
        off,
        Reverse(candidate.total),
    )
}

fn worked(best: &Candidate, dose: &Dose) -> Plan {
    let total = Ratio::whole(i128::from(best.total));
    let permille = |part: Option<Ratio>, whole: Ratio| {
        let share = part?.checked_div(whole)?;
        share.checked_mul(Ratio::whole(1_000))?.round_i64()
    };
    let in_range_permille = dose.least.and_then(|least| {
        let range = dose.most.checked_sub(least)?;
        permille(total.checked_sub(least), range)
    });
    Plan {
        fills: best
            .parts
            .iter()
            .map(|(measure, (times, each))| Fill {
                measure: *measure,
                times: *times,
                each: *each,
            })
            .collect(),
        total: best.total,
        off_permille: permille(total.checked_sub(dose.exact), dose.exact).unwrap_or(i64::MAX),
        exact: total == dose.exact,
        over: total > dose.exact,
        below_least: dose.least.is_some_and(|least| total < least),
        in_range_permille,
    }
}

#[cfg(test)]
mod tests;
