//! Protocols.

use leptos::prelude::*;

use crate::frame::{notices, room_bar};
use crate::route::Route;
use crate::ui::Screen;

/// Protocols.
#[component]
pub fn Protocols() -> impl IntoView {
    view! { <Screen title="Protocols" notice=notices rooms=|| room_bar(Route::Book)>{()}</Screen> }
}

/// One protocol.
#[component]
pub fn Protocol(#[allow(unused)] protocol: velamen_core::id::ProtocolId) -> impl IntoView {
    view! { <Screen title="Protocol" notice=notices rooms=|| room_bar(Route::Book)>{()}</Screen> }
}
