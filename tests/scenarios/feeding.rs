//! Feed: what goes into a can, who gets none, and who gets the weakest.

use velamen_core::command::{Command, Feed, FeedTraits, PlaceTraits, Water};
use velamen_core::event::{Event, Nitrogen, PieceClass};
use velamen_core::id::{FeedId, PlaceId};
use velamen_core::quantity::{Amount, Mass};
use velamen_core::rejection::Rejection;
use velamen_core::season::{Hemisphere, Warmth};
use velamen_core::task::TaskKind;
use velamen_core::view::water::{FeedState, of_lot};
use velamen_core::water::By;
use velamen_tests::Phone;

use crate::scene::{divide, nursery, tasks};
use crate::water::{all_of, bench_of, last_of, set, water};

fn feed_of_the_shelf(phone: &mut Phone) -> FeedId {
    let done = phone.act(Command::SetFeed {
        feed: None,
        traits: FeedTraits {
            name: Some("growing feed".to_owned()),
            npk_typed: Some("20-10-20".to_owned()),
            nitrogen: Some(Nitrogen {
                mg: 200_000,
                by_litre: false,
            }),
            ec_us_cm: Some(1_200),
            retired: None,
        },
    });
    match done.events.first() {
        Some(Event::FeedSet(set)) => set.feed,
        other => panic!("{other:?}"),
    }
}

fn fed(place: PlaceId, feed: FeedId, ppm: u32) -> Feed {
    Feed {
        who: all_of(place),
        feed: Some(feed),
        nitrogen_ppm: Some(ppm),
        water_ul: Some(10_000_000),
        ..Feed::default()
    }
}

#[test]
fn a_feed_is_measured_by_its_nitrogen_and_counts_as_water() {
    let (mut phone, bench) = nursery(Hemisphere::North, Warmth::Intermediate, "2027-04-10");
    let lot = phone.lot("Cattleya labiata", 4, bench);
    let feed = feed_of_the_shelf(&mut phone);
    assert_eq!(bench_of(&phone, bench).feed.state, FeedState::Never);
    let done = phone.act(Command::Feed(fed(bench, feed, 100)));
    let Some(Event::Fed(it)) = done.events.first() else {
        panic!("{:?}", done.events);
    };
    // 10 L at 100 mg/L of nitrogen from a feed with a fifth of it: 5 g.
    assert_eq!((it.amount_mg, it.amount_ul), (Some(5_000), None));
    assert_eq!(it.feed.name, "growing feed");
    assert_eq!(
        last_of(&phone, lot),
        Some(("2027-04-10".to_owned(), By::Feed { ppm: Some(100) }))
    );
    let view = bench_of(&phone, bench).feed;
    assert_eq!(
        (view.state, view.last_ppm),
        (FeedState::Later { days: 14 }, Some(100))
    );
    phone.on("2027-04-24");
    assert_eq!(
        bench_of(&phone, bench).feed.state,
        FeedState::Due { late: 0 }
    );
    // In winter plants are fed half as often, unless the grower says how often.
    phone.on("2027-12-20");
    assert_eq!(bench_of(&phone, bench).feed.days, 28);
    phone.act(set(
        bench,
        PlaceTraits {
            feed_days: Some(7),
            ..PlaceTraits::default()
        },
    ));
    assert_eq!(bench_of(&phone, bench).feed.days, 7);
}

#[test]
fn after_dividing_there_is_no_feed_and_then_the_weakest() {
    let (mut phone, bench) = nursery(Hemisphere::North, Warmth::Intermediate, "2027-04-10");
    let old = phone.lot("Zygopetalum maculatum", 2, bench);
    phone.lot("Cattleya labiata", 5, bench);
    let feed = feed_of_the_shelf(&mut phone);
    let new = divide(&mut phone, old, &[(PieceClass::Starter, 3)], bench)[0];
    phone.on("2027-04-20");
    phone.act(water(bench));
    phone.act(Command::Feed(fed(bench, feed, 120)));
    let (_, got) = of_lot(&phone.state, new, phone.today, 5).unwrap();
    assert!(
        got.iter().all(|got| got.fed.is_none()),
        "too early for feed"
    );
    assert_eq!(
        bench_of(&phone, bench).feed.ppm,
        120,
        "nobody on it needs the weakest yet"
    );
    let from_on = tasks(&phone, new, TaskKind::FirstFeed)[0].from_on;
    phone.on(&from_on.to_string());
    let view = bench_of(&phone, bench).feed;
    assert_eq!((view.weak, view.ppm), (1, 50));
    let done = phone.act(Command::Feed(fed(bench, feed, view.ppm)));
    assert!(done.events.iter().any(|event| matches!(event,
        Event::TaskDecided(task) if task.kind == TaskKind::FirstFeed)));
    assert_eq!(tasks(&phone, new, TaskKind::FirstFeed), []);
    // Three months later it eats like the others.
    phone.on("2027-08-01");
    assert_eq!(bench_of(&phone, bench).feed.weak, 0);
}

#[test]
fn after_four_feeds_plain_water_is_to_run_through() {
    let (mut phone, bench) = nursery(Hemisphere::North, Warmth::Intermediate, "2027-04-10");
    phone.lot("Cattleya labiata", 5, bench);
    let feed = feed_of_the_shelf(&mut phone);
    for on in ["2027-04-10", "2027-04-20", "2027-04-30"] {
        phone.on(on);
        phone.act(Command::Feed(fed(bench, feed, 100)));
        assert!(!bench_of(&phone, bench).feed.flush_due);
    }
    phone.on("2027-05-10");
    phone.act(Command::Feed(fed(bench, feed, 100)));
    assert!(bench_of(&phone, bench).feed.flush_due);
    phone.act(Command::Water(Water {
        who: all_of(bench),
        flush: true,
        ..Water::default()
    }));
    let view = bench_of(&phone, bench).feed;
    assert_eq!((view.flush_due, view.since_flush), (false, 0));
}

#[test]
fn figures_no_feed_has_are_refused_and_nothing_is_lost() {
    let (mut phone, bench) = nursery(Hemisphere::North, Warmth::Intermediate, "2027-04-10");
    phone.lot("Cattleya labiata", 5, bench);
    let feed = feed_of_the_shelf(&mut phone);
    let before = phone.state.digest();
    let wrong = |change: fn(&mut Feed)| {
        let mut feed = fed(bench, feed, 100);
        change(&mut feed);
        phone.refusal(Command::Feed(feed))
    };
    for change in [
        (|feed| feed.nitrogen_ppm = Some(0)) as fn(&mut Feed),
        |feed| feed.nitrogen_ppm = Some(2_001),
        |feed| feed.injector = Some(0),
        |feed| feed.injector = Some(1_001),
        |feed| feed.water_ul = Some(0),
        |feed| feed.ec_us_cm = Some(20_001),
    ] {
        assert!(
            matches!(wrong(change), Rejection::OutOfRange { .. }),
            "{:?}",
            wrong(change)
        );
    }
    let traits = |mg| FeedTraits {
        name: Some("x".to_owned()),
        nitrogen: Some(Nitrogen {
            mg,
            by_litre: false,
        }),
        ..FeedTraits::default()
    };
    for mg in [0, -1, 1_000_001] {
        let set = Command::SetFeed {
            feed: None,
            traits: traits(mg),
        };
        assert!(matches!(phone.refusal(set), Rejection::BadRate(_)), "{mg}");
    }
    let nameless = FeedTraits {
        name: None,
        ..traits(1)
    };
    let set = Command::SetFeed {
        feed: None,
        traits: nameless,
    };
    assert!(matches!(phone.refusal(set), Rejection::Missing { .. }));
    assert_eq!(phone.state.digest(), before);
}

#[test]
fn an_injectors_stock_reaches_a_hundred_times_as_far() {
    let (mut phone, bench) = nursery(Hemisphere::North, Warmth::Intermediate, "2027-04-10");
    phone.lot("Cattleya labiata", 5, bench);
    let feed = feed_of_the_shelf(&mut phone);
    let done = phone.act(Command::Feed(Feed {
        injector: Some(100),
        ..fed(bench, feed, 100)
    }));
    let Some(Event::Fed(it)) = done.events.first() else {
        panic!("{:?}", done.events);
    };
    assert_eq!(it.amount_mg, Some(500_000));
    let nitrogen = it.feed.nitrogen.unwrap();
    let litre = velamen_core::quantity::Volume::from_ul(1_000_000);
    let amount = velamen_core::water::amount(nitrogen, 100, litre);
    assert_eq!(amount, Ok(Amount::Mass(Mass::from_mg(500))));
}
