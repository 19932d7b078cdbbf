//! Mixing a bath: the bottle, what it is against, how long, how much water; then gloves, goggles and air.

use leptos::prelude::*;
use velamen_core::bath::{BathFault, BathStep, Mixture, Side, TubShape};
use velamen_core::limits::SOAK_S_MAX;
use velamen_core::quantity::Unit;

use super::bath::Tub;
use super::bath_measure::fills;
use super::lot_parts::{Count, Refusal, one_of};
use super::mixing::{before_it, bottle, never_together, purpose, reentry};
use super::mixing_pair::{also_into_it, second, then};
use super::own_units;
use crate::frame::{notices, room_bar};
use crate::route::Route;
use crate::ui::{Amount, Field, Keys, MainAction, PlainAction, Screen, Slat};
use crate::words::bath as words;
use crate::words::format::{self, sign};

/// Step one: what, against what, how long, in how much water.
pub(super) fn mix(tub: Tub) -> impl IntoView {
    let hand = tub.mixing();
    let chosen = hand.part(|mixing| mixing.product.is_some());
    let go_on = Callback::new(move |()| {
        let draft = tub.draft.get_untracked();
        match tub.ledger.look(|state, _| draft.ready_to_mix(state)) {
            Err(fault) => {
                tub.fault.set(Some(fault));
            }
            Ok(_) => {
                hand.keep_on_bottle(move || tub.change(|draft| draft.step = BathStep::Safety));
            }
        }
    });
    let actions = move || {
        move || {
            chosen.get().then(|| {
                view! { <MainAction label=words::SAFETY_FIRST.to_owned() on_press=go_on busy=tub.ledger.busy() /> }
            })
        }
    };
    let give_up = Callback::new(move |()| tub.end());
    let targets = tub.targets();
    let body = bottle(hand, move || {
        view! {
            {purpose(hand)}
            <SoakTime tub />
            {reentry(hand)}
            {never_together(hand, targets)}
            <Water tub />
            {second(hand, targets)}
            {then(hand)}
            <Worked tub />
        }
        .into_any()
    });
    view! {
        <Screen
            title=words::MAKE
            back=move || tub.back()
            actions
            notice=notices
            rooms=|| room_bar(Route::Treat)
        >
            {body}
            <div class="form">
                <PlainAction label=words::GIVE_UP.to_owned() on_press=give_up />
            </div>
        </Screen>
    }
}

/// How long they lie in it: the label's time, or the grower's own.
#[component]
fn SoakTime(tub: Tub) -> impl IntoView {
    let label = Memo::new(move |_| {
        let draft = tub.draft.get();
        tub.ledger.follow(|state, _| draft.label(state).soak_s)
    });
    let minutes = Signal::derive(move || {
        let own = tub.draft.with(|draft| draft.soak_s);
        i64::from(own.or(label.get()).unwrap_or(0) / 60)
    });
    let hint = Signal::derive(move || {
        let own = tub.draft.with(|draft| draft.soak_s);
        let by_label = label.get();
        let words = if by_label.is_some() && own.is_none_or(|own| Some(own) == by_label) {
            words::SOAK_OF_LABEL
        } else {
            words::SOAK_OWN
        };
        words.to_owned()
    });
    let set_minutes = Callback::new(move |minutes: i64| {
        let seconds = u32::try_from(minutes.saturating_mul(60)).unwrap_or(SOAK_S_MAX);
        tub.change(|draft| draft.soak_s = Some(seconds.min(SOAK_S_MAX)));
    });
    view! {
        <Count label=words::SOAK hint count=minutes on_count=set_minutes />
        <div class="form"><Refusal words=tub.says(|fault| matches!(fault, BathFault::NoSoak | BathFault::SoakTooLong)) /></div>
    }
}

/// Water by litres or by the tub's sides.
#[component]
fn Water(tub: Tub) -> impl IntoView {
    let shape = tub.part(|draft| draft.tub.shape);
    let litres = tub.part(|draft| draft.tub.litres.clone());
    let shapes = TubShape::ALL
        .map(|shape| (shape, words::shape(shape).to_owned()))
        .to_vec();
    let typed = move |side: Side| {
        let value = Memo::new(move |_| {
            tub.draft
                .with(|draft| draft.tub.sides.get(&side).cloned().unwrap_or_default())
        });
        let on_input = Callback::new(move |text: String| {
            let text = own_units::typed(text, Unit::Centimetre);
            tub.change(|draft| drop(draft.tub.sides.insert(side, text)));
        });
        let value = own_units::shown(value, Unit::Centimetre);
        let unit = sign(Unit::Centimetre);
        view! { <Field label=words::side(side) value on_input unit keys=Keys::Decimal max_chars=24 /> }
    };
    let measures = move || match shape.get() {
        TubShape::Litres => {
            let on_input = Callback::new(move |text| {
                let text = own_units::typed(text, Unit::Litre);
                tub.change(|draft| draft.tub.litres = text);
            });
            let value = own_units::shown(litres, Unit::Litre);
            view! {
                <Field label=words::litres() value on_input unit=sign(Unit::Litre) keys=Keys::Decimal max_chars=24 />
            }
            .into_any()
        }
        shape => shape
            .sides()
            .iter()
            .map(|side| typed(*side))
            .collect_view()
            .into_any(),
    };
    view! {
        <Slat name=words::WATER />
        <div class="form">
            {one_of(words::MEASURED_BY, shapes, shape.into(), move |shape| tub.change(|draft| draft.tub.shape = shape))}
            {measures}
            <Refusal words=tub.says(|fault| matches!(fault, BathFault::Tub(_))) />
        </div>
    }
}

/// What it comes to, as soon as it can be worked out.
#[component]
fn Worked(tub: Tub) -> impl IntoView {
    let mixture = Memo::new(move |_| {
        let draft = tub.draft.get();
        tub.ledger.follow(|state, _| draft.mixture(state)).ok()
    });
    move || mixture.get().map(|mixture| to_measure(tub, &mixture))
}

/// The amount, big, and how it came about.
fn to_measure(tub: Tub, mixture: &Mixture) -> impl IntoView + use<> {
    let (figure, unit) = words::amount(mixture.amount);
    let litres = format::litres_exact(mixture.water);
    let draft = tub.draft.get_untracked();
    let rate = tub.ledger.look(|state, _| draft.label(state).rate_typed);
    let dose = Memo::new(move |_| {
        let draft = tub.draft.get();
        tub.ledger.follow(|state, _| {
            let water = draft.tub.water().ok()?;
            Some((draft.dose(state)?, water))
        })
    });
    let water = tub.part(|draft| draft.tub.water().ok());
    let actives = mixture
        .active_mg_per_l
        .iter()
        .map(|(name, mg)| view! { <p class="soft">{words::active(name, *mg)}</p> })
        .collect_view();
    view! {
        <Slat name=words::MEASURE />
        <div class="edge stack">
            <Amount value=figure unit=words::into_water(unit, &litres) />
            {fills(tub.ledger, dose)}
            {also_into_it(tub.mixing(), water)}
            <p>{words::how(&rate, &litres)} " " {words::HALF_FULL}</p>
            {actives}
            <p class="strong">{words::LAW}</p>
        </div>
    }
}

/// Step two: before anything is opened.
pub(super) fn safety(tub: Tub) -> impl IntoView {
    let mixed = Callback::new(move |()| {
        tub.ledger.look(|state, at| {
            tub.change(|draft| {
                draft.mixing.settle_container(state, at.today);
                draft.mixed(at.now_ms, at.dev);
            });
        });
    });
    let again = Callback::new(move |()| tub.change(|draft| draft.step = BathStep::Mix));
    let actions = move || {
        view! {
            <PlainAction label=words::CHANGE_MIX.to_owned() on_press=again />
            <MainAction label=words::MIXED.to_owned() on_press=mixed />
        }
    };
    let over = Signal::derive(move || {
        let draft = tub.draft.get();
        let mixture = tub.ledger.follow(|state, _| draft.mixture(state)).ok();
        mixture.map_or_else(String::new, |mixture| {
            let (figure, unit) = words::amount(mixture.amount);
            words::in_water(&figure, unit, &format::litres_exact(mixture.water))
        })
    });
    view! {
        <Screen
            title=words::BEFORE
            over
            back=move || tub.back()
            actions
            notice=notices
            rooms=|| room_bar(Route::Treat)
        >
            {before_it(tub.ledger, words::CAUTIONS)}
            <Worked tub />
        </Screen>
    }
}
