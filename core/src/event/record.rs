//! Events about the book itself: opening it, who writes in it, and putting it right.
//!
//! Nothing is overwritten. An amendment replaces one event whole at that event's own place in the order; a withdrawal
//! takes entries out of the reckoning and can itself be withdrawn.

use serde::{Deserialize, Serialize};

use crate::code::Prefix;
use crate::id::{Dev, EntryRef, MixId, Subject};
use crate::season::Hemisphere;

use super::{Event, is_default};

/// The book was opened by its first phone.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct BookOpened {
    /// Random identity of the book: a file of another book is refused.
    pub book: Dev,
    pub nursery: String,
    pub hemisphere: Hemisphere,
    /// Latitude in hundredths of a degree, north positive.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub latitude_cdeg: Option<i32>,
    /// A made-up nursery to try the program on.
    #[serde(default, skip_serializing_if = "is_default")]
    pub demo: bool,
}

/// Something about the nursery changed: each field that is there is a change.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct BookSet {
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub nursery: Option<String>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub hemisphere: Option<Hemisphere>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub latitude_cdeg: Option<i32>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub poisons_number: Option<String>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub operator_number: Option<String>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub record: Option<RecordRule>,
    /// The bag or pile of a mix that is potted from now; no batch says that none is open.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub mix_open: Option<MixOpen>,
    /// The load of drainage stone in use now.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub stone_open: Option<String>,
    /// The sign or word of the nursery's money.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub money: Option<String>,
}

/// The batch of a mix in use, as its label says.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct MixOpen {
    pub mix: MixId,
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub batch: String,
}

/// What the nursery asks of its own record of treatments.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct RecordRule {
    /// Key of a table of rules.
    pub profile: String,
    /// Keys of fields asked for beyond the table.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub more: Vec<String>,
    /// Keys of fields of the table that are not asked for here.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub less: Vec<String>,
    /// In place of the table's own hours and months.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub made_within_h: Option<u32>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub keep_months: Option<u16>,
}

/// A phone joined the book and took a prefix for the codes it hands out.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct PhoneJoined {
    pub dev: Dev,
    pub prefix: Prefix,
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub name: String,
}

/// A phone was taken off the book: lost, sold, or no longer in use. What it wrote until then stays.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct PhoneLeft {
    pub dev: Dev,
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub note: String,
}

/// A phone's clock was wrong over a run of its entries.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct ClockCorrected {
    pub dev: Dev,
    pub from_seq: u32,
    pub to_seq: u32,
    pub shift_ms: i64,
}

/// One event of an earlier entry reads differently: whole replacement, same kind, same things.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Amended {
    pub target: EntryRef,
    pub index: u16,
    pub event: Box<Event>,
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub why: String,
}

/// Why entries were withdrawn.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum WithdrawWhy {
    /// A slip of the finger: prints may fold it away.
    Undone,
    Mistake,
    Twice,
    /// Withdrawing a withdrawal.
    Restored,
}

/// Entries were taken out of the reckoning.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Withdrawn {
    pub targets: Vec<EntryRef>,
    pub why: WithdrawWhy,
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub note: String,
}

/// A question the book asked was answered.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Settled {
    /// Text key of the anomaly.
    pub anomaly: String,
    pub subject: Subject,
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub note: String,
}

macro_rules! about_the_book {
    ($($event:ty),+) => {$(
        impl $event {
            pub(crate) fn subjects(&self) -> Vec<Subject> {
                vec![Subject::Book]
            }
        }
    )+};
}
about_the_book!(BookOpened, BookSet);

impl PhoneJoined {
    pub(crate) fn subjects(&self) -> Vec<Subject> {
        vec![Subject::Phone(self.dev)]
    }
}

impl PhoneLeft {
    pub(crate) fn subjects(&self) -> Vec<Subject> {
        vec![Subject::Phone(self.dev)]
    }
}

impl ClockCorrected {
    pub(crate) fn subjects(&self) -> Vec<Subject> {
        vec![Subject::Phone(self.dev)]
    }
}

impl Amended {
    pub(crate) fn subjects(&self) -> Vec<Subject> {
        std::iter::once(Subject::Entry(self.target))
            .chain(self.event.subjects())
            .collect()
    }
}

impl Withdrawn {
    pub(crate) fn subjects(&self) -> Vec<Subject> {
        self.targets
            .iter()
            .map(|target| Subject::Entry(*target))
            .collect()
    }
}

impl Settled {
    /// What keeps no answers of its own leaves them with the book.
    pub(crate) fn subjects(&self) -> Vec<Subject> {
        match self.subject {
            Subject::Pot(_)
            | Subject::Mix(_)
            | Subject::Measure(_)
            | Subject::Feed(_)
            | Subject::Product(_)
            | Subject::Container(_)
            | Subject::Treatment(_)
            | Subject::Finding(_)
            | Subject::NoteTask(_) => vec![self.subject, Subject::Book],
            own => vec![own],
        }
    }
}
