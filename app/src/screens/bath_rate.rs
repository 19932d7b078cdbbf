//! The rate of a bath within its label's range, and the way to the label itself.

use leptos::prelude::*;
use velamen_core::bath::BathFault;

use super::bath::Tub;
use super::rate_field::RateField;
use crate::route::Route;
use crate::ui::{Field, PlainLink};
use crate::words::{bath, product as words};

/// The bottle's label in the Shed.
pub(super) fn label_link(tub: Tub) -> impl IntoView {
    let product = tub.part(|draft| draft.product);
    move || {
        product.get().map(
            |id| view! { <PlainLink href=Route::Product(id).href() label=words::TO_THE_LABEL /> },
        )
    }
}

/// Another rate where the label gives one, never above its highest; and the batch, for the record.
pub(super) fn own_rate(tub: Tub, no_rate: Memo<bool>) -> impl IntoView {
    let rate = tub.part(|draft| draft.rate.clone());
    let range = Memo::new(move |_| {
        let draft = tub.draft.get();
        tub.ledger.follow(|state, _| draft.label_range(state))
    });
    let weak = Memo::new(move |_| {
        let draft = tub.draft.get();
        tub.ledger.follow(|state, _| draft.below_label(state))
    });
    let refused = tub.says(|fault| {
        matches!(
            fault,
            BathFault::AboveLabel { .. } | BathFault::NotTheLabels { .. } | BathFault::BadRate(_)
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
                    on_input=Callback::new(move |text| tub.change(|draft| draft.rate = text))
                    error=refused
                />
                {move || weak.get().then(|| view! { <p class="warn">{words::BELOW}</p> })}
            }
        })
    };
    let batch = tub.part(|draft| draft.batch.clone());
    view! {
        {field}
        <Field
            label=words::BATCH
            hint=words::BATCH_HINT
            value=batch
            on_input=Callback::new(move |text| tub.change(|draft| draft.batch = text))
            max_chars=200
        />
    }
}
