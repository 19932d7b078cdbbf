//! The module beside the page that draws and reads the codes on labels. Fetched when it is first asked; where it cannot
//! be had, the answer is nothing, and the next question tries anew.

use std::cell::{Cell, RefCell};
use std::collections::BTreeMap;

use js_sys::{Array, Function, Object, Promise, Reflect};
use wasm_bindgen::closure::Closure;
use wasm_bindgen::{JsCast, JsValue};
use wasm_bindgen_futures::JsFuture;

use super::{call, member, whole};

/// The script of the worker, beside the page.
const SCRIPT: &str = "./paperwork-worker.js";

/// Longest wait for an answer, in milliseconds: the module has to come over the network once.
const WAIT_MS: i32 = 30_000;

/// A code as drawn: modules along a side, without the quiet zone, and the path of the dark ones.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Drawn {
    pub side: u32,
    pub path: String,
}

thread_local! {
    static WORKER: RefCell<Option<JsValue>> = const { RefCell::new(None) };
    static ASKED: Cell<u32> = const { Cell::new(0) };
    /// Who waits for which answer.
    static WAITING: RefCell<BTreeMap<u32, Function>> = const { RefCell::new(BTreeMap::new()) };
}

/// Draws texts as codes, in their order, for a label or for the screen; `None` where the module cannot be had or a text
/// is too long for a code.
pub async fn draw(texts: &[String], on_screen: bool) -> Option<Vec<Drawn>> {
    let question = Object::new();
    set(&question, "onScreen", &on_screen.into());
    let list: Array = texts.iter().map(|text| JsValue::from_str(text)).collect();
    set(&question, "texts", &list);
    let answer = ask(&question, &Array::new()).await?;
    let drawn: Array = member(&answer, "drawn")?.dyn_into().ok()?;
    drawn
        .iter()
        .map(|one| drawn_of(&one.as_string()?))
        .collect()
}

fn drawn_of(text: &str) -> Option<Drawn> {
    let (side, path) = text.split_once(' ')?;
    Some(Drawn {
        side: side.parse().ok()?,
        path: path.to_owned(),
    })
}

/// What came of looking for a code in a picture.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Read {
    Text(String),
    NoCode,
    /// The module cannot be had.
    Unavailable,
}

/// Reads the code in a picture of red, green, blue and opacity; the bytes are handed over and gone.
pub async fn read(width: u32, height: u32, rgba: &JsValue) -> Read {
    let question = Object::new();
    set(&question, "width", &width.into());
    set(&question, "height", &height.into());
    set(&question, "rgba", rgba);
    let hand_over: Array = member(rgba, "buffer").into_iter().collect();
    match ask(&question, &hand_over).await {
        None => Read::Unavailable,
        Some(answer) => member(&answer, "text")
            .and_then(|text| text.as_string())
            .map_or(Read::NoCode, Read::Text),
    }
}

fn set(object: &Object, name: &str, value: &JsValue) {
    // A plain object takes any member.
    let _ = Reflect::set(object, &JsValue::from_str(name), value);
}

async fn ask(question: &Object, hand_over: &Array) -> Option<JsValue> {
    let worker = worker()?;
    let id = ASKED.get().wrapping_add(1);
    ASKED.set(id);
    set(question, "id", &id.into());
    let answer = Promise::new(&mut |resolve, _| {
        WAITING.with_borrow_mut(|waiting| waiting.insert(id, resolve));
    });
    call(&worker, "postMessage", &[question.into(), hand_over.into()])?;
    let too_long = Closure::once_into_js(move || answered(id, &JsValue::NULL));
    let _ = web_sys::window()?
        .set_timeout_with_callback_and_timeout_and_arguments_0(too_long.unchecked_ref(), WAIT_MS);
    let answer = JsFuture::from(answer).await.ok()?;
    if answer.is_null() || member(&answer, "fault").is_some() {
        // What went wrong may have been the network: the next question starts the module anew.
        give_up(&worker);
        return None;
    }
    Some(answer)
}

fn answered(id: u32, answer: &JsValue) {
    let waiting = WAITING.with_borrow_mut(|waiting| waiting.remove(&id));
    if let Some(resolve) = waiting {
        let _ = resolve.call1(&JsValue::NULL, answer);
    }
}

fn give_up(worker: &JsValue) {
    let _ = call(worker, "terminate", &[]);
    WORKER.with_borrow_mut(|kept| {
        if kept.as_ref() == Some(worker) {
            *kept = None;
        }
    });
    let left = WAITING.with_borrow_mut(std::mem::take);
    for resolve in left.into_values() {
        let _ = resolve.call1(&JsValue::NULL, &JsValue::NULL);
    }
}

fn worker() -> Option<JsValue> {
    if let Some(worker) = WORKER.with_borrow(Clone::clone) {
        return Some(worker);
    }
    let kind: Function = member(&js_sys::global(), "Worker")?.dyn_into().ok()?;
    let worker: JsValue = Reflect::construct(&kind, &Array::of1(&SCRIPT.into())).ok()?;
    let on_message = Closure::<dyn Fn(JsValue)>::new(|event: JsValue| {
        let answer = member(&event, "data").unwrap_or(JsValue::NULL);
        let id = member(&answer, "id").and_then(|id| whole(&id));
        if let Some(id) = id.and_then(|id| u32::try_from(id).ok()) {
            answered(id, &answer);
        }
    });
    let broken = worker.clone();
    let on_error = Closure::<dyn Fn()>::new(move || give_up(&broken));
    let _ = Reflect::set(&worker, &"onmessage".into(), on_message.as_ref());
    let _ = Reflect::set(&worker, &"onerror".into(), on_error.as_ref());
    // They listen as long as the worker lives, which is as long as the page.
    on_message.forget();
    on_error.forget();
    WORKER.with_borrow_mut(|kept| *kept = Some(worker.clone()));
    Some(worker)
}
