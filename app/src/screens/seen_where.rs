//! "Seen here" on the walk: where it was seen comes first, a lot or a place as a whole, and each leads on to the signs.

use leptos::prelude::*;
use velamen_core::view::places;
use velamen_core::view::stock::{StockRow, stock};

use crate::frame::{notices, room_bar};
use crate::ledger::Ledger;
use crate::route::Route;
use crate::ui::{Field, Screen, Slat, Stake, TopBack};
use crate::words::{rooms, round, seen as words, stock as stock_words, trade};

/// Lots shown under the search.
const SHOWN: usize = 12;

/// The screen.
#[component]
pub fn SeenWhere() -> impl IntoView {
    let ledger = Ledger::here();
    let typed = RwSignal::new(String::new());
    let found = ledger.ask(move |state, _| {
        let typed = typed.get();
        if typed.trim().is_empty() {
            return Vec::new();
        }
        stock(state, &typed, SHOWN).rows
    });
    let known = ledger.ask(|state, _| places(state.facts()));
    let lots = move || {
        let rows = found.get();
        let nothing = rows.is_empty() && typed.with(|typed| !typed.trim().is_empty());
        let nothing = nothing.then(|| view! { <p class="edge">{stock_words::NOTHING_FOUND}</p> });
        view! {
            {rows.into_iter().map(lot).collect_view()}
            {nothing}
        }
    };
    let benches = move || {
        let rows = known.get().into_iter().map(|place| {
            view! {
                <a class="entry" href=Route::SeenPlace(place.place).href()><bdi>{place.name}</bdi></a>
            }
        });
        rows.collect_view()
    };
    view! {
        <Screen
            title=round::SEEN_HERE
            back=|| view! { <TopBack href=Route::Round.href() label=rooms::back_to(rooms::ROUND) /> }
            notice=notices
            rooms=|| room_bar(Route::Round)
        >
            <Slat name=words::ON_WHICH_LOT />
            <div class="form">
                <Field
                    label=stock_words::SEARCH
                    value=typed
                    on_input=Callback::new(move |text| typed.set(text))
                    max_chars=200
                />
            </div>
            {lots}
            <Slat name=words::OR_WHICH_PLACE />
            {benches}
        </Screen>
    }
}

fn lot(row: StockRow) -> impl IntoView {
    let place = row.place.map(|place| place.name).unwrap_or_default();
    view! {
        <a class="lot-row" href=Route::SeenLot(row.label.lot).href()>
            <Stake
                name=trade::name_runs(&row.label.name)
                code=row.label.code.map(|code| code.to_string()).unwrap_or_default()
                count=trade::plants_in_pots(row.label.plants, row.label.stands)
            />
            <span class="small soft">{place}</span>
        </a>
    }
}
