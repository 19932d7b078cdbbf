//! What fits today: the minutes there are, and the work that is worth most in them, in the order it is walked.

use chrono::NaiveDate;
use leptos::prelude::*;
use serde::{Deserialize, Serialize};
use velamen_core::command::Command;
use velamen_core::event::TaskAnswer;
use velamen_core::plan::{Chosen, DayPlan, LeftOut, PlanStop, Stage, Why, day_plan};

use super::lot_parts::one_of;
use crate::frame::{notices, room_bar};
use crate::ledger::{Act, Ledger};
use crate::route::Route;
use crate::screens::answers::glyph;
use crate::screens::round::title;
use crate::ui::{Lesson, PlainAction, Screen, Slat, Stake, TopBack, WorkRow, WorkState};
use crate::words::{day as words, rooms, round, told, trade};

const DRAFT: &str = "day_plan";
/// Times offered, in minutes.
const ROOMS_MIN: [u32; 5] = [30, 60, 90, 120, 240];
const ROOM_MIN: u32 = 90;
/// Lots named on a row.
const NAMED: usize = 3;

/// The minutes of a day, and how much of the plan was done in them.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
struct DayDraft {
    #[serde(default)]
    on: Option<NaiveDate>,
    #[serde(default)]
    minutes: Option<u32>,
    #[serde(default)]
    spent_tenths: u32,
}

impl DayDraft {
    fn room_tenths(&self) -> u32 {
        self.minutes.unwrap_or(ROOM_MIN).saturating_mul(10)
    }

    /// Tenths done today: what was done yesterday is not today's.
    fn spent(&self, today: NaiveDate) -> u32 {
        if self.on == Some(today) {
            self.spent_tenths
        } else {
            0
        }
    }

    fn spend(&mut self, today: NaiveDate, tenths: u32) {
        self.spent_tenths = self.spent(today).saturating_add(tenths);
        self.on = Some(today);
    }
}

/// The minutes a day has, as last chosen.
pub(super) fn minutes_there_are(ledger: Ledger) -> Memo<u32> {
    let draft = ledger.draft::<DayDraft>(DRAFT);
    Memo::new(move |_| draft.with(DayDraft::room_tenths) / 10)
}

/// The screen.
#[component]
pub fn DayPlanned() -> impl IntoView {
    let ledger = Ledger::here();
    let draft = ledger.draft::<DayDraft>(DRAFT);
    let spent = Memo::new(move |_| draft.with(|draft| draft.spent(ledger.today())));
    let room = Memo::new(move |_| draft.with(DayDraft::room_tenths));
    let plan: Memo<DayPlan> = Memo::new(move |_| {
        let left = room.get().saturating_sub(spent.get());
        ledger.follow(|state, at| day_plan(state, at.today, at.now_ms, left))
    });
    let rooms = ROOMS_MIN.map(|minutes| (minutes, words::minutes(minutes * 10)));
    let chosen = Signal::derive(move || room.get() / 10);
    let side = move || {
        view! { <p class="figure">{move || words::of_room(plan.with(|plan| plan.tenths), room.get().saturating_sub(spent.get()))}</p> }
    };
    let done = move || {
        (spent.get() > 0).then(|| {
            let again = Callback::new(move |()| {
                ledger.change_draft(DRAFT, |draft: &mut DayDraft| draft.spent_tenths = 0);
            });
            view! {
                <p>{words::spent(spent.get())}</p>
                <PlainAction label=words::BEGIN_AGAIN.to_owned() on_press=again />
            }
        })
    };
    view! {
        <Screen
            title=words::TITLE
            side
            back=|| view! { <TopBack href=Route::Round.href() label=rooms::back_to(rooms::ROUND) /> }
            notice=notices
            rooms=|| room_bar(Route::Round)
        >
            <div class="form">
                {one_of(words::ROOM, rooms.to_vec(), chosen, move |minutes| {
                    ledger.change_draft(DRAFT, |draft: &mut DayDraft| draft.minutes = Some(minutes));
                })}
                {done}
            </div>
            {move || body(ledger, plan.get())}
        </Screen>
    }
}

fn body(ledger: Ledger, plan: DayPlan) -> impl IntoView {
    let lesson = match (plan.stops.is_empty(), plan.left_out.is_empty()) {
        (true, true) => Some((words::ALL_DONE, round::NOTHING_DUE_HINT)),
        (true, false) => Some((words::NOTHING, words::NOTHING_HINT)),
        _ => None,
    };
    let lesson =
        lesson.map(|(title, words)| view! { <Lesson glyph=crate::ui::Glyph::Clock title words /> });
    let stops = plan.stops.into_iter().map(|shown| stop(ledger, shown));
    let stops = stops.collect_view();
    let left_out = (!plan.left_out.is_empty()).then(|| {
        let rows = plan.left_out.into_iter().map(|row| left(ledger, row));
        view! { <section><Slat name=words::LEFT_OUT /> {rows.collect_view()}</section> }
    });
    let learned = plan
        .learned
        .map(|learned| view! { <p>{words::learned(learned.tenths, learned.clumps)}</p> });
    let calendar = Callback::new(move |()| ledger.download_calendar());
    view! {
        {lesson}
        {stops}
        {left_out}
        <div class="form">
            {learned}
            <p class="soft">{words::HOW}</p>
            <p class="soft not-printed">{words::CALENDAR_HINT}</p>
            <PlainAction label=words::CALENDAR.to_owned() on_press=calendar />
        </div>
    }
}

fn place_name(at: &Stage) -> String {
    match at {
        Stage::Place(Some(place)) => place.name.clone(),
        Stage::Place(None) => round::NO_PLACE.to_owned(),
        Stage::Bench => words::BENCH.to_owned(),
        Stage::Bath => words::BATH.to_owned(),
    }
}

fn stop(ledger: Ledger, stop: PlanStop) -> impl IntoView {
    let tenths = stop.rows.iter().map(|row| row.tenths).sum();
    let note = words::stop(tenths, stop.set_up_tenths);
    let name = place_name(&stop.at);
    let rows = stop.rows.into_iter().map(|row| chosen_row(ledger, row));
    view! {
        <section>
            <Slat name note />
            {rows.collect_view()}
        </section>
    }
}

fn chosen_row(ledger: Ledger, chosen: Chosen) -> impl IntoView {
    let today = ledger.today();
    let row = &chosen.row;
    let (state, unit) = match chosen.why {
        Why::Late { days } => (
            WorkState::Late {
                days: u32::try_from(days).unwrap_or(0),
            },
            if days == 1 { round::DAY } else { round::DAYS },
        ),
        Why::Closing { .. } | Why::Due => (WorkState::Due, ""),
        Why::Room { days } => (
            WorkState::Coming {
                days: u32::try_from(days).unwrap_or(0),
            },
            if days == 1 { round::DAY } else { round::DAYS },
        ),
    };
    let what = title(row, today);
    let mut why = vec![words::minutes(chosen.tenths), words::why(chosen.why)];
    if !row.lots.is_empty() {
        why.insert(1, trade::plants_in_pots(row.plants, row.stands));
    }
    if chosen.left_out > 0 {
        why.push(words::part(chosen.left_out));
    }
    let why = why.join(" · ");
    let lots = stakes(row);
    let def = row.kind.def();
    let state_words = round::state(row.state);
    let glyph = glyph(row.kind);
    if def.at_bench || def.asks_outcome || def.treats {
        let href = row.lots.first().map(|lot| Route::Lot(lot.lot).href());
        return view! {
            <WorkRow state state_words unit glyph what why href=href.unwrap_or_default()>{lots}</WorkRow>
        }
        .into_any();
    }
    let done_label = format!("{}: {what}", round::ALL_DONE);
    let said = told::done(&what);
    let tenths = chosen.tenths;
    let tasks = row.tasks.clone();
    let on_done = Callback::new(move |()| {
        let command = Command::DecideTasks {
            tasks: tasks.clone(),
            answer: TaskAnswer::Done { outcome: None },
            why: String::new(),
        };
        // With the entry itself, so that a flat battery cannot part the two.
        let mut after: DayDraft = ledger.peek_draft(DRAFT).unwrap_or_default();
        after.spend(ledger.moment().today, tenths);
        ledger.act(Act::new(command, said.clone()).leaves_draft(DRAFT, &after));
    });
    view! {
        <WorkRow state state_words unit glyph what why on_done done_label busy=ledger.busy()>{lots}</WorkRow>
    }
    .into_any()
}

fn left(ledger: Ledger, left: LeftOut) -> impl IntoView {
    let row = &left.row;
    let what = title(row, ledger.today());
    let place = left
        .place
        .map_or(round::NO_PLACE.to_owned(), |place| place.name);
    let why = format!("{place} · {}", words::left_out(left.why));
    let state_words = round::state(row.state);
    let glyph = glyph(row.kind);
    let lots = stakes(row);
    let href = row.lots.first().map(|lot| Route::Lot(lot.lot).href());
    match href {
        Some(href) => view! { <WorkRow state=WorkState::Held state_words glyph what why href>{lots}</WorkRow> }.into_any(),
        None => view! { <WorkRow state=WorkState::Held state_words glyph what why>{lots}</WorkRow> }.into_any(),
    }
}

fn stakes(row: &velamen_core::view::round::Row) -> impl IntoView + use<> {
    let more = row.lots.len().saturating_sub(NAMED);
    let named = row.lots.iter().take(NAMED).map(|lot| {
        let code = lot.code.map(|code| code.to_string()).unwrap_or_default();
        view! { <Stake name=trade::name_runs(&lot.name) code /> }
    });
    view! {
        {named.collect_view()}
        {(more > 0).then(|| view! { <span class="more">{format!("+{more}")}</span> })}
    }
}
