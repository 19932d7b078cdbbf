//! Work at the bench falls into the window of the plant and the house, north and south; the season warns, never refuses.

use velamen_core::command::{Command, PlaceTraits, ReceiveLot};
use velamen_core::event::{GroupSet, PieceClass, Sight};
use velamen_core::id::LotId;
use velamen_core::reference::taxa::Group;
use velamen_core::rejection::Caution;
use velamen_core::season::{Hemisphere, Warmth, Window};
use velamen_core::task::TaskKind;
use velamen_core::task::windows::WindowsFrom;
use velamen_tests::{Phone, day, named};

use crate::scene::{divide, due, nursery, repot, stands, task};

/// The day starters potted on that day are to be potted on.
fn pot_on(hemisphere: Hemisphere, warmth: Warmth, name: &str, on: &str) -> Option<String> {
    let (mut phone, bench) = nursery(hemisphere, warmth, on);
    let lot = phone.lot(name, 1, bench);
    let starters = divide(&mut phone, lot, &[(PieceClass::Starter, 3)], bench);
    due(&phone, starters[0], TaskKind::PotOn).map(|on| on.to_string())
}

#[test]
fn starters_are_potted_on_after_a_year_in_the_next_window() {
    let north = |warmth, name, on| pot_on(Hemisphere::North, warmth, name, on).unwrap();
    let (cool, mild) = (Warmth::Cool, Warmth::Intermediate);
    // February to May is open for Cymbidium: the year falls inside and stays.
    assert_eq!(
        north(cool, "Cymbidium lowianum", "2027-03-11"),
        "2028-03-10"
    );
    // A year after June it is shut, until February.
    assert_eq!(
        north(cool, "Cymbidium lowianum", "2027-06-20"),
        "2029-02-01"
    );
    // The second window of Cattleya is for houses that stay mild at night.
    assert_eq!(north(mild, "Cattleya labiata", "2027-08-01"), "2028-09-01");
    assert_eq!(north(cool, "Cattleya labiata", "2027-08-01"), "2029-03-01");
}

#[test]
fn south_of_the_line_the_same_windows_fall_half_a_year_later() {
    let south = |name, on| pot_on(Hemisphere::South, Warmth::Cool, name, on).unwrap();
    assert_eq!(south("Cymbidium lowianum", "2027-09-11"), "2028-09-10");
    assert_eq!(south("Cymbidium lowianum", "2027-12-20"), "2029-08-01");
    assert_eq!(south("Cymbidium lowianum", "2027-03-11"), "2028-08-01");
}

#[test]
fn a_plant_with_two_windows_a_year_waits_only_for_the_nearer_one() {
    let north = |on| pot_on(Hemisphere::North, Warmth::Cool, "Odontoglossum crispum", on);
    assert_eq!(north("2027-04-15").as_deref(), Some("2028-09-01"));
    assert_eq!(north("2027-11-15").as_deref(), Some("2029-02-01"));
}

#[test]
fn the_growers_own_windows_come_before_the_table_and_are_not_turned_round() {
    let (mut phone, bench) = nursery(Hemisphere::South, Warmth::Cool, "2027-03-11");
    let lot = phone.lot("Cymbidium lowianum", 1, bench);
    let starters = divide(&mut phone, lot, &[(PieceClass::Starter, 3)], bench);
    assert_eq!(
        due(&phone, starters[0], TaskKind::PotOn),
        Some(day("2028-08-01"))
    );
    phone.act(Command::SetGroup(GroupSet {
        group: Group::Cymbidium,
        repot_windows: Some(vec![Window::months(5, 6), Window::months(10, 10)]),
        flowering_windows: None,
        light: None,
        water_days: None,
    }));
    assert_eq!(
        due(&phone, starters[0], TaskKind::PotOn),
        Some(day("2028-05-01"))
    );
    let view = velamen_core::view::lot::lot(&phone.state, starters[0], phone.today).unwrap();
    assert_eq!(view.repot_from, WindowsFrom::Own);
}

#[test]
fn a_lot_in_a_warmer_house_may_use_the_window_for_warmer_houses() {
    let (mut phone, cool) = nursery(Hemisphere::North, Warmth::Cool, "2027-08-01");
    let warm = phone.place("Warm house", Warmth::Warm);
    let lot = phone.lot("Cattleya labiata", 1, cool);
    let starters = divide(&mut phone, lot, &[(PieceClass::Starter, 3)], cool);
    assert_eq!(
        due(&phone, starters[0], TaskKind::PotOn),
        Some(day("2029-03-01"))
    );
    phone.act(Command::MoveLot {
        lot: starters[0],
        to: warm,
    });
    assert_eq!(
        due(&phone, starters[0], TaskKind::PotOn),
        Some(day("2028-09-01"))
    );
    phone.act(Command::SetPlace {
        place: Some(warm),
        name: None,
        walk: None,
        about: PlaceTraits {
            warmth: Some(Warmth::Cool),
            ..PlaceTraits::default()
        },
    });
    assert_eq!(
        due(&phone, starters[0], TaskKind::PotOn),
        Some(day("2029-03-01"))
    );
}

#[test]
fn dividing_outside_the_window_is_warned_about_and_done() {
    let (mut phone, bench) = nursery(Hemisphere::North, Warmth::Cool, "2027-07-20");
    let lot = phone.lot("Cymbidium lowianum", 2, bench);
    let open = |lot: LotId| {
        Command::OpenDivision(velamen_core::command::OpenDivision {
            tray: 1,
            lots: vec![velamen_core::event::OpenedLot {
                lot,
                plants: 2,
                stands: 2,
            }],
            ..Default::default()
        })
    };
    let done = phone.act(open(lot));
    let next_opening = Some(day("2028-02-01"));
    assert_eq!(
        done.cautions,
        [Caution::OutsideWindow { lot, next_opening }]
    );
    let (mut spring, bench) = nursery(Hemisphere::North, Warmth::Cool, "2027-03-11");
    let lot = spring.lot("Cymbidium lowianum", 2, bench);
    assert_eq!(spring.act(open(lot)).cautions, []);
}

fn standing(phone: &mut Phone, potted_on: &str) -> LotId {
    phone.receive(ReceiveLot {
        potted_on: Some(day(potted_on)),
        ..named("Cymbidium lowianum")
    })
}

#[test]
fn a_plant_that_came_potted_is_due_two_years_after_that_day() {
    let (mut phone, _) = nursery(Hemisphere::North, Warmth::Cool, "2027-03-11");
    let lot = standing(&mut phone, "2026-03-20");
    assert_eq!(due(&phone, lot, TaskKind::Repot), Some(day("2028-03-19")));
    let unknown = phone.receive(named("Cymbidium lowianum"));
    assert_eq!(
        due(&phone, unknown, TaskKind::Repot),
        None,
        "when it was potted is not known"
    );
}

#[test]
fn potting_a_plant_anew_ends_every_older_plan_for_it() {
    let (mut phone, _) = nursery(Hemisphere::North, Warmth::Cool, "2027-03-11");
    let lot = standing(&mut phone, "2025-03-20");
    phone.act(Command::Observe {
        lots: vec![lot],
        what: Sight::Outgrown,
        good: None,
        note: String::new(),
    });
    assert_eq!(
        due(&phone, lot, TaskKind::ToTheBench),
        Some(day("2027-03-18"))
    );
    assert_eq!(due(&phone, lot, TaskKind::Repot), Some(day("2027-03-20")));
    phone.on("2027-03-15");
    repot(&mut phone, lot);
    assert_eq!(due(&phone, lot, TaskKind::ToTheBench), None);
    assert_eq!(task(&phone, lot, TaskKind::Repot).due_on, day("2029-03-14"));
    // A second repot ends the plan of the first one, and its own is the only one.
    phone.on("2027-04-15");
    repot(&mut phone, lot);
    assert_eq!(task(&phone, lot, TaskKind::Repot).due_on, day("2029-04-14"));
}

#[test]
fn months_of_room_at_the_bench_are_not_shown_for_months() {
    use velamen_core::view::round::RowState;
    let (mut phone, _) = nursery(Hemisphere::North, Warmth::Cool, "2027-03-11");
    standing(&mut phone, "2026-03-20");
    let kind = TaskKind::Repot;
    assert_eq!(stands(&mut phone, "2028-02-01", kind), None);
    assert_eq!(
        stands(&mut phone, "2028-03-12", kind),
        Some(RowState::MayStart { days: 7 })
    );
    assert_eq!(stands(&mut phone, "2028-03-19", kind), Some(RowState::Due));
    assert_eq!(stands(&mut phone, "2028-07-17", kind), Some(RowState::Due));
    assert_eq!(
        stands(&mut phone, "2028-07-18", kind),
        Some(RowState::Late { days: 121 })
    );
}

#[test]
fn kinds_flower_in_their_months_north_and_half_a_year_later_south() {
    use velamen_core::reference::taxa::flowering_windows;
    // Months from memory and common practice, as the table says of itself: first and last, north and south.
    let months = [
        (Group::Cymbidium, (11, 4), (5, 10)),
        (Group::CymbidiumWarm, (7, 10), (1, 4)),
        (Group::Phalaenopsis, (1, 5), (7, 11)),
        (Group::DendrobiumNobile, (2, 4), (8, 10)),
        (Group::DendrobiumSpeciosum, (2, 4), (8, 10)),
        (Group::DendrobiumPhalaenopsis, (8, 12), (2, 6)),
        (Group::Zygopetalum, (10, 2), (4, 8)),
        (Group::Laelia, (11, 1), (5, 7)),
        (Group::OncidiumSummer, (4, 7), (10, 1)),
        (Group::Odontoglossum, (4, 6), (10, 12)),
        (Group::Coelogyne, (1, 3), (7, 9)),
        (Group::Paphiopedilum, (11, 3), (5, 9)),
        (Group::Vanda, (4, 10), (10, 4)),
        (Group::Sarcochilus, (3, 5), (9, 11)),
    ];
    let within = |month: u32, (first, last): (u32, u32)| {
        if first <= last {
            (first..=last).contains(&month)
        } else {
            month >= first || month <= last
        }
    };
    for (group, north, south) in months {
        for (hemisphere, expected) in [(Hemisphere::North, north), (Hemisphere::South, south)] {
            for month in 1..=12 {
                let mid = day(&format!("2027-{month:02}-15"));
                let windows = flowering_windows(group, hemisphere);
                let open = windows.iter().any(|window| window.contains(mid));
                assert_eq!(
                    open,
                    within(month, expected),
                    "{group:?} {hemisphere:?} in month {month}"
                );
            }
        }
    }
}
