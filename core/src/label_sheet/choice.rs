//! Which labels are printed, on what: work in hand. That a label was printed is a mark of this phone and no fact of the
//! book: it says nothing of a plant, and nobody needs to agree on it.

use std::collections::BTreeMap;

use chrono::NaiveDate;
use serde::{Deserialize, Serialize};

use super::LABELS_MAX;
use super::sheet::{PRESETS, Sheet, SheetFault, SheetField, Size};
use crate::id::{ClumpId, LotId, PlaceId};
use crate::papers::PassportForm;

/// What a label stands on: a pot of a lot, a bench or house, a tray under a clump in work.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum LabelOf {
    Lot(LotId),
    Place(PlaceId),
    Clump(ClumpId),
}

impl LabelOf {
    #[must_use]
    pub const fn lot(self) -> Option<LotId> {
        match self {
            Self::Lot(lot) => Some(lot),
            Self::Place(_) | Self::Clump(_) => None,
        }
    }
}

/// So many labels of one thing.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Pick {
    #[serde(flatten)]
    pub of: LabelOf,
    pub labels: u32,
}

/// A sheet as typed; a field nobody typed stands as the preset has it.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct SheetTyped {
    #[serde(default)]
    pub preset: String,
    #[serde(default)]
    pub typed: BTreeMap<SheetField, String>,
}

impl SheetTyped {
    /// Begins from a preset; what was typed goes, the place to start from too.
    pub fn begin_from(&mut self, preset: &str) {
        preset.clone_into(&mut self.preset);
        self.typed.clear();
    }

    pub fn set(&mut self, field: SheetField, typed: String) {
        self.typed.insert(field, typed);
    }

    /// The preset that is begun from.
    #[must_use]
    pub fn preset(&self) -> &'static str {
        let chosen = PRESETS.iter().find(|preset| preset.key == self.preset);
        chosen.or(PRESETS.first()).map_or("", |preset| preset.key)
    }

    /// What stands in a field.
    #[must_use]
    pub fn shown(&self, field: SheetField) -> String {
        if let Some(typed) = self.typed.get(&field) {
            return typed.clone();
        }
        let key = self.preset();
        let sheet = PRESETS.iter().find(|preset| preset.key == key);
        let value = sheet.map_or(0, |preset| of(&preset.sheet, field));
        if field.is_count() {
            value.to_string()
        } else {
            in_mm(value)
        }
    }

    /// The sheet with the place to start from.
    ///
    /// # Errors
    /// The first field that is wrong, or what does not go together.
    pub fn read(&self) -> Result<(Sheet, u32), SheetFault> {
        let read = |field: SheetField| field.read(&self.shown(field));
        let size = |across, down| {
            Ok(Size {
                across: read(across)?,
                down: read(down)?,
            })
        };
        let sheet = Sheet {
            label: size(SheetField::LabelAcross, SheetField::LabelDown)?,
            columns: read(SheetField::Columns)?,
            rows: read(SheetField::Rows)?,
            gap: size(SheetField::GapAcross, SheetField::GapDown)?,
            margin: size(SheetField::Left, SheetField::Top)?,
            page: size(SheetField::PageAcross, SheetField::PageDown)?,
        };
        sheet.check()?;
        let start = read(SheetField::Start)?;
        let places = sheet.places();
        if start > places {
            return Err(SheetFault::StartBeyond { places });
        }
        Ok((sheet, start))
    }
}

fn of(sheet: &Sheet, field: SheetField) -> u32 {
    match field {
        SheetField::LabelAcross => sheet.label.across,
        SheetField::LabelDown => sheet.label.down,
        SheetField::Columns => sheet.columns,
        SheetField::Rows => sheet.rows,
        SheetField::GapAcross => sheet.gap.across,
        SheetField::GapDown => sheet.gap.down,
        SheetField::Left => sheet.margin.across,
        SheetField::Top => sheet.margin.down,
        SheetField::PageAcross => sheet.page.across,
        SheetField::PageDown => sheet.page.down,
        SheetField::Start => 1,
    }
}

/// "63.5".
fn in_mm(um: u32) -> String {
    let (whole, rest) = (um / 1_000, um % 1_000);
    if rest == 0 {
        whole.to_string()
    } else {
        let text = format!("{whole}.{rest:03}");
        text.trim_end_matches('0').to_owned()
    }
}

/// Labels being printed.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct LabelsDraft {
    #[serde(default)]
    pub version: u16,
    #[serde(default)]
    pub picks: Vec<Pick>,
    #[serde(default)]
    pub search: String,
    #[serde(default)]
    pub sheet: SheetTyped,
    /// Left off: the day, the pot, the caution after a treatment.
    #[serde(default)]
    pub no_day: bool,
    #[serde(default)]
    pub no_pot: bool,
    #[serde(default)]
    pub no_caution: bool,
    /// The elements of a plant passport on every label.
    #[serde(default)]
    pub passport: PassportForm,
    /// Where the plants were grown, as the passport wants it; empty where it follows from the operator's number.
    #[serde(default)]
    pub origin: String,
}

impl LabelsDraft {
    /// Puts a thing in with so many labels, or takes it out.
    pub fn switch(&mut self, of: LabelOf, labels: u32) {
        match self.picks.iter().position(|pick| pick.of == of) {
            Some(at) => drop(self.picks.remove(at)),
            None => self.add(of, labels),
        }
    }

    /// Puts a thing in; one that is in keeps its number.
    pub fn add(&mut self, of: LabelOf, labels: u32) {
        if !self.picks.iter().any(|pick| pick.of == of) {
            let labels = labels.max(1);
            self.picks.push(Pick { of, labels });
        }
    }

    /// How many labels of a thing.
    pub fn count(&mut self, of: LabelOf, labels: u32) {
        let pick = self.picks.iter_mut().find(|pick| pick.of == of);
        if let Some(pick) = pick {
            pick.labels = labels.clamp(1, LABELS_MAX);
        }
    }

    /// Labels in all.
    #[must_use]
    pub fn labels(&self) -> u32 {
        let each = self.picks.iter().map(|pick| pick.labels);
        each.fold(0, u32::saturating_add)
    }
}

/// Lots whose label was printed from this phone, with the day.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct Printed {
    #[serde(default)]
    pub version: u16,
    #[serde(default)]
    pub lots: Vec<(LotId, NaiveDate)>,
}

impl Printed {
    pub fn note(&mut self, lots: &[LotId], on: NaiveDate) {
        self.lots.retain(|(lot, _)| !lots.contains(lot));
        self.lots.extend(lots.iter().map(|lot| (*lot, on)));
    }

    #[must_use]
    pub fn of(&self, lot: LotId) -> Option<NaiveDate> {
        let found = self.lots.iter().find(|(printed, _)| *printed == lot);
        found.map(|(_, on)| *on)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_sheet_stands_as_the_preset_has_it_until_something_is_typed() {
        let mut typed = SheetTyped::default();
        assert_eq!(typed.preset(), "roll_50_25");
        assert_eq!(typed.shown(SheetField::LabelAcross), "50");
        typed.begin_from("a4_63_38");
        assert_eq!(typed.shown(SheetField::LabelAcross), "63.5");
        assert_eq!(typed.shown(SheetField::Top), "15.15");
        let sheet = PRESETS
            .iter()
            .find(|preset| preset.key == "a4_63_38")
            .unwrap();
        assert_eq!(typed.read(), Ok((sheet.sheet, 1)));
        typed.set(SheetField::Start, "21".to_owned());
        assert_eq!(typed.read().map(|(_, start)| start), Ok(21));
        typed.set(SheetField::Start, "22".to_owned());
        assert_eq!(typed.read(), Err(SheetFault::StartBeyond { places: 21 }));
        let kept = crate::draft::write(&typed);
        assert_eq!(serde_json::from_str::<SheetTyped>(&kept).unwrap(), typed);
    }

    #[test]
    fn a_list_kept_when_only_lots_had_labels_is_read_on() {
        let lot = "L0000000000007-3-0".trim_start_matches('L');
        let kept = format!(r#"{{"picks":[{{"lot":"{lot}","labels":4}}]}}"#);
        let draft: LabelsDraft = serde_json::from_str(&kept).unwrap();
        let of = LabelOf::Lot(lot.parse().unwrap());
        assert_eq!(draft.picks, [Pick { of, labels: 4 }]);
        let written = crate::draft::write(&draft);
        assert!(
            written.contains(&format!(r#"{{"lot":"{lot}","labels":4}}"#)),
            "{written}"
        );
    }

    #[test]
    fn every_field_of_every_preset_reads_back_to_itself() {
        for preset in PRESETS {
            let mut typed = SheetTyped::default();
            typed.begin_from(preset.key);
            assert_eq!(typed.read(), Ok((preset.sheet, 1)), "{}", preset.key);
        }
    }
}
