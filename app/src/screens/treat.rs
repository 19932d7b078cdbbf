//! The Treat room: treatments that are on record.

use leptos::prelude::*;
use velamen_core::event::Event;

use crate::frame::{notices, room_bar};
use crate::ledger::Ledger;
use crate::route::Route;
use crate::screens::names::sentence;
use crate::ui::{Glyph, Lesson, Screen};
use crate::words::{format, rooms, shed as words};

/// The screen.
#[component]
pub fn Treat() -> impl IntoView {
    let ledger = Ledger::here();
    let shown = ledger.ask(|state, _| {
        let treatments = state.facts().treatments.values().rev();
        treatments
            .map(|treatment| {
                (
                    treatment.entry,
                    treatment.on,
                    sentence(state, &Event::Treated(treatment.event.clone())),
                )
            })
            .collect::<Vec<_>>()
    });
    let rows = move || {
        let rows = shown.get();
        if rows.is_empty() {
            return view! { <Lesson glyph=Glyph::Treat title=words::TREAT_EMPTY words=words::TREAT_HINT /> }.into_any();
        }
        rows.into_iter()
            .map(|(entry, on, said)| view! {
                <a class="entry" href=Route::Entry(entry).href()><span class="soft">{format::full_day(on)}</span><span>{said}</span></a>
            })
            .collect_view()
            .into_any()
    };
    view! { <Screen title=rooms::TREAT notice=notices rooms=|| room_bar(Route::Treat)>{rows}</Screen> }
}
