//! What is known of a clump from outside: pots, leads, roughly how many growths, or only a size.

use crate::draft::OpeningDraft;
use crate::event::{CutPlan, PieceClass, RoughSize};
use crate::id::{ClumpId, LotId};
use crate::name::PlantName;
use crate::outlook::Span;
use crate::reference::spacing::{growths_behind_a_lead, growths_in_a_pot};
use crate::reference::taxa::{self, Group, GroupRow, Habit};
use crate::state::{Facts, State};

/// A clump, or plants of one lot that are cut each for itself.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Known {
    pub name: PlantName,
    pub group: Group,
    pub lots: Vec<LotId>,
    /// Plants: one where pots grew together.
    pub wholes: u32,
    /// Pots all of it stands in.
    pub pots: u32,
    /// Leads and growths of all of it, where somebody looked; growths are a guess and never a count.
    pub leads: Option<u32>,
    pub growths: Option<u32>,
    pub size: RoughSize,
}

/// A guess is right to within a quarter (common practice, no source).
const GUESS_PERCENT: u32 = 25;

impl Known {
    #[must_use]
    pub fn row(&self) -> &'static GroupRow {
        taxa::row(self.group)
    }

    /// Whether it is cut through the rhizome: plants of one stem are not, unless they clump.
    #[must_use]
    pub fn divides(&self) -> bool {
        self.row().pieces.flowering.is_some()
    }

    /// Whether old bulbs without a lead make a shoot.
    #[must_use]
    pub fn has_back_bulbs(&self) -> bool {
        matches!(self.row().habit, Habit::Bulbs | Habit::Canes)
    }

    /// Growths in all: as guessed, else by the leads, else by the size; never fewer than plants.
    #[must_use]
    pub fn growths(&self) -> Span {
        let unit = self.row().pieces.unit;
        let times = |each: (u32, u32, u32), of: u32| Span {
            low: each.0.saturating_mul(of),
            middle: each.1.saturating_mul(of),
            high: each.2.saturating_mul(of),
        };
        let span = match (self.growths, self.leads) {
            (Some(guess), _) => Span {
                low: guess.saturating_mul(100 - GUESS_PERCENT) / 100,
                middle: guess,
                high: guess.saturating_mul(100 + GUESS_PERCENT).div_ceil(100),
            },
            (None, Some(leads)) => times(growths_behind_a_lead(unit), leads),
            (None, None) => times(growths_in_a_pot(self.size, unit), self.pots.max(1)),
        };
        let least = self.wholes;
        Span {
            low: span.low.max(least),
            middle: span.middle.max(least),
            high: span.high.max(least),
        }
    }

    /// Leads in all: as seen, else by the growths; a plant has one at least.
    #[must_use]
    pub fn leads(&self) -> Span {
        if let Some(leads) = self.leads {
            let leads = leads.max(self.wholes);
            return Span {
                low: leads,
                middle: leads,
                high: leads,
            };
        }
        let growths = self.growths();
        let (fewest, likely, most) = growths_behind_a_lead(self.row().pieces.unit);
        let least = self.wholes.max(1);
        Span {
            low: (growths.low / most.max(1)).max(least),
            middle: (growths.middle / likely.max(1)).max(least),
            high: (growths.high / fewest.max(1)).max(least),
        }
    }
}

/// Lots cut as one clump, or the plants of one lot each for itself. `None` without a plant.
#[must_use]
pub fn of_lots(facts: &Facts, lots: &[LotId]) -> Option<Known> {
    let plants: Vec<(LotId, u32, u32)> = lots
        .iter()
        .filter_map(|id| {
            let lot = facts.lots.get(id)?;
            let count = |number: i64| u32::try_from(number).unwrap_or(0);
            Some((*id, count(lot.plants), count(lot.stands)))
        })
        .collect();
    of_plants(facts, &plants, 0, None)
}

/// What is chosen for the bench.
#[must_use]
pub fn of_opening(facts: &Facts, draft: &OpeningDraft) -> Option<Known> {
    let plants: Vec<(LotId, u32, u32)> = draft
        .lots
        .iter()
        .filter_map(|id| {
            let lot = facts.lots.get(id)?;
            let count = |number: i64| u32::try_from(number).unwrap_or(0);
            let (plants, stands) = draft.opened(*id, count(lot.plants), count(lot.stands));
            Some((*id, plants, stands))
        })
        .collect();
    let unbooked = if draft.unbooked {
        draft.unbooked_pots
    } else {
        0
    };
    let typed = PlantName::from_typed(&draft.name_typed);
    of_plants(facts, &plants, unbooked, Some(typed))
}

/// A clump that lies on the bench, uncut.
#[must_use]
pub fn of_clump(state: &State, id: ClumpId) -> Option<Known> {
    let clump = state.facts().clumps.get(&id)?;
    let opened = clump.opened.as_ref()?;
    let plants: Vec<(LotId, u32, u32)> = opened
        .lots
        .iter()
        .map(|lot| (lot.lot, lot.plants, lot.stands))
        .collect();
    let mut known = of_plants(
        state.facts(),
        &plants,
        opened.unbooked_pots,
        Some(opened.name.clone()),
    )?;
    known.name = opened.name.clone();
    known.group = known.name.plant_group();
    known.leads = opened.leads;
    Some(known)
}

fn of_plants(
    facts: &Facts,
    plants: &[(LotId, u32, u32)],
    unbooked: u32,
    name: Option<PlantName>,
) -> Option<Known> {
    let booked = plants.first().and_then(|(lot, ..)| facts.lots.get(lot));
    let name = booked
        .map(|lot| lot.name.or_default())
        .or(name)
        .unwrap_or_default();
    let count = plants
        .iter()
        .fold(0_u32, |sum, (_, plants, _)| sum.saturating_add(*plants));
    let stands = plants
        .iter()
        .fold(unbooked, |sum, (.., stands)| sum.saturating_add(*stands));
    let one_lot = plants.len() == 1 && unbooked == 0;
    // Several pots without a line in the book come as one clump, and so do lots that were chosen together.
    let wholes = if one_lot { count } else { 1 };
    if unbooked == 0 && count == 0 {
        return None;
    }
    Some(Known {
        group: name.plant_group(),
        name,
        lots: plants.iter().map(|(lot, ..)| *lot).collect(),
        wholes,
        pots: stands.max(1),
        leads: None,
        growths: None,
        size: RoughSize::default(),
    })
}

impl Known {
    /// The same with what a plan said of it.
    #[must_use]
    pub fn as_planned(mut self, plan: &CutPlan) -> Self {
        self.leads = plan.leads.or(self.leads);
        self.growths = plan.growths;
        self.size = plan.size.unwrap_or(self.size);
        self
    }

    /// Pieces of a class that want a lead each.
    #[must_use]
    pub fn wants_a_lead(class: PieceClass) -> bool {
        matches!(class, PieceClass::Flowering | PieceClass::Starter)
    }
}
