//! What is answered on the Round: done, put off, not needed, undone; what comes of looking; and looks that repeat.

use velamen_core::command::Command;
use velamen_core::event::{
    AgentClass, Event, LossCause, Outcome, PieceClass, ProductCopy, TaskAnswer, TreatedPart,
    WithdrawWhy,
};
use velamen_core::id::{LotId, PlaceId};
use velamen_core::season::{Hemisphere, Warmth};
use velamen_core::task::TaskKind;
use velamen_core::task::derive;
use velamen_core::view::book;
use velamen_core::view::round::RowState;
use velamen_tests::{Phone, day};

use crate::scene::{decide, divide, done, due, nursery, repot, rows, stands, task};

fn repotted() -> (Phone, LotId) {
    let (mut phone, bench) = nursery(Hemisphere::North, Warmth::Cool, "2027-03-11");
    let lot = phone.lot("Cymbidium lowianum", 10, bench);
    repot(&mut phone, lot);
    (phone, lot)
}

fn cut(class: PieceClass, name: &str) -> (Phone, LotId, PlaceId) {
    let (mut phone, bench) = nursery(Hemisphere::North, Warmth::Cool, "2027-03-11");
    let lot = phone.lot(name, 1, bench);
    let lots = divide(&mut phone, lot, &[(class, 8)], bench);
    (phone, lots[0], bench)
}

#[test]
fn what_is_put_off_comes_on_that_day_and_not_before() {
    let (mut phone, lot) = repotted();
    let feed = task(&phone, lot, TaskKind::FirstFeed);
    assert_eq!(feed.due_on, day("2027-04-01"));
    phone.on("2027-03-30");
    let to = day("2027-04-20");
    decide(&mut phone, vec![feed.clone()], TaskAnswer::PutOff { to });
    let later = task(&phone, lot, TaskKind::FirstFeed);
    assert_eq!((later.due_on, later.from_on, later.put_off), (to, to, true));
    assert_eq!(
        later.until_on,
        day("2027-04-27"),
        "the room behind the day moves along"
    );
    assert_eq!(later.key, feed.key, "it is the same occurrence");
    assert_eq!(stands(&mut phone, "2027-04-10", TaskKind::FirstFeed), None);
    let coming = Some(RowState::Coming { days: 3 });
    assert_eq!(
        stands(&mut phone, "2027-04-17", TaskKind::FirstFeed),
        coming
    );
    assert_eq!(
        stands(&mut phone, "2027-04-20", TaskKind::FirstFeed),
        Some(RowState::Due)
    );
    let again = day("2027-05-01");
    decide(&mut phone, vec![later], TaskAnswer::PutOff { to: again });
    assert_eq!(due(&phone, lot, TaskKind::FirstFeed), Some(again));
}

#[test]
fn what_is_not_needed_is_gone_and_comes_back_when_that_is_undone() {
    let (mut phone, lot) = repotted();
    let feed = task(&phone, lot, TaskKind::FirstFeed);
    decide(&mut phone, vec![feed.clone()], TaskAnswer::NotNeeded);
    assert_eq!(due(&phone, lot, TaskKind::FirstFeed), None);
    let answer = phone.state.log().in_order().next_back().unwrap().id;
    let undo = |target, why| Command::Withdraw {
        targets: vec![target],
        with_dependents: false,
        why,
        note: String::new(),
    };
    let undone = phone.act(undo(answer, WithdrawWhy::Undone)).entry;
    assert_eq!(task(&phone, lot, TaskKind::FirstFeed), feed);
    let shown = book::Filter {
        hide_undone: true,
        ..book::Filter::default()
    };
    let all = book::rows(&phone.state, book::Filter::default(), 100).len();
    assert_eq!(
        book::rows(&phone.state, shown, 100).len(),
        all - 2,
        "the slip and its undoing"
    );
    // Undoing the undoing puts the answer back.
    phone.act(undo(undone, WithdrawWhy::Restored));
    assert_eq!(due(&phone, lot, TaskKind::FirstFeed), None);
}

fn treated() -> (Phone, LotId) {
    let (mut phone, bench) = nursery(Hemisphere::North, Warmth::Cool, "2027-03-11");
    let lot = phone.lot("Cymbidium lowianum", 10, bench);
    let product = ProductCopy {
        label_name: "Soap".to_owned(),
        ..ProductCopy::default()
    };
    let part = TreatedPart::Lot { lot, plants: 4 };
    let treatment = velamen_tests::treatment(vec![part], AgentClass::Mite, product);
    phone.act(Command::RecordTreatment(treatment));
    (phone, lot)
}

#[test]
fn a_treatment_is_repeated_only_when_the_look_after_it_asks_for_more() {
    for (outcome, repeat) in [
        (Some(Outcome::NeedsMore), Some(day("2027-03-25"))),
        (Some(Outcome::Well), None),
        (None, None),
    ] {
        let (mut phone, lot) = treated();
        assert_eq!(
            due(&phone, lot, TaskKind::RepeatTreatment),
            None,
            "nobody has looked yet"
        );
        let look = task(&phone, lot, TaskKind::ResultLook);
        assert_eq!(look.due_on, day("2027-03-18"));
        phone.on("2027-03-18");
        done(&mut phone, look, outcome);
        assert_eq!(
            due(&phone, lot, TaskKind::RepeatTreatment),
            repeat,
            "{outcome:?}"
        );
        assert_eq!(due(&phone, lot, TaskKind::ResultLook), None);
    }
}

#[test]
fn a_treatment_that_is_to_be_repeated_is_known_to_be_so_once_there_is_a_later_one() {
    use derive::treated_since;
    let (mut phone, lot) = treated();
    let look = task(&phone, lot, TaskKind::ResultLook);
    phone.on("2027-03-18");
    done(&mut phone, look, Some(Outcome::NeedsMore));
    let again = task(&phone, lot, TaskKind::RepeatTreatment);
    assert!(again.kind.def().treats);
    assert!(!treated_since(phone.state.facts(), &again));
    phone.on("2027-03-20");
    let part = TreatedPart::Lot { lot, plants: 4 };
    let product = ProductCopy {
        label_name: "Oil".to_owned(),
        ..ProductCopy::default()
    };
    let treatment = velamen_tests::treatment(vec![part], AgentClass::Mite, product);
    phone.act(Command::RecordTreatment(treatment));
    assert!(treated_since(phone.state.facts(), &again));
    // It is open until it is answered, and why it counts as done is kept.
    let why = "done without a treatment".to_owned();
    let answer = TaskAnswer::Done { outcome: None };
    let decided = phone.act(Command::DecideTasks {
        tasks: vec![again],
        answer,
        why: why.clone(),
    });
    assert!(
        matches!(decided.events.as_slice(), [Event::TaskDecided(it)] if it.why == why),
        "{:?}",
        decided.events
    );
    assert_eq!(due(&phone, lot, TaskKind::RepeatTreatment), None);
}

#[test]
fn a_look_that_is_not_needed_or_put_off_asks_for_no_repeat() {
    let to = day("2027-03-30");
    for answer in [TaskAnswer::NotNeeded, TaskAnswer::PutOff { to }] {
        let (mut phone, lot) = treated();
        let look = task(&phone, lot, TaskKind::ResultLook);
        decide(&mut phone, vec![look], answer);
        assert_eq!(due(&phone, lot, TaskKind::RepeatTreatment), None);
    }
}

#[test]
fn back_bulbs_are_looked_at_again_and_again_and_a_late_look_takes_the_missed_ones_in() {
    let (mut phone, lot, _) = cut(PieceClass::BackBulb, "Cymbidium lowianum");
    let first = task(&phone, lot, TaskKind::ShootCheck);
    assert_eq!((first.due_on, first.key.repeat), (day("2027-04-25"), 0));
    phone.on("2027-04-26");
    done(&mut phone, first, None);
    let second = task(&phone, lot, TaskKind::ShootCheck);
    assert_eq!((second.due_on, second.key.repeat), (day("2027-05-16"), 1));
    // Seven weeks late: the looks of 6 June and 27 June fell due meanwhile.
    phone.on("2027-07-04");
    done(&mut phone, second, None);
    let next = task(&phone, lot, TaskKind::ShootCheck);
    assert_eq!((next.due_on, next.key.repeat), (day("2027-07-18"), 4));
    // The last look lies within 270 days of the potting; after it there is none.
    phone.on("2027-12-07");
    done(&mut phone, next, None);
    assert_eq!(due(&phone, lot, TaskKind::ShootCheck), None);
}

#[test]
fn an_emptied_lot_has_nothing_due_any_more() {
    let (mut phone, lot) = repotted();
    phone.act(Command::NoteTask {
        task: None,
        text: "tie up".to_owned(),
        due_on: day("2027-03-12"),
        repeat_days: None,
        lot: Some(lot),
        place: None,
    });
    assert!(derive::all(phone.state.facts()).len() >= 4);
    phone.act(Command::LoseFromLot {
        lot,
        plants: 10,
        stands: 10,
        cause: LossCause::Rot,
        note: String::new(),
    });
    assert_eq!(derive::all(phone.state.facts()), Vec::new());
}

#[test]
fn tough_kinds_get_the_light_strength_unless_the_grower_says_otherwise() {
    let (mut tough, lot, _) = cut(PieceClass::Starter, "Cymbidium lowianum");
    assert_eq!(
        due(&tough, lot, TaskKind::FirstWater),
        Some(day("2027-03-14"))
    );
    for left_out in [TaskKind::RotCheck, TaskKind::Restake] {
        assert_eq!(due(&tough, lot, left_out), None);
    }
    assert_eq!(
        due(&tough, lot, TaskKind::RootCheck),
        Some(day("2027-06-09")),
        "the later one only"
    );
    let (tender, tender_lot, _) = cut(PieceClass::Starter, "Coelogyne cristata");
    assert_eq!(
        due(&tender, tender_lot, TaskKind::FirstWater),
        Some(day("2027-03-18"))
    );
    assert_eq!(
        due(&tender, tender_lot, TaskKind::RotCheck),
        Some(day("2027-03-21"))
    );
    tough.act(Command::SetGroup(velamen_core::event::GroupSet {
        group: velamen_core::reference::taxa::Group::Cymbidium,
        repot_windows: None,
        flowering_windows: None,
        light: Some(false),
        water_days: None,
    }));
    assert_eq!(
        due(&tough, lot, TaskKind::FirstWater),
        Some(day("2027-03-18"))
    );
    assert_eq!(
        due(&tough, lot, TaskKind::RotCheck),
        Some(day("2027-03-21"))
    );
}

#[test]
fn no_water_before_its_day_is_shown_as_plainly_as_a_task() {
    let (mut phone, _, _) = cut(PieceClass::Starter, "Coelogyne cristata");
    let until = day("2027-03-14");
    let kind = TaskKind::FirstWater;
    assert_eq!(
        stands(&mut phone, "2027-03-11", kind),
        Some(RowState::Held { until })
    );
    assert_eq!(
        stands(&mut phone, "2027-03-13", kind),
        Some(RowState::Held { until })
    );
    assert_eq!(
        stands(&mut phone, "2027-03-14", kind),
        Some(RowState::MayStart { days: 4 })
    );
    assert_eq!(stands(&mut phone, "2027-03-18", kind), Some(RowState::Due));
    assert_eq!(stands(&mut phone, "2027-03-21", kind), Some(RowState::Due));
    assert_eq!(
        stands(&mut phone, "2027-03-22", kind),
        Some(RowState::Late { days: 4 })
    );
}

#[test]
fn own_tasks_repeat_from_their_first_day_and_late_ones_take_the_missed_in() {
    let (mut phone, _) = nursery(Hemisphere::North, Warmth::Cool, "2027-03-11");
    phone.act(Command::NoteTask {
        task: None,
        text: "clean the glass".to_owned(),
        due_on: day("2027-03-12"),
        repeat_days: Some(30),
        lot: None,
        place: None,
    });
    let row = rows(&mut phone, "2027-03-12", TaskKind::Own).remove(0);
    assert_eq!(
        (row.text.as_str(), row.state),
        ("clean the glass", RowState::Due)
    );
    done(&mut phone, row.tasks[0].clone(), None);
    assert_eq!(rows(&mut phone, "2027-03-13", TaskKind::Own).len(), 0);
    let row = rows(&mut phone, "2027-04-11", TaskKind::Own).remove(0);
    assert_eq!((row.due_on, row.state), (day("2027-04-11"), RowState::Due));
    phone.on("2027-06-20");
    done(&mut phone, row.tasks[0].clone(), None);
    let next = derive::all(phone.state.facts()).remove(0);
    assert_eq!((next.due_on, next.key.repeat), (day("2027-07-10"), 4));
}

#[test]
fn an_own_task_changed_later_keeps_its_history_and_moves_its_day() {
    let (mut phone, _) = nursery(Hemisphere::North, Warmth::Cool, "2027-03-11");
    let note = |task, text: &str, due_on: &str| Command::NoteTask {
        task,
        text: text.to_owned(),
        due_on: day(due_on),
        repeat_days: None,
        lot: None,
        place: None,
    };
    phone.act(note(None, "order labels", "2027-03-20"));
    let id = derive::all(phone.state.facts())[0].note_task;
    phone.act(note(id, "order white labels", "2027-04-02"));
    let open = derive::all(phone.state.facts());
    assert_eq!((open.len(), open[0].due_on), (1, day("2027-04-02")));
    done(&mut phone, open[0].clone(), None);
    assert_eq!(derive::all(phone.state.facts()), Vec::new());
}

#[test]
fn seen_again_it_is_looked_at_again_once() {
    let (mut phone, bench) = nursery(Hemisphere::North, Warmth::Cool, "2027-03-11");
    let lot = phone.lot("Cymbidium lowianum", 10, bench);
    for on in ["2027-03-11", "2027-03-14"] {
        phone.on(on);
        phone.act(Command::RecordFinding(
            velamen_core::command::RecordFinding {
                on: velamen_core::event::SeenOn::Lot(lot),
                sign: "spots".to_owned(),
                part: String::new(),
                agent: None,
                affected: Some(1),
                looked_at: Some(10),
                severity: None,
                urgency: velamen_core::event::Urgency::ThisWeek,
                photos: Vec::new(),
                note: String::new(),
            },
        ));
    }
    assert_eq!(
        task(&phone, lot, TaskKind::LookAgain).due_on,
        day("2027-03-21")
    );
}
