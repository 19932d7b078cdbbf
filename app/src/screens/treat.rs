//! The Treat room: baths in hand, what lies drying, what is not to be touched yet, and what is on record.

use leptos::prelude::*;
use velamen_core::view::shed;
use velamen_core::view::treat::{bound, treated};

use super::bath::{Wanted, in_hand, to_a_bath};
use super::bath_load::DryingTable;
use super::reentry::{bound_name, until};
use crate::frame::{notices, room_bar};
use crate::ledger::Ledger;
use crate::route::Route;
use crate::screens::names::sentence;
use crate::ui::{Bottle, MainAction, PlainLink, Screen, Slat};
use crate::words::{bath, format, record, rooms, treat as words};

/// Treatments shown.
const SHOWN: usize = 30;

/// The screen.
#[component]
pub fn Treat() -> impl IntoView {
    let ledger = Ledger::here();
    let shown = ledger.ask(|state, _| {
        let rows = treated(state, SHOWN).into_iter();
        rows.map(|row| {
            let said = sentence(state, &row.event);
            (row.entry, row.on, said, row.reentry_h)
        })
        .collect::<Vec<_>>()
    });
    let rows = move || {
        let rows = shown.get();
        if rows.is_empty() {
            return view! { <p class="edge soft">{words::EMPTY}</p> }.into_any();
        }
        rows.into_iter()
            .map(|(entry, on, said, reentry_h)| view! {
                <a class="entry" href=Route::Entry(entry).href()>
                    <span class="soft">{format::full_day(on)}</span>
                    <span>{said}</span>
                    {reentry_h.map(|hours| view! { <span class="soft">{words::reentry(hours)}</span> })}
                </a>
            })
            .collect_view()
            .into_any()
    };
    let make = Callback::new(move |()| to_a_bath(ledger, Wanted::default()));
    let actions = move || {
        view! {
            <PlainLink href=Route::TreatRecord.href() label=words::RECORD />
            <MainAction label=bath::MAKE.to_owned() on_press=make />
        }
    };
    view! {
        <Screen title=rooms::TREAT actions notice=notices rooms=|| room_bar(Route::Treat)>
            <InHand />
            <DryingTable />
            <HandsOff />
            <Safety />
            <Slat name=words::ON_RECORD />
            {rows}
            <p class="edge"><a href=Route::RecordLog.href()>{record::OPEN}</a></p>
        </Screen>
    }
}

/// Baths in hand: one tap goes on.
#[component]
fn InHand() -> impl IntoView {
    let ledger = Ledger::here();
    let baths = Memo::new(move |_| in_hand(ledger));
    move || {
        let baths = baths.get();
        (!baths.is_empty()).then(|| {
            let rows = baths.into_iter().map(|(number, draft)| {
                let name = ledger.follow(|state, _| {
                    let known = state.facts().products.get(&draft.product?);
                    known.map(|product| product.label_name.or_default())
                });
                let name = name.unwrap_or_else(|| bath::MAKE.to_owned());
                view! {
                    <a class="pick" href=Route::Bath(number).href()>
                        <Bottle name note=bath::dips(draft.dips) />
                    </a>
                }
            });
            view! { <Slat name=bath::IN_HAND /> {rows.collect_view()} }
        })
    }
}

/// What is bound by a treatment, and until when: one line for all that came out of one bath.
#[component]
fn HandsOff() -> impl IntoView {
    let ledger = Ledger::here();
    let rows = ledger.ask(|state, at| {
        let mut lines: Vec<(String, String, Vec<String>)> = Vec::new();
        for row in bound(state, at.now_ms) {
            let until = until(&row, at.today);
            let name = bound_name(state, row.what);
            match lines
                .iter_mut()
                .find(|(label, then, _)| *label == row.label_name && *then == until)
            {
                Some((.., names)) => names.push(name),
                None => lines.push((row.label_name, until, vec![name])),
            }
        }
        lines
    });
    move || {
        let rows = rows.get();
        (!rows.is_empty()).then(|| {
            let rows = rows.into_iter().map(|(label, until, names)| {
                view! { <p class="warn"><strong>{names.join(", ")}</strong> " · " {bath::bound(&label, &until)}</p> }
            });
            view! { <Slat name=bath::BOUND /> {rows.collect_view()} }
        })
    }
}

#[component]
fn Safety() -> impl IntoView {
    let ledger = Ledger::here();
    let number = ledger.ask(|state, _| shed::nursery(state).poisons_number);
    let poisons = move || {
        let number = number.get();
        if number.is_empty() {
            words::NO_POISONS.to_owned()
        } else {
            words::poisons(&number)
        }
    };
    view! {
        <section class="card">
            <div class="stack">
                <p class="strong">{words::LAW}</p>
                <p>{words::LAW_MORE}</p>
            </div>
        </section>
        <details class="more-of-it">
            <summary>{words::SAFETY}</summary>
            <div class="edge stack">
                <p>{words::CONTACT}</p>
                <p class="strong">{poisons}</p>
                <p>{words::HANDLE}</p>
                <p class="soft">{words::ORIGIN}</p>
            </div>
        </details>
    }
}
