//! What work at the bench takes, in tenths of a minute: until the book's own timers know better.

/// A piece of work.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Work {
    /// Knocking out and stripping a clump, for each litre of pot.
    StripLitre,
    /// Cutting what filled a pot of 15 to 20 cm into pieces.
    DividePot,
    CleanPiece,
    ToolChange,
    /// Stone, mix and stake.
    PotPiece,
    PotOn,
    SetInMoss,
    Label,
    WashPot,
    /// Washing ten litres of stone.
    WashStone,
}

/// A row: the usual figure with the lowest and the highest.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct LabourRow {
    pub work: Work,
    pub tenths: u32,
    pub low: u32,
    pub high: u32,
}

pub const LABOUR_SOURCE: &str = "common practice, no source";

const fn row(work: Work, tenths: u32, low: u32, high: u32) -> LabourRow {
    LabourRow {
        work,
        tenths,
        low,
        high,
    }
}

/// All of it, in the order of the enum. Hundredths of a minute are rounded up.
pub const LABOUR: [LabourRow; 10] = [
    row(Work::StripLitre, 15, 8, 30),
    row(Work::DividePot, 120, 60, 250),
    row(Work::CleanPiece, 30, 10, 60),
    row(Work::ToolChange, 5, 2, 10),
    row(Work::PotPiece, 30, 15, 60),
    row(Work::PotOn, 10, 5, 20),
    row(Work::SetInMoss, 10, 5, 20),
    row(Work::Label, 5, 3, 10),
    row(Work::WashPot, 5, 2, 10),
    row(Work::WashStone, 100, 50, 200),
];

/// The row of a piece of work.
#[must_use]
pub fn labour(work: Work) -> LabourRow {
    let found = LABOUR.iter().find(|row| row.work == work);
    found.copied().unwrap_or(row(work, 0, 0, 0))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_work_has_its_row_and_a_range_around_it() {
        for (at, row) in LABOUR.iter().enumerate() {
            assert_eq!(row.work as usize, at);
            assert!(row.low < row.tenths && row.tenths < row.high);
        }
    }
}
