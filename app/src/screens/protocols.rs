//! Protocols: what is due after something happened, in days the grower may change.

use leptos::prelude::*;
use velamen_core::command::Command;
use velamen_core::id::ProtocolId;
use velamen_core::task::{Light, Protocol as Content, Step};
use velamen_core::view::shed;

use crate::frame::{notices, room_bar};
use crate::ledger::{Act, Ledger};
use crate::route::Route;
use crate::screens::shed::back_to_shed;
use crate::ui::{MainAction, Screen, Slat, Stepper, Toggle, TopBack};
use crate::words::{book, repot, rooms, shed as words, task, trade};

/// The list.
#[component]
pub fn Protocols() -> impl IntoView {
    let ledger = Ledger::here();
    let shown = ledger.ask(|state, _| shed::protocols(state));
    let rows = move || {
        let rows = shown.get().into_iter();
        rows.map(|row| {
            view! {
                <a class="entry" href=Route::Protocol(row.protocol).href()>
                    <bdi>{book::protocol(&row.content.key)}</bdi>
                    <span class="soft">{row.content.source}</span>
                </a>
            }
        })
        .collect_view()
    };
    view! {
        <Screen title=words::PROTOCOLS back=back_to_shed notice=notices rooms=|| room_bar(Route::Book)>
            {rows}
        </Screen>
    }
}

/// One protocol: days, strength, on and off. Kept as a draft until it is kept for good.
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
    let count = Memo::new(move |_| {
        shown.with(|shown| shown.as_ref().map_or(0, |content| content.steps.len()))
    });
    let edit = {
        let key = key.clone();
        move |at: usize, how: &dyn Fn(&mut Step)| {
            if let Some(mut content) = shown.get_untracked() {
                if let Some(step) = content.steps.get_mut(at) {
                    how(step);
                }
                ledger.keep_draft(&key, &Some(content));
            }
        }
    };
    let edit = StoredValue::new(edit);
    let keep = Callback::new(move |()| {
        if let Some(content) = shown.get_untracked() {
            let command = Command::AdoptProtocol {
                protocol: Some(protocol),
                content,
            };
            ledger.act(Act::new(command, words::KEPT).ends_draft(key.clone()));
        }
    });
    let steps = move || {
        (0..count.get())
            .map(|at| {
                let step = Memo::new(move |_| shown.with(|shown| shown.as_ref()?.steps.get(at).cloned()));
                let Some(first) = step.get_untracked() else { return ().into_any() };
                let classes: Vec<&str> = first.only.classes.iter().map(|class| trade::class(*class)).collect();
                let name = task::kind(first.kind);
                let days = Signal::derive(move || step.get().map_or(0, |step| i64::from(step.when.due_days)));
                let timing = Signal::derive(move || {
                    step.get().map(|step| words::timing(step.when.due_days, step.when.from_days, step.when.until_days)).unwrap_or_default()
                });
                let on = Signal::derive(move || step.get().is_some_and(|step| !step.off));
                let tough = Signal::derive(move || step.get().is_some_and(|step| step.light != Light::LeftOut));
                view! {
                    <Slat name=name note=classes.join(", ") />
                    <Stepper
                        label=words::DAYS_AFTER
                        hint=timing
                        count=days
                        on_count=Callback::new(move |days: i64| edit.with_value(|edit| edit(at, &|step| step.move_to(i32::try_from(days).unwrap_or(0)))))
                        less_label=repot::one_less(words::DAYS_AFTER)
                        more_label=repot::one_more(words::DAYS_AFTER)
                        max=3_000
                    />
                    <div class="form">
                        <Toggle
                            label=words::IN_USE
                            on
                            on_switch=Callback::new(move |on: bool| edit.with_value(|edit| edit(at, &|step| step.off = !on)))
                            on_word=words::ON
                            off_word=words::OFF
                        />
                        <Toggle
                            label=words::FOR_TOUGH
                            on=tough
                            on_switch=Callback::new(move |on: bool| edit.with_value(|edit| edit(at, &|step| {
                                step.light = if on { Light::Same } else { Light::LeftOut };
                            })))
                            on_word=words::ON
                            off_word=words::OFF
                        />
                    </div>
                }
                .into_any()
            })
            .collect_view()
    };
    let title = Signal::derive(move || {
        shown
            .with(|shown| shown.as_ref().map(|content| book::protocol(&content.key)))
            .unwrap_or_default()
    });
    let unchanged = Signal::derive(move || draft.get().is_none());
    let actions = move || view! { <MainAction label=words::KEEP.to_owned() on_press=keep busy=ledger.busy() disabled=unchanged /> };
    view! {
        <Screen
            title
            back=|| view! { <TopBack href=Route::Protocols.href() label=rooms::back_to(words::PROTOCOLS) /> }
            actions
            notice=notices
            rooms=|| room_bar(Route::Book)
        >
            {steps}
        </Screen>
    }
}
