//! Mixes: what is in them by volume, and how long they hold.

use leptos::prelude::*;
use velamen_core::command::Command;
use velamen_core::id::MixId;
use velamen_core::reference::media::{COMPONENTS, Component};
use velamen_core::shed_draft::MixDraft;
use velamen_core::view::shed::{self, MixRow};

use super::in_hand::{InHand, Wrong};
use super::lot_parts::Refusal;
use crate::frame::{notices, room_bar};
use crate::ledger::{Act, Ledger};
use crate::route::Route;
use crate::screens::drain_test::DrainTest;
use crate::screens::shed::back_to_shed;
use crate::ui::{Field, MainAction, PlainLink, Screen, Slat, Stepper, TopBack};
use crate::words::{repot, rooms, shed as words, told};

const DRAFT: &str = "new_mix";

/// What a refusal may be about.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Part {
    Shares,
}

/// A mix being put together, new or of the shelf.
type MixInHand = InHand<MixDraft, Part>;

/// A command for a mix whose shares come to a whole.
fn whole(hand: MixInHand, command: Command) -> Result<Command, Wrong<Part>> {
    hand.shown.with_untracked(|typed| {
        if typed.is_whole() {
            Ok(command)
        } else {
            let words = words::shares_total(typed.total_percent());
            Err((Some(Part::Shares), words))
        }
    })
}

/// The mixes of the shelf, and the form for a new one.
#[component]
pub fn Mixes() -> impl IntoView {
    let ledger = Ledger::here();
    let hand = MixInHand::new(ledger, DRAFT.to_owned(), MixDraft::default);
    let shown = ledger.ask(|state, _| shed::mixes(state));
    let add = Callback::new(move |()| {
        let command = hand.shown.with_untracked(MixDraft::command);
        hand.record(whole(hand, command), told::done(words::MIX_ADDED), || {});
    });
    let rows = move || {
        let rows = shown.get().into_iter();
        rows.map(|row| mix_row(ledger, row)).collect_view()
    };
    let actions = move || view! { <MainAction label=words::ADD_MIX.to_owned() on_press=add busy=ledger.busy() /> };
    view! {
        <Screen title=words::MIXES back=back_to_shed actions notice=notices rooms=|| room_bar(Route::Book)>
            <MixForm hand />
            <Slat name=words::MIXES />
            {rows}
        </Screen>
    }
}

/// One mix of the shelf, put together or named again.
#[component]
pub fn Mix(mix: MixId) -> impl IntoView {
    let ledger = Ledger::here();
    let row = ledger.ask(move |state, _| shed::mixes(state).into_iter().find(|row| row.mix == mix));
    let hand = MixInHand::new(ledger, format!("mix-{mix}"), move || {
        row.get().map(|row| MixDraft::of(&row)).unwrap_or_default()
    });
    let change = move || row.with(|row| hand.shown.with(|draft| draft.change(row.as_ref()?)));
    let unchanged = Signal::derive(move || change().is_none());
    let keep = Callback::new(move |()| {
        if let Some(command) = untrack(change) {
            hand.record(whole(hand, command), words::CHANGED.to_owned(), || {
                Route::Mixes.replace()
            });
        }
    });
    let actions = move || {
        view! { <MainAction label=words::KEEP_CHANGE.to_owned() on_press=keep busy=ledger.busy() disabled=unchanged /> }
    };
    let title = Signal::derive(move || {
        row.with(|row| row.as_ref().map(|row| row.name.clone()))
            .unwrap_or_default()
    });
    let back = || view! { <TopBack href=Route::Mixes.href() label=rooms::back_to(words::MIXES) /> };
    view! {
        <Screen title back actions notice=notices rooms=|| room_bar(Route::Book)>
            <p class="edge soft">{words::AS_POTTED}</p>
            <MixForm hand />
            <DrainTest mix />
        </Screen>
    }
}

#[component]
fn MixForm(hand: MixInHand) -> impl IntoView {
    let draft = hand.shown;
    let name = Signal::derive(move || draft.with(|draft| draft.name.clone()));
    let months = Signal::derive(move || i64::from(draft.with(MixDraft::life_months)));
    view! {
        <div class="form">
            <Field
                label=words::MIX_NAME
                value=name
                on_input=Callback::new(move |name| hand.change(|draft| draft.name = name))
                error=hand.wrong(None)
                max_chars=200
            />
        </div>
        <Stepper
            label=words::MIX_LIFE
            count=months
            on_count=Callback::new(move |count: i64| {
                hand.change(|draft| draft.life_months = u16::try_from(count).ok());
            })
            less_label=repot::one_less(words::MIX_LIFE)
            more_label=repot::one_more(words::MIX_LIFE)
            min=1
            max=120
        />
        <Shares hand />
    }
}

#[component]
fn Shares(hand: MixInHand) -> impl IntoView {
    let draft = hand.shown;
    let chosen =
        Memo::new(move |_| draft.with(|draft| draft.percent.keys().cloned().collect::<Vec<_>>()));
    let keys = COMPONENTS
        .iter()
        .map(|component| {
            let key = component.key;
            let pressed = move || chosen.with(|chosen| chosen.iter().any(|known| known == key)).to_string();
            let switch = move |_| hand.change(|draft| draft.switch(key));
            view! {
                <button type="button" class="choose" aria-pressed=pressed on:click=switch>
                    <span class="stack">
                        <span>{words::component(key)} {component.grade_mm.map(|(from, to)| format!(", {}", words::grade(from, to)))}</span>
                        <span class="soft">{about(component)}</span>
                    </span>
                </button>
            }
        })
        .collect_view();
    let steppers = move || {
        let rows = chosen.get().into_iter();
        rows.map(|key| {
            let label = words::component(&key);
            let (shown, set) = (key.clone(), key);
            let count = Signal::derive(move || {
                i64::from(draft.with(|draft| draft.percent.get(&shown).copied().unwrap_or(0)))
            });
            let on_count = Callback::new(move |count: i64| {
                let percent = u16::try_from(count).unwrap_or(0);
                hand.change(|draft| {
                    let _ = draft.percent.insert(set.clone(), percent);
                });
            });
            view! {
                <Stepper
                    label=label.clone()
                    hint="%".to_owned()
                    count
                    on_count
                    less_label=repot::one_less(&label)
                    more_label=repot::one_more(&label)
                    max=100
                    by=5
                />
            }
        })
        .collect_view()
    };
    let total = move || {
        let (none, total) = draft.with(|draft| (draft.percent.is_empty(), draft.total_percent()));
        (!none).then(
            || view! { <p class="edge strong" aria-live="polite">{words::shares_total(total)}</p> },
        )
    };
    view! {
        {steppers}
        {total}
        <div class="edge"><Refusal words=hand.wrong(Some(Part::Shares)) /></div>
        <details class="more-of-it">
            <summary>{words::MIX_PARTS}</summary>
            <p class="edge soft">{words::MIX_PARTS_HINT}</p>
            {keys}
        </details>
    }
}

/// How long it lasts and where that figure comes from.
fn about(component: &Component) -> String {
    let life = match component.life_months {
        Some((from, to)) => words::months(from, to),
        None if component.inert => words::PARTS_INERT.to_owned(),
        None => String::new(),
    };
    if life.is_empty() {
        component.source.to_owned()
    } else {
        format!("{life} · {}", component.source)
    }
}

fn mix_row(ledger: Ledger, row: MixRow) -> impl IntoView {
    let life = row.life_months.map(|months| words::months(months, months));
    let shares = row
        .shares
        .iter()
        .map(|share| view! { <li>{words::share(share.permille / 10, &share.component)}</li> });
    let shares = shares.collect_view();
    let id = row.mix;
    let retire = move |_| {
        let command = Command::SetMix {
            mix: Some(id),
            name: None,
            shares: None,
            life_months: None,
            retired: Some(true),
        };
        ledger.act(Act::new(command, words::CHANGED));
    };
    view! {
        <details class="more-of-it">
            <summary><bdi>{row.name}</bdi> " " <span class="soft">{life}</span></summary>
            <ul class="edge">{shares}</ul>
            <div class="form"><PlainLink href=Route::Mix(id).href() label=words::CHANGE_IT /></div>
            <button type="button" class="quiet" on:click=retire>{words::RETIRE}</button>
        </details>
    }
}
