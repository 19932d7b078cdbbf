//! The doors from the first module into the rest: each a function that stands in the second module with all it needs.
//!
//! Awaited, a door waits for the rest; [`super::now`] goes through it at once. The marks are foreign functions to the
//! compiler, and unsafe by that alone.
#![cfg_attr(feature = "parts", allow(unsafe_code))]

use std::ops::Range;
use std::pin::Pin;

use chrono::NaiveDate;
use leptos::prelude::*;
use velamen_core::id::LotId;
use velamen_core::view::reentry::{Bound, bound};
use velamen_core::view::round::Row;
use velamen_core::view::walk::{Walk, walk};
use velamen_core::view::water::benches_to_look;
use wasm_bindgen::JsValue;

use super::Wanted;
use crate::ledger::{Act, Ledger};
use crate::storage::{First, StorageError};
use crate::{bench, frame, screens, soaks};

/// What goes on behind a door after it was gone through.
pub(crate) type Coming<T> = Pin<Box<dyn Future<Output = T>>>;

macro_rules! doors {
    ($($(#[$about:meta])* fn $name:ident, $opened:ident($($given:ident: $kind:ty),*) -> $answer:ty $behind:block)*) => {
        $(
            $(#[$about])*
            #[cfg(feature = "parts")]
            #[::leptos::wasm_split::wasm_split(rest, wasm_split_path = ::leptos::wasm_split, preload($opened))]
            pub(crate) fn $name($($given: $kind),*) -> $answer $behind

            $(#[$about])*
            #[cfg(not(feature = "parts"))]
            pub(crate) async fn $name($($given: $kind),*) -> $answer $behind
        )*

        /// A door that was never opened waits, even where the module is here.
        #[cfg(feature = "parts")]
        async fn open_all() {
            $($opened().await;)*
        }
    };
}

doors! {
    fn draw, open_draw(wanted: Wanted) -> AnyView {
        match wanted {
            Wanted::Screen(route) => screens::of_route::screen(route),
            Wanted::Before(route) => screens::of_route::before_a_book(route),
            Wanted::Making => screens::start::Making().into_any(),
            Wanted::Rescue(ledger) => screens::start::rescue(ledger).into_any(),
            Wanted::HomeNotices => frame::of_the_book().into_any(),
            Wanted::SoakLines => soaks::soak_lines().into_any(),
            Wanted::SoakWords => soaks::soak_words().into_any(),
            Wanted::SoakBell => soaks::SoakBell().into_any(),
            Wanted::Month => screens::round_month::Month().into_any(),
            Wanted::RowSheet(opened) => view! { <screens::round_row::RowSheet opened /> }.into_any(),
            Wanted::Plan => screens::map::PlanOfToday().into_any(),
        }
    }

    /// Reads the book, and lets it count.
    fn read_on, open_read_on(ledger: Ledger, first: First, early: bool) -> Coming<Result<(), StorageError>> {
        Box::pin(ledger.read_on(first, early))
    }

    fn carry_out, open_carry_out(ledger: Ledger, act: Act) -> Coming<()> {
        Box::pin(ledger.carry_out(act))
    }

    /// Keeps the Round where that was put off while something was recorded.
    fn keep_round, open_keep_round(ledger: Ledger) -> () {
        ledger.keep_round_after_work();
    }

    /// Takes in what another window has written.
    fn take_written, open_take_written(ledger: Ledger, after: u64) -> Coming<()> {
        Box::pin(ledger.take_written(after))
    }

    fn make_example, open_make_example(ledger: Ledger) -> Coming<Result<(), StorageError>> {
        Box::pin(ledger.make())
    }

    /// Goes to the choice of a way to treat, with these lots chosen.
    fn treat_these, open_treat_these(ledger: Ledger, lots: Vec<LotId>) -> () {
        screens::apply::treat_these(ledger, &lots);
    }

    fn look_at_folder, open_look_at_folder(ledger: Ledger) -> () {
        ledger.look_at_folder_now();
    }

    /// The Round of a day, and whether there are no lots.
    fn the_walk, open_the_walk(ledger: Ledger, today: NaiveDate) -> (Walk, bool) {
        ledger.look(|state, _| (walk(state, today), state.facts().lots.is_empty()))
    }

    /// What some rows of it say.
    fn say_rows, open_say_rows(ledger: Ledger, walk: Memo<(Walk, bool)>, rows: Range<usize>) -> Vec<Row> {
        walk.with_untracked(|(walk, _)| ledger.look(|state, _| walk.say(rows, state)))
    }

    fn bounds, open_bounds(ledger: Ledger) -> Vec<Bound> {
        ledger.look(|state, at| bound(state, at.now_ms))
    }

    fn benches_due, open_benches_due(ledger: Ledger) -> usize {
        ledger.look(|state, at| benches_to_look(state, at.today, at.now_ms).unwrap_or(0))
    }

    /// What the measuring page asks for by its name.
    fn measure, open_measure(ledger: Ledger, what: String, text: Option<String>) -> Result<JsValue, JsValue> {
        bench::asked(ledger, &what, text)
    }
}

#[cfg(feature = "parts")]
mod loading {
    use leptos::wasm_split::{SplitLoaderError, wasm_split};

    /// Nothing but a way to load the module.
    #[wasm_split(rest, wasm_split_path = ::leptos::wasm_split, preload(load), fallible)]
    fn here() -> Result<(), SplitLoaderError> {
        Ok(())
    }

    pub(crate) async fn fetch() -> bool {
        let loaded = load().await.is_ok();
        if loaded {
            super::open_all().await;
        }
        loaded
    }
}

#[cfg(feature = "parts")]
pub(crate) use loading::fetch;

#[cfg(not(feature = "parts"))]
pub(crate) async fn fetch() -> bool {
    true
}
