//! What a person likes on this phone. It belongs to the phone, not to the book, and losing it costs nothing.
//!
//! The browser may forbid this storage altogether, and the crate used for it would then panic. So everything here asks
//! first whether it is allowed.

use gloo_storage::{LocalStorage, Storage};
use serde::{Deserialize, Serialize};
use velamen_core::quantity::System;

const KEY: &str = "velamen.preferences";
const PROBE: &str = "velamen.probe";

/// Light or dark.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Theme {
    /// As the phone has it.
    #[default]
    AsPhone,
    /// Black on white, for daylight.
    Light,
    /// White on black, for early mornings.
    Dark,
}

/// The hand that holds the phone and reaches the main button.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Hand {
    /// The right hand.
    #[default]
    Right,
    /// The left hand.
    Left,
}

/// Everything a person may have chosen. A missing or unknown choice is the usual one.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(default)]
pub struct Preferences {
    /// Light or dark.
    pub theme: Theme,
    /// The hand.
    pub hand: Hand,
    /// Large controls, for gloves and wet hands at the bench.
    pub bench_size: bool,
    /// The language by its two letters; empty as the phone has it. `assets/start.js` reads it before this program runs.
    #[serde(skip_serializing_if = "String::is_empty")]
    pub language: String,
    /// The units figures are shown in.
    #[serde(skip_serializing_if = "System::is_metric")]
    pub units: System,
    /// At a table, single letters do nothing.
    pub no_letters: bool,
    /// No tones but the ring of a soak.
    pub quiet: bool,
    /// The screen stays on while the program is open.
    pub stay_awake: bool,
    /// A key that locks the glass, in the head of every screen.
    pub lock_key: bool,
    /// The room the program was last left in, as its address within the program.
    pub last_room: String,
}

/// Reads the preferences; the usual ones when there are none or they cannot be read.
pub fn read() -> Preferences {
    if !allowed() {
        return Preferences::default();
    }
    LocalStorage::get(KEY).unwrap_or_default()
}

/// Keeps the preferences; `false` when the browser does not allow it.
pub fn write(preferences: &Preferences) -> bool {
    allowed() && LocalStorage::set(KEY, preferences).is_ok()
}

fn allowed() -> bool {
    let Some(storage) = raw() else {
        return false;
    };
    let written = storage.set_item(PROBE, "1").is_ok();
    let _ = storage.remove_item(PROBE);
    written
}

/// The browser's own storage for a few words, where it is allowed.
pub(super) fn raw() -> Option<web_sys::Storage> {
    web_sys::window()?.local_storage().ok().flatten()
}
