//! Which open work goes into a calendar: as on the Round, one line for the work of one event, place and day.

use std::collections::BTreeMap;

use chrono::NaiveDate;

use crate::id::{LotId, NoteTaskId, PlaceId};
use crate::state::State;
use crate::task::derive::Task;
use crate::task::{TaskKind, Trigger};
use crate::time::plus_days;
use crate::view::{LotLabel, PlaceLabel, lot_label, place_label};

use super::uid;

/// Days ahead that go into a calendar: a quarter.
const AHEAD_DAYS: i64 = 92;
/// Lines in one file.
const LINES_MAX: usize = 500;

/// Work of one kind, one event, one place and one day.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct OpenWork {
    pub uid: String,
    /// The day it is due; today where that is past.
    pub on: NaiveDate,
    pub kind: TaskKind,
    /// The grower's own words, for own tasks.
    pub text: String,
    pub place: Option<PlaceLabel>,
    pub lots: Vec<LotLabel>,
}

#[derive(PartialEq, Eq, PartialOrd, Ord)]
struct Same {
    place: Option<PlaceId>,
    kind: TaskKind,
    anchor_on: NaiveDate,
    trigger: Option<Trigger>,
    own: Option<NoteTaskId>,
}

/// Open work of the coming quarter by day, what is late among today's.
#[must_use]
pub fn open_work(state: &State, today: NaiveDate) -> Vec<OpenWork> {
    let facts = state.facts();
    let Some(book) = facts.book.book else {
        return Vec::new();
    };
    let last = plus_days(today, AHEAD_DAYS);
    let mut events: BTreeMap<Same, BTreeMap<NaiveDate, Vec<Task>>> = BTreeMap::new();
    state.each_task(|task| {
        if task.due_on > last {
            return;
        }
        let same = Same {
            place: task.place,
            kind: task.kind,
            anchor_on: task.anchor_on,
            trigger: task.trigger,
            own: task.note_task,
        };
        let days = events.entry(same).or_default();
        days.entry(task.due_on).or_default().push(task.clone());
    });
    let mut rows = Vec::new();
    for (same, days) in events {
        let place = same
            .place
            .map(|place| place.to_string())
            .unwrap_or_default();
        let own = same.own.map(|own| own.to_string()).unwrap_or_default();
        let what = format!("{:?} {:?} {}", same.kind, same.trigger, same.anchor_on);
        // A part that was put off keeps a line of its own, named after its place in the order of days.
        for (nth, (due_on, tasks)) in days.into_iter().enumerate() {
            let lots: Vec<LotId> = tasks.iter().filter_map(|task| task.lot).collect();
            let text = same
                .own
                .and_then(|id| facts.note_tasks.get(&id)?.noted.as_ref())
                .map(|(_, noted)| noted.text.clone());
            rows.push(OpenWork {
                uid: uid(book, &[&place, &own, &what, &nth.to_string()]),
                on: due_on.max(today),
                kind: same.kind,
                text: text.unwrap_or_default(),
                place: same.place.and_then(|place| place_label(facts, place)),
                lots: lots.into_iter().map(|lot| lot_label(facts, lot)).collect(),
            });
        }
    }
    rows.sort_by(|a, b| (a.on, a.kind, &a.uid).cmp(&(b.on, b.kind, &b.uid)));
    rows.truncate(LINES_MAX);
    rows
}
