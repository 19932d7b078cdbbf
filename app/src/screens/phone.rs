//! This phone.

use leptos::prelude::*;

use crate::frame::{notices, room_bar};
use crate::route::Route;
use crate::ui::Screen;

/// This phone.
#[component]
pub fn Phone() -> impl IntoView {
    view! { <Screen title="Phone" notice=notices rooms=|| room_bar(Route::Book)>{()}</Screen> }
}
