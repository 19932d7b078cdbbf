//! A clump comes to the bench.

use leptos::prelude::*;

use crate::frame::{notices, room_bar};
use crate::route::Route;
use crate::ui::Screen;

/// A clump comes to the bench.
#[component]
pub fn OpenClump() -> impl IntoView {
    view! { <Screen title="OpenClump" notice=notices rooms=|| room_bar(Route::Repot)>{()}</Screen> }
}
