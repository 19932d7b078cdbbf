//! An edited protocol: nothing moves to before the day of the edit, what was over stays over, what was decided stays.

use velamen_core::command::Command;
use velamen_core::event::PieceClass;
use velamen_core::id::{LotId, PlaceId, ProtocolId};
use velamen_core::season::{Hemisphere, Warmth};
use velamen_core::task::{Protocol, Step, TaskKind, Timing};
use velamen_core::view::protocol::{EditEffect, edit_effect, open_work};
use velamen_tests::{Phone, day};

use crate::scene::{divide, done, due, nursery, task, tasks};

fn starters() -> (Phone, LotId, PlaceId) {
    let (mut phone, bench) = nursery(Hemisphere::North, Warmth::Cool, "2027-03-01");
    let lot = phone.lot("Coelogyne cristata", 1, bench);
    let lots = divide(&mut phone, lot, &[(PieceClass::Starter, 10)], bench);
    (phone, lots[0], bench)
}

fn after_dividing(phone: &Phone) -> (ProtocolId, Protocol) {
    let mut known = phone.state.facts().protocols.iter();
    let found = known.find_map(|(id, known)| {
        let content = &known.current()?.content;
        (content.key == "after_dividing").then(|| (*id, content.clone()))
    });
    found.unwrap()
}

/// Edits the aftercare of divisions.
fn edit(phone: &mut Phone, change: impl FnOnce(&mut Vec<Step>)) {
    let (id, mut content) = after_dividing(phone);
    change(&mut content.steps);
    let protocol = Some(id);
    phone.act(Command::AdoptProtocol { protocol, content });
}

fn step<'a>(steps: &'a mut [Step], key: &str) -> &'a mut Step {
    steps.iter_mut().find(|step| step.key == key).unwrap()
}

#[test]
fn a_step_drawn_forward_falls_on_the_day_of_the_edit_at_the_earliest() {
    let (mut phone, lot, _) = starters();
    assert_eq!(
        due(&phone, lot, TaskKind::FirstFeed),
        Some(day("2027-04-05"))
    );
    phone.on("2027-03-25");
    edit(&mut phone, |steps| {
        step(steps, "first_feed").when = Timing::new(10, 5, 20)
    });
    assert_eq!(
        due(&phone, lot, TaskKind::FirstFeed),
        Some(day("2027-03-25"))
    );
    assert_eq!(task(&phone, lot, TaskKind::FirstFeed).revision, 2);
}

#[test]
fn a_step_put_back_moves_and_one_that_stays_does_not() {
    let (mut phone, lot, _) = starters();
    phone.on("2027-03-25");
    edit(&mut phone, |steps| {
        step(steps, "first_feed").when = Timing::new(60, 50, 70)
    });
    assert_eq!(
        due(&phone, lot, TaskKind::FirstFeed),
        Some(day("2027-04-30"))
    );
    assert_eq!(
        due(&phone, lot, TaskKind::NormalLight),
        Some(day("2027-03-29"))
    );
    // What was due before the edit and was not touched by it stays late on its own day.
    assert_eq!(
        due(&phone, lot, TaskKind::FirstWater),
        Some(day("2027-03-08"))
    );
}

#[test]
fn plants_potted_after_the_edit_go_by_it_from_their_first_day() {
    let (mut phone, _, bench) = starters();
    phone.on("2027-03-25");
    edit(&mut phone, |steps| {
        step(steps, "first_feed").when = Timing::new(10, 5, 20)
    });
    let lot = phone.lot("Coelogyne cristata", 1, bench);
    let lots = divide(&mut phone, lot, &[(PieceClass::Starter, 2)], bench);
    assert_eq!(
        due(&phone, lots[0], TaskKind::FirstFeed),
        Some(day("2027-04-04"))
    );
}

#[test]
fn a_new_step_opens_only_where_its_window_has_not_closed() {
    let (mut phone, old, bench) = starters();
    phone.on("2027-03-20");
    let lot = phone.lot("Coelogyne cristata", 1, bench);
    let young = divide(&mut phone, lot, &[(PieceClass::Starter, 2)], bench)[0];
    phone.on("2027-03-25");
    edit(&mut phone, |steps| {
        let shaded = Step {
            key: "shaded".to_owned(),
            kind: TaskKind::KeepShaded,
            when: Timing::new(3, 0, 14),
            ..step(steps, "first_feed").clone()
        };
        steps.push(shaded);
    });
    assert_eq!(
        due(&phone, old, TaskKind::KeepShaded),
        None,
        "closed on 15 March"
    );
    let open = due(&phone, young, TaskKind::KeepShaded);
    assert_eq!(
        open,
        Some(day("2027-03-25")),
        "not before the day of the edit"
    );
}

#[test]
fn what_was_done_stays_done_whatever_is_edited() {
    let (mut phone, lot, _) = starters();
    phone.on("2027-03-08");
    let water = task(&phone, lot, TaskKind::FirstWater);
    done(&mut phone, water, None);
    phone.on("2027-03-25");
    edit(&mut phone, |steps| {
        step(steps, "first_water").when = Timing::new(40, 30, 50)
    });
    assert_eq!(due(&phone, lot, TaskKind::FirstWater), None);
    let decided = &phone.state.facts().lots[&lot].decisions;
    let water = &decided.values().next().unwrap()[0];
    assert_eq!(
        (water.due_on, water.kind),
        (day("2027-03-08"), TaskKind::FirstWater)
    );
}

#[test]
fn a_step_taken_out_closes_and_taken_in_again_opens_from_that_day() {
    let (mut phone, lot, _) = starters();
    phone.on("2027-03-05");
    edit(&mut phone, |steps| {
        steps.retain(|step| step.key != "first_feed")
    });
    assert_eq!(tasks(&phone, lot, TaskKind::FirstFeed), Vec::new());
    phone.on("2027-03-09");
    edit(&mut phone, |steps| step(steps, "normal_light").off = true);
    assert_eq!(tasks(&phone, lot, TaskKind::NormalLight), Vec::new());
    phone.on("2027-04-02");
    edit(&mut phone, |steps| step(steps, "normal_light").off = false);
    assert_eq!(
        due(&phone, lot, TaskKind::NormalLight),
        Some(day("2027-04-02"))
    );
}

#[test]
fn two_phones_that_edit_one_protocol_are_asked_about_it() {
    let (mut first, lot, _) = starters();
    let mut second = Phone::new(8, "2027-03-01");
    second.take_in(&first.hand_over());
    let name = "second".to_owned();
    let prefix = velamen_core::code::Prefix::pick(8);
    second.act(Command::JoinPhone { prefix, name });
    for (phone, days) in [(&mut first, 50), (&mut second, 60)] {
        phone.on("2027-03-05");
        let when = Timing::new(days, days - 5, days + 5);
        edit(phone, |steps| step(steps, "first_feed").when = when);
    }
    first.take_in(&second.hand_over());
    second.take_in(&first.hand_over());
    assert_eq!(first.state.anomalies().len(), 1);
    assert_eq!(first.state.anomalies(), second.state.anomalies());
    assert_eq!(
        due(&first, lot, TaskKind::FirstFeed),
        due(&second, lot, TaskKind::FirstFeed)
    );
    edit(&mut first, |steps| {
        step(steps, "first_feed").when = Timing::new(55, 50, 60)
    });
    assert_eq!(
        first.state.anomalies(),
        Vec::new(),
        "whoever knew of both has decided"
    );
}

#[test]
fn what_an_edit_would_move_is_told_before_it_is_kept() {
    let (mut phone, lot, _) = starters();
    phone.on("2027-03-25");
    let effect = |phone: &Phone, change: &dyn Fn(&mut Vec<Step>)| {
        let (id, mut content) = after_dividing(phone);
        change(&mut content.steps);
        edit_effect(
            &phone.state,
            &phone.moment(),
            id,
            &open_work(&phone.state, id),
            &content,
        )
    };
    let later = |steps: &mut Vec<Step>| step(steps, "first_feed").move_to(60);
    let off = |steps: &mut Vec<Step>| step(steps, "first_feed").off = true;
    assert!(effect(&phone, &|_| {}).is_nothing());
    assert_eq!(
        effect(&phone, &later),
        EditEffect {
            moved: 1,
            ..EditEffect::default()
        }
    );
    assert_eq!(
        effect(&phone, &off),
        EditEffect {
            dropped: 1,
            ..EditEffect::default()
        }
    );
    let before = due(&phone, lot, TaskKind::FirstFeed);
    assert_eq!(before, Some(day("2027-04-05")), "nothing was recorded");

    // What was foretold is what happens; and a decided occurrence is not counted.
    edit(&mut phone, off);
    assert_eq!(due(&phone, lot, TaskKind::FirstFeed), None);
    let on = |steps: &mut Vec<Step>| step(steps, "first_feed").off = false;
    assert_eq!(
        effect(&phone, &on),
        EditEffect {
            opened: 1,
            ..EditEffect::default()
        }
    );
    let light = task(&phone, lot, TaskKind::NormalLight);
    done(&mut phone, light, None);
    let lights = |steps: &mut Vec<Step>| step(steps, "normal_light").move_to(80);
    assert!(effect(&phone, &lights).is_nothing());
}
