//! A small file as squares on the screen, one after the other, for another phone's camera.

use std::sync::Arc;
use std::time::Duration;

use leptos::prelude::*;
use leptos::task::spawn_local;
use velamen_core::id::Dev;
use velamen_core::label_sheet::QUIET_MODULES;

use super::photographs::back_to_files;
use crate::frame::{notices, room_bar};
use crate::ledger::{Ledger, NoReel, Reel};
use crate::route::Route;
use crate::ui::{MainAction, PlainAction, PlainLink, Screen, Toggle};
use crate::words::{files, reel as words};

/// How long a square stands: a camera looks three times or more meanwhile.
const STANDS: Duration = Duration::from_millis(700);

/// How far the making is.
#[derive(Clone, Debug, PartialEq, Eq)]
enum Stand {
    Making,
    Shown(Arc<Reel>),
    Not(NoReel),
}

/// The screen, for the whole book or what one phone lacks.
#[component]
pub fn ShowReel(to: Option<Dev>) -> impl IntoView {
    let ledger = Ledger::here();
    let stand = RwSignal::new(Stand::Making);
    let at = RwSignal::new(0usize);
    let by_itself = RwSignal::new(true);
    let awake = StoredValue::new_local(Some(ledger.keep_awake()));
    on_cleanup(move || drop(awake.try_update_value(Option::take)));
    spawn_local(async move {
        let made = match ledger.reel_for(to).await {
            Ok(reel) => Stand::Shown(Arc::new(reel)),
            Err(none) => Stand::Not(none),
        };
        stand.try_set(made);
    });
    let count = move || {
        stand.with_untracked(|stand| match stand {
            Stand::Shown(reel) => reel.squares.len(),
            Stand::Making | Stand::Not(_) => 0,
        })
    };
    let step = move || {
        at.update(|at| *at = at.saturating_add(1).checked_rem(count()).unwrap_or(0));
    };
    let timer = set_interval_with_handle(
        move || {
            if by_itself.get_untracked() {
                step();
            }
        },
        STANDS,
    );
    on_cleanup(move || {
        if let Ok(timer) = timer {
            timer.clear();
        }
    });
    let next = Callback::new(move |()| {
        by_itself.set(false);
        step();
    });
    let switch = Callback::new(move |on| by_itself.set(on));
    let done = Callback::new(move |()| {
        if let Stand::Shown(reel) = stand.get_untracked() {
            ledger.reel_was_read(&reel);
            Route::Files.replace();
        }
    });
    let told = move || match stand.get() {
        Stand::Making => view! { <div class="form"><p>{words::MAKING}</p></div> }.into_any(),
        Stand::Not(none) => view! {
            <div class="form">
                <p class="strong">{words::none(none)}</p>
                <PlainLink href=Route::Files.href() label=words::BY_FILE />
            </div>
        }
        .into_any(),
        Stand::Shown(reel) => shown(&reel, at, by_itself, next, switch),
    };
    let actions = move || {
        move || {
            let shown = stand.with(|stand| matches!(stand, Stand::Shown(_)));
            shown.then(|| view! { <MainAction label=words::WAS_READ on_press=done /> })
        }
    };
    view! {
        <Screen title=words::SHOW back=back_to_files notice=notices rooms=|| room_bar(Route::Book) actions>
            {told}
        </Screen>
    }
}

fn shown(
    reel: &Arc<Reel>,
    at: RwSignal<usize>,
    by_itself: RwSignal<bool>,
    next: Callback<()>,
    switch: Callback<bool>,
) -> AnyView {
    let of = reel.squares.len();
    let drawn = Arc::clone(reel);
    let now = move || drawn.squares.get(at.get()).cloned();
    let square = move || {
        now().map(|drawn| {
            let quiet = QUIET_MODULES;
            let side = drawn.side.saturating_add(2 * quiet);
            view! {
                <svg class="reel-square" viewBox=format!("-{quiet} -{quiet} {side} {side}") shape-rendering="crispEdges" aria-hidden="true">
                    <path d=drawn.path />
                </svg>
            }
        })
    };
    let number = move || words::square(at.get().saturating_add(1), of);
    let what = reel.entries.map_or(files::WHOLE.to_owned(), words::entries);
    view! {
        <div class="reel">{square}</div>
        <div class="form">
            <p class="strong reel-number">{number}</p>
            <p>{what}</p>
            <p>{words::HOW}</p>
            {(of > 1).then(|| view! {
                <PlainAction label=words::NEXT on_press=next />
                <Toggle
                    label=words::BY_ITSELF
                    on=by_itself
                    on_switch=switch
                    on_word=files::ON
                    off_word=files::OFF
                />
            })}
        </div>
    }
    .into_any()
}
