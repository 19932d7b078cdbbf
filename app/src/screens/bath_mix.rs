//! Mixing a bath: the bottle, what it is against, how long, how much water; then gloves, goggles and air.

use leptos::prelude::*;
use velamen_core::bath::{BathFault, BathStep, BottleDraft, Mixture, Named, Side, TubShape};
use velamen_core::event::{AgentClass, Event};
use velamen_core::limits::SOAK_S_MAX;
use velamen_core::view::shed;
use velamen_core::view::treat::{ProductRow, products};

use super::bath::Tub;
use super::bath_measure::fills;
use super::bath_rate::{label_link, own_rate};
use super::lot_parts::{Count, Refusal, one_of};
use super::photos::{Photos, PickPhotos};
use super::rate_field::RateField;
use crate::frame::{notices, room_bar};
use crate::ledger::Act;
use crate::route::Route;
use crate::ui::{Amount, Bottle, Field, Keys, MainAction, PlainAction, Screen, Slat, Toggle};
use crate::words::{bath as words, format, rejection, told, treat};

/// Step one: what, against what, how long, in how much water.
pub(super) fn mix(tub: Tub) -> impl IntoView {
    let chosen = tub.part(|draft| draft.product.is_some());
    let bottle = tub.part(|draft| draft.bottle.is_some());
    let go_on = Callback::new(move |()| {
        let draft = tub.draft.get_untracked();
        match tub.ledger.look(|state, _| draft.ready_to_mix(state)) {
            Err(fault) => tub.fault.set(Some(fault)),
            Ok(_) => match tub.ledger.look(|state, _| draft.to_the_bottle(state)) {
                None => tub.change(|draft| draft.step = BathStep::Safety),
                Some(keep) => tub.ledger.act(
                    Act::new(keep, "")
                        .for_good()
                        .then(move |_| tub.change(|draft| draft.step = BathStep::Safety)),
                ),
            },
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
    let body = move || {
        if chosen.get() {
            view! {
                <ChosenBottle tub />
                <Purpose tub />
                <Water tub />
                <Worked tub />
            }
            .into_any()
        } else if bottle.get() {
            view! { <NewBottle tub /> }.into_any()
        } else {
            view! { <Shelf tub /> }.into_any()
        }
    };
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

/// The bottles on the shelf; with none there, the first is put there.
#[component]
fn Shelf(tub: Tub) -> impl IntoView {
    let rows = tub.ledger.ask(|state, _| products(state));
    let begin = move || tub.change(|draft| draft.bottle = Some(BottleDraft::default()));
    let list = move || {
        let rows = rows.get();
        if rows.is_empty() {
            begin();
            return ().into_any();
        }
        let rows = rows.into_iter().map(move |row| {
            let product = row.product;
            let take = move |_| tub.change(|draft| draft.product = Some(product));
            view! { <button type="button" class="pick" on:click=take>{bottle_of(row)}</button> }
        });
        rows.collect_view().into_any()
    };
    view! {
        <Slat name=words::WHICH />
        {list}
        <div class="form">
            <PlainAction label=words::ANOTHER.to_owned() on_press=Callback::new(move |()| begin()) />
        </div>
    }
}

fn bottle_of(row: ProductRow) -> impl IntoView {
    let missing = treat::still_missing(&row.missing);
    view! { <Bottle name=row.label_name rate=row.rate_typed note=missing /> }
}

/// A bottle put on the shelf from its name and its rate; the rest is still missing.
#[component]
fn NewBottle(tub: Tub) -> impl IntoView {
    let name = tub.part(|draft| {
        draft
            .bottle
            .as_ref()
            .map(|b| b.name.clone())
            .unwrap_or_default()
    });
    let rate = tub.part(|draft| {
        draft
            .bottle
            .as_ref()
            .map(|b| b.rate.clone())
            .unwrap_or_default()
    });
    let photos = Signal::derive(move || {
        tub.draft
            .with(|draft| draft.bottle.as_ref()?.label_photo.clone())
            .into_iter()
            .collect::<Vec<_>>()
    });
    let refused = RwSignal::new(String::new());
    let edit = move |how: &dyn Fn(&mut BottleDraft)| {
        let _ = refused.try_set(String::new());
        tub.change(|draft| how(draft.bottle.get_or_insert_default()));
    };
    let put = Callback::new(move |()| {
        let Some(bottle) = tub.draft.with_untracked(|draft| draft.bottle.clone()) else {
            return;
        };
        let act = Act::new(bottle.command(), told::done(words::ON_THE_SHELF)).then(move |done| {
            if let Some(Event::ProductSet(set)) = done.events.first() {
                let product = set.product;
                tub.change(|draft| {
                    draft.bottle = None;
                    draft.product = Some(product);
                });
            }
        });
        tub.ledger
            .act(act.otherwise(move |no| refused.set(rejection::say(&no))));
    });
    view! {
        <Slat name=words::BOTTLE />
        <div class="form">
            <Field
                label=words::NAME
                value=name
                on_input=Callback::new(move |text: String| edit(&|bottle| bottle.name.clone_from(&text)))
                max_chars=200
            />
            <RateField
                label=words::RATE
                hint=words::RATE_HINT
                value=rate
                on_input=Callback::new(move |text: String| edit(&|bottle| bottle.rate.clone_from(&text)))
            />
            <Refusal words=refused />
            <p class="soft">{words::RATE_LATER}</p>
            <PickPhotos
                label=words::PHOTO
                hint=words::PHOTO_HINT
                photos
                most=1
                on_add=move |photo| edit(&|bottle| bottle.label_photo = Some(photo.clone()))
                on_remove=move |_| edit(&|bottle| bottle.label_photo = None)
            />
            <MainAction label=words::TO_THE_SHELF.to_owned() on_press=put busy=tub.ledger.busy() />
        </div>
    }
}

/// The bottle taken, with what its label lacks typed here.
#[component]
fn ChosenBottle(tub: Tub) -> impl IntoView {
    let product = tub.part(|draft| draft.product);
    let row = Memo::new(move |_| {
        let id = product.get();
        tub.ledger.follow(|state, _| {
            products(state)
                .into_iter()
                .find(|row| Some(row.product) == id)
        })
    });
    let on_label = Memo::new(move |_| {
        let draft = tub.draft.get();
        tub.ledger.follow(|state, _| {
            let blank = velamen_core::bath::BathDraft {
                product: draft.product,
                ..velamen_core::bath::BathDraft::default()
            };
            blank.label(state)
        })
    });
    let no_rate = Memo::new(move |_| on_label.with(|label| label.rate_typed.is_empty()));
    let asks = Memo::new(move |_| on_label.with(|label| label.named == Named::NotTyped));
    let silent = Memo::new(move |_| {
        let draft = tub.draft.get();
        tub.ledger
            .follow(|state, _| draft.label(state).named == Named::No)
    });
    let rate = tub.part(|draft| draft.rate.clone());
    let reason = tub.part(|draft| draft.reason.clone());
    let named = tub.part(|draft| draft.dipping_named);
    let change = Callback::new(move |()| {
        tub.change(|draft| {
            draft.product = None;
            draft.dipping_named = None;
            draft.rate.clear();
            draft.batch.clear();
        });
    });
    let rate_field = move || {
        no_rate.get().then(|| view! {
            <RateField
                label=words::RATE
                hint=words::RATE_HINT
                value=rate
                on_input=Callback::new(move |text| tub.change(|draft| draft.rate = text))
                error=tub.says(|fault| matches!(fault, BathFault::NoRate | BathFault::BadRate(_) | BathFault::RateByArea))
            />
        })
    };
    let dipping = move || {
        asks.get().then(|| {
            let answers = vec![
                (Some(true), words::NAMES_DIPPING.to_owned()),
                (Some(false), words::SILENT.to_owned()),
            ];
            view! {
                {one_of(words::LABEL_SAYS, answers, named.into(), move |named| tub.change(|draft| draft.dipping_named = named))}
                <Refusal words=tub.says(|fault| *fault == BathFault::DippingNotSaid) />
            }
        })
    };
    let why = move || {
        silent.get().then(|| {
            view! {
                <p class="warn">{words::SILENT_WARNING}</p>
                <Field
                    label=words::REASON
                    value=reason
                    on_input=Callback::new(move |text| tub.change(|draft| draft.reason = text))
                    error=tub.says(|fault| *fault == BathFault::NoReason)
                    max_chars=4000
                />
            }
        })
    };
    view! {
        <div class="card stack">
            {move || row.get().map(|row| {
                let photos: Vec<String> = row.label_photo.iter().cloned().collect();
                view! { {bottle_of(row)} <Photos photos /> }
            })}
            {label_link(tub)}
            <PlainAction label=words::CHANGE.to_owned() on_press=change />
        </div>
        <div class="form">
            {rate_field}
            {own_rate(tub, no_rate)}
            <Refusal words=Signal::derive(move || if no_rate.get() { String::new() } else {
                tub.says(|fault| matches!(fault, BathFault::BadRate(_) | BathFault::RateByArea | BathFault::NoContent)).get()
            }) />
            {dipping}
            {why}
        </div>
    }
}

/// Against what, how long, and until when hands stay off.
#[component]
fn Purpose(tub: Tub) -> impl IntoView {
    let against = tub.part(|draft| draft.against);
    let preventing = tub.part(|draft| draft.preventing);
    let finding = tub.part(|draft| draft.finding);
    let agents = AgentClass::ALL
        .map(|agent| (Some(agent), treat::agent(agent).to_owned()))
        .to_vec();
    let seen = move || {
        let id = finding.get()?;
        let sign = tub.ledger.follow(|state, _| {
            let known = state.facts().findings.get(&id)?;
            Some(crate::words::trade::sign(&known.event.sign).to_lowercase())
        })?;
        Some(view! { <p class="strong">{words::seen(&sign)}</p> })
    };
    let label = Memo::new(move |_| {
        let draft = tub.draft.get();
        tub.ledger.follow(|state, _| draft.label(state))
    });
    let minutes = Signal::derive(move || {
        let own = tub.draft.with(|draft| draft.soak_s);
        let seconds = own.or(label.with(|label| label.soak_s)).unwrap_or(0);
        i64::from(seconds / 60)
    });
    let soak_hint = Signal::derive(move || {
        let by_label = label.with(|label| label.soak_s);
        let own = tub.draft.with(|draft| draft.soak_s);
        let words = if by_label.is_some() && own.is_none_or(|own| Some(own) == by_label) {
            words::SOAK_OF_LABEL
        } else {
            words::SOAK_OWN
        };
        words.to_owned()
    });
    let hours = Signal::derive(move || i64::from(label.with(|label| label.reentry_h).unwrap_or(0)));
    let reentry_hint = Signal::derive(move || {
        let typed = label.with(|label| label.reentry_h.is_some());
        let words = if typed {
            words::REENTRY_HINT
        } else {
            words::REENTRY_MISSING
        };
        words.to_owned()
    });
    let set_minutes = Callback::new(move |minutes: i64| {
        let seconds = u32::try_from(minutes.saturating_mul(60)).unwrap_or(SOAK_S_MAX);
        tub.change(|draft| draft.soak_s = Some(seconds.min(SOAK_S_MAX)));
    });
    view! {
        <div class="form">
            {seen}
            {one_of(treat::AGAINST, agents, against.into(), move |agent| tub.change(|draft| draft.against = agent))}
            <Refusal words=tub.says(|fault| *fault == BathFault::NoAgent) />
            <Toggle
                label=treat::PREVENTING
                on=preventing
                on_switch=Callback::new(move |on: bool| tub.change(|draft| draft.preventing = on))
                on_word=treat::YES
                off_word=treat::NO
            />
        </div>
        <Count label=words::SOAK hint=soak_hint count=minutes on_count=set_minutes />
        <div class="form"><Refusal words=tub.says(|fault| matches!(fault, BathFault::NoSoak | BathFault::SoakTooLong)) /></div>
        <Count
            label=words::REENTRY
            hint=reentry_hint
            count=hours
            on_count=Callback::new(move |hours| tub.change(|draft| draft.reentry_h = u32::try_from(hours).ok()))
        />
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
            tub.change(|draft| drop(draft.tub.sides.insert(side, text)));
        });
        view! { <Field label=words::side(side) value on_input unit="cm" keys=Keys::Decimal max_chars=24 /> }
    };
    let measures = move || match shape.get() {
        TubShape::Litres => {
            let on_input = Callback::new(move |text| tub.change(|draft| draft.tub.litres = text));
            view! {
                <Field label=words::LITRES value=litres on_input unit="L" keys=Keys::Decimal max_chars=24 />
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
    let actives = mixture
        .active_mg_per_l
        .iter()
        .map(|(name, mg)| view! { <p class="soft">{words::active(name, *mg)}</p> })
        .collect_view();
    view! {
        <Slat name=words::MEASURE />
        <div class="edge stack">
            <Amount value=figure unit=words::into_water(unit, &litres) />
            {fills(tub)}
            <p>{words::how(&rate, &litres)} " " {words::HALF_FULL}</p>
            {actives}
            <p class="strong">{words::LAW}</p>
        </div>
    }
}

/// Step two: before anything is opened.
pub(super) fn safety(tub: Tub) -> impl IntoView {
    let poisons = tub
        .ledger
        .ask(|state, _| shed::nursery(state).poisons_number);
    let number = move || {
        let number = poisons.get();
        if number.is_empty() {
            treat::NO_POISONS.to_owned()
        } else {
            treat::poisons(&number)
        }
    };
    let mixed = Callback::new(move |()| {
        let now_ms = tub.ledger.moment().now_ms;
        tub.change(|draft| draft.mixed(now_ms));
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
    let cautions = words::CAUTIONS.map(|caution| view! { <li>{caution}</li> });
    view! {
        <Screen
            title=words::BEFORE
            over
            back=move || tub.back()
            actions
            notice=notices
            rooms=|| room_bar(Route::Treat)
        >
            <ul class="before-it">{cautions.into_iter().collect_view()}</ul>
            <p class="edge">{treat::CONTACT} " " <strong>{number}</strong></p>
            <Worked tub />
            <p class="edge soft">{treat::ORIGIN}</p>
        </Screen>
    }
}
