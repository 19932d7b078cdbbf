//! Files that another app passed to this one, kept by the worker that serves the program until they are looked at.

use js_sys::Array;
use wasm_bindgen::{JsCast, JsValue};

use super::{member, promised};

/// Where the worker of this folder keeps them; see `assets/service-worker.js`.
fn kept_in() -> Option<String> {
    let href = web_sys::window()?.location().href().ok()?;
    let page = href.split(['#', '?']).next()?;
    let (folder, _) = page.rsplit_once('/')?;
    Some(format!("velamen-passed-on {folder}/"))
}

/// Takes them; none when nothing was passed on.
pub async fn take() -> Vec<web_sys::File> {
    try_take().await.unwrap_or_default()
}

async fn try_take() -> Option<Vec<web_sys::File>> {
    let caches = member(&js_sys::global(), "caches")?;
    let name = JsValue::from_str(&kept_in()?);
    let there = promised(&caches, "has", std::slice::from_ref(&name)).await?;
    if !there.is_truthy() {
        return None;
    }
    let cache = promised(&caches, "open", std::slice::from_ref(&name)).await?;
    let keys: Array = promised(&cache, "keys", &[]).await?.dyn_into().ok()?;
    let mut files = Vec::new();
    for key in keys {
        let found = promised(&cache, "match", std::slice::from_ref(&key)).await?;
        let parts = Array::of1(&promised(&found, "blob", &[]).await?);
        let address = member(&key, "url").and_then(|url| url.as_string());
        let address = address.unwrap_or_default();
        let called = address.rsplit('/').next().unwrap_or_default();
        let called =
            js_sys::decode_uri_component(called).map_or_else(|_| called.to_owned(), String::from);
        files.push(web_sys::File::new_with_blob_sequence(&parts, &called).ok()?);
    }
    // What stays behind is looked at once more; taking it in again finds nothing new.
    promised(&caches, "delete", std::slice::from_ref(&name)).await;
    Some(files)
}
