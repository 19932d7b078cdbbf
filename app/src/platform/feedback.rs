//! Short tones and a tap of the motor, beside what the screen shows and never instead of it. Pumps drown a tone, and
//! many phones have no motor a page may use.

use std::cell::RefCell;

use wasm_bindgen::JsValue;

use super::{call, member};

/// What happened.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Tone {
    /// Recorded.
    Recorded,
    /// Taken back.
    Undone,
    /// Refused.
    Refused,
    /// A soak is over.
    Ring,
}

/// A piece of a tone.
struct Note {
    hertz: f32,
    start_ms: u16,
    length_ms: u16,
}

const fn note(hertz: f32, start_ms: u16, length_ms: u16) -> Note {
    Note {
        hertz,
        start_ms,
        length_ms,
    }
}

impl Tone {
    /// Rising for recorded, falling for taken back, low and twice for refused: apart in shape as well as in pitch.
    fn notes(self) -> &'static [Note] {
        const RECORDED: &[Note] = &[note(660.0, 0, 70), note(880.0, 70, 90)];
        const UNDONE: &[Note] = &[note(660.0, 0, 70), note(440.0, 70, 90)];
        const REFUSED: &[Note] = &[note(196.0, 0, 120), note(196.0, 180, 120)];
        const RING: &[Note] = &[
            note(988.0, 0, 180),
            note(784.0, 200, 180),
            note(988.0, 400, 180),
            note(784.0, 600, 220),
        ];
        match self {
            Self::Recorded => RECORDED,
            Self::Undone => UNDONE,
            Self::Refused => REFUSED,
            Self::Ring => RING,
        }
    }

    fn motor_ms(self) -> &'static [u16] {
        match self {
            Self::Recorded => &[30],
            Self::Undone => &[30, 60, 30],
            Self::Refused => &[120, 80, 120],
            Self::Ring => &[400, 150, 400],
        }
    }
}

const LOUDNESS: f32 = 0.2;

thread_local! {
    static SOUND: RefCell<Option<web_sys::AudioContext>> = const { RefCell::new(None) };
}

/// Sounds a tone. Browsers allow sound only after a tap, so this belongs into the tap's own handler.
pub fn sound(tone: Tone) {
    // Without sound the screen still says it all.
    let _ = try_sound(tone);
}

fn try_sound(tone: Tone) -> Option<()> {
    let context = context()?;
    // Sleeping since the page was hidden, or never woken by a tap.
    let _ = context.resume();
    let now = context.current_time();
    for note in tone.notes() {
        let oscillator = context.create_oscillator().ok()?;
        let gain = context.create_gain().ok()?;
        oscillator.frequency().set_value(note.hertz);
        gain.gain().set_value(LOUDNESS);
        oscillator.connect_with_audio_node(&gain).ok()?;
        gain.connect_with_audio_node(&context.destination()).ok()?;
        let start = now + f64::from(note.start_ms) / 1000.0;
        let end = start + f64::from(note.length_ms) / 1000.0;
        oscillator.start_with_when(start).ok()?;
        oscillator.stop_with_when(end).ok()?;
    }
    Some(())
}

fn context() -> Option<web_sys::AudioContext> {
    SOUND.with_borrow_mut(|kept| {
        if kept.is_none() {
            member(&js_sys::global(), "AudioContext")?;
            *kept = web_sys::AudioContext::new().ok();
        }
        kept.clone()
    })
}

/// Taps the phone's motor, where a page may.
pub fn tap(tone: Tone) {
    let pattern: js_sys::Array = tone
        .motor_ms()
        .iter()
        .map(|length| JsValue::from(*length))
        .collect();
    if let Some(window) = web_sys::window() {
        let _ = call(window.navigator().as_ref(), "vibrate", &[pattern.into()]);
    }
}
