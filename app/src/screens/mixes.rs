//! Mixes: what is in them by volume, and how long they hold.

use leptos::prelude::*;
use velamen_core::command::Command;
use velamen_core::reference::media::{COMPONENTS, Component};
use velamen_core::rejection::{Input, Rejection};
use velamen_core::shed_draft::MixDraft;
use velamen_core::view::shed::{self, MixRow};

use super::lot_parts::Refusal;
use crate::frame::{notices, room_bar};
use crate::ledger::{Act, Ledger};
use crate::route::Route;
use crate::screens::shed::back_to_shed;
use crate::ui::{Field, MainAction, Screen, Slat, Stepper};
use crate::words::{rejection, repot, shed as words, told};

const DRAFT: &str = "new_mix";

type Refused = RwSignal<(bool, String)>;

fn change(ledger: Ledger, refused: Refused, how: impl FnOnce(&mut MixDraft)) {
    refused.set((false, String::new()));
    ledger.change_draft(DRAFT, |draft: &mut MixDraft| {
        draft.version = velamen_core::draft::DRAFT_VERSION;
        how(draft);
    });
}

/// The screen.
#[component]
pub fn Mixes() -> impl IntoView {
    let ledger = Ledger::here();
    let draft = ledger.draft::<MixDraft>(DRAFT);
    let shown = ledger.ask(|state, _| shed::mixes(state));
    // Whether the refusal is about the shares, and its sentence.
    let refused: Refused = RwSignal::new((false, String::new()));
    let add = Callback::new(move |()| {
        let typed = draft.get_untracked();
        if !typed.is_whole() {
            refused.set((true, words::shares_total(typed.total_percent())));
            return;
        }
        let act = Act::new(typed.command(), told::done(words::MIX_ADDED)).ends_draft(DRAFT);
        ledger.act(act.otherwise(move |no| {
            let about_shares = matches!(
                no,
                Rejection::OutOfRange {
                    input: Input::Mix,
                    ..
                }
            );
            refused.set((about_shares, rejection::say(&no)));
        }));
    });
    let rows = move || {
        let rows = shown.get().into_iter();
        rows.map(|row| mix_row(ledger, row)).collect_view()
    };
    let name_error = Signal::derive(move || match refused.get() {
        (false, words) => words,
        (true, _) => String::new(),
    });
    let name = Signal::derive(move || draft.with(|draft| draft.name.clone()));
    let months = Signal::derive(move || i64::from(draft.with(MixDraft::life_months)));
    let actions = move || view! { <MainAction label=words::ADD_MIX.to_owned() on_press=add busy=ledger.busy() /> };
    view! {
        <Screen title=words::MIXES back=back_to_shed actions notice=notices rooms=|| room_bar(Route::Book)>
            <div class="form">
                <Field
                    label=words::MIX_NAME
                    value=name
                    on_input=Callback::new(move |name| change(ledger, refused, |draft| draft.name = name))
                    error=name_error
                    max_chars=200
                />
            </div>
            <Stepper
                label=words::MIX_LIFE
                count=months
                on_count=Callback::new(move |count: i64| {
                    change(ledger, refused, |draft| draft.life_months = u16::try_from(count).ok());
                })
                less_label=repot::one_less(words::MIX_LIFE)
                more_label=repot::one_more(words::MIX_LIFE)
                min=1
                max=120
            />
            <Shares draft refused />
            <Slat name=words::MIXES />
            {rows}
        </Screen>
    }
}

#[component]
fn Shares(draft: Memo<MixDraft>, refused: Refused) -> impl IntoView {
    let ledger = Ledger::here();
    let chosen =
        Memo::new(move |_| draft.with(|draft| draft.percent.keys().cloned().collect::<Vec<_>>()));
    let keys = COMPONENTS
        .iter()
        .map(|component| {
            let key = component.key;
            let pressed = move || chosen.with(|chosen| chosen.iter().any(|known| known == key)).to_string();
            let switch = move |_| change(ledger, refused, |draft| draft.switch(key));
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
                change(ledger, refused, |draft| {
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
    let error = Signal::derive(move || match refused.get() {
        (true, words) => words,
        (false, _) => String::new(),
    });
    view! {
        {steppers}
        {total}
        <div class="edge"><Refusal words=error /></div>
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
            <button type="button" class="quiet" on:click=retire>{words::RETIRE}</button>
        </details>
    }
}
