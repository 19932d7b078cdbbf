//! A bath as it is used: topped up, ended, pots in it with the plants; and what of it the other phone sees.

use velamen_core::apply::Mixing;
use velamen_core::bath::{BathDraft, TubDraft};
use velamen_core::command::{Command, ContainerTraits, ProductTraits};
use velamen_core::event::{AgentClass, Event, WithdrawWhy};
use velamen_core::id::{LotId, ProductId};
use velamen_core::quantity::Volume;
use velamen_core::rejection::Rejection;
use velamen_core::view::treat::standing_baths;
use velamen_tests::Phone;

use crate::containers::{bottle, left, ml, shelf};

/// A bath of 20 L with ten plants out of it, its bottle fixed.
fn used_bath(phone: &mut Phone, lot: LotId, product: ProductId) -> BathDraft {
    let mut bath = BathDraft {
        mixing: Mixing {
            product: Some(product),
            against: Some(AgentClass::Fungus),
            ..Mixing::default()
        },
        tub: TubDraft {
            litres: "20".to_owned(),
            ..TubDraft::default()
        },
        ..BathDraft::default()
    };
    bath.mixing.settle_container(&phone.state, phone.today);
    bath.mixed(phone.now_ms, phone.dev);
    bath.switch_lot(lot);
    bath.start(&phone.state, phone.now_ms).unwrap();
    phone.wait_min(12);
    let record = bath.record(&phone.state, phone.now_ms).unwrap();
    let done = phone.act(record);
    bath.taken_out();
    let Some(Event::Treated(treated)) = done.events.first() else {
        panic!("{:?}", done.events);
    };
    bath.mixed_for = Some(treated.treatment);
    bath
}

#[test]
fn a_top_up_is_of_the_original_strength_and_seen_on_the_other_phone() {
    let (mut phone, lot, product) = shelf();
    bottle(&mut phone, product, 500, ContainerTraits::default());
    let mut bath = used_bath(&mut phone, lot, product);
    assert_eq!(bath.top_up(&phone.state), None, "nothing is missing yet");
    bath.life.level_typed = "16".to_owned();
    bath.read_level().unwrap();
    let four = Volume::from_ul(4_000_000);
    assert_eq!(bath.top_up(&phone.state), Some((four, ml(6))));
    let (command, after) = bath.topped_up(&phone.state).unwrap();
    phone.act(command);
    assert_eq!(after.level().unwrap(), Volume::from_ul(20_000_000));
    assert_eq!(after.top_up(&phone.state), None);
    assert_eq!(left(&phone, product), [500 - 30 - 6]);

    let mut other = Phone::new(9, "2027-03-01");
    other.take_in(&phone.hand_over());
    let seen = standing_baths(&other.state, other.today).remove(0);
    assert_eq!((seen.pieces, seen.topped), (10, 1));

    let end = after
        .ending(&phone.state, " on plants of the label ")
        .unwrap();
    phone.act(end.clone());
    assert_eq!(phone.refusal(end), Rejection::BathOver);
    assert_eq!(after.ending(&phone.state, ""), None, "over is over");
    other.take_in(&phone.hand_over());
    assert_eq!(standing_baths(&other.state, other.today), []);
    let line = velamen_core::record::rows(&other.state).remove(0);
    assert_eq!(line.disposal, "on plants of the label");
    let rule = velamen_core::record::rule(other.state.facts());
    let table = velamen_core::record::csv(&[line], &rule);
    assert!(table.contains("6 mL in 4 L"), "{table}");
}

#[test]
fn a_bath_mixed_and_never_used_is_off_its_bottle_all_the_same() {
    let (mut phone, lot, product) = shelf();
    bottle(&mut phone, product, 500, ContainerTraits::default());
    let mut bath = BathDraft {
        mixing: Mixing {
            product: Some(product),
            against: Some(AgentClass::Fungus),
            ..Mixing::default()
        },
        tub: TubDraft {
            litres: "20".to_owned(),
            ..TubDraft::default()
        },
        ..BathDraft::default()
    };
    assert_eq!(bath.ending(&phone.state, ""), None, "nothing was mixed");
    bath.mixing.settle_container(&phone.state, phone.today);
    bath.mixed(phone.now_ms, phone.dev);
    let end = bath.ending(&phone.state, "").unwrap();
    phone.act(end);
    assert_eq!(left(&phone, product), [470]);
    // What was put right away goes with what it was put into.
    let standing = used_bath(&mut phone, lot, product);
    let bad = Command::TopUpBath {
        bath: standing.mixed_for.unwrap(),
        water: Volume::from_ul(0),
        amount: ml(0),
        container: None,
    };
    assert!(matches!(phone.refusal(bad), Rejection::OutOfRange { .. }));
}

#[test]
fn a_treatment_taken_back_takes_its_top_ups_back_too() {
    let (mut phone, lot, product) = shelf();
    bottle(&mut phone, product, 500, ContainerTraits::default());
    let mut bath = used_bath(&mut phone, lot, product);
    bath.life.level_typed = "10".to_owned();
    bath.read_level().unwrap();
    let (command, _) = bath.topped_up(&phone.state).unwrap();
    phone.act(command);
    assert_eq!(left(&phone, product), [455]);
    let entry = phone
        .state
        .facts()
        .treatments
        .values()
        .next()
        .unwrap()
        .entry;
    phone.act(Command::Withdraw {
        targets: vec![entry],
        with_dependents: true,
        why: WithdrawWhy::Mistake,
        note: String::new(),
    });
    assert_eq!(left(&phone, product), [500]);
}

#[test]
fn emptied_pots_go_in_only_where_the_label_allows_and_are_no_cleaner_for_it() {
    let (mut phone, lot, product) = shelf();
    let pots = |phone: &mut Phone| {
        let mut bath = BathDraft {
            mixing: Mixing {
                product: Some(product),
                against: Some(AgentClass::Fungus),
                ..Mixing::default()
            },
            pots: 6,
            tub: TubDraft {
                litres: "20".to_owned(),
                ..TubDraft::default()
            },
            ..BathDraft::default()
        };
        bath.mixed(phone.now_ms, phone.dev);
        bath.switch_lot(lot);
        bath.start(&phone.state, phone.now_ms).unwrap();
        phone.wait_min(12);
        let record = bath.record(&phone.state, phone.now_ms).unwrap();
        match phone.act(record).events.into_iter().next() {
            Some(Event::Treated(treated)) => treated.pots,
            other => panic!("{other:?}"),
        }
    };
    assert_eq!(pots(&mut phone), 0, "the label is silent");
    let known = &phone.state.facts().products[&product];
    let mut uses = known.uses.get().cloned().unwrap();
    uses[0].pots_too = true;
    phone.act(Command::SetProduct {
        product: Some(product),
        traits: ProductTraits {
            uses: Some(uses),
            ..ProductTraits::default()
        },
    });
    let before = phone.state.facts().book.materials.clone();
    assert_eq!(pots(&mut phone), 6);
    assert_eq!(phone.state.facts().book.materials, before, "none is clean");
}
