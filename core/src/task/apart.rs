//! Work that follows from keeping apart: looks in quarantine, tests, the release, and what a trace asked for.
//!
//! It is derived from stays, not from protocols, so that it is there in every book. An occurrence is named by its stay and
//! decided like any other.

use chrono::NaiveDate;

use crate::event::{TaskAnswer, TaskKey};
use crate::id::{LotId, Subject};
use crate::quarantine::{self, Held, line, matched, progress, tests_of};
use crate::state::{Decision, Facts, Lot};
use crate::time::plus_days;

use super::TaskKind;
use super::derive::Task;

/// Days of a stay on which it is looked at; after the last, every fortnight.
const LOOK_DAYS: [u16; 6] = [7, 14, 21, 28, 45, 60];
const FORTNIGHT: u16 = 14;
/// Looks of one stay at most: some sixteen years.
const LOOKS_MAX: u16 = 400;
const WIDTH_DAYS: i64 = 2;
const TEST_WIDTH_DAYS: i64 = 14;

/// Step keys of this work: fixed, like those of a protocol.
pub const LOOK: &str = "quarantine_look";
pub const TEST: &str = "virus_test";
pub const RELEASE: &str = "release_review";
pub const TRACED: &str = "traced";
pub const TRACED_LOOK: &str = "traced_look";

/// Open work of a lot that follows from its stays and from traces.
#[must_use]
pub fn of_lot(facts: &Facts, id: LotId) -> Vec<Task> {
    let Some(lot) = facts
        .lots
        .get(&id)
        .filter(|lot| lot.born.is_some() && lot.plants > 0)
    else {
        return Vec::new();
    };
    let held = quarantine::held(facts, id);
    let latest = held
        .iter()
        .max_by_key(|held| (held.stay.on, held.stay.order));
    let here = Here { facts, id, lot };
    let mut tasks: Vec<Task> = latest
        .and_then(|held| here.look(held))
        .into_iter()
        .collect();
    tasks.extend(held.iter().filter_map(|held| here.test(held)));
    tasks.extend(here.release(&held));
    tasks.extend(here.traced());
    tasks
}

struct Here<'a> {
    facts: &'a Facts,
    id: LotId,
    lot: &'a Lot,
}

impl Here<'_> {
    fn key(&self, held: &Held<'_>, step: &str, repeat: u16) -> TaskKey {
        TaskKey {
            anchor: held.stay.entry,
            event: held.stay.event,
            subject: Subject::Lot(self.id),
            step: step.to_owned(),
            repeat,
        }
    }

    /// What was decided of an occurrence, here or by the whole before the split.
    fn decision(&self, key: &TaskKey) -> Option<&Decision> {
        let line = line(self.facts, self.id);
        line.into_iter().find_map(|(id, lot, until)| {
            let key = TaskKey {
                subject: Subject::Lot(id),
                ..key.clone()
            };
            let decided = lot.decisions.get(&key)?.iter().rev();
            let held = |decision: &&Decision| until.is_none_or(|until| decision.order <= until);
            decided.into_iter().find(held)
        })
    }

    fn task(&self, key: TaskKey, kind: TaskKind, due_on: NaiveDate, since_on: NaiveDate) -> Task {
        let put_off = match self.decision(&key).map(|decision| decision.answer) {
            Some(TaskAnswer::PutOff { to }) => Some(to),
            _ => None,
        };
        let due_on = put_off.unwrap_or(due_on);
        let width = match kind {
            TaskKind::VirusTest => (0, TEST_WIDTH_DAYS),
            TaskKind::QuarantineLook => (WIDTH_DAYS, WIDTH_DAYS),
            _ => (0, WIDTH_DAYS),
        };
        Task {
            key,
            kind,
            lot: Some(self.id),
            note_task: None,
            place: self.lot.place.get().copied(),
            due_on,
            from_on: plus_days(due_on, -width.0),
            until_on: plus_days(due_on, width.1),
            anchor_on: since_on,
            trigger: None,
            protocol: None,
            revision: 0,
            priority: 1,
            minutes_tenths: 5,
            put_off: put_off.is_some(),
            moved_by_season: false,
            weather: None,
            mix_spent: false,
            generation: None,
        }
    }

    fn is_over(&self, key: &TaskKey) -> Option<NaiveDate> {
        let decision = self.decision(key)?;
        match decision.answer {
            TaskAnswer::Done { .. } | TaskAnswer::NotNeeded => Some(decision.on),
            TaskAnswer::PutOff { .. } => None,
        }
    }

    /// The next look at a lot in quarantine. Looked at late, the looks that fell due meanwhile are behind it too.
    fn look(&self, held: &Held<'_>) -> Option<Task> {
        let mut looked_on: Option<NaiveDate> = None;
        for repeat in 0..LOOKS_MAX {
            let key = self.key(held, LOOK, repeat);
            if let Some(on) = self.is_over(&key) {
                looked_on = looked_on.max(Some(on));
                continue;
            }
            let due_on = plus_days(held.stay.on, i64::from(look_day(repeat)));
            let task = self.task(key, TaskKind::QuarantineLook, due_on, held.stay.on);
            if task.put_off || looked_on.is_none_or(|on| task.due_on > on) {
                return Some(task);
            }
        }
        None
    }

    /// The next test a stay waits for.
    fn test(&self, held: &Held<'_>) -> Option<Task> {
        let line = line(self.facts, self.id);
        let days = &held.stay.terms.test_days;
        let met = matched(&tests_of(&line), held.stay.on, days);
        let (repeat, day) = (0u16..)
            .zip(days)
            .skip(met)
            .find(|(repeat, _)| self.is_over(&self.key(held, TEST, *repeat)).is_none())?;
        let due_on = plus_days(held.stay.on, i64::from(*day));
        let key = self.key(held, TEST, repeat);
        Some(self.task(key, TaskKind::VirusTest, due_on, held.stay.on))
    }

    /// Once every stay waits for nothing but days, the day it may come out.
    fn release(&self, held: &[Held<'_>]) -> Option<Task> {
        let last = held.iter().max_by_key(|held| held.stay.terms.until_on)?;
        let ready = held
            .iter()
            .all(|held| progress(self.facts, self.id, held.stay, held.stay.on).all_but_days());
        let key = self.key(last, RELEASE, 0);
        if !ready || self.is_over(&key).is_some() {
            return None;
        }
        let due_on = last.stay.terms.until_on.unwrap_or(last.stay.on);
        Some(self.task(key, TaskKind::ReleaseReview, due_on, last.stay.on))
    }

    /// Tests and looks a trace asked for, until they were made.
    fn traced(&self) -> Vec<Task> {
        let mut tasks = Vec::new();
        for (key, decided) in &self.lot.decisions {
            if key.step != TRACED && key.step != TRACED_LOOK {
                continue;
            }
            let Some(last) = decided.last() else { continue };
            let TaskAnswer::PutOff { to } = last.answer else {
                continue;
            };
            let tested = last.kind == TaskKind::VirusTest
                && self.lot.apart.tests.iter().any(|tested| tested.on >= to);
            if !tested {
                let asked_on = decided.first().map_or(last.on, |first| first.on);
                let mut task = self.task(key.clone(), last.kind, to, asked_on);
                task.put_off = decided.len() > 1;
                tasks.push(task);
            }
        }
        tasks
    }
}

/// Day of a stay on which a look is due.
fn look_day(repeat: u16) -> u16 {
    let beyond = |at: usize| {
        let last = LOOK_DAYS.last().copied().unwrap_or(0);
        let more = u16::try_from(at + 1 - LOOK_DAYS.len()).unwrap_or(u16::MAX);
        last.saturating_add(more.saturating_mul(FORTNIGHT))
    };
    let at = usize::from(repeat);
    LOOK_DAYS.get(at).copied().unwrap_or_else(|| beyond(at))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn after_the_sixtieth_day_it_is_looked_at_every_fortnight() {
        let days: Vec<u16> = (4..9).map(look_day).collect();
        assert_eq!(days, [45, 60, 74, 88, 102]);
    }
}
