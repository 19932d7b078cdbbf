//! What an edit of a protocol would do to open work, before it is recorded.
//!
//! Invariants: the same rules as [`derive`] itself, with the edit as one more revision of today. Nothing is recorded,
//! and what was decided already never appears.

use std::collections::{BTreeMap, BTreeSet};

use chrono::NaiveDate;

use crate::event::TaskKey;
use crate::id::{EntryRef, ProtocolId};
use crate::state::{Lot, ProtocolFacts, Revision, State};
use crate::task::{Protocol, Trigger, derive};
use crate::time::Moment;

/// What an edit would do to open occurrences.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct EditEffect {
    /// Due on another day than now.
    pub moved: usize,
    /// Open only with the edit.
    pub opened: usize,
    /// Open now, and no longer with the edit.
    pub dropped: usize,
}

impl EditEffect {
    /// Whether open work stays just as it is.
    #[must_use]
    pub fn is_nothing(self) -> bool {
        self == Self::default()
    }
}

/// The day of every open occurrence of a protocol as it stands. It depends on the book alone, so that one look at it
/// serves every step of an edit.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct OpenWork(BTreeMap<TaskKey, NaiveDate>);

/// The open work of one protocol.
#[must_use]
pub fn open_work(state: &State, protocol: ProtocolId) -> OpenWork {
    let known = state.facts().protocols.get(&protocol);
    OpenWork(known.map_or_else(BTreeMap::new, |known| {
        due_days(state, protocol, known.clone())
    }))
}

/// What keeping `content` as the next revision of a protocol would do today.
#[must_use]
pub fn edit_effect(
    state: &State,
    at: &Moment,
    protocol: ProtocolId,
    open: &OpenWork,
    content: &Protocol,
) -> EditEffect {
    let Some(known) = state.facts().protocols.get(&protocol) else {
        return EditEffect::default();
    };
    let mut edited = known.clone();
    edited.revisions.push(Revision {
        revision: known
            .current()
            .map_or(1, |current| current.revision.saturating_add(1)),
        on: at.today,
        entry: EntryRef {
            dev: at.dev,
            seq: 0,
        },
        order: state.log().latest().next(at.now_ms),
        content: content.clone(),
    });
    let now = &open.0;
    let then = due_days(state, protocol, edited);
    let moved = then
        .iter()
        .filter(|(key, due_on)| now.get(key).is_some_and(|before| before != *due_on));
    EditEffect {
        moved: moved.count(),
        opened: then.keys().filter(|key| !now.contains_key(key)).count(),
        dropped: now.keys().filter(|key| !then.contains_key(key)).count(),
    }
}

/// The day of every open occurrence of one protocol.
fn due_days(
    state: &State,
    id: ProtocolId,
    protocol: ProtocolFacts,
) -> BTreeMap<TaskKey, NaiveDate> {
    let facts = state.facts();
    // A lot that nothing of the kind ever happened to, and that was split from none, has no work under it.
    let triggers: BTreeSet<Trigger> = protocol
        .revisions
        .iter()
        .map(|revision| revision.content.trigger)
        .collect();
    let only = BTreeMap::from([(id, protocol)]);
    let may_have_work = |lot: &Lot| {
        let anchors = lot.anchors.iter();
        lot.split_from().is_some()
            || anchors
                .map(|anchor| anchor.trigger)
                .any(|it| triggers.contains(&it))
    };
    let tasks = facts
        .lots
        .iter()
        .filter(|(_, lot)| may_have_work(lot))
        .flat_map(|(id, _)| derive::of_lot_under(facts, &only, *id));
    tasks.map(|task| (task.key, task.due_on)).collect()
}
