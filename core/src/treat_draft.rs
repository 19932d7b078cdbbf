//! A treatment that was carried out, being written down.
//!
//! It holds what the grower did and what the label said. Invariants: nothing here works out a rate or an amount; whole
//! lots and bare pieces are taken as they are when it is recorded.

use serde::{Deserialize, Serialize};

use crate::bath::{parts, switch};
use crate::command::{Command, RecordTreatment};
use crate::event::{AgentClass, Aim, Method, PieceClass, ProductCopy};
use crate::id::{ClumpId, LotId, PlaceId};
use crate::reference::airing::after_hours;
use crate::state::State;

/// A treatment being written down.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct TreatDraft {
    #[serde(default)]
    pub version: u16,
    #[serde(default)]
    pub lots: Vec<LotId>,
    #[serde(default)]
    pub pieces: Vec<(ClumpId, PieceClass)>,
    #[serde(default)]
    pub search: String,
    #[serde(default)]
    pub product: String,
    #[serde(default)]
    pub rate_typed: String,
    #[serde(default)]
    pub against: Option<AgentClass>,
    #[serde(default)]
    pub method: Option<Method>,
    #[serde(default)]
    pub soak_min: u32,
    #[serde(default)]
    pub reentry_h: Option<u32>,
    #[serde(default)]
    pub preventing: bool,
    #[serde(default)]
    pub note: String,
}

/// What is still missing.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum TreatFault {
    NothingTreated,
    NoProduct,
    NoMethod,
    NoAgent,
}

impl TreatDraft {
    /// Puts a lot in or takes it out.
    pub fn switch_lot(&mut self, lot: LotId) {
        switch(&mut self.lots, lot);
    }

    /// Puts a class of bare pieces in or takes it out.
    pub fn switch_pieces(&mut self, clump: ClumpId, class: PieceClass) {
        switch(&mut self.pieces, (clump, class));
    }

    /// Whether plants lay in the product: only then is there a time of soaking.
    #[must_use]
    pub fn soaks(&self) -> bool {
        matches!(self.method, Some(Method::Bath | Method::Plunge))
    }

    /// The place a spray or a drench was done in, where everything treated stands in one.
    fn sprayed_place(&self, state: &State) -> Option<PlaceId> {
        if !matches!(self.method, Some(Method::Spray | Method::Drench)) || !self.pieces.is_empty() {
            return None;
        }
        let place = |lot: &LotId| state.facts().lots.get(lot)?.place.get().copied();
        let first = place(self.lots.first()?)?;
        let same = self.lots.iter().all(|lot| place(lot) == Some(first));
        same.then_some(first)
    }

    /// The command that records it, done at that instant: from then on counts the label's re-entry.
    ///
    /// # Errors
    /// What is still missing.
    pub fn command(&self, state: &State, done_ms: i64) -> Result<Command, TreatFault> {
        let treated = parts(state, &self.lots, &self.pieces);
        if treated.is_empty() {
            return Err(TreatFault::NothingTreated);
        }
        if self.product.trim().is_empty() {
            return Err(TreatFault::NoProduct);
        }
        let method = self.method.ok_or(TreatFault::NoMethod)?;
        let against = self.against.ok_or(TreatFault::NoAgent)?;
        let soaked_s = self
            .soak_min
            .checked_mul(60)
            .filter(|seconds| self.soaks() && *seconds > 0);
        Ok(Command::RecordTreatment(RecordTreatment {
            treated,
            method,
            against,
            aim: if self.preventing {
                Aim::Preventing
            } else {
                Aim::Curing
            },
            product: ProductCopy {
                label_name: self.product.trim().to_owned(),
                rate_typed: self.rate_typed.trim().to_owned(),
                reentry_h: self.reentry_h,
                ..ProductCopy::default()
            },
            place: self.sprayed_place(state),
            finding: None,
            water_ul: None,
            amount_ul: None,
            amount_mg: None,
            same_mix_as: None,
            started_ms: None,
            ended_ms: None,
            soak_s: None,
            soaked_s,
            soak_own: false,
            pots: 0,
            until_ms: self.reentry_h.map(|hours| after_hours(done_ms, hours)),
            airing: None,
            tank: None,
            then: None,
            person: String::new(),
            licence: String::new(),
            gear: String::new(),
            reason: String::new(),
            note: self.note.trim().to_owned(),
        }))
    }
}
