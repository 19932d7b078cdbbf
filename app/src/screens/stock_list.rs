//! A stock list the grower has already: which column is what, what it comes to, and then taking it.

use leptos::prelude::*;
use velamen_core::cells::Cells;
use velamen_core::climate::DayOrder;
use velamen_core::event::PieceClass;
use velamen_core::stock_list::{self, Comes, Holds, Reading, RowFault, listed};

use super::lot_parts::{Refusal, one_of};
use super::table_file::TableChooser;
use crate::frame::{notices, room_bar};
use crate::ledger::{Act, Ledger, TableFile};
use crate::route::Route;
use crate::ui::{MainAction, Pick, Screen, Slat, Toggle, TopBack};
use crate::words::{book, logger, rejection, rooms, stock_list as words, told, trade, treat};

/// Lots and refused rows shown of a long list.
const SHOWN: usize = 30;

#[derive(Clone, Copy)]
struct InHand {
    ledger: Ledger,
    file: RwSignal<TableFile>,
    reading: RwSignal<Reading>,
    refused: RwSignal<String>,
}

impl InHand {
    fn change(self, how: impl FnOnce(&mut Reading, &Cells)) {
        self.refused.set(String::new());
        self.file.with_untracked(|file| {
            if let TableFile::Read(cells) = file {
                self.reading.update(|reading| how(reading, cells));
            }
        });
    }
}

/// The screen.
#[component]
pub fn StockList() -> impl IntoView {
    let ledger = Ledger::here();
    let hand = InHand {
        ledger,
        file: RwSignal::new(TableFile::Nothing),
        reading: RwSignal::new(Reading::default()),
        refused: RwSignal::new(String::new()),
    };
    // A file that is read has its columns guessed once.
    Effect::new(move |_| {
        let guess = hand.file.with(|file| match file {
            TableFile::Read(cells) => Reading::guess(cells),
            _ => Reading::default(),
        });
        hand.reading.set(guess);
    });
    let comes = Memo::new(move |_| {
        hand.file.with(|file| match file {
            TableFile::Read(cells) => hand.reading.with(|reading| {
                let judged =
                    ledger.follow(|state, at| listed(cells, reading, state.facts(), at.today));
                Some(judged)
            }),
            _ => None,
        })
    });
    let take = Callback::new(move |()| comes.with_untracked(|comes| take(hand, comes.as_ref())));
    let actions = move || {
        move || {
            let lots = comes.with(|comes| comes.as_ref().map_or(0, |comes| comes.lots.len()));
            (lots > 0).then(|| view! { <MainAction label=words::take(lots) on_press=take busy=ledger.busy() /> })
        }
    };
    let told = move || {
        hand.file.with(|file| match file {
            TableFile::Nothing => ().into_any(),
            TableFile::Reading => view! { <p>{book::READING}</p> }.into_any(),
            TableFile::Fault(why) => {
                view! { <p class="warn" role="alert">{why.clone()}</p> }.into_any()
            }
            TableFile::Read(cells) => columns(hand, cells).into_any(),
        })
    };
    let result = move || comes.get().map(|comes| shown(hand, &comes));
    view! {
        <Screen
            title=words::TITLE
            back=|| view! { <TopBack href=Route::Stock.href() label=rooms::back_to(rooms::STOCK) /> }
            actions
            notice=notices
            rooms=|| room_bar(Route::Stock)
        >
            <div class="form">
                <p>{words::HINT}</p>
                <TableChooser file=hand.file />
            </div>
            {told}
            {result}
            <div class="form"><Refusal words=hand.refused /></div>
        </Screen>
    }
}

/// The places first, then the lots: an entry each, in the order of the list.
fn take(hand: InHand, comes: Option<&Comes>) {
    let Some(comes) = comes.filter(|comes| !comes.lots.is_empty()) else {
        return;
    };
    let refused = hand.refused;
    let (ledger, own) = (hand.ledger, comes.clone());
    let lots = move || {
        let mut left = ledger.look(|state, _| stock_list::lots(&own, state.facts()));
        let last = left.pop();
        for some in left {
            let act = Act::new(some, String::new());
            ledger.act(act.otherwise(move |no| refused.set(rejection::say(&no))));
        }
        let Some(last) = last else { return };
        let act = Act::new(last, told::done(&words::taken(own.lots.len()))).for_good();
        ledger.act(
            act.then(|_| Route::Stock.replace())
                .otherwise(move |no| refused.set(rejection::say(&no))),
        );
    };
    match stock_list::places(comes) {
        None => lots(),
        Some(places) => ledger.act(
            Act::new(places, String::new())
                .then(move |_| lots())
                .otherwise(move |no| refused.set(rejection::say(&no))),
        ),
    }
}

/// What each column is, by its head and what stands in it.
fn columns(hand: InHand, cells: &Cells) -> impl IntoView + use<> {
    // The columns are guessed after this is drawn for the first time.
    let width = Reading::guess(cells).holds.len();
    let options: Vec<String> = Holds::ALL
        .map(|holds| words::holds(holds).to_owned())
        .to_vec();
    let picks = (0..width)
        .map(|at| {
            let at_row = |row: usize| cells.rows.get(row).and_then(|(_, row)| row.get(at));
            let sample: Vec<&str> = (0..8)
                .filter_map(|row| at_row(row + 1))
                .map(String::as_str)
                .filter(|cell| !cell.is_empty())
                .take(3)
                .collect();
            let chosen = Signal::derive(move || {
                hand.reading.with(|reading| {
                    let holds = reading.holds.get(at).copied().unwrap_or_default();
                    Holds::ALL.iter().position(|one| *one == holds).unwrap_or_default()
                })
            });
            let on_pick = Callback::new(move |to: usize| {
                let holds = Holds::ALL.get(to).copied().unwrap_or_default();
                hand.change(|reading, cells| reading.set(at, holds, cells));
            });
            let head = at_row(0).map(String::as_str);
            view! {
                <Pick label=words::column(head, at) hint=words::sample(&sample) options=options.clone() chosen on_pick />
            }
        })
        .collect_view();
    let headed = Signal::derive(move || hand.reading.with(|reading| reading.headed));
    let order = Signal::derive(move || hand.reading.with(|reading| reading.order));
    let dated = Memo::new(move |_| {
        hand.reading
            .with(|reading| reading.holds.contains(&Holds::Potted))
    });
    let orders = move || {
        dated.get().then(|| {
            let orders = DayOrder::ALL.map(|order| (order, logger::order(order).to_owned()));
            one_of(logger::DAY_ORDER, orders.to_vec(), order, move |order| {
                hand.change(|reading, _| reading.order = order);
            })
        })
    };
    view! {
        <Slat name=words::COLUMNS note=logger::rows(cells.rows.len(), cells.too_many) />
        <div class="form">
            <Toggle
                label=words::HEADED
                on=headed
                on_switch=Callback::new(move |on: bool| hand.change(move |reading, _| reading.headed = on))
                on_word=treat::YES
                off_word=treat::NO
            />
            {picks}
            {orders}
        </div>
        {move || sizes(hand)}
    }
}

/// The class of each word in the column of sizes.
fn sizes(hand: InHand) -> Option<impl IntoView> {
    let wordlist = Memo::new(move |_| {
        hand.reading
            .with(|reading| reading.sizes.keys().cloned().collect::<Vec<_>>())
    });
    let classes: Vec<Option<PieceClass>> = std::iter::once(None)
        .chain(
            PieceClass::ALL
                .into_iter()
                .filter(|class| class.is_kept())
                .map(Some),
        )
        .collect();
    let options: Vec<String> = classes
        .iter()
        .map(|class| class.map_or(words::NO_SIZE, trade::class).to_owned())
        .collect();
    let found = wordlist.get();
    let picks = found
        .into_iter()
        .map(|word| {
            let (of, to, classes, may) =
                (word.clone(), word.clone(), classes.clone(), classes.clone());
            let chosen = Signal::derive(move || {
                let class = hand
                    .reading
                    .with(|reading| reading.sizes.get(&of).copied().flatten());
                classes
                    .iter()
                    .position(|one| *one == class)
                    .unwrap_or_default()
            });
            let on_pick = Callback::new(move |at: usize| {
                let class = may.get(at).copied().flatten();
                hand.change(|reading, _| {
                    reading.sizes.insert(to.clone(), class);
                });
            });
            view! { <Pick label=word options=options.clone() chosen on_pick /> }
        })
        .collect::<Vec<_>>();
    (!picks.is_empty()).then(|| view! { <Slat name=words::SIZES /><div class="form">{picks}</div> })
}

/// What the list comes to, and what of it is not taken.
fn shown(hand: InHand, comes: &Comes) -> impl IntoView + use<> {
    let today = hand.ledger.today();
    let lines = words::comes_to(comes);
    let mut lots: Vec<String> = comes
        .lots
        .iter()
        .take(SHOWN)
        .map(|lot| words::lot(lot, today))
        .collect();
    lots.extend((comes.lots.len() > SHOWN).then(|| words::and_more(comes.lots.len() - SHOWN)));
    let there = comes
        .refused
        .iter()
        .any(|(_, why)| *why == RowFault::InTheBook);
    let again = hand.reading.with_untracked(|reading| reading.again);
    let mut refused: Vec<String> = comes
        .refused
        .iter()
        .take(SHOWN)
        .map(|(line, why)| words::refused(*line, why))
        .collect();
    let count = comes.refused.len();
    refused.extend((count > SHOWN).then(|| words::and_more(count - SHOWN)));
    let refused = (count > 0).then(|| {
        view! {
            <details class="more-of-it">
                <summary>{words::refused_count(count)}</summary>
                <ul class="plain-list">{refused.into_iter().map(|row| view! { <li>{row}</li> }).collect_view()}</ul>
            </details>
        }
    });
    let once_more = (there || again).then(|| {
        let on = Signal::derive(move || hand.reading.with(|reading| reading.again));
        let set = Callback::new(move |on: bool| hand.change(move |reading, _| reading.again = on));
        view! { <div class="form"><Toggle label=words::AGAIN on on_switch=set on_word=treat::YES off_word=treat::NO /></div> }
    });
    view! {
        <Slat name=words::COMES_TO />
        <ul class="plain-list">{lines.into_iter().map(|line| view! { <li>{line}</li> }).collect_view()}</ul>
        {refused}
        {once_more}
        <ul class="plain-list">{lots.into_iter().map(|lot| view! { <li>{lot}</li> }).collect_view()}</ul>
    }
}
