//! Active ingredients of a product: from the table or typed, with content and codes as the label has them.

use leptos::prelude::*;
use velamen_core::label_draft::{ActiveDraft, LabelField};
use velamen_core::reference::actives::{find, like};

use super::product::InHand;
use super::rate_field::ContentField;
use crate::ui::{Field, PlainAction, Slat};
use crate::words::product as words;

/// Rows of the table offered while one is typed.
const OFFERED: usize = 6;

/// All of them, and one more.
pub(super) fn actives(hand: InHand) -> impl IntoView {
    let count = hand.part(|draft| draft.actives.len());
    let rows = move || {
        (0..count.get())
            .map(|at| view! { <OneActive hand at /> })
            .collect_view()
    };
    view! {
        <div id="label-actives">
            <Slat name=words::ACTIVES />
            {rows}
            <Another hand />
        </div>
    }
}

fn edit(hand: InHand, at: usize, how: impl FnOnce(&mut ActiveDraft)) {
    hand.change(|draft| {
        if let Some(active) = draft.actives.get_mut(at) {
            how(active);
        }
    });
}

#[component]
fn OneActive(hand: InHand, at: usize) -> impl IntoView {
    let text = move |get: fn(&ActiveDraft) -> &String| {
        hand.part(move |draft| {
            draft
                .actives
                .get(at)
                .map(|active| get(active).clone())
                .unwrap_or_default()
        })
    };
    let (name, content, codes) = (
        text(|active| &active.name),
        text(|active| &active.content),
        text(|active| &active.codes),
    );
    let known = move || {
        let row = name.with(|name| find(name))?;
        let lines = words::of_the_table(row).into_iter();
        let lines = lines.map(|line| view! { <p class="soft">{line}</p> });
        Some(lines.collect_view())
    };
    let remove = Callback::new(move |()| {
        hand.change(|draft| {
            if at < draft.actives.len() {
                draft.actives.remove(at);
            }
        });
    });
    let remove_words = Signal::derive(move || words::remove_active(&name.get()));
    view! {
        <div class="form part-of-label">
            <Field
                label=words::ACTIVE
                value=name
                on_input=Callback::new(move |text| edit(hand, at, |active| active.name = text))
                error=hand.wrong(LabelField::ActiveName(at))
                max_chars=200
            />
            <ContentField
                value=content
                on_input=Callback::new(move |text| edit(hand, at, |active| active.content = text))
                error=hand.wrong(LabelField::Content(at))
            />
            <Field
                label=words::CODES
                hint=words::CODES_HINT
                value=codes
                on_input=Callback::new(move |text| edit(hand, at, |active| active.codes = text))
                max_chars=200
            />
            <div class="stack">{known}</div>
            <button type="button" class="quiet" on:click=move |_| remove.run(())>{remove_words}</button>
        </div>
    }
}

/// One more: found in the table by its name, or as typed.
#[component]
fn Another(hand: InHand) -> impl IntoView {
    let typed = RwSignal::new(String::new());
    let offered = Memo::new(move |_| typed.with(|typed| like(typed, OFFERED)));
    let keys = move || {
        let rows = offered.get().into_iter();
        rows.map(|row| {
            let take = move |_| {
                hand.change(|draft| draft.add_known(row));
                typed.set(String::new());
            };
            view! {
                <button type="button" class="choose" on:click=take>
                    <span class="stack">
                        <span>{row.name}</span>
                        <span class="soft">{words::codes_and_group(row)}</span>
                    </span>
                </button>
            }
        })
        .collect_view()
    };
    let as_typed = Callback::new(move |()| {
        let name = typed.get_untracked().trim().to_owned();
        hand.change(|draft| {
            draft.actives.push(ActiveDraft {
                name,
                ..ActiveDraft::default()
            });
        });
        typed.set(String::new());
    });
    let own = move || {
        let name = typed.with(|typed| typed.trim().to_owned());
        let in_table = offered.with(|rows| rows.iter().any(|row| Some(*row) == find(&name)));
        (!name.is_empty() && !in_table).then(|| {
            view! { <PlainAction label=words::as_typed(&name) on_press=as_typed /> }
        })
    };
    view! {
        <div class="form">
            <Field
                label=words::ANOTHER_ACTIVE
                hint=words::ANOTHER_ACTIVE_HINT
                value=typed
                on_input=Callback::new(move |text| typed.set(text))
                max_chars=200
            />
            {keys}
            {own}
        </div>
    }
}
