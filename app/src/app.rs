//! The whole program: one ledger, one route, one screen at a time.

use leptos::prelude::*;

use crate::desk::{self, Desk};
use crate::help;
use crate::ledger::{LEFT_AT, Ledger, Phase};
use crate::rest::{self, Wanted};
use crate::route::{self, Route};
use crate::screens;
#[cfg(debug_assertions)]
use crate::ui::Gallery;
use crate::ui::{Pocket, PocketLock};
use crate::words::shed;

/// The program in the page.
#[component]
pub fn App() -> impl IntoView {
    let ledger = Ledger::start();
    provide_context(ledger);
    ledger.provide_round();
    let route = route::current();
    desk::provide(ledger, route);
    go_on_where_it_was_left(ledger, route);
    let started = Signal::derive(move || !matches!(ledger.phase(), Phase::NoBook));
    help::provide(route, started);
    // What was shown early goes on being shown once the book is there.
    let phase = Memo::new(move |_| match ledger.phase() {
        Phase::Early if route.get() == Route::Round => Phase::Ready,
        Phase::Early => Phase::Opening,
        phase => phase,
    });
    let lock = PocketLock {
        locked: RwSignal::new(false),
        label: shed::LOCK_NOW,
    };
    provide_context(lock);
    let shown = move || {
        #[cfg(debug_assertions)]
        if route.get() == Route::Kit {
            return Gallery().into_any();
        }
        match phase.get() {
            Phase::Opening | Phase::Early => screens::start::Opening().into_any(),
            Phase::Trouble(error) => view! { <screens::start::Trouble error /> }.into_any(),
            Phase::NoBook => rest::draw(Wanted::Before(route.get())),
            Phase::Making => rest::draw(Wanted::Making),
            Phase::Ready => {
                view! { {rest::later(Wanted::SoakBell)} <Desk route show=screen /> }.into_any()
            }
        }
    };
    view! {
        <div class="under-lock" inert=move || lock.locked.get()>{shown}</div>
        <Pocket lock title=shed::LOCKED hint=shed::LOCKED_HINT key_label=shed::unlock_key>
            {rest::later(Wanted::SoakWords)}
        </Pocket>
    }
}

/// Opened without an address, the program goes on at the screen it was left at: kept as a draft, so that it outlives
/// a flat battery.
fn go_on_where_it_was_left(ledger: Ledger, route: ReadSignal<Route>) {
    let bare = StoredValue::new(route::is_bare());
    let first = route.get_untracked();
    Effect::new(move |_| {
        let here = route.get();
        if here != first {
            // Whoever has gone somewhere meanwhile is not called back.
            bare.set_value(false);
        }
        if ledger.phase() != Phase::Ready {
            return;
        }
        let left_at: Option<String> = ledger.peek_draft(LEFT_AT);
        if bare.get_value() {
            bare.set_value(false);
            if let Some(left_at) = left_at {
                Route::parse(&left_at).replace();
                return;
            }
        }
        if left_at.as_deref() != Some(here.href().as_str()) {
            ledger.keep_draft(LEFT_AT, &here.href());
        }
    });
}

/// The Round is drawn by the first module, every other screen by the rest.
fn screen(route: Route) -> AnyView {
    match route {
        Route::Round => screens::round::Round().into_any(),
        _ => rest::draw(Wanted::Screen(route)),
    }
}
