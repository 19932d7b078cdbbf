//! Help: a page for each kind of screen, and the way to the others.

use leptos::prelude::*;

use crate::help::{CameFrom, Topic};
use crate::route::Route;
use crate::screens::{cards::card, install_drawn as drawn};
use crate::ui::{Glyph, PlainLink, Screen, Slat, TopBack};
use crate::words::{cards, help as words, install};

/// The screen.
#[component]
pub fn Help(topic: Topic) -> impl IntoView {
    let page = words::page(topic);
    let from = use_context::<CameFrom>()
        .map_or_else(|| Route::Round.href(), |from| from.0.get_untracked());
    let says = page
        .says
        .iter()
        .map(|line| view! { <li>{*line}</li> })
        .collect_view();
    let care = (!page.care.is_empty()).then(|| {
        let lines = page
            .care
            .iter()
            .map(|line| view! { <li>{*line}</li> })
            .collect_view();
        view! { <Slat name=words::CARE /><ul class="plain-list">{lines}</ul> }
    });
    let hands = matches!(topic, Topic::Repot | Topic::Bench).then(|| {
        view! { <p class="edge"><PlainLink href=Route::Cards.href() label=cards::LINK glyph=Glyph::Scissors /></p> }
    });
    let install = (topic == Topic::Install).then(cards_of_install);
    let to_install = matches!(topic, Topic::Start | Topic::Shed).then(|| {
        let href = Route::Help(Topic::Install).href();
        view! { <p class="edge"><PlainLink href label=install::LINK /></p> }
    });
    let others = Topic::ALL
        .into_iter()
        .filter(|other| *other != topic)
        .map(|other| view! { <a class="entry" href=Route::Help(other).href()><span>{words::page(other).title}</span></a> })
        .collect_view();
    view! {
        <Screen
            title=page.title
            over=words::TITLE
            back=move || view! { <TopBack href=from.clone() label=words::BACK /> }
        >
            <ul class="plain-list">{says}</ul>
            {install}
            {care}
            {hands}
            {to_install}
            <details class="more-of-it">
                <summary>{words::MORE}</summary>
                {others}
            </details>
        </Screen>
    }
}

/// How the program comes onto the home screen, for each kind of machine.
fn cards_of_install() -> impl IntoView {
    let cards = [
        (drawn::ANDROID, install::ANDROID),
        (drawn::IOS, install::IOS),
        (drawn::DESKTOP, install::DESKTOP),
    ];
    cards
        .map(|(sketch, words)| card(sketch, words))
        .collect_view()
}
