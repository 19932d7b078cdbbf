//! What to bring to the bench: planned and due work against what stands there; how full the benches are; what divisions
//! gave, with a bath and without; the whole line of a lot.

use velamen_core::command::{Batch, Command};
use velamen_core::event::{
    AgentClass, CutPlan, Event, LossCause, Material, MixShare, PieceClass, PlannedPieces, Potting,
    ProductCopy, Sight, Stage, TreatedPart, Way,
};
use velamen_core::id::{LotId, PlaceId};
use velamen_core::outlook::{bath_help, yields};
use velamen_core::season::{Hemisphere, Warmth};
use velamen_core::view::benches::benches;
use velamen_core::view::line::{Began, line};
use velamen_core::view::prepare::{Item, preparing};
use velamen_tests::{Phone, day, treatment};

use crate::scene::{batch, close, divide, nursery, pieces};

fn pot_called(phone: &Phone, name: &str) -> velamen_core::id::PotId {
    let pots = velamen_core::view::shed::pots(&phone.state);
    pots.iter().find(|row| row.name == name).unwrap().pot
}

pub(crate) fn plan(
    phone: &mut Phone,
    lot: LotId,
    pieces: &[(PieceClass, u32)],
    by_on: Option<&str>,
) {
    let row = |(class, plants): &(PieceClass, u32)| PlannedPieces {
        class: *class,
        plants: *plants,
        low: None,
        high: None,
    };
    let plan = CutPlan {
        way: Way::Own,
        pieces: pieces.iter().map(row).collect(),
        whole: 0,
        leads: None,
        growths: Some(18),
        size: None,
        by_on: by_on.map(day),
    };
    phone.act(Command::PlanDivision {
        lots: vec![lot],
        clump: None,
        plan: Some(plan),
    });
}

fn move_pots(phone: &mut Phone, pots: u32, from: Stage, to: Stage) {
    let pot = pot_called(phone, "17 cm");
    phone.act(Command::MoveMaterials {
        moved: vec![Material::pots_of(pot, pots)],
        from,
        to,
        apart: None,
        note: String::new(),
    });
}

#[test]
fn pots_are_set_against_clean_ones_and_those_that_wait_for_the_wash() {
    let (mut phone, bench) = nursery(Hemisphere::North, Warmth::Cool, "2027-03-11");
    let lot = phone.lot("Cymbidium lowianum", 1, bench);
    assert!(preparing(&phone.state, phone.today).work.is_empty());
    plan(
        &mut phone,
        lot,
        &[(PieceClass::Flowering, 6)],
        Some("2027-03-20"),
    );
    let list = preparing(&phone.state, phone.today);
    assert_eq!(list.work.len(), 1);
    assert_eq!(
        (list.work[0].on, list.work[0].pieces),
        (day("2027-03-20"), 6)
    );
    let pots = |list: &velamen_core::view::prepare::Preparing| {
        let pot = pot_called(&phone, "17 cm");
        let row = list.rows.iter().find(|row| row.item == Item::Pot(pot));
        let row = row.unwrap();
        (row.needed, row.ready, row.to_wash, row.short)
    };
    assert_eq!(pots(&list), (6, None, 0, None), "nobody counted any");
    move_pots(&mut phone, 2, Stage::New, Stage::Clean);
    move_pots(&mut phone, 3, Stage::Uncounted, Stage::Dirty);
    let list = preparing(&phone.state, phone.today);
    let pot = pot_called(&phone, "17 cm");
    let row = list
        .rows
        .iter()
        .find(|row| row.item == Item::Pot(pot))
        .unwrap();
    assert_eq!(
        (row.needed, row.ready, row.to_wash, row.short),
        (6, Some(2), 3, Some(1))
    );
    // Half a minute a pot, rounded up.
    assert_eq!(list.wash_minutes, 2);
    let labels = list
        .rows
        .iter()
        .find(|row| row.item == Item::Labels)
        .unwrap();
    assert_eq!(labels.needed, 6);
    assert_eq!(list.bench_cm2, 6 * 17 * 17);
    // What is planned for later than four weeks ahead is not brought yet.
    plan(
        &mut phone,
        lot,
        &[(PieceClass::Flowering, 6)],
        Some("2027-05-20"),
    );
    assert!(preparing(&phone.state, phone.today).work.is_empty());
}

#[test]
fn a_mix_is_brought_as_its_parts_and_parts_are_more_than_the_mix() {
    let (mut phone, bench) = nursery(Hemisphere::North, Warmth::Cool, "2027-03-11");
    let lot = phone.lot("Cymbidium lowianum", 1, bench);
    let mix = *phone.state.facts().mixes.keys().next().unwrap();
    let share = |component: &str, permille| MixShare {
        component: component.to_owned(),
        permille,
    };
    phone.act(Command::SetMix {
        mix: Some(mix),
        name: None,
        shares: Some(vec![share("bark_coarse", 700), share("pumice", 300)]),
        life_months: None,
        retired: None,
    });
    plan(&mut phone, lot, &[(PieceClass::Flowering, 10)], None);
    let list = preparing(&phone.state, phone.today);
    let litres = |key: &str| {
        let row = list
            .rows
            .iter()
            .find(|row| row.item == Item::Part(key.to_owned()));
        row.unwrap().needed
    };
    let (bark, pumice) = (litres("bark_coarse"), litres("pumice"));
    assert!((bark * 3 - pumice * 7).abs() < 20, "{bark} {pumice}");
    // Ten pots of 17 cm with usual layers: 1.433 L each, settling 10 %, and 7.5 % lost in mixing.
    let mix_ul = 10 * 1_433_000 * 10 / 9;
    let parts = (bark + pumice) * 925 / 1_000;
    assert!(
        (parts - mix_ul).abs() < mix_ul / 50,
        "{parts} against {mix_ul}"
    );
}

#[test]
fn work_that_is_due_without_a_plan_is_reckoned_whole() {
    let (mut phone, bench) = nursery(Hemisphere::North, Warmth::Cool, "2027-03-11");
    let lot = phone.lot("Coelogyne cristata", 2, bench);
    phone.act(Command::Observe {
        lots: vec![lot],
        what: Sight::Outgrown,
        good: None,
        note: String::new(),
    });
    phone.on("2027-03-20");
    let list = preparing(&phone.state, phone.today);
    assert_eq!(list.work.len(), 1);
    assert!(!list.work[0].planned);
    assert_eq!((list.work[0].way, list.work[0].pieces), (Way::KeepWhole, 2));
    assert!(list.minutes.low < list.minutes.middle);
}

#[test]
fn benches_are_filled_by_the_pots_own_width() {
    let (mut phone, bench) = nursery(Hemisphere::North, Warmth::Cool, "2027-03-11");
    let pot = pot_called(&phone, "17 cm");
    let lot = phone.lot("Cymbidium lowianum", 1, bench);
    let clump = phone.open_clump(&[lot]);
    phone.act(Command::TakePieces {
        clump,
        pieces: vec![pieces(PieceClass::Flowering, 12)],
    });
    phone.act(Command::PotPieces {
        clump,
        batches: vec![Batch {
            potting: Potting {
                pot: Some(pot),
                ..Potting::default()
            },
            ..batch(PieceClass::Flowering, 12, bench)
        }],
    });
    let fill = &benches(&phone.state)[0];
    assert_eq!((fill.pots, fill.unmeasured, fill.percent()), (12, 0, None));
    assert_eq!(fill.square_mm2, 12 * 170 * 170);
    area(&mut phone, bench, 10_000);
    let fill = benches(&phone.state).remove(0);
    assert_eq!(fill.percent(), Some((34, 30)));
    let more = fill.more.unwrap();
    assert_eq!((more.square, more.staggered), (22, 27));
    phone.lot("Cattleya", 3, bench);
    let fill = benches(&phone.state).remove(0);
    assert_eq!(
        (fill.pots, fill.unmeasured),
        (15, 3),
        "nobody measured those"
    );
}

fn area(phone: &mut Phone, place: PlaceId, cm2: u32) {
    phone.act(Command::SetPlace {
        place: Some(place),
        name: None,
        walk: None,
        about: velamen_core::command::PlaceTraits {
            area_cm2: Some(cm2),
            ..Default::default()
        },
    });
}

fn lose(phone: &mut Phone, lot: LotId, plants: u32, cause: LossCause) {
    phone.act(Command::LoseFromLot {
        lot,
        plants,
        stands: plants,
        cause,
        note: String::new(),
    });
}

#[test]
fn a_division_is_looked_back_at_after_a_month_a_quarter_and_a_year() {
    let (mut phone, bench) = nursery(Hemisphere::North, Warmth::Cool, "2026-03-01");
    let lot = phone.lot("Cymbidium lowianum", 1, bench);
    let lots = divide(&mut phone, lot, &[(PieceClass::BackBulb, 20)], bench);
    phone.on("2026-03-20");
    lose(&mut phone, lots[0], 2, LossCause::Rot);
    phone.on("2026-05-10");
    lose(&mut phone, lots[0], 3, LossCause::NoShoot);
    lose(&mut phone, lots[0], 1, LossCause::Missing);
    phone.on("2026-12-01");
    lose(&mut phone, lots[0], 4, LossCause::NoShoot);
    let counted = |phone: &Phone| -> Vec<(u32, u32)> {
        let rows = yields(&phone.state, None, phone.today);
        rows.first()
            .map(|row| row.after.iter().map(|it| (it.alive, it.of)).collect())
            .unwrap_or_default()
    };
    phone.on("2026-04-15");
    assert_eq!(counted(&phone)[0], (18, 20));
    assert_eq!(counted(&phone)[1], (0, 0), "not ninety days old");
    phone.on("2027-04-01");
    assert_eq!(counted(&phone), [(18, 20), (14, 19), (10, 19)]);
    let share = yields(&phone.state, None, phone.today)[0].after[1]
        .share()
        .unwrap();
    assert!(share.low < share.permille && share.permille < share.high);
}

#[test]
fn bathed_pieces_stand_beside_those_that_had_none() {
    let (mut phone, bench) = nursery(Hemisphere::North, Warmth::Cool, "2026-03-01");
    let cut = |phone: &mut Phone, plants: u32, bath: bool| -> LotId {
        let lot = phone.lot("Cymbidium lowianum", 1, bench);
        let clump = phone.open_clump(&[lot]);
        phone.act(Command::TakePieces {
            clump,
            pieces: vec![pieces(PieceClass::Starter, i32::try_from(plants).unwrap())],
        });
        if bath {
            let part = TreatedPart::Pieces {
                clump,
                class: PieceClass::Starter,
                plants,
            };
            let product = ProductCopy {
                label_name: "Grey powder".to_owned(),
                ..ProductCopy::default()
            };
            phone.act(Command::RecordTreatment(treatment(
                vec![part],
                AgentClass::Fungus,
                product,
            )));
        }
        let potted = phone.act(Command::PotPieces {
            clump,
            batches: vec![batch(PieceClass::Starter, plants, bench)],
        });
        close(phone, clump, velamen_core::event::ClosedHow::Done);
        match &potted.events[0] {
            Event::PiecesPotted(event) => event.lot,
            other => panic!("{other:?}"),
        }
    };
    let bathed = cut(&mut phone, 10, true);
    let bare = cut(&mut phone, 8, false);
    phone.on("2026-03-20");
    lose(&mut phone, bathed, 1, LossCause::Rot);
    lose(&mut phone, bare, 3, LossCause::Rot);
    assert!(
        bath_help(&phone.state, phone.today).is_empty(),
        "too early to say"
    );
    phone.on("2026-07-01");
    let rows = bath_help(&phone.state, phone.today);
    assert_eq!(rows.len(), 1);
    assert_eq!((rows[0].bathed.alive, rows[0].bathed.of), (9, 10));
    assert_eq!((rows[0].bare.alive, rows[0].bare.of), (5, 8));
}

#[test]
fn the_line_is_walked_both_ways_over_every_possible_parent() {
    let (mut phone, bench) = nursery(Hemisphere::North, Warmth::Cool, "2025-03-01");
    let first = phone.lot("Cymbidium lowianum", 1, bench);
    let second = phone.lot("Cymbidium lowianum", 1, bench);
    let stranger = phone.lot("Cattleya", 1, bench);
    let clump = phone.open_clump(&[first, second]);
    phone.act(Command::TakePieces {
        clump,
        pieces: vec![pieces(PieceClass::Starter, 2)],
    });
    let potted = phone.act(Command::PotPieces {
        clump,
        batches: vec![batch(PieceClass::Starter, 2, bench)],
    });
    let Event::PiecesPotted(event) = &potted.events[0] else {
        panic!()
    };
    let child = event.lot;
    close(&mut phone, clump, velamen_core::event::ClosedHow::Done);
    phone.on("2027-03-01");
    let grandchildren = divide(&mut phone, child, &[(PieceClass::Flowering, 1)], bench);
    phone.act(Command::Observe {
        lots: grandchildren.clone(),
        what: Sight::FirstOpen,
        good: None,
        note: String::new(),
    });
    let walked = line(&phone.state, child).unwrap();
    let steps: Vec<(LotId, i32)> = walked
        .kin
        .iter()
        .map(|kin| (kin.label.lot, kin.steps))
        .collect();
    assert_eq!(
        steps,
        [(first, -1), (second, -1), (child, 0), (grandchildren[0], 1)]
    );
    assert!(!walked.kin.iter().any(|kin| kin.label.lot == stranger));
    let here = walked.kin.iter().find(|kin| kin.steps == 0).unwrap();
    assert_eq!(here.parents, [first, second]);
    assert!(matches!(here.began, Began::Cut { parents: 2, .. }));
    let last = walked.kin.last().unwrap();
    assert_eq!(last.flowered_on, Some(day("2027-03-01")));
    // From the grandchild the walk reaches both of the oldest.
    let from_below = line(&phone.state, grandchildren[0]).unwrap();
    assert_eq!(
        from_below.kin.iter().filter(|kin| kin.steps == -2).count(),
        2
    );
}
