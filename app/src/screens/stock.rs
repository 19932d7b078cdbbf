//! The stock list.

use leptos::prelude::*;

use crate::frame::{notices, room_bar};
use crate::route::Route;
use crate::ui::Screen;

/// The stock list.
#[component]
pub fn Stock() -> impl IntoView {
    view! { <Screen title="Stock" notice=notices rooms=|| room_bar(Route::Stock)>{()}</Screen> }
}
