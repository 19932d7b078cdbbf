//! A clump in work.

use leptos::prelude::*;

use crate::frame::{notices, room_bar};
use crate::route::Route;
use crate::ui::Screen;

/// A clump in work.
#[component]
pub fn Clump(#[allow(unused)] clump: velamen_core::id::ClumpId) -> impl IntoView {
    view! { <Screen title="Clump" notice=notices rooms=|| room_bar(Route::Repot)>{()}</Screen> }
}
