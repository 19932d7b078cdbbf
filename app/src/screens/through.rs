//! What the camera sees: opened, looked through, lit, and let go when the screen is left.

use std::rc::Rc;

use leptos::html::Video;
use leptos::prelude::*;
use leptos::task::spawn_local;
use wasm_bindgen::JsValue;

use crate::ledger::{Camera, CameraFault, Ledger, Seen};
use crate::ui::{Glyph, PlainAction, Toggle};
use crate::words::{labels, labels::find as words};

/// What is said around the picture.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct ThroughWords {
    /// What to hold before it.
    pub looking: &'static str,
    pub refused: &'static str,
    pub missing: &'static str,
}

/// How the camera stands.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Eye {
    Shut,
    Opening,
    Open,
    Fault(CameraFault),
}

/// Looks through the camera until `saw` says that it is enough. What it then left in `said` stands there, with a key to
/// look again.
#[component]
pub fn Through(
    words_for: ThroughWords,
    said: RwSignal<String>,
    saw: Callback<Seen, bool>,
) -> impl IntoView {
    let ledger = Ledger::here();
    let video = NodeRef::<Video>::new();
    let eye = RwSignal::new(Eye::Shut);
    let has_light = RwSignal::new(false);
    let lit = RwSignal::new(false);
    let camera = StoredValue::new_local(None::<Rc<Camera>>);
    let going = StoredValue::new(false);
    let look = move |opened: Rc<Camera>| {
        going.set_value(true);
        ledger.watch(opened, going, move |seen| saw.run(seen));
    };
    let begin = move || {
        if eye.get_untracked() == Eye::Opening {
            return;
        }
        eye.set(Eye::Opening);
        spawn_local(async move {
            // The element is there from the start; it is shown when the camera is.
            let Some(element) = video.get_untracked() else {
                eye.try_set(Eye::Shut);
                return;
            };
            let opened = Camera::open(&JsValue::from(element)).await;
            match opened {
                Ok(opened) => {
                    let opened = Rc::new(opened);
                    has_light.try_set(opened.has_light());
                    if camera
                        .try_update_value(|kept| *kept = Some(Rc::clone(&opened)))
                        .is_some()
                    {
                        eye.try_set(Eye::Open);
                        look(opened);
                    }
                }
                Err(fault) => drop(eye.try_set(Eye::Fault(fault))),
            }
        });
    };
    Effect::new(move |_| {
        if video.get().is_some() && eye.get_untracked() == Eye::Shut {
            spawn_local(async move {
                if ledger.camera_allowed().await && eye.try_get_untracked() == Some(Eye::Shut) {
                    begin();
                }
            });
        }
    });
    let press = Callback::new(move |()| begin());
    let again = Callback::new(move |()| {
        said.set(String::new());
        if let Some(opened) = camera.get_value() {
            look(opened);
        }
    });
    let switch = Callback::new(move |on: bool| {
        lit.set(on);
        camera.with_value(|camera| {
            if let Some(camera) = camera {
                camera.light(on);
            }
        });
    });
    let state = move || {
        match eye.get() {
        Eye::Shut => view! {
            <div class="form"><PlainAction label=words::CAMERA.to_owned() glyph=Glyph::Camera on_press=press /></div>
        }
        .into_any(),
        Eye::Opening => ().into_any(),
        Eye::Open if said.with(String::is_empty) => {
            view! { <p class="edge">{words_for.looking}</p> }.into_any()
        }
        Eye::Open => view! {
            <p class="warn">{said.get()}</p>
            <div class="form"><PlainAction label=words::AGAIN.to_owned() glyph=Glyph::Camera on_press=again /></div>
        }
        .into_any(),
        Eye::Fault(CameraFault::Refused) => view! { <p class="edge">{words_for.refused}</p> }.into_any(),
        Eye::Fault(CameraFault::Missing) => view! { <p class="edge">{words_for.missing}</p> }.into_any(),
    }
    };
    let light = move || {
        (has_light.get() && eye.get() == Eye::Open).then(|| {
            view! {
                <div class="form">
                    <Toggle label=words::LIGHT on=lit on_switch=switch on_word=labels::YES off_word=labels::NO />
                </div>
            }
        })
    };
    view! {
        <video
            class="scan-picture"
            class:scan-shut=move || eye.get() != Eye::Open
            node_ref=video
            aria-label=words::VIDEO
            prop:muted=true
            playsinline
        ></video>
        <div aria-live="polite">{state}</div>
        {light}
    }
}
