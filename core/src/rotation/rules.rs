//! The rule of thumb by which runs are judged: a table, and the grower's own once it is changed.
//!
//! Origin of the usual one: University of California, fungicide tables with resistance potential (groups 1, 4, 9, 11 and
//! 17 once and then a change, all others at most twice running); written for crops of the field there, taken here as a
//! sane beginning. Insecticides by IRAC's principle that one mode of action may be repeated within one generation of the
//! pest and not in the next; three weeks is a generation of thrips or mites (common practice). That soap, oil and what
//! only wakes a plant's defence break no run is common practice, no source. The label comes before all of it.

use serde::{Deserialize, Serialize};

use crate::event::is_default;
use crate::reference::actives::{Code, CodeList};

/// What holds for one code, or for all that begin alike.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct CodeRule {
    pub list: CodeList,
    /// The main group, or its beginning and a star; a star alone is every other code.
    pub code: String,
    /// Uses in a row before a change; `None` sets no limit.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub in_a_row: Option<u16>,
    /// Uses within 365 days; `None` leaves it to the label.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub per_year: Option<u16>,
    /// Uses within so many days of the first count as one: a generation of the pest.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub together_days: Option<u16>,
    /// It does not break the run of another code.
    #[serde(default, skip_serializing_if = "is_default")]
    pub breaks_no_run: bool,
}

/// The whole table; the first row that fits a code holds for it.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct RotationRules {
    pub rows: Vec<CodeRule>,
}

impl RotationRules {
    /// The row for a code. A table without one sets no limit.
    #[must_use]
    pub fn of(&self, code: &Code) -> Option<&CodeRule> {
        let main = code.main_group();
        self.rows.iter().find(|row| {
            Some(row.list) == code.list
                && match row.code.strip_suffix('*') {
                    Some(begin) => main.starts_with(begin),
                    None => main == row.code,
                }
        })
    }

    /// Whether a use of this code breaks the run of another.
    #[must_use]
    pub(super) fn breaks(&self, code: &Code) -> bool {
        self.of(code).is_none_or(|row| !row.breaks_no_run)
    }
}

/// The table a book begins with.
#[must_use]
pub fn usual() -> RotationRules {
    let row = |list, code: &str, in_a_row: Option<u16>| CodeRule {
        list,
        code: code.to_owned(),
        in_a_row,
        per_year: None,
        together_days: None,
        breaks_no_run: false,
    };
    let idle = |list, code| CodeRule {
        breaks_no_run: true,
        ..row(list, code, None)
    };
    let mut rows: Vec<CodeRule> = ["1", "4", "9", "11", "17"]
        .into_iter()
        .map(|code| row(CodeList::Frac, code, Some(1)))
        .collect();
    rows.extend([
        row(CodeList::Frac, "M*", None),
        row(CodeList::Frac, "BM*", None),
        CodeRule {
            breaks_no_run: true,
            ..row(CodeList::Frac, "P*", Some(2))
        },
        idle(CodeList::Frac, "NC"),
        row(CodeList::Frac, "*", Some(2)),
        idle(CodeList::Irac, "UNM"),
        idle(CodeList::Irac, "NC"),
        row(CodeList::Irac, "UNF", None),
        CodeRule {
            together_days: Some(21),
            ..row(CodeList::Irac, "*", Some(1))
        },
    ]);
    RotationRules { rows }
}
