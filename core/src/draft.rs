//! Work in hand: what was tapped and is not recorded yet.
//!
//! A draft is stored at every tap and shown at once. It is not an entry and says nothing to other phones. It has a
//! version, every field has a default, and an update of the app reads older ones; what cannot be read is kept as text
//! for the rescue file. Before anything is recorded it is decided anew, and a refusal keeps the draft.

use std::collections::BTreeMap;

use chrono::NaiveDate;
use serde::{Deserialize, Serialize};

use crate::code::LotCode;
use crate::command::{Batch, Command, CountedPieces};
use crate::event::{ClosedHow, CutPlan, PieceClass};
use crate::id::{ClumpId, LotId, MixId, PlaceId, PotId};
use crate::name::PlantName;
use crate::potting::Layers;
use crate::state::State;
use crate::view::potting::potting_of;

/// Version of the drafts' form.
pub const DRAFT_VERSION: u16 = 1;

/// A draft that says which version wrote it.
pub trait Versioned {
    /// Notes that this version wrote it.
    fn touch(&mut self);
}

/// Who works with this phone, and the number of their licence: copied into the treatments written on it.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct Signer {
    #[serde(default)]
    pub version: u16,
    #[serde(default)]
    pub person: String,
    #[serde(default)]
    pub licence: String,
}

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
    /// The tool was not changed after the last clump.
    #[serde(default)]
    pub same_tool: bool,
    /// Plants that go onto the bench, where it is not all of a lot.
    #[serde(default)]
    pub plants: BTreeMap<LotId, u32>,
    /// What it is meant to become, chosen for exactly these lots.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub plan: Option<CutPlan>,
}

impl OpeningDraft {
    /// Plants and pots of a lot that go onto the bench: all, unless fewer plants were asked for.
    ///
    /// Pots follow their share, rounded up: a tray that is begun comes along (common practice, no source).
    #[must_use]
    pub fn opened(&self, lot: LotId, plants: u32, stands: u32) -> (u32, u32) {
        let going = self.plants.get(&lot).copied().unwrap_or(plants);
        let going = going.clamp(plants.min(1), plants);
        if going == plants {
            return (plants, stands);
        }
        let share = u64::from(stands)
            .saturating_mul(u64::from(going))
            .div_ceil(u64::from(plants));
        (going, u32::try_from(share).unwrap_or(stands))
    }
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

impl BatchDraft {
    /// Pieces to pot now; pots follow where each piece has its own.
    pub fn set_plants(&mut self, plants: u32) {
        if self.stands == self.plants {
            self.stands = plants;
        }
        self.plants = plants;
    }
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
        if self.bulbs.is_some() {
            match pieces.first_mut() {
                Some(first) => first.bulbs = self.bulbs,
                // Bulbs may be counted after the pieces: then nothing more came off.
                None => pieces.push(CountedPieces {
                    class: PieceClass::Flowering,
                    plants: 0,
                    bulbs: self.bulbs,
                }),
            }
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

    /// The class whose turn it is, of those with bare pieces: none that was put off before one that was not, then
    /// what was put off longest ago.
    #[must_use]
    pub fn turn(&self, bare: &[PieceClass]) -> Option<PieceClass> {
        let ready = bare.iter().find(|class| !self.later.contains(class));
        ready
            .or_else(|| self.later.iter().find(|class| bare.contains(class)))
            .copied()
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

    /// The same with the work it leaves behind: emptied pots and their stone are dirty until somebody washes them.
    #[must_use]
    pub fn close_and_wash(
        &self,
        clump: ClumpId,
        dirty_pots: u32,
        wash: String,
        due_on: NaiveDate,
    ) -> Command {
        let close = self.close(clump, dirty_pots);
        if dirty_pots == 0 {
            return close;
        }
        let wash = Command::NoteTask {
            task: None,
            text: wash,
            due_on,
            repeat_days: None,
            lot: None,
            place: None,
        };
        Command::Together(vec![close, wash])
    }

    /// The command that puts the clump back as it came; pieces counted by mistake are counted back in the same entry.
    #[must_use]
    pub fn put_back(&self, clump: ClumpId) -> Command {
        let close = Command::CloseDivision {
            clump,
            how: ClosedHow::PutBack,
            dirty_pots: 0,
            note: self.note.clone(),
        };
        match self.take(clump) {
            Some(take) => Command::Together(vec![take, close]),
            None => close,
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

#[cfg(test)]
mod tests {
    use super::*;
    use crate::id::{Dev, EntryRef, ThingId};

    fn thing(n: u16) -> ThingId {
        let entry = EntryRef {
            dev: Dev(1),
            seq: 1,
        };
        ThingId { entry, n }
    }

    fn lot() -> LotId {
        LotId(thing(1))
    }

    #[test]
    fn what_was_put_off_longest_ago_comes_first_once_all_were_put_off() {
        let bare = [PieceClass::Flowering, PieceClass::Starter];
        let mut draft = BenchDraft::default();
        let mut turns = Vec::new();
        for _ in 0..4 {
            let class = draft.turn(&bare).unwrap();
            turns.push(class);
            draft.put_off(class);
        }
        assert_eq!(turns, [bare[0], bare[1], bare[0], bare[1]]);
        assert_eq!(draft.turn(&bare[1..]), Some(PieceClass::Starter));
        assert_eq!(draft.turn(&[]), None);
    }

    #[test]
    fn bulbs_counted_after_the_pieces_are_recorded_on_their_own() {
        let mut draft = BenchDraft::default();
        let clump = ClumpId(thing(2));
        assert_eq!(draft.take(clump), None);
        draft.bulbs = Some(9);
        let Some(Command::TakePieces { pieces, .. }) = draft.take(clump) else {
            panic!("the bulbs are lost");
        };
        assert_eq!((pieces[0].plants, pieces[0].bulbs), (0, Some(9)));
        draft.taken();
        assert_eq!(draft.take(clump), None);
    }

    #[test]
    fn all_of_a_lot_goes_to_the_bench_unless_fewer_were_asked_for() {
        let mut draft = OpeningDraft::default();
        assert_eq!(draft.opened(lot(), 12, 12), (12, 12));
        draft.plants.insert(lot(), 5);
        assert_eq!(draft.opened(lot(), 12, 12), (5, 5));
        assert_eq!(draft.opened(lot(), 12, 2), (5, 1), "one tray of two");
        assert_eq!(
            draft.opened(lot(), 3, 3),
            (3, 3),
            "never more than there are"
        );
        let text = write(&draft);
        assert_eq!(read::<OpeningDraft>(&text), Some(draft));
    }

    #[test]
    fn pots_follow_the_pieces_unless_they_share_a_tray() {
        let mut each = BatchDraft {
            plants: 4,
            stands: 4,
            ..BatchDraft::default()
        };
        each.set_plants(3);
        assert_eq!((each.plants, each.stands), (3, 3));
        let mut tray = BatchDraft {
            plants: 4,
            stands: 1,
            ..BatchDraft::default()
        };
        tray.set_plants(3);
        assert_eq!((tray.plants, tray.stands), (3, 1));
    }
}
