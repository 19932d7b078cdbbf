//! Pots as measured.

use leptos::prelude::*;
use velamen_core::command::Command;
use velamen_core::potting::Pot;
use velamen_core::quantity::{Length, parse_length};
use velamen_core::view::shed;

use crate::frame::{notices, room_bar};
use crate::ledger::{Act, Ledger};
use crate::route::Route;
use crate::screens::shed::back_to_shed;
use crate::ui::{Field, MainAction, Screen};
use crate::words::{format, rejection, shed as words, told};

/// The screen.
#[component]
pub fn Pots() -> impl IntoView {
    let ledger = Ledger::here();
    let shown = ledger.ask(|state, _| shed::pots(state));
    let texts = [(); 4].map(|()| RwSignal::new(String::new()));
    let errors = [(); 4].map(|()| RwSignal::new(String::new()));
    let [name, top, base, height] = texts;
    let [name_error, top_error, base_error, height_error] = errors;
    let length = move |typed: RwSignal<String>, error: RwSignal<String>| match parse_length(
        &typed.get_untracked(),
    ) {
        Ok((length, _)) => Some(length),
        Err(fault) => {
            error.set(rejection::quantity(&fault));
            None
        }
    };
    let add = Callback::new(move |()| {
        let measures = (
            length(top, top_error),
            length(base, base_error),
            length(height, height_error),
        );
        if let (Some(top), Some(base), Some(height)) = measures {
            let form = Some(Pot::Round { top, base, height });
            let command = Command::SetPot {
                pot: None,
                name: Some(name.get_untracked()),
                form,
                retired: None,
            };
            let act = Act::new(command, told::done(words::POT_ADDED));
            ledger.act(
                act.then(move |_| texts.into_iter().for_each(|text| text.set(String::new())))
                    .otherwise(move |no| name_error.set(rejection::say(&no))),
            );
        }
    });
    let field = |label: &'static str, text: RwSignal<String>, error: RwSignal<String>| {
        let typed = Callback::new(move |typed| {
            error.set(String::new());
            text.set(typed);
        });
        view! { <Field label value=text on_input=typed error max_chars=200 /> }
    };
    let rows = move || {
        let rows = shown.get().into_iter();
        rows.map(|row| view! { <p class="entry"><bdi>{row.name}</bdi><span class="soft">{row.form.map(measures)}</span></p> })
            .collect_view()
    };
    let actions = move || view! { <MainAction label=words::ADD_POT.to_owned() on_press=add busy=ledger.busy() /> };
    view! {
        <Screen title=words::POTS back=back_to_shed actions notice=notices rooms=|| room_bar(Route::Book)>
            <div class="form">
                {field(words::POT_NAME, name, name_error)}
                <p>{words::INSIDE}</p>
                {field(words::TOP, top, top_error)}
                {field(words::BASE, base, base_error)}
                {field(words::HEIGHT, height, height_error)}
            </div>
            {rows}
        </Screen>
    }
}

fn measures(pot: Pot) -> String {
    let mm = |length: Length| format::millimetres(length.um());
    let litres = pot.brimful().map(format::litres).unwrap_or_default();
    match pot {
        Pot::Round { top, base, height } | Pot::Square { top, base, height } => {
            format!("{} / {} / {} · {litres}", mm(top), mm(base), mm(height))
        }
        Pot::Holds { .. } => litres,
    }
}
