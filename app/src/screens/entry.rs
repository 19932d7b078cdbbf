//! One entry.

use leptos::prelude::*;

use crate::frame::{notices, room_bar};
use crate::route::Route;
use crate::ui::Screen;

/// One entry.
#[component]
pub fn Entry(#[allow(unused)] entry: velamen_core::id::EntryRef) -> impl IntoView {
    view! { <Screen title="Entry" notice=notices rooms=|| room_bar(Route::Book)>{()}</Screen> }
}
