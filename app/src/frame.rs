//! What every screen has around it: the room bar, and what is told.

use leptos::prelude::*;
use velamen_core::exchange::lack::Urgency;
use velamen_core::view::clock::{self, ClockDoubt};

use crate::ledger::{Ledger, Phase, Role, ToldKind};
use crate::rest::{self, Wanted};
use crate::route::Route;
use crate::ui::{Glyph, MainAction, Notice, NoticeKind, PlainAction, Room, RoomBar, Sheet};
use crate::words::{files, format, program, rooms, start, told, trouble};

/// Seconds that Undo stays in reach.
const UNDO_S: u32 = 10;

/// The room bar; `here` is the room one is in.
pub(crate) fn room_bar(here: Route) -> impl IntoView {
    let room = |route: Route, label: &str, glyph: Glyph| Room {
        href: route.href(),
        label: label.to_owned(),
        glyph,
        current: route == here,
    };
    let rooms = vec![
        room(Route::Round, rooms::ROUND, Glyph::Round),
        room(Route::Repot, rooms::REPOT, Glyph::Repot),
        room(Route::Treat, rooms::TREAT, Glyph::Treat),
        room(Route::Stock, rooms::STOCK, Glyph::Stock),
        room(Route::Book, rooms::BOOK, Glyph::Book),
    ];
    view! {
        <InExample />
        <RoomBar rooms label=rooms::ROOMS />
    }
}

/// Says that this is the example, where it is, with the way to an own book.
#[component]
fn InExample() -> impl IntoView {
    let ledger = Ledger::here();
    let shown = Memo::new(move |_| ledger.is_example());
    let asked = RwSignal::new(false);
    let close = Callback::new(move |()| asked.set(false));
    let end = Callback::new(move |()| {
        asked.set(false);
        ledger.discard_example();
        Route::Round.replace();
    });
    let line = move || {
        view! {
            <div class="example-line">
                <span>{start::IN_EXAMPLE}</span>
                <button type="button" on:click=move |_| asked.set(true)>{start::START_OWN}</button>
            </div>
            <Sheet open=asked on_close=close title=start::END_EXAMPLE close_label=told::close()>
                <p class="edge">{start::END_HINT}</p>
                <div class="stack">
                    <PlainAction label=start::KEEP_LOOKING on_press=close />
                    <MainAction label=start::END_IT on_press=end busy=ledger.busy() />
                </div>
            </Sheet>
        }
    };
    move || shown.get().then(line)
}

/// The notices of a room's first screen: there, and nowhere in the middle of work, a next version is offered. Treat has
/// its work on the first screen and offers none.
pub(crate) fn home_notices() -> impl IntoView {
    view! {
        {notices()}
        {next_version()}
        {rest::later(Wanted::HomeNotices)}
    }
}

/// Notices that are worked out from the book.
pub(crate) fn of_the_book() -> impl IntoView {
    view! {
        {clock_in_doubt()}
        {hand_over_today()}
    }
}

/// Says when the phone's clock cannot be right, before anything is recorded by it.
fn clock_in_doubt() -> impl IntoView {
    let ledger = Ledger::here();
    let doubt = ledger.ask(|state, at| clock::doubt(state, at).map(|doubt| (doubt, at.today)));
    move || {
        doubt.get().map(|(doubt, today)| {
            let last = match doubt {
                ClockDoubt::Unset => None,
                ClockDoubt::BehindOwn(on) => Some(format::full_day(on)),
            };
            let words = trouble::clock_in_doubt(&format::full_day(today), last.as_deref());
            view! { <Notice kind=NoticeKind::Warning words /> }
        })
    }
}

/// Says when a day's work, or some of it for a week, would be lost with this phone.
fn hand_over_today() -> impl IntoView {
    let ledger = Ledger::here();
    let safety = ledger.safety();
    let go = Callback::new(move |()| Route::Files.go());
    move || {
        let safety = safety.get();
        let kind = NoticeKind::News;
        let wanted = safety.urgency == Urgency::Much && !ledger.is_example();
        (wanted && ledger.phase() == Phase::Ready).then(|| {
            let words = files::at_stake(safety.at_stake, safety.urgency);
            view! { <Notice kind words key_label=files::HAND_OVER on_key=go /> }
        })
    }
}

/// A next version of the program, put in when the person agrees.
pub(crate) fn next_version() -> impl IntoView {
    let ledger = Ledger::here();
    let put_in = Callback::new(move |()| ledger.put_in_next_version());
    move || {
        let kind = NoticeKind::News;
        ledger.next_version().then(|| {
            let words = program::next(&ledger.next_news());
            view! { <Notice kind words key_label=program::PUT_IN on_key=put_in /> }
        })
    }
}

/// What was told last, with Undo while it is in reach; and whether this window may write.
pub(crate) fn notices() -> impl IntoView {
    view! {
        {rest::later(Wanted::SoakLines)}
        {told_here()}
    }
}

/// The same without the soaks, for the screen that shows one.
pub(crate) fn told_here() -> impl IntoView {
    let ledger = Ledger::here();
    let told = move || {
        ledger.told().map(|told| {
            let number = told.number;
            let gone = Callback::new(move |()| ledger.clear_told(number));
            let kind = match told.kind {
                ToldKind::Done => NoticeKind::Ok,
                ToldKind::Refused => NoticeKind::Refusal,
                ToldKind::Warning => NoticeKind::Warning,
            };
            match told.undo {
                Some(entry) => {
                    let undo = Callback::new(move |()| {
                        ledger.clear_told(number);
                        ledger.undo(entry);
                    });
                    view! {
                        <Notice kind words=told.words key_label=told::undo() on_key=undo stays_s=UNDO_S on_gone=gone />
                    }
                    .into_any()
                }
                None if kind == NoticeKind::Ok => {
                    view! { <Notice kind words=told.words stays_s=UNDO_S on_gone=gone /> }.into_any()
                }
                None => {
                    view! { <Notice kind words=told.words key_label=told::close() on_key=gone /> }.into_any()
                }
            }
        })
    };
    let window = move || match ledger.role() {
        Role::Writes => None,
        // Where no book is open, no window has it.
        _ if matches!(ledger.phase(), Phase::Trouble(_)) => None,
        Role::Follows => {
            let over = Callback::new(move |()| ledger.take_over());
            let kind = NoticeKind::Warning;
            Some(view! { <Notice kind words=trouble::follows() key_label=trouble::work_here() on_key=over /> }.into_any())
        }
        Role::Stopped => {
            let kind = NoticeKind::Warning;
            Some(view! { <Notice kind words=trouble::stopped() /> }.into_any())
        }
    };
    view! {
        {window}
        {told}
    }
}
