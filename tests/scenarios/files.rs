//! Files from anywhere: whole and sound ones are taken, others refused with the reason, none taken in half.

use velamen_core::command::{Command, OpenBook};
use velamen_core::exchange::{self, FileFault, Incoming};
use velamen_core::limits::BLOCK_LINES;
use velamen_core::season::{Hemisphere, Warmth};
use velamen_core::state::State;
use velamen_tests::{Phone, opening};

fn nursery(dev: u64) -> Phone {
    let mut phone = Phone::new(dev, "2027-03-11");
    phone.open_book(Hemisphere::North);
    let bench = phone.place("Cool house", Warmth::Cool);
    phone.lot("Cymbidium lowianum", 10, bench);
    phone.lot("Vanda coerulea", 2, bench);
    phone
}

/// A book of a few short entries, so that every byte can be tried.
fn small() -> Phone {
    let mut phone = Phone::new(7, "2027-03-11");
    phone.open_book(Hemisphere::North);
    phone
}

fn plan(phone: &Phone, incoming: &Incoming) -> Result<exchange::Plan, FileFault> {
    exchange::plan(&phone.state, &phone.moment(), incoming.clone())
}

#[test]
fn what_is_no_book_is_refused() {
    for empty in ["", "\n\n", "\u{feff}", "  \r\n "] {
        assert_eq!(exchange::read(empty), Err(FileFault::Empty));
    }
    for other in [
        "hello",
        "{}",
        "{\"velamen_book\":\"1\"}",
        "[1]",
        "name,count\na,1\n",
        "null",
    ] {
        assert_eq!(exchange::read(other), Err(FileFault::NotABook), "{other}");
    }
}

#[test]
fn a_file_cut_anywhere_is_refused() {
    let file = nursery(7).hand_over();
    let whole = exchange::read(&file).unwrap();
    let last = file.trim_end().len();
    for at in (0..last).step_by(7).chain(last - 200..last) {
        if file.is_char_boundary(at) {
            assert!(exchange::read(&file[..at]).is_err(), "cut at {at}");
        }
    }
    assert_eq!(exchange::read(&file[..last]), Ok(whole));
    let no_end: Vec<&str> = file.lines().take(4).collect();
    let announced = 4;
    let arrived = 3;
    assert_eq!(
        exchange::read(&no_end.join("\n")),
        Err(FileFault::CutOff { arrived, announced })
    );
}

#[test]
fn a_file_with_any_byte_changed_is_refused_or_holds_the_same_entries() {
    let file = small().hand_over();
    let whole = exchange::read(&file).unwrap();
    let head = file.find('\n').unwrap();
    let mut taken = 0;
    for at in 0..file.len() {
        for flip in [0x01, 0x20, 0x80] {
            let mut bytes = file.clone().into_bytes();
            bytes[at] ^= flip;
            let Ok(text) = String::from_utf8(bytes) else {
                continue;
            };
            if let Ok(read) = exchange::read(&text) {
                assert_eq!(read.lines, whole.lines, "byte {at}");
                taken += usize::from(at > head);
            }
        }
    }
    // Beyond the head only the very last line end may change unnoticed.
    assert!(taken <= 3, "{taken} changes were not noticed");
}

#[test]
fn a_changed_head_never_makes_another_book_of_it() {
    let phone = nursery(7);
    let file = phone.hand_over();
    let mut second = Phone::new(8, "2027-03-11");
    second.take_in(&file);
    for at in 0..file.find('\n').unwrap() {
        let mut bytes = file.clone().into_bytes();
        bytes[at] ^= 0x01;
        let text = String::from_utf8(bytes).unwrap();
        if let Ok(read) = exchange::read(&text)
            && let Ok(plan) = plan(&second, &read)
        {
            assert_eq!(plan.new, Vec::<String>::new());
        }
    }
}

#[test]
fn line_ends_of_other_machines_and_a_byte_order_mark_are_taken() {
    let file = nursery(7).hand_over();
    let whole = exchange::read(&file).unwrap();
    assert_eq!(
        exchange::read(&file.replace('\n', "\r\n")).as_ref(),
        Ok(&whole)
    );
    assert_eq!(
        exchange::read(&format!("\u{feff}{file}")).as_ref(),
        Ok(&whole)
    );
    assert_eq!(
        exchange::read(&file.replace('\n', "\n\n")).as_ref(),
        Ok(&whole)
    );
}

#[test]
fn a_file_of_a_newer_form_says_so() {
    let file = nursery(7).hand_over();
    for (format, written) in [(4, "4"), (u16::MAX, "70000")] {
        let newer = file.replacen(
            "{\"velamen_book\":3",
            &format!("{{\"velamen_book\":{written}"),
            1,
        );
        assert_eq!(
            exchange::read(&newer),
            Err(FileFault::NewerFormat { format })
        );
    }
}

#[test]
fn another_nursery_and_the_demo_stay_out() {
    let phone = nursery(7);
    let other = exchange::read(&nursery(8).hand_over()).unwrap();
    let nursery = "Under the Ash".to_owned();
    assert_eq!(plan(&phone, &other), Err(FileFault::OtherBook { nursery }));
    let mut demo = Phone::new(9, "2027-03-11");
    demo.act(Command::OpenBook(OpenBook {
        demo: true,
        ..opening(Hemisphere::North, 9)
    }));
    let shown = exchange::read(&demo.hand_over()).unwrap();
    assert_eq!(plan(&phone, &shown), Err(FileFault::Demo));
    assert!(plan(&Phone::new(10, "2027-03-11"), &shown).unwrap().example);
    assert!(
        !plan(
            &Phone::new(10, "2027-03-11"),
            &exchange::read(&phone.hand_over()).unwrap()
        )
        .unwrap()
        .example
    );
    assert_eq!(
        plan(&demo, &exchange::read(&phone.hand_over()).unwrap()),
        Err(FileFault::Demo)
    );
}

#[test]
fn entries_from_the_future_are_counted_and_taken() {
    let mut phone = nursery(7);
    phone.on("2027-03-20");
    phone.place("Warm house", Warmth::Warm);
    let mut second = Phone::new(8, "2027-03-11");
    assert_eq!(second.take_in(&phone.hand_over()).from_the_future, 1);
    assert_eq!(second.state.digest(), phone.state.digest());
}

#[test]
fn an_entry_altered_in_the_middle_is_named() {
    let phone = nursery(7);
    let lines: Vec<String> = phone.state.log().lines().map(str::to_owned).collect();
    let altered: Vec<String> = lines
        .iter()
        .map(|line| line.replace("\"plants\":10", "\"plants\":11"))
        .collect();
    assert_ne!(lines, altered);
    // The whole file is made anew around it, digests and all; only the next entry still knows the original.
    let forged = State::of_lines(altered.iter().map(String::as_str)).0;
    let file = exchange::write(&forged, &phone.moment()).unwrap();
    let received = phone.state.log().in_order().find(|entry| {
        phone
            .state
            .log()
            .line(entry.id)
            .unwrap()
            .contains("\"plants\":10")
    });
    let entry = received.unwrap().id;
    assert_eq!(exchange::read(&file), Err(FileFault::Altered { entry }));
}

#[test]
fn a_file_taken_twice_adds_nothing_the_second_time() {
    let phone = nursery(7);
    let mut second = Phone::new(8, "2027-03-11");
    let all = phone.state.log().len();
    let first = second.take_in(&phone.hand_over());
    assert_eq!((first.new.len(), first.known, first.first), (all, 0, true));
    let digest = second.state.digest();
    let again = second.take_in(&phone.hand_over());
    assert_eq!((again.new.len(), again.known, again.first), (0, all, false));
    assert_eq!(second.state.digest(), digest);
}

#[test]
fn a_book_of_more_than_one_block_is_read_back_whole_and_a_swap_across_blocks_is_seen() {
    let mut phone = nursery(7);
    let bench = *phone.state.facts().places.keys().next().unwrap();
    while phone.state.log().len() < BLOCK_LINES + 3 {
        phone.lot("Cymbidium lowianum", 1, bench);
    }
    let file = phone.hand_over();
    let read = exchange::read(&file).unwrap();
    assert_eq!(read.lines.len(), BLOCK_LINES + 3);
    let mut swapped: Vec<&str> = file.lines().collect();
    swapped.swap(3, BLOCK_LINES + 2);
    let fault = exchange::read(&swapped.join("\n"));
    assert!(
        matches!(fault, Err(FileFault::Damaged { from_line: 2, .. })),
        "{fault:?}"
    );
}
