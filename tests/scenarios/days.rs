//! The day's plan: what fits into the minutes there are, in the order it is walked, and why the rest waits.

use velamen_core::calendar::open_work;
use velamen_core::command::Command;
use velamen_core::event::{AgentClass, PieceClass, ProductCopy, TaskAnswer, TreatedPart};
use velamen_core::plan::{DayPlan, LeftOutWhy, Stage, Why, day_plan};
use velamen_core::season::{Hemisphere, Warmth};
use velamen_core::task::{TaskKind, derive};
use velamen_tests::{Phone, day, treatment};

use crate::scene::{decide, divide, nursery};

fn plan(phone: &Phone, minutes: u32) -> DayPlan {
    day_plan(&phone.state, phone.today, phone.now_ms, minutes * 10)
}

fn kinds(plan: &DayPlan) -> Vec<TaskKind> {
    let rows = plan.stops.iter().flat_map(|stop| &stop.rows);
    rows.map(|chosen| chosen.row.kind).collect()
}

/// A clump divided into twelve, ten days ago: water is due, and the look for rot.
fn ten_days_after() -> (Phone, Vec<velamen_core::id::LotId>) {
    let (mut phone, bench) = nursery(Hemisphere::North, Warmth::Cool, "2027-03-01");
    let lot = phone.lot("Zygopetalum maculatum", 1, bench);
    let into = [(PieceClass::Flowering, 4), (PieceClass::Starter, 8)];
    let lots = divide(&mut phone, lot, &into, bench);
    phone.on("2027-03-12");
    (phone, lots)
}

#[test]
fn in_little_time_the_late_water_comes_before_the_look_for_rot() {
    let (phone, _) = ten_days_after();
    let plenty = plan(&phone, 60);
    assert_eq!(
        kinds(&plenty),
        [TaskKind::FirstWater, TaskKind::RotCheck],
        "{plenty:?}"
    );
    assert!(plenty.left_out.is_empty());
    // Twelve pots at half a minute, twice, and a minute to walk there.
    assert_eq!(plenty.tenths, 10 + 2 * 12 * 5);
    assert!(matches!(plenty.stops[0].at, Stage::Place(Some(_))));

    let little = plan(&phone, 7);
    assert_eq!(kinds(&little), [TaskKind::FirstWater]);
    let row = &little.stops[0].rows[0];
    assert_eq!(row.why, Why::Late { days: 4 });
    assert_eq!(little.left_out.len(), 1);
    assert_eq!(little.left_out[0].row.kind, TaskKind::RotCheck);
    assert!(matches!(little.left_out[0].why, LeftOutWhy::NoTime { .. }));
}

#[test]
fn a_row_that_does_not_fit_whole_is_done_in_part_the_larger_lot_first() {
    let (phone, lots) = ten_days_after();
    // A minute to walk there and four for eight starters: the four flowering pots wait.
    let some = plan(&phone, 5);
    assert_eq!(some.tenths, 50);
    let row = &some.stops[0].rows[0];
    assert_eq!(row.row.lots.len(), 1);
    assert_eq!(row.row.lots[0].lot, lots[1]);
    assert_eq!((row.row.stands, row.left_out), (8, 1));
    assert!(plan(&phone, 0).stops.is_empty());
}

#[test]
fn what_nobody_may_touch_yet_is_left_out_and_says_until_when() {
    let (mut phone, lots) = ten_days_after();
    let treated = vec![TreatedPart::Lot {
        lot: lots[0],
        plants: 4,
    }];
    let mut bath = treatment(
        treated,
        AgentClass::Fungus,
        ProductCopy {
            label_name: "Test powder".to_owned(),
            ..ProductCopy::default()
        },
    );
    bath.until_ms = Some(phone.now_ms + 4 * 3_600_000);
    let until = bath.until_ms.unwrap();
    phone.act(Command::RecordTreatment(bath));
    let plan = plan(&phone, 600);
    let touched = plan.stops.iter().flat_map(|stop| &stop.rows);
    assert!(
        touched
            .flat_map(|chosen| &chosen.row.lots)
            .all(|lot| lot.lot != lots[0]),
        "{plan:?}"
    );
    assert!(plan.left_out.iter().any(|left| matches!(
        left.why,
        LeftOutWhy::Bound { until_ms, .. } if until_ms == until
    )));
}

#[test]
fn repots_share_one_set_up_and_come_after_the_walk() {
    let (mut phone, bench) = nursery(Hemisphere::North, Warmth::Cool, "2027-03-01");
    let lot = phone.lot("Cymbidium lowianum", 1, bench);
    divide(&mut phone, lot, &[(PieceClass::Flowering, 3)], bench);
    let other = phone.lot("Cymbidium lowianum", 1, bench);
    divide(&mut phone, other, &[(PieceClass::Flowering, 2)], bench);
    phone.on("2029-06-20");
    let plan = plan(&phone, 600);
    let last = plan.stops.last().unwrap();
    assert_eq!(last.at, Stage::Bench, "{plan:?}");
    assert_eq!(last.set_up_tenths, 50);
    assert!(last.rows.iter().all(|row| row.row.kind == TaskKind::Repot));
    assert!(plan.tenths <= 6_000);
    assert_eq!(plan.learned, None, "two clumps timed say nothing yet");
}

#[test]
fn in_a_calendar_work_keeps_its_name_while_its_day_moves() {
    let (mut phone, _) = ten_days_after();
    let before = open_work(&phone.state, phone.today);
    let water = before
        .iter()
        .find(|row| row.kind == TaskKind::FirstWater)
        .unwrap();
    assert_eq!(
        (water.on, water.lots.len()),
        (phone.today, 2),
        "late is today"
    );
    let feed = before
        .iter()
        .find(|row| row.kind == TaskKind::FirstFeed)
        .unwrap();
    assert_eq!(feed.on, day("2027-04-05"));
    let names: std::collections::BTreeSet<&str> =
        before.iter().map(|row| row.uid.as_str()).collect();
    assert_eq!(names.len(), before.len());

    let all = derive::all(phone.state.facts());
    let feeds = all
        .into_iter()
        .filter(|task| task.kind == TaskKind::FirstFeed)
        .collect();
    let to = day("2027-04-12");
    decide(&mut phone, feeds, TaskAnswer::PutOff { to });
    let after = open_work(&phone.state, phone.today);
    let moved = after
        .iter()
        .find(|row| row.kind == TaskKind::FirstFeed)
        .unwrap();
    assert_eq!((&moved.uid, moved.on), (&feed.uid, to));
    assert!(after.iter().all(|row| row.on <= day("2027-06-12")));
}
