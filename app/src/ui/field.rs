//! Words and choices typed or tapped in.
//!
//! Invariants: every box has its label, and its hint and error sentence are tied to it for a
//! screen reader. An error is a sentence with a sign, not a colour. What was typed stays with the
//! caller and is never cleared here.

use super::fresh_id;
use super::icon::{Glyph, Icon};
use js_sys::Reflect;
use leptos::html::P as Paragraph;
use leptos::prelude::*;
use std::cell::Cell;
use wasm_bindgen::JsCast;

/// Which keyboard a phone should offer.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Keys {
    /// Letters.
    #[default]
    Words,
    /// Whole numbers.
    Digits,
    /// Numbers with a comma or a point.
    Decimal,
}

impl Keys {
    const fn input_mode(self) -> &'static str {
        match self {
            Self::Words => "text",
            Self::Digits => "numeric",
            Self::Decimal => "decimal",
        }
    }
}

/// A labelled box of text with room for a hint and an error sentence.
#[component]
pub fn Field(
    /// What goes in.
    #[prop(into)]
    label: String,
    /// The text now.
    #[prop(into)]
    value: Signal<String>,
    /// Takes the text at every change.
    on_input: Callback<String>,
    /// How to fill it in.
    #[prop(optional, into)]
    hint: Option<String>,
    /// What is wrong and what to do; empty when nothing is.
    #[prop(optional, into)]
    error: Signal<String>,
    /// A unit at the end of the box.
    #[prop(optional, into)]
    unit: Option<String>,
    /// The keyboard to offer.
    #[prop(optional)]
    keys: Keys,
    /// Several lines, for notes.
    #[prop(optional)]
    tall: bool,
    /// Most characters taken.
    #[prop(default = 2000)]
    max_chars: u32,
) -> impl IntoView {
    let id = fresh_id("field");
    let hint_id = format!("{id}-hint");
    let error_id = format!("{id}-error");
    let described = format!("{hint_id} {error_id}");
    let wrong = Memo::new(move |_| !error.get().is_empty());
    let invalid = move || wrong.get().then_some("true");
    let take = move |event| {
        typed();
        on_input.run(event_target_value(&event));
    };
    let input = if tall {
        view! {
            <textarea
                id=id.clone()
                maxlength=max_chars
                aria-describedby=described
                aria-invalid=invalid
                prop:value=move || value.get()
                on:input=take
            ></textarea>
        }
        .into_any()
    } else {
        view! {
            <input
                id=id.clone()
                type="text"
                inputmode=keys.input_mode()
                autocomplete="off"
                maxlength=max_chars
                aria-describedby=described
                aria-invalid=invalid
                prop:value=move || value.get()
                on:input=take
            />
        }
        .into_any()
    };
    view! {
        <div class="field" class:field-wrong=move || wrong.get()>
            <label class="field-label" for=id>
                {label}
            </label>
            <span class="field-hint" id=hint_id>
                {hint}
            </span>
            <div class="field-box">
                {input} {unit.map(|unit| view! { <span class="unit">{unit}</span> })}
            </div>
            <div id=error_id aria-live="polite">{what_is_wrong(error)}</div>
        </div>
    }
}

thread_local! {
    /// Whether a key was pressed since something was last typed.
    static PRESSED: Cell<bool> = const { Cell::new(false) };
}

/// A key was pressed: what is wrong after it is looked for.
pub(super) fn pressed() {
    PRESSED.set(true);
}

/// Something was typed: nothing may be pulled away from under it.
pub(super) fn typed() {
    PRESSED.set(false);
}

/// What is wrong, with its mark. What comes up after a key was pressed is brought into sight, with the whole field it is
/// about: it may be far from the key, which would seem dead.
pub fn what_is_wrong(words: Signal<String>) -> impl IntoView {
    let stands = StoredValue::new(false);
    move || {
        let words = words.get();
        let comes_up = stands.get_value();
        stands.set_value(true);
        (!words.is_empty()).then(|| {
            let line = NodeRef::<Paragraph>::new();
            if comes_up && PRESSED.get() {
                request_animation_frame(move || {
                    if let Some(line) = line.try_get_untracked().flatten() {
                        into_sight(&line);
                    }
                });
            }
            view! {
                <p class="field-error" node_ref=line>
                    <Icon glyph=Glyph::Warning />
                    <span>{words}</span>
                </p>
            }
        })
    }
}

/// Scrolls no further than is needed, and not at all where it can be seen. A browser that cannot leaves it where it is.
fn into_sight(line: &web_sys::Element) {
    let field = line.closest(".field").ok().flatten();
    let whole = field.unwrap_or_else(|| line.clone());
    let how = js_sys::Object::new();
    let scroll = Reflect::set(&how, &"block".into(), &"nearest".into())
        .and_then(|_| Reflect::get(&whole, &"scrollIntoView".into()));
    if let Ok(Ok(scroll)) = scroll.map(JsCast::dyn_into::<js_sys::Function>) {
        let _ = scroll.call1(&whole, &how);
    }
}

/// One of several to choose from.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Choice {
    /// What the caller calls it.
    pub key: String,
    /// What the grower reads.
    pub label: String,
    /// A line under it.
    pub hint: Option<String>,
}

/// How choices are laid out.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum ChoicesLook {
    /// One under the other, full width.
    #[default]
    Rows,
    /// Side by side, for a few short words.
    Chips,
}

/// One choice out of a short list.
#[component]
pub fn Choices(
    /// What is chosen.
    #[prop(into)]
    legend: String,
    /// The choices, in order.
    choices: Vec<Choice>,
    /// The key chosen now; empty when none is.
    #[prop(into)]
    chosen: Signal<String>,
    /// Takes the key of the new choice.
    on_choose: Callback<String>,
    /// Rows or chips.
    #[prop(optional)]
    look: ChoicesLook,
) -> impl IntoView {
    let group = fresh_id("choices");
    let rows = choices
        .into_iter()
        .map(|choice| {
            let key = choice.key.clone();
            let checked = move || chosen.get() == key;
            let key = choice.key;
            view! {
                <label class="choice">
                    <input
                        type="radio"
                        name=group.clone()
                        prop:checked=checked
                        on:change=move |_| on_choose.run(key.clone())
                    />
                    <span class="choice-mark">
                        <Icon glyph=Glyph::Check />
                    </span>
                    <span>
                        {choice.label}
                        {choice.hint.map(|hint| view! { <span class="choice-hint">{hint}</span> })}
                    </span>
                </label>
            }
        })
        .collect_view();
    view! {
        <fieldset class="choices" class:choices-chips=look == ChoicesLook::Chips>
            <legend>{legend}</legend>
            <div class="choice-list">{rows}</div>
        </fieldset>
    }
}

/// A switch with the state in words.
#[component]
pub fn Toggle(
    /// What is switched.
    #[prop(into)]
    label: String,
    /// A line under it.
    #[prop(optional, into)]
    hint: Option<String>,
    /// Whether it is on.
    #[prop(into)]
    on: Signal<bool>,
    /// Takes the new state.
    on_switch: Callback<bool>,
    /// The word for on.
    #[prop(into)]
    on_word: String,
    /// The word for off.
    #[prop(into)]
    off_word: String,
) -> impl IntoView {
    let state = move || {
        if on.get() {
            on_word.clone()
        } else {
            off_word.clone()
        }
    };
    view! {
        <label class="toggle">
            <input
                type="checkbox"
                role="switch"
                prop:checked=move || on.get()
                on:change=move |event| on_switch.run(event_target_checked(&event))
            />
            <span class="toggle-words">
                {label} {hint.map(|hint| view! { <small>{hint}</small> })}
            </span>
            <span class="toggle-state" aria-hidden="true">
                {state}
            </span>
            <span class="toggle-slot" aria-hidden="true"></span>
        </label>
    }
}
