//! A row of the Round opened: exceptions picked out, put off, not needed, how it looks.

use leptos::prelude::*;
use velamen_core::event::{Outcome, TaskAnswer};
use velamen_core::task::derive::treated_since;
use velamen_core::time::plus_days;
use velamen_core::view::round::{Row, RowState};

use super::answers::{answer_because, done_by_treating};
use super::apply::treat_these;
use super::lot_parts::one_of;
use super::round::title;
use crate::ledger::Ledger;
use crate::ui::{Glyph, PlainAction, Sheet, Stake};
use crate::words::round::Because;
use crate::words::{round as words, told, trade};

/// Reasons to put off, the first of them none.
fn reasons() -> Vec<(Option<Because>, String)> {
    let none = (None, words::NO_REASON.to_owned());
    let some = Because::ALL.map(|why| (Some(why), words::because(why).to_owned()));
    std::iter::once(none).chain(some).collect()
}

/// A row opened: exceptions picked out, put off, not needed, how it looks.
#[component]
pub(crate) fn RowSheet(opened: RwSignal<Option<Row>>) -> impl IntoView {
    let ledger = Ledger::here();
    let left_out: RwSignal<Vec<usize>> = RwSignal::new(Vec::new());
    let because: RwSignal<Option<Because>> = RwSignal::new(None);
    let close = Callback::new(move |()| {
        left_out.set(Vec::new());
        because.set(None);
        opened.set(None);
    });
    let decide_because = move |chosen: TaskAnswer, why: &str| {
        if let Some(mut row) = opened.get_untracked() {
            let out = left_out.get_untracked();
            let kept = (0..)
                .zip(std::mem::take(&mut row.tasks))
                .filter(|(at, _)| !out.contains(at));
            row.tasks = kept.map(|(_, task)| task).collect();
            if !row.tasks.is_empty() {
                let title = title(&row, ledger.moment().today);
                answer_because(ledger, row.tasks, &title, chosen, why);
            }
            close.run(());
        }
    };
    let decide = move |chosen: TaskAnswer| {
        // A reason is asked for where something is put off or not needed; what is done needs none.
        let why = because
            .get_untracked()
            .filter(|_| !matches!(chosen, TaskAnswer::Done { .. }));
        decide_because(chosen, why.map_or("", words::because));
    };
    let put_off = move |days: i64| {
        decide(TaskAnswer::PutOff {
            to: plus_days(ledger.moment().today, days),
        })
    };
    let is_open = Signal::derive(move || opened.with(Option::is_some));
    let heading = Signal::derive(move || {
        opened.with(|row| {
            row.as_ref()
                .map(|row| title(row, ledger.today()))
                .unwrap_or_default()
        })
    });
    let exceptions = move || {
        opened.get().filter(|row| row.lots.len() > 1).map(|row| {
        let keys = (0usize..).zip(row.lots).map(|(at, lot)| {
            let out = move || left_out.with(|out| out.contains(&at));
            let flip = move |_| left_out.update(|out| match out.iter().position(|kept| *kept == at) {
                Some(place) => { out.remove(place); }
                None => out.push(at),
            });
            view! {
                <button type="button" class="pick" aria-pressed=move || out().to_string() on:click=flip>
                    <Stake name=trade::name_runs(&lot.name) code=lot.code.map(|code| code.to_string()).unwrap_or_default()
                        count=trade::plants_in_pots(lot.plants, lot.stands) />
                </button>
            }
        }).collect_view();
        view! { <p class="edge">{words::EXCEPT_HINT}</p> {keys} }
    })
    };
    let main = move || {
        opened.get().map(|row| {
        if row.kind.def().asks_outcome {
            let well = Callback::new(move |()| decide(TaskAnswer::Done { outcome: Some(Outcome::Well) }));
            let more = Callback::new(move |()| decide(TaskAnswer::Done { outcome: Some(Outcome::NeedsMore) }));
            view! {
                <p>{words::outcome(row.kind).0}</p>
                <PlainAction label=words::outcome(row.kind).1.to_owned() on_press=more />
                <PlainAction label=words::outcome(row.kind).2.to_owned() on_press=well />
            }.into_any()
        } else if row.kind.def().treats {
            let treated = ledger.follow(|state, _| {
                row.tasks.iter().all(|task| treated_since(state.facts(), task))
            });
            let (label, why) = done_by_treating(treated);
            let lots = row.lots.iter().map(|lot| lot.lot).collect::<Vec<_>>();
            let treat = Callback::new(move |()| {
                let out = left_out.get_untracked();
                let kept = (0..).zip(&lots).filter(|(at, _)| !out.contains(at));
                let kept: Vec<_> = kept.map(|(_, lot)| *lot).collect();
                close.run(());
                treat_these(ledger, &kept);
            });
            let done = Callback::new(move |()| decide_because(TaskAnswer::Done { outcome: None }, why));
            view! {
                <PlainAction label=words::TREAT_THEM.to_owned() glyph=Glyph::Treat on_press=treat />
                <PlainAction label=label.to_owned() on_press=done />
            }.into_any()
        } else if matches!(row.state, RowState::Held { .. }) || row.kind.def().on_page {
            ().into_any()
        } else {
            let done = Callback::new(move |()| decide(TaskAnswer::Done { outcome: None }));
            view! { <PlainAction label=words::ALL_DONE.to_owned() glyph=Glyph::Check on_press=done /> }.into_any()
        }
    })
    };
    view! {
        <Sheet open=is_open on_close=close title=heading close_label=told::close()>
            {exceptions}
            <div class="form">
                {main}
                {one_of(words::BECAUSE, reasons(), because.into(), move |why| because.set(why))}
                <PlainAction label=words::put_off_days(1) on_press=Callback::new(move |()| put_off(1)) />
                <PlainAction label=words::put_off_days(7) on_press=Callback::new(move |()| put_off(7)) />
                <PlainAction label=words::NOT_NEEDED.to_owned() on_press=Callback::new(move |()| decide(TaskAnswer::NotNeeded)) />
            </div>
        </Sheet>
    }
}
