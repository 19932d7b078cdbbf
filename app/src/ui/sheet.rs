//! A sheet that comes up from the foot of the screen, where the thumb is.
//!
//! Invariants: it is the browser's own modal dialog, so the rest of the page is inert, the focus
//! stays inside and returns where it was, and Escape (and a phone's back, where the browser
//! offers it) asks to close. The caller owns whether it is open; nothing in it is lost by closing.

use super::fresh_id;
use super::icon::{Glyph, Icon};
use leptos::html::Dialog;
use leptos::prelude::*;

/// A bottom sheet. The children are made anew each time it opens.
#[component]
pub fn Sheet(
    /// What it is for.
    #[prop(into)]
    title: Signal<String>,
    /// Whether it is open.
    #[prop(into)]
    open: Signal<bool>,
    /// Asks the caller to close it.
    on_close: Callback<()>,
    /// The closing key's words.
    #[prop(into)]
    close_label: String,
    /// What it holds.
    children: ChildrenFn,
) -> impl IntoView {
    let dialog = NodeRef::<Dialog>::new();
    let title_id = fresh_id("sheet");
    let named_by = title_id.clone();
    Effect::new(move |_| {
        let wanted = open.get();
        if let Some(dialog) = dialog.get() {
            if wanted && !dialog.open() {
                // A dialog not yet in the page refuses; it then stays shut and the caller's
                // next change tries again.
                if dialog.is_connected() && dialog.show_modal().is_err() {
                    dialog.set_open(true);
                }
            } else if !wanted && dialog.open() {
                dialog.close();
            }
        }
    });
    view! {
        <dialog
            class="sheet"
            node_ref=dialog
            aria-labelledby=named_by
            on:cancel=move |event: leptos::web_sys::Event| {
                event.prevent_default();
                on_close.run(());
            }
            on:close=move |_: leptos::web_sys::Event| {
                if open.get_untracked() {
                    on_close.run(());
                }
            }
        >
            <div class="sheet-head">
                <h2 id=title_id>{move || title.get()}</h2>
                <button
                    type="button"
                    class="sheet-close"
                    aria-label=close_label
                    on:click=move |_| on_close.run(())
                >
                    <Icon glyph=Glyph::Cross />
                </button>
            </div>
            {move || open.get().then(|| children())}
        </dialog>
    }
}
