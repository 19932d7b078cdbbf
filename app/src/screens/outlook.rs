//! What is to come: plants in flower and of a size to sell, month by month; what this book has learned; what was lost.

use leptos::prelude::*;
use velamen_core::outlook::{
    Forecast, Learned, LostPlants, Month, Span, forecast, learn, loss_ledger,
};

use crate::frame::{notices, room_bar};
use crate::ledger::Ledger;
use crate::route::Route;
use crate::ui::drawing::{Bar, Bars};
use crate::ui::{Glyph, Lesson, Screen, Slat, TopBack};
use crate::words::{format, outlook as words, rooms, trade};

/// Months shown for flowers, and steps of months for sale.
const FLOWER_MONTHS: usize = 12;
const SALE_STEP: usize = 3;

/// The screen.
#[component]
pub fn Outlook() -> impl IntoView {
    let ledger = Ledger::here();
    let ahead = ledger.ask(|state, at| forecast(state, at.today));
    let learned = ledger.ask(|state, at| learn(state, at.today));
    let lost = ledger.ask(|state, _| loss_ledger(state));
    let body = move || {
        let ahead = ahead.get();
        if ahead.plants == 0 {
            return view! { <Lesson glyph=Glyph::Stock title=words::NONE words=words::NONE_HINT /> }
                .into_any();
        }
        view! {
            {flowers(&ahead)}
            {sale(&ahead)}
            <div class="form"><p class="soft">{words::HOW}</p></div>
        }
        .into_any()
    };
    view! {
        <Screen
            title=words::TITLE
            back=|| view! { <TopBack href=Route::Stock.href() label=rooms::back_to(rooms::STOCK) /> }
            notice=notices
            rooms=|| room_bar(Route::Stock)
        >
            {body}
            {move || living(learned.get())}
            {move || losses(lost.get())}
        </Screen>
    }
}

fn bars(what: &str, months: Vec<Month>, count: fn(&Month) -> Span) -> impl IntoView + use<> {
    let rows: Vec<(String, Span)> = months
        .into_iter()
        .map(|month| (format::short_month(month.first), count(&month)))
        .collect();
    let text = words::sentence(what, &rows);
    let bars = rows
        .into_iter()
        .map(|(words, span)| Bar {
            words,
            low: span.low,
            middle: span.middle,
            high: span.high,
            number: words::span(span),
        })
        .collect();
    view! { <Bars bars text /> }
}

fn flowers(ahead: &Forecast) -> impl IntoView + use<> {
    let months = || ahead.months.iter().take(FLOWER_MONTHS);
    let drawn = bars(words::IN_FLOWER, months().cloned().collect(), |month| {
        month.in_flower
    });
    let of = months()
        .filter(|month| !month.of.is_empty())
        .map(|month| {
            let groups: Vec<String> = month
                .of
                .iter()
                .map(|(group, plants)| format!("{plants} {}", words::group(*group)))
                .collect();
            let name = format::short_month(month.first);
            view! { <p class="edge"><strong>{name}</strong> " " {groups.join(", ")}</p> }
        })
        .collect_view();
    let unseen = (ahead.no_season > 0)
        .then(|| view! { <p class="edge soft">{words::no_season(ahead.no_season)}</p> });
    view! {
        <section>
            <Slat name=words::IN_FLOWER note="" />
            {drawn}
            {unseen}
            <details class="more-of-it"><summary>{words::WHICH}</summary>{of}</details>
        </section>
    }
}

fn sale(ahead: &Forecast) -> impl IntoView + use<> {
    let months = ahead.months.iter().step_by(SALE_STEP).cloned().collect();
    let drawn = bars(words::SALEABLE, months, |month| month.saleable);
    view! {
        <section>
            <Slat name=words::SALEABLE note=words::SALEABLE_NOTE />
            {drawn}
        </section>
    }
}

fn living(rows: Vec<Learned>) -> impl IntoView {
    let none = rows
        .is_empty()
        .then(|| view! { <p class="edge">{words::NOTHING_LEARNED}</p> });
    let rows = rows
        .into_iter()
        .map(|row| {
            let [low, middle, high] = row.per_hundred();
            view! {
                <div class="entry">
                    <strong>{words::group(row.group)} " · " {trade::class(row.class)}</strong>
                    <span>{words::lived(row.alive, row.of)}</span>
                    <span class="soft">{words::believed(middle, low, high, row.table_pct)}</span>
                </div>
            }
        })
        .collect_view();
    view! {
        <section>
            <Slat name=words::LIVING note=words::LIVING_NOTE />
            {none}
            {rows}
        </section>
    }
}

fn losses(rows: Vec<LostPlants>) -> impl IntoView {
    let none = rows
        .is_empty()
        .then(|| view! { <p class="edge">{words::NO_LOSSES}</p> });
    let rows = rows
        .into_iter()
        .map(|row| {
            view! {
                <div class="entry">
                    <strong>{trade::cause(row.cause)}</strong>
                    <span>{words::lost(row.plants, row.times)}</span>
                </div>
            }
        })
        .collect_view();
    view! {
        <section>
            <Slat name=words::LOSSES note="" />
            {none}
            {rows}
        </section>
    }
}
