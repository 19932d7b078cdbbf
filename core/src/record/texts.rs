//! The words of a record that are filled in or put right afterwards.

use serde::{Deserialize, Serialize};

use crate::event::Treated;

/// Texts of a treatment's record. Filling one in is a correction: the entry before stays readable.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct RecordTexts {
    #[serde(default)]
    pub person: String,
    #[serde(default)]
    pub licence: String,
    #[serde(default)]
    pub registration: String,
    #[serde(default)]
    pub batch: String,
    #[serde(default)]
    pub gear: String,
    #[serde(default)]
    pub weather: String,
    #[serde(default)]
    pub disposal: String,
}

impl RecordTexts {
    /// As the treatment says now.
    #[must_use]
    pub fn of(treated: &Treated) -> Self {
        Self {
            person: treated.person.clone(),
            licence: treated.licence.clone(),
            registration: treated.product.registration.clone(),
            batch: treated.product.batch.clone(),
            gear: treated.gear.clone(),
            weather: treated.weather.clone(),
            disposal: treated.disposal.clone(),
        }
    }

    /// Puts them into the treatment.
    pub fn put_into(&self, treated: &mut Treated) {
        let texts = [
            (&self.person, &mut treated.person),
            (&self.licence, &mut treated.licence),
            (&self.registration, &mut treated.product.registration),
            (&self.batch, &mut treated.product.batch),
            (&self.gear, &mut treated.gear),
            (&self.weather, &mut treated.weather),
            (&self.disposal, &mut treated.disposal),
        ];
        for (typed, stored) in texts {
            typed.trim().clone_into(stored);
        }
    }
}
