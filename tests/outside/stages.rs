//! Steps of a stage matrix against a published one: how fast it grows in the end, in what stages it then stands, and what
//! one of each stage is worth to it.

use velamen_core::outlook::step;

use crate::sheet::{Row, check_each};

const STAGES: usize = 7;
/// Steps after which nothing moves any more.
const STEPS: usize = 3_000;

type Matrix = [[f64; STAGES]; STAGES];

fn matrix(row: &Row) -> Matrix {
    let mut matrix = [[0.0; STAGES]; STAGES];
    let lines: Vec<&str> = row.text("matrix").split('|').collect();
    assert_eq!(lines.len(), STAGES);
    for (line, cells) in lines.iter().zip(&mut matrix) {
        let numbers: Vec<f64> = line
            .split_whitespace()
            .map(|cell| cell.parse().unwrap())
            .collect();
        assert_eq!(numbers.len(), STAGES);
        cells.copy_from_slice(&numbers);
    }
    matrix
}

/// How much the whole grows in a step, and the shares it then stands in.
fn in_the_end(matrix: &Matrix) -> (f64, [f64; STAGES]) {
    let mut stages = [1.0 / 7.0; STAGES];
    let mut growth = 0.0;
    for _ in 0..STEPS {
        stages = step(matrix, &stages);
        growth = stages.iter().sum();
        stages = stages.map(|stage| stage / growth);
    }
    (growth, stages)
}

fn turned(matrix: &Matrix) -> Matrix {
    let mut turned = [[0.0; STAGES]; STAGES];
    for (at, row) in matrix.iter().enumerate() {
        for (to, cell) in row.iter().enumerate() {
            turned[to][at] = *cell;
        }
    }
    turned
}

#[test]
fn a_published_stage_matrix_steps_to_its_printed_growth_stages_and_values() {
    check_each("n_stage_matrix.csv", |row| {
        let matrix = matrix(row);
        let stage = || row.text("stage").parse::<usize>().unwrap();
        let ours = match row.text("what") {
            "growth" => in_the_end(&matrix).0,
            "stable" => in_the_end(&matrix).1[stage()] * 100.0,
            "value" => {
                let (_, values) = in_the_end(&turned(&matrix));
                values[stage()] / values[0]
            }
            other => panic!("{other} is not worked out"),
        };
        let (printed, within) = (row.number("expected"), row.number("within"));
        if (ours - printed).abs() <= within {
            Ok(())
        } else {
            Err(format!("{ours} against {printed}"))
        }
    });
}
