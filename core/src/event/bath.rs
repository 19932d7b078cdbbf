//! Events of a bath as it is used: topped up at its own strength, and its end.
//!
//! A bath is the mixture of the first treatment that came out of it.

use serde::{Deserialize, Serialize};

use crate::id::{ContainerId, Subject, TreatmentId};

/// A bath was filled up at its original strength.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct BathTopped {
    /// The treatment the bath was mixed for.
    pub bath: TreatmentId,
    pub water_ul: i64,
    /// Product measured into that water: microlitres or milligrams, one of the two.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub amount_ul: Option<i64>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub amount_mg: Option<i64>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub container: Option<ContainerId>,
}

/// A bath is over: the tub is empty.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct BathEnded {
    /// The treatment the bath was mixed for.
    pub bath: TreatmentId,
    /// What was still in it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub left_ul: Option<i64>,
    /// Where the rest went.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub disposal: String,
}

macro_rules! about_the_bath {
    ($($event:ty),+) => {$(
        impl $event {
            pub(crate) fn subjects(&self) -> Vec<Subject> {
                vec![Subject::Treatment(self.bath)]
            }
        }
    )+};
}
about_the_bath!(BathTopped, BathEnded);
