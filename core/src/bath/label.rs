//! What a product's label says for one way of using it against one target, as far as it was typed.
//!
//! A rate for spraying says nothing about dipping, and one against fungi nothing about mites. A use that names the way
//! and the target counts; where no use names the way, the label is silent, and that is said instead of borrowing another
//! rate.

use crate::event::{AgentClass, LabelUse, Method, ProductCopy};
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

/// The label as far as it goes for one way against one target.
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

/// The use a label is read by, for one way against one target.
///
/// One that names both comes first, then one that names the way and no target at all. A use for the target whose ways
/// nobody typed yet is asked about, sooner than a rate against something else is borrowed.
#[must_use]
pub fn use_for(
    product: &Product,
    method: Method,
    against: Option<AgentClass>,
) -> Option<(&LabelUse, Named)> {
    let way = |one: &LabelUse| one.methods.contains(&method);
    let open = |one: &LabelUse| one.methods.is_empty();
    let target = |one: &LabelUse| against.is_some_and(|agent| one.against.contains(&agent));
    let any = |one: &LabelUse| one.against.is_empty();
    let find = |fits: &dyn Fn(&LabelUse) -> bool, named: Named| {
        let found = uses(product).iter().find(|one| fits(one))?;
        Some((found, named))
    };
    find(&|one| way(one) && target(one), Named::Yes)
        .or_else(|| find(&|one| way(one) && any(one), Named::Yes))
        .or_else(|| find(&|one| open(one) && target(one), Named::NotTyped))
        .or_else(|| find(&way, Named::Yes))
        .or_else(|| find(&|one| open(one) && any(one), Named::NotTyped))
        .or_else(|| find(&open, Named::NotTyped))
        .or_else(|| find(&target, Named::No))
        .or_else(|| find(&|_| true, Named::No))
}

/// What the label says for one way against one target.
///
/// As long as no target is chosen, or where no use is for it or for this way, the longest re-entry of all uses that may
/// be meant holds, and any airing.
#[must_use]
pub fn label_for(product: &Product, method: Method, against: Option<AgentClass>) -> LabelFor {
    let first = || product.rate_typed.get().cloned().unwrap_or_default();
    let reentry = product.reentry_h.get().copied();
    let Some((found, named)) = use_for(product, method, against) else {
        return LabelFor {
            rate_typed: first(),
            reentry_h: reentry,
            ..LabelFor::default()
        };
    };
    let hours = |one: &LabelUse| one.reentry_h.or(reentry);
    let for_it = |agent| found.against.is_empty() || found.against.contains(&agent);
    let is_for_it = named != Named::No && against.is_some_and(for_it);
    let meant: Vec<&LabelUse> = if is_for_it {
        vec![found]
    } else {
        let alike = uses(product).iter().filter(|one| match named {
            Named::Yes => one.methods.contains(&method),
            Named::NotTyped => one.methods.is_empty(),
            Named::No => true,
        });
        alike.collect()
    };
    LabelFor {
        named,
        rate_typed: if found.rate_typed.is_empty() {
            first()
        } else {
            found.rate_typed.clone()
        },
        most_typed: found.most_typed.clone(),
        soak_s: found.soak_s,
        reentry_h: meant.iter().filter_map(|one| hours(one)).max(),
        gear: found.gear.clone(),
        pots_too: named == Named::Yes && found.pots_too,
        airing: meant.iter().any(|one| one.airing),
        mix_with: found.mix_with.clone(),
        never_with: found.never_with.clone(),
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
