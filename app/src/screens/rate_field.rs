//! A rate or a content as typed: where it may mean several things, each is offered, and a tap completes the text.

use leptos::prelude::*;
use velamen_core::quantity::{ContentFault, meant, parse_content};

use crate::ui::Field;
use crate::words::product as words;

/// A field for a rate.
#[component]
pub fn RateField(
    label: &'static str,
    #[prop(optional, into)] hint: Option<String>,
    #[prop(into)] value: Signal<String>,
    on_input: Callback<String>,
    #[prop(optional, into)] error: Signal<String>,
) -> impl IntoView {
    let choices = Memo::new(move |_| {
        let choices = meant(&value.get()).into_iter();
        choices
            .map(|one| (words::meaning(one.meaning, &one.text), one.text))
            .collect::<Vec<_>>()
    });
    view! {
        <Field label hint=hint.unwrap_or_default() value on_input error max_chars=64 />
        <Offered choices on_input />
    }
}

/// A field for how much of the active is in it.
#[component]
pub fn ContentField(
    #[prop(into)] value: Signal<String>,
    on_input: Callback<String>,
    #[prop(optional, into)] error: Signal<String>,
) -> impl IntoView {
    let choices = Memo::new(move |_| match parse_content(&value.get()) {
        Err(ContentFault::WhichPercent { meant }) => meant
            .into_iter()
            .map(|text| (words::percent_meaning(&text), text))
            .collect::<Vec<_>>(),
        _ => Vec::new(),
    });
    view! {
        <Field label=words::CONTENT hint=words::CONTENT_HINT value on_input error max_chars=64 />
        <Offered choices on_input />
    }
}

/// What it may mean: a tap writes it out.
#[component]
fn Offered(choices: Memo<Vec<(String, String)>>, on_input: Callback<String>) -> impl IntoView {
    let keys = move || {
        let choices = choices.get();
        (!choices.is_empty()).then(|| {
            let keys = choices.into_iter().map(|(words, text)| {
                let take = move |_| on_input.run(text.clone());
                view! { <button type="button" class="choose" on:click=take>{words}</button> }
            });
            view! { <p class="strong">{words::WHICH_MEANT}</p> {keys.collect_view()} }
        })
    };
    view! { <div aria-live="polite">{keys}</div> }
}
