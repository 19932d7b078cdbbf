//! The book looked through: a lot, a place, a kind of event; slips only when asked for.

use velamen_core::command::Command;
use velamen_core::event::{Event, PieceClass, Sight, WithdrawWhy};
use velamen_core::season::{Hemisphere, Warmth};
use velamen_core::view::book::{Filter, rows};
use velamen_core::view::book_sieve::Kind;
use velamen_tests::Phone;

use crate::scene::{nursery, pieces};

fn typed(typed: &str) -> Filter<'_> {
    Filter {
        typed,
        ..Filter::default()
    }
}

/// What was recorded first in each entry found, the newest first.
fn found(phone: &Phone, filter: Filter<'_>) -> Vec<&'static str> {
    let rows = rows(&phone.state, filter, 100);
    rows.iter().map(|row| row.events[0].wire_name()).collect()
}

#[test]
fn a_lot_is_found_by_name_or_code_with_the_work_on_its_clump() {
    let (mut phone, bench) = nursery(Hemisphere::North, Warmth::Cool, "2027-03-11");
    let lot = phone.lot("Cymbidium lowianum", 3, bench);
    phone.lot("Vanda coerulea", 3, bench);
    let clump = phone.open_clump(&[lot]);
    phone.act(Command::TakePieces {
        clump,
        pieces: vec![pieces(PieceClass::Starter, 4)],
    });
    let of_lot = ["pieces_taken", "division_opened", "lot_received"];
    assert_eq!(found(&phone, typed("lowianum")), of_lot);
    let code = phone.state.facts().lots[&lot]
        .code
        .get()
        .unwrap()
        .to_string();
    assert_eq!(found(&phone, typed(&code)), of_lot);
    assert_eq!(found(&phone, typed("coerulea")), ["lot_received"]);
    assert_eq!(found(&phone, typed("masdevallia")), [""; 0]);
    // Once it is withdrawn it is still found, and so is its withdrawal.
    phone.act(Command::Withdraw {
        targets: vec![rows(&phone.state, typed("coerulea"), 1)[0].entry],
        with_dependents: false,
        why: WithdrawWhy::Mistake,
        note: String::new(),
    });
    assert_eq!(
        found(&phone, typed("coerulea")),
        ["withdrawn", "lot_received"]
    );
}

#[test]
fn a_place_shows_what_came_there_and_what_was_done_to_the_lots_there_now() {
    let (mut phone, bench) = nursery(Hemisphere::North, Warmth::Cool, "2027-03-11");
    let other = phone.place("Lath house", Warmth::Cool);
    let lot = phone.lot("Cymbidium lowianum", 3, bench);
    phone.act(Command::MoveLot { lot, to: other });
    phone.act(Command::Observe {
        lots: vec![lot],
        what: Sight::SpikeSeen,
        good: None,
        note: String::new(),
    });
    let at = |place| Filter {
        place: Some(place),
        ..Filter::default()
    };
    assert_eq!(
        found(&phone, at(other)),
        ["observed", "moved", "lot_received", "place_set"]
    );
    assert_eq!(found(&phone, at(bench)), ["lot_received", "place_set"]);
    let spikes = Filter {
        kind: Some(Kind::Seen),
        ..at(other)
    };
    assert_eq!(found(&phone, spikes), ["observed"], "both hold at once");
    let none = Filter {
        kind: Some(Kind::Seen),
        ..at(bench)
    };
    assert_eq!(found(&phone, none), [""; 0]);
}

#[test]
fn kinds_share_the_book_out_and_what_was_put_right_is_a_kind_of_its_own() {
    let (mut phone, bench) = nursery(Hemisphere::North, Warmth::Cool, "2027-03-11");
    phone.lot("Cymbidium lowianum", 3, bench);
    let of = |kind| Filter {
        kind: Some(kind),
        ..Filter::default()
    };
    let all = rows(&phone.state, Filter::default(), 100);
    let shared: usize = Kind::ALL
        .iter()
        .map(|kind| rows(&phone.state, of(*kind), 100).len())
        .sum();
    assert_eq!(shared, all.len());
    assert_eq!(found(&phone, of(Kind::PutRight)), [""; 0]);
    let Event::LotReceived(received) = all[0].events[0].clone() else {
        panic!("{:?}", all[0])
    };
    phone.act(Command::Amend {
        target: all[0].entry,
        index: 0,
        event: Event::from(velamen_core::event::LotReceived {
            plants: 4,
            ..*received
        }),
        why: String::new(),
    });
    assert_eq!(
        found(&phone, of(Kind::PutRight)),
        ["amended", "lot_received"]
    );
}
