//! Three pots grown into one another, from the Round to the last label and the duties that follow.

use velamen_core::command::{Batch, Command, CountedPieces};
use velamen_core::event::{ClosedHow, Event, PieceClass, Sight, TaskAnswer};
use velamen_core::rejection::Rejection;
use velamen_core::season::{Hemisphere, Warmth};
use velamen_core::task::TaskKind;
use velamen_core::view::potting::{potting_of, usual_layers};
use velamen_core::view::{book, lot, repot, round, stock};
use velamen_tests::{Phone, day};

#[test]
fn three_pots_grown_together_become_starters_back_bulbs_and_plants_to_flower() {
    let mut phone = Phone::new(7, "2027-03-11");
    phone.open_book(Hemisphere::North);
    let bench = phone.place("Cool house, bench 2", Warmth::Cool);
    let one = phone.lot("Cymbidium lowianum", 1, bench);
    let two = phone.lot("Cymbidium lowianum", 2, bench);

    phone.act(Command::Observe {
        lots: vec![one, two],
        what: Sight::Outgrown,
        good: None,
        note: String::new(),
    });
    phone.on("2027-03-20");
    let view = round::round(&phone.state, phone.today);
    let row = &view.stops[0].rows[0];
    assert_eq!(
        (row.kind, row.tasks.len()),
        (TaskKind::ToTheBench, 2),
        "one row for both lots"
    );
    assert_eq!(row.state, round::RowState::Due);

    let clump = phone.open_clump(&[one, two]);
    let view = round::round(&phone.state, phone.today);
    assert_eq!(
        (
            view.on_the_bench[0].tray,
            view.on_the_bench[0].pots,
            view.on_the_bench[0].bare
        ),
        (1, 3, 0)
    );
    assert!(
        view.stops.is_empty(),
        "what is on the bench is no longer called to it"
    );

    let piece = |class, plants| CountedPieces {
        class,
        plants,
        bulbs: None,
    };
    let pieces = vec![
        piece(PieceClass::Flowering, 4),
        piece(PieceClass::Starter, 6),
        piece(PieceClass::BackBulb, 9),
        piece(PieceClass::Thrown, 3),
    ];
    phone.act(Command::TakePieces { clump, pieces });
    assert_eq!(
        round::round(&phone.state, phone.today).on_the_bench[0].bare,
        19
    );
    assert_eq!(
        phone.refusal(Command::CloseDivision {
            clump,
            how: ClosedHow::Done,
            dirty_pots: 3,
            note: String::new()
        }),
        Rejection::PiecesBare { pieces: 19 }
    );

    let facts = phone.state.facts();
    let (pot, kind) = facts.pots.iter().next().unwrap();
    let mix = facts.mixes.keys().next().copied();
    let layers = usual_layers(kind.form.get().unwrap());
    let batch = |class, plants, stands| Batch {
        class,
        code: None,
        name: None,
        plants,
        stands,
        with: None,
        potting: potting_of(facts, Some(*pot), mix, layers, stands).unwrap(),
        place: Some(bench),
    };
    let five = batch(PieceClass::Flowering, 5, 5);
    let batches = vec![
        batch(PieceClass::Flowering, 4, 4),
        batch(PieceClass::Starter, 6, 6),
        batch(PieceClass::BackBulb, 9, 2),
    ];
    assert_eq!(
        phone.refusal(Command::PotPieces {
            clump,
            batches: vec![five]
        }),
        Rejection::MorePottedThanPieces {
            class: PieceClass::Flowering,
            taken: 4,
            potted: 5
        }
    );
    let potted = phone.act(Command::PotPieces { clump, batches });
    phone.act(Command::CloseDivision {
        clump,
        how: ClosedHow::Done,
        dirty_pots: 3,
        note: String::new(),
    });

    let lots: Vec<_> = potted
        .events
        .iter()
        .map(|event| match event {
            Event::PiecesPotted(event) => (event.lot, event.potting.clone()),
            other => panic!("{other:?}"),
        })
        .collect();
    // Four pots of 17/12/13 cm with stone to a quarter: 0.407 L and 0.566 kg each.
    assert_eq!((lots[0].1.stone_ul + 2_000) / 4_000, 407);
    assert_eq!((lots[0].1.stone_mg + 2_000) / 4_000, 566);

    let due = |lot, kind| {
        let view = lot::lot(&phone.state, lot, phone.today).unwrap();
        view.tasks
            .iter()
            .find(|(task, _)| task.kind == kind)
            .map(|(task, _)| task.due_on)
    };
    assert_eq!(
        due(lots[0].0, TaskKind::Repot),
        Some(day("2029-03-19")),
        "a large division after two years"
    );
    assert_eq!(
        due(lots[1].0, TaskKind::PotOn),
        Some(day("2028-03-19")),
        "a starter after one"
    );
    assert_eq!(
        due(lots[2].0, TaskKind::ShootCheck),
        Some(day("2027-05-04"))
    );
    assert_eq!(
        due(lots[2].0, TaskKind::FirstWater),
        None,
        "back-bulbs are kept just moist"
    );

    let view = lot::lot(&phone.state, lots[0].0, phone.today).unwrap();
    assert_eq!(
        view.lineage.parents.len(),
        2,
        "every possible parent is kept"
    );
    assert_eq!((view.lineage.siblings.len(), view.lineage.thrown), (2, 3));
    assert!(
        phone.state.anomalies().is_empty(),
        "{:?}",
        phone.state.anomalies()
    );
    assert_eq!(stock::stock(&phone.state, "lowian", 10).found, 3);
    assert!(repot::clump(&phone.state, clump).is_some_and(|clump| !clump.is_open));

    // Cymbidium is tough: first water after three days, in a row for both lots that stand together.
    phone.on("2027-03-23");
    let view = round::round(&phone.state, phone.today);
    let water = view.stops[0]
        .rows
        .iter()
        .find(|row| row.kind == TaskKind::FirstWater)
        .unwrap();
    assert_eq!(
        (water.lots.len(), water.plants, water.state),
        (2, 10, round::RowState::Due)
    );
    let answer = TaskAnswer::Done { outcome: None };
    let tasks = water.tasks.clone();
    phone.act(Command::DecideTasks {
        tasks: tasks.clone(),
        answer,
        why: String::new(),
    });
    assert!(
        round::round(&phone.state, phone.today)
            .stops
            .iter()
            .flat_map(|stop| &stop.rows)
            .all(|row| row.kind != TaskKind::FirstWater)
    );
    assert_eq!(
        phone.refusal(Command::DecideTasks {
            tasks,
            answer,
            why: String::new()
        }),
        Rejection::TaskNotOpen
    );
    assert_eq!(
        book::rows(&phone.state, book::Filter::default(), 100).len(),
        phone.state.log().len()
    );
}

#[test]
fn a_second_phone_that_takes_the_file_in_holds_the_same_book() {
    let mut first = Phone::new(7, "2027-03-11");
    first.open_book(Hemisphere::South);
    let bench = first.place("Shade bench", Warmth::Cool);
    let lot = first.lot("Zygopetalum maculatum", 5, bench);
    let clump = first.open_clump(&[lot]);
    first.act(Command::TakePieces {
        clump,
        pieces: vec![CountedPieces {
            class: PieceClass::Starter,
            plants: 8,
            bulbs: Some(6),
        }],
    });
    let mut second = Phone::new(8, "2027-03-11");
    let plan = second.take_in(&first.hand_over());
    assert_eq!(
        (plan.new.len(), plan.known, plan.first),
        (first.state.log().len(), 0, true)
    );
    assert_eq!(second.state.digest(), first.state.digest());
    assert_eq!(second.take_in(&first.hand_over()).new.len(), 0);
    assert_eq!(second.state.digest(), first.state.digest());
}
