//! A lot's page.

use leptos::prelude::*;

use crate::frame::{notices, room_bar};
use crate::route::Route;
use crate::ui::Screen;

/// A lot's page.
#[component]
pub fn Lot(#[allow(unused)] lot: velamen_core::id::LotId) -> impl IntoView {
    view! { <Screen title="Lot" notice=notices rooms=|| room_bar(Route::Stock)>{()}</Screen> }
}
