//! Events of the containers a product stands in: bottles, jars, bags.
//!
//! The first `container_set` of an id puts the container on the shelf; each field that is there is a change. What a
//! treatment takes stands in the treatment alone. Amounts are in microlitres, or in milligrams where it was filled by
//! weight: one of the two.

use chrono::NaiveDate;
use serde::{Deserialize, Serialize};

use crate::id::{ContainerId, ProductId, Subject};
use crate::quantity::{Amount, Mass, Volume};

/// What a container holds: by volume in microlitres, or by weight in milligrams.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
pub enum Held {
    Ul(i64),
    Mg(i64),
}

impl Held {
    /// The one of the two that is there.
    #[must_use]
    pub fn of(ul: Option<i64>, mg: Option<i64>) -> Option<Self> {
        ul.map(Self::Ul).or(mg.map(Self::Mg))
    }

    /// As the two fields of an event.
    #[must_use]
    pub const fn fields(self) -> (Option<i64>, Option<i64>) {
        match self {
            Self::Ul(ul) => (Some(ul), None),
            Self::Mg(mg) => (None, Some(mg)),
        }
    }

    /// Another figure in the same unit.
    #[must_use]
    pub const fn with(self, figure: i64) -> Self {
        match self {
            Self::Ul(_) => Self::Ul(figure),
            Self::Mg(_) => Self::Mg(figure),
        }
    }

    #[must_use]
    pub const fn weighs(self) -> bool {
        matches!(self, Self::Mg(_))
    }

    #[must_use]
    pub const fn figure(self) -> i64 {
        match self {
            Self::Ul(figure) | Self::Mg(figure) => figure,
        }
    }

    /// Another figure in the same unit.
    #[must_use]
    pub const fn amount(self, figure: i64) -> Amount {
        match self {
            Self::Ul(_) => Amount::Volume(Volume::from_ul(figure)),
            Self::Mg(_) => Amount::Mass(Mass::from_mg(figure)),
        }
    }
}

/// A container of a product: what stands on it, what it held when full.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct ContainerSet {
    pub container: ContainerId,
    pub product: ProductId,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub batch: Option<String>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub opened_on: Option<NaiveDate>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub expires_on: Option<NaiveDate>,
    /// What it held when it came: microlitres or milligrams, one of the two.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub amount_ul: Option<i64>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub amount_mg: Option<i64>,
    /// Empty, or taken off the shelf.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub retired: Option<bool>,
}

/// Somebody looked how much is left; it stands there from then on.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct ContainerCounted {
    pub container: ContainerId,
    /// What is left.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub amount_ul: Option<i64>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub amount_mg: Option<i64>,
    /// What the book had reckoned, in the same unit; below nothing where more was taken than there was.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub believed: Option<i64>,
}

/// Why something left a container without treating a plant.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum UsedWhy {
    Spilt,
    /// Mixed, and nothing went into it.
    MixedUnused,
    #[default]
    Other,
}

/// Something left a container without treating a plant.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct ContainerUsed {
    pub container: ContainerId,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub amount_ul: Option<i64>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub amount_mg: Option<i64>,
    pub why: UsedWhy,
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub note: String,
}

impl ContainerCounted {
    #[must_use]
    pub fn held(&self) -> Held {
        Held::of(self.amount_ul, self.amount_mg).unwrap_or(Held::Ul(0))
    }
}

impl ContainerUsed {
    #[must_use]
    pub fn held(&self) -> Held {
        Held::of(self.amount_ul, self.amount_mg).unwrap_or(Held::Ul(0))
    }
}

impl ContainerSet {
    #[must_use]
    pub fn held(&self) -> Option<Held> {
        Held::of(self.amount_ul, self.amount_mg)
    }
}

macro_rules! about_the_container {
    ($($event:ty),+) => {$(
        impl $event {
            pub(crate) fn subjects(&self) -> Vec<Subject> {
                vec![Subject::Container(self.container)]
            }
        }
    )+};
}
about_the_container!(ContainerSet, ContainerCounted, ContainerUsed);
