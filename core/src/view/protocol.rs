//! What an edit of a protocol would do to open work, before it is recorded.
//!
//! Invariants: the same rules as [`derive`] itself, with the edit as one more revision of today. Nothing is recorded,
//! and what was decided already never appears.

use std::collections::{BTreeMap, BTreeSet};

use chrono::NaiveDate;

use crate::event::TaskKey;
use crate::id::{EntryRef, ProtocolId};
use crate::season::snap;
use crate::state::{Lot, ProtocolFacts, Revision, State};
use crate::task::{KINDS, Protocol, SeasonRule, Step, TaskKind, Trigger, derive, windows};
use crate::time::{Moment, plus_days};

use super::year::{Year, YearMark};
use super::{LotLabel, lot_label};

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

/// Work a step of the grower's own may ask for: what is done on the walk or at the bench, and not what follows from
/// keeping apart.
#[must_use]
pub fn kinds_for_steps() -> Vec<TaskKind> {
    let kinds = KINDS.iter().map(|row| row.kind);
    kinds
        .filter(|kind| {
            let apart = matches!(
                kind,
                TaskKind::QuarantineLook | TaskKind::VirusTest | TaskKind::ReleaseReview
            );
            !apart && *kind != TaskKind::Own
        })
        .collect()
}

/// A step to begin with, due after a week, under a name that no step of this protocol ever had.
#[must_use]
pub fn fresh_step(state: &State, protocol: ProtocolId, content: &Protocol, kind: TaskKind) -> Step {
    let known = state.facts().protocols.get(&protocol);
    let revisions = known.into_iter().flat_map(|known| &known.revisions);
    let before = revisions.flat_map(|revision| &revision.content.steps);
    let taken: BTreeSet<&str> = before
        .chain(&content.steps)
        .map(|step| step.key.as_str())
        .collect();
    let key = (1u32..)
        .map(|number| format!("own_{number}"))
        .find(|key| !taken.contains(key.as_str()))
        .unwrap_or_default();
    Step::plain(key, kind)
}

/// The steps of a protocol on the year, as if its event were today, and the lot whose seasons were taken.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Preview {
    pub year: Year,
    /// The lot with the most plants; `None` in a book without any, where no season moves anything.
    pub seasons_of: Option<LotLabel>,
    /// Steps due after the twelve months shown.
    pub later: usize,
}

/// What a protocol would look like on the year from today.
#[must_use]
pub fn preview(state: &State, at: &Moment, content: &Protocol) -> Preview {
    let facts = state.facts();
    let most = facts.live_lots().max_by_key(|(id, lot)| (lot.plants, *id));
    let mut year = Year::from(at.today);
    let mut later = 0;
    let mut steps: Vec<&Step> = content.steps.iter().filter(|step| !step.off).collect();
    steps.sort_by_key(|step| (step.when.due_days, step.priority));
    for step in steps {
        let plain = plus_days(at.today, i64::from(step.when.due_days));
        let due_on = match (most, step.season) {
            (Some((_, lot)), SeasonRule::IntoRepotWindow) => {
                snap(plain, &windows::repot(facts, lot).windows).date
            }
            (Some((_, lot)), SeasonRule::AfterRest) => {
                let rest = windows::rest(facts, lot).windows;
                let closes = rest.iter().filter_map(|window| window.closes_on(plain));
                closes.max().map_or(plain, |last| plus_days(last, 1))
            }
            _ => plain,
        };
        if !year.put(YearMark::Work(step.kind), due_on, due_on) {
            later += 1;
        }
    }
    Preview {
        year,
        seasons_of: most.map(|(id, _)| lot_label(facts, id)),
        later,
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
