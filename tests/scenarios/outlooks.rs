//! What will become of it: survival learned from the book, and flowering and sale month by month.

use velamen_core::command::Command;
use velamen_core::event::{LossCause, PieceClass};
use velamen_core::outlook::{forecast, learn, loss_ledger};
use velamen_core::season::{Hemisphere, Warmth};
use velamen_tests::{Phone, day};

use crate::scene::{divide, nursery};

fn lose(phone: &mut Phone, lot: velamen_core::id::LotId, plants: u32, cause: LossCause) {
    phone.act(Command::LoseFromLot {
        lot,
        plants,
        stands: plants,
        cause,
        note: String::new(),
    });
}

#[test]
fn what_lived_ninety_days_is_learned_with_its_number_of_cases() {
    let (mut phone, bench) = nursery(Hemisphere::North, Warmth::Cool, "2027-03-01");
    let lot = phone.lot("Cymbidium lowianum", 1, bench);
    let into = [(PieceClass::Starter, 20), (PieceClass::BackBulb, 10)];
    let lots = divide(&mut phone, lot, &into, bench);
    phone.on("2027-04-01");
    lose(&mut phone, lots[1], 4, LossCause::NoShoot);
    lose(&mut phone, lots[0], 2, LossCause::Missing);
    assert!(
        learn(&phone.state, phone.today).is_empty(),
        "a month says nothing yet"
    );
    phone.on("2027-06-01");
    let rows = learn(&phone.state, phone.today);
    let seen: Vec<_> = rows
        .iter()
        .map(|row| (row.class, row.of, row.alive))
        .collect();
    assert_eq!(
        seen,
        [(PieceClass::Starter, 18, 18), (PieceClass::BackBulb, 10, 6)],
        "missing on a count says nothing of living"
    );
    // The table says 50 to 80 of a hundred; six of ten pulls the middle down a little.
    let back_bulbs = rows[1];
    assert_eq!(back_bulbs.table_pct, (50, 80));
    assert!((0.60..0.65).contains(&back_bulbs.belief.mean()));
    let ledger = loss_ledger(&phone.state);
    assert_eq!(
        ledger
            .iter()
            .map(|row| (row.cause, row.plants))
            .collect::<Vec<_>>(),
        [(LossCause::NoShoot, 4), (LossCause::Missing, 2)]
    );
}

#[test]
fn forty_back_bulbs_are_twenty_six_saleable_plants_in_the_end_with_a_range() {
    let (mut phone, bench) = nursery(Hemisphere::North, Warmth::Cool, "2024-03-01");
    let lot = phone.lot("Cymbidium lowianum", 1, bench);
    divide(&mut phone, lot, &[(PieceClass::BackBulb, 40)], bench);
    // Not yet counted alive, and no month of the next two years reaches the fifth.
    let now = forecast(&phone.state, phone.today);
    assert_eq!(now.plants, 40);
    assert_eq!(now.months.len(), 24);
    assert!(now.months.iter().all(|month| month.saleable.high == 0));
    // Three years on the first may be sold, five years on all that live.
    let later = forecast(&phone.state, day("2027-06-01"));
    let sale: Vec<u32> = later
        .months
        .iter()
        .map(|month| month.saleable.middle)
        .collect();
    assert!(
        sale.is_sorted(),
        "nothing is taken off for what is sold: {sale:?}"
    );
    assert!(sale[0] >= 4 && sale[23] == 40, "{sale:?}");
    for month in &later.months {
        let span = month.saleable;
        assert!(span.low <= span.middle && span.middle <= span.high && span.high <= 40);
    }
}

#[test]
fn a_large_piece_flowers_in_the_coming_season_and_a_small_one_the_season_after() {
    let (mut phone, bench) = nursery(Hemisphere::North, Warmth::Cool, "2027-03-01");
    let lot = phone.lot("Coelogyne cristata", 1, bench);
    let into = [(PieceClass::Flowering, 10), (PieceClass::Starter, 10)];
    divide(&mut phone, lot, &into, bench);
    let view = forecast(&phone.state, day("2027-06-15"));
    let flower = |on: &str| {
        let found = view.months.iter().find(|month| month.first == day(on));
        found.unwrap().in_flower
    };
    assert_eq!(flower("2027-12-01").high, 0, "it flowers from January");
    assert!(
        (3..=5).contains(&flower("2028-02-01").middle),
        "{:?}",
        flower("2028-02-01")
    );
    assert!(
        (12..=14).contains(&flower("2029-02-01").middle),
        "{:?}",
        flower("2029-02-01")
    );
    assert!(view.months.iter().all(|month| month.in_flower.high <= 20));
    assert_eq!(view.no_season, 0);
}

#[test]
fn south_of_the_line_the_same_flowers_come_half_a_year_later() {
    let (mut phone, bench) = nursery(Hemisphere::South, Warmth::Cool, "2027-09-01");
    phone.lot("Coelogyne cristata", 5, bench);
    let view = forecast(&phone.state, phone.today);
    let months: Vec<String> = view
        .months
        .iter()
        .filter(|month| month.in_flower.middle > 0)
        .map(|month| month.first.to_string())
        .collect();
    assert_eq!(months[0], "2027-09-01");
    assert!(months.contains(&"2028-07-01".to_owned()));
    assert!(!months.contains(&"2028-01-01".to_owned()));
}
