//! What this book has learned of itself: how many live, by mix and by treatment too, how long until a flower, and minutes of
//! each step at the bench.

use leptos::prelude::*;
use velamen_core::outlook::{By, Flowered, Learned, LearnedBy, flowered, learn, learn_by};
use velamen_core::plan::{LearnedSteps, learned_steps};

use crate::ledger::Ledger;
use crate::ui::Slat;
use crate::words::{outlook as words, trade};

/// All of it.
#[component]
pub fn WhatWasLearned() -> impl IntoView {
    let ledger = Ledger::here();
    let learned = ledger.ask(|state, at| learn(state, at.today));
    let apart =
        ledger.ask(|state, at| [By::Mix, By::Treatment].map(|by| learn_by(state, at.today, by)));
    let flowers = ledger.ask(|state, _| flowered(state));
    let steps = ledger.ask(|state, _| learned_steps(state));
    let set_apart = move || {
        let [mixes, treatments] = apart.get();
        let mixes = set_apart(words::BY_MIX, words::NO_MIX, &mixes);
        let treatments = set_apart(words::BY_TREATMENT, words::NO_TREATMENT, &treatments);
        view! { {mixes} {treatments} }
    };
    view! {
        {move || living(&learned.get())}
        {set_apart}
        {move || to_flower(&flowers.get())}
        {move || steps.get().map(minutes)}
    }
}

fn entry(head: String, said: Vec<String>) -> AnyView {
    let said = said.into_iter().map(|said| view! { <span>{said}</span> });
    let said = said.collect_view();
    view! { <div class="entry"><strong>{head}</strong>{said}</div> }.into_any()
}

fn believed(row: &Learned) -> Vec<String> {
    let [low, middle, high] = row.per_hundred();
    vec![
        words::lived(row.alive, row.of),
        words::believed(middle, low, high, row.table_pct),
    ]
}

fn section(
    name: &'static str,
    note: &'static str,
    rows: Vec<AnyView>,
    last: &'static str,
) -> AnyView {
    let last = (!last.is_empty()).then(|| view! { <p class="edge soft">{last}</p> });
    view! { <section><Slat name note />{rows}{last}</section> }.into_any()
}

fn living(rows: &[Learned]) -> AnyView {
    let none = if rows.is_empty() {
        words::NOTHING_LEARNED
    } else {
        ""
    };
    let rows = rows.iter().map(|row| {
        let head = format!("{} · {}", words::group(row.group), trade::class(row.class));
        entry(head, believed(row))
    });
    section(words::LIVING, words::LIVING_NOTE, rows.collect(), none)
}

fn set_apart(name: &'static str, none: &'static str, rows: &[LearnedBy]) -> Option<AnyView> {
    (!rows.is_empty()).then(|| {
        let rows = rows.iter().map(|it| {
            let word = if it.word.is_empty() {
                none
            } else {
                it.word.as_str()
            };
            let group = words::group(it.row.group);
            let head = format!("{group} · {} · {word}", trade::class(it.row.class));
            entry(head, believed(&it.row))
        });
        section(name, words::APART_NOTE, rows.collect(), words::APART_WARN)
    })
}

fn to_flower(rows: &[Flowered]) -> Option<AnyView> {
    (!rows.is_empty()).then(|| {
        let rows = rows.iter().map(|row| {
            let head = format!("{} · {}", words::group(row.group), trade::class(row.class));
            entry(head, vec![words::took_to_flower(row.days, row.lots)])
        });
        section(words::TO_FLOWER, words::TO_FLOWER_NOTE, rows.collect(), "")
    })
}

fn minutes(steps: LearnedSteps) -> AnyView {
    let rows = [
        (words::CUTTING, steps.cut),
        (words::POTTING, steps.pot),
        (words::LABELLING, steps.label),
    ];
    let rows = rows.map(|(what, span)| {
        let said = vec![words::step_took(span, steps.clumps)];
        entry(what.to_owned(), said)
    });
    section(
        words::MINUTES,
        words::MINUTES_NOTE,
        rows.into_iter().collect(),
        "",
    )
}
