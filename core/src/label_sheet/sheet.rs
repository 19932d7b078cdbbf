//! A sheet of labels: its measures, whether they go together, and where each label lies.

use serde::{Deserialize, Serialize};

use crate::quantity::{Decimal, Ratio};

/// A width and a height in micrometres.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Size {
    pub across: u32,
    pub down: u32,
}

/// A sheet, or the one label a label printer prints at a time.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Sheet {
    pub page: Size,
    pub label: Size,
    pub columns: u32,
    pub rows: u32,
    /// Between one label and the next.
    pub gap: Size,
    /// From the edge of the page to the first label.
    pub margin: Size,
}

/// Where a label lies: its page from 0, and its upper left corner on it, micrometres.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Cell {
    pub page: u32,
    pub left: u32,
    pub top: u32,
}

/// A measure of a sheet as it is typed.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum SheetField {
    LabelAcross,
    LabelDown,
    Columns,
    Rows,
    GapAcross,
    GapDown,
    Left,
    Top,
    PageAcross,
    PageDown,
    /// The first free place on a sheet that was used before, from 1.
    Start,
}

impl SheetField {
    /// In the order they are asked.
    pub const ALL: [Self; 11] = [
        Self::LabelAcross,
        Self::LabelDown,
        Self::Columns,
        Self::Rows,
        Self::GapAcross,
        Self::GapDown,
        Self::Left,
        Self::Top,
        Self::PageAcross,
        Self::PageDown,
        Self::Start,
    ];

    /// Whether it is a number of labels, and not a length.
    #[must_use]
    pub fn is_count(self) -> bool {
        matches!(self, Self::Columns | Self::Rows | Self::Start)
    }

    /// Least and most, in micrometres or as a count. From a stick-in label to a sheet of A3.
    #[must_use]
    pub fn bounds(self) -> (u32, u32) {
        match self {
            Self::LabelAcross | Self::LabelDown => (8_000, 420_000),
            Self::Columns | Self::Rows => (1, 40),
            Self::GapAcross | Self::GapDown => (0, 100_000),
            Self::Left | Self::Top => (0, 200_000),
            Self::PageAcross | Self::PageDown => (8_000, 1_000_000),
            Self::Start => (1, 1_600),
        }
    }

    /// Reads what was typed: millimetres with comma or point, or a whole number.
    ///
    /// # Errors
    /// Not a number, or beyond the bounds.
    pub fn read(self, typed: &str) -> Result<u32, SheetFault> {
        let number = Decimal::parse(typed).map_err(|_| SheetFault::NotANumber(self))?;
        let value = if self.is_count() {
            typed.trim().parse::<i64>().ok()
        } else {
            Ratio::new(1_000, 1)
                .and_then(|thousand| number.ratio().checked_mul(thousand))
                .and_then(Ratio::round_i64)
        };
        let value = value.ok_or(SheetFault::NotANumber(self))?;
        let (least, most) = self.bounds();
        u32::try_from(value)
            .ok()
            .filter(|value| (least..=most).contains(value))
            .ok_or(SheetFault::OutOfBounds {
                field: self,
                least,
                most,
            })
    }
}

/// Why nothing can be printed on a sheet as typed.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum SheetFault {
    NotANumber(SheetField),
    OutOfBounds {
        field: SheetField,
        least: u32,
        most: u32,
    },
    /// The columns need more than the page is wide.
    TooWide {
        needs: u32,
        page: u32,
    },
    /// The rows need more than the page is high.
    TooHigh {
        needs: u32,
        page: u32,
    },
    /// The sheet has fewer places than that.
    StartBeyond {
        places: u32,
    },
}

impl Sheet {
    /// Labels on one page.
    #[must_use]
    pub fn places(&self) -> u32 {
        self.columns.saturating_mul(self.rows)
    }

    /// Whether the labels lie on the page.
    ///
    /// # Errors
    /// The side that is too short.
    pub fn check(&self) -> Result<(), SheetFault> {
        let needs = needed(
            self.margin.across,
            self.label.across,
            self.gap.across,
            self.columns,
        );
        if needs > self.page.across {
            let page = self.page.across;
            return Err(SheetFault::TooWide { needs, page });
        }
        let needs = needed(self.margin.down, self.label.down, self.gap.down, self.rows);
        if needs > self.page.down {
            let page = self.page.down;
            return Err(SheetFault::TooHigh { needs, page });
        }
        Ok(())
    }

    /// Where the `nth` label from 0 lies when the first goes to place `start` from 1; row by row.
    #[must_use]
    pub fn cell(&self, nth: u32, start: u32) -> Cell {
        let at = nth.saturating_add(start.saturating_sub(1));
        let places = self.places().max(1);
        let here = at % places;
        let columns = self.columns.max(1);
        let step =
            |count: u32, label: u32, gap: u32| count.saturating_mul(label.saturating_add(gap));
        Cell {
            page: at / places,
            left: self.margin.across.saturating_add(step(
                here % columns,
                self.label.across,
                self.gap.across,
            )),
            top: self.margin.down.saturating_add(step(
                here / columns,
                self.label.down,
                self.gap.down,
            )),
        }
    }

    /// Pages for so many labels.
    #[must_use]
    pub fn pages(&self, labels: u32, start: u32) -> u32 {
        match labels.checked_sub(1) {
            Some(last) => self.cell(last, start).page.saturating_add(1),
            None => 0,
        }
    }
}

fn needed(margin: u32, label: u32, gap: u32, count: u32) -> u32 {
    let labels = label.saturating_mul(count);
    let gaps = gap.saturating_mul(count.saturating_sub(1));
    margin.saturating_add(labels).saturating_add(gaps)
}

/// A sheet to begin from; its figures are put into the fields, where they can be changed.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Preset {
    pub key: &'static str,
    pub sheet: Sheet,
}

const fn size(across: u32, down: u32) -> Size {
    Size { across, down }
}

const A4: Size = size(210_000, 297_000);

const fn a4(
    key: &'static str,
    label: Size,
    columns: u32,
    rows: u32,
    gap: Size,
    margin: Size,
) -> Preset {
    Preset {
        key,
        sheet: Sheet {
            page: A4,
            label,
            columns,
            rows,
            gap,
            margin,
        },
    }
}

/// One label a page, as label printers want it.
const fn roll(key: &'static str, label: Size) -> Preset {
    Preset {
        key,
        sheet: Sheet {
            page: label,
            label,
            columns: 1,
            rows: 1,
            gap: size(0, 0),
            margin: size(0, 0),
        },
    }
}

/// Sizes sold widely, centred on the page where no margin is said: common practice, no source.
pub const PRESETS: [Preset; 6] = [
    roll("roll_50_25", size(50_000, 25_000)),
    roll("roll_57_32", size(57_000, 32_000)),
    a4(
        "a4_70_37",
        size(70_000, 37_000),
        3,
        8,
        size(0, 0),
        size(0, 500),
    ),
    a4(
        "a4_63_38",
        size(63_500, 38_100),
        3,
        7,
        size(2_500, 0),
        size(7_250, 15_150),
    ),
    a4(
        "a4_48_25",
        size(48_500, 25_400),
        4,
        10,
        size(0, 0),
        size(8_000, 21_500),
    ),
    a4(
        "a4_38_21",
        size(38_100, 21_200),
        5,
        13,
        size(2_500, 0),
        size(4_750, 10_700),
    ),
];

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_sheet_to_begin_from_fits_its_page() {
        for preset in PRESETS {
            assert_eq!(preset.sheet.check(), Ok(()), "{}", preset.key);
        }
    }

    #[test]
    fn labels_lie_row_by_row_from_the_first_free_place() {
        let sheet = PRESETS[3].sheet;
        assert_eq!(sheet.places(), 21);
        let cell = |page, left, top| Cell { page, left, top };
        assert_eq!(sheet.cell(0, 1), cell(0, 7_250, 15_150));
        assert_eq!(sheet.cell(1, 1), cell(0, 73_250, 15_150));
        assert_eq!(sheet.cell(3, 1), cell(0, 7_250, 53_250));
        assert_eq!(sheet.cell(0, 5), cell(0, 73_250, 53_250));
        assert_eq!(sheet.cell(17, 5), cell(1, 7_250, 15_150));
        assert_eq!(
            (sheet.pages(0, 1), sheet.pages(17, 5), sheet.pages(18, 5)),
            (0, 1, 2)
        );
    }

    #[test]
    fn measures_are_read_with_comma_or_point_and_held_to_their_bounds() {
        let read = |field: SheetField, typed: &str| field.read(typed);
        assert_eq!(read(SheetField::LabelAcross, "63,5"), Ok(63_500));
        assert_eq!(read(SheetField::LabelAcross, " 50 "), Ok(50_000));
        assert_eq!(read(SheetField::Rows, "8"), Ok(8));
        for typed in ["", "wide", "1e3", "5 cm"] {
            let fault = SheetFault::NotANumber(SheetField::Top);
            assert_eq!(read(SheetField::Top, typed), Err(fault), "{typed}");
        }
        let fault = SheetFault::NotANumber(SheetField::Rows);
        assert_eq!(read(SheetField::Rows, "2.5"), Err(fault));
        let bounds = |field: SheetField| {
            let (least, most) = field.bounds();
            Err(SheetFault::OutOfBounds { field, least, most })
        };
        for typed in ["0", "7.9", "421"] {
            assert_eq!(
                read(SheetField::LabelDown, typed),
                bounds(SheetField::LabelDown)
            );
        }
        assert_eq!(
            read(SheetField::LabelDown, "-3"),
            bounds(SheetField::LabelDown)
        );
        assert_eq!(read(SheetField::Start, "0"), bounds(SheetField::Start));
    }

    #[test]
    fn more_labels_than_the_page_holds_are_refused_with_both_lengths() {
        let mut sheet = PRESETS[2].sheet;
        sheet.columns = 4;
        let (needs, page) = (280_000, 210_000);
        assert_eq!(sheet.check(), Err(SheetFault::TooWide { needs, page }));
        sheet.columns = 3;
        sheet.gap.down = 1_000;
        let (needs, page) = (303_500, 297_000);
        assert_eq!(sheet.check(), Err(SheetFault::TooHigh { needs, page }));
    }
}
