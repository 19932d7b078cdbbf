//! Several phones, each on its own, files handed over late, twice, torn and in any order: in the end one book.
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    clippy::indexing_slicing,
    reason = "a test binary: the lints' allowance for tests does not reach functions beside them"
)]

mod balance;
mod containers;
mod copies;
mod files;
mod gardener;
mod kept;

use std::collections::BTreeSet;

use proptest::prelude::*;
use serde_json::Value;
use velamen_core::command::Command;
use velamen_core::command::PlaceTraits;
use velamen_core::season::Hemisphere;
use velamen_core::state::State;
use velamen_core::view::round;
use velamen_tests::{day, opening};

use gardener::{Deed, Gardener, dev};

/// What happens next in the nursery.
#[derive(Clone, Debug)]
enum Turn {
    Work {
        who: usize,
        deed: Deed,
    },
    /// A file goes from one to the other: which lines arrive, and in what disorder.
    HandOver {
        from: usize,
        to: usize,
        shuffle: u64,
        lose: u8,
    },
    /// The phone is copied with its book, and both are used from now on.
    Copy {
        who: usize,
    },
}

pub(crate) fn deed() -> impl Strategy<Value = Deed> {
    (any::<u8>(), 0_usize..1_000, 0_u32..10_000).prop_map(|(kind, which, number)| Deed {
        kind,
        which,
        number,
    })
}

fn turn(copies: u32) -> impl Strategy<Value = Turn> {
    prop_oneof![
        12 => (0_usize..6, deed()).prop_map(|(who, deed)| Turn::Work { who, deed }),
        4 => (0_usize..6, 0_usize..6, any::<u64>(), 0_u8..4)
            .prop_map(|(from, to, shuffle, lose)| Turn::HandOver { from, to, shuffle, lose }),
        copies => (0_usize..6).prop_map(|who| Turn::Copy { who }),
    ]
}

/// The lines in another order; the same one for the same seed.
fn shuffled(lines: &[String], mut seed: u64) -> Vec<&str> {
    let mut lines: Vec<&str> = lines.iter().map(String::as_str).collect();
    for at in (1..lines.len()).rev() {
        seed = seed
            .wrapping_mul(6_364_136_223_846_793_005)
            .wrapping_add(1_442_695_040_888_963_407);
        let other = usize::try_from(seed >> 33).unwrap() % (at + 1);
        lines.swap(at, other);
    }
    lines
}

/// Phones at the start: the first opened the book, the others have its file; the last one's clock is years off.
pub(crate) fn phones(count: usize) -> Vec<Gardener> {
    let mut first = Gardener::new(dev(0), "2027-03-11");
    first
        .try_to(Command::OpenBook(opening(Hemisphere::North, dev(0))))
        .unwrap();
    first
        .try_to(Command::SetPlace {
            place: None,
            name: Some("Cool house".to_owned()),
            walk: None,
            about: PlaceTraits::default(),
        })
        .unwrap();
    let lines = first.lines();
    let mut phones = vec![first];
    for at in 1..count {
        let mut phone = Gardener::new(dev(at), "2027-03-11");
        if at + 1 == count {
            phone.phone.now_ms += 4 * 365 * 86_400_000;
        }
        phone.take_all(lines.iter().map(String::as_str));
        phones.push(phone);
    }
    phones
}

fn take_turn(phones: &mut Vec<Gardener>, turn: &Turn) {
    let count = phones.len();
    match turn {
        Turn::Work { who, deed } => {
            let phone = &mut phones[who % count];
            phone.carry_out(*deed);
            incremental_is_anew(&phone.phone.state);
        }
        Turn::HandOver {
            from,
            to,
            shuffle,
            lose,
        } => {
            let lines = phones[from % count].lines();
            let phone = &mut phones[to % count];
            let arriving = shuffled(&lines, *shuffle);
            // A few stay behind, and a few come twice.
            let kept = (0_u64..)
                .zip(arriving)
                .filter(|(at, _)| *lose == 0 || (at + shuffle % 7) % (u64::from(*lose) + 2) != 0)
                .map(|(_, line)| line);
            let kept: Vec<&str> = kept.collect();
            let twice = kept.iter().copied().step_by(3);
            phone.take_all(kept.iter().copied().chain(twice));
            incremental_is_anew(&phone.phone.state);
        }
        Turn::Copy { who } if count < 5 => {
            let mut copy = phones[who % count].clone();
            copy.phone.now_ms += 30_000;
            phones.push(copy);
        }
        Turn::Copy { .. } => {}
    }
}

fn incremental_is_anew(state: &State) {
    let lines: Vec<String> = state.log().lines().map(str::to_owned).collect();
    let (anew, refused) = State::of_lines(lines.iter().map(String::as_str));
    assert_eq!(refused, 0);
    same_book(state, &anew);
}

pub(crate) fn same_book(one: &State, other: &State) {
    let facts = |state: &State| serde_json::to_value(state.facts()).unwrap();
    if let Some(at) = first_difference("", &facts(one), &facts(other)) {
        panic!("{at}");
    }
    assert_eq!(one.digest(), other.digest());
    assert_eq!(one.fingerprint(), other.fingerprint());
    assert_eq!(one.anomalies(), other.anomalies());
    let order = |state: &State| {
        state
            .log()
            .in_order()
            .map(|entry| entry.id)
            .collect::<Vec<_>>()
    };
    assert_eq!(order(one), order(other));
    for on in ["2027-03-11", "2027-09-01", "2029-04-01"] {
        assert_eq!(round::round(one, day(on)), round::round(other, day(on)));
    }
}

/// Where two values part, so that a failure can be read.
fn first_difference(at: &str, one: &Value, other: &Value) -> Option<String> {
    match (one, other) {
        _ if one == other => None,
        (Value::Object(a), Value::Object(b)) if a.keys().eq(b.keys()) => a
            .iter()
            .find_map(|(key, one)| first_difference(&format!("{at}/{key}"), one, b.get(key)?)),
        (Value::Array(a), Value::Array(b)) if a.len() == b.len() => (0..)
            .zip(a.iter().zip(b))
            .find_map(|(n, (one, other))| first_difference(&format!("{at}/{n}"), one, other)),
        _ => Some(format!("{at}: {one} against {other}")),
    }
}

/// Everything goes everywhere, and then there is one book.
fn all_agree(mut phones: Vec<Gardener>, seed: u64) {
    let all: BTreeSet<String> = phones.iter().flat_map(Gardener::lines).collect();
    let all: Vec<String> = all.into_iter().collect();
    for (at, phone) in (0_u64..).zip(&mut phones) {
        phone.take_all(shuffled(&all, seed ^ at));
    }
    let (anew, refused) = State::of_lines(shuffled(&all, !seed));
    assert_eq!(
        (refused, anew.log().parked()),
        (0, 0),
        "nothing waits once all is there"
    );
    assert_eq!(
        anew.log().len(),
        all.len(),
        "every line is an entry that counts"
    );
    for phone in &phones {
        let lines: BTreeSet<String> = phone.lines().into_iter().collect();
        assert!(
            lines.iter().eq(all.iter()),
            "no entry is lost, none made up"
        );
        same_book(&phone.phone.state, &anew);
    }
    balance::check(&anew);
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 24, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn two_phones_that_exchange_torn_files_end_with_one_book(
        turns in prop::collection::vec(turn(0), 10..50), seed in any::<u64>()
    ) {
        let mut phones = phones(2);
        for turn in &turns {
            take_turn(&mut phones, turn);
        }
        all_agree(phones, seed);
    }

    #[test]
    fn three_phones_one_of_them_years_ahead_end_with_one_book(
        turns in prop::collection::vec(turn(0), 10..50), seed in any::<u64>()
    ) {
        let mut phones = phones(3);
        for turn in &turns {
            take_turn(&mut phones, turn);
        }
        all_agree(phones, seed);
    }

    #[test]
    fn phones_copied_with_their_book_end_with_one_book(
        turns in prop::collection::vec(turn(2), 10..50), seed in any::<u64>()
    ) {
        let mut phones = phones(2);
        for turn in &turns {
            take_turn(&mut phones, turn);
        }
        all_agree(phones, seed);
    }
}
