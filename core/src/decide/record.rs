//! Commands that put the book right.

use std::collections::BTreeSet;

use crate::event::*;
use crate::id::{Dev, EntryRef, LotId, Subject};
use crate::rejection::{Input, Rejection};
use crate::state::Lot;

use super::amend::bound_anew;
use super::{Desk, Done};

impl Desk<'_> {
    pub(super) fn correct_clock(
        &mut self,
        dev: Dev,
        from_seq: u32,
        to_seq: u32,
        shift_ms: i64,
    ) -> Done {
        Self::clock_holds(from_seq, to_seq, shift_ms)?;
        if !self.state.facts().phones.contains_key(&dev) {
            return Err(Rejection::NotInTheBook {
                subject: Subject::Phone(dev),
            });
        }
        self.push(ClockCorrected {
            dev,
            from_seq,
            to_seq,
            shift_ms,
        });
        Ok(())
    }

    /// A clock is put right over some entries, and by something.
    pub(super) fn clock_holds(from_seq: u32, to_seq: u32, shift_ms: i64) -> Done {
        if from_seq == 0 || from_seq > to_seq || shift_ms == 0 {
            return Err(Rejection::OutOfRange {
                input: Input::Date,
                least: 1,
                most: i64::from(u32::MAX),
            });
        }
        Ok(())
    }

    pub(super) fn amend(
        &mut self,
        target: EntryRef,
        index: u16,
        event: Event,
        why: String,
    ) -> Done {
        let log = self.state.log();
        let entry = log.entry(target).ok_or(Rejection::NotInTheBook {
            subject: Subject::Entry(target),
        })?;
        if log.is_withdrawn(target) {
            return Err(Rejection::AlreadyWithdrawn { entry: target });
        }
        let Ok(events) = &entry.events else {
            return Err(Rejection::NeedsNewerVersion {
                subject: Subject::Entry(target),
            });
        };
        let original = events
            .get(usize::from(index))
            .ok_or(Rejection::NotTheSameEvent)?;
        if !original.may_become(&event) {
            return Err(Rejection::NotTheSameEvent);
        }
        let current = log
            .amendment(target, index)
            .map_or(original, |(_, amended)| amended);
        if *current == event {
            return Err(Rejection::NothingToDo);
        }
        let mut event = event;
        if let (Event::Treated(was), Event::Treated(now)) = (current, &mut event) {
            let phone = self.state.facts().phones.get(&target.dev);
            let at_ms = entry.header.at_ms;
            let made_ms = phone.map_or(at_ms, |phone| phone.corrected_ms(target.seq, at_ms));
            bound_anew(was, now, made_ms);
        }
        self.may_read(target, current, &event)?;
        let why = Self::note(&why)?;
        self.push(Amended {
            target,
            index,
            event: Box::new(event),
            why,
        });
        Ok(())
    }

    pub(super) fn withdraw(
        &mut self,
        targets: &[EntryRef],
        with_dependents: bool,
        why: WithdrawWhy,
        note: String,
    ) -> Done {
        let log = self.state.log();
        let mut all: BTreeSet<EntryRef> = BTreeSet::new();
        let mut open: Vec<EntryRef> = targets.to_vec();
        while let Some(target) = open.pop() {
            if log.entry(target).is_none() {
                return Err(Rejection::NotInTheBook {
                    subject: Subject::Entry(target),
                });
            }
            if log.is_withdrawn(target) {
                return Err(Rejection::AlreadyWithdrawn { entry: target });
            }
            if all.insert(target) {
                let dependents = log.resting_on(target);
                if with_dependents {
                    open.extend(
                        dependents
                            .into_iter()
                            .filter(|dependent| !all.contains(dependent)),
                    );
                } else {
                    let missing: Vec<EntryRef> = dependents
                        .into_iter()
                        .filter(|dependent| !targets.contains(dependent))
                        .collect();
                    if !missing.is_empty() {
                        return Err(Rejection::OthersRestOnIt { entries: missing });
                    }
                }
            }
        }
        self.places_stay(&all)?;
        let opens_the_book = |target: &EntryRef| {
            log.entry(*target).is_some_and(|entry| {
                entry
                    .events
                    .iter()
                    .flatten()
                    .any(|event| matches!(event, Event::BookOpened(_)))
            })
        };
        if all.is_empty() || all.iter().any(opens_the_book) {
            return Err(Rejection::NothingToDo);
        }
        let note = Self::note(&note)?;
        self.push(Withdrawn {
            targets: all.into_iter().collect(),
            why,
            note,
        });
        Ok(())
    }

    /// A place that lots stand in keeps its beginning: entries about those lots name it, but do not bring it in.
    fn places_stay(&self, withdrawn: &BTreeSet<EntryRef>) -> Done {
        let facts = self.state.facts();
        let gone = facts
            .places
            .keys()
            .filter(|place| withdrawn.contains(&place.0.entry));
        for place in gone {
            let stands = |lot: &&Lot| lot.is_stocked() && lot.place.get() == Some(place);
            // A lot whose own beginning goes with it does not stay behind.
            let stays = |id: LotId| !withdrawn.contains(&id.0.entry);
            let lots = facts
                .live_lots()
                .filter(|(id, lot)| stays(*id) && stands(lot))
                .count();
            if lots > 0 {
                return Err(Rejection::PlaceInUse {
                    place: *place,
                    lots,
                });
            }
        }
        Ok(())
    }

    pub(super) fn settle(&mut self, subject: Subject, anomaly: String, note: String) -> Done {
        let note = Self::note(&note)?;
        let asked = self
            .state
            .anomalies()
            .iter()
            .any(|open| open.key() == anomaly && open.subject() == subject);
        if !asked {
            return Err(Rejection::NothingToDo);
        }
        self.push(Settled {
            anomaly,
            subject,
            note,
        });
        Ok(())
    }
}
