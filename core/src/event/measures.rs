//! Events of the measures on the shelf: syringes, cylinders, scales.
//!
//! The first such event of an id puts the measure on the shelf; each field that is there is a change.

use serde::{Deserialize, Serialize};

use crate::id::{MeasureId, Subject};

/// What a measure is. A scale weighs; the others hold a liquid.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum MeasureKind {
    #[default]
    Syringe,
    Cylinder,
    Spoon,
    Jug,
    Scale,
}

impl MeasureKind {
    pub const ALL: [Self; 5] = [
        Self::Syringe,
        Self::Cylinder,
        Self::Spoon,
        Self::Jug,
        Self::Scale,
    ];

    /// Whether it gives a mass: milligrams instead of microlitres.
    #[must_use]
    pub const fn weighs(self) -> bool {
        matches!(self, Self::Scale)
    }
}

/// A measure on the shelf. Amounts in microlitres; in milligrams where it is a scale.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct MeasureSet {
    pub measure: MeasureId,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub name: Option<String>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub kind: Option<MeasureKind>,
    /// The least it measures well.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub least: Option<i64>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub most: Option<i64>,
    /// From one mark to the next.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub graduation: Option<i64>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub retired: Option<bool>,
}

impl MeasureSet {
    pub(crate) fn subjects(&self) -> Vec<Subject> {
        vec![Subject::Measure(self.measure)]
    }
}
