//! "Seen here": what is noticed becomes work.

use leptos::prelude::*;
use velamen_core::command::{Command, RecordFinding};
use velamen_core::event::{SeenOn, Sight, Urgency};
use velamen_core::id::{ClumpId, LotId};
use velamen_core::view::{lot_label, repot};

use crate::frame::{notices, room_bar};
use crate::ledger::{Act, Ledger};
use crate::route::Route;
use crate::ui::{Field, PlainAction, Screen, Slat, Stake, TopBack, TrayTag};
use crate::words::{rooms, round as words, seen, told, trade};

/// Something seen on a lot.
#[component]
pub fn SeenLot(lot: LotId) -> impl IntoView {
    let ledger = Ledger::here();
    let label = ledger.ask(move |state, _| lot_label(state.facts(), lot));
    let sights = Sight::ALL
        .into_iter()
        .map(|what| {
            let press = Callback::new(move |()| {
                let command = Command::Observe { lots: vec![lot], what, good: None, note: String::new() };
                ledger.act(Act::new(command, told::done(trade::sight(what))).then(|_| leave()));
            });
            view! { <PlainAction label=trade::sight(what).to_owned() on_press=press busy=ledger.busy() /> }
        })
        .collect_view();
    view! {
        <Screen
            title=words::SEEN_HERE
            back=move || view! { <TopBack href=Route::Lot(lot).href() label=rooms::back_to(rooms::STOCK) /> }
            notice=notices
            rooms=|| room_bar(Route::Stock)
        >
            <p class="edge">
                {move || label.with(|label| view! {
                    <Stake name=trade::name_runs(&label.name) code=label.code.map(|code| code.to_string()).unwrap_or_default() />
                })}
            </p>
            <Slat name=seen::THE_PLANT note="" />
            <div class="grid">{sights}</div>
            <Signs on=SeenOn::Lot(lot) />
        </Screen>
    }
}

/// Something seen on a clump at the bench.
#[component]
pub fn SeenClump(clump: ClumpId) -> impl IntoView {
    let ledger = Ledger::here();
    let view = ledger.ask(move |state, _| repot::clump(state, clump));
    let side = move || {
        view.get()
            .map(|clump| view! { <TrayTag number=clump.tray.to_string() word=rooms::TRAY /> })
    };
    view! {
        <Screen
            title=words::SEEN_HERE
            back=move || view! { <TopBack href=Route::Clump(clump).href() label=rooms::back_to(rooms::REPOT) /> }
            side
            notice=notices
            rooms=|| room_bar(Route::Repot)
        >
            <Signs on=SeenOn::Clump(clump) />
        </Screen>
    }
}

/// Signs of disease and pests: one tap, or the grower's own words.
#[component]
fn Signs(on: SeenOn) -> impl IntoView {
    let ledger = Ledger::here();
    let own = RwSignal::new(String::new());
    let record = move |sign: String| {
        let words = trade::sign(&sign);
        let finding = RecordFinding {
            on,
            sign,
            part: String::new(),
            agent: None,
            affected: None,
            looked_at: None,
            urgency: Urgency::default(),
            photos: Vec::new(),
            note: String::new(),
        };
        ledger.act(Act::new(Command::RecordFinding(finding), told::done(&words)).then(|_| leave()));
    };
    let signs = trade::SIGNS
        .into_iter()
        .map(|(key, label)| {
            let press = Callback::new(move |()| record(key.to_owned()));
            view! { <PlainAction label=label.to_owned() on_press=press busy=ledger.busy() /> }
        })
        .collect_view();
    let press_own = Callback::new(move |()| record(own.get_untracked()));
    let empty = Signal::derive(move || own.with(|text| text.trim().is_empty()));
    view! {
        <Slat name=seen::DISEASE_OR_PEST note="" />
        <div class="grid">{signs}</div>
        <div class="form">
            <Field label=seen::OWN_WORDS value=own on_input=Callback::new(move |text| own.set(text)) max_chars=200 />
            <PlainAction label=seen::RECORD.to_owned() on_press=press_own disabled=empty busy=ledger.busy() />
        </div>
    }
}

/// Back to where one came from.
fn leave() {
    // Without a history there is nothing to go back to, and the notice says it is recorded.
    let _ = window().history().and_then(|history| history.back());
}
