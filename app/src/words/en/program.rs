//! The program itself: whether it opens without a network, and its next version.

use crate::ledger::Keeping;

pub const LANGUAGE_TITLE: &str = "Language";
pub const LANGUAGE_AS_PHONE: &str = "As the phone";
pub const LANGUAGE_NOT_HERE: &str = "That language is not on this phone yet, and could not be fetched. Choose it once on the network.";
pub const UNITS: &str = "Units";
pub const METRIC: &str = "Metric";
pub const US: &str = "US";
pub const IMPERIAL: &str = "Imperial";
pub const UNITS_HINT: &str =
    "What is measured for a tub stays in mL and g, as syringes and scales are marked.";
pub const WITHOUT_NETWORK: &str = "Without a network";
const NEXT: &str = "A new version is ready. Nothing in hand is lost.";
pub const PUT_IN: &str = "Put it in";

/// A next version lies ready, with what is new in it where that is known.
#[must_use]
pub fn next(news: &str) -> String {
    if news.is_empty() {
        return NEXT.to_owned();
    }
    format!("A new version is ready. {news} Nothing in hand is lost.")
}

/// What is new in the version that is in use.
#[must_use]
pub fn in_this(news: &str) -> String {
    format!("New in this version: {news}")
}

/// Whether the program is kept on this phone, or why not and what to do.
#[must_use]
pub fn kept(keeping: Keeping) -> &'static str {
    match keeping {
        Keeping::OnItsWay => "Being kept: stay on the network until this says it is done.",
        Keeping::Kept => "Kept on this phone: it opens without a network.",
        Keeping::NotInThisBuild => "Not kept: this copy of the program cannot be kept.",
        Keeping::OpenAddress => {
            "Not kept: its address does not begin with https. It opens only where that address can be reached."
        }
        Keeping::Forbidden => {
            "Not kept: this browser does not allow it here. Private windows often do not: open it in a normal one."
        }
        Keeping::Incomplete => {
            "Not kept: not everything arrived whole, or the phone has no room. Free some space and open it again on the network."
        }
    }
}
