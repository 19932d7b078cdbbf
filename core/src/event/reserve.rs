//! Plants of a lot kept for somebody: they stand where they stood, and are not for others.

use chrono::NaiveDate;
use serde::{Deserialize, Serialize};

use crate::id::{EntryRef, LotId, Subject};

/// So many plants of a lot are kept for somebody. The entry is what the reservation is called by.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Reserved {
    pub lot: LotId,
    pub plants: u32,
    /// A name, an order, any word.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub to: String,
    /// Until this day, where one was said. They stay kept after it until somebody lets them go.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub until_on: Option<NaiveDate>,
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub note: String,
}

/// Plants kept for somebody are for anybody again.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Released {
    pub lot: LotId,
    /// The entry that kept them.
    pub reserved: EntryRef,
    pub plants: u32,
}

impl Reserved {
    pub(crate) fn subjects(&self) -> Vec<Subject> {
        vec![Subject::Lot(self.lot)]
    }
}

impl Released {
    pub(crate) fn subjects(&self) -> Vec<Subject> {
        vec![Subject::Lot(self.lot)]
    }
}
