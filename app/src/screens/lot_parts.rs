//! Parts that adding a lot and changing one share: counts, a place, one of several, a refusal at its field.

use leptos::prelude::*;
use velamen_core::command::{Command, PlaceTraits};
use velamen_core::event::Event;
use velamen_core::id::PlaceId;
use velamen_core::limits;
use velamen_core::lot_draft::PlaceDraft;
use velamen_core::view;

use crate::ledger::{Act, Ledger};
use crate::ui::{Choice, Choices, ChoicesLook, Field, NumberPad, Pick, Stepper, what_is_wrong};
use crate::words::{rejection, stock as words};

/// A count by thumb, or by number where it is a long way.
#[component]
pub fn Count(
    #[prop(into)] label: String,
    #[prop(optional, into)] hint: Signal<String>,
    #[prop(into)] count: Signal<i64>,
    #[prop(optional, into)] unknown: Signal<bool>,
    on_count: Callback<i64>,
    #[prop(default = 0)] min: i64,
) -> impl IntoView {
    let most = i64::from(limits::PLANTS_MAX);
    let typed: RwSignal<Option<String>> = RwSignal::new(None);
    let open = Memo::new(move |_| typed.with(Option::is_some));
    let pad_label = label.clone();
    let on_text = Callback::new(move |text: String| {
        if let Ok(number) = text.parse::<i64>() {
            on_count.run(number.clamp(min, most));
        }
        typed.set(Some(text));
    });
    let pad = move || {
        if open.get() {
            let label = pad_label.clone();
            view! {
                <NumberPad
                    label
                    text=Signal::derive(move || typed.get().unwrap_or_default())
                    on_text
                    unit=""
                    whole=true
                    erase_label=words::ERASE
                    mark_label=words::POINT
                />
                <button type="button" class="quiet" on:click=move |_| typed.set(None)>{words::NUMBER_DONE}</button>
            }
            .into_any()
        } else {
            view! {
                <button type="button" class="quiet" on:click=move |_| typed.set(Some(String::new()))>{words::TYPE_NUMBER}</button>
            }
            .into_any()
        }
    };
    view! {
        <div class="counted">
            <Stepper
                label=label.clone()
                hint
                count
                unknown
                on_count
                less_label=words::less_of(&label)
                more_label=words::more_of(&label)
                five_label=words::FIVE
                min
                max=most
            />
            {pad}
        </div>
    }
}

/// More than so many chips fill a screen.
const CHIPS_MAX: usize = 24;

/// One of several short words.
pub fn one_of<T>(
    legend: &'static str,
    options: Vec<(T, String)>,
    chosen: Signal<T>,
    on_choose: impl Fn(T) + Send + Sync + 'static,
) -> impl IntoView
where
    T: PartialEq + Clone + Send + Sync + 'static,
{
    let values: Vec<T> = options.iter().map(|(value, _)| value.clone()).collect();
    let known = values.clone();
    let key = Signal::derive(move || {
        let at = chosen.with(|chosen| known.iter().position(|value| value == chosen));
        at.map(|at| at.to_string()).unwrap_or_default()
    });
    let choose = Callback::new(move |key: String| {
        let value = key.parse::<usize>().ok().and_then(|at| values.get(at));
        if let Some(value) = value {
            on_choose(value.clone());
        }
    });
    if options.len() > CHIPS_MAX {
        return from_a_list(legend, options, key, choose).into_any();
    }
    let choices = (0usize..)
        .zip(options)
        .map(|(at, (_, label))| Choice {
            key: at.to_string(),
            label,
            hint: None,
        })
        .collect();
    view! { <Choices legend choices chosen=key on_choose=choose look=ChoicesLook::Chips /> }
        .into_any()
}

/// The same behind the phone's own list, which begins with nothing: that shows where none is chosen, and is no choice.
fn from_a_list<T>(
    legend: &'static str,
    options: Vec<(T, String)>,
    key: Signal<String>,
    choose: Callback<String>,
) -> impl IntoView {
    let words = options.into_iter().map(|(_, word)| word);
    let words = std::iter::once(String::new()).chain(words);
    let chosen = Signal::derive(move || {
        let at = key.with(|key| key.parse::<usize>().ok());
        at.map_or(0, |at| at + 1)
    });
    let pick = Callback::new(move |at: usize| {
        if let Some(at) = at.checked_sub(1) {
            choose.run(at.to_string());
        }
    });
    view! { <Pick label=legend options=words.collect() chosen on_pick=pick /> }
}

/// A place of the book, or a new one by its name.
#[component]
pub fn PlaceChoice(
    place: Memo<PlaceDraft>,
    on_place: Callback<PlaceDraft>,
    #[prop(optional, into)] error: Signal<String>,
) -> impl IntoView {
    let ledger = Ledger::here();
    let places = ledger.ask(|state, _| view::places(state.facts()));
    let is_new = Memo::new(move |_| place.with(|place| place.is_new) || places.with(Vec::is_empty));
    let typed = Signal::derive(move || place.with(|place| place.typed.clone()));
    let chosen = Signal::derive(move || place.with(|place| (place.is_new, place.chosen)));
    let choices = move || {
        let places = places.get();
        (!places.is_empty()).then(|| {
            let known = places
                .into_iter()
                .map(|place| ((false, Some(place.place)), place.name));
            let new = ((true, None), words::NEW_PLACE.to_owned());
            let options: Vec<((bool, Option<PlaceId>), String)> = known.chain([new]).collect();
            one_of(words::PLACE, options, chosen, move |(is_new, chosen)| {
                let typed = typed.get_untracked();
                on_place.run(PlaceDraft {
                    chosen,
                    is_new,
                    typed,
                });
            })
        })
    };
    let name = move || {
        is_new.get().then(|| {
            let on_input = Callback::new(move |typed| {
                on_place.run(PlaceDraft { chosen: None, is_new: true, typed });
            });
            view! {
                <Field label=words::NEW_PLACE_NAME hint=words::NEW_PLACE_HINT value=typed on_input error max_chars=200 />
            }
        })
    };
    view! {
        {choices}
        {name}
        {move || (!is_new.get()).then(|| view! { <Refusal words=error /> })}
    }
}

/// What is wrong, at what it is about.
#[component]
pub fn Refusal(#[prop(into)] words: Signal<String>) -> impl IntoView {
    view! { <div aria-live="polite">{what_is_wrong(words)}</div> }
}

/// Said under a search that finds nothing.
pub fn nothing_called(nothing: Signal<bool>) -> impl IntoView {
    let said = move || {
        nothing
            .get()
            .then(|| view! { <p class="edge">{words::NOTHING_FOUND}</p> })
    };
    view! { <div aria-live="polite">{said}</div> }
}

/// Begins every step of one screen at its top: the next step takes over the body, with how far the last was scrolled.
pub fn each_step_from_its_top<T>(step: Memo<T>)
where
    T: PartialEq + Send + Sync + 'static,
{
    Effect::new(move |_| {
        step.track();
        request_animation_frame(|| {
            if let Ok(Some(body)) = document().query_selector("main") {
                body.set_scroll_top(0);
            }
        });
    });
}

/// Records a new place first where one was typed, keeps it as chosen, and then goes on.
pub fn with_place(
    ledger: Ledger,
    place: &PlaceDraft,
    keep: impl FnOnce(PlaceId) + 'static,
    go_on: impl FnOnce() + 'static,
    refuse: impl FnOnce(String) + 'static,
) {
    let Some(name) = place.new_name() else {
        return go_on();
    };
    let command = Command::SetPlace {
        place: None,
        name: Some(name.to_owned()),
        walk: None,
        about: PlaceTraits::default(),
    };
    let act = Act::new(command, String::new()).then(move |decision| {
        if let Some(Event::PlaceSet(set)) = decision.events.first() {
            keep(set.place);
        }
        go_on();
    });
    ledger.act(act.otherwise(move |no| refuse(rejection::say(&no))));
}
