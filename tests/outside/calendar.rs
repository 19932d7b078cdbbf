//! Months added and seasons named, held against a calendar library and the meteorologists' convention.

use crate::sheet::check_each;
use chrono::NaiveDate;
use velamen_core::season::{Hemisphere, Season, add_months, season_of};

fn day(text: &str) -> NaiveDate {
    text.parse()
        .unwrap_or_else(|_| panic!("{text:?} is not a day"))
}

#[test]
fn months_are_added_from_the_anchor_and_clamped_to_the_end_of_the_month() {
    check_each("f_month_add.csv", |row| {
        let months = row.text("months").parse().expect("a number of months");
        let ours = add_months(day(row.text("start")), months);
        let theirs = day(row.text("expected"));
        if ours == Some(theirs) {
            Ok(())
        } else {
            Err(format!("{ours:?} against {theirs}"))
        }
    });
}

#[test]
fn seasons_change_with_the_first_day_of_a_month() {
    check_each("e_season_labels.csv", |row| {
        for (hemisphere, column) in [
            (Hemisphere::North, "met_season_N"),
            (Hemisphere::South, "met_season_S"),
        ] {
            let ours = match season_of(day(row.text("date")), hemisphere).0 {
                Season::Spring => "spring",
                Season::Summer => "summer",
                Season::Autumn => "autumn",
                Season::Winter => "winter",
            };
            let theirs = row.text(column);
            if ours != theirs {
                return Err(format!("{ours} against {theirs} in the {hemisphere:?}"));
            }
        }
        Ok(())
    });
}
