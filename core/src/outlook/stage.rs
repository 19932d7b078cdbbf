//! One step of a stage-classified population (Lefkovitch, Biometrics 21, 1965).
//!
//! The column says which stage a plant is in now, the row in which it is at the next look; below one on the diagonal and
//! under it are shares that stay and move on, in the first row what one plant of a stage gives to the first. The forecast
//! steps its cohorts by it; the step knows nothing of plants.

/// What stages become in one step.
#[must_use]
pub fn step<const N: usize>(matrix: &[[f64; N]; N], stages: &[f64; N]) -> [f64; N] {
    matrix.map(|row| {
        let given = row.iter().zip(stages).map(|(share, stage)| share * stage);
        given.sum()
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_moves_on_is_gone_from_where_it_was() {
        let matrix = [[0.25, 0.0], [0.5, 1.0]];
        let first = step(&matrix, &[8.0, 2.0]);
        let said = |stages: [f64; 2]| format!("{stages:?}");
        assert_eq!(said(first), "[2.0, 6.0]");
        assert_eq!(said(step(&matrix, &first)), "[0.5, 7.0]");
    }
}
