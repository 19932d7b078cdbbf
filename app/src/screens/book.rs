//! The book, newest first.

use leptos::prelude::*;

use crate::frame::{notices, room_bar};
use crate::route::Route;
use crate::ui::Screen;

/// The book, newest first.
#[component]
pub fn Book() -> impl IntoView {
    view! { <Screen title="Book" notice=notices rooms=|| room_bar(Route::Book)>{()}</Screen> }
}
