//! What things cost, and in what size they are bought: a list, and a sheet for one of them.

use leptos::prelude::*;
use velamen_core::command::Command;
use velamen_core::event::BookSet;
use velamen_core::price_draft::{PriceBox, PriceDraft, SizeIn, size_in};
use velamen_core::quantity::Unit;
use velamen_core::view::prices::{PriceRow, Prices as List, prices};

use super::in_hand::InHand;
use super::lot_parts::{Refusal, one_of};
use super::own_units;
use crate::frame::{notices, room_bar};
use crate::ledger::Ledger;
use crate::route::Route;
use crate::screens::shed::back_to_shed;
use crate::ui::{Field, Keys, MainAction, Screen, Sheet};
use crate::words::{format, prices as words, told};

const DRAFT: &str = "price";

type Hand = InHand<PriceDraft, PriceBox>;

/// The screen.
#[component]
pub fn Prices() -> impl IntoView {
    let ledger = Ledger::here();
    let shown = ledger.ask(|state, _| prices(state));
    let hand = Hand::new(ledger, DRAFT.to_owned(), PriceDraft::default);
    let list = move || rows(hand, shown.get());
    view! {
        <Screen title=words::TITLE back=back_to_shed notice=notices rooms=|| room_bar(Route::Book)>
            <p class="edge">{words::HINT}</p>
            {list}
            <PriceSheet hand shown />
        </Screen>
    }
}

fn rows(hand: Hand, list: List) -> impl IntoView {
    let sign = list.money.clone();
    let rows: Vec<AnyView> = list
        .rows
        .into_iter()
        .map(|row| {
            let (what, said) = (words::of(&row.of, &row.name), words::said(&row, &sign));
            let open = move || hand.change(|draft| *draft = PriceDraft::of(&row, format::decimal));
            key(what, said, open)
        })
        .collect();
    let (said, now) = if list.money.is_empty() {
        (words::NO_MONEY.to_owned(), String::new())
    } else {
        (list.money.clone(), list.money)
    };
    let open = move || hand.change(|draft| draft.money = Some(now.clone()));
    view! { {key(words::MONEY.to_owned(), said, open)} {rows} }
}

fn key(what: String, said: String, open: impl Fn() + 'static) -> AnyView {
    view! {
        <button type="button" class="choose" on:click=move |_| open()>
            <bdi class="strong">{what}</bdi>
            <span class="soft">{said}</span>
        </button>
    }
    .into_any()
}

/// What the sheet is for.
#[derive(Clone, PartialEq)]
enum For {
    Nothing,
    Money,
    Thing(PriceRow),
}

#[component]
fn PriceSheet(hand: Hand, shown: Memo<List>) -> impl IntoView {
    let of = Memo::new(move |_| {
        hand.shown.with(|draft| match (&draft.of, &draft.money) {
            (Some(of), _) => shown.with(|list| {
                let found = list.rows.iter().find(|row| row.of == *of);
                found.cloned().map_or(For::Nothing, For::Thing)
            }),
            (None, Some(_)) => For::Money,
            (None, None) => For::Nothing,
        })
    });
    let open = Memo::new(move |_| of.with(|of| *of != For::Nothing));
    let title = Signal::derive(move || {
        of.with(|of| match of {
            For::Thing(row) => words::of(&row.of, &row.name),
            For::Money => words::MONEY.to_owned(),
            For::Nothing => String::new(),
        })
    });
    let close = Callback::new(move |()| hand.change(|draft| *draft = PriceDraft::default()));
    view! {
        <Sheet open on_close=close title close_label=told::close()>
            {move || match of.get() {
                For::Nothing => ().into_any(),
                For::Money => money(hand).into_any(),
                For::Thing(row) => thing(hand, &row).into_any(),
            }}
        </Sheet>
    }
}

fn keep(hand: Hand) -> impl IntoView {
    let ledger = Ledger::here();
    let press = Callback::new(move |()| {
        let command = hand.shown.with_untracked(|draft| match &draft.money {
            Some(money) if draft.of.is_none() => Ok(Command::SetBook(BookSet {
                money: Some(money.trim().to_owned()),
                ..BookSet::default()
            })),
            _ => match draft.command() {
                Ok(Some(price)) => Ok(Command::SetPrice(price)),
                Ok(None) => Err((None, String::new())),
                Err(at) => Err((Some(at), words::fault(at).to_owned())),
            },
        });
        hand.record(command, words::KEPT.to_owned(), || {});
    });
    view! {
        <Refusal words=hand.wrong(None) />
        <div class="actions">
            <MainAction label=words::KEEP.to_owned() on_press=press busy=ledger.busy() />
        </div>
    }
}

fn money(hand: Hand) -> impl IntoView {
    let value = Signal::derive(move || hand.shown.with(|it| it.money.clone().unwrap_or_default()));
    let on_input = Callback::new(move |typed| hand.change(|it| it.money = Some(typed)));
    view! {
        <div class="form">
            <Field label=words::MONEY hint=words::MONEY_HINT value on_input max_chars=12 />
        </div>
        {keep(hand)}
    }
}

fn thing(hand: Hand, row: &PriceRow) -> impl IntoView + use<> {
    let how = size_in(&row.of);
    let weighs = Memo::new(move |_| hand.shown.with(|draft| draft.weighs));
    let size = move || {
        let (label, hint, metric) = match how {
            SizeIn::One => return None,
            SizeIn::Pieces => (words::PIECES, words::PIECES_HINT, None),
            SizeIn::Litres => (words::bag(), words::BAG_HINT, Some(Unit::Litre)),
            SizeIn::Bottle if weighs.get() => (words::BOTTLE, words::BOTTLE_HINT, Some(Unit::Gram)),
            SizeIn::Bottle => (words::BOTTLE, words::BOTTLE_HINT, Some(Unit::Millilitre)),
        };
        let unit = metric.map(format::sign).unwrap_or_default();
        let value = Signal::derive(move || hand.shown.with(|draft| draft.size.clone()));
        let value = metric.map_or(value, |metric| own_units::shown(value, metric));
        let on_input = Callback::new(move |typed: String| {
            let typed = match metric {
                Some(metric) => own_units::typed(typed, metric),
                None => typed,
            };
            hand.change(|draft| draft.size = typed);
        });
        let error = hand.wrong(Some(PriceBox::Size));
        Some(view! {
            <Field label hint unit value on_input error keys=Keys::Decimal max_chars=20 />
        })
    };
    let kinds = vec![
        (false, words::BY_VOLUME.to_owned()),
        (true, words::BY_WEIGHT.to_owned()),
    ];
    let by = (how == SizeIn::Bottle).then(|| {
        one_of(words::MEASURED_BY, kinds, weighs.into(), move |on| {
            hand.change(|draft| draft.weighs = on);
        })
    });
    let label = match &row.of {
        velamen_core::event::PriceOf::Hour => words::HOURLY,
        velamen_core::event::PriceOf::BenchMonth => words::MONTHLY,
        _ => words::PRICE,
    };
    let value = Signal::derive(move || hand.shown.with(|draft| draft.price.clone()));
    let on_input = Callback::new(move |typed| hand.change(|draft| draft.price = typed));
    let error = hand.wrong(Some(PriceBox::Price));
    view! {
        <div class="form">
            {by}
            {size}
            <Field label hint=words::EMPTY value on_input error keys=Keys::Decimal max_chars=15 />
        </div>
        {keep(hand)}
    }
}
