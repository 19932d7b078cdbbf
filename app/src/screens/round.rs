//! The Round: what needs me this morning, in the order I walk.

use std::ops::Range;

use chrono::NaiveDate;
use leptos::ev::MouseEvent;
use leptos::prelude::*;
use leptos::task::spawn_local;
use velamen_core::event::TaskAnswer;
use velamen_core::id::{LotId, PlaceId};
use velamen_core::quantity::Volume;
use velamen_core::task::TaskKind;
use velamen_core::view::PlaceLabel;
use velamen_core::view::reentry::{Bound, BoundWhat};
use velamen_core::view::round::{BenchRow, Row, RowState};
use velamen_core::view::walk::WalkStop;

use crate::desk::Table;
use crate::frame::{home_notices, room_bar};
use crate::ledger::Ledger;
use crate::rest::{self, Wanted, doors};
use crate::route::Route;
use crate::screens::answers::{answer, glyph};
use crate::screens::reentry::until;
use crate::ui::{
    Glyph, Lesson, PlainAction, PlainLink, PlantNameRuns, Screen, Slat, Stake, TrayTag, Windowed,
    WorkRow, WorkState,
};
use crate::words::{apply, format, repot, rooms, round as words, task, trade};

/// The Round of today.
#[component]
pub fn Round() -> impl IntoView {
    let ledger = Ledger::here();
    let view = ledger.round();
    let marks = ledger.bounds_of_round();
    let water = ledger.ask_later(doors::benches_due);
    let opened: RwSignal<Option<Row>> = RwSignal::new(None);
    let some = Memo::new(move |_| view.with(|(_, no_lots)| !no_lots));
    let over = Signal::derive(move || format::long_day(ledger.today()));
    let side = move || {
        let (late, due, questions) = view.with(|(view, _)| (view.late, view.due, view.questions));
        let bare = view.with(|(view, _)| view.on_the_bench.iter().map(|row| row.bare).sum());
        view! {
            <p class="figure">{words::summary(late, due, bare)}</p>
            <a href=Route::Map.href()>{crate::words::map::LINK}</a>
            <a href=Route::DayPlan.href()>{crate::words::day::OPEN}</a>
            <a href=Route::Readings.href()>{crate::words::climate::OPEN}</a>
            <a href=Route::Water.href()>{move || crate::words::water::open(water.get())}</a>
            {(questions > 0).then(|| view! { <a href=Route::Questions.href()>{words::questions(questions)}</a> })}
        }
    };
    let actions = move || {
        view! {
            <PlainLink href=Route::NewTask.href() label=words::ADD_TASK glyph=Glyph::Plus />
            <PlainLink href=Route::SeenWhere.href() label=words::SEEN_HERE glyph=Glyph::Magnifier />
        }
    };
    let to_buy = move || {
        let missing = view.with(|(view, _)| view.missing.clone());
        let today = ledger.today();
        let said = (!missing.is_empty())
            .then(|| crate::words::containers::missing_soon(&missing, today))?;
        Some(
            view! { <a class="entry" href=Route::ToBuy.href()><span class="strong">{said}</span></a> },
        )
    };
    let bench = Memo::new(move |_| view.with(|(view, _)| view.on_the_bench.clone()));
    let bench = move || bench.get().into_iter().map(bench_row).collect_view();
    let parts = Memo::new(move |_| view.with(|(walk, _)| walk.rows().div_ceil(DRAWN)));
    let part = Callback::new(move |nth: usize| {
        // What stays as it is stays on the glass; a row that is done takes nothing with it but itself.
        let pieces = Memo::new(move |before: Option<&Vec<(u64, Piece)>>| {
            let today = ledger.today();
            let stops = part(ledger, nth).into_iter();
            let now = marks.with(|marks| {
                stops
                    .flat_map(|shown| pieces(shown, marks, today))
                    .collect()
            });
            numbered(before.map(Vec::as_slice).unwrap_or_default(), now)
        });
        view! {
            <div>
                <For
                    each=move || pieces.get()
                    key=|(number, _)| *number
                    children=move |(_, piece)| drawn(ledger, piece, opened)
                />
            </div>
        }
        .into_any()
    });
    // What lies on the bench is work as much as what stands on the walk.
    let state = Memo::new(move |_| {
        view.with(|(view, no_lots)| {
            let empty = view.stops.is_empty() && view.on_the_bench.is_empty();
            (*no_lots, empty)
        })
    });
    let lesson = move || {
        let (no_lots, empty) = state.get();
        if no_lots {
            Some(view! {
                <Lesson glyph=Glyph::Stock title=words::FIRST_LOT words=words::FIRST_LOT_HINT />
                <p class="edge"><PlainLink href=Route::NewLot.href() label=words::ADD_LOT glyph=Glyph::Plus main=true /></p>
                <p class="edge"><PlainLink href=Route::StockList.href() label=crate::words::stock_list::LINK /></p>
            }.into_any())
        } else if empty {
            Some(view! { <Lesson glyph=Glyph::Round title=words::NOTHING_DUE words=words::NOTHING_DUE_HINT /> }.into_any())
        } else {
            None
        }
    };
    view! {
        <Screen title=rooms::ROUND over side actions notice=home_notices rooms=|| room_bar(Route::Round)>
            {to_buy}
            {bench}
            <Windowed parts part more_label=words::MORE_OF_THE_WALK on_paper=Table::here().printing on_drawn=Table::here().on_drawn() />
            {lesson}
            {move || some.get().then(|| rest::later(Wanted::Month))}
            {rest::later(Wanted::RowSheet(opened))}
        </Screen>
    }
}

/// Rows of work drawn at once: a screen of a phone.
const DRAWN: usize = 8;

/// A stop, or as much of it as belongs to one part of the list.
struct Shown {
    place: Option<PlaceLabel>,
    to_do: usize,
    rows: Vec<Row>,
    begins: bool,
    ends: bool,
}

/// What stands in a part of the list.
fn part(ledger: Ledger, nth: usize) -> Vec<Shown> {
    let here = nth * DRAWN..(nth + 1) * DRAWN;
    let stops: Vec<(WalkStop, Range<usize>)> = ledger.round().with(|(walk, _)| {
        let near = walk.stops.iter().filter_map(|stop| {
            let from = stop.rows.start.max(here.start);
            let upto = stop.rows.end.min(here.end);
            (from < upto).then(|| (stop.clone(), from..upto))
        });
        near.collect()
    });
    let shown = stops.into_iter().map(|(stop, rows)| Shown {
        begins: rows.start == stop.rows.start,
        ends: rows.end == stop.rows.end,
        place: stop.place,
        to_do: stop.to_do,
        rows: ledger.rows_of_round(rows),
    });
    shown.collect()
}

/// A clump on the bench leads the list.
pub(super) fn bench_row(row: BenchRow) -> impl IntoView {
    let today = Ledger::here().today();
    let (what, why) = match row.bare_since {
        Some((on, minute)) if on == today => words::bare(row.bare, &format::clock(minute)),
        Some((on, _)) => words::bare(row.bare, &format::near_day(on, today)),
        None => (
            words::on_the_bench(row.pots),
            task::since(
                velamen_core::task::Trigger::WantsBench,
                &format::days_ago(row.opened_on, today),
            ),
        ),
    };
    let why = if row.bare > 0 { why } else { String::new() };
    let label = if row.bare > 0 {
        words::POT_THEM
    } else {
        words::GO_ON
    };
    view! {
        <div class="bench-row">
            <TrayTag number=row.tray.to_string() word=rooms::TRAY />
            <div class="bench-row-words">
                <PlantNameRuns runs=trade::name_runs(&row.name) />
                <strong>{what}</strong>
                <span>{why}</span>
            </div>
            <PlainLink href=Route::Clump(row.clump).href() label />
        </div>
    }
}

/// What stands on the Round, one under the other.
#[derive(Clone, PartialEq)]
enum Piece {
    /// A stop, how much there is to do at it, and who keeps out of it until when.
    Head(String, String, Option<String>),
    Work(Box<Work>),
    /// The way to what is seen at a place.
    Foot(PlaceId, String),
}

#[derive(Clone, PartialEq)]
struct Work {
    row: Row,
    hands_off: Option<String>,
    in_rain: bool,
    today: NaiveDate,
}

fn pieces(shown: Shown, marks: &[Bound], today: NaiveDate) -> Vec<Piece> {
    let Shown {
        place,
        to_do,
        rows,
        begins,
        ends,
    } = shown;
    let mut pieces = Vec::new();
    let in_rain = place.as_ref().is_some_and(|place| place.open_to_rain);
    if begins {
        let here = |mark: &&Bound| {
            let at = place.as_ref().map(|place| BoundWhat::Place(place.place));
            Some(mark.what) == at
        };
        let kept_out = marks.iter().find(here);
        let kept_out =
            kept_out.map(|mark| apply::place_bound(&mark.label_name, &until(mark, today)));
        let name = place.as_ref().map(|place| place.name.clone());
        let note = (to_do > 0).then(|| words::to_do(to_do));
        pieces.push(Piece::Head(
            name.unwrap_or_else(|| words::NO_PLACE.to_owned()),
            note.unwrap_or_default(),
            kept_out,
        ));
    }
    let rows = rows.into_iter().map(|row| {
        let of_row = |mark: &&Bound| {
            let lots = row.lots.iter();
            lots.clone().any(|lot| mark.what == BoundWhat::Lot(lot.lot))
        };
        let mark = marks.iter().filter(of_row).max_by_key(|mark| mark.until_ms);
        let hands_off = mark.map(|mark| apply::lots_bound(&mark.label_name, &until(mark, today)));
        Piece::Work(Box::new(Work {
            row,
            hands_off,
            in_rain,
            today,
        }))
    });
    pieces.extend(rows);
    pieces.extend(
        place
            .filter(|_| ends)
            .map(|place| Piece::Foot(place.place, words::seen_at(&place.name))),
    );
    pieces
}

/// Gives what is as it was before the number it had, and what is new or changed a new one.
fn numbered<T: PartialEq>(before: &[(u64, T)], now: Vec<T>) -> Vec<(u64, T)> {
    let mut next = before
        .iter()
        .map(|(number, _)| number + 1)
        .max()
        .unwrap_or(0);
    let mut rest = before;
    let mut number = |it: &T| {
        if let Some(at) = rest.iter().position(|(_, known)| known == it) {
            let (_, from) = rest.split_at(at);
            let ((number, _), after) = from.split_first()?;
            rest = after;
            return Some(*number);
        }
        next += 1;
        Some(next - 1)
    };
    now.into_iter()
        .filter_map(|it| Some((number(&it)?, it)))
        .collect()
}

fn drawn(ledger: Ledger, piece: Piece, opened: RwSignal<Option<Row>>) -> AnyView {
    match piece {
        Piece::Head(name, note, kept_out) => {
            let kept_out = kept_out.map(|said| view! { <p class="warn">{said}</p> });
            view! { <Slat name note /> {kept_out} }.into_any()
        }
        Piece::Work(work) => work_row(ledger, *work, opened),
        Piece::Foot(place, label) => {
            view! { <a class="quiet place-foot" href=Route::SeenPlace(place).href()>{label}</a> }
                .into_any()
        }
    }
}

fn work_row(ledger: Ledger, work: Work, opened: RwSignal<Option<Row>>) -> AnyView {
    let Work {
        row,
        hands_off,
        in_rain,
        today,
    } = work;
    let (state, unit) = match row.state {
        RowState::Late { days } => {
            let days = u32::try_from(days).unwrap_or(0);
            (
                WorkState::Late { days },
                if days == 1 { words::DAY } else { words::DAYS },
            )
        }
        RowState::Due => (WorkState::Due, ""),
        RowState::MayStart { days } | RowState::Coming { days } => (
            WorkState::Coming {
                days: u32::try_from(days).unwrap_or(0),
            },
            if days == 1 { words::DAY } else { words::DAYS },
        ),
        RowState::Held { .. } => (WorkState::Held, ""),
    };
    let under_cover = match row.state {
        RowState::Held { until } if in_rain => {
            task::held_in_rain(row.kind, &format::near_day(until, today))
        }
        _ => None,
    };
    let what = under_cover.unwrap_or_else(|| title(&row, today));
    let why = why(&row, today);
    let lots = row.lots.iter().take(3).map(|lot| {
        view! { <Stake name=trade::name_runs(&lot.name) code=lot.code.map(|code| code.to_string()).unwrap_or_default() /> }
    }).collect_view();
    let more = row.lots.len().saturating_sub(3);
    let can_do = !matches!(row.state, RowState::Held { .. });
    let done_label = format!("{}: {what}", words::ALL_DONE);
    let inner = row.clone();
    let open_row = row.clone();
    let on_done = Callback::new(move |()| {
        if inner.kind.def().asks_outcome || inner.kind.def().treats {
            opened.set(Some(inner.clone()));
        } else {
            let title = title(&inner, ledger.moment().today);
            answer(
                ledger,
                inner.tasks.clone(),
                &title,
                TaskAnswer::Done { outcome: None },
            );
        }
    });
    let bench = row.kind.def().at_bench || row.kind.def().on_page;
    let wash = row.washes_up.then(|| {
        view! { <PlainLink href=Route::Wash.href() label=crate::words::clean::WASH /> }
    });
    let treat = row.kind.def().treats.then(|| {
        let lots: Vec<LotId> = row.lots.iter().map(|lot| lot.lot).collect();
        let press = Callback::new(move |()| {
            let lots = lots.clone();
            spawn_local(async move { doors::treat_these(ledger, lots).await });
        });
        view! { <PlainAction label=words::TREAT_THEM.to_owned() on_press=press /> }
    });
    let hands_off = hands_off.map(|said| view! { <p class="warn">{said}</p> });
    // Such a row may lead to its lot, and this key with it; it changes the row instead.
    let change = move |event: MouseEvent| {
        event.prevent_default();
        opened.set(Some(open_row.clone()));
    };
    let body = view! {
        {hands_off}
        {wash}
        {treat}
        {lots}
        {(more > 0).then(|| view! { <span class="more">{format!("+{more}")}</span> })}
        <button type="button" class="quiet" on:click=change>{words::CHANGE}</button>
    };
    let words_of_state = words::state(row.state);
    let glyph = glyph(row.kind);
    if can_do && !bench {
        view! {
            <WorkRow state state_words=words_of_state unit glyph what why on_done done_label busy=ledger.busy()>{body}</WorkRow>
        }
        .into_any()
    } else {
        let href = bench
            .then(|| row.lots.first().map(|lot| Route::Lot(lot.lot).href()))
            .flatten();
        view! { <WorkRow state state_words=words_of_state unit glyph what why href=href.unwrap_or_default()>{body}</WorkRow> }
            .into_any()
    }
}

pub(super) fn title(row: &Row, today: chrono::NaiveDate) -> String {
    match row.state {
        RowState::Held { until } => task::held(row.kind, &format::near_day(until, today)),
        // What the program wrote down itself is said in the words of who reads it.
        _ if row.kind == TaskKind::Own => row.washing.map_or_else(
            || row.text.clone(),
            |it| repot::wash(it.pots, Volume::from_ul(it.stone_ul), it.tray),
        ),
        _ => task::kind(row.kind).to_owned(),
    }
}

fn why(row: &Row, today: chrono::NaiveDate) -> String {
    let count = if row.lots.is_empty() {
        String::new()
    } else {
        trade::plants_in_pots(row.plants, row.stands)
    };
    let since = row
        .trigger
        .map(|trigger| task::since(trigger, &format::days_ago(row.anchor_on, today)));
    let when = match row.state {
        RowState::MayStart { .. } | RowState::Coming { .. } => {
            Some(format::near_day(row.due_on, today))
        }
        _ => None,
    };
    let seen = row
        .last_sight
        .filter(|_| row.kind == TaskKind::ToTheBench)
        .map(|sight| trade::sight(sight).to_owned());
    let weather = row.weather.map(|moved| task::moved(&moved));
    let generation = row
        .generation
        .map(|day| crate::words::seen::rests_on(&day.by));
    let spent = row.mix_spent.then(|| task::MIX_SPENT.to_owned());
    let parts = [Some(count), seen, since, when, weather, generation, spent];
    parts
        .into_iter()
        .flatten()
        .filter(|part| !part.is_empty())
        .collect::<Vec<_>>()
        .join(" · ")
}
