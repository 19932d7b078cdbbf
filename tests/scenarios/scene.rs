//! Short words for what every script does.

use chrono::NaiveDate;
use velamen_core::command::{Batch, Command, CountedPieces};
use velamen_core::event::{ClosedHow, Event, Outcome, PieceClass, Potting, TaskAnswer};
use velamen_core::id::{ClumpId, LotId, PlaceId};
use velamen_core::season::{Hemisphere, Warmth};
use velamen_core::task::TaskKind;
use velamen_core::task::derive::{self, Task};
use velamen_core::view::round::{self, Row, RowState};
use velamen_tests::Phone;

/// A nursery with one house, on a day.
pub(crate) fn nursery(hemisphere: Hemisphere, warmth: Warmth, today: &str) -> (Phone, PlaceId) {
    let mut phone = Phone::new(7, today);
    phone.open_book(hemisphere);
    let bench = phone.place("The house", warmth);
    (phone, bench)
}

pub(crate) fn tasks(phone: &Phone, lot: LotId, kind: TaskKind) -> Vec<Task> {
    let all = derive::of_lot(phone.state.facts(), lot);
    all.into_iter().filter(|task| task.kind == kind).collect()
}

/// The one open task of a kind.
#[track_caller]
pub(crate) fn task(phone: &Phone, lot: LotId, kind: TaskKind) -> Task {
    let mut open = tasks(phone, lot, kind);
    assert_eq!(open.len(), 1, "{kind:?}: {open:?}");
    open.remove(0)
}

pub(crate) fn due(phone: &Phone, lot: LotId, kind: TaskKind) -> Option<NaiveDate> {
    let open = tasks(phone, lot, kind);
    assert!(open.len() <= 1, "{kind:?}: {open:?}");
    open.first().map(|task| task.due_on)
}

/// Rows of a kind in the Round of that day.
pub(crate) fn rows(phone: &mut Phone, on: &str, kind: TaskKind) -> Vec<Row> {
    phone.on(on);
    let view = round::round(&phone.state, phone.today);
    let rows = view.stops.into_iter().flat_map(|stop| stop.rows);
    rows.filter(|row| row.kind == kind).collect()
}

/// How the one row of a kind stands on a day; `None` when it is not shown.
#[track_caller]
pub(crate) fn stands(phone: &mut Phone, on: &str, kind: TaskKind) -> Option<RowState> {
    let rows = rows(phone, on, kind);
    assert!(rows.len() <= 1, "{kind:?}: {rows:?}");
    rows.first().map(|row| row.state)
}

pub(crate) fn decide(phone: &mut Phone, tasks: Vec<Task>, answer: TaskAnswer) {
    let why = String::new();
    phone.act(Command::DecideTasks { tasks, answer, why });
}

pub(crate) fn done(phone: &mut Phone, task: Task, outcome: Option<Outcome>) {
    decide(phone, vec![task], TaskAnswer::Done { outcome });
}

pub(crate) fn repot(phone: &mut Phone, lot: LotId) {
    let stands = u32::try_from(phone.state.facts().lots[&lot].plants).unwrap();
    phone.act(Command::RepotLot {
        lot,
        stands,
        potting: Potting::default(),
        class: None,
    });
}

pub(crate) fn pieces(class: PieceClass, plants: i32) -> CountedPieces {
    CountedPieces {
        class,
        plants,
        bulbs: None,
    }
}

pub(crate) fn batch(class: PieceClass, plants: u32, place: PlaceId) -> Batch {
    Batch {
        class,
        code: None,
        name: None,
        plants,
        stands: plants,
        with: None,
        potting: Potting::default(),
        place: Some(place),
    }
}

pub(crate) fn close(phone: &mut Phone, clump: ClumpId, how: ClosedHow) {
    phone.act(Command::CloseDivision {
        clump,
        how,
        dirty_pots: 1,
        note: String::new(),
    });
}

/// Cuts a whole lot into pieces of some classes and pots them; the new lots in that order.
pub(crate) fn divide(
    phone: &mut Phone,
    lot: LotId,
    into: &[(PieceClass, u32)],
    bench: PlaceId,
) -> Vec<LotId> {
    let clump = phone.open_clump(&[lot]);
    let taken = into
        .iter()
        .map(|(class, plants)| pieces(*class, i32::try_from(*plants).unwrap()));
    phone.act(Command::TakePieces {
        clump,
        pieces: taken.collect(),
    });
    let batches = into
        .iter()
        .map(|(class, plants)| batch(*class, *plants, bench));
    let potted = phone.act(Command::PotPieces {
        clump,
        batches: batches.collect(),
    });
    close(phone, clump, ClosedHow::Done);
    potted
        .events
        .iter()
        .map(|event| match event {
            Event::PiecesPotted(event) => event.lot,
            other => panic!("{other:?}"),
        })
        .collect()
}
