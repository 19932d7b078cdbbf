//! A test for viruses being written down, kept at every tap.

use serde::{Deserialize, Serialize};

use crate::command::RecordTest;
use crate::event::{TestMethod, TestResult, Tissue, Virus};
use crate::id::LotId;

/// What was tapped and typed so far.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct TestDraft {
    #[serde(default)]
    pub version: u16,
    #[serde(default)]
    pub method: TestMethod,
    #[serde(default)]
    pub tissue: Tissue,
    /// One plant until it was changed.
    #[serde(default)]
    pub pooled: Option<u32>,
    #[serde(default)]
    pub cymmv: Option<TestResult>,
    #[serde(default)]
    pub orsv: Option<TestResult>,
    #[serde(default)]
    pub laboratory: String,
    #[serde(default)]
    pub note: String,
}

impl TestDraft {
    /// Key of the draft for a lot.
    #[must_use]
    pub fn key(lot: LotId) -> String {
        format!("test-{lot}")
    }

    #[must_use]
    pub fn pooled(&self) -> u32 {
        self.pooled.unwrap_or(1)
    }

    /// The test: a virus that was not tested for is left out.
    #[must_use]
    pub fn test(&self, lot: LotId) -> RecordTest {
        let results = [(Virus::Cymmv, self.cymmv), (Virus::Orsv, self.orsv)];
        let results = results.into_iter();
        RecordTest {
            lot,
            method: self.method,
            results: results
                .filter_map(|(virus, result)| Some((virus, result?)))
                .collect(),
            tissue: self.tissue,
            pooled: self.pooled(),
            laboratory: self.laboratory.trim().to_owned(),
            note: self.note.trim().to_owned(),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::draft::read;

    #[test]
    fn a_virus_that_was_not_tested_for_is_left_out() {
        let entry = crate::id::EntryRef {
            dev: crate::id::Dev(1),
            seq: 1,
        };
        let lot = LotId(crate::id::ThingId { entry, n: 0 });
        let draft = TestDraft {
            orsv: Some(TestResult::Unclear),
            ..TestDraft::default()
        };
        let test = draft.test(lot);
        assert_eq!(test.results, [(Virus::Orsv, TestResult::Unclear)]);
        assert_eq!(test.pooled, 1);
        assert_eq!(read::<TestDraft>("{}"), Some(TestDraft::default()));
    }
}
