//! What a person likes on this phone: light or dark, the hand, the size of the controls; and who that person is. Not
//! part of the book.

use std::cell::RefCell;

use leptos::prelude::*;
use velamen_core::command::Command;
use velamen_core::draft::{DRAFT_VERSION, Signer};

use super::{Ledger, ToldKind};
use crate::platform::awake::{self, Awake};
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

/// Key of the draft that says who works with this phone.
const SIGNER: &str = "signer";

/// Who works with this phone. A draft, because a record signed by nobody after a flat battery is worse than a theme lost.
impl Ledger {
    /// Who works with this phone.
    #[must_use]
    pub fn signer(self) -> Memo<Signer> {
        self.draft(SIGNER)
    }

    /// Changes who works with this phone.
    pub fn change_signer(self, how: impl FnOnce(&mut Signer)) {
        self.change_draft(SIGNER, |signer: &mut Signer| {
            signer.version = DRAFT_VERSION;
            how(signer);
        });
    }

    /// Puts the person of this phone into a treatment that names nobody.
    pub(super) fn sign(self, command: &mut Command) {
        if let Command::RecordTreatment(record) = command
            && record.person.is_empty()
        {
            let signer: Signer = self.peek_draft(SIGNER).unwrap_or_default();
            signer.person.trim().clone_into(&mut record.person);
            signer.licence.trim().clone_into(&mut record.licence);
        }
    }
}

thread_local! {
    /// Keeps the screen on, where that is wanted all the time.
    static AWAKE: RefCell<Option<Awake>> = const { RefCell::new(None) };
}

/// Puts the choices on the page's root, where the style sheet looks for them, and keeps the screen on or lets it go.
pub(super) fn dress(preferences: &Preferences) {
    words::measure_in(preferences.units);
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
    put("data-lock", preferences.lock_key.then_some("key"));
    AWAKE.with_borrow_mut(|awake| {
        if preferences.stay_awake {
            awake.get_or_insert_with(awake::keep);
        } else {
            *awake = None;
        }
    });
}
