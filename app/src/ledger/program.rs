//! The program on this phone: whether it opens without a network, and a next version, which waits to be agreed to.

use leptos::prelude::*;
use leptos::task::spawn_local;
use velamen_core::quantity::System;

use super::{Ledger, Phase, Role, ToldKind};
use crate::platform::program::Standing;
use crate::platform::{news, program};
use crate::words;

pub use crate::platform::program::Keeping;

/// What every build keeps, whatever is spoken.
const FIRST_LANGUAGE: &str = "en";

impl Ledger {
    /// Has the program kept on this phone, and follows how it stands.
    pub(super) fn keep_program(self) {
        spawn_local(async move {
            let tell = move |standing: Standing| {
                self.stand(standing);
                if standing.next_is_ready {
                    spawn_local(async move {
                        self.news
                            .set(news::of_next(words::LANGUAGE).await.unwrap_or_default());
                    });
                }
            };
            let program = program::keep(tell).await;
            self.inside.update_value(|inside| inside.program = program);
        });
    }

    /// In another than its first language the program opens without a network once that is kept too.
    fn stand(self, standing: Standing) {
        if words::LANGUAGE == FIRST_LANGUAGE || standing.keeping != Keeping::Kept {
            self.program.set(standing);
            return;
        }
        spawn_local(async move {
            let keeping = match program::keep_language(words::LANGUAGE).await {
                Some(true) => Keeping::Kept,
                _ => Keeping::Incomplete,
            };
            self.program.set(Standing {
                keeping,
                ..standing
            });
        });
    }

    /// Turns to a language by its two letters, empty for the phone's own: the page starts again in it. What is in hand
    /// outlives that. `otherwise` runs where nothing is changed because its files cannot be had.
    pub fn speak(self, language: String, otherwise: impl FnOnce() + 'static) {
        if self.busy.get_untracked() {
            otherwise();
            return;
        }
        spawn_local(async move {
            let further = !language.is_empty() && language != FIRST_LANGUAGE;
            if further && program::keep_language(&language).await == Some(false) {
                self.say(words::program::LANGUAGE_NOT_HERE, ToldKind::Warning);
                otherwise();
                return;
            }
            let mut liked = self.preferences();
            liked.language = language;
            self.set_preferences(&liked);
            program::start_again();
        });
    }

    /// Turns to other units: the page starts again in them.
    pub fn measure_in(self, units: System) {
        let mut liked = self.preferences();
        if liked.units != units && !self.busy.get_untracked() {
            liked.units = units;
            self.set_preferences(&liked);
            program::start_again();
        }
    }

    /// Whether the program opens without a network.
    #[must_use]
    pub fn program_kept(self) -> Keeping {
        self.program.get().keeping
    }

    /// Whether a next version may be offered now: it is whole, and nothing is on its way to the book. Only the window
    /// that writes offers it, because all windows load again; one that cannot open the book has nothing to lose.
    #[must_use]
    pub fn next_version(self) -> bool {
        let free = self.role.get() == Role::Writes && !self.busy.get() && self.told.get().is_none();
        self.program.get().next_is_ready && (free || matches!(self.phase.get(), Phase::Trouble(_)))
    }

    /// What is new in the next version, in a line; empty where that is not known.
    #[must_use]
    pub fn next_news(self) -> String {
        self.news.get()
    }

    /// What is new in the version in use, in a line.
    #[must_use]
    pub fn news_here(self) -> String {
        news::here(words::LANGUAGE)
    }

    /// Puts the next version in. The person has agreed.
    pub fn put_in_next_version(self) {
        self.inside.with_value(|inside| {
            if let Some(program) = &inside.program {
                program.put_in();
            }
        });
    }
}
