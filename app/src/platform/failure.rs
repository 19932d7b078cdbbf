//! When the program itself fails. A panic ends it, and the page would go on looking alive. So a plain bar says that
//! the screen stopped, that what is recorded is safe (recording comes before showing), and offers to load again.
//!
//! Nothing here may call back into the failed program: the button belongs to the browser alone.

use std::panic;

use js_sys::Function;
use wasm_bindgen::{JsCast, JsValue};

use super::{member, preferences};

const NOTE: &str = "velamen.last_failure";

/// The id of the bar on the page.
pub const BAR_ID: &str = "failure";

/// What the bar says.
#[derive(Debug, Clone, Copy)]
pub struct FailureWords {
    /// That the screen stopped.
    pub stopped: &'static str,
    /// That what is recorded is safe.
    pub safe: &'static str,
    /// The button that loads the program again.
    pub reload: &'static str,
}

/// Makes every panic show the bar.
pub fn install(words: FailureWords) {
    panic::set_hook(Box::new(move |info| {
        let message = info.to_string();
        web_sys::console::error_1(&JsValue::from_str(&message));
        if let Some(storage) = preferences::raw() {
            let _ = storage.set_item(NOTE, &message);
        }
        // A page without a body has nothing to say it on; the console has it.
        let _ = show(words);
    }));
}

/// What the last failure said, told once.
pub fn take_last() -> Option<String> {
    let storage = preferences::raw()?;
    let note = storage.get_item(NOTE).ok().flatten()?;
    let _ = storage.remove_item(NOTE);
    Some(note)
}

pub(super) fn show(words: FailureWords) -> Option<()> {
    let window = web_sys::window()?;
    let document = window.document()?;
    if document.get_element_by_id(BAR_ID).is_some() {
        return Some(());
    }
    let bar = document.create_element("div").ok()?;
    bar.set_id(BAR_ID);
    bar.set_class_name("failure");
    bar.set_attribute("role", "alert").ok()?;
    for text in [words.stopped, words.safe] {
        let line = document.create_element("p").ok()?;
        line.set_text_content(Some(text));
        bar.append_child(&line).ok()?;
    }
    let button: web_sys::HtmlElement = document.create_element("button").ok()?.dyn_into().ok()?;
    button.set_text_content(Some(words.reload));
    let location: JsValue = window.location().into();
    let reload: Function = member(&location, "reload")?.dyn_into().ok()?;
    button.set_onclick(Some(&reload.bind0(&location)));
    bar.append_child(&button).ok()?;
    document.body()?.prepend_with_node_1(&bar).ok()
}
