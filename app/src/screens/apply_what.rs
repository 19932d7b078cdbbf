//! What a drench, a spray, a swab or a dusting is for: a whole place but for its exceptions, lots from anywhere, or
//! pieces lying bare.

use leptos::prelude::*;
use velamen_core::apply::{ApplyFault, ApplyStep};
use velamen_core::event::Method;
use velamen_core::view::treat::bare_pieces;
use velamen_core::view::{lot_label, places};

use super::apply::Work;
use super::lot_parts::Refusal;
use super::pick_plants::{PickLots, PickPieces};
use crate::frame::{notices, room_bar};
use crate::route::Route;
use crate::ui::{MainAction, PlainAction, Screen, Slat, Stake};
use crate::words::{apply as words, bath, trade, treat};

/// Step two.
pub(super) fn what(work: Work) -> impl IntoView {
    let next = Callback::new(move |()| {
        let draft = work.draft.get_untracked();
        match work.ledger.look(|state, _| draft.ready_to_choose(state)) {
            Err(fault) => {
                work.fault.set(Some(fault));
            }
            Ok(()) => work.change(|draft| draft.step = ApplyStep::Mix),
        }
    });
    let actions = move || {
        view! {
            <PlainAction label=words::HOW.to_owned() on_press=work.step(ApplyStep::How) />
            <MainAction label=words::NEXT.to_owned() on_press=next />
        }
    };
    view! {
        <Screen
            title=words::WHAT
            over=work.over()
            back=move || work.back()
            actions
            notice=notices
            rooms=|| room_bar(Route::Treat)
        >
            <div class="form">
                <Refusal words=work.says(|fault| *fault == ApplyFault::NothingTreated) />
            </div>
            <Places work />
            <InPlace work />
            <Bare work />
            <Lots work />
            <div class="form">
                <PlainAction label=words::GIVE_UP.to_owned() on_press=work.give_up() />
            </div>
        </Screen>
    }
}

#[component]
fn Places(work: Work) -> impl IntoView {
    let known = work.ledger.ask(|state, _| places(state.facts()));
    let place = work.part(|draft| draft.place);
    let rows = move || {
        let rows = known.get().into_iter().map(|row| {
            let id = row.place;
            let pressed = move || (place.get() == Some(id)).to_string();
            let flip = move |_| work.change(|draft| draft.switch_place(id));
            view! { <button type="button" class="choose" aria-pressed=pressed on:click=flip>{row.name}</button> }
        });
        rows.collect_view()
    };
    view! {
        <Slat name=words::WHOLE_PLACE />
        {rows}
    }
}

/// Everything that stands in the place; a tap leaves a lot out.
#[component]
fn InPlace(work: Work) -> impl IntoView {
    let left_out = work.part(|draft| draft.left_out.clone());
    let rows = Memo::new(move |_| {
        let draft = work.draft.get();
        work.ledger.follow(|state, _| {
            let lots = draft.in_place(state).into_iter();
            lots.map(|id| lot_label(state.facts(), id))
                .collect::<Vec<_>>()
        })
    });
    move || {
        let rows = rows.get();
        (!rows.is_empty()).then(|| {
            let rows = rows.into_iter().map(|row| {
                let id = row.lot;
                let out = move || left_out.with(|out| out.contains(&id)).to_string();
                let flip = move |_| work.change(|draft| draft.switch_left_out(id));
                view! {
                    <button type="button" class="pick" aria-pressed=out on:click=flip>
                        <Stake
                            name=trade::name_runs(&row.name)
                            code=row.code.map(|code| code.to_string()).unwrap_or_default()
                            count=trade::plants_in_pots(row.plants, row.stands)
                        />
                    </button>
                }
            });
            view! {
                <p class="edge">{words::LEAVE_OUT}</p>
                {rows.collect_view()}
            }
        })
    }
}

/// Pieces on the bench: for what goes on the pieces themselves.
#[component]
fn Bare(work: Work) -> impl IntoView {
    let any = work.ledger.ask(|state, _| !bare_pieces(state).is_empty());
    let method = work.part(|draft| draft.method);
    move || {
        let on_pieces = [Method::Swab, Method::DustCut, Method::Spray];
        let fits = method
            .get()
            .is_some_and(|method| on_pieces.contains(&method));
        (fits && any.get()).then(|| {
            view! {
                <Slat name=treat::BARE />
                <PickPieces
                    chosen=work.part(|draft| draft.pieces.clone())
                    on_flip=Callback::new(move |(clump, class)| work.change(|draft| draft.switch_pieces(clump, class)))
                />
            }
        })
    }
}

#[component]
fn Lots(work: Work) -> impl IntoView {
    view! {
        <PickLots
            label=bath::OTHER_LOTS
            search=work.part(|draft| draft.search.clone())
            on_search=Callback::new(move |text| work.change(|draft| draft.search = text))
            chosen=work.part(|draft| draft.lots.clone())
            on_flip=Callback::new(move |lot| work.change(|draft| draft.switch_lot(lot)))
        />
    }
}
