//! Two products against two enemies: one after the other with days between, or in one tank where both labels allow it.
//!
//! What may go into one tank stands on the labels, as the grower typed it from them; where either is silent it is
//! refused with the reason. Days between come from the pairs that must not meet, else they are the grower's own.

use serde::{Deserialize, Serialize};

use super::{MixFault, Mixing};
use crate::bath::label_for;
use crate::command::TankPartner;
use crate::event::{AgentClass, Method};
use crate::id::ProductId;
use crate::quantity::{Amount, Volume};
use crate::reference::never::{Pair, between, of_product};
use crate::state::State;

/// Days to the second of a pair where nothing asks for more (common practice, no source).
pub const USUAL_DAYS: u32 = 7;

/// A second treatment planned after this one.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct ThenDraft {
    #[serde(default)]
    pub product: Option<ProductId>,
    #[serde(default)]
    pub against: Option<AgentClass>,
    /// Days after this one; `None` takes what the pair asks for, or the usual.
    #[serde(default)]
    pub days: Option<u32>,
}

/// Why two products do not go into one tank.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum TankFault {
    Same,
    /// Labels that do not name the other as a partner.
    NotAllowed {
        labels: Vec<String>,
    },
    Never(&'static Pair),
    /// Something is in the way of the second one's own mixture.
    Mix(Box<MixFault>),
}

/// What must not meet of two products, the longest apart first.
#[must_use]
pub fn between_products(state: &State, one: ProductId, other: ProductId) -> Vec<&'static Pair> {
    let stuffs = |id: ProductId| {
        let product = state.facts().products.get(&id);
        let actives = product.map(|product| product.actives.or_default());
        of_product(&actives.unwrap_or_default())
    };
    let mut pairs: Vec<&'static Pair> = between(&stuffs(one), &stuffs(other))
        .into_iter()
        .map(|(pair, _)| pair)
        .collect();
    pairs.sort_by_key(|pair| std::cmp::Reverse(pair.days));
    pairs
}

/// Labels of the two that do not allow the other beside them in one tank, for this way against what each is for.
#[must_use]
pub fn not_allowing(
    state: &State,
    one: (ProductId, Option<AgentClass>),
    other: (ProductId, Option<AgentClass>),
    method: Method,
) -> Vec<String> {
    let silent = |(id, against): (ProductId, Option<AgentClass>), beside: ProductId| {
        let product = state.facts().products.get(&id)?;
        let label = label_for(product, method, against);
        (!label.mix_with.contains(&beside)).then(|| product.label_name.or_default())
    };
    [silent(one, other.0), silent(other, one.0)]
        .into_iter()
        .flatten()
        .collect()
}

impl Mixing {
    /// The pair that asks for the most days between this product and the one that follows.
    #[must_use]
    pub fn apart(&self, state: &State) -> Option<(&'static Pair, u32)> {
        let pairs = between_products(state, self.product?, self.then.as_ref()?.product?);
        let pair = pairs.into_iter().next()?;
        pair.days.map(|(_, most)| (pair, u32::from(most)))
    }

    /// Days to the second treatment: as typed, else what the pair asks for, else the usual.
    #[must_use]
    pub fn then_days(&self, state: &State) -> u32 {
        let typed = self.then.as_ref().and_then(|then| then.days);
        let asked = || self.apart(state).map(|(_, days)| days);
        typed.or_else(asked).unwrap_or(USUAL_DAYS)
    }

    /// Whether the second comes sooner than the pair allows.
    #[must_use]
    pub fn then_too_soon(&self, state: &State) -> Option<&'static Pair> {
        let (pair, days) = self.apart(state)?;
        (self.then_days(state) < days).then_some(pair)
    }

    /// The second product of one tank, measured for the same water.
    ///
    /// # Errors
    /// Why the two do not go into one tank.
    pub fn tank(
        &self,
        state: &State,
        method: Method,
        water: Volume,
    ) -> Result<Option<TankPartner>, TankFault> {
        let Some(partner) = self.partner.as_deref() else {
            return Ok(None);
        };
        let mix = |fault: MixFault| TankFault::Mix(Box::new(fault));
        let (Some(one), Some(other)) = (self.product, partner.product) else {
            return Err(mix(MixFault::NoProduct));
        };
        if one == other {
            return Err(TankFault::Same);
        }
        let labels = not_allowing(state, (one, self.against), (other, partner.against), method);
        if !labels.is_empty() {
            return Err(TankFault::NotAllowed { labels });
        }
        if let Some(pair) = between_products(state, one, other).into_iter().next() {
            return Err(TankFault::Never(pair));
        }
        partner.settled(state, method, true).map_err(mix)?;
        partner.within_label(state, method).map_err(mix)?;
        let read = partner.rate_for_water(state, method).map_err(mix)?;
        let amount = read.in_water(water).map_err(mix)?.amount;
        let (amount_ul, amount_mg) = match amount {
            Amount::Volume(volume) => (Some(volume.ul()), None),
            Amount::Mass(mass) => (None, Some(mass.mg())),
        };
        Ok(Some(TankPartner {
            product: partner.product_copy(state, method).map_err(mix)?,
            against: partner.against.ok_or_else(|| mix(MixFault::NoAgent))?,
            aim: partner.aim(),
            amount_ul,
            amount_mg,
            same_mix_as: None,
            reason: partner.reasons(state, method),
        }))
    }
}
