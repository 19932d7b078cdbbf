//! Plants kept for somebody: until a day, sold from, let go; on two phones that do not know of each other.

use velamen_core::command::Command;
use velamen_core::id::{EntryRef, LotId};
use velamen_core::lot_draft::{Change, ChangeDraft};
use velamen_core::rejection::{Input, Rejection};
use velamen_core::season::{Hemisphere, Warmth};
use velamen_core::state::Anomaly;
use velamen_core::view::lot::lot as page;
use velamen_core::view::questions::questions;
use velamen_core::view::stock::stock;
use velamen_tests::{Phone, day};

use crate::scene::nursery;

fn keep(lot: LotId, plants: u32, to: &str) -> Command {
    Command::ReserveInLot {
        lot,
        plants,
        to: to.to_owned(),
        until_on: None,
        note: String::new(),
    }
}

fn sell(lot: LotId, plants: u32) -> Command {
    Command::SellFromLot {
        lot,
        plants,
        stands: plants,
        to: String::new(),
        price_cents: None,
        note: String::new(),
    }
}

fn sell_kept(lot: LotId, reserved: EntryRef, plants: u32) -> Command {
    Command::SellReserved {
        lot,
        reserved,
        plants,
        stands: plants,
        price_cents: Some(1_500),
        note: String::new(),
    }
}

fn release(lot: LotId, reserved: EntryRef, plants: u32) -> Command {
    Command::ReleaseInLot {
        lot,
        reserved,
        plants,
    }
}

/// Plants there, kept and free.
fn counts(phone: &Phone, lot: LotId) -> (i64, i64, i64) {
    let lot = &phone.state.facts().lots[&lot];
    (lot.plants, lot.reserved(), lot.unreserved())
}

fn twelve() -> (Phone, LotId) {
    let (mut phone, bench) = nursery(Hemisphere::North, Warmth::Cool, "2027-03-11");
    let lot = phone.lot("Cymbidium lowianum", 12, bench);
    (phone, lot)
}

#[test]
fn what_is_kept_stands_there_and_is_not_for_others() {
    let (mut phone, lot) = twelve();
    let kept = phone.act(keep(lot, 4, "Ana, order 7")).entry;
    assert_eq!(counts(&phone, lot), (12, 4, 8));
    let rows = stock(&phone.state, "", 10).rows;
    assert_eq!(
        (rows[0].reserved, rows[0].reserved_for.clone()),
        (4, vec!["Ana, order 7".to_owned()])
    );
    assert_eq!(
        stock(&phone.state, "ana", 10).found,
        1,
        "found by whom it is for"
    );
    // Nine to keep, or to sell, are one too many; more than there are at all is said as ever.
    let asks = Rejection::MoreThanFree {
        lot,
        free: 8,
        reserved: 4,
    };
    assert_eq!(phone.refusal(keep(lot, 9, "Ben")), asks);
    assert_eq!(phone.refusal(sell(lot, 9)), asks);
    let none = Rejection::MoreThanThereAre {
        lot,
        plants: 12,
        stands: 12,
    };
    assert_eq!(phone.refusal(sell(lot, 13)), none);
    assert_eq!(
        phone.refusal(keep(lot, 0, "Ben")),
        Rejection::Missing {
            input: Input::Plants
        }
    );
    phone.act(sell(lot, 8));
    assert_eq!(counts(&phone, lot), (4, 4, 0));
    // Three go to her, and one she does not want.
    let sold = phone.act(sell_kept(lot, kept, 3));
    assert!(sold.line.contains("Ana, order 7"), "{}", sold.line);
    assert_eq!(counts(&phone, lot), (1, 1, 0));
    assert!(matches!(
        phone.refusal(release(lot, kept, 2)),
        Rejection::TooMany { .. }
    ));
    phone.act(release(lot, kept, 1));
    assert_eq!(counts(&phone, lot), (1, 0, 1));
    assert_eq!(phone.refusal(release(lot, kept, 1)), Rejection::NotReserved);
    assert_eq!(
        phone.refusal(sell_kept(lot, kept, 1)),
        Rejection::NotReserved
    );
    assert_eq!(phone.state.anomalies(), Vec::new());
}

#[test]
fn more_than_she_kept_come_out_of_those_that_are_free() {
    let (mut phone, lot) = twelve();
    let hers = phone.act(keep(lot, 4, "Ana")).entry;
    phone.act(keep(lot, 5, "Ben"));
    let too_many = phone.refusal(sell_kept(lot, hers, 8));
    assert!(
        matches!(too_many, Rejection::MoreThanFree { free: 3, .. }),
        "{too_many:?}"
    );
    phone.act(sell_kept(lot, hers, 6));
    assert_eq!(counts(&phone, lot), (6, 5, 1));
}

#[test]
fn selling_more_than_is_free_is_done_when_it_is_said_again_and_fewer_stay_kept() {
    let (mut phone, lot) = twelve();
    phone.act(keep(lot, 4, "Ana"));
    let bens = phone.act(keep(lot, 3, "Ben")).entry;
    let mut draft = ChangeDraft {
        plants: 7,
        ..ChangeDraft::begin(&phone.state, lot, Change::Sell)
    };
    let command = draft.command(&phone.state, lot).unwrap().unwrap();
    assert!(matches!(
        phone.refusal(command),
        Rejection::MoreThanFree { free: 5, .. }
    ));
    draft.anyway = true;
    let command = draft.command(&phone.state, lot).unwrap().unwrap();
    let done = phone.act(command);
    assert_eq!(counts(&phone, lot), (5, 5, 0));
    let left = &phone.state.facts().lots[&lot].reserved;
    assert_eq!(left[&bens].plants, 1, "the last that was kept gives way");
    // Undone in one, all stands as before.
    phone.act(Command::Withdraw {
        targets: vec![done.entry],
        with_dependents: false,
        why: velamen_core::event::WithdrawWhy::Undone,
        note: String::new(),
    });
    assert_eq!(counts(&phone, lot), (12, 7, 5));
}

#[test]
fn a_day_that_is_over_is_said_and_lets_nothing_go() {
    let (mut phone, lot) = twelve();
    phone.act(Command::ReserveInLot {
        lot,
        plants: 2,
        to: "Ana".to_owned(),
        until_on: Some(day("2027-03-20")),
        note: String::new(),
    });
    let row = |phone: &Phone| page(&phone.state, lot, phone.today).unwrap().reserved[0].clone();
    phone.on("2027-03-20");
    assert!(!row(&phone).is_past);
    phone.on("2027-03-21");
    assert!(row(&phone).is_past);
    assert_eq!(counts(&phone, lot), (12, 2, 10));
}

#[test]
fn two_phones_that_keep_more_than_there_are_are_asked_and_nothing_falls_below_nothing() {
    let (mut first, lot) = twelve();
    let mut second = first.clone();
    second.dev = velamen_core::id::Dev(8);
    second.act(Command::JoinPhone {
        prefix: velamen_core::code::Prefix::pick(8),
        name: "second".to_owned(),
    });
    let hers = first.act(keep(lot, 8, "Ana")).entry;
    second.act(keep(lot, 7, "Ben"));
    first.take_in(&second.hand_over());
    second.take_in(&first.hand_over());
    assert_eq!(counts(&first, lot), (12, 15, 0));
    assert_eq!(first.state.digest(), second.state.digest());
    let asked = questions(&first.state);
    assert_eq!(asked.len(), 1, "{asked:?}");
    assert!(matches!(
        asked[0].anomaly,
        Anomaly::ReservedTooMany {
            plants: 12,
            reserved: 15,
            ..
        }
    ));
    assert_eq!(
        (asked[0].sides.len(), asked[0].lots.clone()),
        (2, vec![lot])
    );
    // Both sell hers without knowing; she is not owed less than nothing.
    first.act(sell_kept(lot, hers, 5));
    second.act(sell_kept(lot, hers, 5));
    first.take_in(&second.hand_over());
    assert_eq!(counts(&first, lot), (2, 7, 0));
    let asked = questions(&first.state);
    assert!(
        matches!(asked[0].anomaly, Anomaly::ReservedTooMany { .. }),
        "{asked:?}"
    );
    // Ben gets fewer, and the question is gone.
    let his = *first.state.facts().lots[&lot]
        .reserved
        .keys()
        .next()
        .unwrap();
    first.act(release(lot, his, 5));
    assert_eq!(first.state.anomalies(), Vec::new());
}
