//! Handing the book over as a file, and taking one in: first what it would bring, then taking it.

use leptos::ev::Event;
use leptos::prelude::*;
use wasm_bindgen::JsCast;

use crate::frame::{notices, room_bar};
use crate::ledger::{Arrival, Incoming, Ledger, Phase};
use crate::route::Route;
use crate::ui::{MainAction, PlainAction, Screen, Slat, TopBack};
use crate::words::{book as words, files, rooms};

/// The screen.
#[component]
pub fn Files() -> impl IntoView {
    let ledger = Ledger::here();
    let arrival = RwSignal::new(Arrival::Nothing);
    let has_book = move || ledger.phase() == Phase::Ready;
    let choose = move |event: Event| {
        let input = event
            .target()
            .and_then(|target| target.dyn_into::<web_sys::HtmlInputElement>().ok());
        if let Some(file) = input
            .and_then(|input| input.files())
            .and_then(|files| files.get(0))
        {
            ledger.look_at_file(file, arrival);
        }
    };
    let hand_over = move || {
        has_book().then(|| {
            let save = Callback::new(move |()| ledger.download_book());
            let share = Callback::new(move |()| ledger.share_book());
            view! {
                <Slat name=files::HAND_OVER />
                <div class="form">
                    <p>{words::HAND_OVER_HINT}</p>
                    <PlainAction label=words::SAVE.to_owned() on_press=save />
                    {ledger.can_share().then(|| view! { <PlainAction label=words::SHARE.to_owned() on_press=share /> })}
                </div>
            }
        })
    };
    let compare = move || has_book().then(|| fingerprint(ledger));
    let told = move || match arrival.get() {
        Arrival::Nothing => ().into_any(),
        Arrival::Reading => view! { <p>{words::READING}</p> }.into_any(),
        Arrival::Fault(why) => view! { <p class="warn" role="alert">{why}</p> }.into_any(),
        Arrival::Ready(incoming) => plan(ledger, *incoming, arrival).into_any(),
    };
    let back = move || {
        let (href, room) = if has_book() {
            (Route::Book.href(), rooms::BOOK)
        } else {
            (Route::Round.href(), rooms::START)
        };
        view! { <TopBack href label=rooms::back_to(room) /> }
    };
    let bar = move || has_book().then(|| room_bar(Route::Book));
    view! {
        <Screen title=words::FILES back notice=notices rooms=bar>
            {hand_over}
            <Slat name=files::TAKE_IN />
            <div class="form">
                <p>{words::TAKE_IN_HINT}</p>
                <label class="file">
                    <span>{words::CHOOSE_FILE}</span>
                    <input type="file" on:change=choose />
                </label>
                {told}
            </div>
            {compare}
        </Screen>
    }
}

/// Made on this screen alone: it reads every fact.
fn fingerprint(ledger: Ledger) -> impl IntoView {
    let letters = ledger.ask(|state, _| state.fingerprint());
    view! {
        <Slat name=files::FINGERPRINT />
        <div class="form">
            <p class="fingerprint">{letters}</p>
            <p>{files::FINGERPRINT_HINT}</p>
        </div>
    }
}

fn plan(ledger: Ledger, incoming: Incoming, arrival: RwSignal<Arrival>) -> impl IntoView {
    let lines = files::plan(&incoming.plan);
    let nursery = incoming.nursery.clone();
    // What came in is work to look at: the Round shows it.
    let take = Callback::new(move |()| {
        ledger.take_in(incoming.clone(), arrival, || Route::Round.replace());
    });
    view! {
        <h2><bdi>{nursery}</bdi></h2>
        <ul>{lines.into_iter().map(|line| view! { <li>{line}</li> }).collect_view()}</ul>
        <MainAction label=words::TAKE_IN.to_owned() on_press=take busy=ledger.busy() />
    }
}
