//! Water: who is to be looked at, who is held, who rests, and what a tap writes down.

use velamen_core::climate::Reading;
use velamen_core::command::{Command, Drinkers, PlaceTraits, Water};
use velamen_core::event::{
    Cover, Event, GroupSet, PieceClass, Sight, SplitWhy, TaskAnswer, WaterHow, Watered, WithdrawWhy,
};
use velamen_core::id::{LotId, PlaceId};
use velamen_core::reference::taxa::Group;
use velamen_core::rejection::Rejection;
use velamen_core::season::{Hemisphere, Warmth};
use velamen_core::task::TaskKind;
use velamen_core::time::plus_days;
use velamen_core::view::round::round;
use velamen_core::view::water::{Bench, BenchState, benches, benches_to_look, of_lot, one_bench};
use velamen_core::water::{By, Hold, RhythmFrom, Stand};
use velamen_tests::{Phone, day};

use crate::scene::{divide, nursery, tasks};

pub(crate) fn all_of(place: PlaceId) -> Drinkers {
    Drinkers {
        place: Some(place),
        ..Drinkers::default()
    }
}

pub(crate) fn water(place: PlaceId) -> Command {
    Command::Water(Water {
        who: all_of(place),
        ..Water::default()
    })
}

pub(crate) fn bench_of(phone: &Phone, place: PlaceId) -> Bench {
    one_bench(&phone.state, Some(place), phone.today, phone.now_ms)
        .unwrap()
        .0
}

fn stand_of(phone: &Phone, lot: LotId) -> Stand {
    of_lot(&phone.state, lot, phone.today, 5).unwrap().0.stand
}

/// When a lot had its last water, and what it was.
pub(crate) fn last_of(phone: &Phone, lot: LotId) -> Option<(String, By)> {
    let last = of_lot(&phone.state, lot, phone.today, 5).unwrap().0.last;
    last.map(|last| (last.on.to_string(), last.by))
}

fn own_days(place: PlaceId, days: u16) -> Command {
    set(
        place,
        PlaceTraits {
            water_days: Some(days),
            ..PlaceTraits::default()
        },
    )
}

pub(crate) fn set(place: PlaceId, about: PlaceTraits) -> Command {
    Command::SetPlace {
        place: Some(place),
        name: None,
        walk: None,
        about,
    }
}

fn rained(place: PlaceId, on: &str, um: u32) -> Command {
    let reading = Reading {
        rain_um: Some(um),
        ..Reading::of(9_000, 18_000)
    };
    Command::ReadClimate {
        place,
        days: vec![(day(on), reading)],
    }
}

#[test]
fn a_bench_with_nothing_on_record_is_looked_at_and_one_tap_waters_it() {
    let (mut phone, bench) = nursery(Hemisphere::North, Warmth::Intermediate, "2027-04-10");
    let lots = [
        phone.lot("Cattleya labiata", 4, bench),
        phone.lot("Zygopetalum maculatum", 3, bench),
    ];
    let before = bench_of(&phone, bench);
    assert_eq!(
        (before.state, before.look, before.unknown),
        (BenchState::Look, 2, 2)
    );
    assert_eq!(
        benches_to_look(&phone.state, phone.today, phone.now_ms),
        Some(1)
    );
    let done = phone.act(water(bench));
    assert_eq!(
        done.events.len(),
        1,
        "one short line for the whole bench: {:?}",
        done.events
    );
    assert!(done.line.len() < 500);
    let after = bench_of(&phone, bench);
    // Zygopetalum three days in spring, Cattleya six.
    assert_eq!(after.state, BenchState::Later { days: 3 });
    assert_eq!(after.days, (3, 6));
    assert_eq!(
        last_of(&phone, lots[0]),
        Some(("2027-04-10".to_owned(), By::Water))
    );
    phone.on("2027-04-13");
    let thirsty = bench_of(&phone, bench);
    assert_eq!((thirsty.state, thirsty.look), (BenchState::Look, 1));
    phone.on("2027-04-16");
    assert_eq!(bench_of(&phone, bench).state, BenchState::Late { days: 3 });
}

#[test]
fn divided_plants_are_left_out_by_themselves_and_named_until_their_day() {
    let (mut phone, bench) = nursery(Hemisphere::North, Warmth::Intermediate, "2027-04-10");
    let old = phone.lot("Zygopetalum maculatum", 2, bench);
    let tall = phone.lot("Cattleya labiata", 5, bench);
    let new = divide(&mut phone, old, &[(PieceClass::Starter, 3)], bench)[0];
    let held = bench_of(&phone, bench).held;
    assert_eq!(held.len(), 1);
    let Stand::Held(Hold::NoWaterBefore(until)) = stand_of(&phone, new) else {
        panic!("{:?}", stand_of(&phone, new));
    };
    assert_eq!((held[0].0.lot, held[0].1), (new, until));
    let done = phone.act(water(bench));
    let Some(Event::Watered(watered)) = done.events.first() else {
        panic!("{:?}", done.events);
    };
    assert_eq!(
        (watered.except.as_slice(), done.events.len()),
        ([new].as_slice(), 1)
    );
    assert_eq!(last_of(&phone, new), None);
    assert_eq!(
        last_of(&phone, tall),
        Some(("2027-04-10".to_owned(), By::Water))
    );
    // A day before it is still held; on its day the bench waters it too, and that answers the first water.
    phone.on(&plus_days(until, -1).to_string());
    assert_eq!(
        stand_of(&phone, new),
        Stand::Held(Hold::NoWaterBefore(until))
    );
    phone.on(&until.to_string());
    assert!(!matches!(stand_of(&phone, new), Stand::Held(_)));
    let done = phone.act(water(bench));
    assert!(
        matches!(done.events.as_slice(), [Event::Watered(it), Event::TaskDecided(task)]
        if it.except.is_empty() && task.kind == TaskKind::FirstWater)
    );
    assert_eq!(tasks(&phone, new, TaskKind::FirstWater), []);
    assert_eq!(last_of(&phone, new), Some((until.to_string(), By::Water)));
}

#[test]
fn the_first_water_answered_on_the_round_counts_as_water() {
    let (mut phone, bench) = nursery(Hemisphere::North, Warmth::Intermediate, "2027-04-10");
    let old = phone.lot("Zygopetalum maculatum", 2, bench);
    let new = divide(&mut phone, old, &[(PieceClass::Starter, 3)], bench)[0];
    phone.on("2027-04-17");
    let open = tasks(&phone, new, TaskKind::FirstWater);
    phone.act(Command::DecideTasks {
        tasks: open,
        answer: TaskAnswer::Done { outcome: None },
        why: String::new(),
    });
    assert_eq!(
        last_of(&phone, new),
        Some(("2027-04-17".to_owned(), By::First))
    );
    assert_eq!(stand_of(&phone, new), Stand::Later { days: 3 });
}

#[test]
fn a_held_lot_is_watered_all_the_same_when_it_is_named_and_is_not_due_again() {
    let (mut phone, bench) = nursery(Hemisphere::North, Warmth::Intermediate, "2027-04-10");
    let old = phone.lot("Zygopetalum maculatum", 2, bench);
    let other = phone.lot("Zygopetalum maculatum", 2, bench);
    let new = divide(&mut phone, old, &[(PieceClass::Starter, 3)], bench)[0];
    phone.act(Command::Water(Water {
        who: Drinkers {
            except: vec![other],
            also: vec![new],
            ..all_of(bench)
        },
        ..Water::default()
    }));
    assert_eq!(
        last_of(&phone, new),
        Some(("2027-04-10".to_owned(), By::Water))
    );
    assert_eq!(last_of(&phone, other), None);
    assert_eq!(tasks(&phone, new, TaskKind::FirstWater), []);
}

#[test]
fn nobile_rests_in_winter_north_and_south_until_new_growth_is_seen() {
    for (hemisphere, winter, spring, until) in [
        (Hemisphere::North, "2027-12-05", "2028-03-01", "2028-01-31"),
        (Hemisphere::South, "2027-06-05", "2027-09-01", "2027-07-31"),
    ] {
        let (mut phone, bench) = nursery(hemisphere, Warmth::Cool, winter);
        let nobile = phone.lot("Dendrobium nobile", 4, bench);
        let phal = phone.lot("Cymbidium lowianum", 4, bench);
        let rest = Stand::Held(Hold::Rest(Some(day(until))));
        assert_eq!(stand_of(&phone, nobile), rest, "{hemisphere:?}");
        assert!(matches!(stand_of(&phone, phal), Stand::Look { .. }));
        phone.act(water(bench));
        assert_eq!(last_of(&phone, nobile), None);
        let seen = bench_of(&phone, bench);
        assert_eq!(
            (seen.resting.len(), seen.look_at_rest, seen.held.len()),
            (1, 1, 0)
        );
        phone.act(Command::Observe {
            lots: vec![nobile],
            what: Sight::NewGrowth,
            good: None,
            note: String::new(),
        });
        assert!(
            matches!(stand_of(&phone, nobile), Stand::Look { .. }),
            "awake again"
        );
        phone.on(spring);
        assert!(matches!(stand_of(&phone, nobile), Stand::Look { .. }));
    }
}

#[test]
fn a_bench_of_resting_plants_alone_has_nothing_to_water() {
    let (mut phone, bench) = nursery(Hemisphere::North, Warmth::Cool, "2027-12-05");
    phone.lot("Dendrobium nobile", 4, bench);
    assert_eq!(bench_of(&phone, bench).state, BenchState::Nothing);
    assert_eq!(phone.refusal(water(bench)), Rejection::NothingToDo);
}

#[test]
fn the_growers_own_days_for_a_bench_come_first_then_those_of_the_group_then_what_is_usual() {
    let (mut phone, bench) = nursery(Hemisphere::North, Warmth::Intermediate, "2027-04-10");
    let lot = phone.lot("Cattleya labiata", 4, bench);
    let rhythm = |phone: &Phone| of_lot(&phone.state, lot, phone.today, 1).unwrap().0.rhythm;
    assert!(matches!(
        rhythm(&phone).from,
        RhythmFrom::Usual { days: 6, .. }
    ));
    let group = |days| {
        Command::SetGroup(GroupSet {
            group: Group::Cattleya,
            repot_windows: None,
            flowering_windows: None,
            light: None,
            water_days: Some(days),
        })
    };
    phone.act(group(9));
    assert_eq!(
        (rhythm(&phone).days, rhythm(&phone).from),
        (9, RhythmFrom::OwnGroup)
    );
    phone.act(own_days(bench, 2));
    assert_eq!(
        (rhythm(&phone).days, rhythm(&phone).from),
        (2, RhythmFrom::OwnBench)
    );
    // Nought gives it back.
    phone.act(own_days(bench, 0));
    assert_eq!(rhythm(&phone).days, 9);
    phone.act(group(0));
    assert_eq!(rhythm(&phone).days, 6);
    assert!(matches!(
        phone.refusal(own_days(bench, 121)),
        Rejection::OutOfRange { .. }
    ));
    assert!(matches!(
        phone.refusal(group(121)),
        Rejection::OutOfRange { .. }
    ));
}

#[test]
fn summer_winter_and_a_thermometer_move_the_next_look_both_sides_of_the_line() {
    let days = |hemisphere, on: &str, mean: Option<i32>| {
        let (mut phone, bench) = nursery(hemisphere, Warmth::Intermediate, on);
        let lot = phone.lot("Cymbidium lowianum", 4, bench);
        for back in 0..4 {
            if let Some(mean) = mean {
                phone.act(Command::ReadClimate {
                    place: bench,
                    days: vec![(
                        plus_days(phone.today, -back),
                        Reading::of(mean - 4_000, mean + 4_000),
                    )],
                });
            }
        }
        of_lot(&phone.state, lot, phone.today, 1)
            .unwrap()
            .0
            .rhythm
            .days
    };
    let (north, south) = (Hemisphere::North, Hemisphere::South);
    assert_eq!(days(north, "2027-07-10", None), 3);
    assert_eq!(days(north, "2027-01-10", None), 6);
    assert_eq!(days(south, "2027-07-10", None), 6);
    assert_eq!(days(south, "2027-01-10", None), 3);
    // What was read stands for the season: a cold July, a hot January.
    assert_eq!(days(north, "2027-07-10", Some(10_000)), 7);
    assert_eq!(days(north, "2027-01-10", Some(27_000)), 2);
}

#[test]
fn a_bench_open_to_rain_knows_it_rained_and_its_held_plants_want_cover() {
    let (mut phone, bench) = nursery(Hemisphere::North, Warmth::Cool, "2027-04-10");
    phone.act(set(
        bench,
        PlaceTraits {
            cover: Some(Cover::OpenToRain),
            ..PlaceTraits::default()
        },
    ));
    let roofed = phone.place("Under glass", Warmth::Cool);
    let (out, inside) = (
        phone.lot("Cymbidium lowianum", 4, bench),
        phone.lot("Cymbidium lowianum", 4, roofed),
    );
    let old = phone.lot("Zygopetalum maculatum", 2, bench);
    let new = divide(&mut phone, old, &[(PieceClass::Starter, 3)], bench)[0];
    phone.on("2027-04-12");
    phone.act(rained(bench, "2027-04-11", 12_000));
    assert_eq!(
        last_of(&phone, out),
        Some(("2027-04-11".to_owned(), By::Rain { um: 12_000 }))
    );
    assert_eq!(last_of(&phone, inside), None, "no rain under a roof");
    let seen = bench_of(&phone, bench);
    assert!(seen.open_to_rain && seen.rained.is_some_and(|rain| rain.um == 12_000));
    assert_eq!(seen.held.len(), 1);
    // On the Round the stop says so beside "no water before".
    let view = round(&phone.state, phone.today);
    let stop = view.stops.iter().find(|stop| {
        stop.place
            .as_ref()
            .is_some_and(|place| place.place == bench)
    });
    let stop = stop.unwrap();
    assert!(stop.place.as_ref().unwrap().open_to_rain);
    assert!(
        stop.rows
            .iter()
            .any(|row| row.kind == TaskKind::FirstWater && row.lots[0].lot == new)
    );
    // A shower waters nothing, and what fell before the plants came fell elsewhere.
    phone.on("2027-04-20");
    phone.act(rained(bench, "2027-04-19", 2_000));
    assert_eq!(
        last_of(&phone, out).map(|it| it.0),
        Some("2027-04-11".to_owned())
    );
    let late = phone.lot("Cymbidium lowianum", 1, bench);
    assert_eq!(last_of(&phone, late), None);
}

#[test]
fn one_gauge_serves_the_benches_that_are_open_to_rain() {
    let (mut phone, house) = nursery(Hemisphere::North, Warmth::Cool, "2027-04-10");
    let out = phone.place("Outside", Warmth::Cool);
    phone.act(set(
        out,
        PlaceTraits {
            cover: Some(Cover::OpenToRain),
            ..PlaceTraits::default()
        },
    ));
    let lot = phone.lot("Cymbidium lowianum", 4, out);
    phone.act(rained(house, "2027-04-10", 8_000));
    assert_eq!(
        last_of(&phone, lot),
        Some(("2027-04-10".to_owned(), By::Rain { um: 8_000 }))
    );
    let rain = bench_of(&phone, out).rained.unwrap();
    assert_eq!(rain.at, house, "and it is said where it was read");
}

#[test]
fn water_follows_the_plants_a_move_takes_it_along_and_a_part_shares_it() {
    let (mut phone, first) = nursery(Hemisphere::North, Warmth::Intermediate, "2027-04-10");
    let second = phone.place("The other", Warmth::Intermediate);
    let lot = phone.lot("Cattleya labiata", 6, first);
    phone.act(water(first));
    phone.on("2027-04-11");
    let split = phone.act(Command::SplitLot {
        from: lot,
        plants: 2,
        stands: 2,
        place: Some(second),
        why: SplitWhy::Moved,
    });
    let Some(Event::LotSplit(split)) = split.events.first() else {
        panic!("{:?}", split.events);
    };
    let part = split.lot;
    phone.act(Command::MoveLot { lot, to: second });
    phone.on("2027-04-12");
    assert_eq!(
        last_of(&phone, part),
        Some(("2027-04-10".to_owned(), By::Water))
    );
    // Later water of the bench they left is not theirs.
    phone.lot("Cattleya labiata", 1, first);
    phone.act(water(first));
    assert_eq!(
        last_of(&phone, lot),
        Some(("2027-04-10".to_owned(), By::Water))
    );
    phone.on("2027-04-13");
    phone.act(water(second));
    assert_eq!(
        last_of(&phone, part).map(|it| it.0),
        Some("2027-04-13".to_owned())
    );
}

#[test]
fn plants_without_a_place_are_named_one_by_one() {
    let (mut phone, _) = nursery(Hemisphere::North, Warmth::Intermediate, "2027-04-10");
    let lot = phone.receive(velamen_core::command::ReceiveLot {
        plants: 2,
        stands: 2,
        ..velamen_tests::named("Cattleya labiata")
    });
    assert_eq!(benches(&phone.state, phone.today, phone.now_ms).len(), 1);
    assert_eq!(
        benches_to_look(&phone.state, phone.today, phone.now_ms),
        Some(1)
    );
    let nobody = Command::Water(Water::default());
    assert_eq!(phone.refusal(nobody), Rejection::NothingToDo);
    phone.act(Command::Water(Water {
        who: Drinkers {
            lots: vec![lot, lot],
            ..Drinkers::default()
        },
        how: WaterHow::Dipped,
        ..Water::default()
    }));
    let (_, got) = of_lot(&phone.state, lot, phone.today, 5).unwrap();
    assert_eq!((got.len(), got[0].how), (1, WaterHow::Dipped));
}

#[test]
fn undone_a_watering_is_gone_and_put_right_it_reads_otherwise() {
    let (mut phone, bench) = nursery(Hemisphere::North, Warmth::Intermediate, "2027-04-10");
    let lot = phone.lot("Cattleya labiata", 4, bench);
    let done = phone.act(water(bench));
    phone.act(Command::Amend {
        target: done.entry,
        index: 0,
        event: Watered {
            place: Some(bench),
            except: vec![lot],
            flush: true,
            ..Watered::default()
        }
        .into(),
        why: String::new(),
    });
    assert_eq!(last_of(&phone, lot), None, "it was left out after all");
    phone.act(Command::Withdraw {
        targets: vec![done.entry],
        with_dependents: true,
        why: WithdrawWhy::Undone,
        note: String::new(),
    });
    assert_eq!(bench_of(&phone, bench).last, None);
}

#[test]
fn watered_before_midnight_and_looked_at_after_it_is_a_day_ago() {
    let (mut phone, bench) = nursery(Hemisphere::North, Warmth::Intermediate, "2027-04-10");
    let lot = phone.lot("Phragmipedium besseae", 4, bench);
    phone.wait_min(15 * 60 - 2);
    phone.act(water(bench));
    assert_eq!(stand_of(&phone, lot), Stand::Later { days: 2 });
    phone.today = day("2027-04-11");
    phone.wait_min(5);
    assert_eq!(stand_of(&phone, lot), Stand::Later { days: 1 });
    // Written down the day after for the day it was done.
    phone.on("2027-04-14");
    phone.act(Command::OnDay {
        on: day("2027-04-13"),
        command: Box::new(water(bench)),
    });
    assert_eq!(
        last_of(&phone, lot).map(|it| it.0),
        Some("2027-04-13".to_owned())
    );
}

#[test]
fn two_phones_that_water_one_bench_agree_and_differing_days_are_asked_about() {
    let (mut one, bench) = nursery(Hemisphere::North, Warmth::Intermediate, "2027-04-10");
    let lot = one.lot("Cattleya labiata", 5, bench);
    let mut two = Phone::new(8, "2027-04-10");
    two.take_in(&one.hand_over());
    two.act(Command::JoinPhone {
        prefix: velamen_core::code::Prefix::pick(99),
        name: "second".to_owned(),
    });
    one.act(water(bench));
    two.act(water(bench));
    one.act(own_days(bench, 3));
    two.act(own_days(bench, 5));
    let (from_one, from_two) = (one.hand_over(), two.hand_over());
    one.take_in(&from_two);
    two.take_in(&from_one);
    assert_eq!(one.state.digest(), two.state.digest());
    assert_eq!(last_of(&one, lot), last_of(&two, lot));
    let asked = velamen_core::view::questions::questions(&one.state);
    assert_eq!(asked.len(), 1, "{asked:?}");
    let again = asked[0]
        .sides
        .iter()
        .find_map(|side| side.again.clone())
        .unwrap();
    one.act(again);
    assert_eq!(one.state.anomalies(), []);
}

#[test]
fn a_year_of_watering_when_told_to_never_leaves_a_bench_waiting_north_or_south() {
    for hemisphere in [Hemisphere::North, Hemisphere::South] {
        let (mut phone, bench) = nursery(hemisphere, Warmth::Intermediate, "2027-01-01");
        let lots = [
            "Cymbidium lowianum",
            "Dendrobium nobile",
            "Zygopetalum maculatum",
            "Cattleya labiata",
        ]
        .map(|name| phone.lot(name, 3, bench));
        let old = phone.lot("Zygopetalum maculatum", 2, bench);
        let new = divide(&mut phone, old, &[(PieceClass::Starter, 3)], bench)[0];
        let start = phone.today;
        let (mut waterings, mut rested) = (0, 0);
        for at in 0..365 {
            phone.on(&plus_days(start, at).to_string());
            let view = bench_of(&phone, bench);
            rested += view.resting.len();
            // A bench that was watered whenever it was to be looked at is never late.
            assert!(
                !matches!(view.state, BenchState::Late { .. }),
                "{:?}",
                phone.today
            );
            for (held, until) in &view.held {
                assert!(held.lot == new && *until > phone.today);
            }
            if view.state == BenchState::Look {
                phone.act(water(bench));
                waterings += 1;
                let after = bench_of(&phone, bench);
                assert!(matches!(after.state, BenchState::Later { .. }), "{after:?}");
            }
        }
        // Nobile rests three months; everything else was never more than its days without.
        assert_eq!(rested, 92, "{hemisphere:?}");
        assert!((80..160).contains(&waterings), "{waterings}");
        let mut had = velamen_core::water::waterings(
            phone.state.facts(),
            lots[3],
            &phone.state.facts().lots[&lots[3]],
        );
        had.sort_by_key(|it| it.on);
        assert!(
            had.windows(2)
                .all(|two| (two[1].on - two[0].on).num_days() <= 10)
        );
    }
}
