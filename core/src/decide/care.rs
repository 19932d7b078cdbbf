//! Commands of care: treatments, findings, sights, and what is decided about tasks.

use chrono::NaiveDate;

use crate::command::{RecordFinding, RecordTreatment, TankPartner};
use crate::event::*;
use crate::id::{FindingId, LotId, NoteTaskId, PlaceId, Subject, TreatmentId};
use crate::limits;
use crate::rejection::{Input, Rejection};
use crate::task::derive::{self, Task};
use crate::task::generation;
use crate::time::plus_days;

use super::{Desk, Done};

impl Desk<'_> {
    pub(super) fn record_treatment(&mut self, record: RecordTreatment) -> Done {
        if record.treated.is_empty() && record.place.is_none() {
            return Err(Rejection::Missing {
                input: Input::Pieces,
            });
        }
        for part in &record.treated {
            match part {
                TreatedPart::Lot { lot, plants } => {
                    let there = self.lot(*lot)?.plants;
                    if i64::from(*plants) > there {
                        return Err(Rejection::MoreThanThereAre {
                            lot: *lot,
                            plants: there,
                            stands: 0,
                        });
                    }
                }
                TreatedPart::Pieces {
                    clump,
                    class,
                    plants,
                } => {
                    let known = self.state.facts().clumps.get(clump);
                    let known = known.ok_or(Rejection::NotInTheBook {
                        subject: Subject::Clump(*clump),
                    })?;
                    let taken = known.taken_of(*class);
                    if u64::from(*plants) > taken {
                        return Err(Rejection::TooMany {
                            input: Input::Pieces,
                            most: taken,
                        });
                    }
                }
            }
        }
        self.place_is_known(record.place)?;
        if let Some(id) = record.same_mix_as
            && !self.state.facts().treatments.contains_key(&id)
        {
            return Err(Rejection::NotInTheBook {
                subject: Subject::Treatment(id),
            });
        }
        Self::soaks_hold([record.soak_s, record.soaked_s])?;
        Self::number(Input::Pots, record.pots)?;
        let mut product = record.product;
        product.label_name = Self::needed(Input::Name, &product.label_name)?;
        for text in [&product.registration, &product.rate_typed, &product.batch] {
            Self::short(Input::Text, text)?;
        }
        let measured = match record.same_mix_as {
            Some(_) => (None, None),
            None => (record.amount_ul, record.amount_mg),
        };
        self.taken_from(&product, measured)?;
        let event = Treated {
            treatment: TreatmentId(self.thing()),
            method: record.method,
            parts: record.treated,
            place: record.place,
            against: record.against,
            aim: record.aim,
            finding: record.finding,
            product,
            water_ul: record.water_ul,
            amount_ul: record.amount_ul,
            amount_mg: record.amount_mg,
            same_mix_as: record.same_mix_as,
            tank_with: None,
            started_ms: record.started_ms,
            ended_ms: record.ended_ms,
            soak_s: record.soak_s,
            soaked_s: record.soaked_s,
            soak_own: record.soak_own,
            pots: record.pots,
            until_ms: record.until_ms,
            airing: record.airing,
            person: Self::short(Input::Person, &record.person)?,
            licence: Self::short(Input::Person, &record.licence)?,
            gear: Self::note(&record.gear)?,
            weather: String::new(),
            plant_code: String::new(),
            growth_stage: String::new(),
            disposal: String::new(),
            reason: Self::note(&record.reason)?,
            note: Self::note(&record.note)?,
        };
        let place = event.place;
        let lot = match event.parts.as_slice() {
            [TreatedPart::Lot { lot, .. }] => Some(*lot),
            _ => None,
        };
        if let Some(partner) = record.tank {
            let partner = self.of_one_tank(*partner, &event)?;
            self.push(event);
            self.push(partner);
        } else {
            self.push(event);
        }
        match record.then {
            Some(next) => {
                self.note_task(None, next.text, next.due_on, None, lot, place)?;
                if let Some(Event::TaskNoted(noted)) = self.events.last_mut() {
                    noted.product = next.product;
                }
                Ok(())
            }
            None => Ok(()),
        }
    }

    /// The second product of one tank: for the same parts at the same time, with its own amount.
    fn of_one_tank(&mut self, partner: TankPartner, first: &Treated) -> Result<Treated, Rejection> {
        let mut product = partner.product;
        product.label_name = Self::needed(Input::Name, &product.label_name)?;
        for text in [&product.registration, &product.rate_typed, &product.batch] {
            Self::short(Input::Text, text)?;
        }
        let measured = match partner.same_mix_as {
            Some(_) => (None, None),
            None => (partner.amount_ul, partner.amount_mg),
        };
        self.taken_from(&product, measured)?;
        Ok(Treated {
            treatment: TreatmentId(self.thing()),
            against: partner.against,
            aim: partner.aim,
            product,
            amount_ul: partner.amount_ul,
            amount_mg: partner.amount_mg,
            same_mix_as: partner.same_mix_as,
            tank_with: Some(first.treatment),
            reason: Self::note(&partner.reason)?,
            ..first.clone()
        })
    }

    pub(super) fn record_finding(&mut self, record: RecordFinding) -> Done {
        let mut place = None;
        match record.on {
            SeenOn::Lot(lot) => place = self.lot(lot)?.place.get().copied(),
            SeenOn::Place(place) => self.place_is_known(Some(place))?,
            SeenOn::Clump(clump) => {
                if !self.state.facts().clumps.contains_key(&clump) {
                    return Err(Rejection::NotInTheBook {
                        subject: Subject::Clump(clump),
                    });
                }
            }
        }
        let event = Found {
            finding: FindingId(self.thing()),
            on: record.on,
            sign: Self::needed(Input::Text, &record.sign)?,
            part: Self::short(Input::Text, &record.part)?,
            agent: record.agent,
            affected: record.affected,
            looked_at: record.looked_at,
            severity: record.severity,
            place,
            urgency: record.urgency,
            photos: record.photos,
            note: Self::note(&record.note)?,
        };
        Self::finding_holds(&event)?;
        self.push(event);
        Ok(())
    }

    /// What was seen is within the limits.
    pub(super) fn finding_holds(found: &Found) -> Done {
        if let (Some(affected), Some(looked_at)) = (found.affected, found.looked_at)
            && affected > looked_at
        {
            return Err(Rejection::MoreAffectedThanLookedAt {
                affected,
                looked_at,
            });
        }
        if found.severity.is_some_and(|bad| !(1..=5).contains(&bad)) {
            return Err(Rejection::OutOfRange {
                input: Input::Severity,
                least: 1,
                most: 5,
            });
        }
        if found.photos.len() > limits::PHOTOS_MAX {
            return Err(Rejection::TooMany {
                input: Input::Photo,
                most: u64::try_from(limits::PHOTOS_MAX).unwrap_or(u64::MAX),
            });
        }
        Self::needed(Input::Text, &found.sign)?;
        Self::short(Input::Text, &found.part)?;
        Self::note(&found.note).map(drop)
    }

    /// How good something is, of five.
    pub(super) fn good_holds(good: Option<u8>) -> Done {
        if good.is_some_and(|good| !(1..=5).contains(&good)) {
            return Err(Rejection::OutOfRange {
                input: Input::Good,
                least: 1,
                most: 5,
            });
        }
        Ok(())
    }

    pub(super) fn observe(
        &mut self,
        lots: &[LotId],
        what: Sight,
        good: Option<u8>,
        note: &str,
    ) -> Done {
        Self::good_holds(good)?;
        let note = Self::note(note)?;
        for lot in lots {
            self.lot(*lot)?;
            self.push(Observed {
                lot: *lot,
                what,
                plants: None,
                good,
                note: note.clone(),
            });
        }
        Ok(())
    }

    pub(super) fn decide_tasks(&mut self, tasks: Vec<Task>, answer: TaskAnswer, why: &str) -> Done {
        if let TaskAnswer::PutOff { to } = answer {
            if to <= self.at.today {
                return Err(Rejection::PutOffToThePast {
                    today: self.at.today,
                });
            }
            self.day_ahead(to)?;
        }
        let why = Self::note(why)?;
        for task in tasks {
            if !self.is_open(&task) {
                return Err(Rejection::TaskNotOpen);
            }
            self.push(TaskDecided {
                task: task.key,
                answer,
                kind: task.kind,
                due_on: task.due_on,
                revision: task.revision,
                why: why.clone(),
            });
        }
        Ok(())
    }

    fn is_open(&self, task: &Task) -> bool {
        let facts = self.state.facts();
        match (task.note_task, task.lot) {
            (Some(id), _) => facts
                .note_tasks
                .get(&id)
                .and_then(|noted| derive::of_note(facts, id, noted))
                .is_some_and(|open| open.key == task.key),
            (None, Some(lot)) => derive::of_lot(facts, lot)
                .iter()
                .any(|open| open.key == task.key),
            (None, None) => false,
        }
    }

    pub(super) fn note_task(
        &mut self,
        task: Option<NoteTaskId>,
        text: String,
        due_on: NaiveDate,
        repeat_days: Option<u32>,
        lot: Option<LotId>,
        place: Option<PlaceId>,
    ) -> Done {
        let text = Self::needed(Input::Text, &text)?;
        let due_on = self.day_ahead(due_on)?;
        Self::repeat_holds(repeat_days)?;
        if let Some(lot) = lot {
            self.lot(lot)?;
        }
        self.place_is_known(place)?;
        let task = match task {
            Some(id) if self.state.facts().note_tasks.contains_key(&id) => id,
            Some(id) => {
                return Err(Rejection::NotInTheBook {
                    subject: Subject::NoteTask(id),
                });
            }
            None => NoteTaskId(self.thing()),
        };
        self.push(TaskNoted {
            task,
            text,
            due_on,
            repeat_days,
            lot,
            place,
            product: None,
            outside_ref: self.outside_ref.clone(),
            generation: None,
        });
        Ok(())
    }

    /// A task comes round again after days within the limit.
    pub(super) fn repeat_holds(repeat_days: Option<u32>) -> Done {
        if repeat_days.is_some_and(|days| !(1..=limits::AHEAD_DAYS_MAX).contains(&i64::from(days)))
        {
            return Err(Rejection::OutOfRange {
                input: Input::Date,
                least: 1,
                most: limits::AHEAD_DAYS_MAX,
            });
        }
        Ok(())
    }

    /// Looks for the generations of a pest that was found, those whose day of the table is still to come.
    pub(super) fn look_by_generation(&mut self, id: FindingId, text: &str) -> Done {
        let facts = self.state.facts();
        let finding = facts.findings.get(&id).ok_or(Rejection::NotInTheBook {
            subject: Subject::Finding(id),
        })?;
        let (lot, place) = match finding.event.on {
            SeenOn::Lot(lot) => (Some(lot), None),
            SeenOn::Place(place) => (None, Some(place)),
            SeenOn::Clump(_) => return Err(Rejection::NothingToDo),
        };
        let noted = |nth: u8| {
            facts.note_tasks.values().any(|task| {
                let look = GenerationLook { finding: id, nth };
                let event = task.noted.as_ref().map(|(_, event)| event);
                event.is_some_and(|event| event.generation == Some(look))
            })
        };
        let looks: Vec<(u8, NaiveDate)> = (0u8..)
            .zip(generation::looks(facts, id))
            .map(|(nth, day)| (nth, plus_days(finding.on, i64::from(day.table_days))))
            .filter(|(nth, due_on)| *due_on > self.at.today && !noted(*nth))
            .collect();
        if looks.is_empty() {
            return Err(Rejection::NothingToDo);
        }
        let text = Self::needed(Input::Text, text)?;
        for (nth, due_on) in looks {
            let task = NoteTaskId(self.thing());
            self.push(TaskNoted {
                task,
                text: text.clone(),
                due_on,
                repeat_days: None,
                lot,
                place,
                product: None,
                outside_ref: String::new(),
                generation: Some(GenerationLook { finding: id, nth }),
            });
        }
        Ok(())
    }
}
