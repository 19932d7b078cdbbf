//! Figures with their words: the amount big, its unit smaller beside it, what it is underneath.
//! Also the empty state that teaches the first step, and the bar of long work.

use super::icon::{Glyph, Icon};
use leptos::prelude::*;

/// Letters of the size of a figure that go side by side into the third of a phone.
const FIGURE_LETTERS: usize = 6;

/// A band of facts side by side. The children are [`Fact`]s.
#[component]
pub fn Facts(
    /// The facts.
    children: Children,
) -> impl IntoView {
    view! { <dl class="facts">{children()}</dl> }
}

/// One fact in a band.
#[component]
pub fn Fact(
    /// The figure or short word.
    #[prop(into)]
    value: Signal<String>,
    /// Its unit.
    #[prop(optional, into)]
    unit: Option<String>,
    /// What it is.
    #[prop(into)]
    words: Signal<String>,
) -> impl IntoView {
    let long = move || value.with(|value| has_a_long_word(value));
    view! {
        <div class="fact" class:fact-long=long>
            <dt>{move || words.get()}</dt>
            <dd>
                <bdi>{move || value.get()}</bdi>
                {unit.map(|unit| view! { <span class="unit">{unit}</span> })}
            </dd>
        </div>
    }
}

/// A word that would not go into its column in the size of a figure.
fn has_a_long_word(value: &str) -> bool {
    let mut words = value.split_whitespace();
    words.any(|word| word.chars().count() > FIGURE_LETTERS)
}

/// An amount to measure, to be read at arm's length.
#[component]
pub fn Amount(
    /// The figure.
    #[prop(into)]
    value: Signal<String>,
    /// Its unit and what it is, such as "mL into 35 L".
    #[prop(into)]
    unit: String,
) -> impl IntoView {
    view! {
        <p class="amount">
            <bdi>{move || value.get()}</bdi>
            <span class="unit">{unit}</span>
        </p>
    }
}

/// An empty screen that says what belongs here and how to begin. The children are the first step.
#[component]
pub fn Lesson(
    /// What belongs here.
    glyph: Glyph,
    /// One short sentence.
    #[prop(into)]
    title: String,
    /// How to begin.
    #[prop(into)]
    words: String,
    /// The key or link of the first step.
    #[prop(optional)]
    children: Option<Children>,
) -> impl IntoView {
    view! {
        <section class="lesson">
            <Icon glyph />
            <h2>{title}</h2>
            <p>{words}</p>
            {children.map(|children| children())}
        </section>
    }
}

/// How far long work has come. The children hold the key that stops it.
#[component]
pub fn Progress(
    /// What is being done.
    #[prop(into)]
    label: String,
    /// Done so far, in per cent.
    #[prop(into)]
    pct: Signal<u32>,
    /// The same in words, such as "120 of 500 labels".
    #[prop(into)]
    words: Signal<String>,
    /// The key that stops it.
    #[prop(optional)]
    children: Option<Children>,
) -> impl IntoView {
    let name = label.clone();
    view! {
        <div class="progress">
            <span class="strong">{label}</span>
            <div
                class="progress-track"
                role="progressbar"
                aria-label=name
                aria-valuemin="0"
                aria-valuemax="100"
                aria-valuenow=move || pct.get().min(100)
                aria-valuetext=move || words.get()
            >
                <div class="progress-fill" style:width=move || format!("{}%", pct.get().min(100))></div>
            </div>
            <span class="small soft">{move || words.get()}</span>
            {children.map(|children| children())}
        </div>
    }
}
