//! Questions the book asks: their keys stay the same, an answer ends them on every phone.

use velamen_core::apply::Mixing;
use velamen_core::code::Prefix;
use velamen_core::command::{Command, PlaceTraits, ProductTraits};
use velamen_core::event::{ActiveCopy, Event, LabelUse, Method, PieceClass, WithdrawWhy};
use velamen_core::id::{ClumpId, Dev, EntryRef, LotId, ProductId, Subject, ThingId};
use velamen_core::name::PlantName;
use velamen_core::rejection::Rejection;
use velamen_core::season::{Hemisphere, Warmth};
use velamen_core::state::{Anomaly, FieldKey};
use velamen_core::view::questions::questions;
use velamen_tests::Phone;

#[test]
fn the_key_of_every_question_is_fixed() {
    let entry = |seq| EntryRef { dev: Dev(7), seq };
    let thing = |seq| ThingId {
        entry: entry(seq),
        n: 0,
    };
    let (lot, clump) = (LotId(thing(3)), ClumpId(thing(4)));
    let prefix = Prefix::pick(1);
    let code = prefix.code(12).unwrap();
    let (count, change, kept, other) = (entry(5), entry(6), entry(8), entry(9));
    let (dev, branch) = (Dev(7), Dev(8));
    let subject = Subject::Lot(lot);
    let all = [
        Anomaly::Overdrawn {
            lot,
            plants: -2,
            stands: 0,
        },
        Anomaly::CountCrossed { lot, count, change },
        Anomaly::Disputed {
            subject,
            field: FieldKey::Name,
            kept,
            other,
        },
        Anomaly::PottedMoreThanTaken {
            clump,
            class: PieceClass::BackBulb,
            taken: 3,
            potted: 4,
        },
        Anomaly::CodeTwice {
            code,
            lots: vec![lot],
        },
        Anomaly::PrefixTwice {
            prefix,
            phones: vec![dev],
        },
        Anomaly::RestsOnWithdrawn {
            subject,
            entry: kept,
        },
        Anomaly::ClockAstray {
            dev,
            from_seq: 3,
            to_seq: 9,
            off_ms: 5,
        },
        Anomaly::PhoneCopied { dev, branch },
    ];
    let keys: Vec<String> = all.iter().map(Anomaly::key).collect();
    let fixed = [
        "overdrawn -2 0".to_owned(),
        "count_crossed 0000000000007-5 0000000000007-6".to_owned(),
        "disputed Name 0000000000007-8 0000000000007-9".to_owned(),
        "potted_more BackBulb 3 4".to_owned(),
        format!("code_twice {code}"),
        format!("prefix_twice {prefix}"),
        "rests_on_withdrawn 0000000000007-8".to_owned(),
        "clock_astray 3 9".to_owned(),
        "phone_copied 0000000000008".to_owned(),
    ];
    assert_eq!(keys, fixed);
    assert_eq!(
        (code.to_string(), prefix.to_string()),
        ("Y3-012E".to_owned(), "Y3".to_owned())
    );
}

fn two_phones() -> (Phone, Phone) {
    let mut first = Phone::new(7, "2027-03-11");
    first.open_book(Hemisphere::North);
    let mut second = Phone::new(8, "2027-03-11");
    second.take_in(&first.hand_over());
    let name = "second".to_owned();
    second.act(Command::JoinPhone {
        prefix: Prefix::pick(8),
        name,
    });
    (first, second)
}

/// The one open question, answered; and it is not asked again, here or on the other phone.
#[track_caller]
fn answer(phone: &mut Phone, other: &mut Phone) {
    let open = phone.state.anomalies();
    assert_eq!(open.len(), 1, "{open:?}");
    let settle = Command::Settle {
        subject: open[0].subject(),
        anomaly: open[0].key(),
        note: String::new(),
    };
    phone.act(settle.clone());
    assert_eq!(phone.state.anomalies(), Vec::new());
    assert_eq!(phone.refusal(settle), Rejection::NothingToDo);
    other.take_in(&phone.hand_over());
    assert_eq!(other.state.anomalies(), Vec::new());
}

#[test]
fn a_pot_named_differently_on_two_phones_is_asked_about_until_it_is_answered() {
    let (mut first, mut second) = two_phones();
    let pot = *first.state.facts().pots.keys().next().unwrap();
    let name = |name: &str| Command::SetPot {
        pot: Some(pot),
        name: Some(name.to_owned()),
        form: None,
        retired: None,
    };
    first.act(name("tall"));
    second.act(name("deep"));
    first.take_in(&second.hand_over());
    answer(&mut first, &mut second);
    // Naming it again, now that both are known, raises no new question.
    first.act(name("tall and deep"));
    assert_eq!(first.state.anomalies(), Vec::new());
}

#[test]
fn what_rests_on_something_withdrawn_is_asked_about_until_it_is_answered() {
    let (mut first, mut second) = two_phones();
    let bench = first.place("Cool house", Warmth::Cool);
    let lot = first.lot("Cymbidium lowianum", 4, bench);
    let received = lot.0.entry;
    second.take_in(&first.hand_over());
    second.act(Command::CountLot {
        lot,
        plants: 3,
        stands: 3,
    });
    let withdraw = |with_dependents| Command::Withdraw {
        targets: vec![received],
        with_dependents,
        why: WithdrawWhy::Mistake,
        note: String::new(),
    };
    first.act(withdraw(false));
    let mut both = second.clone();
    both.take_in(&first.hand_over());
    answer(&mut both, &mut first);
    // Who knows of the count first has to take it back too.
    let entries = vec![second.state.log().in_order().next_back().unwrap().id];
    assert_eq!(
        second.refusal(withdraw(false)),
        Rejection::OthersRestOnIt { entries }
    );
    second.act(withdraw(true));
    assert_eq!(second.state.anomalies(), Vec::new());
}

#[test]
fn a_count_that_crossed_a_sale_is_asked_about_until_it_is_answered() {
    let (mut first, mut second) = two_phones();
    let bench = first.place("Cool house", Warmth::Cool);
    let lot = first.lot("Cymbidium lowianum", 4, bench);
    second.take_in(&first.hand_over());
    second.act(Command::CountLot {
        lot,
        plants: 4,
        stands: 4,
    });
    first.act(Command::SellFromLot {
        lot,
        plants: 1,
        stands: 1,
        to: String::new(),
        price_cents: None,
        note: String::new(),
    });
    second.take_in(&first.hand_over());
    answer(&mut second, &mut first);
}

#[test]
fn a_lot_named_differently_on_two_phones_is_answered_by_either_name() {
    let (mut first, mut second) = two_phones();
    let bench = first.place("Cool house", Warmth::Cool);
    let lot = first.lot("Cymbidium", 4, bench);
    second.take_in(&first.hand_over());
    let name = |phone: &mut Phone, typed: &str| {
        let name = PlantName::from_typed(typed);
        phone.act(Command::NameLot { lot, name })
    };
    name(&mut first, "Cymbidium lowianum");
    name(&mut second, "Cymbidium tracyanum");
    first.take_in(&second.hand_over());
    let asked = questions(&first.state);
    assert_eq!((asked.len(), asked[0].sides.len()), (1, 2), "{asked:?}");
    assert_eq!(asked[0].lots, vec![lot]);
    let kept = first.state.facts().lots[&lot].name.or_default().plain();
    assert_eq!(asked[0].sides[0].again, None, "that one counts already");
    let other = asked[0].sides[1].again.clone().unwrap();
    first.act(other);
    assert_eq!(first.state.anomalies(), Vec::new());
    assert_ne!(
        first.state.facts().lots[&lot].name.or_default().plain(),
        kept
    );
    second.take_in(&first.hand_over());
    assert_eq!(second.state.anomalies(), Vec::new());
}

#[test]
fn a_house_warmed_on_one_phone_and_cooled_on_the_other_is_answered_by_one_of_both() {
    let (mut first, mut second) = two_phones();
    let place = first.place("The house", Warmth::Intermediate);
    second.take_in(&first.hand_over());
    let warmth = |warmth| Command::SetPlace {
        place: Some(place),
        name: None,
        walk: None,
        about: PlaceTraits {
            warmth: Some(warmth),
            ..PlaceTraits::default()
        },
    };
    first.act(warmth(Warmth::Cool));
    second.act(warmth(Warmth::Warm));
    first.take_in(&second.hand_over());
    let asked = questions(&first.state);
    let again: Vec<_> = asked[0].sides.iter().map(|side| &side.again).collect();
    assert!(again[0].is_none() && again[1].is_some(), "{asked:?}");
    first.act(again[1].clone().unwrap());
    assert_eq!(first.state.anomalies(), Vec::new());
}

fn label(product: Option<ProductId>, traits: ProductTraits) -> Command {
    Command::SetProduct { product, traits }
}

/// A product on the shelf of both phones, with these traits.
fn on_the_shelf(first: &mut Phone, second: &mut Phone, traits: ProductTraits) -> ProductId {
    let named = ProductTraits {
        label_name: Some("Bottle A".to_owned()),
        ..traits
    };
    let done = first.act(label(None, named));
    second.take_in(&first.hand_over());
    match &done.events[0] {
        Event::ProductSet(set) => set.product,
        other => panic!("{other:?}"),
    }
}

#[test]
fn hours_put_right_on_one_phone_are_asked_about_where_another_wrote_its_own_use_onto_the_label() {
    let (mut first, mut second) = two_phones();
    let dip = |hours| LabelUse {
        key: "use-1".to_owned(),
        methods: vec![Method::Bath],
        reentry_h: Some(hours),
        ..LabelUse::default()
    };
    let open = LabelUse {
        key: "use-2".to_owned(),
        ..LabelUse::default()
    };
    let uses = |hours| ProductTraits {
        uses: Some(vec![dip(hours), open.clone()]),
        ..ProductTraits::default()
    };
    let product = on_the_shelf(&mut first, &mut second, uses(4));
    first.act(label(Some(product), uses(48)));
    // The other drenches with it, and that the label names drenching goes onto the bottle, with the list as it was.
    second.wait_min(60);
    let drench = Mixing {
        product: Some(product),
        method_named: Some(true),
        ..Mixing::default()
    };
    let kept = drench.to_the_bottle(&second.state, Method::Drench);
    second.act(kept.expect("a use more"));
    let of = |phone: &Phone| phone.state.facts().products[&product].uses.or_default();
    assert_eq!(of(&second)[1].methods, [Method::Drench]);
    let arrivals = [
        (first.clone(), second.clone()),
        (second.clone(), first.clone()),
    ];
    for (mut phone, mut other) in arrivals {
        phone.take_in(&other.hand_over());
        let asked = questions(&phone.state);
        assert_eq!(asked.len(), 1, "{asked:?}");
        let subject = Subject::Product(product);
        let field = FieldKey::Uses;
        assert!(
            matches!(asked[0].anomaly, Anomaly::Disputed { subject: of, field: what, .. } if of == subject && what == field)
        );
        assert_eq!(of(&phone)[0].reentry_h, Some(4), "the later one counts");
        let again: Vec<_> = asked[0].sides.iter().map(|side| &side.again).collect();
        assert!(again[0].is_none() && again[1].is_some(), "{asked:?}");
        // Right as it stands, on one; the other side is right, on the other.
        let mut settled = phone.clone();
        answer(&mut settled, &mut other.clone());
        assert_eq!(of(&settled)[0].reentry_h, Some(4));
        phone.act(again[1].clone().unwrap());
        assert_eq!(of(&phone)[0].reentry_h, Some(48));
        assert_eq!(phone.state.anomalies(), Vec::new());
        other.take_in(&phone.hand_over());
        assert_eq!(other.state.anomalies(), Vec::new());
        assert_eq!(of(&other)[0].reentry_h, Some(48));
    }
}

#[test]
fn whatever_two_phones_say_differently_of_a_label_is_asked_about_and_answered_by_either_side() {
    let none = ProductTraits::default;
    let active = |name: &str| {
        vec![ActiveCopy {
            name: name.to_owned(),
            ..ActiveCopy::default()
        }]
    };
    let text = |text: &str| Some(text.to_owned());
    let kinds: [(FieldKey, [ProductTraits; 2]); 6] = [
        (
            FieldKey::Name,
            ["Bottle B", "Bottle C"].map(|it| ProductTraits {
                label_name: text(it),
                ..none()
            }),
        ),
        (
            FieldKey::Rate,
            ["5 mL/L", "10 mL/L"].map(|it| ProductTraits {
                rate_typed: text(it),
                ..none()
            }),
        ),
        (
            FieldKey::Reentry,
            [4, 48].map(|it| ProductTraits {
                reentry_h: Some(it),
                ..none()
            }),
        ),
        (
            FieldKey::Actives,
            ["copper hydroxide", "mancozeb"].map(|it| ProductTraits {
                actives: Some(active(it)),
                ..none()
            }),
        ),
        (
            FieldKey::Registration,
            ["123-4", "123-5"].map(|it| ProductTraits {
                registration: text(it),
                ..none()
            }),
        ),
        (
            FieldKey::Formulation,
            ["EC", "WG"].map(|it| ProductTraits {
                formulation: text(it),
                ..none()
            }),
        ),
    ];
    for (wanted, [one, two]) in kinds {
        let (mut first, mut second) = two_phones();
        let product = on_the_shelf(&mut first, &mut second, none());
        first.act(label(Some(product), one));
        second.act(label(Some(product), two));
        first.take_in(&second.hand_over());
        let asked = questions(&first.state);
        let fields: Vec<FieldKey> = asked
            .iter()
            .filter_map(|it| match it.anomaly {
                Anomaly::Disputed { field, .. } => Some(field),
                _ => None,
            })
            .collect();
        assert_eq!(fields, [wanted]);
        let before = first.state.facts().products[&product].clone();
        first.act(asked[0].sides[1].again.clone().unwrap());
        assert_eq!(first.state.anomalies(), Vec::new(), "{wanted:?}");
        assert_ne!(before, first.state.facts().products[&product]);
    }
}

#[test]
fn two_phones_that_open_different_bags_of_one_mix_are_asked_which_is_in_use() {
    let (mut one, _) = crate::scene::nursery(
        velamen_core::season::Hemisphere::North,
        velamen_core::season::Warmth::Cool,
        "2027-03-11",
    );
    let mix = *one.state.facts().mixes.keys().next().unwrap();
    let mut two = Phone::new(8, "2027-03-11");
    two.take_in(&one.hand_over());
    two.act(Command::JoinPhone {
        prefix: velamen_core::code::Prefix::pick(99),
        name: "second".to_owned(),
    });
    let open = |batch: &str, load: &str| {
        Command::SetBook(velamen_core::event::BookSet {
            mix_open: Some(velamen_core::event::MixOpen {
                mix,
                batch: batch.to_owned(),
            }),
            stone_open: Some(load.to_owned()),
            ..velamen_core::event::BookSet::default()
        })
    };
    one.act(open("bag 7", "load 1"));
    two.act(open("bag 8", "load 1"));
    let (from_one, from_two) = (one.hand_over(), two.hand_over());
    one.take_in(&from_two);
    two.take_in(&from_one);
    // One load of stone was said by both: that is no question.
    for phone in [&one, &two] {
        let asked = questions(&phone.state);
        assert_eq!(asked.len(), 1, "{asked:?}");
    }
    let again = questions(&one.state)[0]
        .sides
        .iter()
        .find_map(|side| side.again.clone())
        .unwrap();
    // Whichever came to hold by the clocks, the other one can be said again.
    let Command::SetBook(said) = &again else {
        panic!("{again:?}");
    };
    let said = said.mix_open.clone().unwrap().batch;
    let held = one.state.facts().book.mix_open[&mix].get().cloned();
    assert_ne!(held.as_deref(), Some(said.as_str()));
    one.act(again);
    two.take_in(&one.hand_over());
    for phone in [&one, &two] {
        assert_eq!(questions(&phone.state), []);
        let open = &phone.state.facts().book.mix_open[&mix];
        assert_eq!(open.get(), Some(&said));
    }
}
