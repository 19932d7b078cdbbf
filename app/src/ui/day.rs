//! A day out of the phone's own calendar.
//!
//! Invariants: what comes and goes is the calendar's `2027-03-11`, or nothing; the phone shows it as its owner writes
//! days. Nothing is cleared here.

use super::field::what_is_wrong;
use super::fresh_id;
use leptos::prelude::*;

/// A labelled day. `on_day` gets `2027-03-11`, or an empty text when none is chosen.
#[component]
pub fn DayField(
    /// Which day.
    #[prop(into)]
    label: String,
    /// The day now, as `2027-03-11`; empty for none.
    #[prop(into)]
    value: Signal<String>,
    /// Takes the day at every change.
    on_day: Callback<String>,
    /// The last day that may be chosen, as `2027-03-11`; empty for any.
    #[prop(optional, into)]
    last: Signal<String>,
    /// What is wrong and what to do; empty when nothing is.
    #[prop(optional, into)]
    error: Signal<String>,
) -> impl IntoView {
    let id = fresh_id("day");
    let error_id = format!("{id}-error");
    let wrong = Memo::new(move |_| error.with(|error| !error.is_empty()));
    let last = move || Some(last.get()).filter(|last| !last.is_empty());
    view! {
        <div class="field" class:field-wrong=move || wrong.get()>
            <label class="field-label" for=id.clone()>
                {label}
            </label>
            <div class="field-box">
                <input
                    id=id
                    type="date"
                    max=last
                    aria-describedby=error_id.clone()
                    aria-invalid=move || wrong.get().then_some("true")
                    prop:value=move || value.get()
                    on:input=move |event| on_day.run(event_target_value(&event))
                />
            </div>
            <div id=error_id aria-live="polite">{what_is_wrong(error)}</div>
        </div>
    }
}
