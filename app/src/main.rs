//! Starts the app in the page.

use leptos::prelude::*;
use velamen_app::{App, bench, platform::failure, platform::room, route::Route, words};

fn main() {
    room::make(room::START_BYTES);
    failure::install(words::trouble::FAILURE, Route::Files.href());
    if !bench::is_wanted() {
        mount_to_body(App);
    }
}
