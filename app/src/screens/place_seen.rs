//! What was seen in a place as days went by, and from which share on the grower acts.

use leptos::prelude::*;
use velamen_core::command::{Command, PlaceTraits};
use velamen_core::id::PlaceId;
use velamen_core::time::{days_between, plus_days};
use velamen_core::view::finding::{Incidence, incidence};

use crate::ledger::{Act, Ledger};
use crate::ui::drawing::{Mark, Trend};
use crate::ui::{Field, Keys, PlainAction, Slat};
use crate::words::{format, rejection, seen as words, shed, trade};

/// How far back is looked.
const DAYS: i64 = 365;

/// The section of a place's page.
#[component]
pub fn SeenInPlace(place: PlaceId) -> impl IntoView {
    let ledger = Ledger::here();
    let view = ledger.ask(move |state, at| {
        let act = state.facts().places.get(&place);
        let act = act.and_then(|place| place.act_permille.get().copied());
        (incidence(state, place, plus_days(at.today, -DAYS)), act)
    });
    move || {
        let (signs, act) = view.get();
        let lines = signs.into_iter().map(|sign| line(sign, act)).collect_view();
        view! {
            <section>
                <Slat name=words::OVER_TIME note="" />
                {lines}
                <Threshold place act />
            </section>
        }
    }
}

fn line(sign: Incidence, act: Option<u16>) -> impl IntoView {
    let today = Ledger::here().today();
    let name = trade::sign(&sign.sign);
    let first = sign.points.first().map(|point| point.on);
    let said: Vec<(String, u16)> = sign
        .points
        .iter()
        .map(|point| (format::short_day(point.on, today), point.share.permille))
        .collect();
    let text = words::line(&name, &said);
    let marks: Vec<Mark> = sign
        .points
        .iter()
        .map(|point| Mark {
            day: first
                .and_then(|first| u32::try_from(days_between(first, point.on)).ok())
                .unwrap_or(0),
            words: format::short_day(point.on, today),
            low: u32::from(point.share.low),
            middle: u32::from(point.share.permille),
            high: u32::from(point.share.high),
        })
        .collect();
    let limit = act.map(|act| (u32::from(act), words::LINE.to_owned()));
    let uncounted = (sign.uncounted > 0).then(|| words::uncounted(sign.uncounted));
    let drawn = (!marks.is_empty()).then(|| view! { <Trend marks limit text /> });
    view! {
        <h3 class="edge">{name}</h3>
        {drawn}
        {uncounted.map(|said| view! { <p class="edge small soft">{said}</p> })}
    }
}

/// From which share on the grower acts here.
#[component]
fn Threshold(place: PlaceId, act: Option<u16>) -> impl IntoView {
    let ledger = Ledger::here();
    let known = act.map(|act| (act / 10).to_string()).unwrap_or_default();
    let typed = RwSignal::new(known);
    let error = RwSignal::new(String::new());
    let on_input = Callback::new(move |text: String| {
        error.set(String::new());
        typed.set(text);
    });
    let keep = Callback::new(move |()| {
        let text = typed.get_untracked();
        let Some(share) = text
            .trim()
            .parse::<u16>()
            .ok()
            .and_then(|it| it.checked_mul(10))
        else {
            error.set(words::NOT_A_SHARE.to_owned());
            return;
        };
        let command = Command::SetPlace {
            place: Some(place),
            name: None,
            walk: None,
            about: PlaceTraits {
                act_permille: Some(share),
                ..PlaceTraits::default()
            },
        };
        let act = Act::new(command, shed::CHANGED);
        ledger.act(act.otherwise(move |no| error.set(rejection::say(&no))));
    });
    view! {
        <div class="form">
            <Field label=words::THRESHOLD hint=words::THRESHOLD_HINT value=typed on_input error keys=Keys::Decimal max_chars=3 />
            <PlainAction label=words::KEEP.to_owned() on_press=keep busy=ledger.busy() />
        </div>
    }
}
