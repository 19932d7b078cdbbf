//! A long list, drawn in parts: the first at once, the next when the end of what is drawn comes near; or, where the list
//! has an end nobody would wait for, one after the other with the page free in between.
//!
//! Invariants: how long the list is makes no difference to how long its first part takes; a part that was drawn stays.
//! The key at the end does what scrolling does, for keyboards, screen readers and browsers that tell of no scrolling.

use leptos::prelude::*;
use std::time::Duration;
use wasm_bindgen::JsCast;
use wasm_bindgen::closure::Closure;

/// The next part is drawn when the end is fewer than so many screens away.
const AHEAD: i32 = 2;

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
) -> impl IntoView {
    let drawn = RwSignal::new(1_usize);
    let rest = Memo::new(move |_| drawn.get() < parts.get());
    let more = move || drawn.update(|drawn| *drawn += 1);
    follow_scrolling(move || {
        if rest.get_untracked() && near_the_end() {
            more();
        }
    });
    view! {
        <For each=move || 0..drawn.get().min(parts.get()) key=|nth| *nth children=move |nth| part.run(nth) />
        {move || rest.get().then(|| view! {
            <button type="button" class="quiet edge" on:click=move |_| more()>{more_label}</button>
        })}
    }
}

/// A list that is drawn to its end by itself, a part after each paint. A list that takes its place ends it.
#[component]
pub fn InTurn(
    /// How many parts there are.
    parts: usize,
    /// Draws one of them, by its number from 0.
    part: Callback<usize, AnyView>,
) -> impl IntoView {
    let drawn = RwSignal::new(1_usize);
    go_on(drawn, parts);
    view! {
        <For each=move || 0..drawn.get().min(parts) key=|nth| *nth children=move |nth| part.run(nth) />
    }
}

/// Draws the next part once what stands was painted and whatever waits has had its turn.
fn go_on(drawn: RwSignal<usize>, parts: usize) {
    if drawn.try_get_untracked().is_none_or(|drawn| drawn >= parts) {
        return;
    }
    request_animation_frame(move || {
        set_timeout(
            move || {
                if drawn.try_update(|drawn| *drawn += 1).is_some() {
                    go_on(drawn, parts);
                }
            },
            Duration::ZERO,
        );
    });
}

/// Whether what scrolls, the body of the screen or the page as one, is near its end; one that does not scroll is.
fn near_the_end() -> bool {
    let body = document().query_selector("main").ok().flatten();
    let parts = [body, document().document_element()];
    parts.into_iter().flatten().all(|part| {
        let left = part.scroll_height() - part.scroll_top() - part.client_height();
        left < part.client_height().saturating_mul(AHEAD)
    })
}

/// Tells of every scrolling on the page while the caller lives, whatever it is that scrolls.
fn follow_scrolling(work: impl Fn() + 'static) {
    const EVENT: &str = "scroll";
    let on_scroll = Closure::<dyn Fn()>::new(work);
    let listens = |closure: &Closure<dyn Fn()>| -> web_sys::js_sys::Function {
        closure
            .as_ref()
            .unchecked_ref::<web_sys::js_sys::Function>()
            .clone()
    };
    // A page that tells of no scrolling has the key.
    let _ = window().add_event_listener_with_callback_and_bool(EVENT, &listens(&on_scroll), true);
    let kept = StoredValue::new_local(on_scroll);
    on_cleanup(move || {
        kept.try_with_value(|closure| {
            let _ = window().remove_event_listener_with_callback_and_bool(
                EVENT,
                &listens(closure),
                true,
            );
        });
    });
}
