//! The containers of a product: a new one, what is left in one, and what stands on it.

use leptos::prelude::*;
use velamen_core::command::Command;
use velamen_core::container_draft::{ContainerDraft, ContainerFault, ContainerField};
use velamen_core::id::{ContainerId, ProductId};
use velamen_core::view::containers::{self, ContainerRow};

use super::in_hand::{InHand, Wrong};
use super::lot_parts::Refusal;
use crate::frame::{notices, room_bar};
use crate::ledger::Ledger;
use crate::route::Route;
use crate::ui::{
    Amount, DayField, Field, MainAction, PlainAction, PlainLink, Screen, Slat, Toggle, TopBack,
};
use crate::words::{bath, containers as words, rooms, shed, told, treat};

/// A command made of what was typed, or what is wrong with it, and where.
type Made = Result<Command, (ContainerField, ContainerFault)>;

/// A container being typed, new or of the shelf.
type Hand = InHand<ContainerDraft, ContainerField>;

/// The same, with what is wrong in words.
fn in_words(made: Made) -> Result<Command, Wrong<ContainerField>> {
    made.map_err(|(at, fault)| (Some(at), words::fault(&fault)))
}

/// A box for one text of the draft.
fn field(
    hand: Hand,
    (label, hint): (&'static str, &'static str),
    at: Option<ContainerField>,
    get: fn(&mut ContainerDraft) -> &mut String,
) -> impl IntoView {
    let value = Signal::derive(move || get(&mut hand.shown.get()).clone());
    let on_input = Callback::new(move |typed| hand.change(|draft| *get(draft) = typed));
    let wrong = at.map(|at| hand.wrong(Some(at)));
    let error = Signal::derive(move || wrong.map(|wrong| wrong.get()).unwrap_or_default());
    view! { <Field label hint value on_input error max_chars=200 /> }
}

fn day(
    hand: Hand,
    label: &'static str,
    last: String,
    get: fn(&mut ContainerDraft) -> &mut Option<chrono::NaiveDate>,
) -> impl IntoView {
    let value = Signal::derive(move || {
        get(&mut hand.shown.get())
            .map(|on| on.to_string())
            .unwrap_or_default()
    });
    let on_day =
        Callback::new(move |typed: String| hand.change(|draft| *get(draft) = typed.parse().ok()));
    view! { <DayField label value on_day last /> }
}

/// What stands on it.
fn on_it(hand: Hand, ledger: Ledger) -> impl IntoView {
    let today = ledger.moment().today.to_string();
    view! {
        {field(hand, (words::HELD, words::HELD_HINT), Some(ContainerField::Held), |draft| &mut draft.held)}
        {field(hand, (words::BATCH, ""), None, |draft| &mut draft.batch)}
        {day(hand, words::OPENED, today, |draft| &mut draft.opened_on)}
        {day(hand, words::EXPIRES, String::new(), |draft| &mut draft.expires_on)}
    }
}

fn product_name(ledger: Ledger, product: ProductId) -> String {
    ledger.follow(|state, _| {
        let known = state.facts().products.get(&product);
        known
            .map(|known| known.label_name.or_default())
            .unwrap_or_default()
    })
}

/// A new one.
#[component]
pub fn NewContainer(product: ProductId) -> impl IntoView {
    let ledger = Ledger::here();
    let hand: Hand = InHand::new(
        ledger,
        format!("new_container-{product}"),
        ContainerDraft::default,
    );
    let over = Signal::derive(move || product_name(ledger, product));
    let add = Callback::new(move |()| {
        let command = hand.shown.with_untracked(|draft| draft.command(product));
        hand.record(in_words(command), told::done(words::ADDED), move || {
            Route::Product(product).replace();
        });
    });
    let actions = move || {
        view! { <MainAction label=words::NEW.to_owned() on_press=add busy=ledger.busy() /> }
    };
    let back = move || view! { <TopBack href=Route::Product(product).href() label=rooms::back_to(&product_name(ledger, product)) /> };
    view! {
        <Screen title=words::NEW_TITLE over back actions notice=notices rooms=|| room_bar(Route::Book)>
            <div class="form">
                {on_it(hand, ledger)}
                {field(hand, (words::LEFT_NOW, words::LEFT_NOW_HINT), Some(ContainerField::Left), |draft| &mut draft.left)}
                <Refusal words=hand.wrong(None) />
            </div>
        </Screen>
    }
}

/// One of the shelf.
#[component]
pub fn Container(container: ContainerId) -> impl IntoView {
    let ledger = Ledger::here();
    let row = ledger.ask(move |state, at| {
        let rows = containers::all(state, at.today);
        rows.into_iter().find(|row| row.container == container)
    });
    let hand: Hand = InHand::new(ledger, format!("container-{container}"), move || {
        row.get()
            .map(|row| ContainerDraft::of(&row))
            .unwrap_or_default()
    });
    let product = move || row.with(|row| row.as_ref().map(|row| row.product));
    let to_product = move || product().map_or(Route::Products, Route::Product);
    let title = Signal::derive(move || {
        product().map_or_else(
            || words::TITLE.to_owned(),
            |product| product_name(ledger, product),
        )
    });
    let over = Signal::derive(move || {
        row.with(|row| {
            let row = row.as_ref();
            row.map(|row| words::name(row, ledger.moment().today))
                .unwrap_or_default()
        })
    });
    let of_it = move |make: fn(&ContainerDraft, &ContainerRow) -> Made| {
        if let Some(row) = row.get_untracked() {
            let command = hand.shown.with_untracked(|draft| make(draft, &row));
            // What stands on it and was typed otherwise stays in hand.
            let left = hand.shown.with_untracked(|draft| draft.without_amounts());
            let left = (left.change(&row) != Ok(None)).then_some(left);
            hand.record(in_words(command), shed::CHANGED.to_owned(), move || {
                if let Some(left) = left {
                    hand.change(|draft| *draft = left);
                }
            });
        }
    };
    let count = Callback::new(move |()| of_it(ContainerDraft::count));
    let take_off = Callback::new(move |()| of_it(ContainerDraft::take_off));
    let unchanged = Signal::derive(move || {
        row.with(|row| {
            let row = row.as_ref();
            row.is_none_or(|row| hand.shown.with(|draft| draft.change(row)) == Ok(None))
        })
    });
    let keep = Callback::new(move |()| {
        let row = row.get_untracked();
        let change = row.map(|row| hand.shown.with_untracked(|draft| draft.change(&row)));
        if let Some(command) = change.and_then(Result::transpose) {
            hand.record(in_words(command), shed::CHANGED.to_owned(), || {});
        }
    });
    let retire = Callback::new(move |()| {
        let then = untrack(to_product);
        let retire = Ok(ContainerDraft::retire(container));
        hand.record(retire, shed::CHANGED.to_owned(), move || then.replace());
    });
    let spilt = Memo::new(move |_| hand.shown.with(|draft| draft.spilt));
    let level = move || row.get().map(|row| level(&row));
    let actions = move || {
        view! { <MainAction label=shed::KEEP_CHANGE.to_owned() on_press=keep busy=ledger.busy() disabled=unchanged /> }
    };
    let back = move || view! { <TopBack href=untrack(to_product).href() label=rooms::back_to(&untrack(move || title.get())) /> };
    view! {
        <Screen title over back actions notice=notices rooms=|| room_bar(Route::Book)>
            {level}
            <div class="form">
                {field(hand, (words::COUNT, words::COUNT_HINT), Some(ContainerField::Left), |draft| &mut draft.left)}
                <PlainAction label=words::COUNTED.to_owned() on_press=count busy=ledger.busy() />
                <Refusal words=hand.wrong(None) />
            </div>
            <Slat name=words::STANDS_ON_IT />
            <div class="form">{on_it(hand, ledger)}</div>
            <details class="more-of-it">
                <summary>{words::GONE}</summary>
                <div class="form">
                    {field(hand, (words::GONE_HOW_MUCH, ""), Some(ContainerField::Gone), |draft| &mut draft.gone)}
                    <Toggle
                        label=words::SPILT
                        on=spilt
                        on_switch=Callback::new(move |on: bool| hand.change(|draft| draft.spilt = on))
                        on_word=treat::YES
                        off_word=treat::NO
                    />
                    {move || spilt.get().then(|| view! { <p class="warn">{words::SPILL_CAUTION}</p> })}
                    <PlainAction label=words::TAKE_OFF.to_owned() on_press=take_off busy=ledger.busy() />
                </div>
            </details>
            <div class="form">
                <PlainAction label=words::EMPTY.to_owned() on_press=retire busy=ledger.busy() />
                <p class="soft">{words::EMPTY_HINT}</p>
            </div>
        </Screen>
    }
}

/// How much is left, and what is wrong with it.
fn level(row: &ContainerRow) -> impl IntoView + use<> {
    let warnings = words::warnings(row);
    let figure = row.left.map(|left| {
        let (value, unit) = bath::amount(left);
        let held = row.held.amount(row.held.figure());
        view! { <Amount value unit=words::left_of(unit, held) /> }
    });
    view! {
        <div class="edge stack">{figure}</div>
        {warnings.into_iter().map(|why| view! { <p class="warn">{why}</p> }).collect_view()}
    }
}

/// The containers of a product on its page, and the way to a new one.
#[component]
pub fn OnTheShelf(product: ProductId) -> impl IntoView {
    let ledger = Ledger::here();
    let rows = ledger.ask(move |state, at| {
        let rows = containers::of_product(state, product, at.today).into_iter();
        rows.map(|row| {
            let name = words::name(&row, at.today);
            (
                row.container,
                name,
                words::left(&row),
                words::warnings(&row),
            )
        })
        .collect::<Vec<_>>()
    });
    let list = move || {
        let rows = rows.get();
        if rows.is_empty() {
            return view! { <p class="edge soft">{words::NONE_YET}</p> }.into_any();
        }
        let rows = rows.into_iter().map(|(id, name, left, warnings)| {
            let warnings = warnings
                .into_iter()
                .map(|why| view! { <span class="strong">{why}</span> });
            view! {
                <a class="entry" href=Route::Container(id).href()>
                    <span class="soft">{name}</span>
                    <span>{left}</span>
                    {warnings.collect_view()}
                </a>
            }
        });
        rows.collect_view().into_any()
    };
    view! {
        <Slat name=words::TITLE />
        {list}
        <div class="form">
            <PlainLink href=Route::NewContainer(product).href() label=words::NEW />
        </div>
    }
}
