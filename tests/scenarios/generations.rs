//! Looks for a pest's next generation follow the warmth of the house, and say so where they cannot.

use chrono::NaiveDate;
use velamen_core::climate::Reading;
use velamen_core::command::{Command, RecordFinding};
use velamen_core::event::{AgentClass, Event, SeenOn, TaskAnswer, Urgency};
use velamen_core::id::{FindingId, PlaceId};
use velamen_core::rejection::Rejection;
use velamen_core::season::{Hemisphere, Warmth};
use velamen_core::task::TaskKind;
use velamen_core::task::derive::{self, Task};
use velamen_core::task::generation::By;
use velamen_core::time::plus_days;
use velamen_core::view::finding::{Proposal, finding, incidence};
use velamen_core::view::round::{RowState, state_of};
use velamen_tests::{Phone, day};

use crate::scene::{decide, nursery};

pub(crate) fn seen(
    phone: &mut Phone,
    on: SeenOn,
    sign: &str,
    counted: Option<(u32, u32)>,
) -> FindingId {
    let done = phone.act(Command::RecordFinding(found(on, sign, counted)));
    match &done.events[0] {
        Event::Found(it) => it.finding,
        other => panic!("{other:?}"),
    }
}

fn found(on: SeenOn, sign: &str, counted: Option<(u32, u32)>) -> RecordFinding {
    RecordFinding {
        on,
        sign: sign.to_owned(),
        part: String::new(),
        agent: Some(AgentClass::Insect),
        affected: counted.map(|it| it.0),
        looked_at: counted.map(|it| it.1),
        severity: None,
        urgency: Urgency::default(),
        photos: Vec::new(),
        note: String::new(),
    }
}

fn read(phone: &mut Phone, house: PlaceId, on: NaiveDate, (min_c, max_c): (i32, i32)) {
    let days = vec![(on, Reading::of(min_c * 1_000, max_c * 1_000))];
    phone.act(Command::ReadClimate { place: house, days });
}

pub(crate) fn look_by_generation(phone: &mut Phone, finding: FindingId) {
    let text = "Look again: thrips".to_owned();
    phone.act(Command::LookByGeneration { finding, text });
}

fn looks(phone: &Phone) -> Vec<Task> {
    let open = derive::all(phone.state.facts()).into_iter();
    let mut looks: Vec<Task> = open.filter(|task| task.generation.is_some()).collect();
    looks.sort_by_key(|task| task.due_on);
    looks
}

fn due(phone: &Phone) -> Vec<NaiveDate> {
    looks(phone).iter().map(|task| task.due_on).collect()
}

/// One sine through minimum and maximum, cut at 5 and 30 degrees, added up minute by minute: no formula of the program.
fn by_the_minute(min_c: f64, max_c: f64) -> f64 {
    let minutes = 1_440;
    let sum: f64 = (0..minutes)
        .map(|minute| {
            let turn = (f64::from(minute) + 0.5) / f64::from(minutes) * std::f64::consts::TAU;
            let t = (min_c + max_c) / 2.0 + (max_c - min_c) / 2.0 * turn.sin();
            (t.min(30.0) - 5.0).max(0.0)
        })
        .sum();
    sum / f64::from(minutes)
}

/// A house of changing weather: cool and warm weeks, nights near the threshold and noons above the limit.
fn weather(at: i64) -> (i32, i32) {
    match at.rem_euclid(9) {
        0..=2 => (2, 11),
        3..=5 => (9, 24),
        _ => (17, 36),
    }
}

#[test]
fn looks_come_on_the_days_an_independent_sum_gives_once_all_was_read() {
    let (mut phone, house) = nursery(Hemisphere::North, Warmth::Cool, "2027-04-01");
    let start = day("2027-04-01");
    let lot = phone.lot("Dendrobium kingianum", 12, house);
    let id = seen(&mut phone, SeenOn::Lot(lot), "thrips", None);
    look_by_generation(&mut phone, id);
    for at in -7..60 {
        let on = plus_days(start, at);
        if at > 0 {
            phone.on(&on.to_string());
        }
        if at <= 0 || phone.today == on {
            read(&mut phone, house, on, weather(at));
        }
    }
    // Twelve days at thirty degrees: 300 over five; 6 and 12 of 20 days of it.
    let expected: Vec<NaiveDate> = [90.0, 180.0, 300.0]
        .iter()
        .map(|wanted| {
            let mut sum = 0.0;
            let mut at = 0;
            while sum < *wanted {
                at += 1;
                let (min, max) = weather(at);
                sum += by_the_minute(f64::from(min), f64::from(max));
            }
            plus_days(start, at)
        })
        .collect();
    assert_eq!(due(&phone), expected);
    let by = looks(&phone)[2].generation.unwrap().by;
    let By::Warmth {
        so_far,
        wanted_mk,
        lower_mc,
        at_last,
    } = by
    else {
        panic!("{by:?}")
    };
    assert_eq!((wanted_mk, lower_mc, at_last), (300_000, 5_000, false));
    assert!(!so_far.has_gaps() && so_far.sum >= 300_000);
}

#[test]
fn a_warm_house_brings_the_looks_forward_and_a_cold_one_puts_them_off() {
    let at = |air: (i32, i32)| {
        let (mut phone, house) = nursery(Hemisphere::North, Warmth::Cool, "2027-04-01");
        let lot = phone.lot("Dendrobium kingianum", 12, house);
        for back in 0..7 {
            read(&mut phone, house, plus_days(day("2027-04-01"), -back), air);
        }
        let id = seen(&mut phone, SeenOn::Lot(lot), "thrips", None);
        look_by_generation(&mut phone, id);
        let first = looks(&phone).remove(0);
        (first.due_on, first.generation.unwrap().by)
    };
    let (warm, by) = at((28, 32));
    assert_eq!(warm, day("2027-04-05"));
    assert!(
        matches!(by, By::Warmth { so_far, .. } if so_far.of == 0),
        "nothing read since"
    );
    let (twenty, _) = at((20, 20));
    assert_eq!(twenty, day("2027-04-07"), "as in the table");
    let (cold, by) = at((1, 4));
    assert_eq!(
        cold,
        day("2027-04-19"),
        "three times its days at the latest"
    );
    assert!(matches!(by, By::Warmth { at_last: true, .. }));
}

#[test]
fn without_readings_or_figures_the_days_of_the_table_stand_and_say_so() {
    let (mut phone, house) = nursery(Hemisphere::North, Warmth::Cool, "2027-04-01");
    let lot = phone.lot("Dendrobium kingianum", 12, house);
    let id = seen(&mut phone, SeenOn::Lot(lot), "thrips", None);
    look_by_generation(&mut phone, id);
    assert_eq!(
        due(&phone),
        ["2027-04-07", "2027-04-13", "2027-04-21"].map(day)
    );
    let few = By::FewRead { read: 0, of: 0 };
    assert!(
        looks(&phone)
            .iter()
            .all(|task| task.generation.unwrap().by == few)
    );
    // Three days read, then nobody reads for a week: still by the table.
    for on in ["2027-04-02", "2027-04-03", "2027-04-04"] {
        phone.on(on);
        read(&mut phone, house, day(on), (30, 30));
    }
    assert_eq!(due(&phone)[0], day("2027-04-05"));
    phone.on("2027-04-12");
    read(&mut phone, house, day("2027-04-12"), (30, 30));
    let third = looks(&phone).pop().unwrap();
    assert_eq!(
        third.generation.unwrap().by,
        By::FewRead { read: 4, of: 11 }
    );
    assert_eq!(third.due_on, day("2027-04-21"));
    let scale = seen(&mut phone, SeenOn::Lot(lot), "scale", None);
    let view = finding(&phone.state, scale).unwrap();
    let looks = view.proposals.iter().find_map(|it| match it {
        Proposal::LookByGeneration { looks } => Some(looks.clone()),
        _ => None,
    });
    let looks = looks.unwrap();
    assert_eq!(looks.len(), 4);
    assert!(looks.iter().all(|look| look.by == By::NoFigure));
    assert_eq!(looks[0].on, day("2027-04-24"));
}

#[test]
fn a_look_is_taken_once_and_a_look_put_off_stays_where_it_was_put() {
    let (mut phone, house) = nursery(Hemisphere::North, Warmth::Cool, "2027-04-01");
    let lot = phone.lot("Dendrobium kingianum", 12, house);
    let id = seen(&mut phone, SeenOn::Lot(lot), "thrips", None);
    look_by_generation(&mut phone, id);
    let again = Command::LookByGeneration {
        finding: id,
        text: "again".to_owned(),
    };
    assert_eq!(phone.refusal(again), Rejection::NothingToDo);
    let first = looks(&phone).remove(0);
    let to = day("2027-05-30");
    decide(&mut phone, vec![first.clone()], TaskAnswer::PutOff { to });
    for at in 1..9 {
        let on = plus_days(day("2027-04-01"), at);
        phone.on(&on.to_string());
        read(&mut phone, house, on, (30, 30));
    }
    let open = derive::all(phone.state.facts());
    let put = open.iter().find(|task| task.key == first.key).unwrap();
    assert_eq!((put.due_on, put.generation), (to, None));
    let second = looks(&phone).remove(0);
    // Two days either way; not late the moment a warm week brings it forward.
    let on = |days| state_of(&second, plus_days(second.due_on, days)).unwrap();
    assert_eq!(on(2), RowState::Due);
    assert_eq!(on(3), RowState::Late { days: 3 });
}

#[test]
fn a_bench_is_looked_over_and_its_finding_leads_to_its_lots_and_its_line() {
    let (mut phone, house) = nursery(Hemisphere::North, Warmth::Cool, "2027-04-01");
    let lots: Vec<_> = (0..2)
        .map(|_| phone.lot("Dendrobium kingianum", 12, house))
        .collect();
    let other = phone.place("Elsewhere", Warmth::Cool);
    phone.lot("Dendrobium kingianum", 12, other);
    let k_of_n = found(SeenOn::Place(house), "thrips", Some((21, 20)));
    let more = Rejection::MoreAffectedThanLookedAt {
        affected: 21,
        looked_at: 20,
    };
    assert_eq!(phone.refusal(Command::RecordFinding(k_of_n)), more);
    for (on, affected) in [("2027-04-01", 8), ("2027-04-08", 3), ("2027-04-15", 1)] {
        phone.on(on);
        seen(
            &mut phone,
            SeenOn::Place(house),
            "thrips",
            Some((affected, 20)),
        );
    }
    let line = incidence(&phone.state, house, day("2027-01-01"));
    let shares: Vec<u16> = line[0]
        .points
        .iter()
        .map(|point| point.share.permille)
        .collect();
    assert_eq!(shares, [400, 150, 50]);
    let id = seen(&mut phone, SeenOn::Place(house), "thrips", Some((4, 20)));
    let view = finding(&phone.state, id).unwrap();
    let named = view.proposals.iter().find_map(|it| match it {
        Proposal::LookAtLots { lots } => Some(lots.iter().map(|it| it.lot).collect::<Vec<_>>()),
        _ => None,
    });
    assert_eq!(named, Some(lots));
    look_by_generation(&mut phone, id);
    let looks = looks(&phone);
    assert_eq!(looks.len(), 3);
    assert!(
        looks
            .iter()
            .all(|task| task.place == Some(house) && task.kind == TaskKind::Own)
    );
}
