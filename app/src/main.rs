//! Starts the app in the page.

use leptos::prelude::*;

fn main() {
    mount_to_body(|| view! { <main><h1>"Velamen"</h1></main> });
}
