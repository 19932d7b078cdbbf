//! Handing the book over as a file, and taking files in: first what they would bring, then taking it.

use leptos::ev::Event;
use leptos::prelude::*;
use velamen_core::exchange::envelope;
use velamen_core::id::Dev;
use wasm_bindgen::JsCast;

use crate::frame::{notices, room_bar};
use crate::ledger::{Arrival, Incoming, Ledger, Phase, Safety, Way};
use crate::route::Route;
use crate::ui::{
    Choice, Choices, Field, MainAction, PlainAction, PlainLink, Progress, Screen, Slat, Toggle,
    TopBack,
};
use crate::words::{book as words, files, folder, reel, rooms};

/// The choice that stands for the whole book.
const WHOLE: &str = "whole";

/// The screen.
#[component]
pub fn Files() -> impl IntoView {
    let ledger = Ledger::here();
    let has_book = move || ledger.phase() == Phase::Ready;
    let hand_over = move || has_book().then(|| hand_over(ledger));
    let others = move || {
        let own = has_book();
        view! {
            <Slat name=files::PLACES />
            <div class="form">
                {own.then(|| view! { <PlainLink href=Route::Photographs.href() label=files::PHOTOGRAPHS /> })}
                <PlainLink href=Route::Folder.href() label=folder::FOLDER />
                {own.then(|| view! { <PlainLink href=Route::Phones.href() label=files::PHONES /> })}
            </div>
        }
    };
    let compare = move || has_book().then(|| fingerprint(ledger));
    let back = move || {
        let (href, room) = if has_book() {
            (Route::Book.href(), rooms::BOOK)
        } else {
            (Route::Round.href(), rooms::START)
        };
        view! { <TopBack href label=rooms::back_to(room) /> }
    };
    let bar = move || has_book().then(|| room_bar(Route::Book));
    view! {
        <Screen title=words::FILES back notice=notices rooms=bar>
            {hand_over}
            {take_in(ledger)}
            {others}
            {compare}
        </Screen>
    }
}

/// A file in the downloads of this phone goes with the phone: what makes it safe, and the key that says it is done.
pub(super) fn saved_here(ledger: Ledger, safety: Memo<Safety>) -> impl IntoView {
    let here = Memo::new(move |_| safety.with(|safety| safety.saved_here) && !ledger.is_example());
    let done = Callback::new(move |()| ledger.lies_elsewhere());
    move || {
        here.get().then(|| {
            view! {
                <p>{files::SAVED_HERE}</p>
                <PlainAction label=files::LIES_ELSEWHERE.to_owned() on_press=done />
            }
        })
    }
}

fn hand_over(ledger: Ledger) -> impl IntoView {
    let to = RwSignal::new(WHOLE.to_owned());
    let closed = RwSignal::new(false);
    let passphrase = RwSignal::new(String::new());
    let error = RwSignal::new(String::new());
    let safety = ledger.safety();
    let others = ledger.others();
    let send = move |way: Way| {
        let typed = passphrase.get_untracked();
        if closed.get_untracked()
            && let Err(unfit) = envelope::fits(&typed)
        {
            error.set(files::unfit(unfit));
            return;
        }
        let dev = to.get_untracked().parse::<Dev>().ok();
        let under = if closed.get_untracked() {
            typed
        } else {
            String::new()
        };
        ledger.hand_over(dev, under, way);
    };
    let what = move || {
        let present: Vec<_> = others
            .get()
            .into_iter()
            .filter(|other| !other.left)
            .collect();
        (!present.is_empty()).then(|| {
            let whole = Choice {
                key: WHOLE.to_owned(),
                label: files::WHOLE.to_owned(),
                hint: None,
            };
            let parts = present.iter().map(|other| Choice {
                key: other.dev.to_string(),
                label: files::lacking(other),
                hint: Some(files::lacking_count(other.lacks)),
            });
            let choices = std::iter::once(whole).chain(parts).collect();
            view! {
                <Choices legend=files::WHAT choices chosen=to on_choose=Callback::new(move |key| to.set(key)) />
            }
        })
    };
    let typed = move || {
        closed.get().then(|| {
            view! {
                <Field
                    label=files::PASSPHRASE
                    hint=files::PASSPHRASE_HINT
                    value=passphrase
                    error
                    on_input=Callback::new(move |text| {
                        error.set(String::new());
                        passphrase.set(text);
                    })
                    max_chars=200
                />
            }
        })
    };
    let close = Callback::new(move |on| closed.set(on));
    let save = Callback::new(move |()| send(Way::Save));
    let share = Callback::new(move |()| send(Way::Share));
    let show = Callback::new(move |()| Route::ShowReel(to.get_untracked().parse().ok()).go());
    let stake = move || {
        let safety = safety.get();
        // Nobody loses anything with the example.
        (!ledger.is_example()).then(|| files::at_stake(safety.at_stake, safety.urgency))
    };
    view! {
        <Slat name=files::HAND_OVER />
        <div class="form">
            <p class="strong">{stake}</p>
            {saved_here(ledger, safety)}
            <p>{words::HAND_OVER_HINT}</p>
            {what}
            {ledger.can_encipher().then(|| view! {
                <Toggle
                    label=files::UNDER_PASSPHRASE
                    hint=files::UNDER_PASSPHRASE_HINT
                    on=closed
                    on_switch=close
                    on_word=files::ON
                    off_word=files::OFF
                />
            })}
            {typed}
            <PlainAction label=words::SAVE.to_owned() on_press=save />
            {ledger.can_share().then(|| view! { <PlainAction label=words::SHARE.to_owned() on_press=share /> })}
            <PlainAction label=reel::SHOW.to_owned() on_press=show />
        </div>
    }
}

fn take_in(ledger: Ledger) -> impl IntoView {
    let arrival = RwSignal::new(Arrival::Nothing);
    let passphrase = RwSignal::new(String::new());
    ledger.look_at_passed_on(arrival);
    let choose = move |event: Event| {
        let input = event
            .target()
            .and_then(|target| target.dyn_into::<web_sys::HtmlInputElement>().ok());
        let Some(input) = input else { return };
        let Some(list) = input.files() else { return };
        let files = (0..list.length()).filter_map(|at| list.get(at)).collect();
        passphrase.set(String::new());
        ledger.look_at_files(files, "", arrival);
        // The same files can be chosen once more.
        input.set_value("");
    };
    view! {
        <Slat name=files::TAKE_IN />
        <div class="form">
            <p>{words::TAKE_IN_HINT}</p>
            <label class="file">
                <span>{words::CHOOSE_FILES}</span>
                <input type="file" multiple=true on:change=choose />
            </label>
            {arrived(ledger, arrival, passphrase)}
            <p>{reel::READ_HINT}</p>
            <PlainLink href=Route::ReadReel.href() label=reel::READ />
        </div>
    }
}

/// What came of looking at files, with the way to take them in.
pub(super) fn arrived(
    ledger: Ledger,
    arrival: RwSignal<Arrival>,
    passphrase: RwSignal<String>,
) -> impl IntoView {
    move || match arrival.get() {
        Arrival::Nothing => ().into_any(),
        Arrival::Reading(pct) => working(words::READING, pct).into_any(),
        Arrival::TakingIn(pct) => working(files::TAKING_IN, pct).into_any(),
        Arrival::Fault(why) => refused(&why).into_any(),
        Arrival::Closed { tried } => closed(ledger, arrival, passphrase, tried).into_any(),
        Arrival::Ready(incoming) => plan(ledger, *incoming, arrival).into_any(),
    }
}

fn working(label: &'static str, pct: u32) -> impl IntoView {
    if pct == 0 {
        return view! { <p>{label}</p> }.into_any();
    }
    let words = crate::words::start::made(pct);
    view! { <Progress label pct words /> }.into_any()
}

/// A sentence, or a line for each of several files.
fn refused(why: &str) -> impl IntoView + use<> {
    let lines: Vec<String> = why.lines().map(str::to_owned).collect();
    let lines = lines
        .into_iter()
        .map(|line| view! { <p class="warn" role="alert">{line}</p> });
    lines.collect_view()
}

fn closed(
    ledger: Ledger,
    arrival: RwSignal<Arrival>,
    passphrase: RwSignal<String>,
    tried: bool,
) -> impl IntoView {
    let error = if tried { files::TRIED } else { "" };
    let open = Callback::new(move |()| {
        ledger.look_again(&passphrase.get_untracked(), arrival);
    });
    view! {
        <p class="strong">{files::CLOSED}</p>
        <Field
            label=files::PASSPHRASE
            value=passphrase
            error=Signal::derive(move || error.to_owned())
            on_input=Callback::new(move |text| passphrase.set(text))
            max_chars=200
        />
        <MainAction label=files::OPEN_IT on_press=open />
    }
}

/// Made on this screen alone: it reads every fact.
fn fingerprint(ledger: Ledger) -> impl IntoView {
    let letters = ledger.ask(|state, _| state.fingerprint());
    view! {
        <Slat name=files::FINGERPRINT />
        <div class="form">
            <p class="fingerprint">{letters}</p>
            <p>{files::FINGERPRINT_HINT}</p>
        </div>
    }
}

fn plan(ledger: Ledger, incoming: Incoming, arrival: RwSignal<Arrival>) -> impl IntoView {
    let Incoming {
        asks,
        photos,
        photos_known,
        ..
    } = incoming;
    let lines = files::plan(&incoming.plan, asks, photos, photos_known);
    let nursery = incoming.nursery.clone();
    let outside = incoming.refused.iter();
    let outside: Vec<String> = outside
        .map(|(name, why)| files::refused_file(name, why))
        .collect();
    // What came in is work to look at: the Round shows it.
    let take = Callback::new(move |()| {
        ledger.take_in(incoming.clone(), arrival, || Route::Round.replace());
    });
    view! {
        <h2><bdi>{nursery}</bdi></h2>
        <ul>{lines.into_iter().map(|line| view! { <li>{line}</li> }).collect_view()}</ul>
        {(!outside.is_empty()).then(|| view! {
            <p class="strong">{files::STAY_OUT}</p>
            {refused(&outside.join("\n"))}
        })}
        <MainAction label=words::TAKE_IN.to_owned() on_press=take busy=ledger.busy() />
    }
}
