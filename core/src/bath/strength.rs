//! A rate as product: through the active's content where the label counts the active, and held against its highest.

use crate::label_draft::content_of;
use crate::quantity::{Content, Rate, parse_rate};
use crate::state::{Product, State};

use super::{BathDraft, BathFault};

/// The rate of product a typed rate asks for.
///
/// # Errors
/// `BadRate`; `NoContent` for a rate in ppm of active of a product whose one active has no content, or that has several.
pub(super) fn product_rate(product: &Product, typed: &str) -> Result<Rate, BathFault> {
    let rate = parse_rate(typed).map_err(BathFault::BadRate)?;
    if !matches!(rate, Rate::PartsPerMillion { .. }) {
        return Ok(rate);
    }
    let content = only_content(product).ok_or(BathFault::NoContent)?;
    rate.through(content).map_err(BathFault::BadRate)
}

/// The content of a product with one active.
fn only_content(product: &Product) -> Option<Content> {
    match product.actives.or_default().as_slice() {
        [active] => content_of(active),
        _ => None,
    }
}

/// Lowest and highest rate of the label for dipping, as typed; the highest is the only one where it gives one.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct LabelRange {
    pub least_typed: String,
    pub most_typed: String,
}

impl BathDraft {
    /// What the label says of the rate, without what was typed for this bath.
    #[must_use]
    pub fn label_range(&self, state: &State) -> LabelRange {
        let on_label = Self {
            product: self.product,
            ..Self::default()
        }
        .label(state);
        LabelRange {
            most_typed: if on_label.most_typed.is_empty() {
                on_label.rate_typed.clone()
            } else {
                on_label.most_typed
            },
            least_typed: on_label.rate_typed,
        }
    }

    /// Refuses a rate above the label's highest.
    pub(super) fn within_label(&self, state: &State) -> Result<(), BathFault> {
        let most_typed = self.label_range(state).most_typed;
        if most_typed.is_empty() {
            return Ok(());
        }
        match self.against_label(state, &most_typed) {
            Some(std::cmp::Ordering::Greater) => Err(BathFault::AboveLabel { most_typed }),
            Some(_) => Ok(()),
            // Rates that count different things cannot be held against each other: then only the label's own goes.
            None => Err(BathFault::NotTheLabels { most_typed }),
        }
    }

    /// Whether the rate of this bath lies below the label's lowest: weaker, and a way to resistance.
    #[must_use]
    pub fn below_label(&self, state: &State) -> bool {
        let least = self.label_range(state).least_typed;
        !least.is_empty() && self.against_label(state, &least) == Some(std::cmp::Ordering::Less)
    }

    /// The rate of this bath against one of the label.
    fn against_label(&self, state: &State, typed: &str) -> Option<std::cmp::Ordering> {
        let (_, product) = self.known(state)?;
        let exact = |typed: &str| product_rate(product, typed).ok()?.exact().ok();
        let (kind, rate) = exact(&self.label(state).rate_typed)?;
        let (of, other) = exact(typed)?;
        (kind == of).then(|| rate.cmp(&other))
    }
}
