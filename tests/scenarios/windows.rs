//! What was seen of a plant's own line beats the table, a spent mix waits for no window, and a rest is left alone.

use velamen_core::command::{Command, ReceiveLot};
use velamen_core::event::{GroupSet, PieceClass, Potting, Sight};
use velamen_core::id::{LotId, ProtocolId};
use velamen_core::reference::taxa::Group;
use velamen_core::rejection::Rejection;
use velamen_core::season::{Hemisphere, Warmth, Window};
use velamen_core::task::windows::{self, WindowsFrom};
use velamen_core::task::{
    AfterStep, Protocol, ProtocolFault, SeasonRule, TaskKind, Timing, WeatherShift,
};
use velamen_core::view::protocol::preview;
use velamen_tests::{Phone, day, named};

use crate::scene::{divide, due, nursery, task};

fn see(phone: &mut Phone, lot: LotId, what: Sight, on: &str) {
    let observe = Command::Observe {
        lots: vec![lot],
        what,
        good: None,
        note: String::new(),
    };
    phone.act(Command::OnDay {
        on: day(on),
        command: Box::new(observe),
    });
}

#[test]
fn root_tips_seen_of_the_parent_open_the_window_of_its_divisions() {
    let (mut phone, bench) = nursery(Hemisphere::North, Warmth::Cool, "2027-06-20");
    let lot = phone.lot("Cymbidium lowianum", 1, bench);
    see(&mut phone, lot, Sight::RootTips, "2026-09-10");
    let starters = divide(&mut phone, lot, &[(PieceClass::Starter, 3)], bench);
    // By the table it would be February 2029.
    assert_eq!(
        due(&phone, starters[0], TaskKind::PotOn),
        Some(day("2028-09-10"))
    );
    let view = velamen_core::view::lot::lot(&phone.state, starters[0], phone.today).unwrap();
    assert!(matches!(
        view.repot_from,
        WindowsFrom::Seen { what: Sight::RootTips, of: Some(of), .. } if of == lot
    ));
    assert_eq!(view.seen_of.map(|of| of.lot), Some(lot));
    // Its own sight comes before its parent's.
    phone.on("2027-11-05");
    see(&mut phone, starters[0], Sight::RootTips, "2027-11-01");
    assert_eq!(
        due(&phone, starters[0], TaskKind::PotOn),
        Some(day("2028-11-01"))
    );
    // And the grower's own windows for the group before both.
    phone.act(Command::SetGroup(GroupSet {
        group: Group::Cymbidium,
        repot_windows: Some(vec![Window::months(7, 7)]),
        flowering_windows: None,
        light: None,
        water_days: None,
    }));
    assert_eq!(
        due(&phone, starters[0], TaskKind::PotOn),
        Some(day("2028-07-01"))
    );
}

#[test]
fn a_flower_seen_from_the_first_to_the_last_day_is_the_lot_s_own_season() {
    let (mut phone, bench) = nursery(Hemisphere::South, Warmth::Cool, "2027-10-20");
    let lot = phone.lot("Zygopetalum maculatum", 1, bench);
    see(&mut phone, lot, Sight::FirstOpen, "2026-12-20");
    see(&mut phone, lot, Sight::FlowerOver, "2027-01-25");
    let facts = phone.state.facts();
    let flowers = windows::flowering(facts, &facts.lots[&lot]);
    assert!(matches!(flowers.from, WindowsFrom::Seen { of: None, .. }));
    let open = |on: &str| {
        flowers
            .windows
            .iter()
            .any(|window| window.contains(day(on)))
    };
    assert!(open("2028-12-31") && open("2028-01-25") && !open("2028-01-26") && !open("2028-06-15"));
}

#[test]
fn a_mix_past_its_life_does_not_wait_for_the_window_and_says_so() {
    let due_in = |life_months: u16| {
        let (mut phone, bench) = nursery(Hemisphere::North, Warmth::Cool, "2027-03-01");
        let potting = Potting {
            mix_life_months: life_months,
            ..Potting::default()
        };
        let lot = phone.receive(ReceiveLot {
            place: Some(bench),
            potted_on: Some(day("2025-06-10")),
            potting,
            ..named("Cymbidium lowianum")
        });
        let task = task(&phone, lot, TaskKind::Repot);
        (task.due_on, task.mix_spent, task.moved_by_season)
    };
    // Two years after June 2025 the window is shut until February: a mix of 30 months bears that, one of 24 does not.
    assert_eq!(due_in(30), (day("2028-02-01"), false, true));
    assert_eq!(due_in(24), (day("2027-06-10"), true, false));
}

#[test]
fn a_plant_at_rest_is_fed_when_its_rest_is_over_in_both_hemispheres() {
    let fed = |hemisphere, on: &str| {
        let (mut phone, bench) = nursery(hemisphere, Warmth::Cool, on);
        let lot = phone.lot("Coelogyne cristata", 1, bench);
        let lots = divide(&mut phone, lot, &[(PieceClass::Starter, 3)], bench);
        let task = task(&phone, lots[0], TaskKind::FirstFeed);
        (task.due_on, task.moved_by_season)
    };
    assert_eq!(
        fed(Hemisphere::North, "2027-10-10"),
        (day("2028-02-01"), true)
    );
    assert_eq!(
        fed(Hemisphere::South, "2027-10-10"),
        (day("2027-11-14"), false)
    );
    assert_eq!(
        fed(Hemisphere::South, "2027-04-10"),
        (day("2027-08-01"), true)
    );
}

fn after_dividing(phone: &Phone) -> (ProtocolId, Protocol) {
    let mut known = phone.state.facts().protocols.iter();
    let found = known.find_map(|(id, known)| {
        let content = &known.current()?.content;
        (content.key == "after_dividing").then(|| (*id, content.clone()))
    });
    found.unwrap()
}

#[test]
fn a_protocol_that_cannot_be_is_refused_and_the_one_before_stays() {
    let (phone, _) = nursery(Hemisphere::North, Warmth::Cool, "2027-03-01");
    let (id, sound) = after_dividing(&phone);
    let refused = |change: &dyn Fn(&mut Protocol)| {
        let mut content = sound.clone();
        change(&mut content);
        let protocol = Some(id);
        match phone.refusal(Command::AdoptProtocol { protocol, content }) {
            Rejection::Protocol(fault) => fault,
            other => panic!("{other:?}"),
        }
    };
    let waits = |step: &str| {
        Some(AfterStep {
            step: step.to_owned(),
            outcome: velamen_core::event::Outcome::NeedsMore,
        })
    };
    let far = refused(&|it| it.steps[0].when = Timing::new(-10_000, -10_000, 0));
    assert!(matches!(far, ProtocolFault::TooFar { .. }));
    let empty = refused(&|it| it.steps[0].when = Timing::new(7, 10, 3));
    assert!(matches!(empty, ProtocolFault::WindowTurned { .. }));
    let itself = refused(&|it| it.steps[0].only.after = waits("first_water"));
    assert!(matches!(itself, ProtocolFault::Loop { .. }));
    let round = refused(&|it| {
        it.steps[0].only.after = waits("rot_check");
        it.steps[2].only.after = waits("first_water");
    });
    assert!(matches!(round, ProtocolFault::Loop { .. }));
    let nobody = refused(&|it| it.steps[0].only.after = waits("never_heard_of"));
    assert!(matches!(nobody, ProtocolFault::NoSuchStep { .. }));
    let weather = refused(&|it| {
        it.steps[0].weather = vec![WeatherShift {
            below_mc: Some(90_000),
            above_mc: None,
            days: 3,
        }];
    });
    assert!(matches!(weather, ProtocolFault::BadWeather { .. }));
    let rank = refused(&|it| it.steps[0].priority = 9);
    assert!(matches!(rank, ProtocolFault::BadPriority { .. }));
}

#[test]
fn the_preview_puts_the_steps_on_the_year_as_if_it_happened_today() {
    let (mut phone, bench) = nursery(Hemisphere::North, Warmth::Cool, "2027-03-11");
    phone.lot("Cymbidium lowianum", 4, bench);
    let (_, content) = after_dividing(&phone);
    let shown = preview(&phone.state, &phone.moment(), &content);
    let on = content.steps.iter().filter(|step| !step.off).count();
    assert_eq!(shown.year.spans.len() + shown.later, on);
    assert!(shown.later > 0);
    let mut edited = content.clone();
    edited.steps[0].off = true;
    let fewer = preview(&phone.state, &phone.moment(), &edited);
    assert_eq!(fewer.year.spans.len(), shown.year.spans.len() - 1);
    assert_eq!(SeasonRule::default(), edited.steps[0].season);
}

#[test]
fn a_step_for_cool_kinds_passes_warm_ones_over() {
    let open = |name: &str| {
        let (mut phone, bench) = nursery(Hemisphere::North, Warmth::Cool, "2027-03-11");
        let (id, mut content) = after_dividing(&phone);
        for step in &mut content.steps {
            step.only.warmths = vec![Warmth::Cool];
        }
        let protocol = Some(id);
        phone.act(Command::AdoptProtocol { protocol, content });
        let lot = phone.lot(name, 1, bench);
        let lots = divide(&mut phone, lot, &[(PieceClass::Starter, 3)], bench);
        due(&phone, lots[0], TaskKind::NormalLight).is_some()
    };
    assert!(open("Cymbidium lowianum"));
    assert!(!open("Cattleya labiata"));
}
