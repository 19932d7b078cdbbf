//! A thing of the shelf in hand: a draft under a key, what is wrong with it and where, and how it gets into the book.

use leptos::prelude::*;
use serde::Serialize;
use serde::de::DeserializeOwned;
use velamen_core::command::Command;
use velamen_core::draft::Versioned;

use crate::ledger::{Act, Ledger};
use crate::words::rejection;

/// What is wrong: the part of the form it is about, or the whole, and its sentence.
pub(super) type Wrong<P> = (Option<P>, String);

/// A draft `D` being typed, with parts `P` that a refusal can be about.
pub(super) struct InHand<D: Send + Sync + 'static, P: Send + Sync + 'static> {
    ledger: Ledger,
    key: StoredValue<String>,
    pub(super) shown: Memo<D>,
    refused: RwSignal<Wrong<P>>,
}

// Derived ones would ask the same of `D` and `P`.
impl<D: Send + Sync, P: Send + Sync> Clone for InHand<D, P> {
    fn clone(&self) -> Self {
        *self
    }
}
impl<D: Send + Sync, P: Send + Sync> Copy for InHand<D, P> {}

impl<D, P> InHand<D, P>
where
    D: Versioned + Serialize + DeserializeOwned + Clone + PartialEq + Send + Sync + 'static,
    P: Copy + PartialEq + Send + Sync + 'static,
{
    /// A thing in hand under a key; what it starts from where nothing was typed yet.
    pub(super) fn new(
        ledger: Ledger,
        key: String,
        start: impl Fn() -> D + Send + Sync + 'static,
    ) -> Self {
        let draft = ledger.draft_at::<Option<D>>(key.clone());
        Self {
            ledger,
            key: StoredValue::new(key),
            shown: Memo::new(move |_| draft.get().unwrap_or_else(&start)),
            refused: RwSignal::new((None, String::new())),
        }
    }

    pub(super) fn change(self, how: impl FnOnce(&mut D)) {
        self.refused.set((None, String::new()));
        let mut draft = self.shown.get_untracked();
        draft.touch();
        how(&mut draft);
        self.key
            .with_value(|key| self.ledger.keep_draft(key, &draft));
    }

    /// Records it and ends the draft; a refusal of the book is about the whole.
    pub(super) fn record(
        self,
        command: Result<Command, Wrong<P>>,
        said: String,
        then: impl FnOnce() + 'static,
    ) {
        let refused = self.refused;
        match command {
            Ok(command) => {
                let act = Act::new(command, said).ends_draft(self.key.get_value());
                let act = act.then(move |_| then());
                self.ledger
                    .act(act.otherwise(move |no| refused.set((None, rejection::say(&no)))));
            }
            Err(wrong) => refused.set(wrong),
        }
    }

    /// The sentence for a part of the form, or for the whole.
    pub(super) fn wrong(self, at: Option<P>) -> Signal<String> {
        Signal::derive(move || {
            self.refused.with(|(here, words)| {
                if *here == at {
                    words.clone()
                } else {
                    String::new()
                }
            })
        })
    }
}
