//! What a lot and its divisions have cost, a piece and a plant that lives, with what is not in the sums.

use leptos::prelude::*;
use velamen_core::id::LotId;
use velamen_core::view::cost::{Cost, divisions, of_clump, of_lot};

use crate::frame::{notices, room_bar};
use crate::ledger::Ledger;
use crate::route::Route;
use crate::ui::{Fact, Facts, Glyph, Lesson, PlainLink, Screen, Slat, TopBack};
use crate::words::{cost as words, cut, format, prices, rooms};

/// The screen.
#[component]
pub fn LotCost(lot: LotId) -> impl IntoView {
    let ledger = Ledger::here();
    let shown = ledger.ask(move |state, at| {
        let of = divisions(state.facts(), lot).into_iter();
        let of = of.map(|(clump, tray)| (Some(tray), of_clump(state, clump, at.today)));
        let own = (None, of_lot(state, lot, at.today));
        std::iter::once(own).chain(of).collect::<Vec<_>>()
    });
    let body = move || {
        let costs = shown.get();
        let none = costs.iter().all(|(_, cost)| cost.lines.is_empty());
        let lesson = none.then(|| {
            view! { <Lesson glyph=Glyph::Stock title=words::NONE words=words::NONE_HINT /> }
        });
        let costs = costs.into_iter().map(|(tray, cost)| one(tray, &cost));
        view! { {lesson} {costs.collect_view()} }
    };
    view! {
        <Screen
            title=words::TITLE
            back=move || view! { <TopBack href=Route::Lot(lot).href() label=rooms::back_to(cut::THE_LOT) /> }
            notice=notices
            rooms=|| room_bar(Route::Stock)
        >
            {body}
            <p class="edge soft">{words::BASIS}</p>
            <div class="form"><PlainLink href=Route::Prices.href() label=prices::TITLE /></div>
        </Screen>
    }
}

fn one(tray: Option<u32>, cost: &Cost) -> impl IntoView + use<> {
    let (name, note) = match tray {
        Some(tray) => (words::division(tray), ""),
        None => (words::THIS_LOT.to_owned(), words::WITH_PARTS),
    };
    let sign = cost.money.clone();
    let each = |cents: Option<i64>| {
        cents.map_or_else(
            || words::NOBODY_ALIVE.to_owned(),
            |cents| format::money(cents, &sign),
        )
    };
    let (alive, piece) = (each(cost.a_plant_alive()), each(cost.a_piece()));
    let (lived, sum) = (words::lived(cost), words::sum(cost));
    let sums = (!cost.lines.is_empty()).then(|| {
        let lines = cost.lines.iter().map(|line| words::line(line, &sign));
        let lines = lines.map(|said| view! { <li>{said}</li> }).collect_view();
        view! {
            <Facts>
                <Fact value=alive words=words::ALIVE />
                <Fact value=piece words=words::PIECE />
            </Facts>
            <p class="edge">{lived} ". " <span class="strong">{sum}</span></p>
            <ul class="plain-list">{lines}</ul>
        }
    });
    let left = cost.left_out.iter().map(words::left_out);
    let left = left.map(|said| view! { <li>{said}</li> }).collect_view();
    view! {
        <section>
            <Slat name note />
            {sums}
            <h3 class="edge">{words::NOT_IN_IT}</h3>
            <ul class="plain-list">{left}</ul>
        </section>
    }
}
