//! What is to come: plants in flower and of a size to sell, month by month; what this book has learned; what was lost.

use leptos::prelude::*;
use velamen_core::outlook::{
    AsPlanned, BathHelp, Forecast, LostPlants, Month, Span, YieldRow, bath_help, forecast,
    forecast_as_planned, loss_ledger, yields,
};

use crate::frame::{notices, room_bar};
use crate::ledger::Ledger;
use crate::route::Route;
use crate::screens::learned::WhatWasLearned;
use crate::screens::line::yield_rows;
use crate::ui::drawing::{Bar, Bars};
use crate::ui::{Glyph, Lesson, PlainLink, Screen, Slat, TopBack};
use crate::words::{benches, format, line, outlook as words, rooms, trade};

/// Months shown for flowers, and steps of months for sale.
const FLOWER_MONTHS: usize = 12;
const SALE_STEP: usize = 3;

/// The screen.
#[component]
pub fn Outlook() -> impl IntoView {
    let ledger = Ledger::here();
    let ahead = ledger.ask(|state, at| forecast(state, at.today));
    let planned = ledger.ask(|state, at| forecast_as_planned(state, at.today));
    let became = ledger.ask(|state, at| yields(state, None, at.today));
    let baths = ledger.ask(|state, at| bath_help(state, at.today));
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
            {move || planned.get().map(|it| as_planned(&ahead.get(), &it))}
            <WhatWasLearned />
            {move || gave(&became.get())}
            {move || helped(&baths.get())}
            {move || losses(lost.get())}
            <div class="form"><PlainLink href=Route::Benches.href() label=benches::LINK /></div>
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

/// What planned cuts would change, month by month: only the months they change.
fn as_planned(ahead: &Forecast, planned: &AsPlanned) -> impl IntoView + use<> {
    let pairs = || ahead.months.iter().zip(&planned.forecast.months);
    let line = |what: &'static str, first, now: Span, then: Span| {
        (now != then).then(|| {
            view! {
                <div class="entry">
                    <strong>{format::month_year(first)}</strong>
                    <span>{words::changes(what, now, then)}</span>
                </div>
            }
        })
    };
    let flowers = pairs()
        .take(FLOWER_MONTHS)
        .filter_map(|(now, then)| line(words::IN_FLOWER, now.first, now.in_flower, then.in_flower))
        .collect_view();
    let sale = pairs()
        .step_by(SALE_STEP)
        .filter_map(|(now, then)| line(words::SALEABLE, now.first, now.saleable, then.saleable))
        .collect_view();
    let of = words::cuts(planned.cuts, planned.pieces);
    view! {
        <section>
            <Slat name=words::IF_CUT note=of />
            {flowers}
            {sale}
            <p class="edge soft">{words::IF_CUT_HOW}</p>
        </section>
    }
}

/// What divisions gave, after a month, a quarter and a year.
fn gave(rows: &[YieldRow]) -> impl IntoView + use<> {
    (!rows.is_empty()).then(|| {
        view! {
            <section>
                <Slat name=line::YIELDS note=line::YIELDS_NOTE />
                {yield_rows(rows)}
            </section>
        }
    })
}

/// Pieces with and without a bath, side by side, and why that proves nothing.
fn helped(rows: &[BathHelp]) -> impl IntoView + use<> {
    (!rows.is_empty()).then(|| {
        let rows = rows.iter().map(|row| {
            let [with, without] = line::helped(row);
            view! {
                <div class="entry">
                    <strong>{trade::class(row.class)}</strong>
                    <span>{with}</span>
                    <span>{without}</span>
                </div>
            }
        });
        view! {
            <section>
                <Slat name=line::BATHS note=line::BATHS_NOTE />
                {rows.collect_view()}
                <p class="edge soft">{line::BATHS_WARN}</p>
            </section>
        }
    })
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
