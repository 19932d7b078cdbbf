//! Water on a lot's page: when it is to be looked at, and what it got last.

use leptos::prelude::*;
use velamen_core::id::LotId;
use velamen_core::view::water::of_lot;

use crate::ledger::Ledger;
use crate::route::Route;
use crate::ui::Slat;
use crate::words::{format, water as words};

/// What it got last, so many of them.
const SHOWN: usize = 4;

/// The section.
#[component]
pub fn LotWater(lot: LotId) -> impl IntoView {
    let ledger = Ledger::here();
    let view = ledger.ask(move |state, at| of_lot(state, lot, at.today, SHOWN));
    move || {
        let (water, got) = view.get()?;
        let today = ledger.today();
        let stands = words::lot(&water, None, false, today);
        let rests_on = words::rhythm(&water.rhythm);
        let none = got
            .is_empty()
            .then(|| view! { <p class="edge soft">{words::NOTHING_YET}</p> });
        let rows = got.into_iter().map(|got| {
            let when = format::days_ago(got.on, today);
            view! {
                <a class="lot-row" href=Route::Entry(got.entry).href()>
                    <span>{words::got(&got)}</span>
                    <span class="small soft">{when}</span>
                </a>
            }
        });
        Some(view! {
            <section>
                <Slat name=words::OF_LOT />
                <p class="edge">{stands}</p>
                <p class="edge small soft">{rests_on}</p>
                {none}
                {rows.collect_view()}
            </section>
        })
    }
}
