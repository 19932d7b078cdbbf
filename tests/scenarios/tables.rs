//! At a table: every lot a line, many answered at once, and the nursery as it is walked.

use velamen_core::command::Command;
use velamen_core::event::{TaskAnswer, WithdrawWhy};
use velamen_core::id::LotId;
use velamen_core::season::{Hemisphere, Warmth};
use velamen_core::view::nursery::nursery;
use velamen_core::view::round::{RowState, round};
use velamen_core::view::stock::stock;
use velamen_core::view::stock_table::{Column, Line, Pressing, Sieve, lines, open_work, sifted};
use velamen_tests::{Phone, named};

/// A small nursery: two benches of one house, a window alone, and one lot that stands nowhere.
fn nursery_of_six() -> (Phone, Vec<LotId>) {
    let mut phone = Phone::new(7, "2027-02-01");
    phone.open_book(Hemisphere::North);
    let near = phone.place("Cool house, bench 1", Warmth::Cool);
    let far = phone.place("Cool house, bench 2", Warmth::Cool);
    let window = phone.place("Window", Warmth::Intermediate);
    let lots = vec![
        phone.lot("Cymbidium tracyanum", 3, far),
        phone.lot("Paphiopedilum insigne", 12, near),
        phone.lot("Cymbidium lowianum", 1, near),
        phone.lot("Dendrobium kingianum", 40, window),
        phone.lot("Cattleya", 2, near),
        phone.receive(named("Laelia anceps")),
    ];
    (phone, lots)
}

fn names(lines: &[Line], sieve: &Sieve) -> Vec<String> {
    let shown = sifted(lines, sieve);
    shown.iter().map(|at| lines[*at].name.plain()).collect()
}

#[test]
fn the_table_is_ordered_by_any_column_and_what_lacks_it_comes_last_both_ways() {
    let (phone, _) = nursery_of_six();
    let all = lines(&phone.state, phone.today);
    assert_eq!(all.len(), stock(&phone.state, "", 100).rows.len());
    let mut sieve = Sieve::default();
    let walked = names(&all, &sieve);
    assert_eq!(
        walked,
        [
            "Cattleya",
            "Cymbidium lowianum",
            "Paphiopedilum insigne",
            "Cymbidium tracyanum",
            "Dendrobium kingianum",
            "Laelia anceps"
        ]
    );
    // The walk turned round; who stands nowhere is still last.
    sieve.order_by(Column::Place);
    let back = names(&all, &sieve);
    assert_eq!(back[0], "Dendrobium kingianum");
    assert_eq!(back[5], "Laelia anceps");
    sieve.order_by(Column::Plants);
    let few_first: Vec<i64> = sifted(&all, &sieve)
        .iter()
        .map(|at| all[*at].plants)
        .collect();
    assert_eq!(few_first, [1, 1, 2, 3, 12, 40]);
    sieve.order_by(Column::Plants);
    assert_eq!(names(&all, &sieve)[0], "Dendrobium kingianum");
    sieve.order_by(Column::Name);
    let mut by_name = names(&all, &sieve);
    assert_eq!(by_name[0], "Cattleya");
    let sorted = {
        let mut copy = by_name.clone();
        copy.sort();
        copy
    };
    assert_eq!(by_name, sorted);
    // Every column shows every lot once.
    for column in Column::ALL {
        let sieve = Sieve {
            by: column,
            ..Sieve::default()
        };
        by_name = names(&all, &sieve);
        by_name.sort();
        assert_eq!(by_name, sorted, "{column:?}");
    }
}

#[test]
fn the_table_is_sifted_by_words_place_and_work_together() {
    let (mut phone, lots) = nursery_of_six();
    let to_do = Command::NoteTask {
        task: None,
        text: "stake".to_owned(),
        due_on: phone.today,
        repeat_days: None,
        lot: Some(lots[3]),
        place: None,
    };
    phone.act(to_do);
    let all = lines(&phone.state, phone.today);
    let near = all.iter().find(|line| line.lot == lots[1]).unwrap().place;
    let sieve = Sieve {
        typed: "cymb".to_owned(),
        ..Sieve::default()
    };
    assert_eq!(
        names(&all, &sieve),
        ["Cymbidium lowianum", "Cymbidium tracyanum"]
    );
    let sieve = Sieve {
        place: Some(near),
        ..sieve
    };
    assert!(!sieve.is_open());
    assert_eq!(names(&all, &sieve), ["Cymbidium lowianum"]);
    let nowhere = Sieve {
        place: Some(None),
        ..Sieve::default()
    };
    assert_eq!(names(&all, &nowhere), ["Laelia anceps"]);
    let due = Sieve {
        pressing: Pressing::Due,
        ..Sieve::default()
    };
    assert_eq!(names(&all, &due), ["Dendrobium kingianum"]);
    // A fortnight on it is late, and stands first by what is next.
    phone.on("2027-02-15");
    let all = lines(&phone.state, phone.today);
    let late = Sieve {
        pressing: Pressing::Late,
        ..Sieve::default()
    };
    assert_eq!(names(&all, &late), ["Dendrobium kingianum"]);
    let next = Sieve {
        by: Column::Next,
        ..Sieve::default()
    };
    assert_eq!(names(&all, &next)[0], "Dendrobium kingianum");
    assert!(matches!(
        all[sifted(&all, &next)[0]].next.unwrap().stands,
        Some(RowState::Late { .. })
    ));
}

#[test]
fn many_lots_move_in_one_entry_and_go_back_in_one() {
    let (mut phone, lots) = nursery_of_six();
    let window = phone.state.facts().lots[&lots[3]]
        .place
        .get()
        .copied()
        .unwrap();
    let before = lines(&phone.state, phone.today);
    let moves = lots[..3].iter().map(|lot| Command::MoveLot {
        lot: *lot,
        to: window,
    });
    let entries = phone.state.log().len();
    let done = phone.act(Command::Together(moves.collect()));
    assert_eq!(phone.state.log().len(), entries + 1);
    let after = lines(&phone.state, phone.today);
    assert_eq!(
        after
            .iter()
            .filter(|line| line.place == Some(window))
            .count(),
        4
    );
    phone.act(Command::Withdraw {
        targets: vec![done.entry],
        with_dependents: true,
        why: WithdrawWhy::Undone,
        note: String::new(),
    });
    assert_eq!(lines(&phone.state, phone.today), before);
}

#[test]
fn work_of_chosen_lots_is_answered_by_kind_and_leaves_the_others_alone() {
    let mut phone = Phone::new(7, "2027-02-01");
    phone.open_book(Hemisphere::North);
    let bench = phone.place("Bench", Warmth::Cool);
    let lots: Vec<LotId> = (0..4)
        .map(|_| {
            let mut lot = named("Cymbidium");
            lot.place = Some(bench);
            lot.potted_on = Some(phone.today);
            phone.receive(lot)
        })
        .collect();
    for lot in &lots {
        phone.act(Command::RepotLot {
            lot: *lot,
            stands: 1,
            potting: velamen_core::event::Potting::default(),
            class: None,
        });
    }
    phone.on("2027-03-20");
    let open = open_work(&phone.state, &lots[..2], phone.today);
    assert!(!open.is_empty(), "a repotted plant has work seven weeks on");
    let mut answered = 0;
    for (kind, tasks) in &open {
        assert!(
            tasks
                .iter()
                .all(|task| task.kind == *kind && lots[..2].contains(&task.lot.unwrap()))
        );
        let def = kind.def();
        assert!(!def.at_bench && !def.on_page && !def.asks_outcome);
        answered += tasks.len();
    }
    let count = |phone: &Phone, lots: &[LotId]| -> usize {
        let work = open_work(&phone.state, lots, phone.today);
        work.iter().map(|(_, tasks)| tasks.len()).sum()
    };
    assert_eq!(count(&phone, &lots), 2 * answered);
    for (_, tasks) in open {
        phone.act(Command::DecideTasks {
            tasks,
            answer: TaskAnswer::NotNeeded,
            why: String::new(),
        });
    }
    assert_eq!(count(&phone, &lots[..2]), 0);
    assert_eq!(count(&phone, &lots[2..]), answered);
}

#[test]
fn the_plan_walks_every_place_once_and_counts_as_the_round_does() {
    let (mut phone, lots) = nursery_of_six();
    for lot in [lots[0], lots[3], lots[5]] {
        phone.act(Command::NoteTask {
            task: None,
            text: "look".to_owned(),
            due_on: phone.today,
            repeat_days: None,
            lot: Some(lot),
            place: None,
        });
    }
    let houses = nursery(&phone.state, phone.today);
    let drawn: Vec<(&str, Vec<&str>)> = houses
        .iter()
        .map(|house| {
            let benches = house.benches.iter().map(|bench| bench.name.as_str());
            (house.name.as_str(), benches.collect())
        })
        .collect();
    // Neighbours under one roof are one house; a name without a comma stands alone, lots without a place come last.
    assert_eq!(
        drawn,
        [
            ("Cool house", vec!["bench 1", "bench 2"]),
            ("", vec!["Window"]),
            ("", vec![""])
        ]
    );
    let benches = || houses.iter().flat_map(|house| &house.benches);
    assert_eq!(benches().map(|bench| bench.lots).sum::<usize>(), 6);
    assert_eq!(benches().map(|bench| bench.plants).sum::<i64>(), 59);
    let view = round(&phone.state, phone.today);
    assert_eq!(benches().map(|bench| bench.due).sum::<usize>(), view.due);
    assert!(view.due >= 3);
    phone.on("2027-02-20");
    let view = round(&phone.state, phone.today);
    let late: usize = nursery(&phone.state, phone.today)
        .iter()
        .flat_map(|house| &house.benches)
        .map(|bench| bench.late)
        .sum();
    assert_eq!(late, view.late);
    assert!(late >= 3);
}

#[test]
fn a_nursery_of_nothing_of_one_and_of_sixty_places_is_drawn() {
    let mut phone = Phone::new(7, "2027-02-01");
    phone.open_book(Hemisphere::North);
    assert!(nursery(&phone.state, phone.today).is_empty());
    phone.place("Shelf", Warmth::Warm);
    assert_eq!(nursery(&phone.state, phone.today).len(), 1);
    for house in 0..6 {
        for bench in 0..10 {
            phone.place(&format!("House {house}, bench {bench}"), Warmth::Cool);
        }
    }
    let houses = nursery(&phone.state, phone.today);
    assert_eq!(houses.len(), 7);
    assert_eq!(
        houses
            .iter()
            .map(|house| house.benches.len())
            .sum::<usize>(),
        61
    );
}
