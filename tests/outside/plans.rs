//! Choosing work for the time there is, against textbook instances with proven optima.

use velamen_core::plan::{Job, choose, worth_of};

use crate::sheet::{Row, check_each};

fn numbers(row: &Row, column: &str) -> Result<Vec<u32>, String> {
    serde_json::from_str(row.text(column)).map_err(|why| format!("{column}: {why}"))
}

fn whole(row: &Row, column: &str) -> Result<u64, String> {
    let text = row.text(column);
    text.parse()
        .map_err(|why| format!("{column} {text}: {why}"))
}

/// Capacities beyond a day and a night in tenths of a minute are no plan of a day.
const ROOM_MAX: u64 = 14_400;

#[test]
fn the_choice_is_worth_the_proven_optimum() {
    check_each("k_knapsack.csv", |row| {
        let capacity = whole(row, "capacity")?;
        let (values, weights) = (numbers(row, "values_json")?, numbers(row, "weights_json")?);
        // Large capacities are brought into a day by a common factor, where there is one.
        let factor = weights.iter().fold(capacity, |a, b| gcd(a, u64::from(*b)));
        let factor = if capacity > ROOM_MAX { factor } else { 1 };
        let room = capacity / factor;
        if room > ROOM_MAX {
            return Err(format!("a room of {room} is longer than a day"));
        }
        let jobs: Vec<Job> = values
            .into_iter()
            .zip(weights)
            .map(|(worth, weight)| Job {
                tenths: u32::try_from(u64::from(weight) / factor).unwrap(),
                worth,
                set_up: 0,
            })
            .collect();
        let room = u32::try_from(room).unwrap();
        let (worth, tenths) = worth_of(&jobs, &[], &choose(&jobs, &[], room));
        if tenths > u64::from(room) {
            return Err(format!("{tenths} in {room}"));
        }
        match whole(row, "optimum")? {
            optimum if optimum == worth => Ok(()),
            optimum => Err(format!("{worth} against {optimum}")),
        }
    });
}

fn gcd(a: u64, b: u64) -> u64 {
    if b == 0 { a } else { gcd(b, a % b) }
}
