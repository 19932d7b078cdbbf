//! Keeping apart: into quarantine, out of it, tests, and what becomes of lots a trace found.
//!
//! What is in quarantine is not sold, not moved, and not divided or potted with others. The grower may always let it out,
//! with a reason that is kept.

use crate::command::{EnterQuarantine, RecordTest, TraceAnswer};
use crate::event::*;
use crate::id::{FindingId, LotId, PlaceId, Subject};
use crate::limits;
use crate::quarantine::{self, Terms};
use crate::reference::virus::RETEST_DAYS;
use crate::rejection::{Caution, Input, Rejection};
use crate::task::TaskKind;
use crate::task::apart::{TRACED, TRACED_LOOK};
use crate::time::plus_days;
use crate::trace;

use super::{Desk, Done};

impl Desk<'_> {
    /// Refuses what would take a lot out of quarantine, unless this entry lets it out.
    pub(super) fn is_free(&self, lot: LotId) -> Done {
        let out = |event: &Event| matches!(event, Event::QuarantineReleased(it) if it.lot == lot);
        if self.events.iter().any(out) {
            return Ok(());
        }
        let held = quarantine::held(self.state.facts(), lot);
        match held.iter().map(|held| held.stay.on).min() {
            Some(since_on) => Err(Rejection::InQuarantine { lot, since_on }),
            None => Ok(()),
        }
    }

    /// Pieces of a parent in quarantine go back to where it stands, into pots of their own; nothing is set into the pot
    /// of a lot in quarantine.
    pub(super) fn pieces_stay_apart(
        &self,
        parents: &[LotId],
        with: Option<LotId>,
        place: Option<PlaceId>,
    ) -> Done {
        if let Some(host) = with {
            self.is_free(host)?;
        }
        for parent in parents {
            let stands = self.lot(*parent)?.place.get().copied();
            let leaves = place.is_some() && stands.is_some() && place != stands;
            if with.is_some() || leaves {
                self.is_free(*parent)?;
            }
        }
        Ok(())
    }

    /// A stay from today on these terms.
    pub(super) fn push_stay(
        &mut self,
        lot: LotId,
        why: QuarantineWhy,
        finding: Option<FindingId>,
        terms: &Terms,
    ) {
        self.push(QuarantineEntered {
            lot,
            why,
            finding,
            until_on: Some(plus_days(self.on, i64::from(terms.days))),
            inspections: terms.inspections,
            treatments: terms.treatments,
            test_days: terms.test_days.clone(),
            note: String::new(),
        });
    }

    /// A stay and what is waited for in it last no longer than the limit.
    pub(super) fn stay_holds(mut days: impl Iterator<Item = i64>) -> Done {
        let most = i64::from(limits::QUARANTINE_DAYS_MAX);
        if days.any(|days| days > most) {
            return Err(Rejection::OutOfRange {
                input: Input::Date,
                least: 0,
                most,
            });
        }
        Ok(())
    }

    pub(super) fn finding_is_known(&self, finding: Option<FindingId>) -> Done {
        match finding {
            Some(id) if !self.state.facts().findings.contains_key(&id) => {
                Err(Rejection::NotInTheBook {
                    subject: Subject::Finding(id),
                })
            }
            _ => Ok(()),
        }
    }

    /// So many plants went into one test as there are, here and on the bench.
    pub(super) fn pooled_holds(&self, lot: LotId, pooled: u32) -> Done {
        let lot = self.lot(lot)?;
        let benched = lot.on_bench.values();
        let benched: i64 = benched.map(|(plants, _)| i64::from(*plants)).sum();
        let plants = lot.plants.saturating_add(benched);
        if pooled == 0 {
            return Err(Rejection::Missing {
                input: Input::Plants,
            });
        }
        if i64::from(pooled) > plants {
            return Err(Rejection::MorePooledThanPlants { pooled, plants });
        }
        Ok(())
    }

    pub(super) fn enter_quarantine(&mut self, enter: EnterQuarantine) -> Done {
        if enter.lots.is_empty() {
            return Err(Rejection::Missing {
                input: Input::Plants,
            });
        }
        let days = enter.terms.test_days.iter().chain([&enter.terms.days]);
        Self::stay_holds(days.map(|days| i64::from(*days)))?;
        self.place_is_known(enter.place)?;
        self.finding_is_known(enter.finding)?;
        let note = Self::note(&enter.note)?;
        for lot in enter.lots {
            let known = self.lot(lot)?;
            let here = known.place.get().copied();
            let same = quarantine::held(self.state.facts(), lot)
                .iter()
                .any(|held| {
                    held.stay.terms.why == enter.why && held.stay.terms.finding == enter.finding
                });
            if same {
                return Err(Rejection::NothingToDo);
            }
            if let Some(to) = enter.place
                && here != Some(to)
            {
                self.push(Moved { lot, to });
            }
            self.push_stay(lot, enter.why, enter.finding, &enter.terms);
            if let Some(Event::QuarantineEntered(stay)) = self.events.last_mut() {
                stay.note.clone_from(&note);
            }
        }
        Ok(())
    }

    pub(super) fn release_quarantine(&mut self, lot: LotId, early: &str) -> Done {
        self.lot(lot)?;
        let facts = self.state.facts();
        let held = quarantine::held(facts, lot);
        if held.is_empty() {
            return Err(Rejection::NotInQuarantine { lot });
        }
        let all: Vec<_> = held
            .iter()
            .map(|held| quarantine::progress(facts, lot, held.stay, self.on))
            .collect();
        let early = Self::note(early)?;
        let holds = all.iter().all(quarantine::Progress::holds);
        if !holds && early.is_empty() {
            return Err(Rejection::QuarantineHolds { lot });
        }
        if !holds {
            self.cautions.push(Caution::OutEarly { lot });
        }
        let least = |of: fn(&quarantine::Progress) -> u32| all.iter().map(of).min().unwrap_or(0);
        self.push(QuarantineReleased {
            lot,
            inspections: least(|progress| progress.clean),
            treatments: least(|progress| progress.treated),
            tests: least(|progress| progress.tests),
            early: if holds { String::new() } else { early },
        });
        Ok(())
    }

    pub(super) fn record_test(&mut self, record: RecordTest) -> Done {
        self.lot(record.lot)?;
        if record.results.is_empty() {
            return Err(Rejection::Missing { input: Input::Test });
        }
        self.pooled_holds(record.lot, record.pooled)?;
        let laboratory = Self::short(Input::Person, &record.laboratory)?;
        let note = Self::note(&record.note)?;
        for (virus, result) in record.results {
            self.push(VirusTested {
                lot: record.lot,
                method: record.method,
                virus,
                tissue: record.tissue,
                pooled: record.pooled,
                result,
                laboratory: laboratory.clone(),
                note: note.clone(),
            });
        }
        Ok(())
    }

    pub(super) fn follow_trace(
        &mut self,
        source: LotId,
        lots: &[LotId],
        answer: &TraceAnswer,
    ) -> Done {
        self.lot(source)?;
        let why = match answer {
            TraceAnswer::Clear { why } if why.trim().is_empty() => {
                return Err(Rejection::Missing { input: Input::Note });
            }
            TraceAnswer::Clear { why } => Self::note(why)?,
            TraceAnswer::Test | TraceAnswer::Look => String::new(),
        };
        let risks = trace::at_risk(self.state, source);
        for lot in lots {
            let risk = risks.iter().find(|risk| risk.lot == *lot);
            let exposed_on = risk.ok_or(Rejection::TaskNotOpen)?.exposed_on;
            let key = |step: &str, repeat| trace::key(source, *lot, step, repeat);
            let from = |days: i64| plus_days(exposed_on, days).max(self.on);
            let decided: Vec<(TaskKey, TaskKind, TaskAnswer)> = match answer {
                TraceAnswer::Test => (0u16..)
                    .zip(RETEST_DAYS)
                    .map(|(at, days)| {
                        let to = from(i64::from(days));
                        (
                            key(TRACED, at),
                            TaskKind::VirusTest,
                            TaskAnswer::PutOff { to },
                        )
                    })
                    .collect(),
                TraceAnswer::Look => {
                    let answer = TaskAnswer::PutOff { to: self.on };
                    vec![(key(TRACED_LOOK, 0), TaskKind::LookOver, answer)]
                }
                TraceAnswer::Clear { .. } => {
                    let tests = (0u16..).zip(RETEST_DAYS);
                    let tests = tests.map(|(at, _)| (key(TRACED, at), TaskKind::VirusTest));
                    let look = (key(TRACED_LOOK, 0), TaskKind::LookOver);
                    tests
                        .chain([look])
                        .map(|(key, kind)| (key, kind, TaskAnswer::NotNeeded))
                        .collect()
                }
            };
            for (task, kind, answer) in decided {
                let due_on = match answer {
                    TaskAnswer::PutOff { to } => to,
                    _ => self.on,
                };
                self.push(TaskDecided {
                    task,
                    answer,
                    kind,
                    due_on,
                    revision: 0,
                    why: why.clone(),
                });
            }
        }
        Ok(())
    }
}
