//! Commands on lots.

use crate::code::LotCode;
use crate::command::ReceiveLot;
use crate::event::*;
use crate::id::{LotId, PlaceId, Subject};
use crate::name::PlantName;
use crate::quarantine::{suspicion, usual};
use crate::rejection::{Caution, Input, Rejection};

use super::{Desk, Done};

impl Desk<'_> {
    pub(super) fn receive_lot(&mut self, lot: ReceiveLot) -> Done {
        Self::number(Input::Plants, lot.plants)?;
        Self::number(Input::Pots, lot.stands)?;
        if lot.plants == 0 {
            return Err(Rejection::Missing {
                input: Input::Plants,
            });
        }
        self.place_is_known(lot.place)?;
        let potted_on = lot.potted_on.map(|on| self.day(on)).transpose()?;
        let event = LotReceived {
            lot: LotId(self.thing()),
            code: self.code(lot.code)?,
            name: Self::plant_name(lot.name)?,
            plants: lot.plants,
            stands: lot.stands,
            place: lot.place,
            class: lot.class,
            source: lot.source,
            from: Self::short(Input::Text, &lot.from)?,
            outside_ref: Self::short(Input::Text, self.outside(&lot.outside_ref))?,
            potted_on,
            potting: self.potting(lot.potting)?,
            note: Self::note(&lot.note)?,
        };
        self.push(event);
        Ok(())
    }

    /// The name given with the lot, else the one the whole command came with.
    fn outside<'a>(&'a self, given: &'a str) -> &'a str {
        if given.is_empty() {
            &self.outside_ref
        } else {
            given
        }
    }

    pub(super) fn split_lot(
        &mut self,
        from: LotId,
        plants: u32,
        stands: u32,
        place: Option<PlaceId>,
        why: SplitWhy,
    ) -> Done {
        if plants == 0 {
            return Err(Rejection::Missing {
                input: Input::Plants,
            });
        }
        self.holds(from, plants, stands)?;
        self.place_is_known(place)?;
        let whole = self.lot(from)?;
        let (name, class) = (whole.name.or_default(), whole.class);
        let leaves = place.is_some() && place != whole.place.get().copied();
        if leaves && why != SplitWhy::Quarantined {
            self.is_free(from)?;
        }
        let place = place.or(whole.place.get().copied());
        let lot = LotId(self.thing());
        let code = self.code(None)?;
        self.push(LotSplit {
            from,
            lot,
            code,
            plants,
            stands,
            place,
            why,
            name,
            class,
        });
        if why == SplitWhy::Quarantined {
            self.push_stay(
                lot,
                QuarantineWhy::Caution,
                None,
                &usual(QuarantineWhy::Caution, None),
            );
        }
        Ok(())
    }

    pub(super) fn name_lot(&mut self, lot: LotId, name: PlantName) -> Done {
        self.lot(lot)?;
        let name = Self::plant_name(name)?;
        self.push(LotNamed { lot, name });
        Ok(())
    }

    pub(super) fn recode_lot(&mut self, lot: LotId, code: Option<LotCode>) -> Done {
        self.lot(lot)?;
        let code = self.code(code)?;
        self.push(LotCoded { lot, code });
        Ok(())
    }

    pub(super) fn move_lot(&mut self, lot: LotId, to: PlaceId) -> Done {
        let here = self.lot(lot)?.place.get() == Some(&to);
        self.place_is_known(Some(to))?;
        if here {
            return Err(Rejection::NothingToDo);
        }
        self.is_free(lot)?;
        self.push(Moved { lot, to });
        Ok(())
    }

    pub(super) fn count_lot(&mut self, lot: LotId, plants: u32, stands: u32) -> Done {
        Self::number(Input::Plants, plants)?;
        Self::number(Input::Pots, stands)?;
        let (believed_plants, believed_stands) = self.balance(lot)?;
        self.push(Counted {
            lot,
            plants,
            stands,
            believed_plants,
            believed_stands,
        });
        Ok(())
    }

    pub(super) fn lose(
        &mut self,
        lot: LotId,
        plants: u32,
        stands: u32,
        cause: LossCause,
        note: String,
    ) -> Done {
        self.leaves(lot, plants, stands)?;
        let note = Self::note(&note)?;
        self.push(Lost {
            lot,
            plants,
            stands,
            cause,
            note,
        });
        Ok(())
    }

    pub(super) fn sell(
        &mut self,
        lot: LotId,
        plants: u32,
        stands: u32,
        to: String,
        price_cents: Option<i64>,
        note: String,
    ) -> Done {
        self.are_unreserved(lot, plants)?;
        self.sold(Sold {
            lot,
            plants,
            stands,
            to,
            price_cents,
            reserved: None,
            passport: String::new(),
            note,
        })
    }

    /// A sale that is sound but for what is kept for whom.
    pub(super) fn sold(&mut self, mut sale: Sold) -> Done {
        let lot = sale.lot;
        self.leaves(lot, sale.plants, sale.stands)?;
        self.is_free(lot)?;
        if suspicion(self.state.facts(), lot).is_some() {
            self.cautions.push(Caution::Suspect { lot });
        }
        Self::price(sale.price_cents)?;
        sale.to = Self::short(Input::Person, &sale.to)?;
        sale.note = Self::note(&sale.note)?;
        self.push(sale);
        Ok(())
    }

    pub(super) fn gain(
        &mut self,
        lot: LotId,
        plants: u32,
        stands: u32,
        why: GainWhy,
        note: String,
    ) -> Done {
        Self::number(Input::Plants, plants)?;
        Self::number(Input::Pots, stands)?;
        self.lot(lot)?;
        if plants == 0 && stands == 0 {
            return Err(Rejection::Missing {
                input: Input::Plants,
            });
        }
        let note = Self::note(&note)?;
        self.push(Gained {
            lot,
            plants,
            stands,
            why,
            note,
        });
        Ok(())
    }

    pub(super) fn repot_lot(
        &mut self,
        lot: LotId,
        stands: u32,
        potting: Potting,
        class: Option<PieceClass>,
    ) -> Done {
        Self::number(Input::Pots, stands)?;
        let (plants, _) = self.balance(lot)?;
        if plants <= 0 {
            return Err(Rejection::MoreThanThereAre {
                lot,
                plants,
                stands: 0,
            });
        }
        let potting = self.potted_now(potting)?;
        let emptied = self.emptied_by(lot);
        self.push(Repotted {
            lot,
            stands,
            potting: potting.clone(),
            class,
        });
        let suspect = suspicion(self.state.facts(), lot).is_some();
        self.empty(emptied, suspect.then_some(Subject::Lot(lot)));
        self.draw_clean(&potting, stands);
        Ok(())
    }

    fn leaves(&self, lot: LotId, plants: u32, stands: u32) -> Done {
        if plants == 0 && stands == 0 {
            return Err(Rejection::Missing {
                input: Input::Plants,
            });
        }
        self.holds(lot, plants, stands)
    }

    pub(super) fn place_is_known(&self, place: Option<PlaceId>) -> Done {
        let Some(id) = place else { return Ok(()) };
        let new_here = self
            .events
            .iter()
            .any(|event| matches!(event, Event::PlaceSet(set) if set.place == id));
        if new_here || self.state.facts().places.contains_key(&id) {
            Ok(())
        } else {
            Err(Rejection::NotInTheBook {
                subject: Subject::Place(id),
            })
        }
    }
}
