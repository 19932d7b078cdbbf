//! A lot comes into the book: named or not, counted, placed; kept at every tap until it is recorded.

use chrono::NaiveDate;
use leptos::prelude::*;
use velamen_core::code::LotCode;
use velamen_core::decide::next_code;
use velamen_core::draft::{self, BenchDraft, DRAFT_VERSION};
use velamen_core::event::{Event, PieceClass, Source};
use velamen_core::id::LotId;
use velamen_core::lot_draft::{NewLotDraft, PottedWhen};
use velamen_core::rejection::{Input, Rejection};

use super::lot_parts::{Count, PlaceChoice, Refusal, one_of, with_place};
use crate::frame::{notices, room_bar};
use crate::ledger::{Act, Ledger};
use crate::route::Route;
use crate::ui::{DayField, Field, Glyph, MainAction, PlainAction, Screen, Slat, Stake, TopBack};
use crate::words::{rejection, rooms, stock as words, trade};

/// Key of the draft.
const NEW_LOT: &str = "new_lot";

const POTTED: [PottedWhen; 5] = [
    PottedWhen::NotKnown,
    PottedWhen::ThisMonth,
    PottedWhen::LastYear,
    PottedWhen::TwoYearsAgo,
    PottedWhen::On,
];
const SOURCES: [Source; 5] = [
    Source::Here,
    Source::Bought,
    Source::Exchanged,
    Source::Seed,
    Source::Flask,
];

/// A lot just recorded, and what it was recorded from.
#[derive(Clone, PartialEq)]
struct Added {
    lot: LotId,
    code: LotCode,
    draft: NewLotDraft,
}

/// Where a refusal belongs.
#[derive(Clone, Copy, Default, PartialEq)]
enum At {
    #[default]
    Foot,
    Name,
    Counts,
    Place,
    Potted,
}

type Refused = RwSignal<(At, String)>;

/// Adding a lot.
#[component]
pub fn NewLot() -> impl IntoView {
    let added: RwSignal<Option<Added>> = RwSignal::new(None);
    move || match added.get() {
        None => view! { <Form added /> }.into_any(),
        Some(lot) => view! { <InTheBook lot added /> }.into_any(),
    }
}

fn part<T>(draft: Memo<NewLotDraft>, get: fn(&NewLotDraft) -> T) -> Memo<T>
where
    T: PartialEq + Send + Sync + 'static,
{
    Memo::new(move |_| draft.with(get))
}

fn change(ledger: Ledger, how: impl FnOnce(&mut NewLotDraft)) {
    ledger.change_draft(NEW_LOT, |draft: &mut NewLotDraft| {
        draft.version = DRAFT_VERSION;
        how(draft);
    });
}

/// The code the next lot gets: none that lies reserved on a label at the bench.
fn coming_code(ledger: Ledger) -> Memo<Option<LotCode>> {
    ledger.ask(move |state, at| {
        let drafts = ledger.drafts_under("bench-");
        let reserved: Vec<LotCode> = drafts
            .iter()
            .filter_map(|(_, text)| draft::read::<BenchDraft>(text))
            .flat_map(|draft| draft.reserved().collect::<Vec<_>>())
            .collect();
        next_code(state, at, &reserved).ok()
    })
}

fn refusal_at(refused: Refused, at: At) -> Signal<String> {
    Signal::derive(move || {
        refused.with(|(here, words)| {
            if *here == at {
                words.clone()
            } else {
                String::new()
            }
        })
    })
}

fn place_of(no: &Rejection) -> At {
    match no {
        Rejection::BadName(_)
        | Rejection::BadText {
            input: Input::Name, ..
        } => At::Name,
        Rejection::Missing {
            input: Input::Plants | Input::Pots,
        }
        | Rejection::TooMany { .. } => At::Counts,
        // It is the only day there is to choose.
        Rejection::DayOutOfRange { .. }
        | Rejection::Missing { input: Input::Date }
        | Rejection::OutOfRange {
            input: Input::Date, ..
        } => At::Potted,
        _ => At::Foot,
    }
}

fn record(ledger: Ledger, code: Option<LotCode>, refused: Refused, added: RwSignal<Option<Added>>) {
    let typed: NewLotDraft = ledger.peek_draft(NEW_LOT).unwrap_or_default();
    refused.set((At::Foot, String::new()));
    let go_on = move || {
        let typed: NewLotDraft = ledger.peek_draft(NEW_LOT).unwrap_or_default();
        let command = typed.receive(code, ledger.moment().today);
        let said = code
            .map(|code| words::added(&code.to_string()))
            .unwrap_or_default();
        let act = Act::new(command, said)
            .ends_draft(NEW_LOT)
            .then(move |decision| {
                if let Some(Event::LotReceived(received)) = decision.events.first() {
                    let (lot, code) = (received.lot, received.code);
                    added.set(Some(Added {
                        lot,
                        code,
                        draft: typed,
                    }));
                }
            });
        ledger.act(act.otherwise(move |no| refused.set((place_of(&no), rejection::say(&no)))));
    };
    with_place(
        ledger,
        &typed.place,
        move |place| change(ledger, |draft| draft.place.recorded(place)),
        go_on,
        move |no| refused.set((At::Place, no)),
    );
}

#[component]
fn Form(added: RwSignal<Option<Added>>) -> impl IntoView {
    let ledger = Ledger::here();
    let draft = ledger.draft::<NewLotDraft>(NEW_LOT);
    let refused: Refused = RwSignal::new((At::Foot, String::new()));
    let code = coming_code(ledger);
    let press = Callback::new(move |()| record(ledger, code.get_untracked(), refused, added));
    let busy = ledger.busy();
    let actions =
        move || view! { <MainAction label=words::RECORD.to_owned() on_press=press busy /> };
    let place = part(draft, |draft| draft.place.clone());
    view! {
        <Screen
            title=words::NEW_LOT
            back=|| view! { <TopBack href=Route::Stock.href() label=rooms::back_to(rooms::STOCK) /> }
            actions
            notice=notices
            rooms=|| room_bar(Route::Stock)
        >
            <p class="edge"><a href=Route::StockList.href()>{crate::words::stock_list::LINK}</a></p>
            <NameAndLabel draft code error=refusal_at(refused, At::Name) />
            <Counts draft />
            <div class="form">
                <Refusal words=refusal_at(refused, At::Counts) />
                <PlaceChoice
                    place
                    on_place=Callback::new(move |place| change(ledger, |draft| draft.place = place))
                    error=refusal_at(refused, At::Place)
                />
                <About draft error=refusal_at(refused, At::Potted) />
                <Refusal words=refusal_at(refused, At::Foot) />
            </div>
        </Screen>
    }
}

/// The name as typed, and how it will stand on the label with its code.
#[component]
fn NameAndLabel(
    draft: Memo<NewLotDraft>,
    code: Memo<Option<LotCode>>,
    error: Signal<String>,
) -> impl IntoView {
    let ledger = Ledger::here();
    let typed = part(draft, |draft| draft.name_typed.clone());
    let on_input = Callback::new(move |typed| change(ledger, |draft| draft.name_typed = typed));
    let label = move || {
        let name = typed.with(|_| draft.with_untracked(NewLotDraft::name));
        let code = code.get().map(|code| code.to_string());
        let rest = name.note.clone().filter(|rest| !rest.is_empty());
        view! {
            <p class="small soft">{code.as_deref().map(words::gets_code)}</p>
            <Stake name=trade::name_runs(&name) code=code.unwrap_or_default() large=true />
            {rest.map(|rest| view! { <p class="small">{words::NAME_REST} " " {rest}</p> })}
        }
    };
    view! {
        <div class="form">
            <Field label=words::NAME hint=words::NAME_HINT value=typed on_input error max_chars=200 />
            <div class="on-label" aria-live="polite">{label}</div>
        </div>
    }
}

#[component]
fn Counts(draft: Memo<NewLotDraft>) -> impl IntoView {
    let ledger = Ledger::here();
    let plants = Signal::derive(move || i64::from(draft.with(NewLotDraft::plants)));
    let stands = Signal::derive(move || i64::from(draft.with(NewLotDraft::stands)));
    let follow = Signal::derive(move || {
        let follows = draft.with(|draft| draft.stands.is_none());
        if follows {
            words::POTS_HINT.to_owned()
        } else {
            String::new()
        }
    });
    let on_plants = Callback::new(move |count| {
        change(ledger, |draft| draft.plants = u32::try_from(count).ok())
    });
    let on_stands = Callback::new(move |count| {
        change(ledger, |draft| draft.stands = u32::try_from(count).ok())
    });
    view! {
        <Count label=words::PLANTS count=plants on_count=on_plants min=1 />
        <Count label=words::POTS hint=follow count=stands on_count=on_stands />
    }
}

/// What may be said of it and may stay unsaid.
#[component]
fn About(draft: Memo<NewLotDraft>, error: Signal<String>) -> impl IntoView {
    let ledger = Ledger::here();
    let today = ledger.moment().today.to_string();
    let kept = PieceClass::ALL.into_iter().filter(|class| class.is_kept());
    let classes = kept.map(|class| (Some(class), trade::class(class).to_owned()));
    let classes = [(None, words::CLASS_OPEN.to_owned())]
        .into_iter()
        .chain(classes)
        .collect();
    let potted = POTTED
        .map(|when| (when, words::potted_when(when).to_owned()))
        .to_vec();
    let sources = SOURCES
        .map(|source| (source, words::source(source).to_owned()))
        .to_vec();
    let class = part(draft, |draft| draft.class);
    let when = part(draft, |draft| draft.potted);
    let source = part(draft, |draft| draft.source);
    let from = part(draft, |draft| draft.from.clone());
    let on = part(draft, |draft| {
        draft.potted_on.map(|on| on.to_string()).unwrap_or_default()
    });
    let day = move || {
        let last = today.clone();
        (when.get() == PottedWhen::On).then(|| {
            let on_day = Callback::new(move |day: String| {
                change(ledger, |draft| {
                    draft.potted_on = day.parse::<NaiveDate>().ok()
                });
            });
            view! { <DayField label=words::POTTED_ON value=on on_day last error /> }
        })
    };
    let whom = move || {
        (source.get() != Source::Here).then(|| {
            let on_input = Callback::new(move |from| change(ledger, |draft| draft.from = from));
            view! { <Field label=words::FROM hint=words::OPTIONAL value=from on_input max_chars=200 /> }
        })
    };
    view! {
        {one_of(words::POTTED, potted, when.into(), move |when| change(ledger, |draft| draft.potted = when))}
        {day}
        {one_of(words::CLASS, classes, class.into(), move |class| change(ledger, |draft| draft.class = class))}
        {one_of(words::SOURCE, sources, source.into(), move |source| change(ledger, |draft| draft.source = source))}
        {whom}
    }
}

/// The lot is in the book; its label is written now.
#[component]
fn InTheBook(lot: Added, added: RwSignal<Option<Added>>) -> impl IntoView {
    let ledger = Ledger::here();
    let like = lot.draft.clone();
    let another = Callback::new(move |()| {
        ledger.keep_draft(NEW_LOT, &like);
        added.set(None);
    });
    let open = Callback::new(move |()| Route::Lot(lot.lot).replace());
    let actions = move || {
        view! {
            <PlainAction label=words::ANOTHER.to_owned() on_press=another glyph=Glyph::Plus />
            <MainAction label=words::OPEN_LOT.to_owned() on_press=open />
        }
    };
    let count = trade::plants_in_pots(i64::from(lot.draft.plants()), i64::from(lot.draft.stands()));
    view! {
        <Screen
            title=words::ADDED
            back=|| view! { <TopBack href=Route::Stock.href() label=rooms::back_to(rooms::STOCK) /> }
            actions
            notice=notices
            rooms=|| room_bar(Route::Stock)
        >
            <Slat name=words::LABEL note="" />
            <div class="form">
                <p>{words::WRITE_LABEL}</p>
                <div><Stake name=trade::name_runs(&lot.draft.name()) code=lot.code.to_string() count large=true /></div>
            </div>
        </Screen>
    }
}
