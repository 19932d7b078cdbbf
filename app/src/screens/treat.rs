//! The Treat room.

use leptos::prelude::*;

use crate::frame::{notices, room_bar};
use crate::route::Route;
use crate::ui::Screen;

/// The Treat room.
#[component]
pub fn Treat() -> impl IntoView {
    view! { <Screen title="Treat" notice=notices rooms=|| room_bar(Route::Treat)>{()}</Screen> }
}
