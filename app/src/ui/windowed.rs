//! A long list, drawn in parts: the first at once, after its paint a few more and as many as keep the end out of sight, and
//! the next when that comes near.
//!
//! Invariants: how long the list is makes no difference to how long its first part takes; a part that was drawn stays.
//! The key at the end does what scrolling does, for keyboards, screen readers and browsers that tell of no scrolling.

use leptos::prelude::*;
use std::time::Duration;
use wasm_bindgen::JsCast;
use wasm_bindgen::closure::Closure;

/// The next part is drawn when the end is fewer than so many screens away.
const AHEAD: i32 = 2;

/// So many parts are drawn by themselves, one after the other: a short list is there whole, for who looks for words in the
/// page.
const ALWAYS: usize = 6;

/// Parts drawn for the printer at most: a few thousand rows, more than anybody carries. Where more is left out, the key at
/// the end says so on paper, too.
const ON_PAPER: usize = 250;

/// A list in parts.
#[component]
pub fn Windowed(
    /// How many parts there are.
    #[prop(into)]
    parts: Signal<usize>,
    /// Draws one of them, by its number from 0.
    part: Callback<usize, AnyView>,
    /// The words of the key at the end.
    more_label: &'static str,
    /// Whether the printer is about to look: paper does not scroll.
    #[prop(into)]
    on_paper: Signal<bool>,
    /// Parts there at once; left out, one.
    #[prop(default = 1)]
    at_once: usize,
    /// Told whenever more was drawn.
    #[prop(optional)]
    on_drawn: Option<Callback<()>>,
) -> impl IntoView {
    let drawn = RwSignal::new(at_once.max(1));
    let end = NodeRef::<leptos::html::Span>::new();
    let shown = Memo::new(move |_| {
        let least = if on_paper.get() { ON_PAPER } else { 0 };
        drawn.get().max(least).min(parts.get())
    });
    let rest = Memo::new(move |_| shown.get() < parts.get());
    let more = move || drawn.update(|drawn| *drawn += 1);
    for event in ["scroll", "resize"] {
        follow(event, move || {
            if rest.get_untracked() && near(end) {
                more();
            }
        });
    }
    Effect::new(move |_| {
        drawn.track();
        if let Some(told) = on_drawn {
            told.run(());
        }
        if rest.get() {
            after_paint(move || {
                let wanted = rest.try_get_untracked().unwrap_or_default();
                if wanted && (drawn.get_untracked() < ALWAYS || near(end)) {
                    more();
                }
            });
        }
    });
    view! {
        <For each=move || 0..shown.get() key=|nth| *nth children=move |nth| part.run(nth) />
        <span hidden node_ref=end></span>
        {move || rest.get().then(|| view! {
            <button type="button" class="quiet edge" on:click=move |_| more()>{more_label}</button>
        })}
    }
}

/// Once what stands was painted and whatever waits has had its turn.
fn after_paint(work: impl FnOnce() + 'static) {
    request_animation_frame(move || set_timeout(work, Duration::ZERO));
}

/// Whether what scrolls, the body of the list's own screen or the page as one, is near its end; one that does not scroll is.
fn near(end: NodeRef<leptos::html::Span>) -> bool {
    let end = end.get_untracked();
    let body = end.and_then(|end| end.closest(".screen-body").ok().flatten());
    let parts = [body, document().document_element()];
    parts.into_iter().flatten().all(|part| {
        let left = part.scroll_height() - part.scroll_top() - part.client_height();
        left < part.client_height().saturating_mul(AHEAD)
    })
}

/// Tells of such an event anywhere on the page, for as long as the caller lives.
fn follow(event: &'static str, work: impl Fn() + 'static) {
    let told = Closure::<dyn Fn()>::new(work);
    let listens = |closure: &Closure<dyn Fn()>| -> web_sys::js_sys::Function {
        closure
            .as_ref()
            .unchecked_ref::<web_sys::js_sys::Function>()
            .clone()
    };
    // A page that tells of no scrolling has the key.
    let _ = window().add_event_listener_with_callback_and_bool(event, &listens(&told), true);
    let kept = StoredValue::new_local(told);
    on_cleanup(move || {
        kept.try_with_value(|closure| {
            let _ = window().remove_event_listener_with_callback_and_bool(
                event,
                &listens(closure),
                true,
            );
        });
    });
}
