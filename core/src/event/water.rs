//! Events of water and feed: the daily job, a bench at a time.
//!
//! A bench is named with the lots that were left out, never with all that got some: a bench of two hundred lots is one
//! short line. Which lots stood there then follows from where each of them stood. Plants watered by themselves are named.

use serde::{Deserialize, Serialize};

use crate::id::{FeedId, LotId, PlaceId, Subject};

use super::is_default;

/// How the water came to the plants.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum WaterHow {
    #[default]
    Hose,
    Can,
    /// From above, by nozzles.
    Overhead,
    /// Pots stood in water to the rim.
    Dipped,
    Drip,
    /// The rain did it, where a place is open to it.
    Rain,
}

impl WaterHow {
    pub const ALL: [Self; 6] = [
        Self::Hose,
        Self::Can,
        Self::Overhead,
        Self::Dipped,
        Self::Drip,
        Self::Rain,
    ];
}

/// Plants were watered: all of a place but some, or some by themselves.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Watered {
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub place: Option<PlaceId>,
    /// Lots of the place that got none.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub except: Vec<LotId>,
    /// Lots watered by themselves.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub lots: Vec<LotId>,
    #[serde(default, skip_serializing_if = "is_default")]
    pub how: WaterHow,
    /// So much that it ran out below and took salts along.
    #[serde(default, skip_serializing_if = "is_default")]
    pub flush: bool,
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub note: String,
}

/// Nitrogen of a feed as its label gives it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Nitrogen {
    /// Milligrams in a kilogram, or in a litre of a feed measured by volume.
    pub mg: i64,
    #[serde(default, skip_serializing_if = "is_default")]
    pub by_litre: bool,
}

/// A feed as its label says; each field that is there is a change.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct FeedSet {
    pub feed: FeedId,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub name: Option<String>,
    /// The three figures as they stand on it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub npk_typed: Option<String>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub nitrogen: Option<Nitrogen>,
    /// Conductivity one gram or one millilitre in a litre adds, in microsiemens a centimetre; 0 where the label is silent.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub ec_us_cm: Option<u32>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub retired: Option<bool>,
}

/// What the label of the feed said when it was used.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct FeedCopy {
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub feed: Option<FeedId>,
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub name: String,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub nitrogen: Option<Nitrogen>,
}

/// Plants were fed, and so watered too.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Fed {
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub place: Option<PlaceId>,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub except: Vec<LotId>,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub lots: Vec<LotId>,
    #[serde(default, skip_serializing_if = "is_default")]
    pub how: WaterHow,
    #[serde(default, skip_serializing_if = "is_default")]
    pub feed: FeedCopy,
    /// Milligrams of nitrogen in a litre of what the plants got.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub nitrogen_ppm: Option<u32>,
    /// A can made up to so much, or the stock of an injector.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub water_ul: Option<i64>,
    /// The injector makes the stock so many times as much: 100 for 1:100.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub injector: Option<u32>,
    /// Feed measured into it: microlitres or milligrams, one of the two.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub amount_ul: Option<i64>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub amount_mg: Option<i64>,
    /// Measured in what the plants got, and in the water alone, in microsiemens a centimetre.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub ec_us_cm: Option<u32>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub water_ec_us_cm: Option<u32>,
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub note: String,
}

fn subjects(place: Option<PlaceId>, lots: &[LotId]) -> Vec<Subject> {
    let place = place.map(Subject::Place).into_iter();
    place
        .chain(lots.iter().map(|lot| Subject::Lot(*lot)))
        .collect()
}

impl Watered {
    pub(crate) fn subjects(&self) -> Vec<Subject> {
        subjects(self.place, &self.lots)
    }
}

impl Fed {
    pub(crate) fn subjects(&self) -> Vec<Subject> {
        subjects(self.place, &self.lots)
    }
}

impl FeedSet {
    pub(crate) fn subjects(&self) -> Vec<Subject> {
        vec![Subject::Feed(self.feed)]
    }
}
