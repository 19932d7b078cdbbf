//! Questions.

use leptos::prelude::*;

use crate::frame::{notices, room_bar};
use crate::route::Route;
use crate::ui::Screen;

/// Questions.
#[component]
pub fn Questions() -> impl IntoView {
    view! { <Screen title="Questions" notice=notices rooms=|| room_bar(Route::Book)>{()}</Screen> }
}
