//! A whole year of morning rounds, north and south: nothing is due twice, nothing is forgotten, nothing comes late by
//! itself, whatever the thermometer reads and however long nobody reads it.

use std::collections::{BTreeMap, BTreeSet};

use velamen_core::climate::Reading;
use velamen_core::command::Command;
use velamen_core::event::{Outcome, PieceClass, SeenOn, TaskAnswer, TaskKey};
use velamen_core::id::{LotId, PlaceId};
use velamen_core::season::{Hemisphere, Season, Warmth, season_of};
use velamen_core::task::TaskKind;
use velamen_core::task::derive::{self, Task};
use velamen_core::time::{days_between, plus_days};
use velamen_core::view::round::{RowState, round};
use velamen_tests::{Phone, day};

use crate::generations::{look_by_generation, seen};
use crate::scene::{decide, divide, nursery, repot};

const DAYS: i64 = 366;
/// Nobody reads the thermometer for a month.
const GAP: std::ops::Range<i64> = 40..70;

/// Days on which thrips are found on the place: in the gap too. And scale on a lot.
const FOUND_ON_PLACE: [i64; 4] = [5, 50, 130, 270];
const FOUND_ON_LOT: [i64; 2] = [20, 200];

/// What was done, by lot: the kinds of work, each with its day of the year.
type Done = BTreeMap<LotId, Vec<(TaskKind, i64)>>;

struct Year {
    phone: Phone,
    house: PlaceId,
    start: chrono::NaiveDate,
    decided: BTreeSet<TaskKey>,
    done: Done,
    /// Days on which the place was looked over for thrips.
    looked: Vec<i64>,
}

impl Year {
    fn on(&mut self, at: i64) {
        let today = plus_days(self.start, at);
        self.phone.on(&today.to_string());
    }

    fn read(&mut self, at: i64) {
        if GAP.contains(&at) {
            return;
        }
        let hemisphere = self.phone.state.facts().book.hemisphere();
        let (min_mc, max_mc) = match season_of(self.phone.today, hemisphere).0 {
            Season::Winter => (6_000, 14_000),
            Season::Summer => (24_000, 36_000),
            Season::Spring | Season::Autumn => (13_000, 23_000),
        };
        self.phone.act(Command::ReadClimate {
            place: self.house,
            days: vec![(self.phone.today, Reading::of(min_mc, max_mc))],
        });
    }

    /// Pests are found on the place, and one on a lot, in every season; their generations are looked for.
    fn find(&mut self, at: i64, lot: LotId) {
        if FOUND_ON_PLACE.contains(&at) {
            let on = SeenOn::Place(self.house);
            let id = seen(&mut self.phone, on, "thrips", Some((2, 20)));
            look_by_generation(&mut self.phone, id);
        }
        if FOUND_ON_LOT.contains(&at) {
            let id = seen(&mut self.phone, SeenOn::Lot(lot), "scale", None);
            look_by_generation(&mut self.phone, id);
        }
    }

    /// One morning: everything late or due is done.
    fn morning(&mut self, at: i64) {
        let view = round(&self.phone.state, self.phone.today);
        let rows = view.stops.into_iter().flat_map(|stop| stop.rows);
        let mut tasks: Vec<Task> = Vec::new();
        for row in rows {
            match row.state {
                RowState::Late { days } => panic!("{:?} is {days} days late", row.kind),
                RowState::Due => tasks.extend(row.tasks),
                _ => {}
            }
        }
        let keys: BTreeSet<&TaskKey> = tasks.iter().map(|task| &task.key).collect();
        assert_eq!(keys.len(), tasks.len(), "one occurrence stands twice");
        for task in tasks {
            assert!(!self.decided.contains(&task.key), "due again: {task:?}");
            let Some(lot) = task.lot else {
                // A look at the place as a whole.
                self.looked.push(at);
                self.decided.insert(task.key.clone());
                decide(
                    &mut self.phone,
                    vec![task],
                    TaskAnswer::Done { outcome: None },
                );
                continue;
            };
            self.done.entry(lot).or_default().push((task.kind, at));
            if matches!(task.kind, TaskKind::Repot | TaskKind::PotOn) {
                repot(&mut self.phone, lot);
            } else {
                self.decided.insert(task.key.clone());
                let outcome = task.kind.def().asks_outcome.then_some(Outcome::Well);
                decide(&mut self.phone, vec![task], TaskAnswer::Done { outcome });
            }
        }
    }
}

/// A year from the day of dividing a bulbed, a bulbless and a back-bulbed clump; the new lots in that order.
fn a_year(hemisphere: Hemisphere, start: &str) -> (Year, Vec<LotId>) {
    let (mut phone, house) = nursery(hemisphere, Warmth::Intermediate, start);
    let mut lots = Vec::new();
    for (name, class) in [
        ("Zygopetalum maculatum", PieceClass::Starter),
        ("Paphiopedilum insigne", PieceClass::Starter),
        ("Zygopetalum maculatum", PieceClass::BackBulb),
    ] {
        let lot = phone.lot(name, 1, house);
        lots.extend(divide(&mut phone, lot, &[(class, 4)], house));
    }
    let mut year = Year {
        phone,
        house,
        start: day(start),
        decided: BTreeSet::new(),
        done: BTreeMap::new(),
        looked: Vec::new(),
    };
    for at in 0..DAYS {
        year.on(at);
        year.read(at);
        year.find(at, lots[0]);
        year.morning(at);
    }
    (year, lots)
}

/// The days of a kind of work on a lot.
fn days(year: &Year, lot: LotId, kind: TaskKind) -> Vec<i64> {
    let done = year.done.get(&lot).into_iter().flatten();
    done.filter(|(it, _)| *it == kind)
        .map(|(_, at)| *at)
        .collect()
}

fn looks_are_whole(year: &Year, lots: &[LotId]) {
    // Three looks after each finding, within two days of the day and three times the days of the table.
    assert_eq!(
        year.looked.len(),
        3 * FOUND_ON_PLACE.len(),
        "{:?}",
        year.looked
    );
    for found in FOUND_ON_PLACE {
        let after = |at: &&i64| **at > found && **at <= found + 60;
        assert!(
            year.looked.iter().filter(after).count() >= 3,
            "found on day {found}"
        );
    }
    // For scale nobody knows the warmth: the days of the table.
    let expected: Vec<i64> = FOUND_ON_LOT
        .iter()
        .flat_map(|found| [12, 24, 36, 50].map(|days| found + days))
        .collect();
    assert_eq!(days(year, lots[0], TaskKind::Own), expected);
    let again = FOUND_ON_LOT.map(|found| found + 7);
    assert_eq!(days(year, lots[0], TaskKind::LookAgain), again);
}

fn aftercare_is_whole(year: &Year, lots: &[LotId], first_water: i64) {
    looks_are_whole(year, lots);
    let (bulbed, bulbless, back_bulbs) = (lots[0], lots[1], lots[2]);
    assert_eq!(days(year, bulbed, TaskKind::FirstWater), [first_water]);
    assert_eq!(days(year, bulbless, TaskKind::FirstWater), [2]);
    assert_eq!(days(year, bulbed, TaskKind::RotCheck), [10]);
    for lot in [bulbed, bulbless] {
        assert_eq!(days(year, lot, TaskKind::NormalLight), [28]);
        assert_eq!(days(year, lot, TaskKind::RootCheck), [45, 90]);
        assert_eq!(days(year, lot, TaskKind::FirstFeed), [35]);
        assert_eq!(days(year, lot, TaskKind::Restake), [120]);
    }
    // Looked for shoots from day 45 every 21 days to day 270: eleven times.
    let looks: Vec<i64> = (0..11).map(|look| 45 + 21 * look).collect();
    assert_eq!(days(year, back_bulbs, TaskKind::ShootCheck), looks);
    assert_eq!(days(year, back_bulbs, TaskKind::PotShoots), [135]);
    assert_eq!(days(year, back_bulbs, TaskKind::WriteOff), [270]);
    // What is still open lies ahead.
    let facts = year.phone.state.facts();
    for task in derive::all(facts) {
        assert!(days_between(year.phone.today, task.due_on) > 0, "{task:?}");
    }
}

#[test]
fn a_year_of_rounds_in_the_north_does_everything_once() {
    let (year, lots) = a_year(Hemisphere::North, "2026-03-11");
    aftercare_is_whole(&year, &lots, 7);
}

#[test]
fn a_year_of_rounds_in_the_south_does_everything_once_and_the_same_day_is_autumn_there() {
    let (year, lots) = a_year(Hemisphere::South, "2026-03-11");
    aftercare_is_whole(&year, &lots, 7);
}

#[test]
fn a_year_that_begins_in_a_cold_winter_waters_three_days_later_on_either_side_of_the_line() {
    let (year, lots) = a_year(Hemisphere::North, "2026-01-10");
    aftercare_is_whole(&year, &lots, 10);
    let (year, lots) = a_year(Hemisphere::South, "2026-07-10");
    aftercare_is_whole(&year, &lots, 10);
}

#[test]
fn a_year_that_begins_in_a_hot_summer_waters_two_days_earlier() {
    let (year, lots) = a_year(Hemisphere::South, "2026-01-10");
    aftercare_is_whole(&year, &lots, 5);
}
