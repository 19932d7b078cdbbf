//! A stock list from elsewhere: what each row becomes, what is refused and why, and that twice is once.

use velamen_core::cells::cells;
use velamen_core::command::Command;
use velamen_core::entry::read_header;
use velamen_core::event::{PieceClass, WithdrawWhy};
use velamen_core::id::EntryRef;
use velamen_core::season::{Hemisphere, Warmth};
use velamen_core::stock_list::{self, Comes, Holds, Reading, RowFault, listed};
use velamen_core::view::stock::stock;
use velamen_tests::{Phone, day};

use crate::scene::nursery;

const LIST: &str = "Old no.;Genus;Species or grex;Number of plants;Pots;Bench;Last repotted;Size;Remarks\r\n\
    17;Cymbidium;lowianum;4;4;Cool house;03/2025;Flowering size;\"scented;\r\nfrom the old frames\"\r\n\
    18;Zygopetalum;maculatum;12;3;Rain bench;14/05/2026;small;\r\n\
    19;Coelogyne;cristata;;;the HOUSE;2024;;\r\n\
    20;Dendrobium;kingianum;0;0;Rain bench;;;gone\r\n\
    21;Dendrobium;speciosum;a few;1;Rain bench;;;\r\n\
    22;Cattleya;Little Lantern;2;2;Cool house;31/02/2026;;\r\n\
    23;Cattleya;Little Lantern;2;2;Cool house;01/02/2031;;\r\n\
    ;;;;;;;;only a remark\r\n\
    24;Cattleya;Little Lantern;900000000;2;;;;\r\n";

fn comes(phone: &Phone, text: &str) -> (Reading, Comes) {
    let table = cells(text);
    let reading = Reading::guess(&table);
    let comes = listed(&table, &reading, phone.state.facts(), phone.today);
    (reading, comes)
}

fn take(phone: &mut Phone, comes: &Comes) {
    if let Some(places) = stock_list::places(comes) {
        phone.act(places);
    }
    for lots in stock_list::lots(comes, phone.state.facts()) {
        phone.act(lots);
    }
}

#[test]
fn an_untidy_list_is_understood_and_each_refused_row_says_why() {
    let (phone, _) = nursery(Hemisphere::North, Warmth::Cool, "2026-11-28");
    let (reading, comes) = comes(&phone, LIST);
    assert_eq!(
        reading.holds,
        [
            Holds::Number,
            Holds::Name,
            Holds::Name,
            Holds::Plants,
            Holds::Pots,
            Holds::Place,
            Holds::Potted,
            Holds::Size,
            Holds::Note
        ]
    );
    assert!(reading.headed);
    assert_eq!(reading.sizes["Flowering size"], Some(PieceClass::Flowering));
    assert_eq!(reading.sizes["small"], Some(PieceClass::Starter));

    let shown: Vec<_> = comes
        .lots
        .iter()
        .map(|lot| (lot.line, lot.name.plain(), lot.plants, lot.stands))
        .collect();
    assert_eq!(
        shown,
        [
            (2, "Cymbidium lowianum".to_owned(), 4, 4),
            (4, "Zygopetalum maculatum".to_owned(), 12, 3),
            (5, "Coelogyne cristata".to_owned(), 1, 1),
        ]
    );
    assert_eq!(comes.lots[0].note, "scented;\nfrom the old frames");
    assert_eq!(comes.lots[0].potted_on, Some(day("2025-03-01")));
    assert_eq!(comes.lots[1].potted_on, Some(day("2026-05-14")));
    assert_eq!(comes.lots[2].potted_on, Some(day("2024-01-01")));
    assert_eq!(comes.counted_one, 1);
    assert_eq!(comes.plants, 17);
    // "the HOUSE" is the place that is there.
    assert_eq!(comes.new_places, ["Cool house", "Rain bench"]);
    let refused: Vec<_> = comes
        .refused
        .iter()
        .map(|(line, why)| (*line, why))
        .collect();
    assert!(
        matches!(
            refused.as_slice(),
            [
                (6, RowFault::None),
                (7, RowFault::NotACount { .. }),
                (8, RowFault::NotADay { .. }),
                (9, RowFault::DayOutOfRange { .. }),
                (10, RowFault::SaysNothing),
                (11, RowFault::TooMany { .. }),
            ]
        ),
        "{refused:?}"
    );
}

#[test]
fn a_list_taken_is_stock_found_by_the_old_number_and_twice_is_once() {
    let (mut phone, _) = nursery(Hemisphere::South, Warmth::Cool, "2026-11-28");
    let (_, first) = comes(&phone, LIST);
    take(&mut phone, &first);
    let all = stock(&phone.state, "", 50);
    assert_eq!((all.lots, all.plants), (3, 17));
    assert_eq!(phone.state.facts().places.len(), 3);
    let found = stock(&phone.state, "18", 50);
    assert_eq!(found.rows.len(), 1, "{found:?}");
    assert_eq!(found.rows[0].label.name.plain(), "Zygopetalum maculatum");

    let (mut reading, second) = comes(&phone, LIST);
    assert!(second.lots.is_empty() && second.new_places.is_empty());
    assert_eq!(second.counted_one, 0, "told of rows that come in alone");
    let there = second
        .refused
        .iter()
        .filter(|(_, why)| *why == RowFault::InTheBook);
    assert_eq!(there.count(), 3);
    reading.again = true;
    assert_eq!(
        listed(&cells(LIST), &reading, phone.state.facts(), phone.today)
            .lots
            .len(),
        3
    );
}

#[test]
fn two_thousand_rows_come_in_by_four_entries_and_go_as_they_came() {
    let (mut phone, _) = nursery(Hemisphere::North, Warmth::Cool, "2026-11-28");
    let before = phone.state.log().len();
    let rows: String = (0..2_000)
        .map(|row| format!("Cymbidium {row},{},Bench {}\n", row % 7 + 1, row % 9))
        .collect();
    let (_, many) = comes(&phone, &format!("Name,Plants,Bench\n{rows}"));
    assert_eq!(many.lots.len(), 2_000);
    take(&mut phone, &many);
    assert_eq!(stock(&phone.state, "", 1).lots, 2_000);
    assert_eq!(
        phone.state.log().len() - before,
        5,
        "places, and four times five hundred lots"
    );
    let codes: std::collections::BTreeSet<_> = phone
        .state
        .facts()
        .lots
        .values()
        .filter_map(|lot| lot.code.get().copied())
        .collect();
    assert_eq!(codes.len(), 2_000);

    let last = phone
        .state
        .log()
        .lines()
        .last()
        .map(read_header)
        .unwrap()
        .unwrap();
    let entry = EntryRef {
        dev: last.dev,
        seq: last.seq,
    };
    phone.act(Command::Withdraw {
        targets: vec![entry],
        with_dependents: true,
        why: WithdrawWhy::Undone,
        note: String::new(),
    });
    assert_eq!(stock(&phone.state, "", 1).lots, 1_500);
}

#[test]
fn tables_that_are_no_lists_come_to_nothing_and_never_to_a_panic() {
    let (phone, _) = nursery(Hemisphere::North, Warmth::Cool, "2026-11-28");
    for text in [
        "",
        "\n\n",
        ";;;\n;;;",
        "\u{feff}",
        "\"never closed;;;\n",
        "a",
        "Name\n",
        "Plants\n-3\n1e9\n",
    ] {
        let (_, comes) = comes(&phone, text);
        assert!(comes.lots.len() <= 1, "{text:?}: {comes:?}");
    }
    let (reading, plain) = comes(
        &phone,
        "Paphiopedilum insigne\t6\nPaphiopedilum spicerianum\t2\n",
    );
    assert!(!reading.headed);
    assert_eq!(plain.plants, 8);
    let (_, long) = comes(
        &phone,
        &format!(
            "Name,Note\n{},x\nCattleya x,{}\n",
            "x".repeat(500),
            "n".repeat(5_000)
        ),
    );
    assert_eq!(long.lots.len(), 0);
    assert_eq!(long.refused.len(), 2, "{long:?}");
}

#[test]
fn a_column_given_another_meaning_leaves_the_one_that_had_it() {
    let table = cells("Plant,A,B\nCattleya x,3,9\n");
    let mut reading = Reading::guess(&table);
    reading.set(1, Holds::Plants, &table);
    reading.set(2, Holds::Plants, &table);
    assert_eq!(reading.holds, [Holds::Name, Holds::Nothing, Holds::Plants]);
    let (phone, _) = nursery(Hemisphere::North, Warmth::Cool, "2026-11-28");
    let comes = listed(&table, &reading, phone.state.facts(), phone.today);
    assert_eq!(comes.lots[0].plants, 9);
}
