//! Plants counted a second way: event by event in the order of the book, without the core's own fold.
//!
//! Plants in lots and on the bench, sold, lost and cut up are exactly those received, gained and potted, give or take
//! what a count put right.

use std::collections::BTreeMap;

use velamen_core::event::{ClosedHow, Event};
use velamen_core::id::{ClumpId, LotId};
use velamen_core::state::State;

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
    bench: BTreeMap<(ClumpId, LotId), i64>,
    sums: Sums,
}

impl Ledger {
    fn add(&mut self, lot: LotId, plants: i64) {
        *self.lots.entry(lot).or_default() += plants;
    }

    fn enter(&mut self, event: &Event) {
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
                    self.add(opened.lot, -plants);
                    self.bench.insert((event.clump, opened.lot), plants);
                }
            }
            Event::DivisionClosed(event) => {
                for lot in &event.lots {
                    let plants = self.bench.remove(&(event.clump, *lot)).unwrap_or(0);
                    match event.how {
                        ClosedHow::PutBack => self.add(*lot, plants),
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
    let mut here = 0;
    for (id, lot) in &state.facts().lots {
        assert_eq!(
            lot.plants,
            ledger.lots.get(id).copied().unwrap_or(0),
            "plants of {id}"
        );
        let on_bench: i64 = lot
            .on_bench
            .values()
            .map(|(plants, _)| i64::from(*plants))
            .sum();
        here += lot.plants + on_bench;
    }
    let Sums {
        came,
        went,
        put_right,
    } = ledger.sums;
    assert_eq!(here + went, came + put_right, "the nursery's balance");
}
