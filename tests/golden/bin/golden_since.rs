//! Writes what was added to the vocabulary after the kept book: a line or two by a further phone that took the kept
//! book in, under the event's wire name, into the folder that is named. Never run again for an event that has its file.
#![allow(
    clippy::unwrap_used,
    clippy::panic,
    clippy::indexing_slicing,
    reason = "a script: what goes wrong has to stop it"
)]

#[path = "since_cut.rs"]
mod since_cut;
#[path = "since_trade.rs"]
mod since_trade;

use velamen_core::climate::Reading;
use velamen_core::code::Prefix;
use velamen_core::command::{
    Command, ContainerTraits, Drinkers, EnterQuarantine, Feed, FeedTraits, MeasureTraits,
    NextTreatment, PlaceTraits, ProductTraits, RecordTest, RecordTreatment, Sanitise, TankPartner,
    Water,
};
use velamen_core::event::{
    AgentClass, Aim, Airing, BookSet, Coordinates, Held, LabelUse, Material, MeasureKind, Method,
    MixOpen, Nitrogen, Object, ProductCopy, QuarantineWhy, RecordRule, SeenOn, Stage, TestMethod,
    TestResult, Tissue, TreatedPart, UsedWhy, Virus, WaterHow,
};
use velamen_core::finding_draft::FindingDraft;
use velamen_core::id::{ClumpId, ContainerId, FeedId, LotId, PlaceId, PotId, ProductId, Subject};
use velamen_core::quantity::{Amount, Mass, Volume};
use velamen_core::quarantine::usual;
use velamen_core::state::State;
use velamen_tests::{Phone, day};

const LINES: &str = include_str!("../book-1.jsonl");

fn main() {
    let mut args = std::env::args().skip(1);
    let (folder, name) = (args.next().unwrap(), args.next().unwrap());
    // A phone of its own for every event, so that no file depends on another.
    let (dev, prefix) = match name.as_str() {
        "climate_read" => (101, "X2"),
        "sanitised" => (102, "X3"),
        "materials_moved" => (103, "X4"),
        "measure_set" => (120, "X4"),
        "rotation_set" => (121, "X7"),
        "quarantine_released" => (111, "X3"),
        "treated" => (130, "X8"),
        "bath_topped" => (134, "Y3"),
        "bath_ended" => (135, "Y4"),
        "container_set" => (131, "X8"),
        "container_counted" => (132, "X9"),
        "container_used" => (133, "Y2"),
        "division_planned" => (153, "Y7"),
        "book_set" => (141, "Y9"),
        "phone_left" => (142, "Y5"),
        "task_noted" => (140, "Y8"),
        "feed_set" => (150, "C2"),
        "watered" => (151, "C3"),
        "fed" => (152, "C4"),
        "price_set" => (160, "D2"),
        "reserved" => (161, "D3"),
        "released" => (162, "D4"),
        other => panic!("no lines for {other}"),
    };
    let mut phone = Phone::new(dev, "2027-03-13");
    phone.state = State::of_lines(LINES.lines()).0;
    let joined = phone.act(Command::JoinPhone {
        prefix: Prefix::parse(prefix).unwrap(),
        name: name.clone(),
    });
    let place = *phone.state.facts().places.keys().next().unwrap();
    let pot = *phone.state.facts().pots.keys().next().unwrap();
    let clump = *phone.state.facts().clumps.keys().next().unwrap();
    let mut lines = vec![joined.line];
    let stocked = phone.state.facts().live_lots();
    let lot = stocked
        .filter(|(_, lot)| lot.plants > 0)
        .map(|(id, _)| id)
        .next()
        .unwrap();
    let product = *phone.state.facts().products.keys().next().unwrap();
    let mix = *phone.state.facts().mixes.keys().next().unwrap();
    let commands = match name.as_str() {
        "book_set" => vec![Command::SetBook(BookSet {
            mix_open: Some(MixOpen {
                mix,
                batch: "bag 7, March".to_owned(),
            }),
            stone_open: Some("river load 2".to_owned()),
            ..BookSet::default()
        })],
        "phone_left" => {
            let mut others = phone.state.facts().phones.keys();
            let gone = *others.rfind(|it| **it != phone.dev).unwrap();
            let note = "lost in the river".to_owned();
            vec![Command::TakeOffPhone { dev: gone, note }]
        }
        "price_set" => since_trade::prices(pot, product),
        "reserved" | "released" => vec![since_trade::kept(lot)],
        "division_planned" => since_cut::planned(lot),
        "task_noted" => vec![Command::RecordFinding(
            FindingDraft::default().finding(SeenOn::Place(place), Some("thrips")),
        )],
        "feed_set" => vec![
            feed("green feed", "20-10-20", (200_000, false), Some(1_200)),
            feed("liquid feed", "", (70_000, true), None),
            by_own_days(place, (3, 10)),
        ],
        "watered" => vec![
            Command::Water(Water {
                who: who(place, &[lot]),
                ..Water::default()
            }),
            Command::Water(Water {
                who: Drinkers {
                    lots: vec![lot],
                    ..Drinkers::default()
                },
                how: WaterHow::Dipped,
                flush: true,
                note: "until it ran through".to_owned(),
            }),
        ],
        "fed" => vec![feed("green feed", "20-10-20", (200_000, false), None)],
        other => said(other, place, pot, clump, lot, product),
    };
    for command in commands {
        lines.push(phone.act(command).line);
    }
    for command in since_trade::after(&phone.state, lot, &name) {
        lines.push(phone.act(command).line);
    }
    if name == "fed" {
        let feed = phone.state.facts().feeds.keys().next().copied();
        lines.push(phone.act(fed(place, feed, (60, None))).line);
        lines.push(phone.act(fed(place, feed, (100, Some(100)))).line);
        lines.push(phone.act(fed(place, None, (40, None))).line);
    }
    let last = phone.state.facts().containers.keys().next().copied();
    let more = last.map(|it| from_it(&name, it)).unwrap_or_default();
    for command in more {
        lines.push(phone.act(command).line);
    }
    if let Some(it) = last.filter(|_| name.starts_with("bath_")) {
        for command in bathed(&phone, it, lot) {
            lines.push(phone.act(command).line);
        }
        let treatments = phone.state.facts().treatments.iter();
        let bath = *treatments.max_by_key(|(_, it)| it.entry).unwrap().0;
        let water = Volume::from_ul(2_000_000);
        let amount = |ul| Amount::Volume(Volume::from_ul(ul));
        let end = |left, disposal: &str| Command::EndBath {
            bath,
            left,
            disposal: disposal.to_owned(),
        };
        let more = if name == "bath_topped" {
            vec![Command::TopUpBath {
                bath,
                water,
                amount: amount(3_000),
                container: Some(it),
            }]
        } else {
            vec![
                Command::TopUpBath {
                    bath,
                    water,
                    amount: Amount::Mass(Mass::from_mg(4_000)),
                    container: None,
                },
                end(Some(water), "on plants of the label"),
            ]
        };
        for command in more {
            lines.push(phone.act(command).line);
        }
    }
    if let Some(it) = last.filter(|_| name == "container_used") {
        for command in on_record(&phone, it, place, lot) {
            lines.push(phone.act(command).line);
        }
        lines.push(phone.act(filled_in(&phone)).line);
    }
    if name == "task_noted" {
        let mut findings = phone.state.facts().findings.keys();
        let finding = *findings.next_back().unwrap();
        let text = "look again: thrips".to_owned();
        lines.push(phone.act(Command::LookByGeneration { finding, text }).line);
    }
    let text: String = lines.iter().map(|line| format!("{line}\n")).collect();
    std::fs::write(format!("{folder}/{name}.jsonl"), text).unwrap();
    let digest = format!("{}\n", phone.state.digest());
    std::fs::write(format!("{folder}/{name}.digest"), digest).unwrap();
}

fn who(place: PlaceId, except: &[LotId]) -> Drinkers {
    let (place, except) = (Some(place), except.to_vec());
    Drinkers {
        place,
        except,
        ..Drinkers::default()
    }
}

fn feed(name: &str, npk: &str, (mg, by_litre): (i64, bool), ec_us_cm: Option<u32>) -> Command {
    Command::SetFeed {
        feed: None,
        traits: FeedTraits {
            name: Some(name.to_owned()),
            npk_typed: Some(npk.to_owned()),
            nitrogen: Some(Nitrogen { mg, by_litre }),
            ec_us_cm,
            retired: Some(false),
        },
    }
}

fn by_own_days(place: PlaceId, (water, feed): (u16, u16)) -> Command {
    Command::SetPlace {
        place: Some(place),
        name: None,
        walk: None,
        about: PlaceTraits {
            water_days: Some(water),
            feed_days: Some(feed),
            ..PlaceTraits::default()
        },
    }
}

/// A can of a feed, or the stock of an injector with all that may be measured beside it.
fn fed(place: PlaceId, feed: Option<FeedId>, (ppm, injector): (u32, Option<u32>)) -> Command {
    let measured = injector.is_some();
    Command::Feed(Feed {
        who: who(place, &[]),
        how: WaterHow::Overhead,
        feed,
        nitrogen_ppm: Some(ppm),
        water_ul: Some(10_000_000),
        injector,
        ec_us_cm: measured.then_some(850),
        water_ec_us_cm: measured.then_some(200),
        note: String::new(),
    })
}

/// A bottle, or a bag with all that may stand on it.
fn bottle(product: ProductId, all: bool) -> Command {
    let traits = ContainerTraits {
        product: Some(product),
        held: Some(Held::Ul(500_000)),
        ..ContainerTraits::default()
    };
    let whole = ContainerTraits {
        batch: Some("B 9".to_owned()),
        opened_on: Some(day("2027-02-01")),
        expires_on: Some(day("2028-06-30")),
        held: Some(Held::Mg(1_000_000)),
        left: Some(Amount::Mass(Mass::from_mg(640_000))),
        retired: Some(false),
        ..traits.clone()
    };
    Command::SetContainer {
        container: None,
        traits: if all { whole } else { traits },
    }
}

/// A treatment out of a container, with what some rules of records ask for beside the common list.
fn on_record(phone: &Phone, container: ContainerId, place: PlaceId, lot: LotId) -> Vec<Command> {
    let facts = phone.state.facts();
    let product = facts.containers.get(&container).unwrap().product;
    let copy = ProductCopy {
        product,
        label_name: "Copper, as labelled".to_owned(),
        container: Some(container),
        ..ProductCopy::default()
    };
    let parts = vec![TreatedPart::Lot { lot, plants: 1 }];
    let mut bath = velamen_tests::treatment(parts, AgentClass::Fungus, copy);
    bath.amount_ul = Some(12_000);
    vec![
        Command::RecordTreatment(bath),
        Command::SetPlace {
            place: Some(place),
            name: None,
            walk: None,
            about: PlaceTraits {
                coordinates: Coordinates::parse("-33.60000, 150.75123"),
                ..PlaceTraits::default()
            },
        },
        Command::SetBook(BookSet {
            record: Some(RecordRule {
                profile: "au_nsw".to_owned(),
                less: vec!["method".to_owned()],
                ..RecordRule::default()
            }),
            ..BookSet::default()
        }),
    ]
}

/// A bath out of a container.
fn bathed(phone: &Phone, container: ContainerId, lot: LotId) -> Vec<Command> {
    let product = phone.state.facts().containers[&container].product;
    let copy = ProductCopy {
        product,
        label_name: "Copper, as labelled".to_owned(),
        container: Some(container),
        ..ProductCopy::default()
    };
    let parts = vec![TreatedPart::Lot { lot, plants: 1 }];
    let mut bath = velamen_tests::treatment(parts, AgentClass::Fungus, copy);
    bath.water_ul = Some(20_000_000);
    bath.amount_ul = Some(30_000);
    bath.pots = 6;
    bath.then = Some(NextTreatment {
        text: "the second of the two".to_owned(),
        due_on: day("2027-03-20"),
        product,
    });
    let allowed = LabelUse {
        key: "use-9".to_owned(),
        methods: vec![Method::Bath],
        pots_too: true,
        ..LabelUse::default()
    };
    let label = Command::SetProduct {
        product,
        traits: ProductTraits {
            uses: Some(vec![allowed]),
            ..ProductTraits::default()
        },
    };
    vec![label, Command::RecordTreatment(bath)]
}

/// The same treatment, its plant and growth stage filled in.
fn filled_in(phone: &Phone) -> Command {
    let known = phone.state.facts().treatments.values();
    let it = known.max_by_key(|it| it.entry).unwrap();
    let mut event = it.event.clone();
    event.plant_code = "1CYBG".to_owned();
    event.growth_stage = "65".to_owned();
    Command::Amend {
        target: it.entry,
        index: 0,
        event: event.into(),
        why: "filled in".to_owned(),
    }
}

fn from_it(name: &str, container: ContainerId) -> Vec<Command> {
    match name {
        "container_counted" => vec![Command::CountContainer {
            container,
            left: Amount::Mass(Mass::from_mg(580_000)),
        }],
        "container_used" => {
            let used = |why, ml: i64, note: &str| Command::UseFromContainer {
                container,
                amount: Amount::Volume(Volume::from_ul(ml * 1_000)),
                why,
                note: note.to_owned(),
            };
            vec![
                used(UsedWhy::Spilt, 20, "knocked over"),
                used(UsedWhy::MixedUnused, 30, ""),
                used(UsedWhy::Other, 5, ""),
            ]
        }
        _ => Vec::new(),
    }
}

fn said(
    name: &str,
    place: PlaceId,
    pot: PotId,
    clump: ClumpId,
    lot: LotId,
    product: ProductId,
) -> Vec<Command> {
    match name {
        "climate_read" => {
            let whole = Reading {
                humidity_min_permille: Some(540),
                humidity_max_permille: Some(820),
                rain_um: Some(4_200),
                ..Reading::of(-1_500, 24_300)
            };
            let days = vec![
                (day("2027-03-13"), Reading::of(9_000, 21_000)),
                (day("2027-03-12"), whole),
            ];
            vec![Command::ReadClimate { place, days }]
        }
        "materials_moved" => vec![
            moved(Material::pots_of(pot, 12), (Stage::New, Stage::Clean), None),
            moved(
                Material::pots_called("clay", 3),
                (Stage::Uncounted, Stage::Dirty),
                None,
            ),
            moved(
                Material::stone(2_500_000),
                (Stage::Uncounted, Stage::Dirty),
                Some(clump),
            ),
        ],
        "sanitised" => {
            let stone = || vec![Material::stone(2_500_000)];
            vec![
                moved(
                    Material::stone(2_500_000),
                    (Stage::Uncounted, Stage::Washed),
                    Some(clump),
                ),
                Command::Sanitise(Sanitise {
                    what: Object::Stone,
                    materials: stone(),
                    agent: "oven".to_owned(),
                    wanted_s: Some(3_600),
                    contact_s: Some(3_700),
                    cleaned_first: true,
                    apart: Some(Subject::Clump(clump)),
                    ..Sanitise::default()
                }),
                Command::Sanitise(Sanitise {
                    what: Object::Tools,
                    agent: "chlorine".to_owned(),
                    strength_ppm: Some(5_000),
                    stock_ppm: Some(52_500),
                    bath_ul: Some(2_000_000),
                    stock_ul: Some(190_476),
                    mixed_ms: Some(1_804_920_000_000),
                    wanted_s: Some(60),
                    contact_s: Some(75),
                    started_ms: Some(1_804_921_000_000),
                    ended_ms: Some(1_804_921_075_000),
                    cleaned_first: true,
                    suspect_source: true,
                    note: "the long knife".to_owned(),
                    ..Sanitise::default()
                }),
            ]
        }
        "measure_set" => {
            let all = MeasureTraits {
                name: Some("blue plunger".to_owned()),
                kind: Some(MeasureKind::Syringe),
                least: Some(600),
                most: Some(5_000),
                graduation: Some(200),
                retired: None,
            };
            let scale = MeasureTraits {
                name: None,
                kind: Some(MeasureKind::Scale),
                least: Some(2_000),
                most: Some(500_000),
                graduation: Some(100),
                retired: Some(true),
            };
            let traits = [all, scale];
            let set = traits.map(|traits| Command::SetMeasure {
                measure: None,
                traits,
            });
            vec![Command::Together(set.to_vec())]
        }
        "container_set" => vec![bottle(product, true), bottle(product, false)],
        "container_counted" => vec![bottle(product, true)],
        "container_used" | "bath_topped" => vec![bottle(product, false)],
        "bath_ended" => vec![bottle(product, true)],
        "rotation_set" => {
            let mut rules = velamen_core::rotation::usual();
            for row in rules.rows.iter_mut().filter(|row| row.code == "*") {
                row.per_year = Some(4);
            }
            vec![Command::SetRotation(rules)]
        }
        "quarantine_released" => kept_apart(place, lot),
        "treated" => one_tank(place, lot, product),
        other => panic!("no lines for {other}"),
    }
}

fn moved(material: Material, (from, to): (Stage, Stage), clump: Option<ClumpId>) -> Command {
    Command::MoveMaterials {
        moved: vec![material],
        from,
        to,
        apart: clump.map(Subject::Clump),
        note: String::new(),
    }
}

/// A label that allows another product in one tank and calls for airing; a spray of the two, aired.
fn one_tank(place: PlaceId, lot: LotId, product: ProductId) -> Vec<Command> {
    let allowed = LabelUse {
        key: "use-1".to_owned(),
        methods: vec![Method::Spray],
        rate_typed: "1 mL/L".to_owned(),
        mix_with: vec![product],
        airing: true,
        ..LabelUse::default()
    };
    let traits = ProductTraits {
        label_name: Some("Partner".to_owned()),
        uses: Some(vec![allowed]),
        ..ProductTraits::default()
    };
    let copy = |label_name: &str| ProductCopy {
        label_name: label_name.to_owned(),
        ..ProductCopy::default()
    };
    let parts = vec![TreatedPart::Lot { lot, plants: 1 }];
    let spray = RecordTreatment {
        method: Method::Spray,
        place: Some(place),
        water_ul: Some(2_000_000),
        amount_ul: Some(2_000),
        ended_ms: Some(1_804_921_000_000),
        until_ms: Some(1_804_935_400_000),
        airing: Some(Airing::Vents),
        tank: Some(Box::new(TankPartner {
            product: copy("Partner"),
            against: AgentClass::Insect,
            aim: Aim::Curing,
            amount_ul: None,
            amount_mg: Some(4_000),
            same_mix_as: None,
            reason: "both labels say so".to_owned(),
        })),
        then: Some(NextTreatment {
            text: "Treat again".to_owned(),
            due_on: day("2027-03-20"),
            product: None,
        }),
        ..velamen_tests::treatment(parts, AgentClass::Fungus, copy("First"))
    };
    vec![
        Command::SetProduct {
            product: None,
            traits,
        },
        Command::RecordTreatment(spray),
    ]
}

/// Into quarantine, tested, out of it early; a finding with all it may say, and the threshold of a place.
fn kept_apart(place: PlaceId, lot: LotId) -> Vec<Command> {
    let finding = FindingDraft {
        affected: Some(1),
        looked_at: Some(1),
        severity: Some(2),
        part: Some("leaf".to_owned()),
        ..FindingDraft::default()
    };
    let about = PlaceTraits {
        act_permille: Some(50),
        ..PlaceTraits::default()
    };
    vec![
        Command::RecordFinding(finding.finding(SeenOn::Lot(lot), Some("streaks"))),
        Command::EnterQuarantine(EnterQuarantine {
            lots: vec![lot],
            why: QuarantineWhy::Exposed,
            terms: usual(QuarantineWhy::Exposed, None),
            note: "beside a striped one".to_owned(),
            ..EnterQuarantine::default()
        }),
        Command::RecordTest(RecordTest {
            lot,
            method: TestMethod::Elisa,
            results: vec![
                (Virus::Cymmv, TestResult::NotDetected),
                (Virus::Orsv, TestResult::Unclear),
            ],
            tissue: Tissue::Leaf,
            pooled: 1,
            laboratory: "the county's".to_owned(),
            note: "again in a month".to_owned(),
        }),
        Command::ReleaseQuarantine {
            lot,
            early: "the bench is needed".to_owned(),
        },
        Command::SetPlace {
            place: Some(place),
            name: None,
            walk: None,
            about,
        },
    ]
}
