//! The core without a browser: what a tap, a start, a file, the day's plan and a search cost in books of 1 000 and 10 000
//! lots.
//!
//! `cargo bench -p velamen-tests` prints a table. Nothing here is a test: time belongs to the machine.

use chrono::NaiveDate;
use divan::{Bencher, black_box};
use velamen_core::command::{Command, ReceiveLot};
use velamen_core::decide::decide;
use velamen_core::exchange;
use velamen_core::id::{Dev, LotId};
use velamen_core::plan::day_plan;
use velamen_core::season::Hemisphere;
use velamen_core::state::State;
use velamen_core::time::{Moment, plus_days};
use velamen_core::view::round::round;
use velamen_core::view::stock::stock;
use velamen_tests::{named, opening};

const SIZES: [u32; 2] = [1_000, 10_000];

/// Four names that differ, so that a search has something to tell apart.
const NAMES: [&str; 4] = [
    "Cymbidium lowianum",
    "Laelia anceps",
    "Zygopetalum maculatum",
    "Dendrobium kingianum",
];

const HOUR_TENTHS: u32 = 600;

fn main() {
    divan::main();
}

/// A book of so many lots, each received and counted once.
#[derive(Clone)]
struct Book {
    state: State,
    at: Moment,
    lots: Vec<LotId>,
}

impl Book {
    fn of(lots: u32) -> Self {
        let mut book = Self {
            state: State::default(),
            at: Moment {
                now_ms: 1_804_752_000_000,
                off_min: 0,
                today: NaiveDate::default(),
                dev: Dev(7),
            },
            lots: Vec::new(),
        };
        book.at.today = plus_days(NaiveDate::default(), 20_888);
        book.act(Command::OpenBook(opening(Hemisphere::North, 7)));
        for (nth, name) in (0..lots).zip(NAMES.into_iter().cycle()) {
            book.act(Command::ReceiveLot(ReceiveLot {
                plants: 4,
                stands: 4,
                outside_ref: format!("A-{nth}"),
                ..named(name)
            }));
        }
        book.lots = book.state.facts().lots.keys().copied().collect();
        for lot in book.lots.clone() {
            book.act(count(lot, 5));
        }
        book.state.keep_work();
        book
    }

    fn act(&mut self, command: Command) {
        if let Ok(decision) = decide(&self.state, &self.at, command) {
            let _ = self.state.take(&decision.line);
        }
        self.at.now_ms += 1;
    }

    fn lines(&self) -> Vec<String> {
        self.state.log().lines().map(ToString::to_string).collect()
    }
}

fn count(lot: LotId, plants: u32) -> Command {
    Command::CountLot {
        lot,
        plants,
        stands: plants,
    }
}

/// A command judged, and nothing recorded.
#[divan::bench(args = SIZES)]
fn decide_a_tap(bencher: Bencher<'_, '_>, lots: u32) {
    let book = Book::of(lots);
    let lot = book.lots.first().copied();
    bencher.bench_local(|| lot.map(|lot| decide(&book.state, &book.at, count(lot, 3)).is_ok()));
}

/// One line more, with the open work kept up.
#[divan::bench(args = SIZES, sample_count = 20, sample_size = 1)]
fn apply_a_line(bencher: Bencher<'_, '_>, lots: u32) {
    let book = Book::of(lots);
    let line = book
        .lots
        .first()
        .and_then(|lot| decide(&book.state, &book.at, count(*lot, 3)).ok())
        .map(|decision| decision.line)
        .unwrap_or_default();
    bencher
        .with_inputs(|| book.state.clone())
        .bench_local_values(|mut state| {
            let took = state.take(&line).is_ok();
            (state, took)
        });
}

/// A start: every line read and folded.
#[divan::bench(args = SIZES, sample_count = 5, sample_size = 1)]
fn fold_a_book(bencher: Bencher<'_, '_>, lots: u32) {
    let lines = Book::of(lots).lines();
    bencher.bench_local(|| State::of_lines(lines.iter().map(String::as_str)));
}

/// A file of the whole book read, looked at and taken in by a phone that has none.
#[divan::bench(args = SIZES, sample_count = 5, sample_size = 1)]
fn merge_a_file(bencher: Bencher<'_, '_>, lots: u32) {
    let book = Book::of(lots);
    let file = exchange::write(&book.state, &book.at).unwrap_or_default();
    bencher.bench_local(|| {
        let mut state = State::default();
        let plan = exchange::read(&file).and_then(|file| exchange::plan(&state, &book.at, file));
        plan.map(|plan| state.take_all(plan.new.iter().map(String::as_str)))
            .is_ok()
    });
}

/// The list of the morning.
#[divan::bench(args = SIZES)]
fn list_the_round(bencher: Bencher<'_, '_>, lots: u32) {
    let book = Book::of(lots);
    bencher.bench_local(|| round(&book.state, black_box(book.at.today)));
}

/// What fits into an hour.
#[divan::bench(args = SIZES, sample_count = 10)]
fn plan_an_hour(bencher: Bencher<'_, '_>, lots: u32) {
    let book = Book::of(lots);
    bencher.bench_local(|| day_plan(&book.state, book.at.today, book.at.now_ms, HOUR_TENTHS));
}

/// A name with two slips of the finger.
#[divan::bench(args = SIZES, sample_count = 20)]
fn search_a_name(bencher: Bencher<'_, '_>, lots: u32) {
    let book = Book::of(lots);
    bencher.bench_local(|| stock(&book.state, black_box("zigopetalum maculatun"), 100));
}
