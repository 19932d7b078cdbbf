//! Being led through the first repot, kept like other work in hand.

use serde::{Deserialize, Serialize};

use crate::draft::{DRAFT_VERSION, Versioned};
use crate::event::ClosedHow;
use crate::state::Facts;

/// Where a grower with a new book stands with it.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Led {
    /// It is offered.
    #[default]
    Offered,
    /// A sentence stands at each step.
    UnderWay,
    /// Put away, or come to its end.
    Over,
}

/// How far it is on this phone.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct FirstDraft {
    #[serde(default)]
    pub version: u16,
    #[serde(default)]
    pub led: Led,
}

impl FirstDraft {
    #[must_use]
    pub const fn of(led: Led) -> Self {
        Self {
            version: DRAFT_VERSION,
            led,
        }
    }
}

impl Versioned for FirstDraft {
    fn touch(&mut self) {
        self.version = DRAFT_VERSION;
    }
}

/// Whether nobody has finished a clump in this book yet; one that was put back whole is not finished.
#[must_use]
pub fn none_finished(facts: &Facts) -> bool {
    let done = |how| matches!(how, ClosedHow::Done);
    !facts
        .clumps
        .values()
        .any(|clump| clump.closed.as_ref().is_some_and(|closed| done(closed.how)))
}
