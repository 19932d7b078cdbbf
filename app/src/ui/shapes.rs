//! The four shapes: stake for a lot, tray tag for a clump in work, slat for a place, bottle for a
//! product.
//!
//! Invariant: who has seen them once knows what kind of thing a row is without colour. The stake's
//! outline is drawn with borders and a line, so it stays in print and in forced colours. Names
//! wrap; they are never cut.

use super::plain::PlantNameRuns;
use leptos::prelude::*;

/// A lot on its label: one pointed end, the name, and code and count when given.
#[component]
pub fn Stake(
    /// The name's runs; `true` is italic.
    name: Vec<(String, bool)>,
    /// The lot's code.
    #[prop(optional, into)]
    code: Option<String>,
    /// How many, in words such as "3 pots".
    #[prop(optional, into)]
    count: Option<String>,
    /// Larger, for the lot's own screen.
    #[prop(optional)]
    large: bool,
) -> impl IntoView {
    view! {
        <span class="stake" class:stake-large=large>
            <span class="stake-face">
                {(!name.is_empty()).then(|| view! { <PlantNameRuns runs=name /> })}
                {code.map(|code| view! { <bdi class="stake-code">{code}</bdi> })}
                {count.map(|count| view! { <span class="stake-count">{count}</span> })}
            </span>
            <svg
                class="stake-point"
                viewBox="0 0 10 20"
                preserveAspectRatio="none"
                aria-hidden="true"
                focusable="false"
            >
                <path d="M0 0 10 10 0 20" vector-effect="non-scaling-stroke" />
            </svg>
        </span>
    }
}

/// A clump in work: a tag with a punched hole and its number.
#[component]
pub fn TrayTag(
    /// The number on the tag.
    #[prop(into)]
    number: String,
    /// What a screen reader says before the number, such as "tray".
    #[prop(into)]
    word: String,
) -> impl IntoView {
    view! {
        <span class="tray">
            <span class="hidden-text">{word} " "</span>
            <bdi>{number}</bdi>
        </span>
    }
}

/// A place, as a low wide bar in walking order; a heading of its rows.
#[component]
pub fn Slat(
    /// The place's name.
    #[prop(into)]
    name: String,
    /// Right of it, such as "4 to do".
    #[prop(optional, into)]
    note: Signal<String>,
) -> impl IntoView {
    view! {
        <h2 class="slat">
            <bdi>{name}</bdi>
            <span class="slat-note">{move || note.get()}</span>
        </h2>
    }
}

/// A product: a bottle with a hazard stripe along its shoulder.
#[component]
pub fn Bottle(
    /// The product's name.
    #[prop(into)]
    name: String,
    /// Beside the name, such as "1.6 mL per L".
    #[prop(optional, into)]
    rate: Option<String>,
    /// Under it, such as the label's date and group.
    #[prop(optional, into)]
    note: Option<String>,
    /// Amounts or words inside the bottle.
    #[prop(optional)]
    children: Option<Children>,
) -> impl IntoView {
    view! {
        <div class="bottle">
            <div class="stripe" aria-hidden="true"></div>
            <div class="bottle-head">
                <strong><bdi>{name}</bdi></strong>
                {rate.filter(|rate| !rate.is_empty()).map(|rate| view! { <span>" · " {rate}</span> })}
                {note.map(|note| view! { <div class="small soft">{note}</div> })}
            </div>
            {children.map(|children| view! { <div class="bottle-body">{children()}</div> })}
        </div>
    }
}
