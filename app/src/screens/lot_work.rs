//! What is due for a lot, answered here, and what was done to it.

use chrono::NaiveDate;
use leptos::prelude::*;
use velamen_core::event::{Event, Outcome, TaskAnswer};
use velamen_core::id::EntryRef;
use velamen_core::state::State;
use velamen_core::task::derive::{Task, treated_since};
use velamen_core::time::plus_days;
use velamen_core::view::lot::LotView;
use velamen_core::view::round::RowState;

use crate::ledger::Ledger;
use crate::route::Route;
use crate::screens::answers::{answer, answer_because, done_by_treating, glyph};
use crate::screens::apply::treat_these;
use crate::screens::names::sentence;
use crate::screens::photos::Photos;
use crate::ui::{PlainAction, Sheet, Slat, WorkRow, WorkState};
use crate::words::{format, round, stock as words, task, told};

/// One piece of open work.
#[derive(Clone, Debug, PartialEq)]
pub struct Work {
    task: Task,
    state: Option<RowState>,
    /// The grower's own words.
    text: Option<String>,
}

/// One line of what was done.
#[derive(Clone, Debug, PartialEq)]
pub struct Line {
    entry: EntryRef,
    on: NaiveDate,
    words: Vec<String>,
    photos: Vec<String>,
    withdrawn: bool,
}

/// The open work of a lot, with the grower's own words where it is theirs.
pub fn work(state: &State, view: &LotView) -> Vec<Work> {
    let notes = &state.facts().note_tasks;
    let text = |task: &Task| Some(notes.get(&task.note_task?)?.noted.as_ref()?.1.text.clone());
    view.tasks
        .iter()
        .map(|(task, stands)| Work {
            text: text(task),
            state: *stands,
            task: task.clone(),
        })
        .collect()
}

/// What was done, in words. Of an entry about several lots only what is about this one.
pub fn history(state: &State, view: &LotView) -> Vec<Line> {
    let here = velamen_core::id::Subject::Lot(view.label.lot);
    view.history
        .iter()
        .map(|row| {
            let about = |event: &&Event| event.subjects().contains(&here);
            let mut events: Vec<&Event> = row.events.iter().filter(about).collect();
            if events.is_empty() {
                events = row.events.iter().collect();
            }
            let photos = events.iter().flat_map(|event| event.photos());
            let photos = photos.map(str::to_owned).collect();
            let mut said: Vec<String> = events
                .into_iter()
                .map(|event| sentence(state, event))
                .collect();
            if row.locked.is_some() {
                said.push(words::NEWER.to_owned());
            }
            Line {
                entry: row.entry,
                on: row.on,
                words: said,
                photos,
                withdrawn: row.withdrawn.is_some(),
            }
        })
        .collect()
}

/// The section of open work.
#[component]
pub fn OpenWork(work: Vec<Work>) -> impl IntoView {
    let ledger = Ledger::here();
    let opened: RwSignal<Option<Work>> = RwSignal::new(None);
    let none = work
        .is_empty()
        .then(|| view! { <p class="edge">{words::NO_WORK}</p> });
    let rows = work
        .into_iter()
        .map(|work| work_row(ledger, work, opened))
        .collect_view();
    view! {
        <section>
            <Slat name=words::WORK note="" />
            {none}
            {rows}
            <AnswerSheet opened />
        </section>
    }
}

fn title(work: &Work, today: NaiveDate) -> String {
    match (work.state, &work.text) {
        (_, Some(text)) => text.clone(),
        (Some(RowState::Held { until }), None) => {
            task::held(work.task.kind, &format::near_day(until, today))
        }
        (_, None) => task::kind(work.task.kind).to_owned(),
    }
}

fn work_row(ledger: Ledger, work: Work, opened: RwSignal<Option<Work>>) -> impl IntoView {
    let today = ledger.today();
    let days = |days: i64| u32::try_from(days).unwrap_or(0);
    let (state, state_words) = match work.state {
        Some(RowState::Late { days: late }) => (WorkState::Late { days: days(late) }, work.state),
        Some(RowState::Due) => (WorkState::Due, work.state),
        Some(RowState::MayStart { days: ahead } | RowState::Coming { days: ahead }) => {
            (WorkState::Coming { days: days(ahead) }, work.state)
        }
        Some(RowState::Held { .. }) => (WorkState::Held, work.state),
        None => {
            let ahead = velamen_core::time::days_between(today, work.task.due_on);
            (
                WorkState::Coming { days: days(ahead) },
                Some(RowState::Coming { days: ahead }),
            )
        }
    };
    let unit = match state {
        WorkState::Late { days: 1 } | WorkState::Coming { days: 1 } => round::DAY,
        _ => round::DAYS,
    };
    let what = title(&work, today);
    let why = match (work.task.trigger, work.state) {
        (Some(trigger), Some(_)) => {
            task::since(trigger, &format::days_ago(work.task.anchor_on, today))
        }
        _ => format::near_day(work.task.due_on, today),
    };
    let def = work.task.kind.def();
    let recorded_by_doing = def.at_bench || def.on_page;
    let can_do = work
        .state
        .is_some_and(|stands| !matches!(stands, RowState::Held { .. }));
    let done = work.clone();
    let on_done = Callback::new(move |()| {
        if done.task.kind.def().asks_outcome || done.task.kind.def().treats {
            opened.set(Some(done.clone()));
        } else {
            let title = title(&done, ledger.moment().today);
            answer(
                ledger,
                vec![done.task.clone()],
                &title,
                TaskAnswer::Done { outcome: None },
            );
        }
    });
    let other = work.clone();
    let state_words = state_words.map(round::state).unwrap_or_default();
    let glyph = glyph(work.task.kind);
    let treat = def.treats.then(|| {
        let lot = work.task.lot;
        let press = Callback::new(move |()| treat_these(ledger, lot.as_slice()));
        view! { <PlainAction label=round::TREAT_THEM.to_owned() on_press=press /> }
    });
    let body = view! {
        {treat}
        <button type="button" class="quiet" on:click=move |_| opened.set(Some(other.clone()))>{words::OTHER_ANSWER}</button>
    };
    if can_do && !recorded_by_doing {
        let done_label = format!("{}: {what}", words::DONE_KEY);
        view! { <WorkRow state state_words unit glyph what why on_done done_label busy=ledger.busy()>{body}</WorkRow> }
            .into_any()
    } else {
        view! { <WorkRow state state_words unit glyph what why>{body}</WorkRow> }.into_any()
    }
}

/// Other answers than done.
#[component]
fn AnswerSheet(opened: RwSignal<Option<Work>>) -> impl IntoView {
    let ledger = Ledger::here();
    let open = Memo::new(move |_| opened.with(Option::is_some));
    let heading = Signal::derive(move || {
        opened.with(|work| {
            work.as_ref()
                .map(|work| title(work, ledger.today()))
                .unwrap_or_default()
        })
    });
    let close = Callback::new(move |()| opened.set(None));
    let decide = move |chosen: TaskAnswer| {
        if let Some(work) = opened.get_untracked() {
            opened.set(None);
            let title = title(&work, ledger.moment().today);
            answer(ledger, vec![work.task], &title, chosen);
        }
    };
    let by_treating = move || {
        let work = opened.get().filter(|work| work.task.kind.def().treats)?;
        let treated = ledger.follow(|state, _| treated_since(state.facts(), &work.task));
        let (label, why) = done_by_treating(treated);
        let press = Callback::new(move |()| {
            opened.set(None);
            let title = title(&work, ledger.moment().today);
            let done = TaskAnswer::Done { outcome: None };
            answer_because(ledger, vec![work.task.clone()], &title, done, why);
        });
        Some(view! { <PlainAction label=label.to_owned() on_press=press /> })
    };
    let key = move |label: String, chosen: TaskAnswer| {
        view! { <PlainAction label on_press=Callback::new(move |()| decide(chosen)) /> }
    };
    let put_off = move |days: i64| {
        let to = plus_days(ledger.moment().today, days);
        key(round::put_off_days(days), TaskAnswer::PutOff { to })
    };
    let outcome = move || {
        let asks = opened.with(|work| {
            let kind = work.as_ref()?.task.kind;
            kind.def().asks_outcome.then_some(kind)
        });
        asks.map(|kind| {
            let (question, more, well) = round::outcome(kind);
            let done = |outcome| TaskAnswer::Done {
                outcome: Some(outcome),
            };
            view! {
                <p>{question}</p>
                {key(more.to_owned(), done(Outcome::NeedsMore))}
                {key(well.to_owned(), done(Outcome::Well))}
            }
        })
    };
    view! {
        <Sheet open on_close=close title=heading close_label=told::close()>
            <div class="form">
                {outcome}
                {by_treating}
                {put_off(1)}
                {put_off(7)}
                {key(round::NOT_NEEDED.to_owned(), TaskAnswer::NotNeeded)}
            </div>
        </Sheet>
    }
}

/// The section of what was done, newest first; each line leads to its entry.
#[component]
pub fn History(lines: Vec<Line>) -> impl IntoView {
    let today = Ledger::here().today();
    let rows = lines
        .into_iter()
        .map(|line| {
            let said = line.words.into_iter().map(|said| view! { <span>{said}</span> }).collect_view();
            view! {
                <a class="lot-row" class:withdrawn=line.withdrawn href=Route::Entry(line.entry).href()>
                    <span class="small soft">
                        {format::days_ago(line.on, today)}
                        {line.withdrawn.then(|| format!(" · {}", words::UNDONE))}
                    </span>
                    {said}
                </a>
                <Photos photos=line.photos />
            }
        })
        .collect_view();
    view! {
        <section>
            <Slat name=words::HISTORY note="" />
            {rows}
        </section>
    }
}
