//! The phones that write in the book: what each lacks, and taking one off.

use leptos::prelude::*;
use velamen_core::command::Command;
use velamen_core::exchange::lack::Other;
use velamen_core::id::Dev;

use super::photographs::back_to_files;
use super::questions::JoinAgain;
use crate::frame::{notices, room_bar};
use crate::ledger::{Act, Ledger};
use crate::route::Route;
use crate::ui::{MainAction, PlainAction, Screen, Sheet};
use crate::words::{files as words, told};

/// The screen.
#[component]
pub fn Phones() -> impl IntoView {
    let ledger = Ledger::here();
    let others = ledger.others();
    let asked: RwSignal<Option<(Dev, String)>> = RwSignal::new(None);
    let rows = move || {
        let all = others.get().into_iter();
        all.map(|other| row(&other, asked)).collect_view()
    };
    let own = ledger.ask(|state, at| {
        let phone = state.facts().phones.get(&at.dev)?;
        phone.prefix.get().map(ToString::to_string)
    });
    let open = Signal::derive(move || asked.with(Option::is_some));
    let close = Callback::new(move |()| asked.set(None));
    let title = Signal::derive(move || {
        let called = asked.with(|asked| asked.as_ref().map(|(_, name)| name.clone()));
        called.unwrap_or_default()
    });
    let take_off = Callback::new(move |()| {
        if let Some((dev, _)) = asked.get_untracked() {
            let note = String::new();
            ledger.act(Act::new(
                Command::TakeOffPhone { dev, note },
                words::TAKEN_OFF,
            ));
        }
        asked.set(None);
    });
    view! {
        <Screen title=words::PHONES back=back_to_files notice=notices rooms=|| room_bar(Route::Book)>
            <JoinAgain />
            {move || own.get().map(|prefix| view! {
                <section class="card">
                    <p><strong>{prefix}</strong> " · " {words::THIS_PHONE}</p>
                </section>
            })}
            {rows}
            <Sheet open on_close=close title close_label=told::close()>
                <p class="edge">{words::TAKE_OFF_HINT}</p>
                <div class="stack">
                    <PlainAction label=words::KEEP_IT on_press=close />
                    <MainAction label=words::TAKE_OFF on_press=take_off busy=ledger.busy() />
                </div>
            </Sheet>
        </Screen>
    }
}

fn row(other: &Other, asked: RwSignal<Option<(Dev, String)>>) -> impl IntoView + use<> {
    let (dev, name) = (other.dev, words::phone(other));
    let stands = if other.left {
        words::OFF_THE_BOOK.to_owned()
    } else {
        words::lacks(other.lacks)
    };
    let heading = name.clone();
    let take_off = Callback::new(move |()| asked.set(Some((dev, name.clone()))));
    view! {
        <section class="card">
            <div class="stack">
                <p class="strong">{heading}</p>
                <p>{stands}</p>
                {(!other.left).then(|| view! { <PlainAction label=words::TAKE_OFF on_press=take_off /> })}
            </div>
        </section>
    }
}
