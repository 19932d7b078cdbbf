//! The measures on the shelf.

use crate::id::MeasureId;
use crate::measure::{Dose, Measure, NoPlan, Plan, plan, water_for};
use crate::quantity::{Amount, Volume};
use crate::state::State;

/// A measure on the shelf, with what it is called here; the name is empty where its size says enough.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct MeasureRow {
    pub measure: Measure,
    pub name: String,
}

/// Measures in use: liquids before scales, the small ones first.
#[must_use]
pub fn measures(state: &State) -> Vec<MeasureRow> {
    let known = state.facts().measures.iter();
    let mut rows: Vec<MeasureRow> = known
        .filter(|(_, known)| !known.retired.or_default())
        .filter_map(|(id, known)| {
            let measure = Measure {
                id: *id,
                kind: *known.kind.get()?,
                least: *known.least.get()?,
                most: *known.most.get()?,
                graduation: *known.graduation.get()?,
            };
            let name = known.name.or_default();
            Some(MeasureRow { measure, name })
        })
        .collect();
    rows.sort_by_key(|row| (row.measure.kind.weighs(), row.measure.most, row.measure.id));
    rows
}

/// The same for the plan alone.
#[must_use]
pub fn on_the_shelf(state: &State) -> Vec<Measure> {
    measures(state).into_iter().map(|row| row.measure).collect()
}

/// One of them.
#[must_use]
pub fn one_of(state: &State, id: MeasureId) -> Option<MeasureRow> {
    measures(state).into_iter().find(|row| row.measure.id == id)
}

/// So many fills of one measure.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct MeasuringStep {
    pub row: MeasureRow,
    /// How often, and how much each time.
    pub fills: Vec<(u32, Amount)>,
}

/// What the shelf can do for a dose.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Measuring {
    /// No measure stands on the shelf.
    NoMeasures,
    NoScale,
    OnlyScales,
    /// A larger measure is wanted.
    TooOften,
    Steps {
        steps: Vec<MeasuringStep>,
        plan: Plan,
        total: Amount,
    },
    /// No measure is fine enough; this much water would do, where a tub holds it.
    TooCoarse {
        off_permille: Option<i64>,
        water: Option<Volume>,
    },
}

/// How a dose for so much water is measured with what stands on the shelf.
#[must_use]
pub fn measuring(state: &State, dose: &Dose, water: Volume) -> Measuring {
    let shelf = on_the_shelf(state);
    match plan(&shelf, dose) {
        Ok(plan) => Measuring::Steps {
            steps: steps(state, dose, &plan),
            total: dose.amount(plan.total),
            plan,
        },
        Err(NoPlan::NoMeasures) => Measuring::NoMeasures,
        Err(NoPlan::NoScale) => Measuring::NoScale,
        Err(NoPlan::OnlyScales) => Measuring::OnlyScales,
        Err(NoPlan::TooOften) => Measuring::TooOften,
        Err(NoPlan::TooCoarse { nearest }) => Measuring::TooCoarse {
            off_permille: nearest.map(|plan| plan.off_permille),
            water: water_for(&shelf, dose, water),
        },
    }
}

fn steps(state: &State, dose: &Dose, plan: &Plan) -> Vec<MeasuringStep> {
    let mut steps: Vec<MeasuringStep> = Vec::new();
    for fill in &plan.fills {
        let one = (fill.times, dose.amount(fill.each));
        match steps.last_mut() {
            Some(step) if step.row.measure.id == fill.measure => step.fills.push(one),
            _ => steps.extend(one_of(state, fill.measure).map(|row| MeasuringStep {
                row,
                fills: vec![one],
            })),
        }
    }
    steps
}
