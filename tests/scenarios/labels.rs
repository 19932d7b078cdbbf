//! A label typed out: begun with three things, completed later, measured through its content, never above its highest.
//!
//! Rates are for tests alone.

use velamen_core::apply::{MixFault, Mixing};
use velamen_core::bath::{BathDraft, BathFault, BottleDraft, TubDraft};
use velamen_core::command::Command;
use velamen_core::event::{AgentClass, Event, Method};
use velamen_core::id::ProductId;
use velamen_core::label_draft::{ActiveDraft, LabelDraft, LabelFault, LabelField, UseNumber};
use velamen_core::quantity::{Amount, ContentFault, Mass, QuantityError, Volume};
use velamen_core::reference::actives;
use velamen_core::season::Hemisphere;
use velamen_core::state::Product;
use velamen_core::view::treat::{StillMissing, products};
use velamen_tests::Phone;

fn shelf(rate: &str) -> (Phone, ProductId) {
    let mut phone = Phone::new(1, "2027-03-11");
    phone.open_book(Hemisphere::North);
    let bottle = BottleDraft {
        name: "Example powder".to_owned(),
        rate: rate.to_owned(),
        label_photo: None,
    };
    let product = match phone.act(bottle.command()).events.first() {
        Some(Event::ProductSet(set)) => set.product,
        other => panic!("{other:?}"),
    };
    (phone, product)
}

fn on_shelf(phone: &Phone, id: ProductId) -> &Product {
    &phone.state.facts().products[&id]
}

fn change(phone: &Phone, id: ProductId, draft: &LabelDraft) -> Option<Command> {
    draft.change(id, on_shelf(phone, id)).expect("readable")
}

fn with_use(phone: &mut Phone, id: ProductId, how: impl FnOnce(&mut LabelDraft)) {
    let mut draft = LabelDraft::of(on_shelf(phone, id));
    draft.add_use();
    draft.uses[0].methods = vec![Method::Bath];
    draft.uses[0].soak_min = "10".to_owned();
    how(&mut draft);
    let command = change(phone, id, &draft).expect("a change");
    phone.act(command);
}

fn bath(product: ProductId, rate: &str) -> BathDraft {
    BathDraft {
        mixing: Mixing {
            product: Some(product),
            rate: rate.to_owned(),
            against: Some(AgentClass::Fungus),
            ..Mixing::default()
        },
        tub: TubDraft {
            litres: "20".to_owned(),
            ..TubDraft::default()
        },
        ..BathDraft::default()
    }
}

#[test]
fn a_bottle_begun_with_three_things_is_completed_later() {
    let (mut phone, id) = shelf("2 g/L");
    let mut draft = LabelDraft::of(on_shelf(&phone, id));
    assert_eq!(change(&phone, id, &draft), None);
    draft.registration = " 12345-6 ".to_owned();
    draft.formulation = "wp".to_owned();
    draft.reentry_h = "24".to_owned();
    draft.add_known(actives::find("copper hydroxide").expect("in the table"));
    draft.add_known(actives::find("copper").expect("in the table"));
    draft.actives[0].content = "50 % w/w".to_owned();
    draft.add_use();
    draft.uses[0].methods = vec![Method::Bath, Method::Spray];
    draft.uses[0].rate = "2 g/L".to_owned();
    draft.uses[0].most = "3 g/L".to_owned();
    draft.uses[0].soak_min = "15".to_owned();
    draft.uses[0].ph_least = "5,5".to_owned();
    draft.uses[0].ph_most = "7".to_owned();
    let command = change(&phone, id, &draft).expect("a change");
    phone.act(command);

    let kept = on_shelf(&phone, id);
    assert_eq!(kept.registration.or_default(), "12345-6");
    assert_eq!(kept.formulation.or_default(), "WP");
    let known = kept.actives.or_default();
    assert_eq!(known.len(), 1, "the same active is not put there twice");
    assert_eq!(known[0].content_mg, Some(500_000));
    assert_eq!(known[0].codes, ["FRAC M01"]);
    let uses = kept.uses.or_default();
    assert_eq!(uses[0].soak_s, Some(900));
    assert_eq!((uses[0].ph_least, uses[0].ph_most), (Some(55), Some(70)));
    assert_eq!(products(&phone.state)[0].missing, []);
    // Typed out again it is the same.
    assert_eq!(change(&phone, id, &LabelDraft::of(kept)), None);
}

#[test]
fn what_the_bottle_lacks_is_listed_until_it_is_typed() {
    let (phone, _) = shelf("");
    assert_eq!(
        products(&phone.state)[0].missing,
        [
            StillMissing::Rate,
            StillMissing::Uses,
            StillMissing::Actives,
            StillMissing::Reentry,
            StillMissing::Registration
        ]
    );
}

#[test]
fn a_fault_of_a_label_says_at_which_field_it_is() {
    let (phone, id) = shelf("2 g/L");
    let fault = |how: &dyn Fn(&mut LabelDraft)| {
        let mut draft = LabelDraft::of(on_shelf(&phone, id));
        draft.add_use();
        draft.actives.push(ActiveDraft {
            name: "triforine".to_owned(),
            ..ActiveDraft::default()
        });
        how(&mut draft);
        draft.change(id, on_shelf(&phone, id)).expect_err("a fault")
    };
    assert_eq!(
        fault(&|draft| draft.name = " ".to_owned()),
        (LabelField::Name, LabelFault::Missing)
    );
    assert!(matches!(
        fault(&|draft| draft.rate = "1 tbsp/gal".to_owned()),
        (
            LabelField::Rate,
            LabelFault::Rate(QuantityError::AmbiguousUnit { .. })
        )
    ));
    assert!(matches!(
        fault(&|draft| draft.actives[0].content = "19 %".to_owned()),
        (
            LabelField::Content(0),
            LabelFault::Content(ContentFault::WhichPercent { .. })
        )
    ));
    let rates = |least: &str, most: &str| {
        fault(&|draft| {
            draft.uses[0].rate = least.to_owned();
            draft.uses[0].most = most.to_owned();
        })
    };
    let at_most = LabelField::UseMost(0);
    assert_eq!(
        rates("3 g/L", "2 g/L"),
        (at_most, LabelFault::MostBelowLeast)
    );
    assert_eq!(rates("3 g/L", "4 mL/L"), (at_most, LabelFault::RatesDiffer));
    assert_eq!(
        rates("3 g/L", "4000 ppm"),
        (at_most, LabelFault::RatesDiffer)
    );
    for (which, text) in [
        (UseNumber::SoakMin, "4320"),
        (UseNumber::IntervalDays, "a week"),
        (UseNumber::PhMost, "14.1"),
        (UseNumber::PhLeast, "5.55"),
    ] {
        let (field, _) = fault(&|draft| draft.uses[0].set_number(which, text.to_owned()));
        assert_eq!(field, LabelField::Number(0, which), "{text}");
    }
    assert_eq!(
        fault(&|draft| {
            draft.uses[0].ph_least = "7".to_owned();
            draft.uses[0].ph_most = "5.5".to_owned();
        }),
        (
            LabelField::Number(0, UseNumber::PhMost),
            LabelFault::PhTurned
        )
    );
}

#[test]
fn the_codes_of_the_label_go_before_those_of_the_table() {
    let (mut phone, id) = shelf("2 g/L");
    let mut draft = LabelDraft::of(on_shelf(&phone, id));
    draft.add_known(actives::find("triforine").expect("in the table"));
    assert_eq!(draft.actives[0].codes, "FRAC 3");
    draft.actives[0].codes = "frac 49, m1".to_owned();
    let command = change(&phone, id, &draft).expect("a change");
    phone.act(command);
    let kept = on_shelf(&phone, id).actives.or_default();
    assert_eq!(kept[0].codes, ["FRAC 49", "FRAC M01"]);
}

#[test]
fn a_removed_use_leaves_the_others_their_keys() {
    let mut draft = LabelDraft::default();
    draft.add_use();
    draft.add_use();
    draft.uses.remove(0);
    draft.add_use();
    let keys: Vec<&str> = draft.uses.iter().map(|one| one.key.as_str()).collect();
    assert_eq!(keys, ["use-2", "use-1"]);
}

#[test]
fn a_dose_above_the_labels_highest_is_never_mixed() {
    let (mut phone, id) = shelf("2 g/L");
    with_use(&mut phone, id, |draft| {
        draft.uses[0].rate = "2 g/L".to_owned();
        draft.uses[0].most = "3 g/L".to_owned();
    });
    let mix = |rate: &str| {
        bath(id, rate)
            .ready_to_mix(&phone.state)
            .map(|mix| mix.amount)
    };
    let grams = |g: i64| Ok(Amount::Mass(Mass::from_mg(g * 1_000)));
    assert_eq!(mix(""), grams(40), "the lowest where nothing else is typed");
    assert_eq!(mix("3 g/L"), grams(60));
    assert_eq!(
        mix("30 g per 10 L"),
        grams(60),
        "the same, written otherwise"
    );
    let most_typed = "3 g/L".to_owned();
    assert_eq!(
        mix("3.001 g/L"),
        Err(BathFault::Mix(MixFault::AboveLabel {
            most_typed: most_typed.clone()
        }))
    );
    assert_eq!(
        mix("3 mL/L"),
        Err(BathFault::Mix(MixFault::NotTheLabels { most_typed }))
    );
    assert!(
        bath(id, "1.9 g/L")
            .mixing
            .below_label(&phone.state, Method::Bath)
    );
    assert!(
        !bath(id, "2 g/L")
            .mixing
            .below_label(&phone.state, Method::Bath)
    );
    assert_eq!(mix("5 g/m2"), Err(BathFault::Mix(MixFault::RateByArea)));
}

#[test]
fn the_batch_on_the_bottle_goes_into_the_record() {
    let (mut phone, id) = shelf("2 g/L");
    let place = phone.place("Cool house", velamen_core::season::Warmth::Cool);
    let lot = phone.lot("Cymbidium tracyanum", 3, place);
    let mut draft = bath(id, "");
    draft.mixing.batch = " L 4711 ".to_owned();
    draft.mixing.method_named = Some(true);
    draft.soak_s = Some(300);
    draft.lots = vec![lot];
    draft.start(&phone.state, phone.now_ms).expect("in the tub");
    let record = draft.record(&phone.state, phone.now_ms + 310_000);
    match phone.act(record.expect("a record")).events.first() {
        Some(Event::Treated(treated)) => assert_eq!(treated.product.batch, "L 4711"),
        other => panic!("{other:?}"),
    }
}

#[test]
fn the_one_rate_of_a_label_is_its_highest_too() {
    let (mut phone, id) = shelf("2 g/L");
    with_use(&mut phone, id, |draft| {
        draft.uses[0].rate = "2 g/L".to_owned()
    });
    let above = bath(id, "2.5 g/L").ready_to_mix(&phone.state);
    assert!(
        matches!(above, Err(BathFault::Mix(MixFault::AboveLabel { .. }))),
        "{above:?}"
    );
}

#[test]
fn a_rate_in_ppm_of_active_is_measured_through_the_content_of_the_product() {
    let (mut phone, id) = shelf("285 ppm");
    with_use(&mut phone, id, |_| {});
    let mix = |phone: &Phone| bath(id, "").ready_to_mix(&phone.state);
    assert_eq!(mix(&phone), Err(BathFault::Mix(MixFault::NoContent)));
    let mut draft = LabelDraft::of(on_shelf(&phone, id));
    draft.add_known(actives::find("triforine").expect("in the table"));
    draft.actives[0].content = "190 g/L".to_owned();
    let command = change(&phone, id, &draft).expect("a change");
    phone.act(command);
    // Own arithmetic: 285 mg/L out of 190 g/L is 1.5 mL/L, 30 mL in 20 L, and back again 285 mg/L.
    let mixed = mix(&phone).expect("measured");
    assert_eq!(mixed.amount, Amount::Volume(Volume::from_ul(30_000)));
    assert_eq!(mixed.active_mg_per_l, [("triforine".to_owned(), 285)]);
}
