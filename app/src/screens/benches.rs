//! How full the benches are.

use leptos::prelude::*;
use velamen_core::view::benches::{BenchFill, benches};

use crate::frame::{notices, room_bar};
use crate::ledger::Ledger;
use crate::route::Route;
use crate::ui::{Glyph, Lesson, PlainLink, Screen, Slat, TopBack};
use crate::words::{benches as words, rooms};

/// The screen.
#[component]
pub fn Benches() -> impl IntoView {
    let ledger = Ledger::here();
    let shown = ledger.ask(|state, _| benches(state));
    let list = move || {
        let rows = shown.get();
        if rows.is_empty() {
            return view! { <Lesson glyph=Glyph::Stock title=words::NONE words=words::NONE_HINT /> }
                .into_any();
        }
        rows.iter().map(place).collect_view().into_any()
    };
    view! {
        <Screen
            title=words::TITLE
            back=|| view! { <TopBack href=Route::Stock.href() label=rooms::back_to(rooms::STOCK) /> }
            notice=notices
            rooms=|| room_bar(Route::Stock)
        >
            {list}
            <p class="edge soft">{words::ORIGIN}</p>
        </Screen>
    }
}

fn place(fill: &BenchFill) -> impl IntoView + use<> {
    let area = fill.area_cm2.is_none().then(|| {
        let href = Route::Place(fill.place.place).href();
        view! { <div class="form"><PlainLink href label=words::GIVE_AREA /></div> }
    });
    let lines = words::fill(fill);
    let lines = lines
        .into_iter()
        .map(|said| view! { <li>{said}</li> })
        .collect_view();
    view! {
        <section>
            <Slat name=fill.place.name.clone() note=words::percent(fill) />
            <ul class="plain-list">{lines}</ul>
            {area}
        </section>
    }
}
