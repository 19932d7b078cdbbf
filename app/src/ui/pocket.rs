//! The glass locked against drips: nothing on the screen answers until a finger has been over three keys in their
//! order, slid or tapped.
//!
//! Invariants: what lies beneath is inert, so no touch, key or screen reader reaches it. The three keys answer to a
//! keyboard and to a screen reader as buttons do. A touch out of order begins anew. The lock opens a moment after the
//! last key, so that the end of that touch lands on nothing. It is of the page: a page loaded anew is not locked.

use std::time::Duration;

use super::fresh_id;
use super::icon::{Glyph, Icon};
use leptos::ev::PointerEvent;
use leptos::html::{Div, H2};
use leptos::prelude::*;
use wasm_bindgen::JsCast;

/// The keys, in their order.
const KEYS: [u8; 3] = [1, 2, 3];
/// From one key to the next, at most: drops that fall minutes apart are no hand.
const NEXT_MS: f64 = 5_000.0;
/// The end of the touch that opens it falls into this.
const OPENS_AFTER: Duration = Duration::from_millis(120);

/// Whether the glass is locked, given by the program as a context.
#[derive(Clone, Copy, Debug)]
pub struct PocketLock {
    /// Whether it is.
    pub locked: RwSignal<bool>,
    /// What the key that locks it says to a screen reader.
    pub label: &'static str,
}

impl PocketLock {
    /// The key in the head of a screen; the style sheet hides it where nobody asked for it.
    pub(super) fn key(self) -> impl IntoView {
        let lock = move |_| self.locked.set(true);
        view! {
            <button type="button" class="screen-lock" aria-label=self.label on:click=lock>
                <Icon glyph=Glyph::Lock />
            </button>
        }
    }
}

/// How far a hand has come over the keys.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Reached {
    key: u8,
    at_ms: f64,
}

impl Reached {
    /// What a touch of a key comes to.
    #[must_use]
    pub fn then(self, key: u8, at_ms: f64) -> Self {
        let first = key == 1;
        let next = key == self.key + 1 && at_ms - self.at_ms <= NEXT_MS;
        match () {
            () if key == self.key => self,
            () if first || next => Self { key, at_ms },
            () => Self::default(),
        }
    }

    /// Whether all keys were touched in their order.
    #[must_use]
    pub fn is_open(self) -> bool {
        usize::from(self.key) == KEYS.len()
    }
}

/// The lock over the whole page while it is shut; the children say what goes on beneath.
#[component]
pub fn Pocket(
    /// Whether it is shut.
    lock: PocketLock,
    /// That the glass is locked.
    title: &'static str,
    /// How it is opened.
    hint: &'static str,
    /// What a key says to a screen reader.
    key_label: fn(u8) -> String,
    /// What goes on meanwhile, with nothing in it to tap.
    children: ChildrenFn,
) -> impl IntoView {
    let children = StoredValue::new(children);
    move || {
        lock.locked.get().then(|| {
            let inside = children.with_value(|children| children());
            view! { <Shut lock title hint key_label>{inside}</Shut> }
        })
    }
}

#[component]
fn Shut(
    lock: PocketLock,
    title: &'static str,
    hint: &'static str,
    key_label: fn(u8) -> String,
    children: Children,
) -> impl IntoView {
    let id = fresh_id("pocket");
    let named_by = id.clone();
    let heading = NodeRef::<H2>::new();
    let keys = NodeRef::<Div>::new();
    let reached = RwSignal::new(Reached::default());
    take_the_focus(heading);
    let touch = move |key: u8, at_ms: f64| {
        if reached.get_untracked().is_open() {
            return;
        }
        reached.update(|reached| *reached = reached.then(key, at_ms));
        if reached.get_untracked().is_open() {
            set_timeout(move || lock.locked.set(false), OPENS_AFTER);
        }
    };
    // A finger that slides stays with the key where it began, so the key under it is looked for.
    let slide = move |event: PointerEvent| {
        if event.buttons() == 0 {
            return;
        }
        let (x, y) = (event.client_x(), event.client_y());
        let under = document().element_from_point(x as f32, y as f32);
        let key = under
            .and_then(|it| it.closest("[data-key]").ok().flatten())
            .and_then(|it| it.get_attribute("data-key"))
            .and_then(|text| text.parse::<u8>().ok());
        if let Some(key) = key {
            touch(key, event.time_stamp());
        }
    };
    let row = KEYS
        .map(|key| {
            let done = move || (reached.get().key >= key).to_string();
            view! {
                <button
                    type="button"
                    class="pocket-key"
                    data-key=key.to_string()
                    aria-label=key_label(key)
                    aria-pressed=done
                    on:click=move |event| touch(key, event.time_stamp())
                >
                    {key}
                </button>
            }
        })
        .collect_view();
    view! {
        <div class="pocket" role="dialog" aria-modal="true" aria-labelledby=named_by>
            <div class="pocket-face">
                <Icon glyph=Glyph::Lock />
                <h2 id=id tabindex="-1" node_ref=heading>{title}</h2>
                {children()}
                <p>{hint}</p>
            </div>
            <div class="pocket-keys" node_ref=keys on:pointerdown=slide on:pointermove=slide>{row}</div>
        </div>
    }
}

/// The heading has the focus while the lock is shut; whatever had it before gets it back.
fn take_the_focus(heading: NodeRef<H2>) {
    let before = StoredValue::new_local(document().active_element());
    Effect::new(move |_| {
        if let Some(heading) = heading.get() {
            // A browser that cannot focus a heading leaves the focus where it was.
            let _ = heading.focus();
        }
    });
    on_cleanup(move || {
        let before = before.try_get_value().flatten();
        request_animation_frame(move || {
            let before = before.and_then(|it| it.dyn_into::<web_sys::HtmlElement>().ok());
            if let Some(before) = before.filter(|it| it.is_connected()) {
                let _ = before.focus();
            }
        });
    });
}

#[cfg(test)]
mod tests {
    use super::Reached;
    use wasm_bindgen_test::wasm_bindgen_test;

    fn after(touches: &[(u8, f64)]) -> Reached {
        let begin = Reached::default();
        touches
            .iter()
            .fold(begin, |reached, (key, at_ms)| reached.then(*key, *at_ms))
    }

    #[wasm_bindgen_test]
    fn it_opens_by_the_three_in_their_order_and_by_nothing_else() {
        assert!(after(&[(1, 0.0), (2, 300.0), (3, 600.0)]).is_open());
        assert!(after(&[(3, 0.0), (1, 10.0), (1, 20.0), (2, 300.0), (3, 600.0)]).is_open());
        assert!(!after(&[(1, 0.0), (3, 300.0), (2, 600.0)]).is_open());
        assert!(!after(&[(3, 0.0), (2, 300.0), (1, 600.0)]).is_open());
        assert!(!after(&[(1, 0.0), (2, 300.0)]).is_open());
    }

    #[wasm_bindgen_test]
    fn drops_that_fall_far_apart_in_time_do_not_open_it() {
        assert!(!after(&[(1, 0.0), (2, 60_000.0), (3, 60_300.0)]).is_open());
    }
}
