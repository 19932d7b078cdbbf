//! A task of the grower's own: what, when, how often, where.

use chrono::NaiveDate;
use leptos::prelude::*;
use serde::{Deserialize, Serialize};
use velamen_core::command::Command;
use velamen_core::id::{LotId, PlaceId};
use velamen_core::rejection::Rejection;
use velamen_core::time::plus_days;
use velamen_core::view::places;
use velamen_core::view::stock::stock;

use super::lot_parts::{nothing_called, one_of};
use crate::frame::{notices, room_bar};
use crate::ledger::{Act, Ledger};
use crate::route::Route;
use crate::screens::names::lot;
use crate::ui::{DayField, Field, MainAction, Screen, TopBack};
use crate::words::{rejection, rooms, shed as words, told};

const DRAFT: &str = "new_task";
/// Lots offered while one is looked for.
const OFFERED: usize = 5;

/// What was typed so far; the day as days from today, or as a day of its own.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
struct TaskDraft {
    #[serde(default)]
    text: String,
    #[serde(default)]
    in_days: i64,
    #[serde(default)]
    on_day: bool,
    #[serde(default)]
    on: Option<NaiveDate>,
    #[serde(default)]
    every_days: Option<u32>,
    #[serde(default)]
    place: Option<PlaceId>,
    #[serde(default)]
    search: String,
    #[serde(default)]
    lot: Option<LotId>,
}

impl TaskDraft {
    fn due_on(&self, today: NaiveDate) -> NaiveDate {
        self.on
            .filter(|_| self.on_day)
            .unwrap_or_else(|| plus_days(today, self.in_days))
    }

    fn command(self, today: NaiveDate) -> Command {
        Command::NoteTask {
            task: None,
            due_on: self.due_on(today),
            text: self.text,
            repeat_days: self.every_days,
            lot: self.lot,
            place: self.place.filter(|_| self.lot.is_none()),
        }
    }
}

/// The screen.
#[component]
pub fn NewTask() -> impl IntoView {
    let ledger = Ledger::here();
    let draft = ledger.draft::<TaskDraft>(DRAFT);
    let (error, wrong_day) = (RwSignal::new(String::new()), RwSignal::new(String::new()));
    // A day that is past is asked about once, and taken at the next tap.
    let asked = RwSignal::new(false);
    let change = move |how: Box<dyn FnOnce(&mut TaskDraft)>| {
        error.set(String::new());
        wrong_day.set(String::new());
        asked.set(false);
        ledger.change_draft(DRAFT, how);
    };
    let add = Callback::new(move |()| {
        let (draft, today) = (draft.get_untracked(), ledger.moment().today);
        wrong_day.set(String::new());
        if draft.due_on(today) < today && !asked.get_untracked() {
            asked.set(true);
            wrong_day.set(words::TASK_PAST.to_owned());
            return;
        }
        let act = Act::new(draft.command(today), told::done(words::TASK_ADDED)).ends_draft(DRAFT);
        ledger.act(
            act.then(|_| Route::Round.replace())
                .otherwise(move |no| match no {
                    Rejection::DayOutOfRange { .. } => wrong_day.set(rejection::say(&no)),
                    _ => error.set(rejection::say(&no)),
                }),
        );
    });
    let add_label = Signal::derive(move || match asked.get() {
        true => words::TASK_ANYWAY.to_owned(),
        false => words::ADD_TASK.to_owned(),
    });
    let days = vec![
        ((false, 0), words::TODAY.to_owned()),
        ((false, 1), words::TOMORROW.to_owned()),
        ((false, 7), words::IN_A_WEEK.to_owned()),
        ((false, 30), words::IN_A_MONTH.to_owned()),
        ((true, 0), words::TASK_ON.to_owned()),
    ];
    let day = Signal::derive(move || {
        draft.with(|draft| (draft.on_day, if draft.on_day { 0 } else { draft.in_days }))
    });
    let on_day = Memo::new(move |_| draft.with(|draft| draft.on_day));
    let own_day = move || {
        on_day.get().then(|| view! {
            <DayField
                label=words::TASK_ON
                value=Signal::derive(move || draft.with(|draft| draft.on.map(|on| on.to_string()).unwrap_or_default()))
                on_day=Callback::new(move |day: String| change(Box::new(move |draft| draft.on = day.parse().ok())))
                error=wrong_day
            />
        })
    };
    let repeats = vec![
        (None, words::TASK_ONCE.to_owned()),
        (Some(7), words::TASK_WEEKLY.to_owned()),
        (Some(14), words::TASK_FORTNIGHTLY.to_owned()),
        (Some(30), words::TASK_MONTHLY.to_owned()),
    ];
    let every = Signal::derive(move || draft.with(|draft| draft.every_days));
    let actions = move || view! { <MainAction label=add_label on_press=add busy=ledger.busy() /> };
    view! {
        <Screen
            title=words::TASK
            back=|| view! { <TopBack href=Route::Round.href() label=rooms::back_to(rooms::ROUND) /> }
            actions
            notice=notices
            rooms=|| room_bar(Route::Round)
        >
            <div class="form">
                <Field
                    label=words::TASK_TEXT
                    value=Signal::derive(move || draft.get().text)
                    on_input=Callback::new(move |text| change(Box::new(move |draft| draft.text = text)))
                    error
                    max_chars=200
                />
                {one_of(words::TASK_DAY, days, day, move |(on_day, in_days)| change(Box::new(move |draft| {
                    draft.on_day = on_day;
                    draft.in_days = in_days;
                })))}
                {own_day}
                {one_of(words::TASK_REPEAT, repeats, every, move |every| change(Box::new(move |draft| draft.every_days = every)))}
                <Where draft />
            </div>
        </Screen>
    }
}

#[component]
fn Where(draft: Memo<TaskDraft>) -> impl IntoView {
    let ledger = Ledger::here();
    let change = move |how: Box<dyn FnOnce(&mut TaskDraft)>| ledger.change_draft(DRAFT, how);
    let known = ledger.ask(|state, _| places(state.facts()));
    let place = Signal::derive(move || draft.with(|draft| draft.place));
    let wheres = move || {
        let known = known.get().into_iter();
        let known = known.map(|place| (Some(place.place), place.name));
        let options = [(None, words::TASK_NOWHERE.to_owned())]
            .into_iter()
            .chain(known);
        one_of(words::TASK_WHERE, options.collect(), place, move |place| {
            change(Box::new(move |draft| draft.place = place));
        })
    };
    let search = Memo::new(move |_| draft.with(|draft| draft.search.clone()));
    let chosen = Memo::new(move |_| draft.with(|draft| draft.lot));
    let offered = Memo::new(move |_| {
        let (typed, chosen) = (search.get(), chosen.get());
        ledger.follow(|state, _| {
            let looked = !typed.trim().is_empty();
            let found = if looked {
                stock(state, &typed, OFFERED).rows
            } else {
                Vec::new()
            };
            let nothing = looked && found.is_empty();
            let found = found.into_iter().map(|row| row.label.lot);
            let mut lots: Vec<LotId> = chosen.into_iter().chain(found).collect();
            lots.dedup();
            let lots = lots.into_iter().map(|id| (id, lot(state, id)));
            (lots.collect::<Vec<_>>(), nothing)
        })
    });
    let lots = move || {
        let offered = offered.get().0.into_iter();
        offered
            .map(|(id, name)| {
                let pressed = move || (chosen.get() == Some(id)).to_string();
                let flip = move |_| change(Box::new(move |draft| {
                    draft.lot = if draft.lot == Some(id) { None } else { Some(id) };
                }));
                view! { <button type="button" class="choose" aria-pressed=pressed on:click=flip>{name}</button> }
            })
            .collect_view()
    };
    view! {
        <Field
            label=words::TASK_LOT
            hint=words::TASK_LOT_HINT
            value=search
            on_input=Callback::new(move |search| change(Box::new(move |draft| draft.search = search)))
            max_chars=200
        />
        {nothing_called(Signal::derive(move || offered.with(|(_, nothing)| *nothing)))}
        <div>{lots}</div>
        {move || chosen.get().is_none().then(wheres)}
    }
}
