//! The soak: digits to read at arm's length, a minute more, and out.

use leptos::prelude::*;
use velamen_core::bath::SoakState;
use velamen_core::event::{Event, TreatedPart};
use velamen_core::time::minute_of_day;

use super::bath::{Tub, draft_key};
use super::bath_load::DryingTable;
use super::lot_parts::Refusal;
use super::mixing_pair::with_next;
use crate::frame::{room_bar, told_here};
use crate::ledger::Act;
use crate::route::Route;
use crate::screens::names::lot;
use crate::soaks::{follow_the_clock, ticking};
use crate::ui::{Glyph, MainAction, PlainAction, PocketLock, Screen, Slat};
use crate::words::{bath as words, format, rejection, rooms, shed, told, trade};

/// A minute late is not worth a question.
const ON_TIME_S: u32 = 60;

/// Step four.
pub(super) fn soak(tub: Tub) -> impl IntoView {
    let ledger = tub.ledger;
    let now = ticking(ledger);
    let awake = StoredValue::new_local(ledger.keep_awake());
    on_cleanup(move || awake.dispose());
    let keep = Callback::new(move |soak| tub.change(|draft| draft.soak = Some(soak)));
    follow_the_clock(ledger, now, tub.part(|draft| draft.soak), keep);
    let refused = RwSignal::new(String::new());
    let state = Memo::new(move |_| {
        let now = now.get();
        tub.draft.with(|draft| draft.soak.map(|soak| soak.at(now)))
    });
    let times = Memo::new(move |_| {
        tub.draft.with(|draft| {
            draft
                .soak
                .map(|soak| (soak.out_ms(), soak.in_ms, soak.wanted_s))
        })
    });
    let out = move |at_ms: i64| {
        let draft = tub.draft.get_untracked();
        match ledger.look(|state, _| draft.record(state, at_ms)) {
            Err(fault) => refused.set(words::fault(&fault)),
            Ok(command) => {
                // The pair was planned for the mixture, so its first batch notes the second treatment.
                let command = if draft.dips == 0 {
                    with_next(ledger, &draft.mixing, command)
                } else {
                    command
                };
                let mut left = draft;
                left.taken_out();
                let act = Act::new(command, told::done(words::TAKEN_OUT))
                    .for_good()
                    .leaves_draft(draft_key(tub.number), &left)
                    .then(move |done| {
                        if let Some(Event::Treated(treated)) = done.events.first() {
                            let treatment = treated.treatment;
                            tub.change(|draft| {
                                draft.mixed_for.get_or_insert(treatment);
                            });
                        }
                    });
                ledger.act(act.otherwise(move |no| refused.set(rejection::say(&no))));
            }
        }
    };
    let out_now = Callback::new(move |()| out(ledger.moment().now_ms));
    let on_time = Callback::new(move |()| {
        if let Some((out_ms, ..)) = times.get_untracked() {
            out(out_ms);
        }
    });
    let longer = Callback::new(move |()| {
        tub.change(|draft| {
            if let Some(soak) = draft.soak.as_mut() {
                soak.lengthen(60);
            }
        });
    });
    let not_in = Callback::new(move |()| tub.change(|draft| draft.stop()));
    let alarm = Callback::new(move |()| {
        let name = ledger.look(|state, _| {
            let product = tub.draft.with_untracked(|draft| draft.mixing.product)?;
            let known = state.facts().products.get(&product)?;
            Some(known.label_name.or_default())
        });
        if let Some((out_ms, ..)) = times.get_untracked() {
            ledger.download_soak_end(tub.number, &name.unwrap_or_default(), out_ms);
        }
    });
    let late = Memo::new(
        move |_| matches!(state.get(), Some(SoakState::Over { since_s }) if since_s >= ON_TIME_S),
    );
    let starting = Memo::new(move |_| matches!(state.get(), Some(SoakState::Starts { .. })));
    let now_label = Signal::derive(move || match (late.get(), times.get()) {
        (true, Some((_, in_ms, _))) => {
            let lay = u32::try_from((now.get() - in_ms) / 1_000).unwrap_or(0);
            words::lay(words::OUT, lay)
        }
        _ => words::OUT.to_owned(),
    });
    let time_label = Signal::derive(move || {
        let wanted_s = times.get().map_or(0, |(_, _, wanted_s)| wanted_s);
        words::lay(words::OUT_ON_TIME, wanted_s)
    });
    let keys = move || {
        if starting.get() {
            return view! { <PlainAction label=words::NOT_IN.to_owned() on_press=not_in /> }
                .into_any();
        }
        if late.get() {
            return view! {
                <PlainAction label=time_label on_press=on_time busy=ledger.busy() />
                <MainAction label=now_label on_press=out_now busy=ledger.busy() />
            }
            .into_any();
        }
        view! {
            <PlainAction label=words::MINUTE_MORE.to_owned() on_press=longer busy=ledger.busy() />
            <MainAction label=words::OUT.to_owned() on_press=out_now busy=ledger.busy() />
        }
        .into_any()
    };
    let actions = move || keys;
    let face = move || match state.get() {
        None => ().into_any(),
        Some(SoakState::Starts { in_s }) => view! {
            <div class="digits" role="timer">{in_s}</div>
            <p class="digits-note">{words::starts(in_s)}</p>
        }
        .into_any(),
        Some(SoakState::Runs { left_s }) => {
            let off_min = ledger.moment().off_min;
            let at = times
                .get()
                .map(|(out_ms, ..)| format::clock(minute_of_day(out_ms, off_min)))
                .unwrap_or_default();
            view! {
                <div class="digits" role="timer">{words::digits(left_s)}</div>
                <p class="digits-note">{words::out_at(&at)}</p>
            }
            .into_any()
        }
        Some(SoakState::Over { since_s }) => overrun(since_s).into_any(),
        Some(SoakState::ClockBehind) => {
            view! { <p class="warn" role="alert">{words::CLOCK_BEHIND}</p> }.into_any()
        }
    };
    let moved = tub.part(|draft| draft.soak.is_some_and(|soak| soak.clock_moved));
    view! {
        <Screen
            title=words::IN_THE_TUB
            back=move || tub.back()
            actions
            notice=told_here
            rooms=|| room_bar(Route::Treat)
        >
            <Refusal words=refused />
            <div class="soak-face">{face}</div>
            {move || moved.get().then(|| view! { <p class="warn">{words::CLOCK_MOVED}</p> })}
            <Lying tub />
            <p class="edge soft">{words::RINGS}</p>
            <DryingTable />
            {move || (!starting.get()).then(|| view! {
                <div class="form">
                    {lock_key()}
                    <PlainAction label=words::INTO_CALENDAR.to_owned() on_press=alarm />
                    <PlainAction label=words::NOT_IN.to_owned() on_press=not_in busy=ledger.busy() />
                </div>
            })}
        </Screen>
    }
}

/// The time that is over already, which must not be taken for time that is left: its own word, its own sign, its own ground.
pub(super) fn overrun(since_s: u32) -> impl IntoView {
    view! {
        <div class="digits soak-over" role="timer"><span>{words::OUT_WORD}</span>" "<span>{words::overrun(since_s)}</span></div>
        <p class="digits-note" role="alert">{words::over(since_s - since_s % 60)}</p>
    }
}

/// The phone lies by the tub meanwhile, where it drips.
fn lock_key() -> impl IntoView {
    use_context::<PocketLock>().map(|lock| {
        let press = Callback::new(move |()| lock.locked.set(true));
        view! { <PlainAction label=shed::LOCK_NOW.to_owned() glyph=Glyph::Lock on_press=press /> }
    })
}

/// What lies in the tub.
#[component]
fn Lying(tub: Tub) -> impl IntoView {
    let lying = tub.part(|draft| draft.lying.clone());
    let rows = move || {
        lying
            .get()
            .into_iter()
            .map(|part| {
                let words = tub.ledger.look(|state, _| match part {
                    TreatedPart::Lot { lot: id, plants } => {
                        let plants = i64::from(plants);
                        format!("{} · {}", lot(state, id), trade::plants(plants))
                    }
                    TreatedPart::Pieces {
                        clump,
                        class,
                        plants,
                    } => {
                        let tray = state
                            .facts()
                            .clumps
                            .get(&clump)
                            .and_then(|clump| clump.opened.as_ref())
                            .map_or(0, |opened| opened.tray);
                        let pieces = trade::pieces(i64::from(plants));
                        format!(
                            "{} {tray} · {} · {pieces}",
                            rooms::TRAY,
                            trade::class(class)
                        )
                    }
                });
                view! { <p class="edge">{words}</p> }
            })
            .collect_view()
    };
    view! { <Slat name=words::PUT_IN /> {rows} }
}
