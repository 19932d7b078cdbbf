//! Events of keeping apart: a lot went into quarantine, came out of it, and was tested for a virus.
//!
//! What a stay waits for is copied into it, so that a later edit of the table moves no stay.

use chrono::NaiveDate;
use serde::{Deserialize, Serialize};

use crate::id::{FindingId, LotId, Subject};

use super::is_default;

/// Why a lot is kept apart.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum QuarantineWhy {
    /// It came from somebody else.
    Arrival,
    /// Something was seen on it.
    Finding,
    /// A virus was found in it.
    Virus,
    /// It met what is suspect.
    Exposed,
    #[default]
    Caution,
}

/// A lot went into quarantine.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct QuarantineEntered {
    pub lot: LotId,
    pub why: QuarantineWhy,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub finding: Option<FindingId>,
    /// Not out before this day.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub until_on: Option<NaiveDate>,
    /// Clean looks in a row that are waited for.
    #[serde(default, skip_serializing_if = "is_default")]
    pub inspections: u8,
    /// Treatments that are waited for.
    #[serde(default, skip_serializing_if = "is_default")]
    pub treatments: u8,
    /// Days after it began from which a test of each virus counts, one test for each.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub test_days: Vec<u16>,
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub note: String,
}

/// A lot came out of quarantine.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct QuarantineReleased {
    pub lot: LotId,
    /// What was behind it by then: clean looks in a row, treatments and tests that found nothing.
    #[serde(default, skip_serializing_if = "is_default")]
    pub inspections: u32,
    #[serde(default, skip_serializing_if = "is_default")]
    pub treatments: u32,
    #[serde(default, skip_serializing_if = "is_default")]
    pub tests: u32,
    /// Why it came out before all held; empty when all did.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub early: String,
}

/// A virus that is tested for.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Virus {
    Cymmv,
    Orsv,
    Other,
}

impl Virus {
    /// The two every test is asked for.
    pub const BOTH: [Self; 2] = [Self::Cymmv, Self::Orsv];
}

/// How it was tested.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum TestMethod {
    #[default]
    Strip,
    Elisa,
    Pcr,
    Other,
}

/// What was sampled.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Tissue {
    #[default]
    Leaf,
    Root,
    Flower,
    Other,
}

/// What a test said. Nothing found is no proof of health.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum TestResult {
    NotDetected,
    Detected,
    Unclear,
}

/// Plants of a lot were tested for a virus.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct VirusTested {
    pub lot: LotId,
    pub method: TestMethod,
    pub virus: Virus,
    pub tissue: Tissue,
    /// Plants whose samples went into it together.
    pub pooled: u32,
    pub result: TestResult,
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub laboratory: String,
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub note: String,
}

macro_rules! about_one_lot {
    ($($event:ty),+) => {$(
        impl $event {
            pub(crate) fn subjects(&self) -> Vec<Subject> {
                vec![Subject::Lot(self.lot)]
            }
        }
    )+};
}
about_one_lot!(QuarantineEntered, QuarantineReleased, VirusTested);
