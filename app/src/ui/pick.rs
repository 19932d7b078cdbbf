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
    // The list itself is told, once its options are there: there may be hundreds.
    let list = NodeRef::<leptos::html::Select>::new();
    Effect::new(move |_| {
        if let Some(list) = list.get() {
            list.set_value(&chosen.get().to_string());
        }
    });
    let pick = move |event| {
        if let Ok(at) = event_target_value(&event).parse() {
            on_pick.run(at);
            // What was not taken is not shown as if it were.
            if let Some(list) = list.get_untracked() {
                list.set_value(&chosen.get_untracked().to_string());
            }
        }
    };
    let options = options
        .into_iter()
        .enumerate()
        .map(|(at, word)| {
            view! { <option value=at.to_string()>{word}</option> }
        })
        .collect_view();
    view! {
        <div class="field">
            <label class="field-label" for=id.clone()>{label}</label>
            <span class="field-hint" id=hint_id.clone()>{hint}</span>
            <div class="field-box"><select id=id node_ref=list aria-describedby=hint_id on:change=pick>{options}</select></div>
        </div>
    }
}
