//! Places on the walk: in the order they are walked, and a new one at its end.

use leptos::prelude::*;
use serde::{Deserialize, Serialize};
use velamen_core::command::{Command, PlaceTraits};
use velamen_core::view::places;

use crate::frame::{notices, room_bar};
use crate::ledger::{Act, Ledger};
use crate::route::Route;
use crate::screens::shed::back_to_shed;
use crate::ui::{Field, MainAction, Screen};
use crate::words::{rejection, shed as words, told};

const DRAFT: &str = "new_place";

#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
struct PlaceName {
    #[serde(default)]
    name: String,
}

/// The list, and a new one.
#[component]
pub fn Places() -> impl IntoView {
    let ledger = Ledger::here();
    let shown = ledger.ask(|state, _| places(state.facts()));
    let draft = ledger.draft::<PlaceName>(DRAFT);
    let error = RwSignal::new(String::new());
    let add = Callback::new(move |()| {
        let command = Command::SetPlace {
            place: None,
            name: Some(draft.get_untracked().name),
            walk: None,
            about: PlaceTraits::default(),
        };
        let act = Act::new(command, told::done(words::PLACE_ADDED)).ends_draft(DRAFT);
        ledger.act(act.otherwise(move |no| error.set(rejection::say(&no))));
    });
    let rows = move || {
        let rows = shown.get().into_iter();
        rows.map(|row| view! { <a class="entry" href=Route::Place(row.place).href()><bdi>{row.name}</bdi></a> })
            .collect_view()
    };
    let actions = move || view! { <MainAction label=words::ADD_PLACE.to_owned() on_press=add busy=ledger.busy() /> };
    view! {
        <Screen title=words::PLACES back=back_to_shed actions notice=notices rooms=|| room_bar(Route::Book)>
            <div class="form">
                <p>{words::PLACES_HINT}</p>
                <Field
                    label=words::PLACE_NAME
                    value=Signal::derive(move || draft.get().name)
                    on_input=Callback::new(move |name: String| {
                        error.set(String::new());
                        ledger.keep_draft(DRAFT, &PlaceName { name });
                    })
                    error
                    max_chars=200
                />
            </div>
            {rows}
        </Screen>
    }
}
