//! A task of the grower's own.

use leptos::prelude::*;
use serde::{Deserialize, Serialize};
use velamen_core::command::Command;
use velamen_core::time::plus_days;

use crate::frame::{notices, room_bar};
use crate::ledger::{Act, Ledger};
use crate::route::Route;
use crate::ui::{Choice, Choices, ChoicesLook, Field, MainAction, Screen, TopBack};
use crate::words::{rejection, rooms, shed as words, told};

const DRAFT: &str = "new_task";

/// What was typed so far; the day as days from today.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
struct TaskDraft {
    #[serde(default)]
    text: String,
    #[serde(default)]
    in_days: i64,
}

/// The screen.
#[component]
pub fn NewTask() -> impl IntoView {
    let ledger = Ledger::here();
    let draft = ledger.draft::<TaskDraft>(DRAFT);
    let error = RwSignal::new(String::new());
    let add = Callback::new(move |()| {
        let typed = draft.get_untracked();
        let due_on = plus_days(ledger.moment().today, typed.in_days);
        let command = Command::NoteTask {
            task: None,
            text: typed.text,
            due_on,
            repeat_days: None,
            lot: None,
            place: None,
        };
        let act = Act::new(command, told::done(words::TASK_ADDED)).ends_draft(DRAFT);
        ledger.act(
            act.then(|_| Route::Round.replace())
                .otherwise(move |no| error.set(rejection::say(&no))),
        );
    });
    let days = [
        ("0", words::TODAY),
        ("1", words::TOMORROW),
        ("7", words::IN_A_WEEK),
        ("30", words::IN_A_MONTH),
    ]
    .map(|(key, label)| Choice {
        key: key.to_owned(),
        label: label.to_owned(),
        hint: None,
    });
    let actions = move || view! { <MainAction label=words::ADD_TASK.to_owned() on_press=add busy=ledger.busy() /> };
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
                    on_input=Callback::new(move |text: String| {
                        error.set(String::new());
                        ledger.change_draft(DRAFT, move |draft: &mut TaskDraft| draft.text = text);
                    })
                    error
                    max_chars=200
                />
                <Choices
                    legend=words::TASK_DAY
                    choices=days.to_vec()
                    chosen=Signal::derive(move || draft.get().in_days.to_string())
                    on_choose=Callback::new(move |key: String| {
                        ledger.change_draft(DRAFT, move |draft: &mut TaskDraft| draft.in_days = key.parse().unwrap_or(0));
                    })
                    look=ChoicesLook::Chips
                />
            </div>
        </Screen>
    }
}
