//! The stock, what divisions yielded and what was lost, as tables: on the screen, on paper, as a file.

use leptos::prelude::*;
use serde_json::Value;
use velamen_core::lists::{List, Table};

use super::lot_parts::one_of;
use crate::frame::{notices, room_bar};
use crate::ledger::Ledger;
use crate::route::Route;
use crate::ui::{Glyph, Lesson, MainAction, PlainAction, Screen, TopBack};
use crate::words::{papers::lists as words, rooms};

/// Lines shown; the file holds all.
const SHOWN: usize = 1_000;

/// The screen.
#[component]
pub fn Lists() -> impl IntoView {
    let ledger = Ledger::here();
    let chosen = RwSignal::new(List::Stock);
    let table = Memo::new(move |_| {
        let list = chosen.get();
        ledger.follow(|state, at| list.table(state, at))
    });
    let save = Callback::new(move |()| {
        let list = chosen.get_untracked();
        let name = words::file_name(list, ledger.moment().today);
        let (text, lines) = table.with_untracked(|table| (table.csv(), table.rows.len()));
        ledger.save_text(&name, words::TYPE, &text, words::written(lines));
    });
    let print = Callback::new(move |()| ledger.print());
    let options = List::ALL.map(|list| (list, words::name(list).to_owned()));
    let actions = move || {
        view! {
            <PlainAction label=words::PRINT.to_owned() on_press=print />
            <MainAction label=words::TABLE.to_owned() on_press=save />
        }
    };
    let side = move || words::lines(table.with(|table| table.rows.len()));
    view! {
        <Screen
            title=words::TITLE
            side
            back=|| view! { <TopBack href=Route::Stock.href() label=rooms::back_to(rooms::STOCK) /> }
            actions
            notice=notices
            rooms=|| room_bar(Route::Stock)
        >
            <div class="form not-printed">
                {one_of(words::WHICH, options.to_vec(), chosen.into(), move |list| chosen.set(list))}
            </div>
            {move || shown(&table.get(), words::name(chosen.get()))}
        </Screen>
    }
}

fn shown(table: &Table, name: &'static str) -> AnyView {
    if table.rows.is_empty() {
        return view! { <Lesson glyph=Glyph::Stock title=words::EMPTY words=words::HINT /> }
            .into_any();
    }
    // Names of things are for other programs.
    let kept: Vec<usize> = (0..table.columns.len())
        .filter(|at| {
            !table
                .columns
                .get(*at)
                .is_some_and(|name| ["lot", "entry"].contains(name))
        })
        .collect();
    let head = kept.iter().filter_map(|at| table.columns.get(*at));
    let head = head
        .map(|name| view! { <th scope="col">{words::column(name)}</th> })
        .collect_view();
    let rows = table.rows.iter().take(SHOWN).map(|row| {
        let cells = kept.iter().filter_map(|at| row.get(*at)).map(|cell| {
            let said = said(cell);
            // Dates, codes and amounts stay in one piece.
            let whole = said.len() <= 6 || (said.len() <= 12 && !said.contains(' '));
            view! { <td class=if whole { "in-one" } else { "" }>{said}</td> }
        });
        view! { <tr>{cells.collect_view()}</tr> }
    });
    let rest = (table.rows.len() > SHOWN)
        .then(|| view! { <p class="edge">{words::shown_of(SHOWN, table.rows.len())}</p> });
    view! {
        <div class="table-room" tabindex="0" role="region" aria-label=name>
            <table class="list-table">
                <caption>{name}</caption>
                <thead><tr>{head}</tr></thead>
                <tbody>{rows.collect_view()}</tbody>
            </table>
        </div>
        {rest}
    }
    .into_any()
}

fn said(cell: &Value) -> String {
    match cell {
        Value::Null => String::new(),
        Value::String(text) => text.replace('_', " "),
        other => other.to_string(),
    }
}
