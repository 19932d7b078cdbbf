//! A measure being typed, until it stands on the shelf.
//!
//! What was typed stays as it is; a bare number is millilitres, or grams on a scale, because the boxes say so.

use serde::{Deserialize, Serialize};

use super::SIZES;
use crate::command::{Command, MeasureTraits};
use crate::draft::{DRAFT_VERSION, Versioned};
use crate::event::MeasureKind;
use crate::quantity::{QuantityError, parse_mass, parse_volume};
use crate::view::measures::MeasureRow;

/// A figure of the form.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum MeasureField {
    Least,
    Most,
    Graduation,
}

/// What is wrong with a figure.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct MeasureFault {
    pub at: MeasureField,
    pub fault: QuantityError,
}

/// A measure being typed.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct MeasureDraft {
    #[serde(default)]
    pub version: u16,
    #[serde(default)]
    pub name: String,
    #[serde(default)]
    pub kind: MeasureKind,
    #[serde(default)]
    pub least: String,
    #[serde(default)]
    pub most: String,
    #[serde(default)]
    pub graduation: String,
}

impl Versioned for MeasureDraft {
    fn touch(&mut self) {
        self.version = DRAFT_VERSION;
    }
}

impl MeasureDraft {
    /// A measure of the shelf, as it would be typed.
    #[must_use]
    pub fn of(row: &MeasureRow) -> Self {
        let unit = if row.measure.kind.weighs() { "g" } else { "mL" };
        let typed = |figure| crate::shed_draft::in_thousands(figure, unit);
        Self {
            version: crate::draft::DRAFT_VERSION,
            name: row.name.clone(),
            kind: row.measure.kind,
            least: typed(row.measure.least),
            most: typed(row.measure.most),
            graduation: typed(row.measure.graduation),
        }
    }

    fn read(&self, at: MeasureField, typed: &str) -> Result<i64, MeasureFault> {
        let read = |text: &str| {
            if self.kind.weighs() {
                parse_mass(text).map(|(mass, _)| mass.mg())
            } else {
                parse_volume(text).map(|(volume, _)| volume.ul())
            }
        };
        let unit = if self.kind.weighs() { "g" } else { "mL" };
        match read(typed) {
            Err(QuantityError::NoUnit { .. }) => read(&format!("{typed} {unit}")),
            other => other,
        }
        .map_err(|fault| MeasureFault { at, fault })
    }

    /// What it is as typed. A least left empty is one step.
    ///
    /// # Errors
    /// The first figure that cannot be read.
    pub fn traits(&self) -> Result<MeasureTraits, MeasureFault> {
        let most = self.read(MeasureField::Most, &self.most)?;
        let graduation = self.read(MeasureField::Graduation, &self.graduation)?;
        let least = if self.least.trim().is_empty() {
            graduation
        } else {
            self.read(MeasureField::Least, &self.least)?
        };
        Ok(MeasureTraits {
            name: Some(self.name.trim().to_owned()),
            kind: Some(self.kind),
            least: Some(least),
            most: Some(most),
            graduation: Some(graduation),
            retired: None,
        })
    }

    /// The command that puts it on the shelf.
    ///
    /// # Errors
    /// As [`MeasureDraft::traits`].
    pub fn command(&self) -> Result<Command, MeasureFault> {
        Ok(Command::SetMeasure {
            measure: None,
            traits: self.traits()?,
        })
    }

    /// The command that changes one of the shelf: only what is typed otherwise than it stands.
    ///
    /// # Errors
    /// As [`MeasureDraft::traits`].
    pub fn change(&self, row: &MeasureRow) -> Result<Option<Command>, MeasureFault> {
        let typed = self.traits()?;
        let now = &row.measure;
        let turned = self.kind.weighs() != now.kind.weighs();
        let other = |typed: Option<i64>, stands: i64| typed.filter(|it| turned || *it != stands);
        let traits = MeasureTraits {
            name: typed.name.filter(|name| *name != row.name),
            kind: typed.kind.filter(|kind| *kind != now.kind),
            least: other(typed.least, now.least),
            most: other(typed.most, now.most),
            graduation: other(typed.graduation, now.graduation),
            retired: None,
        };
        Ok(
            (traits != MeasureTraits::default()).then_some(Command::SetMeasure {
                measure: Some(now.id),
                traits,
            }),
        )
    }
}

/// The command that puts a common size on the shelf; `None` where the table holds no such.
#[must_use]
pub fn ready_made(at: usize) -> Option<Command> {
    let size = SIZES.get(at)?;
    Some(Command::SetMeasure {
        measure: None,
        traits: MeasureTraits {
            kind: Some(size.kind),
            least: Some(size.least),
            most: Some(size.most),
            graduation: Some(size.graduation),
            ..MeasureTraits::default()
        },
    })
}
