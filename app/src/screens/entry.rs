//! One entry: all it says, and putting it right.

use leptos::prelude::*;
use velamen_core::command::Command;
use velamen_core::event::WithdrawWhy;
use velamen_core::id::EntryRef;
use velamen_core::rejection::Rejection;
use velamen_core::view::book::row_of;

use crate::frame::{notices, room_bar};
use crate::ledger::{Act, Ledger, ToldKind};
use crate::route::Route;
use crate::screens::names::sentence;
use crate::ui::{PlainAction, Screen, TopBack};
use crate::words::{book as words, format, rejection, rooms};

/// The screen.
#[component]
pub fn Entry(entry: EntryRef) -> impl IntoView {
    let ledger = Ledger::here();
    let rests = RwSignal::new(false);
    let shown = ledger.ask(move |state, _| {
        let row = row_of(state, entry)?;
        let now: Vec<String> = row
            .events
            .iter()
            .map(|event| sentence(state, event))
            .collect();
        let first: Vec<String> = row
            .amended_from
            .iter()
            .map(|(_, event)| sentence(state, event))
            .collect();
        Some((row, now, first))
    });
    let withdraw = move |targets: Vec<EntryRef>, why: WithdrawWhy, with_dependents: bool| {
        let command = Command::Withdraw {
            targets,
            with_dependents,
            why,
            note: String::new(),
        };
        let said = if why == WithdrawWhy::Restored {
            words::RESTORED
        } else {
            words::WITHDREW
        };
        let otherwise = move |no: Rejection| {
            rests.set(matches!(no, Rejection::OthersRestOnIt { .. }));
            ledger.say(rejection::say(&no), ToldKind::Refused);
        };
        ledger.act(Act::new(command, said).for_good().otherwise(otherwise));
    };
    let key = move |label: &str, why: WithdrawWhy, with: bool| {
        let press = Callback::new(move |()| withdraw(vec![entry], why, with));
        view! { <PlainAction label=label.to_owned() on_press=press busy=ledger.busy() /> }
    };
    let body = move || {
        let (row, now, first) = shown.get()?;
        let out = row.withdrawn.is_some();
        let phone = row.phone.map(|phone| phone.to_string()).unwrap_or_default();
        let when = format!(
            "{} · {}",
            format::long_day(row.on),
            words::recorded(&format::clock(row.minute), &phone)
        );
        let keys = match row.withdrawn {
            Some((by, _)) => {
                let press =
                    Callback::new(move |()| withdraw(vec![by], WithdrawWhy::Restored, false));
                view! { <PlainAction label=words::RESTORE.to_owned() on_press=press busy=ledger.busy() /> }.into_any()
            }
            None => view! {
                {key(words::WITHDRAW, WithdrawWhy::Mistake, false)}
                {key(words::WITHDRAW_TWICE, WithdrawWhy::Twice, false)}
                {rests.get().then(|| key(words::WITHDRAW_ALL, WithdrawWhy::Mistake, true))}
            }
            .into_any(),
        };
        Some(view! {
            <div class="form">
                <p class="soft">{when}</p>
                {row.locked.map(|_| view! { <p>{words::LOCKED}</p> })}
                {first.into_iter().map(|words| view! { <p class="out">{words}</p> }).collect_view()}
                {now.into_iter().map(|words| view! { <p class:out=out>{words}</p> }).collect_view()}
                <p class="soft">{words::WITHDRAW_HINT}</p>
                {keys}
            </div>
        })
    };
    view! {
        <Screen
            title=words::ENTRY
            back=|| view! { <TopBack href=Route::Book.href() label=rooms::back_to(rooms::BOOK) /> }
            notice=notices
            rooms=|| room_bar(Route::Book)
        >
            {body}
        </Screen>
    }
}
