//! Starts the app in the page.

use leptos::prelude::*;
use velamen_app::{App, platform::failure, words};

fn main() {
    failure::install(words::trouble::FAILURE);
    mount_to_body(App);
}
