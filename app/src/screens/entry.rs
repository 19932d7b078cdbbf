//! One entry: all it says, and putting it right.

use leptos::prelude::*;
use serde::{Deserialize, Serialize};
use velamen_core::command::Command;
use velamen_core::correction::{Correction, correctable};
use velamen_core::event::{Event, WithdrawWhy};
use velamen_core::id::EntryRef;
use velamen_core::rejection::Rejection;
use velamen_core::state::State;
use velamen_core::view::book::{Row, row_of};

use super::entry_correct::CorrectForm;
use super::lot_parts::{Refusal, one_of};
use super::photos::Photos;
use crate::frame::{notices, room_bar};
use crate::ledger::{Act, Ledger};
use crate::route::Route;
use crate::screens::names::sentence;
use crate::ui::{Field, PlainAction, Screen, Slat, TopBack};
use crate::words::{book, entry as words, format, rejection, rooms};

/// What is being done to the entry, kept until it is recorded.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct EntryDraft {
    #[serde(default)]
    pub twice: bool,
    #[serde(default)]
    pub note: String,
    #[serde(default)]
    pub correction: Option<Correction>,
}

/// An event as it reads, with what stands beside it.
#[derive(Clone, PartialEq)]
struct Said {
    sentence: String,
    beside: Vec<String>,
    photos: Vec<String>,
    can_be_corrected: bool,
}

#[derive(Clone, PartialEq)]
struct Shown {
    row: Row,
    now: Vec<Said>,
    first: Vec<String>,
    opens_the_book: bool,
}

fn shown(state: &State, entry: EntryRef) -> Option<Shown> {
    let row = row_of(state, entry)?;
    let now = row.events.iter().map(|event| Said {
        sentence: sentence(state, event),
        beside: words::beside(event),
        photos: event.photos().into_iter().map(str::to_owned).collect(),
        can_be_corrected: correctable(event).is_any(),
    });
    let first = row
        .amended_from
        .iter()
        .map(|(_, event)| sentence(state, event));
    Some(Shown {
        now: now.collect(),
        first: first.collect(),
        opens_the_book: row
            .events
            .iter()
            .any(|event| matches!(event, Event::BookOpened(_))),
        row,
    })
}

/// Key of an entry's draft.
pub fn draft_key(entry: EntryRef) -> String {
    format!("entry-{entry}")
}

/// The screen.
#[component]
pub fn Entry(entry: EntryRef) -> impl IntoView {
    let ledger = Ledger::here();
    let shown = ledger.ask(move |state, _| shown(state, entry));
    let draft = ledger.draft_at::<EntryDraft>(draft_key(entry));
    let correcting = Memo::new(move |_| {
        draft.with(|draft| draft.correction.as_ref().map(|correction| correction.index))
    });
    let said = move || {
        let shown = shown.get()?;
        let out = shown.row.withdrawn.is_some();
        let phone = shown
            .row
            .phone
            .map(|phone| phone.to_string())
            .unwrap_or_default();
        let when = format!(
            "{} · {}",
            format::long_day(shown.row.on),
            book::recorded(&format::clock(shown.row.minute), &phone)
        );
        let first = (!shown.first.is_empty()).then(|| {
            let lines = shown
                .first
                .into_iter()
                .map(|line| view! { <p class="out">{line}</p> });
            view! { <h2>{words::FIRST}</h2> {lines.collect_view()} <h2>{words::NOW}</h2> }
        });
        let lines = (0_u16..)
            .zip(shown.now)
            .map(|(index, said)| line(ledger, entry, index, said, out))
            .collect_view();
        Some(view! {
            <div class="form">
                <p class="soft">{when}</p>
                {shown.row.locked.map(|_| view! { <p>{book::LOCKED}</p> })}
                {shown.row.withdrawn.map(|(by, why)| view! {
                    <p><a href=Route::Entry(by).href()>{words::withdrawn(why)}</a></p>
                })}
                {first}
                {lines}
            </div>
        })
    };
    let take_back = move || {
        let shown = shown.get()?;
        Some(match (shown.row.withdrawn, shown.opens_the_book) {
            (_, true) => view! { <p class="edge soft">{words::OPENS_THE_BOOK}</p> }.into_any(),
            (Some((by, _)), _) => view! { <Restore by /> }.into_any(),
            (None, false) => view! { <Withdraw entry draft /> }.into_any(),
        })
    };
    let body = move || match correcting.get() {
        Some(index) => view! { <CorrectForm entry index draft /> }.into_any(),
        None => view! { {said} {take_back} }.into_any(),
    };
    let title = Signal::derive(move || {
        if correcting.get().is_some() {
            words::CORRECTION.to_owned()
        } else {
            words::ENTRY.to_owned()
        }
    });
    view! {
        <Screen
            title
            back=|| view! { <TopBack href=Route::Book.href() label=rooms::back_to(rooms::BOOK) /> }
            notice=notices
            rooms=|| room_bar(Route::Book)
        >
            {body}
        </Screen>
    }
}

fn line(ledger: Ledger, entry: EntryRef, index: u16, said: Said, out: bool) -> impl IntoView {
    let correct = Callback::new(move |()| {
        let event = ledger.look(|state, _| {
            let row = row_of(state, entry)?;
            row.events.get(usize::from(index)).cloned()
        });
        if let Some(event) = event {
            let day = ledger.look(|state, _| {
                let header = &state.log().entry(entry)?.header;
                Some((header.on, header.off_min))
            });
            ledger.change_draft(&draft_key(entry), |draft: &mut EntryDraft| {
                draft.correction = Some(Correction::of(index, &event).on_day(&event, day));
            });
        }
    });
    let beside = said
        .beside
        .into_iter()
        .map(|words| view! { <p class="soft">{words}</p> });
    view! {
        <div class="stack">
            <p class:out=out>{said.sentence}</p>
            {beside.collect_view()}
            <Photos photos=said.photos />
            {(said.can_be_corrected && !out).then(|| view! {
                <PlainAction label=words::CORRECT.to_owned() on_press=correct busy=ledger.busy() />
            })}
        </div>
    }
}

#[component]
fn Restore(by: EntryRef) -> impl IntoView {
    let ledger = Ledger::here();
    let restore = Callback::new(move |()| {
        let command = Command::Withdraw {
            targets: vec![by],
            with_dependents: false,
            why: WithdrawWhy::Restored,
            note: String::new(),
        };
        ledger.act(Act::new(command, words::RESTORED).for_good());
    });
    view! {
        <div class="form">
            <PlainAction label=words::RESTORE.to_owned() on_press=restore busy=ledger.busy() />
        </div>
    }
}

#[component]
fn Withdraw(entry: EntryRef, draft: Memo<EntryDraft>) -> impl IntoView {
    let ledger = Ledger::here();
    let rests: RwSignal<Vec<EntryRef>> = RwSignal::new(Vec::new());
    let refused = RwSignal::new(String::new());
    let change = move |how: Box<dyn FnOnce(&mut EntryDraft)>| {
        refused.set(String::new());
        ledger.change_draft(&draft_key(entry), how);
    };
    let withdraw = move |with_dependents: bool| {
        let typed = draft.get_untracked();
        let command = Command::Withdraw {
            targets: vec![entry],
            with_dependents,
            why: if typed.twice {
                WithdrawWhy::Twice
            } else {
                WithdrawWhy::Mistake
            },
            note: typed.note,
        };
        let act = Act::new(command, words::WITHDREW)
            .for_good()
            .ends_draft(draft_key(entry));
        ledger.act(act.otherwise(move |no: Rejection| {
            refused.set(rejection::say(&no));
            rests.set(match no {
                Rejection::OthersRestOnIt { entries } => entries,
                _ => Vec::new(),
            });
        }));
    };
    let others = move || {
        let entries = rests.get();
        (!entries.is_empty()).then(|| {
            let count = entries.len();
            let rows = entries.into_iter().map(|id| {
                let said = ledger.look(|state, _| {
                    let row = row_of(state, id)?;
                    row.events.first().map(|event| sentence(state, event))
                });
                view! { <a class="entry" href=Route::Entry(id).href()>{said.unwrap_or_default()}</a> }
            });
            let rows = rows.collect_view();
            let all = Callback::new(move |()| withdraw(true));
            view! {
                <h2>{words::RESTS}</h2>
                <div>{rows}</div>
                <PlainAction label=words::withdraw_all(count) on_press=all busy=ledger.busy() />
            }
        })
    };
    let reasons = vec![
        (false, words::MISTAKE.to_owned()),
        (true, words::TWICE.to_owned()),
    ];
    let twice = Signal::derive(move || draft.with(|draft| draft.twice));
    let note = Signal::derive(move || draft.with(|draft| draft.note.clone()));
    let press = Callback::new(move |()| withdraw(false));
    view! {
        <Slat name=words::TAKE_BACK />
        <div class="form">
            <p class="soft">{words::WITHDRAW_HINT}</p>
            {one_of(words::WHY, reasons, twice, move |twice| change(Box::new(move |draft| draft.twice = twice)))}
            <Field
                label=words::NOTE
                value=note
                on_input=Callback::new(move |note| change(Box::new(move |draft| draft.note = note)))
                max_chars=4000
            />
            <Refusal words=refused />
            {others}
            <PlainAction label=words::WITHDRAW.to_owned() on_press=press busy=ledger.busy() />
        </div>
    }
}
