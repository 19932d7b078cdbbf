//! The Book: what happened, newest first; what must be handed over; what is asked.

use leptos::prelude::*;
use velamen_core::state::State;
use velamen_core::view::book::{Row, rows};

use crate::desk::Table;
use crate::frame::{home_notices, room_bar};
use crate::ledger::Ledger;
use crate::route::Route;
use crate::screens::book_look::{LookFor, Looked, looked};
use crate::screens::files::saved_here;
use crate::screens::names::sentence;
use crate::ui::{PlainAction, PlainLink, Screen, Slat, Windowed};
use crate::words::{book as words, entry, files, format, rooms, round};

/// Entries shown at first, and added on demand.
const SHOWN: usize = 200;
/// Entries drawn at once: a screen of them.
const DRAWN: usize = 8;
/// Sentences of one entry shown in the list.
const SENTENCES: usize = 3;

/// An entry in the list.
#[derive(Clone, PartialEq, Eq)]
struct Line {
    row: Row,
    sentences: Vec<String>,
}

fn lines(state: &State, looked: &Looked, most: usize) -> Vec<Line> {
    rows(state, looked.filter(), most)
        .into_iter()
        .map(|row| {
            let sentences = row
                .events
                .iter()
                .take(SENTENCES)
                .map(|event| sentence(state, event))
                .collect();
            Line { row, sentences }
        })
        .collect()
}

/// The screen.
#[component]
pub fn Book() -> impl IntoView {
    let ledger = Ledger::here();
    let most = RwSignal::new(SHOWN);
    let looked = looked();
    let shown = Memo::new(move |_| {
        let most = most.get();
        ledger.follow(|state, _| {
            (
                looked.with(|looked| lines(state, looked, most)),
                state.anomalies().len(),
                state.log().len(),
            )
        })
    });
    let known = ledger.safety();
    let safety = move || {
        let safety = known.get();
        let kept = ledger
            .kept_safe()
            .map(|kept| if kept { words::KEPT } else { words::NOT_KEPT });
        // Nobody loses anything with the example.
        (!ledger.is_example()).then(|| {
            view! {
                <section class="card">
                    <p><strong>{files::safety(safety.days)}</strong></p>
                    <p>{files::at_stake(safety.at_stake, safety.urgency)}</p>
                    {saved_here(ledger, known)}
                    {kept.map(|kept| view! { <p class="soft">{kept}</p> })}
                </section>
            }
        })
    };
    let actions = || {
        view! {
            <PlainLink href=Route::Shed.href() label=words::SHED />
            <PlainLink href=Route::Files.href() label=words::HAND_OVER main=true />
        }
    };
    let list = move || {
        let (lines, questions, all) = shown.get();
        let more = lines.len() >= most.get() && lines.len() < all;
        let nothing = lines.is_empty() && looked.with_untracked(|looked| !looked.is_all());
        let mut day = None;
        let lines: Vec<(Line, Option<String>)> = lines
            .into_iter()
            .map(|line| {
                let heading = (day != Some(line.row.on)).then(|| format::long_day(line.row.on));
                day = Some(line.row.on);
                (line, heading)
            })
            .collect();
        let parts = lines.len().div_ceil(DRAWN);
        // Who asked for older ones stays where the newer ended.
        let at_once = most.get_untracked().saturating_sub(SHOWN) / DRAWN;
        let lines = StoredValue::new(lines);
        let part = Callback::new(move |nth: usize| {
            let lines = lines.with_value(|lines| {
                let lines = lines.iter().skip(nth * DRAWN).take(DRAWN);
                lines.cloned().collect::<Vec<_>>()
            });
            let rows = lines
                .into_iter()
                .map(|(line, heading)| entry_row(line, heading));
            view! { <div>{rows.collect_view()}</div> }.into_any()
        });
        let older = Callback::new(move |()| most.update(|most| *most += SHOWN));
        view! {
            {(questions > 0).then(|| view! {
                <div class="form"><PlainLink href=Route::Questions.href() label=round::questions(questions) /></div>
            })}
            {nothing.then(|| view! { <p class="edge">{words::NOTHING_FOUND}</p> })}
            {(parts > 0).then(|| view! { <Windowed parts=Signal::stored(parts) part more_label=words::MORE_ROWS at_once on_paper=Table::here().printing on_drawn=Table::here().on_drawn() /> })}
            {more.then(|| view! { <div class="form"><PlainAction label=words::MORE.to_owned() on_press=older /></div> })}
        }
    };
    view! {
        <Screen title=rooms::BOOK actions notice=home_notices rooms=|| room_bar(Route::Book)>
            {safety}
            <LookFor looked />
            {list}
        </Screen>
    }
}

fn entry_row(line: Line, heading: Option<String>) -> impl IntoView {
    let row = line.row;
    let more = row.events.len().saturating_sub(line.sentences.len());
    let phone = row.phone.map(|phone| phone.to_string()).unwrap_or_default();
    let mark = match (&row.withdrawn, row.amended_from.is_empty()) {
        (Some((_, why)), _) => Some(entry::withdrawn(*why)),
        (None, false) => Some(words::AMENDED),
        (None, true) => None,
    };
    let out = row.withdrawn.is_some();
    view! {
        {heading.map(|name| view! { <Slat name /> })}
        <a class="entry" href=Route::Entry(row.entry).href()>
            <span class="soft">{words::recorded(&format::clock(row.minute), &phone)}</span>
            {row.locked.map(|_| view! { <span>{words::LOCKED}</span> })}
            {line.sentences.into_iter().map(|words| view! { <span class:out=out>{words}</span> }).collect_view()}
            {(more > 0).then(|| view! { <span class="soft">{words::more_said(more)}</span> })}
            {mark.map(|mark| view! { <span class="soft">{mark}</span> })}
        </a>
    }
}
