//! One protocol: days, strength, on and off; what would move is told before it is kept.

use leptos::prelude::*;
use velamen_core::command::Command;
use velamen_core::id::ProtocolId;
use velamen_core::limits::OFFSET_DAYS_MAX;
use velamen_core::task::{Light, Protocol as Content, Step, TaskKind, Timing};
use velamen_core::view::protocol::{edit_effect, fresh_step, kinds_for_steps, open_work, preview};

use super::lot::strip;
use super::lot_parts::{Refusal, one_of};
use super::protocol_step::step_more;
use crate::frame::{notices, room_bar};
use crate::ledger::{Act, Ledger};
use crate::route::Route;
use crate::ui::{MainAction, PlainAction, Screen, Slat, Stepper, Toggle, TopBack};
use crate::words::{book, protocol as words_of_step, rejection, repot, rooms, shed as words, task};

/// A protocol in hand.
#[derive(Clone, Copy)]
pub(super) struct InHand {
    ledger: Ledger,
    key: StoredValue<String>,
    shown: Memo<Option<Content>>,
    refused: RwSignal<String>,
}

impl InHand {
    pub(super) fn edit(self, at: usize, how: impl FnOnce(&mut Step)) {
        self.refused.set(String::new());
        if let Some(mut content) = self.shown.get_untracked() {
            if let Some(step) = content.steps.get_mut(at) {
                how(step);
            }
            self.key
                .with_value(|key| self.ledger.keep_draft(key, &Some(content)));
        }
    }

    /// Adds a step, or takes one out; what was open under it is told before it is kept.
    fn change(self, how: impl FnOnce(&mut Content)) {
        self.refused.set(String::new());
        if let Some(mut content) = self.shown.get_untracked() {
            how(&mut content);
            self.key
                .with_value(|key| self.ledger.keep_draft(key, &Some(content)));
        }
    }

    /// The other steps that ask how it looks, by key: one may wait for their answer.
    pub(super) fn asking(self, at: usize) -> Vec<(String, TaskKind)> {
        let steps = self.shown.get().map(|content| content.steps);
        let steps = steps.into_iter().flatten().enumerate();
        steps
            .filter(|(other, step)| *other != at && step.kind.def().asks_outcome)
            .map(|(_, step)| (step.key, step.kind))
            .collect()
    }

    pub(super) fn step(self, at: usize) -> Memo<Option<Step>> {
        Memo::new(move |_| {
            self.shown
                .with(|shown| shown.as_ref()?.steps.get(at).cloned())
        })
    }
}

/// The screen. Kept as a draft until it is kept for good.
#[component]
pub fn Protocol(protocol: ProtocolId) -> impl IntoView {
    let ledger = Ledger::here();
    let key = format!("protocol-{protocol}");
    let current = ledger.ask(move |state, _| {
        let known = state.facts().protocols.get(&protocol)?;
        known.current().map(|revision| revision.content.clone())
    });
    let draft = ledger.draft_at::<Option<Content>>(key.clone());
    let shown = Memo::new(move |_| draft.get().or_else(|| current.get()));
    let refused = RwSignal::new(String::new());
    let hand = InHand {
        ledger,
        key: StoredValue::new(key.clone()),
        shown,
        refused,
    };
    let changed =
        Memo::new(move |_| draft.with(|draft| draft.is_some()) && shown.get() != current.get());
    let count = Memo::new(move |_| {
        shown.with(|shown| shown.as_ref().map_or(0, |content| content.steps.len()))
    });
    // A step taken out in the middle makes the forms anew: each stands for a step by its place.
    let keys = Memo::new(move |_| {
        let steps = shown.with(|shown| shown.as_ref().map(|content| content.steps.clone()));
        let steps = steps.into_iter().flatten();
        steps.map(|step| step.key).collect::<Vec<_>>()
    });
    let open = ledger.ask(move |state, _| open_work(state, protocol));
    let effect = move || {
        changed.get().then(|| {
            let content = shown.get()?;
            let effect = open.with(|open| {
                ledger.follow(|state, at| edit_effect(state, at, protocol, open, &content))
            });
            Some(view! { <p class="edge strong">{words::effect(effect)}</p> })
        })
    };
    let year = move || {
        let content = shown.get()?;
        let shown = ledger.follow(|state, at| preview(state, at, &content));
        let of = shown.seasons_of.map(|lot| lot.name.plain());
        let said = words_of_step::as_if_today(of.as_deref(), shown.later);
        Some(view! {
            <Slat name=words_of_step::YEAR />
            <p class="edge soft">{said.clone()}</p>
            {strip(&shown.year, said)}
        })
    };
    let discarded = key.clone();
    let discard = Callback::new(move |()| ledger.drop_draft(&discarded));
    let keep = Callback::new(move |()| {
        if let Some(content) = shown.get_untracked() {
            let command = Command::AdoptProtocol {
                protocol: Some(protocol),
                content,
            };
            let act = Act::new(command, words::KEPT).ends_draft(key.clone());
            ledger.act(act.otherwise(move |no| refused.set(rejection::say(&no))));
        }
    });
    let steps = move || {
        keys.get();
        (0..count.get_untracked())
            .map(|at| view! { <StepForm hand at /> })
            .collect_view()
    };
    let source = move || shown.with(|shown| shown.as_ref().map(|content| content.source.clone()));
    let trigger = move || {
        shown.with(|shown| {
            shown
                .as_ref()
                .map(|content| words::trigger(content.trigger))
        })
    };
    let title = Signal::derive(move || {
        shown
            .with(|shown| shown.as_ref().map(|content| book::protocol(&content.key)))
            .unwrap_or_default()
    });
    let unchanged = Signal::derive(move || !changed.get());
    let actions = move || {
        view! {
            {move || changed.get().then(|| view! { <PlainAction label=words::DISCARD.to_owned() on_press=discard /> })}
            <MainAction label=words::KEEP.to_owned() on_press=keep busy=ledger.busy() disabled=unchanged />
        }
    };
    view! {
        <Screen
            title
            back=|| view! { <TopBack href=Route::Protocols.href() label=rooms::back_to(words::PROTOCOLS) /> }
            actions
            notice=notices
            rooms=|| room_bar(Route::Book)
        >
            <p class="edge">{trigger}</p>
            {steps}
            <AddStep hand protocol />
            <p class="edge soft">{words::SOURCE} ": " {source}</p>
            <div class="edge"><Refusal words=refused /></div>
            <div aria-live="polite">{effect}</div>
            {year}
        </Screen>
    }
}

/// One more step, by what is to be done.
#[component]
fn AddStep(hand: InHand, protocol: ProtocolId) -> impl IntoView {
    let keys = kinds_for_steps().into_iter().map(move |kind| {
        let add = Callback::new(move |()| {
            hand.change(|content| {
                let step = hand
                    .ledger
                    .look(|state, _| fresh_step(state, protocol, content, kind));
                content.steps.push(step);
            });
        });
        view! { <PlainAction label=task::kind(kind).to_owned() on_press=add /> }
    });
    view! {
        <details class="more-of-it">
            <summary>{words_of_step::ADD}</summary>
            <p class="edge soft">{words_of_step::ADD_HINT}</p>
            <div class="grid">{keys.collect_view()}</div>
        </details>
    }
}

#[component]
fn StepForm(hand: InHand, at: usize) -> impl IntoView {
    let step = hand.step(at);
    let Some(first) = step.get_untracked() else {
        return ().into_any();
    };
    let only = words::only_for(&first.only.classes, &first.only.habits);
    let name = task::kind(first.kind);
    let timing = Signal::derive(move || {
        let when = step.get().map(|step| step.when);
        when.map(|when| words::timing(when.from_days, when.until_days))
            .unwrap_or_default()
    });
    let on = Signal::derive(move || step.get().is_some_and(|step| !step.off));
    let key = first.key.clone();
    let take_out = move |_| {
        hand.change(|content| content.steps.retain(|step| step.key != key));
    };
    view! {
        <Slat name=name note=only />
        <Days hand at label=words::DAYS_AFTER hint=timing get=|step| step.when.due_days set=Step::move_to />
        <details class="more-of-it">
            <summary>{words::WINDOW}</summary>
            <Days
                hand
                at
                label=words::FIRST_DAY
                get=|step| step.when.from_days
                set=|step, days| step.when.from_days = days.min(step.when.due_days)
            />
            <Days
                hand
                at
                label=words::LAST_DAY
                get=|step| step.when.until_days
                set=|step, days| step.when.until_days = days.max(step.when.due_days)
            />
            <Tough hand at />
        </details>
        {step_more(hand, at)}
        <div class="form">
            <Toggle
                label=words::IN_USE
                on
                on_switch=Callback::new(move |on: bool| hand.edit(at, |step| step.off = !on))
                on_word=words::ON
                off_word=words::OFF
            />
            <button type="button" class="quiet" on:click=take_out>{words_of_step::REMOVE}</button>
        </div>
    }
    .into_any()
}

/// What becomes of a step for tough kinds: the same days, none, or days of its own.
#[derive(Clone, Copy, PartialEq, Eq)]
enum ForTough {
    Same,
    LeftOut,
    Other,
}

#[component]
fn Tough(hand: InHand, at: usize) -> impl IntoView {
    let step = hand.step(at);
    let chosen = Memo::new(move |_| match step.get().map(|step| step.light) {
        None | Some(Light::Same) => ForTough::Same,
        Some(Light::LeftOut) => ForTough::LeftOut,
        Some(Light::Other(_)) => ForTough::Other,
    });
    let options = vec![
        (ForTough::Same, words::TOUGH_SAME.to_owned()),
        (ForTough::LeftOut, words::TOUGH_LEFT_OUT.to_owned()),
        (ForTough::Other, words::TOUGH_OTHER.to_owned()),
    ];
    let choose = move |choice| {
        hand.edit(at, |step| {
            step.light = match choice {
                ForTough::Same => Light::Same,
                ForTough::LeftOut => Light::LeftOut,
                ForTough::Other => Light::Other(of_tough(step)),
            };
        });
    };
    let days = move || {
        (chosen.get() == ForTough::Other).then(|| {
            view! {
                <Days
                    hand
                    at
                    label=words::TOUGH_DAYS
                    get=|step| of_tough(step).due_days
                    set=|step, days| step.light = Light::Other(of_tough(step).moved_to(days))
                />
                <Days
                    hand
                    at
                    label=words::TOUGH_FIRST
                    get=|step| of_tough(step).from_days
                    set=|step, days| {
                        let when = of_tough(step);
                        step.light = Light::Other(Timing { from_days: days.min(when.due_days), ..when });
                    }
                />
                <Days
                    hand
                    at
                    label=words::TOUGH_LAST
                    get=|step| of_tough(step).until_days
                    set=|step, days| {
                        let when = of_tough(step);
                        step.light = Light::Other(Timing { until_days: days.max(when.due_days), ..when });
                    }
                />
            }
        })
    };
    view! {
        <div class="form">{one_of(words::FOR_TOUGH, options, chosen.into(), choose)}</div>
        {days}
    }
}

/// The days of a step for tough kinds; those of all others until it has days of its own.
fn of_tough(step: &Step) -> Timing {
    match step.light {
        Light::Other(when) => when,
        Light::Same | Light::LeftOut => step.when,
    }
}

/// A count of days of one step.
#[component]
fn Days(
    hand: InHand,
    at: usize,
    label: &'static str,
    #[prop(optional, into)] hint: Signal<String>,
    get: fn(&Step) -> i32,
    set: fn(&mut Step, i32),
) -> impl IntoView {
    let step = hand.step(at);
    let count = Signal::derive(move || i64::from(step.get().map_or(0, |step| get(&step))));
    let on_count = Callback::new(move |days: i64| {
        hand.edit(at, |step| set(step, i32::try_from(days).unwrap_or(0)));
    });
    view! {
        <Stepper
            label
            hint
            count
            on_count
            less_label=repot::one_less(label)
            more_label=repot::one_more(label)
            max=i64::from(OFFSET_DAYS_MAX)
        />
    }
}
