//! The rate of a mixture within its label's range, and the way to the label itself.

use leptos::prelude::*;
use velamen_core::apply::MixFault;

use super::mixing::Hand;
use super::mixing_container::taken_from;
use super::rate_field::RateField;
use crate::route::Route;
use crate::ui::PlainLink;
use crate::words::{bath, product as words};

/// The bottle's label in the Shed.
pub(super) fn label_link(hand: Hand) -> impl IntoView {
    let product = hand.part(|mixing| mixing.product);
    move || {
        product.get().map(
            |id| view! { <PlainLink href=Route::Product(id).href() label=words::TO_THE_LABEL /> },
        )
    }
}

/// Another rate where the label gives one, never above its highest; and the container it is taken from.
pub(super) fn own_rate(hand: Hand, no_rate: Memo<bool>) -> impl IntoView {
    let rate = hand.part(|mixing| mixing.rate.clone());
    let range = Memo::new(move |_| {
        let (mixing, method) = (hand.mixing.get(), hand.method.get());
        hand.ledger
            .follow(|state, _| mixing.label_range(state, method))
    });
    let weak = Memo::new(move |_| {
        let (mixing, method) = (hand.mixing.get(), hand.method.get());
        hand.ledger
            .follow(|state, _| mixing.below_label(state, method))
    });
    let refused = hand.says(|fault| {
        matches!(
            fault,
            MixFault::AboveLabel { .. } | MixFault::NotTheLabels { .. } | MixFault::BadRate(_)
        )
    });
    let hint = Memo::new(move |_| {
        range.with(|range| bath::label_range(&range.least_typed, &range.most_typed))
    });
    let field = move || {
        (!no_rate.get()).then(|| {
            view! {
                <RateField
                    label=words::OWN_RATE
                    hint=hint.get()
                    value=rate
                    on_input=Callback::new(move |text| hand.change(|mixing| mixing.rate = text))
                    error=refused
                />
                {move || weak.get().then(|| view! { <p class="warn">{words::BELOW}</p> })}
            }
        })
    };
    view! {
        {field}
        {taken_from(hand)}
    }
}
