//! Handing over and taking in.

use leptos::prelude::*;

use crate::frame::{notices, room_bar};
use crate::route::Route;
use crate::ui::Screen;

/// Handing over and taking in.
#[component]
pub fn Files() -> impl IntoView {
    view! { <Screen title="Files" notice=notices rooms=|| room_bar(Route::Book)>{()}</Screen> }
}
