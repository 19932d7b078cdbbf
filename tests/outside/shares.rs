//! What is believed of a share, against a statistics library.

use velamen_core::outlook::Beta;

use crate::sheet::{check_each, close};

#[test]
fn quantiles_of_the_beta_distribution_are_the_librarys() {
    check_each("j_beta_quantiles.csv", |row| {
        let belief = Beta {
            a: row.number("a"),
            b: row.number("b"),
        };
        let (share, theirs) = (row.number("q"), row.number("x"));
        close(belief.quantile(share), theirs, 1e-9)
    });
}
