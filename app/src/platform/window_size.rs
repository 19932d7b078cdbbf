//! Whether the window has room for two columns, in the measure of the text it shows.

use wasm_bindgen::JsValue;

use super::{call, member};

/// A table's window: wide enough for a list and a page beside it. Doubled text halves it.
const WIDE: &str = "(min-width: 64rem) and (min-height: 30rem)";

/// Whether the window is that of a table.
pub fn is_wide() -> bool {
    let matches = || {
        let window: JsValue = web_sys::window()?.into();
        let list = call(&window, "matchMedia", &[WIDE.into()])?;
        member(&list, "matches")?.as_bool()
    };
    matches().unwrap_or(false)
}
