//! Water, feed, what a house showed, and protocols of the grower's own.

use velamen_core::climate::{Reading, ReadingFault};
use velamen_core::command::{Command, Drinkers, Feed, FeedTraits, PlaceTraits, ReceiveLot, Water};
use velamen_core::event::{Event, GroupSet, PieceClass};
use velamen_core::id::FeedId;
use velamen_core::limits;
use velamen_core::reference::taxa::Group;
use velamen_core::rejection::{Input, Rejection};
use velamen_core::task::{
    Condition, Protocol, ProtocolFault, Repeat, Step, TaskKind, Timing, Trigger, WeatherShift,
};
use velamen_core::time::plus_days;
use velamen_tests::{Phone, named};

use super::{Edge, bench, each, feed, hold, many, most, of, range, received, row};

fn known_feed(phone: &mut Phone) -> FeedId {
    match phone.act(feed()).events[0] {
        Event::FeedSet(ref set) => set.feed,
        ref other => panic!("{other:?}"),
    }
}

#[test]
fn water_and_feed() {
    let (mut phone, place, lot) = bench();
    let other = phone.lot("Cymbidium tracyanum", 1, place);
    let known = known_feed(&mut phone);
    let days = |about| Command::SetPlace {
        place: Some(place),
        name: None,
        walk: None,
        about,
    };
    let who = || Drinkers {
        place: Some(place),
        ..Drinkers::default()
    };
    let water = |who| {
        Command::Water(Water {
            who,
            ..Water::default()
        })
    };
    let fed = |change: &dyn Fn(&mut Feed)| {
        let mut feed = Feed {
            who: who(),
            ..Feed::default()
        };
        change(&mut feed);
        Command::Feed(feed)
    };
    // With a feed of the shelf the amount is reckoned, without one it is not: the limits are the same.
    let reckoned = |it: &mut Feed| {
        it.feed = Some(known);
        it.nitrogen_ppm = Some(100);
        it.water_ul = Some(10_000_000);
    };
    let own = range(Input::Days, 0, limits::OWN_DAYS_MAX);
    let lots = many(Input::Lots, limits::WATERED_LOTS_MAX);
    let ppm = range(Input::Nitrogen, 1, limits::FEED_PPM_MAX);
    let times = range(Input::Injector, 1, limits::INJECTOR_MAX);
    let tub = range(Input::Water, 1, limits::TUB_UL_MAX / 1_000_000);
    let ec = range(Input::Ec, 0, limits::EC_US_CM_MAX);
    let mut rows = vec![
        row(
            "OWN_DAYS_MAX, water",
            most(limits::OWN_DAYS_MAX),
            own.clone(),
            |n| {
                days(PlaceTraits {
                    water_days: Some(of(n)),
                    ..PlaceTraits::default()
                })
            },
        ),
        row(
            "OWN_DAYS_MAX, feed",
            most(limits::OWN_DAYS_MAX),
            own.clone(),
            |n| {
                days(PlaceTraits {
                    feed_days: Some(of(n)),
                    ..PlaceTraits::default()
                })
            },
        ),
        row(
            "OWN_DAYS_MAX, a group",
            most(limits::OWN_DAYS_MAX),
            own,
            |n| {
                Command::SetGroup(GroupSet {
                    group: Group::Cymbidium,
                    repot_windows: None,
                    flowering_windows: None,
                    light: None,
                    water_days: Some(of(n)),
                })
            },
        ),
        row(
            "WATERED_LOTS_MAX",
            most(limits::WATERED_LOTS_MAX),
            lots.clone(),
            |n| {
                water(Drinkers {
                    lots: each(n, |_| lot),
                    ..Drinkers::default()
                })
            },
        ),
        row(
            "WATERED_LOTS_MAX, but for",
            most(limits::WATERED_LOTS_MAX),
            lots,
            |n| {
                water(Drinkers {
                    except: each(n, |_| other),
                    ..who()
                })
            },
        ),
        row(
            "EC_US_CM_MAX, a label",
            most(limits::EC_US_CM_MAX),
            ec.clone(),
            |n| {
                let traits = FeedTraits {
                    ec_us_cm: Some(of(n)),
                    ..FeedTraits::default()
                };
                let feed = Some(known);
                Command::SetFeed { feed, traits }
            },
        ),
        row(
            "EC_US_CM_MAX, given",
            most(limits::EC_US_CM_MAX),
            ec.clone(),
            |n| fed(&|it| it.ec_us_cm = Some(of(n))),
        ),
        row(
            "EC_US_CM_MAX, the water's own",
            most(limits::EC_US_CM_MAX),
            ec,
            |n| fed(&|it| it.water_ec_us_cm = Some(of(n))),
        ),
    ];
    for from_shelf in [false, true] {
        let begin = move |it: &mut Feed| {
            if from_shelf {
                reckoned(it);
            }
        };
        for edge in [most(limits::FEED_PPM_MAX), Edge::Least(1)] {
            rows.push(row("FEED_PPM_MAX", edge, ppm.clone(), move |n| {
                fed(&|it| {
                    begin(it);
                    it.nitrogen_ppm = Some(of(n));
                })
            }));
        }
        for edge in [most(limits::INJECTOR_MAX), Edge::Least(1)] {
            rows.push(row("INJECTOR_MAX", edge, times.clone(), move |n| {
                fed(&|it| {
                    begin(it);
                    it.injector = Some(of(n));
                })
            }));
        }
        for edge in [most(limits::TUB_UL_MAX), Edge::Least(1)] {
            rows.push(row("TUB_UL_MAX, feed", edge, tub.clone(), move |n| {
                fed(&|it| {
                    begin(it);
                    it.water_ul = Some(n);
                })
            }));
        }
    }
    hold(&phone, rows);
}

#[test]
fn who_of_a_bench_gets_no_water_is_counted_with_those_that_may_not_have_any_yet() {
    let (mut phone, place, lot) = bench();
    let one = Command::ReceiveLot(ReceiveLot {
        place: Some(place),
        ..named("Cymbidium tracyanum")
    });
    let came = phone.act(Command::Together(vec![one; limits::WATERED_LOTS_MAX]));
    let lots = received(&came);
    phone.lot("Cymbidium eburneum", 1, place);
    // One more than is picked out: pieces just potted are held by themselves.
    crate::scene::divide(&mut phone, lot, &[(PieceClass::Starter, 3)], place);
    let but_for = |picked: i64| {
        Command::Water(Water {
            who: Drinkers {
                place: Some(place),
                except: lots.iter().take(of(picked)).copied().collect(),
                ..Drinkers::default()
            },
            ..Water::default()
        })
    };
    let edge = Edge::Most(of::<_, i64>(limits::WATERED_LOTS_MAX) - 1);
    let why = many(Input::Lots, limits::WATERED_LOTS_MAX);
    hold(&phone, vec![row("WATERED_LOTS_MAX", edge, why, but_for)]);
}

#[test]
fn what_a_house_showed() {
    let (phone, place, _) = bench();
    let today = phone.today;
    let read = |reading| Command::ReadClimate {
        place,
        days: vec![(today, reading)],
    };
    let not_believed = |mc| {
        Rejection::Reading(ReadingFault::NotBelieved {
            mc,
            least_mc: limits::AIR_MC_MIN,
            most_mc: limits::AIR_MC_MAX,
        })
    };
    let rows = vec![
        row(
            "AIR_MC_MAX",
            most(limits::AIR_MC_MAX),
            not_believed(limits::AIR_MC_MAX + 1),
            |mc| read(Reading::of(0, of(mc))),
        ),
        row(
            "AIR_MC_MIN",
            Edge::Least(of(limits::AIR_MC_MIN)),
            not_believed(limits::AIR_MC_MIN - 1),
            |mc| read(Reading::of(of(mc), 0)),
        ),
        row(
            "RAIN_UM_MAX",
            most(limits::RAIN_UM_MAX),
            Rejection::Reading(ReadingFault::RainBeyond {
                most_um: limits::RAIN_UM_MAX,
            }),
            |um| {
                read(Reading {
                    rain_um: Some(of(um)),
                    ..Reading::of(0, 0)
                })
            },
        ),
        row(
            "READINGS_MAX",
            most(limits::READINGS_MAX),
            many(Input::Date, limits::READINGS_MAX),
            |days| Command::ReadClimate {
                place,
                days: each(days, |ago| (plus_days(today, -ago), Reading::of(0, 0))),
            },
        ),
    ];
    hold(&phone, rows);
}

#[test]
fn a_protocol_of_the_grower_s_own() {
    let (phone, _, _) = bench();
    let step = || Step::plain("look".to_owned(), TaskKind::LookOver);
    let adopt = |steps| Command::AdoptProtocol {
        protocol: None,
        content: Protocol {
            key: "own".to_owned(),
            trigger: Trigger::Repotted,
            steps,
            source: "own".to_owned(),
        },
    };
    let one = |change: &dyn Fn(&mut Step)| {
        let mut step = step();
        change(&mut step);
        adopt(vec![step])
    };
    let far = Rejection::Protocol(ProtocolFault::TooFar {
        step: "look".to_owned(),
        most_days: limits::OFFSET_DAYS_MAX,
    });
    let weather = Rejection::Protocol(ProtocolFault::BadWeather {
        step: "look".to_owned(),
        most_days: limits::WEATHER_DAYS_MAX,
    });
    let shift = |below_mc, days| {
        one(&|it| {
            it.weather = vec![WeatherShift {
                below_mc: Some(below_mc),
                above_mc: None,
                days,
            }];
        })
    };
    let offset = most(limits::OFFSET_DAYS_MAX);
    let moved = most(limits::WEATHER_DAYS_MAX);
    let rows = vec![
        row(
            "STEPS_MAX",
            most(limits::STEPS_MAX),
            Rejection::Protocol(ProtocolFault::TooManySteps {
                most: limits::STEPS_MAX,
            }),
            |steps| {
                adopt(each(steps, |at| Step {
                    key: format!("look {at}"),
                    ..step()
                }))
            },
        ),
        row("OFFSET_DAYS_MAX, after", offset, far.clone(), |n| {
            one(&|it| it.when = Timing::new(of(n), of(n), of(n)))
        }),
        row("OFFSET_DAYS_MAX, before", offset, far, |n| {
            one(&|it| it.when = Timing::new(of(-n), of(-n), of(-n)))
        }),
        row(
            "OFFSET_DAYS_MAX, repeated",
            offset,
            Rejection::Protocol(ProtocolFault::NeverEnds {
                step: "look".to_owned(),
            }),
            |n| {
                one(&|it| {
                    it.repeat = Some(Repeat {
                        every_days: 30,
                        until_days: of(n),
                    });
                })
            },
        ),
        row("WEATHER_DAYS_MAX, later", moved, weather.clone(), |n| {
            shift(0, of(n))
        }),
        row("WEATHER_DAYS_MAX, sooner", moved, weather.clone(), |n| {
            shift(0, of(-n))
        }),
        row(
            "AIR_MC_MAX, of a step",
            most(limits::AIR_MC_MAX),
            weather.clone(),
            |n| shift(of(n), 1),
        ),
        row(
            "AIR_MC_MIN, of a step",
            Edge::Least(of(limits::AIR_MC_MIN)),
            weather.clone(),
            |n| shift(of(n), 1),
        ),
        row(
            "AIR_MC_MAX, of a condition",
            most(limits::AIR_MC_MAX),
            weather,
            |n| {
                one(&|it| {
                    it.only = Condition {
                        mean_above_mc: Some(of(n)),
                        ..Condition::default()
                    };
                })
            },
        ),
    ];
    hold(&phone, rows);
}
