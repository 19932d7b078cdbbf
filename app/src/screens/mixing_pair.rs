//! Two products: a second one in the same tank where both labels allow it, or a second treatment after days.

use leptos::prelude::*;
use velamen_core::apply::{MixFault, Mixing, TankFault, ThenDraft};
use velamen_core::command::{Command, NextTreatment};
use velamen_core::event::AgentClass;
use velamen_core::quantity::{Amount, Mass, Volume};
use velamen_core::rotation::Target;
use velamen_core::time::plus_days;
use velamen_core::view::treat::products;

use super::lot_parts::{Count, one_of};
use super::mixing::{Hand, bottle, purpose, reentry};
use super::rotation::had_before;
use crate::ledger::Ledger;
use crate::ui::PlainAction;
use crate::words::apply::pair as words;
use crate::words::{bath, mixing, treat};

/// The hand on the second product of one tank.
fn of_partner(hand: Hand) -> Hand {
    Hand {
        // How much of it goes in is worked out with the first one.
        amount: Memo::new(|_| None),
        mixing: Memo::new(move |_| {
            let partner = hand.mixing.with(|mixing| mixing.partner.clone());
            partner.map(|one| *one).unwrap_or_default()
        }),
        fault: Signal::derive(move || match hand.fault.get() {
            Some(MixFault::Tank(TankFault::Mix(fault))) => Some(*fault),
            _ => None,
        }),
        change: Callback::new(move |how: Box<dyn FnOnce(&mut Mixing)>| {
            hand.change(move |mixing| how(mixing.partner.get_or_insert_default()));
        }),
        ..hand
    }
}

/// A second product in the same tank: asked for, refused with the reason, or mixed.
pub(super) fn second(hand: Hand, targets: Memo<Vec<Target>>) -> impl IntoView {
    let asked = hand.part(|mixing| mixing.partner.is_some());
    let partner = of_partner(hand);
    let refused = Memo::new(move |_| {
        let (both, method) = (hand.mixing.get(), hand.method.get());
        hand.ledger.follow(|state, _| {
            // A litre stands for any water here: only what does not depend on it is said.
            let tank = both.tank(state, method, Volume::from_ul(1_000_000));
            tank.err()
                .filter(|fault| !matches!(fault, TankFault::Mix(_)))
                .map(|fault| mixing::tank(&fault, method))
        })
    });
    let add = Callback::new(move |()| {
        hand.change(|mixing| mixing.partner = Some(Box::default()));
    });
    let drop_it = Callback::new(move |()| hand.change(|mixing| mixing.partner = None));
    move || {
        if asked.get() {
            let body = bottle(partner, move || {
                view! {
                    {purpose(partner)}
                    {reentry(partner)}
                    {had_before(partner, targets)}
                }
                .into_any()
            });
            view! {
                <section class="card">
                    <h2>{words::TANK}</h2>
                    <p class="soft">{words::TANK_HINT}</p>
                    {move || refused.get().map(|why| view! { <p class="warn" role="alert">{why}</p> })}
                </section>
                {body}
                <div class="form"><PlainAction label=words::ONLY_ONE.to_owned() on_press=drop_it /></div>
            }
            .into_any()
        } else {
            view! {
                <details class="more-of-it">
                    <summary>{words::TANK}</summary>
                    <div class="form">
                        <p class="soft">{words::TANK_HINT}</p>
                        <PlainAction label=words::ADD.to_owned() on_press=add />
                    </div>
                </details>
            }
            .into_any()
        }
    }
}

/// What the plants had before, for the second product, where there is one.
pub(super) fn partner_before(hand: Hand, targets: Memo<Vec<Target>>) -> impl IntoView {
    let asked = hand.part(|mixing| mixing.partner.is_some());
    let partner = of_partner(hand);
    move || asked.get().then(|| had_before(partner, targets))
}

/// How much of the second product goes into the same water.
pub(super) fn also_into_it(hand: Hand, water: Memo<Option<Volume>>) -> impl IntoView {
    let said = Memo::new(move |_| {
        let (mixing, method) = (hand.mixing.get(), hand.method.get());
        let water = water.get()?;
        hand.ledger.follow(|state, _| {
            let tank = mixing.tank(state, method, water).ok()??;
            let amount = match (tank.amount_ul, tank.amount_mg) {
                (Some(ul), _) => Amount::Volume(Volume::from_ul(ul)),
                (None, mg) => Amount::Mass(Mass::from_mg(mg?)),
            };
            let (figure, unit) = bath::amount(amount);
            Some(words::also(&figure, unit, &tank.product.label_name))
        })
    });
    move || {
        said.get()
            .map(|said| view! { <p class="strong">{said}</p> })
    }
}

/// A second treatment that follows: with what, against what, after how many days.
pub(super) fn then(hand: Hand) -> impl IntoView {
    let product = hand.part(|mixing| mixing.then.as_ref().and_then(|then| then.product));
    let against = hand.part(|mixing| mixing.then.as_ref().and_then(|then| then.against));
    let rows = hand.ledger.ask(|state, _| products(state));
    let days = Memo::new(move |_| {
        let second = hand.mixing.get();
        hand.ledger.follow(|state, at| {
            let days = second.then_days(state);
            let due = plus_days(at.today, i64::from(days));
            let pair = second.apart(state);
            let pair = pair.map(|(pair, _)| mixing::pair(pair));
            let soon = second.then_too_soon(state).is_some();
            (i64::from(days), words::due(due, at.today), pair, soon)
        })
    });
    let edit = move |how: Box<dyn FnOnce(&mut ThenDraft)>| {
        hand.change(move |mixing| how(mixing.then.get_or_insert_default()));
    };
    let with = move || {
        let none = (None, words::NONE.to_owned());
        let known = rows.get().into_iter();
        let known = known.map(|row| (Some(row.product), row.label_name));
        let all = std::iter::once(none).chain(known).collect();
        one_of(words::THEN_WITH, all, product.into(), move |product| {
            edit(Box::new(move |then| then.product = product));
        })
    };
    let rest = move || {
        product.get().is_some().then(|| {
            let agents = AgentClass::ALL
                .map(|agent| (Some(agent), treat::agent(agent).to_owned()))
                .to_vec();
            let count = Signal::derive(move || days.with(|(days, ..)| *days));
            let hint = Signal::derive(move || {
                let asked = days.with(|(_, _, pair, _)| pair.is_some());
                let words = if asked { words::DAYS_ASKED } else { words::DAYS_OWN };
                words.to_owned()
            });
            let on_count = Callback::new(move |days: i64| {
                edit(Box::new(move |then| then.days = u32::try_from(days).ok()));
            });
            let said = move || {
                let (_, due, pair, soon) = days.get();
                let why = pair.map(|pair| {
                    let soon = soon.then_some(words::TOO_SOON);
                    view! { <p class="warn">{pair} " " {soon}</p> }
                });
                view! { {why} <p class="edge">{due}</p> }
            };
            view! {
                <div class="form">
                    {one_of(treat::AGAINST, agents, against.into(), move |against| edit(Box::new(move |then| then.against = against)))}
                </div>
                <Count label=words::DAYS hint count on_count min=1 />
                {said}
            }
        })
    };
    view! {
        <details class="more-of-it">
            <summary>{words::THEN}</summary>
            <div class="form">
                <p class="soft">{words::THEN_HINT}</p>
                {with}
            </div>
            {rest}
        </details>
    }
}

/// The command with the task that is to follow it, where one was planned.
pub(super) fn with_next(ledger: Ledger, mixing: &Mixing, command: Command) -> Command {
    let Command::RecordTreatment(mut record) = command else {
        return command;
    };
    record.then = ledger.look(|state, at| {
        let then = mixing.then.as_ref()?;
        let product = state.facts().products.get(&then.product?)?;
        let days = i64::from(mixing.then_days(state));
        Some(NextTreatment {
            text: words::task(&product.label_name.or_default(), then.against),
            product: then.product,
            due_on: plus_days(at.today, days),
        })
    });
    Command::RecordTreatment(record)
}
