//! Event of the weather in a house: what the thermometer kept since it was last read.

use chrono::NaiveDate;
use serde::{Deserialize, Serialize};

use crate::climate::Reading;
use crate::id::{PlaceId, Subject};

/// Minimum and maximum of a house were read. One a house and day: a later reading of the same day corrects it.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct ClimateRead {
    pub place: PlaceId,
    /// The day the numbers are of, where it is not the entry's own.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub read_on: Option<NaiveDate>,
    /// Thousandths of a degree Celsius.
    pub min_mc: i32,
    pub max_mc: i32,
    /// Thousandths of saturation.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub humidity_min_permille: Option<u16>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub humidity_max_permille: Option<u16>,
    /// Thousandths of a millimetre since the reading before.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub rain_um: Option<u32>,
}

impl ClimateRead {
    /// A reading as it is written down.
    #[must_use]
    pub fn of(place: PlaceId, read_on: Option<NaiveDate>, reading: Reading) -> Self {
        let Reading {
            min_mc,
            max_mc,
            humidity_min_permille,
            humidity_max_permille,
            rain_um,
        } = reading;
        Self {
            place,
            read_on,
            min_mc,
            max_mc,
            humidity_min_permille,
            humidity_max_permille,
            rain_um,
        }
    }

    /// The numbers.
    #[must_use]
    pub fn reading(&self) -> Reading {
        Reading {
            min_mc: self.min_mc,
            max_mc: self.max_mc,
            humidity_min_permille: self.humidity_min_permille,
            humidity_max_permille: self.humidity_max_permille,
            rain_um: self.rain_um,
        }
    }

    pub(crate) fn subjects(&self) -> Vec<Subject> {
        vec![Subject::Place(self.place)]
    }
}
