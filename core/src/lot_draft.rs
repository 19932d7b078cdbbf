//! Lots in hand: one being added, and a change to one, as tapped and typed so far.
//!
//! Like every draft they are stored at every tap and say nothing to other phones. Fields that were not touched follow
//! the obvious: pots follow plants. What was typed stays as typed until the book accepts it.

use chrono::NaiveDate;
use serde::{Deserialize, Serialize};

use crate::code::LotCode;
use crate::command::{Command, ReceiveLot};
use crate::event::{GainWhy, LossCause, PieceClass, Source, SplitWhy};
use crate::id::{EntryRef, LotId, MixId, PlaceId, PotId};
use crate::name::PlantName;
use crate::potting::PottingRejection;
use crate::quantity::Decimal;
use crate::season::add_months;
use crate::state::State;
use crate::view::potting::{potting_of, usual_layers};

/// A place that is chosen, or a new one that is typed and not recorded yet.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct PlaceDraft {
    #[serde(default)]
    pub chosen: Option<PlaceId>,
    #[serde(default)]
    pub is_new: bool,
    #[serde(default)]
    pub typed: String,
}

impl PlaceDraft {
    /// The name of a place that has to be recorded first.
    #[must_use]
    pub fn new_name(&self) -> Option<&str> {
        let typed = self.typed.trim();
        (self.is_new && !typed.is_empty()).then_some(typed)
    }

    /// Once the new place is in the book, it is the one chosen.
    pub fn recorded(&mut self, place: PlaceId) {
        *self = Self {
            chosen: Some(place),
            ..Self::default()
        };
    }
}

/// When a lot that comes into the book was last potted, as closely as the grower knows.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum PottedWhen {
    #[default]
    NotKnown,
    ThisMonth,
    LastYear,
    TwoYearsAgo,
    On,
}

/// A lot being added.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct NewLotDraft {
    #[serde(default)]
    pub version: u16,
    #[serde(default)]
    pub name_typed: String,
    /// One plant until it was changed.
    #[serde(default)]
    pub plants: Option<u32>,
    /// As many pots as plants until it was changed.
    #[serde(default)]
    pub stands: Option<u32>,
    #[serde(default)]
    pub place: PlaceDraft,
    #[serde(default)]
    pub class: Option<PieceClass>,
    #[serde(default)]
    pub potted: PottedWhen,
    #[serde(default)]
    pub potted_on: Option<NaiveDate>,
    #[serde(default)]
    pub source: Source,
    #[serde(default)]
    pub from: String,
}

impl NewLotDraft {
    #[must_use]
    pub fn plants(&self) -> u32 {
        self.plants.unwrap_or(1)
    }

    #[must_use]
    pub fn stands(&self) -> u32 {
        self.stands.unwrap_or_else(|| self.plants())
    }

    #[must_use]
    pub fn name(&self) -> PlantName {
        PlantName::from_typed(&self.name_typed)
    }

    /// The day it was potted, as closely as it is known.
    #[must_use]
    pub fn potted_on(&self, today: NaiveDate) -> Option<NaiveDate> {
        match self.potted {
            PottedWhen::NotKnown => None,
            PottedWhen::ThisMonth => Some(today),
            PottedWhen::LastYear => add_months(today, -12),
            PottedWhen::TwoYearsAgo => add_months(today, -24),
            PottedWhen::On => self.potted_on,
        }
    }

    /// The command that brings it into the book, under the code that was shown.
    #[must_use]
    pub fn receive(&self, code: Option<LotCode>, today: NaiveDate) -> Command {
        Command::ReceiveLot(ReceiveLot {
            code,
            name: self.name(),
            plants: self.plants(),
            stands: self.stands(),
            place: self.place.chosen,
            class: self.class,
            source: self.source,
            from: self.from.clone(),
            potted_on: self.potted_on(today),
            ..ReceiveLot::default()
        })
    }
}

/// What may be changed on a lot.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Change {
    Move,
    Count,
    Split,
    Lose,
    Sell,
    Gain,
    PotOn,
    Name,
    Reserve,
}

/// What is still missing from a change, before the book is asked.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum ChangeFault {
    NoPlace,
    NoCause,
    NotAPrice,
    Pot(PottingRejection),
}

/// A change to a lot, as far as it was tapped.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct ChangeDraft {
    #[serde(default)]
    pub version: u16,
    /// Whether the grower is at it; closed, it is still there.
    #[serde(default)]
    pub open: bool,
    #[serde(default)]
    pub what: Option<Change>,
    #[serde(default)]
    pub plants: u32,
    #[serde(default)]
    pub stands: Option<u32>,
    #[serde(default)]
    pub place: PlaceDraft,
    #[serde(default)]
    pub split: Option<SplitWhy>,
    #[serde(default)]
    pub cause: Option<LossCause>,
    #[serde(default)]
    pub gain: Option<GainWhy>,
    #[serde(default)]
    pub to: String,
    #[serde(default)]
    pub price_typed: String,
    /// Sold out of those kept by this entry.
    #[serde(default)]
    pub reserved: Option<EntryRef>,
    /// Sold although fewer are free: as many as are wanted are no longer kept.
    #[serde(default)]
    pub anyway: bool,
    /// Kept until this day.
    #[serde(default)]
    pub until_on: Option<NaiveDate>,
    #[serde(default)]
    pub name_typed: String,
    #[serde(default)]
    pub pot: Option<PotId>,
    #[serde(default)]
    pub mix: Option<MixId>,
    #[serde(default)]
    pub class: Option<PieceClass>,
    #[serde(default)]
    pub note: String,
}

impl ChangeDraft {
    /// A change begun: from what the book says of the lot where it is set anew, else one plant.
    #[must_use]
    pub fn begin(state: &State, lot: LotId, what: Change) -> Self {
        let known = state.facts().lots.get(&lot);
        let count = |number: i64| u32::try_from(number).unwrap_or(0);
        let plants = known.map_or(0, |lot| count(lot.plants));
        let stands = known.map_or(0, |lot| count(lot.stands));
        let begun = Self {
            open: true,
            what: Some(what),
            plants: 1,
            ..Self::default()
        };
        match what {
            Change::Count => Self {
                plants,
                stands: Some(stands),
                ..begun
            },
            Change::PotOn => Self {
                plants,
                stands: Some(stands),
                pot: known.and_then(|lot| lot.potted.as_ref()?.potting.pot),
                mix: known.and_then(|lot| lot.potted.as_ref()?.potting.mix),
                ..begun
            },
            Change::Name => Self {
                name_typed: known
                    .map(|lot| lot.name.or_default().plain())
                    .unwrap_or_default(),
                ..begun
            },
            Change::Reserve => Self {
                plants: known.map_or(1, |lot| count(lot.unreserved()).min(1)),
                ..begun
            },
            Change::Move | Change::Split | Change::Lose | Change::Sell | Change::Gain => begun,
        }
    }

    /// Pots follow plants until they were changed.
    #[must_use]
    pub fn stands(&self) -> u32 {
        self.stands.unwrap_or(self.plants)
    }

    /// The command; `None` when nothing was chosen.
    ///
    /// # Errors
    /// What has to be filled in or put right first.
    pub fn command(&self, state: &State, lot: LotId) -> Result<Option<Command>, ChangeFault> {
        let Some(what) = self.what else {
            return Ok(None);
        };
        let (plants, stands, note) = (self.plants, self.stands(), self.note.clone());
        Ok(Some(match what {
            Change::Move => Command::MoveLot {
                lot,
                to: self.place.chosen.ok_or(ChangeFault::NoPlace)?,
            },
            Change::Count => Command::CountLot {
                lot,
                plants,
                stands,
            },
            Change::Split => Command::SplitLot {
                from: lot,
                plants,
                stands,
                place: self.place.chosen,
                why: self.split.unwrap_or(SplitWhy::Sorted),
            },
            Change::Lose => Command::LoseFromLot {
                lot,
                plants,
                stands,
                cause: self.cause.ok_or(ChangeFault::NoCause)?,
                note,
            },
            Change::Sell => self.sell(state, lot)?,
            Change::Reserve => Command::ReserveInLot {
                lot,
                plants,
                to: self.to.clone(),
                until_on: self.until_on,
                note,
            },
            Change::Gain => Command::GainInLot {
                lot,
                plants,
                stands,
                why: self.gain.unwrap_or(GainWhy::Offshoot),
                note,
            },
            Change::PotOn => self.pot_on(state, lot)?,
            Change::Name => Command::NameLot {
                lot,
                name: PlantName::from_typed(&self.name_typed),
            },
        }))
    }

    /// A sale; out of those kept for somebody, or of others with fewer kept than before where that was asked for.
    fn sell(&self, state: &State, lot: LotId) -> Result<Command, ChangeFault> {
        let price_cents = cents(&self.price_typed)?;
        let (plants, stands, note) = (self.plants, self.stands(), self.note.clone());
        if let Some(reserved) = self.reserved {
            return Ok(Command::SellReserved {
                lot,
                reserved,
                plants,
                stands,
                price_cents,
                note,
            });
        }
        let sale = Command::SellFromLot {
            lot,
            plants,
            stands,
            to: self.to.clone(),
            price_cents,
            note,
        };
        let mut commands = Vec::new();
        if self.anyway
            && let Some(known) = state.facts().lots.get(&lot)
        {
            // The last that was kept gives way first.
            let mut wanted = i64::from(plants).saturating_sub(known.unreserved());
            for (by, kept) in known.reserved.iter().rev() {
                let plants = u32::try_from(wanted.min(kept.plants)).unwrap_or(0);
                if plants > 0 {
                    commands.push(Command::ReleaseInLot {
                        lot,
                        reserved: *by,
                        plants,
                    });
                    wanted = wanted.saturating_sub(i64::from(plants));
                }
            }
        }
        commands.push(sale);
        Ok(match commands.len() {
            1 => commands.remove(0),
            _ => Command::Together(commands),
        })
    }

    fn pot_on(&self, state: &State, lot: LotId) -> Result<Command, ChangeFault> {
        let facts = state.facts();
        let form = self
            .pot
            .and_then(|pot| facts.pots.get(&pot)?.form.get().copied());
        let layers = form.as_ref().map(usual_layers).unwrap_or_default();
        let stands = self.stands();
        let potting =
            potting_of(facts, self.pot, self.mix, layers, stands).map_err(ChangeFault::Pot)?;
        Ok(Command::RepotLot {
            lot,
            stands,
            potting,
            class: self.class,
        })
    }
}

/// A price as typed, in hundredths; `None` when nothing was typed.
fn cents(typed: &str) -> Result<Option<i64>, ChangeFault> {
    if typed.trim().is_empty() {
        return Ok(None);
    }
    let price = Decimal::parse(typed).map_err(|_| ChangeFault::NotAPrice)?;
    let hundredths = price
        .hundredths()
        .filter(|cents| *cents >= 0)
        .ok_or(ChangeFault::NotAPrice)?;
    Ok(Some(hundredths))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_price_takes_comma_or_point_and_whole_hundredths_only() {
        assert_eq!(cents(" "), Ok(None));
        assert_eq!(cents("12,50"), Ok(Some(1_250)));
        assert_eq!(cents("12.5"), Ok(Some(1_250)));
        assert_eq!(cents("7"), Ok(Some(700)));
        assert_eq!(cents("0.500"), Ok(Some(50)));
        for wrong in ["12.505", "-3", "ten", "1,250"] {
            assert_eq!(cents(wrong), Err(ChangeFault::NotAPrice), "{wrong}");
        }
    }

    #[test]
    fn pots_follow_plants_until_they_are_changed() {
        let mut draft = NewLotDraft::default();
        assert_eq!((draft.plants(), draft.stands()), (1, 1));
        draft.plants = Some(9);
        assert_eq!(draft.stands(), 9);
        draft.stands = Some(2);
        draft.plants = Some(10);
        assert_eq!((draft.plants(), draft.stands()), (10, 2));
    }

    #[test]
    fn a_lot_potted_last_year_counts_from_a_year_ago() {
        let today: NaiveDate = "2028-02-29".parse().unwrap();
        let mut draft = NewLotDraft::default();
        assert_eq!(draft.potted_on(today), None);
        draft.potted = PottedWhen::LastYear;
        assert_eq!(draft.potted_on(today), "2027-02-28".parse().ok());
        draft.potted = PottedWhen::On;
        assert_eq!(
            draft.potted_on(today),
            None,
            "a day not chosen is not known"
        );
    }
}
