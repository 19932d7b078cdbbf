//! A lot's page: what it is, where it comes from, what is due, what was done.

use leptos::prelude::*;
use velamen_core::draft::OpeningDraft;
use velamen_core::id::LotId;
use velamen_core::view::LotLabel;
use velamen_core::view::lot::{LotView, lot};

use crate::frame::{notices, room_bar};
use crate::ledger::Ledger;
use crate::route::Route;
use crate::screens::lot_change::Change;
use crate::screens::names::sentence;
use crate::screens::open_clump::OPENING;
use crate::ui::{Fact, Facts, PlainAction, PlainLink, Screen, Slat, Stake, TopBack};
use crate::words::{format, rooms, stock as words, task, trade};

/// History rows shown.
const HISTORY: usize = 50;

/// The screen.
#[component]
pub fn Lot(lot: LotId) -> impl IntoView {
    let id = lot;
    let ledger = Ledger::here();
    let shown = ledger.ask(move |state, at| self::lot(state, id, at.today));
    let changing = RwSignal::new(false);
    let title = Signal::derive(move || {
        shown.with(|view| {
            view.as_ref()
                .and_then(|view| view.label.code)
                .map(|code| code.to_string())
                .unwrap_or_default()
        })
    });
    let over = Signal::derive(move || {
        shown.with(|view| {
            view.as_ref()
                .and_then(|view| view.place.as_ref())
                .map(|place| place.name.clone())
                .unwrap_or_default()
        })
    });
    let actions = move || {
        let locked = shown.with(|view| view.as_ref().is_some_and(|view| view.locked));
        (!locked).then(|| view! {
            <PlainLink href=Route::SeenLot(id).href() label=words::SEEN_HERE />
            <PlainAction label=words::CHANGE.to_owned() on_press=Callback::new(move |()| changing.update(|open| *open = !*open)) />
        })
    };
    let body = move || shown.get().map(|view| page(ledger, id, view));
    view! {
        <Screen
            title
            over
            back=|| view! { <TopBack href=Route::Stock.href() label=rooms::back_to(rooms::STOCK) /> }
            actions
            notice=notices
            rooms=|| room_bar(Route::Stock)
        >
            {move || changing.get().then(|| view! { <Change lot=id changing /> })}
            {body}
        </Screen>
    }
}

fn page(ledger: Ledger, id: LotId, view: LotView) -> impl IntoView {
    let today = ledger.today();
    let potted = view.potted.as_ref().map(|(on, potting)| {
        let pot = if potting.pot_name.is_empty() {
            String::new()
        } else {
            format!(", {}", potting.pot_name)
        };
        format!("{}{pot}", format::days_ago(*on, today))
    });
    let next = view
        .tasks
        .first()
        .map(|(task, _)| format::near_day(task.due_on, today));
    let windows = |windows: &[velamen_core::season::Window]| {
        windows
            .iter()
            .map(format::window)
            .collect::<Vec<_>>()
            .join(", ")
    };
    let seasons = [
        (words::REPOT_SEASON, windows(&view.repot_windows)),
        (words::FLOWER_SEASON, windows(&view.flowering_windows)),
    ];
    let seasons = seasons
        .into_iter()
        .filter(|(_, months)| !months.is_empty())
        .map(|(what, months)| view! { <p><strong>{what}</strong> " " {months}</p> })
        .collect_view();
    let tasks = view.tasks.iter().map(|(task, _)| {
        let when = format::near_day(task.due_on, today);
        view! { <p class="entry"><strong>{task::kind(task.kind)}</strong><span class="soft">{when}</span></p> }
    });
    let tasks = tasks.collect_view();
    let none = view
        .tasks
        .is_empty()
        .then(|| view! { <p class="edge">{words::NOTHING_TO_DO}</p> });
    let bench = Callback::new(move |()| {
        ledger.keep_draft(
            OPENING,
            &OpeningDraft {
                lots: vec![id],
                ..OpeningDraft::default()
            },
        );
        Route::OpenClump.go();
    });
    let stocked = view.label.plants > 0;
    let class = view.class.map(trade::class).unwrap_or_default();
    let history = history(ledger, &view);
    view! {
        {view.locked.then(|| view! { <p class="warn">{words::LOCKED}</p> })}
        <p class="edge"><Stake name=trade::name_runs(&view.label.name) large=true /></p>
        <Facts>
            <Fact value=trade::plants_in_pots(view.label.plants, view.label.stands) words=class />
            <Fact value=potted.unwrap_or_else(|| words::NOT_KNOWN.to_owned()) words=words::POTTED />
            <Fact value=next.unwrap_or_default() words=words::TO_DO />
        </Facts>
        {stocked.then(|| view! {
            <div class="form"><PlainAction label=words::TO_THE_BENCH.to_owned() on_press=bench /></div>
        })}
        <Slat name=words::TO_DO />
        {tasks}
        {none}
        <Slat name=words::SEASONS />
        <div class="form">{seasons}</div>
        {lineage(&view)}
        <Slat name=words::HISTORY />
        {history}
    }
}

fn labels(lots: &[LotLabel]) -> impl IntoView + use<> {
    lots.iter()
        .map(|label| {
            view! {
                <a class="entry" href=Route::Lot(label.lot).href()>
                    <Stake
                        name=trade::name_runs(&label.name)
                        code=label.code.map(|code| code.to_string()).unwrap_or_default()
                        count=trade::plants_in_pots(label.plants, label.stands)
                    />
                </a>
            }
        })
        .collect_view()
}

fn lineage(view: &LotView) -> impl IntoView + use<> {
    let from = &view.lineage;
    let mut parents = from.parents.clone();
    parents.extend(from.split_from.clone());
    let mut children = from.children.clone();
    children.extend(from.parts.clone());
    let several = from.parents.len() > 1;
    let has_parents = !parents.is_empty();
    let has_children = !children.is_empty();
    view! {
        {has_parents.then(|| view! {
            <Slat name=words::FROM />
            {several.then(|| view! { <p class="edge soft">{words::WHICH}</p> })}
            {labels(&parents)}
        })}
        {has_children.then(|| view! { <Slat name=words::CAME_FROM_IT /> {labels(&children)} })}
    }
}

fn history(ledger: Ledger, view: &LotView) -> impl IntoView + use<> {
    let rows = view.history.iter().take(HISTORY).map(|row| {
        let said = ledger.look(|state, _| {
            let about = row.events.iter().filter(|event| {
                event
                    .subjects()
                    .contains(&velamen_core::id::Subject::Lot(view.label.lot))
            });
            about
                .map(|event| sentence(state, event))
                .collect::<Vec<_>>()
                .join(" ")
        });
        let out = row.withdrawn.is_some();
        view! {
            <a class="entry" href=Route::Entry(row.entry).href()>
                <span class="soft">{format::full_day(row.on)}</span>
                <span class:out=out>{said}</span>
            </a>
        }
    });
    rows.collect_view()
}
