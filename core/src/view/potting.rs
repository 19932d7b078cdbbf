//! What a batch is potted in: the pot in section, the litres of mix and the kilograms of stone.

use crate::event::{Cover, PieceClass, Potting};
use crate::id::{MixId, PlaceId, PotId};
use crate::potting::{
    Bill, DEFAULT_SETTLE_PERMILLE, Layers, Pot, PottingRejection, Standing, bill, default_stone,
};
use crate::quantity::{Length, Mass, Volume};
use crate::reference::media;
use crate::state::{Born, Facts};

/// Dry bulk density of the drainage stone in g per litre, where the grower has not said otherwise.
///
/// The table's row for gravel names its source.
#[must_use]
pub fn stone_g_per_l() -> u32 {
    media::component("gravel").map_or(1_390, media::Component::dry_g_per_l_middle)
}

/// How a plant of a height and weight stands in a pot: usual layers with so much stone, everything watered.
///
/// The middle of the plant's weight is taken at half its height above the mix, the wall at 45 g/L of pot, a plastic pot
/// (common practice, no source). Densities of the layers as the table of media has them, wet.
#[must_use]
pub fn standing(pot: Pot, stone: Length, plant_high: Length, plant: Mass) -> Standing {
    let wet = |key: &str, else_g: u32| {
        media::component(key).map_or(else_g, |row| {
            row.dry_g_per_l_middle()
                .saturating_add(row.water_permille_middle())
        })
    };
    let layers = Layers {
        stone,
        ..usual_layers(&pot)
    };
    let height = match pot {
        Pot::Round { height, .. } | Pot::Square { height, .. } => height,
        Pot::Holds { .. } => Length::ZERO,
    };
    let ul = pot.brimful().map(Volume::ul).unwrap_or_default();
    let filled = height.um().saturating_sub(layers.headspace.um());
    Standing {
        pot,
        layers,
        stone_g_per_l: wet("gravel", 1_490),
        mix_g_per_l: wet("bark_coarse", 300),
        wall: Mass::from_mg(ul.saturating_mul(45) / 1_000),
        plant,
        plant_middle: Length::from_um(filled.saturating_add(plant_high.um() / 2)),
    }
}

/// Layers a pot starts with: stone to a quarter of its height, and a finger's breadth under the rim (common practice,
/// no source: 1 cm in small pots, 2 cm in large).
#[must_use]
pub fn usual_layers(pot: &Pot) -> Layers {
    let headspace = match *pot {
        Pot::Round { height, .. } | Pot::Square { height, .. } if height.um() < 110_000 => {
            Length::from_mm(10)
        }
        Pot::Round { height, .. } | Pot::Square { height, .. } if height.um() < 200_000 => {
            Length::from_mm(15)
        }
        Pot::Round { .. } | Pot::Square { .. } => Length::from_mm(20),
        Pot::Holds { .. } => Length::ZERO,
    };
    Layers {
        stone: default_stone(pot),
        headspace,
    }
}

/// Why a place keeps a mix wet for longer.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Wet {
    /// Open to rain.
    Rain,
    /// The air was damper than four fifths, on the mean of the last readings.
    Humid,
}

/// Readings of damp that are looked at, and how many there must be.
const DAMP_READINGS: usize = 14;
const DAMP_LEAST: usize = 7;
/// Damp from which growers take a coarser mix, in thousandths (common practice, no source).
const DAMP_PERMILLE: u32 = 800;

/// Whether plants of a place want a coarser mix than usual; `None` where nothing speaks for it.
#[must_use]
pub fn wet(facts: &Facts, place: PlaceId) -> Option<Wet> {
    let place = facts.places.get(&place)?;
    if place.cover.or_default() == Cover::OpenToRain {
        return Some(Wet::Rain);
    }
    let damp: Vec<u32> = place
        .house
        .readings
        .values()
        .rev()
        .filter_map(|read| {
            let (low, high) = (read.humidity_min_permille?, read.humidity_max_permille?);
            Some(u32::from(low).midpoint(u32::from(high)))
        })
        .take(DAMP_READINGS)
        .collect();
    let count = u32::try_from(damp.len()).unwrap_or(u32::MAX);
    let mean = damp.iter().sum::<u32>().checked_div(count)?;
    (damp.len() >= DAMP_LEAST && mean > DAMP_PERMILLE).then_some(Wet::Humid)
}

/// Whether pieces of a class usually share a tray instead of standing in a pot each (common practice, no source).
#[must_use]
pub fn shares_a_tray(class: PieceClass) -> bool {
    matches!(class, PieceClass::BackBulb | PieceClass::BrokenShoot)
}

/// What pieces of a class went into last.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct LastPotting {
    pub pot: Option<PotId>,
    pub mix: Option<MixId>,
    /// Where that lot stands now.
    pub place: Option<PlaceId>,
}

/// The last potting of pieces of a class off any clump; `None` where there was none. Pots and mixes that are out of
/// use are left out.
#[must_use]
pub fn last_of_class(facts: &Facts, class: PieceClass) -> Option<LastPotting> {
    let cut = facts.lots.iter().filter(|(_, lot)| {
        lot.class == Some(class) && matches!(lot.born, Some(Born::Potted { .. }))
    });
    let potted = cut.filter_map(|(id, lot)| Some((lot.potted.as_ref()?, *id, lot)));
    let (potted, _, lot) = potted.max_by_key(|(potted, id, _)| (potted.on, *id))?;
    let in_use = |retired: Option<bool>| retired == Some(false);
    let pot = potted
        .potting
        .pot
        .filter(|id| in_use(facts.pots.get(id).map(|pot| pot.retired.or_default())));
    let mix = potted
        .potting
        .mix
        .filter(|id| in_use(facts.mixes.get(id).map(|mix| mix.retired.or_default())));
    Some(LastPotting {
        pot,
        mix,
        place: lot.place.get().copied(),
    })
}

/// The litres and kilograms for so many pots of a kind in the book.
///
/// # Errors
/// [`PottingRejection`] when the layers do not fit the pot; `None` inside when the pot has no form yet.
pub fn bill_of(
    facts: &Facts,
    pot: PotId,
    layers: &Layers,
    stands: u32,
) -> Result<Option<Bill>, PottingRejection> {
    let Some(form) = facts.pots.get(&pot).and_then(|pot| pot.form.get()) else {
        return Ok(None);
    };
    bill(
        form,
        layers,
        stands,
        DEFAULT_SETTLE_PERMILLE,
        stone_g_per_l(),
    )
    .map(Some)
}

/// What is copied into an entry about a potting.
///
/// # Errors
/// As [`bill_of`].
pub fn potting_of(
    facts: &Facts,
    pot: Option<PotId>,
    mix: Option<MixId>,
    layers: Layers,
    stands: u32,
) -> Result<Potting, PottingRejection> {
    let sums = match pot {
        Some(pot) => bill_of(facts, pot, &layers, stands)?,
        None => None,
    };
    let known_mix = mix.and_then(|mix| facts.mixes.get(&mix));
    let known_pot = pot.and_then(|pot| facts.pots.get(&pot));
    Ok(Potting {
        pot,
        pot_name: known_pot
            .map(|pot| pot.name.or_default())
            .unwrap_or_default(),
        layers,
        mix,
        mix_name: known_mix
            .map(|mix| mix.name.or_default())
            .unwrap_or_default(),
        mix_ul: sums.map_or(0, |sums| sums.mix.ul()),
        stone_ul: sums.map_or(0, |sums| sums.stone.ul()),
        stone_mg: sums.map_or(0, |sums| sums.stone_mass.mg()),
        mix_life_months: known_mix
            .map(|mix| mix.life_months.or_default())
            .unwrap_or_default(),
        ..Potting::default()
    })
}
