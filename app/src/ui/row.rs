//! One row of work: what, on what, why, and one key to say it is done.
//!
//! Invariants: the state is told by shape, place and word, never by colour alone. Late is ink with
//! the days in it and a foot that grows along the row; due is filled; coming is an outline; held
//! is hatched and has no key. The key is square, at the thumb's side, and records once.

use super::guard::TapGuard;
use super::icon::{Glyph, Icon};
use leptos::prelude::*;

/// How a row of work stands today.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum WorkState {
    /// Past its window by this many days.
    Late {
        /// Days since the window closed.
        days: u32,
    },
    /// In its window.
    Due,
    /// This many days ahead.
    Coming {
        /// Days until the window opens.
        days: u32,
    },
    /// Not before a date, or until something else has passed.
    Held,
}

/// How far a late row's foot reaches, in per cent of the row: it grows for four weeks.
pub fn foot_pct(days: u32) -> u32 {
    const FULL_AFTER_DAYS: u32 = 28;
    days.min(FULL_AFTER_DAYS) * 100 / FULL_AFTER_DAYS
}

/// A row of work. The children are the stake and what else names the thing.
#[component]
pub fn WorkRow(
    /// How it stands.
    state: WorkState,
    /// The state in full words for a screen reader, such as "19 days late".
    #[prop(into)]
    state_words: String,
    /// The small word under the number of days, such as "days".
    #[prop(optional, into)]
    unit: String,
    /// What kind of work, shown in the mark when it is due.
    glyph: Glyph,
    /// The work, as a verb.
    #[prop(into)]
    what: String,
    /// Why now, and how many.
    #[prop(optional, into)]
    why: Option<String>,
    /// Where the body leads, as a fragment; nothing leaves it plain.
    #[prop(optional, into)]
    href: Option<String>,
    /// Says it is done. Left out, the row has no key.
    #[prop(optional)]
    on_done: Option<Callback<()>>,
    /// The key's words for a screen reader, such as "Done: first water, K3-204".
    #[prop(optional, into)]
    done_label: String,
    /// True from the tap until the record is committed.
    #[prop(optional, into)]
    busy: Signal<bool>,
    /// The stake, tray tag or other shape.
    children: Children,
) -> impl IntoView {
    let (class, mark, foot) = match state {
        WorkState::Late { days } => ("work work-late", Some(days), Some(foot_pct(days))),
        WorkState::Due => ("work work-due", None, None),
        WorkState::Coming { days } => ("work work-coming", Some(days), None),
        WorkState::Held => ("work work-held", None, None),
    };
    let inside = view! {
        <span class="hidden-text">{state_words} ": "</span>
        <span class="work-what">{what}</span>
        {children()}
        {why.map(|why| view! { <span class="work-why">{why}</span> })}
    };
    let body = match href {
        Some(href) => view! { <a class="work-body" href=href>{inside}</a> }.into_any(),
        None => view! { <div class="work-body">{inside}</div> }.into_any(),
    };
    view! {
        <div class=class>
            <div class="work-mark" aria-hidden="true">
                {mark.map(|days| view! { <span>{days}</span> <small>{unit}</small> })}
                {(state == WorkState::Due).then(|| view! { <Icon glyph /> })}
            </div>
            {body}
            {on_done.map(|on_done| view! { <DoneKey on_done done_label busy /> })}
            {foot.map(|pct| {
                view! { <span class="work-foot" aria-hidden="true" style:width=format!("{pct}%")></span> }
            })}
        </div>
    }
}

/// The square key at the end of a row.
#[component]
fn DoneKey(on_done: Callback<()>, done_label: String, busy: Signal<bool>) -> impl IntoView {
    let guard = TapGuard::new();
    view! {
        <button
            type="button"
            class="work-do"
            aria-label=done_label
            aria-busy=move || busy.get().then_some("true")
            aria-disabled=move || busy.get().then_some("true")
            on:click=move |event| {
                if !busy.get_untracked() && guard.takes(&event) {
                    on_done.run(());
                }
            }
        >
            {move || {
                let glyph = if busy.get() { Glyph::Clock } else { Glyph::Check };
                view! { <Icon glyph /> }
            }}
        </button>
    }
}

#[cfg(test)]
mod tests {
    use super::foot_pct;
    use wasm_bindgen_test::wasm_bindgen_test;

    #[wasm_bindgen_test]
    fn the_foot_of_a_late_row_grows_for_four_weeks_and_then_stays() {
        assert_eq!(foot_pct(0), 0);
        assert_eq!(foot_pct(7), 25);
        assert_eq!(foot_pct(28), 100);
        assert_eq!(foot_pct(400), 100);
    }
}
