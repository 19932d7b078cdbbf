//! The Shed: what stands around and how things are done here.

use leptos::prelude::*;

use crate::frame::{home_notices, room_bar};
use crate::route::Route;
use crate::ui::{PlainLink, Screen, TopBack};
use crate::words::{
    batches, clean, containers, measure, origins, prices, product, rooms, rotation, shed as words,
    water,
};

/// The screen.
#[component]
pub fn Shed() -> impl IntoView {
    let links = [
        (Route::Places, words::PLACES),
        (Route::Pots, words::POTS),
        (Route::Mixes, words::MIXES),
        (Route::Measures, measure::TITLE),
        (Route::Wash, clean::WASH),
        (Route::Batches, batches::TITLE),
        (Route::Products, product::PRODUCTS),
        (Route::Feeds, water::FEEDS),
        (Route::ToBuy, containers::BUY),
        (Route::Prices, prices::TITLE),
        (Route::Protocols, words::PROTOCOLS),
        (Route::Rotation, rotation::RULES),
        (Route::Preferences, words::PHONE),
        (Route::Origins, origins::TITLE),
    ];
    let links = links
        .map(|(route, label)| view! { <PlainLink href=route.href() label /> })
        .collect_view();
    view! {
        <Screen
            title=rooms::SHED
            back=|| view! { <TopBack href=Route::Book.href() label=rooms::back_to(rooms::BOOK) /> }
            notice=home_notices
            rooms=|| room_bar(Route::Book)
        >
            <div class="form">{links}</div>
        </Screen>
    }
}

/// The way back to the Shed.
pub(super) fn back_to_shed() -> impl IntoView {
    view! { <TopBack href=Route::Shed.href() label=rooms::back_to(rooms::SHED) /> }
}
