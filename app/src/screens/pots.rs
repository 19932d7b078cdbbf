//! Pots.

use leptos::prelude::*;

use crate::frame::{notices, room_bar};
use crate::route::Route;
use crate::ui::Screen;

/// Pots.
#[component]
pub fn Pots() -> impl IntoView {
    view! { <Screen title="Pots" notice=notices rooms=|| room_bar(Route::Book)>{()}</Screen> }
}
