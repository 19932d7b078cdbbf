//! Starts the app in the page. `#/kit` shows the swatch book of the look instead.

use leptos::prelude::*;
use velamen_app::ui::Gallery;

fn main() {
    let swatches = window().location().hash().is_ok_and(|hash| hash == "#/kit");
    if swatches {
        mount_to_body(Gallery);
    } else {
        mount_to_body(|| view! { <main class="edge"><h1>"Velamen"</h1></main> });
    }
}
