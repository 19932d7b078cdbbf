//! The paper on the door of a place that was treated, or beside treated pieces: until when, with what, whom to call.

use leptos::prelude::*;
use velamen_core::event::{Airing, Method, TreatedPart};
use velamen_core::id::TreatmentId;
use velamen_core::state::State;
use velamen_core::time::{Moment, civil_day, minute_of_day};
use velamen_core::view::reentry::of_one_tank;
use velamen_core::view::{place_label, shed};

use crate::frame::{notices, room_bar};
use crate::ledger::Ledger;
use crate::route::Route;
use crate::screens::names;
use crate::ui::{MainAction, Screen, TopBack};
use crate::words::apply::notice as words;
use crate::words::{apply, bath, book, format, rooms, trade, treat};

/// What stands on it.
#[derive(Clone, PartialEq)]
struct Paper {
    /// A place nobody enters, rather than plants nobody touches.
    is_place: bool,
    nursery: String,
    until: Option<String>,
    over: bool,
    rows: Vec<(&'static str, String)>,
    poisons: String,
}

fn at(ms: i64, off_min: i16) -> String {
    let clock = format::clock(minute_of_day(ms, off_min));
    let day = civil_day(ms, off_min).map(format::full_day);
    words::until(&clock, &day.unwrap_or_default())
}

fn paper(state: &State, now: &Moment, id: TreatmentId) -> Option<Paper> {
    let facts = state.facts();
    // One tank holds two: the paper names both.
    let (tank, until_ms) = of_one_tank(state, id);
    let known = *tank.first()?;
    let it = &known.event;
    let off_min = state.log().entry(known.entry)?.header.off_min;
    let is_place = matches!(it.method, Method::Spray | Method::Drench) && it.place.is_some();
    let place = it.place.and_then(|place| place_label(facts, place));
    let place = place.map(|place| place.name);
    let where_it_is = place.filter(|_| is_place).unwrap_or_else(|| {
        let parts = it.parts.iter().map(|part| match part {
            TreatedPart::Lot { lot, plants } => {
                format!(
                    "{} · {}",
                    names::lot(state, *lot),
                    trade::plants(i64::from(*plants))
                )
            }
            TreatedPart::Pieces { clump, plants, .. } => {
                let opened = facts.clumps.get(clump).and_then(|one| one.opened.as_ref());
                let tray = opened.map_or(0, |opened| opened.tray);
                format!(
                    "{} {tray} · {}",
                    rooms::TRAY,
                    trade::pieces(i64::from(*plants))
                )
            }
        });
        parts.collect::<Vec<_>>().join("; ")
    });
    let products: Vec<_> = tank.iter().map(|one| &one.event.product).collect();
    let join = |each: Vec<String>| {
        let each: Vec<String> = each.into_iter().filter(|one| !one.is_empty()).collect();
        each.join(", ")
    };
    let names = |get: fn(&velamen_core::event::ProductCopy) -> String| {
        join(products.iter().map(|product| get(product)).collect())
    };
    let done = it.ended_ms.map(|ms| {
        let clock = format::clock(minute_of_day(ms, off_min));
        format!("{}, {clock}", format::full_day(known.on))
    });
    let rows = [
        (words::WHERE, where_it_is),
        (words::WITH, names(|product| product.label_name.clone())),
        (
            words::HOLDS,
            names(|product| {
                let actives = product.actives.iter().map(|active| active.name.clone());
                actives.collect::<Vec<_>>().join(", ")
            }),
        ),
        (
            words::REGISTRATION,
            names(|product| product.registration.clone()),
        ),
        (
            words::DONE,
            format!("{} · {}", book::method(it.method), done.unwrap_or_default()),
        ),
        (
            words::AIRING,
            it.airing
                .map(|how: Airing| apply::airing(how))
                .unwrap_or_default(),
        ),
        (words::GEAR, it.gear.clone()),
        (words::BY, it.person.clone()),
    ];
    let nursery = shed::nursery(state);
    Some(Paper {
        is_place,
        nursery: nursery.name,
        until: until_ms.map(|ms| at(ms, off_min)),
        over: until_ms.is_some_and(|ms| ms <= now.now_ms),
        rows: rows
            .into_iter()
            .filter(|(_, words)| !words.is_empty())
            .collect(),
        poisons: nursery.poisons_number,
    })
}

/// The screen.
#[component]
pub fn DoorNotice(treatment: TreatmentId) -> impl IntoView {
    let ledger = Ledger::here();
    let shown = ledger.ask(move |state, now| paper(state, now, treatment));
    let actions = move || {
        view! { <MainAction label=words::PRINT.to_owned() on_press=Callback::new(move |()| ledger.print()) /> }
    };
    let body = move || {
        let Some(paper) = shown.get() else {
            return view! { <p class="edge">{words::GONE}</p> }.into_any();
        };
        let head = if paper.is_place {
            words::KEEP_OUT
        } else {
            words::HANDS_OFF
        };
        let until = paper.until.unwrap_or_else(|| words::NO_INTERVAL.to_owned());
        let rows = paper.rows.into_iter().map(|(name, said)| {
            view! { <dt>{name}</dt> <dd>{said}</dd> }
        });
        let poisons = if paper.poisons.is_empty() {
            treat::NO_POISONS.to_owned()
        } else {
            treat::poisons(&paper.poisons)
        };
        view! {
            {paper.over.then(|| view! { <p class="warn">{words::OVER}</p> })}
            <article class="door-notice">
                <p class="door-notice-head">{head}</p>
                <p class="door-notice-until">{until}</p>
                <p>{words::MEANWHILE}</p>
                <dl>{rows.collect_view()}</dl>
                <p class="door-notice-call">{poisons}</p>
                <p>{treat::CONTACT}</p>
                <p>{bath::LAW}</p>
                <p>{paper.nursery}</p>
            </article>
        }
        .into_any()
    };
    view! {
        <Screen
            title=words::TITLE
            back=|| view! { <TopBack href=Route::Treat.href() label=rooms::back_to(rooms::TREAT) /> }
            actions
            notice=notices
            rooms=|| room_bar(Route::Treat)
        >
            {body}
        </Screen>
    }
}
