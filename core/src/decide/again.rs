//! What an event of the kinds no screen corrects is held to when it is put right all the same: the limits of its command.
//!
//! What a thing refers to may have gone since: that is looked at only where the correction names another.

use crate::event::*;
use crate::id::EntryRef;
use crate::rejection::{Input, Rejection};
use crate::time::days_between;

use super::{Desk, Done};

impl Desk<'_> {
    /// What is set of the nursery, its shelf and its tables.
    pub(super) fn set_again(&self, event: &Event) -> Done {
        match event {
            Event::BookOpened(it) => {
                Self::needed(Input::Nursery, &it.nursery)?;
                Self::latitude(it.latitude_cdeg)
            }
            Event::BookSet(it) => self.book_holds(it),
            Event::PhoneJoined(it) => Self::short(Input::Name, &it.name).map(drop),
            Event::PhoneLeft(it) => Self::short(Input::Text, &it.note).map(drop),
            Event::PlaceSet(it) => Self::place_holds(it),
            Event::PotSet(it) => {
                if let Some(name) = &it.name {
                    Self::needed(Input::Name, name)?;
                }
                it.form
                    .map_or(Ok(()), |form| form.check().map_err(Rejection::BadPot))
            }
            Event::MixSet(it) => {
                if let Some(name) = &it.name {
                    Self::needed(Input::Name, name)?;
                }
                it.shares.as_deref().map_or(Ok(()), Self::shares_hold)
            }
            Event::ProductSet(it) => Self::product_holds(it),
            Event::GroupSet(it) => it.water_days.map_or(Ok(()), Self::own_days),
            Event::RotationSet(it) => Self::rotation_holds(&it.rules),
            Event::ProtocolAdopted(it) => Self::protocol_holds(&it.content),
            Event::ClockCorrected(it) => Self::clock_holds(it.from_seq, it.to_seq, it.shift_ms),
            Event::Settled(it) => Self::note(&it.note).map(drop),
            _ => Ok(()),
        }
    }

    /// What was done at the bench, in a bath and in quarantine, and what was decided about tasks.
    pub(super) fn done_again(&self, target: EntryRef, was: &Event, event: &Event) -> Done {
        match (was, event) {
            (_, Event::DivisionPlanned(it)) => self.cut_plan(it.plan.clone()).map(drop),
            (_, Event::DivisionOpened(it)) => {
                Self::tray_holds(it.tray, it.unbooked_pots)?;
                for opened in &it.lots {
                    Self::counts(opened.plants, opened.stands, true)?;
                }
                Self::plant_name(it.name.clone())?;
                self.cut_plan(it.plan.clone()).map(drop)
            }
            (Event::PiecesTaken(was), Event::PiecesTaken(it)) => self.pieces_again(was, it),
            (_, Event::HygieneConfirmed(it)) => Self::tools_hold(it.tools),
            (_, Event::BathTopped(it)) => {
                Self::in_a_tub(it.water_ul, 1)?;
                let figures = it.amount_ul.into_iter().chain(it.amount_mg);
                figures
                    .into_iter()
                    .try_for_each(|figure| Self::in_a_container(figure, 0))
            }
            (_, Event::BathEnded(it)) => {
                it.left_ul.map_or(Ok(()), |ul| Self::in_a_tub(ul, 0))?;
                Self::note(&it.disposal).map(drop)
            }
            (Event::QuarantineEntered(was), Event::QuarantineEntered(it)) => {
                let began = self.state.log().entry(target).map(|entry| entry.header.on);
                let until = began.zip(it.until_on);
                let stay = until.map(|(on, until_on)| days_between(on, until_on));
                let tests = it.test_days.iter().map(|days| i64::from(*days));
                Self::stay_holds(tests.chain(stay))?;
                self.finding_is_known(it.finding.filter(|_| it.finding != was.finding))?;
                Self::note(&it.note).map(drop)
            }
            (_, Event::QuarantineReleased(it)) => Self::note(&it.early).map(drop),
            (Event::VirusTested(was), Event::VirusTested(it)) => {
                if it.pooled != was.pooled {
                    self.pooled_holds(it.lot, it.pooled)?;
                }
                Self::short(Input::Person, &it.laboratory)?;
                Self::note(&it.note).map(drop)
            }
            (Event::TaskDecided(was), Event::TaskDecided(it)) => {
                if let TaskAnswer::PutOff { to } = it.answer {
                    if it.answer != was.answer && to <= self.at.today {
                        return Err(Rejection::PutOffToThePast {
                            today: self.at.today,
                        });
                    }
                    self.day_ahead(to)?;
                }
                Self::note(&it.why).map(drop)
            }
            (_, Event::TaskNoted(it)) => {
                Self::needed(Input::Text, &it.text)?;
                Self::short(Input::Text, &it.outside_ref)?;
                self.day_ahead(it.due_on)?;
                Self::repeat_holds(it.repeat_days)
            }
            _ => Ok(()),
        }
    }

    /// Pieces counted otherwise: within the limit, and no fewer of either class than are potted.
    fn pieces_again(&self, was: &PiecesTaken, now: &PiecesTaken) -> Done {
        let Some(clump) = self.state.facts().clumps.get(&now.clump) else {
            return Ok(());
        };
        let of = |class, event: &PiecesTaken| match event.class == class {
            true => i64::from(event.plants),
            false => 0,
        };
        for class in [was.class, now.class] {
            let taken = i64::try_from(clump.taken_of(class)).unwrap_or(i64::MAX);
            let change = of(class, now).saturating_sub(of(class, was));
            let potted = clump.potted_of(class);
            let taken = u64::try_from(taken.saturating_add(change));
            let taken = taken.map_err(|_| Rejection::FewerThanPotted { class, potted })?;
            // What contradicts itself already is not held against what puts it nearer to right.
            if change != 0 {
                Self::pieces_hold(class, taken, potted)?;
            }
        }
        Ok(())
    }
}
