//! The stock list: what there is and where, found by any part of a name, a place or a code.

use std::cell::RefCell;

use leptos::prelude::*;
use velamen_core::view::stock::{StockRow, StockView, stock};

use crate::desk::Table;
use crate::frame::{home_notices, room_bar};
use crate::ledger::Ledger;
use crate::route::Route;
use crate::ui::{Field, Glyph, Icon, Lesson, PlainLink, Screen, Slat, Stake, Windowed};
use crate::words::{apart, labels, papers, rooms, stock as words, trade};

/// Rows shown at most; typing finds the others.
const MOST: usize = 200;

thread_local! {
    /// What was looked for last, so that going from lot to lot and back keeps the list. Gone with the page.
    static LOOKED_FOR: RefCell<String> = const { RefCell::new(String::new()) };
}

/// Forgets what was looked for last.
pub(super) fn look_for_nothing() {
    LOOKED_FOR.with_borrow_mut(String::clear);
}

/// The stock list.
#[component]
pub fn Stock() -> impl IntoView {
    let ledger = Ledger::here();
    let typed = RwSignal::new(LOOKED_FOR.with_borrow(String::clone));
    let type_in = Callback::new(move |text: String| {
        LOOKED_FOR.with_borrow_mut(|kept| kept.clone_from(&text));
        typed.set(text);
    });
    let view = ledger.ask(move |state, _| typed.with(|typed| stock(state, typed, MOST)));
    let any = Memo::new(move |_| view.with(|view| view.lots > 0));
    let looking = Memo::new(move |_| typed.with(|typed| !typed.trim().is_empty()));
    let over = Signal::derive(move || {
        view.with(|view| {
            if view.lots == 0 {
                String::new()
            } else {
                words::summary(view.lots, view.plants)
            }
        })
    });
    let actions = move || {
        view! {
            {move || any.get().then(|| view! { <PlainLink href=Route::Find.href() label=labels::find::TITLE glyph=Glyph::Camera /> })}
            <PlainLink href=Route::NewLot.href() label=words::ADD_LOT glyph=Glyph::Plus main=true />
        }
    };
    let side = move || {
        any.get().then(|| {
            view! {
                <a href=Route::Outlook.href()>{crate::words::outlook::TITLE}</a>
                <a href=Route::Labels.href()>{labels::TITLE}</a>
                <a href=Route::Lists.href()>{papers::lists::TITLE}</a>
            }
        })
    };
    let search = move || {
        any.get().then(|| {
            view! {
                <div class="form">
                    <Field label=words::SEARCH hint=words::SEARCH_HINT value=typed on_input=type_in max_chars=200 />
                    {move || looking.get().then(|| view! {
                        <p class="split">
                            <span>{move || view.with(|view| words::found(view.found))}</span>
                            <button type="button" class="quiet" on:click=move |_| type_in.run(String::new())>{words::CLEAR}</button>
                        </p>
                    })}
                </div>
            }
        })
    };
    let list = move || {
        let view = view.get();
        if view.lots == 0 {
            view! { <Lesson glyph=Glyph::Stock title=words::EMPTY words=words::EMPTY_HINT /> }
                .into_any()
        } else if view.rows.is_empty() {
            view! { <Lesson glyph=Glyph::Magnifier title=words::NOTHING_FOUND words=words::NOTHING_FOUND_HINT /> }
                .into_any()
        } else {
            drawn(view, !looking.get()).into_any()
        }
    };
    view! {
        <Screen title=rooms::STOCK over side actions notice=home_notices rooms=|| room_bar(Route::Stock)>
            {search}
            {list}
        </Screen>
    }
}

/// Rows drawn at once: a screen of them.
const DRAWN: usize = 8;

/// Rows drawn in turn; each says where its lot is, or stands under the slat of its place, in walking order.
fn drawn(view: StockView, by_place: bool) -> impl IntoView {
    let hidden = view.found.saturating_sub(view.rows.len());
    let here = |row: &StockRow| row.place.as_ref().map(|place| place.place);
    let mut heads: Vec<Option<usize>> = Vec::new();
    for stop in view.rows.chunk_by(|a, b| here(a) == here(b)) {
        heads.push(Some(stop.len()));
        heads.extend(std::iter::repeat_n(None, stop.len().saturating_sub(1)));
    }
    let parts = view.rows.len().div_ceil(DRAWN);
    let rows: Vec<_> = view.rows.into_iter().zip(heads).collect();
    let rows = StoredValue::new(rows);
    let part = Callback::new(move |nth: usize| {
        let rows = rows.with_value(|rows| {
            let rows = rows.iter().skip(nth * DRAWN).take(DRAWN);
            rows.cloned().collect::<Vec<_>>()
        });
        let one = |(shown, head): (StockRow, Option<usize>)| {
            let slat = head.filter(|_| by_place).map(|lots| {
                let place = shown.place.as_ref();
                let name = place.map_or_else(|| words::NO_PLACE.to_owned(), |at| at.name.clone());
                view! { <Slat name note=words::lots(lots) /> }
            });
            view! { {slat} {row(shown, !by_place)} }
        };
        let rows = rows.into_iter().map(one).collect_view();
        view! { <div>{rows}</div> }.into_any()
    });
    view! {
        <Windowed parts=Signal::stored(parts) part more_label=words::MORE_ROWS on_paper=Table::here().printing />
        {rest(hidden)}
    }
}

fn rest(hidden: usize) -> impl IntoView {
    (hidden > 0).then(|| view! { <p class="edge">{words::more(hidden)}</p> })
}

fn row(row: StockRow, with_place: bool) -> impl IntoView {
    let label = row.label;
    let count = trade::plants_in_pots(label.plants, label.stands);
    let bench = (row.on_bench > 0).then(|| format!("{} {}", row.on_bench, words::ON_THE_BENCH));
    let kept = (row.reserved > 0).then(|| words::kept_for(row.reserved, &row.reserved_for));
    let place = row.place.filter(|_| with_place).map(|place| place.name);
    let apart = row.apart.then(|| apart::IN_QUARANTINE.to_owned());
    let suspect = row.suspect.then(|| apart::SUSPECT.to_owned());
    let marks: Vec<String> = apart.into_iter().chain(suspect).collect();
    let about: Vec<String> = kept.into_iter().chain(place).chain(bench).collect();
    view! {
        <a class="lot-row" href=Route::Lot(label.lot).href()>
            <Stake
                name=trade::name_runs(&label.name)
                code=label.code.map(|code| code.to_string()).unwrap_or_default()
                count
            />
            {(!marks.is_empty()).then(|| view! {
                <span class="held-mark"><Icon glyph=Glyph::Warning /><span>{marks.join(" · ")}</span></span>
            })}
            {(!about.is_empty()).then(|| view! { <span class="small soft">{about.join(" · ")}</span> })}
        </a>
    }
}
