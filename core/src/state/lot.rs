//! The facts of a lot: where it came from, what it is, how many there are, and what sets tasks going.

use std::collections::{BTreeMap, BTreeSet};

use chrono::NaiveDate;
use serde::{Serialize, Serializer};

use crate::code::LotCode;
use crate::event::{
    CutPlan, Event, LotReceived, LotSplit, Outcome, PieceClass, PiecesPotted, Potting, SeenOn,
    Sight, Source, TaskAnswer, TaskKey, TreatedPart,
};
use crate::id::{ClumpId, EntryRef, FindingId, LotId, PlaceId, TreatmentId};
use crate::log::Fact;
use crate::name::PlantName;
use crate::reference::taxa::Group;
use crate::task::{TaskKind, Trigger};
use crate::time::Stamp;

use super::apart::Apart;
use super::field::Field;
use super::reserve::Reserve;
use super::water::Waterings;

/// How a lot began.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub enum Born {
    Received {
        source: Source,
        from: String,
        outside_ref: String,
    },
    /// Potted from a clump with these possible parents.
    Potted {
        clump: ClumpId,
        parents: Vec<LotId>,
        with: Option<LotId>,
    },
    /// Part of another lot, which it shares everything with up to that entry.
    Split { from: LotId },
}

/// When and in what the plants stand.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Potted {
    pub on: NaiveDate,
    pub potting: Potting,
}

/// Something that sets a protocol going.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Anchor {
    pub entry: EntryRef,
    pub order: Stamp,
    pub event: u16,
    pub trigger: Trigger,
    pub on: NaiveDate,
}

/// A change of the balance, kept until the next count.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Change {
    pub entry: EntryRef,
    pub plants: i64,
    pub stands: i64,
}

/// Where a lot came to stand, and when.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Stood {
    pub place: PlaceId,
    pub on: NaiveDate,
    pub order: Stamp,
}

/// A decided occurrence of a task.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Decision {
    pub answer: TaskAnswer,
    pub kind: TaskKind,
    pub due_on: NaiveDate,
    pub on: NaiveDate,
    pub entry: EntryRef,
    pub order: Stamp,
}

impl Decision {
    /// What came of looking, if it was done and said.
    #[must_use]
    pub fn outcome(&self) -> Option<Outcome> {
        match self.answer {
            TaskAnswer::Done { outcome } => outcome,
            TaskAnswer::PutOff { .. } | TaskAnswer::NotNeeded => None,
        }
    }
}

/// A sight of the plant's own course.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct SightSeen {
    pub what: Sight,
    pub on: NaiveDate,
    pub good: Option<u8>,
    pub entry: EntryRef,
}

/// The facts of a lot.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize)]
pub struct Lot {
    /// `None` when the entry that brought it in is missing or withdrawn.
    pub born: Option<Born>,
    pub born_on: Option<NaiveDate>,
    pub code: Field<LotCode>,
    pub name: Field<PlantName>,
    /// The group of its name: looked up once a name instead of once a question.
    #[serde(skip)]
    pub group: Option<Group>,
    pub place: Field<PlaceId>,
    pub class: Option<PieceClass>,
    /// Balance of plants and of the pots or trays they stand in; negative only where phones contradict each other.
    pub plants: i64,
    pub stands: i64,
    /// Plants and pots that went onto the bench with an open clump.
    pub on_bench: BTreeMap<ClumpId, (u32, u32)>,
    pub potted: Option<Potted>,
    pub anchors: Vec<Anchor>,
    /// All decisions about an occurrence, the one in force last: a part keeps the one that held when it left.
    #[serde(serialize_with = "as_list")]
    pub decisions: BTreeMap<TaskKey, Vec<Decision>>,
    pub sights: Vec<SightSeen>,
    pub findings: Vec<FindingId>,
    pub treatments: Vec<TreatmentId>,
    /// Lots potted from clumps this one went into, and parts split off.
    pub children: BTreeSet<LotId>,
    /// With the place in the order where each part left.
    pub parts: BTreeMap<LotId, Stamp>,
    /// The last count and the changes after it, or all changes where nobody counted.
    pub counted: Option<EntryRef>,
    pub changes: Vec<Change>,
    /// Counts and changes that did not know of each other.
    pub crossed: BTreeSet<(EntryRef, EntryRef)>,
    /// Stays in quarantine and tests for viruses.
    #[serde(skip_serializing_if = "Apart::is_empty")]
    pub apart: Apart,
    /// What it got by itself, not with its place.
    #[serde(skip_serializing_if = "Waterings::is_empty")]
    pub waterings: Waterings,
    /// Where it stood, from which place in the order on.
    #[serde(skip)]
    pub stood: Vec<Stood>,
    pub settled: BTreeSet<String>,
    /// What it is meant to become when it next comes to the bench.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub plan: Option<PlannedCut>,
    /// Plants kept for somebody, by the entry that kept them.
    #[serde(skip_serializing_if = "BTreeMap::is_empty")]
    pub reserved: BTreeMap<EntryRef, Reserve>,
}

/// A cut that is planned.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct PlannedCut {
    /// All lots that are cut together.
    pub lots: Vec<LotId>,
    pub plan: CutPlan,
    pub on: NaiveDate,
    pub entry: EntryRef,
}

/// A map whose keys are not texts, as a list of pairs.
pub(super) fn as_list<K: Serialize, V: Serialize, S: Serializer>(
    map: &BTreeMap<K, V>,
    serializer: S,
) -> Result<S::Ok, S::Error> {
    serializer.collect_seq(map)
}

impl Lot {
    /// The lot this one was split from.
    #[must_use]
    pub fn split_from(&self) -> Option<LotId> {
        match self.born {
            Some(Born::Split { from }) => Some(from),
            _ => None,
        }
    }

    /// Possible parents through a clump.
    #[must_use]
    pub fn parents(&self) -> &[LotId] {
        match &self.born {
            Some(Born::Potted { parents, .. }) => parents,
            _ => &[],
        }
    }

    /// Whether there are plants, here or on the bench.
    #[must_use]
    pub fn is_stocked(&self) -> bool {
        self.plants > 0 || !self.on_bench.is_empty()
    }

    pub(super) fn apply(&mut self, id: LotId, fact: &Fact<'_>) {
        match fact.event {
            Event::LotReceived(event) => self.receive(event, fact),
            Event::LotSplit(event) => self.split(id, event, fact),
            Event::PiecesPotted(event) => self.pot(id, event, fact),
            Event::LotNamed(event) => self.call(&event.name, fact),
            Event::LotCoded(event) => self.code.set(&event.code, fact),
            Event::Moved(event) => self.stand_at(Some(event.to), fact),
            Event::Counted(event) => {
                self.count(i64::from(event.plants), i64::from(event.stands), fact)
            }
            Event::Lost(event) => {
                self.change(-i64::from(event.plants), -i64::from(event.stands), fact)
            }
            Event::Sold(event) => {
                self.change(-i64::from(event.plants), -i64::from(event.stands), fact);
                self.let_go(event.reserved, event.plants);
            }
            Event::Reserved(event) => self.keep_for(event, fact),
            Event::Released(event) => self.let_go(Some(event.reserved), event.plants),
            Event::Gained(event) => {
                self.change(i64::from(event.plants), i64::from(event.stands), fact)
            }
            Event::Repotted(event) => {
                let stands = i64::from(event.stands).saturating_sub(self.stands);
                self.change(0, stands, fact);
                self.class = event.class.or(self.class);
                self.stand_in(fact.entry.header.on, &event.potting);
                self.anchor(Trigger::Repotted, fact);
            }
            Event::DivisionPlanned(event) => {
                self.plan = event.plan.as_ref().map(|plan| PlannedCut {
                    lots: event.lots.clone(),
                    plan: plan.clone(),
                    on: fact.entry.header.on,
                    entry: fact.entry.id,
                });
            }
            Event::DivisionOpened(event) => {
                self.plan = None;
                for opened in event.lots.iter().filter(|opened| opened.lot == id) {
                    self.on_bench
                        .insert(event.clump, (opened.plants, opened.stands));
                    self.change(-i64::from(opened.plants), -i64::from(opened.stands), fact);
                }
            }
            Event::DivisionClosed(event) => {
                let back = self.on_bench.remove(&event.clump);
                if let (crate::event::ClosedHow::PutBack, Some((plants, stands))) =
                    (event.how, back)
                {
                    self.change(i64::from(plants), i64::from(stands), fact);
                }
            }
            Event::Treated(event) => {
                let parts = &event.parts;
                if parts
                    .iter()
                    .any(|part| matches!(part, TreatedPart::Lot { lot, .. } if *lot == id))
                {
                    self.treatments.push(event.treatment);
                    self.anchor(Trigger::Treated, fact);
                }
            }
            Event::Found(event) if event.on == SeenOn::Lot(id) => {
                self.findings.push(event.finding);
                self.anchor(Trigger::Found, fact);
            }
            Event::Observed(event) => {
                let on = fact.entry.header.on;
                self.sights.push(SightSeen {
                    what: event.what,
                    on,
                    good: event.good,
                    entry: fact.entry.id,
                });
                if matches!(event.what, Sight::Outgrown | Sight::FallenOver) {
                    self.anchor(Trigger::WantsBench, fact);
                }
            }
            Event::TaskDecided(event) => {
                let decision = Decision {
                    answer: event.answer,
                    kind: event.kind,
                    due_on: event.due_on,
                    on: fact.entry.header.on,
                    entry: fact.entry.id,
                    order: fact.entry.header.order,
                };
                keep_decision(&mut self.decisions, &event.task, decision, fact);
            }
            Event::QuarantineEntered(_) | Event::QuarantineReleased(_) | Event::VirusTested(_) => {
                self.apart.apply(fact);
            }
            Event::Watered(_) | Event::Fed(_) => self.waterings.apply(fact),
            Event::Settled(event) => drop(self.settled.insert(event.anomaly.clone())),
            _ => {}
        }
    }

    fn receive(&mut self, event: &LotReceived, fact: &Fact<'_>) {
        self.begin(
            Born::Received {
                source: event.source,
                from: event.from.clone(),
                outside_ref: event.outside_ref.clone(),
            },
            fact,
        );
        self.code.set(&event.code, fact);
        self.call(&event.name, fact);
        self.stand_at(event.place, fact);
        self.class = event.class;
        self.change(i64::from(event.plants), i64::from(event.stands), fact);
        if let Some(on) = event.potted_on {
            self.stand_in(on, &event.potting);
            self.anchor_on(Trigger::Standing, on, fact);
        }
        self.anchor(Trigger::Received, fact);
    }

    fn split(&mut self, id: LotId, event: &LotSplit, fact: &Fact<'_>) {
        let (plants, stands) = (i64::from(event.plants), i64::from(event.stands));
        if event.from == id {
            self.parts.insert(event.lot, fact.entry.header.order);
            self.change(-plants, -stands, fact);
        }
        if event.lot == id {
            self.begin(Born::Split { from: event.from }, fact);
            self.code.set(&event.code, fact);
            self.call(&event.name, fact);
            self.stand_at(event.place, fact);
            self.class = event.class;
            self.change(plants, stands, fact);
        }
    }

    fn pot(&mut self, id: LotId, event: &PiecesPotted, fact: &Fact<'_>) {
        if event.parents.contains(&id) {
            self.children.insert(event.lot);
        }
        if event.lot == id {
            let born = Born::Potted {
                clump: event.clump,
                parents: event.parents.clone(),
                with: event.with,
            };
            self.begin(born, fact);
            self.code.set(&event.code, fact);
            self.call(&event.name, fact);
            self.stand_at(event.place, fact);
            self.class = Some(event.class);
            self.change(i64::from(event.plants), i64::from(event.stands), fact);
            self.stand_in(fact.entry.header.on, &event.potting);
            self.anchor(Trigger::Divided, fact);
        }
    }

    fn call(&mut self, name: &PlantName, fact: &Fact<'_>) {
        self.name.set(name, fact);
        self.group = Some(name.plant_group());
    }

    fn stand_at(&mut self, place: Option<PlaceId>, fact: &Fact<'_>) {
        if let Some(place) = place {
            self.place.set(&place, fact);
            self.stood.push(Stood {
                place,
                on: fact.entry.header.on,
                order: fact.entry.header.order,
            });
        }
    }

    fn begin(&mut self, born: Born, fact: &Fact<'_>) {
        self.born = Some(born);
        self.born_on = Some(fact.entry.header.on);
    }

    fn stand_in(&mut self, on: NaiveDate, potting: &Potting) {
        if self.potted.as_ref().is_none_or(|before| before.on <= on) {
            self.potted = Some(Potted {
                on,
                potting: potting.clone(),
            });
        }
    }

    fn anchor(&mut self, trigger: Trigger, fact: &Fact<'_>) {
        self.anchor_on(trigger, fact.entry.header.on, fact);
    }

    fn anchor_on(&mut self, trigger: Trigger, on: NaiveDate, fact: &Fact<'_>) {
        let (entry, order) = (fact.entry.id, fact.entry.header.order);
        self.anchors.push(Anchor {
            entry,
            order,
            event: fact.index,
            trigger,
            on,
        });
    }

    fn change(&mut self, plants: i64, stands: i64, fact: &Fact<'_>) {
        if plants == 0 && stands == 0 {
            return;
        }
        self.plants = self.plants.saturating_add(plants);
        self.stands = self.stands.saturating_add(stands);
        if let Some(count) = self.counted.filter(|count| !fact.knew(*count)) {
            self.crossed.insert((count, fact.entry.id));
        }
        self.changes.push(Change {
            entry: fact.entry.id,
            plants,
            stands,
        });
    }

    fn count(&mut self, plants: i64, stands: i64, fact: &Fact<'_>) {
        self.plants = plants;
        self.stands = stands;
        let unknown = self
            .changes
            .iter()
            .filter(|change| !fact.knew(change.entry));
        self.crossed
            .extend(unknown.map(|change| (fact.entry.id, change.entry)));
        self.changes.clear();
        self.counted = Some(fact.entry.id);
    }
}

/// Keeps a decision as the one in force: the later one counts, but done is not undone by somebody who did not know it
/// was done.
pub(super) fn keep_decision(
    decisions: &mut BTreeMap<TaskKey, Vec<Decision>>,
    task: &TaskKey,
    decision: Decision,
    fact: &Fact<'_>,
) {
    let kept = decisions.entry(task.clone()).or_default();
    let done_elsewhere = kept.last().is_some_and(|before| {
        matches!(before.answer, TaskAnswer::Done { .. }) && !fact.knew(before.entry)
    });
    if !done_elsewhere || matches!(decision.answer, TaskAnswer::Done { .. }) {
        kept.push(decision);
    }
}
