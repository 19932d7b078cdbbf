//! A pot or a mix being typed, until it stands on the shelf.
//!
//! Invariants: amounts stay as typed until they are read here; a fault says at which field it is.

use std::collections::BTreeMap;

use serde::{Deserialize, Serialize};

use crate::command::Command;
use crate::draft::{DRAFT_VERSION, Versioned};
use crate::event::MixShare;
use crate::potting::{Pot, PottingRejection};
use crate::quantity::{Length, QuantityError, parse_area, parse_length, parse_volume};
use crate::view::shed::{MixRow, PotRow};

/// How a pot is described.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum PotShape {
    #[default]
    Round,
    Square,
    /// By the water it holds.
    Holds,
}

/// A field of the pot form.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum PotField {
    Top,
    Base,
    Height,
    Holds,
}

/// What is wrong with a pot as typed.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum PotFault {
    Typed(PotField, QuantityError),
    /// The measures do not make a pot.
    Shape(PottingRejection),
}

/// A pot being typed.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct PotDraft {
    #[serde(default)]
    pub version: u16,
    #[serde(default)]
    pub name: String,
    #[serde(default)]
    pub shape: PotShape,
    #[serde(default)]
    pub top: String,
    #[serde(default)]
    pub base: String,
    #[serde(default)]
    pub height: String,
    #[serde(default)]
    pub holds: String,
}

impl Versioned for PotDraft {
    fn touch(&mut self) {
        self.version = DRAFT_VERSION;
    }
}

impl PotDraft {
    /// The pot as measured.
    ///
    /// # Errors
    /// The first field that cannot be read, or why the measures do not make a pot.
    pub fn form(&self) -> Result<Pot, PotFault> {
        let length = |field, typed: &str| -> Result<Length, PotFault> {
            let read = parse_length(typed);
            read.map(|(length, _)| length)
                .map_err(|fault| PotFault::Typed(field, fault))
        };
        let measures = || {
            Ok((
                length(PotField::Top, &self.top)?,
                length(PotField::Base, &self.base)?,
                length(PotField::Height, &self.height)?,
            ))
        };
        let pot = match self.shape {
            PotShape::Round => {
                let (top, base, height) = measures()?;
                Pot::Round { top, base, height }
            }
            PotShape::Square => {
                let (top, base, height) = measures()?;
                Pot::Square { top, base, height }
            }
            PotShape::Holds => {
                let (water, _) = parse_volume(&self.holds)
                    .map_err(|fault| PotFault::Typed(PotField::Holds, fault))?;
                Pot::Holds { water }
            }
        };
        pot.check().map_err(PotFault::Shape)?;
        Ok(pot)
    }

    /// A pot of the shelf, as it would be typed.
    #[must_use]
    pub fn of(row: &PotRow) -> Self {
        let typed = |length: Length| in_thousands(length.um(), "mm");
        let (shape, [top, base, height], holds) = match row.form {
            Some(Pot::Round { top, base, height }) => (
                PotShape::Round,
                [top, base, height].map(typed),
                String::new(),
            ),
            Some(Pot::Square { top, base, height }) => (
                PotShape::Square,
                [top, base, height].map(typed),
                String::new(),
            ),
            Some(Pot::Holds { water }) => (
                PotShape::Holds,
                Default::default(),
                in_thousands(water.ul(), "mL"),
            ),
            None => Default::default(),
        };
        Self {
            version: crate::draft::DRAFT_VERSION,
            name: row.name.clone(),
            shape,
            top,
            base,
            height,
            holds,
        }
    }

    /// The command that changes a pot of the shelf: only what is typed otherwise than it stands. `None` when nothing is.
    ///
    /// # Errors
    /// As [`PotDraft::form`].
    pub fn change(&self, row: &PotRow) -> Result<Option<Command>, PotFault> {
        let form = Some(self.form()?).filter(|form| Some(*form) != row.form);
        let name = Some(self.name.clone()).filter(|name| name.trim() != row.name);
        Ok(
            (form.is_some() || name.is_some()).then_some(Command::SetPot {
                pot: Some(row.pot),
                name,
                form,
                retired: None,
            }),
        )
    }

    /// The command that puts it on the shelf.
    ///
    /// # Errors
    /// As [`PotDraft::form`].
    pub fn command(&self) -> Result<Command, PotFault> {
        Ok(Command::SetPot {
            pot: None,
            name: Some(self.name.clone()),
            form: Some(self.form()?),
            retired: None,
        })
    }
}

/// Thousandths of a unit as a decimal: 12700 micrometres are "12.7 mm".
pub(crate) fn in_thousands(thousandths: i64, unit: &str) -> String {
    let (whole, rest) = (thousandths / 1_000, (thousandths % 1_000).abs());
    if rest == 0 {
        return format!("{whole} {unit}");
    }
    let digits = format!("{rest:03}");
    format!("{whole}.{} {unit}", digits.trim_end_matches('0'))
}

/// Months a mix holds where the grower has not said (common practice, no source).
pub const MIX_LIFE_MONTHS: u16 = 24;

/// A mix being put together.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct MixDraft {
    #[serde(default)]
    pub version: u16,
    #[serde(default)]
    pub name: String,
    /// Hundredths of the volume before mixing, by stored name of the component.
    #[serde(default)]
    pub percent: BTreeMap<String, u16>,
    #[serde(default)]
    pub life_months: Option<u16>,
}

impl Versioned for MixDraft {
    fn touch(&mut self) {
        self.version = DRAFT_VERSION;
    }
}

impl MixDraft {
    /// All shares together.
    #[must_use]
    pub fn total_percent(&self) -> u32 {
        self.percent.values().map(|share| u32::from(*share)).sum()
    }

    /// Whether it can be kept: no shares at all, or shares that make the whole.
    #[must_use]
    pub fn is_whole(&self) -> bool {
        self.percent.is_empty() || self.total_percent() == 100
    }

    /// Puts a component in with what is missing to the whole, or takes it out.
    pub fn switch(&mut self, component: &str) {
        if self.percent.remove(component).is_none() {
            let missing = 100_u32.saturating_sub(self.total_percent());
            let share = u16::try_from(missing).unwrap_or(0);
            self.percent.insert(component.to_owned(), share);
        }
    }

    #[must_use]
    pub fn life_months(&self) -> u16 {
        self.life_months.unwrap_or(MIX_LIFE_MONTHS)
    }

    /// A mix of the shelf, as it would be put together.
    #[must_use]
    pub fn of(row: &MixRow) -> Self {
        let shares = row.shares.iter();
        Self {
            version: crate::draft::DRAFT_VERSION,
            name: row.name.clone(),
            percent: shares
                .map(|share| (share.component.clone(), share.permille / 10))
                .collect(),
            life_months: row.life_months,
        }
    }

    /// The command that changes a mix of the shelf: only what differs from how it stands. `None` when nothing does.
    #[must_use]
    pub fn change(&self, row: &MixRow) -> Option<Command> {
        let stands = Self::of(row);
        let name = Some(self.name.clone()).filter(|name| name.trim() != row.name);
        let shares = Some(self.shares()).filter(|_| self.percent != stands.percent);
        let life_months = self
            .life_months
            .filter(|months| Some(*months) != row.life_months);
        let changed = name.is_some() || shares.is_some() || life_months.is_some();
        changed.then_some(Command::SetMix {
            mix: Some(row.mix),
            name,
            shares,
            life_months,
            retired: None,
        })
    }

    /// The command that puts it on the shelf.
    #[must_use]
    pub fn command(&self) -> Command {
        Command::SetMix {
            mix: None,
            name: Some(self.name.clone()),
            shares: Some(self.shares()),
            life_months: Some(self.life_months()),
            retired: None,
        }
    }

    /// Components without a share are left out.
    fn shares(&self) -> Vec<MixShare> {
        let shares = self.percent.iter().filter(|(_, percent)| **percent > 0);
        let shares = shares.map(|(component, percent)| MixShare {
            component: component.clone(),
            permille: percent.saturating_mul(10),
        });
        shares.collect()
    }
}

/// An area as typed, in square centimetres; a bare number is square metres. `None` for what is no area.
#[must_use]
pub fn area_cm2(typed: &str) -> Option<u32> {
    let read = match parse_area(typed) {
        Err(QuantityError::NoUnit { .. }) => parse_area(&format!("{} m2", typed.trim())),
        read => read,
    };
    let cm2 = read.ok()?.0.mm2() / 100;
    u32::try_from(cm2).ok().filter(|cm2| *cm2 > 0)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::id::{Dev, EntryRef, MixId, PotId, ThingId};
    use crate::quantity::Volume;

    fn measured(top: &str, base: &str, height: &str) -> PotDraft {
        PotDraft {
            top: top.to_owned(),
            base: base.to_owned(),
            height: height.to_owned(),
            ..PotDraft::default()
        }
    }

    #[test]
    fn a_pot_is_read_with_comma_or_point_and_in_either_unit() {
        let pot = Pot::Round {
            top: Length::from_mm(175),
            base: Length::from_mm(120),
            height: Length::from_mm(150),
        };
        assert_eq!(measured("17,5 cm", "120 mm", "15 cm").form(), Ok(pot));
        assert_eq!(measured("175 mm", "12.0 cm", "0,15 m").form(), Ok(pot));
    }

    #[test]
    fn a_fault_says_at_which_measure_it_is() {
        let no_unit = measured("17 cm", "120", "15 cm").form();
        assert!(
            matches!(
                no_unit,
                Err(PotFault::Typed(
                    PotField::Base,
                    QuantityError::NoUnit { .. }
                ))
            ),
            "{no_unit:?}"
        );
        let turned = measured("12 cm", "17 cm", "15 cm").form();
        assert_eq!(
            turned,
            Err(PotFault::Shape(PottingRejection::BaseWiderThanTop))
        );
        let holds = PotDraft {
            shape: PotShape::Holds,
            holds: "1,9 L".to_owned(),
            ..PotDraft::default()
        };
        let litres = holds.form().ok().and_then(|pot| pot.brimful().ok());
        assert_eq!(litres.map(|volume| volume.ul()), Some(1_900_000));
    }

    fn row(form: Pot) -> PotRow {
        PotRow {
            pot: PotId(thing()),
            name: "tall".to_owned(),
            form: Some(form),
        }
    }

    fn thing() -> ThingId {
        let entry = EntryRef {
            dev: Dev(1),
            seq: 1,
        };
        ThingId { entry, n: 1 }
    }

    #[test]
    fn a_pot_of_the_shelf_reads_back_as_it_stands_and_a_change_says_only_what_changed() {
        let half_inch = Length::from_um(12_700);
        let pots = [
            Pot::Round {
                top: Length::from_mm(170),
                base: Length::from_um(120_050),
                height: Length::from_mm(150),
            },
            Pot::Square {
                top: half_inch,
                base: half_inch,
                height: half_inch,
            },
            Pot::Holds {
                water: Volume::from_ul(1_900_500),
            },
        ];
        for form in pots {
            let draft = PotDraft::of(&row(form));
            assert_eq!(draft.form(), Ok(form));
            assert_eq!(draft.change(&row(form)), Ok(None));
        }
        let mut draft = PotDraft::of(&row(pots[0]));
        draft.height = "16 cm".to_owned();
        let Ok(Some(Command::SetPot {
            pot, name, form, ..
        })) = draft.change(&row(pots[0]))
        else {
            panic!("{draft:?}")
        };
        assert_eq!((pot, name), (Some(PotId(thing())), None));
        assert!(form.is_some());
    }

    #[test]
    fn a_mix_of_the_shelf_is_changed_only_where_it_was_changed() {
        let row = MixRow {
            mix: MixId(thing()),
            name: "for lath".to_owned(),
            shares: vec![MixShare {
                component: "pumice".to_owned(),
                permille: 1_000,
            }],
            life_months: Some(18),
        };
        let mut draft = MixDraft::of(&row);
        assert_eq!(draft.change(&row), None);
        draft.percent.insert("pumice".to_owned(), 60);
        draft.switch("bark_small");
        let Some(Command::SetMix {
            name,
            shares,
            life_months,
            ..
        }) = draft.change(&row)
        else {
            panic!("{draft:?}")
        };
        assert_eq!((name, life_months), (None, None));
        assert_eq!(shares.map(|shares| shares.len()), Some(2));
    }

    #[test]
    fn a_mix_is_whole_at_a_hundred_and_a_new_part_takes_what_is_missing() {
        let mut mix = MixDraft::default();
        assert!(mix.is_whole(), "a mix may be known by its name alone");
        mix.switch("bark_medium");
        assert_eq!(mix.total_percent(), 100);
        mix.percent.insert("bark_medium".to_owned(), 70);
        assert!(!mix.is_whole());
        mix.switch("pumice");
        assert_eq!(mix.percent.get("pumice"), Some(&30));
        assert!(mix.is_whole());
        mix.switch("bark_medium");
        assert_eq!(mix.total_percent(), 30);
    }
}
