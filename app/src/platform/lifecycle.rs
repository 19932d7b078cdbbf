//! The page coming back. A phone freezes pages in the background, drops their connections and lets days pass; the
//! first moment the page is seen again is the time to look at the clock and at the storage.

use super::Listening;

/// Calls `work` each time the page becomes visible again, also when it is brought back from the browser's history.
pub fn on_visible(work: impl Fn() + Clone + 'static) -> Vec<Listening> {
    let Some(window) = web_sys::window() else {
        return Vec::new();
    };
    let Some(document) = window.document() else {
        return Vec::new();
    };
    let visible = {
        let (document, work) = (document.clone(), work.clone());
        move || {
            if document.visibility_state() == web_sys::VisibilityState::Visible {
                work();
            }
        }
    };
    [
        Listening::to(&document, "visibilitychange", visible),
        Listening::to(&window, "pageshow", work),
    ]
    .into_iter()
    .flatten()
    .collect()
}
