//! The right target: what a product acts on against what it is used for.
//!
//! A product that reaches fungi does nothing to a water mould, though both rot. The agent named is often a guess, so
//! nothing is refused here: it is held with the reason and goes on by saying why. What the label names as its target
//! comes first; the table of actives only where the label is silent.

use std::collections::BTreeSet;

use crate::bath::uses;
use crate::event::{AgentClass, LabelUse, Method};
use crate::id::ProductId;
use crate::reference::actives::acts_on;
use crate::state::{Product, State};

/// Whether a product acts on what it is for.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Fit {
    /// The label names the target, or an active acts on it.
    Acts,
    /// Some kinds of it, or in part.
    Partly,
    /// Goes on only by saying why.
    Held(Held),
    /// An active nobody knows, none typed, or an agent nobody named: nothing can be said.
    NotKnown,
}

/// Why a product is held.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum WhyHeld {
    /// Its actives act on these, and not on what it is for.
    ActsOnOthers(BTreeSet<AgentClass>),
    /// The label names these for this way, and not what it is for.
    LabelNamesOthers(BTreeSet<AgentClass>),
    /// No product cures a virus.
    NothingCures,
    /// A fault of culture: nothing lives there to act on.
    NoAgent,
}

/// A product held, and what on the shelf acts on the target.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Held {
    pub against: AgentClass,
    pub why: WhyHeld,
    /// Names of products in use that act on it.
    pub instead: Vec<String>,
}

/// Whether a product acts on an agent, for one way of using it.
#[must_use]
pub fn fit(state: &State, id: ProductId, method: Method, against: AgentClass) -> Fit {
    let Some(product) = state.facts().products.get(&id) else {
        return Fit::NotKnown;
    };
    match alone(product, method, against) {
        Ok(fit) => fit,
        Err(why) => {
            let others = state.facts().products.iter();
            let instead = others
                .filter(|(other, known)| **other != id && !known.retired.or_default())
                .filter(|(_, known)| alone(known, method, against) == Ok(Fit::Acts))
                .map(|(_, known)| known.label_name.or_default())
                .collect();
            Fit::Held(Held {
                against,
                why,
                instead,
            })
        }
    }
}

/// The product by itself; `Err` says why it is held.
fn alone(product: &Product, method: Method, against: AgentClass) -> Result<Fit, WhyHeld> {
    match against {
        AgentClass::Virus => return Err(WhyHeld::NothingCures),
        AgentClass::Culture => return Err(WhyHeld::NoAgent),
        AgentClass::Unknown => return Ok(Fit::NotKnown),
        _ => {}
    }
    let named = label_targets(uses(product), method);
    if named.contains(&against) {
        return Ok(Fit::Acts);
    }
    let reach = acts_on(&product.actives.or_default());
    match reach.acts_on(against) {
        Some(false) => {
            let others = reach.on.union(&reach.partly).copied().collect();
            Err(WhyHeld::ActsOnOthers(others))
        }
        _ if !named.is_empty() => Err(WhyHeld::LabelNamesOthers(named)),
        Some(true) if reach.on.contains(&against) => Ok(Fit::Acts),
        Some(true) => Ok(Fit::Partly),
        None => Ok(Fit::NotKnown),
    }
}

/// What the label names as targets, of the uses that name this way or none.
fn label_targets(uses: &[LabelUse], method: Method) -> BTreeSet<AgentClass> {
    let of_method = uses
        .iter()
        .filter(|one| one.methods.is_empty() || one.methods.contains(&method));
    of_method
        .flat_map(|one| one.against.iter().copied())
        .collect()
}
