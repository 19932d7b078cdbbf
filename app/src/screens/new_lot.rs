//! A new lot.

use leptos::prelude::*;

use crate::frame::{notices, room_bar};
use crate::route::Route;
use crate::ui::Screen;

/// A new lot.
#[component]
pub fn NewLot() -> impl IntoView {
    view! { <Screen title="NewLot" notice=notices rooms=|| room_bar(Route::Stock)>{()}</Screen> }
}
