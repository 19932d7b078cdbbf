//! How safe the storage is from the browser's own cleaning, and how much room there is.

use wasm_bindgen::JsCast;
use wasm_bindgen_futures::JsFuture;

use super::{call, member, of_navigator, whole};

/// What this origin uses and may use, in bytes, as the browser estimates it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Room {
    /// In use.
    pub used_bytes: u64,
    /// Allowed.
    pub allowed_bytes: u64,
}

/// Whether the browser promised not to clear the storage by itself; `None` when it makes no such promises.
pub async fn persisted() -> Option<bool> {
    ask_storage("persisted").await?.as_bool()
}

/// Asks for that promise. Some browsers ask the person, so it belongs after the first real record.
pub async fn ask() -> Option<bool> {
    ask_storage("persist").await?.as_bool()
}

/// The room for this origin.
pub async fn estimate() -> Option<Room> {
    let estimate = ask_storage("estimate").await?;
    let bytes = |name| whole(&member(&estimate, name)?);
    Some(Room {
        used_bytes: bytes("usage")?,
        allowed_bytes: bytes("quota")?,
    })
}

async fn ask_storage(method: &str) -> Option<wasm_bindgen::JsValue> {
    let storage = of_navigator("storage")?;
    let promise: js_sys::Promise = call(&storage, method, &[])?.dyn_into().ok()?;
    JsFuture::from(promise).await.ok()
}
