//! How much water would make a measure fine enough.

use super::{Dose, MOST_OFF_PERMILLE, Measure, ceil, plan};
use crate::limits::TUB_UL_MAX;
use crate::quantity::{Ratio, Volume};

/// Waters are told in steps of ten millilitres, where that still holds: no tub has finer marks.
const WATER_STEPS_UL: [i64; 3] = [10_000, 1_000, 1];
/// Marks looked at before a measure is given up: from the twentieth on, half a mark is under 2.5 %.
const MARKS: i64 = 42;

/// The smallest volume of water, at least what there is, whose dose one of the measures gives within
/// [`MOST_OFF_PERMILLE`] and below the label's maximum. `None` when no tub is large enough.
#[must_use]
pub fn water_for(measures: &[Measure], dose: &Dose, water: Volume) -> Option<Volume> {
    let measures = measures
        .iter()
        .filter(|one| one.is_sound() && one.kind.weighs() == dose.weighed);
    measures.filter_map(|one| for_one(one, dose, water)).min()
}

/// The dose grows with the water: the first mark that is near enough to some dose from this one on.
fn for_one(one: &Measure, dose: &Dose, water: Volume) -> Option<Volume> {
    let per_ul = dose.exact.checked_div(water.ratio())?;
    let highest = dose.most.checked_div(dose.exact)?;
    // A mark may lie this far above its dose: as far as the error goes, and not above the label's maximum.
    let over = Ratio::of((1_000 + MOST_OFF_PERMILLE) as i128, 1_000).min(highest);
    let first_mark = super::floor(dose.exact)?
        .max(one.first())
        .checked_div(one.graduation)?
        .checked_mul(one.graduation)?
        .max(one.first());
    for at in 0..MARKS {
        let mark = first_mark.checked_add(at.checked_mul(one.graduation)?)?;
        let needs = Ratio::whole(i128::from(mark))
            .checked_div(over)?
            .checked_div(per_ul)?;
        let from = ceil(needs)?.max(water.ul());
        for step in WATER_STEPS_UL {
            let told = round_up(from, step)?;
            if told > TUB_UL_MAX {
                continue;
            }
            let told = Volume::from_ul(told);
            let scaled = dose.scaled(told.ratio().checked_div(water.ratio())?)?;
            if plan(std::slice::from_ref(one), &scaled).is_ok() {
                return Some(told);
            }
        }
    }
    None
}

fn round_up(ul: i64, step: i64) -> Option<i64> {
    let over = ul.checked_rem(step)?;
    if over == 0 {
        Some(ul)
    } else {
        ul.checked_add(step - over)
    }
}
