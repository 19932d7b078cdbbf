//! "Seen here": what is noticed becomes work.

use leptos::prelude::*;
use velamen_core::command::Command;
use velamen_core::event::{SeenOn, Sight};
use velamen_core::finding_draft::FindingDraft;
use velamen_core::id::{ClumpId, LotId};
use velamen_core::limits;
use velamen_core::view::{lot_label, repot};

use super::photos::PickPhotos;
use crate::frame::{notices, room_bar};
use crate::ledger::{Act, Ledger};
use crate::route::Route;
use crate::ui::{Field, PlainAction, Screen, Slat, Stake, TopBack, TrayTag};
use crate::words::{photo, rooms, round as words, seen, told, trade};

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
    let record = move |sign: Option<&str>| {
        let finding = draft.with_untracked(|draft| draft.finding(on, sign));
        let said = told::done(&trade::sign(&finding.sign));
        let act = Act::new(Command::RecordFinding(finding), said);
        ledger.act(
            act.ends_draft(FindingDraft::key(on))
                .then(move |_| then.replace()),
        );
    };
    let change = move |how: Box<dyn FnOnce(&mut FindingDraft)>| {
        ledger.change_draft(&FindingDraft::key(on), how);
    };
    let signs = trade::SIGNS
        .into_iter()
        .map(|(key, label)| {
            let press = Callback::new(move |()| record(Some(key)));
            view! { <PlainAction label=label.to_owned() on_press=press busy=ledger.busy() /> }
        })
        .collect_view();
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
        <div class="grid">{signs}</div>
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
