//! What is done with many lots at once: each is one entry, undone as one.

use std::collections::BTreeSet;

use leptos::prelude::*;
use velamen_core::command::{Command, EnterQuarantine};
use velamen_core::event::{QuarantineWhy, Sight, TaskAnswer};
use velamen_core::id::{LotId, PlaceId};
use velamen_core::label_sheet::LabelOf;
use velamen_core::lot_draft::PlaceDraft;
use velamen_core::quarantine::{is_held, usual};
use velamen_core::task::derive::Task;
use velamen_core::time::plus_days;
use velamen_core::view::stock_table::open_work;

use super::answers::answer;
use super::labels::print_labels_of;
use super::lot_parts::{PlaceChoice, with_place};
use crate::ledger::{Act, Ledger, ToldKind};
use crate::ui::{MainAction, PlainAction, Sheet};
use crate::words::{
    apart, rejection, round, stock as stock_words, table as words, task, told, trade,
};

/// Lots that one entry is made of.
const MOST: usize = 500;

/// Which sheet is up.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
enum Up {
    #[default]
    Nothing,
    Move,
    Work,
    See,
}

/// The bar of what may be done with the chosen lots.
#[component]
pub fn ManyAtOnce(
    picked: Memo<Vec<(LotId, i64)>>,
    chosen: RwSignal<BTreeSet<LotId>>,
) -> impl IntoView {
    let ledger = Ledger::here();
    let up = RwSignal::new(Up::Nothing);
    let lots = move || {
        picked.with_untracked(|picked| picked.iter().map(|(lot, _)| *lot).collect::<Vec<_>>())
    };
    let too_many = Memo::new(move |_| picked.with(|picked| picked.len() > MOST));
    let said = move || {
        picked.with(|picked| {
            words::chosen(picked.len(), picked.iter().map(|(_, plants)| plants).sum())
        })
    };
    let key = move |label: &'static str, what: Up| {
        let press = Callback::new(move |()| up.set(what));
        view! { <PlainAction label=label.to_owned() on_press=press disabled=too_many /> }
    };
    let labels = Callback::new(move |()| {
        let things: Vec<LabelOf> = lots().into_iter().map(LabelOf::Lot).collect();
        print_labels_of(ledger, &things);
    });
    let keep_apart = Callback::new(move |()| {
        // Who is kept apart already stays so; a second stay would ask for a second release.
        let free = ledger.look(|state, _| {
            let free = lots()
                .into_iter()
                .filter(|lot| !is_held(state.facts(), *lot));
            free.collect::<Vec<_>>()
        });
        let why = QuarantineWhy::Caution;
        let enter = EnterQuarantine {
            lots: free,
            why,
            terms: usual(why, None),
            ..EnterQuarantine::default()
        };
        ledger.act(Act::new(
            Command::EnterQuarantine(enter),
            apart::IN_QUARANTINE,
        ));
    });
    let close = Callback::new(move |()| up.set(Up::Nothing));
    let open = Memo::new(move |_| up.get() != Up::Nothing);
    let title = Signal::derive(move || match up.get() {
        Up::Nothing => String::new(),
        Up::Move => words::MOVE.to_owned(),
        Up::Work => words::ANSWER.to_owned(),
        Up::See => words::SEEN.to_owned(),
    });
    view! {
        <p class="many strong" aria-live="polite">
            {said}
            {move || too_many.get().then(|| view! { <span class="soft">" "{words::too_many(MOST)}</span> })}
        </p>
        {key(words::MOVE, Up::Move)}
        {key(words::ANSWER, Up::Work)}
        {key(words::SEEN, Up::See)}
        <PlainAction label=apart::APART.to_owned() on_press=keep_apart disabled=too_many busy=ledger.busy() />
        <PlainAction label=words::LABELS.to_owned() on_press=labels disabled=too_many />
        <PlainAction label=words::NONE.to_owned() on_press=Callback::new(move |()| chosen.update(BTreeSet::clear)) />
        <Sheet open on_close=close title close_label=told::close()>
            {move || match up.get() {
                Up::Nothing => ().into_any(),
                Up::Move => moving(ledger, lots(), close).into_any(),
                Up::Work => working(ledger, lots(), close).into_any(),
                Up::See => seeing(ledger, lots(), close).into_any(),
            }}
        </Sheet>
    }
}

fn moving(ledger: Ledger, lots: Vec<LotId>, close: Callback<()>) -> impl IntoView {
    let draft = RwSignal::new(PlaceDraft::default());
    let error = RwSignal::new(String::new());
    let place = Memo::new(move |_| draft.get());
    let on_place = Callback::new(move |to| {
        error.set(String::new());
        draft.set(to);
    });
    let go = Callback::new(move |()| {
        let lots = lots.clone();
        let typed = draft.get_untracked();
        with_place(
            ledger,
            &typed,
            move |place| draft.update(|draft| draft.recorded(place)),
            move || match draft.get_untracked().chosen {
                Some(to) => all_to(ledger, &lots, to, error, close),
                None => error.set(stock_words::fault(
                    &velamen_core::lot_draft::ChangeFault::NoPlace,
                )),
            },
            move |no| error.set(no),
        );
    });
    view! {
        <div class="form"><PlaceChoice place on_place error /></div>
        <div class="actions"><MainAction label=words::MOVE_HERE.to_owned() on_press=go busy=ledger.busy() /></div>
    }
}

fn all_to(
    ledger: Ledger,
    lots: &[LotId],
    to: PlaceId,
    error: RwSignal<String>,
    close: Callback<()>,
) {
    let moves: Vec<Command> = ledger.look(|state, _| {
        let elsewhere = lots.iter().filter(|lot| {
            let lot = state.facts().lots.get(lot);
            lot.is_some_and(|lot| lot.place.get() != Some(&to))
        });
        elsewhere
            .map(|lot| Command::MoveLot { lot: *lot, to })
            .collect()
    });
    if moves.is_empty() {
        error.set(words::SAME_PLACE.to_owned());
        return;
    }
    let said = words::moved(moves.len());
    let act = Act::new(Command::Together(moves), said).then(move |_| close.run(()));
    ledger.act(act.otherwise(move |no| error.set(rejection::say(&no))));
}

/// The open work of these lots, a row a kind.
fn working(ledger: Ledger, lots: Vec<LotId>, close: Callback<()>) -> impl IntoView {
    let open = ledger.look(|state, at| open_work(state, &lots, at.today));
    let none = open
        .is_empty()
        .then(|| view! { <p class="edge">{words::NO_WORK}</p> });
    let rows = open
        .into_iter()
        .map(|(kind, tasks)| {
            let name = task::kind(kind);
            let key = |label: String, chosen: TaskAnswer| {
                let tasks: Vec<Task> = tasks.clone();
                let press = Callback::new(move |()| {
                    answer(ledger, tasks.clone(), name, chosen);
                    close.run(());
                });
                view! { <PlainAction label on_press=press busy=ledger.busy() /> }
            };
            let later = plus_days(ledger.moment().today, 7);
            view! {
                <section class="card">
                    <h2>{words::kind_of_work(name, tasks.len())}</h2>
                    <div class="run">
                        {key(words::DONE.to_owned(), TaskAnswer::Done { outcome: None })}
                        {key(round::put_off_days(7), TaskAnswer::PutOff { to: later })}
                        {key(round::NOT_NEEDED.to_owned(), TaskAnswer::NotNeeded)}
                    </div>
                </section>
            }
        })
        .collect_view();
    view! { {none} {rows} }
}

fn seeing(ledger: Ledger, lots: Vec<LotId>, close: Callback<()>) -> impl IntoView {
    let keys = Sight::ALL
        .map(|what| {
            let lots = lots.clone();
            let press = Callback::new(move |()| {
                let command = Command::Observe {
                    lots: lots.clone(),
                    what,
                    good: None,
                    note: String::new(),
                };
                let act = Act::new(command, told::done(trade::sight(what)));
                ledger.act(act.otherwise(move |no| ledger.say(rejection::say(&no), ToldKind::Refused)));
                close.run(());
            });
            view! { <PlainAction label=trade::sight(what).to_owned() on_press=press busy=ledger.busy() /> }
        })
        .collect_view();
    view! { <div class="grid">{keys}</div> }
}
