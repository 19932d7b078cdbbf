//! Plants picked for a treatment: lots found by name, and pieces lying bare; a tap puts in, another takes out.

use leptos::prelude::*;
use velamen_core::event::PieceClass;
use velamen_core::id::{ClumpId, LotId};
use velamen_core::view::stock::stock;
use velamen_core::view::treat::bare_pieces;

use super::lot_parts::{Refusal, nothing_called};
use crate::ledger::Ledger;
use crate::screens::names::lot;
use crate::ui::{Field, TrayTag};
use crate::words::{bath, rooms, trade, treat};

/// Lots offered while one is looked for.
const OFFERED: usize = 6;

/// Lots looked for by name, code or place; those that are in stand there in any case.
#[component]
pub fn PickLots(
    label: &'static str,
    #[prop(into)] search: Signal<String>,
    on_search: Callback<String>,
    #[prop(into)] chosen: Signal<Vec<LotId>>,
    on_flip: Callback<LotId>,
    #[prop(into, optional)] refused: Signal<String>,
) -> impl IntoView {
    let ledger = Ledger::here();
    let offered = Memo::new(move |_| {
        let (typed, mut lots) = (search.get(), chosen.get());
        let mut nothing = false;
        let lots = ledger.follow(|state, _| {
            if !typed.trim().is_empty() {
                let found = stock(state, &typed, OFFERED).rows;
                nothing = found.is_empty();
                let found: Vec<LotId> = found
                    .into_iter()
                    .map(|row| row.label.lot)
                    .filter(|lot| !lots.contains(lot))
                    .collect();
                lots.extend(found);
            }
            lots.into_iter()
                .map(|id| (id, lot(state, id)))
                .collect::<Vec<_>>()
        });
        (lots, nothing)
    });
    let rows = move || {
        let rows = offered.get().0.into_iter().map(|(id, name)| {
            let pressed = move || chosen.with(|chosen| chosen.contains(&id)).to_string();
            let flip = move |_| on_flip.run(id);
            view! { <button type="button" class="choose" aria-pressed=pressed on:click=flip>{name}</button> }
        });
        rows.collect_view()
    };
    view! {
        <div class="form">
            <Field label hint=treat::FIND_HINT value=search on_input=on_search max_chars=200 />
            <Refusal words=refused />
        </div>
        {nothing_called(Signal::derive(move || offered.with(|(_, nothing)| *nothing)))}
        {rows}
    }
}

/// Pieces lying bare on the bench, by tray.
#[component]
pub fn PickPieces(
    #[prop(into)] chosen: Signal<Vec<(ClumpId, PieceClass)>>,
    on_flip: Callback<(ClumpId, PieceClass)>,
) -> impl IntoView {
    let bare = Ledger::here().ask(|state, _| bare_pieces(state));
    move || {
        let rows = bare.get().into_iter().map(|row| {
            let one = (row.clump, row.class);
            let pressed = move || chosen.with(|chosen| chosen.contains(&one)).to_string();
            let flip = move |_| on_flip.run(one);
            view! {
                <button type="button" class="choose" aria-pressed=pressed on:click=flip>
                    <TrayTag number=row.tray.to_string() word=rooms::TRAY />
                    {trade::class(row.class)} " · " {trade::pieces(i64::from(row.plants))}
                    {row.bathed.then(|| view! { <span class="soft">{bath::BATHED}</span> })}
                </button>
            }
        });
        rows.collect_view()
    }
}
