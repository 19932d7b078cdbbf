//! The program itself, kept on this phone by a service worker so that it opens without a network; and its next version.
//!
//! Invariants: a next version waits until [`Program::put_in`]. A page is loaded again only when one version took the
//! place of another, never when the first came to be kept. What fails is told as how the program is kept, and stops
//! nothing.

use std::cell::{Cell, RefCell};
use std::rc::Rc;

use js_sys::{Object, Promise, Reflect};
use wasm_bindgen::closure::Closure;
use wasm_bindgen::{JsCast, JsValue};
use wasm_bindgen_futures::{JsFuture, spawn_local};

use super::{Listening, call, clock, lifecycle, member, object, of_navigator, promised};

/// A look for a next version follows the one before after an hour at the earliest.
const LOOK_EVERY_MS: i64 = 60 * 60 * 1000;

/// What the waiting worker understands as the person's consent.
const PUT_IN: &str = "put in";

/// Whether the program opens without a network, or why not.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Keeping {
    /// Not known yet, or its files are on their way.
    OnItsWay,
    /// It opens without a network.
    Kept,
    /// This build brings no worker, as while the program is being worked on.
    NotInThisBuild,
    /// The address does not begin with https.
    OpenAddress,
    /// The browser does not allow it here, as in private windows.
    Forbidden,
    /// Something did not arrive, or not as it should have, or there was no room.
    Incomplete,
}

/// How the program stands on this phone.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Standing {
    /// Whether it is kept.
    pub keeping: Keeping,
    /// Whether a next version lies ready, whole.
    pub next_is_ready: bool,
}

impl Standing {
    /// Nothing waits.
    #[must_use]
    pub const fn only(keeping: Keeping) -> Self {
        Self {
            keeping,
            next_is_ready: false,
        }
    }
}

/// What tells this build from every other: the name its script has by its content. Empty where the page names none.
#[must_use]
pub fn build() -> String {
    let document = web_sys::window().and_then(|window| window.document());
    let link = document.and_then(|document| {
        let link = document.query_selector("link[rel=modulepreload]");
        link.ok().flatten()
    });
    link.and_then(|link| link.get_attribute("href"))
        .unwrap_or_default()
}

/// Has the files of a language kept beside the program: whether they are. `None` where no program is kept at all.
pub async fn keep_language(language: &str) -> Option<bool> {
    let container = of_navigator("serviceWorker")?;
    let registration = promised(&container, "getRegistration", &[]).await?;
    let worker = member(&registration, "active")?;
    let (mine, theirs) = channel()?;
    let answer = Promise::new(&mut |done, _| {
        let heard = Closure::once_into_js(move |event: web_sys::MessageEvent| {
            let _ = done.call1(&JsValue::NULL, &event.data());
        });
        // A setter of the browser's own: listening begins with it.
        let _ = Reflect::set(&mine, &"onmessage".into(), &heard);
    });
    let asked = object(&[("keep", language.into())]);
    call(
        &worker,
        "postMessage",
        &[asked, js_sys::Array::of1(&theirs).into()],
    )?;
    JsFuture::from(answer).await.ok()?.as_bool()
}

/// Two ends between which one message goes.
fn channel() -> Option<(JsValue, JsValue)> {
    let make: js_sys::Function = member(&js_sys::global(), "MessageChannel")?
        .dyn_into()
        .ok()?;
    let made = Reflect::construct(&make, &js_sys::Array::new()).ok()?;
    Some((member(&made, "port1")?, member(&made, "port2")?))
}

/// Loads the page again, as after another language was chosen.
pub fn start_again() {
    if let Some(window) = web_sys::window() {
        let _ = window.location().reload();
    }
}

type Tell = Rc<dyn Fn(Standing)>;

/// The program as it is kept; it is watched as long as this lives.
#[derive(Debug)]
pub struct Program {
    registration: JsValue,
    _listening: Vec<Listening>,
}

impl Program {
    /// Puts the waiting version in; every window of the program loads itself again.
    pub fn put_in(&self) {
        if let Some(waiting) = member(&self.registration, "waiting") {
            let _ = call(&waiting, "postMessage", &[PUT_IN.into()]);
        }
    }
}

/// Has the program kept, and tells how it stands now and whenever that changes. `None` where it cannot be kept.
pub async fn keep(tell: impl Fn(Standing) + 'static) -> Option<Program> {
    let tell: Tell = Rc::new(tell);
    match register().await {
        Ok((registration, changed)) => Some(watch(registration, changed, &tell)),
        Err(keeping) => {
            tell(Standing::only(keeping));
            None
        }
    }
}

async fn register() -> Result<(JsValue, Option<Listening>), Keeping> {
    let address = worker_address().ok_or(Keeping::NotInThisBuild)?;
    if !is_secure() {
        return Err(Keeping::OpenAddress);
    }
    let container = of_navigator("serviceWorker").ok_or(Keeping::Forbidden)?;
    let changed = load_again_when_replaced(&container);
    let options = Object::new();
    // Setting a field of a fresh plain object cannot fail.
    let _ = Reflect::set(&options, &"updateViaCache".into(), &"none".into());
    let promise: Promise = call(&container, "register", &[address.into(), options.into()])
        .and_then(|promise| promise.dyn_into().ok())
        .ok_or(Keeping::Forbidden)?;
    match JsFuture::from(promise).await {
        Ok(registration) => Ok((registration, changed)),
        Err(error) => Err(refusal(&error)),
    }
}

/// A browser that forbids it says so by this name; anything else is a network or a file.
fn refusal(error: &JsValue) -> Keeping {
    let name = member(error, "name").and_then(|name| name.as_string());
    match name.as_deref() {
        Some("SecurityError" | "NotSupportedError" | "InvalidStateError") => Keeping::Forbidden,
        _ => Keeping::Incomplete,
    }
}

/// The page of a finished build names its worker.
fn worker_address() -> Option<String> {
    let document = web_sys::window()?.document()?;
    let meta = document.query_selector("meta[name='service-worker']");
    meta.ok().flatten()?.get_attribute("content")
}

fn is_secure() -> bool {
    member(&js_sys::global(), "isSecureContext").and_then(|secure| secure.as_bool()) == Some(true)
}

/// The first worker comes to a page without one, or with one of a folder around its own, and changes nothing on it.
fn load_again_when_replaced(container: &JsValue) -> Option<Listening> {
    let before = RefCell::new(answering(container));
    let target: web_sys::EventTarget = container.clone().dyn_into().ok()?;
    let container = container.clone();
    Listening::to(&target, "controllerchange", move || {
        let now = answering(&container);
        let same = now.is_some() && *before.borrow() == now;
        before.replace(now);
        if same {
            start_again();
        }
    })
}

/// The address of the worker that answers for this page. All versions of one program have the same.
fn answering(container: &JsValue) -> Option<String> {
    member(&member(container, "controller")?, "scriptURL")?.as_string()
}

fn watch(registration: JsValue, changed: Option<Listening>, tell: &Tell) -> Program {
    let arriving: Rc<RefCell<Option<Listening>>> = Rc::default();
    let follow: Rc<dyn Fn()> = Rc::new({
        let (registration, tell) = (registration.clone(), Rc::clone(tell));
        move || {
            tell(standing(&registration));
            *arriving.borrow_mut() = follow_arrival(&registration, &tell);
        }
    });
    follow();
    let mut listening: Vec<Listening> = changed.into_iter().collect();
    if let Ok(target) = registration.clone().dyn_into::<web_sys::EventTarget>() {
        listening.extend(Listening::to(&target, "updatefound", move || follow()));
    }
    listening.extend(look_when_seen(&registration));
    Program {
        registration,
        _listening: listening,
    }
}

/// Follows the worker that is being installed, if there is one, through all its states.
fn follow_arrival(registration: &JsValue, tell: &Tell) -> Option<Listening> {
    let arriving: web_sys::EventTarget = member(registration, "installing")?.dyn_into().ok()?;
    let (registration, tell) = (registration.clone(), Rc::clone(tell));
    Listening::to(&arriving, "statechange", move || {
        tell(standing(&registration));
    })
}

fn standing(registration: &JsValue) -> Standing {
    let has = |name| member(registration, name).is_some();
    let active = has("active");
    Standing {
        keeping: if active {
            Keeping::Kept
        } else if has("installing") || has("waiting") {
            Keeping::OnItsWay
        } else {
            Keeping::Incomplete
        },
        next_is_ready: active && has("waiting"),
    }
}

/// Opening the page has just looked; after that, coming back to it looks again.
fn look_when_seen(registration: &JsValue) -> Vec<Listening> {
    let looked_ms = Rc::new(Cell::new(clock::read().now_ms));
    let registration = registration.clone();
    lifecycle::on_visible(move || {
        let now_ms = clock::read().now_ms;
        if now_ms.abs_diff(looked_ms.get()) < LOOK_EVERY_MS.unsigned_abs() {
            return;
        }
        looked_ms.set(now_ms);
        let promise = call(&registration, "update", &[])
            .and_then(|promise| promise.dyn_into::<Promise>().ok());
        if let Some(promise) = promise {
            // Without a network there is nothing to find.
            spawn_local(async move {
                let _ = JsFuture::from(promise).await;
            });
        }
    })
}

#[cfg(test)]
#[cfg(target_arch = "wasm32")]
mod tests {
    use super::{Keeping, Standing, keep, refusal, standing};
    use js_sys::{Object, Reflect};
    use std::cell::RefCell;
    use std::rc::Rc;
    use wasm_bindgen::JsValue;
    use wasm_bindgen_test::wasm_bindgen_test;

    fn with(members: &[&str]) -> JsValue {
        let object = Object::new();
        for name in members {
            Reflect::set(&object, &(*name).into(), &Object::new()).unwrap();
        }
        object.into()
    }

    #[wasm_bindgen_test]
    fn a_version_is_ready_only_beside_one_that_is_in_use() {
        let both = standing(&with(&["active", "waiting"]));
        assert_eq!(both.keeping, Keeping::Kept);
        assert!(both.next_is_ready);
        let first = Standing::only(Keeping::OnItsWay);
        assert_eq!(standing(&with(&["waiting"])), first);
        assert_eq!(standing(&with(&["installing"])), first);
        let arriving = standing(&with(&["active", "installing"]));
        assert_eq!(arriving, Standing::only(Keeping::Kept));
        assert_eq!(standing(&with(&[])), Standing::only(Keeping::Incomplete));
    }

    #[wasm_bindgen_test]
    fn what_the_browser_forbids_is_told_from_what_did_not_arrive() {
        let named = |name: &str| {
            let object = Object::new();
            Reflect::set(&object, &"name".into(), &name.into()).unwrap();
            refusal(&object)
        };
        assert_eq!(named("SecurityError"), Keeping::Forbidden);
        assert_eq!(named("TypeError"), Keeping::Incomplete);
        assert_eq!(refusal(&JsValue::UNDEFINED), Keeping::Incomplete);
    }

    #[wasm_bindgen_test]
    async fn a_page_that_names_no_worker_goes_on_without_one() {
        let told = Rc::new(RefCell::new(Vec::new()));
        let hear = Rc::clone(&told);
        let program = keep(move |standing| hear.borrow_mut().push(standing)).await;
        assert!(program.is_none());
        let expected = [Standing::only(Keeping::NotInThisBuild)];
        assert_eq!(*told.borrow(), expected);
    }
}
