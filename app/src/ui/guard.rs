//! Water drops and gloves tap twice. A record must be made once.
//!
//! Invariant: a second tap within 350 ms is dropped when it lands on the same control, or on
//! another recording control at the same spot (the list moved up, or the next screen came).
//! A tap by keyboard has no spot, so only the same control counts. Counting keys do not use this:
//! fast deliberate counting must work.

use leptos::ev::MouseEvent;
use leptos::prelude::{StoredValue, UpdateValue, WithValue};
use std::cell::Cell;

/// How long a second tap is taken for a ghost. Common practice, no source.
pub const GHOST_MS: f64 = 350.0;
/// How far apart two taps at "the same spot" may lie, in CSS px: half a gloved fingertip.
pub const GHOST_PX: f64 = 48.0;

/// When and where a tap was taken.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Tap {
    /// Milliseconds on the page's clock.
    pub at_ms: f64,
    /// CSS px from the left and the top; `None` for a tap by keyboard.
    pub spot: Option<(f64, f64)>,
}

/// Whether `now` is a ghost of `before`.
pub fn is_ghost(before: Tap, now: Tap, same_control: bool) -> bool {
    let passed = now.at_ms - before.at_ms;
    if !(0.0..GHOST_MS).contains(&passed) {
        return false;
    }
    if same_control {
        return true;
    }
    match (before.spot, now.spot) {
        (Some((x, y)), Some((to_x, to_y))) => (to_x - x).hypot(to_y - y) < GHOST_PX,
        _ => false,
    }
}

thread_local! {
    static LAST_TAP: Cell<Option<(u32, Tap)>> = const { Cell::new(None) };
    static LAST_CONTROL: Cell<u32> = const { Cell::new(0) };
}

/// One control's guard.
#[derive(Clone, Copy, Debug)]
pub struct TapGuard {
    control: u32,
    last: StoredValue<Option<Tap>>,
}

impl TapGuard {
    /// A guard for a new control, owned by the running component.
    pub fn new() -> Self {
        let control = LAST_CONTROL.with(|last| {
            last.set(last.get().wrapping_add(1));
            last.get()
        });
        Self {
            control,
            last: StoredValue::new(None),
        }
    }

    /// True when the tap is meant; remembers it. False for a ghost.
    pub fn takes(&self, event: &MouseEvent) -> bool {
        let spot = (event.detail() > 0)
            .then(|| (f64::from(event.client_x()), f64::from(event.client_y())));
        let now = Tap {
            at_ms: event.time_stamp(),
            spot,
        };
        let own = self.last.try_with_value(|last| *last).flatten();
        let ghost = own.is_some_and(|before| is_ghost(before, now, true))
            || LAST_TAP
                .with(Cell::get)
                .is_some_and(|(control, before)| is_ghost(before, now, control == self.control));
        if !ghost {
            LAST_TAP.with(|last| last.set(Some((self.control, now))));
            self.last.try_update_value(|last| *last = Some(now));
        }
        !ghost
    }
}

impl Default for TapGuard {
    fn default() -> Self {
        Self::new()
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use wasm_bindgen_test::wasm_bindgen_test;

    fn tap(at_ms: f64, spot: Option<(f64, f64)>) -> Tap {
        Tap { at_ms, spot }
    }

    #[wasm_bindgen_test]
    fn a_drop_that_taps_twice_records_once() {
        let first = tap(1000.0, Some((300.0, 400.0)));
        assert!(is_ghost(first, tap(1349.0, Some((300.0, 400.0))), true));
        assert!(!is_ghost(first, tap(1350.0, Some((300.0, 400.0))), true));
    }

    #[wasm_bindgen_test]
    fn the_next_row_that_moved_under_the_finger_is_not_ticked() {
        let first = tap(1000.0, Some((300.0, 400.0)));
        assert!(is_ghost(first, tap(1200.0, Some((310.0, 405.0))), false));
        assert!(!is_ghost(first, tap(1200.0, Some((300.0, 500.0))), false));
    }

    #[wasm_bindgen_test]
    fn a_tap_by_keyboard_is_only_held_back_on_its_own_control() {
        let first = tap(1000.0, None);
        assert!(is_ghost(first, tap(1100.0, None), true));
        assert!(!is_ghost(first, tap(1100.0, None), false));
    }
}
