//! What the book asks: told in words, answered by an entry.

use leptos::prelude::*;
use velamen_core::command::Command;
use velamen_core::id::{EntryRef, LotId, Subject};
use velamen_core::state::{Anomaly, State};
use velamen_core::view::book::row_of;

use crate::frame::{notices, room_bar};
use crate::ledger::{Act, Ledger};
use crate::route::Route;
use crate::screens::names::{lot, sentence};
use crate::ui::{PlainAction, PlainLink, Screen, TopBack};
use crate::words::{book as words, rooms, shed, stock};

fn asked(state: &State) -> Vec<(Anomaly, String)> {
    let lots = |id: LotId| lot(state, id);
    let entries = |id: EntryRef| {
        let row = row_of(state, id);
        row.and_then(|row| row.events.first().map(|event| sentence(state, event)))
            .unwrap_or_default()
    };
    let anomalies = state.anomalies().into_iter();
    anomalies
        .map(|anomaly| {
            let words = shed::question(&anomaly, &lots, &entries);
            (anomaly, words)
        })
        .collect()
}

/// The screen.
#[component]
pub fn Questions() -> impl IntoView {
    let ledger = Ledger::here();
    let shown = ledger.ask(|state, _| asked(state));
    let rows = move || {
        let rows = shown.get();
        if rows.is_empty() {
            return view! { <p class="edge">{words::NO_QUESTIONS}</p> }.into_any();
        }
        rows.into_iter()
            .map(|(anomaly, said)| {
                let subject = anomaly.subject();
                let key = anomaly.key();
                let settle = Callback::new(move |()| {
                    let command = Command::Settle { subject, anomaly: key.clone(), note: String::new() };
                    ledger.act(Act::new(command, words::SETTLED));
                });
                let lot = match subject {
                    Subject::Lot(lot) => Some(view! { <PlainLink href=Route::Lot(lot).href() label=stock::OPEN_LOT /> }),
                    _ => None,
                };
                view! {
                    <section class="card">
                        <p>{said}</p>
                        <div class="pair">
                            {lot}
                            <PlainAction label=words::RIGHT_AS_IT_IS.to_owned() on_press=settle busy=ledger.busy() />
                        </div>
                    </section>
                }
            })
            .collect_view()
            .into_any()
    };
    view! {
        <Screen
            title=words::QUESTIONS
            back=|| view! { <TopBack href=Route::Book.href() label=rooms::back_to(rooms::BOOK) /> }
            notice=notices
            rooms=|| room_bar(Route::Book)
        >
            <p class="edge">{words::QUESTIONS_HINT}</p>
            {rows}
        </Screen>
    }
}
