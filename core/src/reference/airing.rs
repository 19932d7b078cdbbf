//! How long a closed house is aired after a spray, a mist, a fog or a smoke, before anybody goes in.
//!
//! One of the rows is enough, and where the label asks for more the label holds. Re-entry is the longer of the label's
//! interval and the airing; a dip is not among what asks for it.

use crate::event::Airing;

/// A way of airing, and the hours it takes.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct AiringRow {
    pub how: Airing,
    pub hours: u32,
    pub source: &'static str,
}

const CALIFORNIA: &str = "3 CCR 6769, California, ventilation of greenhouses before entry";

/// Every way.
pub const AIRINGS: [AiringRow; 3] = [
    AiringRow {
        how: Airing::Fans,
        hours: 2,
        source: CALIFORNIA,
    },
    AiringRow {
        how: Airing::Vents,
        hours: 4,
        source: CALIFORNIA,
    },
    AiringRow {
        how: Airing::Shut,
        hours: 24,
        source: CALIFORNIA,
    },
];

/// Hours one way of airing takes.
#[must_use]
pub const fn hours(how: Airing) -> u32 {
    match how {
        Airing::Fans => AIRINGS[0].hours,
        Airing::Vents => AIRINGS[1].hours,
        Airing::Shut => AIRINGS[2].hours,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_way_has_the_hours_of_its_row() {
        for row in AIRINGS {
            assert_eq!(hours(row.how), row.hours);
            assert!(!row.source.is_empty());
        }
    }
}
