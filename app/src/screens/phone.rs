//! This phone: light or dark, the hand, the size of the keys. Not part of the book.

use leptos::prelude::*;

use crate::frame::{notices, room_bar};
use crate::ledger::{Hand, Ledger, Preferences, Theme};
use crate::route::Route;
use crate::screens::shed::back_to_shed;
use crate::ui::{Choice, Choices, ChoicesLook, Screen, Toggle};
use crate::words::shed as words;

fn chips(rows: &[(&str, &str)]) -> Vec<Choice> {
    rows.iter()
        .map(|(key, label)| Choice {
            key: (*key).to_owned(),
            label: (*label).to_owned(),
            hint: None,
        })
        .collect()
}

/// The screen.
#[component]
pub fn Phone() -> impl IntoView {
    let ledger = Ledger::here();
    let liked = RwSignal::new(ledger.preferences());
    let change = move |how: &dyn Fn(&mut Preferences)| {
        liked.update(|liked| how(liked));
        ledger.set_preferences(&liked.get_untracked());
    };
    let prefix = ledger.ask(|state, at| {
        let phone = state.facts().phones.get(&at.dev)?;
        phone.prefix.get().map(ToString::to_string)
    });
    let themes = [
        ("phone", words::AS_PHONE),
        ("light", words::LIGHT),
        ("dark", words::DARK),
    ];
    let theme = Signal::derive(move || match liked.get().theme {
        Theme::AsPhone => "phone".to_owned(),
        Theme::Light => "light".to_owned(),
        Theme::Dark => "dark".to_owned(),
    });
    let hand = Signal::derive(move || {
        if liked.get().hand == Hand::Left {
            "left".to_owned()
        } else {
            "right".to_owned()
        }
    });
    view! {
        <Screen title=words::PHONE back=back_to_shed notice=notices rooms=|| room_bar(Route::Book)>
            <div class="form">
                <p>{words::CODES} " " <strong>{move || prefix.get()}</strong></p>
                <Choices
                    legend=words::THEME
                    choices=chips(&themes)
                    chosen=theme
                    on_choose=Callback::new(move |key: String| change(&|liked| {
                        liked.theme = match key.as_str() {
                            "light" => Theme::Light,
                            "dark" => Theme::Dark,
                            _ => Theme::AsPhone,
                        };
                    }))
                    look=ChoicesLook::Chips
                />
                <Choices
                    legend=words::HAND
                    choices=chips(&[("right", words::RIGHT), ("left", words::LEFT)])
                    chosen=hand
                    on_choose=Callback::new(move |key: String| change(&|liked| {
                        liked.hand = if key == "left" { Hand::Left } else { Hand::Right };
                    }))
                    look=ChoicesLook::Chips
                />
                <Toggle
                    label=words::BENCH_SIZE
                    on=Signal::derive(move || liked.get().bench_size)
                    on_switch=Callback::new(move |on: bool| change(&|liked| liked.bench_size = on))
                    on_word=words::ON
                    off_word=words::OFF
                />
            </div>
        </Screen>
    }
}
