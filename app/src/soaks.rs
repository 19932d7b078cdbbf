//! Soaks on every screen: the line that says how long is left, and the ring when one is over.
//!
//! Invariants: the ring and the line follow the drafts as they are stored; nothing here keeps time of its own. Without
//! a soak nothing ticks.

use std::time::Duration;

use leptos::prelude::*;
use velamen_core::bath::{Soak, SoakState};

use crate::ledger::Ledger;
use crate::route::Route;
use crate::screens::bath::in_hand;
use crate::screens::cleaning;
use crate::ui::{Glyph, Icon};
use crate::words::{bath as words, clean};

/// How often a clock on the screen is looked at.
const TICK: Duration = Duration::from_millis(250);
/// Every so many seconds it rings, for so long.
const RING_EVERY_S: u32 = 4;
const RINGS_S: u32 = 180;

/// The phone's clock, followed while the caller lives.
pub(crate) fn ticking(ledger: Ledger) -> ReadSignal<i64> {
    let (now, set_now) = signal(ledger.moment().now_ms);
    let timer = set_interval_with_handle(move || set_now.set(ledger.moment().now_ms), TICK);
    on_cleanup(move || {
        if let Ok(timer) = timer {
            timer.clear();
        }
    });
    now
}

/// A clock put back while the page is awake is noticed, and the soak in hand follows it.
pub(crate) fn follow_the_clock(
    ledger: Ledger,
    now: ReadSignal<i64>,
    soak: Memo<Option<Soak>>,
    keep: Callback<Soak>,
) {
    let last = StoredValue::new((now.get_untracked(), ledger.counter_ms()));
    Effect::new(move |_| {
        let clock = now.get();
        // What is on its way to the book leaves another soak behind; the next look sees what was missed.
        if ledger.busy().get_untracked() {
            return;
        }
        let counter = ledger.counter_ms();
        let (clock_before, counter_before) = last.get_value();
        last.set_value((clock, counter));
        if let Some(mut soak) = soak.get_untracked()
            && soak.follow(clock - clock_before, counter - counter_before)
        {
            keep.run(soak);
        }
    });
}

/// Whether a soak is in hand.
fn any(ledger: Ledger) -> Memo<bool> {
    Memo::new(move |_| {
        in_hand(ledger)
            .iter()
            .any(|(_, draft)| draft.soak.is_some())
            || cleaning::in_hand(ledger)
                .iter()
                .any(|(_, draft)| draft.soak.is_some())
    })
}

/// A line to each bath, of plants or of pots, with something in it.
pub(crate) fn soak_lines() -> impl IntoView {
    let ledger = Ledger::here();
    let soaking = any(ledger);
    move || soaking.get().then(|| view! { <Lines ledger leads=true /> })
}

/// The same to be read alone, where nothing may be tapped.
pub(crate) fn soak_words() -> impl IntoView {
    let ledger = Ledger::here();
    let soaking = any(ledger);
    move || {
        soaking
            .get()
            .then(|| view! { <Lines ledger leads=false /> })
    }
}

#[component]
fn Lines(ledger: Ledger, leads: bool) -> impl IntoView {
    let now = ticking(ledger);
    let lines = Memo::new(move |_| {
        let now = now.get();
        let baths = in_hand(ledger).into_iter().filter_map(|(number, draft)| {
            let line = match draft.soak?.at(now) {
                SoakState::Starts { in_s } => words::running(in_s),
                SoakState::Runs { left_s } => words::running(left_s),
                SoakState::Over { since_s } => words::to_take_out(since_s),
                SoakState::ClockBehind => words::IN_THE_TUB.to_owned(),
            };
            Some((Route::Bath(number).href(), line))
        });
        let cleanings = cleaning::in_hand(ledger);
        let cleanings = cleanings.into_iter().filter_map(|(number, draft)| {
            let line = match draft.soak?.at(now) {
                SoakState::Starts { in_s } => clean::running(in_s),
                SoakState::Runs { left_s } => clean::running(left_s),
                SoakState::Over { since_s } => clean::to_take_out(since_s),
                SoakState::ClockBehind => clean::LIES.to_owned(),
            };
            Some((Route::Cleaning(number).href(), line))
        });
        baths.chain(cleanings).collect::<Vec<_>>()
    });
    move || {
        lines
            .get()
            .into_iter()
            .map(|(href, line)| {
                // Without an address it is no link, and nothing answers to a tap.
                let href = leads.then_some(href);
                view! {
                    <a class="soak-line" href=href><Icon glyph=Glyph::Clock /><span>{line}</span></a>
                }
            })
            .collect_view()
    }
}

/// Rings while a soak is over and its pieces are still in it, for three minutes.
#[component]
pub fn SoakBell() -> impl IntoView {
    let ledger = Ledger::here();
    let soaking = any(ledger);
    move || {
        soaking.get().then(|| {
            let now = ticking(ledger);
            let rung = StoredValue::new(u32::MAX);
            Effect::new(move |_| {
                let now = now.get();
                let baths = untrack(|| in_hand(ledger)).into_iter();
                let cleanings = untrack(|| cleaning::in_hand(ledger)).into_iter();
                let over = baths
                    .filter_map(|(_, draft)| draft.soak)
                    .chain(cleanings.filter_map(|(_, draft)| draft.soak))
                    .filter_map(|soak| match soak.at(now) {
                        SoakState::Over { since_s } if since_s < RINGS_S => Some(since_s),
                        _ => None,
                    })
                    .min();
                let Some(stroke) = over.map(|since_s| since_s / RING_EVERY_S) else {
                    return;
                };
                if rung.get_value() != stroke {
                    rung.set_value(stroke);
                    ledger.ring();
                }
            });
        })
    }
}
