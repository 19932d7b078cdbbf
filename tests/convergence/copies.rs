//! Phones that were copied together with their book, step by step.

use velamen_core::command::{Command, PlaceTraits};
use velamen_core::event::Event;
use velamen_core::id::{LotId, PlaceId};
use velamen_core::season::Hemisphere;
use velamen_core::state::{Anomaly, State};
use velamen_tests::{named, opening};

use crate::gardener::{Gardener, dev};

fn opened() -> Gardener {
    let mut phone = Gardener::new(dev(0), "2027-03-11");
    phone
        .try_to(Command::OpenBook(opening(Hemisphere::North, dev(0))))
        .unwrap();
    phone
}

/// Receives one plant; a phone that found out it was copied joins under its own name first.
fn receive(phone: &mut Gardener, name: &str) -> LotId {
    phone.join_if_new();
    phone.try_to(Command::ReceiveLot(named(name))).unwrap();
    let last = phone.phone.state.log().in_order().next_back().unwrap();
    match &last.events.as_ref().unwrap()[0] {
        Event::LotReceived(event) => event.lot,
        other => panic!("{other:?}"),
    }
}

fn count(phone: &mut Gardener, lot: LotId, plants: u32) {
    phone
        .try_to(Command::CountLot {
            lot,
            plants,
            stands: 1,
        })
        .unwrap();
}

fn exchange(one: &mut Gardener, other: &mut Gardener) {
    let (from_one, from_other) = (one.lines(), other.lines());
    one.take_all(from_other.iter().map(String::as_str));
    other.take_all(from_one.iter().map(String::as_str));
}

#[test]
fn a_copied_phone_knew_everything_before_the_copy() {
    let mut one = opened();
    let lot = receive(&mut one, "Cymbidium lowianum");
    let mut copy = one.clone();
    copy.phone.wait_min(5);
    count(&mut copy, lot, 3);
    receive(&mut one, "Vanda coerulea");
    exchange(&mut one, &mut copy);
    assert_ne!(one.phone.dev, copy.phone.dev);
    let crossed = |state: &State| {
        state
            .anomalies()
            .into_iter()
            .any(|open| matches!(open, Anomaly::CountCrossed { .. }))
    };
    assert!(
        !crossed(&one.phone.state),
        "{:?}",
        one.phone.state.anomalies()
    );
}

#[test]
fn a_line_that_waits_on_the_other_branch_does_not_hold_this_one_up() {
    let mut one = opened();
    let mut copy = one.clone();
    receive(&mut copy, "Vanda coerulea");
    receive(&mut copy, "Vanda coerulea");
    let late = copy.lines();
    // The copy's second line comes first: what it follows is not here yet.
    one.take_all([late.last().unwrap().as_str()]);
    receive(&mut one, "Cymbidium lowianum");
    receive(&mut one, "Cymbidium lowianum");
    assert_eq!(one.phone.state.log().parked(), 1);
    one.take_all(late.iter().map(String::as_str));
    assert_eq!(one.phone.state.log().parked(), 0);
    assert_eq!(one.phone.state.facts().lots.len(), 4);
}

#[test]
fn a_phone_copied_before_its_first_entry_is_two_phones() {
    let first = opened();
    let mut one = Gardener::new(dev(1), "2027-03-11");
    one.take_all(first.lines().iter().map(String::as_str));
    let mut copy = one.clone();
    for phone in [&mut one, &mut copy] {
        let prefix = velamen_core::code::Prefix::pick(phone.phone.now_ms.unsigned_abs());
        let name = "second".to_owned();
        phone.try_to(Command::JoinPhone { prefix, name }).unwrap();
        phone.phone.wait_min(7);
    }
    let cymbidium = receive(&mut one, "Cymbidium lowianum");
    let vanda = receive(&mut copy, "Vanda coerulea");
    assert_eq!(cymbidium, vanda, "each knows only its own");
    exchange(&mut one, &mut copy);
    let names: Vec<String> = one
        .phone
        .state
        .facts()
        .live_lots()
        .map(|(_, lot)| lot.name.or_default().species.unwrap_or_default())
        .collect();
    assert_eq!(names.len(), 2, "{names:?}");
    assert_eq!(one.phone.state.digest(), copy.phone.state.digest());
}

#[test]
fn a_third_phone_that_took_one_branch_first_keeps_meaning_that_branch() {
    let mut one = opened();
    let mut copy = one.clone();
    copy.phone.wait_min(5);
    let mut third = Gardener::new(dev(1), "2027-03-11");
    receive(&mut one, "Cymbidium lowianum");
    let vanda = receive(&mut copy, "Vanda coerulea");
    let place = |phone: &mut Gardener, name: &str| {
        let name = Some(name.to_owned());
        let about = PlaceTraits::default();
        phone
            .try_to(Command::SetPlace {
                place: None,
                name,
                walk: None,
                about,
            })
            .unwrap();
    };
    place(&mut copy, "The copy's bench");
    third.take_all(copy.lines().iter().map(String::as_str));
    let prefix = velamen_core::code::Prefix::pick(99);
    third
        .try_to(Command::JoinPhone {
            prefix,
            name: "third".to_owned(),
        })
        .unwrap();
    count(&mut third, vanda, 8);
    third.take_all(one.lines().iter().map(String::as_str));
    let plants = |phone: &Gardener, species: &str| {
        let facts = phone.phone.state.facts();
        let mut lots = facts.live_lots();
        let of = |lot: &velamen_core::state::Lot| lot.name.or_default().species;
        lots.find(|(_, lot)| of(lot).as_deref() == Some(species))
            .map(|(id, lot)| (id, lot.plants))
    };
    let cymbidium = plants(&third, "lowianum").unwrap().0;
    assert_eq!(
        (
            plants(&third, "lowianum").unwrap().1,
            plants(&third, "coerulea").unwrap().1
        ),
        (1, 8)
    );
    third.join_if_new();
    // Now it knows both, and means the first phone's lot by the name it has here.
    count(&mut third, cymbidium, 5);
    assert_eq!(
        (
            plants(&third, "lowianum").unwrap().1,
            plants(&third, "coerulea").unwrap().1
        ),
        (5, 8)
    );
    let everything = third.lines();
    let (anew, _) = State::of_lines(everything.iter().rev().map(String::as_str));
    assert_eq!(anew.digest(), third.phone.state.digest());
    let benches: Vec<PlaceId> = anew.facts().places.keys().copied().collect();
    assert_eq!(benches.len(), 1);
}

#[test]
fn a_phone_copied_twice_over_loses_no_line_written_under_a_learned_name() {
    let mut one = opened();
    let mut early = one.clone();
    receive(&mut one, "Cymbidium lowianum");
    let mut late = one.clone();
    receive(&mut one, "Cymbidium lowianum");
    late.phone.wait_min(3);
    receive(&mut late, "Vanda coerulea");
    exchange(&mut one, &mut late);
    receive(&mut late, "Vanda tessellata");
    // The first copy was made earlier and wrote earlier: it takes the family's name.
    early.phone.now_ms -= 60_000;
    receive(&mut early, "Oncidium flexuosum");
    exchange(&mut one, &mut early);
    exchange(&mut one, &mut late);
    exchange(&mut one, &mut early);
    assert_eq!(
        one.phone.state.log().parked(),
        0,
        "{:?}",
        one.phone.state.log().gaps()
    );
    assert_eq!(one.phone.state.facts().lots.len(), 5);
    receive(&mut late, "Vanda sanderiana");
    exchange(&mut one, &mut late);
    assert_eq!(one.phone.state.facts().lots.len(), 6);
    assert_eq!(one.phone.state.digest(), late.phone.state.digest());
}

#[test]
fn a_copy_of_a_copy_that_never_heard_of_its_name_is_taken_line_by_line() {
    let mut one = opened();
    let mut copy = one.clone();
    copy.phone.wait_min(5);
    receive(&mut one, "Cymbidium lowianum");
    receive(&mut copy, "Vanda coerulea");
    exchange(&mut one, &mut copy);
    copy.join_if_new();
    let mut second = copy.clone();
    second.phone.wait_min(5);
    receive(&mut copy, "Vanda tessellata");
    for _ in 0..3 {
        receive(&mut second, "Oncidium flexuosum");
    }
    one.take_all(copy.lines().iter().map(String::as_str));
    // The last of the second copy's lines first, and all under the name of the first copy.
    one.take_all(second.lines().iter().rev().map(String::as_str));
    assert_eq!(one.phone.state.log().parked(), 0);
    assert_eq!(one.phone.state.facts().lots.len(), 6);
    let mut later = Gardener::new(dev(5), "2027-03-11");
    let lines = one.lines();
    let fork = |line: &&String| line.contains("flexuosum");
    let (oncidiums, others): (Vec<&String>, Vec<&String>) = lines.iter().partition(fork);
    let (first, rest) = oncidiums.split_first().unwrap();
    // One line of the branch, then those after the next, then the next.
    let order = others
        .into_iter()
        .chain([*first])
        .chain(rest.iter().rev().copied());
    later.take_all(order.map(String::as_str));
    assert_eq!(later.phone.state.log().parked(), 0);
    assert_eq!(later.phone.state.digest(), one.phone.state.digest());
}
