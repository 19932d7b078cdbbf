//! The Treat room: baths in hand, what lies drying, what is not to be touched yet, and what is on record.

use leptos::prelude::*;
use velamen_core::apply::ApplyDraft;
use velamen_core::id::TreatmentId;
use velamen_core::view::reentry::bound_in_short;
use velamen_core::view::shed;
use velamen_core::view::treat::treated;

use super::apply;
use super::bath::{Wanted, in_hand, to_a_bath};
use super::bath_end::Elsewhere;
use super::bath_load::DryingTable;
use super::reentry::{bound_name, until};
use crate::frame::{notices, room_bar};
use crate::ledger::Ledger;
use crate::route::Route;
use crate::screens::names::sentence;
use crate::ui::{Bottle, MainAction, PlainLink, Screen, Slat};
use crate::words::{apply as apply_words, bath, format, record, rooms, treat as words};

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
            <PlainLink href=Route::Apply.href() label=apply_words::ANOTHER_WAY />
            <MainAction label=bath::MAKE.to_owned() on_press=make />
        }
    };
    view! {
        <Screen title=rooms::TREAT actions notice=notices rooms=|| room_bar(Route::Treat)>
            <InHand />
            <Elsewhere />
            <DryingTable />
            <HandsOff />
            <Safety />
            <Slat name=words::ON_RECORD />
            {rows}
            <p class="edge"><a href=Route::TreatRecord.href()>{words::RECORD}</a></p>
            <p class="edge"><a href=Route::RecordLog.href()>{record::OPEN}</a></p>
        </Screen>
    }
}

/// Baths in hand: one tap goes on.
#[component]
fn InHand() -> impl IntoView {
    let ledger = Ledger::here();
    let baths = Memo::new(move |_| in_hand(ledger));
    let work = ledger.draft::<ApplyDraft>(apply::DRAFT);
    let work = Memo::new(move |_| work.with(|work| work.method.map(|_| work.clone())));
    let one = move || {
        let draft = work.get()?;
        let name = ledger.follow(|state, _| {
            let known = state.facts().products.get(&draft.mixing.product?);
            known.map(|product| product.label_name.or_default())
        });
        let note = apply_words::in_hand(draft.method);
        Some(view! {
            <Slat name=apply_words::IN_HAND />
            <a class="pick" href=Route::Apply.href()>
                <Bottle name=name.unwrap_or_default() note />
            </a>
        })
    };
    let baths = move || {
        let baths = baths.get();
        (!baths.is_empty()).then(|| {
            let rows = baths.into_iter().map(|(number, draft)| {
                let name = ledger.follow(|state, _| {
                    let known = state.facts().products.get(&draft.mixing.product?);
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
    };
    view! {
        {one}
        {baths}
    }
}

/// What is bound by a treatment, and until when: one line for all that came out of one bath.
#[component]
fn HandsOff() -> impl IntoView {
    let ledger = Ledger::here();
    let rows = ledger.ask(|state, at| {
        let mut lines: Vec<(String, String, Vec<String>, TreatmentId)> = Vec::new();
        for row in bound_in_short(state, at.now_ms) {
            let until = until(&row, at.today);
            let name = bound_name(state, row.what);
            match lines
                .iter_mut()
                .find(|(label, then, ..)| *label == row.label_name && *then == until)
            {
                Some((_, _, names, _)) => names.push(name),
                None => lines.push((row.label_name, until, vec![name], row.treatment)),
            }
        }
        lines
    });
    move || {
        let rows = rows.get();
        (!rows.is_empty()).then(|| {
            let rows = rows.into_iter().map(|(label, until, names, treatment)| {
                let paper = Route::DoorNotice(treatment).href();
                view! {
                    <p class="warn">
                        <strong>{names.join(", ")}</strong> " · " {bath::bound(&label, &until)} " "
                        <a href=paper>{apply_words::notice::OPEN}</a>
                    </p>
                }
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
