//! The right target, and what must never meet: in tub and measures, and on the plants.

use velamen_core::apply::{ApplyDraft, ApplyStep, Before, Fit, MixFault, Mixing, Where, WhyHeld};
use velamen_core::bath::{BathDraft, BathFault, TubDraft};
use velamen_core::command::{Command, Sanitise};
use velamen_core::event::{AgentClass, Event, LabelUse, Method, Object, SplitWhy};
use velamen_tests::{Phone, day};

use crate::chemistry::{draft, nursery, product, spray_on, use_of};

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
    assert_eq!(met(&phone), vec![chlorine.clone()]);
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

#[test]
fn lots_that_are_to_be_treated_again_come_along_until_something_else_is_being_mixed() {
    let (mut phone, place) = nursery();
    let first = phone.lot("Cymbidium tracyanum", 2, place);
    let second = phone.lot("Cymbidium lowianum", 2, place);
    let mut draft = ApplyDraft::default();
    assert!(draft.take_lots(&[first]) && draft.take_lots(&[first]));
    assert_eq!(draft.lots, [first]);
    draft.step = ApplyStep::Mix;
    assert!(
        !draft.take_lots(&[second]),
        "told, so that nobody treats others"
    );
    assert_eq!(
        draft.lots,
        [first],
        "what is measured already is for what was chosen"
    );
}
