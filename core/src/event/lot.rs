//! Events of a lot: how it came, what it is called, where it stands, how many there are.
//!
//! Plants and the pots or trays they stand in are counted apart: several back-bulbs share a tray, and a weak shoot may
//! sit in another lot's pot.

use chrono::NaiveDate;
use serde::{Deserialize, Serialize};

use crate::code::LotCode;
use crate::id::{EntryRef, LotId, MixId, PlaceId, PotId, Subject};
use crate::name::PlantName;
use crate::potting::Layers;

use super::is_default;

/// What kind of piece a plant was potted as; decides what is due for it and when it may flower.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum PieceClass {
    /// Large enough, with a lead, to flower in the coming season.
    Flowering,
    /// Has a lead but is under flowering size.
    Starter,
    /// Old leafless bulb without a lead, set for a shoot.
    BackBulb,
    /// A new growth broken off, with few or no roots.
    BrokenShoot,
    /// Offshoot with roots of its own, or a top cut.
    Keiki,
    /// Soft, hollow or dead: not kept.
    Thrown,
}

impl PieceClass {
    /// In the order they are counted at the bench.
    pub const ALL: [Self; 6] = [
        Self::Flowering,
        Self::Starter,
        Self::BackBulb,
        Self::BrokenShoot,
        Self::Keiki,
        Self::Thrown,
    ];

    /// Whether pieces of this class are kept and have to be potted.
    #[must_use]
    pub fn is_kept(self) -> bool {
        self != Self::Thrown
    }
}

/// How a lot came into the nursery.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Source {
    /// It was here before the book was opened.
    #[default]
    Here,
    Bought,
    Exchanged,
    Seed,
    Flask,
}

/// What the plants were potted in: the pot and mix by reference, with what was relied on copied.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Potting {
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub pot: Option<PotId>,
    /// The pot as it was called then.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub pot_name: String,
    /// Stone below and room under the rim, micrometres.
    #[serde(default, skip_serializing_if = "is_default")]
    pub layers: Layers,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub mix: Option<MixId>,
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub mix_name: String,
    /// Mix for all pots together, settling counted, microlitres.
    #[serde(default, skip_serializing_if = "is_default")]
    pub mix_ul: i64,
    /// Stone for all pots together, microlitres and milligrams.
    #[serde(default, skip_serializing_if = "is_default")]
    pub stone_ul: i64,
    #[serde(default, skip_serializing_if = "is_default")]
    pub stone_mg: i64,
    /// How long the mix holds before it breaks down, as believed then.
    #[serde(default, skip_serializing_if = "is_default")]
    pub mix_life_months: u16,
    /// Batches of mix and stone, for finding where one went.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub mix_batch: String,
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub stone_batch: String,
}

/// A lot came into the book.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct LotReceived {
    pub lot: LotId,
    pub code: LotCode,
    #[serde(default, skip_serializing_if = "is_default")]
    pub name: PlantName,
    pub plants: u32,
    pub stands: u32,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub place: Option<PlaceId>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub class: Option<PieceClass>,
    #[serde(default, skip_serializing_if = "is_default")]
    pub source: Source,
    /// Whom it came from, and their number for it.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub from: String,
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub outside_ref: String,
    /// When it was last potted, where known.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub potted_on: Option<NaiveDate>,
    #[serde(default, skip_serializing_if = "is_default")]
    pub potting: Potting,
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub note: String,
}

/// Why a part of a lot became a lot of its own.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum SplitWhy {
    Moved,
    Quarantined,
    Ill,
    Sorted,
}

/// A part of a lot became a lot of its own; tasks, history and suspicion go with both.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct LotSplit {
    pub from: LotId,
    pub lot: LotId,
    pub code: LotCode,
    pub plants: u32,
    pub stands: u32,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub place: Option<PlaceId>,
    pub why: SplitWhy,
    /// Name as it stood, so that the part reads alone.
    #[serde(default, skip_serializing_if = "is_default")]
    pub name: PlantName,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub class: Option<PieceClass>,
}

/// A name was given, confirmed or put right.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct LotNamed {
    pub lot: LotId,
    pub name: PlantName,
}

/// A lot got another code on its label.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct LotCoded {
    pub lot: LotId,
    pub code: LotCode,
}

/// A whole lot was put in another place.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Moved {
    pub lot: LotId,
    pub to: PlaceId,
}

/// Somebody counted; the balance stands there from then on.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Counted {
    pub lot: LotId,
    pub plants: u32,
    pub stands: u32,
    /// What the book said just before, so that the difference can be told even when late entries arrive.
    pub believed_plants: i64,
    pub believed_stands: i64,
}

/// Why plants were lost.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum LossCause {
    Rot,
    Pest,
    Virus,
    Dried,
    Cold,
    Heat,
    NoShoot,
    Broken,
    Missing,
    Discarded,
    Unknown,
}

impl LossCause {
    pub const ALL: [Self; 11] = [
        Self::Rot,
        Self::Pest,
        Self::Virus,
        Self::Dried,
        Self::Cold,
        Self::Heat,
        Self::NoShoot,
        Self::Broken,
        Self::Missing,
        Self::Discarded,
        Self::Unknown,
    ];
}

/// Plants died or were thrown away.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Lost {
    pub lot: LotId,
    pub plants: u32,
    pub stands: u32,
    pub cause: LossCause,
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub note: String,
}

/// Plants left the nursery for somebody.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Sold {
    pub lot: LotId,
    pub plants: u32,
    pub stands: u32,
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub to: String,
    /// Price of all of them, in hundredths of the nursery's currency.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub price_cents: Option<i64>,
    /// Out of those that were kept by this entry.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub reserved: Option<EntryRef>,
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub passport: String,
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub note: String,
}

/// Where further plants came from.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum GainWhy {
    /// A plant made another: offshoot, second shoot.
    Offshoot,
    CameApart,
    Returned,
    Found,
}

/// There are more plants than before.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Gained {
    pub lot: LotId,
    pub plants: u32,
    pub stands: u32,
    pub why: GainWhy,
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub note: String,
}

/// A lot was potted anew or potted on without being divided.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Repotted {
    pub lot: LotId,
    pub stands: u32,
    pub potting: Potting,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub class: Option<PieceClass>,
}

macro_rules! about_one_lot {
    ($($event:ty),+) => {$(
        impl $event {
            pub(crate) fn subjects(&self) -> Vec<Subject> {
                vec![Subject::Lot(self.lot)]
            }
        }
    )+};
}
about_one_lot!(
    LotReceived,
    LotNamed,
    LotCoded,
    Moved,
    Counted,
    Lost,
    Sold,
    Gained,
    Repotted
);

impl LotSplit {
    pub(crate) fn subjects(&self) -> Vec<Subject> {
        vec![Subject::Lot(self.from), Subject::Lot(self.lot)]
    }
}
