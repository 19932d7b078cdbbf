//! The example book: whole and sound whatever the day, and with a morning's work in it.

use std::collections::BTreeSet;
use std::sync::OnceLock;

use serde_json::Value;
use velamen_core::command::OpenBook;
use velamen_core::demo::{self, Demo, ENGLISH, Phrases};
use velamen_core::entry::read_header;
use velamen_core::exchange::{self, FileFault};
use velamen_core::id::Dev;
use velamen_core::season::Hemisphere;
use velamen_core::state::State;
use velamen_core::task::TaskKind;
use velamen_core::view::repot;
use velamen_core::view::round::{Row, RowState, round};
use velamen_tests::{Phone, opening};

/// Spring, midsummer, the rarest day, the last day of a year and the first, a day of frost, an autumn day.
const DAYS: [&str; 7] = [
    "2027-04-10",
    "2027-07-01",
    "2028-02-29",
    "2026-12-31",
    "2027-01-01",
    "2027-02-03",
    "2026-11-25",
];

fn open(book: u64) -> OpenBook {
    OpenBook {
        book: Dev(book),
        demo: false,
        ..opening(Hemisphere::North, book)
    }
}

fn made(on: &str, seed: u64) -> (Phone, Demo) {
    let mut phone = Phone::new(7, on);
    let demo = demo::book(&phone.moment(), seed, open(0xd310), &ENGLISH);
    for (_, line) in &demo.lines {
        phone.take(line);
    }
    (phone, demo)
}

/// The nursery that is shown on each of those days, and another one each.
fn books() -> &'static [(Phone, Demo)] {
    static BOOKS: OnceLock<Vec<(Phone, Demo)>> = OnceLock::new();
    BOOKS.get_or_init(|| {
        let shown = DAYS.iter().map(|on| made(on, demo::SEED));
        let others = DAYS.iter().zip(100..).map(|(on, seed)| made(on, seed));
        shown.chain(others).collect()
    })
}

fn rows(phone: &Phone) -> Vec<Row> {
    let stops = round(&phone.state, phone.today).stops;
    stops.into_iter().flat_map(|stop| stop.rows).collect()
}

#[test]
fn nothing_in_the_example_was_refused_and_nothing_is_asked() {
    for (phone, demo) in books() {
        let on = phone.today;
        assert_eq!(demo.refused, [], "{on}");
        assert_eq!(phone.state.anomalies(), [], "{on}");
        let facts = phone.state.facts();
        assert!(facts.book.demo, "{on}");
        assert_eq!(facts.phones.len(), 2, "{on}");
        assert_eq!(facts.open_clumps().count(), 0, "{on}");
        assert!(
            facts
                .lots
                .values()
                .all(|lot| lot.plants >= 0 && lot.stands >= 0)
        );
        let stocked = facts.lots.values().filter(|lot| lot.is_stocked()).count();
        assert!((50..=130).contains(&stocked), "{on}: {stocked} lots");
        let entries = demo.lines.len();
        assert!((300..=800).contains(&entries), "{on}: {entries} entries");
    }
}

#[test]
fn the_same_day_and_the_same_beginning_give_the_same_bytes() {
    for on in [0, 2] {
        let (one, first) = &books()[on];
        let (other, second) = made(DAYS[on], demo::SEED);
        assert_eq!(first.lines, second.lines);
        assert_eq!(one.state.digest(), other.state.digest());
        assert_ne!(first.lines, books()[on + DAYS.len()].1.lines);
    }
}

#[test]
fn nothing_is_dated_after_the_evening_before() {
    for (phone, demo) in books() {
        let on = phone.today;
        let mut last = i64::MIN;
        for (entry, line) in &demo.lines {
            let header = read_header(line).unwrap();
            assert_eq!((header.dev, header.seq), (entry.dev, entry.seq));
            assert!(header.on < phone.today, "{on}: {}", header.on);
            assert!(header.at_ms <= phone.now_ms);
            assert!(header.at_ms >= last, "the clock goes back");
            last = header.at_ms;
        }
    }
}

#[test]
fn the_morning_has_late_work_work_for_today_and_work_to_come() {
    for (phone, _) in books() {
        let on = phone.today;
        let view = round(&phone.state, phone.today);
        assert!((1..=12).contains(&view.late), "{on}: {} late", view.late);
        assert!((3..=30).contains(&view.due), "{on}: {} due", view.due);
        let coming = |row: &Row| {
            matches!(
                row.state,
                RowState::Coming { .. } | RowState::MayStart { .. }
            )
        };
        assert!(rows(phone).iter().any(coming), "{on}");
        assert_eq!(view.questions, 0, "{on}");
    }
}

#[test]
fn a_clump_of_three_pots_waits_for_the_bench_whatever_the_season() {
    for (phone, _) in books() {
        let on = phone.today;
        let bench = repot::bench(&phone.state, &phone.moment());
        let clump = bench
            .waiting
            .iter()
            .find(|waiting| waiting.kind == TaskKind::ToTheBench)
            .unwrap();
        let (label, _) = clump.row(phone.state.facts());
        assert_eq!((label.plants, label.stands), (3, 3), "{on}");
        assert_eq!(clump.state, Some(RowState::Due), "{on}");
        let lot = clump.lot;
        let mut phone = phone.clone();
        phone.open_clump(&[lot]);
        let view = round(&phone.state, phone.today);
        assert_eq!(view.on_the_bench[0].pots, 3, "{on}");
    }
}

#[test]
fn a_bath_is_to_be_made_and_what_goes_into_it_is_on_the_shelf() {
    for (phone, _) in books() {
        let on = phone.today;
        let rows = rows(phone);
        let again = |row: &&Row| row.kind == TaskKind::RepeatTreatment;
        let again = rows.iter().find(again).unwrap();
        assert_eq!(again.state, RowState::Due, "{on}");
        let own = rows
            .iter()
            .find(|row| row.text.starts_with("Bath"))
            .unwrap();
        assert_eq!(own.state, RowState::Due, "{on}");
        assert_eq!(own.lots.len(), 1, "{on}");
        let copper = phone.state.facts().products.values().find(|product| {
            let actives = product.actives.or_default();
            actives.iter().any(|active| active.name.contains("copper"))
        });
        assert!(copper.unwrap().rate_typed.get().is_some(), "{on}");
    }
}

#[test]
fn two_seasons_have_left_all_kinds_of_traces() {
    let (phone, demo) = &books()[6];
    let text: String = demo.lines.iter().map(|(_, line)| line.as_str()).collect();
    for event in [
        "lot_received",
        "lot_split",
        "moved",
        "counted",
        "lost",
        "sold",
        "gained",
        "repotted",
        "division_opened",
        "pieces_taken",
        "pieces_potted",
        "division_closed",
        "hygiene_confirmed",
        "treated",
        "found",
        "observed",
        "task_decided",
        "task_noted",
        "amended",
        "withdrawn",
    ] {
        assert!(text.contains(&format!("\"{event}\"")), "no {event}");
    }
    let (again, refused) = State::of_lines(demo.lines.iter().rev().map(|(_, line)| line.as_str()));
    assert_eq!((again.digest(), refused), (phone.state.digest(), 0));
}

/// What another language begins each of its phrases with here.
const MARK: &str = "¡";

fn marked(phrase: &str) -> String {
    format!("{MARK}{phrase}")
}

/// Another language: every phrase marked. One that is new is missing here, and this does not compile.
fn another_language() -> Phrases {
    let mark = |phrase: &str| -> &'static str { marked(phrase).leak() };
    let Phrases {
        second_phone,
        places,
        products,
        buyers,
        look_for_labels,
        wash_pots,
        order_bark,
        bath_for_spots,
        weather,
        another_pot,
        behind_the_post,
        grown_together,
        splitting,
    } = ENGLISH;
    Phrases {
        second_phone: mark(second_phone),
        places: places.map(mark),
        products: products.map(|(label, active)| (mark(label), mark(active))),
        buyers: buyers.map(mark),
        look_for_labels: mark(look_for_labels),
        wash_pots: mark(wash_pots),
        order_bark: mark(order_bark),
        bath_for_spots: mark(bath_for_spots),
        weather: mark(weather),
        another_pot: mark(another_pot),
        behind_the_post: mark(behind_the_post),
        grown_together: mark(grown_together),
        splitting: mark(splitting),
    }
}

/// The texts of several words in an entry, each with the field it stands in.
fn said<'a>(value: &'a Value, field: &'a str, texts: &mut BTreeSet<(&'a str, &'a str)>) {
    match value {
        Value::String(text) if text.contains(' ') => drop(texts.insert((field, text))),
        Value::Array(values) => values.iter().for_each(|one| said(one, field, texts)),
        Value::Object(fields) => fields.iter().for_each(|(name, one)| said(one, name, texts)),
        _ => {}
    }
}

#[test]
fn the_example_says_everything_in_the_language_it_is_made_in() {
    let phone = Phone::new(7, DAYS[0]);
    let mut open = open(0xd310);
    open.nursery = marked(&open.nursery);
    open.pots
        .iter_mut()
        .for_each(|(name, _)| *name = marked(name));
    open.mixes
        .iter_mut()
        .for_each(|(name, ..)| *name = marked(name));
    let phrases: &'static Phrases = Box::leak(Box::new(another_language()));
    let demo = demo::book(&phone.moment(), demo::SEED, open, phrases);
    assert_eq!(demo.refused, []);
    let entries: Vec<Value> = demo
        .lines
        .iter()
        .map(|(_, line)| serde_json::from_str(line).unwrap())
        .collect();
    let mut texts = BTreeSet::new();
    for entry in &entries {
        said(entry, "", &mut texts);
    }
    // Plants, figures and where a rule comes from read the same everywhere.
    let alike = ["cultivar", "content_typed", "rate_typed", "codes", "source"];
    let left = texts
        .iter()
        .filter(|(field, text)| !text.starts_with(MARK) && !alike.contains(field));
    assert_eq!(left.collect::<Vec<_>>(), Vec::<&(&str, &str)>::new());
    // Each of them is said, also those of one word.
    let mut wanted = vec![phrases.second_phone];
    wanted.extend(phrases.places);
    wanted.extend(
        phrases
            .products
            .iter()
            .flat_map(|(label, active)| [label, active]),
    );
    wanted.extend(phrases.buyers);
    wanted.extend([
        phrases.look_for_labels,
        phrases.wash_pots,
        phrases.order_bark,
        phrases.bath_for_spots,
        phrases.weather,
        phrases.another_pot,
        phrases.behind_the_post,
        phrases.grown_together,
        phrases.splitting,
    ]);
    let book: String = demo.lines.iter().map(|(_, line)| line.as_str()).collect();
    for phrase in wanted {
        assert!(
            book.contains(&format!("\"{phrase}\"")),
            "{phrase} is not said"
        );
        let first = phrase.trim_start_matches(MARK);
        assert!(!book.contains(&format!("\"{first}\"")), "{first} is left");
    }
}

#[test]
fn the_example_and_real_books_refuse_each_other() {
    let (example, _) = &books()[0];
    let mut own = Phone::new(9, "2027-04-10");
    own.open_book(Hemisphere::North);
    let refused = |phone: &Phone, file: &str| {
        let incoming = exchange::read(file).unwrap();
        exchange::plan(&phone.state, &phone.moment(), incoming)
    };
    let file = example.hand_over();
    assert_eq!(refused(&own, &file), Err(FileFault::Demo));
    assert_eq!(refused(example, &own.hand_over()), Err(FileFault::Demo));
    let empty = Phone::new(10, "2027-04-10");
    let plan = refused(&empty, &file).unwrap();
    assert!(plan.first && plan.example, "an empty phone may look at it");
}
