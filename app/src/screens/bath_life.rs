//! The life of the bath on the screen where the next pieces go in: its age, its level, and when it is thrown out.

use leptos::prelude::*;
use velamen_core::bath::LevelFault;
use velamen_core::quantity::Unit;

use super::bath::{Tub, draft_key};
use super::lot_parts::Refusal;
use super::own_units;
use crate::ledger::Act;
use crate::ui::{Field, Keys, PlainAction, Toggle};
use crate::words::format::sign;
use crate::words::{bath_life as words, rejection, told, treat};

/// Why it is thrown out, how old it is, how strong the rest still is.
pub(super) fn life(tub: Tub) -> impl IntoView {
    let reasons = Memo::new(move |_| {
        let draft = tub.draft.get();
        tub.ledger.follow(|state, at| {
            let mut said: Vec<&'static str> = Vec::new();
            let out = draft.throw_out(at.today, at.off_min);
            said.extend(out.into_iter().map(words::throw_out));
            if draft.healthy_after_spotted(state) {
                said.push(words::HEALTHY_AFTER);
            }
            said
        })
    });
    let age = Memo::new(move |_| {
        let draft = tub.draft.get();
        tub.ledger
            .follow(|_, at| words::age(draft.age(at.now_ms), draft.life.pieces))
    });
    let strength = Memo::new(move |_| {
        tub.draft.with(|draft| {
            let left = draft.strength_left()?;
            Some(words::strength(left, draft.fell(), draft.per_piece()))
        })
    });
    let warnings = move || {
        let rows = reasons.get().into_iter();
        rows.map(|why| view! { <p class="warn">{why}</p> })
            .collect_view()
    };
    view! {
        {warnings}
        <p class="edge">{age}</p>
        {move || strength.get().map(|said| view! { <p class="edge">{said}</p> })}
        <details class="more-of-it">
            <summary>{words::LEVEL_AND_DIRT}</summary>
            <LevelForm tub />
        </details>
    }
}

#[component]
fn LevelForm(tub: Tub) -> impl IntoView {
    let typed = tub.part(|draft| draft.life.level_typed.clone());
    let dirty = tub.part(|draft| draft.life.dirty);
    let in_litres = tub.part(|draft| draft.tub.shape == velamen_core::bath::TubShape::Litres);
    let refused = RwSignal::new(String::new());
    let read = Callback::new(move |()| {
        let mut draft = tub.draft.get_untracked();
        match draft.read_level() {
            Ok(()) => tub.change(|kept| *kept = draft),
            Err(LevelFault::Tub(fault)) => refused.set(words::level_fault(&fault)),
            Err(LevelFault::Higher) => refused.set(words::HIGHER.to_owned()),
        }
    });
    let field = move || {
        let (label, metric) = if in_litres.get() {
            (words::litres_now(), Unit::Litre)
        } else {
            (words::STANDS_NOW, Unit::Centimetre)
        };
        let on_input = Callback::new(move |text| {
            refused.set(String::new());
            let text = own_units::typed(text, metric);
            tub.change(|draft| draft.life.level_typed = text);
        });
        let (value, unit) = (own_units::shown(typed, metric), sign(metric));
        view! { <Field label value on_input unit keys=Keys::Decimal max_chars=24 /> }
    };
    view! {
        <div class="form">
            {field}
            <Refusal words=refused />
            <PlainAction label=words::READ.to_owned() on_press=read />
            {top_up(tub)}
            <Toggle
                label=words::DIRTY
                on=dirty
                on_switch=Callback::new(move |on: bool| tub.change(|draft| draft.life.dirty = on))
                on_word=treat::YES
                off_word=treat::NO
            />
        </div>
    }
}

/// What fills it up at its own strength, written down so that another phone sees it.
fn top_up(tub: Tub) -> impl IntoView {
    let refused = RwSignal::new(String::new());
    let missing = Memo::new(move |_| {
        let draft = tub.draft.get();
        tub.ledger.follow(|state, _| draft.top_up(state))
    });
    let press = Callback::new(move |()| {
        let draft = tub.draft.get_untracked();
        let Some((command, after)) = tub.ledger.look(|state, _| draft.topped_up(state)) else {
            return;
        };
        let act = Act::new(command, told::done(words::TOPPED))
            .leaves_draft(draft_key(tub.number), &after);
        tub.ledger
            .act(act.otherwise(move |no| refused.set(rejection::say(&no))));
    });
    move || {
        missing.get().map(|(water, amount)| {
            view! {
                <p class="soft">{words::TOP_UP_HINT}</p>
                <PlainAction label=words::top_up(water, amount) on_press=press busy=tub.ledger.busy() />
                <Refusal words=refused />
            }
        })
    }
}
