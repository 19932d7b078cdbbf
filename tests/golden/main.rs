//! A book written once and kept: every later version must read it to the same facts, or say that its rules changed.
//!
//! `book-1.jsonl` holds the entries, `book-1.txt` the same book as a file between phones, `book-1.digest` the version
//! of the rules and the digest of the facts, `envelope-1.txt` the file under the passphrase that
//! `tests/browser/exchange.test.mjs` names. None of them is ever edited; only the digest is made anew, together with
//! a higher `RULES`.
#![allow(
    clippy::unwrap_used,
    clippy::panic,
    clippy::indexing_slicing,
    reason = "a test binary: the lints' allowance for tests does not reach functions beside them"
)]

use std::collections::BTreeSet;

use velamen_core::entry::{read_header, write_line};
use velamen_core::event::{Event, VOCABULARY, WIRE_NAMES};
use velamen_core::exchange;
use velamen_core::id::Dev;
use velamen_core::state::{RULES, State};
use velamen_core::time::Moment;

const LINES: &str = include_str!("book-1.jsonl");
const FILE: &str = include_str!("book-1.txt");
/// The same, as files are written since lines are dense.
const DENSE: &str = include_str!("book-1-dense.txt");
/// The same in the third form of a file; its digests were taken by another program.
const DIGESTS: &str = include_str!("book-1-digests.txt");
const FACTS: &str = include_str!("book-1.digest");

fn kept() -> State {
    let (state, refused) = State::of_lines(LINES.lines());
    assert_eq!((refused, state.log().parked()), (0, 0));
    state
}

fn expected() -> (u32, &'static str) {
    let (rules, digest) = FACTS.trim_end().split_once(' ').unwrap();
    (rules.parse().unwrap(), digest)
}

#[test]
fn the_kept_book_reads_to_the_same_facts_unless_the_rules_say_they_changed() {
    let (rules, digest) = expected();
    let now = kept().digest();
    assert!(
        now == digest || rules != RULES,
        "the facts are other ones now ({now}): raise RULES, and write the new digest with it"
    );
    assert_eq!(
        (RULES, now.as_str()),
        (rules, digest),
        "RULES and digest go together"
    );
}

#[test]
fn the_kept_book_asks_nothing_that_was_answered() {
    assert_eq!(kept().anomalies(), Vec::new());
}

/// What was added to the vocabulary since the book was kept: a file of lines for each event, and the digest of the
/// facts of the kept book with them. Never edited either, but for a digest that a higher `RULES` changes.
fn since() -> Vec<(String, String, String)> {
    let folder = velamen_tests::folder().join("golden/since");
    let mut files: Vec<_> = std::fs::read_dir(folder)
        .unwrap()
        .map(|file| file.unwrap().path())
        .filter(|path| path.extension().is_some_and(|it| it == "jsonl"))
        .collect();
    files.sort();
    let read = |path: &std::path::Path| std::fs::read_to_string(path).unwrap();
    let named = files.iter().map(|path| {
        let name = path.file_stem().unwrap().to_string_lossy().into_owned();
        (name, read(path), read(&path.with_extension("digest")))
    });
    named.collect()
}

/// The kept book with the lines of one file.
fn kept_with(lines: &str) -> State {
    let (state, refused) = State::of_lines(LINES.lines().chain(lines.lines()));
    assert_eq!((refused, state.log().parked()), (0, 0));
    state
}

#[test]
fn what_was_added_since_reads_to_the_same_facts_and_is_written_again_byte_for_byte() {
    for (name, lines, digest) in since() {
        let state = kept_with(&lines);
        assert_eq!(state.digest(), digest.trim_end(), "{name}");
        assert_eq!(state.anomalies(), Vec::new(), "{name}");
        for line in lines.lines() {
            let header = read_header(line).unwrap();
            let id = velamen_core::id::EntryRef {
                dev: header.dev,
                seq: header.seq,
            };
            let events = state.log().entry(id).unwrap().events.as_ref().unwrap();
            assert_eq!(write_line(&header, events).as_deref(), Ok(line), "{name}");
        }
    }
}

fn said(state: &State) -> BTreeSet<&str> {
    let entries = state.log().in_order();
    entries
        .flat_map(|entry| entry.events.as_ref().unwrap())
        .map(Event::wire_name)
        .collect()
}

#[test]
fn the_kept_book_and_what_was_added_since_say_everything_the_vocabulary_can_say() {
    let state = kept();
    let mut said_once = said(&state);
    let later: Vec<(String, State)> = since()
        .into_iter()
        .map(|(name, lines, _)| (name, kept_with(&lines)))
        .collect();
    for (name, state) in &later {
        let with = said(state);
        assert!(
            with.contains(name.as_str()),
            "{name} says nothing of its own"
        );
        said_once.extend(with);
    }
    let all: BTreeSet<&str> = WIRE_NAMES.iter().copied().collect();
    assert_eq!(said_once, all);
}

#[test]
fn every_kept_entry_is_written_again_byte_for_byte() {
    let state = kept();
    assert!(state.log().len() > 30);
    for line in LINES.lines() {
        let header = read_header(line).unwrap();
        let id = velamen_core::id::EntryRef {
            dev: header.dev,
            seq: header.seq,
        };
        let events = state.log().entry(id).unwrap().events.as_ref().unwrap();
        assert_eq!(write_line(&header, events).as_deref(), Ok(line));
    }
}

#[test]
fn the_kept_file_holds_the_kept_book_and_is_written_again_byte_for_byte() {
    let read = exchange::read(FILE).unwrap();
    assert!(read.lines.iter().map(String::as_str).eq(LINES.lines()));
    let state = kept();
    let at = Moment {
        now_ms: read.head.made_ms,
        off_min: 0,
        today: chrono::NaiveDate::MIN,
        dev: read.head.by,
    };
    let written = exchange::write(&state, &at).unwrap();
    let again = exchange::read(&written).unwrap();
    assert_eq!(again.lines, read.lines);
    let entries = |text: &str| -> Vec<String> { text.lines().skip(1).map(str::to_owned).collect() };
    assert_eq!(entries(&written), entries(DIGESTS));
    for older in [DENSE, DIGESTS] {
        assert_eq!(exchange::read(older).unwrap().lines, read.lines);
    }
    let head = again.head;
    let as_then = exchange::FileHead {
        rules: read.head.rules,
        vocabulary: read.head.vocabulary,
        velamen_book: read.head.velamen_book,
        ..head
    };
    assert_eq!(as_then, read.head);
    assert_eq!(read.head.book, Dev(7 ^ 0xb00c));
}

#[test]
fn the_names_of_events_on_the_wire_never_change() {
    let fixed = "book_opened book_set phone_joined phone_left place_set pot_set mix_set product_set container_set \
                 container_counted container_used measure_set group_set feed_set rotation_set price_set lot_received lot_split lot_named lot_coded moved counted lost sold reserved released gained repotted \
                 division_planned division_opened pieces_taken pieces_potted division_closed hygiene_confirmed sanitised \
                 materials_moved treated bath_topped bath_ended climate_read watered fed found observed quarantine_entered quarantine_released \
                 virus_tested task_decided task_noted protocol_adopted clock_corrected amended withdrawn settled";
    assert_eq!(WIRE_NAMES.join(" "), fixed);
    assert_eq!(
        VOCABULARY, 1,
        "a further vocabulary wants a further kept book and its upcast run on this one"
    );
}

#[test]
fn the_table_of_the_vocabulary_names_every_event() {
    let table = std::fs::read_to_string(velamen_tests::folder().join("../DEVELOPERS.md")).unwrap();
    for name in velamen_core::event::WIRE_NAMES {
        let row = format!("\n| `{name}` | ");
        assert!(table.contains(&row), "{name} has no row");
    }
}
