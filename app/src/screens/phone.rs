//! This phone: light or dark, the hand, the size of the keys, which are not part of the book; and the nursery, which is.

use leptos::prelude::*;
use serde::{Deserialize, Serialize};
use velamen_core::command::Command;
use velamen_core::event::BookSet;
use velamen_core::quantity::System;
use velamen_core::season::Hemisphere;
use velamen_core::view::shed;

use super::lot_parts::one_of;
use crate::desk::{Keys, Table};
use crate::frame::{notices, room_bar};
use crate::help::Topic;
use crate::ledger::{Act, Hand, Ledger, Preferences, Theme};
use crate::route::Route;
use crate::screens::questions::JoinAgain;
use crate::screens::shed::back_to_shed;
use crate::ui::{
    Choice, Choices, ChoicesLook, Field, Glyph, PlainAction, PlainLink, PocketLock, Screen, Slat,
    Toggle,
};
use crate::words::{LANGUAGES, desk, install, program, record, rejection, shed as words, start};

fn chips(rows: &[(&str, &str)]) -> Vec<Choice> {
    rows.iter()
        .map(|(key, label)| Choice {
            key: (*key).to_owned(),
            label: (*label).to_owned(),
            hint: None,
        })
        .collect()
}

/// A choice that is on or off: its words, what it means, and where it is kept.
type Switch = (
    &'static str,
    &'static str,
    fn(&mut Preferences) -> &mut bool,
);

/// The screen.
#[component]
pub fn Phone() -> impl IntoView {
    let ledger = Ledger::here();
    let liked = RwSignal::new(ledger.preferences());
    let change = move |how: &dyn Fn(&mut Preferences)| {
        liked.update(|liked| how(liked));
        ledger.set_preferences(&liked.get_untracked());
    };
    let signer = ledger.signer();
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
    let lock = use_context::<PocketLock>();
    let news = ledger.news_here();
    let bench: [Switch; 4] = [
        (words::BENCH_SIZE, words::BENCH_SIZE_HINT, |liked| {
            &mut liked.bench_size
        }),
        (words::STAY_AWAKE, words::STAY_AWAKE_HINT, |liked| {
            &mut liked.stay_awake
        }),
        (words::LOCK_KEY, words::LOCK_KEY_HINT, |liked| {
            &mut liked.lock_key
        }),
        (words::QUIET, words::QUIET_HINT, |liked| &mut liked.quiet),
    ];
    let switch = move |(label, hint, of): Switch| {
        view! {
            <Toggle
                label
                hint
                on=Signal::derive(move || *of(&mut liked.get()))
                on_switch=Callback::new(move |on: bool| change(&|liked| *of(liked) = on))
                on_word=words::ON
                off_word=words::OFF
            />
        }
    };
    let hand = Signal::derive(move || {
        if liked.get().hand == Hand::Left {
            "left".to_owned()
        } else {
            "right".to_owned()
        }
    });
    view! {
        <Screen title=words::PHONE back=back_to_shed notice=notices rooms=|| room_bar(Route::Book)>
            <JoinAgain />
            <div class="form">
                {move || prefix.get().map(|prefix| view! {
                    <p>{words::CODES} " " <strong>{prefix}</strong></p>
                })}
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
                <Languages />
                <Units />
                <Choices
                    legend=words::HAND
                    choices=chips(&[("right", words::RIGHT), ("left", words::LEFT)])
                    chosen=hand
                    on_choose=Callback::new(move |key: String| change(&|liked| {
                        liked.hand = if key == "left" { Hand::Left } else { Hand::Right };
                    }))
                    look=ChoicesLook::Chips
                />
            </div>
            <Slat name=words::AT_THE_BENCH />
            <div class="form">
                {bench.into_iter().map(switch).collect_view()}
                {lock.map(|lock| view! {
                    <PlainAction
                        label=words::LOCK_NOW.to_owned()
                        glyph=Glyph::Lock
                        on_press=Callback::new(move |()| lock.locked.set(true))
                    />
                })}
            </div>
            <div class="form">
                <Field
                    label=record::PERSON
                    hint=record::PERSON_HINT
                    value=Signal::derive(move || signer.with(|signer| signer.person.clone()))
                    on_input=Callback::new(move |person: String| ledger.change_signer(|signer| signer.person = person))
                    max_chars=200
                />
                <Field
                    label=record::LICENCE
                    value=Signal::derive(move || signer.with(|signer| signer.licence.clone()))
                    on_input=Callback::new(move |licence: String| ledger.change_signer(|signer| signer.licence = licence))
                    max_chars=200
                />
            </div>
            <AtTheTable liked />
            <Slat name=program::WITHOUT_NETWORK />
            <p class="edge">{move || program::kept(ledger.program_kept())}</p>
            {(!news.is_empty()).then(|| view! { <p class="edge soft">{program::in_this(&news)}</p> })}
            <div class="form">
                <PlainLink href=Route::Help(Topic::Install).href() label=install::LINK />
            </div>
            <Nursery />
        </Screen>
    }
}

/// The language of the program. The page starts again in the one that is chosen.
#[component]
pub fn Languages() -> impl IntoView {
    let ledger = Ledger::here();
    let mut rows = vec![("", program::LANGUAGE_AS_PHONE)];
    rows.extend(LANGUAGES);
    let spoken = ledger.preferences().language;
    let chosen = RwSignal::new(spoken.clone());
    let choose = move |key: String| {
        let spoken = spoken.clone();
        chosen.set(key.clone());
        ledger.speak(key, move || chosen.set(spoken));
    };
    view! {
        <Choices
            legend=program::LANGUAGE_TITLE
            choices=chips(&rows)
            chosen
            on_choose=Callback::new(choose)
            look=ChoicesLook::Chips
        />
    }
}

/// The units of figures and of bare numbers typed. The page starts again in them, so that no screen mixes two.
#[component]
fn Units() -> impl IntoView {
    let ledger = Ledger::here();
    let rows = [
        (System::Metric, program::METRIC.to_owned()),
        (System::Us, program::US.to_owned()),
        (System::Imperial, program::IMPERIAL.to_owned()),
    ];
    let now = Signal::stored(ledger.preferences().units);
    view! {
        {one_of(program::UNITS, rows.to_vec(), now, move |units| ledger.measure_in(units))}
        <p class="soft">{program::UNITS_HINT}</p>
    }
}

/// What the keys of a keyboard do, and whether single letters may.
#[component]
fn AtTheTable(liked: RwSignal<Preferences>) -> impl IntoView {
    let ledger = Ledger::here();
    let table = Table::here();
    let switch = Callback::new(move |on: bool| {
        liked.update(|liked| liked.no_letters = !on);
        table.keys.set(on);
        ledger.set_preferences(&liked.get_untracked());
    });
    view! {
        <details class="more-of-it">
            <summary>{desk::TITLE}</summary>
            <div class="form">
                <Toggle label=desk::LETTERS on=table.keys on_switch=switch on_word=words::ON off_word=words::OFF />
                <p class="small soft">{desk::LETTERS_HINT}</p>
            </div>
            <Keys />
        </details>
    }
}

const DRAFT: &str = "nursery";

/// What is being changed; nothing where the book's own word stands.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
struct NurseryDraft {
    #[serde(default)]
    name: Option<String>,
    #[serde(default)]
    hemisphere: Option<Hemisphere>,
    #[serde(default)]
    poisons_number: Option<String>,
}

#[component]
fn Nursery() -> impl IntoView {
    let ledger = Ledger::here();
    let known = ledger.ask(|state, _| shed::nursery(state));
    let draft = ledger.draft::<NurseryDraft>(DRAFT);
    let error = RwSignal::new(String::new());
    let change = move |how: Box<dyn FnOnce(&mut NurseryDraft)>| {
        error.set(String::new());
        ledger.change_draft(DRAFT, how);
    };
    let keep = Callback::new(move |()| {
        let typed = draft.get_untracked();
        let command = Command::SetBook(BookSet {
            nursery: typed.name,
            hemisphere: typed.hemisphere,
            poisons_number: typed.poisons_number,
            ..BookSet::default()
        });
        let act = Act::new(command, words::CHANGED).ends_draft(DRAFT);
        ledger.act(act.otherwise(move |no| error.set(rejection::say(&no))));
    });
    let name = Signal::derive(move || draft.get().name.unwrap_or_else(|| known.get().name));
    let poisons = Signal::derive(move || {
        let typed = draft.get().poisons_number;
        typed.unwrap_or_else(|| known.get().poisons_number)
    });
    let half = Signal::derive(move || {
        draft
            .get()
            .hemisphere
            .unwrap_or_else(|| known.get().hemisphere)
    });
    let halves = vec![
        (Hemisphere::North, start::NORTH.to_owned()),
        (Hemisphere::South, start::SOUTH.to_owned()),
    ];
    let changed = Memo::new(move |_| draft.get() != NurseryDraft::default());
    view! {
        <Slat name=words::NURSERY />
        <div class="form">
            <Field
                label=words::NURSERY_NAME
                value=name
                on_input=Callback::new(move |name| change(Box::new(move |draft| draft.name = Some(name))))
                error
                max_chars=200
            />
            <Field
                label=words::POISONS
                hint=words::POISONS_HINT
                value=poisons
                on_input=Callback::new(move |number| change(Box::new(move |draft| draft.poisons_number = Some(number))))
                max_chars=200
            />
            {one_of(start::WHERE, halves, half, move |half| change(Box::new(move |draft| draft.hemisphere = Some(half))))}
            {move || changed.get().then(|| view! {
                <PlainAction label=words::KEEP_NURSERY.to_owned() on_press=keep busy=ledger.busy() />
            })}
        </div>
    }
}
