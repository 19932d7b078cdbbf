//! What the worker's script may call. See `assets/paperwork-worker.js`.

use velamen_paperwork::On;
use wasm_bindgen::prelude::wasm_bindgen;

fn main() {}

/// A text as a code: modules along a side, a space, and the path; empty where no code holds the text.
#[wasm_bindgen]
#[must_use]
pub fn draw(text: &str, on_screen: bool) -> String {
    let on = if on_screen { On::Screen } else { On::Label };
    velamen_paperwork::draw(text, on)
        .map(|drawn| format!("{} {}", drawn.side, drawn.path))
        .unwrap_or_default()
}

/// The text of the code in a picture.
#[wasm_bindgen]
#[must_use]
pub fn read(width: usize, height: usize, rgba: &[u8]) -> Option<String> {
    velamen_paperwork::read(width, height, rgba)
}
