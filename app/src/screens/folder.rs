//! A shared folder in place of a server: chosen once, allowed again, looked at.

use leptos::prelude::*;
use velamen_core::time::minute_of_day;

use super::photographs::back_to_files;
use crate::frame::{notices, room_bar};
use crate::ledger::{FolderStand, Ledger, Phase};
use crate::route::Route;
use crate::ui::{MainAction, PlainAction, Screen};
use crate::words::{folder as words, format};

/// The screen.
#[component]
pub fn SharedFolder() -> impl IntoView {
    let ledger = Ledger::here();
    let stand = ledger.folder();
    let choose = Callback::new(move |()| ledger.choose_folder());
    let allow = Callback::new(move |()| ledger.allow_folder());
    let look = Callback::new(move |()| ledger.look_at_folder());
    let leave = Callback::new(move |()| ledger.leave_folder());
    let told = move || match stand.get() {
        FolderStand::Unavailable => view! { <p class="strong">{words::UNAVAILABLE}</p> }.into_any(),
        FolderStand::NoneChosen => {
            view! { <MainAction label=words::CHOOSE on_press=choose /> }.into_any()
        }
        FolderStand::ToBeAllowed { name } => view! {
            <p class="strong">{words::to_be_allowed(&name)}</p>
            <MainAction label=words::ALLOW on_press=allow />
            <PlainAction label=words::LEAVE on_press=leave />
        }
        .into_any(),
        FolderStand::InUse {
            name,
            looked_ms,
            phones,
            troubles,
        } => {
            let off_min = ledger.moment().off_min;
            let looked = looked_ms.map_or(words::LOOKING.to_owned(), |at_ms| {
                words::looked(&format::clock(minute_of_day(at_ms, off_min)), phones)
            });
            let troubles = troubles
                .into_iter()
                .map(|why| view! { <p class="warn" role="alert">{why}</p> });
            view! {
                <p class="strong">{words::in_use(&name)}</p>
                <p>{looked}</p>
                {troubles.collect_view()}
                <PlainAction label=words::LOOK_NOW on_press=look />
                <PlainAction label=words::LEAVE on_press=leave />
            }
            .into_any()
        }
    };
    let bar = move || (ledger.phase() == Phase::Ready).then(|| room_bar(Route::Book));
    view! {
        <Screen title=words::FOLDER back=back_to_files notice=notices rooms=bar>
            <div class="form">
                <p>{words::HINT}</p>
                {told}
            </div>
        </Screen>
    }
}
