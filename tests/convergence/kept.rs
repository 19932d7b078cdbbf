//! The Round kept as bytes, after whatever was done: it says what the whole book says, on any day.

use proptest::prelude::*;
use velamen_core::state::State;
use velamen_core::task::derive;
use velamen_core::view::kept::{Basis, Keeper, Kept, Pieces};
use velamen_core::view::round;
use velamen_tests::day;

use super::gardener::Gardener;
use super::{phones, take_turn, turn};

const DAYS: [&str; 4] = ["2027-03-11", "2027-05-20", "2028-01-01", "2029-04-01"];

/// A storage's snapshot, without the storage.
#[derive(Default)]
struct Shelf {
    keeper: Keeper,
    pieces: Pieces,
    tails: Vec<Vec<u8>>,
    arrival: u64,
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
        if let Some(tail) = self.keeper.tail(state, &renewed, self.arrival) {
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
