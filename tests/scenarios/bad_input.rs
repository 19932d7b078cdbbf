//! What a hurried hand types: each is refused with the fact, or taken as it is, and a refusal changes nothing.

use velamen_core::command::{Batch, Command, CountedPieces, OpenDivision, PlaceTraits, ReceiveLot};
use velamen_core::event::{
    ClosedHow, LossCause, MixShare, OpenedLot, PieceClass, Potting, SplitWhy, TaskAnswer,
};
use velamen_core::id::{ClumpId, LotId, PlaceId, Subject};
use velamen_core::limits;
use velamen_core::name::PlantName;
use velamen_core::potting::PottingRejection;
use velamen_core::quantity::Length;
use velamen_core::rejection::{Input, Rejection};
use velamen_core::season::{Hemisphere, Warmth};
use velamen_core::task::derive;
use velamen_core::task::{Protocol, ProtocolFault, Repeat};
use velamen_core::text::TextFault;
use velamen_tests::{Phone, day, named};

fn nursery() -> (Phone, PlaceId, LotId) {
    let mut phone = Phone::new(7, "2027-03-11");
    phone.open_book(Hemisphere::North);
    let bench = phone.place("Cool house", Warmth::Cool);
    let lot = phone.lot("Cymbidium lowianum", 10, bench);
    (phone, bench, lot)
}

/// Refused for that reason, and the book is as it was.
#[track_caller]
fn refused(phone: &Phone, command: Command, why: &Rejection) {
    let before = phone.state.digest();
    assert_eq!(phone.refusal(command), *why);
    assert_eq!(phone.state.digest(), before);
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

fn receive(plants: u32, stands: u32) -> Command {
    Command::ReceiveLot(ReceiveLot {
        plants,
        stands,
        ..named("Cymbidium lowianum")
    })
}

fn note_of(chars: usize) -> Command {
    let note = "x".repeat(chars);
    Command::ReceiveLot(ReceiveLot {
        note,
        ..named("Cymbidium lowianum")
    })
}

fn too_many(input: Input, most: u64) -> Rejection {
    Rejection::TooMany { input, most }
}

fn missing(input: Input) -> Rejection {
    Rejection::Missing { input }
}

#[test]
fn a_lot_holds_one_to_a_hundred_thousand_plants() {
    let (mut phone, _, _) = nursery();
    refused(&phone, receive(0, 1), &missing(Input::Plants));
    for plants in [limits::PLANTS_MAX + 1, u32::MAX] {
        let many = u64::from(limits::PLANTS_MAX);
        refused(&phone, receive(plants, 1), &too_many(Input::Plants, many));
        refused(&phone, receive(1, plants), &too_many(Input::Pots, many));
    }
    for plants in [1, limits::PLANTS_MAX - 1, limits::PLANTS_MAX] {
        phone.act(receive(plants, 0));
    }
}

#[test]
fn nobody_sells_loses_or_splits_off_more_than_there_are() {
    let (mut phone, bench, lot) = nursery();
    let fewer = |plants, stands| Rejection::MoreThanThereAre {
        lot,
        plants,
        stands,
    };
    for plants in [11, 100_001, u32::MAX] {
        refused(&phone, sell(lot, plants), &fewer(10, 10));
        let lose = Command::LoseFromLot {
            lot,
            plants: 1,
            stands: plants,
            cause: LossCause::Rot,
            note: String::new(),
        };
        refused(&phone, lose, &fewer(10, 10));
        let split = Command::SplitLot {
            from: lot,
            plants,
            stands: 0,
            place: Some(bench),
            why: SplitWhy::Moved,
        };
        refused(&phone, split, &fewer(10, 10));
    }
    refused(&phone, sell(lot, 0), &missing(Input::Plants));
    phone.act(sell(lot, 9));
    refused(&phone, sell(lot, 2), &fewer(1, 10));
    let twice = Command::Together(vec![sell(lot, 1), sell(lot, 1)]);
    refused(&phone, twice, &fewer(0, 10));
    phone.act(sell(lot, 1));
    assert_eq!(phone.state.facts().lots[&lot].plants, 0);
}

#[test]
fn emoji_and_right_to_left_names_are_kept_as_typed() {
    let (mut phone, _, lot) = nursery();
    for typed in [
        "Cymbidium lowianum 'سحلب أبيض'",
        "Cymbidium 'Green 🌿 Leaf'",
    ] {
        let name = PlantName::from_typed(typed);
        phone.act(Command::NameLot {
            lot,
            name: name.clone(),
        });
        assert_eq!(phone.state.facts().lots[&lot].name.get(), Some(&name));
    }
    let place = phone.place("בית קר 🏡", Warmth::Cool);
    let name = phone.state.facts().places[&place].name.or_default();
    assert_eq!(name, "בית קר 🏡");
}

#[test]
fn a_note_holds_four_thousand_characters_and_a_name_two_hundred() {
    let (mut phone, _, _) = nursery();
    for chars in [limits::NOTE_CHARS_MAX - 1, limits::NOTE_CHARS_MAX] {
        phone.act(note_of(chars));
    }
    for found in [limits::NOTE_CHARS_MAX + 1, 10_000] {
        let max = limits::NOTE_CHARS_MAX;
        let fault = TextFault::TooLong { max, found };
        let input = Input::Note;
        refused(&phone, note_of(found), &Rejection::BadText { input, fault });
    }
    let place = |chars: usize| Command::SetPlace {
        place: None,
        name: Some("ü".repeat(chars)),
        walk: None,
        about: PlaceTraits::default(),
    };
    let max = limits::TEXT_CHARS_MAX;
    for chars in [max - 1, max] {
        phone.act(place(chars));
    }
    let fault = TextFault::TooLong {
        max,
        found: max + 1,
    };
    let input = Input::Name;
    refused(&phone, place(max + 1), &Rejection::BadText { input, fault });
    refused(&phone, place(0), &missing(Input::Name));
    let bell = Command::SetPlace {
        place: None,
        name: Some("a\u{7}".to_owned()),
        walk: None,
        about: PlaceTraits::default(),
    };
    let fault = TextFault::ControlCharacter { at: 1 };
    refused(&phone, bell, &Rejection::BadText { input, fault });
}

#[test]
fn nothing_happened_in_1900_or_will_in_2200() {
    let (mut phone, _, lot) = nursery();
    let on = |on: &str| Command::OnDay {
        on: day(on),
        command: Box::new(sell(lot, 1)),
    };
    let (first, last) = (day("1950-01-01"), day("2027-03-11"));
    let out = Rejection::DayOutOfRange { first, last };
    for far in ["1900-01-01", "1949-12-31", "2027-03-12", "2200-01-01"] {
        refused(&phone, on(far), &out);
        let lot = ReceiveLot {
            potted_on: Some(day(far)),
            ..named("Cymbidium lowianum")
        };
        refused(&phone, Command::ReceiveLot(lot), &out);
    }
    phone.act(on("1950-01-01"));
    phone.act(on("2027-03-11"));
    let due = |on: &str| Command::NoteTask {
        task: None,
        text: "order labels".to_owned(),
        due_on: day(on),
        repeat_days: None,
        lot: None,
        place: None,
    };
    let last = day("2037-03-18");
    phone.act(due("2037-03-18"));
    let ahead = Rejection::DayOutOfRange { first, last };
    for far in ["1900-01-01", "2037-03-19", "2200-01-01"] {
        refused(&phone, due(far), &ahead);
    }
}

#[test]
fn a_repeat_of_own_tasks_is_one_day_to_ten_years() {
    let (mut phone, _, _) = nursery();
    let every = |days| Command::NoteTask {
        task: None,
        text: "clean the glass".to_owned(),
        due_on: day("2027-04-01"),
        repeat_days: Some(days),
        lot: None,
        place: None,
    };
    for days in [0, 3_661, u32::MAX] {
        let why = Rejection::OutOfRange {
            input: Input::Date,
            least: 1,
            most: 3_660,
        };
        refused(&phone, every(days), &why);
    }
    for days in [1, 3_659, 3_660] {
        phone.act(every(days));
    }
}

#[test]
fn a_clump_needs_a_tray_tag_of_its_own_and_lots_that_are_there() {
    let (mut phone, _, lot) = nursery();
    let open = |tray, lots| OpenDivision {
        tray,
        lots,
        ..OpenDivision::default()
    };
    let of = |lot, plants| OpenedLot {
        lot,
        plants,
        stands: 0,
    };
    let opened = |open| Command::OpenDivision(open);
    refused(
        &phone,
        opened(open(0, vec![of(lot, 1)])),
        &missing(Input::Tray),
    );
    refused(&phone, opened(open(1, Vec::new())), &missing(Input::Pots));
    refused(
        &phone,
        opened(open(1, vec![of(lot, 0)])),
        &missing(Input::Plants),
    );
    let twice = vec![of(lot, 1), of(lot, 1)];
    refused(&phone, opened(open(1, twice)), &Rejection::LotTwice { lot });
    let more = Rejection::MoreThanThereAre {
        lot,
        plants: 10,
        stands: 10,
    };
    refused(&phone, opened(open(1, vec![of(lot, 11)])), &more);
    let many = vec![of(lot, 1); limits::CLUMP_LOTS_MAX + 1];
    let most = limits::CLUMP_LOTS_MAX as u64;
    refused(&phone, opened(open(1, many)), &too_many(Input::Pots, most));
    phone.act(opened(open(1, vec![of(lot, 10)])));
    let in_use = Rejection::TrayInUse { tray: 1 };
    let unbooked = OpenDivision {
        unbooked_pots: 1,
        ..open(1, Vec::new())
    };
    refused(&phone, opened(unbooked), &in_use);
    let there = Rejection::AllOnTheBench { lot };
    refused(&phone, opened(open(2, vec![of(lot, 1)])), &there);
}

fn clump() -> (Phone, ClumpId) {
    let (mut phone, _, lot) = nursery();
    let clump = phone.open_clump(&[lot]);
    (phone, clump)
}

fn take(clump: ClumpId, plants: i32) -> Command {
    let class = PieceClass::Starter;
    let bulbs = None;
    Command::TakePieces {
        clump,
        pieces: vec![CountedPieces {
            class,
            plants,
            bulbs,
        }],
    }
}

fn starters(plants: u32) -> Batch {
    Batch {
        class: PieceClass::Starter,
        code: None,
        name: None,
        plants,
        stands: plants,
        with: None,
        potting: Potting::default(),
        place: None,
    }
}

#[test]
fn pieces_are_never_fewer_than_none_nor_than_what_is_potted() {
    let (mut phone, clump) = clump();
    let class = PieceClass::Starter;
    let fewer = |potted| Rejection::FewerThanPotted { class, potted };
    refused(&phone, take(clump, -1), &fewer(0));
    refused(&phone, take(clump, i32::MIN), &fewer(0));
    phone.act(take(clump, 5));
    refused(&phone, take(clump, -6), &fewer(0));
    let both = Command::Together(vec![take(clump, -3), take(clump, -3)]);
    refused(&phone, both, &fewer(0));
    let batches = vec![starters(4)];
    phone.act(Command::PotPieces { clump, batches });
    refused(&phone, take(clump, -2), &fewer(4));
    phone.act(take(clump, -1));
    let taken = i64::from(limits::PIECES_MAX);
    let most = u64::from(limits::PIECES_MAX);
    let room = i32::try_from(taken - 4).unwrap();
    refused(
        &phone,
        take(clump, room + 1),
        &too_many(Input::Pieces, most),
    );
    refused(
        &phone,
        take(clump, i32::MAX),
        &too_many(Input::Pieces, most),
    );
    phone.act(take(clump, room));
}

#[test]
fn no_more_is_potted_than_was_taken_and_no_code_goes_on_two_labels() {
    let (mut phone, clump) = clump();
    phone.act(take(clump, 5));
    let class = PieceClass::Starter;
    let more = |potted| Rejection::MorePottedThanPieces {
        class,
        taken: 5,
        potted,
    };
    let pot = |batches| Command::PotPieces { clump, batches };
    refused(&phone, pot(vec![starters(6)]), &more(6));
    refused(&phone, pot(vec![starters(3), starters(3)]), &more(6));
    let full = u64::from(u32::MAX);
    refused(&phone, pot(vec![starters(u32::MAX)]), &more(full));
    refused(&phone, pot(vec![starters(0)]), &missing(Input::Pieces));
    let bare = Batch {
        stands: 0,
        ..starters(1)
    };
    refused(&phone, pot(vec![bare.clone()]), &missing(Input::Pots));
    let nowhere = LotId(clump.0);
    let with = Batch {
        with: Some(nowhere),
        ..bare
    };
    let subject = Subject::Lot(nowhere);
    refused(
        &phone,
        pot(vec![with]),
        &Rejection::NotInTheBook { subject },
    );
    let code = velamen_core::decide::next_code(&phone.state, &phone.moment(), &[]).unwrap();
    let coded = || Batch {
        code: Some(code),
        ..starters(1)
    };
    match phone.refusal(pot(vec![coded(), coded()])) {
        Rejection::CodeTaken { code: taken, .. } => assert_eq!(taken, code),
        other => panic!("{other:?}"),
    }
    let close = Command::CloseDivision {
        clump,
        how: ClosedHow::Done,
        dirty_pots: 0,
        note: String::new(),
    };
    refused(&phone, close, &Rejection::PiecesBare { pieces: 5 });
}

#[test]
fn layers_deeper_than_the_pot_are_refused_whoever_worked_them_out() {
    let (mut phone, _, lot) = nursery();
    let (pot, _) = phone.state.facts().pots.iter().next().unwrap();
    let mut potting = Potting {
        pot: Some(*pot),
        ..Potting::default()
    };
    potting.layers.stone = Length::from_mm(130);
    let repot = |potting| Command::RepotLot {
        lot,
        stands: 10,
        potting,
        class: None,
    };
    let deep = Rejection::BadPot(PottingRejection::LayersDeeperThanPot);
    refused(&phone, repot(potting.clone()), &deep);
    potting.layers.stone = Length::from_mm(30);
    phone.act(repot(potting));
}

#[test]
fn a_mix_is_a_thousand_thousandths_of_things_with_a_name() {
    let (mut phone, _, _) = nursery();
    let mix = |shares: &[(&str, u16)]| Command::SetMix {
        mix: None,
        name: Some("fine".to_owned()),
        shares: Some(
            shares
                .iter()
                .map(|(component, permille)| MixShare {
                    component: (*component).to_owned(),
                    permille: *permille,
                })
                .collect(),
        ),
        life_months: None,
        retired: None,
    };
    let thousand = Rejection::OutOfRange {
        input: Input::Mix,
        least: 1000,
        most: 1000,
    };
    refused(&phone, mix(&[("bark", 999)]), &thousand);
    refused(&phone, mix(&[("bark", 1001)]), &thousand);
    refused(&phone, mix(&[("", 1000)]), &missing(Input::Mix));
    phone.act(mix(&[("bark", 600), ("moss", 400)]));
}

#[test]
fn a_protocol_out_of_bounds_is_refused_with_the_step_named() {
    let (mut phone, _, _) = nursery();
    let (id, known) = phone.state.facts().protocols.iter().next().unwrap();
    let (id, content) = (*id, known.current().unwrap().content.clone());
    let step = content.steps[0].key.clone();
    let adopt = |content: Protocol| Command::AdoptProtocol {
        protocol: Some(id),
        content,
    };
    let with = |change: &dyn Fn(&mut Protocol)| {
        let mut content = content.clone();
        change(&mut content);
        adopt(content)
    };
    let fault = |fault| Rejection::Protocol(fault);
    let most_days = limits::OFFSET_DAYS_MAX;
    let far = fault(ProtocolFault::TooFar {
        step: step.clone(),
        most_days,
    });
    for days in [-10_000, -3_661, i32::MIN] {
        refused(&phone, with(&|p| p.steps[0].when.from_days = days), &far);
    }
    for days in [3_661, i32::MAX] {
        refused(&phone, with(&|p| p.steps[0].when.until_days = days), &far);
    }
    let turned = fault(ProtocolFault::WindowTurned { step: step.clone() });
    refused(
        &phone,
        with(&|p| p.steps[0].when.from_days = 3_660),
        &turned,
    );
    let never = fault(ProtocolFault::NeverEnds { step: step.clone() });
    let every_0 = Some(Repeat {
        every_days: 0,
        until_days: 30,
    });
    refused(&phone, with(&|p| p.steps[0].repeat = every_0), &never);
    let twice = fault(ProtocolFault::SameKeyTwice { step });
    refused(&phone, with(&|p| p.steps.push(p.steps[0].clone())), &twice);
    refused(
        &phone,
        with(&|p| p.steps.clear()),
        &fault(ProtocolFault::NoSteps),
    );
    let many = |count: usize| {
        let mut content = content.clone();
        let first = content.steps[0].clone();
        content.steps = (0..count)
            .map(|at| velamen_core::task::Step {
                key: format!("step_{at}"),
                ..first.clone()
            })
            .collect();
        content
    };
    let most = limits::STEPS_MAX;
    let too_many = fault(ProtocolFault::TooManySteps { most });
    refused(&phone, adopt(many(most + 1)), &too_many);
    refused(&phone, adopt(content.clone()), &Rejection::NothingToDo);
    phone.act(with(&|p| p.steps[0].when.until_days = 3_660));
    phone.act(adopt(many(most)));
}

#[test]
fn nothing_is_put_off_into_the_past_or_to_today() {
    let (mut phone, _, lot) = nursery();
    phone.act(Command::RepotLot {
        lot,
        stands: 10,
        potting: Potting::default(),
        class: None,
    });
    let tasks = derive::of_lot(phone.state.facts(), lot);
    assert!(!tasks.is_empty());
    let put_off = |to: &str| Command::DecideTasks {
        tasks: vec![tasks[0].clone()],
        answer: TaskAnswer::PutOff { to: day(to) },
        why: String::new(),
    };
    let today = day("2027-03-11");
    for to in ["1900-01-01", "2027-03-10", "2027-03-11"] {
        refused(&phone, put_off(to), &Rejection::PutOffToThePast { today });
    }
    let first = day("1950-01-01");
    let last = day("2037-03-18");
    let far = Rejection::DayOutOfRange { first, last };
    refused(&phone, put_off("2200-01-01"), &far);
    phone.act(put_off("2027-03-12"));
}

#[test]
fn an_empty_entry_and_one_of_too_many_events_are_refused() {
    let (mut phone, _, lot) = nursery();
    refused(
        &phone,
        Command::Together(Vec::new()),
        &Rejection::NothingToDo,
    );
    let together = |count| Command::Together(vec![sell_nothing_but_count(lot); count]);
    phone.act(together(limits::EVENTS_MAX));
    let large = Rejection::EntryTooLarge;
    refused(&phone, together(limits::EVENTS_MAX + 1), &large);
}

fn sell_nothing_but_count(lot: LotId) -> Command {
    Command::CountLot {
        lot,
        plants: 10,
        stands: 10,
    }
}

#[test]
fn nobody_writes_before_there_is_a_book_or_before_joining_it() {
    let (phone, _, lot) = nursery();
    let alone = Phone::new(9, "2027-03-11");
    refused(&alone, sell(lot, 1), &Rejection::NoBook);
    let mut second = Phone::new(8, "2027-03-11");
    second.take_in(&phone.hand_over());
    refused(&second, sell(lot, 1), &Rejection::PhoneNotJoined);
    let again = Command::OpenBook(velamen_tests::opening(Hemisphere::North, 7));
    refused(&phone, again, &Rejection::BookAlreadyOpen);
}
