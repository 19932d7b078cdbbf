//! Phones with wrong clocks: only the wrong one is asked about, and a correction ends the question everywhere.

use velamen_core::code::Prefix;
use velamen_core::command::Command;
use velamen_core::season::{Hemisphere, Warmth};
use velamen_core::state::Anomaly;
use velamen_core::view::questions::questions;
use velamen_tests::Phone;

const DAY_MS: i64 = 86_400_000;

fn opened() -> Phone {
    let mut first = Phone::new(7, "2027-03-11");
    first.open_book(Hemisphere::North);
    first.place("Cool house", Warmth::Cool);
    first
}

/// A further phone that takes the book in, its clock off by so many days.
fn joined(first: &Phone, dev: u64, off_days: i64) -> Phone {
    let mut phone = Phone::new(dev, "2027-03-11");
    phone.now_ms += off_days * DAY_MS;
    phone.take_in(&first.hand_over());
    phone.act(Command::JoinPhone {
        prefix: Prefix::pick(dev),
        name: String::new(),
    });
    phone
}

fn note(phone: &mut Phone, text: &str) {
    let place = phone.state.facts().places.keys().next().copied();
    phone.act(Command::NoteTask {
        task: None,
        text: text.to_owned(),
        due_on: phone.today,
        repeat_days: None,
        lot: None,
        place,
    });
}

/// Whose clock is asked about, over which entries, and by how many days it is off.
fn asked(phone: &Phone) -> Vec<(u64, u32, u32, i64)> {
    let astray = phone.state.anomalies().into_iter();
    astray
        .map(|anomaly| match anomaly {
            Anomaly::ClockAstray {
                dev,
                from_seq,
                to_seq,
                off_ms,
            } => (dev.0, from_seq, to_seq, off_ms / DAY_MS),
            other => panic!("{other:?}"),
        })
        .collect()
}

#[track_caller]
fn correct(phone: &mut Phone) {
    let asked = questions(&phone.state);
    assert_eq!((asked.len(), asked[0].mends.len()), (1, 1), "{asked:?}");
    phone.act(asked[0].mends[0].clone());
    assert_eq!(phone.state.anomalies(), Vec::new());
}

#[test]
fn one_phone_years_ahead_is_asked_about_and_not_the_phones_that_took_its_entries_in() {
    let mut first = opened();
    let mut second = joined(&first, 8, 0);
    let mut fast = joined(&first, 9, 3_000);
    note(&mut fast, "sweep");
    for phone in [&mut first, &mut second] {
        phone.wait_min(60);
        phone.take_in(&fast.hand_over());
        note(phone, "order bark");
        note(phone, "wash pots");
    }
    first.take_in(&second.hand_over());
    assert_eq!(asked(&first), [(9, 1, 2, 2_999)]);
    correct(&mut first);
    // The order of entries stays as it was, and still nobody else is in doubt.
    note(&mut first, "order stone");
    assert_eq!(first.state.anomalies(), Vec::new());
    second.take_in(&first.hand_over());
    note(&mut second, "sweep again");
    assert_eq!(second.state.anomalies(), Vec::new());
}

#[test]
fn a_phone_that_came_up_in_1970_after_a_flat_battery_is_asked_about_those_entries_alone() {
    let mut phone = opened();
    for text in ["sweep", "order bark", "wash pots"] {
        note(&mut phone, text);
    }
    let before = phone.state.log().len();
    let right = phone.now_ms;
    phone.now_ms = 0;
    note(&mut phone, "in the dark");
    note(&mut phone, "still in the dark");
    phone.now_ms = right + DAY_MS;
    note(&mut phone, "the clock is set again");
    let first = u32::try_from(before).unwrap() + 1;
    let found = asked(&phone);
    assert_eq!(found.len(), 1, "{found:?}");
    assert_eq!((found[0].0, found[0].1, found[0].2), (7, first, first + 1));
    assert_eq!(found[0].3, -(right - 60_000) / DAY_MS);
    correct(&mut phone);
}

#[test]
fn a_phone_set_ahead_for_a_while_is_asked_about_the_while_alone() {
    let mut phone = opened();
    note(&mut phone, "sweep");
    let right = phone.now_ms;
    phone.now_ms += 106 * DAY_MS;
    note(&mut phone, "ahead");
    let ahead = u32::try_from(phone.state.log().len()).unwrap();
    phone.now_ms = right;
    for text in ["order bark", "wash pots", "order stone"] {
        note(&mut phone, text);
    }
    assert_eq!(asked(&phone), [(7, ahead, ahead, 106)]);
    correct(&mut phone);
}

#[test]
fn a_phone_that_is_slow_from_the_start_is_asked_about_and_not_the_other() {
    let mut first = opened();
    for text in ["sweep", "order bark", "wash pots"] {
        note(&mut first, text);
    }
    let mut slow = joined(&first, 8, -106);
    note(&mut slow, "water");
    first.take_in(&slow.hand_over());
    note(&mut first, "order stone");
    assert_eq!(asked(&first), [(8, 1, 2, -106)]);
    correct(&mut first);
}

#[test]
fn an_hour_of_summer_time_set_by_hand_is_nobody_s_question() {
    let mut phone = opened();
    note(&mut phone, "sweep");
    phone.now_ms -= 3 * 3_600_000;
    note(&mut phone, "order bark");
    assert_eq!(phone.state.anomalies(), Vec::new());
}
