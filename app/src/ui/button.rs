//! Buttons that do something, and links that look like them.
//!
//! Invariants: they act on release (`click`), once per 350 ms, and never while busy. A busy button
//! says so in words and stays where it is, so nothing jumps under the thumb. A button that cannot
//! act now stays reachable and says why nearby; it does not vanish.

use super::guard::TapGuard;
use super::icon::{Glyph, Icon};
use leptos::ev::MouseEvent;
use leptos::prelude::*;

fn press(
    guard: TapGuard,
    busy: Signal<bool>,
    disabled: Signal<bool>,
    on_press: Callback<()>,
) -> impl Fn(MouseEvent) {
    move |event: MouseEvent| {
        if !busy.get_untracked() && !disabled.get_untracked() && guard.takes(&event) {
            super::field::pressed();
            on_press.run(());
        }
    }
}

/// The one action a screen is for: filled root green, in the thumb's third.
#[component]
pub fn MainAction(
    /// What it does, as a verb.
    #[prop(into)]
    label: Signal<String>,
    /// Runs on a meant tap.
    on_press: Callback<()>,
    /// Shown before the words.
    #[prop(optional)]
    glyph: Option<Glyph>,
    /// True from the tap until the record is committed.
    #[prop(optional, into)]
    busy: Signal<bool>,
    /// Said instead of the label while busy; empty keeps the label.
    #[prop(optional, into)]
    busy_label: Signal<String>,
    /// True when it cannot act now.
    #[prop(optional, into)]
    disabled: Signal<bool>,
) -> impl IntoView {
    action(
        "action action-main",
        label,
        on_press,
        glyph,
        busy,
        busy_label,
        disabled,
    )
}

/// A second action: an outline on label stock.
#[component]
pub fn PlainAction(
    /// What it does, as a verb.
    #[prop(into)]
    label: Signal<String>,
    /// Runs on a meant tap.
    on_press: Callback<()>,
    /// Shown before the words.
    #[prop(optional)]
    glyph: Option<Glyph>,
    /// True from the tap until the record is committed.
    #[prop(optional, into)]
    busy: Signal<bool>,
    /// Said instead of the label while busy; empty keeps the label.
    #[prop(optional, into)]
    busy_label: Signal<String>,
    /// True when it cannot act now.
    #[prop(optional, into)]
    disabled: Signal<bool>,
) -> impl IntoView {
    action("action", label, on_press, glyph, busy, busy_label, disabled)
}

fn action(
    class: &'static str,
    label: Signal<String>,
    on_press: Callback<()>,
    glyph: Option<Glyph>,
    busy: Signal<bool>,
    busy_label: Signal<String>,
    disabled: Signal<bool>,
) -> impl IntoView {
    let words = move || {
        let waiting = busy_label.get();
        if busy.get() && !waiting.is_empty() {
            waiting
        } else {
            label.get()
        }
    };
    let held = move || (busy.get() || disabled.get()).then_some("true");
    view! {
        <button
            type="button"
            class=class
            aria-busy=move || busy.get().then_some("true")
            aria-disabled=held
            on:click=press(TapGuard::new(), busy, disabled, on_press)
        >
            {glyph.map(|glyph| view! { <Icon glyph /> })}
            <span>{words}</span>
        </button>
    }
}

/// A way to another screen that looks like a second action.
#[component]
pub fn PlainLink(
    /// Where to, as a fragment such as `#/stock`.
    #[prop(into)]
    href: String,
    /// The words.
    #[prop(into)]
    label: String,
    /// Shown before the words.
    #[prop(optional)]
    glyph: Option<Glyph>,
    /// True when going there is what the screen is for.
    #[prop(optional)]
    main: bool,
) -> impl IntoView {
    let class = if main { "action action-main" } else { "action" };
    view! {
        <a class=class href=href>
            {glyph.map(|glyph| view! { <Icon glyph /> })}
            <span>{label}</span>
        </a>
    }
}
