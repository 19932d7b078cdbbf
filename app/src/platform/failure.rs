//! When the program itself fails. A panic ends it, and the page would go on looking alive. So a plain bar says that
//! the screen stopped, that what is recorded is safe (recording comes before showing), and offers to load again.
//!
//! Nothing here may call back into the failed program: the button belongs to the browser alone.

use std::panic;

use js_sys::Function;
use wasm_bindgen::{JsCast, JsValue};

use super::{member, preferences};

const NOTE: &str = "velamen.last_failure";
/// Stands in the page's session while the book is being opened.
const OPENING: &str = "velamen.opening";

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
    /// The button that loads it where the book can be carried out: a screen that stopped may stop again.
    pub carry_out: &'static str,
}

/// Makes every panic show the bar. `carry_out_at` is the fragment of the screen where the book can be carried out.
pub fn install(words: FailureWords, carry_out_at: String) {
    panic::set_hook(Box::new(move |info| {
        let message = info.to_string();
        web_sys::console::error_1(&JsValue::from_str(&message));
        if let Some(storage) = preferences::raw() {
            let _ = storage.set_item(NOTE, &message);
        }
        // A page without a body has nothing to say it on; the console has it.
        let _ = show(words, &carry_out_at);
    }));
}

/// What the last failure said, told once.
pub fn take_last() -> Option<String> {
    let storage = preferences::raw()?;
    let note = storage.get_item(NOTE).ok().flatten()?;
    let _ = storage.remove_item(NOTE);
    Some(note)
}

pub(super) fn show(words: FailureWords, carry_out_at: &str) -> Option<()> {
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
    let key = |label: &str| -> Option<web_sys::HtmlElement> {
        let button: web_sys::HtmlElement =
            document.create_element("button").ok()?.dyn_into().ok()?;
        button.set_text_content(Some(label));
        bar.append_child(&button).ok()?;
        Some(button)
    };
    let location: JsValue = window.location().into();
    let reload: Function = member(&location, "reload")?.dyn_into().ok()?;
    let reload = reload.bind0(&location);
    key(words.reload)?.set_onclick(Some(&reload));
    // The address first, without going there: that would call the failed program.
    let history: JsValue = window.history().ok()?.into();
    let rewrite: Function = member(&history, "replaceState")?.dyn_into().ok()?;
    let nothing = JsValue::NULL;
    let rewrite = rewrite.bind3(&history, &nothing, &"".into(), &carry_out_at.into());
    let carry_out = key(words.carry_out)?;
    for step in [rewrite.unchecked_ref::<Function>(), &reload] {
        carry_out
            .add_event_listener_with_callback("click", step)
            .ok()?;
    }
    document.body()?.prepend_with_node_1(&bar).ok()
}

/// Notes that the book is being opened, or that it is open.
pub fn note_opening(opening: bool) {
    let Some(session) = session() else { return };
    // Without the note a failure of this kind is met again at the next start.
    let _ = if opening {
        session.set_item(OPENING, "1")
    } else {
        session.remove_item(OPENING)
    };
}

/// What ended the program while it opened the book the last time; told once. Opened the same way, it would end again.
pub fn stopped_opening() -> Option<String> {
    let last = take_last()?;
    let opening = session()?.get_item(OPENING).ok().flatten();
    opening.map(|_| last)
}

fn session() -> Option<web_sys::Storage> {
    web_sys::window()?.session_storage().ok().flatten()
}
