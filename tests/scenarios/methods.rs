//! Drench, spray, swab and dust from the label to the record, and what each way binds until when.
//!
//! Areas and pots here are for tests alone; the volumes of pots are held against a published drench guideline.

use velamen_core::apply::{
    Aired, ApplyDraft, ApplyFault, Measured, MixFault, Mixing, WaterDraft, WaterFault,
};
use velamen_core::bath::{BathDraft, TubDraft};
use velamen_core::command::{Batch, Command, CountedPieces, OpenDivision};
use velamen_core::draft as kept;
use velamen_core::event::{
    AgentClass, Airing, ClosedHow, Cover, Event, LabelUse, Method, OpenedLot, PieceClass, Potting,
    SplitWhy, TreatedPart,
};
use velamen_core::id::{ClumpId, LotId, PlaceId};
use velamen_core::quantity::{Amount, Mass, QuantityError, Volume};
use velamen_core::season::Warmth;
use velamen_core::view::reentry::{BoundWhat, bound, bound_in_short, bound_lot};
use velamen_tests::{Phone, day, named};

use crate::chemistry::{draft, nursery, product, ready, roofed, spray_on, treated, use_of};

const HOUR_MS: i64 = 3_600_000;

/// A lot in pots of that inside width and height, in millimetres.
fn potted(phone: &mut Phone, place: PlaceId, top: u32, base: u32, height: u32, pots: u32) -> LotId {
    let pot = phone.act(Command::SetPot {
        pot: None,
        name: Some(format!("{top} mm")),
        form: Some(velamen_core::potting::Pot::Round {
            top: velamen_core::quantity::Length::from_mm(top),
            base: velamen_core::quantity::Length::from_mm(base),
            height: velamen_core::quantity::Length::from_mm(height),
        }),
        retired: None,
    });
    let Some(Event::PotSet(set)) = pot.events.first() else {
        panic!("{:?}", pot.events)
    };
    let pot = set.pot;
    phone.receive(velamen_core::command::ReceiveLot {
        plants: pots,
        stands: pots,
        place: Some(place),
        potting: Potting {
            pot: Some(pot),
            ..Potting::default()
        },
        potted_on: Some(day("2027-03-01")),
        ..named("Cymbidium tracyanum")
    })
}

#[test]
fn a_drench_takes_an_eighth_of_every_pot_and_is_held_against_a_published_guideline() {
    // GPN, Runkle: 59 mL for a pot of 10 cm, 89 mL for 12.5 cm, 118 mL for 15 cm, by width alone, in moist peat. An eighth
    // of a pot grows with its height too: 62 and 114 mL are near, 185 mL for a deep pot of 15 cm is half as much again.
    for (top, base, height, published, most_off) in [
        (100, 70, 85, 59, 20),
        (125, 90, 100, 89, 35),
        (150, 105, 115, 118, 60),
    ] {
        let (mut phone, place) = nursery();
        let id = product(
            &mut phone,
            "A",
            &["propamocarb"],
            vec![use_of(&[Method::Drench], "2 mL/L")],
        );
        let lot = potted(&mut phone, place, top, base, height, 10);
        let draft = draft(Method::Drench, id, AgentClass::WaterMould, &[lot]);
        let each = draft.drenched(&phone.state).expect("read").water.ul() / 10_000;
        let off = (each - published).abs() * 100 / published;
        assert!(off <= most_off, "{each} mL against {published} mL");
        let Ok(Measured::Mixed(mixture)) = ready(&draft, &phone) else {
            panic!("{:?}", ready(&draft, &phone))
        };
        assert_eq!(
            mixture.amount,
            Amount::Volume(Volume::from_ul((mixture.water.ul() * 2 + 500) / 1_000))
        );
    }
}

#[test]
fn a_drench_of_pots_nobody_measured_asks_for_the_amount_of_each() {
    let (mut phone, place) = nursery();
    let lot = phone.lot("Cymbidium tracyanum", 6, place);
    let id = product(
        &mut phone,
        "A",
        &["propamocarb"],
        vec![use_of(&[Method::Drench], "2 mL/L")],
    );
    let mut draft = draft(Method::Drench, id, AgentClass::WaterMould, &[lot]);
    let pots = u32::try_from(phone.state.facts().lots[&lot].stands).expect("pots");
    assert_eq!(
        ready(&draft, &phone),
        Err(ApplyFault::Water(WaterFault::NoPotVolume { pots }))
    );
    draft.water.per_pot = "abc".to_owned();
    assert!(matches!(
        ready(&draft, &phone),
        Err(ApplyFault::Water(WaterFault::Unreadable(_)))
    ));
    draft.water.per_pot = "100".to_owned();
    let done = treated(&mut phone, &draft).remove(0);
    let water = i64::from(pots) * 100_000;
    assert_eq!(done.water_ul, Some(water));
    assert_eq!(done.amount_ul, Some(water / 500));
    assert_eq!((done.method, done.soak_s), (Method::Drench, None));
}

#[test]
fn a_spray_is_for_every_lot_of_the_place_but_the_exceptions_and_binds_the_place() {
    let (mut phone, elsewhere) = nursery();
    let place = roofed(&mut phone, Cover::Roofed, Some(40_000));
    let lots = [
        phone.lot("Cymbidium tracyanum", 3, place),
        phone.lot("Coelogyne cristata", 2, place),
        phone.lot("Lycaste aromatica", 5, place),
    ];
    let out = phone.lot("Cymbidium lowianum", 4, elsewhere);
    let id = product(
        &mut phone,
        "A",
        &["triforine"],
        vec![use_of(&[Method::Spray], "1 mL/L")],
    );
    let mut draft = draft(Method::Spray, id, AgentClass::Fungus, &[]);
    draft.switch_place(place);
    draft.switch_left_out(lots[1]);
    assert_eq!(
        ready(&draft, &phone),
        Err(ApplyFault::Water(WaterFault::Missing))
    );
    draft.water.by_area = true;
    assert_eq!(ready(&draft, &phone), Err(ApplyFault::AiringNotSaid));
    draft.aired = Aired::By(Airing::Fans);
    assert!(ready(&draft, &phone).is_ok());
    draft.begin(phone.now_ms);
    // As the phone keeps it and reads it again.
    let text = kept::write(&draft);
    let draft: ApplyDraft = kept::read(&text).expect("read again");
    phone.wait_min(30);
    let done = treated(&mut phone, &draft).remove(0);
    assert_eq!(
        done.parts,
        [(lots[0], 3), (lots[2], 5)].map(|(lot, plants)| TreatedPart::Lot { lot, plants })
    );
    // Own arithmetic: 4 m2 at 150 mL are 600 mL, at 1 mL/L 0.6 mL of product.
    assert_eq!((done.water_ul, done.amount_ul), (Some(600_000), Some(600)));
    assert_eq!(done.airing, Some(Airing::Fans));
    assert_eq!(
        done.ended_ms.zip(done.started_ms).map(|(a, b)| a - b),
        Some(30 * 60_000)
    );
    let until = done.ended_ms.expect("an end") + 12 * HOUR_MS;
    assert_eq!(
        done.until_ms,
        Some(until),
        "the label's 12 h outlast 2 h of fans"
    );
    let what = |rows: Vec<velamen_core::view::reentry::Bound>| {
        rows.into_iter().map(|row| row.what).collect::<Vec<_>>()
    };
    assert_eq!(
        what(bound_in_short(&phone.state, phone.now_ms)),
        [BoundWhat::Place(place)],
        "one line says it for all that stands there"
    );
    let of =
        |phone: &Phone, lot| bound_lot(&phone.state, lot, phone.now_ms).map(|one| one.until_ms);
    assert_eq!(
        of(&phone, lots[1]),
        Some(until),
        "left out, but it stands in there"
    );
    assert_eq!(of(&phone, out), None);
    phone.act(Command::MoveLot {
        lot: lots[1],
        to: elsewhere,
    });
    assert_eq!(of(&phone, lots[1]), None, "it never had any of it");
    phone.act(Command::MoveLot {
        lot: lots[0],
        to: elsewhere,
    });
    assert_eq!(
        of(&phone, lots[0]),
        Some(until),
        "what was sprayed stays wet elsewhere too"
    );
    assert_eq!(bound(&phone.state, until), []);
}

#[test]
fn airing_outlasts_a_short_label_and_is_not_asked_out_of_doors() {
    let (mut phone, _) = nursery();
    let inside = roofed(&mut phone, Cover::Roofed, None);
    let outside = roofed(&mut phone, Cover::OpenToRain, None);
    let short = LabelUse {
        reentry_h: Some(1),
        ..use_of(&[Method::Spray], "1 mL/L")
    };
    let id = product(&mut phone, "A", &["triforine"], vec![short.clone()]);
    let strict = LabelUse {
        airing: true,
        ..short
    };
    let strict = product(&mut phone, "B", &["triforine"], vec![strict]);
    phone.lot("Cymbidium tracyanum", 3, inside);
    phone.lot("Cymbidium tracyanum", 3, outside);
    let spray = |id, place, aired| ApplyDraft {
        place: Some(place),
        aired,
        water: WaterDraft {
            litres: "2 L".to_owned(),
            ..WaterDraft::default()
        },
        ..draft(Method::Spray, id, AgentClass::Fungus, &[])
    };
    let hours = |draft: &ApplyDraft| draft.until_ms(&phone.state, 0).map(|ms| ms / HOUR_MS);
    for (how, wanted) in [(Airing::Fans, 2), (Airing::Vents, 4), (Airing::Shut, 24)] {
        assert_eq!(hours(&spray(id, inside, Aired::By(how))), Some(wanted));
        assert_eq!(
            hours(&spray(id, outside, Aired::By(how))),
            Some(1),
            "no roof"
        );
        assert_eq!(hours(&spray(strict, outside, Aired::By(how))), Some(wanted));
    }
    assert!(ready(&spray(id, inside, Aired::NotCalledFor), &phone).is_ok());
    assert!(ready(&spray(id, outside, Aired::NotSaid), &phone).is_ok());
    assert_eq!(
        ready(&spray(strict, inside, Aired::NotCalledFor), &phone),
        Err(ApplyFault::AiringNotSaid),
        "the label calls for it"
    );
}

#[test]
fn a_rate_by_area_is_measured_on_the_area_of_the_place_and_never_above_the_label() {
    let (mut phone, _) = nursery();
    let place = roofed(&mut phone, Cover::OpenToRain, Some(25_000));
    let bare = roofed(&mut phone, Cover::OpenToRain, None);
    phone.lot("Cymbidium tracyanum", 3, place);
    phone.lot("Cymbidium tracyanum", 3, bare);
    let id = product(
        &mut phone,
        "A",
        &["triforine"],
        vec![use_of(&[Method::Spray], "2 mL/m2")],
    );
    let mut spray = ApplyDraft {
        place: Some(place),
        water: WaterDraft {
            litres: "1".to_owned(),
            ..WaterDraft::default()
        },
        ..draft(Method::Spray, id, AgentClass::Fungus, &[])
    };
    let Ok(Measured::Mixed(mixture)) = ready(&spray, &phone) else {
        panic!("{:?}", ready(&spray, &phone))
    };
    assert_eq!(mixture.amount, Amount::Volume(Volume::from_ul(5_000)));
    spray.mixing.rate = "2.1 mL/m2".to_owned();
    assert!(matches!(
        ready(&spray, &phone),
        Err(ApplyFault::Mix(MixFault::AboveLabel { .. }))
    ));
    spray.mixing.rate.clear();
    spray.place = Some(bare);
    assert_eq!(
        ready(&spray, &phone),
        Err(ApplyFault::Mix(MixFault::RateByArea))
    );
}

#[test]
fn a_swab_takes_a_cup_or_the_bottle_as_it_is_and_dust_takes_grams() {
    let (mut phone, place) = nursery();
    let lot = phone.lot("Cymbidium tracyanum", 3, place);
    let soap = product(
        &mut phone,
        "Soap",
        &["potassium salts of fatty acids"],
        vec![use_of(&[Method::Swab], "20 mL/L")],
    );
    let mut swab = draft(Method::Swab, soap, AgentClass::Insect, &[lot]);
    assert_eq!(
        ready(&swab, &phone)
            .map(|one| matches!(one, Measured::Mixed(mix) if mix.water.ul() == 100_000)),
        Ok(true),
        "the small cup"
    );
    swab.water.cup = "0".to_owned();
    assert_eq!(
        ready(&swab, &phone),
        Err(ApplyFault::Water(WaterFault::Nothing))
    );
    swab.water.cup = "30".to_owned();
    swab.water.neat = true;
    let done = treated(&mut phone, &swab).remove(0);
    assert_eq!((done.amount_ul, done.water_ul), (Some(30_000), None));

    let sulfur = product(
        &mut phone,
        "Sulfur",
        &["sulfur"],
        vec![use_of(&[Method::DustCut], "")],
    );
    let mut dust = draft(Method::DustCut, sulfur, AgentClass::Fungus, &[lot]);
    assert_eq!(
        ready(&dust, &phone),
        Err(ApplyFault::Water(WaterFault::Missing))
    );
    dust.water.grams = "2 mL".to_owned();
    assert!(matches!(
        ready(&dust, &phone),
        Err(ApplyFault::Water(WaterFault::Unreadable(
            QuantityError::WrongUnit { .. }
        )))
    ));
    dust.water.grams = "1,5".to_owned();
    assert_eq!(
        ready(&dust, &phone),
        Ok(Measured::AsItIs(Amount::Mass(Mass::from_mg(1_500))))
    );
    let done = treated(&mut phone, &dust).remove(0);
    assert_eq!((done.amount_mg, done.water_ul), (Some(1_500), None));
}

#[test]
fn a_label_silent_on_the_method_holds_it_for_every_method() {
    let (mut phone, place) = nursery();
    let lot = phone.lot("Cymbidium tracyanum", 3, place);
    let dip = product(
        &mut phone,
        "A",
        &["triforine"],
        vec![use_of(&[Method::Bath], "1 mL/L")],
    );
    for method in ApplyDraft::METHODS {
        let mut silent = draft(method, dip, AgentClass::Fungus, &[lot]);
        silent.water = WaterDraft {
            litres: "1".to_owned(),
            per_pot: "50".to_owned(),
            grams: "1".to_owned(),
            ..WaterDraft::default()
        };
        assert_eq!(
            ready(&silent, &phone),
            Err(ApplyFault::Mix(MixFault::NoReason)),
            "{method:?}"
        );
        silent.mixing.reason = "Asked the maker.".to_owned();
        assert!(ready(&silent, &phone).is_ok(), "{method:?}");
        assert_eq!(
            treated(&mut phone, &silent).remove(0).reason,
            "Asked the maker."
        );
        phone.on("2027-06-20");
        phone.today = day("2027-06-20");
    }
    assert_eq!(
        ready(&draft(Method::Spray, dip, AgentClass::Fungus, &[]), &phone),
        Err(ApplyFault::NothingTreated)
    );
    assert_eq!(
        ready(&ApplyDraft::default(), &phone),
        Err(ApplyFault::NoMethod)
    );
}

#[test]
fn a_dip_binds_the_pieces_and_follows_them_and_leaves_the_place_free() {
    let (mut phone, place) = nursery();
    let elsewhere = phone.place("Bench", Warmth::Cool);
    let lot = phone.lot("Cymbidium tracyanum", 4, place);
    let beside = phone.lot("Coelogyne cristata", 2, place);
    let id = product(
        &mut phone,
        "A",
        &["triforine"],
        vec![use_of(&[Method::Bath], "1 mL/L")],
    );
    let mut bath = BathDraft {
        mixing: Mixing {
            product: Some(id),
            against: Some(AgentClass::Fungus),
            ..Mixing::default()
        },
        soak_s: Some(300),
        tub: TubDraft {
            litres: "10".to_owned(),
            ..TubDraft::default()
        },
        lots: vec![lot],
        ..BathDraft::default()
    };
    bath.start(&phone.state, phone.now_ms).expect("in the tub");
    let record = bath.record(&phone.state, phone.now_ms);
    phone.act(record.expect("a record"));
    phone.wait_min(5);
    let part = phone.act(Command::SplitLot {
        from: lot,
        plants: 1,
        stands: 1,
        place: Some(elsewhere),
        why: SplitWhy::Moved,
    });
    let part = part.events.iter().find_map(|event| match event {
        Event::LotSplit(it) => Some(it.lot),
        _ => None,
    });
    let part = part.expect("a part");
    let rows = bound(&phone.state, phone.now_ms);
    let what: Vec<BoundWhat> = rows.iter().map(|row| row.what).collect();
    for one in [
        BoundWhat::Lot(lot),
        BoundWhat::Lot(part),
        BoundWhat::TableAndTub,
    ] {
        assert!(what.contains(&one), "{one:?}");
    }
    assert_eq!(what.len(), 3, "{what:?}");
    assert!(bound_lot(&phone.state, part, phone.now_ms).is_some());
    assert!(bound_lot(&phone.state, beside, phone.now_ms).is_none());
}

#[test]
fn a_bath_kept_before_the_mixing_had_a_part_of_its_own_is_read() {
    let (mut phone, place) = nursery();
    let lot = phone.lot("Cymbidium tracyanum", 4, place);
    let id = product(
        &mut phone,
        "A",
        &["triforine"],
        vec![use_of(&[Method::Spray], "1 mL/L")],
    );
    let text = format!(
        r#"{{"version":1,"step":"load","product":"{id}","bottle":null,"rate":"2 mL/L","batch":"L1","against":"fungus","preventing":true,"finding":null,"dipping_named":false,"reason":"asked","rotation_reason":"","soak_s":300,"reentry_h":6,"tub":{{"shape":"litres","litres":"20","sides":{{}}}},"lots":["{lot}"],"pieces":[],"search":"","delay_s":0,"soak":null,"lying":[],"mixed_for":null,"dips":2,"note":"n"}}"#
    );
    let bath: BathDraft = kept::read(&text).expect("read");
    assert_eq!(bath.mixing.product, Some(id));
    assert_eq!(bath.mixing.method_named, Some(false));
    assert_eq!(
        (bath.mixing.rate.as_str(), bath.mixing.batch.as_str()),
        ("2 mL/L", "L1")
    );
    assert_eq!(
        (bath.mixing.reentry_h, bath.dips, bath.lots),
        (Some(6), 2, vec![lot])
    );
}

#[test]
fn a_spray_that_is_written_down_binds_the_place_its_plants_stand_in() {
    use velamen_core::treat_draft::TreatDraft;
    let (mut phone, place) = nursery();
    let elsewhere = phone.place("Bench", Warmth::Cool);
    let lots = [
        phone.lot("Cymbidium tracyanum", 3, place),
        phone.lot("Coelogyne cristata", 2, place),
        phone.lot("Lycaste aromatica", 2, elsewhere),
    ];
    let place_of = |phone: &mut Phone, method, lots: &[LotId]| {
        let written = TreatDraft {
            lots: lots.to_vec(),
            product: "A".to_owned(),
            method: Some(method),
            against: Some(AgentClass::Fungus),
            reentry_h: Some(4),
            ..TreatDraft::default()
        };
        let command = written.command(&phone.state, phone.now_ms);
        match phone.act(command.expect("a record")).events.first() {
            Some(Event::Treated(treated)) => treated.place,
            other => panic!("{other:?}"),
        }
    };
    assert_eq!(place_of(&mut phone, Method::Bath, &lots[..2]), None);
    assert_eq!(
        place_of(&mut phone, Method::Spray, &lots),
        None,
        "two places"
    );
    assert_eq!(place_of(&mut phone, Method::Spray, &lots[..2]), Some(place));
}

/// Pots one starter of a clump in a place of its own.
fn pot_one(phone: &mut Phone, clump: ClumpId, place: PlaceId) -> LotId {
    let class = PieceClass::Starter;
    phone.act(Command::TakePieces {
        clump,
        pieces: vec![CountedPieces {
            class,
            plants: 1,
            bulbs: None,
        }],
    });
    let done = phone.act(Command::PotPieces {
        clump,
        batches: vec![Batch {
            class,
            code: None,
            name: None,
            plants: 1,
            stands: 1,
            with: None,
            potting: Potting::default(),
            place: Some(place),
        }],
    });
    match done.events.first() {
        Some(Event::PiecesPotted(potted)) => potted.lot,
        other => panic!("{other:?}"),
    }
}

#[test]
fn what_was_sprayed_stays_bound_on_the_bench_and_in_the_pots_it_goes_into() {
    let (mut phone, place) = nursery();
    let elsewhere = phone.place("Bench", Warmth::Cool);
    let lot = phone.lot("Cymbidium tracyanum", 4, place);
    let other = phone.lot("Cymbidium tracyanum", 2, place);
    let id = product(
        &mut phone,
        "A",
        &["triforine"],
        vec![use_of(&[Method::Spray], "1 mL/L")],
    );
    // One plant is on the bench already when the rest is sprayed.
    let opened = phone.act(Command::OpenDivision(OpenDivision {
        tray: 1,
        lots: vec![OpenedLot {
            lot,
            plants: 1,
            stands: 1,
        }],
        ..OpenDivision::default()
    }));
    let Some(Event::DivisionOpened(earlier)) = opened.events.first() else {
        panic!("{:?}", opened.events);
    };
    let done = spray_on(&mut phone, id, AgentClass::Fungus, lot);
    let until = done.until_ms.expect("bound");
    let dry = pot_one(&mut phone, earlier.clump, elsewhere);
    phone.wait_min(60);
    let clump = phone.open_clump(&[lot, other]);
    let child = pot_one(&mut phone, clump, elsewhere);
    let of = |phone: &Phone| {
        let rows = bound(&phone.state, phone.now_ms);
        rows.into_iter()
            .map(|row| (row.what, row.until_ms))
            .collect::<Vec<_>>()
    };
    let mut all = [
        BoundWhat::Lot(lot),
        BoundWhat::Lot(child),
        BoundWhat::Clump(clump),
    ]
    .map(|what| (what, until));
    all.sort_unstable();
    assert_eq!(of(&phone), all, "neither {dry} nor what lay beside it");
    assert_eq!(
        bound_lot(&phone.state, child, phone.now_ms).map(|row| row.until_ms),
        Some(until)
    );
    // What is divided again takes it along, and a clump that is closed lies there no more.
    pot_one(&mut phone, clump, elsewhere);
    let again = phone.open_clump(&[child]);
    let grandchild = pot_one(&mut phone, again, elsewhere);
    phone.act(Command::CloseDivision {
        clump,
        how: ClosedHow::Done,
        dirty_pots: 0,
        note: String::new(),
    });
    let what: Vec<BoundWhat> = of(&phone).into_iter().map(|(what, _)| what).collect();
    assert!(what.contains(&BoundWhat::Lot(grandchild)), "{what:?}");
    assert!(what.contains(&BoundWhat::Clump(again)), "{what:?}");
    assert!(!what.contains(&BoundWhat::Clump(clump)), "{what:?}");
    assert_eq!(bound(&phone.state, until), []);
}
