//! The browser around the program: clock, randomness, locks among windows, files, pictures, sound, the program kept on
//! the phone.
//!
//! Each file wraps one thing and knows nothing of the nursery. Everything is guarded: a browser that lacks a thing, or
//! forbids it, gives `None` or does nothing. What is newer than the released bindings is called by its name.

pub mod awake;
pub mod camera;
pub mod channel;
pub mod ciphers;
pub mod clock;
pub mod failure;
pub mod feedback;
pub mod files;
pub mod folder;
pub mod lifecycle;
pub mod locks;
pub mod news;
pub mod paper;
pub mod paperwork;
pub mod passed_on;
pub mod persist;
pub mod photo;
pub mod preferences;
pub mod program;
pub mod random;
pub mod room;
pub mod streams;
#[cfg(test)]
#[cfg(target_arch = "wasm32")]
mod tests;
pub mod window_size;

use js_sys::{Array, Function, Object, Promise, Reflect};
use wasm_bindgen::closure::Closure;
use wasm_bindgen::{JsCast, JsValue};
use wasm_bindgen_futures::JsFuture;

/// A listener on a part of the page; it stops listening when dropped.
#[derive(Debug)]
pub struct Listening {
    target: web_sys::EventTarget,
    event: &'static str,
    closure: Closure<dyn FnMut()>,
}

impl Listening {
    /// Listens for an event; `None` when the browser refuses.
    fn to(
        target: &web_sys::EventTarget,
        event: &'static str,
        work: impl FnMut() + 'static,
    ) -> Option<Self> {
        let closure = Closure::new(work);
        target
            .add_event_listener_with_callback(event, closure.as_ref().unchecked_ref())
            .ok()?;
        Some(Self {
            target: target.clone(),
            event,
            closure,
        })
    }
}

impl Drop for Listening {
    fn drop(&mut self) {
        let callback = self.closure.as_ref().unchecked_ref();
        let _ = self
            .target
            .remove_event_listener_with_callback(self.event, callback);
    }
}

/// A member of an object, when it is there.
fn member(of: &JsValue, name: &str) -> Option<JsValue> {
    Reflect::get(of, &JsValue::from_str(name))
        .ok()
        .filter(|value| !value.is_undefined() && !value.is_null())
}

/// A member of `navigator`, when the browser has it.
fn of_navigator(name: &str) -> Option<JsValue> {
    member(web_sys::window()?.navigator().as_ref(), name)
}

/// Calls a method by its name; `None` when it is missing or throws.
fn call(of: &JsValue, name: &str, arguments: &[JsValue]) -> Option<JsValue> {
    let method: Function = member(of, name)?.dyn_into().ok()?;
    let list: Array = arguments.iter().collect();
    method.apply(of, &list).ok()
}

/// What a method that takes its time answers; `None` when it is missing, throws or refuses.
async fn promised(of: &JsValue, method: &str, arguments: &[JsValue]) -> Option<JsValue> {
    let promise: Promise = call(of, method, arguments)?.dyn_into().ok()?;
    JsFuture::from(promise).await.ok()
}

/// A plain object.
fn object(fields: &[(&str, JsValue)]) -> JsValue {
    let object = Object::new();
    for (name, value) in fields {
        // Setting a field of a fresh plain object cannot fail.
        let _ = Reflect::set(&object, &JsValue::from_str(name), value);
    }
    object.into()
}

/// A whole number out of the browser; `None` for anything else.
#[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)]
pub(crate) fn whole(value: &JsValue) -> Option<u64> {
    value
        .as_f64()
        .filter(|number| *number >= 0.0 && number.fract() == 0.0)
        .map(|number| number as u64)
}
