//! Help: a page for each kind of screen, and the way to the others.

use leptos::prelude::*;

use crate::help::{CameFrom, Topic};
use crate::route::Route;
use crate::ui::{Glyph, PlainLink, Screen, Slat, TopBack};
use crate::words::{cards, help as words};

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
            {care}
            {hands}
            <details class="more-of-it">
                <summary>{words::MORE}</summary>
                {others}
            </details>
        </Screen>
    }
}
