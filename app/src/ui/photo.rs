//! Photographs: taken or chosen, shown small, opened large.
//!
//! Invariants: a photograph is shown whole, never cropped when large, and has its name in words. Small ones are keys;
//! the large one is a sheet, so it closes by its key, by Escape and by a phone's back, and the focus returns. Where a
//! picture is not there, a sentence stands in its place. What is chosen goes to the caller; nothing is kept here.

use super::fresh_id;
use super::icon::{Glyph, Icon};
use super::sheet::Sheet;
use leptos::ev::Event;
use leptos::prelude::*;
use leptos::web_sys::{File, HtmlInputElement};
use wasm_bindgen::JsCast;

/// What there is of a picture.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub enum Picture {
    /// It is being read.
    #[default]
    Looking,
    /// Its address.
    Here(String),
    /// It is not on this phone.
    Away,
}

/// A small photograph that opens large.
#[component]
pub fn Photo(
    /// The picture.
    #[prop(into)]
    picture: Signal<Picture>,
    /// What it is of.
    #[prop(into)]
    name: Signal<String>,
    /// What the key says to a screen reader: that it opens.
    #[prop(into)]
    open_label: Signal<String>,
    /// The closing key's words.
    #[prop(into)]
    close_label: String,
    /// Said where the picture is not there.
    #[prop(into)]
    away: String,
) -> impl IntoView {
    let large = RwSignal::new(false);
    let address = Memo::new(move |_| match picture.get() {
        Picture::Here(address) => address,
        Picture::Looking | Picture::Away => String::new(),
    });
    let is_away = Memo::new(move |_| picture.get() == Picture::Away);
    let small = move || {
        if is_away.get() {
            let away = away.clone();
            return view! {
                <p class="photo-away">
                    <Icon glyph=Glyph::Camera />
                    <span>{away}</span>
                </p>
            }
            .into_any();
        }
        view! {
            <button
                type="button"
                class="photo"
                aria-label=move || open_label.get()
                aria-haspopup="dialog"
                aria-busy=move || address.with(String::is_empty).then_some("true")
                on:click=move |_| large.set(address.with_untracked(|address| !address.is_empty()))
            >
                {move || {
                    let src = address.get();
                    (!src.is_empty()).then(|| view! { <img src=src alt="" decoding="async" /> })
                }}
            </button>
        }
        .into_any()
    };
    view! {
        {small}
        <Sheet
            title=name
            open=large
            on_close=Callback::new(move |()| large.set(false))
            close_label
        >
            <img class="photo-large" src=move || address.get() alt=move || name.get() />
        </Sheet>
    }
}

/// A photograph that was picked, with the key that takes it out.
#[component]
pub fn PickedPhoto(
    /// The picture.
    #[prop(into)]
    picture: Signal<Picture>,
    /// What it is of.
    #[prop(into)]
    name: Signal<String>,
    /// What the key says to a screen reader: that it opens.
    #[prop(into)]
    open_label: Signal<String>,
    /// The closing key's words.
    #[prop(into)]
    close_label: String,
    /// Said where the picture is not there.
    #[prop(into)]
    away: String,
    /// The words of the key that takes it out.
    #[prop(into)]
    remove: String,
    /// The same for a screen reader, with its name.
    #[prop(into)]
    remove_label: Signal<String>,
    /// Takes it out.
    on_remove: Callback<()>,
) -> impl IntoView {
    view! {
        <div class="photo-picked">
            <Photo picture name open_label close_label away />
            <button
                type="button"
                class="photo-remove"
                aria-label=move || remove_label.get()
                on:click=move |_| on_remove.run(())
            >
                <Icon glyph=Glyph::Bin />
                {remove}
            </button>
        </div>
    }
}

/// Two keys, to take a photograph or to choose one, over those that were picked.
#[component]
pub fn PhotoPick(
    /// What they are for.
    #[prop(into)]
    label: String,
    /// A line under it.
    #[prop(optional, into)]
    hint: Option<String>,
    /// The key that opens the camera.
    #[prop(into)]
    take_label: String,
    /// The key that opens the album.
    #[prop(into)]
    choose_label: String,
    /// Takes the chosen file.
    on_file: Callback<File>,
    /// Says that one is being read; empty when none is.
    #[prop(optional, into)]
    reading: Signal<String>,
    /// Says that no more are taken, and what to do; empty when there is room.
    #[prop(optional, into)]
    full: Signal<String>,
    /// What went wrong and what to do; empty when nothing did.
    #[prop(optional, into)]
    error: Signal<String>,
    /// Those that were picked.
    children: Children,
) -> impl IntoView {
    let id = fresh_id("photos");
    let hint_id = format!("{id}-hint");
    let is_full = Memo::new(move |_| full.with(|full| !full.is_empty()));
    let choose = move |event: Event| {
        if let Some(file) = chosen(&event) {
            on_file.run(file);
        }
    };
    let said = move || {
        let (wrong, reading, full) = (error.get(), reading.get(), full.get());
        if !wrong.is_empty() {
            view! {
                <p class="field-error">
                    <Icon glyph=Glyph::Warning />
                    <span>{wrong}</span>
                </p>
            }
            .into_any()
        } else if !reading.is_empty() {
            view! { <p class="photo-reading">{reading}</p> }.into_any()
        } else if !full.is_empty() {
            view! { <p class="field-hint">{full}</p> }.into_any()
        } else {
            ().into_any()
        }
    };
    let (named_by, described_by) = (id.clone(), hint_id.clone());
    view! {
        <div class="photo-pick" role="group" aria-labelledby=named_by aria-describedby=described_by>
            <p class="field-label" id=id>
                {label}
            </p>
            <p class="field-hint" id=hint_id>
                {hint}
            </p>
            <div class="photo-strip">{children()}</div>
            <div class="photo-keys">
                <label class="action photo-key">
                    <input
                        type="file"
                        accept="image/*"
                        capture="environment"
                        disabled=move || is_full.get()
                        on:change=choose
                    />
                    <Icon glyph=Glyph::Camera />
                    <span>{take_label}</span>
                </label>
                <label class="action photo-key">
                    <input
                        type="file"
                        accept="image/*"
                        disabled=move || is_full.get()
                        on:change=choose
                    />
                    <span>{choose_label}</span>
                </label>
            </div>
            <div aria-live="polite">{said}</div>
        </div>
    }
}

/// The chosen file; the box is emptied, so that the same one can be chosen again.
fn chosen(event: &Event) -> Option<File> {
    let input: HtmlInputElement = event.target()?.dyn_into().ok()?;
    let file = input.files()?.get(0);
    input.set_value("");
    file
}
