//! The round with the hose: every bench in walking order, one tap a bench, who gets none named beside it.

use leptos::prelude::*;
use velamen_core::id::{LotId, PlaceId};
use velamen_core::view::book::place_called;
use velamen_core::view::water::{Bench, BenchLot, BenchState, benches, one_bench};
use velamen_core::water::{Hold, Stand};
use velamen_core::water_draft::WateringDraft;

use super::reentry::until;
use crate::frame::{notices, room_bar};
use crate::ledger::{Act, Ledger};
use crate::route::Route;
use crate::ui::{Glyph, Lesson, PlainLink, Screen, Slat, Stake, TopBack, WorkRow, WorkState};
use crate::words::{format, rooms, round, trade, water as words};

/// Lots named on a row.
const NAMED: usize = 3;

/// Under what the exceptions of a bench are kept until it is watered.
pub(super) fn draft_key(place: Option<PlaceId>) -> String {
    place.map_or_else(|| "water-none".to_owned(), |id| format!("water-{id}"))
}

/// Lots of a bench, each with whether it would be left out by itself.
pub(super) fn held_or_not(lots: &[BenchLot], feeding: bool) -> Vec<(LotId, bool)> {
    let lots = lots.iter();
    lots.map(|lot| (lot.label.lot, lot.is_held(feeding)))
        .collect()
}

/// Writes down that a bench was watered, but for what was picked out.
pub(super) fn water(ledger: Ledger, place: Option<PlaceId>, then: impl FnOnce() + 'static) {
    let draft: WateringDraft = ledger.peek_draft(&draft_key(place)).unwrap_or_default();
    let asked = ledger.look(|state, at| {
        let (bench, lots) = one_bench(state, place, at.today, at.now_ms)?;
        let lots = held_or_not(&lots, false);
        let gets = lots.iter().filter(|(lot, held)| draft.gets(*lot, *held));
        let left_out = lots.len().saturating_sub(gets.count());
        let said = words::said(words::WATERED, &called(&bench), left_out);
        Some((draft.water(place, &lots), said))
    });
    if let Some((command, said)) = asked {
        let act = Act::new(command, said).ends_draft(draft_key(place));
        ledger.act(act.then(move |_| then()));
    }
}

/// What a bench is called.
pub(super) fn called(bench: &Bench) -> String {
    let place = bench.place.as_ref();
    place.map_or_else(|| round::NO_PLACE.to_owned(), |place| place.name.clone())
}

/// The screen.
#[component]
pub fn Water() -> impl IntoView {
    let ledger = Ledger::here();
    // Where rain was read has a name of its own.
    let view = ledger.ask(|state, at| {
        let rows = benches(state, at.today, at.now_ms).into_iter();
        rows.map(|bench| {
            let own = bench.place.as_ref().map(|place| place.place);
            let rain = bench.rained.filter(|rain| Some(rain.at) != own);
            let gauge = rain.map(|rain| place_called(state, rain.at));
            (bench, gauge)
        })
        .collect::<Vec<_>>()
    });
    let body = move || {
        let rows = view.get();
        if rows.is_empty() {
            return view! { <Lesson glyph=Glyph::Drop title=words::NO_BENCH words=words::NO_BENCH_HINT /> }.into_any();
        }
        let rows = rows
            .into_iter()
            .map(|(row, gauge)| bench(ledger, row, gauge));
        rows.collect_view().into_any()
    };
    view! {
        <Screen
            title=words::TITLE
            back=|| view! { <TopBack href=Route::Round.href() label=rooms::back_to(rooms::ROUND) /> }
            notice=notices
            rooms=|| room_bar(Route::Round)
        >
            <p class="edge soft">{words::HINT}</p>
            {body}
        </Screen>
    }
}

fn days(days: i64) -> u32 {
    u32::try_from(days).unwrap_or(0)
}

const fn unit(days: i64) -> &'static str {
    if days == 1 { round::DAY } else { round::DAYS }
}

fn bench(ledger: Ledger, bench: Bench, gauge: Option<String>) -> impl IntoView {
    let today = ledger.today();
    let place = bench.place.as_ref().map(|place| place.place);
    let name = called(&bench);
    let (state, unit) = match bench.state {
        BenchState::Late { days: late } => (WorkState::Late { days: days(late) }, unit(late)),
        BenchState::Look => (WorkState::Due, ""),
        BenchState::Later { days: ahead } => (WorkState::Coming { days: days(ahead) }, unit(ahead)),
        BenchState::Nothing => (WorkState::Held, ""),
    };
    let state_words = words::state(bench.state);
    let what = words::bench(&bench);
    let why = words::why(&bench, gauge.as_deref(), today);
    let link =
        view! { <a class="quiet" href=Route::WaterBench(place).href()>{words::EXCEPTIONS}</a> };
    let row = if bench.state == BenchState::Nothing {
        view! { <WorkRow state state_words unit glyph=Glyph::Drop what why>{link}</WorkRow> }
            .into_any()
    } else {
        let on_done = Callback::new(move |()| water(ledger, place, || {}));
        let done_label = format!("{}: {name}", words::WATERED_ALL);
        view! { <WorkRow state state_words unit glyph=Glyph::Drop what why on_done done_label busy=ledger.busy()>{link}</WorkRow> }
            .into_any()
    };
    let note = trade::pots(bench.stands);
    let held = held_rows(&bench, today);
    let feed = feed_row(&bench, place, today);
    view! {
        <section>
            <Slat name note />
            {row}
            {held}
            {feed}
        </section>
    }
}

/// Who gets no water: as plain as a task, a row for each day.
fn held_rows(bench: &Bench, today: chrono::NaiveDate) -> impl IntoView + use<> {
    let mut days: Vec<(String, Vec<velamen_core::view::LotLabel>)> = Vec::new();
    let mut add = |what: String, lot: &velamen_core::view::LotLabel| match days
        .iter_mut()
        .find(|(known, _)| *known == what)
    {
        Some((_, lots)) => lots.push(lot.clone()),
        None => days.push((what, vec![lot.clone()])),
    };
    for (lot, by) in &bench.bound {
        add(words::hands_off(&until(by, today)), lot);
    }
    for (lot, seen_on) in &bench.kept_dry {
        add(words::kept_dry(*seen_on, today), lot);
    }
    for (lot, until) in &bench.held {
        let until = format::near_day(*until, today);
        add(words::held(&until, bench.open_to_rain), lot);
    }
    for (lot, until) in &bench.resting {
        add(words::rest(*until, today), lot);
    }
    let rows = days.into_iter().map(|(what, lots)| {
        let more = lots.len().saturating_sub(NAMED);
        let stakes = lots.iter().take(NAMED).map(|lot| {
            let code = lot.code.map(|code| code.to_string()).unwrap_or_default();
            view! { <Stake name=trade::name_runs(&lot.name) code /> }
        });
        let stakes = stakes.collect_view();
        view! {
            <WorkRow state=WorkState::Held state_words=String::from(round::NOT_YET) glyph=Glyph::Drop what>
                {stakes}
                {(more > 0).then(|| view! { <span class="more">{format!("+{more}")}</span> })}
            </WorkRow>
        }
    });
    rows.collect_view()
}

fn feed_row(bench: &Bench, place: Option<PlaceId>, today: chrono::NaiveDate) -> AnyView {
    let href = Route::Feeding(place).href();
    if bench.state == BenchState::Nothing {
        return ().into_any();
    }
    if words::feed_is_due(bench.feed.state) {
        let why = words::feed(bench, today);
        let state_words = words::state(BenchState::Look);
        return view! {
            <WorkRow state=WorkState::Due state_words glyph=Glyph::Feed what=words::FEED why>
                <a class="quiet" href=href>{words::FEED_IT}</a>
            </WorkRow>
        }
        .into_any();
    }
    view! { <p class="edge"><PlainLink href label=words::FEED_IT glyph=Glyph::Feed /></p> }
        .into_any()
}

/// Those who wait first, then those who may wait, those who rest last.
pub(super) fn order(lot: &BenchLot) -> (u8, i64) {
    if lot.bound.is_some() {
        return (2, 0);
    }
    match lot.water.stand {
        Stand::Look { late } => (0, -late),
        Stand::Later { days } => (1, days),
        Stand::Held(Hold::NoWaterBefore(_) | Hold::NoFeedBefore(_) | Hold::KeptDry(_)) => (2, 0),
        Stand::Held(Hold::Rest(_)) => (3, 0),
    }
}
