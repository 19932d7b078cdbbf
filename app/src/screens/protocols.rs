//! Protocols: what is due after something happened, by what sets it going.

use leptos::prelude::*;
use velamen_core::view::shed;

use crate::frame::{notices, room_bar};
use crate::ledger::Ledger;
use crate::route::Route;
use crate::screens::shed::back_to_shed;
use crate::ui::{Screen, Slat};
use crate::words::{book, shed as words};

/// The list.
#[component]
pub fn Protocols() -> impl IntoView {
    let ledger = Ledger::here();
    let shown = ledger.ask(|state, _| {
        let mut rows = shed::protocols(state);
        rows.sort_by_key(|row| (row.content.trigger, row.protocol));
        rows
    });
    let rows = move || {
        let mut trigger = None;
        let rows = shown.get().into_iter().map(|row| {
            let heading = (trigger != Some(row.content.trigger))
                .then(|| view! { <Slat name=words::trigger(row.content.trigger) /> });
            trigger = Some(row.content.trigger);
            let steps = row.content.steps.iter();
            let on = steps.filter(|step| !step.off).count();
            view! {
                {heading}
                <a class="entry" href=Route::Protocol(row.protocol).href()>
                    <bdi>{book::protocol(&row.content.key)}</bdi>
                    <span class="soft">{words::steps_in_use(on, row.content.steps.len())}</span>
                </a>
            }
        });
        rows.collect_view()
    };
    view! {
        <Screen title=words::PROTOCOLS back=back_to_shed notice=notices rooms=|| room_bar(Route::Book)>
            {rows}
        </Screen>
    }
}
