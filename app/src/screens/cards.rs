//! Cards for the handwork: a drawing and three sentences each.

use leptos::prelude::*;

use super::cards_drawn as drawn;
use super::first_repot::LeadMe;
use crate::frame::{notices, room_bar};
use crate::route::Route;
use crate::ui::drawing::sketch::Sketch;
use crate::ui::{Screen, Slat, TopBack};
use crate::words::{cards as words, rooms};

/// In the order of the work.
const CARDS: [(Sketch, words::Words); 7] = [
    (drawn::SPIKE, words::SPIKE),
    (drawn::CUT, words::CUT),
    (drawn::ROOTS, words::ROOTS),
    (drawn::LEAF, words::LEAF),
    (drawn::SHORT, words::SHORT),
    (drawn::WAY, words::WAY),
    (drawn::BACK, words::BACK),
];

/// The screen.
#[component]
pub fn Cards() -> impl IntoView {
    let cards = CARDS
        .into_iter()
        .map(|(sketch, words)| card(sketch, words))
        .collect_view();
    view! {
        <Screen
            title=words::TITLE
            back=|| view! { <TopBack href=Route::Repot.href() label=rooms::back_to(rooms::REPOT) /> }
            notice=notices
            rooms=|| room_bar(Route::Repot)
        >
            <p class="edge warn">{words::CARE}</p>
            {cards}
            <LeadMe />
            <p class="edge small soft">{words::ORIGIN}</p>
        </Screen>
    }
}

/// A drawing and what is done, step by step.
pub(super) fn card(sketch: Sketch, words: words::Words) -> impl IntoView {
    let steps = words
        .steps
        .iter()
        .map(|step| view! { <li>{*step}</li> })
        .collect_view();
    view! {
        <section>
            <Slat name=words.title />
            {sketch.draw(words.seen)}
            <ol class="steps">{steps}</ol>
        </section>
    }
}
