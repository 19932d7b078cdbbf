//! What a product's label says for one way of using it, as far as it was typed.
//!
//! A rate for spraying says nothing about dipping. A use that names the way counts; where no use names it, the label is
//! silent, and that is said instead of borrowing another rate.

use crate::event::{LabelUse, Method, ProductCopy};
use crate::id::ProductId;
use crate::state::Product;

/// Whether the label speaks of this way.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Named {
    /// A use names it.
    Yes,
    /// Its uses are typed, and none names it.
    No,
    /// Nobody typed yet which ways the label names.
    #[default]
    NotTyped,
}

/// The label as far as it goes for one way.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct LabelFor {
    pub named: Named,
    pub rate_typed: String,
    pub most_typed: String,
    pub soak_s: Option<u32>,
    pub reentry_h: Option<u32>,
    pub gear: String,
    /// It allows emptied pots in the bath of the plants.
    pub pots_too: bool,
    /// It calls for airing after a spray.
    pub airing: bool,
    /// Products it allows in one tank with it.
    pub mix_with: Vec<ProductId>,
    /// What it must not meet, in the label's own words.
    pub never_with: String,
}

/// The uses of a product in force.
#[must_use]
pub fn uses(product: &Product) -> &[LabelUse] {
    product.uses.get().map_or(&[], Vec::as_slice)
}

/// What the label says for one way.
#[must_use]
pub fn label_for(product: &Product, method: Method) -> LabelFor {
    let uses = uses(product);
    let naming = uses.iter().find(|one| one.methods.contains(&method));
    let (found, named) = match naming {
        Some(found) => (Some(found), Named::Yes),
        None => match uses.iter().find(|one| one.methods.is_empty()) {
            Some(open) => (Some(open), Named::NotTyped),
            None if uses.is_empty() => (None, Named::NotTyped),
            None => (uses.first(), Named::No),
        },
    };
    let first = || product.rate_typed.get().cloned().unwrap_or_default();
    let reentry = product.reentry_h.get().copied();
    match found {
        Some(found) => LabelFor {
            named,
            rate_typed: if found.rate_typed.is_empty() {
                first()
            } else {
                found.rate_typed.clone()
            },
            most_typed: found.most_typed.clone(),
            soak_s: found.soak_s,
            reentry_h: found.reentry_h.or(reentry),
            gear: found.gear.clone(),
            pots_too: named == Named::Yes && found.pots_too,
            airing: found.airing,
            mix_with: found.mix_with.clone(),
            never_with: found.never_with.clone(),
        },
        None => LabelFor {
            named,
            rate_typed: first(),
            reentry_h: reentry,
            ..LabelFor::default()
        },
    }
}

/// What goes into the record of a use: later edits of the product never reach it.
#[must_use]
pub fn copy(id: ProductId, product: &Product, label: &LabelFor) -> ProductCopy {
    ProductCopy {
        product: Some(id),
        label_name: product.label_name.or_default(),
        registration: product.registration.or_default(),
        actives: product.actives.or_default(),
        rate_typed: label.rate_typed.clone(),
        batch: String::new(),
        reentry_h: label.reentry_h,
        container: None,
    }
}
