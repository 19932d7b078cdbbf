//! One bottle, several phones: what each takes, counts, puts right and takes back, handed on in any order.
//!
//! The level is reckoned a second way: what the phone that counted held in its book at that instant is noted then, and
//! nothing of the core's own reading of "known" is used.

use std::collections::BTreeSet;

use proptest::prelude::*;
use velamen_core::code::Prefix;
use velamen_core::command::{Command, ContainerTraits, ProductTraits};
use velamen_core::event::{
    AgentClass, Event, Held, ProductCopy, TreatedPart, UsedWhy, WithdrawWhy,
};
use velamen_core::id::{ContainerId, EntryRef, LotId, ProductId};
use velamen_core::quantity::{Amount, Volume};
use velamen_core::season::{Hemisphere, Warmth};
use velamen_core::state::{Anomaly, State, levels};
use velamen_tests::{Phone, treatment};

const HELD_UL: i64 = 500_000;

#[derive(Clone, Debug)]
enum Deed {
    Take(i64),
    /// In the mixture made for the one before.
    Share,
    Spill(i64),
    Count(i64),
    PutRight(usize, i64),
    TakeBack(usize),
    NextDay,
    HandOver(usize),
}

fn deed() -> impl Strategy<Value = Deed> {
    let ul = 1_i64..200_000;
    prop_oneof![
        4 => ul.clone().prop_map(Deed::Take),
        1 => Just(Deed::Share),
        1 => ul.clone().prop_map(Deed::Spill),
        2 => (0_i64..HELD_UL).prop_map(Deed::Count),
        2 => (any::<usize>(), ul).prop_map(|(which, ul)| Deed::PutRight(which, ul)),
        1 => any::<usize>().prop_map(Deed::TakeBack),
        1 => Just(Deed::NextDay),
        3 => (0_usize..3).prop_map(Deed::HandOver),
    ]
}

struct Shelf {
    phones: Vec<Phone>,
    lot: LotId,
    product: ProductId,
    bottle: ContainerId,
    /// What the counting phone held when it counted.
    counts: Vec<(EntryRef, BTreeSet<EntryRef>)>,
}

impl Shelf {
    fn new(phones: usize) -> Self {
        let mut first = Phone::new(0x2000, "2027-03-11");
        first.open_book(Hemisphere::North);
        let place = first.place("House", Warmth::Cool);
        let lot = first.lot("Cymbidium tracyanum", 12, place);
        let set = first.act(Command::SetProduct {
            product: None,
            traits: ProductTraits {
                label_name: Some("Bottle".to_owned()),
                ..ProductTraits::default()
            },
        });
        let Some(Event::ProductSet(set)) = set.events.first() else {
            panic!("{:?}", set.events);
        };
        let product = set.product;
        let put = first.act(Command::SetContainer {
            container: None,
            traits: ContainerTraits {
                product: Some(product),
                held: Some(Held::Ul(HELD_UL)),
                ..ContainerTraits::default()
            },
        });
        let Some(Event::ContainerSet(put)) = put.events.first() else {
            panic!("{:?}", put.events);
        };
        let bottle = put.container;
        let file = first.hand_over();
        let mut all = vec![first];
        for at in 1..phones {
            let dev = 0x2000 + at as u64;
            let mut phone = Phone::new(dev, "2027-03-11");
            phone.take_in(&file);
            phone.wait_min(60);
            phone.act(Command::JoinPhone {
                prefix: Prefix::pick(dev),
                name: String::new(),
            });
            all.push(phone);
        }
        Self {
            phones: all,
            lot,
            product,
            bottle,
            counts: Vec::new(),
        }
    }

    fn bath(&self, ul: Option<i64>) -> velamen_core::command::RecordTreatment {
        let copy = ProductCopy {
            product: Some(self.product),
            label_name: "Bottle".to_owned(),
            container: Some(self.bottle),
            ..ProductCopy::default()
        };
        let parts = vec![TreatedPart::Lot {
            lot: self.lot,
            plants: 3,
        }];
        let mut bath = treatment(parts, AgentClass::Fungus, copy);
        bath.amount_ul = ul;
        bath
    }

    fn carry_out(&mut self, who: usize, deed: &Deed) {
        let who = who % self.phones.len();
        let amount = |ul: i64| Amount::Volume(Volume::from_ul(ul));
        let treatments: Vec<_> = {
            let known = self.phones[who].state.facts().treatments.iter();
            known.map(|(id, it)| (*id, it.clone())).collect()
        };
        let command = match deed {
            Deed::Take(ul) => Command::RecordTreatment(self.bath(Some(*ul))),
            Deed::Share => {
                let Some((id, _)) = treatments.last() else {
                    return;
                };
                let mut bath = self.bath(None);
                bath.same_mix_as = Some(*id);
                Command::RecordTreatment(bath)
            }
            Deed::Spill(ul) => Command::UseFromContainer {
                container: self.bottle,
                amount: amount(*ul),
                why: UsedWhy::Spilt,
                note: String::new(),
            },
            Deed::Count(ul) => Command::CountContainer {
                container: self.bottle,
                left: amount(*ul),
            },
            Deed::PutRight(which, ul) => {
                let Some((_, it)) = treatments.get(which % treatments.len().max(1)) else {
                    return;
                };
                let mut event = it.event.clone();
                event.amount_ul = event.amount_ul.map(|_| *ul);
                Command::Amend {
                    target: it.entry,
                    index: 0,
                    event: event.into(),
                    why: String::new(),
                }
            }
            Deed::TakeBack(which) => {
                let Some((_, it)) = treatments.get(which % treatments.len().max(1)) else {
                    return;
                };
                Command::Withdraw {
                    targets: vec![it.entry],
                    with_dependents: true,
                    why: WithdrawWhy::Mistake,
                    note: String::new(),
                }
            }
            Deed::NextDay => {
                let phone = &mut self.phones[who];
                phone.today = phone.today.succ_opt().unwrap();
                phone.now_ms += 86_400_000;
                return;
            }
            Deed::HandOver(to) => {
                let file = self.phones[who].hand_over();
                let to = to % self.phones.len();
                self.phones[to].take_in(&file);
                return;
            }
        };
        let phone = &mut self.phones[who];
        let known: BTreeSet<EntryRef> =
            phone.state.log().in_order().map(|entry| entry.id).collect();
        if let Ok(done) = phone.decide(command) {
            phone.take(&done.line);
            phone.wait_min(1);
            if matches!(deed, Deed::Count(_)) {
                self.counts.push((done.entry, known));
            }
        }
    }

    /// The level by another road, from the events as they read now.
    fn reckoned(&self, state: &State) -> i64 {
        let last = self.counts.iter().max_by_key(|(id, _)| {
            let header = &state.log().entry(*id).unwrap().header;
            (header.on, header.order, *id)
        });
        let last_on = last.map(|(id, _)| state.log().entry(*id).unwrap().header.on);
        let mut left = HELD_UL;
        let mut taken = 0;
        for entry in state.log().in_order() {
            for fact in state.log().facts(entry.id) {
                let ul = match fact.event {
                    Event::Treated(it) if it.same_mix_as.is_none() => it.amount_ul.unwrap_or(0),
                    Event::ContainerUsed(it) => it.amount_ul.unwrap_or(0),
                    Event::ContainerCounted(it) if Some(entry.id) == last.map(|it| it.0) => {
                        left = it.amount_ul.unwrap();
                        0
                    }
                    _ => 0,
                };
                let counted = last.is_some_and(|(_, known)| {
                    let on = entry.header.on;
                    Some(on) < last_on || Some(on) == last_on && known.contains(&entry.id)
                });
                taken += if counted { 0 } else { ul };
            }
        }
        left - taken
    }
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 48, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn a_bottle_comes_to_one_level_on_all_phones_and_is_asked_about_below_nothing(
        deeds in prop::collection::vec((0_usize..3, deed()), 1..40), phones in 2_usize..4
    ) {
        let mut shelf = Shelf::new(phones);
        for (who, deed) in &deeds {
            shelf.carry_out(*who, deed);
        }
        for _ in 0..2 {
            for from in 0..phones {
                for to in 0..phones {
                    shelf.carry_out(from, &Deed::HandOver(to));
                }
            }
        }
        let mine = |state: &State| levels(state)[&shelf.bottle].left.unwrap();
        let expected = shelf.reckoned(&shelf.phones[0].state);
        for phone in &shelf.phones {
            prop_assert_eq!(mine(&phone.state), expected);
            prop_assert_eq!(phone.state.digest(), shelf.phones[0].state.digest());
            let asked = phone.state.anomalies().into_iter().find_map(|anomaly| match anomaly {
                Anomaly::ContainerOverdrawn { over, .. } => Some(over),
                _ => None,
            });
            prop_assert_eq!(asked, (expected < 0).then_some(-expected));
        }
    }
}
