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
mod rotated;
mod soak;
mod strength;
mod tub;

pub use batch::{Suspicion, suspicion};
pub use label::{LabelFor, Named, copy, label_for, uses};
pub use life::{Age, Level, LevelFault, Life, StrengthLeft, ThrowOut};
pub use rotated::Rotated;
pub use soak::{Soak, SoakState};
pub use strength::LabelRange;
pub use tub::{Side, TubDraft, TubFault, TubShape};

use serde::{Deserialize, Serialize};

use crate::command::{Command, ProductTraits, RecordTreatment};
use crate::event::{
    AgentClass, Aim, LabelUse, Method, PhotoRef, PieceClass, ProductCopy, TreatedPart,
};
use crate::id::{ClumpId, FindingId, LotId, ProductId, TreatmentId};
use crate::limits::SOAK_S_MAX;
use crate::quantity::{Amount, Dimension, QuantityError, Rate, Volume};
use crate::state::{Product, State};
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

/// A bottle being put on the shelf: its name, its rate and a picture of its label are enough to begin with.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct BottleDraft {
    #[serde(default)]
    pub name: String,
    #[serde(default)]
    pub rate: String,
    #[serde(default)]
    pub label_photo: Option<PhotoRef>,
}

impl BottleDraft {
    /// The command that puts it on the shelf. Without a rate it is put there all the same: that is still missing.
    #[must_use]
    pub fn command(&self) -> Command {
        let rate = self.rate.trim();
        Command::SetProduct {
            product: None,
            traits: ProductTraits {
                label_name: Some(self.name.trim().to_owned()),
                rate_typed: (!rate.is_empty()).then(|| rate.to_owned()),
                label_photo: self.label_photo.as_ref().map(|photo| photo.sha256.clone()),
                ..ProductTraits::default()
            },
        }
    }
}

/// A bath in hand.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct BathDraft {
    #[serde(default)]
    pub version: u16,
    #[serde(default)]
    pub step: BathStep,
    #[serde(default)]
    pub product: Option<ProductId>,
    #[serde(default)]
    pub bottle: Option<BottleDraft>,
    /// A rate typed here: for a bottle that has none yet, or another within the label's range.
    #[serde(default)]
    pub rate: String,
    /// Batch number as it stands on the bottle.
    #[serde(default)]
    pub batch: String,
    #[serde(default)]
    pub against: Option<AgentClass>,
    #[serde(default)]
    pub preventing: bool,
    #[serde(default)]
    pub finding: Option<FindingId>,
    /// The grower's answer where it is not typed yet whether the label names dipping.
    #[serde(default)]
    pub dipping_named: Option<bool>,
    /// Why it is gone on with although the label is silent on dipping.
    #[serde(default)]
    pub reason: String,
    /// Why it is gone on with although it is advised against by what the pieces had before.
    #[serde(default)]
    pub rotation_reason: String,
    /// Seconds to lie in it; `None` takes the label's.
    #[serde(default)]
    pub soak_s: Option<u32>,
    #[serde(default)]
    pub reentry_h: Option<u32>,
    #[serde(default)]
    pub tub: TubDraft,
    #[serde(default)]
    pub lots: Vec<LotId>,
    #[serde(default)]
    pub pieces: Vec<(ClumpId, PieceClass)>,
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
    NoProduct,
    NoRate,
    BadRate(QuantityError),
    /// The label's rate is for an area: a tub needs one for a volume.
    RateByArea,
    /// The rate counts the active, and the product's content of it is not typed, or it has several.
    NoContent,
    /// More than the label's highest: refused.
    AboveLabel {
        most_typed: String,
    },
    /// It counts something else than the label's rate, so it cannot be held against it.
    NotTheLabels {
        most_typed: String,
    },
    NoAgent,
    DippingNotSaid,
    NoReason,
    NoSoak,
    SoakTooLong,
    Tub(TubFault),
    NothingIn,
    /// Advised against by what the pieces had before, and no reason is typed.
    NoRotationReason,
    NotSoaking,
    /// A virus is suspected: it goes into no bath that others share.
    VirusShared,
    /// A virus suspect lay in it: nothing more goes in.
    AfterVirus,
}

/// Ready-made delays, in seconds: time to put the last piece in without touching the glass again.
pub const DELAYS_S: [u32; 3] = [0, 10, 30];
const DELAY_S: u32 = 10;

/// What goes into the tub, worked out.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Mixture {
    pub water: Volume,
    pub amount: Amount,
    pub rate: Rate,
    /// Active ingredients in the water, by name, in milligrams per litre; only where the label's figures meet.
    pub active_mg_per_l: Vec<(String, i64)>,
}

impl BathDraft {
    fn known<'a>(&self, state: &'a State) -> Option<(ProductId, &'a Product)> {
        let id = self.product?;
        state.facts().products.get(&id).map(|product| (id, product))
    }

    /// The label for dipping, with what was answered here in place of what is not typed yet.
    #[must_use]
    pub fn label(&self, state: &State) -> LabelFor {
        let mut label = self
            .known(state)
            .map(|(_, product)| label_for(product, Method::Bath))
            .unwrap_or_default();
        if label.named == Named::NotTyped {
            label.named = match self.dipping_named {
                Some(true) => Named::Yes,
                Some(false) => Named::No,
                None => Named::NotTyped,
            };
        }
        let rate = self.rate.trim();
        if !rate.is_empty() {
            rate.clone_into(&mut label.rate_typed);
        }
        label.reentry_h = self.reentry_h.or(label.reentry_h);
        label
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
        let (_, product) = self.known(state).ok_or(BathFault::NoProduct)?;
        let label = self.label(state);
        if label.rate_typed.is_empty() {
            return Err(BathFault::NoRate);
        }
        let rate = strength::product_rate(product, &label.rate_typed)?;
        if rate.is_per().map_err(BathFault::BadRate)? != Dimension::Volume {
            return Err(BathFault::RateByArea);
        }
        let water = self.tub.water().map_err(BathFault::Tub)?;
        let amount = rate.amount_for(water).map_err(BathFault::BadRate)?;
        Ok(Mixture {
            water,
            amount,
            rate,
            active_mg_per_l: crate::view::treat::active_mg_per_l(
                &product.actives.or_default(),
                &rate,
            ),
        })
    }

    /// Whether it may be mixed.
    ///
    /// # Errors
    /// The first thing in the way, from top to bottom of the screen.
    pub fn ready_to_mix(&self, state: &State) -> Result<Mixture, BathFault> {
        if self.known(state).is_none() {
            return Err(BathFault::NoProduct);
        }
        let label = self.label(state);
        if label.rate_typed.is_empty() {
            return Err(BathFault::NoRate);
        }
        match label.named {
            Named::NotTyped => return Err(BathFault::DippingNotSaid),
            Named::No if self.reason.trim().is_empty() => return Err(BathFault::NoReason),
            Named::No | Named::Yes => {}
        }
        if self.against.is_none() {
            return Err(BathFault::NoAgent);
        }
        match self.wanted_s(state) {
            None | Some(0) => return Err(BathFault::NoSoak),
            Some(s) if s > SOAK_S_MAX => return Err(BathFault::SoakTooLong),
            Some(_) => {}
        }
        let mixture = self.mixture(state)?;
        self.within_label(state)?;
        Ok(mixture)
    }

    /// What was typed here that belongs on the bottle, for next time; `None` when nothing is new.
    #[must_use]
    pub fn to_the_bottle(&self, state: &State) -> Option<Command> {
        let (id, product) = self.known(state)?;
        let on_it = label_for(product, Method::Bath);
        let rate = self.rate.trim();
        let new_rate = on_it.rate_typed.is_empty() && !rate.is_empty();
        let new_use = on_it.named == Named::NotTyped && self.dipping_named == Some(true);
        let new_reentry = on_it.reentry_h.is_none() && self.reentry_h.is_some();
        if !(new_rate || new_use || new_reentry) {
            return None;
        }
        let traits = ProductTraits {
            rate_typed: new_rate.then(|| rate.to_owned()),
            reentry_h: new_reentry.then_some(self.reentry_h).flatten(),
            uses: new_use.then(|| self.with_dipping(product)),
            ..ProductTraits::default()
        };
        Some(Command::SetProduct {
            product: Some(id),
            traits,
        })
    }

    /// The uses on the bottle with dipping among them. The soak is the label's only if it says one: the one typed here
    /// stays the grower's own.
    fn with_dipping(&self, product: &Product) -> Vec<LabelUse> {
        let mut uses = uses(product).to_vec();
        match uses.iter_mut().find(|one| one.methods.is_empty()) {
            Some(open) => open.methods.push(Method::Bath),
            None => {
                let key = (1..).map(|n| format!("use-{n}"));
                let taken: Vec<String> = uses.iter().map(|one| one.key.clone()).collect();
                let free = key.into_iter().find(|key| !taken.contains(key));
                uses.push(LabelUse {
                    key: free.unwrap_or_default(),
                    methods: vec![Method::Bath],
                    ..LabelUse::default()
                });
            }
        }
        uses
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
        let (id, product) = self.known(state).ok_or(BathFault::NoProduct)?;
        let against = self.against.ok_or(BathFault::NoAgent)?;
        let mixture = self.mixture(state)?;
        let label = self.label(state);
        let same_mix_as = self.same_mix_as(state, id);
        let first = same_mix_as.is_none();
        let (amount_ul, amount_mg) = match mixture.amount {
            Amount::Volume(volume) => (Some(volume.ul()), None),
            Amount::Mass(mass) => (None, Some(mass.mg())),
        };
        let until_ms = label
            .reentry_h
            .map(|hours| out_ms.saturating_add(i64::from(hours).saturating_mul(3_600_000)));
        Ok(Command::RecordTreatment(RecordTreatment {
            treated: self.lying.clone(),
            method: Method::Bath,
            against,
            aim: if self.preventing {
                Aim::Preventing
            } else {
                Aim::Curing
            },
            product: ProductCopy {
                batch: self.batch.trim().to_owned(),
                ..copy(id, product, &label)
            },
            place: None,
            finding: self.finding,
            water_ul: first.then_some(mixture.water.ul()),
            amount_ul: amount_ul.filter(|_| first),
            amount_mg: amount_mg.filter(|_| first),
            same_mix_as,
            started_ms: Some(soak.in_ms),
            ended_ms: Some(out_ms),
            soak_s: Some(soak.wanted_s),
            soaked_s: soak.soaked_s(out_ms),
            soak_own: label.soak_s.is_none(),
            until_ms,
            person: String::new(),
            licence: String::new(),
            gear: label.gear,
            reason: rotated::reasons([&self.reason, &self.rotation_reason]),
            note: self.note.trim().to_owned(),
        }))
    }

    /// The treatment this mixture was made for. A phone that died right after the first dip was recorded never learnt
    /// its name: then it is the last one that was measured from this bottle.
    fn same_mix_as(&self, state: &State, product: ProductId) -> Option<TreatmentId> {
        if self.dips == 0 {
            return self.mixed_for;
        }
        self.mixed_for.or_else(|| {
            let measured = state.facts().treatments.iter().filter(|(_, known)| {
                known.event.product.product == Some(product) && known.event.water_ul.is_some()
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
