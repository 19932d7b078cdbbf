//! The phone's clock. The core has none, so what it needs is read here and handed in.
//!
//! The three parts of a reading come from one look at the clock: read one after the other, they could lie on both
//! sides of midnight.

use std::cell::{Cell, RefCell};
use std::rc::Rc;

use chrono::{Local, NaiveDate, Timelike};
use wasm_bindgen::JsCast;
use wasm_bindgen::closure::Closure;

use super::{Listening, lifecycle};

/// One look at the clock.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Reading {
    /// Milliseconds since 1970, in universal time.
    pub now_ms: i64,
    /// How far local time is ahead of universal time, in minutes.
    pub off_min: i16,
    /// The civil day here.
    pub today: NaiveDate,
}

/// Looks at the clock.
pub fn read() -> Reading {
    let now = Local::now();
    let off_min = now.offset().local_minus_utc() / 60;
    Reading {
        now_ms: now.timestamp_millis(),
        // Offsets stay within a day, which is well within the range.
        off_min: i16::try_from(off_min).unwrap_or_default(),
        today: now.date_naive(),
    }
}

/// Milliseconds since the page was opened, by a counter that setting the clock does not move; nothing where there is
/// none.
#[allow(clippy::cast_possible_truncation)]
pub fn counter_ms() -> i64 {
    web_sys::window()
        .and_then(|window| window.performance())
        .map_or(0, |counter| counter.now() as i64)
}

/// The longest wait before looking again, in milliseconds. A day with a clock change is shorter than it looks, and a
/// phone that slept does not count the time.
const LONGEST_WAIT_MS: u32 = 15 * 60 * 1000;

/// How long to wait before a new day may have begun, in milliseconds.
fn wait_ms(seconds_of_day: u32) -> u32 {
    let left = 86_400_u32.saturating_sub(seconds_of_day);
    left.saturating_add(1)
        .saturating_mul(1000)
        .min(LONGEST_WAIT_MS)
}

/// Watches for a new day; it stops when dropped.
#[derive(Debug)]
pub struct DayWatch {
    _visible: Vec<Listening>,
    timer: Rc<Timer>,
}

impl Drop for DayWatch {
    fn drop(&mut self) {
        self.timer.stop();
    }
}

#[derive(Debug, Default)]
struct Timer {
    id: Cell<Option<i32>>,
    tick: RefCell<Option<Closure<dyn FnMut()>>>,
}

impl Timer {
    fn start(&self) {
        let wait = wait_ms(Local::now().num_seconds_from_midnight());
        let tick = self.tick.borrow();
        let (Some(window), Some(tick)) = (web_sys::window(), tick.as_ref()) else {
            return;
        };
        let id = window.set_timeout_with_callback_and_timeout_and_arguments_0(
            tick.as_ref().unchecked_ref(),
            i32::try_from(wait).unwrap_or(i32::MAX),
        );
        self.id.set(id.ok());
    }

    fn stop(&self) {
        if let (Some(window), Some(id)) = (web_sys::window(), self.id.take()) {
            window.clear_timeout_with_handle(id);
        }
    }
}

/// Calls `work` with the new day when the civil day changes: at midnight, or when the page is seen again after it.
pub fn on_new_day(work: impl Fn(NaiveDate) + 'static) -> DayWatch {
    let known = Cell::new(read().today);
    let look = Rc::new(move || {
        let today = read().today;
        if known.replace(today) != today {
            work(today);
        }
    });
    let timer = Rc::new(Timer::default());
    // The timer holds the closure, so the closure holds the timer only weakly.
    let weak = Rc::downgrade(&timer);
    let on_tick = Rc::clone(&look);
    *timer.tick.borrow_mut() = Some(Closure::new(move || {
        on_tick();
        if let Some(timer) = weak.upgrade() {
            timer.start();
        }
    }));
    timer.start();
    DayWatch {
        _visible: lifecycle::on_visible(move || look()),
        timer,
    }
}

/// How long work goes on before the browser has its turn, in milliseconds: longer is felt, and every turn costs four.
const AT_A_STRETCH_MS: i64 = 40;

/// Long work, step by step: the browser has its turn as often as is needed on this phone, and no oftener.
#[derive(Debug)]
pub struct Stretch {
    since_ms: i64,
}

impl Stretch {
    /// Work begins.
    #[must_use]
    pub fn begin() -> Self {
        Self {
            since_ms: counter_ms(),
        }
    }

    /// Whether the browser should have its turn now.
    #[must_use]
    pub fn is_long(&self) -> bool {
        counter_ms().saturating_sub(self.since_ms) >= AT_A_STRETCH_MS
    }

    /// Lets it have its turn.
    pub async fn rest(&mut self) {
        breathe().await;
        self.since_ms = counter_ms();
    }
}

/// Lets the browser show what has changed before long work goes on.
pub async fn breathe() {
    let turn = js_sys::Promise::new(&mut |resolve, _| {
        if let Some(window) = web_sys::window() {
            // A window without timers does not wait.
            let _ = window.set_timeout_with_callback(&resolve);
        } else {
            let _ = resolve.call0(&wasm_bindgen::JsValue::UNDEFINED);
        }
    });
    // A promise that is only ever resolved cannot fail.
    let _ = wasm_bindgen_futures::JsFuture::from(turn).await;
}

/// Waits so many milliseconds; a page in the background may take longer.
pub async fn wait(ms: i32) {
    let turn = js_sys::Promise::new(&mut |resolve, _| {
        let timer = web_sys::window().and_then(|window| {
            let timer = window.set_timeout_with_callback_and_timeout_and_arguments_0(&resolve, ms);
            timer.ok()
        });
        if timer.is_none() {
            // A window without timers does not wait.
            let _ = resolve.call0(&wasm_bindgen::JsValue::UNDEFINED);
        }
    });
    // A promise that is only ever resolved cannot fail.
    let _ = wasm_bindgen_futures::JsFuture::from(turn).await;
}

#[cfg(test)]
#[cfg(target_arch = "wasm32")]
mod tests {
    use super::{LONGEST_WAIT_MS, read, wait_ms};
    use chrono::{DateTime, Duration};
    use wasm_bindgen_test::wasm_bindgen_test;

    #[wasm_bindgen_test]
    fn the_day_is_the_one_on_the_wall_at_that_offset() {
        let reading = read();
        let universal = DateTime::from_timestamp_millis(reading.now_ms).unwrap();
        let local = universal + Duration::minutes(reading.off_min.into());
        assert_eq!(local.date_naive(), reading.today);
        assert!(reading.now_ms > 1_700_000_000_000);
    }

    #[wasm_bindgen_test]
    fn the_wait_ends_just_after_midnight_and_is_never_long() {
        assert_eq!(wait_ms(86_399), 2000);
        assert_eq!(wait_ms(0), LONGEST_WAIT_MS);
        assert_eq!(wait_ms(86_400), 1000);
    }
}
