//! Work at the bench: several clumps at once, unbooked ones, clumps put back, pieces treated before they are lots.

use std::collections::BTreeSet;

use velamen_core::command::{Batch, Command, CountedPieces, OpenDivision};
use velamen_core::event::{AgentClass, ClosedHow, Event, PieceClass, ProductCopy, TreatedPart};
use velamen_core::id::ClumpId;
use velamen_core::name::PlantName;
use velamen_core::rejection::{Caution, Rejection};
use velamen_core::season::{Hemisphere, Warmth};
use velamen_core::task::TaskKind;
use velamen_core::view::potting::last_of_class;
use velamen_core::view::round;
use velamen_core::view::{lot, repot};
use velamen_tests::{Phone, day};

use crate::scene::{batch, close, divide, due, nursery, pieces, rows};

fn here() -> (Phone, velamen_core::id::PlaceId) {
    nursery(Hemisphere::North, Warmth::Cool, "2027-03-11")
}

fn take(phone: &mut Phone, clump: ClumpId, class: PieceClass, plants: i32) {
    let pieces = vec![pieces(class, plants)];
    phone.act(Command::TakePieces { clump, pieces });
}

fn opened(events: &[Event]) -> ClumpId {
    match &events[0] {
        Event::DivisionOpened(event) => event.clump,
        other => panic!("{other:?}"),
    }
}

#[test]
fn twelve_pieces_potted_in_one_go_are_a_few_rows_of_work() {
    let (mut phone, bench) = here();
    let into: Vec<(PieceClass, u32)> = (0..12)
        .map(|at| {
            (
                if at < 8 {
                    PieceClass::Starter
                } else {
                    PieceClass::Flowering
                },
                1,
            )
        })
        .collect();
    let lot = phone.lot("Cymbidium lowianum", 3, bench);
    let lots = divide(&mut phone, lot, &into, bench);
    assert_eq!(lots.len(), 12);
    let water = rows(&mut phone, "2027-03-14", TaskKind::FirstWater);
    assert_eq!(
        (water.len(), water[0].lots.len(), water[0].plants),
        (1, 12, 12)
    );
    let mut shown = BTreeSet::new();
    for on in [
        "2027-03-14",
        "2027-04-08",
        "2027-04-15",
        "2027-06-09",
        "2028-03-10",
        "2029-03-10",
    ] {
        phone.on(on);
        let view = round::round(&phone.state, phone.today);
        let rows: usize = view.stops.iter().map(|stop| stop.rows.len()).sum();
        assert!(rows <= 6, "{rows} rows on {on}");
        shown.extend(
            view.stops
                .iter()
                .flat_map(|stop| &stop.rows)
                .map(|row| row.kind),
        );
    }
    assert!(shown.contains(&TaskKind::PotOn) && shown.contains(&TaskKind::Repot));
}

#[test]
fn rows_part_by_place_by_day_and_by_what_happened() {
    let (mut phone, bench) = here();
    let other = phone.place("Another house", Warmth::Cool);
    let water = |phone: &mut Phone| rows(phone, "2027-03-15", TaskKind::FirstWater).len();
    let lot = phone.lot("Cymbidium lowianum", 4, bench);
    let lots = divide(
        &mut phone,
        lot,
        &[(PieceClass::Starter, 2), (PieceClass::Starter, 2)],
        bench,
    );
    assert_eq!(water(&mut phone), 1);
    phone.act(Command::MoveLot {
        lot: lots[0],
        to: other,
    });
    assert_eq!(water(&mut phone), 2, "two places");
    phone.on("2027-03-12");
    let lot = phone.lot("Cymbidium lowianum", 1, bench);
    divide(&mut phone, lot, &[(PieceClass::Starter, 2)], bench);
    assert_eq!(water(&mut phone), 3, "another day");
}

#[test]
fn plants_of_two_days_that_wait_for_one_window_are_two_rows() {
    let (mut phone, bench) = nursery(Hemisphere::North, Warmth::Cool, "2027-06-20");
    for on in ["2027-06-20", "2027-07-02"] {
        phone.on(on);
        let lot = phone.lot("Cymbidium lowianum", 1, bench);
        divide(&mut phone, lot, &[(PieceClass::Starter, 2)], bench);
    }
    let rows = rows(&mut phone, "2029-02-01", TaskKind::PotOn);
    let days: Vec<_> = rows.iter().map(|row| (row.anchor_on, row.due_on)).collect();
    let due = day("2029-02-01");
    assert_eq!(days, [(day("2027-06-20"), due), (day("2027-07-02"), due)]);
    assert!(rows.iter().all(|row| row.moved_by_season));
}

#[test]
fn an_unbooked_clump_is_divided_in_three_steps() {
    let (mut phone, bench) = here();
    let before = phone.state.log().len();
    let open = OpenDivision {
        tray: repot::next_tray(&phone.state),
        unbooked_pots: 2,
        name: PlantName::from_typed("Cymbidium lowianum"),
        ..OpenDivision::default()
    };
    let clump = opened(&phone.act(Command::OpenDivision(open)).events);
    let row = &round::round(&phone.state, phone.today).on_the_bench[0];
    assert_eq!((row.pots, row.bare), (2, 0));
    take(&mut phone, clump, PieceClass::Starter, 3);
    let last = Command::Together(vec![
        Command::PotPieces {
            clump,
            batches: vec![batch(PieceClass::Starter, 3, bench)],
        },
        Command::CloseDivision {
            clump,
            how: ClosedHow::Done,
            dirty_pots: 2,
            note: String::new(),
        },
    ]);
    let done = phone.act(last);
    assert_eq!(phone.state.log().len(), before + 3);
    let Event::PiecesPotted(potted) = &done.events[0] else {
        panic!("{:?}", done.events);
    };
    let view = lot::lot(&phone.state, potted.lot, phone.today).unwrap();
    assert_eq!(
        (view.lineage.parents.len(), view.lineage.unbooked_pots),
        (0, 2)
    );
    assert_eq!(view.label.name.plain(), "Cymbidium lowianum");
    assert_eq!(
        due(&phone, potted.lot, TaskKind::PotOn),
        Some(day("2028-03-10"))
    );
    assert!(
        round::round(&phone.state, phone.today)
            .on_the_bench
            .is_empty()
    );
}

#[test]
fn a_clump_put_back_leaves_everything_as_it_was() {
    let (mut phone, bench) = here();
    let lot = phone.lot("Cymbidium lowianum", 3, bench);
    phone.act(Command::Observe {
        lots: vec![lot],
        what: velamen_core::event::Sight::Outgrown,
        good: None,
        note: String::new(),
    });
    let before = due(&phone, lot, TaskKind::ToTheBench);
    assert!(before.is_some());
    let clump = phone.open_clump(&[lot]);
    assert_eq!(due(&phone, lot, TaskKind::ToTheBench), None);
    close(&mut phone, clump, ClosedHow::PutBack);
    let facts = &phone.state.facts().lots[&lot];
    assert_eq!(
        (facts.plants, facts.stands, facts.on_bench.len()),
        (3, 3, 0)
    );
    assert_eq!(due(&phone, lot, TaskKind::ToTheBench), before);
    let again = phone.open_clump(&[lot]);
    take(&mut phone, again, PieceClass::Starter, 1);
    assert_eq!(
        phone.refusal(Command::CloseDivision {
            clump: again,
            how: ClosedHow::PutBack,
            dirty_pots: 0,
            note: String::new()
        }),
        Rejection::AlreadyCut
    );
}

#[test]
fn pieces_counted_by_mistake_and_counted_back_leave_the_clump_whole() {
    let (mut phone, bench) = here();
    let lot = phone.lot("Cymbidium lowianum", 3, bench);
    let clump = phone.open_clump(&[lot]);
    take(&mut phone, clump, PieceClass::Starter, 2);
    let draft = velamen_core::draft::BenchDraft {
        more: [(PieceClass::Starter, -2)].into(),
        ..Default::default()
    };
    phone.act(draft.put_back(clump));
    let facts = &phone.state.facts().lots[&lot];
    assert_eq!((facts.plants, facts.on_bench.len()), (3, 0));
    assert!(!phone.state.facts().clumps[&clump].is_open());
    assert!(phone.state.anomalies().is_empty());
}

#[test]
fn the_first_clump_is_finished_once_and_one_put_back_is_none() {
    let (mut phone, bench) = here();
    let none = |phone: &Phone| velamen_core::first_draft::none_finished(phone.state.facts());
    let lot = phone.lot("Cymbidium lowianum", 3, bench);
    assert!(none(&phone));
    let clump = phone.open_clump(&[lot]);
    assert!(none(&phone), "in work is not finished");
    close(&mut phone, clump, ClosedHow::PutBack);
    assert!(none(&phone), "put back whole is not finished");
    let clump = phone.open_clump(&[lot]);
    close(&mut phone, clump, ClosedHow::Done);
    assert!(!none(&phone));
    let next = phone.lot("Aerangis citrata", 1, bench);
    phone.open_clump(&[next]);
    assert!(!none(&phone), "the next is not the first");
}

#[test]
fn a_closed_clump_takes_nothing_more() {
    let (mut phone, bench) = here();
    let lot = phone.lot("Cymbidium lowianum", 3, bench);
    let clump = phone.open_clump(&[lot]);
    close(&mut phone, clump, ClosedHow::Done);
    let pieces = vec![pieces(PieceClass::Starter, 1)];
    assert_eq!(
        phone.refusal(Command::TakePieces { clump, pieces }),
        Rejection::ClumpClosed
    );
    let batches = vec![batch(PieceClass::Starter, 1, bench)];
    assert_eq!(
        phone.refusal(Command::PotPieces { clump, batches }),
        Rejection::ClumpClosed
    );
}

#[test]
fn more_pieces_than_bulbs_is_something_to_look_at_again_and_no_refusal() {
    let (mut phone, bench) = here();
    let lot = phone.lot("Cymbidium lowianum", 1, bench);
    let clump = phone.open_clump(&[lot]);
    let count = |plants, bulbs| Command::TakePieces {
        clump,
        pieces: vec![CountedPieces {
            class: PieceClass::BackBulb,
            plants,
            bulbs: Some(bulbs),
        }],
    };
    assert_eq!(phone.act(count(4, 4)).cautions, []);
    let caution = Caution::MorePiecesThanBulbs {
        pieces: 7,
        bulbs: 6,
    };
    assert_eq!(phone.act(count(3, 2)).cautions, [caution]);
    assert_eq!(
        phone.state.facts().clumps[&clump].taken_of(PieceClass::BackBulb),
        7
    );
}

#[test]
fn several_clumps_lie_open_together_and_those_with_bare_pieces_come_first() {
    let (mut phone, bench) = here();
    let lot = phone.lot("Cymbidium lowianum", 9, bench);
    let open = |phone: &mut Phone| {
        let open = OpenDivision {
            tray: repot::next_tray(&phone.state),
            lots: vec![velamen_core::event::OpenedLot {
                lot,
                plants: 3,
                stands: 3,
            }],
            ..OpenDivision::default()
        };
        opened(&phone.act(Command::OpenDivision(open)).events)
    };
    let clumps = [open(&mut phone), open(&mut phone), open(&mut phone)];
    assert_eq!(phone.state.facts().lots[&lot].plants, 0);
    take(&mut phone, clumps[2], PieceClass::Starter, 2);
    take(&mut phone, clumps[1], PieceClass::Thrown, 2);
    let view = round::round(&phone.state, phone.today);
    let shown: Vec<(u32, u64)> = view
        .on_the_bench
        .iter()
        .map(|row| (row.tray, row.bare))
        .collect();
    assert_eq!(shown, [(3, 2), (1, 0), (2, 0)], "thrown pieces need no pot");
    close(&mut phone, clumps[1], ClosedHow::Done);
    close(&mut phone, clumps[0], ClosedHow::PutBack);
    let facts = &phone.state.facts().lots[&lot];
    assert_eq!((facts.plants, facts.on_bench.len()), (3, 1));
    assert_eq!(
        repot::next_tray(&phone.state),
        1,
        "a tag that is free again"
    );
}

#[test]
fn bare_pieces_lie_bare_since_they_came_off() {
    let (mut phone, bench) = here();
    let lot = phone.lot("Cymbidium lowianum", 1, bench);
    let clump = phone.open_clump(&[lot]);
    take(&mut phone, clump, PieceClass::Starter, 2);
    phone.on("2027-03-12");
    let view = round::round(&phone.state, phone.today);
    let (on, minute) = view.on_the_bench[0].bare_since.unwrap();
    assert_eq!(on, day("2027-03-11"));
    assert!((540..560).contains(&minute), "shortly after nine: {minute}");
    // The clump stays open over night; the pieces of the next day lie bare since then.
    let batches = vec![batch(PieceClass::Starter, 2, bench)];
    phone.act(Command::PotPieces { clump, batches });
    take(&mut phone, clump, PieceClass::Starter, 1);
    let view = round::round(&phone.state, phone.today);
    assert_eq!(
        view.on_the_bench[0].bare_since.map(|(on, _)| on),
        Some(day("2027-03-12"))
    );
}

#[test]
fn a_treatment_of_pieces_is_no_treatment_of_a_lot_but_its_look_goes_with_the_class() {
    let (mut phone, bench) = here();
    let lot = phone.lot("Cymbidium lowianum", 6, bench);
    let clump = phone.open_clump(&[lot]);
    take(&mut phone, clump, PieceClass::Starter, 4);
    take(&mut phone, clump, PieceClass::BackBulb, 3);
    let class = PieceClass::Starter;
    let bath = |plants| {
        let part = TreatedPart::Pieces {
            clump,
            class,
            plants,
        };
        let product = ProductCopy {
            label_name: "Soap".to_owned(),
            ..ProductCopy::default()
        };
        let treatment = velamen_tests::treatment(vec![part], AgentClass::Insect, product);
        Command::RecordTreatment(treatment)
    };
    assert!(matches!(
        phone.refusal(bath(5)),
        Rejection::TooMany { most: 4, .. }
    ));
    phone.act(bath(3));
    let facts = phone.state.facts();
    let treated: Vec<_> = facts.clumps[&clump]
        .treated
        .iter()
        .map(|(_, class, n)| (*class, *n))
        .collect();
    assert_eq!(treated, [(PieceClass::Starter, 3)]);
    assert!(
        facts.lots[&lot].treatments.is_empty(),
        "the rest of the lot was not treated"
    );
    let with = |class, plants| Batch {
        ..batch(class, plants, bench)
    };
    let potted = phone.act(Command::PotPieces {
        clump,
        batches: vec![with(PieceClass::Starter, 4), with(PieceClass::BackBulb, 3)],
    });
    for event in &potted.events {
        let Event::PiecesPotted(event) = event else {
            panic!("{event:?}");
        };
        let lot = &phone.state.facts().lots[&event.lot];
        assert!(lot.treatments.is_empty());
        // Some of the starters were in the bath, so the starters want the look at its result; the back-bulbs were not.
        let look = due(&phone, event.lot, TaskKind::ResultLook);
        assert_eq!(look.is_some(), event.class == PieceClass::Starter);
    }
}

#[test]
fn pieces_of_a_class_go_where_the_last_of_that_class_went() {
    let (mut phone, bench) = here();
    let other = phone.place("The other house", Warmth::Cool);
    let facts = |phone: &Phone| last_of_class(phone.state.facts(), PieceClass::Starter);
    assert_eq!(facts(&phone), None);
    let lot = phone.lot("Cymbidium lowianum", 2, bench);
    divide(&mut phone, lot, &[(PieceClass::Starter, 2)], bench);
    phone.on("2027-03-12");
    let lot = phone.lot("Cymbidium lowianum", 2, bench);
    let into = [(PieceClass::Starter, 1), (PieceClass::Flowering, 1)];
    divide(&mut phone, lot, &into, other);
    assert_eq!(facts(&phone).and_then(|last| last.place), Some(other));
    phone.on("2027-03-13");
    let lot = phone.lot("Cymbidium lowianum", 2, bench);
    divide(&mut phone, lot, &[(PieceClass::Flowering, 2)], bench);
    assert_eq!(
        facts(&phone).and_then(|last| last.place),
        Some(other),
        "another class says nothing of this one"
    );
}

#[test]
fn lots_that_want_the_bench_come_first_when_a_clump_is_chosen() {
    let (mut phone, bench) = here();
    let first = phone.lot("Aerangis citrata", 1, bench);
    let gone = phone.lot("Brassia verrucosa", 1, bench);
    let wants = phone.lot("Cymbidium lowianum", 1, bench);
    phone.act(Command::Observe {
        lots: vec![wants],
        what: velamen_core::event::Sight::Outgrown,
        good: None,
        note: String::new(),
    });
    phone.open_clump(&[gone]);
    let lots = |typed: &str| -> Vec<_> {
        let rows = repot::to_open(&phone.state, &phone.moment(), typed, 12);
        rows.into_iter().map(|row| row.label.lot).collect()
    };
    assert_eq!(
        lots(""),
        [wants, first],
        "and what lies on the bench is not offered"
    );
    assert_eq!(lots("citrata"), [first]);
}

#[test]
fn emptied_pots_and_their_stone_are_dirty_until_somebody_washes_them() {
    let (mut phone, place) = here();
    let pot = *phone
        .state
        .facts()
        .pots
        .iter()
        .find(|(_, pot)| pot.name.or_default() == "17 cm")
        .unwrap()
        .0;
    let form = phone.state.facts().pots[&pot].form.get().copied().unwrap();
    let layers = velamen_core::potting::Layers {
        // A quarter of the height (common practice, no source): 0.407 L by the frustum for this pot.
        stone: velamen_core::potting::default_stone(&form),
        ..velamen_core::potting::Layers::default()
    };
    let potting =
        velamen_core::view::potting::potting_of(phone.state.facts(), Some(pot), None, layers, 3)
            .unwrap();
    let lot = phone.receive(velamen_core::command::ReceiveLot {
        plants: 3,
        stands: 3,
        place: Some(place),
        potted_on: Some(day("2025-03-01")),
        potting,
        ..velamen_tests::named("Cymbidium lowianum")
    });
    let clump = phone.open_clump(&[lot]);
    take(&mut phone, clump, PieceClass::Flowering, 3);
    let view = repot::clump(&phone.state, clump).unwrap();
    assert_eq!(view.pots, 3);
    assert!(
        (view.dirty_stone.ul() - 3 * 406_900).abs() < 3_000,
        "{:?}",
        view.dirty_stone
    );
    phone.act(Command::PotPieces {
        clump,
        batches: vec![batch(PieceClass::Flowering, 3, place)],
    });
    let draft = velamen_core::draft::BenchDraft::default();
    let wash = "Wash 3 dirty pots".to_owned();
    let done = phone.act(draft.close_and_wash(clump, 3, wash.clone(), phone.today));
    assert_eq!(
        done.events.len(),
        3,
        "one entry closes it, counts what is dirty and leaves the work"
    );
    let waits = round::round(&phone.state, phone.today);
    let own = |waits: &round::RoundView| -> Vec<(String, bool)> {
        let rows = waits.stops.iter().flat_map(|stop| &stop.rows);
        rows.filter(|row| row.kind == TaskKind::Own)
            .map(|row| (row.text.clone(), row.washes_up))
            .collect()
    };
    assert_eq!(own(&waits), [(wash.clone(), true)]);
    phone.act(Command::NoteTask {
        task: None,
        text: wash.clone(),
        due_on: phone.today,
        repeat_days: None,
        lot: None,
        place: None,
    });
    let waits = round::round(&phone.state, phone.today);
    assert_eq!(
        own(&waits),
        [(wash.clone(), true), (wash, false)],
        "the same words typed by hand are no washing-up"
    );
}

#[test]
fn the_washing_up_a_clump_left_is_known_in_figures_until_somebody_puts_it_in_words_of_their_own() {
    let (mut phone, place) = nursery(Hemisphere::North, Warmth::Cool, "2027-03-11");
    let lot = phone.lot("Cymbidium lowianum", 3, place);
    let clump = phone.open_clump(&[lot]);
    take(&mut phone, clump, PieceClass::Flowering, 3);
    phone.act(Command::PotPieces {
        clump,
        batches: vec![batch(PieceClass::Flowering, 3, place)],
    });
    let view = repot::clump(&phone.state, clump).unwrap();
    let draft = velamen_core::draft::BenchDraft::default();
    // As a phone wrote it that speaks another language than the one that reads it.
    let wash = format!(
        "Lavar y luego desinfectar 3 macetas sucias y su piedra (bandeja {})",
        view.tray
    );
    let done = phone.act(draft.close_and_wash(clump, 3, wash, phone.today));
    let own = |phone: &Phone| {
        let waits = round::round(&phone.state, phone.today);
        let rows = waits.stops.into_iter().flat_map(|stop| stop.rows);
        rows.filter(|row| row.kind == TaskKind::Own)
            .map(|row| (row.washes_up, row.washing))
            .collect::<Vec<_>>()
    };
    let washing = velamen_core::state::Washing {
        pots: 3,
        stone_ul: view.dirty_stone.ul(),
        tray: view.tray,
    };
    assert_eq!(own(&phone), [(true, Some(washing))]);
    let noted = done.events.iter().find_map(|event| match event {
        Event::TaskNoted(noted) => Some(noted.task),
        _ => None,
    });
    phone.act(Command::NoteTask {
        task: noted,
        text: "The 3 pots of tray 9, with hot water".to_owned(),
        due_on: phone.today,
        repeat_days: None,
        lot: None,
        place: None,
    });
    assert_eq!(
        own(&phone),
        [(true, None)],
        "it leads to the wash still, in the grower's words"
    );
}
