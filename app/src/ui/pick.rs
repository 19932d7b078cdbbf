//! One of many short words, behind the phone's own list: where chips would fill a screen.

use super::fresh_id;
use leptos::prelude::*;

/// A labelled list to pick from. The first option is the one shown when none is chosen.
#[component]
pub fn Pick(
    /// What is picked.
    #[prop(into)]
    label: String,
    /// The words to pick from.
    options: Vec<String>,
    /// Place of the one picked now.
    #[prop(into)]
    chosen: Signal<usize>,
    /// Takes the place of the one picked.
    on_pick: Callback<usize>,
    /// What it is about.
    #[prop(optional, into)]
    hint: Option<String>,
) -> impl IntoView {
    let id = fresh_id("pick");
    let hint_id = format!("{id}-hint");
    let pick = move |event| {
        if let Ok(at) = event_target_value(&event).parse() {
            on_pick.run(at);
        }
    };
    let options = options
        .into_iter()
        .enumerate()
        .map(|(at, word)| {
            view! { <option value=at.to_string() prop:selected=move || chosen.get() == at>{word}</option> }
        })
        .collect_view();
    view! {
        <div class="field">
            <label class="field-label" for=id.clone()>{label}</label>
            <span class="field-hint" id=hint_id.clone()>{hint}</span>
            <div class="field-box"><select id=id aria-describedby=hint_id on:change=pick>{options}</select></div>
        </div>
    }
}
