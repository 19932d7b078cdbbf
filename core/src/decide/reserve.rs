//! Commands that keep plants for somebody, let them go, and sell them to whom they were kept for.

use chrono::NaiveDate;

use crate::command::Command;
use crate::event::*;
use crate::id::{EntryRef, LotId};
use crate::rejection::{Input, Rejection};

use super::{Desk, Done};

impl Desk<'_> {
    pub(super) fn keep_or_let_go(&mut self, command: Command) -> Done {
        match command {
            Command::ReserveInLot {
                lot,
                plants,
                to,
                until_on,
                note,
            } => self.reserve(lot, plants, &to, until_on, &note),
            Command::ReleaseInLot {
                lot,
                reserved,
                plants,
            } => self.release(lot, reserved, plants),
            Command::SellReserved {
                lot,
                reserved,
                plants,
                stands,
                price_cents,
                note,
            } => self.sell_reserved(lot, reserved, (plants, stands), price_cents, &note),
            _ => Err(Rejection::NothingToDo),
        }
    }

    fn reserve(
        &mut self,
        lot: LotId,
        plants: u32,
        to: &str,
        until_on: Option<NaiveDate>,
        note: &str,
    ) -> Done {
        Self::some_plants(plants)?;
        self.holds(lot, plants, 0)?;
        self.are_unreserved(lot, plants)?;
        let until_on = until_on.map(|on| self.day_ahead(on)).transpose()?;
        let (to, note) = (Self::short(Input::Person, to)?, Self::note(note)?);
        self.push(Reserved {
            lot,
            plants,
            to,
            until_on,
            note,
        });
        Ok(())
    }

    fn release(&mut self, lot: LotId, reserved: EntryRef, plants: u32) -> Done {
        Self::some_plants(plants)?;
        let kept = self.kept_by(lot, reserved)?;
        if i64::from(plants) > kept {
            return Err(Rejection::TooMany {
                input: Input::Plants,
                most: kept.unsigned_abs(),
            });
        }
        self.push(Released {
            lot,
            reserved,
            plants,
        });
        Ok(())
    }

    /// More than were kept are taken from those that are free.
    fn sell_reserved(
        &mut self,
        lot: LotId,
        reserved: EntryRef,
        (plants, stands): (u32, u32),
        price_cents: Option<i64>,
        note: &str,
    ) -> Done {
        let kept = self.kept_by(lot, reserved)?;
        let more = i64::from(plants).saturating_sub(kept).max(0);
        self.are_unreserved(lot, u32::try_from(more).unwrap_or(u32::MAX))?;
        let known = self.lot(lot)?.reserved.get(&reserved);
        let to = known.map(|kept| kept.to.clone()).unwrap_or_default();
        self.sold(Sold {
            lot,
            plants,
            stands,
            to,
            price_cents,
            reserved: Some(reserved),
            passport: String::new(),
            note: note.to_owned(),
        })
    }

    fn some_plants(plants: u32) -> Done {
        Self::number(Input::Plants, plants)?;
        if plants == 0 {
            return Err(Rejection::Missing {
                input: Input::Plants,
            });
        }
        Ok(())
    }

    /// Checks that so many of a lot are kept for nobody. More than there are at all is for `holds` to say.
    pub(super) fn are_unreserved(&self, lot: LotId, plants: u32) -> Done {
        let (there, _) = self.balance(lot)?;
        let reserved = self.reserved(lot)?;
        let free = there.saturating_sub(reserved).max(0);
        if reserved > 0 && i64::from(plants) > free && i64::from(plants) <= there {
            return Err(Rejection::MoreThanFree {
                lot,
                free,
                reserved,
            });
        }
        Ok(())
    }

    /// Plants of a lot kept for somebody, with what this entry has changed so far.
    fn reserved(&self, id: LotId) -> Result<i64, Rejection> {
        let lot = self.lot(id)?;
        let kept = lot.reserved.keys();
        let kept = kept.filter_map(|by| self.kept_by(id, *by).ok());
        let here = self.events.iter().map(|event| match event {
            Event::Reserved(event) if event.lot == id => i64::from(event.plants),
            _ => 0,
        });
        Ok(kept.chain(here).fold(0, i64::saturating_add))
    }

    /// What is left of those an entry kept.
    fn kept_by(&self, id: LotId, reserved: EntryRef) -> Result<i64, Rejection> {
        let known = self.lot(id)?.reserved.get(&reserved);
        let known = known.ok_or(Rejection::NotReserved)?.plants;
        let gone = self.events.iter().map(|event| match event {
            Event::Released(event) if event.lot == id && event.reserved == reserved => event.plants,
            Event::Sold(event) if event.lot == id && event.reserved == Some(reserved) => {
                event.plants
            }
            _ => 0,
        });
        let left = gone.fold(known, |left, gone| left.saturating_sub(i64::from(gone)));
        if left > 0 {
            Ok(left)
        } else {
            Err(Rejection::NotReserved)
        }
    }
}
