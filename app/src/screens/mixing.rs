//! The part of a screen that every way of using a product shares: the bottle, what its label says of this way, what it is
//! against, what holds it and what it must never meet.

use leptos::prelude::*;
use velamen_core::apply::{BottleDraft, Fit, MixFault, Mixing};
use velamen_core::bath::Named;
use velamen_core::event::{AgentClass, Event, Method};
use velamen_core::quantity::Amount;
use velamen_core::reference::never;
use velamen_core::rotation::Target;
use velamen_core::view::shed;
use velamen_core::view::treat::{ProductRow, products};

use super::lot_parts::{Count, Refusal, one_of};
use super::mixing_rate::{label_link, own_rate};
use super::photos::{Photos, PickPhotos};
use super::rate_field::RateField;
use crate::ledger::{Act, Ledger};
use crate::ui::{Bottle, Field, MainAction, PlainAction, Slat, Toggle};
use crate::words::{bath, mixing as words, rejection, told, treat};

/// What is done to the part of a draft that this screen part is about.
type Change = Box<dyn FnOnce(&mut Mixing)>;

/// A hand on the mixing part of some draft.
#[derive(Clone, Copy)]
pub(super) struct Hand {
    pub(super) ledger: Ledger,
    pub(super) method: Signal<Method>,
    pub(super) mixing: Memo<Mixing>,
    /// What is measured out of the bottle, as soon as it can be worked out.
    pub(super) amount: Memo<Option<Amount>>,
    pub(super) fault: Signal<Option<MixFault>>,
    pub(super) change: Callback<Change>,
}

impl Hand {
    pub(super) fn change(self, how: impl FnOnce(&mut Mixing) + 'static) {
        self.change.run(Box::new(how));
    }

    pub(super) fn part<T>(self, get: fn(&Mixing) -> T) -> Memo<T>
    where
        T: PartialEq + Send + Sync + 'static,
    {
        Memo::new(move |_| self.mixing.with(get))
    }

    /// The sentence for a fault of that kind; empty when there is none.
    pub(super) fn says(self, of: fn(&MixFault) -> bool) -> Signal<String> {
        Signal::derive(move || {
            let method = self.method.get();
            self.fault
                .with(|fault| {
                    let fault = fault.as_ref().filter(|fault| of(fault));
                    fault.map(|fault| words::fault(fault, method))
                })
                .unwrap_or_default()
        })
    }

    /// Says what it is against: the label may have other figures for that.
    fn go_against(self, agent: Option<AgentClass>) {
        let (mut mixing, method) = (self.mixing.get_untracked(), self.method.get_untracked());
        self.ledger
            .look(|state, _| mixing.go_against(state, method, agent));
        self.change(move |now| *now = mixing);
    }

    /// Keeps on the bottle what was typed here and belongs there, and then goes on.
    pub(super) fn keep_on_bottle(self, go_on: impl FnOnce() + 'static) {
        let (mixing, method) = (self.mixing.get_untracked(), self.method.get_untracked());
        match self
            .ledger
            .look(|state, _| mixing.to_the_bottle(state, method))
        {
            None => go_on(),
            Some(keep) => self
                .ledger
                .act(Act::new(keep, "").for_good().then(move |_| go_on())),
        }
    }
}

/// The bottle: chosen, being put on the shelf, or still to be chosen. What is asked once it is chosen comes after it.
pub(super) fn bottle(
    hand: Hand,
    rest: impl Fn() -> AnyView + Send + Sync + 'static,
) -> impl IntoView {
    let chosen = hand.part(|mixing| mixing.product.is_some());
    let new = hand.part(|mixing| mixing.bottle.is_some());
    move || {
        if chosen.get() {
            view! { <ChosenBottle hand /> {rest()} }.into_any()
        } else if new.get() {
            view! { <NewBottle hand /> }.into_any()
        } else {
            view! { <Shelf hand /> }.into_any()
        }
    }
}

/// The bottles on the shelf; with none there, the first is put there.
#[component]
fn Shelf(hand: Hand) -> impl IntoView {
    let rows = hand.ledger.ask(|state, _| products(state));
    let begin = move || hand.change(|mixing| mixing.bottle = Some(BottleDraft::default()));
    let list = move || {
        let rows = rows.get();
        if rows.is_empty() {
            begin();
            return ().into_any();
        }
        let rows = rows.into_iter().map(move |row| {
            let product = row.product;
            let take = move |_| hand.change(move |mixing| mixing.product = Some(product));
            view! { <button type="button" class="pick" on:click=take>{bottle_of(row)}</button> }
        });
        rows.collect_view().into_any()
    };
    view! {
        <Slat name=bath::WHICH />
        {list}
        <div class="form">
            <PlainAction label=bath::ANOTHER.to_owned() on_press=Callback::new(move |()| begin()) />
        </div>
    }
}

fn bottle_of(row: ProductRow) -> impl IntoView {
    let missing = treat::still_missing(&row.missing);
    view! { <Bottle name=row.label_name rate=row.rate_typed note=missing /> }
}

fn being_put_there(mixing: &Mixing) -> BottleDraft {
    mixing.bottle.clone().unwrap_or_default()
}

/// A bottle put on the shelf from its name and its rate; the rest is still missing.
#[component]
fn NewBottle(hand: Hand) -> impl IntoView {
    let name = hand.part(|mixing| being_put_there(mixing).name);
    let rate = hand.part(|mixing| being_put_there(mixing).rate);
    let photos = Signal::derive(move || {
        let photo = hand
            .mixing
            .with(|mixing| being_put_there(mixing).label_photo);
        photo.into_iter().collect::<Vec<_>>()
    });
    let refused = RwSignal::new(String::new());
    let edit = move |how: Box<dyn FnOnce(&mut BottleDraft)>| {
        let _ = refused.try_set(String::new());
        hand.change(move |mixing| how(mixing.bottle.get_or_insert_default()));
    };
    let put = Callback::new(move |()| {
        let Some(bottle) = hand.mixing.with_untracked(|mixing| mixing.bottle.clone()) else {
            return;
        };
        let act = Act::new(bottle.command(), told::done(bath::ON_THE_SHELF)).then(move |done| {
            if let Some(Event::ProductSet(set)) = done.events.first() {
                let product = set.product;
                hand.change(move |mixing| {
                    mixing.bottle = None;
                    mixing.product = Some(product);
                });
            }
        });
        hand.ledger
            .act(act.otherwise(move |no| refused.set(rejection::say(&no))));
    });
    view! {
        <Slat name=bath::BOTTLE />
        <div class="form">
            <Field
                label=bath::NAME
                value=name
                on_input=Callback::new(move |text: String| edit(Box::new(|bottle| bottle.name = text)))
                max_chars=200
            />
            <RateField
                label=bath::RATE
                hint=bath::RATE_HINT
                value=rate
                on_input=Callback::new(move |text: String| edit(Box::new(|bottle| bottle.rate = text)))
            />
            <Refusal words=refused />
            <p class="soft">{bath::RATE_LATER}</p>
            <PickPhotos
                label=bath::PHOTO
                hint=bath::PHOTO_HINT
                photos
                most=1
                on_add=move |photo| edit(Box::new(|bottle| bottle.label_photo = Some(photo)))
                on_remove=move |_| edit(Box::new(|bottle| bottle.label_photo = None))
            />
            <MainAction label=bath::TO_THE_SHELF.to_owned() on_press=put busy=hand.ledger.busy() />
        </div>
    }
}

/// The bottle taken, with what its label lacks typed here.
#[component]
fn ChosenBottle(hand: Hand) -> impl IntoView {
    let product = hand.part(|mixing| mixing.product);
    let row = Memo::new(move |_| {
        let id = product.get();
        hand.ledger.follow(|state, _| {
            products(state)
                .into_iter()
                .find(|row| Some(row.product) == id)
        })
    });
    let on_label = Memo::new(move |_| {
        let (mixing, method) = (hand.mixing.get(), hand.method.get());
        hand.ledger
            .follow(|state, _| mixing.on_label(state, method))
    });
    let asks_rate = Memo::new(move |_| {
        hand.method.get() != Method::DustCut && on_label.with(|label| label.rate_typed.is_empty())
    });
    let asks = Memo::new(move |_| on_label.with(|label| label.named == Named::NotTyped));
    let silent = Memo::new(move |_| {
        let (mixing, method) = (hand.mixing.get(), hand.method.get());
        hand.ledger
            .follow(|state, _| mixing.label(state, method).named == Named::No)
    });
    let rate = hand.part(|mixing| mixing.rate.clone());
    let reason = hand.part(|mixing| mixing.reason.clone());
    let named = hand.part(|mixing| mixing.method_named);
    let change = Callback::new(move |()| hand.change(Mixing::put_back));
    let rate_field = move || {
        asks_rate.get().then(|| view! {
            <RateField
                label=bath::RATE
                hint=bath::RATE_HINT
                value=rate
                on_input=Callback::new(move |text| hand.change(|mixing| mixing.rate = text))
                error=hand.says(|fault| matches!(fault, MixFault::NoRate | MixFault::BadRate(_) | MixFault::RateByArea))
            />
        })
    };
    let method_named = move || {
        asks.get().then(|| {
            let method = hand.method.get();
            let answers = vec![
                (Some(true), words::label_names(method).to_owned()),
                (Some(false), words::SILENT.to_owned()),
            ];
            view! {
                {one_of(words::label_says(method), answers, named.into(), move |named| hand.change(move |mixing| mixing.method_named = named))}
                <Refusal words=hand.says(|fault| *fault == MixFault::MethodNotSaid) />
            }
        })
    };
    let why = move || {
        silent.get().then(|| {
            view! {
                <p class="warn">{words::silent_warning(hand.method.get())}</p>
                <Field
                    label=bath::REASON
                    value=reason
                    on_input=Callback::new(move |text| hand.change(|mixing| mixing.reason = text))
                    error=hand.says(|fault| *fault == MixFault::NoReason)
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
            {label_link(hand)}
            <PlainAction label=bath::CHANGE.to_owned() on_press=change />
        </div>
        <div class="form">
            {rate_field}
            {own_rate(hand, asks_rate)}
            <Refusal words=Signal::derive(move || if asks_rate.get() { String::new() } else {
                hand.says(|fault| matches!(fault, MixFault::BadRate(_) | MixFault::RateByArea | MixFault::NoContent)).get()
            }) />
            {method_named}
            {why}
        </div>
    }
}

/// Against what, and whether what is in the bottle acts on it.
pub(super) fn purpose(hand: Hand) -> impl IntoView {
    let against = hand.part(|mixing| mixing.against);
    let preventing = hand.part(|mixing| mixing.preventing);
    let finding = hand.part(|mixing| mixing.finding);
    let agents = AgentClass::ALL
        .map(|agent| (Some(agent), treat::agent(agent).to_owned()))
        .to_vec();
    let seen = move || {
        let id = finding.get()?;
        let sign = hand.ledger.follow(|state, _| {
            let known = state.facts().findings.get(&id)?;
            Some(crate::words::trade::sign(&known.event.sign).to_lowercase())
        })?;
        Some(view! { <p class="strong">{bath::seen(&sign)}</p> })
    };
    view! {
        <div class="form">
            {seen}
            {one_of(treat::AGAINST, agents, against.into(), move |agent| hand.go_against(agent))}
            <Refusal words=hand.says(|fault| *fault == MixFault::NoAgent) />
            {target(hand)}
            <Toggle
                label=treat::PREVENTING
                on=preventing
                on_switch=Callback::new(move |on: bool| hand.change(move |mixing| mixing.preventing = on))
                on_word=treat::YES
                off_word=treat::NO
            />
        </div>
    }
}

/// Held with the reason where the product is not known to act on what it is for.
fn target(hand: Hand) -> impl IntoView {
    let fit = Memo::new(move |_| {
        let (mixing, method) = (hand.mixing.get(), hand.method.get());
        hand.ledger.follow(|state, _| mixing.fit(state, method))
    });
    let reason = hand.part(|mixing| mixing.target_reason.clone());
    move || {
        match fit.get()? {
        Fit::Acts => None,
        Fit::Partly => {
            Some(view! { <p class="soft">{words::TARGET_PARTLY}</p> }.into_any())
        }
        Fit::NotKnown => {
            Some(view! { <p class="soft">{words::TARGET_NOT_KNOWN}</p> }.into_any())
        }
        Fit::Held(held) => Some(
            view! {
                <p class="warn">{words::held(&held)} " " {words::instead(&held.instead)}</p>
                <Field
                    label=words::TARGET_REASON
                    hint=words::TARGET_REASON_HINT
                    value=reason
                    on_input=Callback::new(move |text| hand.change(|mixing| mixing.target_reason = text))
                    error=hand.says(|fault| *fault == MixFault::NoTargetReason)
                    max_chars=1000
                />
            }
            .into_any(),
        ),
    }
    }
}

/// Hours until bare hands, as the label says or as typed here.
pub(super) fn reentry(hand: Hand) -> impl IntoView {
    let label = Memo::new(move |_| {
        let (mixing, method) = (hand.mixing.get(), hand.method.get());
        hand.ledger
            .follow(|state, _| mixing.label(state, method).reentry_h)
    });
    let hours = Signal::derive(move || i64::from(label.get().unwrap_or(0)));
    let hint = Signal::derive(move || {
        let words = if label.get().is_some() {
            bath::REENTRY_HINT
        } else {
            bath::REENTRY_MISSING
        };
        words.to_owned()
    });
    view! {
        <Count
            label=bath::REENTRY
            hint
            count=hours
            unknown=Signal::derive(move || label.get().is_none())
            on_count=Callback::new(move |hours| hand.change(move |mixing| mixing.reentry_h = u32::try_from(hours).ok()))
        />
    }
}

/// What would meet that must not, and what must never meet this at all.
pub(super) fn never_together(hand: Hand, targets: Memo<Vec<Target>>) -> impl IntoView {
    let said = Memo::new(move |_| {
        let mixing = hand.mixing.get();
        let targets = targets.get();
        hand.ledger.follow(|state, at| {
            let met = mixing.meetings(state, &targets, at.today);
            let met: Vec<String> = met
                .iter()
                .map(|met| words::meeting(met, at.today))
                .collect();
            let product = state.facts().products.get(&mixing.product?)?;
            let stuffs = never::of_product(&product.actives.or_default());
            let rules: Vec<String> = never::of(&stuffs)
                .into_iter()
                .map(|(pair, _)| words::pair(pair))
                .collect();
            let by_label = mixing.label(state, hand.method.get()).never_with;
            Some((met, rules, by_label))
        })
    });
    move || {
        let (met, rules, by_label) = said.get()?;
        let by_label = (!by_label.is_empty())
            .then(|| view! { <p class="warn">{words::never_by_label(&by_label)}</p> });
        let warned = (!met.is_empty()).then(|| {
            let rows = met
                .into_iter()
                .map(|met| view! { <p class="warn">{met}</p> });
            view! { <Slat name=words::NEVER /> {rows.collect_view()} }
        });
        let rules = rules.into_iter().map(|rule| view! { <li>{rule}</li> });
        Some(view! {
            {warned}
            {by_label}
            <details class="more-of-it">
                <summary>{words::NEVER_BESIDE}</summary>
                <ul class="before-it">{rules.collect_view()}</ul>
            </details>
        })
    }
}

/// The same for a disinfectant: what was in tub and measures these days.
pub(super) fn never_after(agent: Memo<String>) -> impl IntoView {
    let ledger = Ledger::here();
    let said = Memo::new(move |_| {
        let stuffs = never::of_agent(&agent.get());
        ledger.follow(|state, at| {
            let met = velamen_core::apply::meetings(state, &stuffs, &[], at.today);
            met.iter()
                .map(|met| words::meeting(met, at.today))
                .collect::<Vec<_>>()
        })
    });
    move || {
        let rows = said.get().into_iter();
        rows.map(|met| view! { <p class="warn">{met}</p> })
            .collect_view()
    }
}

/// What is seen to before a bottle is opened, and whom to call.
pub(super) fn before_it(ledger: Ledger, cautions: [&'static str; 5]) -> impl IntoView {
    let poisons = ledger.ask(|state, _| shed::nursery(state).poisons_number);
    let number = move || {
        let number = poisons.get();
        if number.is_empty() {
            treat::NO_POISONS.to_owned()
        } else {
            treat::poisons(&number)
        }
    };
    let rows = cautions.map(|caution| view! { <li>{caution}</li> });
    view! {
        <ul class="before-it">{rows.into_iter().collect_view()}</ul>
        <p class="edge">{treat::CONTACT} " " <strong>{number}</strong></p>
        <p class="edge soft">{treat::ORIGIN}</p>
    }
}
