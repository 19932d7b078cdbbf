//! What a person likes on this phone: light or dark, the hand, the size of the controls. Not part of the book.

use leptos::prelude::*;
use velamen_core::command::Command;

use super::{Ledger, ToldKind};
use crate::platform::preferences;
use crate::words;

pub use crate::platform::preferences::{Hand, Preferences, Theme};

impl Ledger {
    /// What the person likes on this phone.
    #[must_use]
    pub fn preferences(self) -> Preferences {
        preferences::read()
    }

    /// Keeps what the person likes on this phone, and shows it.
    pub fn set_preferences(self, preferences: &Preferences) {
        if !preferences::write(preferences) {
            self.say(words::trouble::preferences_not_kept(), ToldKind::Warning);
        }
        dress(preferences);
    }
}

impl Ledger {
    /// Puts the person of this phone into a treatment that names nobody.
    pub(super) fn sign(self, command: &mut Command) {
        if let Command::RecordTreatment(record) = command
            && record.person.is_empty()
        {
            let Preferences {
                person, licence, ..
            } = self.preferences();
            person.trim().clone_into(&mut record.person);
            licence.trim().clone_into(&mut record.licence);
        }
    }
}

/// Puts the choices on the page's root, where the style sheet looks for them.
pub(super) fn dress(preferences: &Preferences) {
    let Some(root) = document().document_element() else {
        return;
    };
    let put = |name: &str, value: Option<&str>| {
        // A root that takes no attributes shows the usual look.
        let _ = match value {
            Some(value) => root.set_attribute(name, value),
            None => root.remove_attribute(name),
        };
    };
    put(
        "data-theme",
        match preferences.theme {
            Theme::AsPhone => None,
            Theme::Light => Some("light"),
            Theme::Dark => Some("dark"),
        },
    );
    put(
        "data-hand",
        (preferences.hand == Hand::Left).then_some("left"),
    );
    put("data-size", preferences.bench_size.then_some("bench"));
}
