//! Work in hand: in memory at once, on disk right after, at every tap.

use leptos::prelude::*;
use leptos::task::spawn_local;
use serde::{Serialize, de::DeserializeOwned};

use super::Ledger;
use crate::storage::Storage;

/// Key of the draft that holds the screen last shown.
pub const LEFT_AT: &str = "left_at";

impl Ledger {
    /// A draft that follows what is kept; the default when there is none or it cannot be read.
    pub fn draft<T>(self, key: &'static str) -> Memo<T>
    where
        T: DeserializeOwned + Default + PartialEq + Send + Sync + 'static,
    {
        self.draft_at(key.to_owned())
    }

    /// As [`Ledger::draft`], under a key made at run time.
    pub fn draft_at<T>(self, key: String) -> Memo<T>
    where
        T: DeserializeOwned + Default + PartialEq + Send + Sync + 'static,
    {
        Memo::new(move |_| {
            self.draft_revision.track();
            self.peek_draft(&key).unwrap_or_default()
        })
    }

    /// A draft as it is now.
    #[must_use]
    pub fn peek_draft<T: DeserializeOwned>(self, key: &str) -> Option<T> {
        self.drafts.with_value(|drafts| {
            drafts
                .get(key)
                .and_then(|text| serde_json::from_str(text).ok())
        })
    }

    /// Every draft whose key begins so, as key and text.
    #[must_use]
    pub fn drafts_under(self, prefix: &str) -> Vec<(String, String)> {
        self.draft_revision.track();
        self.drafts.with_value(|drafts| {
            let under = drafts.iter().filter(|(key, _)| key.starts_with(prefix));
            under
                .map(|(key, text)| (key.clone(), text.clone()))
                .collect()
        })
    }

    /// Changes a draft and keeps it.
    pub fn change_draft<T>(self, key: &str, change: impl FnOnce(&mut T))
    where
        T: Serialize + DeserializeOwned + Default,
    {
        let mut draft: T = self.peek_draft(key).unwrap_or_default();
        change(&mut draft);
        self.keep_draft(key, &draft);
    }

    /// Keeps a draft: shown at once, stored right after.
    pub fn keep_draft(self, key: &str, draft: &impl Serialize) {
        let text = velamen_core::draft::write(draft);
        let key = key.to_owned();
        self.drafts.update_value(|drafts| {
            drafts.insert(key.clone(), text.clone());
        });
        self.draft_revision.update(|revision| *revision += 1);
        if let Some(storage) = self.storage() {
            spawn_local(async move {
                if let Err(error) = storage.put_draft(&key, &text).await {
                    let words = crate::words::trouble::draft_not_kept(&error);
                    self.say(words, super::ToldKind::Warning);
                }
            });
        }
    }

    /// Throws a draft away.
    pub fn drop_draft(self, key: &str) {
        self.forget_drafts(&[key.to_owned()]);
        let key = key.to_owned();
        if let Some(storage) = self.storage() {
            spawn_local(async move {
                // A draft that stays behind is shown again at the next start, and can be thrown away then.
                let _ = storage.remove_draft(&key).await;
            });
        }
    }

    /// Drafts that are on disk already.
    pub(super) fn remember_drafts(self, left: Vec<(String, String)>) {
        if left.is_empty() {
            return;
        }
        self.drafts.update_value(|drafts| drafts.extend(left));
        self.draft_revision.update(|revision| *revision += 1);
    }

    pub(super) fn forget_drafts(self, keys: &[String]) {
        if keys.is_empty() {
            return;
        }
        self.drafts
            .update_value(|drafts| drafts.retain(|key, _| !keys.contains(key)));
        self.draft_revision.update(|revision| *revision += 1);
    }
}
