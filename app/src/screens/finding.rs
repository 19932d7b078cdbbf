//! A finding that was recorded: what to do first, and what may follow, each one tap and none a must.

use leptos::prelude::*;
use velamen_core::apply::ApplyDraft;
use velamen_core::command::{Command, EnterQuarantine};
use velamen_core::draft::DRAFT_VERSION;
use velamen_core::event::{QuarantineWhy, SeenOn};
use velamen_core::id::{FindingId, LotId};
use velamen_core::quarantine::Terms;
use velamen_core::reference::signs::sign;
use velamen_core::task::generation::{By, GenerationDay};
use velamen_core::time::plus_days;
use velamen_core::view::finding::{FindingView, Proposal, finding};

use super::apply;
use super::bath::{Wanted, to_a_bath};
use super::photos::Photos;
use crate::frame::{notices, room_bar};
use crate::ledger::{Act, Ledger};
use crate::route::Route;
use crate::ui::{Glyph, Lesson, PlainAction, PlainLink, Screen, Slat, Stake, TopBack};
use crate::words::{apart, rooms, seen as words, signs, stock, trade};

/// The screen.
#[component]
pub fn Finding(finding_id: FindingId) -> impl IntoView {
    let ledger = Ledger::here();
    let view = ledger.ask(move |state, _| finding(state, finding_id));
    let title = Signal::derive(move || {
        let sign = view.with(|view| view.as_ref().map(|view| trade::sign(&view.event.sign)));
        sign.unwrap_or_default()
    });
    let back = move || {
        let route = view.with(|view| view.as_ref().map_or(Route::Round, after));
        let label = match route {
            Route::Clump(_) => words::BACK_TO_BENCH,
            Route::Lot(_) => words::DONE,
            Route::Place(_) => words::TO_PLACE,
            _ => rooms::ROUND,
        };
        view! { <TopBack href=route.href() label=label.to_owned() /> }
    };
    let body = move || {
        match view.get() {
        Some(view) => view! { <Body view finding_id /> }.into_any(),
        None => {
            view! { <Lesson glyph=Glyph::Magnifier title=stock::UNKNOWN words=stock::UNKNOWN_HINT /> }
                .into_any()
        }
    }
    };
    view! {
        <Screen title back notice=notices rooms=|| room_bar(Route::Round)>
            {body}
        </Screen>
    }
}

/// Where one goes on from a finding.
fn after(view: &FindingView) -> Route {
    match view.event.on {
        SeenOn::Lot(lot) => Route::Lot(lot),
        SeenOn::Clump(clump) => Route::Clump(clump),
        SeenOn::Place(place) => Route::Place(place),
    }
}

#[component]
fn Body(view: FindingView, finding_id: FindingId) -> impl IntoView {
    let next = after(&view);
    let label = match next {
        Route::Clump(_) => words::BACK_TO_BENCH,
        Route::Place(_) => words::TO_PLACE,
        _ => words::DONE,
    };
    let place = view.place.as_ref().filter(|_| view.lot.is_none());
    let place = place.map(|place| view! { <p class="edge strong">{place.name.clone()}</p> });
    let stake = view.lot.as_ref().map(|label| {
        let code = label.code.map(|code| code.to_string()).unwrap_or_default();
        view! { <p class="edge"><Stake name=trade::name_runs(&label.name) code /></p> }
    });
    let photos = view.event.photos.iter().map(|photo| photo.sha256.clone());
    let photos: Vec<String> = photos.collect();
    let counted = words::of_looked_at(view.event.affected, view.event.looked_at);
    let share = view.share.as_ref().map(words::share);
    let reached = view.reached.map(words::reached);
    let first = signs::first(&view.event.sign);
    let row = sign(&view.event.sign);
    let series = row.map(|row| row.series).filter(|series| *series > 1);
    let keys = view
        .proposals
        .iter()
        .map(|proposal| key(proposal.clone(), &view, finding_id))
        .collect_view();
    let any = !view.proposals.is_empty();
    view! {
        {stake}
        {place}
        {reached.map(|said| view! { <p class="warn">{said}</p> })}
        <Photos photos />
        {counted.map(|said| view! { <p class="edge">{said}" "{share}</p> })}
        {first.map(|said| view! { <section><Slat name=words::FIRST note="" /><p class="edge strong">{said}</p></section> })}
        {any.then(|| view! {
            <section>
                <Slat name=words::NEXT note="" />
                <div class="form">
                    <p class="soft">{words::NEXT_HINT}</p>
                    {keys}
                    {series.map(|series| view! { <p>{words::series(series)}</p> })}
                </div>
            </section>
        })}
        <div class="form">
            <PlainLink href=next.href() label main=true />
            {any.then(|| view! { <p class="small soft">{words::LABEL_FIRST}</p> })}
            {view.source.map(|source| view! { <p class="small soft">{words::source(source)}</p> })}
        </div>
    }
}

/// The key of one proposal.
fn key(proposal: Proposal, view: &FindingView, finding_id: FindingId) -> AnyView {
    let ledger = Ledger::here();
    let lot = view.lot.as_ref().map(|label| label.lot);
    let name = trade::sign(&view.event.sign);
    match proposal {
        Proposal::Treat { against } => {
            let press = Callback::new(move |()| {
                let wanted = Wanted {
                    lots: lot.into_iter().collect(),
                    finding: Some(finding_id),
                    against: Some(against),
                    ..Wanted::default()
                };
                to_a_bath(ledger, wanted);
            });
            view! { <PlainAction label=words::TREAT.to_owned() glyph=Glyph::Treat on_press=press /> }
                .into_any()
        }
        Proposal::TreatPlace { place, against } => {
            let press = Callback::new(move |()| {
                ledger.change_draft(apply::DRAFT, |draft: &mut ApplyDraft| {
                    draft.version = DRAFT_VERSION;
                    draft.take_up(place, finding_id, against);
                });
                Route::Apply.go();
            });
            view! { <PlainAction label=words::TREAT_PLACE.to_owned() glyph=Glyph::Treat on_press=press /> }
                .into_any()
        }
        Proposal::LookByGeneration { looks } => by_generation(ledger, looks, finding_id, &name),
        Proposal::LookAtLots { lots } => {
            let links = lots.into_iter().map(|label| {
                let code = label.code.map(|code| code.to_string()).unwrap_or_default();
                let count = trade::plants_in_pots(label.plants, label.stands);
                view! {
                    <a class="lot-row" href=Route::SeenLot(label.lot).href()>
                        <Stake name=trade::name_runs(&label.name) code count />
                    </a>
                }
            });
            view! {
                <details class="more-of-it">
                    <summary>{words::WHICH_LOTS}</summary>
                    {links.collect_view()}
                </details>
            }
            .into_any()
        }
        Proposal::LookAgain { days } => {
            let (label, place) = (
                words::look_again(&days),
                view.place.as_ref().map(|it| it.place),
            );
            let text = words::look_for(&name);
            let said_on = view.on;
            let press = Callback::new(move |()| {
                let tasks = days.iter().map(|day| Command::NoteTask {
                    task: None,
                    text: text.clone(),
                    due_on: plus_days(said_on, i64::from(*day)),
                    repeat_days: None,
                    lot,
                    place: place.filter(|_| lot.is_none()),
                });
                ledger.act(Act::new(Command::Together(tasks.collect()), words::TAKEN));
            });
            view! { <PlainAction label glyph=Glyph::Magnifier on_press=press busy=ledger.busy() /> }
                .into_any()
        }
        Proposal::ToTheBench => {
            let text = words::bench_for(&name);
            let press = Callback::new(move |()| {
                let due_on = plus_days(ledger.moment().today, 7);
                let command = Command::NoteTask {
                    task: None,
                    text: text.clone(),
                    due_on,
                    repeat_days: None,
                    lot,
                    place: None,
                };
                ledger.act(Act::new(command, words::TAKEN));
            });
            view! { <PlainAction label=words::BENCH.to_owned() glyph=Glyph::Pot on_press=press busy=ledger.busy() /> }
                .into_any()
        }
        Proposal::Apart { terms } => keep_apart(ledger, lot, finding_id, terms),
        Proposal::Test => lot
            .map(|lot| {
                view! { <PlainLink href=Route::LotTest(lot).href() label=apart::TEST.to_owned() /> }
                    .into_any()
            })
            .unwrap_or_else(|| ().into_any()),
    }
}

/// Looks for a pest's generations: on which days, and what those rest on.
fn by_generation(
    ledger: Ledger,
    looks: Vec<GenerationDay>,
    finding: FindingId,
    name: &str,
) -> AnyView {
    let today = ledger.today();
    let label = words::by_generation(&looks, today);
    let rests = looks.first().map(|look| words::rests_on(&look.by));
    let warm = looks
        .iter()
        .any(|look| matches!(look.by, By::Warmth { .. }));
    let text = words::look_for(name);
    let press = Callback::new(move |()| {
        let text = text.clone();
        let command = Command::LookByGeneration { finding, text };
        ledger.act(Act::new(command, words::TAKEN));
    });
    view! {
        <PlainAction label glyph=Glyph::Magnifier on_press=press busy=ledger.busy() />
        {rests.map(|said| view! { <p class="small">{said}</p> })}
        {warm.then(|| view! { <p class="small soft">{words::GENERATION_HOW}</p> })}
    }
    .into_any()
}

fn keep_apart(ledger: Ledger, lot: Option<LotId>, finding: FindingId, terms: Terms) -> AnyView {
    let label = words::apart(terms.days, !terms.test_days.is_empty());
    let press = Callback::new(move |()| {
        let enter = EnterQuarantine {
            lots: lot.into_iter().collect(),
            why: QuarantineWhy::Finding,
            finding: Some(finding),
            terms: terms.clone(),
            ..EnterQuarantine::default()
        };
        ledger.act(Act::new(
            Command::EnterQuarantine(enter),
            apart::IN_QUARANTINE,
        ));
    });
    view! { <PlainAction label glyph=Glyph::Warning on_press=press busy=ledger.busy() /> }
        .into_any()
}
