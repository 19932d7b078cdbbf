//! A part that leaves a lot takes its tasks and what was decided along; from then on each goes its own way.

use velamen_core::command::Command;
use velamen_core::event::{PieceClass, SplitWhy, TaskAnswer};
use velamen_core::id::{LotId, PlaceId};
use velamen_core::season::{Hemisphere, Warmth};
use velamen_core::task::TaskKind;
use velamen_core::view::lot;
use velamen_tests::{Phone, day};

use crate::scene::{decide, divide, done, due, nursery, repot, task};

fn split(phone: &mut Phone, from: LotId, place: PlaceId) -> LotId {
    let done = phone.act(Command::SplitLot {
        from,
        plants: 4,
        stands: 4,
        place: Some(place),
        why: SplitWhy::Quarantined,
    });
    match &done.events[0] {
        velamen_core::event::Event::LotSplit(event) => event.lot,
        other => panic!("{other:?}"),
    }
}

fn starters() -> (Phone, LotId, PlaceId) {
    let (mut phone, bench) = nursery(Hemisphere::North, Warmth::Cool, "2027-03-11");
    let lot = phone.lot("Coelogyne cristata", 1, bench);
    let lots = divide(&mut phone, lot, &[(PieceClass::Starter, 10)], bench);
    (phone, lots[0], bench)
}

#[test]
fn a_part_has_the_same_work_before_it_as_the_whole() {
    let (mut phone, whole, _) = starters();
    let apart = phone.place("Apart", Warmth::Cool);
    phone.on("2027-03-15");
    let part = split(&mut phone, whole, apart);
    for kind in [TaskKind::FirstWater, TaskKind::RotCheck, TaskKind::PotOn] {
        let (one, other) = (task(&phone, whole, kind), task(&phone, part, kind));
        assert_eq!((one.due_on, one.anchor_on), (other.due_on, other.anchor_on));
        assert_eq!(other.place, Some(apart));
    }
    let facts = phone.state.facts();
    assert_eq!(
        (facts.lots[&whole].plants, facts.lots[&part].plants),
        (6, 4)
    );
    assert_eq!(facts.lots[&part].name.get(), facts.lots[&whole].name.get());
    assert_eq!(facts.lots[&part].class, Some(PieceClass::Starter));
}

#[test]
fn what_was_decided_before_the_split_holds_for_the_part_and_what_comes_after_does_not() {
    let (mut phone, whole, bench) = starters();
    phone.on("2027-03-18");
    let water = task(&phone, whole, TaskKind::FirstWater);
    done(&mut phone, water, None);
    let to = day("2027-03-29");
    let check = task(&phone, whole, TaskKind::RotCheck);
    decide(&mut phone, vec![check], TaskAnswer::PutOff { to });
    let part = split(&mut phone, whole, bench);
    assert_eq!(
        due(&phone, part, TaskKind::FirstWater),
        None,
        "both were watered"
    );
    assert_eq!(due(&phone, part, TaskKind::RotCheck), Some(to));
    let check = task(&phone, whole, TaskKind::RotCheck);
    done(&mut phone, check, None);
    assert_eq!(due(&phone, whole, TaskKind::RotCheck), None);
    assert_eq!(
        due(&phone, part, TaskKind::RotCheck),
        Some(to),
        "only the whole was looked at"
    );
    let check = task(&phone, part, TaskKind::RotCheck);
    done(&mut phone, check, None);
    assert_eq!(due(&phone, part, TaskKind::RotCheck), None);
}

#[test]
fn potting_the_whole_after_the_split_leaves_the_part_alone() {
    let (mut phone, whole, bench) = starters();
    phone.on("2027-03-15");
    let part = split(&mut phone, whole, bench);
    let before = task(&phone, part, TaskKind::PotOn).due_on;
    phone.on("2027-04-15");
    repot(&mut phone, whole);
    assert_eq!(due(&phone, part, TaskKind::PotOn), Some(before));
    assert_eq!(due(&phone, part, TaskKind::Repot), None);
    assert_eq!(
        due(&phone, whole, TaskKind::PotOn),
        None,
        "it was potted on"
    );
}

#[test]
fn a_part_of_a_part_goes_back_to_the_first_whole() {
    let (mut phone, whole, bench) = starters();
    phone.on("2027-03-15");
    let part = split(&mut phone, whole, bench);
    let water = task(&phone, part, TaskKind::FirstWater);
    done(&mut phone, water, None);
    let lesser = match &phone
        .act(Command::SplitLot {
            from: part,
            plants: 1,
            stands: 1,
            place: None,
            why: SplitWhy::Ill,
        })
        .events[0]
    {
        velamen_core::event::Event::LotSplit(event) => event.lot,
        other => panic!("{other:?}"),
    };
    assert_eq!(
        due(&phone, lesser, TaskKind::FirstWater),
        None,
        "decided for the part it came from"
    );
    assert!(due(&phone, whole, TaskKind::FirstWater).is_some());
    assert_eq!(
        task(&phone, lesser, TaskKind::PotOn).anchor_on,
        day("2027-03-11")
    );
    let view = lot::lot(&phone.state, lesser, phone.today).unwrap();
    assert_eq!(view.lineage.split_from.unwrap().lot, part);
    let history = view.history.len();
    assert!(history >= 4, "potted, split, watered, split: {history}");
}
