//! The Shed.

use leptos::prelude::*;

use crate::frame::{notices, room_bar};
use crate::route::Route;
use crate::ui::Screen;

/// The Shed.
#[component]
pub fn Shed() -> impl IntoView {
    view! { <Screen title="Shed" notice=notices rooms=|| room_bar(Route::Book)>{()}</Screen> }
}
