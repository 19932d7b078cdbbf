//! What the first screen can do without, in a module of its own: every other screen, and the reading of the book itself.
//!
//! The first module opens the storage and shows the Round from what was kept of it; the rest comes while that is looked
//! at. The cut is made after the build, at the functions marked in [`doors`]: what only they reach goes into the second
//! module, so nothing drawn by the first may name what stands behind them. Without the feature `parts` there is one
//! module and nothing to wait for.
//!
//! Invariant: once the rest is here, what stands behind a door is done in the same moment, as if it had always been here.

pub(crate) mod doors;

use std::task::{Context, Poll, Waker};

use leptos::prelude::*;
use leptos::task::spawn_local;
use velamen_core::view::round::Row;

use crate::ledger::Ledger;
use crate::route::Route;
use crate::screens;
use crate::storage::StorageError;
use crate::ui::{MainAction, Screen};
use crate::words::trouble;

/// What the second module draws.
#[derive(Clone, Copy, Debug)]
pub(crate) enum Wanted {
    /// A screen of a book.
    Screen(Route),
    /// A screen where there is no book yet.
    Before(Route),
    /// While the example is being written.
    Making,
    /// The ways out of a book that cannot be opened.
    Rescue(Ledger),
    /// Under the notices of a room's first screen.
    HomeNotices,
    /// The lines that say how long a soak has left, and the same where nothing may be tapped.
    SoakLines,
    SoakWords,
    /// What rings when a soak is over.
    SoakBell,
    /// On the Round: the month to come, and a row opened.
    Month,
    RowSheet(RwSignal<Option<Row>>),
    /// Beside the Round at a table.
    Plan,
}

/// Where the rest is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum At {
    Away,
    Coming,
    Here,
    /// It could not be had.
    Failed,
}

thread_local! {
    static AT: ArcRwSignal<At> = ArcRwSignal::new(At::Away);
}

fn at() -> ArcRwSignal<At> {
    AT.with(Clone::clone)
}

/// Fetches the rest unless it is here; false where it cannot be had.
pub(crate) async fn fetch() -> bool {
    let at = at();
    if at.get_untracked() == At::Here {
        return true;
    }
    if at.get_untracked() != At::Coming {
        at.set(At::Coming);
    }
    let here = doors::fetch().await;
    at.set(if here { At::Here } else { At::Failed });
    here
}

/// Fetches the rest for a book that cannot be opened without it.
pub(crate) async fn wanted() -> Result<(), StorageError> {
    match fetch().await {
        true => Ok(()),
        false => Err(StorageError::NoReader),
    }
}

/// What stands behind a door, where the rest is here.
pub(crate) fn now<T>(door: impl Future<Output = T>) -> Option<T> {
    if at().get_untracked() != At::Here {
        return None;
    }
    match std::pin::pin!(door).poll(&mut Context::from_waker(Waker::noop())) {
        Poll::Ready(answer) => Some(answer),
        Poll::Pending => None,
    }
}

/// The same in a reader that is asked again once the rest is here.
pub(crate) fn soon<T>(door: impl Future<Output = T>) -> Option<T> {
    at().track();
    now(door)
}

/// Lets the rest come where nobody has asked for it.
pub(crate) fn ask_for() {
    if at().get_untracked() == At::Away {
        spawn_local(async {
            fetch().await;
        });
    }
}

/// A whole screen; while it is on its way, that is said.
pub(crate) fn draw(wanted: Wanted) -> AnyView {
    if let Some(view) = soon(doors::draw(wanted)) {
        return view;
    }
    match at().get_untracked() {
        At::Failed => missing().into_any(),
        At::Away | At::Coming | At::Here => {
            ask_for();
            screens::start::Opening().into_any()
        }
    }
}

/// A part of a screen; nothing until the rest is here.
pub(crate) fn later(wanted: Wanted) -> impl IntoView {
    move || soon(doors::draw(wanted))
}

fn missing() -> impl IntoView {
    let again = Callback::new(move |()| {
        spawn_local(async {
            fetch().await;
        });
    });
    let actions = move || view! { <MainAction label=trouble::try_again() on_press=again /> };
    view! {
        <Screen title=trouble::part_missing() actions>
            <p class="edge">{trouble::PART_MISSING_HINT}</p>
        </Screen>
    }
}
