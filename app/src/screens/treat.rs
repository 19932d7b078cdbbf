//! The Treat room: the safety lines, a treatment written down, and those on record.

use leptos::prelude::*;
use velamen_core::view::{shed, treat::treated};

use super::treat_form::TreatForm;
use crate::frame::{notices, room_bar};
use crate::ledger::Ledger;
use crate::route::Route;
use crate::screens::names::sentence;
use crate::ui::{Screen, Slat};
use crate::words::{format, rooms, treat as words};

/// Treatments shown.
const SHOWN: usize = 30;

/// The screen.
#[component]
pub fn Treat() -> impl IntoView {
    let ledger = Ledger::here();
    let shown = ledger.ask(|state, _| {
        let rows = treated(state, SHOWN).into_iter();
        rows.map(|row| {
            let said = sentence(state, &row.event);
            (row.entry, row.on, said, row.reentry_h)
        })
        .collect::<Vec<_>>()
    });
    let rows = move || {
        let rows = shown.get();
        if rows.is_empty() {
            return view! { <p class="edge soft">{words::EMPTY}</p> }.into_any();
        }
        rows.into_iter()
            .map(|(entry, on, said, reentry_h)| view! {
                <a class="entry" href=Route::Entry(entry).href()>
                    <span class="soft">{format::full_day(on)}</span>
                    <span>{said}</span>
                    {reentry_h.map(|hours| view! { <span class="soft">{words::reentry(hours)}</span> })}
                </a>
            })
            .collect_view()
            .into_any()
    };
    view! {
        <Screen title=rooms::TREAT notice=notices rooms=|| room_bar(Route::Treat)>
            <Safety />
            <TreatForm />
            <Slat name=words::ON_RECORD />
            {rows}
        </Screen>
    }
}

#[component]
fn Safety() -> impl IntoView {
    let ledger = Ledger::here();
    let number = ledger.ask(|state, _| shed::nursery(state).poisons_number);
    let poisons = move || {
        let number = number.get();
        if number.is_empty() {
            words::NO_POISONS.to_owned()
        } else {
            words::poisons(&number)
        }
    };
    view! {
        <section class="card">
            <div class="stack">
                <p class="strong">{words::LAW}</p>
                <p>{words::LAW_MORE}</p>
            </div>
        </section>
        <details class="more-of-it">
            <summary>{words::SAFETY}</summary>
            <div class="edge stack">
                <p>{words::CONTACT}</p>
                <p class="strong">{poisons}</p>
                <p>{words::HANDLE}</p>
                <p class="soft">{words::ORIGIN}</p>
            </div>
        </details>
    }
}
