//! Where a place lies, for records that ask for it: degrees as a map gives them.

use leptos::prelude::*;
use velamen_core::command::{Command, PlaceTraits};
use velamen_core::event::Coordinates;
use velamen_core::id::PlaceId;

use crate::ledger::{Act, Ledger};
use crate::ui::{Field, PlainAction};
use crate::words::{place_at as words, rejection, shed};

/// The box, and the key that keeps it once something else is typed.
#[component]
pub fn PlaceAt(place: PlaceId) -> impl IntoView {
    let ledger = Ledger::here();
    let key = format!("place_at-{place}");
    let known = ledger.ask(move |state, _| {
        let known = state.facts().places.get(&place);
        let at = known.and_then(|known| known.coordinates.get().copied());
        at.map(|at| at.to_string()).unwrap_or_default()
    });
    let draft = ledger.draft_at::<Option<String>>(key.clone());
    let shown = Signal::derive(move || draft.get().unwrap_or_else(|| known.get()));
    let error = RwSignal::new(String::new());
    let typing = key.clone();
    let on_input = Callback::new(move |typed: String| {
        error.set(String::new());
        ledger.keep_draft(&typing, &Some(typed));
    });
    let keep = Callback::new(move |()| {
        let Some(at) = Coordinates::parse(&shown.get_untracked()) else {
            error.set(words::NOT_DEGREES.to_owned());
            return;
        };
        let command = Command::SetPlace {
            place: Some(place),
            name: None,
            walk: None,
            about: PlaceTraits {
                coordinates: Some(at),
                ..PlaceTraits::default()
            },
        };
        let act = Act::new(command, shed::CHANGED).ends_draft(key.clone());
        ledger.act(act.otherwise(move |no| error.set(rejection::say(&no))));
    });
    view! {
        <Field label=words::WHERE hint=words::WHERE_HINT value=shown on_input error max_chars=60 />
        {move || draft.get().is_some().then(|| view! {
            <PlainAction label=shed::KEEP_CHANGE.to_owned() on_press=keep busy=ledger.busy() />
        })}
    }
}
