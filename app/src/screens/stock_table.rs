//! The stock at a table: every lot a line, sifted and ordered by its columns, chosen by many; on a phone it is the list.
//!
//! Only the lines in sight are on the page, so that ten thousand scroll like ten. How it is sifted, what is chosen and
//! how far it was scrolled outlive going to a lot and back, and are gone with the page.

use std::cell::RefCell;
use std::collections::BTreeSet;
use std::sync::Arc;

use chrono::NaiveDate;
use leptos::ev;
use leptos::prelude::*;
use velamen_core::event::PieceClass;
use velamen_core::id::{LotId, PlaceId};
use velamen_core::view::places;
use velamen_core::view::round::RowState;
use velamen_core::view::stock_table::{Column, Line, Pressing, Sieve, lines, sifted};
use wasm_bindgen::JsCast;

use super::stock::Stock;
use super::stock_bulk::ManyAtOnce;
use crate::desk::Table;
use crate::frame::{home_notices, room_bar};
use crate::ledger::Ledger;
use crate::route::Route;
use crate::ui::{Field, Glyph, Pick, PlainLink, PlantNameRuns, Screen};
use crate::words::{
    format, labels, outlook, papers, rooms, stock as stock_words, table as words, task, trade,
};

/// Height of a line, as in the style sheet.
const LINE_REM: usize = 3;
/// Lines kept above and below what is in sight, and how many are let by before others are made.
const SPARE: usize = 24;
const STEP: usize = 8;
const IN_SIGHT: usize = 30;
/// Lines printed at most; the table as a file holds all.
const PRINTED: usize = 2_000;

/// What outlives the screen.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
struct Kept {
    sieve: Sieve,
    chosen: BTreeSet<LotId>,
    scrolled: i32,
}

thread_local! {
    static KEPT: RefCell<Kept> = RefCell::default();
}

/// The room: a table where the window is wide, the list on a phone.
#[component]
pub fn StockRoom() -> impl IntoView {
    let table = Table::here();
    move || {
        if table.wide.get() {
            view! { <StockTable /> }.into_any()
        } else {
            view! { <Stock /> }.into_any()
        }
    }
}

#[component]
fn StockTable() -> impl IntoView {
    let ledger = Ledger::here();
    let kept = KEPT.with_borrow(Clone::clone);
    let sieve = RwSignal::new(kept.sieve);
    let chosen = RwSignal::new(kept.chosen);
    let all = ledger.ask(|state, at| Arc::new(lines(state, at.today)));
    let shown =
        Memo::new(move |_| all.with(|all| sieve.with(|sieve| Arc::new(sifted(all, sieve)))));
    // What is no longer there is no longer chosen.
    let picked = Memo::new(move |_| {
        all.with(|all| {
            chosen.with(|chosen| {
                let there = all.iter().filter(|line| chosen.contains(&line.lot));
                there
                    .map(|line| (line.lot, line.plants))
                    .collect::<Vec<_>>()
            })
        })
    });
    Effect::new(move |_| {
        let (sieve, chosen) = (sieve.get(), chosen.get());
        KEPT.with_borrow_mut(|kept| {
            kept.sieve = sieve;
            kept.chosen = chosen;
        });
    });
    let over = Signal::derive(move || {
        let found = shown.get();
        all.with(|all| {
            let plants = found
                .iter()
                .filter_map(|at| all.get(*at))
                .map(|line| line.plants)
                .sum();
            words::shown(found.len(), all.len(), plants)
        })
    });
    let side = move || {
        view! {
            <a href=Route::Outlook.href()>{outlook::TITLE}</a>
            <a href=Route::Labels.href()>{labels::TITLE}</a>
            <a href=Route::Lists.href()>{papers::lists::TITLE}</a>
        }
    };
    let actions = move || {
        view! {
            {move || (!picked.with(Vec::is_empty)).then(|| view! { <ManyAtOnce picked chosen /> })}
            {move || picked.with(Vec::is_empty).then(|| view! {
                <PlainLink href=Route::Find.href() label=labels::find::TITLE glyph=Glyph::Camera />
                <PlainLink href=Route::NewLot.href() label=stock_words::ADD_LOT glyph=Glyph::Plus main=true />
            })}
        }
    };
    view! {
        <Screen title=rooms::STOCK over side actions notice=home_notices rooms=|| room_bar(Route::Stock)>
            <div class="stock-table">
                <Sifting sieve />
                <Lines all shown sieve chosen />
            </div>
        </Screen>
    }
}

/// What is looked for, and the columns that are sifted by one of a few words.
#[component]
fn Sifting(sieve: RwSignal<Sieve>) -> impl IntoView {
    let ledger = Ledger::here();
    let typed = Signal::derive(move || sieve.with(|sieve| sieve.typed.clone()));
    let type_in = Callback::new(move |text: String| sieve.update(|sieve| sieve.typed = text));
    let walk = ledger.ask(|state, _| places(state.facts()));
    let place = move || {
        let walk = walk.get();
        let values: Vec<Option<Option<PlaceId>>> = std::iter::once(None)
            .chain(walk.iter().map(|place| Some(Some(place.place))))
            .chain([Some(None)])
            .collect();
        let options = std::iter::once(words::ANY_PLACE.to_owned())
            .chain(walk.into_iter().map(|place| place.name))
            .chain([stock_words::NO_PLACE.to_owned()])
            .collect();
        one_of(
            stock_words::PLACE,
            options,
            values,
            sieve,
            |sieve| sieve.place,
            |sieve, place| sieve.place = place,
        )
    };
    let kinds = [
        PieceClass::Flowering,
        PieceClass::Starter,
        PieceClass::BackBulb,
        PieceClass::BrokenShoot,
        PieceClass::Keiki,
    ];
    let kind_words = std::iter::once(words::ANY_KIND.to_owned())
        .chain(kinds.map(|kind| stock_words::class_short(kind).to_owned()))
        .collect();
    let kind_values = std::iter::once(None).chain(kinds.map(Some)).collect();
    let work_words = Pressing::ALL
        .map(|it| words::pressing(it).to_owned())
        .to_vec();
    let open = Callback::new(move |()| {
        sieve.update(|sieve| {
            *sieve = Sieve {
                by: sieve.by,
                down: sieve.down,
                ..Sieve::default()
            }
        });
    });
    view! {
        <div class="stock-sieve">
            <Field label=stock_words::SEARCH value=typed on_input=type_in max_chars=200 />
            <div class="of-more">{place}</div>
            <div class="of-more">
                {one_of(words::KIND, kind_words, kind_values, sieve, |sieve| sieve.class, |sieve, class| sieve.class = class)}
            </div>
            <div class="of-more">
                {one_of(words::WORK, work_words, Pressing::ALL.to_vec(), sieve, |sieve| sieve.pressing, |sieve, it| sieve.pressing = it)}
            </div>
            {move || (!sieve.with(Sieve::is_open)).then(|| view! {
                <button type="button" class="quiet" on:click=move |_| open.run(())>{words::OPEN_SIEVE}</button>
            })}
        </div>
    }
}

fn one_of<T: Clone + PartialEq + Send + Sync + 'static>(
    label: &'static str,
    options: Vec<String>,
    values: Vec<T>,
    sieve: RwSignal<Sieve>,
    get: fn(&Sieve) -> T,
    set: fn(&mut Sieve, T),
) -> impl IntoView {
    let known = values.clone();
    let chosen = Signal::derive(move || {
        let now = sieve.with(get);
        known.iter().position(|value| *value == now).unwrap_or(0)
    });
    let on_pick = Callback::new(move |at: usize| {
        if let Some(value) = values.get(at) {
            sieve.update(|sieve| set(sieve, value.clone()));
        }
    });
    view! { <Pick label options chosen on_pick /> }
}

/// A line as it is shown, made anew when anything of it changes.
#[derive(Clone, PartialEq)]
struct Shown {
    at: usize,
    line: Arc<Vec<Line>>,
    place_in: usize,
    today: NaiveDate,
}

#[component]
fn Lines(
    all: Memo<Arc<Vec<Line>>>,
    shown: Memo<Arc<Vec<usize>>>,
    sieve: RwSignal<Sieve>,
    chosen: RwSignal<BTreeSet<LotId>>,
) -> impl IntoView {
    let ledger = Ledger::here();
    let table = Table::here();
    let room = NodeRef::<leptos::html::Div>::new();
    let first = RwSignal::new(0_usize);
    let made = RwSignal::new(0_u64);
    // Everything in the window stands for one making of the lines; another one makes its rows anew.
    Effect::new(move |_| {
        all.track();
        made.update(|made| *made += 1);
    });
    let look = move || {
        let Some(room) = room.get_untracked() else {
            return;
        };
        let scrolled = room.scroll_top();
        KEPT.with_borrow_mut(|kept| kept.scrolled = scrolled);
        let line = line_high(&room);
        let at = usize::try_from(scrolled / line.max(1)).unwrap_or(0) / STEP * STEP;
        if first.get_untracked() != at {
            first.set(at);
        }
    };
    // Back from a lot, the table stands where it stood.
    Effect::new(move |_| {
        if let Some(room) = room.get() {
            let scrolled = KEPT.with_borrow(|kept| kept.scrolled);
            request_animation_frame(move || {
                room.set_scroll_top(scrolled);
                look();
            });
        }
    });
    let window = Memo::new(move |_| {
        let (first, len) = (first.get(), shown.with(|shown| shown.len()));
        if table.printing.get() {
            return (0, len.min(PRINTED));
        }
        let from = first.saturating_sub(SPARE).min(len);
        (from, (first + IN_SIGHT + SPARE).min(len))
    });
    let rows = move || {
        let (from, to) = window.get();
        let (line, today, made) = (all.get(), ledger.today(), made.get());
        let shown = shown.get();
        (from..to)
            .filter_map(|at| Some((at, *shown.get(at)?)))
            .map(|(at, place_in)| {
                let row = Shown {
                    at,
                    line: Arc::clone(&line),
                    place_in,
                    today,
                };
                let lot = line.get(place_in).map(|line| line.lot);
                ((made, at, lot), row)
            })
            .collect::<Vec<_>>()
    };
    let space = move |before: bool| {
        let (from, to) = window.get();
        let lines = if before {
            from
        } else {
            shown.with(|shown| shown.len()).saturating_sub(to)
        };
        format!("{}rem", lines.saturating_mul(LINE_REM))
    };
    let heads = Column::ALL.map(|column| head(column, sieve)).collect_view();
    let every = move || {
        let (all, shown) = (all.get(), shown.get());
        let lots: Vec<LotId> = shown
            .iter()
            .filter_map(|at| all.get(*at))
            .map(|line| line.lot)
            .collect();
        lots
    };
    let all_chosen = move || {
        let lots = every();
        !lots.is_empty() && chosen.with(|chosen| lots.iter().all(|lot| chosen.contains(lot)))
    };
    let choose_all = move |_| {
        let (on, lots) = (untrack(all_chosen), untrack(every));
        chosen.update(|chosen| {
            for lot in lots {
                if on {
                    chosen.remove(&lot);
                } else {
                    chosen.insert(lot);
                }
            }
        });
    };
    let count = move || (shown.with(|shown| shown.len()) + 1).to_string();
    view! {
        <div class="table-lines" tabindex="0" role="region" aria-label=words::TABLE node_ref=room on:scroll=move |_: ev::Event| look()>
            <table class="lines" aria-rowcount=count>
                <thead>
                    <tr>
                        <th scope="col" class="line-choose">
                            <input type="checkbox" aria-label=words::CHOOSE_ALL prop:checked=all_chosen on:change=choose_all />
                        </th>
                        {heads}
                    </tr>
                </thead>
                <tbody>
                    <tr class="line-space" aria-hidden="true" style:height=move || space(true)></tr>
                    <For each=rows key=|(key, _)| *key children=move |(_, shown)| row(&shown, chosen) />
                    <tr class="line-space" aria-hidden="true" style:height=move || space(false)></tr>
                </tbody>
            </table>
            {move || {
                let (_, to) = window.get();
                let len = shown.with(|shown| shown.len());
                (table.printing.get() && to < len).then(|| view! { <p>{words::printed(to, len)}</p> })
            }}
        </div>
    }
}

/// Height of a line as it stands on the page, whatever the size of the text.
fn line_high(room: &leptos::web_sys::HtmlDivElement) -> i32 {
    let line = room.query_selector(".stock-line").ok().flatten();
    let line = line.and_then(|line| line.dyn_into::<leptos::web_sys::HtmlElement>().ok());
    line.map_or(48, |line| line.offset_height())
}

fn head(column: Column, sieve: RwSignal<Sieve>) -> impl IntoView {
    let order = move || {
        sieve.with(|sieve| match (sieve.by == column, sieve.down) {
            (false, _) => "none",
            (true, false) => "ascending",
            (true, true) => "descending",
        })
    };
    let arrow = move || {
        sieve.with(|sieve| match (sieve.by == column, sieve.down) {
            (false, _) => "",
            (true, false) => " ↓",
            (true, true) => " ↑",
        })
    };
    view! {
        <th scope="col" class=class_of(column) aria-sort=order>
            <button type="button" class="quiet" on:click=move |_| sieve.update(|sieve| sieve.order_by(column))>
                {words::column(column)}
                <span aria-hidden="true">{arrow}</span>
            </button>
        </th>
    }
}

const fn class_of(column: Column) -> &'static str {
    match column {
        Column::Name => "line-name",
        Column::Code => "line-code",
        Column::Plants => "line-count",
        Column::Pots => "line-count of-more",
        Column::Place | Column::Next => "line-wide of-more",
        Column::Kind | Column::Potted => "of-more",
    }
}

fn row(shown: &Shown, chosen: RwSignal<BTreeSet<LotId>>) -> Option<AnyView> {
    let line = shown.line.get(shown.place_in)?;
    let (lot, today) = (line.lot, shown.today);
    let next = line.next.map(|next| {
        let (class, when) = match next.stands {
            Some(RowState::Late { .. }) => ("line-late", format::near_day(next.due_on, today)),
            Some(RowState::Due) => ("line-due", format::near_day(next.due_on, today)),
            Some(RowState::Held { until }) => ("line-held", format::near_day(until, today)),
            _ => ("", format::near_day(next.due_on, today)),
        };
        let mark = match next.stands {
            Some(RowState::Late { .. }) => words::pressing(Pressing::Late),
            Some(RowState::Held { .. }) => words::pressing(Pressing::Held),
            _ => "",
        };
        view! {
            <span class=class>{task::kind(next.kind)}</span>
            " "
            <span class="small soft">{[mark, &when].into_iter().filter(|text| !text.is_empty()).collect::<Vec<_>>().join(", ")}</span>
        }
    });
    let code = line.code.map(|code| code.to_string()).unwrap_or_default();
    let potted = line
        .potted_on
        .map(|on| format::short_day(on, today))
        .unwrap_or_default();
    let kind = line.class.map(stock_words::class_short).unwrap_or_default();
    let ticked = move || chosen.with(|chosen| chosen.contains(&lot));
    let choose = move |_| {
        chosen.update(|chosen| {
            if !chosen.remove(&lot) {
                chosen.insert(lot);
            }
        });
    };
    let place = line.place_name.clone();
    let view = view! {
        <tr class="stock-line" class:line-chosen=ticked aria-rowindex=(shown.at + 2).to_string()>
            <td class="line-choose"><input type="checkbox" aria-label=words::choose(&line.name.plain()) prop:checked=ticked on:change=choose /></td>
            <td class="line-name"><a href=Route::Lot(lot).href()><PlantNameRuns runs=trade::name_runs(&line.name) /></a></td>
            <td class="line-code">{code}</td>
            <td class="line-wide of-more">{place}</td>
            <td class="of-more">{kind}</td>
            <td class="line-count">{stock_words::grouped(line.plants)}</td>
            <td class="line-count of-more">{stock_words::grouped(line.stands)}</td>
            <td class="line-wide of-more">{next}</td>
            <td class="of-more">{potted}</td>
        </tr>
    };
    Some(view.into_any())
}
