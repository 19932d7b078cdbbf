//! Which codes of modes of action a product bears, as it was copied into an entry.
//!
//! The label's codes go first, then the table of actives. A code without its list takes the list usual for what the
//! treatment was against.

use std::collections::BTreeSet;

use crate::event::{ActiveCopy, AgentClass, ProductCopy};
use crate::reference::actives::{self, Code, CodeList};
use crate::state::State;

/// What is known of a product's codes.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Known {
    pub codes: BTreeSet<Code>,
    /// Actives, or the product itself, of which nothing is known.
    pub unknown: Vec<String>,
}

/// The list a bare number belongs to, by what the treatment is against.
fn usual_list(against: AgentClass) -> CodeList {
    match against {
        AgentClass::Insect | AgentClass::Mite | AgentClass::Mollusc => CodeList::Irac,
        _ => CodeList::Frac,
    }
}

/// Actives as copied; where the copy names none, those on the shelf now; where nobody typed any, the label's own name,
/// which may be that of an active.
fn actives_of(state: &State, copy: &ProductCopy) -> Vec<ActiveCopy> {
    if !copy.actives.is_empty() {
        return copy.actives.clone();
    }
    let product = copy.product.and_then(|id| state.facts().products.get(&id));
    let on_shelf = product.map(|product| product.actives.or_default());
    on_shelf.filter(|them| !them.is_empty()).unwrap_or_else(|| {
        vec![ActiveCopy {
            name: copy.label_name.clone(),
            ..ActiveCopy::default()
        }]
    })
}

/// The codes of a product as copied.
#[must_use]
pub fn codes_of(state: &State, copy: &ProductCopy, against: AgentClass) -> Known {
    let mut known = Known::default();
    for mut active in actives_of(state, copy) {
        // Two codes typed into one field are two codes.
        active.codes = active
            .codes
            .iter()
            .flat_map(|codes| codes.split([',', '+', '/', '&', ';']))
            .map(str::to_owned)
            .collect();
        let codes = actives::codes(&active);
        if codes.is_empty() && actives::find(&active.name).is_none() {
            known.unknown.push(active.name.clone());
        }
        known.codes.extend(codes.into_iter().map(|code| Code {
            list: code.list.or(Some(usual_list(against))),
            ..code
        }));
    }
    known
}

/// Whether a product acts on an agent; `None` where the table cannot tell.
pub(super) fn acts_on(state: &State, copy: &ProductCopy, agent: AgentClass) -> Option<bool> {
    actives::acts_on(&actives_of(state, copy)).acts_on(agent)
}
