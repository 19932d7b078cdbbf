//! One writer among the windows of a book.
//!
//! A lock is held as long as its [`Lock`] lives, and the browser gives it back when the window closes or crashes. The
//! other windows read, wait for the lock, or take it over when the person says so.

use std::cell::{Cell, RefCell};
use std::rc::Rc;

use js_sys::{Function, Object, Promise, Reflect};
use wasm_bindgen::closure::Closure;
use wasm_bindgen::{JsCast, JsValue};
use wasm_bindgen_futures::{JsFuture, spawn_local};

use super::{call, member, of_navigator};
use crate::settle::Settle;

/// What came of asking for a lock.
#[derive(Debug)]
pub enum Claim {
    /// It is ours.
    Held(Lock),
    /// Another window has it.
    Taken,
    /// The browser has no locks; nothing is known of other windows.
    Unknown,
}

#[derive(Default)]
struct Theft {
    happened: Cell<bool>,
    listener: RefCell<Option<Rc<dyn Fn()>>>,
}

/// A lock that is held; dropping it gives it back.
pub struct Lock {
    release: Function,
    theft: Rc<Theft>,
}

impl std::fmt::Debug for Lock {
    fn fmt(&self, formatter: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        formatter
            .debug_struct("Lock")
            .field("stolen", &self.theft.happened.get())
            .finish_non_exhaustive()
    }
}

impl Lock {
    /// Says what to do when another window takes the lock over; done at once when it has happened already.
    pub fn on_stolen(&self, work: impl Fn() + 'static) {
        if self.theft.happened.get() {
            work();
        } else {
            *self.theft.listener.borrow_mut() = Some(Rc::new(work));
        }
    }

    /// Whether another window has taken the lock over.
    pub fn is_stolen(&self) -> bool {
        self.theft.happened.get()
    }
}

impl Drop for Lock {
    fn drop(&mut self) {
        let _ = self.release.call0(&JsValue::UNDEFINED);
    }
}

/// Takes the lock if nobody has it.
pub async fn claim(name: &str) -> Claim {
    request(name, Some("ifAvailable")).await
}

/// Waits until the lock is free, and takes it.
pub async fn wait_for(name: &str) -> Claim {
    request(name, None).await
}

/// Takes the lock whoever has it; the window that had it is told.
pub async fn take_over(name: &str) -> Claim {
    request(name, Some("steal")).await
}

async fn request(name: &str, option: Option<&str>) -> Claim {
    let Some(manager) = of_navigator("locks") else {
        return Claim::Unknown;
    };
    let options = Object::new();
    if let Some(option) = option {
        // Setting a field of a fresh plain object cannot fail.
        let _ = Reflect::set(&options, &option.into(), &JsValue::TRUE);
    }
    let answer = Settle::<Claim>::new();
    let theft = Rc::new(Theft::default());
    let on_granted = Closure::<dyn FnMut(JsValue) -> JsValue>::new({
        let (answer, theft) = (answer.clone(), Rc::clone(&theft));
        move |lock: JsValue| granted(&lock, &answer, &theft)
    });
    let arguments = [name.into(), options.into(), on_granted.as_ref().clone()];
    let promise = call(&manager, "request", &arguments)
        .and_then(|promise| promise.dyn_into::<Promise>().ok());
    let Some(promise) = promise else {
        return Claim::Unknown;
    };
    spawn_local({
        let answer = answer.clone();
        async move {
            // The promise ends when the lock is given back, refused or stolen; only a theft or a refusal rejects it.
            let ended = JsFuture::from(promise).await;
            drop(on_granted);
            if ended.is_err() && answer.settle(Claim::Unknown).is_err() {
                theft.happened.set(true);
                let listener = theft.listener.borrow().clone();
                if let Some(listener) = listener {
                    listener();
                }
            }
        }
    });
    answer.settled().await
}

/// Called by the browser with the lock, or with null when it is taken. The lock is held until the promise resolves.
fn granted(lock: &JsValue, answer: &Settle<Claim>, theft: &Rc<Theft>) -> JsValue {
    if member(lock, "name").is_none() {
        let _ = answer.settle(Claim::Taken);
        return JsValue::UNDEFINED;
    }
    let mut release = None;
    let held = Promise::new(&mut |resolve, _| release = Some(resolve));
    if let Some(release) = release {
        // Nobody waits any more: the lock that comes back is dropped, which releases it.
        let _ = answer.settle(Claim::Held(Lock {
            release,
            theft: Rc::clone(theft),
        }));
    }
    held.into()
}
