//! An edited protocol: nothing moves to before the day of the edit, what was over stays over, what was decided stays.

use velamen_core::command::Command;
use velamen_core::event::PieceClass;
use velamen_core::id::{LotId, PlaceId, ProtocolId};
use velamen_core::rejection::Rejection;
use velamen_core::season::{Hemisphere, Warmth};
use velamen_core::task::{Protocol, ProtocolFault, Repeat, Step, TaskKind, Timing};
use velamen_core::view::protocol::{EditEffect, edit_effect, fresh_step, open_work, preview};
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
fn a_step_added_and_one_taken_out_say_what_they_do_before_and_do_it_after() {
    let (mut phone, lot, _) = starters();
    phone.on("2027-03-05");
    let (id, content) = after_dividing(&phone);
    let mut edited = content.clone();
    edited.steps.retain(|step| step.key != "rot_check");
    let mut own = fresh_step(&phone.state, id, &edited, TaskKind::RootCheck);
    assert_eq!(own.key, "own_1");
    own.when = Timing::new(20, 18, 25);
    own.only.classes = vec![PieceClass::Starter];
    edited.steps.push(own);
    let open = open_work(&phone.state, id);
    let effect = edit_effect(&phone.state, &phone.moment(), id, &open, &edited);
    let expected = EditEffect {
        moved: 0,
        opened: 1,
        dropped: 1,
    };
    assert_eq!(effect, expected);
    let on_the_year = |content: &Protocol| {
        let year = preview(&phone.state, &phone.moment(), content).year;
        format!("{year:?}")
    };
    assert_ne!(on_the_year(&content), on_the_year(&edited));
    let adopted = edited.clone();
    phone.act(Command::AdoptProtocol {
        protocol: Some(id),
        content: adopted,
    });
    assert!(tasks(&phone, lot, TaskKind::RotCheck).is_empty());
    let added = tasks(&phone, lot, TaskKind::RootCheck);
    let own = added.iter().find(|task| task.key.step == "own_1").unwrap();
    assert_eq!(own.due_on, day("2027-03-21"));
    done(&mut phone, own.clone(), None);
    // Taken out again: what was decided stays decided, and its name is never given to another step.
    edited.steps.retain(|step| step.key != "own_1");
    phone.act(Command::AdoptProtocol {
        protocol: Some(id),
        content: edited.clone(),
    });
    let next = fresh_step(&phone.state, id, &edited, TaskKind::Restake);
    assert_eq!(next.key, "own_2");
    let mut again = edited.clone();
    again.steps.push(next);
    let two = fresh_step(&phone.state, id, &again, TaskKind::Restake);
    assert_eq!(two.key, "own_3", "one that is in hand counts too");
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

#[test]
fn a_repeat_over_before_it_begins_a_step_that_waits_for_itself_and_a_name_used_before_are_refused()
{
    let (phone, _, _) = starters();
    let (id, content) = after_dividing(&phone);
    let fault = |fault| Rejection::Protocol(fault);
    let with = |change: &dyn Fn(&mut Protocol)| {
        let mut content = content.clone();
        change(&mut content);
        Command::AdoptProtocol {
            protocol: Some(id),
            content,
        }
    };
    let refused = |command: Command, why: &Rejection| assert_eq!(&phone.refusal(command), why);
    // A repeat that would end before it begins; a step that waits for itself, alone or by way of another; a step that
    // waits for one that is not there.
    let name = |p: &Protocol| p.steps[0].key.clone();
    let empty = fault(ProtocolFault::EmptyRepeat {
        step: name(&content),
    });
    let turned = Some(Repeat {
        every_days: 7,
        until_days: -1,
    });
    refused(with(&|p| p.steps[0].repeat = turned), &empty);
    let after = |step: &str| {
        Some(velamen_core::task::AfterStep {
            step: step.to_owned(),
            outcome: velamen_core::event::Outcome::Well,
        })
    };
    let itself = fault(ProtocolFault::Loop {
        step: name(&content),
    });
    let waits = with(&|p| p.steps[0].only.after = after(&name(p)));
    refused(waits, &itself);
    let by_another = with(&|p| {
        let second = Step {
            key: "second".to_owned(),
            ..p.steps[0].clone()
        };
        p.steps.push(second);
        p.steps[0].only.after = after("second");
        let last = p.steps.len() - 1;
        p.steps[last].only.after = after(&name(p));
    });
    refused(by_another, &itself);
    let nobody = fault(ProtocolFault::NoSuchStep {
        step: name(&content),
        after: "nobody".to_owned(),
    });
    let waits = with(&|p| p.steps[0].only.after = after("nobody"));
    refused(waits, &nobody);
    let other_kind = fault(ProtocolFault::KeyUsedBefore {
        step: name(&content),
    });
    let renamed = with(&|p| p.steps[0].kind = TaskKind::WriteOff);
    refused(renamed, &other_kind);
}
