//! What goes into the disinfectant, how long it lies, and out to the rinse.

use leptos::prelude::*;
use velamen_core::bath::SoakState;
use velamen_core::clean::{CleanFault, Standing};
use velamen_core::event::{Event, Material};
use velamen_core::time::minute_of_day;

use super::bath_soak::overrun;
use super::cleaning::{Trough, Wanted, draft_key, washed};
use super::lot_parts::Refusal;
use crate::frame::{notices, room_bar, told_here};
use crate::ledger::{Act, ToldKind};
use crate::route::Route;
use crate::soaks::{follow_the_clock, ticking};
use crate::ui::{MainAction, PlainAction, Screen, Slat, Toggle};
use crate::words::{bath, clean as words, format, rejection, told, treat, virus};

/// Step two: made; the next batch goes in.
pub(super) fn load(trough: Trough) -> impl IntoView {
    let ledger = trough.ledger;
    let now = ticking(ledger);
    let standing = Memo::new(move |_| {
        let now = now.get();
        trough.draft.with(|draft| draft.standing(now))
    });
    let start = Callback::new(move |()| {
        let mut draft = trough.draft.get_untracked();
        match draft.start(ledger.moment().now_ms) {
            Err(fault) => trough.fault.set(Some(fault)),
            Ok(()) => {
                // A tap is when a page may begin to sound; the end of the time is not.
                ledger.may_ring();
                trough.change(|kept| *kept = draft);
            }
        }
    });
    let anew = Callback::new(move |()| trough.change(|draft| draft.make_anew()));
    let out = Callback::new(move |()| {
        ledger.say(told::done(words::THROW_OUT), ToldKind::Done);
        trough.end();
    });
    let spoils = trough.part(|draft| draft.mixture().is_ok_and(|mixture| mixture.is_some()));
    let end = Signal::derive(move || {
        let words = if spoils.get() {
            words::THROW_OUT
        } else {
            words::GIVE_UP
        };
        words.to_owned()
    });
    let good = Memo::new(move |_| matches!(standing.get(), Standing::Good { .. }));
    let actions = move || {
        move || {
            let main = if good.get() {
                view! { <MainAction label=words::TAKE_ALL_IN.to_owned() on_press=start /> }
                    .into_any()
            } else {
                view! { <MainAction label=words::MAKE_ANEW.to_owned() on_press=anew /> }.into_any()
            };
            view! { <PlainAction label=end on_press=out /> {main} }
        }
    };
    let stands = move || {
        let clock = |ms: i64| words::clock(ms, ledger.moment().off_min);
        match standing.get() {
            Standing::Good {
                until_ms: Some(until),
            } => view! { <p class="edge">{words::good_until(&clock(until))}</p> }.into_any(),
            Standing::Good { until_ms: None } => ().into_any(),
            Standing::TooOld { since_ms } => {
                view! { <p class="warn" role="alert">{words::too_old(&clock(since_ms))}</p> }
                    .into_any()
            }
            Standing::Dirty => {
                view! { <p class="warn" role="alert">{words::DIRTY_SPENT}</p> }.into_any()
            }
        }
    };
    let counts = trough.draft.get_untracked().counts();
    let dirty = trough.part(|draft| draft.dirty);
    let over = trough.over();
    view! {
        <Screen title=words::IN_HAND over back=move || trough.back() actions notice=notices rooms=|| room_bar(Route::Book)>
            {stands}
            {if counts { view! { <Piles trough /> }.into_any() } else { view! { <Scrubbed trough /> }.into_any() }}
            <div class="form">
                <Refusal words=trough.says(|fault| matches!(fault, CleanFault::NothingIn | CleanFault::NotCleanedFirst | CleanFault::Spent)) />
                {move || spoils.get().then(|| view! {
                    <Toggle
                        label=words::LOOKS_DIRTY
                        on=dirty
                        on_switch=Callback::new(move |on: bool| trough.change(|draft| draft.dirty = on))
                        on_word=treat::YES
                        off_word=treat::NO
                    />
                })}
            </div>
        </Screen>
    }
}

/// What stands washed, tapped in and out.
#[component]
fn Piles(trough: Trough) -> impl IntoView {
    let ledger = trough.ledger;
    let rows = Memo::new(move |_| {
        let (object, apart) = trough.draft.with(|draft| (draft.object, draft.apart));
        // Followed, so that what is washed meanwhile shows up here.
        ledger.follow(|_, _| ());
        washed(ledger, Wanted { object, apart })
    });
    let row = move |material: Material| {
        let name = ledger.look(|state, _| {
            let pot = material.pot.and_then(|pot| state.facts().pots.get(&pot));
            pot.map_or_else(|| material.pot_name.clone(), |pot| pot.name.or_default())
        });
        let one = material.clone();
        let pressed = move || {
            trough
                .draft
                .with(|draft| draft.load.contains(&one))
                .to_string()
        };
        let (label, figure) = (words::kind(&material, &name), words::figure(&material));
        let flip = move |_| {
            trough.change(
                |draft| match draft.load.iter().position(|known| *known == material) {
                    Some(at) => drop(draft.load.remove(at)),
                    None => draft.load.push(material.clone()),
                },
            );
        };
        view! {
            <button type="button" class="choose pile" aria-pressed=pressed on:click=flip>
                <span>{label}</span>
                <span class="pile-figure">{figure}</span>
            </button>
        }
    };
    move || {
        let rows = rows.get();
        if rows.is_empty() {
            return view! { <p class="edge">{words::NO_WASHED}</p> }.into_any();
        }
        rows.into_iter().map(row).collect_view().into_any()
    }
}

/// Tools, bench and tub are scrubbed first.
#[component]
fn Scrubbed(trough: Trough) -> impl IntoView {
    let on = trough.part(|draft| draft.cleaned_first);
    view! {
        <div class="form">
            <Toggle
                label=words::CLEANED_FIRST
                on
                on_switch=Callback::new(move |on: bool| trough.change(|draft| draft.cleaned_first = on))
                on_word=treat::YES
                off_word=treat::NO
            />
            <p class="soft">{words::CLEANED_HINT}</p>
        </div>
    }
}

/// Step three: it lies in it; then out, to the rinse.
pub(super) fn lie(trough: Trough) -> impl IntoView {
    let ledger = trough.ledger;
    let now = ticking(ledger);
    let awake = StoredValue::new_local(ledger.keep_awake());
    on_cleanup(move || awake.dispose());
    let keep = Callback::new(move |soak| trough.change(|draft| draft.soak = Some(soak)));
    follow_the_clock(ledger, now, trough.part(|draft| draft.soak), keep);
    let refused = RwSignal::new(String::new());
    let state = Memo::new(move |_| {
        let now = now.get();
        trough
            .draft
            .with(|draft| draft.soak.map(|soak| soak.at(now)))
    });
    let out = Callback::new(move |()| {
        let draft = trough.draft.get_untracked();
        match draft.record(ledger.moment().now_ms) {
            Err(fault) => refused.set(words::fault(&fault)),
            Ok(command) => {
                let mut left = draft;
                left.taken_out();
                let act = Act::new(command, told::done(words::TAKEN_OUT))
                    .leaves_draft(draft_key(trough.number), &left)
                    .then(move |done| {
                        let short = done.events.iter().any(
                            |event| matches!(event, Event::Sanitised(of) if !of.long_enough()),
                        );
                        let missed = done.events.iter().any(
                            |event| matches!(event, Event::Sanitised(of) if of.misses_virus_on_blade()),
                        );
                        if missed {
                            ledger.say(virus::NOT_FREE.to_owned(), ToldKind::Warning);
                        } else if short {
                            ledger.say(words::TOO_SHORT.to_owned(), ToldKind::Warning);
                        }
                        if !left_over(trough) {
                            Route::Wash.replace();
                        }
                    });
                ledger.act(act.otherwise(move |no| refused.set(rejection::say(&no))));
            }
        }
    });
    let longer = Callback::new(move |()| {
        trough.change(|draft| {
            if let Some(soak) = draft.soak.as_mut() {
                soak.lengthen(60);
            }
        });
    });
    let not_in = Callback::new(move |()| trough.change(|draft| draft.stop()));
    let actions = move || {
        view! {
            <PlainAction label=bath::MINUTE_MORE.to_owned() on_press=longer busy=ledger.busy() />
            <MainAction label=words::OUT.to_owned() on_press=out busy=ledger.busy() />
        }
    };
    let out_at = trough.part(|draft| draft.soak.map(|soak| soak.out_ms()));
    let face = move || match state.get() {
        None => ().into_any(),
        Some(SoakState::Starts { in_s }) => {
            view! { <div class="digits" role="timer">{in_s}</div> }.into_any()
        }
        Some(SoakState::Runs { left_s }) => {
            let off_min = ledger.moment().off_min;
            let at = out_at
                .get()
                .map(|ms| format::clock(minute_of_day(ms, off_min)));
            view! {
                <div class="digits" role="timer">{bath::digits(left_s)}</div>
                <p class="digits-note">{bath::out_at(&at.unwrap_or_default())}</p>
            }
            .into_any()
        }
        Some(SoakState::Over { since_s }) => overrun(since_s).into_any(),
        Some(SoakState::ClockBehind) => {
            view! { <p class="warn" role="alert">{bath::CLOCK_BEHIND}</p> }.into_any()
        }
    };
    let moved = trough.part(|draft| draft.soak.is_some_and(|soak| soak.clock_moved));
    let lying = trough.part(|draft| draft.lying.clone());
    let rows = move || {
        lying
            .get()
            .iter()
            .map(|one| view! { <p class="edge">{words::amount(one)}</p> })
            .collect_view()
    };
    let rinse = trough.draft.with_untracked(|draft| {
        let rinse = draft.agent().is_some_and(|agent| agent.rinse);
        words::rinses(draft.usual().map_or(1, |usual| usual.rinses), rinse)
    });
    let over = trough.over();
    view! {
        <Screen title=words::LIES over back=move || trough.back() actions notice=told_here rooms=|| room_bar(Route::Book)>
            <Refusal words=refused />
            <div class="soak-face">{face}</div>
            {move || moved.get().then(|| view! { <p class="warn">{bath::CLOCK_MOVED}</p> })}
            <Slat name=words::OUT />
            <p class="edge strong">{rinse}</p>
            {rows}
            <p class="edge soft">{bath::RINGS}</p>
            <div class="form"><PlainAction label=words::NOT_IN.to_owned() on_press=not_in busy=ledger.busy() /></div>
        </Screen>
    }
}

/// Whether more of the same stands washed, or it is one that goes on all day: tools, bench, tub.
fn left_over(trough: Trough) -> bool {
    let (counts, object, apart) = trough
        .draft
        .with_untracked(|draft| (draft.counts(), draft.object, draft.apart));
    !counts || !washed(trough.ledger, Wanted { object, apart }).is_empty()
}
