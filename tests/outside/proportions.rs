//! k of n with its interval, against a statistics library and published tables.

use velamen_core::stats::wilson;

use crate::sheet::{check_each, check_each_given, within};

#[test]
fn intervals_of_a_count_are_the_librarys() {
    check_each("j_proportion_ci.csv", |row| {
        let (found, looked_at) = (whole(row.number("k")), whole(row.number("n")));
        let (low, high) = wilson(found, looked_at).ok_or("no interval")?;
        within(low, row.number("wilson_lo"), 1e-8)?;
        within(high, row.number("wilson_hi"), 1e-8)
    });
}

#[test]
fn intervals_of_a_count_are_the_published_ones() {
    let takes = |row: &crate::sheet::Row| row.text("method") == "wilson";
    check_each_given("j_proportion_published.csv", takes, |row| {
        let (found, looked_at) = (whole(row.number("k")), whole(row.number("n")));
        let (low, high) = wilson(found, looked_at).ok_or("no interval")?;
        within(low, row.number("published_lo"), 1e-4)?;
        within(high, row.number("published_hi"), 1e-4)
    });
}

fn whole(number: f64) -> u32 {
    format!("{number:.0}").parse().expect("a whole number")
}
