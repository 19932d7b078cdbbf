//! What the book asks: told in words with both sides, answered by an entry.

use leptos::prelude::*;
use velamen_core::command::Command;
use velamen_core::id::{ContainerId, Dev, EntryRef, LotId, Subject};
use velamen_core::state::State;
use velamen_core::view::book::place_called;
use velamen_core::view::questions::{Question, questions};

use crate::frame::{notices, room_bar};
use crate::ledger::{Act, Ledger, ToldKind};
use crate::route::Route;
use crate::screens::names::{lot, sentence};
use crate::ui::{PlainAction, PlainLink, Screen, TopBack};
use crate::words::{book, containers, format, product, questions as words, rooms};

/// One side as it is shown.
#[derive(Clone, PartialEq)]
struct Said {
    entry: EntryRef,
    when: String,
    sentence: String,
    again: Option<Command>,
    counts_now: bool,
}

#[derive(Clone, PartialEq)]
struct Asked {
    question: Question,
    words: String,
    sides: Vec<Said>,
    lots: Vec<(LotId, String)>,
    mends: Vec<(Command, String)>,
}

fn asked(state: &State) -> Vec<Asked> {
    let names = |id: LotId| lot(state, id);
    let phones = |dev: Dev| {
        let phone = state.facts().phones.get(&dev);
        let prefix = phone.and_then(|phone| phone.prefix.get());
        words::phone_called(&prefix.map(ToString::to_string).unwrap_or_default())
    };
    let product = |id: ContainerId| {
        let facts = state.facts();
        let known = facts.containers.get(&id).and_then(|it| it.product);
        let known = known.and_then(|id| facts.products.get(&id));
        known.map_or_else(String::new, |known| known.label_name.or_default())
    };
    let all = questions(state).into_iter();
    all.map(|question| {
        let either = question.sides.iter().any(|side| side.again.is_some());
        let sides = question.sides.iter().map(|side| {
            let phone = side.row.phone.map(|phone| phone.to_string());
            let sentences = side.row.events.iter().map(|event| sentence(state, event));
            Said {
                entry: side.row.entry,
                when: format!(
                    "{} · {}",
                    format::full_day(side.row.on),
                    book::recorded(&format::clock(side.row.minute), &phone.unwrap_or_default())
                ),
                sentence: sentences.take(3).collect::<Vec<_>>().join(" "),
                again: side.again.clone(),
                counts_now: either && side.again.is_none(),
            }
        });
        Asked {
            words: words::question(&question.anomaly, &names, &phones, &product),
            sides: sides.collect(),
            lots: question.lots.iter().map(|id| (*id, names(*id))).collect(),
            mends: question
                .mends
                .iter()
                .filter_map(|mend| Some((mend.clone(), mend_label(state, mend)?)))
                .collect(),
            question,
        }
    })
    .collect()
}

/// What the key says that ends a question by a command.
fn mend_label(state: &State, mend: &Command) -> Option<String> {
    match mend {
        Command::RecodeLot { lot: id, .. } => {
            let place = state.facts().lots.get(id).and_then(|lot| lot.place.get());
            let place = place.map(|place| place_called(state, *place));
            Some(words::another_code(
                &lot(state, *id),
                &place.unwrap_or_default(),
            ))
        }
        Command::CorrectClock { shift_ms, .. } => Some(words::shift_clock(*shift_ms)),
        _ => None,
    }
}

/// Offers a copied phone to join again; nothing else can be recorded on it before.
#[component]
pub fn JoinAgain() -> impl IntoView {
    let ledger = Ledger::here();
    let joined = ledger.joined();
    let join = Callback::new(move |()| ledger.join_book(words::JOINED));
    move || {
        (!joined.get()).then(|| {
            view! {
                <section class="card">
                    <div class="stack">
                        <p class="strong">{words::NOT_JOINED}</p>
                        <PlainAction label=words::JOIN.to_owned() on_press=join busy=ledger.busy() />
                    </div>
                </section>
            }
        })
    }
}

/// The screen.
#[component]
pub fn Questions() -> impl IntoView {
    let ledger = Ledger::here();
    let shown = ledger.ask(|state, _| asked(state));
    let rows = move || {
        let rows = shown.get();
        if rows.is_empty() {
            return view! { <p class="edge">{words::NONE}</p> }.into_any();
        }
        rows.into_iter()
            .map(|asked| card(ledger, asked))
            .collect_view()
            .into_any()
    };
    view! {
        <Screen
            title=words::QUESTIONS
            back=|| view! { <TopBack href=Route::Book.href() label=rooms::back_to(rooms::BOOK) /> }
            notice=notices
            rooms=|| room_bar(Route::Book)
        >
            <p class="edge">{words::HINT}</p>
            <JoinAgain />
            {rows}
        </Screen>
    }
}

fn card(ledger: Ledger, asked: Asked) -> impl IntoView {
    let subject = asked.question.anomaly.subject();
    let key = asked.question.anomaly.key();
    let settle = Callback::new(move |()| {
        let command = Command::Settle {
            subject,
            anomaly: key.clone(),
            note: String::new(),
        };
        ledger.act(Act::new(command, words::SETTLED));
    });
    let sides = asked.sides.into_iter().map(|side| said(ledger, side));
    let lots = asked.lots.into_iter().map(|(lot, name)| {
        view! { <PlainLink href=Route::Lot(lot).href() label=words::open_lot(&name) /> }
    });
    let container = match subject {
        Subject::Container(id) => {
            Some(view! { <PlainLink href=Route::Container(id).href() label=containers::COUNT /> })
        }
        _ => None,
    };
    // Neither side need be all of it: the label itself is where both are put together.
    let product = match subject {
        Subject::Product(id) => {
            Some(view! { <PlainLink href=Route::Product(id).href() label=product::TO_THE_LABEL /> })
        }
        _ => None,
    };
    let mends = asked.mends.into_iter().map(|(command, label)| {
        let press = Callback::new(move |()| mend(ledger, command.clone()));
        view! { <PlainAction label on_press=press busy=ledger.busy() /> }
    });
    view! {
        <section class="card">
            <div class="stack">
                <p class="strong">{asked.words}</p>
                {sides.collect_view()}
                {mends.collect_view()}
                {lots.collect_view()}
                {container}
                {product}
                <PlainAction label=words::RIGHT_AS_IT_IS.to_owned() on_press=settle busy=ledger.busy() />
            </div>
        </section>
    }
}

/// Ends a question by a command; a new code is said, for it has to go onto a label.
fn mend(ledger: Ledger, command: Command) {
    match command {
        Command::RecodeLot { lot, .. } => {
            let say = move |_| {
                let code = ledger.look(|state, _| {
                    let known = state.facts().lots.get(&lot);
                    known.and_then(|lot| lot.code.get().map(ToString::to_string))
                });
                if let Some(code) = code {
                    ledger.say(words::recoded(&code), ToldKind::Done);
                }
            };
            ledger.act(Act::new(command, "").then(say));
        }
        command => ledger.act(Act::new(command, words::CLOCK_SET)),
    }
}

fn said(ledger: Ledger, side: Said) -> impl IntoView {
    let again = side.again.map(|command| {
        let press =
            Callback::new(move |()| ledger.act(Act::new(command.clone(), words::SAID_AGAIN)));
        view! { <PlainAction label=words::THIS_ONE.to_owned() on_press=press busy=ledger.busy() /> }
    });
    view! {
        <a class="entry" href=Route::Entry(side.entry).href()>
            <span class="soft">{side.when}</span>
            <span>{side.sentence}</span>
            {side.counts_now.then(|| view! { <span class="soft">{words::COUNTS_NOW}</span> })}
        </a>
        {again}
    }
}
