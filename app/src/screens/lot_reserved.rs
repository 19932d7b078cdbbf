//! Plants of a lot that are kept for somebody: sold to them, or let go.

use leptos::prelude::*;
use velamen_core::command::Command;
use velamen_core::draft::DRAFT_VERSION;
use velamen_core::id::LotId;
use velamen_core::lot_draft::{Change, ChangeDraft};
use velamen_core::view::lot::{LotView, ReservedRow};

use crate::ledger::{Act, Ledger};
use crate::ui::{PlainAction, Slat};
use crate::words::stock as words;

/// The section; nothing where nothing is kept.
#[component]
pub fn ReservedHere(view: LotView) -> impl IntoView {
    let ledger = Ledger::here();
    let lot = view.label.lot;
    let free = words::free(view.unreserved);
    (!view.reserved.is_empty()).then(|| {
        let rows = view.reserved.iter().map(|row| one(ledger, lot, row));
        let rows = rows.collect_view();
        view! { <section><Slat name=words::RESERVED note=free />{rows}</section> }
    })
}

fn one(ledger: Ledger, lot: LotId, row: &ReservedRow) -> impl IntoView + use<> {
    let said = words::reserved(row, ledger.today());
    let (plants, reserved, to) = (row.plants, row.by, row.to.clone());
    let sell = Callback::new(move |()| {
        ledger.change_draft(&format!("change-{lot}"), |draft: &mut ChangeDraft| {
            *draft = ChangeDraft {
                version: DRAFT_VERSION,
                open: true,
                what: Some(Change::Sell),
                plants,
                reserved: Some(reserved),
                to: to.clone(),
                ..ChangeDraft::default()
            };
        });
    });
    let release = Callback::new(move |()| {
        let command = Command::ReleaseInLot {
            lot,
            reserved,
            plants,
        };
        ledger.act(Act::new(command, words::RELEASED));
    });
    let past = row.is_past;
    view! {
        <div class="entry">
            <span class:strong=past>{said}</span>
            <div class="grid">
                <PlainAction label=words::SELL_THESE.to_owned() on_press=sell busy=ledger.busy() />
                <PlainAction label=words::RELEASE.to_owned() on_press=release busy=ledger.busy() />
            </div>
        </div>
    }
}
