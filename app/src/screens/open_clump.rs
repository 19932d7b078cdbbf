//! A clump comes to the bench: one or several lots, or one that was never booked.

use leptos::prelude::*;
use velamen_core::clean::{last_cut, next_tool, session};
use velamen_core::command::{Command, OpenDivision};
use velamen_core::draft::OpeningDraft;
use velamen_core::event::{CutPlan, Event, OpenedLot};
use velamen_core::id::LotId;
use velamen_core::name::PlantName;
use velamen_core::state::State;
use velamen_core::view::cut::plan_of_lots;
use velamen_core::view::stock::StockRow;
use velamen_core::view::{LotLabel, lot_label, repot};

use crate::frame::{notices, room_bar};
use crate::ledger::{Act, Ledger};
use crate::route::Route;
use crate::screens::first_repot::{Step, first_step};
use crate::screens::lot_parts::{Refusal, nothing_called};
use crate::ui::{
    Field, MainAction, PlainAction, PlainLink, Screen, Stake, Stepper, Toggle, TopBack, TrayTag,
};
use crate::words::{clean, cut, rejection, repot as words, rooms, trade, treat};

/// Key of the draft.
pub const OPENING: &str = "opening";
/// Lots shown under the search.
const SHOWN: usize = 12;
const TRAY_MAX: i64 = 999;

/// The screen.
#[component]
pub fn OpenClump() -> impl IntoView {
    let ledger = Ledger::here();
    let draft = ledger.draft::<OpeningDraft>(OPENING);
    let change = move |how: Box<dyn FnOnce(&mut OpeningDraft)>| ledger.change_draft(OPENING, how);
    let next_tray = ledger.ask(|state, _| repot::next_tray(state));
    let tray = Signal::derive(move || {
        draft
            .with(|draft| draft.tray)
            .unwrap_or_else(|| next_tray.get())
    });
    let error = RwSignal::new(String::new());
    let open = Callback::new(move |()| {
        let command =
            ledger.look(|state, _| command(state, &draft.get_untracked(), tray.get_untracked()));
        let act = Act::new(command, words::OPENED).ends_draft(OPENING);
        ledger.act(
            act.then(|decision| {
                if let Some(Event::DivisionOpened(opened)) = decision.events.first() {
                    Route::Clump(opened.clump).replace();
                }
            })
            .otherwise(move |no| error.set(rejection::say(&no))),
        );
    });
    let caution = move || {
        let draft = draft.get();
        if draft.lots.is_empty() {
            return String::new();
        }
        let command = ledger.look(|state, _| command(state, &draft, tray.get()));
        let cautions = ledger.try_out(command).unwrap_or_default();
        cautions
            .first()
            .map(|caution| rejection::caution(caution, ledger.today()))
            .unwrap_or_default()
    };
    let unbooked = Signal::derive(move || draft.with(|draft| draft.unbooked));
    let nothing = Signal::derive(move || {
        draft.with(|draft| draft.lots.is_empty() && !(draft.unbooked && draft.unbooked_pots > 0))
    });
    let actions = move || {
        let flip = Callback::new(move |()| {
            change(Box::new(|draft| {
                draft.unbooked = !draft.unbooked;
                if draft.unbooked {
                    draft.unbooked_pots = draft.unbooked_pots.max(1);
                } else {
                    draft.unbooked_pots = 0;
                }
            }));
        });
        let label = Signal::derive(move || {
            if unbooked.get() {
                words::IN_BOOK.to_owned()
            } else {
                words::NOT_IN_BOOK.to_owned()
            }
        });
        view! {
            <PlainAction label on_press=flip />
            <MainAction label=words::OPEN_IT.to_owned() on_press=open busy=ledger.busy() disabled=nothing />
        }
    };
    let warning = move || {
        let caution = caution();
        (!caution.is_empty()).then(|| view! { <p class="warn">{caution}</p> })
    };
    view! {
        <Screen
            title=words::CLUMP_TO_THE_BENCH
            back=|| view! { <TopBack href=Route::Repot.href() label=rooms::back_to(rooms::REPOT) /> }
            side=move || view! { <TrayTag number=tray.get().to_string() word=rooms::TRAY /> }
            actions
            notice=notices
            rooms=|| room_bar(Route::Repot)
        >
            {first_step(ledger, Step::Open)}
            <div class="edge-error"><Refusal words=error /></div>
            {warning}
            <Chosen draft error />
            {move || if unbooked.get() { view! { <Unbooked draft error /> }.into_any() } else { view! { <Booked draft error /> }.into_any() }}
            {move || (!nothing.get()).then(|| view! { <Planned draft /> })}
            <NextTool draft />
            <Stepper
                label=words::TRAY_TAG
                hint=words::TRAY_HINT.to_owned()
                count=Signal::derive(move || i64::from(tray.get()))
                on_count=Callback::new(move |count: i64| {
                    error.set(String::new());
                    change(Box::new(move |draft| draft.tray = u32::try_from(count).ok()));
                })
                less_label=words::one_less(words::TRAY_TAG)
                more_label=words::one_more(words::TRAY_TAG)
                min=1
                max=TRAY_MAX
            />
        </Screen>
    }
}

/// What it is meant to become, and the way to thinking it over.
#[component]
fn Planned(draft: Memo<OpeningDraft>) -> impl IntoView {
    let ledger = Ledger::here();
    let plan = Memo::new(move |_| {
        let draft = draft.get();
        ledger.follow(|state, _| plan_for(state, &draft))
    });
    view! {
        <div class="form">
            {move || plan.get().map(|plan| view! { <p class="strong">{cut::plan(&plan)}</p> })}
            <PlainLink href=Route::CutOpening.href() label=cut::BEFORE />
        </div>
    }
}

/// The plan that goes along: chosen here, or kept for these very lots.
fn plan_for(state: &State, draft: &OpeningDraft) -> Option<CutPlan> {
    let chosen = draft.plan.clone();
    let whole = draft.plants.is_empty() && !draft.unbooked;
    chosen.or_else(|| plan_of_lots(state.facts(), &draft.lots).filter(|_| whole))
}

/// The tool that cuts next: set once for the session, only the exception is tapped.
#[component]
fn NextTool(draft: Memo<OpeningDraft>) -> impl IntoView {
    let ledger = Ledger::here();
    let same = Memo::new(move |_| draft.with(|draft| draft.same_tool));
    let cut = ledger.ask(|state, at| last_cut(state, at).is_some() && session(state, at).is_some());
    let tool = Memo::new(move |_| {
        let same = same.get();
        ledger.follow(|state, at| next_tool(state, at, same))
    });
    let flip = Callback::new(move |on: bool| {
        ledger.change_draft(OPENING, move |draft: &mut OpeningDraft| {
            draft.same_tool = on
        });
    });
    view! {
        <div class="form">
            <p class="strong">{move || clean::tool(&tool.get())}</p>
            {move || cut.get().then(|| view! {
                <Toggle label=clean::SAME_TOOL on=same on_switch=flip on_word=treat::YES off_word=treat::NO />
            })}
        </div>
    }
}

/// Three taps: how many pots, a name if known, open.
#[component]
fn Unbooked(draft: Memo<OpeningDraft>, error: RwSignal<String>) -> impl IntoView {
    let ledger = Ledger::here();
    let name = Signal::derive(move || draft.with(|draft| draft.name_typed.clone()));
    let printed = move || {
        let name = PlantName::from_typed(&name.get());
        view! { <Stake name=trade::name_runs(&name) /> }
    };
    view! {
        <Stepper
            label=words::POTS_GROWN_TOGETHER
            count=Signal::derive(move || draft.with(|draft| i64::from(draft.unbooked_pots)))
            on_count=Callback::new(move |count: i64| {
                error.set(String::new());
                ledger.change_draft(OPENING, move |draft: &mut OpeningDraft| {
                    draft.unbooked_pots = u32::try_from(count).unwrap_or(0);
                });
            })
            less_label=words::one_less(words::POTS_GROWN_TOGETHER)
            more_label=words::one_more(words::POTS_GROWN_TOGETHER)
            min=1
            max=200
        />
        <div class="form">
            <Field
                label=words::NAME
                value=name
                on_input=Callback::new(move |text: String| {
                    error.set(String::new());
                    ledger.change_draft(OPENING, move |draft: &mut OpeningDraft| draft.name_typed = text);
                })
                max_chars=200
            />
            <p>{printed}</p>
        </div>
    }
}

/// The lots that were chosen, whichever way the rest of the clump is told, with how many plants of each.
#[component]
fn Chosen(draft: Memo<OpeningDraft>, error: RwSignal<String>) -> impl IntoView {
    let ledger = Ledger::here();
    let lots = Memo::new(move |_| draft.with(|draft| draft.lots.clone()));
    let plants = move |label: &LotLabel| {
        let lot = label.lot;
        let (all, stands) = (count_of(label.plants), count_of(label.stands));
        let going = move || draft.with(|draft| i64::from(draft.opened(lot, all, stands).0));
        (all > 1).then(|| {
            view! {
                <Stepper
                    label=words::PLANTS_TO_BENCH
                    hint=words::of_all(label.plants)
                    count=Signal::derive(going)
                    on_count=Callback::new(move |count: i64| {
                        error.set(String::new());
                        ledger.change_draft(OPENING, move |draft: &mut OpeningDraft| {
                            draft.plants.insert(lot, count_of(count));
                        });
                    })
                    less_label=words::one_less(words::PLANTS_TO_BENCH)
                    more_label=words::one_more(words::PLANTS_TO_BENCH)
                    min=1
                    max=label.plants
                />
            }
        })
    };
    let rows = move || {
        let row = |lot: LotId| {
            let label = ledger.look(|state, _| lot_label(state.facts(), lot));
            view! {
                <LotChoice label=label.clone() place=String::new() draft error />
                {plants(&label)}
            }
        };
        lots.get().into_iter().map(row).collect_view()
    };
    view! { <div>{rows}</div> }
}

/// A lot that is tapped in and out.
#[component]
fn LotChoice(
    label: LotLabel,
    place: String,
    draft: Memo<OpeningDraft>,
    error: RwSignal<String>,
) -> impl IntoView {
    let ledger = Ledger::here();
    let lot = label.lot;
    let pressed = move || draft.with(|draft| draft.lots.contains(&lot)).to_string();
    let flip = move |_| {
        error.set(String::new());
        ledger.change_draft(OPENING, move |draft: &mut OpeningDraft| {
            draft.plants.remove(&lot);
            draft.plan = None;
            match draft.lots.iter().position(|known| *known == lot) {
                Some(at) => drop(draft.lots.remove(at)),
                None => draft.lots.push(lot),
            }
        });
    };
    view! {
        <button type="button" class="choose" aria-pressed=pressed on:click=flip>
            <Stake
                name=trade::name_runs(&label.name)
                code=label.code.map(|code| code.to_string()).unwrap_or_default()
                count=trade::plants_in_pots(label.plants, label.stands)
            />
            <span class="soft">{place}</span>
        </button>
    }
}

/// Lots of the book, found by name or code; those that want the bench first.
#[component]
fn Booked(draft: Memo<OpeningDraft>, error: RwSignal<String>) -> impl IntoView {
    let ledger = Ledger::here();
    let typed = Memo::new(move |_| draft.with(|draft| draft.search.clone()));
    let found = Memo::new(move |_| {
        let typed = typed.get();
        ledger.follow(|state, at| repot::to_open(state, at, &typed, SHOWN))
    });
    let chosen = Memo::new(move |_| draft.with(|draft| draft.lots.clone()));
    let others = move || {
        let row = |row: StockRow| {
            let place = row.place.map(|place| place.name).unwrap_or_default();
            view! { <LotChoice label=row.label place draft error /> }
        };
        let found = found
            .get()
            .into_iter()
            .filter(|row| !chosen.with(|chosen| chosen.contains(&row.label.lot)));
        found.map(row).collect_view()
    };
    view! {
        <div class="form">
            <p>{words::WHICH_HINT}</p>
            <Field
                label=words::SEARCH
                value=typed
                on_input=Callback::new(move |text: String| {
                    ledger.change_draft(OPENING, move |draft: &mut OpeningDraft| draft.search = text);
                })
                max_chars=200
            />
        </div>
        {nothing_called(Signal::derive(move || {
            !typed.with(|typed| typed.trim().is_empty()) && found.with(Vec::is_empty)
        }))}
        {others}
    }
}

fn count_of(number: i64) -> u32 {
    u32::try_from(number).unwrap_or(0)
}

fn command(state: &State, draft: &OpeningDraft, tray: u32) -> Command {
    let facts = state.facts();
    let opened = draft.lots.iter().map(|lot| {
        let label = lot_label(facts, *lot);
        let (plants, stands) = draft.opened(*lot, count_of(label.plants), count_of(label.stands));
        OpenedLot {
            lot: *lot,
            plants,
            stands,
        }
    });
    let first = draft.lots.first().map(|lot| lot_label(facts, *lot).name);
    let place = draft
        .lots
        .first()
        .and_then(|lot| facts.lots.get(lot))
        .and_then(|lot| lot.place.get().copied());
    Command::OpenDivision(OpenDivision {
        tray,
        lots: opened.collect(),
        unbooked_pots: if draft.unbooked {
            draft.unbooked_pots
        } else {
            0
        },
        name: first.unwrap_or_else(|| PlantName::from_typed(&draft.name_typed)),
        place,
        leads: None,
        bulbs: None,
        same_tool: draft.same_tool,
        plan: plan_for(state, draft),
    })
}
