//! What to bring and make ready for the bench work of the next weeks: a list to tick off and to print.

use std::collections::BTreeSet;

use leptos::prelude::*;
use serde::{Deserialize, Serialize};
use velamen_core::view::prepare::{PrepareRow, PreparedWork, Preparing, preparing};

use crate::frame::{notices, room_bar};
use crate::ledger::Ledger;
use crate::route::Route;
use crate::ui::{Glyph, Lesson, PlainAction, PlainLink, Screen, Slat, TopBack};
use crate::words::{containers, prepare as words, rooms, trade};

const DRAFT: &str = "to_prepare";

/// What was ticked off, each with how much was wanted then: more wanted later is open again.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
struct Ticked {
    #[serde(default)]
    there: BTreeSet<(String, i64)>,
}

/// The screen.
#[component]
pub fn ToPrepare() -> impl IntoView {
    let ledger = Ledger::here();
    let shown = ledger.ask(|state, at| preparing(state, at.today));
    let ticked = ledger.draft::<Ticked>(DRAFT);
    let list = move || {
        let list = shown.get();
        if list.work.is_empty() {
            return view! { <Lesson glyph=Glyph::Repot title=words::NONE words=words::NONE_HINT /> }
                .into_any();
        }
        let rows = list.rows.iter().map(|row| line(ledger, ticked, row));
        let today = ledger.today();
        let work = list.work.iter().map(|work| job(work, today));
        view! {
            {rows.collect_view()}
            {sums(&list)}
            <Slat name=words::FOR_WHAT note="" />
            {work.collect_view()}
            <p class="edge soft">{words::ORIGIN}</p>
        }
        .into_any()
    };
    let print = Callback::new(move |()| ledger.print());
    view! {
        <Screen
            title=words::TITLE
            back=|| view! { <TopBack href=Route::Repot.href() label=rooms::back_to(rooms::REPOT) /> }
            notice=notices
            rooms=|| room_bar(Route::Repot)
        >
            <p class="edge">{words::HINT}</p>
            {list}
            <div class="form">
                <PlainLink href=Route::ToBuy.href() label=containers::BUY />
                <PlainLink href=Route::Prices.href() label=words::SIZES />
                <PlainLink href=Route::Wash.href() label=crate::words::clean::WASH />
                <PlainAction label=containers::PRINT.to_owned() on_press=print />
            </div>
        </Screen>
    }
}

fn line(ledger: Ledger, ticked: Memo<Ticked>, row: &PrepareRow) -> impl IntoView + use<> {
    let tick = StoredValue::new((row.item.key(), row.needed));
    let there = move || ticked.with(|ticked| tick.with_value(|tick| ticked.there.contains(tick)));
    let flip = move |_| {
        let tick = tick.get_value();
        ledger.change_draft(DRAFT, |ticked: &mut Ticked| {
            if !ticked.there.remove(&tick) {
                ticked.there.retain(|(key, _)| *key != tick.0);
                ticked.there.insert(tick);
            }
        });
    };
    let short = row.short.is_some_and(|short| short > 0);
    view! {
        <button type="button" class="choose" aria-pressed=move || there().to_string() on:click=flip>
            <span class="strong">{words::item(row)}</span>
            {words::stands(row).map(|said| view! { <span class:strong=short>{said}</span> })}
            {move || there().then(|| view! { <span class="soft">{words::THERE}</span> })}
        </button>
    }
}

fn sums(list: &Preparing) -> impl IntoView + use<> {
    let lines = words::sums(list);
    let lines = lines
        .into_iter()
        .map(|said| view! { <li>{said}</li> })
        .collect_view();
    view! { <ul class="plain-list">{lines}</ul> }
}

fn job(work: &PreparedWork, today: chrono::NaiveDate) -> impl IntoView + use<> {
    let names: Vec<String> = work
        .lots
        .iter()
        .map(|label| {
            let code = label.code.map(|code| code.to_string()).unwrap_or_default();
            format!("{} {code}", trade::name_plain(&label.name))
        })
        .collect();
    view! {
        <div class="entry">
            <strong>{names.join(", ")}</strong>
            <span class="soft">{words::job(work, today)}</span>
        </div>
    }
}
