//! The camera, looked through for a code: the browser's own reader where it has one, else the module beside the page.
//!
//! The camera is let go when this is dropped. Nothing that it sees is kept.

use std::cell::Cell;

use js_sys::{Array, Function, Object, Promise, Reflect};
use wasm_bindgen::closure::Closure;
use wasm_bindgen::{JsCast, JsValue};
use wasm_bindgen_futures::JsFuture;
use web_sys::HtmlCanvasElement;

use super::paperwork::{self, Read};
use super::{call, member, of_navigator, whole};

/// Longer side of the picture that is looked at by the module: more takes longer and shows no more of a label.
const SIDE_PX: u32 = 800;

/// What is asked of the camera, as a wish: left to itself a phone gives 640 by 480, which is little for a dense code.
const WISHED_PX: (u32, u32) = (1_280, 960);

/// Why there is no camera.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum CameraFault {
    /// The browser has none to give, or not to this address.
    Missing,
    /// The person, or the phone's settings, said no.
    Refused,
}

/// What one look through the camera saw.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Seen {
    Text(String),
    Nothing,
    /// Nothing here can read codes.
    CannotRead,
}

/// An open camera.
#[derive(Debug)]
pub struct Camera {
    stream: JsValue,
    video: JsValue,
    /// The browser's own reader, as long as it works.
    reader: Option<JsValue>,
    reader_failed: Cell<bool>,
    canvas: Option<HtmlCanvasElement>,
}

/// Whether the camera was allowed before, so that it can be opened without being asked for.
pub async fn allowed() -> bool {
    let asked = Object::new();
    let _ = Reflect::set(&asked, &"name".into(), &"camera".into());
    let Some(permissions) = of_navigator("permissions") else {
        return false;
    };
    let answer = settled(call(&permissions, "query", &[asked.into()])).await;
    let state = answer.and_then(|answer| member(&answer, "state"));
    state.and_then(|state| state.as_string()).as_deref() == Some("granted")
}

/// What a promise came to; nothing where it was refused, or was none.
async fn settled(promise: Option<JsValue>) -> Option<JsValue> {
    let promise: Promise = promise?.dyn_into().ok()?;
    JsFuture::from(promise).await.ok()
}

impl Camera {
    /// Opens the camera at the back and shows it in a video element.
    pub async fn open(video: &JsValue) -> Result<Self, CameraFault> {
        let devices = of_navigator("mediaDevices").ok_or(CameraFault::Missing)?;
        let picture = Object::new();
        let _ = Reflect::set(&picture, &"facingMode".into(), &"environment".into());
        for (name, px) in [("width", WISHED_PX.0), ("height", WISHED_PX.1)] {
            let wish = Object::new();
            let _ = Reflect::set(&wish, &"ideal".into(), &px.into());
            let _ = Reflect::set(&picture, &name.into(), &wish);
        }
        let wanted = Object::new();
        let _ = Reflect::set(&wanted, &"video".into(), &picture);
        let promise: Promise = call(&devices, "getUserMedia", &[wanted.into()])
            .and_then(|promise| promise.dyn_into().ok())
            .ok_or(CameraFault::Missing)?;
        let stream = JsFuture::from(promise).await.map_err(|error| {
            let name = member(&error, "name").and_then(|name| name.as_string());
            match name.as_deref() {
                Some("NotAllowedError" | "SecurityError") => CameraFault::Refused,
                _ => CameraFault::Missing,
            }
        })?;
        let camera = Self {
            reader: reader(),
            reader_failed: Cell::new(false),
            canvas: canvas(),
            stream,
            video: video.clone(),
        };
        let _ = Reflect::set(video, &"srcObject".into(), &camera.stream);
        // A video that does not begin by itself begins at the next tap.
        let _ = settled(call(video, "play", &[])).await;
        Ok(camera)
    }

    /// One look.
    pub async fn look(&self) -> Seen {
        if let Some(reader) = self.reader.as_ref().filter(|_| !self.reader_failed.get()) {
            match settled(call(reader, "detect", std::slice::from_ref(&self.video))).await {
                Some(codes) => {
                    let first = codes.dyn_into::<Array>().map(|codes| codes.get(0));
                    let text = first.ok().and_then(|code| member(&code, "rawValue"));
                    let text = text.and_then(|text| text.as_string());
                    return text.map_or(Seen::Nothing, Seen::Text);
                }
                // Before the first picture it refuses too; the module then looks at nothing and says so.
                None => self.reader_failed.set(self.picture().is_some()),
            }
        }
        let Some((width, height, rgba)) = self.picture() else {
            return Seen::Nothing;
        };
        match paperwork::read(width, height, &rgba).await {
            Read::Text(text) => Seen::Text(text),
            Read::NoCode => Seen::Nothing,
            Read::Unavailable => Seen::CannotRead,
        }
    }

    /// The picture of this moment.
    fn picture(&self) -> Option<(u32, u32, JsValue)> {
        let side = |name| u32::try_from(whole(&member(&self.video, name)?)?).ok();
        let (width, height) = (side("videoWidth")?, side("videoHeight")?);
        let longest = width.max(height);
        if longest == 0 {
            return None;
        }
        let scaled = |side: u32| (side.saturating_mul(SIDE_PX.min(longest)) / longest).max(1);
        let (width, height) = (scaled(width), scaled(height));
        let canvas = self.canvas.as_ref()?;
        canvas.set_width(width);
        canvas.set_height(height);
        let often = Object::new();
        let _ = Reflect::set(&often, &"willReadFrequently".into(), &true.into());
        let pen: JsValue = canvas
            .get_context_with_context_options("2d", &often)
            .ok()??
            .into();
        let whole_picture: [JsValue; 4] = [0.into(), 0.into(), width.into(), height.into()];
        let [left, top, right, bottom] = whole_picture.clone();
        call(
            &pen,
            "drawImage",
            &[self.video.clone(), left, top, right, bottom],
        )?;
        let dots = call(&pen, "getImageData", &whole_picture)?;
        Some((width, height, member(&dots, "data")?))
    }

    /// The part of the stream that takes pictures.
    fn track(&self) -> Option<JsValue> {
        let tracks: Array = call(&self.stream, "getVideoTracks", &[])?.dyn_into().ok()?;
        Some(tracks.get(0)).filter(|track| !track.is_undefined())
    }

    /// Whether this camera has a light to switch.
    pub fn has_light(&self) -> bool {
        let able = self
            .track()
            .and_then(|track| call(&track, "getCapabilities", &[]));
        able.and_then(|able| member(&able, "torch"))
            .is_some_and(|torch| torch.is_truthy())
    }

    /// Switches the light.
    pub fn light(&self, on: bool) {
        let one = Object::new();
        let _ = Reflect::set(&one, &"torch".into(), &on.into());
        let wish = Object::new();
        let _ = Reflect::set(&wish, &"advanced".into(), &Array::of1(&one));
        // A camera that will not stays as it is.
        if let Some(promise) = self
            .track()
            .and_then(|track| call(&track, "applyConstraints", &[wish.into()]))
        {
            wasm_bindgen_futures::spawn_local(async move {
                let _ = settled(Some(promise)).await;
            });
        }
    }
}

impl Drop for Camera {
    fn drop(&mut self) {
        if let Some(tracks) = call(&self.stream, "getTracks", &[])
            && let Ok(tracks) = tracks.dyn_into::<Array>()
        {
            for track in tracks.iter() {
                let _ = call(&track, "stop", &[]);
            }
        }
        let _ = Reflect::set(&self.video, &"srcObject".into(), &JsValue::NULL);
    }
}

/// The browser's own reader of codes, where it has one.
fn reader() -> Option<JsValue> {
    let kind: Function = member(&js_sys::global(), "BarcodeDetector")?
        .dyn_into()
        .ok()?;
    let options = Object::new();
    let _ = Reflect::set(&options, &"formats".into(), &Array::of1(&"qr_code".into()));
    Reflect::construct(&kind, &Array::of1(&options)).ok()
}

fn canvas() -> Option<HtmlCanvasElement> {
    let document = web_sys::window()?.document()?;
    document.create_element("canvas").ok()?.dyn_into().ok()
}

/// Waits so many milliseconds.
pub async fn rest(ms: i32) {
    let promise = Promise::new(&mut |resolve, _| {
        let wake = Closure::once_into_js(move || {
            let _ = resolve.call0(&JsValue::NULL);
        });
        if let Some(window) = web_sys::window() {
            let _ = window
                .set_timeout_with_callback_and_timeout_and_arguments_0(wake.unchecked_ref(), ms);
        }
    });
    let _ = JsFuture::from(promise).await;
}
