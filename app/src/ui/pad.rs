//! Our own number pad, so an amount needs no keyboard and no bare finger.
//!
//! Invariants: the text lives with the caller. Comma and point both work, from keys and from a
//! real keyboard; one is shown, the caller's. No amount here is ever a float: it stays text until
//! the core reads it.

use super::icon::{Glyph, Icon};
use leptos::ev::KeyboardEvent;
use leptos::prelude::*;

/// Most characters an amount may have.
pub const AMOUNT_MAX_CHARS: usize = 9;

/// A key on the pad.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum PadKey {
    /// A digit, 0 to 9.
    Digit(u8),
    /// Comma or point.
    Mark,
    /// Wipe the last character.
    Erase,
    /// Below nought, or above it again.
    Sign,
}

/// The text after a key, with `mark` as the decimal sign. `whole` takes no decimals.
pub fn typed(text: &str, key: PadKey, mark: char, whole: bool) -> String {
    let mut next = text.to_owned();
    match key {
        PadKey::Erase => {
            next.pop();
        }
        PadKey::Sign => match next.strip_prefix('-') {
            Some(above) => next = above.to_owned(),
            None => next.insert(0, '-'),
        },
        PadKey::Digit(digit) => {
            if next == "0" {
                next.clear();
            }
            if next.chars().count() < AMOUNT_MAX_CHARS {
                next.push(char::from(b'0' + digit.min(9)));
            }
        }
        PadKey::Mark => {
            let room = next.chars().count() + 1 < AMOUNT_MAX_CHARS;
            if !whole && room && !next.contains([',', '.']) {
                if next.is_empty() {
                    next.push('0');
                }
                next.push(mark);
            }
        }
    }
    next
}

/// The key a real keyboard's key stands for.
pub fn key_of(name: &str) -> Option<PadKey> {
    match name {
        "," | "." | "Decimal" => Some(PadKey::Mark),
        "Backspace" | "Delete" => Some(PadKey::Erase),
        "-" | "Subtract" => Some(PadKey::Sign),
        _ => {
            let mut chars = name.chars();
            let digit = chars.next().and_then(|first| first.to_digit(10));
            match (digit, chars.next()) {
                (Some(digit), None) => u8::try_from(digit).ok().map(PadKey::Digit),
                _ => None,
            }
        }
    }
}

/// A pad of three by four keys under the amount it types. Its "done" key belongs to the sheet
/// around it.
#[component]
pub fn NumberPad(
    /// What is typed, for a screen reader.
    #[prop(into)]
    label: String,
    /// The text now.
    #[prop(into)]
    text: Signal<String>,
    /// Takes the text after each key.
    on_text: Callback<String>,
    /// The unit beside the amount.
    #[prop(into)]
    unit: String,
    /// The decimal sign shown: comma or point.
    #[prop(default = '.')]
    mark: char,
    /// Takes whole numbers only.
    #[prop(optional)]
    whole: bool,
    /// The words of the key that turns the amount below nought; without them there is none.
    #[prop(optional, into)]
    sign_label: Option<String>,
    /// The words of the key that wipes a character.
    #[prop(into)]
    erase_label: String,
    /// The words of the decimal key, such as "comma".
    #[prop(into)]
    mark_label: String,
) -> impl IntoView {
    let hit = move |key: PadKey| on_text.run(typed(&text.get_untracked(), key, mark, whole));
    let digit_key = move |digit: u8| {
        view! {
            <button type="button" class="pad-key" on:click=move |_| hit(PadKey::Digit(digit))>
                {digit}
            </button>
        }
    };
    let signed = sign_label.is_some();
    let sign_key = sign_label.map(|label| {
        view! {
            <button type="button" class="pad-key pad-sign" on:click=move |_| hit(PadKey::Sign)>
                {label}
            </button>
        }
    });
    let on_keydown = move |event: KeyboardEvent| {
        if event.ctrl_key() || event.meta_key() || event.alt_key() {
            return;
        }
        if let Some(key) = key_of(&event.key()).filter(|key| signed || *key != PadKey::Sign) {
            event.prevent_default();
            hit(key);
        }
    };
    let shown = move || {
        let text = text.get();
        if text.is_empty() {
            "0".to_owned()
        } else {
            text
        }
    };
    let mark_key = if whole {
        view! { <span></span> }.into_any()
    } else {
        view! {
            <button
                type="button"
                class="pad-key"
                aria-label=mark_label
                on:click=move |_| hit(PadKey::Mark)
            >
                {mark.to_string()}
            </button>
        }
        .into_any()
    };
    view! {
            <div
     class="pad"
     role="group"
     aria-label=label
     tabindex="-1"
     autofocus=true
     on:keydown=on_keydown
    >
                <output class="pad-shown" class:soft=move || text.get().is_empty()>
                    <bdi>{shown}</bdi>
                    <span class="unit">{unit}</span>
                </output>
                <div class="pad-keys">
                    {[7, 8, 9, 4, 5, 6, 1, 2, 3].map(digit_key).into_iter().collect_view()}
                    {mark_key} {digit_key(0)}
                    <button
                        type="button"
                        class="pad-key"
                        aria-label=erase_label
                        on:click=move |_| hit(PadKey::Erase)
                    >
                        <Icon glyph=Glyph::Erase />
                    </button>
                    {sign_key}
                </div>
            </div>
        }
}

#[cfg(test)]
mod tests {
    use super::*;
    use wasm_bindgen_test::wasm_bindgen_test;

    fn type_all(keys: &[PadKey], mark: char, whole: bool) -> String {
        keys.iter()
            .fold(String::new(), |text, key| typed(&text, *key, mark, whole))
    }

    #[wasm_bindgen_test]
    fn an_amount_takes_one_decimal_sign_and_starts_with_a_digit() {
        use PadKey::{Digit, Mark};
        assert_eq!(
            type_all(&[Mark, Digit(5), Mark, Digit(2)], ',', false),
            "0,52"
        );
        assert_eq!(type_all(&[Digit(0), Digit(7)], '.', false), "7");
        assert_eq!(type_all(&[Digit(1), Mark, Digit(2)], '.', true), "12");
    }

    #[wasm_bindgen_test]
    fn a_comma_typed_before_counts_as_the_decimal_sign() {
        assert_eq!(typed("1,5", PadKey::Mark, '.', false), "1,5");
    }

    #[wasm_bindgen_test]
    fn an_amount_stops_at_its_longest() {
        let full = type_all(&[PadKey::Digit(9); 20], '.', false);
        assert_eq!(full.len(), AMOUNT_MAX_CHARS);
        assert_eq!(
            typed(&full, PadKey::Erase, '.', false).len(),
            AMOUNT_MAX_CHARS - 1
        );
        assert_eq!(typed("", PadKey::Erase, '.', false), "");
    }

    #[wasm_bindgen_test]
    fn the_sign_key_turns_an_amount_below_nought_and_back() {
        use PadKey::{Digit, Sign};
        assert_eq!(type_all(&[Digit(3), Sign], '.', false), "-3");
        assert_eq!(type_all(&[Sign, Digit(3)], '.', false), "-3");
        assert_eq!(type_all(&[Sign, Digit(3), Sign], '.', false), "3");
    }

    #[wasm_bindgen_test]
    fn a_real_keyboard_types_digits_and_both_decimal_signs() {
        assert_eq!(key_of("7"), Some(PadKey::Digit(7)));
        assert_eq!(key_of(","), Some(PadKey::Mark));
        assert_eq!(key_of("."), Some(PadKey::Mark));
        assert_eq!(key_of("F7"), None);
        assert_eq!(key_of("Tab"), None);
    }
}
