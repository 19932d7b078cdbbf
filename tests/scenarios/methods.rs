//! Drench, spray, swab and dust, the right target, what must never meet, one tank and a planned pair.
//!
//! Rates, areas and pots here are for tests alone; the volumes of pots are held against published drench guidelines.

use velamen_core::apply::{
    Aired, ApplyDraft, ApplyFault, Before, Fit, Measured, MixFault, Mixing, TankFault, ThenDraft,
    WaterDraft, WaterFault, Where, WhyHeld,
};
use velamen_core::bath::{BathDraft, BathFault, TubDraft};
use velamen_core::command::{Command, NextTreatment, PlaceTraits, ProductTraits, Sanitise};
use velamen_core::draft;
use velamen_core::event::{
    ActiveCopy, AgentClass, Airing, Cover, Event, LabelUse, Method, Object, Potting, SplitWhy,
    Treated, TreatedPart,
};
use velamen_core::id::{LotId, PlaceId, ProductId};
use velamen_core::quantity::{Amount, Mass, QuantityError, Volume};
use velamen_core::season::{Hemisphere, Warmth};
use velamen_core::view::reentry::{BoundWhat, bound, bound_in_short, bound_lot};
use velamen_tests::{Phone, day, named};

const HOUR_MS: i64 = 3_600_000;

fn nursery() -> (Phone, PlaceId) {
    let mut phone = Phone::new(1, "2027-03-11");
    phone.open_book(Hemisphere::North);
    let place = phone.place("Cool house", Warmth::Cool);
    (phone, place)
}

fn use_of(methods: &[Method], rate: &str) -> LabelUse {
    LabelUse {
        key: "use-1".to_owned(),
        methods: methods.to_vec(),
        rate_typed: rate.to_owned(),
        reentry_h: Some(12),
        ..LabelUse::default()
    }
}

fn product(phone: &mut Phone, name: &str, actives: &[&str], uses: Vec<LabelUse>) -> ProductId {
    let actives = actives.iter().map(|name| ActiveCopy {
        name: (*name).to_owned(),
        ..ActiveCopy::default()
    });
    let traits = ProductTraits {
        label_name: Some(name.to_owned()),
        actives: Some(actives.collect()),
        uses: Some(uses),
        ..ProductTraits::default()
    };
    let done = phone.act(Command::SetProduct {
        product: None,
        traits,
    });
    match done.events.first() {
        Some(Event::ProductSet(set)) => set.product,
        other => panic!("{other:?}"),
    }
}

fn draft(method: Method, product: ProductId, against: AgentClass, lots: &[LotId]) -> ApplyDraft {
    ApplyDraft {
        method: Some(method),
        mixing: Mixing {
            product: Some(product),
            against: Some(against),
            ..Mixing::default()
        },
        lots: lots.to_vec(),
        ..ApplyDraft::default()
    }
}

fn treated(phone: &mut Phone, draft: &ApplyDraft) -> Vec<Treated> {
    let command = draft.command(&phone.state, phone.now_ms).expect("a record");
    let done = phone.act(command);
    let events = done.events.into_iter();
    events
        .filter_map(|event| match event {
            Event::Treated(treated) => Some(treated),
            _ => None,
        })
        .collect()
}

fn ready(draft: &ApplyDraft, phone: &Phone) -> Result<Measured, ApplyFault> {
    draft.clone().ready_to_mix(&phone.state, phone.today)
}

#[test]
fn a_product_against_fungi_is_held_against_a_water_mould_and_goes_on_by_saying_why() {
    let (mut phone, place) = nursery();
    let lot = phone.lot("Cymbidium tracyanum", 3, place);
    let methods = [Method::Bath, Method::Drench];
    let dmi = product(
        &mut phone,
        "A",
        &["triforine"],
        vec![use_of(&methods, "1 mL/L")],
    );
    product(
        &mut phone,
        "B",
        &["metalaxyl-M"],
        vec![use_of(&methods, "1 mL/L")],
    );
    let mut bath = BathDraft {
        mixing: Mixing {
            product: Some(dmi),
            against: Some(AgentClass::WaterMould),
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
    assert_eq!(
        bath.ready_to_mix(&phone.state),
        Err(BathFault::Mix(MixFault::NoTargetReason))
    );
    let Some(Fit::Held(held)) = bath.mixing.fit(&phone.state, Method::Bath) else {
        panic!("not held")
    };
    assert_eq!(
        held.why,
        WhyHeld::ActsOnOthers([AgentClass::Fungus].into_iter().collect())
    );
    assert_eq!(held.instead, ["B"], "what on the shelf acts on it is named");
    bath.mixing.target_reason = "The laboratory says both.".to_owned();
    assert!(bath.ready_to_mix(&phone.state).is_ok());
    bath.start(&phone.state, phone.now_ms).expect("in the tub");
    let record = bath.record(&phone.state, phone.now_ms + 310_000);
    match phone.act(record.expect("a record")).events.first() {
        Some(Event::Treated(treated)) => {
            assert_eq!(treated.reason, "The laboratory says both.");
        }
        other => panic!("{other:?}"),
    }
    bath.mixing.against = Some(AgentClass::Fungus);
    assert_eq!(
        bath.mixing.reasons(&phone.state, Method::Bath),
        "",
        "a reason for what no longer holds is dropped"
    );
}

#[test]
fn what_is_held_and_what_is_not_by_agent_label_and_table() {
    let (mut phone, _) = nursery();
    let silent = |methods: &[Method]| vec![use_of(methods, "1 mL/L")];
    let names = |agent| {
        vec![LabelUse {
            against: vec![agent],
            ..use_of(&[Method::Spray], "1 mL/L")
        }]
    };
    let miticide = product(&mut phone, "A", &["hexythiazox"], silent(&[Method::Spray]));
    let unknown = product(&mut phone, "B", &["somethingine"], silent(&[Method::Spray]));
    let bare = product(&mut phone, "C", &[], silent(&[Method::Spray]));
    let by_label = product(
        &mut phone,
        "D",
        &["triforine"],
        names(AgentClass::WaterMould),
    );
    let other = product(&mut phone, "E", &["somethingine"], names(AgentClass::Mite));
    let copper = product(
        &mut phone,
        "F",
        &["copper hydroxide"],
        silent(&[Method::Spray]),
    );
    let partly = product(&mut phone, "G", &["malathion"], silent(&[Method::Spray]));
    let fit = |id, against| {
        let mixing = Mixing {
            product: Some(id),
            against: Some(against),
            ..Mixing::default()
        };
        mixing.fit(&phone.state, Method::Spray).expect("both known")
    };
    let held = |fit: &Fit| matches!(fit, Fit::Held(_));
    assert_eq!(fit(miticide, AgentClass::Mite), Fit::Acts);
    assert!(held(&fit(miticide, AgentClass::Insect)));
    assert_eq!(fit(unknown, AgentClass::Fungus), Fit::NotKnown);
    assert_eq!(fit(bare, AgentClass::Fungus), Fit::NotKnown);
    assert_eq!(
        fit(by_label, AgentClass::WaterMould),
        Fit::Acts,
        "the label first"
    );
    assert!(
        held(&fit(other, AgentClass::Insect)),
        "the label names mites"
    );
    assert_eq!(fit(copper, AgentClass::Bacterium), Fit::Acts);
    assert_eq!(fit(partly, AgentClass::Mite), Fit::Partly);
    for agent in [AgentClass::Virus, AgentClass::Culture] {
        assert!(held(&fit(copper, agent)), "{agent:?}");
        assert!(held(&fit(bare, agent)), "{agent:?}");
    }
    assert_eq!(fit(copper, AgentClass::Unknown), Fit::NotKnown);
}

fn spray_on(phone: &mut Phone, id: ProductId, against: AgentClass, lot: LotId) -> Treated {
    let draft = ApplyDraft {
        water: WaterDraft {
            litres: "2".to_owned(),
            ..WaterDraft::default()
        },
        ..draft(Method::Spray, id, against, &[lot])
    };
    treated(phone, &draft).remove(0)
}

#[test]
fn what_must_not_meet_on_plants_is_found_both_ways_round_with_the_day_to_wait_for() {
    let pairs = [
        ("copper hydroxide", "fosetyl-Al", 20),
        ("mineral oil", "sulfur", 30),
        ("neem oil", "captan", 30),
        ("mineral oil", "chlorothalonil", 30),
    ];
    for (a, b, days) in pairs {
        for (first, second) in [(a, b), (b, a)] {
            let (mut phone, place) = nursery();
            let lot = phone.lot("Cymbidium tracyanum", 4, place);
            let uses = || vec![use_of(&[Method::Spray], "1 mL/L")];
            let first = product(&mut phone, "First", &[first], uses());
            let second = product(&mut phone, "Second", &[second], uses());
            spray_on(&mut phone, first, AgentClass::Fungus, lot);
            // A part that leaves takes along what the whole had.
            let part = phone.act(Command::SplitLot {
                from: lot,
                plants: 1,
                stands: 1,
                place: None,
                why: SplitWhy::Moved,
            });
            let part = part.events.iter().find_map(|event| match event {
                Event::LotSplit(it) => Some(it.lot),
                _ => None,
            });
            let draft = draft(
                Method::Spray,
                second,
                AgentClass::Fungus,
                &[part.expect("a part")],
            );
            let met = |phone: &Phone| {
                let targets = draft.targets(&phone.state);
                let all = draft.mixing.meetings(&phone.state, &targets, phone.today);
                let on_plants = all.into_iter().filter(|one| one.at == Where::Plants);
                on_plants.collect::<Vec<_>>()
            };
            phone.on("2027-03-18");
            let now = met(&phone);
            assert_eq!(now.len(), 1, "{a} {b}");
            let until = velamen_core::time::plus_days(day("2027-03-11"), days);
            assert_eq!(now[0].wait_until, Some(until));
            assert_eq!(now[0].before, Before::Product("First".to_owned()));
            phone.on(&until.pred_opt().expect("a day").to_string());
            assert_eq!(met(&phone).len(), 1, "the day before it still holds");
            phone.on(&until.to_string());
            assert_eq!(met(&phone), [], "{a} {b}");
        }
    }
}

#[test]
fn what_was_in_tub_and_measures_is_found_for_two_days_or_until_the_tub_is_cleaned() {
    let (mut phone, place) = nursery();
    let lot = phone.lot("Cymbidium tracyanum", 3, place);
    let copper = product(
        &mut phone,
        "Copper",
        &["copper hydroxide"],
        vec![use_of(&[Method::Spray], "1 g/L")],
    );
    let clean = |phone: &mut Phone, what, agent: &str| {
        phone.act(Command::Sanitise(Sanitise {
            what,
            agent: agent.to_owned(),
            cleaned_first: true,
            ..Sanitise::default()
        }));
    };
    let met = |phone: &Phone| {
        let mixing = Mixing {
            product: Some(copper),
            ..Mixing::default()
        };
        let met = mixing.meetings(&phone.state, &[], phone.today);
        met.into_iter()
            .map(|one| (one.at, one.before))
            .collect::<Vec<_>>()
    };
    assert_eq!(met(&phone), []);
    clean(&mut phone, Object::Tools, "chlorine");
    let chlorine = (Where::Vessel, Before::Agent("chlorine".to_owned()));
    assert_eq!(met(&phone), [chlorine.clone()]);
    // A tub that was disinfected was emptied and rinsed before: only that counts from then on.
    phone.wait_min(10);
    clean(&mut phone, Object::Tub, "quaternary_ammonium");
    assert_eq!(met(&phone), []);
    clean(&mut phone, Object::Tools, "chlorine");
    phone.on("2027-03-13");
    assert_eq!(met(&phone), [chlorine]);
    phone.on("2027-03-14");
    assert_eq!(met(&phone), []);
    // And the other way round: bleach into what held a product.
    spray_on(&mut phone, copper, AgentClass::Fungus, lot);
    let bleach = velamen_core::reference::never::of_agent("chlorine");
    let other = velamen_core::apply::meetings(&phone.state, &bleach, &[], phone.today);
    assert_eq!(other.len(), 1);
    assert_eq!(other[0].before, Before::Product("Copper".to_owned()));
}

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

fn roofed(phone: &mut Phone, cover: Cover, area_cm2: Option<u32>) -> PlaceId {
    let done = phone.act(Command::SetPlace {
        place: None,
        name: Some("Warm house".to_owned()),
        walk: None,
        about: PlaceTraits {
            cover: Some(cover),
            area_cm2,
            ..PlaceTraits::default()
        },
    });
    match done.events.first() {
        Some(Event::PlaceSet(set)) => set.place,
        other => panic!("{other:?}"),
    }
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
    let kept = draft::write(&draft);
    let draft: ApplyDraft = draft::read(&kept).expect("read again");
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

/// A fungicide and an insecticide whose labels allow each other, or not.
fn two(phone: &mut Phone, allow: bool) -> (ProductId, ProductId) {
    let one = product(
        phone,
        "Against fungi",
        &["triforine"],
        vec![use_of(&[Method::Bath, Method::Spray], "1 mL/L")],
    );
    let with = |other| LabelUse {
        mix_with: if allow { vec![other] } else { Vec::new() },
        reentry_h: Some(24),
        ..use_of(&[Method::Bath, Method::Spray], "2 mL/L")
    };
    let other = product(phone, "Against insects", &["spinosad"], vec![with(one)]);
    let uses = vec![LabelUse {
        mix_with: vec![other],
        ..use_of(&[Method::Bath, Method::Spray], "1 mL/L")
    }];
    phone.act(Command::SetProduct {
        product: Some(one),
        traits: ProductTraits {
            uses: Some(uses),
            ..ProductTraits::default()
        },
    });
    (one, other)
}

fn partner(id: ProductId) -> Option<Box<Mixing>> {
    Some(Box::new(Mixing {
        product: Some(id),
        against: Some(AgentClass::Insect),
        ..Mixing::default()
    }))
}

#[test]
fn two_products_go_into_one_tank_only_where_both_labels_allow_it() {
    let (mut phone, place) = nursery();
    let lot = phone.lot("Cymbidium tracyanum", 3, place);
    let (one, other) = two(&mut phone, false);
    let mut spray = draft(Method::Spray, one, AgentClass::Fungus, &[lot]);
    spray.water.litres = "2".to_owned();
    spray.mixing.partner = partner(other);
    let tank = |fault| Err(ApplyFault::Mix(MixFault::Tank(fault)));
    assert_eq!(
        ready(&spray, &phone),
        tank(TankFault::NotAllowed {
            labels: vec!["Against insects".to_owned()]
        })
    );
    let (one, other) = two(&mut phone, true);
    spray.mixing.product = Some(one);
    spray.mixing.partner = partner(one);
    assert_eq!(ready(&spray, &phone), tank(TankFault::Same));
    spray.mixing.partner = partner(other);
    assert!(ready(&spray, &phone).is_ok());
    let done = treated(&mut phone, &spray);
    assert_eq!(done.len(), 2);
    let (first, second) = (&done[0], &done[1]);
    assert_eq!(
        (first.amount_ul, second.amount_ul),
        (Some(2_000), Some(4_000))
    );
    assert_eq!(
        (first.tank_with, second.tank_with),
        (None, Some(first.treatment))
    );
    assert_eq!(
        (first.against, second.against),
        (AgentClass::Fungus, AgentClass::Insect)
    );
    assert_eq!(first.parts, second.parts);
    let until = first.ended_ms.map(|ms| ms + 24 * HOUR_MS);
    assert_eq!(
        (first.until_ms, second.until_ms),
        (until, until),
        "the longer of the two"
    );
    // What never meets is refused even where both labels were typed so.
    let oil = product(&mut phone, "Oil", &["mineral oil"], Vec::new());
    let uses = vec![LabelUse {
        mix_with: vec![oil],
        ..use_of(&[Method::Spray], "1 g/L")
    }];
    let sulfur = product(&mut phone, "Sulfur", &["sulfur"], uses);
    phone.act(Command::SetProduct {
        product: Some(oil),
        traits: ProductTraits {
            uses: Some(vec![LabelUse {
                mix_with: vec![sulfur],
                ..use_of(&[Method::Spray], "10 mL/L")
            }]),
            ..ProductTraits::default()
        },
    });
    spray.mixing.product = Some(sulfur);
    spray.mixing.partner = partner(oil);
    assert!(matches!(
        ready(&spray, &phone),
        Err(ApplyFault::Mix(MixFault::Tank(TankFault::Never(_))))
    ));
}

#[test]
fn a_bath_of_two_is_measured_once_for_both_and_every_batch_is_on_record_for_both() {
    let (mut phone, place) = nursery();
    let lots = [
        phone.lot("Cymbidium tracyanum", 3, place),
        phone.lot("Coelogyne cristata", 2, place),
    ];
    let (one, other) = two(&mut phone, true);
    let mut bath = BathDraft {
        mixing: Mixing {
            product: Some(one),
            against: Some(AgentClass::Fungus),
            partner: partner(other),
            ..Mixing::default()
        },
        soak_s: Some(300),
        tub: TubDraft {
            litres: "10".to_owned(),
            ..TubDraft::default()
        },
        ..BathDraft::default()
    };
    assert!(bath.ready_to_mix(&phone.state).is_ok());
    let mut batches = Vec::new();
    for lot in lots {
        bath.lots = vec![lot];
        bath.start(&phone.state, phone.now_ms).expect("in the tub");
        let record = bath.record(&phone.state, phone.now_ms + 310_000);
        let done = phone.act(record.expect("a record"));
        let both: Vec<Treated> = done
            .events
            .into_iter()
            .filter_map(|event| match event {
                Event::Treated(treated) => Some(treated),
                _ => None,
            })
            .collect();
        bath.mixed_for.get_or_insert(both[0].treatment);
        bath.taken_out();
        batches.push(both);
    }
    let amounts = |of: &[Treated]| of.iter().map(|one| one.amount_ul).collect::<Vec<_>>();
    assert_eq!(amounts(&batches[0]), [Some(10_000), Some(20_000)]);
    assert_eq!(amounts(&batches[1]), [None, None]);
    let (first, again) = (&batches[0], &batches[1]);
    assert_eq!(again[0].same_mix_as, Some(first[0].treatment));
    assert_eq!(again[1].same_mix_as, Some(first[1].treatment));
}

#[test]
fn the_second_of_a_pair_is_due_after_the_days_the_pair_asks_for() {
    let (mut phone, place) = nursery();
    let lot = phone.lot("Cymbidium tracyanum", 3, place);
    let uses = || vec![use_of(&[Method::Spray], "1 mL/L")];
    let copper = product(&mut phone, "Copper", &["copper hydroxide"], uses());
    let fosetyl = product(&mut phone, "Fosetyl", &["fosetyl-Al"], uses());
    let spinosad = product(&mut phone, "Spinosad", &["spinosad"], uses());
    let then = |product| {
        Some(ThenDraft {
            product: Some(product),
            ..ThenDraft::default()
        })
    };
    let mut spray = draft(Method::Spray, copper, AgentClass::Bacterium, &[lot]);
    spray.water.litres = "1".to_owned();
    spray.mixing.then = then(spinosad);
    assert_eq!(spray.mixing.then_days(&phone.state), 7, "the usual");
    assert_eq!(spray.mixing.then_too_soon(&phone.state), None);
    spray.mixing.then = then(fosetyl);
    assert_eq!(spray.mixing.then_days(&phone.state), 20);
    spray.mixing.then.as_mut().expect("set").days = Some(10);
    assert!(spray.mixing.then_too_soon(&phone.state).is_some());
    let mut record = spray.record(&phone.state, phone.now_ms).expect("a record");
    let due_on = day("2027-03-21");
    record.then = Some(NextTreatment {
        text: "Treat again".to_owned(),
        due_on,
    });
    let done = phone.act(Command::RecordTreatment(record));
    let noted = done.events.iter().find_map(|event| match event {
        Event::TaskNoted(noted) => Some(noted),
        _ => None,
    });
    let noted = noted.expect("in the same entry");
    assert_eq!((noted.due_on, noted.lot), (due_on, Some(lot)));
    assert_eq!(noted.text, "Treat again");
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
    let kept = format!(
        r#"{{"version":1,"step":"load","product":"{id}","bottle":null,"rate":"2 mL/L","batch":"L1","against":"fungus","preventing":true,"finding":null,"dipping_named":false,"reason":"asked","rotation_reason":"","soak_s":300,"reentry_h":6,"tub":{{"shape":"litres","litres":"20","sides":{{}}}},"lots":["{lot}"],"pieces":[],"search":"","delay_s":0,"soak":null,"lying":[],"mixed_for":null,"dips":2,"note":"n"}}"#
    );
    let bath: BathDraft = draft::read(&kept).expect("read");
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
