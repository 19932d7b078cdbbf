//! What goes into the tub, the drying table beside it, and the end of the mixture.

use leptos::prelude::*;
use velamen_core::bath::{BathFault, DELAYS_S};
use velamen_core::time::minute_of_day;
use velamen_core::view::treat::drying;

use super::bath::Tub;
use super::bath_end::end_of_bath;
use super::bath_life::life;
use super::lot_parts::{Count, one_of};
use super::mixing::never_together;
use super::mixing_pair::partner_before;
use super::pick_plants::{PickLots, PickPieces};
use super::rotation::had_before;
use crate::frame::{notices, room_bar};
use crate::ledger::Ledger;
use crate::route::Route;
use crate::ui::{MainAction, PlainAction, PlainLink, Screen, Slat, TrayTag};
use crate::words::{bath as words, bath_life, format, rooms, trade};

const DELAY_S: u32 = 10;

/// Step three.
pub(super) fn load(tub: Tub) -> impl IntoView {
    let emptying = RwSignal::new(false);
    let start = Callback::new(move |()| {
        let mut draft = tub.draft.get_untracked();
        let started = tub.ledger.look(|state, at| {
            draft.go_on_rotated(state, at.today)?;
            draft.start(state, at.now_ms)
        });
        match started {
            Err(fault) => {
                tub.fault.set(Some(fault));
            }
            Ok(()) => {
                // A tap is when a page may begin to sound; the end of the soak is not.
                tub.ledger.may_ring();
                tub.change(|kept| *kept = draft);
            }
        }
    });
    let (hand, targets) = (tub.mixing(), tub.targets());
    let used = tub.part(|draft| draft.dips);
    let thrown_out = tub.thrown_out();
    let empty = Callback::new(move |()| emptying.set(true));
    // Of a mixture that is spent the way on is out of the tub.
    let keys = move || {
        if thrown_out.get() {
            return view! {
                <PlainAction label=words::LAST_IN.to_owned() on_press=start />
                <MainAction label=words::EMPTY_TUB.to_owned() on_press=empty />
            }
            .into_any();
        }
        view! {
            <PlainAction label=words::EMPTY_TUB.to_owned() on_press=empty />
            <MainAction label=words::LAST_IN.to_owned() on_press=start />
        }
        .into_any()
    };
    let actions = move || keys;
    let what_next = move || {
        let said = match used.get() {
            _ if thrown_out.get() => return None,
            0 => words::HEALTHY_FIRST,
            _ => words::NEXT_IN,
        };
        Some(view! { <p class="edge">{said}</p> })
    };
    let delay = tub.part(|draft| draft.delay_s.unwrap_or(DELAY_S));
    let delays = DELAYS_S.map(|s| (s, words::delay(s))).to_vec();
    let over = Signal::derive(move || words::dips(used.get()));
    view! {
        <Screen
            title=words::PUT_IN
            over
            back=move || tub.back()
            actions
            notice=notices
            rooms=|| room_bar(Route::Treat)
        >
            <DryingTable />
            {life(tub)}
            {what_next}
            <Parts tub />
            <PotsToo tub />
            {never_together(hand, targets)}
            {had_before(hand, targets)}
            {partner_before(hand, targets)}
            <div class="form">
                {one_of(words::DELAY, delays, delay.into(), move |delay| tub.change(|draft| draft.delay_s = Some(delay)))}
            </div>
            {end_of_bath(tub, emptying)}
        </Screen>
    }
}

/// Bare pieces and lots, tapped in and out.
#[component]
fn Parts(tub: Tub) -> impl IntoView {
    let refused = tub.says(|fault| {
        matches!(
            fault,
            BathFault::NothingIn
                | BathFault::NoSoak
                | BathFault::VirusShared
                | BathFault::AfterVirus
        )
    });
    view! {
        <PickPieces
            chosen=tub.part(|draft| draft.pieces.clone())
            on_flip=Callback::new(move |(clump, class)| tub.change(|draft| draft.switch_pieces(clump, class)))
        />
        <PickLots
            label=words::OTHER_LOTS
            search=tub.part(|draft| draft.search.clone())
            on_search=Callback::new(move |text| tub.change(|draft| draft.search = text))
            chosen=tub.part(|draft| draft.lots.clone())
            on_flip=Callback::new(move |lot| tub.change(|draft| draft.switch_lot(lot)))
            refused
        />
    }
}

/// Emptied pots in the same bath, where the label allows it; tools never.
#[component]
fn PotsToo(tub: Tub) -> impl IntoView {
    let allowed = Memo::new(move |_| {
        let draft = tub.draft.get();
        tub.ledger.follow(|state, _| draft.label(state).pots_too)
    });
    let count = Signal::derive(move || i64::from(tub.draft.with(|draft| draft.pots)));
    let on_count = Callback::new(move |count: i64| {
        tub.change(|draft| draft.pots = u32::try_from(count).unwrap_or(0));
    });
    move || {
        allowed.get().then(|| {
            view! { <Count label=bath_life::POTS_TOO hint=Signal::stored(bath_life::POTS_TOO_HINT.to_owned()) count on_count /> }
        })
    }
}

/// What is out of a bath and not potted yet.
#[component]
pub fn DryingTable() -> impl IntoView {
    let ledger = Ledger::here();
    let rows = ledger.ask(|state, _| drying(state));
    move || {
        let rows = rows.get();
        (!rows.is_empty()).then(|| {
            let rows = rows.into_iter().map(|row| {
                let since = format::clock(minute_of_day(row.out_ms, row.off_min));
                view! {
                    <div class="bench-row">
                        <TrayTag number=row.tray.to_string() word=rooms::TRAY />
                        <div class="bench-row-words">
                            <strong>{trade::pieces(i64::from(row.plants))}</strong>
                            <span>{words::drying_since(&since)}</span>
                        </div>
                        <PlainLink href=Route::Clump(row.clump).href() label=words::TO_THE_POTS />
                    </div>
                }
            });
            view! {
                <Slat name=words::DRYING />
                {rows.collect_view()}
                <p class="edge soft">{words::DRIPS}</p>
            }
        })
    }
}
