//! Handing over no more than is lacking, several files at once, a file that grows, a phone taken off the book, and the
//! limits of a file, each at its edge.

use std::collections::BTreeMap;

use velamen_core::code::Prefix;
use velamen_core::command::{Command, PlaceTraits};
use velamen_core::entry::{LineHash, Marks, NotAnEntry, read_header};
use velamen_core::exchange::lack::{Urgency, at_stake, held_by, others, urgency};
use velamen_core::exchange::{self, Bounds, FileFault, Incoming, Kind, kind, may_become, parts};
use velamen_core::id::{Dev, EntryRef};
use velamen_core::limits::{EXPANSION_FREE_BYTES, EXPANSION_MAX, FILE_BYTES_MAX, LINE_BYTES_MAX};
use velamen_core::rejection::Rejection;
use velamen_core::season::{Hemisphere, Warmth};
use velamen_core::state::{Anomaly, State};
use velamen_core::time::Moment;
use velamen_core::view::clock::{ClockDoubt, doubt};
use velamen_tests::Phone;

/// A phone that opened the book, and one that took it in and joined.
fn two() -> (Phone, Phone) {
    let mut first = Phone::new(7, "2027-03-11");
    first.open_book(Hemisphere::North);
    first.place("Cool house", Warmth::Cool);
    let second = joined(8, &first);
    (first, second)
}

fn joined(dev: u64, from: &Phone) -> Phone {
    let mut phone = Phone::new(dev, "2027-03-11");
    phone.take_in(&from.hand_over());
    phone.wait_min(60);
    phone.act(Command::JoinPhone {
        prefix: Prefix::pick(dev),
        name: String::new(),
    });
    phone
}

fn part(phone: &Phone, marks: &Marks) -> String {
    exchange::write_since(&phone.state, &phone.moment(), marks).unwrap()
}

fn lacking(phone: &Phone, dev: u64) -> Marks {
    held_by(phone.state.log(), Dev(dev), &Marks::new())
}

fn read(file: &str) -> Incoming {
    exchange::read(file).unwrap()
}

#[test]
fn a_phone_gets_what_it_lacks_and_no_more() {
    let (mut first, mut second) = two();
    second.place("Warm house", Warmth::Warm);
    first.take_in(&second.hand_over());
    first.place("Lath house", Warmth::Intermediate);
    first.place("Seedling bench", Warmth::Warm);
    let file = part(&first, &lacking(&first, 8));
    let incoming = read(&file);
    assert!(incoming.head.part);
    assert_eq!(incoming.lines.len(), 2, "what the second phone cannot know");
    let plan = second.take_in(&file);
    assert_eq!((plan.new.len(), plan.waiting), (2, 0));
    assert_eq!(second.state.digest(), first.state.digest());
    // It has written nothing since, so its file is what tells that it has them.
    let told = read(&second.hand_over()).head.heads;
    let known = held_by(first.state.log(), Dev(8), &told);
    let nothing = read(&part(&first, &known));
    assert_eq!((nothing.lines.len(), nothing.head.entries), (0, 0));
    let told = |_| told.clone();
    let all = others(&first.state, &first.moment(), told);
    assert_eq!((all.len(), all[0].dev, all[0].lacks), (1, Dev(8), 0));
}

#[test]
fn a_mark_of_another_branch_is_not_taken_for_one_of_this() {
    let (first, _) = two();
    let mut marks = first.state.log().marks();
    for (_, hash) in marks.values_mut() {
        *hash = LineHash(hash.0 ^ 1);
    }
    let file = read(&part(&first, &marks));
    assert_eq!(file.lines.len(), first.state.log().len());
}

#[test]
fn a_phone_that_was_copied_and_does_not_know_it_yet_sends_all_its_own_and_is_told_what_is_at_stake()
{
    let (mut first, mut second) = two();
    first.take_in(&second.hand_over());
    let mut copy = first.clone();
    let shared = first.state.log().marks()[&first.dev].0;
    for name in ["Warm house", "Lath house"] {
        first.place(name, Warmth::Warm);
    }
    for name in ["Bench 1", "Bench 2", "Bench 3", "Bench 4"] {
        copy.place(name, Warmth::Cool);
    }
    // The second phone has the copy's entries, under the same name, and says so in what it hands over.
    second.take_in(&copy.hand_over());
    second.place("Seedling bench", Warmth::Warm);
    let told = second.state.log().marks();
    assert!(told[&first.dev].0 > first.state.log().marks()[&first.dev].0);
    first.take_in(&part(&second, &copy.state.log().marks()));
    assert_eq!(first.state.anomalies(), Vec::new(), "nobody here knows yet");
    let dev = first.dev;
    let own = |file: &Incoming| {
        let lines = file.lines.iter();
        lines
            .filter(|line| read_header(line).unwrap().dev == dev)
            .count()
    };
    let known = held_by(first.state.log(), second.dev, &told);
    let file = read(&part(&first, &known));
    assert_eq!(own(&file), usize::try_from(shared).unwrap() + 2);
    let stake = |handed: &Marks| {
        let all = others(&first.state, &first.moment(), |_| told.clone());
        at_stake(&first.state, first.dev, handed, &all)
    };
    assert!(stake(&Marks::new()) >= 2);
    assert_eq!(stake(&first.state.log().marks()), 0, "a file has it all");
    // A mark with eight more and another hash: whatever is its own lies here alone, as far as is known.
    let mut beyond = first.state.log().marks();
    for (_, (seq, hash)) in beyond.iter_mut().filter(|(dev, _)| **dev == first.dev) {
        *seq += 8;
        *hash = LineHash(hash.0 ^ 1);
    }
    let file = read(&part(&first, &beyond));
    assert_eq!(own(&file), file.lines.len());
    assert_eq!(own(&file), usize::try_from(shared).unwrap() + 2);
    // Another phone's mark beyond what is known here is simply that: it is further.
    let mut further = first.state.log().marks();
    for (_, (seq, _)) in further.iter_mut().filter(|(dev, _)| **dev == second.dev) {
        *seq += 8;
    }
    assert_eq!(read(&part(&first, &further)).lines.len(), 0);
    // With the file in hand the second phone finds out, and keeps both.
    second.take_in(&part(&first, &known));
    let copied = |it: &Anomaly| matches!(it, Anomaly::PhoneCopied { .. });
    assert!(second.state.anomalies().iter().any(copied));
    let places = second.state.facts().places.values();
    let names: Vec<String> = places.map(|place| place.name.or_default()).collect();
    assert!(names.contains(&"Lath house".to_owned()) && names.contains(&"Bench 4".to_owned()));
}

#[test]
fn a_phone_without_a_book_does_not_begin_with_a_part_of_one() {
    let (mut first, _) = two();
    let before = first.state.log().marks();
    first.place("Warm house", Warmth::Warm);
    let fresh = Phone::new(9, "2027-03-11");
    let small = read(&part(&first, &before));
    let plan = |files: Vec<Incoming>| {
        let incoming = Incoming::joined(files).unwrap().unwrap();
        exchange::plan(&fresh.state, &fresh.moment(), incoming)
    };
    assert_eq!(plan(vec![small.clone()]), Err(FileFault::OnlyAPart));
    let mut unmarked = small.clone();
    unmarked.head.part = false;
    assert_eq!(plan(vec![unmarked]), Err(FileFault::OnlyAPart));
    // Together with the whole book it is welcome, in whatever order they were chosen.
    let all = first.state.log().len();
    let whole = read(&first.hand_over());
    for files in [vec![small.clone(), whole.clone()], vec![whole, small]] {
        let plan = plan(files).unwrap();
        assert_eq!((plan.new.len(), plan.waiting), (all, 0));
    }
}

#[test]
fn several_files_are_read_as_one_and_another_nurserys_is_told() {
    let (mut first, mut second) = two();
    let mut third = joined(9, &first);
    second.place("Warm house", Warmth::Warm);
    third.place("Lath house", Warmth::Intermediate);
    let files = vec![
        read(&third.hand_over()),
        read(&second.hand_over()),
        read(&third.hand_over()),
    ];
    let all = Incoming::joined(files).unwrap().unwrap();
    let plan = exchange::plan(&first.state, &first.moment(), all).unwrap();
    assert_eq!((plan.new.len(), plan.new_phones, plan.waiting), (4, 2, 0));
    for line in &plan.new {
        first.take(line);
    }
    assert_eq!(first.state.facts().places.len(), 3);
    let mut stranger = Phone::new(70, "2027-03-11");
    stranger.open_book(Hemisphere::South);
    let mixed = vec![read(&second.hand_over()), read(&stranger.hand_over())];
    let told = Incoming::joined(mixed);
    assert!(matches!(told, Err(FileFault::OtherBook { .. })));
    assert_eq!(Incoming::joined(Vec::new()), Ok(None));
}

#[test]
fn questions_a_file_would_raise_are_counted_before_it_is_taken_in() {
    let (mut first, mut second) = two();
    let place = *first.state.facts().places.keys().next().unwrap();
    let warmth = |warmth| Command::SetPlace {
        place: Some(place),
        name: None,
        walk: None,
        about: PlaceTraits {
            warmth: Some(warmth),
            ..PlaceTraits::default()
        },
    };
    first.act(warmth(Warmth::Warm));
    second.act(warmth(Warmth::Intermediate));
    let incoming = read(&second.hand_over());
    let plan = exchange::plan(&first.state, &first.moment(), incoming.clone()).unwrap();
    assert_eq!(exchange::would_ask(&first.state, &plan), 1);
    first.take_in(&second.hand_over());
    assert_eq!(first.state.anomalies().len(), 1);
    let again = exchange::plan(&first.state, &first.moment(), incoming).unwrap();
    assert_eq!(exchange::would_ask(&first.state, &again), 0);
}

#[test]
fn one_number_with_two_contents_is_kept_twice_and_told() {
    let (first, mut second) = two();
    let mut other = first.clone();
    let mut first = first;
    first.place("Warm house", Warmth::Warm);
    other.place("Lath house", Warmth::Warm);
    second.take_in(&first.hand_over());
    let incoming = read(&other.hand_over());
    let plan = exchange::plan(&second.state, &second.moment(), incoming).unwrap();
    assert!(plan.copied_phone);
    assert_eq!(plan.new.len(), 1);
    second.take_in(&other.hand_over());
    assert_eq!(second.state.facts().places.len(), 3);
}

#[test]
fn a_stamp_of_2199_is_counted_and_stands_in_nobodys_way() {
    let (mut first, mut second) = two();
    second.now_ms += 172 * 365 * 86_400_000;
    second.place("Warm house", Warmth::Warm);
    second.now_ms -= 172 * 365 * 86_400_000;
    let plan = first.take_in(&second.hand_over());
    assert_eq!(plan.from_the_future, 1);
    first.place("Lath house", Warmth::Intermediate);
    assert_eq!(first.state.facts().places.len(), 3);
    second.take_in(&first.hand_over());
    assert_eq!(second.state.digest(), first.state.digest());
}

#[test]
fn a_file_that_grows_is_read_part_by_part_and_its_torn_end_again() {
    let (mut first, _) = two();
    let whole = first.hand_over();
    let marks = first.state.log().marks();
    first.place("Warm house", Warmth::Warm);
    let more = part(&first, &marks);
    let text = format!("{whole}{more}");
    let lines = first.state.log().len();
    let all = parts(&text);
    assert_eq!((all.sound.len(), all.damaged), (2, 0));
    assert_eq!((all.read_to, all.unfinished), (text.len(), false));
    let joined = Incoming::joined(all.sound).unwrap().unwrap();
    assert_eq!(joined.lines.len(), lines);
    // Cut anywhere in the second part: the first one counts, and the rest is looked at again from its beginning.
    let end = text.trim_end().len();
    for at in (whole.len()..end).filter(|at| text.is_char_boundary(*at)) {
        let some = parts(&text[..at]);
        assert_eq!((some.sound.len(), some.read_to), (1, whole.len()), "{at}");
        assert_eq!(some.damaged, 0);
    }
    let rest = parts(&text[whole.len()..]);
    assert_eq!((rest.sound.len(), rest.read_to), (1, more.len()));
    // A part in the middle that was altered is left out; what comes after it is still read.
    let altered = format!("{}{more}", whole.replace("Cool house", "Cold house"));
    let found = parts(&altered);
    assert_eq!((found.sound.len(), found.damaged), (1, 1));
    assert_eq!(found.read_to, altered.len());
    assert_eq!(parts("milk\neggs\n").damaged, 1);
    assert_eq!(parts(""), exchange::Parts::default());
    let newer = more.replacen("\"velamen_book\":3", "\"velamen_book\":9", 1);
    assert!(parts(&format!("{whole}{newer}")).newer);
}

#[test]
fn what_a_rescued_book_had_in_hand_goes_to_an_empty_phone_only() {
    let (first, second) = two();
    let drafts = BTreeMap::from([("bench-1".to_owned(), "{\"version\":1}".to_owned())]);
    let file = exchange::write_rescue(&first.state, &first.moment(), drafts.clone()).unwrap();
    let incoming = read(&file);
    let told = |phone: &Phone| {
        let plan = exchange::plan(&phone.state, &phone.moment(), incoming.clone());
        plan.unwrap().drafts
    };
    assert_eq!(told(&Phone::new(9, "2027-03-11")), drafts);
    assert_eq!(told(&second), BTreeMap::new());
    assert!(!first.hand_over().contains("drafts"));
}

#[test]
fn lines_that_nobody_put_together_are_carried_out_and_taken_in_as_the_book_they_are() {
    let (first, _) = two();
    let lines: Vec<&str> = first.state.log().lines().collect();
    let drafts = BTreeMap::from([("bench-1".to_owned(), "{\"version\":1}".to_owned())]);
    let file = exchange::write_unread(&lines, &first.moment(), drafts.clone()).unwrap();
    let mut empty = Phone::new(9, "2027-03-11");
    let plan = exchange::plan(&empty.state, &empty.moment(), read(&file)).unwrap();
    assert_eq!(plan.drafts, drafts);
    empty.take_in(&file);
    let taken: Vec<&str> = empty.state.log().lines().take(lines.len()).collect();
    assert_eq!(taken, lines);
    assert!(exchange::write_unread(&["no line", "{}"], &first.moment(), drafts).is_none());
}

#[test]
fn a_clock_before_its_own_last_entry_is_doubted_and_one_put_right_is_not() {
    let (first, _) = two();
    let at = first.moment();
    let moved = |by_days: i64| Moment {
        now_ms: at.now_ms + by_days * 86_400_000,
        ..at
    };
    assert_eq!(doubt(&first.state, &at), None);
    assert_eq!(
        doubt(&first.state, &moved(400)),
        None,
        "a winter without an entry"
    );
    assert_eq!(
        doubt(&first.state, &moved(-40)),
        Some(ClockDoubt::BehindOwn(at.today))
    );
    let unset = Moment { now_ms: 0, ..at };
    assert_eq!(doubt(&first.state, &unset), Some(ClockDoubt::Unset));
    // Another phone has no entry of its own to go by.
    let other = Moment {
        dev: Dev(77),
        ..moved(-40)
    };
    assert_eq!(doubt(&first.state, &other), None);
}

#[test]
fn how_urgent_it_is_follows_what_would_be_lost() {
    let (mut first, mut second) = two();
    let stake = |phone: &Phone, handed: &Marks| {
        let all = others(&phone.state, &phone.moment(), |_| Marks::new());
        at_stake(&phone.state, phone.dev, handed, &all)
    };
    let nothing = Marks::new();
    let opened = first.state.log().len();
    assert_eq!(stake(&first, &nothing), opened, "nobody else is known");
    assert_eq!(stake(&second, &nothing), 1, "it joined, and nobody knows");
    first.take_in(&second.hand_over());
    assert_eq!(stake(&first, &nothing), 0, "the second phone has it all");
    first.place("Warm house", Warmth::Warm);
    assert_eq!(stake(&first, &nothing), 1);
    assert_eq!(stake(&first, &first.state.log().marks()), 0);
    second.take_in(&first.hand_over());
    // A phone that was taken off the book keeps nothing safe.
    first.act(Command::TakeOffPhone {
        dev: Dev(8),
        note: String::new(),
    });
    assert_eq!(stake(&first, &nothing), first.state.log().len());
    for (entries, days, expected) in [
        (0, None, Urgency::Nothing),
        (0, Some(400), Urgency::Nothing),
        (1, None, Urgency::Some),
        (1, Some(6), Urgency::Some),
        (1, Some(7), Urgency::Much),
        (39, Some(0), Urgency::Some),
        (40, Some(0), Urgency::Much),
        (40, None, Urgency::Much),
    ] {
        assert_eq!(urgency(entries, days), expected, "{entries} {days:?}");
    }
}

#[test]
fn a_phone_taken_off_the_book_is_asked_about_when_it_wrote_on_and_may_join_again() {
    let (mut first, mut second) = two();
    first.take_in(&second.hand_over());
    let off = |dev| Command::TakeOffPhone {
        dev: Dev(dev),
        note: "lost".to_owned(),
    };
    assert_eq!(first.refusal(off(7)), Rejection::NothingToDo);
    assert!(matches!(
        first.refusal(off(99)),
        Rejection::NotInTheBook { .. }
    ));
    let by = first.act(off(8)).entry;
    assert_eq!(first.refusal(off(8)), Rejection::NothingToDo);
    assert!(first.state.facts().phones[&Dev(8)].has_left());
    assert_eq!(
        first.state.anomalies(),
        Vec::new(),
        "what it wrote before stays"
    );
    second.place("Warm house", Warmth::Warm);
    first.take_in(&second.hand_over());
    let asked = Anomaly::WroteAfterLeaving {
        dev: Dev(8),
        by,
        from_seq: 2,
        to_seq: 2,
    };
    assert_eq!(first.state.anomalies(), vec![asked.clone()]);
    first.act(Command::Settle {
        subject: asked.subject(),
        anomaly: asked.key(),
        note: String::new(),
    });
    assert_eq!(first.state.anomalies(), Vec::new());
    // The phone learns of it, and writes nothing until it joins again.
    second.take_in(&first.hand_over());
    let place = Command::SetPlace {
        place: None,
        name: Some("Lath house".to_owned()),
        walk: None,
        about: PlaceTraits::default(),
    };
    assert_eq!(second.refusal(place.clone()), Rejection::PhoneNotJoined);
    second.act(Command::JoinPhone {
        prefix: Prefix::pick(8),
        name: String::new(),
    });
    second.act(place);
    assert!(!second.state.facts().phones[&Dev(8)].has_left());
    first.take_in(&second.hand_over());
    assert_eq!(first.state.digest(), second.state.digest());
    let lines: Vec<String> = first.state.log().lines().map(str::to_owned).collect();
    let (anew, _) = State::of_lines(lines.iter().rev().map(String::as_str));
    assert_eq!(anew.digest(), first.state.digest());
}

#[test]
fn a_file_holds_its_most_and_not_one_more() {
    let (first, _) = two();
    let file = first.hand_over();
    let lines = file.lines().count();
    let entries = first.state.log().len();
    let own = Bounds {
        bytes: file.len(),
        lines,
        entries,
    };
    let told = |bounds| exchange::read_within(&file, bounds).map(|_| ());
    assert_eq!(told(own), Ok(()));
    let most_bytes = file.len() - 1;
    let tight = Bounds {
        bytes: most_bytes,
        ..own
    };
    assert_eq!(told(tight), Err(FileFault::TooLarge { most_bytes }));
    let tight = Bounds {
        lines: lines - 1,
        ..own
    };
    assert_eq!(
        told(tight),
        Err(FileFault::TooManyLines { most: lines - 1 })
    );
    let tight = Bounds {
        entries: entries - 1,
        ..own
    };
    let most = entries - 1;
    assert_eq!(told(tight), Err(FileFault::TooManyEntries { most }));
    for loose in [
        Bounds {
            bytes: file.len() + 1,
            ..own
        },
        Bounds {
            lines: lines + 1,
            ..own
        },
        Bounds {
            entries: entries + 1,
            ..own
        },
    ] {
        assert_eq!(told(loose), Ok(()));
    }
    assert_eq!(Bounds::default().bytes, FILE_BYTES_MAX);
}

#[test]
fn a_million_lines_are_refused_in_a_moment() {
    let (first, _) = two();
    let file = first.hand_over();
    let head = file.lines().next().unwrap();
    let blank = format!("{head}\n{}", "\n".repeat(1_200_000));
    assert!(matches!(
        exchange::read(&blank),
        Err(FileFault::TooManyLines { .. })
    ));
    let junk = format!("{head}\n{}", "milk\n".repeat(1_000_000));
    assert!(matches!(
        exchange::read(&junk),
        Err(FileFault::Damaged { .. })
    ));
    let boast = head.replace(
        &format!("\"entries\":{}", first.state.log().len()),
        "\"entries\":1000001",
    );
    assert_ne!(boast, head);
    let most = 1_000_000;
    assert_eq!(
        exchange::read(&boast),
        Err(FileFault::TooManyEntries { most })
    );
}

#[test]
fn a_line_has_its_most_of_bytes() {
    let (first, _) = two();
    let line = first.state.log().lines().next().unwrap();
    let padded = |bytes: usize| {
        let more = " ".repeat(bytes - line.len());
        format!("{{{more}{}", &line[1..])
    };
    for (bytes, fits) in [
        (LINE_BYTES_MAX - 1, true),
        (LINE_BYTES_MAX, true),
        (LINE_BYTES_MAX + 1, false),
    ] {
        let told = read_header(&padded(bytes)).map(|_| ());
        let expected = fits.then_some(()).ok_or(NotAnEntry::TooLong);
        assert_eq!(told, expected, "{bytes}");
    }
}

#[test]
fn a_packed_file_may_become_so_much_and_no_more() {
    let most = 1_000 * EXPANSION_MAX + EXPANSION_FREE_BYTES;
    for (bytes, fits) in [(most - 1, true), (most, true), (most + 1, false)] {
        assert_eq!(may_become(1_000, bytes), fits);
    }
    for (bytes, fits) in [
        (FILE_BYTES_MAX - 1, true),
        (FILE_BYTES_MAX, true),
        (FILE_BYTES_MAX + 1, false),
    ] {
        assert_eq!(may_become(FILE_BYTES_MAX, bytes), fits);
    }
    assert!(!may_become(usize::MAX, usize::MAX));
}

#[test]
fn a_file_is_known_by_its_first_bytes_whatever_it_is_called() {
    let (first, _) = two();
    let file = first.hand_over();
    let envelope = exchange::envelope::first_line(&[1; 16], true).unwrap();
    let rows: [(&[u8], Kind); 9] = [
        (b"", Kind::Empty),
        (b" \r\n", Kind::Empty),
        (b"\xef\xbb\xbf", Kind::Empty),
        (file.as_bytes(), Kind::Text),
        (&[0x1f, 0x8b, 8, 0], Kind::Packed),
        (b"PK\x03\x04", Kind::Album),
        (envelope.as_bytes(), Kind::Envelope),
        (&[0; 4_096], Kind::Unknown),
        (b"%PDF-1.7", Kind::Unknown),
    ];
    for (bytes, expected) in rows {
        assert_eq!(kind(bytes), expected, "{bytes:?}");
    }
    let windows = format!("\u{feff}\r\n{file}");
    assert_eq!(kind(windows.as_bytes()), Kind::Text);
}

#[test]
fn an_entry_for_a_lot_nobody_knows_is_kept() {
    let (mut first, second) = two();
    let bench = *second.state.facts().places.keys().next().unwrap();
    let mut second = second;
    let lot = second.lot("Vanda coerulea", 2, bench);
    let entry = second.state.log().in_order().next_back().unwrap().id;
    assert_eq!(lot.0.entry, entry);
    second.act(Command::CountLot {
        lot,
        plants: 1,
        stands: 1,
    });
    // Only the count arrives; the lot itself is in an entry that stays behind.
    let before = EntryRef {
        dev: entry.dev,
        seq: entry.seq,
    };
    let hash = LineHash::of(second.state.log().line(before).unwrap());
    let marks = Marks::from([(entry.dev, (entry.seq, hash))]);
    let plan = first.take_in(&part(&second, &marks));
    assert_eq!(plan.waiting, 1);
    first.take_in(&second.hand_over());
    assert_eq!(first.state.digest(), second.state.digest());
}
