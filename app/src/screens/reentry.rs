//! What a treatment binds, and until when: a caution where the plants are handled, never a lock.

use chrono::NaiveDate;
use leptos::prelude::*;
use velamen_core::id::{ClumpId, LotId, PlaceId};
use velamen_core::state::State;
use velamen_core::time::{civil_day, minute_of_day};
use velamen_core::view::place_label;
use velamen_core::view::reentry::{Bound, BoundWhat, bound, bound_lot};

use crate::ledger::Ledger;
use crate::screens::names;
use crate::words::{bath as words, format, rooms};

/// What is bound, by its name.
pub(super) fn bound_name(state: &State, what: BoundWhat) -> String {
    match what {
        BoundWhat::Lot(lot) => names::lot(state, lot),
        BoundWhat::Clump(clump) => {
            let opened = state.facts().clumps.get(&clump);
            let opened = opened.and_then(|clump| clump.opened.as_ref());
            format!("{} {}", rooms::TRAY, opened.map_or(0, |opened| opened.tray))
        }
        BoundWhat::Place(place) => place_label(state.facts(), place)
            .map(|place| place.name)
            .unwrap_or_default(),
        BoundWhat::TableAndTub => words::TABLE_AND_TUB.to_owned(),
    }
}

/// "14:10", or "Friday 9:00".
pub(super) fn until(row: &Bound, today: NaiveDate) -> String {
    let clock = format::clock(minute_of_day(row.until_ms, row.off_min));
    match civil_day(row.until_ms, row.off_min) {
        Some(day) if day != today => format!("{} {clock}", format::near_day(day, today)),
        _ => clock,
    }
}

fn caution(of: impl Fn(&State, i64) -> Option<Bound> + Send + Sync + 'static) -> impl IntoView {
    let ledger = Ledger::here();
    let row = ledger.ask(move |state, at| of(state, at.now_ms));
    move || {
        row.get().map(|row| {
            let until = until(&row, ledger.today());
            view! { <p class="warn">{words::bound(&row.label_name, &until)}</p> }
        })
    }
}

fn of(what: BoundWhat) -> impl Fn(&State, i64) -> Option<Bound> + Send + Sync + 'static {
    move |state, now_ms| {
        bound(state, now_ms)
            .into_iter()
            .find(|row| row.what == what)
    }
}

/// The caution of a clump in work, while it holds.
#[component]
pub fn ClumpBound(clump: ClumpId) -> impl IntoView {
    caution(of(BoundWhat::Clump(clump)))
}

/// The caution of a lot, by itself or by the place it stands in, while it holds.
#[component]
pub fn LotBound(lot: LotId) -> impl IntoView {
    caution(move |state, now_ms| bound_lot(state, lot, now_ms))
}

/// The caution of a place, while it holds.
#[component]
pub fn PlaceBound(place: PlaceId) -> impl IntoView {
    caution(of(BoundWhat::Place(place)))
}
