//! A label with several uses: the one for this way against this target counts, and what was said of a label goes with its
//! bottle and its way.
//!
//! Rates and hours here are for tests alone.

use velamen_core::apply::{ApplyDraft, ApplyFault, ApplyStep, MixFault, Mixing, TankFault};
use velamen_core::bath::{BathDraft, TubDraft};
use velamen_core::command::{Command, ProductTraits};
use velamen_core::event::{AgentClass, LabelUse, Method};
use velamen_core::id::ProductId;
use velamen_core::rotation::proposed;
use velamen_tests::Phone;

use crate::chemistry::{draft, nursery, partner, product, ready, treated, two, use_of};

const HOUR_MS: i64 = 3_600_000;

/// A use by spraying and dipping against one target.
fn against(key: &str, agent: AgentClass, rate: &str, hours: u32) -> LabelUse {
    LabelUse {
        key: key.to_owned(),
        against: vec![agent],
        reentry_h: Some(hours),
        gear: format!("Gear of {hours} h"),
        soak_s: Some(hours * 60),
        interval_days: Some(u16::try_from(hours).unwrap()),
        ..use_of(&[Method::Spray, Method::Bath], rate)
    }
}

fn fungus() -> LabelUse {
    against("use-1", AgentClass::Fungus, "1 mL/L", 4)
}

fn mite() -> LabelUse {
    against("use-2", AgentClass::Mite, "3 mL/L", 24)
}

fn without_hours() -> LabelUse {
    LabelUse {
        reentry_h: None,
        ..use_of(&[Method::Spray], "1 mL/L")
    }
}

fn sprayed_with(phone: &mut Phone, id: ProductId, agent: AgentClass) -> ApplyDraft {
    let places: Vec<_> = phone.state.facts().places.keys().copied().collect();
    let lot = phone.lot("Cymbidium tracyanum", 3, places[0]);
    let mut spray = draft(Method::Spray, id, agent, &[lot]);
    spray.water.litres = "2".to_owned();
    spray
}

#[test]
fn a_label_is_read_by_the_way_and_the_target_whatever_the_order_of_its_uses() {
    for uses in [vec![fungus(), mite()], vec![mite(), fungus()]] {
        let (mut phone, _) = nursery();
        let id = product(&mut phone, "A", &["triforine"], uses);
        for (agent, rate, ul, hours) in [
            (AgentClass::Fungus, "1 mL/L", 2_000, 4),
            (AgentClass::Mite, "3 mL/L", 6_000, 24),
        ] {
            let mut spray = sprayed_with(&mut phone, id, agent);
            let range = spray.mixing.label_range(&phone.state, Method::Spray);
            assert_eq!(
                (range.least_typed.as_str(), range.most_typed.as_str()),
                (rate, rate)
            );
            spray.mixing.rate = "3 mL/L".to_owned();
            let own = spray.mixing.within_label(&phone.state, Method::Spray);
            assert_eq!(own.is_ok(), agent == AgentClass::Mite, "{own:?}");
            spray.mixing.rate.clear();
            assert!(ready(&spray, &phone).is_ok());
            let done = treated(&mut phone, &spray).remove(0);
            assert_eq!(done.amount_ul, Some(ul), "{agent:?}");
            assert_eq!(done.product.rate_typed, rate);
            assert_eq!(done.product.reentry_h, Some(hours));
            assert_eq!(done.gear, format!("Gear of {hours} h"));
            let until = done.ended_ms.map(|ms| ms + i64::from(hours) * HOUR_MS);
            assert_eq!(done.until_ms, until, "{agent:?}");

            let bath = BathDraft {
                mixing: spray.mixing.clone(),
                tub: TubDraft {
                    litres: "10".to_owned(),
                    ..TubDraft::default()
                },
                ..BathDraft::default()
            };
            assert_eq!(bath.wanted_s(&phone.state), Some(hours * 60));
            let new = proposed(&phone.state, id, Method::Spray, agent, phone.today);
            let days = new.and_then(|new| new.interval_days).map(u32::from);
            assert_eq!(days, Some(hours), "days between two uses");
        }
    }
}

#[test]
fn before_a_target_is_chosen_and_for_one_no_use_names_the_longest_re_entry_holds() {
    for uses in [vec![fungus(), mite()], vec![mite(), fungus()]] {
        let (mut phone, _) = nursery();
        let id = product(&mut phone, "A", &["triforine"], uses);
        let mut mixing = Mixing {
            product: Some(id),
            ..Mixing::default()
        };
        for agent in [None, Some(AgentClass::Insect), Some(AgentClass::Unknown)] {
            mixing.against = agent;
            let hours = mixing.reentry_hours(&phone.state, Method::Spray);
            assert_eq!(hours, Some(24), "{agent:?}");
        }
        mixing.against = Some(AgentClass::Mite);
        let silent = mixing.reentry_hours(&phone.state, Method::Drench);
        assert_eq!(silent, Some(24), "the label is silent on drenching");
    }
}

#[test]
fn a_use_without_a_target_goes_before_a_rate_against_something_else() {
    let (mut phone, _) = nursery();
    let any = LabelUse {
        key: "use-2".to_owned(),
        ..use_of(&[Method::Spray], "2 mL/L")
    };
    let id = product(&mut phone, "A", &["abamectin"], vec![fungus(), any]);
    let spray = sprayed_with(&mut phone, id, AgentClass::Mite);
    let label = spray.mixing.label(&phone.state, Method::Spray);
    assert_eq!(
        (label.rate_typed.as_str(), label.reentry_h),
        ("2 mL/L", Some(12))
    );
    let spray = sprayed_with(&mut phone, id, AgentClass::Fungus);
    let label = spray.mixing.label(&phone.state, Method::Spray);
    assert_eq!(
        (label.rate_typed.as_str(), label.reentry_h),
        ("1 mL/L", Some(4))
    );
}

#[test]
fn a_use_for_the_target_whose_ways_nobody_typed_is_asked_about_and_gets_the_answer() {
    let (mut phone, _) = nursery();
    let open = LabelUse {
        methods: Vec::new(),
        ..mite()
    };
    let id = product(&mut phone, "A", &["triforine"], vec![fungus(), open]);
    let mut spray = sprayed_with(&mut phone, id, AgentClass::Mite);
    assert_eq!(
        ready(&spray, &phone),
        Err(ApplyFault::Mix(MixFault::MethodNotSaid))
    );
    spray.mixing.method_named = Some(true);
    let kept = spray.mixing.to_the_bottle(&phone.state, Method::Spray);
    phone.act(kept.expect("a use"));
    let uses = phone.state.facts().products[&id].uses.or_default();
    let ways: Vec<_> = uses.iter().map(|one| one.methods.as_slice()).collect();
    let both = [Method::Spray, Method::Bath];
    assert_eq!(ways, [&both[..], &[Method::Spray]]);
    let done = treated(&mut phone, &spray).remove(0);
    assert_eq!(
        (done.amount_ul, done.product.reentry_h),
        (Some(6_000), Some(24))
    );
}

#[test]
fn a_tank_is_allowed_by_the_uses_for_what_its_products_are_for() {
    let (mut phone, _) = nursery();
    let (one, other) = two(&mut phone, true);
    let known = phone.state.facts().products[&one].uses.or_default();
    let allowing = LabelUse {
        against: vec![AgentClass::Fungus],
        ..known[0].clone()
    };
    let silent = LabelUse {
        key: "use-2".to_owned(),
        against: vec![AgentClass::Mite],
        mix_with: Vec::new(),
        ..allowing.clone()
    };
    phone.act(Command::SetProduct {
        product: Some(one),
        traits: ProductTraits {
            uses: Some(vec![allowing, silent]),
            ..ProductTraits::default()
        },
    });
    let mut spray = sprayed_with(&mut phone, one, AgentClass::Fungus);
    spray.mixing.partner = partner(other);
    assert!(ready(&spray, &phone).is_ok());
    spray.mixing.against = Some(AgentClass::Mite);
    assert!(matches!(
        ready(&spray, &phone),
        Err(ApplyFault::Mix(MixFault::Tank(
            TankFault::NotAllowed { .. }
        )))
    ));
}

#[test]
fn hours_typed_for_one_bottle_are_neither_those_of_the_next_nor_written_onto_it() {
    let (mut phone, _) = nursery();
    let uses = vec![without_hours()];
    let first = product(&mut phone, "A", &["triforine"], uses.clone());
    let bare = product(&mut phone, "B", &["triforine"], uses);
    let day = LabelUse {
        reentry_h: Some(24),
        ..without_hours()
    };
    let strict = product(&mut phone, "C", &["triforine"], vec![day]);
    let mut spray = sprayed_with(&mut phone, first, AgentClass::Fungus);
    spray.mixing.reentry_h = Some(2);
    spray.mixing.reason = "Asked the maker of A.".to_owned();
    spray.mixing.rotation_reason = "Nothing else was there.".to_owned();
    spray.mixing.put_back();
    spray.mixing.product = Some(bare);
    assert_eq!(spray.until_ms(&phone.state, 0), None);
    assert_eq!(
        spray.mixing.to_the_bottle(&phone.state, Method::Spray),
        None
    );
    assert_eq!(spray.mixing.reasons(&phone.state, Method::Spray), "");
    spray.mixing.reentry_h = Some(2);
    spray.mixing.put_back();
    spray.mixing.product = Some(strict);
    assert_eq!(spray.until_ms(&phone.state, 0), Some(24 * HOUR_MS));
    let done = treated(&mut phone, &spray).remove(0);
    assert_eq!(done.product.reentry_h, Some(24));
    assert_eq!(done.until_ms, done.ended_ms.map(|ms| ms + 24 * HOUR_MS));

    // The second bottle of a tank is put back by the same hand.
    let mut tank = spray.mixing;
    tank.product = Some(bare);
    let mut second = partner(first).expect("a partner");
    second.reentry_h = Some(2);
    second.put_back();
    second.product = Some(strict);
    tank.partner = Some(second);
    assert_eq!(tank.reentry_hours(&phone.state, Method::Spray), Some(24));
}

#[test]
fn what_was_said_of_a_label_for_one_way_is_asked_anew_for_another() {
    let (mut phone, _) = nursery();
    let id = product(&mut phone, "A", &["triforine"], Vec::new());
    let beside = product(&mut phone, "B", &["spinosad"], Vec::new());
    let said = |id| Mixing {
        product: Some(id),
        against: Some(AgentClass::Fungus),
        method_named: Some(true),
        rate: "1 mL/L".to_owned(),
        reason: "Asked the maker.".to_owned(),
        reentry_h: Some(6),
        ..Mixing::default()
    };
    let mut work = sprayed_with(&mut phone, id, AgentClass::Fungus);
    work.mixing = Mixing {
        partner: Some(Box::new(said(beside))),
        ..said(id)
    };
    work.water.per_pot = "50".to_owned();
    work.step = ApplyStep::How;
    let as_it_was = work.mixing.clone();
    work.take_way(&phone.state, Method::Spray);
    assert_eq!((work.step, &work.mixing), (ApplyStep::What, &as_it_was));
    work.take_way(&phone.state, Method::Drench);
    assert_eq!(work.method, Some(Method::Drench));
    let second = work.mixing.partner.as_deref().expect("the second");
    for mixing in [&work.mixing, second] {
        assert_eq!(mixing.method_named, None);
        assert_eq!((mixing.rate.as_str(), mixing.reason.as_str()), ("", ""));
        assert_eq!(mixing.reentry_h, Some(6), "the label has no other hours");
    }
    work.mixing.partner = None;
    work.mixing.rate = "1 mL/L".to_owned();
    assert_eq!(
        ready(&work, &phone),
        Err(ApplyFault::Mix(MixFault::MethodNotSaid))
    );
}

#[test]
fn hours_and_a_rate_typed_for_one_use_of_a_label_do_not_outlive_the_choice_of_another() {
    let (mut phone, _) = nursery();
    let drench = LabelUse {
        key: "use-3".to_owned(),
        reentry_h: Some(48),
        ..use_of(&[Method::Drench], "1 mL/L")
    };
    let uses = vec![fungus(), mite(), drench];
    let id = product(&mut phone, "A", &["triforine"], uses);
    let mut work = sprayed_with(&mut phone, id, AgentClass::Fungus);
    let typed = |work: &mut ApplyDraft| {
        work.mixing.rate = "0.9 mL/L".to_owned();
        work.mixing.reentry_h = Some(5);
    };
    let hours =
        |work: &ApplyDraft, phone: &Phone| work.until_ms(&phone.state, 0).map(|ms| ms / HOUR_MS);
    typed(&mut work);
    let spray = Method::Spray;
    work.mixing
        .go_against(&phone.state, spray, Some(AgentClass::Fungus));
    assert_eq!(
        (hours(&work, &phone), work.mixing.rate.as_str()),
        (Some(5), "0.9 mL/L")
    );
    work.mixing
        .go_against(&phone.state, spray, Some(AgentClass::Mite));
    assert_eq!(
        (hours(&work, &phone), work.mixing.rate.as_str()),
        (Some(24), "")
    );
    typed(&mut work);
    work.take_way(&phone.state, Method::Drench);
    assert_eq!(
        (hours(&work, &phone), work.mixing.rate.as_str()),
        (Some(48), "")
    );
}

#[test]
fn an_answer_about_one_use_of_a_label_is_not_carried_to_the_use_for_another_target() {
    let open = |key: &str, agent| LabelUse {
        key: key.to_owned(),
        against: vec![agent],
        ..use_of(&[], "1 mL/L")
    };
    let uses = vec![
        open("use-1", AgentClass::Fungus),
        open("use-2", AgentClass::Mite),
    ];
    let (mut phone, _) = nursery();
    let id = product(&mut phone, "A", &["triforine"], uses);
    let mut mixing = Mixing {
        product: Some(id),
        against: Some(AgentClass::Fungus),
        method_named: Some(true),
        reason: "the label says so".to_owned(),
        ..Mixing::default()
    };
    mixing.go_against(&phone.state, Method::Bath, Some(AgentClass::Fungus));
    assert_eq!(mixing.method_named, Some(true), "it is still the same use");
    mixing.go_against(&phone.state, Method::Bath, Some(AgentClass::Mite));
    assert_eq!((mixing.method_named, mixing.reason.as_str()), (None, ""));
}
