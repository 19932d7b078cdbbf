//! The Round kept as bytes, after whatever was done: it says what the whole book says, on any day.

use chrono::NaiveDate;
use proptest::prelude::*;
use velamen_core::code::Prefix;
use velamen_core::command::Command;
use velamen_core::event::{AgentClass, ProductCopy, Sight, TaskKey, TreatedPart};
use velamen_core::id::{LotId, PlaceId};
use velamen_core::state::{Born, Facts, State};
use velamen_core::task::derive::{self, Task};
use velamen_core::text::{Question, fold};
use velamen_core::view::kept::{Basis, Keeper, Kept, Pieces};
use velamen_core::view::places;
use velamen_core::view::reentry::{BoundWhat, bound};
use velamen_core::view::round::{self, RoundView, RowState, state_of};
use velamen_core::view::stock::stock;
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

    fn keep_of(&mut self, phone: &mut Gardener) {
        let now_ms = phone.phone.now_ms;
        self.keep(&mut phone.phone.state, now_ms);
    }

    fn keep(&mut self, state: &mut State, now_ms: i64) {
        let renewed = state.take_renewed();
        self.arrival += 1;
        let gathers = self.tails.len() >= TAILS_MAX;
        let written = match gathers {
            true => self.keeper.gathered(state, now_ms, &renewed, self.arrival),
            false => self.keeper.tail(state, now_ms, &renewed, self.arrival),
        };
        if let Some(tail) = written {
            if gathers {
                self.tails.clear();
                self.gathered += 1;
            }
            self.tails.push(tail);
        } else {
            self.pieces = self.keeper.whole(state, now_ms, self.basis());
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
    let asked = ASKED.map(str::to_owned).into_iter();
    for typed in asked.chain(across_parts(state.facts())) {
        let rows = stock(state, &typed, usize::MAX).rows.into_iter();
        let found: Vec<LotId> = rows.map(|row| row.label.lot).collect();
        assert_eq!(found, found_plainly(state.facts(), &typed), "{typed}");
    }
    for on in DAYS.map(day) {
        let mut kept = shelf.open(shelf.basis()).unwrap();
        for number in kept.missing(on) {
            kept.add(number, &shelf.pieces.parts[number]).unwrap();
        }
        assert!(kept.missing(on).is_empty());
        let round = round::round(&anew, on);
        assert_eq!(kept.walk(on).in_full(&kept), round);
        assert_eq!(stops_of(&round), stops_told_plainly(&anew, on));
        assert_eq!(kept.no_lots(), anew.facts().lots.is_empty());
        for hours in [0, 1, 5, 24, 240] {
            let now_ms = phone.phone.now_ms + hours * 3_600_000;
            assert_eq!(kept.bounds(now_ms), bound(&anew, now_ms));
        }
    }
}

/// What is typed into the search: nothing, beginnings, the middle of a word, a slip, a code with and without its hyphen,
/// a place with a name, and what is nowhere.
const ASKED: [&str; 12] = [
    "",
    "c",
    "um",
    "cymbidum",
    "oncidum flexu",
    "-00",
    "k2001",
    "lowianum k2001",
    "nobile 00",
    "bench van",
    "1",
    "zzz",
];

/// The end of a lot's name and its code without the hyphen: nothing that is written in one place.
fn across_parts(facts: &Facts) -> Option<String> {
    let (_, lot) = facts.live_lots().find(|(_, lot)| lot.is_stocked())?;
    let code = lot.code.get()?.folded().replace(' ', "");
    let plain = fold(&lot.name.or_default().plain());
    Some(format!("{} {code}", plain.split(' ').next_back()?))
}

/// Lots in stock by looking through all that is written of each.
fn found_plainly(facts: &Facts, typed: &str) -> Vec<LotId> {
    let question = Question::new(typed);
    let stocked = facts.live_lots().filter(|(_, lot)| lot.is_stocked());
    let mut found: Vec<_> = stocked
        .filter_map(|(id, lot)| {
            let place = lot.place.get().and_then(|place| facts.places.get(place));
            let plain = lot.name.or_default().plain();
            let code = lot.code.get().copied();
            let number = match &lot.born {
                Some(Born::Received { outside_ref, .. }) => outside_ref.clone(),
                _ => String::new(),
            };
            let mut words = vec![plain.clone(), number];
            words.extend(code.map(|code| code.to_string()));
            words.extend(place.map(|place| place.name.or_default()));
            words.extend(lot.reserved.values().map(|kept| kept.to.clone()));
            let closeness = question.find_in(&fold(&words.join(" ")));
            let closeness = (!question.is_empty()).then_some(closeness?);
            let walk = place.map_or(u32::MAX, |place| place.walk.or_default());
            Some((closeness, walk, plain, code, id))
        })
        .collect();
    found.sort();
    found.into_iter().map(|(.., id)| id).collect()
}

type Stops = Vec<(Option<PlaceId>, Vec<Vec<TaskKey>>)>;

fn stops_of(round: &RoundView) -> Stops {
    let keys = |row: &round::Row| row.tasks.iter().map(|task| task.key.clone()).collect();
    let stop = |stop: &round::Stop| {
        let place = stop.place.as_ref().map(|place| place.place);
        (place, stop.rows.iter().map(keys).collect())
    };
    round.stops.iter().map(stop).collect()
}

/// The Round the long way: tasks alike in everything a row says are one row, place by place, the latest first.
fn stops_told_plainly(state: &State, on: NaiveDate) -> Stops {
    let places = places(state.facts());
    let mut rows: Vec<Vec<Task>> = Vec::new();
    for task in derive::all(state.facts()) {
        if state_of(&task, on).is_none() {
            continue;
        }
        let alike = |row: &&mut Vec<Task>| {
            let of = |task: &Task| {
                let about = (task.place, task.kind, task.trigger, task.note_task);
                (about, task.due_on, task.anchor_on)
            };
            of(&row[0]) == of(&task)
        };
        match rows.iter_mut().find(alike) {
            Some(row) => row.push(task),
            None => rows.push(vec![task]),
        }
    }
    let stop_of = |row: &Vec<Task>| {
        let at = |place: PlaceId| places.iter().position(|known| known.place == place);
        row[0].place.and_then(at).unwrap_or(places.len())
    };
    let urgency = |row: &Vec<Task>| match state_of(&row[0], on) {
        Some(RowState::Late { days }) => (0, -days),
        Some(RowState::Due) => (1, 0),
        Some(RowState::MayStart { days }) => (2, days),
        Some(RowState::Held { .. }) => (3, 0),
        Some(RowState::Coming { days }) => (4, days),
        None => unreachable!(),
    };
    rows.sort_by_key(|row| {
        let first = &row[0];
        let order = (urgency(row), first.priority, first.due_on, first.kind);
        (stop_of(row), order, first.anchor_on, first.trigger)
    });
    let mut stops: Stops = Vec::new();
    for row in rows {
        let place = places.get(stop_of(&row)).map(|place| place.place);
        let keys = row.into_iter().map(|task| task.key).collect();
        match stops.last_mut() {
            Some((known, rows)) if *known == place => rows.push(keys),
            _ => stops.push((place, vec![keys])),
        }
    }
    stops
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
    let bound = facts.treatments.iter();
    let bound = bound.filter_map(|(id, it)| Some((it.event.until_ms?, *id)));
    let mut bound: Vec<_> = bound.collect();
    bound.sort_unstable();
    let instants = bound.iter().map(|it| it.0);
    for until_ms in instants.chain([i64::MIN]) {
        let told = facts.binding_after(until_ms);
        let longer = bound.iter().filter(|it| it.0 > until_ms);
        assert!(told.eq(longer.map(|it| it.1)));
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
            shelf.keep_of(&mut phones[0]);
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
    shelf.keep_of(&mut phones[0]);
    let lots: Vec<LotId> = phones[0].phone.state.facts().lots.keys().copied().collect();
    for lot in lots.iter().take(12) {
        let see = Command::Observe {
            lots: vec![*lot],
            what: Sight::RootTips,
            good: None,
            note: String::new(),
        };
        phones[0].try_to(see).unwrap();
        shelf.keep_of(&mut phones[0]);
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
    shelf.keep(state, 0);
    shelf.keep(state, 0);
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

#[test]
fn what_is_bound_is_told_by_the_clock_and_not_by_how_far_ahead_another_phone_was() {
    let mut phones = phones(2);
    phones[0].phone.state.keep_work();
    // The other phone is five hours ahead, and what it wrote comes first in the order.
    phones[1].phone.now_ms = phones[0].phone.now_ms + 5 * 3_600_000;
    let file = phones[0].phone.hand_over();
    phones[1].phone.take_in(&file);
    let joins = Command::JoinPhone {
        prefix: Prefix::pick(99),
        name: "second".to_owned(),
    };
    phones[1].try_to(joins).unwrap();
    phones[1]
        .try_to(Command::ReceiveLot(named("Cymbidium lowianum")))
        .unwrap();
    let file = phones[1].phone.hand_over();
    let plan = phones[0].phone.take_in(&file);
    assert!(!plan.new.is_empty());
    let lot = *phones[0].phone.state.facts().lots.keys().next().unwrap();
    let mut done = velamen_tests::treatment(
        vec![TreatedPart::Lot { lot, plants: 1 }],
        AgentClass::Fungus,
        ProductCopy::default(),
    );
    done.product.label_name = "a product".to_owned();
    let now_ms = phones[0].phone.now_ms;
    done.until_ms = Some(now_ms + 4 * 3_600_000);
    phones[0].try_to(Command::RecordTreatment(done)).unwrap();
    assert!(phones[0].phone.state.log().latest().ms > now_ms + 4 * 3_600_000);
    let mut shelf = Shelf::default();
    shelf.keep_of(&mut phones[0]);
    let kept = shelf.open(shelf.basis()).unwrap();
    assert!(
        kept.bounds(now_ms)
            .iter()
            .any(|row| row.what == BoundWhat::Lot(lot))
    );
}
