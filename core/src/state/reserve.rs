//! Plants of a lot that are kept for somebody.
//!
//! Invariant: what is kept never comes to less than nothing, however often it was sold or let go without knowing; more
//! kept than there are is a question.

use chrono::NaiveDate;
use serde::Serialize;

use crate::event::Reserved;
use crate::id::EntryRef;
use crate::log::Fact;

use super::Lot;

/// Plants kept for somebody.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize)]
pub struct Reserve {
    pub plants: i64,
    pub to: String,
    pub on: NaiveDate,
    pub until_on: Option<NaiveDate>,
}

impl Lot {
    /// Plants kept for somebody, all together.
    #[must_use]
    pub fn reserved(&self) -> i64 {
        let kept = self.reserved.values().map(|kept| kept.plants);
        kept.fold(0, i64::saturating_add)
    }

    /// Plants that are nobody's yet.
    #[must_use]
    pub fn unreserved(&self) -> i64 {
        self.plants.saturating_sub(self.reserved()).max(0)
    }

    pub(super) fn keep_for(&mut self, event: &Reserved, fact: &Fact<'_>) {
        let kept = self.reserved.entry(fact.entry.id).or_default();
        kept.plants = kept.plants.saturating_add(i64::from(event.plants));
        kept.to.clone_from(&event.to);
        kept.on = fact.entry.header.on;
        kept.until_on = event.until_on;
    }

    /// So many of those kept by an entry are kept no longer.
    pub(super) fn let_go(&mut self, reserved: Option<EntryRef>, plants: u32) {
        let Some(by) = reserved else { return };
        if let Some(kept) = self.reserved.get_mut(&by) {
            kept.plants = kept.plants.saturating_sub(i64::from(plants));
            if kept.plants <= 0 {
                self.reserved.remove(&by);
            }
        }
    }
}
