//! Bottles on the shelf: what a bath takes is gone from its bottle, and comes back when the bath is taken back.

use velamen_core::apply::{Mixing, TakenFrom};
use velamen_core::bath::{BathDraft, TubDraft};
use velamen_core::command::{Command, ContainerTraits, NextTreatment, ProductTraits};
use velamen_core::container_draft::ContainerDraft;
use velamen_core::event::{
    AgentClass, Event, Held, LabelUse, Method, Outcome, ProductCopy, TaskAnswer, TreatedPart,
    UsedWhy, WithdrawWhy,
};
use velamen_core::id::{ContainerId, EntryRef, LotId, ProductId, Subject};
use velamen_core::quantity::{Amount, Mass, Volume};
use velamen_core::rejection::{Caution, Rejection};
use velamen_core::season::{Hemisphere, Warmth};
use velamen_core::state::Anomaly;
use velamen_core::task::TaskKind;
use velamen_core::view::buying::{BuyRow, Shelf, to_buy};
use velamen_core::view::containers::{ContainerRow, Dated, of_product};
use velamen_tests::{Phone, day, treatment};

use crate::scene::{decide, nursery, task};

pub(crate) fn shelf() -> (Phone, LotId, ProductId) {
    let (mut phone, bench) = nursery(Hemisphere::North, Warmth::Cool, "2027-03-01");
    let lot = phone.lot("Cymbidium lowianum", 10, bench);
    let product = product(&mut phone, "Thirty");
    (phone, lot, product)
}

fn product(phone: &mut Phone, name: &str) -> ProductId {
    let done = phone.act(Command::SetProduct {
        product: None,
        traits: ProductTraits {
            label_name: Some(name.to_owned()),
            uses: Some(vec![LabelUse {
                key: "use-1".to_owned(),
                methods: vec![Method::Bath],
                rate_typed: "1.5 mL/L".to_owned(),
                soak_s: Some(600),
                ..LabelUse::default()
            }]),
            ..ProductTraits::default()
        },
    });
    match done.events.first() {
        Some(Event::ProductSet(set)) => set.product,
        other => panic!("{other:?}"),
    }
}

pub(crate) fn bottle(
    phone: &mut Phone,
    product: ProductId,
    ml: i64,
    traits: ContainerTraits,
) -> ContainerId {
    let done = phone.act(Command::SetContainer {
        container: None,
        traits: ContainerTraits {
            product: Some(product),
            held: Some(Held::Ul(ml * 1_000)),
            ..traits
        },
    });
    match done.events.first() {
        Some(Event::ContainerSet(set)) => set.container,
        other => panic!("{other:?}"),
    }
}

fn used(phone: &mut Phone, lot: LotId, copy: ProductCopy, ml: i64) -> (EntryRef, Vec<Caution>) {
    let plants = u32::try_from(phone.state.facts().lots[&lot].plants).unwrap();
    let parts = vec![TreatedPart::Lot { lot, plants }];
    let mut bath = treatment(parts, AgentClass::Fungus, copy);
    bath.water_ul = Some(20_000_000);
    bath.amount_ul = Some(ml * 1_000);
    let done = phone.act(Command::RecordTreatment(bath));
    (done.entry, done.cautions)
}

fn copy(product: ProductId, container: Option<ContainerId>) -> ProductCopy {
    ProductCopy {
        product: Some(product),
        label_name: "Thirty".to_owned(),
        container,
        ..ProductCopy::default()
    }
}

fn rows(phone: &Phone, product: ProductId) -> Vec<ContainerRow> {
    of_product(&phone.state, product, phone.today)
}

pub(crate) fn left(phone: &Phone, product: ProductId) -> Vec<i64> {
    let rows = rows(phone, product);
    rows.iter()
        .map(|row| row.left_figure().unwrap() / 1_000)
        .collect()
}

/// What the Round says is missing.
fn missing(phone: &Phone) -> Vec<BuyRow> {
    velamen_core::view::round::round(&phone.state, phone.today).missing
}

pub(crate) fn ml(ml: i64) -> Amount {
    Amount::Volume(Volume::from_ul(ml * 1_000))
}

#[test]
fn a_bath_takes_from_its_bottle_and_gives_back_what_was_recorded_wrongly() {
    let (mut phone, lot, product) = shelf();
    let id = bottle(&mut phone, product, 500, ContainerTraits::default());
    let (entry, cautions) = used(&mut phone, lot, copy(product, Some(id)), 30);
    assert_eq!((left(&phone, product), cautions), (vec![470], vec![]));
    let row = rows(&phone, product).remove(0);
    assert_eq!(row.opened_on, Some(day("2027-03-01")), "by its first use");

    let known = phone.state.facts().treatments.values().next().unwrap();
    let mut event = known.event.clone();
    event.amount_ul = Some(25_000);
    phone.act(Command::Amend {
        target: entry,
        index: 0,
        event: event.into(),
        why: "a smaller tub".to_owned(),
    });
    assert_eq!(left(&phone, product), [475]);

    phone.act(Command::Withdraw {
        targets: vec![entry],
        with_dependents: true,
        why: WithdrawWhy::Mistake,
        note: String::new(),
    });
    assert_eq!(left(&phone, product), [500]);
}

#[test]
fn a_second_batch_in_the_same_mixture_takes_nothing_more() {
    let (mut phone, lot, product) = shelf();
    let id = bottle(&mut phone, product, 500, ContainerTraits::default());
    used(&mut phone, lot, copy(product, Some(id)), 30);
    let first = *phone.state.facts().treatments.keys().next().unwrap();
    let parts = vec![TreatedPart::Lot { lot, plants: 2 }];
    let mut second = treatment(parts, AgentClass::Fungus, copy(product, Some(id)));
    second.same_mix_as = Some(first);
    phone.act(Command::RecordTreatment(second));
    assert_eq!(left(&phone, product), [470]);
}

#[test]
fn the_oldest_open_one_in_date_goes_first_and_any_other_may_be_chosen() {
    let (mut phone, _, product) = shelf();
    let on = |day_text: &str| Some(day(day_text));
    let sealed = bottle(&mut phone, product, 500, ContainerTraits::default());
    let newer = ContainerTraits {
        opened_on: on("2027-02-01"),
        batch: Some("B 7".to_owned()),
        ..ContainerTraits::default()
    };
    let newer = bottle(&mut phone, product, 500, newer);
    let older = ContainerTraits {
        opened_on: on("2027-01-05"),
        expires_on: on("2027-03-20"),
        ..ContainerTraits::default()
    };
    let older = bottle(&mut phone, product, 500, older);
    let order = |phone: &Phone| -> Vec<ContainerId> {
        rows(phone, product).iter().map(|it| it.container).collect()
    };
    assert_eq!(order(&phone), [older, newer, sealed]);
    assert_eq!(rows(&phone, product)[0].dated, Dated::Soon);

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
    let chosen = |bath: &BathDraft, phone: &Phone| {
        let row = bath.mixing.container(&phone.state, phone.today);
        row.map(|row| row.container)
    };
    assert_eq!(chosen(&bath, &phone), Some(older));
    bath.mixing.from = TakenFrom::Chosen(newer);
    assert_eq!(chosen(&bath, &phone), Some(newer));
    bath.mixing.from = TakenFrom::Another;
    assert_eq!(chosen(&bath, &phone), None);

    phone.on("2027-03-21");
    assert_eq!(order(&phone), [newer, sealed, older], "past its date");
    bath.mixing.from = TakenFrom::Next;
    bath.mixing.settle_container(&phone.state, phone.today);
    assert_eq!(bath.mixing.from, TakenFrom::Chosen(newer));
}

#[test]
fn a_bath_writes_its_bottle_and_the_batch_on_it() {
    let (mut phone, lot, product) = shelf();
    let traits = ContainerTraits {
        batch: Some("B 7".to_owned()),
        ..ContainerTraits::default()
    };
    let id = bottle(&mut phone, product, 500, traits);
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
    bath.ready_to_mix(&phone.state).unwrap();
    bath.mixing.settle_container(&phone.state, phone.today);
    bath.mixed(phone.now_ms, phone.dev);
    bath.switch_lot(lot);
    bath.start(&phone.state, phone.now_ms).unwrap();
    phone.wait_min(12);
    let record = bath.record(&phone.state, phone.now_ms).unwrap();
    let done = phone.act(record);
    let Some(Event::Treated(treated)) = done.events.first() else {
        panic!("{:?}", done.events);
    };
    assert_eq!(treated.product.container, Some(id));
    assert_eq!(treated.product.batch, "B 7");
    assert_eq!(left(&phone, product), [470]);
}

#[test]
fn more_than_it_held_is_said_recorded_and_asked_about_until_it_is_counted() {
    let (mut phone, lot, product) = shelf();
    let id = bottle(&mut phone, product, 40, ContainerTraits::default());
    used(&mut phone, lot, copy(product, Some(id)), 30);
    let (_, cautions) = used(&mut phone, lot, copy(product, Some(id)), 30);
    assert_eq!(
        cautions,
        [Caution::MoreThanHeld {
            container: id,
            left: ml(10)
        }]
    );
    assert!(rows(&phone, product)[0].overdrawn);
    assert_eq!(left(&phone, product), [0], "shown as nothing");
    assert_eq!(
        phone.state.anomalies(),
        [Anomaly::ContainerOverdrawn {
            container: id,
            over: 20_000
        }]
    );
    phone.act(Command::CountContainer {
        container: id,
        left: ml(5),
    });
    assert_eq!(left(&phone, product), [5]);
    assert_eq!(phone.state.anomalies(), []);
}

#[test]
fn a_count_holds_what_was_taken_before_it_and_a_use_of_an_earlier_day_is_in_it() {
    let (mut phone, lot, product) = shelf();
    let id = bottle(&mut phone, product, 500, ContainerTraits::default());
    phone.on("2027-03-05");
    used(&mut phone, lot, copy(product, Some(id)), 30);
    phone.act(Command::CountContainer {
        container: id,
        left: ml(400),
    });
    assert_eq!(left(&phone, product), [400], "the use before it is in it");
    used(&mut phone, lot, copy(product, Some(id)), 30);
    assert_eq!(left(&phone, product), [370]);
    // Written down late: it was before the count.
    let parts = vec![TreatedPart::Lot { lot, plants: 10 }];
    let mut late = treatment(parts, AgentClass::Fungus, copy(product, Some(id)));
    late.amount_ul = Some(30_000);
    phone.act(Command::OnDay {
        on: day("2027-03-02"),
        command: Box::new(Command::RecordTreatment(late)),
    });
    assert_eq!(left(&phone, product), [370]);
}

#[test]
fn two_phones_that_drew_from_one_bottle_without_knowing_come_to_the_sum() {
    let (mut phone, lot, product) = shelf();
    let id = bottle(&mut phone, product, 50, ContainerTraits::default());
    let mut other = Phone::new(9, "2027-03-02");
    other.take_in(&phone.hand_over());
    other.act(Command::JoinPhone {
        prefix: velamen_core::code::Prefix::pick(9),
        name: "other".to_owned(),
    });
    phone.on("2027-03-02");
    used(&mut phone, lot, copy(product, Some(id)), 30);
    let (_, cautions) = used(&mut other, lot, copy(product, Some(id)), 30);
    assert_eq!(cautions, [], "as far as that phone knows");
    phone.take_in(&other.hand_over());
    other.take_in(&phone.hand_over());
    let asked = [Anomaly::ContainerOverdrawn {
        container: id,
        over: 10_000,
    }];
    assert_eq!(phone.state.anomalies(), asked);
    assert_eq!(other.state.anomalies(), asked);
    assert_eq!(phone.state.digest(), other.state.digest());
    // "I know" is an answer too, until more is taken.
    phone.act(Command::Settle {
        subject: Subject::Container(id),
        anomaly: asked[0].key(),
        note: String::new(),
    });
    assert_eq!(phone.state.anomalies(), []);
    used(&mut phone, lot, copy(product, Some(id)), 30);
    assert_eq!(phone.state.anomalies().len(), 1);
}

#[test]
fn spilt_product_is_gone_without_a_treatment_and_an_empty_bottle_leaves_the_shelf() {
    let (mut phone, _, product) = shelf();
    let id = bottle(&mut phone, product, 500, ContainerTraits::default());
    phone.act(Command::UseFromContainer {
        container: id,
        amount: ml(120),
        why: UsedWhy::Spilt,
        note: String::new(),
    });
    assert_eq!(left(&phone, product), [380]);
    phone.act(ContainerDraft::retire(id));
    assert_eq!(rows(&phone, product), []);
}

#[test]
fn bad_amounts_get_a_refusal_and_change_nothing() {
    let (mut phone, lot, product) = shelf();
    let id = bottle(&mut phone, product, 500, ContainerTraits::default());
    let grams = Amount::Mass(Mass::from_mg(1_000));
    let count = |left| Command::CountContainer {
        container: id,
        left,
    };
    assert_eq!(
        phone.refusal(count(grams)),
        Rejection::OtherUnit { weighs: false }
    );
    assert!(matches!(
        phone.refusal(count(ml(-1))),
        Rejection::OutOfRange { .. }
    ));
    let other = self::product(&mut phone, "Another");
    let parts = vec![TreatedPart::Lot { lot, plants: 1 }];
    let wrong = treatment(parts, AgentClass::Fungus, copy(other, Some(id)));
    assert_eq!(
        phone.refusal(Command::RecordTreatment(wrong)),
        Rejection::NotInTheBook {
            subject: Subject::Container(id)
        }
    );
    assert_eq!(left(&phone, product), [500]);
}

#[test]
fn a_dated_bottle_that_is_past_it_is_said_and_recorded() {
    let (mut phone, lot, product) = shelf();
    let traits = ContainerTraits {
        expires_on: Some(day("2027-03-10")),
        ..ContainerTraits::default()
    };
    let id = bottle(&mut phone, product, 500, traits);
    phone.on("2027-03-10");
    let (_, cautions) = used(&mut phone, lot, copy(product, Some(id)), 30);
    assert_eq!(cautions, [], "good through its day");
    phone.on("2027-03-11");
    let (_, cautions) = used(&mut phone, lot, copy(product, Some(id)), 30);
    let on = day("2027-03-10");
    assert_eq!(cautions, [Caution::Expired { container: id, on }]);
}

#[test]
fn low_is_less_than_a_common_use_or_a_tenth_of_it() {
    let (mut phone, lot, product) = shelf();
    let id = bottle(&mut phone, product, 500, ContainerTraits::default());
    let low = |phone: &Phone| rows(phone, product)[0].low;
    phone.act(Command::CountContainer {
        container: id,
        left: ml(50),
    });
    assert!(!low(&phone), "a tenth is not less than a tenth");
    phone.act(Command::CountContainer {
        container: id,
        left: ml(49),
    });
    assert!(low(&phone));
    phone.act(Command::CountContainer {
        container: id,
        left: ml(200),
    });
    used(&mut phone, lot, copy(product, None), 201);
    assert!(low(&phone), "the last use took more than is left");
}

/// A treatment that is to be repeated: looked at after a week, and it needs more.
fn to_repeat(phone: &mut Phone, lot: LotId) {
    let look = task(phone, lot, TaskKind::ResultLook);
    let more = TaskAnswer::Done {
        outcome: Some(Outcome::NeedsMore),
    };
    decide(phone, vec![look], more);
}

#[test]
fn what_to_buy_is_what_the_next_treatments_take_by_the_last_uses_against_what_is_still_good() {
    let (mut phone, lot, product) = shelf();
    let id = bottle(&mut phone, product, 60, ContainerTraits::default());
    // Ten plants, 30 mL: 3 mL a plant.
    used(&mut phone, lot, copy(product, Some(id)), 30);
    assert_eq!(to_buy(&phone.state, phone.today).rows, []);
    phone.on("2027-03-08");
    to_repeat(&mut phone, lot);
    let row = to_buy(&phone.state, phone.today).rows.remove(0);
    assert_eq!((row.first_on, row.plants), (day("2027-03-15"), 10));
    assert_eq!((row.needed, row.uses), (Some(ml(30)), 1));
    assert_eq!((row.shelf, row.short), (Shelf::Left(ml(30)), None));
    assert_eq!(missing(&phone), []);

    phone.act(Command::CountContainer {
        container: id,
        left: ml(12),
    });
    let row = missing(&phone).remove(0);
    assert_eq!((row.shelf, row.short), (Shelf::Left(ml(12)), Some(ml(18))));

    // A full bottle that is past its date by then does not help; one that is not does.
    let dated = |on| ContainerTraits {
        expires_on: Some(day(on)),
        ..ContainerTraits::default()
    };
    bottle(&mut phone, product, 500, dated("2027-03-14"));
    let short = |phone: &Phone| to_buy(&phone.state, phone.today).rows[0].short;
    assert_eq!(short(&phone), Some(ml(18)));
    bottle(&mut phone, product, 500, dated("2027-03-15"));
    assert_eq!(short(&phone), None);
}

#[test]
fn a_product_without_bottles_is_needed_but_never_said_to_be_short() {
    let (mut phone, lot, product) = shelf();
    used(&mut phone, lot, copy(product, None), 30);
    phone.on("2027-03-08");
    to_repeat(&mut phone, lot);
    let row = to_buy(&phone.state, phone.today).rows.remove(0);
    assert_eq!((row.shelf, row.short), (Shelf::NotKept, None));
    assert_eq!(row.needed, Some(ml(30)));
    assert_eq!(missing(&phone), []);
}

#[test]
fn the_second_of_a_planned_pair_is_on_the_list() {
    let (mut phone, lot, product) = shelf();
    let second = self::product(&mut phone, "Against mites");
    used(&mut phone, lot, copy(second, None), 20);
    phone.on("2027-03-03");
    let parts = vec![TreatedPart::Lot { lot, plants: 10 }];
    let mut first = treatment(parts, AgentClass::Fungus, copy(product, None));
    first.then = Some(NextTreatment {
        text: "Against mites".to_owned(),
        due_on: day("2027-03-10"),
        product: Some(second),
    });
    phone.act(Command::RecordTreatment(first));
    let row = to_buy(&phone.state, phone.today).rows.remove(0);
    assert_eq!((row.product, row.first_on), (second, day("2027-03-10")));
    assert_eq!((row.plants, row.needed), (10, Some(ml(20))));
    assert_eq!(row.shelf, Shelf::NotKept);
}
