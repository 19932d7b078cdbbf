//! A logger's file as growers get it: other columns, other days, clocks that change.

use super::logger::*;
use super::reading::ReadingFault;
use super::when::DayOrder;
use crate::cells::cells;

fn day(text: &str) -> chrono::NaiveDate {
    text.parse().unwrap()
}

fn read(text: &str) -> Logged {
    let cells = cells(text);
    let columns = Columns::guess(&cells).expect("columns");
    logged(&cells, &columns, day("2026-11-25"))
}

/// A day of every hour, one degree warmer each hour from `from`.
fn hours(on: &str, from: i32) -> String {
    (0..24)
        .map(|hour| format!("{on} {hour:02}:00,{}.5,{}\n", from + hour, 90 - hour))
        .collect()
}

#[test]
fn the_columns_are_guessed_by_their_heads_and_their_first_rows() {
    let text =
        "Nr;Date;Time;Temp (°F);RH %\n1;13/10/2026;14:00;55,4;81\n2;13/10/2026;15:00;56;80\n";
    let columns = Columns::guess(&cells(text)).unwrap();
    assert_eq!((columns.when, columns.clock), (1, Some(2)));
    assert_eq!((columns.temperature, columns.humidity), (3, Some(4)));
    assert!(columns.fahrenheit);
    assert_eq!(columns.order, DayOrder::DayFirst);
    assert_eq!(Columns::guess(&cells("a,b\nx,y\n")), None);
}

#[test]
fn hours_become_the_minimum_and_maximum_of_their_day() {
    let text = format!("time,temp,rh\n{}", hours("2026-10-05", 5));
    let logged = read(&text);
    assert_eq!(logged.days.len(), 1);
    let reading = logged.days[0].reading;
    assert_eq!((reading.min_mc, reading.max_mc), (5_500, 28_500));
    assert_eq!(reading.humidity_min_permille, Some(670));
    assert_eq!(reading.humidity_max_permille, Some(900));
}

#[test]
fn the_hour_that_comes_twice_in_autumn_counts_and_the_one_missing_in_spring_is_no_gap() {
    let autumn = format!(
        "time,temp,rh\n{}2026-10-25 02:00,3.0,90\n",
        hours("2026-10-25", 5)
    );
    let logged = read(&autumn);
    assert_eq!((logged.twice, logged.repeated), (1, 0));
    assert_eq!(logged.days[0].reading.min_mc, 3_000);
    let spring: String = hours("2026-03-29", 5)
        .lines()
        .filter(|line| !line.contains(" 02:00"))
        .map(|line| format!("{line}\n"))
        .collect();
    let logged = read(&format!("time,temp,rh\n{spring}"));
    assert_eq!(logged.days.len(), 1);
    assert_eq!((logged.gaps.len(), logged.part_days.len()), (0, 0));
}

#[test]
fn the_same_row_twice_is_passed_over_and_told() {
    let text = format!(
        "time,temp,rh\n{}{}",
        hours("2026-10-05", 5),
        hours("2026-10-05", 5)
    );
    let logged = read(&text);
    assert_eq!(logged.repeated, 24);
    assert_eq!(logged.days[0].rows, 24);
}

#[test]
fn a_month_without_rows_is_a_gap_and_half_a_day_is_no_reading() {
    let mut text = format!("time,temp,rh\n{}", hours("2026-09-01", 5));
    text.push_str(&hours("2026-10-02", 5));
    text.push_str("2026-10-03 00:00,9,80\n2026-10-03 01:00,8,80\n");
    let logged = read(&text);
    assert_eq!(logged.gaps, [(day("2026-09-02"), day("2026-10-01"))]);
    assert_eq!(logged.days.len(), 2);
    assert_eq!(logged.part_days.len(), 1);
    assert_eq!(logged.part_days[0].hours, 2);
}

#[test]
fn every_row_that_is_refused_has_its_line_and_its_reason() {
    let text = "date,min,max\n2026-10-05,9,21\nsoon,9,21\n2026-10-06,21,9\n2026-10-07,9,60\n\
                2026-10-08,x,9\n2026-10-09,9\n2030-01-01,9,21\n";
    let mut columns = Columns {
        temperature: 1,
        max: Some(2),
        ..Columns::default()
    };
    let logged = logged(&cells(text), &columns, day("2026-11-25"));
    assert_eq!(logged.days.len(), 1);
    let lines: Vec<usize> = logged.refused.iter().map(|(line, _)| *line).collect();
    assert_eq!(lines, [3, 4, 5, 6, 7, 8]);
    let why: Vec<&RowFault> = logged.refused.iter().map(|(_, why)| why).collect();
    assert!(matches!(why[0], RowFault::NotADay { .. }));
    assert!(matches!(
        why[1],
        RowFault::Reading(ReadingFault::MinAboveMax { .. })
    ));
    assert!(matches!(
        why[2],
        RowFault::Reading(ReadingFault::NotBelieved { .. })
    ));
    assert!(matches!(why[3], RowFault::NotANumber { .. }));
    assert!(matches!(why[4], RowFault::Short { cells: 2 }));
    assert!(matches!(why[5], RowFault::Ahead { .. }));
    // The wrong columns chosen: every row says so, and nothing is taken.
    columns.temperature = 7;
    let none = super::logger::logged(&cells(text), &columns, day("2026-11-25"));
    assert_eq!((none.days.len(), none.refused_count), (0, 7));
}
