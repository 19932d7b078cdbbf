//! What lots took, before it is paid: pots, mix, stone and labels, minutes, shares of what was measured, and bench.

use std::collections::{BTreeMap, BTreeSet};

use chrono::NaiveDate;

use crate::event::{ClosedHow, Event, GainWhy, PieceClass, Potting, TreatedPart};
use crate::id::{ClumpId, LotId, MixId, PotId, Subject, TreatmentId};
use crate::quantity::Ratio;
use crate::state::State;
use crate::time::days_between;
use crate::view::benches::ground;

use super::SPLITS;

/// What lots took, before it is paid.
pub(super) struct Took<'a> {
    pub(super) state: &'a State,
    pub(super) today: NaiveDate,
    pub(super) seen: BTreeSet<LotId>,
    pub(super) pots: BTreeMap<PotId, i64>,
    pub(super) labels: i64,
    pub(super) mixes: BTreeMap<Option<MixId>, i64>,
    pub(super) stone_ul: i64,
    /// Square millimetres times days.
    pub(super) bench: i128,
    pub(super) unmeasured: u32,
    pub(super) minutes: Option<Ratio>,
    pub(super) untimed: bool,
    /// Shares of what was measured for a mixture.
    pub(super) treated: BTreeMap<TreatmentId, Ratio>,
    pub(super) plants: i64,
    pub(super) alive: i64,
}

impl<'a> Took<'a> {
    pub(super) fn new(state: &'a State, today: NaiveDate) -> Self {
        Self {
            state,
            today,
            seen: BTreeSet::new(),
            pots: BTreeMap::new(),
            labels: 0,
            mixes: BTreeMap::new(),
            stone_ul: 0,
            bench: 0,
            unmeasured: 0,
            minutes: Some(Ratio::ZERO),
            untimed: false,
            treated: BTreeMap::new(),
            plants: 0,
            alive: 0,
        }
    }

    /// Follows a lot and its parts; a part stands in the pot of its whole.
    pub(super) fn lot(&mut self, id: LotId, whole_in: Option<PotId>, depth: usize) {
        let state = self.state;
        let Some(lot) = state.facts().lots.get(&id).filter(|_| depth < SPLITS) else {
            return;
        };
        if lot.born.is_none() || !self.seen.insert(id) {
            return;
        }
        let benched = lot.on_bench.values().map(|(plants, _)| i64::from(*plants));
        let here = benched.fold(lot.plants.max(0), i64::saturating_add);
        self.alive = self.alive.saturating_add(here);
        let mut course = Course {
            pot: whole_in,
            ..Course::default()
        };
        for place in state.log().about(Subject::Lot(id)) {
            let Some(entry) = state.log().entry(place.id) else {
                continue;
            };
            let on = entry.header.on;
            for fact in state.log().facts(place.id) {
                if fact.event.subjects().contains(&Subject::Lot(id)) {
                    self.event(id, fact.event, on, &mut course, depth);
                }
            }
        }
        self.stood(&mut course, self.today);
    }

    /// The bench a lot stood on until a day.
    fn stood(&mut self, course: &mut Course, until: NaiveDate) {
        let since = course.since.replace(until);
        let days = since.map_or(0, |since| days_between(since, until).max(0));
        let form = course.pot.and_then(|pot| {
            let pot = self.state.facts().pots.get(&pot)?;
            ground(pot.form.get()?)
        });
        if let Some((square, _)) = form {
            let pots = i128::from(course.stands.max(0)).saturating_mul(i128::from(days));
            self.bench = self
                .bench
                .saturating_add(pots.saturating_mul(i128::from(square)));
        }
    }

    fn event(
        &mut self,
        id: LotId,
        event: &Event,
        on: NaiveDate,
        course: &mut Course,
        depth: usize,
    ) {
        let count = |number: u32| i64::from(number);
        let stands = match event {
            Event::LotReceived(it) => {
                self.plants = self.plants.saturating_add(count(it.plants));
                course.pot = it.potting.pot;
                course.note_unmeasured(self, it.stands);
                count(it.stands)
            }
            Event::PiecesPotted(it) if it.lot == id => {
                self.plants = self.plants.saturating_add(count(it.plants));
                self.potted(&it.potting, it.stands);
                self.labels = self.labels.saturating_add(count(it.stands));
                self.worked(it.clump, it.plants);
                self.bathed(it.clump, it.class, it.plants);
                course.pot = it.potting.pot;
                course.note_unmeasured(self, it.stands);
                count(it.stands)
            }
            Event::Repotted(it) => {
                self.stood(course, on);
                self.potted(&it.potting, it.stands);
                course.pot = it.potting.pot;
                course.note_unmeasured(self, it.stands);
                count(it.stands).saturating_sub(course.stands)
            }
            Event::LotSplit(it) if it.from == id => {
                // Both stand as they stood until then.
                let pot = course.pot;
                self.lot(it.lot, pot, depth.saturating_add(1));
                count(it.stands).saturating_neg()
            }
            Event::LotSplit(it) => count(it.stands),
            Event::Gained(it) if it.why == GainWhy::Returned => {
                self.alive = self.alive.saturating_sub(count(it.plants));
                count(it.stands)
            }
            Event::Gained(it) => {
                self.plants = self.plants.saturating_add(count(it.plants));
                count(it.stands)
            }
            Event::Sold(it) => {
                self.alive = self.alive.saturating_add(count(it.plants));
                count(it.stands).saturating_neg()
            }
            Event::Lost(it) => count(it.stands).saturating_neg(),
            Event::Counted(it) => count(it.stands).saturating_sub(course.stands),
            Event::DivisionOpened(it) => {
                let opened = it.lots.iter().filter(|opened| opened.lot == id);
                let (plants, stands) = opened.fold((0_i64, 0_i64), |sum, opened| {
                    let plants = sum.0.saturating_add(count(opened.plants));
                    (plants, sum.1.saturating_add(count(opened.stands)))
                });
                course.benched.insert(it.clump, (plants, stands));
                stands.saturating_neg()
            }
            Event::DivisionClosed(it) => {
                let (plants, stands) = course.benched.remove(&it.clump).unwrap_or((0, 0));
                if it.how == ClosedHow::PutBack {
                    stands
                } else {
                    // They live on as what they were cut into.
                    self.alive = self.alive.saturating_add(plants);
                    0
                }
            }
            Event::Treated(it) => {
                let parts = it.parts.iter().filter_map(|part| match part {
                    TreatedPart::Lot { lot, plants } if *lot == id => Some(*plants),
                    _ => None,
                });
                let plants = parts.fold(0, u32::saturating_add);
                self.treated_with(it.treatment, Ratio::whole(i128::from(plants)));
                0
            }
            _ => 0,
        };
        if stands != 0 || course.since.is_none() {
            self.stood(course, on);
            course.stands = course.stands.saturating_add(stands);
        }
    }

    fn potted(&mut self, potting: &Potting, stands: u32) {
        if let Some(pot) = potting.pot {
            let pots = self.pots.entry(pot).or_insert(0);
            *pots = pots.saturating_add(i64::from(stands));
        }
        if potting.mix_ul > 0 {
            let mix = self.mixes.entry(potting.mix).or_insert(0);
            *mix = mix.saturating_add(potting.mix_ul);
        }
        self.stone_ul = self.stone_ul.saturating_add(potting.stone_ul.max(0));
    }

    /// A part of the minutes of a clump.
    fn worked(&mut self, clump: ClumpId, plants: u32) {
        let known = self.state.facts().clumps.get(&clump);
        let took = known.and_then(|clump| clump.closed.as_ref()?.took_min);
        let potted = known.map_or(0, |clump| {
            let potted = clump.potted.values().map(|plants| (*plants).max(0));
            potted.fold(0, i64::saturating_add)
        });
        // One that took no minute by the clock was not timed: nothing is said to cost no work.
        let Some(took) = took.filter(|took| *took > 0 && potted > 0) else {
            self.untimed = true;
            return;
        };
        let share = Ratio::new(
            i128::from(took).saturating_mul(i128::from(plants)),
            i128::from(potted),
        );
        self.minutes = self.minutes.and_then(|sum| sum.checked_add(share?));
    }

    /// A part of what pieces of a class were treated with before they were potted.
    fn bathed(&mut self, clump: ClumpId, class: PieceClass, plants: u32) {
        let Some(known) = self.state.facts().clumps.get(&clump) else {
            return;
        };
        let potted = i128::from(known.potted_of(class));
        let treated: Vec<(TreatmentId, u32)> = known
            .treated
            .iter()
            .filter(|(_, of, _)| *of == class)
            .map(|(treatment, _, pieces)| (*treatment, *pieces))
            .collect();
        for (treatment, pieces) in treated {
            let share = i128::from(pieces).saturating_mul(i128::from(plants));
            if let Some(share) = Ratio::new(share, potted) {
                self.treated_with(treatment, share);
            }
        }
    }

    fn treated_with(&mut self, treatment: TreatmentId, plants: Ratio) {
        let known = self.treated.entry(treatment).or_insert(Ratio::ZERO);
        *known = known.checked_add(plants).unwrap_or(*known);
    }
}

/// Where a lot stands in its course.
#[derive(Default)]
struct Course {
    pot: Option<PotId>,
    stands: i64,
    since: Option<NaiveDate>,
    benched: BTreeMap<ClumpId, (i64, i64)>,
}

impl Course {
    /// Pots whose width is not known take no bench in the sum.
    fn note_unmeasured(&self, took: &mut Took<'_>, stands: u32) {
        let pots = &took.state.facts().pots;
        let form = self.pot.and_then(|pot| pots.get(&pot)?.form.get());
        if form.and_then(ground).is_none() {
            took.unmeasured = took.unmeasured.saturating_add(stands);
        }
    }
}
