//! Keeping the screen on while a soak is counted down. The browser lets go when the page is hidden, so it is asked
//! again when the page is back; one that has no such lock just dims.

use std::cell::RefCell;
use std::rc::Rc;

use js_sys::Promise;
use wasm_bindgen::{JsCast, JsValue};
use wasm_bindgen_futures::{JsFuture, spawn_local};

use super::{Listening, call, lifecycle, of_navigator};

/// The screen stays on as long as this lives.
pub struct Awake {
    held: Rc<Held>,
    _visible: Vec<Listening>,
}

impl std::fmt::Debug for Awake {
    fn fmt(&self, formatter: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        formatter.write_str("Awake")
    }
}

#[derive(Default)]
struct Held {
    sentinel: RefCell<Option<JsValue>>,
    done: RefCell<bool>,
}

impl Held {
    fn ask(self: &Rc<Self>) {
        let held = Rc::clone(self);
        spawn_local(async move {
            let Some(asked) = of_navigator("wakeLock")
                .and_then(|lock| call(&lock, "request", &[JsValue::from_str("screen")]))
                .and_then(|promise| promise.dyn_into::<Promise>().ok())
            else {
                return;
            };
            // Refused: a flat battery, a policy. The digits are on the screen all the same.
            let Ok(sentinel) = JsFuture::from(asked).await else {
                return;
            };
            if *held.done.borrow() {
                let _ = call(&sentinel, "release", &[]);
            } else {
                *held.sentinel.borrow_mut() = Some(sentinel);
            }
        });
    }
}

/// Asks that the screen stay on.
pub fn keep() -> Awake {
    let held = Rc::new(Held::default());
    held.ask();
    let again = Rc::clone(&held);
    Awake {
        held,
        _visible: lifecycle::on_visible(move || again.ask()),
    }
}

impl Drop for Awake {
    fn drop(&mut self) {
        *self.held.done.borrow_mut() = true;
        if let Some(sentinel) = self.held.sentinel.borrow_mut().take() {
            let _ = call(&sentinel, "release", &[]);
        }
    }
}
