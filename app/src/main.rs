//! Starts the app in the page.

use leptos::prelude::*;
use velamen_app::{App, bench, platform::failure, route::Route, words};

fn main() {
    failure::install(words::trouble::FAILURE, Route::Files.href());
    if !bench::is_wanted() {
        mount_to_body(App);
    }
}
