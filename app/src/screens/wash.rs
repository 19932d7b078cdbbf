//! The wash: pots and stone from dirty to dry and clean, stage under stage, and what is kept apart.

use leptos::prelude::*;
use velamen_core::bath::SoakState;
use velamen_core::clean::{CleaningDraft, TakenUp, WashDraft};
use velamen_core::draft::DRAFT_VERSION;
use velamen_core::event::{Object, Stage};
use velamen_core::id::Subject;
use velamen_core::view::shed;
use velamen_core::view::wash::{Apart, Pile, StagePiles, cleanings, wash};

use super::cleaning::{Wanted, in_hand, to_a_cleaning};
use super::wash_pile::{pile, put_in};
use crate::frame::{home_notices, room_bar};
use crate::ledger::Ledger;
use crate::route::Route;
use crate::screens::lot_parts::one_of;
use crate::screens::names::sentence;
use crate::screens::shed::back_to_shed;
use crate::ui::Glyph;
use crate::ui::{Lesson, MainAction, PlainAction, Screen, Slat};
use crate::words::{clean as words, format, told, trade, treat};

/// Key of the draft.
pub(super) const WASH: &str = "wash";
/// Disinfections shown.
const SHOWN: usize = 5;

/// What the parts of the wash share.
#[derive(Clone, Copy)]
pub(super) struct Tray {
    pub(super) ledger: Ledger,
    pub(super) draft: Memo<WashDraft>,
    pub(super) error: RwSignal<String>,
}

impl Tray {
    pub(super) fn change(self, how: impl FnOnce(&mut WashDraft)) {
        let _ = self.error.try_set(String::new());
        self.ledger.change_draft(WASH, |draft: &mut WashDraft| {
            draft.version = DRAFT_VERSION;
            how(draft);
        });
    }
}

/// The screen: the stages, or the pile that was taken up.
#[component]
pub fn Wash() -> impl IntoView {
    let ledger = Ledger::here();
    let tray = Tray {
        ledger,
        draft: ledger.draft::<WashDraft>(WASH),
        error: RwSignal::new(String::new()),
    };
    let doing = Memo::new(move |_| {
        tray.draft
            .with(|draft| (draft.taken.is_some(), draft.put_in.is_some()))
    });
    move || match doing.get() {
        (true, _) => pile(tray).into_any(),
        (false, true) => put_in(tray).into_any(),
        (false, false) => stages(tray).into_any(),
    }
}

fn stages(tray: Tray) -> impl IntoView {
    let ledger = tray.ledger;
    let view = ledger.ask(|state, _| wash(state));
    let add = Callback::new(move |()| tray.change(|draft| draft.put_in = Some(Default::default())));
    let ready = Memo::new(move |_| view.with(|view| washed(&view.stages)));
    let disinfect = Callback::new(move |()| {
        let object = if ready.get_untracked().0 {
            Object::Pots
        } else {
            Object::Stone
        };
        to_a_cleaning(
            ledger,
            Wanted {
                object,
                apart: None,
            },
        );
    });
    let actions = move || {
        move || {
            let (pots, stone) = ready.get();
            view! {
                <PlainAction label=words::ADD.to_owned() on_press=add />
                {(pots || stone).then(|| view! { <MainAction label=words::DISINFECT.to_owned() on_press=disinfect /> })}
            }
        }
    };
    let body = move || {
        let view = view.get();
        let nothing = view.apart.is_empty() && view.stages.iter().all(|row| row.piles.is_empty());
        let lesson = (nothing && view.reused_pots == 0).then(|| {
            view! { <Lesson glyph=Glyph::Pot title=words::WASH words=words::LESSON /> }
        });
        let both = washed(&view.stages) == (true, true);
        let stone = Callback::new(move |()| {
            to_a_cleaning(
                ledger,
                Wanted {
                    object: Object::Stone,
                    apart: None,
                },
            );
        });
        let stone = both.then(|| {
            view! {
                <div class="form"><PlainAction label=words::DISINFECT_STONE.to_owned() on_press=stone /></div>
            }
        });
        let rows = view
            .stages
            .into_iter()
            .map(|row| trough(tray, row))
            .collect_view();
        let apart = view
            .apart
            .into_iter()
            .map(|row| kept_apart(tray, row))
            .collect_view();
        let saved = words::saved(view.reused_pots, view.reused_stone);
        view! {
            {among(&view.among, ledger.today())}
            {lesson}
            {rows}
            {stone}
            {apart}
            {saved.map(|saved| view! { <p class="edge strong">{saved}</p> })}
        }
    };
    view! {
        <Screen title=words::WASH back=back_to_shed actions notice=home_notices rooms=|| room_bar(Route::Book)>
            <InHand />
            {body}
            <Else />
            <Never />
            <Lately />
        </Screen>
    }
}

/// Whether pots, and whether stone, stand washed.
fn washed(stages: &[StagePiles]) -> (bool, bool) {
    let piles = stages.iter().filter(|row| row.stage == Stage::Washed);
    let piles: Vec<bool> = piles
        .flat_map(|row| &row.piles)
        .map(|pile| pile.material.is_stone())
        .collect();
    (piles.contains(&false), piles.contains(&true))
}

/// One stage with what stands there; empty ones stay, so that the way is seen.
fn trough(tray: Tray, row: StagePiles) -> impl IntoView {
    let empty = row.piles.is_empty();
    let stage = row.stage;
    let piles = row
        .piles
        .into_iter()
        .map(|pile| pile_row(tray, stage, pile, None));
    view! {
        <section>
            <Slat name=words::stage(stage) />
            {piles.collect_view()}
            {empty.then(|| view! { <p class="edge soft">{words::EMPTY}</p> })}
        </section>
    }
}

/// A pile: tapped, it is taken up.
fn pile_row(tray: Tray, stage: Stage, pile: Pile, apart: Option<Subject>) -> impl IntoView {
    let name = words::kind(&pile.material, &pile.name);
    let figure = words::figure(&pile.material);
    let label = format!(
        "{}, {}: {name}",
        words::stage(stage),
        words::amount(&pile.material)
    );
    let material = pile.material;
    let take = move |_| {
        let material = material.clone();
        tray.change(|draft| {
            draft.taken = Some(TakenUp {
                material,
                stage,
                apart,
                amount: None,
            });
        });
    };
    view! {
        <button type="button" class="pick pile" aria-label=label on:click=take>
            <span>{name}</span>
            <span class="pile-figure">{figure}</span>
        </button>
    }
}

/// A batch that came of plants under suspicion.
fn kept_apart(tray: Tray, row: Apart) -> impl IntoView {
    let source = row.source;
    let of = from(&row, tray.ledger.today());
    let washed_stone = washed(&row.stages).1;
    let heat = Callback::new(move |()| {
        to_a_cleaning(
            tray.ledger,
            Wanted {
                object: Object::Stone,
                apart: Some(source),
            },
        );
    });
    let stages = row.stages.into_iter().map(|at| {
        let stage = at.stage;
        let piles = at
            .piles
            .into_iter()
            .map(|pile| pile_row(tray, stage, pile, Some(source)));
        view! { <p class="edge soft">{words::stage(stage)}</p> {piles.collect_view()} }
    });
    view! {
        <section>
            <Slat name=words::apart(&of) />
            <p class="warn">{words::APART_HINT}</p>
            {stages.collect_view()}
            {washed_stone.then(|| view! {
                <div class="form"><PlainAction label=words::DISINFECT_STONE.to_owned() on_press=heat /></div>
            })}
        </section>
    }
}

/// What a batch apart came of: its tray, or the lot.
fn from(row: &Apart, today: chrono::NaiveDate) -> String {
    match (&row.tray, &row.lot) {
        (Some((tray, on)), _) => words::tray(*tray, &format::near_day(*on, today)),
        (None, Some(lot)) => {
            let code = lot.code.map(|code| code.to_string()).unwrap_or_default();
            format!("{} {code}", trade::name_plain(&lot.name))
        }
        (None, None) => String::new(),
    }
}

fn among(trays: &[(u32, chrono::NaiveDate)], today: chrono::NaiveDate) -> impl IntoView + use<> {
    let named: Vec<String> = trays
        .iter()
        .map(|(tray, on)| words::tray(*tray, &format::near_day(*on, today)))
        .collect();
    (!named.is_empty()).then(|| view! { <p class="warn">{words::among(&named.join("; "))}</p> })
}

/// Baths of disinfectant in hand: one tap goes on.
#[component]
fn InHand() -> impl IntoView {
    let ledger = Ledger::here();
    let rows = Memo::new(move |_| in_hand(ledger));
    let line = move |draft: &CleaningDraft| {
        let lies = draft
            .soak
            .map(|soak| match soak.at(ledger.moment().now_ms) {
                SoakState::Over { since_s } => words::to_take_out(since_s),
                _ => words::LIES.to_owned(),
            });
        lies.unwrap_or_else(|| words::batches(draft.batches))
    };
    move || {
        let rows = rows.get();
        (!rows.is_empty()).then(|| {
            let rows = rows.into_iter().map(|(number, draft)| {
                let with = draft
                    .agent()
                    .map(|agent| words::agent(agent.key))
                    .unwrap_or_default();
                view! {
                    <a class="lot-row" href=Route::Cleaning(number).href()>
                        <strong>{format!("{} · {with}", words::object(draft.object))}</strong>
                        <span class="small soft">{line(&draft)}</span>
                    </a>
                }
            });
            view! { <Slat name=words::IN_HAND /> {rows.collect_view()} }
        })
    }
}

/// Tools, bench and tub have no piles; gloves are changed.
#[component]
fn Else() -> impl IntoView {
    let ledger = Ledger::here();
    let objects = [Object::Tools, Object::Bench, Object::Tub];
    let objects = objects
        .map(|object| (Some(object), words::object(object).to_owned()))
        .to_vec();
    let none: Signal<Option<Object>> = Signal::derive(|| None);
    view! {
        <div class="form">
            {one_of(words::CLEAN_ELSE, objects, none, move |object| {
                if let Some(object) = object {
                    to_a_cleaning(ledger, Wanted { object, apart: None });
                }
            })}
            <p class="soft">{words::GLOVES}</p>
        </div>
    }
}

/// What chlorine never meets, and whom to call.
#[component]
pub(super) fn Never() -> impl IntoView {
    let rows = words::NEVER_WITH.map(|row| view! { <li>{row}</li> });
    view! {
        <details class="more-of-it">
            <summary>{words::NEVER}</summary>
            <ul class="before-it">{rows.into_iter().collect_view()}</ul>
            <p class="edge">{words::FLAME}</p>
            <Poisons />
            <p class="edge soft">{words::ORIGIN}</p>
        </details>
    }
}

/// What to do on contact, with the number to call.
#[component]
pub(super) fn Poisons() -> impl IntoView {
    let ledger = Ledger::here();
    let number = ledger.ask(|state, _| shed::nursery(state).poisons_number);
    let number = move || {
        let number = number.get();
        if number.is_empty() {
            treat::NO_POISONS.to_owned()
        } else {
            treat::poisons(&number)
        }
    };
    view! { <p class="edge">{treat::CONTACT} " " <strong>{number}</strong></p> }
}

/// The last disinfections on record.
#[component]
fn Lately() -> impl IntoView {
    let ledger = Ledger::here();
    let rows = ledger.ask(|state, _| {
        let rows = cleanings(state, SHOWN).into_iter();
        rows.map(|(entry, on, event)| (entry, on, sentence(state, &event)))
            .collect::<Vec<_>>()
    });
    move || {
        let rows = rows.get();
        (!rows.is_empty()).then(|| {
            let rows = rows.into_iter().map(|(entry, on, said)| {
                view! {
                    <a class="entry" href=Route::Entry(entry).href()>
                        <span class="soft">{format::full_day(on)}</span>
                        <span>{said}</span>
                    </a>
                }
            });
            view! { <Slat name=words::ON_RECORD /> {rows.collect_view()} }
        })
    }
}

/// What is told once a pile went on.
pub(super) fn told_moved(words: &str) -> String {
    told::done(words)
}
