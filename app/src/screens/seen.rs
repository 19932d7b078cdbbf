//! "Seen here": what is noticed becomes work.

use leptos::prelude::*;
use velamen_core::command::Command;
use velamen_core::event::{Event, SeenOn, Sight};
use velamen_core::finding_draft::FindingDraft;
use velamen_core::id::{ClumpId, LotId, PlaceId};
use velamen_core::limits;
use velamen_core::reference::signs::{self as vocabulary, PARTS, SIGNS, SignRow};
use velamen_core::view::{lot_label, place_label, repot};

use super::lot_parts::{Count, Refusal, one_of};
use super::photos::PickPhotos;
use crate::frame::{notices, room_bar};
use crate::ledger::{Act, Ledger};
use crate::route::Route;
use crate::ui::{Field, PlainAction, Screen, Slat, Stake, TopBack, TrayTag};
use crate::words::{photo, rejection, rooms, round as words, seen, signs, told, trade};

/// Signs shown at once; the others are one tap farther.
const USUAL: usize = 12;

/// Something seen on a lot.
#[component]
pub fn SeenLot(lot: LotId) -> impl IntoView {
    let ledger = Ledger::here();
    let label = ledger.ask(move |state, _| lot_label(state.facts(), lot));
    let sights = Sight::ALL
        .into_iter()
        .map(|what| {
            let press = Callback::new(move |()| {
                let command = Command::Observe { lots: vec![lot], what, good: None, note: String::new() };
                ledger.act(Act::new(command, told::done(trade::sight(what))).then(move |_| Route::Lot(lot).replace()));
            });
            view! { <PlainAction label=trade::sight(what).to_owned() on_press=press busy=ledger.busy() /> }
        })
        .collect_view();
    view! {
        <Screen
            title=words::SEEN_HERE
            back=move || view! { <TopBack href=Route::Lot(lot).href() label=rooms::back_to(rooms::STOCK) /> }
            notice=notices
            rooms=|| room_bar(Route::Stock)
        >
            <p class="edge">
                {move || label.with(|label| view! {
                    <Stake name=trade::name_runs(&label.name) code=label.code.map(|code| code.to_string()).unwrap_or_default() />
                })}
            </p>
            <Slat name=seen::THE_PLANT note="" />
            <div class="grid">{sights}</div>
            <Signs on=SeenOn::Lot(lot) then=Route::Lot(lot) />
        </Screen>
    }
}

/// Something seen on a place as a whole: a bench looked over, with so many of so many affected.
#[component]
pub fn SeenPlace(place: PlaceId) -> impl IntoView {
    let ledger = Ledger::here();
    let over = Signal::derive(move || {
        let label = ledger.follow(|state, _| place_label(state.facts(), place));
        label.map(|label| label.name).unwrap_or_default()
    });
    view! {
        <Screen
            title=words::SEEN_HERE
            over
            back=|| view! { <TopBack href=Route::Round.href() label=rooms::back_to(rooms::ROUND) /> }
            notice=notices
            rooms=|| room_bar(Route::Round)
        >
            <p class="edge soft">{seen::ON_A_PLACE}</p>
            <Signs on=SeenOn::Place(place) then=Route::Place(place) />
        </Screen>
    }
}

/// Something seen on a clump at the bench.
#[component]
pub fn SeenClump(clump: ClumpId) -> impl IntoView {
    let ledger = Ledger::here();
    let view = ledger.ask(move |state, _| repot::clump(state, clump));
    let side = move || {
        view.get()
            .map(|clump| view! { <TrayTag number=clump.tray.to_string() word=rooms::TRAY /> })
    };
    view! {
        <Screen
            title=words::SEEN_HERE
            back=move || view! { <TopBack href=Route::Clump(clump).href() label=rooms::back_to(rooms::REPOT) /> }
            side
            notice=notices
            rooms=|| room_bar(Route::Repot)
        >
            <Signs on=SeenOn::Clump(clump) then=Route::Clump(clump) />
        </Screen>
    }
}

/// Signs of disease and pests: one tap, or the grower's own words; with photographs taken before. Recorded, it goes on to
/// `then`: after a restart there is no history to go back in.
#[component]
fn Signs(on: SeenOn, then: Route) -> impl IntoView {
    let ledger = Ledger::here();
    let draft = ledger.draft_at::<FindingDraft>(FindingDraft::key(on));
    let refused = RwSignal::new(String::new());
    let record = move |sign: Option<&str>| {
        let finding = draft.with_untracked(|draft| draft.finding(on, sign));
        let said = told::done(&trade::sign(&finding.sign));
        let act = Act::new(Command::RecordFinding(finding), said);
        ledger.act(
            act.ends_draft(FindingDraft::key(on))
                .then(move |decision| {
                    let found = decision.events.iter().find_map(|event| match event {
                        Event::Found(it) if vocabulary::sign(&it.sign).is_some() => {
                            Some(it.finding)
                        }
                        _ => None,
                    });
                    // At the bench the work goes on; on the walk the next step is shown.
                    match (on, found) {
                        (SeenOn::Clump(_), _) | (_, None) => then.replace(),
                        (_, Some(found)) => Route::Finding(found).replace(),
                    }
                })
                .otherwise(move |no| refused.set(rejection::say(&no))),
        );
    };
    let change = move |how: Box<dyn FnOnce(&mut FindingDraft)>| {
        refused.set(String::new());
        ledger.change_draft(&FindingDraft::key(on), how);
    };
    let key = move |row: &'static SignRow| {
        let press = Callback::new(move |()| record(Some(row.key)));
        view! { <PlainAction label=trade::sign(row.key) on_press=press busy=ledger.busy() /> }
    };
    let (usual, more) = SIGNS.split_at(USUAL.min(SIGNS.len()));
    let signs = usual.iter().map(key).collect_view();
    let more = more.iter().map(key).collect_view();
    let press_own = Callback::new(move |()| record(None));
    let own = Memo::new(move |_| draft.with(|draft| draft.own.clone()));
    let photos = Memo::new(move |_| draft.with(|draft| draft.photos.clone()));
    let empty = Signal::derive(move || own.with(|text| text.trim().is_empty()));
    view! {
        <Slat name=seen::DISEASE_OR_PEST note="" />
        <div class="form">
            <PickPhotos
                label=photo::OF_A_FINDING
                hint=photo::OF_A_FINDING_HINT
                photos
                most=limits::PHOTOS_MAX
                on_add=move |photo| change(Box::new(move |draft| draft.add_photo(photo)))
                on_remove=move |sha256: String| change(Box::new(move |draft| draft.remove_photo(&sha256)))
            />
        </div>
        <Counts draft change refused open=matches!(on, SeenOn::Place(_)) />
        <div class="grid">{signs}</div>
        <details class="more-of-it">
            <summary>{seen::MORE_SIGNS}</summary>
            <div class="grid">{more}</div>
        </details>
        <div class="form">
            <Field
                label=seen::OWN_WORDS
                value=own
                on_input=Callback::new(move |text| change(Box::new(move |draft| draft.own = text)))
                max_chars=200
            />
            <PlainAction label=seen::RECORD.to_owned() on_press=press_own disabled=empty busy=ledger.busy() />
        </div>
    }
}

/// How many of how many, on which part and how bad, where somebody looked closer.
#[component]
fn Counts(
    draft: Memo<FindingDraft>,
    change: impl Fn(Box<dyn FnOnce(&mut FindingDraft)>) + Copy + Send + Sync + 'static,
    refused: RwSignal<String>,
    /// On a place the count is the point of it.
    open: bool,
) -> impl IntoView {
    let count = |number: Option<u32>| i64::from(number.unwrap_or(0));
    let looked_at = Signal::derive(move || count(draft.with(|draft| draft.looked_at)));
    let affected = Signal::derive(move || count(draft.with(|draft| draft.affected)));
    let on_looked = Callback::new(move |number: i64| {
        change(Box::new(move |draft| draft.count_looked_at(number)));
    });
    let on_affected = Callback::new(move |number: i64| {
        change(Box::new(move |draft| draft.count_affected(number)));
    });
    let parts = [(None, seen::NOT_SAID.to_owned())].into_iter();
    let parts = parts
        .chain(PARTS.map(|key| (Some(key.to_owned()), signs::part(key))))
        .collect();
    let bads = [(None, seen::NOT_SAID.to_owned())].into_iter();
    let bads = bads
        .chain((1..=5).map(|bad| (Some(bad), seen::bad(bad).to_owned())))
        .collect();
    let part = Signal::derive(move || draft.with(|draft| draft.part.clone()));
    let bad = Signal::derive(move || draft.with(|draft| draft.severity));
    view! {
        <details class="more-of-it" open=open>
            <summary>{seen::HOW_MANY}</summary>
            <Count label=seen::LOOKED_AT count=looked_at on_count=on_looked />
            <Count label=seen::AFFECTED count=affected on_count=on_affected />
            <div class="form">
                {one_of(seen::WHICH_PART, parts, part, move |part| change(Box::new(move |draft| draft.part = part)))}
                {one_of(seen::BAD, bads, bad, move |bad| change(Box::new(move |draft| draft.severity = bad)))}
            </div>
        </details>
        <div class="edge-error"><Refusal words=refused /></div>
    }
}
