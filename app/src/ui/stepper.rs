//! Counting with the thumb: less, the count, more.
//!
//! Invariants: the count lives with the caller; this row raises steps and shows what it is given.
//! Keys are not held back against quick taps unless asked, since quick counting is the point. A
//! key at its bound stays in place and does nothing.

use super::guard::TapGuard;
use super::icon::{Glyph, Icon};
use leptos::ev::MouseEvent;
use leptos::prelude::*;

/// Where a count lands after a step: held between its bounds.
pub fn stepped(count: i64, by: i64, min: i64, max: i64) -> i64 {
    count.saturating_add(by).clamp(min, max.max(min))
}

/// A row that counts. `on_count` gets the new count.
#[component]
pub fn Stepper(
    /// What is counted.
    #[prop(into)]
    label: String,
    /// What belongs here, such as "3 bulbs and a lead".
    #[prop(optional, into)]
    hint: Signal<String>,
    /// The count now.
    #[prop(into)]
    count: Signal<i64>,
    /// Nobody has said how many: a dash stands in its place, which is not the same as none.
    #[prop(optional, into)]
    unknown: Signal<bool>,
    /// Takes the new count.
    on_count: Callback<i64>,
    /// The less key's words, such as "One less: starters".
    #[prop(into)]
    less_label: String,
    /// The more key's words.
    #[prop(into)]
    more_label: String,
    /// Words of a key that adds five, such as "+5"; left out, there is none.
    #[prop(optional, into)]
    five_label: Option<String>,
    /// The lowest count.
    #[prop(default = 0)]
    min: i64,
    /// The highest count.
    #[prop(default = i64::MAX)]
    max: i64,
    /// How much one tap counts.
    #[prop(default = 1)]
    by: i64,
    /// Hold back a second tap within 350 ms: only for counts that record at once.
    #[prop(default = false)]
    guard: bool,
) -> impl IntoView {
    let guards = (TapGuard::new(), TapGuard::new(), TapGuard::new());
    let step = move |by: i64, held: TapGuard| {
        move |event: MouseEvent| {
            if guard && !held.takes(&event) {
                return;
            }
            let before = count.get_untracked();
            let after = stepped(before, by, min, max);
            if after != before {
                on_count.run(after);
            }
        }
    };
    let at_least = move || (count.get() <= min).then_some("true");
    let at_most = move || (count.get() >= max).then_some("true");
    let name = label.clone();
    let figure = move || {
        if unknown.get() {
            "–".to_owned()
        } else {
            count.get().to_string()
        }
    };
    view! {
        <div class="count" role="group" aria-label=name>
            <button
                type="button"
                class="count-key count-less"
                aria-label=less_label
                aria-disabled=at_least
                on:click=step(by.saturating_neg(), guards.0)
            >
                <Icon glyph=Glyph::Minus />
            </button>
            <div class="count-face">
                <div>
                    <span class="count-label">{label}</span>
                    <span class="count-hint">{move || hint.get()}</span>
                </div>
                <output class="count-number">{figure}</output>
                {five_label
                    .map(|words| {
                        view! {
                            <button type="button" class="chip" on:click=step(5, guards.1)>
                                {words}
                            </button>
                        }
                    })}
            </div>
            <button
                type="button"
                class="count-key count-more"
                aria-label=more_label
                aria-disabled=at_most
                on:click=step(by, guards.2)
            >
                <Icon glyph=Glyph::Plus />
            </button>
        </div>
    }
}

#[cfg(test)]
mod tests {
    use super::stepped;
    use wasm_bindgen_test::wasm_bindgen_test;

    #[wasm_bindgen_test]
    fn a_count_stays_between_its_bounds() {
        assert_eq!(stepped(0, -1, 0, 500), 0);
        assert_eq!(stepped(498, 5, 0, 500), 500);
        assert_eq!(stepped(i64::MAX, 1, 0, i64::MAX), i64::MAX);
        assert_eq!(stepped(4, 1, 0, 500), 5);
    }
}
