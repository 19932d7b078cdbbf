//! Which container a mixture is taken from.
//!
//! Until somebody chooses, it is the next one of the product; from the mixing on it is fixed, so that another phone's
//! bottle does not change what this was mixed from.

use chrono::NaiveDate;
use serde::{Deserialize, Serialize};

use super::Mixing;
use crate::event::ProductCopy;
use crate::id::ContainerId;
use crate::state::State;
use crate::view::containers::{ContainerRow, of_product};

/// The container chosen.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum TakenFrom {
    /// The next one there is.
    #[default]
    Next,
    Chosen(ContainerId),
    /// None of those on the shelf.
    Another,
}

impl TakenFrom {
    /// The container meant, of those of the product; none of another product's.
    #[must_use]
    pub fn of(self, rows: Vec<ContainerRow>) -> Option<ContainerRow> {
        let mut rows = rows.into_iter();
        match self {
            Self::Next => rows.next(),
            Self::Chosen(id) => rows.find(|row| row.container == id),
            Self::Another => None,
        }
    }
}

impl Mixing {
    /// The container it is taken from, as it stands.
    #[must_use]
    pub fn container(&self, state: &State, today: NaiveDate) -> Option<ContainerRow> {
        self.from.of(of_product(state, self.product?, today))
    }

    /// It is mixed: what it is taken from is settled.
    pub fn settle_container(&mut self, state: &State, today: NaiveDate) {
        self.from = self
            .container(state, today)
            .map_or(TakenFrom::Another, |row| TakenFrom::Chosen(row.container));
        if let Some(partner) = self.partner.as_mut() {
            partner.settle_container(state, today);
        }
    }

    /// The container of the mixture that stands.
    pub(crate) fn container_in_use(&self, state: &State) -> Option<ContainerId> {
        let TakenFrom::Chosen(id) = self.from else {
            return None;
        };
        let known = state.facts().containers.get(&id)?;
        (known.product == self.product).then_some(id)
    }

    /// The copy of the product with its container, and the batch that stands on it.
    pub(super) fn taken_from(&self, state: &State, product: ProductCopy) -> ProductCopy {
        let container = match self.from {
            TakenFrom::Chosen(id) => Some(id),
            TakenFrom::Next | TakenFrom::Another => None,
        };
        let known = container.and_then(|id| state.facts().containers.get(&id));
        // Put right since to stand for another product, or gone: then it is none of this one's.
        let known = known.filter(|known| known.product == product.product);
        // What stands on the container goes before what was typed while another was chosen.
        let on_it = known.map(|known| known.batch.or_default());
        let on_it = on_it.filter(|batch| !batch.is_empty());
        ProductCopy {
            container: container.filter(|_| known.is_some()),
            batch: on_it.unwrap_or_else(|| self.batch.trim().to_owned()),
            ..product
        }
    }
}
