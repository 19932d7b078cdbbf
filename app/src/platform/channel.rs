//! Word between windows of the same book: lines up to this arrival number are written.

use wasm_bindgen::JsCast;
use wasm_bindgen::JsValue;
use wasm_bindgen::closure::Closure;

use super::{member, whole};

/// A channel between the windows of one book. It hears the other windows, never itself, and closes when dropped.
#[derive(Debug)]
pub struct Channel {
    raw: web_sys::BroadcastChannel,
    on_message: Closure<dyn FnMut(web_sys::MessageEvent)>,
}

impl Channel {
    /// Joins the channel of this name; `None` when the browser has no channels.
    pub fn join(name: &str, on_written: impl Fn(u64) + 'static) -> Option<Self> {
        member(&js_sys::global(), "BroadcastChannel")?;
        let raw = web_sys::BroadcastChannel::new(name).ok()?;
        let on_message = Closure::new(move |event: web_sys::MessageEvent| {
            if let Some(arrival) = whole(&event.data()) {
                on_written(arrival);
            }
        });
        raw.set_onmessage(Some(on_message.as_ref().unchecked_ref()));
        Some(Self { raw, on_message })
    }

    /// Tells the other windows that the lines up to this arrival number are on disk.
    pub fn tell_written(&self, arrival: u64) {
        // Arrival numbers stay below 2^53, because the browser counts them.
        #[allow(clippy::cast_precision_loss)]
        let message = JsValue::from_f64(arrival as f64);
        let _ = self.raw.post_message(&message);
    }
}

impl Drop for Channel {
    fn drop(&mut self) {
        self.raw.set_onmessage(None);
        self.raw.close();
        let _ = &self.on_message;
    }
}
