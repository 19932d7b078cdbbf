//! Limits that no single command meets: shelves that fill up, lists and files from elsewhere, clocks, work in hand.

use velamen_core::apply::{ApplyDraft, WaterDraft, WaterFault};
use velamen_core::bath::{TubDraft, TubFault};
use velamen_core::cells::Cells;
use velamen_core::clean::{CleanFault, CleaningDraft};
use velamen_core::code::Prefix;
use velamen_core::command::{Command, FeedTraits, MeasureTraits};
use velamen_core::event::{Event, Held, MeasureKind, Method, Object};
use velamen_core::exchange::{self, Bounds, FileFault, read_within};
use velamen_core::limits;
use velamen_core::rejection::Input;
use velamen_core::season::{Hemisphere, Warmth};
use velamen_core::state::Anomaly;
use velamen_core::stock_list::{self, Comes, Reading, RowFault, listed};
use velamen_core::view::clock::{ClockDoubt, doubt};
use velamen_tests::Phone;

use super::{bench, each, feed, held, hold, many, most, of, product, row};

fn measure(traits: MeasureTraits) -> Command {
    let measure = None;
    Command::SetMeasure { measure, traits }
}

fn jug() -> Command {
    measure(MeasureTraits {
        kind: Some(MeasureKind::Jug),
        least: Some(1_000),
        most: Some(10_000),
        graduation: Some(1_000),
        ..MeasureTraits::default()
    })
}

/// The same thing, off the shelf or back on it.
fn retire(event: &Event, gone: bool) -> Command {
    let retired = Some(gone);
    match event {
        Event::MeasureSet(it) => Command::SetMeasure {
            measure: Some(it.measure),
            traits: MeasureTraits {
                retired,
                ..MeasureTraits::default()
            },
        },
        Event::FeedSet(it) => Command::SetFeed {
            feed: Some(it.feed),
            traits: FeedTraits {
                retired,
                ..FeedTraits::default()
            },
        },
        Event::ContainerSet(it) => Command::SetContainer {
            container: Some(it.container),
            traits: velamen_core::command::ContainerTraits {
                retired,
                ..velamen_core::command::ContainerTraits::default()
            },
        },
        other => panic!("{other:?}"),
    }
}

#[test]
fn a_shelf_is_full_however_it_was_filled() {
    let (mut phone, _, _) = bench();
    let thirty = product(&mut phone);
    let shelves = [
        ("MEASURES_MAX", Input::Measure, limits::MEASURES_MAX, jug()),
        ("FEEDS_MAX", Input::Feed, limits::FEEDS_MAX, feed()),
        (
            "CONTAINERS_MAX",
            Input::Container,
            limits::CONTAINERS_MAX,
            held(thirty, Held::Ul(1_000)),
        ),
    ];
    for (limit, input, full, one) in shelves {
        let why = many(input, full);
        let together = |figure| Command::Together(each(figure, |_| one.clone()));
        hold(&phone, vec![row(limit, most(full), why.clone(), together)]);
        phone.act(together(of(full - 1)));
        let last = phone.act(one.clone());
        assert_eq!(phone.refusal(one.clone()), why, "{limit}");
        // What is put away makes room, and comes back only where there is some.
        phone.act(retire(&last.events[0], true));
        phone.act(one.clone());
        assert_eq!(
            phone.refusal(retire(&last.events[0], false)),
            why,
            "{limit}"
        );
        assert_eq!(phone.refusal(one), why, "{limit}");
    }
}

fn comes(phone: &Phone, head: &[&str], rows: Vec<Vec<String>>) -> Comes {
    let head = head.iter().map(|cell| (*cell).to_owned()).collect();
    let rows = (1..).zip([vec![head], rows].concat()).collect();
    let table = Cells {
        rows,
        too_many: false,
    };
    let reading = Reading::guess(&table);
    listed(&table, &reading, phone.state.facts(), phone.today)
}

#[test]
fn a_list_comes_in_up_to_its_most_and_says_what_is_left() {
    let (phone, _, _) = bench();
    for over in [-1, 0, 1] {
        let rows = each(of::<_, i64>(limits::LISTED_ROWS_MAX) + over, |at| {
            vec![format!("Cymbidium {at}"), "3".to_owned()]
        });
        let comes = comes(&phone, &["Name", "Plants"], rows);
        let left: usize = of(over.max(0));
        let came = limits::LISTED_ROWS_MAX - of::<_, usize>((-over).max(0));
        assert_eq!((comes.lots.len(), comes.left_over), (came, left));
    }
}

#[test]
fn a_list_with_more_new_places_than_an_entry_holds_leaves_their_rows_for_the_next_time() {
    let (mut phone, _, _) = bench();
    let rows = |over: i64| {
        each(of::<_, i64>(limits::EVENTS_MAX) + over, |at| {
            vec![format!("Cymbidium {at}"), format!("Bench {at}")]
        })
    };
    let head = ["Name", "Bench"];
    for (over, left) in [(-1, 0), (0, 0), (1, 1)] {
        assert_eq!(comes(&phone, &head, rows(over)).left_over, left);
    }
    let first = comes(&phone, &head, rows(1));
    phone.act(stock_list::places(&first).unwrap());
    for lots in stock_list::lots(&first, phone.state.facts()) {
        phone.act(lots);
    }
    let second = comes(&phone, &head, rows(1));
    assert_eq!((second.lots.len(), second.new_places.len()), (1, 1));
    let placed = |lot: &velamen_core::state::Lot| lot.place.get().is_some();
    assert!(
        phone.state.facts().lots.values().all(|lot| placed(lot)),
        "none without its bench"
    );
}

#[test]
fn a_row_of_a_list_has_the_limits_of_a_lot() {
    let (phone, _, _) = bench();
    let told = |head: [&str; 2], cell: String| {
        let name = "Cymbidium lowianum".to_owned();
        let comes = comes(&phone, &head, vec![vec![name, cell]]);
        comes.refused.into_iter().next().map(|(_, why)| why)
    };
    let plants = |plants: u32| told(["Name", "Plants"], plants.to_string());
    let full = limits::PLANTS_MAX;
    assert_eq!(plants(full - 1), None);
    assert_eq!(plants(full), None);
    assert_eq!(plants(full + 1), Some(RowFault::TooMany { most: full }));
    for (head, most) in [
        ("Bench", limits::TEXT_CHARS_MAX),
        ("Note", limits::NOTE_CHARS_MAX),
    ] {
        for (chars, fits) in [(most - 1, true), (most, true), (most + 1, false)] {
            let why = told(["Name", head], "x".repeat(chars));
            let refused = matches!(why, Some(RowFault::Text { .. }));
            assert_eq!((why.is_none(), refused), (fits, !fits), "{head} {chars}");
        }
    }
    let year = limits::FIRST_YEAR;
    for (potted, fits) in [
        (format!("02/01/{year}"), true),
        (format!("01/01/{year}"), true),
        (format!("31/12/{}", year - 1), false),
    ] {
        let why = told(["Name", "Last repotted"], potted.clone());
        let refused = matches!(why, Some(RowFault::DayOutOfRange { .. }));
        assert_eq!((why.is_none(), refused), (fits, !fits), "{potted}");
    }
}

/// The real figures, since lines of nothing and a boast are read in a moment.
#[test]
fn a_file_is_read_up_to_its_most_of_lines_and_entries() {
    let (phone, _, _) = bench();
    let file = phone.hand_over();
    let head = file.lines().next().unwrap();
    let lines = limits::FILE_LINES_MAX;
    for (blank, fits) in [(lines - 2, true), (lines - 1, true), (lines, false)] {
        let text = format!("{head}\n{}", "\n".repeat(blank));
        let told = exchange::read(&text);
        let many = Err(FileFault::TooManyLines { most: lines });
        assert_eq!(told != many, fits, "{blank} blank lines: {told:?}");
        assert!(told.is_err(), "its entries are missing");
    }
    let entries = limits::BOOK_ENTRIES_MAX;
    let own = format!("\"entries\":{}", phone.state.log().len());
    for (told, fits) in [(entries - 1, true), (entries, true), (entries + 1, false)] {
        let boast = head.replace(&own, &format!("\"entries\":{told}"));
        assert_ne!(boast, head);
        let read = exchange::read(&boast);
        let many = Err(FileFault::TooManyEntries { most: entries });
        assert_eq!(read != many, fits, "{told} entries: {read:?}");
    }
    let bounds = Bounds::default();
    let whole = (limits::FILE_BYTES_MAX, lines, entries);
    assert_eq!((bounds.bytes, bounds.lines, bounds.entries), whole);
}

/// By a smaller most: a million entries would take minutes.
#[test]
fn a_book_and_a_file_together_hold_their_most_and_not_one_more() {
    let (first, _, _) = bench();
    let mut second = Phone::new(8, "2027-03-11");
    second.take_in(&first.hand_over());
    second.act(Command::JoinPhone {
        prefix: Prefix::pick(8),
        name: String::new(),
    });
    second.place("Lath house", Warmth::Cool);
    let file = second.hand_over();
    let all = second.state.log().len();
    for (most, fits) in [(all + 1, true), (all, true), (all - 1, false)] {
        let incoming = read_within(&file, Bounds::default()).unwrap();
        let told = exchange::plan_within(&first.state, &first.moment(), incoming, most);
        let many = FileFault::TooManyEntries { most };
        assert_eq!(
            told.map(|plan| plan.new.len()),
            if fits { Ok(2) } else { Err(many) }
        );
    }
}

#[test]
fn a_clock_may_be_a_day_astray_and_not_a_millisecond_more() {
    let (mut phone, _, _) = bench();
    let last_ms = phone
        .state
        .log()
        .in_order()
        .next_back()
        .unwrap()
        .header
        .at_ms;
    let at = |now_ms| velamen_core::time::Moment {
        now_ms,
        ..phone.moment()
    };
    let behind = Some(ClockDoubt::BehindOwn(phone.today));
    for (by, told) in [(-1, None), (0, None), (1, behind)] {
        let now_ms = last_ms - limits::CLOCK_ASTRAY_MS - by;
        assert_eq!(doubt(&phone.state, &at(now_ms)), told, "{by}");
    }
    for (by, told) in [(1, None), (0, None), (-1, Some(ClockDoubt::Unset))] {
        let fresh = Phone::new(9, "2027-03-11");
        let now_ms = limits::CLOCK_FIRST_MS + by;
        assert_eq!(doubt(&fresh.state, &at(now_ms)), told, "{by}");
    }
    // A file whose last entry is so far ahead of the phone that reads it.
    let file = phone.hand_over();
    for (by, ahead) in [(-1, 0), (0, 0), (1, 1)] {
        let now_ms = last_ms - limits::CLOCK_ASTRAY_MS - by;
        let incoming = exchange::read(&file).unwrap();
        let fresh = Phone::new(9, "2027-03-11");
        let plan = exchange::plan(&fresh.state, &at(now_ms), incoming).unwrap();
        assert_eq!(plan.from_the_future, ahead, "{by}");
    }
    // A phone's own entries, out of order by so much.
    for (by, asked) in [(-1, 0), (0, 0), (1, 1)] {
        let mut phone = phone.clone();
        phone.now_ms = last_ms - limits::CLOCK_ASTRAY_MS - by;
        phone.place("Lath house", Warmth::Cool);
        let astray = |it: &Anomaly| matches!(it, Anomaly::ClockAstray { .. });
        let found = phone.state.anomalies();
        assert_eq!(
            found.iter().filter(|it| astray(it)).count(),
            asked,
            "{by}: {found:?}"
        );
    }
    phone.wait_min(1);
    assert_eq!(doubt(&phone.state, &phone.moment()), None);
}

#[test]
fn water_and_time_as_they_are_typed() {
    let full = limits::TUB_UL_MAX;
    for (ul, fits) in [(full - 1, true), (full, true), (full + 1, false)] {
        let litres = format!("{}.{:06}", ul / 1_000_000, ul % 1_000_000);
        let tub = TubDraft {
            litres: litres.clone(),
            ..TubDraft::default()
        };
        let told = tub.water().map(velamen_core::quantity::Volume::ul);
        assert_eq!(told, if fits { Ok(ul) } else { Err(TubFault::TooMuch) });
        let spray = ApplyDraft {
            method: Some(Method::Spray),
            water: WaterDraft {
                litres,
                ..WaterDraft::default()
            },
            ..ApplyDraft::default()
        };
        let (phone, _) = crate::scene::nursery(Hemisphere::North, Warmth::Cool, "2027-03-11");
        let told = spray
            .water(&phone.state)
            .map(|water| water.map(|it| it.ul()));
        assert_eq!(
            told,
            if fits {
                Ok(Some(ul))
            } else {
                Err(WaterFault::TooMuch)
            }
        );
    }
    let long = limits::SOAK_S_MAX;
    for (s, told) in [
        (long - 1, Ok(())),
        (long, Ok(())),
        (long + 1, Err(CleanFault::ContactTooLong)),
    ] {
        let trough = CleaningDraft {
            object: Object::Pots,
            stock: "5.25".to_owned(),
            bath: TubDraft {
                litres: "10".to_owned(),
                ..TubDraft::default()
            },
            contact_s: Some(s),
            ..CleaningDraft::default()
        };
        assert_eq!(trough.ready().map(|_| ()), told, "{s}");
    }
}
