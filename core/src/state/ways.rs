//! Short ways into the facts: what would otherwise take a walk through all lots, tasks or treatments at every tap.
//!
//! Invariant: what is kept here is what [`Known::of`] says of each subject. It is turned over wherever a subject's facts
//! change, so it never has to be built; nothing of it is stored, and it says nothing that the facts do not.

use std::collections::BTreeSet;

use crate::code::{COUNTER_MAX, LotCode, Prefix};
use crate::id::{
    ClumpId, Dev, EntryRef, LotId, NoteTaskId, PlaceId, Subject, ThingId, TreatmentId,
};

use super::Facts;
use super::anomaly;

/// Before every thing there can be.
pub(super) const FIRST_THING: ThingId = ThingId {
    entry: EntryRef {
        dev: Dev(0),
        seq: 0,
    },
    n: 0,
};

/// After every thing there can be.
const LAST_THING: ThingId = ThingId {
    entry: EntryRef {
        dev: Dev(u64::MAX),
        seq: u32::MAX,
    },
    n: u16::MAX,
};

/// The ways there are.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub(super) struct Ways {
    codes: BTreeSet<(LotCode, LotId)>,
    /// Codes that more than one lot bears.
    twice: BTreeSet<LotCode>,
    at: BTreeSet<(PlaceId, LotId)>,
    /// Lots and clumps that contradict themselves.
    odd_lots: BTreeSet<LotId>,
    odd_clumps: BTreeSet<ClumpId>,
    /// Lots that are in quarantine by a stay of their own, or became others while they may have been.
    stays: BTreeSet<LotId>,
    open: BTreeSet<ClumpId>,
    /// Treatments that keep people out, by the instant until which they do.
    bound: BTreeSet<(i64, TreatmentId)>,
    /// Looks for a pest's next generation.
    looks: BTreeSet<NoteTaskId>,
}

/// What is kept of one subject.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub(super) struct Known {
    code: Option<LotCode>,
    place: Option<PlaceId>,
    odd: bool,
    until_ms: Option<i64>,
    /// An open clump, a look by generation, a lot with a stay of its own.
    marked: bool,
}

impl Known {
    pub(super) fn of(facts: &Facts, subject: Subject) -> Self {
        let mut known = Self::default();
        match subject {
            Subject::Lot(id) => {
                if let Some(lot) = facts.lots.get(&id) {
                    known.code = lot.code.get().copied();
                    known.place = lot.place.get().copied();
                    known.odd = anomaly::is_odd(lot);
                    let became = !lot.parts.is_empty() || !lot.children.is_empty();
                    let stays = &lot.apart.stays;
                    known.marked = stays.iter().any(|stay| became || stay.ended.is_none());
                }
            }
            Subject::Clump(id) => {
                if let Some(clump) = facts.clumps.get(&id) {
                    known.marked = clump.is_open();
                    known.odd = anomaly::is_odd_clump(clump);
                }
            }
            Subject::Treatment(id) => {
                let treatment = facts.treatments.get(&id);
                known.until_ms = treatment.and_then(|treatment| treatment.event.until_ms);
            }
            Subject::NoteTask(id) => {
                let noted = facts.note_tasks.get(&id);
                let noted = noted.and_then(|task| task.noted.as_ref());
                known.marked = noted.is_some_and(|(_, noted)| noted.generation.is_some());
            }
            _ => {}
        }
        known
    }
}

impl Ways {
    /// Turns a subject over from what was known of it to what is known now.
    pub(super) fn turn(&mut self, subject: Subject, before: Known, now: Known) {
        if before == now {
            return;
        }
        match subject {
            Subject::Lot(id) => {
                if before.code != now.code {
                    self.recode(id, before.code, now.code);
                }
                if before.place != now.place {
                    before.place.map(|place| self.at.remove(&(place, id)));
                    self.at.extend(now.place.map(|place| (place, id)));
                }
                put(&mut self.odd_lots, id, now.odd);
                put(&mut self.stays, id, now.marked);
            }
            Subject::Clump(id) => {
                put(&mut self.open, id, now.marked);
                put(&mut self.odd_clumps, id, now.odd);
            }
            Subject::Treatment(id) => {
                before.until_ms.map(|ms| self.bound.remove(&(ms, id)));
                self.bound.extend(now.until_ms.map(|ms| (ms, id)));
            }
            Subject::NoteTask(id) => put(&mut self.looks, id, now.marked),
            _ => {}
        }
    }

    fn recode(&mut self, id: LotId, before: Option<LotCode>, now: Option<LotCode>) {
        before.map(|code| self.codes.remove(&(code, id)));
        self.codes.extend(now.map(|code| (code, id)));
        for code in [before, now].into_iter().flatten() {
            let several = self.lots_coded(code).nth(1).is_some();
            put(&mut self.twice, code, several);
        }
    }

    fn lots_coded(&self, code: LotCode) -> impl Iterator<Item = LotId> + '_ {
        let from = self.codes.range((code, LotId(FIRST_THING))..);
        from.take_while(move |(other, _)| *other == code)
            .map(|(_, lot)| *lot)
    }
}

fn put<T: Ord>(set: &mut BTreeSet<T>, one: T, there: bool) {
    if there {
        set.insert(one);
    } else {
        set.remove(&one);
    }
}

impl Facts {
    /// Lots that bear a code, withdrawn ones that were coded anew among them.
    pub fn lots_coded(&self, code: LotCode) -> impl Iterator<Item = LotId> + '_ {
        self.ways.lots_coded(code)
    }

    /// The highest counter of a prefix that any lot bears; 0 where none does.
    #[must_use]
    pub fn last_counter(&self, prefix: Prefix) -> u32 {
        let last_lot = LotId(LAST_THING);
        let last = prefix.code(COUNTER_MAX).map(|code| (code, last_lot));
        let below = last.and_then(|last| self.ways.codes.range(..=last).next_back());
        let own = below.filter(|(code, _)| code.prefix() == prefix);
        own.map_or(0, |(code, _)| code.counter())
    }

    /// Codes that more than one lot bears.
    pub(super) fn codes_twice(&self) -> impl Iterator<Item = LotCode> + '_ {
        self.ways.twice.iter().copied()
    }

    /// Lots that stand in a place.
    pub fn lots_at(&self, place: PlaceId) -> impl Iterator<Item = LotId> + '_ {
        let from = self.ways.at.range((place, LotId(FIRST_THING))..);
        from.take_while(move |(other, _)| *other == place)
            .map(|(_, lot)| *lot)
    }

    /// Lots with a stay of their own that may hold somebody.
    pub(crate) fn lots_with_stays(&self) -> impl Iterator<Item = LotId> + '_ {
        self.ways.stays.iter().copied()
    }

    pub(super) fn odd_lots(&self) -> impl Iterator<Item = LotId> + '_ {
        self.ways.odd_lots.iter().copied()
    }

    pub(super) fn odd_clumps(&self) -> impl Iterator<Item = ClumpId> + '_ {
        self.ways.odd_clumps.iter().copied()
    }

    pub(super) fn clumps_open(&self) -> impl Iterator<Item = ClumpId> + '_ {
        self.ways.open.iter().copied()
    }

    /// Treatments that keep people away from something after an instant, the longest last.
    pub fn binding_after(&self, now_ms: i64) -> impl Iterator<Item = TreatmentId> + '_ {
        let first = (now_ms.saturating_add(1), TreatmentId(FIRST_THING));
        self.ways.bound.range(first..).map(|(_, id)| *id)
    }

    /// Tasks that look for a pest's next generation.
    pub fn looks(&self) -> impl Iterator<Item = NoteTaskId> + '_ {
        self.ways.looks.iter().copied()
    }
}
