//! Bags, loads, baths and bottles: which is in use, and where one went.

use leptos::prelude::*;
use velamen_core::command::Command;
use velamen_core::event::{BookSet, MixOpen};
use velamen_core::trace::{How, Thing};
use velamen_core::view::batches::{self as view, InUse, MetRow, ThingRow};

use crate::frame::{notices, room_bar};
use crate::ledger::{Act, Ledger};
use crate::route::Route;
use crate::screens::lot_parts::Refusal;
use crate::screens::shed::back_to_shed;
use crate::ui::{Field, Glyph, Lesson, PlainAction, Screen, Slat, Stake};
use crate::words::{batches as words, format, rejection, trade};

/// Key of the draft that holds the thing that is looked at: one comes back to it from a lot.
const DRAFT: &str = "batch";
/// Key of the draft that holds what is typed for the open bags, by the mix or the word for stone.
const OPEN: &str = "batches_open";

/// The screen.
#[component]
pub fn Batches() -> impl IntoView {
    let ledger = Ledger::here();
    let chosen = ledger.draft::<Option<Thing>>(DRAFT);
    let body = move || match chosen.get() {
        Some(thing) => where_it_went(ledger, thing).into_any(),
        None => all(ledger).into_any(),
    };
    view! {
        <Screen title=words::TITLE back=back_to_shed notice=notices rooms=|| room_bar(Route::Book)>
            {body}
        </Screen>
    }
}

fn all(ledger: Ledger) -> impl IntoView {
    let rows = ledger.ask(|state, _| view::things(state));
    let list = move || {
        let rows = rows.get();
        if rows.is_empty() {
            return view! { <Lesson glyph=Glyph::Pot title=words::NOTHING words=words::NOTHING_HINT /> }.into_any();
        }
        type Sort = fn(&Thing) -> bool;
        let sorts: [(&str, Sort); 4] = [
            (words::MIXES, |thing| matches!(thing, Thing::MixBatch(_))),
            (words::STONES, |thing| matches!(thing, Thing::StoneBatch(_))),
            (words::BOTTLES, |thing| {
                matches!(thing, Thing::ProductBatch { .. })
            }),
            (words::FILLINGS, |thing| matches!(thing, Thing::Bath(_))),
        ];
        let sections = sorts.map(|(name, is)| {
            let of: Vec<ThingRow> = rows.iter().filter(|row| is(&row.thing)).cloned().collect();
            (!of.is_empty()).then(|| {
                let keys = of
                    .into_iter()
                    .map(|row| thing_key(ledger, row))
                    .collect_view();
                view! { <section><Slat name />{keys}</section> }
            })
        });
        view! { <p class="edge strong">{words::WHERE}</p> {sections} }.into_any()
    };
    view! {
        <p class="edge soft">{words::HINT}</p>
        <Open />
        {list}
    }
}

fn thing_key(ledger: Ledger, row: ThingRow) -> impl IntoView {
    let name = words::name(&row.thing, row.filling.as_ref());
    let thing = row.thing;
    let choose = move |_| ledger.keep_draft(DRAFT, &Some(thing.clone()));
    view! { <button type="button" class="pick" on:click=choose>{name}</button> }
}

fn where_it_went(ledger: Ledger, thing: Thing) -> impl IntoView {
    let asked = thing.clone();
    let rows = ledger.ask(move |state, _| view::went(state, &asked));
    let known = thing.clone();
    let name = ledger.look(move |state, _| {
        let row = view::things(state)
            .into_iter()
            .find(|row| row.thing == known);
        words::name(&known, row.and_then(|row| row.filling).as_ref())
    });
    let back = Callback::new(move |()| ledger.keep_draft(DRAFT, &None::<Thing>));
    let list = move || {
        let rows = rows.get();
        if rows.is_empty() {
            return view! { <Lesson glyph=Glyph::Pot title=words::NOBODY words=words::NOBODY_HINT /> }.into_any();
        }
        let again = rows.iter().any(|row| row.how == How::UsedAgain);
        let said = words::met(rows.len());
        let keys = rows.into_iter().map(met_row).collect_view();
        view! {
            <p class="edge">{said}</p>
            {again.then(|| view! { <p class="edge soft">{words::AGAIN_HINT}</p> })}
            {keys}
        }
        .into_any()
    };
    view! {
        <Slat name />
        {list}
        <div class="form"><PlainAction label=words::ALL.to_owned() on_press=back /></div>
    }
}

fn met_row(row: MetRow) -> impl IntoView {
    let today = Ledger::here().today();
    let code = |label: &velamen_core::view::LotLabel| {
        label.code.map(|code| code.to_string()).unwrap_or_default()
    };
    let of = row.of.as_ref().map(code).unwrap_or_default();
    let now = match (row.how, row.stocked, row.still) {
        (How::Treated, true, _) => None,
        (_, false, _) => Some(words::GONE),
        (_, true, true) => Some(words::STILL),
        (_, true, false) => Some(words::POTTED_SINCE),
    };
    let said = [
        Some(words::how(row.how, &of)),
        Some(format::near_day(row.on, today)),
        now.map(str::to_owned),
    ];
    let said: Vec<String> = said.into_iter().flatten().collect();
    let said = said.join(" · ");
    match (row.lot, row.place) {
        (Some(label), _) => {
            let count = trade::plants_in_pots(label.plants, label.stands);
            view! {
                <a class="lot-row" href=Route::Lot(label.lot).href()>
                    <Stake name=trade::name_runs(&label.name) code=code(&label) count />
                    <span class="small">{said}</span>
                </a>
            }
            .into_any()
        }
        (None, Some(place)) => view! {
            <a class="lot-row" href=Route::Place(place.place).href()>
                <strong>{place.name}</strong>
                <span class="small">{said}</span>
            </a>
        }
        .into_any(),
        (None, None) => ().into_any(),
    }
}

/// What is typed for the open bags: each mix by its place in the list, then stone.
type Typed = std::collections::BTreeMap<String, String>;

/// The bag of each mix that is open, and the load of stone.
#[component]
fn Open() -> impl IntoView {
    let ledger = Ledger::here();
    let known = ledger.ask(|state, _| view::in_use(state));
    let typed = ledger.draft::<Typed>(OPEN);
    let error = RwSignal::new(String::new());
    let field = move |key: String, label: String, now: Signal<String>| {
        let shown = key.clone();
        let value = Signal::derive(move || {
            let typed = typed.with(|typed| typed.get(&shown).cloned());
            typed.unwrap_or_else(|| now.get())
        });
        let on_input = Callback::new(move |text: String| {
            error.set(String::new());
            ledger.change_draft(OPEN, |typed: &mut Typed| {
                typed.insert(key.clone(), text);
            });
        });
        view! { <Field label value on_input max_chars=200 /> }
    };
    let first = known.get_untracked();
    let mixes = first.mixes.iter().map(|(mix, name, _)| {
        let mix = *mix;
        let now = Signal::derive(move || {
            let of = |known: &InUse| {
                known
                    .mixes
                    .iter()
                    .find(|row| row.0 == mix)
                    .map(|row| row.2.clone())
            };
            known.with(of).unwrap_or_default()
        });
        field(mix.to_string(), words::bag_of(name), now)
    });
    let mixes = mixes.collect_view();
    let stone_now = Signal::derive(move || known.with(|known| known.stone.clone()));
    let stone = field(String::new(), words::STONE.to_owned(), stone_now);
    let keep = Callback::new(move |()| {
        let typed = typed.get_untracked();
        let known = known.get_untracked();
        let mixes = known.mixes.iter().filter_map(|(mix, _, before)| {
            let batch = typed.get(&mix.to_string())?.trim().to_owned();
            (batch != *before).then(|| BookSet {
                mix_open: Some(MixOpen { mix: *mix, batch }),
                ..BookSet::default()
            })
        });
        let load = typed.get("").map(|load| load.trim().to_owned());
        let stone = load
            .filter(|load| *load != known.stone)
            .map(|load| BookSet {
                stone_open: Some(load),
                ..BookSet::default()
            });
        let changes: Vec<Command> = mixes.chain(stone).map(Command::SetBook).collect();
        let act = Act::new(Command::Together(changes), words::KEPT).ends_draft(OPEN);
        ledger.act(act.otherwise(move |no| error.set(rejection::say(&no))));
    });
    view! {
        <section>
            <Slat name=words::IN_USE />
            <div class="form">
                <p class="soft">{words::IN_USE_HINT}</p>
                {mixes}
                {stone}
                <Refusal words=error />
                <PlainAction label=words::KEEP.to_owned() on_press=keep busy=ledger.busy() />
            </div>
        </section>
    }
}
