//! Clumps, pots on their way, baths and findings.

use velamen_core::command::{
    Command, CountedPieces, OpenDivision, ReceiveLot, RecordTreatment, Sanitise,
};
use velamen_core::event::{
    AgentClass, CutPlan, Event, Material, OpenedLot, PhotoRef, PieceClass, PlannedPieces,
    ProductCopy, SeenOn, Stage, ToolChange, TreatedPart, Way,
};
use velamen_core::finding_draft::FindingDraft;
use velamen_core::id::{LotId, TreatmentId};
use velamen_core::limits;
use velamen_core::name::PlantName;
use velamen_core::quantity::{Amount, Volume};
use velamen_core::rejection::{Input, Rejection};
use velamen_tests::{Phone, named, treatment};

use super::{Edge, bench, each, hold, many, most, of, range, received, row};

#[test]
fn what_is_done_at_the_bench() {
    let (mut phone, place, lot) = bench();
    let clump = phone.open_clump(&[lot]);
    let one = Command::ReceiveLot(ReceiveLot {
        place: Some(place),
        ..named("Cymbidium tracyanum")
    });
    let came = phone.act(Command::Together(vec![one; limits::CLUMP_LOTS_MAX + 1]));
    let lots = received(&came);
    let class = PieceClass::Starter;
    let plan = |plants| CutPlan {
        way: Way::FewLarge,
        pieces: vec![PlannedPieces {
            class,
            plants,
            low: None,
            high: None,
        }],
        whole: 0,
        leads: None,
        growths: None,
        size: None,
        by_on: None,
    };
    let planned = |plan| Command::PlanDivision {
        lots: vec![lots[0]],
        clump: None,
        plan: Some(plan),
    };
    let open = |lots: Vec<OpenedLot>, unbooked_pots| {
        Command::OpenDivision(OpenDivision {
            tray: 9,
            lots,
            unbooked_pots,
            name: PlantName::from_typed("Cymbidium tracyanum"),
            ..OpenDivision::default()
        })
    };
    let opened = |lot: &LotId| OpenedLot {
        lot: *lot,
        plants: 1,
        stands: 1,
    };
    let first = |figure| lots.iter().take(of(figure));
    let pieces = many(Input::Pieces, limits::PIECES_MAX);
    let grown = many(Input::Pots, limits::CLUMP_LOTS_MAX);
    let rows = vec![
        row(
            "TOOLS_MAX",
            most(limits::TOOLS_MAX),
            range(Input::Tools, 2, limits::TOOLS_MAX),
            |tools| Command::ConfirmHygiene {
                tool_change: ToolChange::BetweenPlants,
                tools: Some(of(tools)),
            },
        ),
        row(
            "CLUMP_LOTS_MAX, planned",
            most(limits::CLUMP_LOTS_MAX),
            grown.clone(),
            |figure| Command::PlanDivision {
                lots: first(figure).copied().collect(),
                clump: None,
                plan: Some(plan(3)),
            },
        ),
        row(
            "CLUMP_LOTS_MAX, opened",
            most(limits::CLUMP_LOTS_MAX),
            grown,
            |figure| open(first(figure).map(opened).collect(), 0),
        ),
        row(
            "PIECES_MAX, pots nobody booked",
            most(limits::PIECES_MAX),
            many(Input::Pots, limits::PIECES_MAX),
            |pots| open(Vec::new(), of(pots)),
        ),
        row(
            "PIECES_MAX, taken off",
            most(limits::PIECES_MAX),
            pieces.clone(),
            |plants| Command::TakePieces {
                clump,
                pieces: vec![CountedPieces {
                    class,
                    plants: of(plants),
                    bulbs: None,
                }],
            },
        ),
        row(
            "PIECES_MAX, planned",
            most(limits::PIECES_MAX),
            pieces.clone(),
            |plants| planned(plan(of(plants))),
        ),
        row(
            "PIECES_MAX, planned to stay whole",
            most(limits::PIECES_MAX),
            pieces,
            |whole| {
                planned(CutPlan {
                    whole: of(whole),
                    ..plan(3)
                })
            },
        ),
        row(
            "EVENTS_MAX",
            most(limits::EVENTS_MAX),
            Rejection::EntryTooLarge,
            |events| {
                Command::Together(each(events, |_| Command::CountLot {
                    lot: lots[0],
                    plants: 1,
                    stands: 1,
                }))
            },
        ),
    ];
    hold(&phone, rows);
}

#[test]
fn what_goes_through_the_wash() {
    let (phone, _, _) = bench();
    let moved = |moved| Command::MoveMaterials {
        moved,
        from: Stage::InUse,
        to: Stage::Dirty,
        apart: None,
        note: String::new(),
    };
    let sanitise = |wanted_s, contact_s| {
        Command::Sanitise(Sanitise {
            agent: "heat".to_owned(),
            wanted_s,
            contact_s,
            ..Sanitise::default()
        })
    };
    let long = range(Input::Soak, 0, limits::SOAK_S_MAX / 60);
    let soak = most(limits::SOAK_S_MAX);
    let rows = vec![
        row(
            "MOVED_MAX",
            most(limits::MOVED_MAX),
            many(Input::Pots, limits::MOVED_MAX),
            |kinds| {
                moved(each(kinds, |at| {
                    Material::pots_called(&format!("{at} cm"), 1)
                }))
            },
        ),
        row(
            "TUB_UL_MAX, stone",
            most(limits::TUB_UL_MAX),
            range(Input::Stone, 0, limits::TUB_UL_MAX / 1_000_000),
            |ul| moved(vec![Material::stone(ul)]),
        ),
        row("SOAK_S_MAX, wanted", soak, long.clone(), |s| {
            sanitise(Some(of(s)), None)
        }),
        row("SOAK_S_MAX, lain", soak, long, |s| {
            sanitise(None, Some(of(s)))
        }),
    ];
    hold(&phone, rows);
}

fn dipped(lot: LotId) -> RecordTreatment {
    let copy = ProductCopy {
        label_name: "Thirty".to_owned(),
        ..ProductCopy::default()
    };
    treatment(
        vec![TreatedPart::Lot { lot, plants: 1 }],
        AgentClass::Fungus,
        copy,
    )
}

fn bath(phone: &mut Phone, lot: LotId) -> TreatmentId {
    match phone.act(Command::RecordTreatment(dipped(lot))).events[0] {
        Event::Treated(ref it) => it.treatment,
        ref other => panic!("{other:?}"),
    }
}

#[test]
fn what_is_seen_and_what_is_treated() {
    let (mut phone, _, lot) = bench();
    let bath = bath(&mut phone, lot);
    let long = range(Input::Soak, 0, limits::SOAK_S_MAX / 60);
    let soak = most(limits::SOAK_S_MAX);
    let tub = |least| range(Input::Water, least, limits::TUB_UL_MAX / 1_000_000);
    let volume = |ul| Amount::Volume(Volume::from_ul(ul));
    let top_up = |water, amount| Command::TopUpBath {
        bath,
        water: Volume::from_ul(water),
        amount: volume(amount),
        container: None,
    };
    let end = |left| Command::EndBath {
        bath,
        left: Some(Volume::from_ul(left)),
        disposal: String::new(),
    };
    let rows = vec![
        row("SOAK_S_MAX, wanted", soak, long.clone(), |s| {
            Command::RecordTreatment(RecordTreatment {
                soak_s: Some(of(s)),
                ..dipped(lot)
            })
        }),
        row("SOAK_S_MAX, lain", soak, long, |s| {
            Command::RecordTreatment(RecordTreatment {
                soaked_s: Some(of(s)),
                ..dipped(lot)
            })
        }),
        row(
            "TUB_UL_MAX, topped up",
            most(limits::TUB_UL_MAX),
            tub(1),
            |ul| top_up(ul, 1),
        ),
        row("topped up, the least", Edge::Least(1), tub(1), |ul| {
            top_up(ul, 1)
        }),
        row(
            "CONTAINER_MAX, topped up",
            most(limits::CONTAINER_MAX),
            range(Input::Container, 0, limits::CONTAINER_MAX / 1_000_000),
            |ul| top_up(1, ul),
        ),
        row("TUB_UL_MAX, left", most(limits::TUB_UL_MAX), tub(0), end),
        row("left, the least", Edge::Least(0), tub(0), end),
        row(
            "PHOTOS_MAX",
            most(limits::PHOTOS_MAX),
            many(Input::Photo, limits::PHOTOS_MAX),
            |photos| {
                let photo = |at: i64| PhotoRef::of(&at.to_be_bytes(), "image/jpeg").unwrap();
                let draft = FindingDraft {
                    photos: each(photos, photo),
                    ..FindingDraft::default()
                };
                Command::RecordFinding(draft.finding(SeenOn::Lot(lot), Some("leaf_spots")))
            },
        ),
    ];
    hold(&phone, rows);
}
