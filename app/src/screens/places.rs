//! Places on the walk: added by name, ordered, described.

use leptos::prelude::*;
use velamen_core::command::{Command, PlaceTraits};
use velamen_core::event::Cover;
use velamen_core::id::PlaceId;
use velamen_core::season::Warmth;
use velamen_core::view::{place_label, places};

use crate::frame::{notices, room_bar};
use crate::ledger::{Act, Ledger};
use crate::route::Route;
use crate::screens::shed::back_to_shed;
use crate::ui::{Choice, Choices, ChoicesLook, Field, MainAction, PlainAction, Screen, TopBack};
use crate::words::{rejection, rooms, shed as words, told};

/// The list, and a new one.
#[component]
pub fn Places() -> impl IntoView {
    let ledger = Ledger::here();
    let shown = ledger.ask(|state, _| places(state.facts()));
    let name = RwSignal::new(String::new());
    let error = RwSignal::new(String::new());
    let add = Callback::new(move |()| {
        let name_typed = Some(name.get_untracked());
        let command = Command::SetPlace {
            place: None,
            name: name_typed,
            walk: None,
            about: PlaceTraits::default(),
        };
        let act = Act::new(command, told::done(words::PLACE_ADDED));
        ledger.act(
            act.then(move |_| name.set(String::new()))
                .otherwise(move |no| error.set(rejection::say(&no))),
        );
    });
    let rows = move || {
        let rows = shown.get().into_iter();
        rows.map(|row| view! { <a class="entry" href=Route::Place(row.place).href()><bdi>{row.name}</bdi></a> }).collect_view()
    };
    let actions = move || view! { <MainAction label=words::ADD_PLACE.to_owned() on_press=add busy=ledger.busy() /> };
    view! {
        <Screen title=words::PLACES back=back_to_shed actions notice=notices rooms=|| room_bar(Route::Book)>
            <div class="form">
                <p>{words::PLACES_HINT}</p>
                <Field
                    label=words::PLACE_NAME
                    value=name
                    on_input=Callback::new(move |text| { error.set(String::new()); name.set(text) })
                    error
                    max_chars=200
                />
            </div>
            {rows}
        </Screen>
    }
}

/// One place.
#[component]
pub fn Place(place: PlaceId) -> impl IntoView {
    let ledger = Ledger::here();
    let shown = ledger.ask(move |state, _| {
        let facts = state.facts().places.get(&place)?;
        let label = place_label(state.facts(), place)?;
        Some((label, facts.warmth.get().copied(), facts.cover.or_default()))
    });
    let name = RwSignal::new(
        ledger
            .look(|state, _| place_label(state.facts(), place).map(|label| label.name))
            .unwrap_or_default(),
    );
    let error = RwSignal::new(String::new());
    let set = move |name: Option<String>, walk: Option<u32>, about: PlaceTraits| {
        let command = Command::SetPlace {
            place: Some(place),
            name,
            walk,
            about,
        };
        ledger.act(
            Act::new(command, words::CHANGED).otherwise(move |no| error.set(rejection::say(&no))),
        );
    };
    let rename =
        Callback::new(move |()| set(Some(name.get_untracked()), None, PlaceTraits::default()));
    let step = move |earlier: bool| {
        Callback::new(move |()| {
            if let Some(walk) = ledger
                .look(|state, _| velamen_core::view::walk_beside(state.facts(), place, earlier))
            {
                set(None, Some(walk), PlaceTraits::default());
            }
        })
    };
    let warmths = [
        ("cool", Warmth::Cool),
        ("intermediate", Warmth::Intermediate),
        ("warm", Warmth::Warm),
    ];
    let choices = warmths.map(|(key, warmth)| Choice {
        key: key.to_owned(),
        label: words::warmth(warmth).to_owned(),
        hint: None,
    });
    let chosen = Signal::derive(move || {
        let warmth = shown.get().and_then(|(_, warmth, _)| warmth);
        warmths
            .iter()
            .find(|(_, known)| Some(*known) == warmth)
            .map(|(key, _)| (*key).to_owned())
            .unwrap_or_default()
    });
    let choose = Callback::new(move |key: String| {
        let warmth = warmths
            .iter()
            .find(|(known, _)| *known == key)
            .map(|(_, warmth)| *warmth);
        set(
            None,
            None,
            PlaceTraits {
                warmth,
                ..PlaceTraits::default()
            },
        );
    });
    let covers =
        [("roofed", words::ROOFED), ("open", words::OPEN_TO_RAIN)].map(|(key, label)| Choice {
            key: key.to_owned(),
            label: label.to_owned(),
            hint: None,
        });
    let cover = Signal::derive(move || {
        let open = shown
            .get()
            .is_some_and(|(_, _, cover)| cover == Cover::OpenToRain);
        if open {
            "open".to_owned()
        } else {
            "roofed".to_owned()
        }
    });
    let choose_cover = Callback::new(move |key: String| {
        let cover = Some(if key == "open" {
            Cover::OpenToRain
        } else {
            Cover::Roofed
        });
        set(
            None,
            None,
            PlaceTraits {
                cover,
                ..PlaceTraits::default()
            },
        );
    });
    let retire = Callback::new(move |()| {
        set(
            None,
            None,
            PlaceTraits {
                retired: Some(true),
                ..PlaceTraits::default()
            },
        );
        Route::Places.replace();
    });
    let title = Signal::derive(move || {
        shown
            .get()
            .map(|(label, ..)| label.name)
            .unwrap_or_default()
    });
    view! {
        <Screen
            title
            back=|| view! { <TopBack href=Route::Places.href() label=rooms::back_to(words::PLACES) /> }
            notice=notices
            rooms=|| room_bar(Route::Book)
        >
            <div class="form">
                <Field
                    label=words::PLACE_NAME
                    value=name
                    on_input=Callback::new(move |text| { error.set(String::new()); name.set(text) })
                    error
                    max_chars=200
                />
                <PlainAction label=words::RENAME.to_owned() on_press=rename busy=ledger.busy() />
                <div class="pair">
                    <PlainAction label=words::EARLIER.to_owned() on_press=step(true) busy=ledger.busy() />
                    <PlainAction label=words::LATER.to_owned() on_press=step(false) busy=ledger.busy() />
                </div>
                <Choices legend=words::WARMTH choices=choices.to_vec() chosen on_choose=choose look=ChoicesLook::Chips />
                <Choices legend=words::COVER choices=covers.to_vec() chosen=cover on_choose=choose_cover look=ChoicesLook::Chips />
                <PlainAction label=words::RETIRE.to_owned() on_press=retire busy=ledger.busy() />
            </div>
        </Screen>
    }
}
