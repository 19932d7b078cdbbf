//! The bottle and how much of it for a drench, a spray, a swab or a dusting.

use leptos::prelude::*;
use velamen_core::apply::{Aired, ApplyDraft, ApplyFault, ApplyStep, Measured, area_of};
use velamen_core::event::{Airing, Method};
use velamen_core::quantity::Unit;

use super::apply::Work;
use super::bath_measure::fills;
use super::lot_parts::{Refusal, one_of};
use super::mixing::{bottle, never_together, purpose, reentry};
use super::mixing_pair::{also_into_it, second, then};
use super::own_units;
use super::rotation::had_before;
use crate::frame::{notices, room_bar};
use crate::route::Route;
use crate::ui::{Amount, Field, Keys, MainAction, PlainAction, Screen, Slat, Toggle};
use crate::words::format::{self, sign};
use crate::words::{apply as words, bath};

/// Step three.
pub(super) fn mix(work: Work) -> impl IntoView {
    let (hand, targets) = (work.mixing(), work.targets());
    let chosen = hand.part(|mixing| mixing.product.is_some());
    let go_on = Callback::new(move |()| {
        let mut draft = work.draft.get_untracked();
        let ready = work
            .ledger
            .look(|state, at| draft.ready_to_mix(state, at.today));
        match ready {
            Err(fault) => {
                work.fault.set(Some(fault));
            }
            Ok(_) => hand.keep_on_bottle(move || {
                work.change(|kept| {
                    *kept = draft;
                    kept.step = ApplyStep::Safety;
                });
            }),
        }
    });
    let actions = move || {
        move || {
            chosen.get().then(|| {
                view! { <MainAction label=bath::SAFETY_FIRST.to_owned() on_press=go_on busy=work.ledger.busy() /> }
            })
        }
    };
    let body = bottle(hand, move || {
        view! {
            {purpose(hand)}
            {reentry(hand)}
            {never_together(hand, targets)}
            {how_much(work)}
            {airing(work)}
            {had_before(hand, targets)}
            {second(hand, targets)}
            {then(hand)}
            {worked(work)}
        }
        .into_any()
    });
    view! {
        <Screen
            title=bath::BOTTLE
            over=work.over()
            back=move || work.back()
            actions
            notice=notices
            rooms=|| room_bar(Route::Treat)
        >
            {body}
            <div class="form">
                <PlainAction label=words::BACK_TO_WHAT.to_owned() on_press=work.step(ApplyStep::What) />
                <PlainAction label=words::GIVE_UP.to_owned() on_press=work.give_up() />
            </div>
        </Screen>
    }
}

/// A field of an amount.
fn amount(
    work: Work,
    (label, hint, metric): (&'static str, &'static str, Unit),
    get: fn(&ApplyDraft) -> &String,
    set: fn(&mut ApplyDraft, String),
) -> impl IntoView {
    let value = Memo::new(move |_| work.draft.with(|draft| get(draft).clone()));
    view! {
        <Field
            label
            hint=hint
            value=own_units::shown(value, metric)
            on_input=Callback::new(move |text| {
                let text = own_units::typed(text, metric);
                work.change(|draft| set(draft, text));
            })
            unit=sign(metric)
            keys=Keys::Decimal
            max_chars=24
        />
    }
}

/// How much of it, by the way it is put on.
fn how_much(work: Work) -> impl IntoView {
    let method = work.part(|draft| draft.method);
    let by_area = work.part(|draft| draft.water.by_area);
    let neat = work.part(|draft| draft.water.neat);
    let fields = move || match method.get() {
        Some(Method::Drench) => amount(
            work,
            (words::PER_POT, words::PER_POT_HINT, Unit::Millilitre),
            |draft| &draft.water.per_pot,
            |draft, text| draft.water.per_pot = text,
        )
        .into_any(),
        Some(Method::Swab) => view! {
            <Toggle
                label=words::NEAT
                on=neat
                on_switch=Callback::new(move |on: bool| work.change(|draft| draft.water.neat = on))
                on_word=words::YES
                off_word=words::NO
            />
            {amount(
                work,
                (words::CUP, words::CUP_HINT, Unit::Millilitre),
                |draft| &draft.water.cup,
                |draft, text| draft.water.cup = text,
            )}
        }
        .into_any(),
        Some(Method::DustCut) => amount(
            work,
            (words::GRAMS, "", Unit::Gram),
            |draft| &draft.water.grams,
            |draft, text| draft.water.grams = text,
        )
        .into_any(),
        _ => {
            let litres = move || {
                (!by_area.get()).then(|| {
                    amount(
                        work,
                        (words::litres(), "", Unit::Litre),
                        |draft| &draft.water.litres,
                        |draft, text| draft.water.litres = text,
                    )
                })
            };
            let per_m2 = move || {
                by_area.get().then(|| {
                    amount(
                        work,
                        (words::PER_M2, words::PER_M2_HINT, Unit::Millilitre),
                        |draft| &draft.water.per_m2,
                        |draft, text| draft.water.per_m2 = text,
                    )
                })
            };
            view! {
                <Toggle
                    label=words::BY_AREA
                    on=by_area
                    on_switch=Callback::new(move |on: bool| work.change(|draft| draft.water.by_area = on))
                    on_word=words::YES
                    off_word=words::NO
                />
                {litres}
                {per_m2}
            }
            .into_any()
        }
    };
    let said = Memo::new(move |_| {
        let draft = work.draft.get();
        work.ledger.follow(|state, _| match draft.method {
            Some(Method::Drench) => draft
                .drenched(state)
                .filter(|all| all.unknown < all.pots)
                .map(|all| words::drenched(&all)),
            Some(Method::Spray) if draft.water.by_area => {
                let area = area_of(state, draft.place?)?;
                let water = draft.water(state).ok()??;
                let (figure, _) = format::measured(area.mm2() / 1_000, "", "");
                Some(words::on_area(&figure, water))
            }
            _ => None,
        })
    });
    view! {
        <Slat name=words::HOW_MUCH />
        <div class="form">
            {fields}
            {move || said.get().map(|said| view! { <p class="soft">{said}</p> })}
            <Refusal words=work.says(|fault| matches!(fault, ApplyFault::Water(_))) />
        </div>
    }
}

/// How the house is aired, where that has to be said.
fn airing(work: Work) -> impl IntoView {
    let asked = Memo::new(move |_| {
        let draft = work.draft.get();
        work.ledger
            .follow(|state, _| (draft.asks_airing(state), draft.airing_called_for(state)))
    });
    let aired = work.part(|draft| draft.aired);
    move || {
        let (asked, called_for) = asked.get();
        asked.then(|| {
            let ways = [Airing::Fans, Airing::Vents, Airing::Shut]
                .map(|how| (Aired::By(how), words::airing(how)));
            let none = (Aired::NotCalledFor, words::NOT_CALLED_FOR.to_owned());
            let ways: Vec<_> = ways
                .into_iter()
                .chain((!called_for).then_some(none))
                .collect();
            view! {
                <div class="form">
                    {called_for.then(|| view! { <p class="strong">{words::AIRING_CALLED_FOR}</p> })}
                    <p class="soft">{words::AIRING_WHY}</p>
                    {one_of(words::AIRING, ways, aired.into(), move |aired| work.change(|draft| draft.aired = aired))}
                    <Refusal words=work.says(|fault| *fault == ApplyFault::AiringNotSaid) />
                </div>
            }
        })
    }
}

/// What it comes to, as soon as it can be worked out.
pub(super) fn worked(work: Work) -> impl IntoView {
    let measured = Memo::new(move |_| {
        let draft = work.draft.get();
        work.ledger.follow(|state, _| draft.measured(state)).ok()
    });
    let dose = Memo::new(move |_| {
        let draft = work.draft.get();
        work.ledger.follow(|state, _| draft.dose(state))
    });
    let hand = work.mixing();
    let water = Memo::new(move |_| match measured.get()? {
        Measured::Mixed(mixture) => Some(mixture.water),
        Measured::AsItIs(_) => None,
    });
    move || {
        let view = match measured.get()? {
            Measured::AsItIs(amount) => {
                let (figure, unit) = bath::amount(amount);
                view! { <Amount value=figure unit=unit.to_owned() /> }.into_any()
            }
            Measured::Mixed(mixture) => {
                let (figure, unit) = bath::amount(mixture.amount);
                let litres = format::litres_exact(mixture.water);
                let actives = mixture
                    .active_mg_per_l
                    .iter()
                    .map(|(name, mg)| view! { <p class="soft">{bath::active(name, *mg)}</p> })
                    .collect_view();
                view! {
                    <Amount value=figure unit=bath::into_water(unit, &litres) />
                    {fills(work.ledger, dose)}
                    {also_into_it(hand, water)}
                    {actives}
                }
                .into_any()
            }
        };
        Some(view! {
            <Slat name=bath::MEASURE />
            <div class="edge stack">
                {view}
                <p class="strong">{bath::LAW}</p>
            </div>
        })
    }
}
