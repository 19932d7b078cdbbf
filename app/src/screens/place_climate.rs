//! The weather of one place: the last weeks drawn, the dryness of its air, its cool nights, its warmth added up.

use leptos::prelude::*;
use velamen_core::climate::{Reading, milli_of};
use velamen_core::climate_draft::{Figure, celsius_of};
use velamen_core::id::PlaceId;
use velamen_core::time::plus_days;
use velamen_core::view::climate::{self as view, PlaceClimate as Shown, nights_since};

use crate::frame::{notices, room_bar};
use crate::ledger::Ledger;
use crate::route::Route;
use crate::ui::drawing::WeatherBand;
use crate::ui::{
    DayField, Fact, Facts, Field, Glyph, Keys, Lesson, PlainLink, Screen, Slat, TopBack,
};
use crate::words::{climate as words, format, rooms, system};

/// The screen.
#[component]
pub fn PlaceClimate(place: PlaceId) -> impl IntoView {
    let ledger = Ledger::here();
    let shown = ledger.ask(move |state, at| view::place_climate(state, place, at.today));
    let day = ledger.ask(|state, at| view::day_of_year(state.facts(), at.today));
    let title = Signal::derive(move || {
        shown.with(|shown| shown.as_ref().map(|it| it.name.clone()).unwrap_or_default())
    });
    let body = move || {
        shown.get().map(|shown| {
            if shown.last.is_none() {
                return view! {
                    <Lesson glyph=Glyph::Round title=words::NOTHING_READ words=words::NOTHING_READ_HINT />
                    <p class="edge"><PlainLink href=Route::Readings.href() label=words::TITLE main=true /></p>
                }
                .into_any();
            }
            let today = ledger.today();
            view! {
                {line(&shown, today)}
                {air(&shown, today)}
                {nights(&shown, today)}
                {warmth(&shown, today)}
            }
            .into_any()
        })
    };
    let some = Memo::new(move |_| shown.with(|it| it.as_ref().is_some_and(|it| it.last.is_some())));
    view! {
        <Screen
            title
            back=|| view! { <TopBack href=Route::Readings.href() label=rooms::back_to(words::TITLE) /> }
            notice=notices
            rooms=|| room_bar(Route::Round)
        >
            {body}
            {move || some.get().then(|| view! { <OwnNights place /> })}
            <Slat name=words::DAY />
            <p class="edge">{move || words::day_of_year(&day.get())}</p>
        </Screen>
    }
}

fn line(shown: &Shown, today: chrono::NaiveDate) -> impl IntoView + use<> {
    let days: Vec<Option<(i32, i32)>> = shown
        .line
        .iter()
        .map(|(_, reading)| reading.map(|reading| (reading.min_mc, reading.max_mc)))
        .collect();
    let read = || shown.line.iter().filter_map(|(_, reading)| *reading);
    let low = read().map(|reading: Reading| reading.min_mc).min();
    let high = read().map(|reading: Reading| reading.max_mc).max();
    let degrees = |mc: Option<i32>| mc.map(format::degrees).unwrap_or_default();
    let from = shown
        .line
        .first()
        .map(|(on, _)| format::short_day(*on, today));
    let text = words::line(&shown.line, today);
    let said = text.clone();
    view! {
        <Slat name=words::LINE />
        <WeatherBand
            days
            low_words=degrees(low)
            high_words=degrees(high)
            from_words=from.unwrap_or_default()
            to_words=words::TODAY
            text
        />
        <p class="edge">{said}</p>
    }
}

fn air(shown: &Shown, today: chrono::NaiveDate) -> impl IntoView + use<> {
    let body = match shown.air {
        None => view! { <p class="edge">{words::NO_AIR}</p> }.into_any(),
        Some((on, air)) => {
            let (range, mean) = words::air(&air);
            let dew = air.dew_point_mc.map(|mc| {
                view! { <Fact value=format::degrees(mc) unit=words::unit(Figure::Min) words=words::DEW_HINT /> }
            });
            view! {
                <Facts>
                    <Fact value=range words=words::air_range(on, today) />
                    <Fact value=mean words=words::AIR_MEAN />
                    {dew}
                </Facts>
                <p class="edge soft">{words::AIR_HINT}</p>
            }
            .into_any()
        }
    };
    view! { <Slat name=words::AIR /> {body} }
}

fn nights(shown: &Shown, today: chrono::NaiveDate) -> impl IntoView + use<> {
    let rows = shown
        .cold_nights
        .iter()
        .map(|nights| {
            view! {
                <li>
                    <strong>{words::cold_nights(nights, today)}</strong>
                    <span class="soft">" "{words::rests_on(&nights.counted)}</span>
                </li>
            }
        })
        .collect_view();
    let none = shown
        .cold_nights
        .is_empty()
        .then(|| view! { <p class="edge soft">{words::NO_COLD_NIGHTS}</p> });
    view! {
        <Slat name=words::COLD_NIGHTS />
        {none}
        <ul class="plain-list">{rows}</ul>
    }
}

fn warmth(shown: &Shown, today: chrono::NaiveDate) -> impl IntoView + use<> {
    shown.warmth.map(|(since, counted)| {
        view! {
            <Slat name=words::WARMTH />
            <p class="edge"><strong>{words::warmth(since, &counted, today)}</strong>" "{words::rests_on(&counted)}</p>
            <p class="edge soft">{words::WARMTH_HINT}</p>
        }
    })
}

/// Nights below a threshold of one's own, since a day of one's own.
/// Where nothing was typed: nights of ten degrees set the buds of many (common practice, no source).
const COLD_MC: i32 = 10_000;

#[component]
fn OwnNights(place: PlaceId) -> impl IntoView {
    let ledger = Ledger::here();
    let below = RwSignal::new(format::degrees(COLD_MC));
    let month_ago = plus_days(ledger.moment().today, -30);
    let since = RwSignal::new(month_ago.to_string());
    let counted = move || {
        let below_mc = celsius_of(milli_of(&below.get())?, system());
        let since = since.get().parse().ok()?;
        let counted = ledger
            .follow(|state, at| nights_since(state.facts(), place, since, at.today, below_mc))?;
        Some(words::own_nights(&counted))
    };
    view! {
        <div class="form">
            <Field
                label=words::BELOW_OWN
                unit=words::unit(Figure::Min)
                keys=Keys::Decimal
                value=below
                on_input=Callback::new(move |text| below.set(text))
                max_chars=8
            />
            <DayField
                label=words::NIGHTS_SINCE
                value=since
                on_day=Callback::new(move |day| since.set(day))
                last=Signal::derive(move || ledger.today().to_string())
            />
            <p aria-live="polite"><strong>{move || counted().unwrap_or_else(|| words::NOT_A_NUMBER.to_owned())}</strong></p>
        </div>
    }
}
