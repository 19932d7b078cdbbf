//! Several out of a short list, each tapped in and out.
//!
//! Invariants: the boxes are real check boxes under one legend; what is ticked stays with the caller.

use super::icon::{Glyph, Icon};
use leptos::prelude::*;

/// Several of a few short words, side by side.
#[component]
pub fn Several(
    /// What is chosen.
    #[prop(into)]
    legend: String,
    /// The words, in order.
    words: Vec<String>,
    /// Which of them are ticked now, by their place.
    #[prop(into)]
    ticked: Signal<Vec<usize>>,
    /// Takes the place of one tapped.
    on_switch: Callback<usize>,
) -> impl IntoView {
    let rows = (0_usize..)
        .zip(words)
        .map(|(at, word)| {
            view! {
                <label class="choice">
                    <input
                        type="checkbox"
                        prop:checked=move || ticked.with(|ticked| ticked.contains(&at))
                        on:change=move |_| on_switch.run(at)
                    />
                    <span class="choice-mark">
                        <Icon glyph=Glyph::Check />
                    </span>
                    <span>{word}</span>
                </label>
            }
        })
        .collect_view();
    view! {
        <fieldset class="choices choices-chips">
            <legend>{legend}</legend>
            <div class="choice-list">{rows}</div>
        </fieldset>
    }
}
