//! What is due: computed from anchors, protocols and decisions whenever it is asked for.
//!
//! Rules. An occurrence is (anchor, step, repeat). A part split off a lot shares the anchors and the decisions of the
//! lot up to the split. An emptied lot has no tasks. An edited protocol never makes or moves an occurrence to before
//! the day of the edit, and opens none whose window had closed by then. A step marked `until_next` is closed by the
//! next event of its kind; whatever pots the plants anew closes all older plans for the next repot. A season moves a
//! task into a window; it never blocks one, and it is not waited for when the mix would be past its life by then. The
//! weather of the house moves a task by days, by what was read before it could first be due.

use std::collections::BTreeMap;

use chrono::NaiveDate;

use crate::event::{TaskAnswer, TaskKey};
use crate::id::{LotId, NoteTaskId, PlaceId, ProtocolId, Subject};
use crate::reference::taxa::{self, Group, GroupRow, Strength};
use crate::season::{Window, add_months, snap};
use crate::state::{Anchor, Born, Decision, Facts, Lot, NoteTask, ProtocolFacts};
use crate::time::plus_days;

use super::generation::{self, GenerationDay};
use super::line::{Before, line};
use super::weather::{self, WeatherMove};
use super::{SeasonRule, Step, TaskKind, Timing, Trigger, looks, windows};

/// One open occurrence.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Task {
    pub key: TaskKey,
    pub kind: TaskKind,
    /// The lot it is for; `None` for the grower's own tasks without one.
    pub lot: Option<LotId>,
    pub note_task: Option<NoteTaskId>,
    pub place: Option<PlaceId>,
    pub due_on: NaiveDate,
    /// Not before, and late after.
    pub from_on: NaiveDate,
    pub until_on: NaiveDate,
    pub anchor_on: NaiveDate,
    pub trigger: Option<Trigger>,
    pub protocol: Option<ProtocolId>,
    pub revision: u16,
    pub priority: u8,
    pub minutes_tenths: u16,
    /// Put off by the grower, moved into a window by the season.
    pub put_off: bool,
    pub moved_by_season: bool,
    /// Moved by the weather of the house.
    pub weather: Option<WeatherMove>,
    /// Its window is not waited for: the mix would be past its life by then.
    pub mix_spent: bool,
    /// A look for a pest's next generation, and what its day rests on.
    pub generation: Option<GenerationDay>,
}

/// The group row of a lot, by its name.
#[must_use]
pub fn group_row(lot: &Lot) -> &'static GroupRow {
    taxa::row(lot.group.unwrap_or(Group::Other))
}

/// Repot windows that hold for a lot here, whoever says so.
#[must_use]
pub fn repot_windows(facts: &Facts, lot: &Lot) -> Vec<Window> {
    windows::repot(facts, lot).windows
}

/// Flowering windows that hold for a lot here, whoever says so.
#[must_use]
pub fn flowering_windows(facts: &Facts, lot: &Lot) -> Vec<Window> {
    windows::flowering(facts, lot).windows
}

/// Whether a lot gets the light strength of protocols.
#[must_use]
pub fn is_light(facts: &Facts, lot: &Lot) -> bool {
    let row = group_row(lot);
    let own = facts
        .book
        .groups
        .get(&row.group)
        .and_then(|known| known.light.get().copied());
    own.unwrap_or(row.strength == Strength::Light)
}

/// Whether the lot of this work was treated after the day it goes back to.
#[must_use]
pub fn treated_since(facts: &Facts, task: &Task) -> bool {
    let lot = task.lot.and_then(|id| facts.lots.get(&id));
    lot.is_some_and(|lot| {
        let mut anchors = lot.anchors.iter();
        anchors.any(|anchor| anchor.trigger == Trigger::Treated && anchor.on > task.anchor_on)
    })
}

/// Open tasks of a lot, in no particular order.
#[must_use]
pub fn of_lot(facts: &Facts, id: LotId) -> Vec<Task> {
    let mut tasks = of_lot_under(facts, &facts.protocols, id);
    tasks.extend(super::apart::of_lot(facts, id));
    tasks
}

/// The same, as if these were the protocols of the book.
pub(crate) fn of_lot_under(
    facts: &Facts,
    protocols: &BTreeMap<ProtocolId, ProtocolFacts>,
    id: LotId,
) -> Vec<Task> {
    let Some(lot) = facts
        .lots
        .get(&id)
        .filter(|lot| lot.born.is_some() && lot.plants > 0)
    else {
        return Vec::new();
    };
    let line = SplitLine::of(facts, id);
    let at_the_bench = line.at_the_bench(facts);
    let mut anchors = line.anchors();
    anchors.extend(&at_the_bench);
    anchors.sort_by_key(|anchor| (anchor.on, anchor.order, anchor.event));
    let view = LotView {
        facts,
        id,
        lot,
        cut_from_rot: line.cut_from_rot(facts),
        line,
        light: is_light(facts, lot),
    };
    let mut tasks = Vec::new();
    for (at, anchor) in anchors.iter().enumerate() {
        let later = anchors.get(at + 1..).unwrap_or_default();
        for (protocol, revisions) in protocols {
            for planned in view.planned(revisions, anchor) {
                let closed = planned.step.until_next
                    && later
                        .iter()
                        .any(|next| closes(anchor.trigger, next.trigger));
                if !closed {
                    tasks.extend(view.open(*protocol, anchor, &planned));
                }
            }
        }
    }
    tasks
}

/// Whether a later event ends the `until_next` steps of an earlier one.
fn closes(earlier: Trigger, later: Trigger) -> bool {
    earlier == later
        || later.is_potting() && (earlier.is_potting() || earlier == Trigger::WantsBench)
}

/// A lot with the lots it was split from, each up to the place where the part left.
struct SplitLine<'a> {
    lots: Vec<Before<'a>>,
}

impl<'a> SplitLine<'a> {
    fn of(facts: &'a Facts, id: LotId) -> Self {
        Self {
            lots: line(facts, id),
        }
    }

    /// Treatments of the pieces a lot was potted from: they had no lot then, and the look at the result is due all the
    /// same. Such an anchor stands where the lot began, under its treatment's number in the entry.
    fn at_the_bench(&self, facts: &Facts) -> Vec<Anchor> {
        let mut anchors = Vec::new();
        for (_, lot, _) in &self.lots {
            let Some(Born::Potted { clump, .. }) = &lot.born else {
                continue;
            };
            let began = lot
                .anchors
                .iter()
                .find(|anchor| anchor.trigger == Trigger::Divided);
            let (Some(clump), Some(began)) = (facts.clumps.get(clump), began) else {
                continue;
            };
            for (id, class, _) in &clump.treated {
                if lot.class == Some(*class)
                    && let Some(treatment) = facts.treatments.get(id)
                {
                    anchors.push(Anchor {
                        entry: treatment.entry,
                        order: began.order,
                        event: id.0.n,
                        trigger: Trigger::Treated,
                        on: treatment.on,
                    });
                }
            }
        }
        anchors
    }

    fn cut_from_rot(&self, facts: &Facts) -> bool {
        let mut lots = self.lots.iter();
        lots.any(|(_, lot, _)| looks::cut_from_rot(facts, lot))
    }

    fn anchors(&self) -> Vec<&'a Anchor> {
        let mut anchors: Vec<&Anchor> = Vec::new();
        for (_, lot, limit) in &self.lots {
            anchors.extend(
                lot.anchors
                    .iter()
                    .filter(|anchor| limit.is_none_or(|limit| anchor.order < limit)),
            );
        }
        anchors.sort_by_key(|anchor| (anchor.on, anchor.order, anchor.event));
        anchors
    }

    /// What was decided about an occurrence, by this lot or by the whole before it was split.
    fn decision(&self, key: &TaskKey) -> Option<&'a Decision> {
        self.lots.iter().find_map(|(id, lot, limit)| {
            let key = TaskKey {
                subject: Subject::Lot(*id),
                ..key.clone()
            };
            let decided = lot.decisions.get(&key)?;
            let held = |decision: &&Decision| limit.is_none_or(|limit| decision.order < limit);
            decided.iter().rev().find(held)
        })
    }
}

/// A step as it stands for one anchor after all revisions.
struct Planned<'a> {
    step: &'a Step,
    timing: Timing,
    revision: u16,
    /// Nothing is due before this day: the day of the edit that opened or moved it.
    not_before: Option<NaiveDate>,
}

struct LotView<'a> {
    facts: &'a Facts,
    id: LotId,
    lot: &'a Lot,
    line: SplitLine<'a>,
    light: bool,
    /// Rot was on what it was cut from: a tough plant is kept dry and looked at as any other then.
    cut_from_rot: bool,
}

impl<'a> LotView<'a> {
    /// Steps of a protocol for an anchor: the revision in force when it happened, then each edit since.
    fn planned(&self, protocol: &'a ProtocolFacts, anchor: &Anchor) -> Vec<Planned<'a>> {
        let mut planned: Vec<Planned<'a>> = Vec::new();
        let in_force = protocol
            .revisions
            .iter()
            .rposition(|revision| revision.order < anchor.order);
        for (at, revision) in protocol
            .revisions
            .iter()
            .enumerate()
            .skip(in_force.unwrap_or(0))
        {
            let edited_on = (in_force != Some(at)).then_some(revision.on);
            let steps = if revision.content.trigger == anchor.trigger {
                &revision.content.steps[..]
            } else {
                &[]
            };
            let mut next = Vec::new();
            for step in steps.iter().filter(|step| !step.off && self.is_for(step)) {
                let of_rot = matches!(step.kind, TaskKind::RotCheck | TaskKind::FirstWater);
                let full = self.cut_from_rot && of_rot && !self.is_past(step, steps, anchor);
                let light = self.light && !full;
                let Some(timing) = step.timing(light) else {
                    continue;
                };
                let before = planned.iter().find(|before| before.step.key == step.key);
                let not_before = match (before, edited_on) {
                    (Some(before), _) if before.timing == timing => before.not_before,
                    (Some(_), edited_on) => edited_on,
                    (None, Some(edited_on)) => {
                        if plus_days(anchor.on, i64::from(timing.until_days)) < edited_on {
                            continue;
                        }
                        Some(edited_on)
                    }
                    (None, None) => None,
                };
                next.push(Planned {
                    step,
                    timing,
                    revision: revision.revision,
                    not_before,
                });
            }
            planned = next;
        }
        planned
    }

    /// Whether a later step of the same anchor was decided already: what was left out until now comes no more.
    fn is_past(&self, step: &Step, steps: &[Step], anchor: &Anchor) -> bool {
        let later = |other: &&Step| other.when.due_days > step.when.until_days;
        steps.iter().filter(later).any(|other| {
            let key = TaskKey {
                anchor: anchor.entry,
                event: anchor.event,
                subject: Subject::Lot(self.id),
                step: other.key.clone(),
                repeat: 0,
            };
            self.line.decision(&key).is_some()
        })
    }

    fn is_for(&self, step: &Step) -> bool {
        let classes = &step.only.classes;
        let class =
            classes.is_empty() || self.lot.class.is_some_and(|class| classes.contains(&class));
        let row = group_row(self.lot);
        let (habits, warmths) = (&step.only.habits, &step.only.warmths);
        class
            && (habits.is_empty() || habits.contains(&row.habit))
            && (warmths.is_empty() || warmths.contains(&row.warmth))
    }

    /// The first occurrence of a planned step that is not decided yet.
    fn open(&self, protocol: ProtocolId, anchor: &Anchor, planned: &Planned<'_>) -> Option<Task> {
        let step = planned.step;
        let key = |step: &str, repeat| TaskKey {
            anchor: anchor.entry,
            event: anchor.event,
            subject: Subject::Lot(self.id),
            step: step.to_owned(),
            repeat,
        };
        if let Some(after) = &step.only.after {
            let decision = self.line.decision(&key(&after.step, 0))?;
            if decision.outcome() != Some(after.outcome) {
                return None;
            }
        }
        let mut decided_on: Option<NaiveDate> = None;
        for repeat in 0..=repeats(step, planned.timing) {
            let Some(due) = self.due(anchor, planned, repeat) else {
                continue;
            };
            let due_on = due.on;
            let key = key(&step.key, repeat);
            let put_off = match self
                .line
                .decision(&key)
                .map(|decision| (decision.answer, decision.on))
            {
                Some((TaskAnswer::Done { .. } | TaskAnswer::NotNeeded, on)) => {
                    decided_on = decided_on.max(Some(on));
                    continue;
                }
                Some((TaskAnswer::PutOff { to }, _)) => Some(to),
                None => None,
            };
            // Looked at late: the looks that fell due meanwhile are looked at too.
            if put_off.is_none() && decided_on.is_some_and(|on| due_on <= on) {
                continue;
            }
            let due_on = put_off.unwrap_or(due_on);
            let width = |days: i32| i64::from(days) - i64::from(planned.timing.due_days);
            let from_on = plus_days(due_on, width(planned.timing.from_days));
            return Some(Task {
                key,
                kind: step.kind,
                lot: Some(self.id),
                note_task: None,
                place: self.lot.place.get().copied(),
                due_on,
                from_on: if put_off.is_some() {
                    due_on
                } else {
                    from_on.max(anchor.on)
                },
                until_on: plus_days(due_on, width(planned.timing.until_days)),
                anchor_on: anchor.on,
                trigger: Some(anchor.trigger),
                protocol: Some(protocol),
                revision: planned.revision,
                priority: step.priority,
                minutes_tenths: step.minutes_tenths,
                put_off: put_off.is_some(),
                moved_by_season: due.by_season,
                weather: due.weather.filter(|_| put_off.is_none()),
                mix_spent: due.mix_spent,
                generation: None,
            });
        }
        None
    }

    /// When an occurrence is due; `None` where the weather there was is not the step's.
    fn due(&self, anchor: &Anchor, planned: &Planned<'_>, repeat: u16) -> Option<Due> {
        let step = planned.step;
        let every = step.repeat.map_or(0, |repeat| i64::from(repeat.every_days));
        let days = i64::from(planned.timing.due_days)
            .saturating_add(every.saturating_mul(i64::from(repeat)));
        let plain = plus_days(anchor.on, days);
        let house = self.lot.place.get();
        let house = house.and_then(|place| self.facts.places.get(place));
        let readings = house.map(|place| &place.house.readings);
        if !weather::is_for(readings, step, anchor.on, plain) {
            return None;
        }
        let moved = readings.and_then(|readings| weather::shift(readings, step, anchor.on, plain));
        let earliest = anchor.on.min(plain);
        let on = moved.map_or(plain, |moved| {
            plus_days(plain, i64::from(moved.days)).max(earliest)
        });
        let on = planned.not_before.map_or(on, |first| on.max(first));
        let stays = Due {
            on,
            by_season: false,
            weather: moved,
            mix_spent: false,
        };
        Some(match step.season {
            SeasonRule::None => stays,
            SeasonRule::IntoRepotWindow => {
                let snapped = snap(stays.on, &windows::repot(self.facts, self.lot).windows);
                let spent = snapped.moved
                    && mix_spent_on(self.lot).is_some_and(|spent_on| snapped.date > spent_on);
                if spent {
                    Due {
                        mix_spent: true,
                        ..stays
                    }
                } else {
                    Due {
                        on: snapped.date,
                        by_season: snapped.moved,
                        ..stays
                    }
                }
            }
            SeasonRule::AfterRest => {
                let rest = windows::rest(self.facts, self.lot).windows;
                let closes = rest.iter().filter_map(|window| window.closes_on(stays.on));
                match closes.max() {
                    Some(last) => Due {
                        on: plus_days(last, 1),
                        by_season: true,
                        ..stays
                    },
                    None => stays,
                }
            }
        })
    }
}

/// When an occurrence is due, and what moved it.
struct Due {
    on: NaiveDate,
    by_season: bool,
    weather: Option<WeatherMove>,
    mix_spent: bool,
}

/// Hundredths of a mix's life after which its window is not waited for. Common practice, no source.
const MIX_LIFE_PERCENT: i32 = 130;

/// The day after which a lot's mix is past bearing: a third beyond the life of the mix it stands in, or of the usual one.
fn mix_spent_on(lot: &Lot) -> Option<NaiveDate> {
    let potted = lot.potted.as_ref()?;
    let months = match potted.potting.mix_life_months {
        0 => u16::from(group_row(lot).media_life_months.1),
        months => months,
    };
    let months = i32::from(months).saturating_mul(MIX_LIFE_PERCENT) / 100;
    (months > 0)
        .then(|| add_months(potted.on, months))
        .flatten()
}

/// Number of the last repeat of a step, 0 when it does not repeat.
fn repeats(step: &Step, timing: Timing) -> u16 {
    let Some(repeat) = step.repeat.filter(|repeat| repeat.every_days > 0) else {
        return 0;
    };
    let days = repeat.until_days.saturating_sub(timing.due_days).max(0);
    u16::try_from(days / i32::from(repeat.every_days)).unwrap_or(u16::MAX)
}

/// The open occurrence of a task of the grower's own.
#[must_use]
pub fn of_note(facts: &Facts, id: NoteTaskId, task: &NoteTask) -> Option<Task> {
    let (first, noted) = task.noted.as_ref()?;
    let lot = noted.lot.and_then(|lot| facts.lots.get(&lot));
    if lot.is_some_and(|lot| !lot.is_stocked()) {
        return None;
    }
    let generation = noted.generation.and_then(|look| {
        let finding = facts.findings.get(&look.finding)?;
        let house = generation::house_of(facts, finding, noted.lot);
        generation::look(facts, finding, house, look.nth)
    });
    let first_on = generation.map_or(noted.due_on, |day| day.on);
    let mut decided_on: Option<NaiveDate> = None;
    let every = noted.repeat_days.filter(|days| *days > 0);
    let mut repeat: u16 = 0;
    loop {
        let key = TaskKey {
            anchor: *first,
            event: 0,
            subject: Subject::NoteTask(id),
            step: "own".to_owned(),
            repeat,
        };
        let days = i64::from(every.unwrap_or(0)).saturating_mul(i64::from(repeat));
        let planned_on = plus_days(first_on, days);
        let answer = task
            .decisions
            .get(&key)
            .and_then(|decided| decided.last())
            .map(|decision| (decision.answer, decision.on));
        let due_on = match answer {
            Some((TaskAnswer::PutOff { to }, _)) => Some(to),
            Some((TaskAnswer::Done { .. } | TaskAnswer::NotNeeded, on)) => {
                decided_on = decided_on.max(Some(on));
                None
            }
            None => decided_on
                .is_none_or(|on| planned_on > on)
                .then_some(planned_on),
        };
        if let Some(due_on) = due_on {
            let is_put_off = matches!(answer, Some((TaskAnswer::PutOff { .. }, _)));
            let width = match generation {
                Some(_) if !is_put_off => generation::WIDTH_DAYS,
                _ => 0,
            };
            return Some(Task {
                key,
                kind: TaskKind::Own,
                lot: noted.lot,
                note_task: Some(id),
                place: noted
                    .place
                    .or_else(|| lot.and_then(|lot| lot.place.get().copied())),
                due_on,
                from_on: plus_days(due_on, -width),
                until_on: plus_days(due_on, width),
                anchor_on: noted.due_on,
                trigger: None,
                protocol: None,
                revision: 0,
                priority: 2,
                minutes_tenths: 0,
                put_off: is_put_off,
                moved_by_season: false,
                weather: None,
                mix_spent: false,
                generation: generation.filter(|_| !is_put_off),
            });
        }
        every?;
        repeat = repeat.checked_add(1)?;
    }
}

/// Every open task of the book.
#[must_use]
pub fn all(facts: &Facts) -> Vec<Task> {
    let lots = facts.lots.keys().flat_map(|id| of_lot(facts, *id));
    let own = facts
        .note_tasks
        .iter()
        .filter_map(|(id, task)| of_note(facts, *id, task));
    lots.chain(own).collect()
}
