//! One product: everything its label says, typed in as time allows, put right, retired.

use leptos::prelude::*;
use velamen_core::command::{Command, ProductTraits};
use velamen_core::id::ProductId;
use velamen_core::label_draft::{LabelDraft, LabelField};
use velamen_core::view::treat::{StillMissing, products};
use wasm_bindgen::JsCast;

use super::containers::OnTheShelf;
use super::lot_parts::Refusal;
use super::photos::{Photos, PickPhotos};
use super::product_actives::actives;
use super::product_uses::uses;
use super::rate_field::RateField;
use crate::frame::{notices, room_bar};
use crate::ledger::{Act, Ledger};
use crate::route::Route;
use crate::ui::{Field, Keys, MainAction, PlainAction, Screen, Slat, TopBack};
use crate::words::{bath, product as words, rejection, rooms, shed, treat};

/// A label in hand: what is typed, what is wrong where.
#[derive(Clone, Copy)]
pub(super) struct InHand {
    pub(super) ledger: Ledger,
    pub(super) product: ProductId,
    key: StoredValue<String>,
    pub(super) shown: Memo<LabelDraft>,
    refused: RwSignal<(Option<LabelField>, String)>,
}

impl InHand {
    fn new(ledger: Ledger, product: ProductId) -> Self {
        let key = format!("product-{product}");
        let draft = ledger.draft_at::<Option<LabelDraft>>(key.clone());
        let known = ledger.ask(move |state, _| {
            let known = state.facts().products.get(&product);
            known.map(LabelDraft::of).unwrap_or_default()
        });
        Self {
            ledger,
            product,
            key: StoredValue::new(key),
            shown: Memo::new(move |_| draft.get().unwrap_or_else(|| known.get())),
            refused: RwSignal::new((None, String::new())),
        }
    }

    pub(super) fn change(self, how: impl FnOnce(&mut LabelDraft)) {
        let _ = self.refused.try_set((None, String::new()));
        let mut draft = self.shown.get_untracked();
        draft.version = velamen_core::draft::DRAFT_VERSION;
        how(&mut draft);
        self.key
            .with_value(|key| self.ledger.keep_draft(key, &draft));
    }

    pub(super) fn part<T>(self, get: impl Fn(&LabelDraft) -> T + Send + Sync + 'static) -> Memo<T>
    where
        T: PartialEq + Send + Sync + 'static,
    {
        Memo::new(move |_| self.shown.with(&get))
    }

    pub(super) fn wrong(self, at: LabelField) -> Signal<String> {
        self.wrong_at(Some(at))
    }

    fn wrong_at(self, at: Option<LabelField>) -> Signal<String> {
        Signal::derive(move || {
            self.refused.with(|(here, words)| {
                if *here == at {
                    words.clone()
                } else {
                    String::new()
                }
            })
        })
    }

    fn keep(self) {
        let (draft, id) = (self.shown.get_untracked(), self.product);
        let read = self.ledger.look(|state, _| {
            let known = state.facts().products.get(&id)?;
            Some(draft.change(id, known))
        });
        match read {
            None => {}
            Some(Err((field, fault))) => self.refused.set((Some(field), words::fault(&fault))),
            Some(Ok(None)) => {
                self.key.with_value(|key| self.ledger.drop_draft(key));
                Route::Products.replace();
            }
            Some(Ok(Some(command))) => {
                let act = Act::new(command, shed::CHANGED)
                    .ends_draft(self.key.get_value())
                    .then(|_| Route::Products.replace());
                let refused = self.refused;
                self.ledger
                    .act(act.otherwise(move |no| refused.set((None, rejection::say(&no)))));
            }
        }
    }
}

/// The screen.
#[component]
pub fn Product(product: ProductId) -> impl IntoView {
    let ledger = Ledger::here();
    let hand = InHand::new(ledger, product);
    let title = hand.part(|draft| draft.name.clone());
    let keep = Callback::new(move |()| hand.keep());
    let retire = Callback::new(move |()| {
        let command = Command::SetProduct {
            product: Some(product),
            traits: ProductTraits {
                retired: Some(true),
                ..ProductTraits::default()
            },
        };
        ledger.act(Act::new(command, shed::CHANGED).then(|_| Route::Products.replace()));
    });
    let actions = move || {
        view! {
            <Refusal words=hand.wrong_at(None) />
            <MainAction label=words::KEEP.to_owned() on_press=keep busy=ledger.busy() />
        }
    };
    view! {
        <Screen
            title
            back=|| view! { <TopBack href=Route::Products.href() label=rooms::back_to(words::PRODUCTS) /> }
            actions
            notice=notices
            rooms=|| room_bar(Route::Book)
        >
            <Missing hand />
            <OnTheShelf product />
            <LabelPhoto hand />
            <Head hand />
            {actives(hand)}
            {uses(hand)}
            <div class="form">
                <PlainAction label=words::RETIRE.to_owned() on_press=retire busy=ledger.busy() />
                <p class="soft">{words::RETIRE_HINT}</p>
            </div>
        </Screen>
    }
}

/// What is not typed yet, each leading to its field.
#[component]
fn Missing(hand: InHand) -> impl IntoView {
    let id = hand.product;
    let missing = hand.ledger.ask(move |state, _| {
        let row = products(state).into_iter().find(|row| row.product == id);
        row.map(|row| row.missing).unwrap_or_default()
    });
    move || {
        let missing = missing.get();
        (!missing.is_empty()).then(|| {
            let keys = missing.into_iter().map(|what| {
                let lead = move |_| lead_to(anchor(what));
                view! { <button type="button" class="choose" on:click=lead>{words::missing(what)}</button> }
            });
            view! { <Slat name=words::MISSING /> {keys.collect_view()} }
        })
    }
}

const fn anchor(what: StillMissing) -> &'static str {
    match what {
        StillMissing::Rate | StillMissing::Uses => "label-uses",
        StillMissing::Actives => "label-actives",
        StillMissing::Registration => "label-registration",
        StillMissing::Reentry => "label-reentry",
    }
}

/// Brings a part of the screen into sight and the keyboard to its first box.
fn lead_to(id: &str) {
    let Some(part) = document().get_element_by_id(id) else {
        return;
    };
    part.scroll_into_view();
    // A part without a box has its key instead.
    if let Ok(Some(found)) = part.query_selector("input[type=text], button")
        && let Ok(found) = found.dyn_into::<leptos::web_sys::HtmlElement>()
    {
        let _ = found.focus();
    }
}

/// The label's photograph: the one on the shelf, or one that will take its place.
#[component]
fn LabelPhoto(hand: InHand) -> impl IntoView {
    let id = hand.product;
    let kept = hand.ledger.ask(move |state, _| {
        let known = state.facts().products.get(&id)?;
        known.label_photo.get().cloned()
    });
    let new = hand.part(|draft| draft.photo.clone());
    let there = move || {
        kept.get()
            .filter(|_| new.with(Option::is_none))
            .map(|sha256| view! { <Photos photos=vec![sha256] /> })
    };
    let label = move || {
        let label = if kept.with(Option::is_some) {
            words::PHOTO_REPLACE
        } else {
            bath::PHOTO
        };
        view! {
            <PickPhotos
                label
                hint=words::PHOTO_HINT
                photos=Signal::derive(move || new.get().into_iter().collect::<Vec<_>>())
                most=1
                on_add=move |photo| hand.change(|draft| draft.photo = Some(photo))
                on_remove=move |_| hand.change(|draft| draft.photo = None)
            />
        }
    };
    view! { <div class="form">{there} {label}</div> }
}

/// Name, registration, formulation, and what goes for all uses.
#[component]
fn Head(hand: InHand) -> impl IntoView {
    let name = hand.part(|draft| draft.name.clone());
    let registration = hand.part(|draft| draft.registration.clone());
    let formulation = hand.part(|draft| draft.formulation.clone());
    let rate = hand.part(|draft| draft.rate.clone());
    let reentry = hand.part(|draft| draft.reentry_h.clone());
    view! {
        <div class="form">
            <Field
                label=bath::NAME
                value=name
                on_input=Callback::new(move |text| hand.change(|draft| draft.name = text))
                error=hand.wrong(LabelField::Name)
                max_chars=200
            />
            <div id="label-registration">
                <Field
                    label=words::REGISTRATION
                    hint=words::REGISTRATION_HINT
                    value=registration
                    on_input=Callback::new(move |text| hand.change(|draft| draft.registration = text))
                    max_chars=200
                />
            </div>
            <Field
                label=words::FORMULATION
                hint=words::FORMULATION_HINT
                value=formulation
                on_input=Callback::new(move |text| hand.change(|draft| draft.formulation = text))
                max_chars=40
            />
            <RateField
                label=words::RATE_FOR_ALL
                hint=bath::RATE_HINT
                value=rate
                on_input=Callback::new(move |text| hand.change(|draft| draft.rate = text))
                error=hand.wrong(LabelField::Rate)
            />
            <div id="label-reentry">
                <Field
                    label=treat::REENTRY
                    hint=treat::REENTRY_HINT
                    value=reentry
                    on_input=Callback::new(move |text| hand.change(|draft| draft.reentry_h = text))
                    error=hand.wrong(LabelField::Reentry)
                    unit="h"
                    keys=Keys::Digits
                    max_chars=6
                />
            </div>
        </div>
    }
}
