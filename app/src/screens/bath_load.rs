//! What goes into the tub, the drying table beside it, and the end of the mixture.

use leptos::prelude::*;
use velamen_core::bath::{BathFault, DELAYS_S};
use velamen_core::id::LotId;
use velamen_core::time::minute_of_day;
use velamen_core::view::stock::stock;
use velamen_core::view::treat::{bare_pieces, drying};

use super::bath::Tub;
use super::bath_end::end_of_bath;
use super::bath_life::life;
use super::lot_parts::{Count, Refusal, one_of, show_what_is_wrong};
use super::mixing::never_together;
use super::mixing_pair::partner_before;
use super::rotation::had_before;
use crate::frame::{notices, room_bar};
use crate::ledger::Ledger;
use crate::route::Route;
use crate::screens::names::lot;
use crate::ui::{Field, MainAction, PlainAction, PlainLink, Screen, Slat, TrayTag};
use crate::words::{bath as words, bath_life, format, rooms, trade, treat};

/// Lots offered while one is looked for.
const OFFERED: usize = 6;
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
                show_what_is_wrong();
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
    let actions = move || {
        view! {
            <PlainAction label=words::EMPTY_TUB.to_owned() on_press=Callback::new(move |()| emptying.set(true)) />
            <MainAction label=words::LAST_IN.to_owned() on_press=start />
        }
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
            <p class="edge">{move || if used.get() > 0 { words::NEXT_IN } else { words::HEALTHY_FIRST }}</p>
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
    let ledger = tub.ledger;
    let search = tub.part(|draft| draft.search.clone());
    let chosen = tub.part(|draft| draft.lots.clone());
    let pieces = tub.part(|draft| draft.pieces.clone());
    let bare = ledger.ask(|state, _| bare_pieces(state));
    let offered = Memo::new(move |_| {
        let (typed, mut lots) = (search.get(), chosen.get());
        ledger.follow(|state, _| {
            if !typed.trim().is_empty() {
                let found = stock(state, &typed, OFFERED).rows.into_iter();
                let found: Vec<LotId> = found
                    .map(|row| row.label.lot)
                    .filter(|lot| !lots.contains(lot))
                    .collect();
                lots.extend(found);
            }
            lots.into_iter()
                .map(|id| (id, lot(state, id)))
                .collect::<Vec<_>>()
        })
    });
    let lying = move || {
        let rows = bare.get().into_iter();
        rows.map(|row| {
            let one = (row.clump, row.class);
            let pressed = move || pieces.with(|pieces| pieces.contains(&one)).to_string();
            let flip = move |_| tub.change(|draft| draft.switch_pieces(one.0, one.1));
            view! {
                <button type="button" class="choose" aria-pressed=pressed on:click=flip>
                    <TrayTag number=row.tray.to_string() word=rooms::TRAY />
                    {trade::class(row.class)} " · " {trade::pieces(i64::from(row.plants))}
                    {row.bathed.then(|| view! { <span class="soft">{words::BATHED}</span> })}
                </button>
            }
        })
        .collect_view()
    };
    let lots = move || {
        let rows = offered.get().into_iter();
        rows.map(|(id, name)| {
            let pressed = move || chosen.with(|chosen| chosen.contains(&id)).to_string();
            let flip = move |_| tub.change(|draft| draft.switch_lot(id));
            view! { <button type="button" class="choose" aria-pressed=pressed on:click=flip>{name}</button> }
        })
        .collect_view()
    };
    view! {
        {lying}
        <div class="form">
            <Field
                label=words::OTHER_LOTS
                hint=treat::FIND_HINT
                value=search
                on_input=Callback::new(move |text| tub.change(|draft| draft.search = text))
                max_chars=200
            />
            <Refusal words=tub.says(|fault| matches!(fault, BathFault::NothingIn | BathFault::NoSoak | BathFault::VirusShared | BathFault::AfterVirus)) />
        </div>
        {lots}
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
