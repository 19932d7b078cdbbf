//! Whether a corrected event stays within what its command would have taken.
//!
//! An amendment is judged by the same limits as the command: counts, texts, amounts, places and codes; and it does not
//! take more from a lot than there is now. A change before a count moves no balance, so it is not held against it. A
//! treatment put right keeps people out until what it says now.

use crate::code::LotCode;
use crate::event::*;
use crate::id::{EntryRef, LotId};
use crate::reference::airing::{after_hours, hours_out};
use crate::rejection::{Input, Rejection};

use super::{Desk, Done};

impl Desk<'_> {
    /// Checks `event` as the new reading of `was`, which stands in `target`.
    pub(super) fn may_read(&self, target: EntryRef, was: &Event, event: &Event) -> Done {
        match event {
            Event::LotReceived(it) => {
                Self::counts(it.plants, it.stands, true)?;
                self.place_is_known(it.place)?;
                it.potted_on.map(|on| self.day(on)).transpose()?;
                Self::plant_name(it.name.clone())?;
                Self::short(Input::Text, &it.from)?;
                Self::short(Input::Text, &it.outside_ref)?;
                self.potting(it.potting.clone())?;
                Self::note(&it.note)?;
            }
            Event::LotSplit(it) => {
                Self::counts(it.plants, it.stands, true)?;
                self.place_is_known(it.place)?;
                Self::plant_name(it.name.clone())?;
            }
            Event::LotNamed(it) => drop(Self::plant_name(it.name.clone())?),
            Event::Moved(it) => self.place_is_known(Some(it.to))?,
            Event::Counted(it) => Self::counts(it.plants, it.stands, false)?,
            Event::Lost(it) => {
                Self::some(it.plants, it.stands)?;
                Self::note(&it.note)?;
            }
            Event::Sold(it) => {
                Self::some(it.plants, it.stands)?;
                Self::price(it.price_cents)?;
                Self::short(Input::Person, &it.to)?;
                Self::note(&it.note)?;
            }
            Event::Gained(it) => {
                Self::some(it.plants, it.stands)?;
                Self::note(&it.note)?;
            }
            Event::Repotted(it) => {
                Self::number(Input::Pots, it.stands)?;
                self.potting(it.potting.clone())?;
            }
            Event::PiecesPotted(it) => {
                Self::counts(it.plants, it.stands, true)?;
                if it.stands == 0 && it.with.is_none() {
                    return Err(Rejection::Missing { input: Input::Pots });
                }
                self.place_is_known(it.place)?;
                Self::plant_name(it.name.clone())?;
                self.potting(it.potting.clone())?;
                self.enough_pieces(was, it)?;
            }
            Event::DivisionClosed(it) => {
                Self::number(Input::Pots, it.dirty_pots)?;
                Self::note(&it.note)?;
            }
            Event::ClimateRead(it) => {
                it.read_on.map(|on| self.day(on)).transpose()?;
                it.reading().check().map_err(Rejection::Reading)?;
            }
            Event::MaterialsMoved(it) => {
                self.materials_are_sound(&it.moved)?;
                Self::note(&it.note)?;
            }
            Event::Sanitised(it) => {
                Self::sanitised_holds(it)?;
                if matches!(it.what, Object::Pots | Object::Stone) {
                    self.materials_are_sound(&it.materials)?;
                }
            }
            Event::Found(it) => Self::finding_holds(it)?,
            Event::Observed(it) => {
                Self::good_holds(it.good)?;
                Self::number(Input::Plants, it.plants.unwrap_or(0))?;
                Self::note(&it.note)?;
            }
            Event::Treated(it) => self.treated_holds(it)?,
            Event::Watered(it) => self.watering_holds(it)?,
            Event::Fed(it) => self.fed_holds(it)?,
            Event::FeedSet(it) => self.feed_holds(it)?,
            Event::PriceSet(it) => self.price_holds(it)?,
            Event::Reserved(it) => {
                Self::some(it.plants, 0)?;
                Self::short(Input::Person, &it.to)?;
                Self::note(&it.note)?;
            }
            Event::Released(it) => Self::some(it.plants, 0)?,
            Event::MeasureSet(it) => self.measure_holds(it)?,
            Event::ContainerSet(it) => self.container_holds(it)?,
            Event::ContainerCounted(it) => Self::in_a_container(it.held().figure(), 0)?,
            Event::ContainerUsed(it) => {
                Self::in_a_container(it.held().figure(), 1)?;
                Self::note(&it.note)?;
            }
            _ => {
                self.set_again(event)?;
                self.done_again(target, was, event)?;
            }
        }
        self.code_is_free(was, event)?;
        self.balances_hold(target, was, event)
    }

    /// A treatment put right is within the limits of one that is recorded.
    fn treated_holds(&self, it: &Treated) -> Done {
        let product = &it.product;
        Self::needed(Input::Name, &product.label_name)?;
        Self::soaks_hold([it.soak_s, it.soaked_s])?;
        Self::number(Input::Pots, it.pots)?;
        for text in [
            &it.person,
            &it.licence,
            &it.plant_code,
            &it.growth_stage,
            &product.registration,
            &product.batch,
            &product.rate_typed,
        ] {
            Self::short(Input::Text, text)?;
        }
        if let Some(id) = product.container {
            self.container_is_of(id, product.product)?;
        }
        if product.actives.len() > crate::limits::ACTIVES_MAX {
            return Err(Rejection::TooMany {
                input: Input::Active,
                most: u64::try_from(crate::limits::ACTIVES_MAX).unwrap_or(u64::MAX),
            });
        }
        for active in &product.actives {
            Self::short(Input::Active, &active.name)?;
            Self::short(Input::Active, &active.content_typed)?;
        }
        for text in [&it.gear, &it.weather, &it.disposal, &it.reason, &it.note] {
            Self::note(text)?;
        }
        Ok(())
    }

    pub(super) fn counts(plants: u32, stands: u32, needed: bool) -> Done {
        Self::number(Input::Plants, plants)?;
        Self::number(Input::Pots, stands)?;
        if needed && plants == 0 {
            return Err(Rejection::Missing {
                input: Input::Plants,
            });
        }
        Ok(())
    }

    fn some(plants: u32, stands: u32) -> Done {
        Self::counts(plants, stands, stands == 0)
    }

    /// A price is none or not below nothing.
    pub(super) fn price(price_cents: Option<i64>) -> Done {
        if price_cents.is_some_and(|cents| cents < 0) {
            return Err(Rejection::OutOfRange {
                input: Input::Rate,
                least: 0,
                most: i64::MAX,
            });
        }
        Ok(())
    }

    /// No more pieces are potted than came off the clump.
    fn enough_pieces(&self, was: &Event, now: &PiecesPotted) -> Done {
        let clump = self.state.facts().clumps.get(&now.clump);
        let (Some(clump), Event::PiecesPotted(was)) = (clump, was) else {
            return Ok(());
        };
        let taken = clump.taken_of(now.class);
        let others = clump
            .potted_of(was.class)
            .saturating_sub(u64::from(was.plants));
        let potted = if was.class == now.class {
            others
        } else {
            clump.potted_of(now.class)
        }
        .saturating_add(u64::from(now.plants));
        let more = was.class != now.class || now.plants > was.plants;
        if more && potted > taken {
            return Err(Rejection::MorePottedThanPieces {
                class: now.class,
                taken,
                potted,
            });
        }
        Ok(())
    }

    /// A code that is put right must not be on another lot.
    fn code_is_free(&self, was: &Event, now: &Event) -> Done {
        let (Some((_, before)), Some((lot, code))) = (coded(was), coded(now)) else {
            return Ok(());
        };
        let mut lots = self.state.facts().live_lots();
        let other = lots.find(|(id, known)| *id != lot && known.code.get() == Some(&code));
        match other {
            Some((lot, _)) if code != before => Err(Rejection::CodeTaken { code, lot }),
            _ => Ok(()),
        }
    }

    /// No lot comes to less than nothing by what reads differently.
    fn balances_hold(&self, target: EntryRef, was: &Event, now: &Event) -> Done {
        let before = moves(was);
        for (lot, plants, stands) in moves(now) {
            let Some(known) = self.state.facts().lots.get(&lot) else {
                continue;
            };
            let counts = known.changes.iter().any(|change| change.entry == target);
            let old = before.iter().find(|(id, ..)| *id == lot);
            let (old_plants, old_stands) =
                old.map_or((0, 0), |(_, plants, stands)| (*plants, *stands));
            let less = |now: i64, old: i64, balance: i64| {
                now < old && balance.saturating_add(now).saturating_sub(old) < 0
            };
            if counts
                && (less(plants, old_plants, known.plants)
                    || less(stands, old_stands, known.stands))
            {
                return Err(Rejection::MoreThanThereAre {
                    lot,
                    plants: known.plants,
                    stands: known.stands,
                });
            }
        }
        Ok(())
    }
}

/// Hours until re-entry or an end that are put right move the instant until which the treatment keeps people out. Without
/// an end it counts from when it was written down.
pub(super) fn bound_anew(was: &Treated, now: &mut Treated, made_ms: i64) {
    let (hours_then, hours) = (was.product.reentry_h, now.product.reentry_h);
    let as_before = (hours, now.ended_ms) == (hours_then, was.ended_ms);
    if as_before || now.until_ms != was.until_ms {
        return;
    }
    let end_then = was.ended_ms.unwrap_or(made_ms);
    let end = now.ended_ms.unwrap_or(made_ms);
    let counted = hours_out(hours, now.airing).map(|hours| after_hours(end, hours));
    // What went with it in one tank may bind longer and is not known here: only fewer hours bind for less time.
    let along = was
        .until_ms
        .filter(|_| hours >= hours_then)
        .map(|until| until.saturating_add(end.saturating_sub(end_then)));
    now.until_ms = counted.max(along);
}

/// The lot an event gives a code to.
fn coded(event: &Event) -> Option<(LotId, LotCode)> {
    match event {
        Event::LotReceived(it) => Some((it.lot, it.code)),
        Event::LotSplit(it) => Some((it.lot, it.code)),
        Event::PiecesPotted(it) => Some((it.lot, it.code)),
        Event::LotCoded(it) => Some((it.lot, it.code)),
        _ => None,
    }
}

/// What an event does to the balances of lots: plants and pots, less where they leave.
fn moves(event: &Event) -> Vec<(LotId, i64, i64)> {
    let (lot, plants, stands, gone) = match event {
        Event::LotReceived(it) => (it.lot, it.plants, it.stands, false),
        Event::PiecesPotted(it) => (it.lot, it.plants, it.stands, false),
        Event::Gained(it) => (it.lot, it.plants, it.stands, false),
        Event::Lost(it) => (it.lot, it.plants, it.stands, true),
        Event::Sold(it) => (it.lot, it.plants, it.stands, true),
        Event::LotSplit(it) => {
            let (plants, stands) = (i64::from(it.plants), i64::from(it.stands));
            return vec![(it.from, -plants, -stands), (it.lot, plants, stands)];
        }
        Event::DivisionOpened(it) => {
            let opened = it.lots.iter();
            return opened
                .map(|one| (one.lot, -i64::from(one.plants), -i64::from(one.stands)))
                .collect();
        }
        _ => return Vec::new(),
    };
    let sign = if gone { -1 } else { 1 };
    vec![(lot, sign * i64::from(plants), sign * i64::from(stands))]
}
