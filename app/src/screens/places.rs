//! Places on the walk.

use leptos::prelude::*;

use crate::frame::{notices, room_bar};
use crate::route::Route;
use crate::ui::Screen;

/// Places on the walk.
#[component]
pub fn Places() -> impl IntoView {
    view! { <Screen title="Places" notice=notices rooms=|| room_bar(Route::Book)>{()}</Screen> }
}

/// One place.
#[component]
pub fn Place(#[allow(unused)] place: velamen_core::id::PlaceId) -> impl IntoView {
    view! { <Screen title="Place" notice=notices rooms=|| room_bar(Route::Book)>{()}</Screen> }
}
