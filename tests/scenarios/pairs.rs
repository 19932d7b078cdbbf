//! Two products: in one tank where both labels allow it, or one after the other with days between.

use velamen_core::apply::{ApplyFault, MixFault, Mixing, TankFault, ThenDraft};
use velamen_core::bath::{BathDraft, TubDraft};
use velamen_core::command::{Command, NextTreatment, ProductTraits};
use velamen_core::event::{AgentClass, Event, LabelUse, Method, Treated};
use velamen_core::id::TreatmentId;
use velamen_core::view::reentry::{bound_lot, of_one_tank};
use velamen_tests::day;

use crate::chemistry::{draft, nursery, partner, product, ready, treated, two, use_of};

const HOUR_MS: i64 = 3_600_000;

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
                Event::Treated(treated) => Some(*treated),
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
        product: None,
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
fn what_binds_longer_in_one_tank_is_taken_along_when_the_end_of_the_other_is_put_right() {
    let (mut phone, place) = nursery();
    let lot = phone.lot("Cymbidium tracyanum", 3, place);
    let (one, other) = two(&mut phone, true);
    let mut spray = draft(Method::Spray, one, AgentClass::Fungus, &[lot]);
    spray.water.litres = "2".to_owned();
    spray.mixing.partner = partner(other);
    let record = spray.command(&phone.state, phone.now_ms).expect("a record");
    let done = phone.act(record);
    let Some(Event::Treated(first)) = done.events.first() else {
        panic!("{:?}", done.events);
    };
    let ended = first.ended_ms.expect("an end");
    let mut later = first.clone();
    later.ended_ms = Some(ended + 2 * HOUR_MS);
    phone.act(Command::Amend {
        target: done.entry,
        index: 0,
        event: Event::Treated(later),
        why: String::new(),
    });
    let bound = bound_lot(&phone.state, lot, ended).expect("bound");
    assert_eq!(
        bound.until_ms,
        ended + 26 * HOUR_MS,
        "24 h of the other, not 12 of its own"
    );
    // Its hours put right to fewer: the other product of the tank still says until when, on the paper of both.
    let mut fewer = phone.state.facts().treatments[&first.treatment]
        .event
        .clone();
    fewer.product.reentry_h = Some(1);
    phone.act(Command::Amend {
        target: done.entry,
        index: 0,
        event: fewer.into(),
        why: String::new(),
    });
    let facts = phone.state.facts();
    let (own, long) = (ended + 3 * HOUR_MS, ended + 24 * HOUR_MS);
    assert_eq!(facts.treatments[&first.treatment].event.until_ms, Some(own));
    let ids: Vec<TreatmentId> = facts.treatments.keys().copied().collect();
    for id in ids {
        let (tank, until_ms) = of_one_tank(&phone.state, id);
        let names = tank.iter().map(|one| one.event.product.label_name.as_str());
        let names: Vec<&str> = names.collect();
        assert_eq!(names, ["Against fungi", "Against insects"]);
        assert_eq!(until_ms, Some(long));
    }
}
