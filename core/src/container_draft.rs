//! A container being put on the shelf, or what stands on one put right.
//!
//! What was typed stays as it is. An amount names its unit: a container filled by weight is kept in grams, one filled
//! by volume in millilitres.

use chrono::NaiveDate;
use serde::{Deserialize, Serialize};

use crate::command::{Command, ContainerTraits};
use crate::event::Held;
use crate::event::UsedWhy;
use crate::id::{ContainerId, ProductId};
use crate::quantity::{Amount, QuantityError, parse_mass, parse_volume};
use crate::shed_draft::in_thousands;
use crate::view::containers::ContainerRow;

/// A figure of the form.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum ContainerField {
    Held,
    Left,
    Gone,
}

/// What is wrong with a figure.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum ContainerFault {
    Typed(QuantityError),
    /// It stands in the other unit: grams where it was filled by weight.
    OtherUnit {
        weighs: bool,
    },
    /// More is left than it holds.
    MoreThanItHolds,
}

/// A container being typed.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct ContainerDraft {
    #[serde(default)]
    pub version: u16,
    #[serde(default)]
    pub batch: String,
    /// What it holds full, with its unit.
    #[serde(default)]
    pub held: String,
    /// What is left in it, as it was counted; empty where it is full or was not counted.
    #[serde(default)]
    pub left: String,
    /// What left it without treating a plant.
    #[serde(default)]
    pub gone: String,
    #[serde(default)]
    pub spilt: bool,
    #[serde(default)]
    pub opened_on: Option<NaiveDate>,
    #[serde(default)]
    pub expires_on: Option<NaiveDate>,
}

impl crate::draft::Versioned for ContainerDraft {
    fn touch(&mut self) {
        self.version = crate::draft::DRAFT_VERSION;
    }
}

/// What is wrong, and where.
type Wrong = (ContainerField, ContainerFault);

impl ContainerDraft {
    /// A container of the shelf, as it would be typed.
    #[must_use]
    pub fn of(row: &ContainerRow) -> Self {
        let unit = if row.held.weighs() { "g" } else { "mL" };
        Self {
            version: crate::draft::DRAFT_VERSION,
            batch: row.batch.clone(),
            held: in_thousands(row.held.figure(), unit),
            opened_on: row.opened_on,
            expires_on: row.expires_on,
            ..Self::default()
        }
    }

    fn held(&self) -> Result<Held, Wrong> {
        match read(&self.held) {
            Ok(Amount::Volume(volume)) => Ok(Held::Ul(volume.ul())),
            Ok(Amount::Mass(mass)) => Ok(Held::Mg(mass.mg())),
            Err(fault) => Err((ContainerField::Held, ContainerFault::Typed(fault))),
        }
    }

    /// What is typed as left, in the unit of the container.
    ///
    /// # Errors
    /// It cannot be read, is in the other unit, or is more than the container holds.
    pub fn left_of(&self, held: Held) -> Result<Amount, Wrong> {
        let wrong = |fault| (ContainerField::Left, fault);
        let left = amount(&self.left, held).map_err(wrong)?;
        if figure(left) > held.figure() {
            return Err(wrong(ContainerFault::MoreThanItHolds));
        }
        Ok(left)
    }

    /// The command that puts it on the shelf.
    ///
    /// # Errors
    /// The first figure that cannot be read.
    pub fn command(&self, product: ProductId) -> Result<Command, Wrong> {
        let held = self.held()?;
        let left = if self.left.trim().is_empty() {
            None
        } else {
            Some(self.left_of(held)?)
        };
        let batch = self.batch.trim();
        Ok(Command::SetContainer {
            container: None,
            traits: ContainerTraits {
                product: Some(product),
                batch: (!batch.is_empty()).then(|| batch.to_owned()),
                opened_on: self.opened_on,
                expires_on: self.expires_on,
                held: Some(held),
                left,
                retired: None,
            },
        })
    }

    /// The command that changes what stands on it: only what is typed otherwise; `None` when nothing is.
    ///
    /// # Errors
    /// As [`ContainerDraft::command`].
    pub fn change(&self, row: &ContainerRow) -> Result<Option<Command>, Wrong> {
        let held = self.held()?;
        let batch = self.batch.trim();
        let traits = ContainerTraits {
            batch: (batch != row.batch).then(|| batch.to_owned()),
            opened_on: self.opened_on.filter(|_| self.opened_on != row.opened_on),
            expires_on: self
                .expires_on
                .filter(|_| self.expires_on != row.expires_on),
            held: (held != row.held).then_some(held),
            ..ContainerTraits::default()
        };
        let changed = traits != ContainerTraits::default();
        Ok(changed.then_some(Command::SetContainer {
            container: Some(row.container),
            traits,
        }))
    }

    /// The command that keeps what was counted.
    ///
    /// # Errors
    /// As [`ContainerDraft::left_of`].
    pub fn count(&self, row: &ContainerRow) -> Result<Command, Wrong> {
        Ok(Command::CountContainer {
            container: row.container,
            left: self.left_of(row.held)?,
        })
    }

    /// The command that takes off what left it without treating a plant.
    ///
    /// # Errors
    /// It cannot be read, or is in the other unit.
    pub fn take_off(&self, row: &ContainerRow) -> Result<Command, Wrong> {
        let amount = amount(&self.gone, row.held).map_err(|fault| (ContainerField::Gone, fault))?;
        Ok(Command::UseFromContainer {
            container: row.container,
            amount,
            why: if self.spilt {
                UsedWhy::Spilt
            } else {
                UsedWhy::Other
            },
            note: String::new(),
        })
    }

    /// The same once an amount is recorded.
    #[must_use]
    pub fn without_amounts(&self) -> Self {
        Self {
            left: String::new(),
            gone: String::new(),
            spilt: false,
            ..self.clone()
        }
    }

    /// A container that is empty or gone.
    #[must_use]
    pub fn retire(container: ContainerId) -> Command {
        Command::SetContainer {
            container: Some(container),
            traits: ContainerTraits {
                retired: Some(true),
                ..ContainerTraits::default()
            },
        }
    }
}

const fn figure(amount: Amount) -> i64 {
    match amount {
        Amount::Volume(volume) => volume.ul(),
        Amount::Mass(mass) => mass.mg(),
    }
}

/// An amount with its unit: a mass or a volume.
fn read(text: &str) -> Result<Amount, QuantityError> {
    match parse_mass(text) {
        Ok((mass, _)) => Ok(Amount::Mass(mass)),
        Err(QuantityError::WrongUnit { .. } | QuantityError::AmbiguousUnit { .. }) => {
            parse_volume(text).map(|(volume, _)| Amount::Volume(volume))
        }
        Err(other) => Err(other),
    }
}

/// An amount in a container's unit; a bare number is meant in it. Nothing at all is an amount too.
fn amount(text: &str, held: Held) -> Result<Amount, ContainerFault> {
    let unit = if held.weighs() { "g" } else { "mL" };
    let read = match read(text) {
        Err(QuantityError::NoUnit { .. }) => read(&format!("{text} {unit}")),
        other => other,
    };
    match read {
        Err(QuantityError::Zero) => Ok(held.amount(0)),
        Err(fault) => Err(ContainerFault::Typed(fault)),
        Ok(amount) if matches!(amount, Amount::Mass(_)) == held.weighs() => Ok(amount),
        Ok(_) => Err(ContainerFault::OtherUnit {
            weighs: held.weighs(),
        }),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn draft(held: &str, left: &str) -> ContainerDraft {
        ContainerDraft {
            held: held.to_owned(),
            left: left.to_owned(),
            ..ContainerDraft::default()
        }
    }

    fn held(text: &str) -> Held {
        draft(text, "").held().unwrap()
    }

    #[test]
    fn a_container_is_kept_in_the_unit_it_was_filled_by() {
        assert_eq!(held("500 mL"), Held::Ul(500_000));
        assert_eq!(held("1 L"), Held::Ul(1_000_000));
        assert_eq!(held("1 kg"), Held::Mg(1_000_000));
        assert!(matches!(
            draft("500", "").held(),
            Err((
                ContainerField::Held,
                ContainerFault::Typed(QuantityError::NoUnit { .. })
            ))
        ));
    }

    #[test]
    fn what_is_left_may_be_a_bare_number_or_nothing_but_not_the_other_unit() {
        let bottle = Held::Ul(500_000);
        assert_eq!(draft("", "120").left_of(bottle), Ok(bottle.amount(120_000)));
        assert_eq!(draft("", "0").left_of(bottle), Ok(bottle.amount(0)));
        assert_eq!(
            draft("", "120 g").left_of(bottle),
            Err((
                ContainerField::Left,
                ContainerFault::OtherUnit { weighs: false }
            ))
        );
        assert_eq!(
            draft("", "0.6 L").left_of(bottle),
            Err((ContainerField::Left, ContainerFault::MoreThanItHolds))
        );
    }
}
