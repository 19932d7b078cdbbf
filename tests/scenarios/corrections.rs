//! What is put right afterwards: a wrong count, a wrong name; and a treatment written down as it was done.

use velamen_core::command::Command;
use velamen_core::correction::{Correction, correctable};
use velamen_core::event::{AgentClass, Event, Method, PieceClass, TreatedPart, WithdrawWhy};
use velamen_core::id::{Dev, EntryRef, PlaceId, ThingId};
use velamen_core::limits;
use velamen_core::rejection::Rejection;
use velamen_core::season::{Hemisphere, Warmth};
use velamen_core::treat_draft::{TreatDraft, TreatFault};
use velamen_core::view::book::{Filter, lot_called, place_called, row_of, rows};
use velamen_core::view::treat::{bare_pieces, treated};
use velamen_tests::{Phone, named};

use crate::scene::{batch, nursery, pieces};

/// The newest entry's first event as it reads now, and the command that corrects it.
fn corrected(phone: &Phone, change: impl FnOnce(&mut Correction)) -> (Event, Command) {
    let row = rows(&phone.state, Filter::default(), 1).remove(0);
    let before = row.events[0].clone();
    let mut draft = Correction::of(0, &before);
    change(&mut draft);
    let command = Command::Amend {
        target: row.entry,
        index: 0,
        event: draft.applied(&before),
        why: draft.why,
    };
    (before, command)
}

#[test]
fn a_lot_received_with_a_wrong_count_is_corrected_and_both_wordings_stay() {
    let (mut phone, bench) = nursery(Hemisphere::North, Warmth::Cool, "2027-03-11");
    let lot = phone.lot("Cymbidium lowianum", 21, bench);
    let (before, command) = corrected(&phone, |draft| {
        (draft.plants, draft.stands) = (12, 12);
        draft.note = "  the tray held twelve ".to_owned();
    });
    let target = rows(&phone.state, Filter::default(), 1)[0].entry;
    phone.act(command);
    let known = &phone.state.facts().lots[&lot];
    assert_eq!((known.plants, known.stands), (12, 12));
    assert_eq!(known.name.or_default().plain(), "Cymbidium lowianum");
    let row = row_of(&phone.state, target).unwrap();
    assert_eq!(row.amended_from, vec![(0, before)]);
    let Event::LotReceived(now) = &row.events[0] else {
        panic!("{:?}", row.events)
    };
    assert_eq!(
        (now.plants, now.note.as_str()),
        (12, "the tray held twelve")
    );
}

#[test]
fn a_correction_that_changes_nothing_is_refused() {
    let (mut phone, bench) = nursery(Hemisphere::North, Warmth::Cool, "2027-03-11");
    phone.lot("Cymbidium lowianum", 3, bench);
    let (_, command) = corrected(&phone, |_| {});
    assert_eq!(phone.refusal(command), Rejection::NothingToDo);
}

#[test]
fn a_name_left_alone_keeps_the_parts_that_a_typed_line_cannot_hold() {
    let (mut phone, _) = nursery(Hemisphere::North, Warmth::Cool, "2027-03-11");
    let mut received = named("Coelogyne cristata");
    received.name.note = Some("from the old bench".to_owned());
    received.plants = 2;
    received.stands = 2;
    let name = received.name.clone();
    let lot = phone.receive(received);
    let (_, command) = corrected(&phone, |draft| draft.stands = 1);
    phone.act(command);
    assert_eq!(phone.state.facts().lots[&lot].name.or_default(), name);
    let (_, command) = corrected_at(&phone, 1, |draft| {
        draft.name_typed = "Coelogyne flaccida".to_owned();
    });
    phone.act(command);
    let now = phone.state.facts().lots[&lot].name.or_default();
    assert_eq!(now.plain(), "Coelogyne flaccida");
}

/// As [`corrected`], for an entry further back.
fn corrected_at(
    phone: &Phone,
    back: usize,
    change: impl FnOnce(&mut Correction),
) -> (Event, Command) {
    let row = rows(&phone.state, Filter::default(), back + 1).remove(back);
    let before = row.events[0].clone();
    let mut draft = Correction::of(0, &before);
    change(&mut draft);
    let command = Command::Amend {
        target: row.entry,
        index: 0,
        event: draft.applied(&before),
        why: draft.why,
    };
    (before, command)
}

#[test]
fn what_cannot_be_corrected_offers_no_field() {
    let (phone, _) = nursery(Hemisphere::North, Warmth::Cool, "2027-03-11");
    let place = rows(&phone.state, Filter::default(), 1).remove(0);
    assert!(matches!(place.events[0], Event::PlaceSet(_)));
    assert!(!correctable(&place.events[0]).is_any());
}

#[test]
fn a_bath_of_a_lot_and_of_bare_pieces_is_written_down_as_it_was() {
    let (mut phone, bench) = nursery(Hemisphere::North, Warmth::Cool, "2027-03-11");
    let lot = phone.lot("Cymbidium lowianum", 4, bench);
    let old = phone.lot("Cymbidium lowianum", 1, bench);
    let clump = phone.open_clump(&[old]);
    let taken = vec![
        pieces(PieceClass::Starter, 6),
        pieces(PieceClass::Thrown, 2),
    ];
    phone.act(Command::TakePieces {
        clump,
        pieces: taken,
    });
    let bare = bare_pieces(&phone.state);
    assert_eq!(
        bare.iter()
            .map(|bare| (bare.class, bare.plants))
            .collect::<Vec<_>>(),
        vec![(PieceClass::Starter, 6)],
        "what is thrown away is not treated"
    );

    let mut draft = TreatDraft::default();
    assert_eq!(
        draft.command(&phone.state, phone.now_ms),
        Err(TreatFault::NothingTreated)
    );
    draft.switch_lot(lot);
    draft.switch_pieces(clump, PieceClass::Starter);
    assert_eq!(
        draft.command(&phone.state, phone.now_ms),
        Err(TreatFault::NoProduct)
    );
    draft.product = "As on the bottle".to_owned();
    draft.method = Some(Method::Bath);
    assert_eq!(
        draft.command(&phone.state, phone.now_ms),
        Err(TreatFault::NoAgent)
    );
    draft.against = Some(AgentClass::Insect);
    draft.soak_min = 15;
    draft.reentry_h = Some(12);
    let command = draft.command(&phone.state, phone.now_ms).unwrap();
    phone.act(command);

    let rows = treated(&phone.state, 5);
    assert_eq!((rows.len(), rows[0].reentry_h), (1, Some(12)));
    let Event::Treated(event) = &rows[0].event else {
        panic!("{rows:?}")
    };
    assert_eq!(event.soaked_s, Some(900));
    let class = PieceClass::Starter;
    let whole = TreatedPart::Lot { lot, plants: 4 };
    let part = TreatedPart::Pieces {
        clump,
        class,
        plants: 6,
    };
    assert_eq!(event.parts, vec![whole, part]);
    draft.method = Some(Method::Swab);
    assert!(!draft.soaks(), "only what lies in the product soaks");
}

#[test]
fn what_was_withdrawn_keeps_its_name_in_the_book() {
    let (mut phone, bench) = nursery(Hemisphere::North, Warmth::Cool, "2027-03-11");
    let lot = phone.lot("Cymbidium lowianum", 4, bench);
    let (name, code) = lot_called(&phone.state, lot);
    phone.act(Command::Withdraw {
        targets: vec![lot.0.entry, bench.0.entry],
        with_dependents: true,
        why: WithdrawWhy::Mistake,
        note: String::new(),
    });
    assert_eq!(phone.state.facts().live_lots().count(), 0);
    assert_eq!(lot_called(&phone.state, lot), (name.clone(), code));
    assert_eq!(
        (name.plain().as_str(), code.is_some()),
        ("Cymbidium lowianum", true)
    );
    assert_eq!(place_called(&phone.state, bench), "The house");
}

#[test]
fn a_place_is_not_withdrawn_from_under_the_lots_that_stand_in_it() {
    let (mut phone, bench) = nursery(Hemisphere::North, Warmth::Cool, "2027-03-11");
    let lot = phone.lot("Cymbidium lowianum", 2, bench);
    let withdraw = |targets: Vec<velamen_core::id::EntryRef>| Command::Withdraw {
        targets,
        with_dependents: true,
        why: WithdrawWhy::Mistake,
        note: String::new(),
    };
    assert_eq!(
        phone.refusal(withdraw(vec![bench.0.entry])),
        Rejection::PlaceInUse {
            place: bench,
            lots: 1
        }
    );
    // Together with the lot it can go, and so can a place that stands empty.
    assert!(
        phone
            .decide(withdraw(vec![bench.0.entry, lot.0.entry]))
            .is_ok()
    );
    let other = phone.place("Shade bench", Warmth::Cool);
    phone.act(Command::MoveLot { lot, to: other });
    phone.act(withdraw(vec![bench.0.entry]));
    assert_eq!(
        phone.state.facts().lots[&lot].place.get(),
        Some(&other),
        "the lot is where it was moved to"
    );
}

#[test]
fn a_correction_keeps_to_the_limits_of_what_it_corrects() {
    let (mut phone, bench) = nursery(Hemisphere::North, Warmth::Cool, "2027-03-11");
    phone.lot("Cymbidium lowianum", 21, bench);
    let refused = |phone: &Phone, change: &dyn Fn(&mut Correction)| {
        let (_, command) = corrected(phone, change);
        phone.refusal(command)
    };
    assert!(matches!(
        refused(&phone, &|draft| draft.plants = limits::PLANTS_MAX + 1),
        Rejection::TooMany { .. }
    ));
    assert!(matches!(
        refused(&phone, &|draft| draft.plants = 0),
        Rejection::Missing { .. }
    ));
    assert!(matches!(
        refused(&phone, &|draft| draft.note =
            "x".repeat(limits::NOTE_CHARS_MAX + 1)),
        Rejection::BadText { .. }
    ));
    let elsewhere = PlaceId(ThingId {
        entry: EntryRef {
            dev: Dev(99),
            seq: 1,
        },
        n: 0,
    });
    assert!(matches!(
        refused(&phone, &|draft| draft.place = Some(elsewhere)),
        Rejection::NotInTheBook { .. }
    ));
}

#[test]
fn a_correction_takes_no_more_than_there_is_unless_somebody_counted_since() {
    let (mut phone, bench) = nursery(Hemisphere::North, Warmth::Cool, "2027-03-11");
    let lot = phone.lot("Cymbidium lowianum", 10, bench);
    phone.act(Command::SellFromLot {
        lot,
        plants: 4,
        stands: 4,
        to: String::new(),
        price_cents: None,
        note: String::new(),
    });
    let sold = |plants| {
        move |draft: &mut Correction| {
            (draft.plants, draft.stands) = (plants, plants);
        }
    };
    let (_, eleven) = corrected(&phone, sold(11));
    let more = Rejection::MoreThanThereAre {
        lot,
        plants: 6,
        stands: 6,
    };
    assert_eq!(phone.refusal(eleven.clone()), more);
    // What came in cannot be put right to less than has left since.
    let (_, three) = corrected_at(&phone, 1, sold(3));
    assert_eq!(phone.refusal(three), more);
    let (_, ten) = corrected(&phone, sold(10));
    phone.act(ten);
    assert_eq!(phone.state.facts().lots[&lot].plants, 0);
    phone.act(Command::CountLot {
        lot,
        plants: 2,
        stands: 2,
    });
    phone.act(eleven);
    assert_eq!(phone.state.facts().lots[&lot].plants, 2, "the count stands");
}

#[test]
fn no_more_pieces_are_potted_by_a_correction_than_came_off() {
    let (mut phone, bench) = nursery(Hemisphere::North, Warmth::Cool, "2027-03-11");
    let lot = phone.lot("Cymbidium lowianum", 1, bench);
    let clump = phone.open_clump(&[lot]);
    phone.act(Command::TakePieces {
        clump,
        pieces: vec![pieces(PieceClass::Starter, 5)],
    });
    phone.act(Command::PotPieces {
        clump,
        batches: vec![batch(PieceClass::Starter, 4, bench)],
    });
    let (_, six) = corrected(&phone, |draft| draft.plants = 6);
    assert_eq!(
        phone.refusal(six),
        Rejection::MorePottedThanPieces {
            class: PieceClass::Starter,
            taken: 5,
            potted: 6
        }
    );
    let (_, five) = corrected(&phone, |draft| draft.plants = 5);
    phone.act(five);
}
