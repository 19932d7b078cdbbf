//! Plants counted a second way: event by event in the order of the book, without the core's own fold.
//!
//! Plants in lots and on the bench, sold, lost and cut up are exactly those received, gained and potted, give or take
//! what a count put right. Pots are counted likewise, pieces clump by clump, and no forecast is larger than the stock.

use std::collections::{BTreeMap, BTreeSet};

use velamen_core::event::{ClosedHow, Event, PieceClass};
use velamen_core::id::{ClumpId, LotId};
use velamen_core::outlook::forecast;
use velamen_core::state::{Anomaly, State};

/// Where plants came from and went, over the whole book.
#[derive(Debug, Default)]
struct Sums {
    came: i64,
    went: i64,
    put_right: i64,
}

#[derive(Default)]
struct Ledger {
    lots: BTreeMap<LotId, i64>,
    stands: BTreeMap<LotId, i64>,
    bench: BTreeMap<(ClumpId, LotId), (i64, i64)>,
    taken: BTreeMap<(ClumpId, PieceClass), i64>,
    potted: BTreeMap<(ClumpId, PieceClass), i64>,
    sums: Sums,
}

impl Ledger {
    fn add(&mut self, lot: LotId, plants: i64) {
        *self.lots.entry(lot).or_default() += plants;
    }

    fn stand(&mut self, lot: LotId, stands: i64) {
        *self.stands.entry(lot).or_default() += stands;
    }

    /// Pots, and pieces by clump and class.
    fn enter_pots(&mut self, event: &Event) {
        match event {
            Event::LotReceived(event) => self.stand(event.lot, i64::from(event.stands)),
            Event::Gained(event) => self.stand(event.lot, i64::from(event.stands)),
            Event::PiecesPotted(event) => {
                self.stand(event.lot, i64::from(event.stands));
                let potted = self.potted.entry((event.clump, event.class)).or_default();
                *potted += i64::from(event.plants);
            }
            Event::PiecesTaken(event) => {
                let taken = self.taken.entry((event.clump, event.class)).or_default();
                *taken += i64::from(event.plants);
            }
            Event::Sold(event) => self.stand(event.lot, -i64::from(event.stands)),
            Event::Lost(event) => self.stand(event.lot, -i64::from(event.stands)),
            Event::LotSplit(event) => {
                self.stand(event.from, -i64::from(event.stands));
                self.stand(event.lot, i64::from(event.stands));
            }
            Event::Counted(event) => {
                self.stands.insert(event.lot, i64::from(event.stands));
            }
            Event::Repotted(event) => {
                self.stands.insert(event.lot, i64::from(event.stands));
            }
            _ => {}
        }
    }

    fn enter(&mut self, event: &Event) {
        self.enter_pots(event);
        match event {
            Event::LotReceived(event) => self.come(event.lot, event.plants),
            Event::Gained(event) => self.come(event.lot, event.plants),
            Event::PiecesPotted(event) => self.come(event.lot, event.plants),
            Event::Sold(event) => self.go(event.lot, event.plants),
            Event::Lost(event) => self.go(event.lot, event.plants),
            Event::LotSplit(event) => {
                self.add(event.from, -i64::from(event.plants));
                self.add(event.lot, i64::from(event.plants));
            }
            Event::Counted(event) => {
                let balance = self.lots.entry(event.lot).or_default();
                self.sums.put_right += i64::from(event.plants) - *balance;
                *balance = i64::from(event.plants);
            }
            Event::DivisionOpened(event) => {
                for opened in &event.lots {
                    let plants = i64::from(opened.plants);
                    let stands = i64::from(opened.stands);
                    self.add(opened.lot, -plants);
                    self.stand(opened.lot, -stands);
                    self.bench
                        .insert((event.clump, opened.lot), (plants, stands));
                }
            }
            Event::DivisionClosed(event) => {
                for lot in &event.lots {
                    let back = self.bench.remove(&(event.clump, *lot));
                    let (plants, stands) = back.unwrap_or((0, 0));
                    match event.how {
                        ClosedHow::PutBack => {
                            self.add(*lot, plants);
                            self.stand(*lot, stands);
                        }
                        ClosedHow::Done => self.sums.went += plants,
                    }
                }
            }
            _ => {}
        }
    }

    fn come(&mut self, lot: LotId, plants: u32) {
        self.sums.came += i64::from(plants);
        self.add(lot, i64::from(plants));
    }

    fn go(&mut self, lot: LotId, plants: u32) {
        self.sums.went += i64::from(plants);
        self.add(lot, -i64::from(plants));
    }
}

/// Every lot's balance agrees with the second count, and so does the whole nursery's.
pub(crate) fn check(state: &State) {
    let mut ledger = Ledger::default();
    for entry in state.log().in_order() {
        for fact in state.log().facts(entry.id) {
            ledger.enter(fact.event);
        }
    }
    let asked: BTreeSet<LotId> = state
        .anomalies()
        .iter()
        .filter_map(|anomaly| match anomaly {
            Anomaly::ReservedTooMany { lot, .. } => Some(*lot),
            _ => None,
        })
        .collect();
    let mut here = 0;
    for (id, lot) in &state.facts().lots {
        assert_eq!(
            lot.plants,
            ledger.lots.get(id).copied().unwrap_or(0),
            "plants of {id}"
        );
        assert_eq!(
            lot.stands,
            ledger.stands.get(id).copied().unwrap_or(0),
            "pots of {id}"
        );
        let on_bench: i64 = lot
            .on_bench
            .values()
            .map(|(plants, _)| i64::from(*plants))
            .sum();
        here += lot.plants + on_bench;
        for kept in lot.reserved.values() {
            assert!(kept.plants > 0, "kept of {id}: {kept:?}");
        }
        let free = lot.unreserved();
        assert!(
            free >= 0 && free <= lot.plants.max(0),
            "free of {id}: {free}"
        );
        if lot.settled.is_empty() && lot.born.is_some() {
            let too_many = lot.plants >= 0 && lot.reserved() > lot.plants;
            assert_eq!(
                asked.contains(id),
                too_many,
                "more kept than there are of {id}"
            );
        }
    }
    let Sums {
        came,
        went,
        put_right,
    } = ledger.sums;
    assert_eq!(here + went, came + put_right, "the nursery's balance");
    for (id, clump) in &state.facts().clumps {
        for class in PieceClass::ALL {
            let of = |pieces: &BTreeMap<_, i64>| pieces.get(&(*id, class)).copied().unwrap_or(0);
            let (taken, potted) = (of(&ledger.taken), of(&ledger.potted));
            let count = |pieces: i64| u64::try_from(pieces).unwrap_or(0);
            assert_eq!(clump.taken_of(class), count(taken), "{class:?} off {id}");
            assert_eq!(clump.potted_of(class), count(potted), "{class:?} of {id}");
            let bare = if class.is_kept() {
                count(taken).saturating_sub(count(potted))
            } else {
                0
            };
            assert_eq!(clump.bare_of(class), bare, "bare {class:?} of {id}");
        }
    }
    let ahead = forecast(state, velamen_tests::day("2028-01-01"));
    let stock: i64 = state
        .facts()
        .live_lots()
        .map(|(_, lot)| lot.plants.max(0))
        .sum();
    for month in &ahead.months {
        for span in [month.in_flower, month.saleable] {
            assert!(span.low <= span.middle && span.middle <= span.high);
            assert!(i64::from(span.high) <= stock, "{span:?} of {stock}");
        }
    }
}
