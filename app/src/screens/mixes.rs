//! Mixes.

use leptos::prelude::*;

use crate::frame::{notices, room_bar};
use crate::route::Route;
use crate::ui::Screen;

/// Mixes.
#[component]
pub fn Mixes() -> impl IntoView {
    view! { <Screen title="Mixes" notice=notices rooms=|| room_bar(Route::Book)>{()}</Screen> }
}
