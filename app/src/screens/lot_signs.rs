//! What was seen of a lot and not looked at since: said where it is looked up, and where it is sold.

use leptos::prelude::*;
use velamen_core::id::LotId;
use velamen_core::task::looks::unlooked;

use crate::ledger::Ledger;
use crate::words::{stock as words, trade};

/// A line for each sign.
#[component]
pub fn LotSigns(lot: LotId) -> impl IntoView {
    let ledger = Ledger::here();
    let seen = ledger.ask(move |state, at| {
        let found = unlooked(state.facts(), lot, at.today).into_iter();
        found
            .map(|finding| (finding.event.sign, finding.on))
            .collect::<Vec<_>>()
    });
    move || {
        let today = ledger.today();
        let rows = seen.get().into_iter().map(|(sign, on)| {
            let said = words::not_looked_at_since(&trade::sign(&sign), on, today);
            view! { <p class="warn">{said}</p> }
        });
        rows.collect_view()
    }
}
