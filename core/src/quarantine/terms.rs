//! What a stay in quarantine usually waits for: a proposal, copied into the stay when it begins.

use crate::event::QuarantineWhy;
use crate::reference::signs::{self, Apart};
use crate::reference::virus::RETEST_DAYS;

/// What is waited for.
#[derive(Clone, Debug, Default, PartialEq, Eq, serde::Serialize, serde::Deserialize)]
pub struct Terms {
    #[serde(default)]
    pub days: u16,
    #[serde(default)]
    pub inspections: u8,
    #[serde(default)]
    pub treatments: u8,
    #[serde(default)]
    pub test_days: Vec<u16>,
}

/// Clean looks in a row every stay waits for.
const CLEAN_LOOKS: u8 = 3;
const ARRIVAL_DAYS: u16 = 30;

/// The usual terms, by why and by the sign that was found. Days are common practice, no source; the days of the two
/// tests follow Hu and others, Plant Disease 78 (1994).
#[must_use]
pub fn usual(why: QuarantineWhy, sign: Option<&str>) -> Terms {
    let days = |days| Terms {
        days,
        inspections: CLEAN_LOOKS,
        ..Terms::default()
    };
    let last = RETEST_DAYS.into_iter().max().unwrap_or(0);
    let tested = Terms {
        test_days: RETEST_DAYS.to_vec(),
        ..days(last)
    };
    match why {
        QuarantineWhy::Virus | QuarantineWhy::Exposed => tested,
        QuarantineWhy::Arrival | QuarantineWhy::Caution => days(ARRIVAL_DAYS),
        QuarantineWhy::Finding => {
            let row = sign.and_then(signs::sign);
            let terms = match row.map(|row| row.apart) {
                Some(Apart::UntilTested) => tested,
                Some(Apart::Days(some)) => days(some),
                Some(Apart::No) | None => days(ARRIVAL_DAYS),
            };
            Terms {
                treatments: row.map_or(0, |row| row.series),
                ..terms
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn armoured_scale_stays_sixty_days_with_three_clean_looks_and_its_series() {
        let terms = usual(QuarantineWhy::Finding, Some("scale"));
        assert_eq!(
            (terms.days, terms.inspections, terms.treatments),
            (60, 3, 4)
        );
        assert!(terms.test_days.is_empty());
    }

    #[test]
    fn an_exposed_lot_waits_for_the_second_test() {
        let terms = usual(QuarantineWhy::Exposed, None);
        assert_eq!((terms.days, terms.test_days), (240, vec![30, 240]));
    }
}
