//! The frame of every screen: head, body that scrolls, main actions in the thumb's third, rooms.
//!
//! Invariants: one heading of the first rank a screen; the body is the page's `main`; the actions
//! and the rooms stay at the foot. With doubled text the whole screen scrolls instead of squeezing
//! the body away. A new screen begins at its heading.

use super::icon::{Glyph, Icon};
use super::pocket::PocketLock;
use leptos::prelude::*;
use std::cell::Cell;

/// What the page shows before the program does: `assets/first.html`.
const FIRST: &str = "first";

/// Whether that still stands on the glass.
#[must_use]
pub fn stands_first() -> bool {
    document().get_element_by_id(FIRST).is_some()
}

/// The first screen takes its place, in one paint.
fn take_over() {
    if let Some(first) = document().get_element_by_id(FIRST) {
        first.remove();
    }
}

/// One room in the bar.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Room {
    /// Where, as a fragment such as `#/round`.
    pub href: String,
    /// Its name.
    pub label: String,
    /// Its icon.
    pub glyph: Glyph,
    /// Whether the screen belongs to it.
    pub current: bool,
}

/// Given as a context to a screen that stands beside another: it is a list there, with a heading of the second rank, and
/// leaves the rooms, the help and what is told to the other.
#[derive(Clone, Copy, Debug)]
pub struct Beside;

/// The way to help with the screen one is on, given by the program as a context; empty where there is none.
#[derive(Clone, Copy, Debug)]
pub struct HelpLink {
    /// Where to, as a fragment.
    pub href: Signal<String>,
    /// What a screen reader says.
    pub label: &'static str,
}

impl HelpLink {
    fn view(self) -> impl IntoView {
        let href = Memo::new(move |_| self.href.get());
        move || {
            let href = href.get();
            (!href.is_empty()).then(|| {
                view! { <a class="screen-help" href=href aria-label=self.label>"?"</a> }
            })
        }
    }
}

/// A screen. The children are its body.
#[component]
pub fn Screen(
    /// The screen's name.
    #[prop(into)]
    title: Signal<String>,
    /// A line over it, such as the date.
    #[prop(optional, into)]
    over: Signal<String>,
    /// Before the title: a [`TopBack`].
    #[prop(optional, into)]
    back: ViewFn,
    /// At the end of the head: a figure or a tray tag.
    #[prop(optional, into)]
    side: ViewFn,
    /// One or two actions, the main one last.
    #[prop(optional, into)]
    actions: Option<ViewFn>,
    /// A notice over the actions. The place is there from the start, so a screen reader hears
    /// what arrives in it.
    #[prop(optional, into)]
    notice: ViewFn,
    /// A [`RoomBar`]; left out while nothing should lead away.
    #[prop(optional, into)]
    rooms: ViewFn,
    /// The body.
    children: Children,
) -> impl IntoView {
    take_over();
    let over_line = move || {
        let words = over.get();
        (!words.is_empty()).then(|| view! { <p>{words}</p> })
    };
    let heading = NodeRef::<leptos::html::H1>::new();
    Effect::new(move |_| {
        if let Some(heading) = heading.get() {
            begin_at(heading);
        }
    });
    let side = move || side.run();
    let actions =
        actions.map(|actions| view! { <div class="actions">{actions.run()}</div> }.into_any());
    let body = children();
    if use_context::<Beside>().is_some() {
        return view! {
            <div class="screen">
                <div class="screen-head">
                    <div class="screen-title">{over_line} <h2>{move || title.get()}</h2></div>
                    <div class="screen-side">{side}</div>
                </div>
                <div class="screen-body" tabindex="0">{body}</div>
                <div class="screen-deck">{actions}</div>
            </div>
        }
        .into_any();
    }
    view! {
        <div class="screen">
            <header class="screen-head">
                {back.run()}
                <div class="screen-title">
                    {over_line}
                    <h1 tabindex="-1" node_ref=heading>{move || title.get()}</h1>
                </div>
                {use_context::<PocketLock>().map(PocketLock::key)}
                {use_context::<HelpLink>().map(HelpLink::view)}
                <div class="screen-side">{side}</div>
            </header>
            <main class="screen-body" tabindex="0">{body}</main>
            <footer class="screen-foot">
                <div class="screen-deck">
                    <div aria-live="polite">{move || notice.run()}</div>
                    {actions}
                </div>
                {rooms.run()}
            </footer>
        </div>
    }
    .into_any()
}

thread_local! {
    /// Whether a screen was shown before: the first one is left to begin where the browser begins.
    static BEGUN: Cell<bool> = const { Cell::new(false) };
}

/// A screen that takes the place of another begins at its heading, for keyboards and screen readers: what had the focus
/// is gone. Nothing scrolls, and a focus that something on the screen took for itself stays there.
fn begin_at(heading: web_sys::HtmlHeadingElement) {
    if !BEGUN.replace(true) {
        return;
    }
    request_animation_frame(move || {
        let nothing = document()
            .active_element()
            .is_none_or(|active| active.tag_name().eq_ignore_ascii_case("body"));
        if nothing && heading.is_connected() {
            let still = web_sys::FocusOptions::new();
            still.set_prevent_scroll(true);
            // A browser that cannot focus a heading leaves the focus where it was.
            let _ = heading.focus_with_options(&still);
        }
    });
}

/// The five rooms, at the very foot.
#[component]
pub fn RoomBar(
    /// The rooms, in their fixed order.
    rooms: Vec<Room>,
    /// What a screen reader calls the bar.
    #[prop(into)]
    label: String,
) -> impl IntoView {
    let links = rooms
        .into_iter()
        .map(|room| {
            view! {
                <a href=room.href aria-current=room.current.then_some("page")>
                    <Icon glyph=room.glyph />
                    <span>{room.label}</span>
                </a>
            }
        })
        .collect_view();
    view! {
        <nav class="rooms" aria-label=label>
            {links}
        </nav>
    }
}

/// The way back, before the title.
#[component]
pub fn TopBack(
    /// Where to, as a fragment.
    #[prop(into)]
    href: String,
    /// What a screen reader says, such as "Back to Stock".
    #[prop(into)]
    label: String,
) -> impl IntoView {
    view! {
        <a class="back" href=href aria-label=label>
            <Icon glyph=Glyph::Back />
        </a>
    }
}
