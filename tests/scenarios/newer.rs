//! Entries of a version to come: kept byte for byte, passed on, and what they are about waits for the update.

use velamen_core::command::Command;
use velamen_core::entry::Locked;
use velamen_core::exchange;
use velamen_core::id::{LotId, Subject};
use velamen_core::rejection::Rejection;
use velamen_core::season::{Hemisphere, Warmth};
use velamen_core::state::State;
use velamen_core::view::{book, lot};
use velamen_tests::Phone;

fn handed_over(phone: &Phone) -> Vec<String> {
    exchange::read(&phone.hand_over()).unwrap().lines
}

fn nursery() -> (Phone, LotId, LotId) {
    let mut phone = Phone::new(7, "2027-03-11");
    phone.open_book(Hemisphere::North);
    let bench = phone.place("Cool house", Warmth::Cool);
    let one = phone.lot("Cymbidium lowianum", 10, bench);
    let other = phone.lot("Vanda coerulea", 10, bench);
    (phone, one, other)
}

fn sell(lot: LotId, plants: u32) -> Command {
    Command::SellFromLot {
        lot,
        plants,
        stands: 0,
        to: String::new(),
        price_cents: None,
        note: String::new(),
    }
}

/// The line of a sale as a later version would write it.
fn newer_line(phone: &Phone, lot: LotId, from: &str, to: &str) -> String {
    let line = phone.decide(sell(lot, 1)).unwrap().line;
    assert!(line.contains(from), "{line}");
    line.replacen(from, to, 1)
}

fn kept_and_locked(from: &str, to: &str, why: Locked) {
    let (mut phone, lot, other) = nursery();
    let line = newer_line(&phone, lot, from, to);
    phone.take(&line);
    let last = phone.state.log().in_order().next_back().unwrap();
    assert_eq!(last.events, Err(why));
    assert_eq!(phone.state.log().line(last.id), Some(line.as_str()));
    assert!(handed_over(&phone).contains(&line));

    let subject = Subject::Lot(lot);
    assert_eq!(
        phone.refusal(sell(lot, 1)),
        Rejection::NeedsNewerVersion { subject }
    );
    assert!(lot::lot(&phone.state, lot, phone.today).unwrap().locked);
    assert_eq!(
        phone.state.facts().lots[&lot].plants,
        10,
        "it does not count here yet"
    );
    let row = book::row_of(&phone.state, last.id).unwrap();
    assert_eq!((row.locked, row.events.len()), (Some(why), 0));
    phone.act(sell(other, 1));

    let mut second = Phone::new(8, "2027-03-11");
    let plan = second.take_in(&phone.hand_over());
    assert_eq!(plan.new.len(), phone.state.log().len());
    assert!(handed_over(&second).contains(&line));
    assert_eq!(second.state.digest(), phone.state.digest());
}

#[test]
fn an_entry_that_needs_a_newer_version_is_kept_passed_on_and_locks_what_it_is_about() {
    kept_and_locked("\"needs\":1", "\"needs\":2", Locked::NewerVersion);
}

#[test]
fn an_entry_with_an_unknown_field_is_kept_passed_on_and_locks_what_it_is_about() {
    kept_and_locked(
        "\"plants\":1",
        "\"plants\":1,\"moon\":3",
        Locked::Unreadable,
    );
}

#[test]
fn an_entry_with_an_unknown_event_is_kept_passed_on_and_locks_what_it_is_about() {
    kept_and_locked("{\"sold\"", "{\"sung_to\"", Locked::Unreadable);
}

#[test]
fn a_file_says_how_many_of_its_entries_are_newer() {
    let (mut phone, lot, _) = nursery();
    let line = newer_line(&phone, lot, "\"needs\":1", "\"needs\":2");
    phone.take(&line);
    let mut second = Phone::new(8, "2027-03-11");
    assert_eq!(second.take_in(&phone.hand_over()).newer, 1);
}

#[test]
fn no_question_is_asked_about_what_is_locked() {
    let (first, lot, _) = nursery();
    let mut second = Phone::new(8, "2027-03-11");
    second.take_in(&first.hand_over());
    let prefix = velamen_core::code::Prefix::pick(8);
    let name = "second".to_owned();
    second.act(Command::JoinPhone { prefix, name });
    let mut first = first;
    first.act(sell(lot, 9));
    second.act(sell(lot, 9));
    let mut open = first.clone();
    open.take_in(&second.hand_over());
    assert_eq!(open.state.anomalies().len(), 1, "overdrawn");
    let locking = newer_line(&first, lot, "\"needs\":1", "\"needs\":2");
    open.take(&locking);
    assert_eq!(open.state.anomalies(), Vec::new());
    let lines: Vec<&str> = open.state.log().lines().collect();
    assert_eq!(State::of_lines(lines).0.digest(), open.state.digest());
}
