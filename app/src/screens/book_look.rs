//! What of the Book is looked for: a lot, a place, a kind of event, slips. Kept while one goes to an entry and back.

use std::cell::RefCell;

use leptos::{ev, prelude::*};
use velamen_core::id::PlaceId;
use velamen_core::view::book::Filter;
use velamen_core::view::book_sieve::Kind;
use velamen_core::view::places;

use super::lot_parts::one_of;
use crate::ledger::Ledger;
use crate::ui::{Field, Toggle};
use crate::words::{book as words, shed};

/// What is looked for.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Looked {
    typed: String,
    place: Option<PlaceId>,
    kind: Option<Kind>,
    slips: bool,
}

impl Looked {
    pub fn filter(&self) -> Filter<'_> {
        Filter {
            subject: None,
            typed: &self.typed,
            place: self.place,
            kind: self.kind,
            hide_undone: !self.slips,
        }
    }

    pub fn is_all(&self) -> bool {
        self.typed.trim().is_empty() && self.place.is_none() && self.kind.is_none()
    }
}

thread_local! {
    /// Gone with the page.
    static LOOKED_FOR: RefCell<Looked> = RefCell::new(Looked::default());
}

/// What was looked for last.
pub fn looked() -> RwSignal<Looked> {
    RwSignal::new(LOOKED_FOR.with_borrow(Looked::clone))
}

/// The choices, folded away until something is looked for.
#[component]
pub fn LookFor(looked: RwSignal<Looked>) -> impl IntoView {
    let all = Callback::new(move |()| change(looked, |looked| *looked = Looked::default()));
    let narrowed = Memo::new(move |_| looked.with(|looked| *looked != Looked::default()));
    let open = narrowed.get_untracked();
    // A nursery has many places: what they are chosen by is drawn once it is wanted.
    let wanted = RwSignal::new(open);
    let form = move || wanted.get().then(|| view! { <Choices looked /> });
    view! {
        <details class="more-of-it" open=open on:toggle=move |_: ev::Event| if !wanted.get_untracked() { wanted.set(true) }>
            <summary>{words::LOOK_FOR}</summary>
            {form}
        </details>
        {move || narrowed.get().then(|| view! {
            <p class="split edge">
                <span>{words::NARROWED}</span>
                <button type="button" class="quiet" on:click=move |_| all.run(())>{words::SHOW_ALL}</button>
            </p>
        })}
    }
}

fn change(looked: RwSignal<Looked>, how: impl FnOnce(&mut Looked)) {
    looked.update(how);
    LOOKED_FOR.set(looked.get_untracked());
}

#[component]
fn Choices(looked: RwSignal<Looked>) -> impl IntoView {
    let ledger = Ledger::here();
    let here = ledger.look(|state, _| places(state.facts()));
    let at = std::iter::once((None, words::ANY_PLACE.to_owned()));
    let at: Vec<_> = at
        .chain(here.into_iter().map(|row| (Some(row.place), row.name)))
        .collect();
    let kinds = std::iter::once((None, words::ANY_KIND.to_owned()));
    let kinds: Vec<_> = kinds
        .chain(Kind::ALL.map(|kind| (Some(kind), words::kind(kind).to_owned())))
        .collect();
    let several = at.len() > 2;
    view! {
        <div class="form">
            <Field
                label=words::WHICH_LOT
                value=Signal::derive(move || looked.with(|looked| looked.typed.clone()))
                on_input=Callback::new(move |typed| change(looked, move |looked| looked.typed = typed))
                max_chars=200
            />
            {one_of(
                words::KIND,
                kinds,
                Signal::derive(move || looked.with(|looked| looked.kind)),
                move |kind| change(looked, move |looked| looked.kind = kind),
            )}
            {several.then(|| view! {
                {one_of(
                    words::AT_PLACE,
                    at,
                    Signal::derive(move || looked.with(|looked| looked.place)),
                    move |place| change(looked, move |looked| looked.place = place),
                )}
                <p class="small soft">{words::AT_PLACE_HINT}</p>
            })}
            <Toggle
                label=words::SLIPS
                hint=words::SLIPS_HINT
                on=Signal::derive(move || looked.with(|looked| looked.slips))
                on_switch=Callback::new(move |on: bool| change(looked, move |looked| looked.slips = on))
                on_word=shed::ON
                off_word=shed::OFF
            />
        </div>
    }
}
