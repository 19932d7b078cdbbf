//! Mixes by name and how long they hold.

use leptos::prelude::*;
use velamen_core::command::Command;
use velamen_core::view::shed;

use crate::frame::{notices, room_bar};
use crate::ledger::{Act, Ledger};
use crate::route::Route;
use crate::screens::shed::back_to_shed;
use crate::ui::{Field, MainAction, Screen, Stepper};
use crate::words::{rejection, repot, shed as words, told};

/// The screen.
#[component]
pub fn Mixes() -> impl IntoView {
    let ledger = Ledger::here();
    let shown = ledger.ask(|state, _| shed::mixes(state));
    let name = RwSignal::new(String::new());
    let months = RwSignal::new(24_i64);
    let error = RwSignal::new(String::new());
    let add = Callback::new(move |()| {
        let life_months = u16::try_from(months.get_untracked()).ok();
        let name_typed = Some(name.get_untracked());
        let command = Command::SetMix {
            mix: None,
            name: name_typed,
            shares: None,
            life_months,
            retired: None,
        };
        let act = Act::new(command, told::done(words::MIX_ADDED));
        ledger.act(
            act.then(move |_| name.set(String::new()))
                .otherwise(move |no| error.set(rejection::say(&no))),
        );
    });
    let rows = move || {
        let rows = shown.get().into_iter();
        rows.map(|row| {
            let life = row
                .life_months
                .map(|months| format!("{}: {months}", words::MIX_LIFE));
            view! { <p class="entry"><bdi>{row.name}</bdi><span class="soft">{life}</span></p> }
        })
        .collect_view()
    };
    let actions = move || view! { <MainAction label=words::ADD_MIX.to_owned() on_press=add busy=ledger.busy() /> };
    view! {
        <Screen title=words::MIXES back=back_to_shed actions notice=notices rooms=|| room_bar(Route::Book)>
            <div class="form">
                <Field
                    label=words::MIX_NAME
                    value=name
                    on_input=Callback::new(move |text| { error.set(String::new()); name.set(text) })
                    error
                    max_chars=200
                />
            </div>
            <Stepper
                label=words::MIX_LIFE
                count=months
                on_count=Callback::new(move |count| months.set(count))
                less_label=repot::one_less(words::MIX_LIFE)
                more_label=repot::one_more(words::MIX_LIFE)
                min=1
                max=120
            />
            {rows}
        </Screen>
    }
}
