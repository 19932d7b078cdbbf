//! The Repot room: what is on the bench, and what wants to come to it.

use leptos::prelude::*;
use velamen_core::clean::cut_order;
use velamen_core::command::Command;
use velamen_core::draft::OpeningDraft;
use velamen_core::event::ToolChange;
use velamen_core::view::repot::{Waiting, bench};

use crate::desk::Table;
use crate::frame::{home_notices, room_bar};
use crate::ledger::{Act, Ledger};
use crate::route::Route;
use crate::screens::first_repot::{FirstRepot, Step};
use crate::screens::lot_parts::one_of;
use crate::screens::open_clump::OPENING;
use crate::screens::reentry::LotBound;
use crate::screens::round::bench_row;
use crate::ui::{Glyph, Lesson, PlainAction, PlainLink, Screen, Slat, Stake, TrayTag, Windowed};
use crate::words::{cards, clean, cut, format, prepare, repot as words, rooms, task, told, trade};

/// Waiting lots drawn at once.
const DRAWN: usize = 8;

/// The Repot room.
#[component]
pub fn Repot() -> impl IntoView {
    let ledger = Ledger::here();
    let view = ledger.ask(bench);
    let actions = move || {
        view! {
            <PlainLink
                href=Route::OpenClump.href()
                label=words::CLUMP_TO_THE_BENCH
                glyph=Glyph::Plus
                main=true
            />
        }
    };
    let body = move || {
        let view = view.get();
        let empty = view.open.is_empty() && view.waiting.is_empty();
        let open = view.open.into_iter().map(bench_row).collect_view();
        let waiting = view.waiting;
        let heading = (!waiting.is_empty()).then(|| view! { <Slat name=words::WANTS_THE_BENCH /> });
        let parts = waiting.len().div_ceil(DRAWN);
        let waiting = StoredValue::new(waiting);
        let part = Callback::new(move |nth: usize| {
            let rows = waiting.with_value(|waiting| {
                let rows = waiting.iter().skip(nth * DRAWN).take(DRAWN);
                rows.copied().collect::<Vec<_>>()
            });
            let rows = rows.into_iter().map(|row| waiting_row(ledger, row));
            rows.collect_view().into_any()
        });
        view! {
            {(!view.hygiene_today).then(|| view! { <Hygiene /> })}
            {open}
            {heading}
            <Windowed parts=Signal::stored(parts) part more_label=words::MORE_WAIT on_paper=Table::here().printing on_drawn=Table::here().on_drawn() />
            <Cuts />
            <p class="edge"><PlainLink href=Route::Cards.href() label=cards::LINK glyph=Glyph::Scissors /></p>
            {empty.then(|| view! { <Lesson glyph=Glyph::Repot title=words::EMPTY words=words::EMPTY_HINT /> })}
        }
    };
    let step = Memo::new(move |_| {
        view.with(|view| {
            if view.open.iter().any(|row| row.bare > 0) {
                Step::Bare
            } else if !view.open.is_empty() {
                Step::GoOn
            } else if view.hygiene_today {
                Step::Bring
            } else {
                Step::Clean
            }
        })
    });
    view! {
        <Screen title=rooms::REPOT actions notice=home_notices rooms=|| room_bar(Route::Repot)>
            <FirstRepot step />
            {body}
        </Screen>
    }
}

/// Confirmed once a session: the day, on this phone.
#[component]
fn Hygiene() -> impl IntoView {
    let ledger = Ledger::here();
    let tools = RwSignal::new(None::<u8>);
    let confirm = move |tool_change| {
        Callback::new(move |()| {
            let command = Command::ConfirmHygiene {
                tool_change,
                tools: tools.get_untracked(),
            };
            ledger.act(Act::new(command, told::done(words::CLEAN)));
        })
    };
    let in_turn = vec![
        (None, clean::ONE_TOOL.to_owned()),
        (Some(2), clean::TWO_TOOLS.to_owned()),
        (Some(3), clean::THREE_TOOLS.to_owned()),
    ];
    view! {
        <section class="card">
            <h2>{words::CLEAN}</h2>
            <p>{words::CLEAN_HINT}</p>
            {one_of(clean::TOOLS_NOW, in_turn, tools.into(), move |count| tools.set(count))}
            <p class="soft">{clean::TURN_HINT}</p>
            <div class="pair">
                <PlainAction
                    label=words::CLEAN_BETWEEN_PLANTS.to_owned()
                    on_press=confirm(ToolChange::BetweenPlants)
                    busy=ledger.busy()
                />
                <PlainAction
                    label=words::CLEAN_BETWEEN_CLUMPS.to_owned()
                    on_press=confirm(ToolChange::BetweenClumps)
                    busy=ledger.busy()
                />
            </div>
        </section>
    }
}

/// What was cut today with which tool, in order, and the way to the wash.
#[component]
fn Cuts() -> impl IntoView {
    let ledger = Ledger::here();
    let order = ledger.ask(|state, at| cut_order(state, at.today));
    let rows = move || {
        let order = order.get();
        (!order.is_empty()).then(|| {
            let rows = order.into_iter().map(|cut| {
                let said = clean::tool(&cut.tool);
                let suspect = cut
                    .suspect
                    .then(|| view! { <strong>{clean::SUSPECTED}</strong> });
                view! {
                    <li>
                        <TrayTag number=cut.tray.to_string() word=rooms::TRAY />
                        <span>{said}</span>
                        {suspect}
                    </li>
                }
            });
            view! {
                <details class="more-of-it">
                    <summary>{clean::CUT_ORDER}</summary>
                    <ol class="cuts">{rows.collect_view()}</ol>
                </details>
            }
        })
    };
    view! {
        {rows}
        <div class="form">
            <PlainLink href=Route::ToPrepare.href() label=prepare::LINK />
            <PlainLink href=Route::Wash.href() label=clean::WASH />
        </div>
    }
}

/// One tap starts opening with that lot chosen.
fn waiting_row(ledger: Ledger, row: Waiting) -> impl IntoView {
    let today = ledger.today();
    let lot = row.lot;
    let said = ledger.ask(move |state, _| row.row(state.facts()));
    let start = move |_| {
        ledger.keep_draft(
            OPENING,
            &OpeningDraft {
                lots: vec![lot],
                ..OpeningDraft::default()
            },
        );
        Route::OpenClump.go();
    };
    let why = format!(
        "{} · {}",
        task::kind(row.kind),
        format::near_day(row.due_on, today)
    );
    let what = move || {
        let (label, planned) = said.get();
        let planned = planned.then(|| view! { <span class="soft">{cut::IS_PLANNED}</span> });
        view! {
            <Stake
                name=trade::name_runs(&label.name)
                code=label.code.map(|code| code.to_string()).unwrap_or_default()
                count=trade::plants_in_pots(label.plants, label.stands)
            />
            <span class="soft">{why.clone()}</span>
            {planned}
        }
    };
    view! {
        <button type="button" class="pick" on:click=start>
            {what}
        </button>
        <LotBound lot />
    }
}
