//! Uses of a product as its label gives them, each naming its ways of applying.

use leptos::prelude::*;
use velamen_core::event::{AgentClass, Method};
use velamen_core::id::ProductId;
use velamen_core::label_draft::{LabelField, UseDraft, UseNumber};
use velamen_core::view::treat::products;

use super::product::InHand;
use super::rate_field::RateField;
use crate::ledger::Ledger;
use crate::ui::{Field, Keys, PlainAction, Several, Slat, Toggle};
use crate::words::{bath, bath_life, product as words, treat};

const METHODS: [Method; 6] = [
    Method::Bath,
    Method::Plunge,
    Method::Drench,
    Method::Spray,
    Method::Swab,
    Method::DustCut,
];
/// What a label can be against.
const AGAINST: [AgentClass; 6] = [
    AgentClass::Fungus,
    AgentClass::WaterMould,
    AgentClass::Bacterium,
    AgentClass::Insect,
    AgentClass::Mite,
    AgentClass::Mollusc,
];

/// All of them, and one more.
pub(super) fn uses(hand: InHand) -> impl IntoView {
    let count = hand.part(|draft| draft.uses.len());
    let rows = move || {
        (0..count.get())
            .map(|at| view! { <OneUse hand at /> })
            .collect_view()
    };
    let add = Callback::new(move |()| hand.change(velamen_core::label_draft::LabelDraft::add_use));
    view! {
        <div id="label-uses">
            <Slat name=words::USES />
            <p class="edge soft">{words::USES_HINT}</p>
            {rows}
            <div class="form"><PlainAction label=words::ANOTHER_USE.to_owned() on_press=add /></div>
        </div>
    }
}

#[derive(Clone, Copy)]
struct Of {
    hand: InHand,
    at: usize,
}

impl Of {
    fn edit(self, how: impl FnOnce(&mut UseDraft)) {
        let at = self.at;
        self.hand.change(|draft| {
            if let Some(one) = draft.uses.get_mut(at) {
                how(one);
            }
        });
    }

    fn part<T>(self, get: impl Fn(&UseDraft) -> T + Send + Sync + 'static) -> Memo<T>
    where
        T: PartialEq + Default + Send + Sync + 'static,
    {
        let at = self.at;
        self.hand
            .part(move |draft| draft.uses.get(at).map(&get).unwrap_or_default())
    }
}

#[component]
fn OneUse(hand: InHand, at: usize) -> impl IntoView {
    let of = Of { hand, at };
    let title = of.part(|one| words::use_title(&one.methods));
    let remove = move |_| {
        hand.change(|draft| {
            if at < draft.uses.len() {
                draft.uses.remove(at);
            }
        });
    };
    view! {
        <div class="form part-of-label">
            <p class="strong">{title}</p>
            <WaysAndAims of />
            <Rates of />
            <Numbers of />
            <Sentences of />
            <Beside of />
            <button type="button" class="quiet" on:click=remove>{move || words::remove_use(&title.get())}</button>
        </div>
    }
}

#[component]
fn WaysAndAims(of: Of) -> impl IntoView {
    let methods = of.part(|one| places(&METHODS, &one.methods));
    let against = of.part(|one| places(&AGAINST, &one.against));
    view! {
        <Several
            legend=words::METHODS
            words=METHODS.map(|method| words::method(method).to_owned()).to_vec()
            ticked=methods
            on_switch=Callback::new(move |at: usize| of.edit(|one| switch(&mut one.methods, METHODS.get(at))))
        />
        <Several
            legend=treat::AGAINST
            words=AGAINST.map(|agent| treat::agent(agent).to_owned()).to_vec()
            ticked=against
            on_switch=Callback::new(move |at: usize| of.edit(|one| switch(&mut one.against, AGAINST.get(at))))
        />
    }
}

#[component]
fn Rates(of: Of) -> impl IntoView {
    let rate = of.part(|one| one.rate.clone());
    let most = of.part(|one| one.most.clone());
    view! {
        <RateField
            label=words::RATE_LEAST
            hint=bath::RATE_HINT
            value=rate
            on_input=Callback::new(move |text| of.edit(|one| one.rate = text))
            error=of.hand.wrong(LabelField::UseRate(of.at))
        />
        <RateField
            label=words::RATE_MOST
            hint=words::RATE_MOST_HINT
            value=most
            on_input=Callback::new(move |text| of.edit(|one| one.most = text))
            error=of.hand.wrong(LabelField::UseMost(of.at))
        />
    }
}

#[component]
fn Numbers(of: Of) -> impl IntoView {
    UseNumber::ALL
        .map(|which| {
            let value = of.part(move |one| one.number(which).to_owned());
            let ph = matches!(which, UseNumber::PhLeast | UseNumber::PhMost);
            let keys = if ph { Keys::Decimal } else { Keys::Digits };
            view! {
                <Field
                    label=words::number(which)
                    value
                    on_input=Callback::new(move |text| of.edit(|one| one.set_number(which, text)))
                    error=of.hand.wrong(LabelField::Number(of.at, which))
                    keys
                    max_chars=8
                />
            }
        })
        .collect_view()
}

#[component]
fn Sentences(of: Of) -> impl IntoView {
    let gear = of.part(|one| one.gear.clone());
    let never = of.part(|one| one.never_with.clone());
    let note = of.part(|one| one.note.clone());
    view! {
        <Field
            label=words::GEAR
            value=gear
            on_input=Callback::new(move |text| of.edit(|one| one.gear = text))
            max_chars=4000
        />
        <Field
            label=words::NEVER_WITH
            value=never
            on_input=Callback::new(move |text| of.edit(|one| one.never_with = text))
            max_chars=4000
        />
        <Field
            label=treat::NOTE
            value=note
            on_input=Callback::new(move |text| of.edit(|one| one.note = text))
            max_chars=4000
        />
    }
}

/// What the label allows in one tank with it, and whether it calls for airing.
#[component]
fn Beside(of: Of) -> impl IntoView {
    let airing = of.part(|one| one.airing);
    let own = of.hand.product;
    let rows = Ledger::here().ask(move |state, _| {
        let rows = products(state).into_iter();
        rows.filter(|row| row.product != own)
            .map(|row| (row.product, row.label_name))
            .collect::<Vec<_>>()
    });
    let with = of.part(|one| one.mix_with.clone());
    let partners = move || {
        let rows = rows.get();
        (!rows.is_empty()).then(|| {
            let (ids, names): (Vec<ProductId>, Vec<String>) = rows.into_iter().unzip();
            let ticked = {
                let ids = ids.clone();
                Memo::new(move |_| with.with(|with| places(&ids, with)))
            };
            view! {
                <Several
                    legend=words::MIX_WITH
                    words=names
                    ticked
                    on_switch=Callback::new(move |at: usize| of.edit(|one| switch(&mut one.mix_with, ids.get(at))))
                />
            }
        })
    };
    view! {
        {partners}
        <Toggle
            label=bath_life::POTS_ALLOWED
            on=of.part(|one| one.pots_too)
            on_switch=Callback::new(move |on: bool| of.edit(|one| one.pots_too = on))
            on_word=treat::YES
            off_word=treat::NO
        />
        <Toggle
            label=words::CALLS_FOR_AIRING
            on=airing
            on_switch=Callback::new(move |on: bool| of.edit(|one| one.airing = on))
            on_word=treat::YES
            off_word=treat::NO
        />
    }
}

/// Where those chosen stand in the list.
fn places<T: PartialEq>(all: &[T], chosen: &[T]) -> Vec<usize> {
    (0..)
        .zip(all)
        .filter(|(_, one)| chosen.contains(one))
        .map(|(at, _)| at)
        .collect()
}

fn switch<T: PartialEq + Copy>(chosen: &mut Vec<T>, one: Option<&T>) {
    let Some(one) = one else { return };
    match chosen.iter().position(|known| known == one) {
        Some(at) => drop(chosen.remove(at)),
        None => chosen.push(*one),
    }
}
