//! The Round kept as bytes, after whatever was done: it says what the whole book says, on any day.

use proptest::prelude::*;
use velamen_core::command::Command;
use velamen_core::event::Sight;
use velamen_core::id::LotId;
use velamen_core::state::{Facts, State};
use velamen_core::task::derive;
use velamen_core::view::kept::{Basis, Keeper, Kept, Pieces};
use velamen_core::view::round;
use velamen_tests::{day, named};

use super::gardener::Gardener;
use super::{phones, take_turn, turn};

const DAYS: [&str; 4] = ["2027-03-11", "2027-05-20", "2028-01-01", "2029-04-01"];

/// Tails after which they are gathered into one.
const TAILS_MAX: usize = 3;

/// A storage's snapshot, without the storage.
#[derive(Default)]
struct Shelf {
    keeper: Keeper,
    pieces: Pieces,
    tails: Vec<Vec<u8>>,
    arrival: u64,
    gathered: usize,
}

impl Shelf {
    const fn basis(&self) -> Basis<'static> {
        Basis {
            arrival: self.arrival,
            build: "this one",
        }
    }

    fn keep(&mut self, state: &mut State) {
        let renewed = state.take_renewed();
        self.arrival += 1;
        let gathers = self.tails.len() >= TAILS_MAX;
        let written = match gathers {
            true => self.keeper.gathered(state, &renewed, self.arrival),
            false => self.keeper.tail(state, &renewed, self.arrival),
        };
        if let Some(tail) = written {
            if gathers {
                self.tails.clear();
                self.gathered += 1;
            }
            self.tails.push(tail);
        } else {
            self.pieces = self.keeper.whole(state, self.basis());
            self.tails.clear();
        }
    }

    fn open(&self, basis: Basis<'_>) -> Option<Kept> {
        Kept::open(&self.pieces.head, &self.tails, basis)
    }
}

fn says_what_the_book_says(shelf: &Shelf, phone: &Gardener) {
    let state = &phone.phone.state;
    let lines: Vec<String> = state.log().lines().map(str::to_owned).collect();
    let (anew, _) = State::of_lines(lines.iter().map(String::as_str));
    let mut kept_work = Vec::new();
    state.each_task(|task| kept_work.push(task.clone()));
    assert_eq!(kept_work, derive::all(anew.facts()));
    short_ways_lead_where_a_walk_does(state.facts());
    for on in DAYS.map(day) {
        let mut kept = shelf.open(shelf.basis()).unwrap();
        for number in kept.missing(on) {
            kept.add(number, &shelf.pieces.parts[number]).unwrap();
        }
        assert!(kept.missing(on).is_empty());
        assert_eq!(kept.round(on), round::round(&anew, on));
        assert_eq!(kept.no_lots(), anew.facts().lots.is_empty());
    }
}

fn short_ways_lead_where_a_walk_does(facts: &Facts) {
    for (id, lot) in &facts.lots {
        if let Some(code) = lot.code.get() {
            assert!(facts.lots_coded(*code).any(|lot| lot == *id));
            assert!(facts.last_counter(code.prefix()) >= code.counter());
        }
        if let Some(place) = lot.place.get() {
            assert!(facts.lots_at(*place).any(|lot| lot == *id));
        }
    }
    for place in facts.places.keys() {
        let stands = |lot: &LotId| facts.lots[lot].place.get() == Some(place);
        assert!(facts.lots_at(*place).all(|lot| stands(&lot)));
    }
    let open = facts.clumps.iter().filter(|(_, clump)| clump.is_open());
    assert!(
        facts
            .open_clumps()
            .map(|(id, _)| id)
            .eq(open.map(|(id, _)| *id))
    );
    let bound = facts.treatments.values().filter_map(|it| it.event.until_ms);
    assert_eq!(facts.bound_until_ms(), bound.max());
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 24, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn a_kept_round_says_what_the_book_says(turns in prop::collection::vec(turn(1), 10..40)) {
        let mut phones = phones(2);
        let mut shelf = Shelf::default();
        phones[0].phone.state.keep_work();
        for turn in &turns {
            take_turn(&mut phones, turn);
            shelf.keep(&mut phones[0].phone.state);
            says_what_the_book_says(&shelf, &phones[0]);
        }
    }
}

#[test]
fn tails_are_gathered_into_one_while_little_has_changed() {
    let mut phones = phones(1);
    let mut shelf = Shelf::default();
    phones[0].phone.state.keep_work();
    for _ in 0..40 {
        let lot = Command::ReceiveLot(named("Cymbidium lowianum"));
        phones[0].try_to(lot).unwrap();
    }
    shelf.keep(&mut phones[0].phone.state);
    let lots: Vec<LotId> = phones[0].phone.state.facts().lots.keys().copied().collect();
    for lot in lots.iter().take(12) {
        let see = Command::Observe {
            lots: vec![*lot],
            what: Sight::RootTips,
            good: None,
            note: String::new(),
        };
        phones[0].try_to(see).unwrap();
        shelf.keep(&mut phones[0].phone.state);
        says_what_the_book_says(&shelf, &phones[0]);
        if shelf.tails.len() == TAILS_MAX {
            // A program that goes on after these tails gathers them too.
            let kept = shelf.open(shelf.basis()).unwrap();
            shelf.keeper = Keeper::going_on(&kept, shelf.basis());
        }
    }
    assert_eq!(shelf.gathered, 3);
}

#[test]
fn a_kept_round_of_other_lines_another_program_or_with_a_byte_less_is_not_used() {
    let mut phones = phones(1);
    let state = &mut phones[0].phone.state;
    state.keep_work();
    let mut shelf = Shelf::default();
    shelf.keep(state);
    shelf.keep(state);
    assert_eq!(shelf.tails.len(), 1);
    let basis = shelf.basis();
    assert!(shelf.open(basis).is_some());
    let later = basis.arrival + 1;
    assert!(
        shelf
            .open(Basis {
                arrival: later,
                ..basis
            })
            .is_none()
    );
    assert!(
        shelf
            .open(Basis {
                build: "another",
                ..basis
            })
            .is_none()
    );
    let head = &shelf.pieces.head;
    for cut in 0..head.len() {
        assert!(
            Kept::open(&head[..cut], &shelf.tails, basis).is_none(),
            "{cut}"
        );
    }
    assert!(Kept::open(head, &shelf.tails[..0], basis).is_none());
    shelf.tails.push(shelf.tails[0].clone());
    assert!(shelf.open(basis).is_none(), "a tail that came twice");
}
