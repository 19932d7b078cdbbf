//! Photographs on their way between phones: how many are here, and saving them.

use leptos::prelude::*;

use crate::frame::{notices, room_bar};
use crate::ledger::{Ledger, Photographs};
use crate::route::Route;
use crate::ui::{PlainAction, Screen, TopBack};
use crate::words::{book, files as words, rooms};

/// The screen.
#[component]
pub fn Photographs() -> impl IntoView {
    let ledger = Ledger::here();
    let counted = RwSignal::new(None);
    ledger.count_photographs(counted);
    let told = move || match counted.get() {
        None => view! { <p>{words::COUNTING}</p> }.into_any(),
        Some(found) => parts(ledger, found).into_any(),
    };
    view! {
        <Screen title=words::PHOTOGRAPHS back=back_to_files notice=notices rooms=|| room_bar(Route::Book)>
            <div class="form">
                <p>{words::PHOTOGRAPHS_HINT}</p>
                {told}
            </div>
        </Screen>
    }
}

/// The way back to handing over and taking in.
pub fn back_to_files() -> impl IntoView {
    view! { <TopBack href=Route::Files.href() label=rooms::back_to(book::FILES) /> }
}

fn parts(ledger: Ledger, found: Photographs) -> impl IntoView {
    let of = found.parts.len();
    let keys = (1..).zip(found.parts).map(|(number, part)| {
        let save = Callback::new(move |()| ledger.save_photographs(part.clone(), number, of));
        view! { <PlainAction label=words::save_photographs(number, of) on_press=save /> }
    });
    view! {
        <p class="strong">{words::photographs_here(found.here, found.missing)}</p>
        {keys.collect_view()}
    }
}
