//! Days far back and far ahead.

use velamen_core::command::{Command, ContainerTraits, EnterQuarantine, ReceiveLot};
use velamen_core::event::{CutPlan, Held, Way};
use velamen_core::limits;
use velamen_core::quarantine::Terms;
use velamen_core::rejection::{Input, Rejection};
use velamen_core::time::plus_days;
use velamen_tests::{day, named};

use super::{Edge, bench, hold, most, of, product, range, row};

#[test]
fn days_far_back_and_far_ahead() {
    let (mut phone, _, lot) = bench();
    let thirty = product(&mut phone);
    let today = phone.today;
    let first = day(&format!("{}-01-01", limits::FIRST_YEAR));
    let last = plus_days(today, limits::AHEAD_DAYS_MAX);
    let out = Rejection::DayOutOfRange { first, last: today };
    let ahead = Rejection::DayOutOfRange { first, last };
    let due = |due_on, repeat_days| Command::NoteTask {
        task: None,
        text: "order labels".to_owned(),
        due_on,
        repeat_days,
        lot: None,
        place: None,
    };
    let count = Command::CountLot {
        lot,
        plants: 9,
        stands: 9,
    };
    let stay = |terms| {
        Command::EnterQuarantine(EnterQuarantine {
            lots: vec![lot],
            terms,
            ..EnterQuarantine::default()
        })
    };
    let stays = range(Input::Date, 0, limits::QUARANTINE_DAYS_MAX);
    let every = range(Input::Date, 1, limits::AHEAD_DAYS_MAX);
    let far = most(limits::AHEAD_DAYS_MAX);
    let rows = vec![
        row("FIRST_YEAR, done", Edge::Least(0), out.clone(), |n| {
            Command::OnDay {
                on: plus_days(first, n),
                command: Box::new(count.clone()),
            }
        }),
        row("FIRST_YEAR, potted", Edge::Least(0), out.clone(), |n| {
            Command::ReceiveLot(ReceiveLot {
                potted_on: Some(plus_days(first, n)),
                ..named("Cymbidium lowianum")
            })
        }),
        row("today, done", Edge::Most(0), out, |n| Command::OnDay {
            on: plus_days(today, n),
            command: Box::new(count.clone()),
        }),
        row("FIRST_YEAR, due", Edge::Least(0), ahead.clone(), |n| {
            due(plus_days(first, n), None)
        }),
        row("AHEAD_DAYS_MAX, due", far, ahead.clone(), |n| {
            due(plus_days(today, n), None)
        }),
        row("AHEAD_DAYS_MAX, expires", far, ahead, |n| {
            Command::SetContainer {
                container: None,
                traits: ContainerTraits {
                    product: Some(thirty),
                    held: Some(Held::Ul(1)),
                    expires_on: Some(plus_days(today, n)),
                    ..ContainerTraits::default()
                },
            }
        }),
        row("AHEAD_DAYS_MAX, repeated", far, every.clone(), |n| {
            due(today, Some(of(n)))
        }),
        row("repeated, the least", Edge::Least(1), every, |n| {
            due(today, Some(of(n)))
        }),
        row(
            "AHEAD_DAYS_MAX, a cut",
            far,
            Rejection::DayOutOfRange { first: today, last },
            |n| Command::PlanDivision {
                lots: vec![lot],
                clump: None,
                plan: Some(CutPlan {
                    way: Way::KeepWhole,
                    pieces: Vec::new(),
                    whole: 1,
                    leads: None,
                    growths: None,
                    size: None,
                    by_on: Some(plus_days(today, n)),
                }),
            },
        ),
        row(
            "QUARANTINE_DAYS_MAX",
            most(limits::QUARANTINE_DAYS_MAX),
            stays.clone(),
            |n| {
                stay(Terms {
                    days: of(n),
                    ..Terms::default()
                })
            },
        ),
        row(
            "QUARANTINE_DAYS_MAX, a test",
            most(limits::QUARANTINE_DAYS_MAX),
            stays,
            |n| {
                stay(Terms {
                    test_days: vec![of(n)],
                    ..Terms::default()
                })
            },
        ),
    ];
    hold(&phone, rows);
}
