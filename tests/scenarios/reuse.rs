//! Pots and stone that went from plants to plants: a case drawn by hand, and where bags, loads, baths and bottles went.

use std::collections::{BTreeMap, BTreeSet};

use velamen_core::command::{Batch, Command, CountedPieces, RecordTreatment, Sanitise};
use velamen_core::event::*;
use velamen_core::id::{LotId, PotId, Subject};
use velamen_core::season::{Hemisphere, Warmth};
use velamen_core::state::MaterialKind;
use velamen_core::trace::{self, How, Met, Rank, Thing, Went, Why};
use velamen_tests::{Phone, named, treatment};

use crate::scene::nursery;
use crate::traces::Told;

/// The first kind of pot in the book.
pub(crate) fn a_pot(phone: &Phone) -> PotId {
    *phone.state.facts().pots.keys().next().unwrap()
}

pub(crate) fn in_pots(pot: PotId) -> Potting {
    Potting {
        pot: Some(pot),
        stone_ul: 100_000,
        ..Potting::default()
    }
}

pub(crate) fn move_on(
    phone: &mut Phone,
    moved: Material,
    (from, to): (Stage, Stage),
    apart: Option<Subject>,
) {
    phone.act(Command::MoveMaterials {
        moved: vec![moved],
        from,
        to,
        apart,
        note: String::new(),
    });
}

pub(crate) fn disinfect(
    phone: &mut Phone,
    agent: &str,
    materials: Vec<Material>,
    apart: Option<Subject>,
) {
    let stone = materials.iter().any(Material::is_stone);
    phone.act(Command::Sanitise(Sanitise {
        what: if stone { Object::Stone } else { Object::Pots },
        materials,
        agent: agent.to_owned(),
        strength_ppm: Some(5_000),
        contact_s: Some(3_600),
        cleaned_first: true,
        apart,
        ..Sanitise::default()
    }));
}

fn potted_lot(phone: &mut Phone, plants: u32, potting: Potting) -> LotId {
    let lot = velamen_core::command::ReceiveLot {
        plants,
        stands: plants,
        potting,
        potted_on: Some(phone.today),
        ..named("Cymbidium")
    };
    phone.receive(lot)
}

fn repotted(phone: &mut Phone, lot: LotId, stands: u32, potting: Potting) {
    phone.act(Command::RepotLot {
        lot,
        stands,
        potting,
        class: None,
    });
}

/// Cuts a whole lot into so many pieces, potted without a pot; its own pots are emptied.
fn cut(phone: &mut Phone, lot: LotId, dirty_pots: u32) -> LotId {
    let clump = phone.open_clump(&[lot]);
    let class = PieceClass::Starter;
    phone.act(Command::TakePieces {
        clump,
        pieces: vec![CountedPieces {
            class,
            plants: 2,
            bulbs: None,
        }],
    });
    let done = phone.act(Command::PotPieces {
        clump,
        batches: vec![Batch {
            class,
            code: None,
            name: None,
            plants: 2,
            stands: 2,
            with: None,
            potting: Potting::default(),
            place: None,
        }],
    });
    phone.act(Command::CloseDivision {
        clump,
        how: ClosedHow::Done,
        dirty_pots,
        note: String::new(),
    });
    match &done.events[0] {
        Event::PiecesPotted(it) => it.lot,
        other => panic!("{other:?}"),
    }
}

/// How three emptied pots get clean again.
#[derive(Clone, Copy, Debug, PartialEq)]
enum Wash {
    Only,
    Chlorine,
    Heat,
    ThrownAway,
}

/// Drawn by hand. Two new clean pots. A is cut and empties three pots; they are washed, and treated as said. B is potted
/// into two of the five, C into the three that are left; D into pots bought once those five were used up.
fn by_pots(wash: Wash) -> BTreeMap<&'static str, Option<(u16, Rank)>> {
    let (mut phone, _) = nursery(Hemisphere::North, Warmth::Cool, "2027-03-01");
    let pot = a_pot(&phone);
    let pots = |n| Material::pots_of(pot, n);
    move_on(&mut phone, pots(2), (Stage::New, Stage::Clean), None);
    let potting = Potting {
        stone_ul: 0,
        ..in_pots(pot)
    };
    let a = potted_lot(&mut phone, 3, potting.clone());
    let [b, c, d] = [2, 3, 1].map(|n| potted_lot(&mut phone, n, Potting::default()));
    cut(&mut phone, a, 3);
    move_on(&mut phone, pots(3), (Stage::Dirty, Stage::Washed), None);
    match wash {
        Wash::Only => move_on(&mut phone, pots(3), (Stage::Washed, Stage::Clean), None),
        Wash::Chlorine | Wash::Heat => {
            let agent = if wash == Wash::Heat {
                "oven"
            } else {
                "chlorine"
            };
            disinfect(&mut phone, agent, vec![pots(3)], None);
            let dry = (Stage::Disinfected, Stage::Clean);
            move_on(&mut phone, pots(3), dry, None);
        }
        Wash::ThrownAway => {
            move_on(&mut phone, pots(3), (Stage::Washed, Stage::Discarded), None);
            move_on(&mut phone, pots(3), (Stage::New, Stage::Clean), None);
        }
    }
    repotted(&mut phone, b, 2, potting.clone());
    repotted(&mut phone, c, 3, potting.clone());
    move_on(&mut phone, pots(1), (Stage::New, Stage::Clean), None);
    repotted(&mut phone, d, 1, potting);
    let risks = trace::at_risk(&phone.state, a);
    let at = |lot: LotId| {
        let risk = risks.iter().find(|risk| risk.lot == lot);
        risk.map(|risk| (risk.cost, risk.rank))
    };
    BTreeMap::from([("B", at(b)), ("C", at(c)), ("D", at(d))])
}

#[test]
fn pots_of_a_suspect_clump_are_followed_through_the_wash_until_the_pile_is_used_up() {
    let both = |cost, rank| {
        BTreeMap::from([
            ("B", Some((cost, rank))),
            ("C", Some((cost, rank))),
            ("D", None),
        ])
    };
    assert_eq!(by_pots(Wash::Only), both(4, Rank::Likely));
    assert_eq!(by_pots(Wash::Chlorine), both(7, Rank::Possible));
    let nobody = BTreeMap::from([("B", None), ("C", None), ("D", None)]);
    assert_eq!(
        by_pots(Wash::Heat),
        nobody,
        "heat rids them of both viruses"
    );
    assert_eq!(by_pots(Wash::ThrownAway), nobody);
}

#[test]
fn stone_is_followed_like_pots_and_the_way_says_so() {
    let (mut phone, _) = nursery(Hemisphere::North, Warmth::Cool, "2027-03-01");
    let pot = a_pot(&phone);
    let layers = velamen_core::potting::Layers {
        stone: velamen_core::quantity::Length::from_mm(20),
        ..velamen_core::potting::Layers::default()
    };
    let potting = Potting {
        layers,
        ..in_pots(pot)
    };
    // From here on stone is counted.
    let litre = Material::stone(1_000_000);
    move_on(&mut phone, litre, (Stage::New, Stage::Clean), None);
    let a = potted_lot(&mut phone, 2, potting.clone());
    let b = potted_lot(&mut phone, 1, Potting::default());
    repotted(&mut phone, a, 2, Potting::default());
    let kind = MaterialKind::Stone;
    let dirty = phone
        .state
        .facts()
        .book
        .materials
        .at(None, &kind, Stage::Dirty);
    assert!(dirty > 0, "its stone lies in the wash");
    for stages in [(Stage::Dirty, Stage::Washed), (Stage::Washed, Stage::Clean)] {
        move_on(&mut phone, Material::stone(dirty), stages, None);
    }
    repotted(&mut phone, b, 1, potting);
    let risks = trace::at_risk(&phone.state, a);
    let risk = risks.iter().find(|risk| risk.lot == b).expect("at risk");
    let way: Vec<Why> = risk.path.iter().map(|step| step.why.clone()).collect();
    let again = Why::UsedAgain {
        stone: true,
        disinfected: false,
    };
    assert_eq!(way, [Why::Emptied, again]);
}

#[test]
fn a_bag_of_bark_goes_with_a_part_and_is_over_when_the_lot_is_potted_anew() {
    let (mut phone, _) = nursery(Hemisphere::North, Warmth::Cool, "2027-03-01");
    let of = |bag: &str| Potting {
        mix_batch: bag.to_owned(),
        ..Potting::default()
    };
    let a = potted_lot(&mut phone, 4, of("March bark"));
    let b = potted_lot(&mut phone, 2, of(" March bark "));
    let done = phone.act(Command::SplitLot {
        from: a,
        plants: 1,
        stands: 1,
        place: None,
        why: SplitWhy::Sorted,
    });
    let Event::LotSplit(it) = &done.events[0] else {
        panic!("not split")
    };
    let part = it.lot;
    repotted(&mut phone, a, 3, of("April bark"));
    let bag = Thing::MixBatch("March bark".to_owned());
    let rows: Vec<(Met, How, bool)> = trace::went(&phone.state, &bag)
        .into_iter()
        .map(|it| (it.met, it.how, it.still))
        .collect();
    let expected = [
        (Met::Lot(a), How::Potted, false),
        (Met::Lot(b), How::Potted, true),
        (Met::Lot(part), How::PartOf(a), true),
    ];
    assert_eq!(rows, expected);
    let april = Thing::MixBatch("April bark".to_owned());
    assert_eq!(trace::things(&phone.state), [april, bag]);
}

#[test]
fn what_is_potted_comes_out_of_the_bag_that_is_open_until_another_is() {
    let (mut phone, _) = nursery(Hemisphere::North, Warmth::Cool, "2027-03-01");
    let mix = *phone.state.facts().mixes.keys().next().unwrap();
    let open = |phone: &mut Phone, bag: &str| {
        phone.act(Command::SetBook(BookSet {
            mix_open: Some(MixOpen {
                mix,
                batch: bag.to_owned(),
            }),
            stone_open: Some("River load".to_owned()),
            ..BookSet::default()
        }));
    };
    let potting = Potting {
        mix: Some(mix),
        stone_ul: 1_000,
        ..Potting::default()
    };
    let lots: Vec<LotId> = (0..3)
        .map(|_| potted_lot(&mut phone, 1, Potting::default()))
        .collect();
    repotted(&mut phone, lots[0], 1, potting.clone());
    open(&mut phone, "March bark");
    repotted(&mut phone, lots[1], 1, potting.clone());
    let own = Potting {
        mix_batch: "left over".to_owned(),
        ..potting.clone()
    };
    repotted(&mut phone, lots[2], 1, own);
    open(&mut phone, "");
    let went = |name: &str| {
        let rows = trace::went(&phone.state, &Thing::MixBatch(name.to_owned()));
        rows.iter().map(|row| row.met).collect::<Vec<_>>()
    };
    assert_eq!(went("March bark"), [Met::Lot(lots[1])]);
    assert_eq!(went("left over"), [Met::Lot(lots[2])]);
    let stone = trace::went(&phone.state, &Thing::StoneBatch("River load".to_owned()));
    assert_eq!(stone.len(), 2);
    repotted(&mut phone, lots[0], 1, potting);
    let known = &phone.state.facts().lots[&lots[0]].potted;
    assert_eq!(known.as_ref().unwrap().potting.mix_batch, "");
}

#[test]
fn a_load_of_stone_is_followed_into_what_it_may_have_gone_to_again() {
    let (mut phone, _) = nursery(Hemisphere::North, Warmth::Cool, "2027-03-01");
    let pot = a_pot(&phone);
    let layers = velamen_core::potting::Layers {
        stone: velamen_core::quantity::Length::from_mm(20),
        ..velamen_core::potting::Layers::default()
    };
    let potting = |load: &str| Potting {
        layers,
        stone_batch: load.to_owned(),
        ..in_pots(pot)
    };
    let start = Material::stone(10_000);
    move_on(&mut phone, start, (Stage::New, Stage::Clean), None);
    let a = potted_lot(&mut phone, 2, potting("River load"));
    let b = potted_lot(&mut phone, 1, Potting::default());
    let c = potted_lot(&mut phone, 1, Potting::default());
    repotted(&mut phone, c, 1, potting(""));
    repotted(&mut phone, a, 2, Potting::default());
    let dirty = |phone: &Phone| {
        let materials = &phone.state.facts().book.materials;
        materials.at(None, &MaterialKind::Stone, Stage::Dirty)
    };
    for stages in [(Stage::Dirty, Stage::Washed), (Stage::Washed, Stage::Clean)] {
        let all = dirty(&phone).max(phone.state.facts().book.materials.at(
            None,
            &MaterialKind::Stone,
            Stage::Washed,
        ));
        move_on(&mut phone, Material::stone(all), stages, None);
    }
    repotted(&mut phone, b, 1, potting(""));
    let went = trace::went(&phone.state, &Thing::StoneBatch("River load".to_owned()));
    let rows: Vec<(Met, How, bool)> = went.iter().map(|it| (it.met, it.how, it.still)).collect();
    // C was potted before A's stone came back.
    let expected = [
        (Met::Lot(a), How::Potted, false),
        (Met::Lot(b), How::UsedAgain, true),
    ];
    assert_eq!(rows, expected);
}

#[test]
fn a_bottle_is_followed_over_all_its_treatments_and_to_places_as_a_whole() {
    let (mut phone, house) = nursery(Hemisphere::North, Warmth::Cool, "2027-03-01");
    let lots: Vec<LotId> = (0..3).map(|_| phone.lot("Cymbidium", 2, house)).collect();
    let product = |batch: &str| ProductCopy {
        label_name: "Soap".to_owned(),
        batch: batch.to_owned(),
        ..ProductCopy::default()
    };
    let part = |lot: &LotId| TreatedPart::Lot {
        lot: *lot,
        plants: 1,
    };
    for (method, lot, batch) in [
        (Method::Bath, 0, "L 7"),
        (Method::Drench, 1, "L 7"),
        (Method::Bath, 2, "L 8"),
    ] {
        let parts = vec![part(&lots[lot])];
        phone.act(Command::RecordTreatment(RecordTreatment {
            method,
            ..treatment(parts, AgentClass::Insect, product(batch))
        }));
    }
    phone.act(Command::RecordTreatment(RecordTreatment {
        method: Method::Spray,
        place: Some(house),
        ..treatment(Vec::new(), AgentClass::Insect, product("L 7"))
    }));
    let bottle = Thing::ProductBatch {
        name: "Soap".to_owned(),
        batch: "L 7".to_owned(),
    };
    let met: Vec<Met> = trace::went(&phone.state, &bottle)
        .iter()
        .map(|row: &Went| row.met)
        .collect();
    assert_eq!(
        met,
        [Met::Lot(lots[0]), Met::Lot(lots[1]), Met::Place(house)]
    );
}

/// Where one pot, or one stone, of what came off in that move may be; told step by step for the naive search.
type Spots = BTreeSet<(Option<Subject>, Stage, bool)>;

/// Lots that may have been potted into what came off in the row `row` of the move told at `at`, and whether it was
/// disinfected in between: every choice of which pots are taken is tried, for one pot at a time.
pub(crate) fn turns_up(told: &[Told], at: usize, row: usize) -> Vec<(LotId, usize, bool)> {
    let Event::MaterialsMoved(off) = &told[at].event else {
        panic!("not a move")
    };
    let (kind, _) = MaterialKind::of(&off.moved[row]);
    let mut spots: Spots = BTreeSet::from([(off.apart, Stage::Dirty, false)]);
    let mut out = Vec::new();
    for now in at + 1..told.len() {
        let Event::MaterialsMoved(it) = &told[now].event else {
            continue;
        };
        let here = it.moved.iter().map(MaterialKind::of);
        let Some((_, amount)) = here.into_iter().find(|(of, _)| *of == kind) else {
            continue;
        };
        let together = |other: &&Told| other.order == told[now].order;
        let heat = told[..now].iter().filter(together).any(|other| {
            matches!(&other.event, Event::Sanitised(it) if it.agent == "oven" || it.agent == "boiled")
        });
        let lies_at = |stage: Stage| it.apart.filter(|_| stage != Stage::Clean);
        let lay = amount_at(&told[..now], &kind, lies_at(it.from), it.from);
        for (apart, stage, disinfected) in spots.clone() {
            if stage != it.from || apart != lies_at(it.from) {
                continue;
            }
            if amount >= lay {
                spots.remove(&(apart, stage, disinfected));
            }
            let bath = it.from == Stage::Washed && it.to == Stage::Disinfected;
            if it.to == Stage::InUse {
                let potted = told[..now].iter().filter(together);
                out.extend(potted.filter_map(|other| {
                    let (lot, potting) = match &other.event {
                        Event::PiecesPotted(it) => (it.lot, &it.potting),
                        Event::Repotted(it) => (it.lot, &it.potting),
                        _ => return None,
                    };
                    let into = match kind {
                        MaterialKind::Pot(pot) => potting.pot == Some(pot),
                        MaterialKind::Named(_) => false,
                        MaterialKind::Stone => potting.stone_ul > 0,
                    };
                    into.then_some((lot, now, disinfected))
                }));
            } else if it.to.is_counted() && !(bath && heat) {
                spots.insert((lies_at(it.to), it.to, disinfected || bath));
            }
        }
    }
    out
}

fn amount_at(told: &[Told], kind: &MaterialKind, apart: Option<Subject>, stage: Stage) -> i64 {
    let moves = told.iter().filter_map(|told| match &told.event {
        Event::MaterialsMoved(it) => Some(it),
        _ => None,
    });
    let mut sum = 0;
    for it in moves {
        let of_kind = it.moved.iter().map(MaterialKind::of);
        for (_, amount) in of_kind.filter(|(of, _)| of == kind) {
            let lies_at = |at: Stage| it.apart.filter(|_| at != Stage::Clean);
            if it.from == stage && lies_at(stage) == apart {
                sum -= amount;
            }
            if it.to == stage && lies_at(stage) == apart {
                sum += amount;
            }
        }
    }
    sum
}
