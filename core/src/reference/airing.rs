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

/// Hours until anybody goes in: the label's, or the airing where that takes longer.
#[must_use]
pub fn hours_out(label_h: Option<u32>, aired: Option<Airing>) -> Option<u32> {
    label_h.max(aired.map(hours))
}

/// The instant so many hours after another.
#[must_use]
pub const fn after_hours(from_ms: i64, hours: u32) -> i64 {
    from_ms.saturating_add((hours as i64).saturating_mul(3_600_000))
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
