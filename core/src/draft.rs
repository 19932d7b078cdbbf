//! Work in hand: what was tapped and is not recorded yet.
//!
//! A draft is stored at every tap and shown at once. It is not an entry and says nothing to other phones. It has a
//! version, every field has a default, and an update of the app reads older ones; what cannot be read is kept as text
//! for the rescue file. Before anything is recorded it is decided anew, and a refusal keeps the draft.

use std::collections::BTreeMap;

use serde::{Deserialize, Serialize};

use crate::code::LotCode;
use crate::command::{Batch, Command, CountedPieces};
use crate::event::{ClosedHow, PieceClass};
use crate::id::{ClumpId, LotId, MixId, PlaceId, PotId};
use crate::name::PlantName;
use crate::potting::Layers;
use crate::state::State;
use crate::view::potting::potting_of;

/// Version of the drafts' form.
pub const DRAFT_VERSION: u16 = 1;

/// Where in the work a clump is.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum BenchStep {
    #[default]
    Pieces,
    Pots,
    Labels,
}

/// A clump being opened: what was chosen so far.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct OpeningDraft {
    #[serde(default)]
    pub version: u16,
    #[serde(default)]
    pub lots: Vec<LotId>,
    #[serde(default)]
    pub unbooked_pots: u32,
    #[serde(default)]
    pub name_typed: String,
    #[serde(default)]
    pub tray: Option<u32>,
    #[serde(default)]
    pub search: String,
    #[serde(default)]
    pub unbooked: bool,
}

/// How one class of pieces will be potted.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct BatchDraft {
    /// Pieces to pot now; the rest of the class stays bare.
    #[serde(default)]
    pub plants: u32,
    #[serde(default)]
    pub stands: u32,
    #[serde(default)]
    pub pot: Option<PotId>,
    #[serde(default)]
    pub layers: Layers,
    #[serde(default)]
    pub mix: Option<MixId>,
    #[serde(default)]
    pub place: Option<PlaceId>,
    /// Reserved for the labels; never used for anything else.
    #[serde(default)]
    pub code: Option<LotCode>,
    #[serde(default)]
    pub written: bool,
}

/// A clump in work: counts and choices that are not recorded yet.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct BenchDraft {
    #[serde(default)]
    pub version: u16,
    #[serde(default)]
    pub step: BenchStep,
    /// Pieces counted since the last that was recorded, by class; negative when put back.
    #[serde(default)]
    pub more: BTreeMap<PieceClass, i32>,
    #[serde(default)]
    pub bulbs: Option<u32>,
    #[serde(default)]
    pub batches: BTreeMap<PieceClass, BatchDraft>,
    /// Classes to be potted after the others, the last put off last.
    #[serde(default)]
    pub later: Vec<PieceClass>,
    #[serde(default)]
    pub labels_written: Vec<LotId>,
    #[serde(default)]
    pub note: String,
}

impl BenchDraft {
    /// Pieces of a class as the grower sees them: recorded and counted since.
    #[must_use]
    pub fn count(&self, taken: u64, class: PieceClass) -> u64 {
        let more = i64::from(self.more.get(&class).copied().unwrap_or(0));
        taken.saturating_add_signed(more)
    }

    /// One more or fewer; never below what is potted already.
    pub fn step_by(&mut self, taken: u64, potted: u64, class: PieceClass, by: i32) {
        let now = self.count(taken, class);
        let wanted = now
            .saturating_add_signed(i64::from(by))
            .clamp(potted, u64::from(crate::limits::PIECES_MAX));
        let taken = i64::try_from(taken).unwrap_or(i64::MAX);
        let more = i64::try_from(wanted)
            .unwrap_or(i64::MAX)
            .saturating_sub(taken);
        self.more.insert(class, i32::try_from(more).unwrap_or(0));
    }

    /// The command that records what was counted; `None` when nothing changed.
    #[must_use]
    pub fn take(&self, clump: ClumpId) -> Option<Command> {
        let mut pieces: Vec<CountedPieces> = self
            .more
            .iter()
            .filter(|(_, plants)| **plants != 0)
            .map(|(class, plants)| CountedPieces {
                class: *class,
                plants: *plants,
                bulbs: None,
            })
            .collect();
        if let (Some(bulbs), Some(first)) = (self.bulbs, pieces.first_mut()) {
            first.bulbs = Some(bulbs);
        }
        (!pieces.is_empty()).then_some(Command::TakePieces { clump, pieces })
    }

    /// Once recorded, the counts are the book's.
    pub fn taken(&mut self) {
        self.more.clear();
        self.bulbs = None;
    }

    /// The command that records one class as potted.
    ///
    /// # Errors
    /// The layers do not fit the pot.
    pub fn pot(
        &self,
        state: &State,
        clump: ClumpId,
        class: PieceClass,
        plants: u32,
        name: Option<PlantName>,
    ) -> Result<Command, crate::potting::PottingRejection> {
        let batch = self.batches.get(&class).cloned().unwrap_or_default();
        let potting = potting_of(
            state.facts(),
            batch.pot,
            batch.mix,
            batch.layers,
            batch.stands,
        )?;
        let stands = batch.stands;
        let batch = Batch {
            class,
            code: batch.code,
            name,
            plants,
            stands,
            with: None,
            potting,
            place: batch.place,
        };
        Ok(Command::PotPieces {
            clump,
            batches: vec![batch],
        })
    }

    /// Puts a class off: the others come first.
    pub fn put_off(&mut self, class: PieceClass) {
        self.later.retain(|later| *later != class);
        self.later.push(class);
    }

    /// The command that ends the work; emptied pots go to the wash.
    #[must_use]
    pub fn close(&self, clump: ClumpId, dirty_pots: u32) -> Command {
        Command::CloseDivision {
            clump,
            how: ClosedHow::Done,
            dirty_pots,
            note: self.note.clone(),
        }
    }

    /// Codes reserved for labels.
    pub fn reserved(&self) -> impl Iterator<Item = LotCode> + '_ {
        self.batches.values().filter_map(|batch| batch.code)
    }
}

/// Reads a draft's stored text; `None` when it is not one this version can read.
#[must_use]
pub fn read<T: for<'de> Deserialize<'de>>(text: &str) -> Option<T> {
    serde_json::from_str(text).ok()
}

/// A draft's stored text.
#[must_use]
pub fn write(draft: &impl Serialize) -> String {
    serde_json::to_string(draft).unwrap_or_default()
}
