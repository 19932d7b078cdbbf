//! Choosing a table that lies on the phone: a logger's file, a stock list.

use leptos::ev::Event;
use leptos::prelude::*;
use wasm_bindgen::JsCast;

use crate::ledger::{Ledger, TableFile};
use crate::words::book;

/// The box that takes the file; what is read of it goes into `file`.
#[component]
pub fn TableChooser(file: RwSignal<TableFile>) -> impl IntoView {
    let ledger = Ledger::here();
    let choose = move |event: Event| {
        let input = event
            .target()
            .and_then(|target| target.dyn_into::<web_sys::HtmlInputElement>().ok());
        let files = input.and_then(|input| input.files());
        if let Some(chosen) = files.and_then(|files| files.get(0)) {
            ledger.read_table(chosen, file);
        }
    };
    view! {
        <label class="file">
            <span>{book::CHOOSE_FILE}</span>
            <input type="file" accept=".csv,.tsv,.txt,text/csv,text/plain" on:change=choose />
        </label>
    }
}
