//! Whose stay it is: a part of a lot in quarantine carries the stay on by itself. What was done to the whole, or seen on
//! it, after the part had left counts for the whole alone; and whoever lets the part out ends what they knew of.

use velamen_core::code::Prefix;
use velamen_core::command::{Command, EnterQuarantine, RecordFinding, RecordTreatment};
use velamen_core::event::*;
use velamen_core::finding_draft::FindingDraft;
use velamen_core::id::{LotId, PlaceId};
use velamen_core::quarantine::{Progress, Terms, held, is_held};
use velamen_core::season::Warmth;
use velamen_core::task::TaskKind;
use velamen_core::task::derive;
use velamen_core::view::apart::apart;
use velamen_tests::{Phone, treatment};

use crate::scene::nursery;

fn greenhouse(today: &str) -> (Phone, PlaceId) {
    nursery(velamen_core::season::Hemisphere::North, Warmth::Cool, today)
}

/// Mealybug: so many treatments, three clean looks, 45 days.
fn keep_apart(lot: LotId, treatments: u8, inspections: u8) -> Command {
    Command::EnterQuarantine(EnterQuarantine {
        lots: vec![lot],
        why: QuarantineWhy::Finding,
        terms: Terms {
            days: 45,
            inspections,
            treatments,
            test_days: Vec::new(),
        },
        ..EnterQuarantine::default()
    })
}

/// Into the corner, for a reason of its own that waits for nothing.
fn into(lot: LotId, place: PlaceId) -> Command {
    Command::EnterQuarantine(EnterQuarantine {
        lots: vec![lot],
        why: QuarantineWhy::Caution,
        place: Some(place),
        ..EnterQuarantine::default()
    })
}

fn soap() -> ProductCopy {
    ProductCopy {
        label_name: "Soap".to_owned(),
        ..ProductCopy::default()
    }
}

fn treat_lot(phone: &mut Phone, lot: LotId) {
    let parts = vec![TreatedPart::Lot { lot, plants: 1 }];
    let record = treatment(parts, AgentClass::Insect, soap());
    phone.act(Command::RecordTreatment(record));
}

fn treat_place(phone: &mut Phone, place: PlaceId) {
    let record = RecordTreatment {
        place: Some(place),
        method: Method::Spray,
        ..treatment(Vec::new(), AgentClass::Insect, soap())
    };
    phone.act(Command::RecordTreatment(record));
}

fn split(phone: &mut Phone, from: LotId, place: Option<PlaceId>) -> LotId {
    let done = phone.act(Command::SplitLot {
        from,
        plants: 2,
        stands: 2,
        place,
        why: SplitWhy::Sorted,
    });
    match &done.events[0] {
        Event::LotSplit(split) => split.lot,
        other => panic!("{other:?}"),
    }
}

fn progress(phone: &Phone, lot: LotId) -> Progress {
    apart(&phone.state, lot, phone.today).stays[0]
        .progress
        .clone()
}

fn second(phone: &Phone, today: &str) -> Phone {
    let mut second = Phone::new(9, today);
    second.take_in(&phone.hand_over());
    second.act(Command::JoinPhone {
        prefix: Prefix::pick(9),
        name: "second".to_owned(),
    });
    second
}

#[test]
fn what_the_rest_was_treated_with_after_a_part_had_left_it_counts_for_the_rest_alone() {
    let (mut phone, bench) = greenhouse("2027-03-01");
    let whole = phone.lot("Cymbidium lowianum", 6, bench);
    phone.act(keep_apart(whole, 3, 3));
    let part = split(&mut phone, whole, None);
    for on in ["2027-03-02", "2027-03-12", "2027-03-22"] {
        phone.on(on);
        treat_lot(&mut phone, whole);
    }
    let counted = |lot| {
        let progress = progress(&phone, lot);
        (progress.treated, progress.treated_wanted)
    };
    assert_eq!((counted(part), counted(whole)), ((0, 3), (3, 3)));
}

#[test]
fn what_a_lot_was_treated_with_before_it_was_split_counts_for_both() {
    let (mut phone, bench) = greenhouse("2027-03-01");
    let whole = phone.lot("Cymbidium lowianum", 6, bench);
    phone.act(keep_apart(whole, 3, 3));
    phone.on("2027-03-02");
    treat_lot(&mut phone, whole);
    phone.on("2027-03-05");
    treat_place(&mut phone, bench);
    let part = split(&mut phone, whole, None);
    phone.on("2027-03-12");
    treat_lot(&mut phone, whole);
    let treated = |lot| progress(&phone, lot).treated;
    assert_eq!((treated(part), treated(whole)), (2, 3));
}

#[test]
fn a_house_that_was_treated_counts_for_who_stood_in_it_then_and_not_for_who_came_later() {
    let (mut phone, bench) = greenhouse("2027-03-01");
    let corner = phone.place("Corner", Warmth::Cool);
    let lot = phone.lot("Cymbidium lowianum", 6, bench);
    let other = phone.lot("Cymbidium lowianum", 6, corner);
    phone.act(keep_apart(lot, 3, 3));
    phone.act(keep_apart(other, 3, 3));
    treat_place(&mut phone, corner);
    phone.on("2027-03-02");
    phone.act(into(lot, corner));
    let treated = |phone: &Phone, lot| progress(phone, lot).treated;
    assert_eq!((treated(&phone, lot), treated(&phone, other)), (0, 1));
    phone.on("2027-03-03");
    treat_place(&mut phone, corner);
    assert_eq!((treated(&phone, lot), treated(&phone, other)), (1, 2));
    // The bench it left is no longer its own.
    phone.on("2027-03-04");
    treat_place(&mut phone, bench);
    assert_eq!(treated(&phone, lot), 1);
}

#[test]
fn a_treatment_of_a_bench_that_another_phone_wrote_down_counts_for_a_lot_that_has_left_it_since() {
    let (mut phone, bench) = greenhouse("2027-03-01");
    let corner = phone.place("Corner", Warmth::Cool);
    let lot = phone.lot("Cymbidium lowianum", 6, bench);
    phone.act(keep_apart(lot, 1, 0));
    let mut other = second(&phone, "2027-03-01");
    other.wait_min(60);
    treat_place(&mut other, bench);
    phone.on("2027-03-02");
    phone.act(into(lot, corner));
    let review = |phone: &Phone| {
        let tasks = derive::of_lot(phone.state.facts(), lot);
        tasks
            .iter()
            .any(|task| task.kind == TaskKind::ReleaseReview)
    };
    assert_eq!((progress(&phone, lot).treated, review(&phone)), (0, false));
    // Taking in asserts that the work that is kept is the work there is.
    phone.take_in(&other.hand_over());
    assert_eq!((progress(&phone, lot).treated, review(&phone)), (1, true));
    // And once it is taken back, it does not count.
    let treated = phone.state.facts().places[&bench].treatments[0];
    phone.act(Command::Withdraw {
        targets: vec![treated.0.entry],
        with_dependents: false,
        why: WithdrawWhy::Mistake,
        note: String::new(),
    });
    assert_eq!((progress(&phone, lot).treated, review(&phone)), (0, false));
}

#[test]
fn what_is_seen_on_the_rest_after_a_part_had_left_it_does_not_begin_the_looks_at_the_part_anew() {
    let (mut phone, bench) = greenhouse("2027-03-01");
    let whole = phone.lot("Cymbidium lowianum", 6, bench);
    phone.act(keep_apart(whole, 0, 3));
    let part = split(&mut phone, whole, None);
    phone.on("2027-03-08");
    for lot in [whole, part] {
        let tasks = derive::of_lot(phone.state.facts(), lot);
        let look = tasks
            .into_iter()
            .find(|task| task.kind == TaskKind::QuarantineLook);
        phone.act(Command::DecideTasks {
            tasks: vec![look.unwrap()],
            answer: TaskAnswer::Done {
                outcome: Some(Outcome::Well),
            },
            why: String::new(),
        });
    }
    let clean = |phone: &Phone| [whole, part].map(|lot| progress(phone, lot).clean);
    assert_eq!(clean(&phone), [1, 1]);
    phone.on("2027-03-09");
    let seen: RecordFinding = FindingDraft::default().finding(SeenOn::Lot(whole), Some("mites"));
    phone.act(Command::RecordFinding(seen));
    assert_eq!(clean(&phone), [0, 1]);
}

#[test]
fn letting_a_part_out_does_not_end_a_stay_of_the_whole_that_this_phone_did_not_know_of() {
    let (mut phone, bench) = greenhouse("2027-03-01");
    let whole = phone.lot("Cymbidium lowianum", 6, bench);
    phone.act(keep_apart(whole, 0, 0));
    let mut other = second(&phone, "2027-03-01");
    other.wait_min(60);
    let exposed = Command::EnterQuarantine(EnterQuarantine {
        lots: vec![whole],
        why: QuarantineWhy::Exposed,
        terms: velamen_core::quarantine::usual(QuarantineWhy::Exposed, None),
        ..EnterQuarantine::default()
    });
    other.act(exposed);
    phone.on("2027-03-02");
    let part = split(&mut phone, whole, None);
    let release = |phone: &mut Phone, lot| {
        phone.act(Command::ReleaseQuarantine {
            lot,
            early: "looked at by the inspector".to_owned(),
        })
    };
    release(&mut phone, part);
    assert!(!is_held(phone.state.facts(), part), "from all it knew of");
    phone.take_in(&other.hand_over());
    other.take_in(&phone.hand_over());
    for phone in [&phone, &other] {
        let held = held(phone.state.facts(), part);
        let whys: Vec<QuarantineWhy> = held.iter().map(|held| held.stay.terms.why).collect();
        assert_eq!(whys, [QuarantineWhy::Exposed]);
    }
    // Let out again, knowing of it, it is free; a part of it is too.
    phone.on("2027-03-03");
    release(&mut phone, part);
    assert!(!is_held(phone.state.facts(), part));
    assert!(is_held(phone.state.facts(), whole));
    let done = phone.act(Command::SplitLot {
        from: part,
        plants: 1,
        stands: 1,
        place: None,
        why: SplitWhy::Sorted,
    });
    let Event::LotSplit(smaller) = &done.events[0] else {
        panic!("no part")
    };
    assert!(!is_held(phone.state.facts(), smaller.lot));
}
