//! A cut that is planned, given up, and planned once more at the bench.

use velamen_core::command::{Command, OpenDivision};
use velamen_core::event::{CutPlan, OpenedLot, PieceClass, PlannedPieces, RoughSize, Way};
use velamen_core::id::LotId;
use velamen_tests::day;

pub(crate) fn planned(lot: LotId) -> Vec<Command> {
    let row = |class, plants, low, high| PlannedPieces {
        class,
        plants,
        low,
        high,
    };
    let plan = CutPlan {
        way: Way::FewLarge,
        pieces: vec![
            row(PieceClass::Flowering, 3, Some(2), Some(4)),
            row(PieceClass::BackBulb, 6, None, Some(9)),
        ],
        whole: 1,
        leads: Some(3),
        growths: Some(18),
        size: Some(RoughSize::Large),
        by_on: Some(day("2027-03-20")),
    };
    let open = OpenDivision {
        tray: 41,
        lots: vec![OpenedLot {
            lot,
            plants: 1,
            stands: 1,
        }],
        plan: Some(plan.clone()),
        ..OpenDivision::default()
    };
    let planned = |plan| Command::PlanDivision {
        lots: vec![lot],
        clump: None,
        plan,
    };
    vec![
        planned(Some(plan)),
        planned(None),
        Command::OpenDivision(open),
    ]
}
