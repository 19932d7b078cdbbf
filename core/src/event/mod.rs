//! The vocabulary of the book: everything an entry can say.
//!
//! An event is past and true: it says what happened, with what it relied on copied into it. Wire names are fixed by a
//! test and listed with their fields in DEVELOPERS.md; a stored form is never taken back. A new event, or a new field
//! that changes what an old one means, raises [`VOCABULARY`] and the entry's `needs`.
//!
//! Fields are integers in the smallest unit with the unit in the name, civil days, ids and short texts. No floats.

mod bath;
mod care;
mod clean;
mod climate;
mod containers;
mod cut;
mod lot;
mod measures;
pub mod photo;
mod prices;
mod quarantine;
mod record;
mod reserve;
mod rotation;
mod shelf;
mod water;
mod work;

pub use bath::*;
pub use care::*;
pub use clean::*;
pub use climate::*;
pub use containers::*;
pub use cut::*;
pub use lot::*;
pub use measures::*;
pub use prices::*;
pub use quarantine::*;
pub use record::*;
pub use reserve::*;
pub use rotation::*;
pub use shelf::*;
pub use water::*;
pub use work::*;

use serde::{Deserialize, Serialize};

use crate::id::Subject;

/// Version of the vocabulary this program understands in full.
pub const VOCABULARY: u16 = 1;

macro_rules! vocabulary {
    ($($(#[$doc:meta])* $variant:ident = $wire:literal),+ $(,)?) => {
        /// One thing that happened. What it says lies apart: the largest takes eight times the room of most, and a book
        /// holds them by the hundred thousand.
        #[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
        pub enum Event {
            $($(#[$doc])* #[serde(rename = $wire)] $variant(Box<$variant>),)+
        }

        impl Event {
            /// Wire name of the event: fixed for ever.
            #[must_use]
            pub fn wire_name(&self) -> &'static str {
                match self { $(Self::$variant(_) => $wire,)+ }
            }

            /// Everything whose facts this event changes, in the order it names them.
            #[must_use]
            pub fn subjects(&self) -> Vec<Subject> {
                match self { $(Self::$variant(event) => event.subjects(),)+ }
            }
        }

        $(impl From<$variant> for Event {
            fn from(event: $variant) -> Self { Self::$variant(Box::new(event)) }
        })+

        /// All wire names, in the order of the table in DEVELOPERS.md.
        pub const WIRE_NAMES: &[&str] = &[$($wire),+];
    };
}

vocabulary! {
    BookOpened = "book_opened",
    BookSet = "book_set",
    PhoneJoined = "phone_joined",
    PhoneLeft = "phone_left",
    PlaceSet = "place_set",
    PotSet = "pot_set",
    MixSet = "mix_set",
    ProductSet = "product_set",
    ContainerSet = "container_set",
    ContainerCounted = "container_counted",
    ContainerUsed = "container_used",
    MeasureSet = "measure_set",
    GroupSet = "group_set",
    FeedSet = "feed_set",
    RotationSet = "rotation_set",
    PriceSet = "price_set",
    LotReceived = "lot_received",
    LotSplit = "lot_split",
    LotNamed = "lot_named",
    LotCoded = "lot_coded",
    Moved = "moved",
    Counted = "counted",
    Lost = "lost",
    Sold = "sold",
    Reserved = "reserved",
    Released = "released",
    Gained = "gained",
    Repotted = "repotted",
    DivisionPlanned = "division_planned",
    DivisionOpened = "division_opened",
    PiecesTaken = "pieces_taken",
    PiecesPotted = "pieces_potted",
    DivisionClosed = "division_closed",
    HygieneConfirmed = "hygiene_confirmed",
    Sanitised = "sanitised",
    MaterialsMoved = "materials_moved",
    Treated = "treated",
    BathTopped = "bath_topped",
    BathEnded = "bath_ended",
    ClimateRead = "climate_read",
    Watered = "watered",
    Fed = "fed",
    Found = "found",
    Observed = "observed",
    QuarantineEntered = "quarantine_entered",
    QuarantineReleased = "quarantine_released",
    VirusTested = "virus_tested",
    TaskDecided = "task_decided",
    TaskNoted = "task_noted",
    ProtocolAdopted = "protocol_adopted",
    ClockCorrected = "clock_corrected",
    Amended = "amended",
    Withdrawn = "withdrawn",
    Settled = "settled",
}

impl Event {
    /// Whether `other` may stand in for this event as an amendment: same kind, same things.
    #[must_use]
    pub fn may_become(&self, other: &Self) -> bool {
        !matches!(self, Self::Amended(_) | Self::Withdrawn(_))
            && self.wire_name() == other.wire_name()
            && self.subjects() == other.subjects()
    }
}

/// Leaves a field out of the stored form when it says nothing.
pub(crate) fn is_default<T: Default + PartialEq>(value: &T) -> bool {
    *value == T::default()
}
