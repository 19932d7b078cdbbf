//! A bath in hand: what is mixed, what lies in it, how long, and what lay in it before.
//!
//! One tub of one mixture takes one lot of pieces after another; each dip becomes a treatment on record when it comes
//! out, and all but the first say that nothing was measured anew. Invariants: the amount follows from the label's rate
//! and the water and from nothing else; a rate that is not the label's for dipping goes on only with a reason; what
//! lies in the tub is fixed when the soak starts.

mod batch;
mod dose;
mod fine;
mod label;
mod life;
mod soak;
mod topping;
mod tub;

pub use crate::apply::{BottleDraft, LabelRange, Mixture, Rotated, TakenFrom};
pub use batch::{Suspicion, suspicion};
pub use label::{LabelFor, Named, copy, label_for, use_for, uses};
pub use life::{Age, Level, LevelFault, Life, StrengthLeft, ThrowOut};
pub use soak::{Soak, SoakState};
pub use tub::{Side, TubDraft, TubFault, TubShape};

use chrono::NaiveDate;
use serde::{Deserialize, Serialize};

use crate::apply::{MixFault, Mixing};
use crate::command::{Command, RecordTreatment, TankPartner};
use crate::event::{Method, PieceClass, TreatedPart};
use crate::id::{ClumpId, LotId, TreatmentId};
use crate::limits::SOAK_S_MAX;
use crate::quantity::{Amount, Volume};
use crate::rotation::Target;
use crate::state::State;
use crate::view::treat::bare_pieces;

/// Where in the work a bath is.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum BathStep {
    /// Which bottle, against what, how much water.
    #[default]
    Mix,
    /// Gloves, goggles, air: before anything is opened.
    Safety,
    /// What goes in.
    Load,
    /// It lies in it.
    Soak,
}

/// A bath in hand.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct BathDraft {
    #[serde(default)]
    pub version: u16,
    #[serde(default)]
    pub step: BathStep,
    #[serde(flatten)]
    pub mixing: Mixing,
    /// Seconds to lie in it; `None` takes the label's.
    #[serde(default)]
    pub soak_s: Option<u32>,
    #[serde(default)]
    pub tub: TubDraft,
    #[serde(default)]
    pub lots: Vec<LotId>,
    #[serde(default)]
    pub pieces: Vec<(ClumpId, PieceClass)>,
    /// Emptied pots that go in with them, where the label allows it.
    #[serde(default)]
    pub pots: u32,
    #[serde(default)]
    pub search: String,
    /// Seconds between the tap and the last piece in.
    #[serde(default)]
    pub delay_s: Option<u32>,
    #[serde(default)]
    pub soak: Option<Soak>,
    /// What lies in it, as counted when the soak started.
    #[serde(default)]
    pub lying: Vec<TreatedPart>,
    /// The first treatment out of this mixture, once it is on record.
    #[serde(default)]
    pub mixed_for: Option<TreatmentId>,
    #[serde(default)]
    pub dips: u32,
    #[serde(default)]
    pub life: Life,
    #[serde(default)]
    pub note: String,
}

/// What is still in the way.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum BathFault {
    /// The mixture itself.
    Mix(MixFault),
    NoSoak,
    SoakTooLong,
    Tub(TubFault),
    NothingIn,
    NotSoaking,
    /// A virus is suspected: it goes into no bath that others share.
    VirusShared,
    /// A virus suspect lay in it: nothing more goes in.
    AfterVirus,
}

impl From<MixFault> for BathFault {
    fn from(fault: MixFault) -> Self {
        Self::Mix(fault)
    }
}

/// Ready-made delays, in seconds: time to put the last piece in without touching the glass again.
pub const DELAYS_S: [u32; 3] = [0, 10, 30];
const DELAY_S: u32 = 10;

impl BathDraft {
    /// The label for dipping, with what was answered here in place of what is not typed yet.
    #[must_use]
    pub fn label(&self, state: &State) -> LabelFor {
        self.mixing.label(state, Method::Bath)
    }

    /// Seconds to lie in it: as typed, else the label's.
    #[must_use]
    pub fn wanted_s(&self, state: &State) -> Option<u32> {
        self.soak_s.or(self.label(state).soak_s)
    }

    /// What to measure into how much water.
    ///
    /// # Errors
    /// What is missing or cannot be read.
    pub fn mixture(&self, state: &State) -> Result<Mixture, BathFault> {
        let rate = self.mixing.rate_for_water(state, Method::Bath)?;
        let water = self.tub.water().map_err(BathFault::Tub)?;
        Ok(rate.in_water(water)?)
    }

    /// Whether it may be mixed.
    ///
    /// # Errors
    /// The first thing in the way, from top to bottom of the screen.
    pub fn ready_to_mix(&self, state: &State) -> Result<Mixture, BathFault> {
        self.mixing.settled(state, Method::Bath, true)?;
        match self.wanted_s(state) {
            None | Some(0) => return Err(BathFault::NoSoak),
            Some(s) if s > SOAK_S_MAX => return Err(BathFault::SoakTooLong),
            Some(_) => {}
        }
        let mixture = self.mixture(state)?;
        self.mixing.within_label(state, Method::Bath)?;
        let tank = self.mixing.tank(state, Method::Bath, mixture.water);
        tank.map_err(MixFault::Tank)?;
        Ok(mixture)
    }

    /// What is said of the product for the lots and pieces chosen.
    #[must_use]
    pub fn rotated(&self, state: &State, today: NaiveDate) -> Option<Rotated> {
        self.mixing
            .rotated(state, Method::Bath, &self.targets(state), today)
    }

    /// Lets the bath go on: what is advised against wants a reason.
    ///
    /// # Errors
    /// [`MixFault::NoRotationReason`].
    pub fn go_on_rotated(&mut self, state: &State, today: NaiveDate) -> Result<(), BathFault> {
        let targets = self.targets(state);
        self.mixing
            .go_on_rotated(state, Method::Bath, &targets, today)?;
        Ok(())
    }

    /// What was chosen to go in, as what has a history.
    #[must_use]
    pub fn targets(&self, state: &State) -> Vec<Target> {
        self.parts(state).iter().map(Target::from).collect()
    }

    /// Puts a lot in or takes it out.
    pub fn switch_lot(&mut self, lot: LotId) {
        switch(&mut self.lots, lot);
    }

    /// Puts a class of bare pieces in or takes it out.
    pub fn switch_pieces(&mut self, clump: ClumpId, class: PieceClass) {
        switch(&mut self.pieces, (clump, class));
    }

    /// What was chosen to go in, with what there is of it now.
    #[must_use]
    pub fn parts(&self, state: &State) -> Vec<TreatedPart> {
        parts(state, &self.lots, &self.pieces)
    }

    /// Starts the soak at a tap: the last piece is in after the delay.
    ///
    /// # Errors
    /// Nothing goes in, or no time is said.
    pub fn start(&mut self, state: &State, now_ms: i64) -> Result<(), BathFault> {
        let parts = self.parts(state);
        if parts.is_empty() {
            return Err(BathFault::NothingIn);
        }
        let worst = self.may_share(state, &parts)?;
        let wanted_s = self
            .wanted_s(state)
            .filter(|s| *s > 0)
            .ok_or(BathFault::NoSoak)?;
        let delay_ms = i64::from(self.delay_s.unwrap_or(DELAY_S)).saturating_mul(1_000);
        self.life.worst_lying = worst;
        self.lying = parts;
        self.soak = Some(Soak::new(now_ms.saturating_add(delay_ms), wanted_s));
        self.step = BathStep::Soak;
        Ok(())
    }

    /// Nothing was put in after all.
    pub fn stop(&mut self) {
        self.soak = None;
        self.lying.clear();
        self.step = BathStep::Load;
    }

    /// The record of what lay in it, taken out at that instant.
    ///
    /// # Errors
    /// What is missing.
    pub fn record(&self, state: &State, out_ms: i64) -> Result<Command, BathFault> {
        let soak = self.soak.ok_or(BathFault::NotSoaking)?;
        let product = self.mixing.product_copy(state, Method::Bath)?;
        let against = self.mixing.against.ok_or(MixFault::NoAgent)?;
        let mixture = self.mixture(state)?;
        let label = self.label(state);
        let same_mix_as = self.same_mix_as(state);
        let first = same_mix_as.is_none();
        let tank = self.tank(state, same_mix_as, mixture.water)?;
        let (amount_ul, amount_mg) = match mixture.amount {
            Amount::Volume(volume) => (Some(volume.ul()), None),
            Amount::Mass(mass) => (None, Some(mass.mg())),
        };
        Ok(Command::RecordTreatment(RecordTreatment {
            treated: self.lying.clone(),
            method: Method::Bath,
            against,
            aim: self.mixing.aim(),
            product,
            place: None,
            finding: self.mixing.finding,
            water_ul: first.then_some(mixture.water.ul()),
            amount_ul: amount_ul.filter(|_| first),
            amount_mg: amount_mg.filter(|_| first),
            same_mix_as,
            started_ms: Some(soak.in_ms),
            ended_ms: Some(out_ms),
            soak_s: Some(soak.wanted_s),
            soaked_s: soak.soaked_s(out_ms),
            soak_own: label.soak_s.is_none(),
            pots: if label.pots_too { self.pots } else { 0 },
            until_ms: self.mixing.until_ms(state, Method::Bath, out_ms),
            airing: None,
            tank: tank.map(Box::new),
            then: None,
            person: String::new(),
            licence: String::new(),
            gear: label.gear,
            reason: self.mixing.reasons(state, Method::Bath),
            note: self.note.trim().to_owned(),
        }))
    }

    /// The second product of the tank; measured once, as the first is.
    fn tank(
        &self,
        state: &State,
        same_mix_as: Option<TreatmentId>,
        water: Volume,
    ) -> Result<Option<TankPartner>, BathFault> {
        let tank = self.mixing.tank(state, Method::Bath, water);
        let Some(tank) = tank.map_err(MixFault::Tank)? else {
            return Ok(None);
        };
        let Some(first) = same_mix_as else {
            return Ok(Some(tank));
        };
        let mut treatments = state.facts().treatments.iter();
        let partner = treatments.find(|(_, known)| known.event.tank_with == Some(first));
        Ok(Some(TankPartner {
            amount_ul: None,
            amount_mg: None,
            same_mix_as: partner.map(|(id, _)| *id),
            ..tank
        }))
    }

    /// The treatment this mixture was made for. A phone that died right after the first dip was recorded never learnt
    /// its name: then it is the last bath of it that was measured on this phone. What another phone mixed, and what was
    /// sprayed, is no mixture of this tub.
    fn same_mix_as(&self, state: &State) -> Option<TreatmentId> {
        if self.dips == 0 {
            return self.mixed_for;
        }
        self.mixed_for.or_else(|| {
            let here =
                |id: &TreatmentId| self.life.mixed_by.is_none_or(|dev| id.0.entry.dev == dev);
            let measured = state.facts().treatments.iter().filter(|(id, known)| {
                let event = &known.event;
                here(id)
                    && event.method == Method::Bath
                    && event.product.product == self.mixing.product
                    && event.tank_with.is_none()
                    && event.water_ul.is_some()
            });
            measured
                .max_by_key(|(id, known)| (known.on, known.event.ended_ms, **id))
                .map(|(id, _)| *id)
        })
    }

    /// The pieces are out, in the same step that records them: the mixture waits for the next ones.
    pub fn taken_out(&mut self) {
        self.dips = self.dips.saturating_add(1);
        self.life.came_out(&self.lying);
        self.lots.clear();
        self.pieces.clear();
        self.pots = 0;
        self.search.clear();
        self.note.clear();
        self.stop();
    }
}

/// Chosen lots and bare pieces, with what there is of them.
pub(crate) fn parts(
    state: &State,
    lots: &[LotId],
    pieces: &[(ClumpId, PieceClass)],
) -> Vec<TreatedPart> {
    let lots = lots.iter().filter_map(|lot| {
        let plants = state.facts().lots.get(lot)?.plants;
        let plants = u32::try_from(plants).ok().filter(|plants| *plants > 0)?;
        Some(TreatedPart::Lot { lot: *lot, plants })
    });
    let pieces = bare_pieces(state).into_iter().filter_map(|bare| {
        let chosen = pieces.contains(&(bare.clump, bare.class));
        chosen.then_some(TreatedPart::Pieces {
            clump: bare.clump,
            class: bare.class,
            plants: bare.plants,
        })
    });
    lots.chain(pieces).collect()
}

/// Puts one of several in, or takes it out.
pub(crate) fn switch<T: PartialEq>(chosen: &mut Vec<T>, one: T) {
    match chosen.iter().position(|known| *known == one) {
        Some(at) => drop(chosen.remove(at)),
        None => chosen.push(one),
    }
}
