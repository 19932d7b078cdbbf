//! Which container a mixture is taken from: the next one, or another; what it lacks, and when it was good until.

use leptos::prelude::*;
use velamen_core::apply::TakenFrom;
use velamen_core::view::containers::of_product;

use super::lot_parts::one_of;
use super::mixing::Hand;
use crate::route::Route;
use crate::ui::{Field, PlainLink};
use crate::words::{containers as words, product};

/// The choice, where the product has containers on the shelf; else the batch as it stands on the bottle.
pub(super) fn taken_from(hand: Hand) -> impl IntoView {
    let rows = Memo::new(move |_| {
        let id = hand.mixing.with(|mixing| mixing.product);
        hand.ledger.follow(|state, at| {
            let rows = id.map(|id| of_product(state, id, at.today));
            rows.unwrap_or_default()
        })
    });
    let taken = Memo::new(move |_| {
        let from = hand.mixing.with(|mixing| mixing.from);
        from.of(rows.get())
    });
    // With none on the shelf, or another than those, its batch is typed.
    let typed = Memo::new(move |_| taken.with(Option::is_none));
    let choice = move || {
        let rows = rows.get();
        (!rows.is_empty()).then(|| {
            let today = hand.ledger.moment().today;
            let mut options: Vec<(TakenFrom, String)> = rows
                .iter()
                .map(|row| {
                    let label = format!("{}: {}", words::name(row, today), words::left(row));
                    (TakenFrom::Chosen(row.container), label)
                })
                .collect();
            options.push((TakenFrom::Another, words::ANOTHER.to_owned()));
            let chosen = Signal::derive(move || {
                taken.with(|row| {
                    row.as_ref()
                        .map_or(TakenFrom::Another, |row| TakenFrom::Chosen(row.container))
                })
            });
            one_of(words::TAKEN_FROM, options, chosen, move |from| {
                hand.change(move |mixing| mixing.from = from);
            })
        })
    };
    let warnings = move || {
        let row = taken.get()?;
        let amount = hand.amount.get();
        let mut said = words::warnings(&row);
        if amount.and_then(|amount| row.lacks(amount)) == Some(true) {
            said.push(words::lacks(&row));
        }
        let shown = !said.is_empty();
        let lines = said
            .into_iter()
            .map(|why| view! { <p class="warn">{why}</p> });
        Some(view! {
            {lines.collect_view()}
            {shown.then(|| view! { <PlainLink href=Route::Container(row.container).href() label=words::COUNT /> })}
        })
    };
    let batch = hand.part(|mixing| mixing.batch.clone());
    let batch_field = move || {
        typed.get().then(|| {
            let on_input = Callback::new(move |text| hand.change(move |mixing| mixing.batch = text));
            view! { <Field label=product::BATCH hint=product::BATCH_HINT value=batch on_input max_chars=200 /> }
        })
    };
    view! {
        {choice}
        {warnings}
        {batch_field}
    }
}
