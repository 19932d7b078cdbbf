//! Everything that reads what came from elsewhere, each for any bytes at all. A reader may refuse and never panics; what it
//! takes, it takes in a way that holds. Replayed over the kept corpus by every test run, and fed without end by `tests/fuzz`.

use velamen_core::cells::{cells, decoded};
use velamen_core::code::LotCode;
use velamen_core::exchange::reel::{Joining, Met, squares};
use velamen_core::exchange::{Bounds, album, envelope, kind, parts, plan, read_within};
use velamen_core::id::Dev;
use velamen_core::state::State;
use velamen_core::stock_list::{self, Reading, listed};
use velamen_core::time::Moment;

/// A reader by its name, which is that of its folder in the corpus.
pub type Reader = (&'static str, fn(&[u8]));

/// All of them.
pub const READERS: [Reader; 7] = [
    ("file", file),
    ("line", line),
    ("squares", reel),
    ("envelope", sealed),
    ("album", photographs),
    ("list", list),
    ("code", code),
];

fn text(bytes: &[u8]) -> &str {
    match std::str::from_utf8(bytes) {
        Ok(text) => text,
        Err(error) => bytes
            .get(..error.valid_up_to())
            .and_then(|sound| std::str::from_utf8(sound).ok())
            .unwrap_or_default(),
    }
}

fn moment() -> Moment {
    Moment {
        dev: Dev(7),
        now_ms: 1_790_000_000_000,
        off_min: 60,
        today: crate::day("2026-09-21"),
    }
}

/// A book as a file, in one part and in several.
fn file(bytes: &[u8]) {
    let _ = kind(bytes);
    let bytes = text(bytes);
    let read = read_within(bytes, Bounds::default());
    let found = parts(bytes);
    if let Ok(incoming) = read {
        let lines = incoming.lines.clone();
        assert_eq!(found.damaged, 0, "what is whole is no damaged part");
        if let Ok(plan) = plan(&State::default(), &moment(), incoming) {
            assert_eq!(plan.new.len() + plan.known, lines.len(), "each line once");
        }
        take(lines.iter().map(String::as_str));
    }
}

/// Lines of a book, whoever wrote them.
fn line(bytes: &[u8]) {
    take(text(bytes).lines());
}

fn take<'a>(lines: impl Iterator<Item = &'a str>) {
    let lines: Vec<&str> = lines.collect();
    let mut once = State::default();
    let taken = once.take_all(lines.iter().copied());
    assert!(taken <= lines.len());
    let mut twice = once.clone();
    twice.take_all(lines.iter().copied());
    assert_eq!(
        once.fingerprint(),
        twice.fingerprint(),
        "repeats are nothing"
    );
    let mut one_by_one = State::default();
    for line in lines.iter().rev() {
        let _ = one_by_one.take(line);
    }
    assert_eq!(
        once.fingerprint(),
        one_by_one.fingerprint(),
        "order is nothing"
    );
    let _ = once.anomalies();
}

/// Squares as a camera meets them, a line each.
fn reel(bytes: &[u8]) {
    let mut joining = Joining::default();
    for met in text(bytes).lines() {
        if let Met::Whole(file) = joining.meet(met) {
            let mut anew = Joining::default();
            let shown = squares(&file).unwrap_or_default();
            let last = shown.iter().map(|square| anew.meet(square)).last();
            assert_eq!(last, Some(Met::Whole(file)), "it can be shown again");
        }
        if let Some(far) = joining.so_far() {
            assert_eq!(far.read + far.missing.len(), far.of);
        }
    }
}

/// A file under a passphrase, as far as it is read without one.
fn sealed(bytes: &[u8]) {
    if let Ok(closed) = envelope::read(text(bytes)) {
        for at in 0..=closed.len() {
            let chunk = closed.chunk(at);
            assert!(at < closed.len() || chunk.is_err(), "there is no more");
            assert!(at == 0 || closed.nonce(at) != closed.nonce(at - 1));
        }
    }
}

/// The directory of a ZIP of photographs.
fn photographs(bytes: &[u8]) {
    if let Ok((from, to)) = album::directory_at(bytes, bytes.len()) {
        assert!(from <= to && to <= bytes.len(), "it lies in the file");
        let Some(directory) = bytes.get(from..to) else {
            return;
        };
        if let Ok(found) = album::directory(directory) {
            for item in &found.items {
                let (from, to) = item.head();
                let _ = item.body(bytes.get(from..to.min(bytes.len())).unwrap_or_default());
                let _ = item.is(bytes);
            }
        }
    }
}

/// A stock list as a table.
fn list(bytes: &[u8]) {
    let Some(text) = decoded(bytes) else { return };
    let cells = cells(&text);
    let reading = Reading::guess(&cells);
    let state = State::default();
    let comes = listed(&cells, &reading, state.facts(), moment().today);
    let told = comes.lots.len() + comes.refused.len() + comes.left_over;
    assert!(told <= cells.rows.len(), "no row twice");
    let _ = stock_list::places(&comes);
    let _ = stock_list::lots(&comes, state.facts());
}

/// A lot's code as it is typed, or as it comes from a label.
fn code(bytes: &[u8]) {
    if let Ok(code) = LotCode::parse(text(bytes)) {
        assert_eq!(LotCode::parse(&code.to_string()), Ok(code));
        let small = code.to_string().to_lowercase();
        assert_eq!(LotCode::parse(&small), Ok(code));
    }
}
