//! A rate as product: through the active's content where the label counts the active, and held against its highest.

use crate::label_draft::content_of;
use crate::quantity::{Content, Rate, parse_rate};
use crate::state::{Product, State};

use super::{MixFault, Mixing};
use crate::event::Method;

/// The rate of product a typed rate asks for.
///
/// # Errors
/// `BadRate`; `NoContent` for a rate in ppm of active of a product whose one active has no content, or that has several.
pub(super) fn product_rate(product: &Product, typed: &str) -> Result<Rate, MixFault> {
    let rate = parse_rate(typed).map_err(MixFault::BadRate)?;
    if !matches!(rate, Rate::PartsPerMillion { .. }) {
        return Ok(rate);
    }
    let content = only_content(product).ok_or(MixFault::NoContent)?;
    rate.through(content).map_err(MixFault::BadRate)
}

/// The content of a product with one active.
fn only_content(product: &Product) -> Option<Content> {
    match product.actives.or_default().as_slice() {
        [active] => content_of(active),
        _ => None,
    }
}

/// Lowest and highest rate of the label for one way, as typed; the highest is the only one where it gives one.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct LabelRange {
    pub least_typed: String,
    pub most_typed: String,
}

impl Mixing {
    /// What the label says of the rate, without what was typed here.
    #[must_use]
    pub fn label_range(&self, state: &State, method: Method) -> LabelRange {
        let on_label = self.on_label(state, method);
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
    ///
    /// # Errors
    /// `AboveLabel`; `NotTheLabels` where the two count different things.
    pub fn within_label(&self, state: &State, method: Method) -> Result<(), MixFault> {
        let most_typed = self.label_range(state, method).most_typed;
        if most_typed.is_empty() {
            return Ok(());
        }
        match self.against_label(state, method, &most_typed) {
            Some(std::cmp::Ordering::Greater) => Err(MixFault::AboveLabel { most_typed }),
            Some(_) => Ok(()),
            // Rates that count different things cannot be held against each other: then only the label's own goes.
            None => Err(MixFault::NotTheLabels { most_typed }),
        }
    }

    /// Whether the rate lies below the label's lowest: weaker, and a way to resistance.
    #[must_use]
    pub fn below_label(&self, state: &State, method: Method) -> bool {
        let least = self.label_range(state, method).least_typed;
        !least.is_empty()
            && self.against_label(state, method, &least) == Some(std::cmp::Ordering::Less)
    }

    /// The rate against one of the label.
    fn against_label(
        &self,
        state: &State,
        method: Method,
        typed: &str,
    ) -> Option<std::cmp::Ordering> {
        let (_, product) = self.known(state)?;
        let exact = |typed: &str| product_rate(product, typed).ok()?.exact().ok();
        let (kind, rate) = exact(&self.label(state, method).rate_typed)?;
        let (of, other) = exact(typed)?;
        (kind == of).then(|| rate.cmp(&other))
    }
}
