//! The Repot room.

use leptos::prelude::*;

use crate::frame::{notices, room_bar};
use crate::route::Route;
use crate::ui::Screen;

/// The Repot room.
#[component]
pub fn Repot() -> impl IntoView {
    view! { <Screen title="Repot" notice=notices rooms=|| room_bar(Route::Repot)>{()}</Screen> }
}
