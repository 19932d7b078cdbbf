//! Readings of a house: two numbers a day, and two phones that read the same thermometer.

use velamen_core::climate::{Reading, ReadingFault};
use velamen_core::command::Command;
use velamen_core::event::{PieceClass, TaskAnswer, WithdrawWhy};
use velamen_core::id::PlaceId;
use velamen_core::rejection::Rejection;
use velamen_core::season::{Hemisphere, Warmth};
use velamen_core::state::{Anomaly, FieldKey};
use velamen_core::task::TaskKind;
use velamen_core::view::questions;
use velamen_tests::{Phone, day};

use crate::scene::{divide, task, tasks};

fn nursery() -> (Phone, PlaceId) {
    let mut phone = Phone::new(1, "2026-10-05");
    phone.open_book(Hemisphere::North);
    let house = phone.place("Cool house", Warmth::Cool);
    (phone, house)
}

pub(crate) fn read(place: PlaceId, on: &str, min_mc: i32, max_mc: i32) -> Command {
    let days = vec![(day(on), Reading::of(min_mc, max_mc))];
    Command::ReadClimate { place, days }
}

fn kept(phone: &Phone, house: PlaceId, on: &str) -> Option<Reading> {
    let facts = phone.state.facts();
    facts.places[&house].house.readings.get(&day(on)).copied()
}

#[test]
fn a_second_reading_of_the_day_corrects_the_first_and_undoing_it_brings_the_first_back() {
    let (mut phone, house) = nursery();
    phone.act(read(house, "2026-10-05", 9_000, 21_000));
    let second = phone.act(read(house, "2026-10-05", 8_500, 21_000));
    let reading = kept(&phone, house, "2026-10-05").unwrap();
    assert_eq!(reading.min_mc, 8_500);
    assert_eq!(phone.state.anomalies(), Vec::new());
    let again = phone.refusal(read(house, "2026-10-05", 8_500, 21_000));
    assert_eq!(again, Rejection::NothingToDo);
    phone.act(Command::Withdraw {
        targets: vec![second.entry],
        with_dependents: false,
        why: WithdrawWhy::Undone,
        note: String::new(),
    });
    let reading = kept(&phone, house, "2026-10-05").unwrap();
    assert_eq!(reading.min_mc, 9_000);
}

#[test]
fn two_phones_that_read_a_day_differently_ask_and_the_answer_stands_on_both() {
    let (mut phone, house) = nursery();
    let mut other = Phone::new(2, "2026-10-05");
    other.take_in(&phone.hand_over());
    let prefix = velamen_core::code::Prefix::pick(2);
    other.act(Command::JoinPhone {
        prefix,
        name: "second".to_owned(),
    });
    phone.act(read(house, "2026-10-05", 9_000, 21_000));
    other.wait_min(30);
    other.act(read(house, "2026-10-05", 7_000, 21_000));
    phone.take_in(&other.hand_over());
    other.take_in(&phone.hand_over());
    assert_eq!(phone.state.digest(), other.state.digest());
    let asked = phone.state.anomalies();
    assert!(matches!(
        asked.as_slice(),
        [Anomaly::Disputed {
            field: FieldKey::Reading,
            ..
        }]
    ));
    assert_eq!(kept(&phone, house, "2026-10-05").unwrap().min_mc, 7_000);
    let question = &questions::questions(&phone.state)[0];
    let again = question.sides.iter().find_map(|side| side.again.clone());
    phone.act(again.expect("the other reading, again"));
    assert_eq!(kept(&phone, house, "2026-10-05").unwrap().min_mc, 9_000);
    assert_eq!(phone.state.anomalies(), Vec::new());
}

#[test]
fn the_same_numbers_from_two_phones_ask_nothing() {
    let (mut phone, house) = nursery();
    let mut other = Phone::new(2, "2026-10-05");
    other.take_in(&phone.hand_over());
    let prefix = velamen_core::code::Prefix::pick(2);
    other.act(Command::JoinPhone {
        prefix,
        name: "second".to_owned(),
    });
    phone.act(read(house, "2026-10-05", 9_000, 21_000));
    other.act(read(house, "2026-10-05", 9_000, 21_000));
    phone.take_in(&other.hand_over());
    assert_eq!(phone.state.anomalies(), Vec::new());
}

#[test]
fn what_no_house_can_have_is_refused_and_the_days_before_are_kept() {
    let (mut phone, house) = nursery();
    phone.act(read(house, "2026-10-04", 9_000, 21_000));
    let turned = phone.refusal(read(house, "2026-10-05", 21_000, 9_000));
    assert!(matches!(
        turned,
        Rejection::Reading(ReadingFault::MinAboveMax { .. })
    ));
    let hot = phone.refusal(read(house, "2026-10-05", 9_000, 60_000));
    assert!(matches!(
        hot,
        Rejection::Reading(ReadingFault::NotBelieved { mc: 60_000, .. })
    ));
    let tomorrow = phone.refusal(read(house, "2026-10-06", 9_000, 21_000));
    assert!(matches!(tomorrow, Rejection::DayOutOfRange { .. }));
    let one = (day("2026-10-03"), Reading::of(9_000, 20_000));
    let twice = phone.refusal(Command::ReadClimate {
        place: house,
        days: vec![one, one],
    });
    assert!(matches!(
        twice,
        Rejection::Reading(ReadingFault::DayTwice { .. })
    ));
    assert!(kept(&phone, house, "2026-10-04").is_some());
}

#[test]
fn the_days_of_a_logger_are_one_entry_and_known_days_are_passed_over() {
    let (mut phone, house) = nursery();
    phone.act(read(house, "2026-10-03", 9_000, 21_000));
    let days = vec![
        (day("2026-10-02"), Reading::of(8_000, 19_000)),
        (day("2026-10-03"), Reading::of(9_000, 21_000)),
        (day("2026-10-05"), Reading::of(7_000, 16_000)),
    ];
    let done = phone.act(Command::ReadClimate { place: house, days });
    assert_eq!(done.events.len(), 2);
    assert!(kept(&phone, house, "2026-10-02").is_some());
    assert!(kept(&phone, house, "2026-10-05").is_some());
    assert!(kept(&phone, house, "2026-10-04").is_none());
}

/// First water of starters cut on 5 October in a house that read `mean` every day before, and why on that day.
fn first_water(readings: &[(&str, i32)]) -> (String, Option<(i32, u32)>) {
    let (mut phone, bench) = nursery();
    phone.on("2026-10-05");
    let lot = phone.lot("Zygopetalum maculatum", 1, bench);
    let starters = divide(&mut phone, lot, &[(PieceClass::Starter, 3)], bench);
    phone.on("2026-10-20");
    for (on, mean) in readings {
        phone.act(read(bench, on, mean - 4_000, mean + 4_000));
    }
    let task = task(&phone, starters[0], TaskKind::FirstWater);
    let why = task.weather.map(|moved| (moved.days, moved.mean.read));
    (task.due_on.to_string(), why)
}

#[test]
fn cold_puts_first_water_off_and_heat_brings_it_forward() {
    let days = ["2026-10-01", "2026-10-03", "2026-10-06", "2026-10-08"];
    let all = |mean| days.map(|on| (on, mean));
    let plain = first_water(&[]);
    assert_eq!(plain, ("2026-10-12".to_owned(), None));
    assert_eq!(first_water(&all(20_000)), plain);
    // The week to 8 October: the 3rd, the 6th and the 8th were read.
    let cold = first_water(&all(12_000));
    assert_eq!(cold, ("2026-10-15".to_owned(), Some((3, 3))));
    let hot = first_water(&all(30_000));
    assert_eq!(hot, ("2026-10-10".to_owned(), Some((-2, 3))));
}

#[test]
fn two_days_read_move_nothing_and_what_was_read_after_the_day_moves_nothing_back() {
    let plain = "2026-10-12";
    let two = [("2026-10-06", 8_000), ("2026-10-08", 8_000)];
    assert_eq!(first_water(&two), (plain.to_owned(), None));
    let late = ["2026-10-11", "2026-10-13", "2026-10-14", "2026-10-15"].map(|on| (on, 8_000));
    assert_eq!(first_water(&late), (plain.to_owned(), None));
}

#[test]
fn first_water_that_was_given_stays_given_whatever_is_read_later() {
    let (mut phone, bench) = nursery();
    let lot = phone.lot("Zygopetalum maculatum", 1, bench);
    let starters = divide(&mut phone, lot, &[(PieceClass::Starter, 3)], bench);
    phone.on("2026-10-12");
    let open = task(&phone, starters[0], TaskKind::FirstWater);
    phone.act(Command::DecideTasks {
        tasks: vec![open],
        answer: TaskAnswer::Done { outcome: None },
        why: String::new(),
    });
    for on in ["2026-10-06", "2026-10-07", "2026-10-08", "2026-10-09"] {
        phone.act(read(bench, on, 2_000, 10_000));
    }
    assert_eq!(tasks(&phone, starters[0], TaskKind::FirstWater), []);
}
