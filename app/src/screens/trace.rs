//! Who is at risk by a lot: the most at risk first, with the way it may have gone, and what is made of each.

use leptos::prelude::*;
use velamen_core::command::{Command, TraceAnswer};
use velamen_core::id::LotId;
use velamen_core::trace::{Followed, Rank, Risk, at_risk};
use velamen_core::view::{LotLabel, lot_label};

use crate::frame::{notices, room_bar};
use crate::ledger::{Act, Ledger};
use crate::route::Route;
use crate::ui::{Field, Glyph, Lesson, PlainAction, Screen, Sheet, Slat, Stake, TopBack};
use crate::words::{apart as words, format, rejection, rooms, stock, told, trade};

/// Rows shown; the others are farther off.
const SHOWN: usize = 60;

#[derive(Clone, PartialEq)]
struct Row {
    risk: Risk,
    label: LotLabel,
}

/// The screen.
#[component]
pub fn Trace(lot: LotId) -> impl IntoView {
    let ledger = Ledger::here();
    let rows = ledger.ask(move |state, _| {
        let risks = at_risk(state, lot).into_iter();
        let rows = risks.map(|risk| Row {
            label: lot_label(state.facts(), risk.lot),
            risk,
        });
        rows.collect::<Vec<_>>()
    });
    let over = Signal::derive(move || {
        ledger.follow(|state, _| {
            let label = lot_label(state.facts(), lot);
            let code = label.code.map(|code| code.to_string()).unwrap_or_default();
            format!("{} {code}", trade::name_plain(&label.name))
        })
    });
    let opened: RwSignal<Option<Row>> = RwSignal::new(None);
    let body = move || {
        let rows = rows.get();
        let gone = rows.iter().filter(|row| !row.risk.stocked).count();
        let here: Vec<Row> = rows.into_iter().filter(|row| row.risk.stocked).collect();
        if here.is_empty() && gone == 0 {
            return view! { <Lesson glyph=Glyph::Check title=words::NOBODY words=words::NOBODY_HINT /> }
                .into_any();
        }
        let near: Vec<LotId> = here
            .iter()
            .filter(|row| row.risk.rank == Rank::Near && row.risk.followed == Followed::Open)
            .map(|row| row.risk.lot)
            .collect();
        let ranks = [Rank::Near, Rank::Likely, Rank::Possible].map(|rank| {
            let of: Vec<Row> = here
                .iter()
                .filter(|row| row.risk.rank == rank)
                .cloned()
                .collect();
            let note = words::at_risk(of.len());
            let rows = of
                .iter()
                .take(SHOWN)
                .cloned()
                .map(|row| risk_row(row, opened))
                .collect_view();
            (!of.is_empty())
                .then(|| view! { <section><Slat name=words::rank(rank) note />{rows}</section> })
        });
        let all = Callback::new(move |()| follow(ledger, lot, near.clone(), TraceAnswer::Test));
        let any_near = here
            .iter()
            .any(|row| row.risk.rank == Rank::Near && row.risk.followed == Followed::Open);
        view! {
            <p class="edge soft">{words::ORDER}</p>
            {any_near.then(|| view! { <div class="form"><PlainAction label=words::MARK_ALL.to_owned() on_press=all busy=ledger.busy() /></div> })}
            {ranks}
            {(gone > 0).then(|| view! { <p class="edge soft">{words::gone(gone)}</p> })}
        }
        .into_any()
    };
    view! {
        <Screen
            title=words::AT_RISK
            over
            back=move || view! { <TopBack href=Route::Lot(lot).href() label=rooms::back_to(stock::LOT) /> }
            notice=notices
            rooms=|| room_bar(Route::Stock)
        >
            {body}
            <AnswerSheet lot opened />
        </Screen>
    }
}

fn follow(ledger: Ledger, source: LotId, lots: Vec<LotId>, answer: TraceAnswer) {
    let command = Command::FollowTrace {
        source,
        lots,
        answer,
    };
    ledger.act(Act::new(command, words::FOLLOWED));
}

fn risk_row(row: Row, opened: RwSignal<Option<Row>>) -> impl IntoView {
    let today = Ledger::here().today();
    let way: Vec<String> = row
        .risk
        .path
        .iter()
        .map(|step| words::step(&step.why))
        .collect();
    let when = format::near_day(row.risk.exposed_on, today);
    let followed = words::followed(&row.risk.followed, today);
    let label = row.label.clone();
    view! {
        <button type="button" class="pick" on:click=move |_| opened.set(Some(row.clone()))>
            <span class="stack way">
                <Stake name=trade::name_runs(&label.name) code=label.code.map(|code| code.to_string()).unwrap_or_default() />
                <span class="small">{way.join(" → ")}" · "{when}</span>
                {followed.map(|said| view! { <strong class="small">{said}</strong> })}
            </span>
        </button>
    }
}

/// What becomes of one lot.
#[component]
fn AnswerSheet(lot: LotId, opened: RwSignal<Option<Row>>) -> impl IntoView {
    let ledger = Ledger::here();
    let open = Signal::derive(move || opened.with(Option::is_some));
    let close = Callback::new(move |()| opened.set(None));
    let title = Signal::derive(move || {
        let name = opened.with(|row| row.as_ref().map(|row| trade::name_plain(&row.label.name)));
        name.unwrap_or_default()
    });
    let key = format!("trace-{lot}");
    let reason = ledger.draft_at::<String>(key.clone());
    let error = RwSignal::new(String::new());
    let typing = key.clone();
    let on_input = Callback::new(move |text: String| {
        error.set(String::new());
        ledger.keep_draft(&typing, &text);
    });
    let decide = move |answer: TraceAnswer| {
        if let Some(row) = opened.get_untracked() {
            opened.set(None);
            follow(ledger, lot, vec![row.risk.lot], answer);
        }
    };
    let clear = Callback::new(move |()| {
        let Some(row) = opened.get_untracked() else {
            return;
        };
        let command = Command::FollowTrace {
            source: lot,
            lots: vec![row.risk.lot],
            answer: TraceAnswer::Clear {
                why: reason.get_untracked(),
            },
        };
        let act = Act::new(command, words::FOLLOWED)
            .ends_draft(key.clone())
            .then(move |_| opened.set(None));
        ledger.act(act.otherwise(move |no| error.set(rejection::say(&no))));
    });
    let to_lot = move || {
        opened.get().map(|row| {
            let href = Route::Lot(row.risk.lot).href();
            view! { <a class="action" href=href>{stock::LOT}</a> }
        })
    };
    view! {
        <Sheet open on_close=close title close_label=told::close()>
            <div class="form">
                <PlainAction label=words::TEST_THEM.to_owned() on_press=Callback::new(move |()| decide(TraceAnswer::Test)) />
                <PlainAction label=words::LOOK_AT.to_owned() on_press=Callback::new(move |()| decide(TraceAnswer::Look)) />
                <Field label=words::CLEAR_WHY value=reason on_input error max_chars=4000 />
                <PlainAction label=words::CLEAR.to_owned() on_press=clear busy=ledger.busy() />
                {to_lot}
            </div>
        </Sheet>
    }
}
