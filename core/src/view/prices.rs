//! What can have a price here, with the size it is bought in and what that costs.

use std::collections::BTreeSet;

use crate::event::{Pack, PriceOf};
use crate::state::{Facts, State};

use super::shed::{mixes, pots};

/// One thing that is bought, or paid for.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct PriceRow {
    pub of: PriceOf,
    /// What the grower calls it; empty for what the program names.
    pub name: String,
    pub pack: Option<Pack>,
    pub cents: Option<i64>,
}

/// Everything of the nursery that can have a price, with the sign or word of its money.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Prices {
    pub money: String,
    pub rows: Vec<PriceRow>,
}

/// The list: work and bench, pots and labels, mixes and their parts, stone, products.
#[must_use]
pub fn prices(state: &State) -> Prices {
    let facts = state.facts();
    let mixes = mixes(state);
    let parts: BTreeSet<String> = mixes
        .iter()
        .flat_map(|mix| &mix.shares)
        .filter(|share| share.permille > 0)
        .map(|share| share.component.clone())
        .collect();
    let products = facts.products.iter();
    let products = products.filter(|(_, product)| !product.retired.or_default());
    let of = [PriceOf::Hour, PriceOf::BenchMonth]
        .into_iter()
        .chain(pots(state).into_iter().map(|row| PriceOf::Pot(row.pot)))
        .chain([PriceOf::Label])
        .chain(parts.into_iter().map(PriceOf::Part))
        .chain(mixes.into_iter().map(|row| PriceOf::Mix(row.mix)))
        .chain([PriceOf::Stone])
        .chain(products.map(|(id, _)| PriceOf::Product(*id)));
    Prices {
        money: facts.book.money.or_default(),
        rows: of.map(|of| row(facts, of)).collect(),
    }
}

fn row(facts: &Facts, of: PriceOf) -> PriceRow {
    let known = facts.book.prices.get(&of);
    PriceRow {
        name: name_of(facts, &of),
        pack: known.and_then(crate::state::PriceFacts::pack),
        cents: known.and_then(crate::state::PriceFacts::cents),
        of,
    }
}

/// What the grower calls it; empty for what the program names.
#[must_use]
pub fn name_of(facts: &Facts, of: &PriceOf) -> String {
    let name = match of {
        PriceOf::Pot(id) => facts.pots.get(id).map(|pot| pot.name.or_default()),
        PriceOf::Mix(id) => facts.mixes.get(id).map(|mix| mix.name.or_default()),
        PriceOf::Product(id) => facts.products.get(id).map(|it| it.label_name.or_default()),
        PriceOf::Part(key) => Some(key.clone()),
        PriceOf::Label | PriceOf::Stone | PriceOf::Hour | PriceOf::BenchMonth => None,
    };
    name.unwrap_or_default()
}
