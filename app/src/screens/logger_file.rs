//! Readings out of a logger's file: which house, which column is what, what it comes to, and then taking it.

use leptos::prelude::*;
use velamen_core::cells::Cells;
use velamen_core::climate::{Columns, DayOrder, Logged, logged};
use velamen_core::command::Command;
use velamen_core::id::PlaceId;
use velamen_core::view::{climate::read_already, places};

use super::lot_parts::{Refusal, one_of};
use super::table_file::TableChooser;
use crate::frame::{notices, room_bar};
use crate::ledger::{Act, Ledger, TableFile as Chosen};
use crate::route::Route;
use crate::ui::{MainAction, Screen, Slat, TopBack};
use crate::words::{book, climate, logger as words, rejection, rooms, told};

#[derive(Clone, Copy)]
struct InHand {
    ledger: Ledger,
    file: RwSignal<Chosen>,
    /// `None` until a file's columns were guessed or chosen.
    columns: RwSignal<Option<Columns>>,
    place: RwSignal<Option<PlaceId>>,
    refused: RwSignal<String>,
}

impl InHand {
    fn change(self, how: impl FnOnce(&mut Columns)) {
        self.refused.set(String::new());
        self.columns
            .update(|columns| how(columns.get_or_insert_default()));
    }

    fn part<T: PartialEq + Send + Sync + 'static>(self, get: fn(&Columns) -> T) -> Memo<Option<T>> {
        Memo::new(move |_| self.columns.with(|columns| columns.as_ref().map(get)))
    }
}

/// The screen.
#[component]
pub fn LoggerFile() -> impl IntoView {
    let ledger = Ledger::here();
    let hand = InHand {
        ledger,
        file: RwSignal::new(Chosen::Nothing),
        columns: RwSignal::new(None),
        place: RwSignal::new(None),
        refused: RwSignal::new(String::new()),
    };
    // A file that is read has its columns guessed once.
    Effect::new(move |_| {
        let guess = hand.file.with(|file| match file {
            Chosen::Read(cells) => Columns::guess(cells),
            _ => None,
        });
        hand.columns.set(guess);
    });
    let comes_to = Memo::new(move |_| {
        let today = ledger.today();
        let columns = hand.columns.get()?;
        hand.file.with(|file| match file {
            Chosen::Read(cells) => Some(logged(cells, &columns, today)),
            _ => None,
        })
    });
    let take = Callback::new(move |()| take(hand, comes_to.get_untracked()));
    let actions = move || {
        move || {
            let days = comes_to.with(|it| it.as_ref().map_or(0, |it| it.days.len()));
            (days > 0 && hand.place.get().is_some()).then(|| {
                view! { <MainAction label=words::take(days) on_press=take busy=ledger.busy() /> }
            })
        }
    };
    let told = move || {
        hand.file.with(|file| match file {
            Chosen::Nothing => ().into_any(),
            Chosen::Reading => view! { <p>{book::READING}</p> }.into_any(),
            Chosen::Fault(why) => {
                view! { <p class="warn" role="alert">{why.clone()}</p> }.into_any()
            }
            Chosen::Read(cells) => chosen_columns(hand, cells).into_any(),
        })
    };
    let result = move || comes_to.get().map(|it| shown(hand, it));
    view! {
        <Screen
            title=words::TITLE
            back=|| view! { <TopBack href=Route::Readings.href() label=rooms::back_to(climate::TITLE) /> }
            actions
            notice=notices
            rooms=|| room_bar(Route::Round)
        >
            <div class="form">
                <p>{words::HINT}</p>
                <Where hand />
                <TableChooser file=hand.file />
                {told}
            </div>
            {result}
            <div class="form"><Refusal words=hand.refused /></div>
        </Screen>
    }
}

fn take(hand: InHand, comes_to: Option<Logged>) {
    let (Some(place), Some(comes_to)) = (hand.place.get_untracked(), comes_to) else {
        return;
    };
    let days: Vec<_> = comes_to
        .days
        .iter()
        .map(|day| (day.on, day.reading))
        .collect();
    let said = told::done(&words::taken(days.len()));
    let act = Act::new(Command::ReadClimate { place, days }, said);
    let refused = hand.refused;
    hand.ledger.act(
        act.then(move |_| Route::PlaceClimate(place).replace())
            .otherwise(move |no| refused.set(rejection::say(&no))),
    );
}

/// Which house the logger hangs in.
#[component]
fn Where(hand: InHand) -> impl IntoView {
    let known = hand.ledger.ask(|state, _| places(state.facts()));
    move || {
        let houses = known
            .get()
            .into_iter()
            .map(|place| (Some(place.place), place.name));
        let place = hand.place;
        one_of(
            words::WHERE,
            houses.collect(),
            place.into(),
            move |chosen| {
                place.set(chosen);
            },
        )
    }
}

/// What each column is, by its head.
fn chosen_columns(hand: InHand, cells: &Cells) -> impl IntoView + use<> {
    let heads: Vec<(usize, String)> = cells
        .rows
        .first()
        .map(|(_, head)| head.iter().cloned().enumerate().collect())
        .unwrap_or_default();
    let sample = cells.rows.iter().take(3).map(|(_, row)| row.join(" | "));
    let sample: Vec<String> = sample.collect();
    let none = || (None, words::NO_COLUMN.to_owned());
    let may: Vec<(Option<usize>, String)> = std::iter::once(none())
        .chain(heads.iter().map(|(at, head)| (Some(*at), head.clone())))
        .collect();
    let must: Vec<(Option<usize>, String)> = heads
        .into_iter()
        .map(|(at, head)| (Some(at), head))
        .collect();
    let flat = |part: Memo<Option<Option<usize>>>| Signal::derive(move || part.get().flatten());
    let units = vec![
        (Some(false), "°C".to_owned()),
        (Some(true), "°F".to_owned()),
    ];
    let orders = DayOrder::ALL.map(|order| (Some(order), words::order(order).to_owned()));
    let (when, temperature) = (hand.part(|it| it.when), hand.part(|it| it.temperature));
    let (clock, max) = (flat(hand.part(|it| it.clock)), flat(hand.part(|it| it.max)));
    let humidity = flat(hand.part(|it| it.humidity));
    let (unit, order) = (hand.part(|it| it.fahrenheit), hand.part(|it| it.order));
    view! {
        <p class="soft">{words::rows(cells.rows.len().saturating_sub(1), cells.too_many)}</p>
        <div class="logger-rows" tabindex="0" role="region" aria-label=words::FIRST_ROWS>
            {sample.into_iter().map(|row| view! { <p>{row}</p> }).collect_view()}
        </div>
        {one_of(words::DAY_COLUMN, must.clone(), when.into(), move |at| hand.change(|it| it.when = at.unwrap_or_default()))}
        {one_of(words::CLOCK_COLUMN, may.clone(), clock, move |at| hand.change(|it| it.clock = at))}
        {one_of(words::DAY_ORDER, orders.to_vec(), order.into(), move |order| hand.change(|it| it.order = order.unwrap_or_default()))}
        {one_of(words::TEMPERATURE_COLUMN, must, temperature.into(), move |at| hand.change(|it| it.temperature = at.unwrap_or_default()))}
        {one_of(words::MAX_COLUMN, may.clone(), max, move |at| hand.change(|it| it.max = at))}
        {one_of(words::UNIT, units, unit.into(), move |unit| hand.change(|it| it.fahrenheit = unit.unwrap_or_default()))}
        {one_of(words::HUMIDITY_COLUMN, may, humidity, move |at| hand.change(|it| it.humidity = at))}
    }
}

/// What the file comes to, and what of it is not taken.
fn shown(hand: InHand, comes_to: Logged) -> impl IntoView {
    let today = hand.ledger.today();
    let known = {
        let days: Vec<_> = comes_to
            .days
            .iter()
            .map(|day| (day.on, day.reading))
            .collect();
        Memo::new(move |_| {
            let place = hand.place.get()?;
            let count = hand
                .ledger
                .follow(|state, _| read_already(state.facts(), place, &days));
            (count > 0).then(|| words::replaces(count))
        })
    };
    let lines = words::comes_to(&comes_to, today);
    let refused = words::refused(&comes_to);
    let refused = (!refused.is_empty()).then(|| {
        view! {
            <details class="more-of-it">
                <summary>{words::refused_count(comes_to.refused_count)}</summary>
                <ul class="plain-list">{refused.into_iter().map(|row| view! { <li>{row}</li> }).collect_view()}</ul>
            </details>
        }
    });
    view! {
        <Slat name=words::COMES_TO />
        <ul class="plain-list">{lines.into_iter().map(|line| view! { <li>{line}</li> }).collect_view()}</ul>
        {move || known.get().map(|words| view! { <p class="edge">{words}</p> })}
        {refused}
    }
}
