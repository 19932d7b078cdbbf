//! Stock: what there is, found by any part of a name, a place or a code.

use leptos::prelude::*;
use velamen_core::view::stock::stock;

use crate::frame::{notices, room_bar};
use crate::ledger::Ledger;
use crate::route::Route;
use crate::ui::{Field, Glyph, Lesson, PlainLink, Screen, Slat, Stake};
use crate::words::{rooms, round, stock as words, trade};

/// Lots shown at once; the search narrows the rest.
const SHOWN: usize = 200;

/// The screen.
#[component]
pub fn Stock() -> impl IntoView {
    let ledger = Ledger::here();
    let typed = RwSignal::new(String::new());
    let shown = Memo::new(move |_| {
        let typed = typed.get();
        ledger.follow(|state, _| stock(state, &typed, SHOWN))
    });
    let rows = move || {
        let view = shown.get();
        if view.lots == 0 {
            return view! { <Lesson glyph=Glyph::Stock title=words::EMPTY words=words::EMPTY_HINT /> }.into_any();
        }
        if view.rows.is_empty() {
            return view! { <p class="edge">{words::NONE_FOUND}</p> }.into_any();
        }
        let searching = !typed.get().trim().is_empty();
        let mut place = None;
        view.rows
            .into_iter()
            .map(|row| {
                let here = row
                    .place
                    .as_ref()
                    .map_or_else(|| round::NO_PLACE.to_owned(), |place| place.name.clone());
                let heading = (!searching && place.as_ref() != Some(&here)).then(|| here.clone());
                place = Some(here.clone());
                view! {
                    {heading.map(|name| view! { <Slat name /> })}
                    <a class="entry" href=Route::Lot(row.label.lot).href()>
                        <Stake
                            name=trade::name_runs(&row.label.name)
                            code=row.label.code.map(|code| code.to_string()).unwrap_or_default()
                            count=trade::plants_in_pots(row.label.plants, row.label.stands)
                        />
                        {searching.then(|| view! { <span class="soft">{here}</span> })}
                    </a>
                }
            })
            .collect_view()
            .into_any()
    };
    let over = Signal::derive(move || shown.with(|view| words::summary(view.lots, view.plants)));
    let actions = || view! { <PlainLink href=Route::NewLot.href() label=words::ADD_LOT glyph=Glyph::Plus main=true /> };
    view! {
        <Screen title=rooms::STOCK over actions notice=notices rooms=|| room_bar(Route::Stock)>
            <div class="form">
                <Field label=words::SEARCH value=typed on_input=Callback::new(move |text| typed.set(text)) max_chars=200 />
            </div>
            {rows}
        </Screen>
    }
}
