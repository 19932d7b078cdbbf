//! A task of the grower's own.

use leptos::prelude::*;

use crate::frame::{notices, room_bar};
use crate::route::Route;
use crate::ui::Screen;

/// A task of the grower's own.
#[component]
pub fn NewTask() -> impl IntoView {
    view! { <Screen title="NewTask" notice=notices rooms=|| room_bar(Route::Round)>{()}</Screen> }
}
