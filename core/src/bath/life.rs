//! The life of a bath: how far its level fell, what was added, how old and how dirty it is, and when it is thrown out.
//!
//! Plants carry bath away. How strong the rest still is nobody sees: it is worked out from the levels with an
//! assumption that is said, and shown for a second one beside it. Invariants: what is added is of the original strength;
//! a bath is fresh each day; an age the clock cannot tell is said to be unknown.

use chrono::NaiveDate;
use serde::{Deserialize, Serialize};

use super::batch::Suspicion;
use super::fine::after;
use super::{BathDraft, Side, TubFault, TubShape};
use crate::event::TreatedPart;
use crate::id::Dev;
use crate::quantity::Volume;
use crate::time::civil_day;

/// Plants take out water and product alike.
const ALIKE_PERMILLE: u32 = 1_000;
/// What they carry away may be stronger than the bath by a fifth: the second figure that is shown.
///
/// Nobody measured it for orchids; the value is an example, not a finding.
const FASTER_PERMILLE: u32 = 1_200;

/// A change of the level.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Level {
    /// Read: so much is in it.
    Read { ul: i64 },
    /// Filled up at the original strength by so much.
    Added { ul: i64 },
}

/// What is kept of a bath's life while it is in hand.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct Life {
    /// When it was mixed, by the phone's clock.
    #[serde(default)]
    pub mixed_ms: Option<i64>,
    /// By which phone; unknown of a bath from before that was kept.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub mixed_by: Option<Dev>,
    #[serde(default)]
    pub levels: Vec<Level>,
    /// The level as it is typed now: litres, or how high the water stands.
    #[serde(default)]
    pub level_typed: String,
    #[serde(default)]
    pub dirty: bool,
    /// The worst that was suspected of anything that lay in it, and of what lies in it now.
    #[serde(default)]
    pub worst_in: Suspicion,
    #[serde(default)]
    pub worst_lying: Suspicion,
    /// Where the rest goes, as far as it is typed.
    #[serde(default)]
    pub rest: String,
    /// Pieces that came out of it.
    #[serde(default)]
    pub pieces: u32,
}

/// What is wrong with a level.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum LevelFault {
    Tub(TubFault),
    /// Higher than it stood.
    Higher,
}

/// Why a bath is thrown out.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum ThrowOut {
    /// Mixed on an earlier day: fresh each day.
    DayOver,
    Dirty,
    SymptomsDipped,
    VirusDipped,
}

/// How old a bath is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Age {
    /// Mixed so many minutes ago.
    Minutes(u32),
    /// The clock stands before it was mixed: it was put back.
    ClockBehind,
    /// From before ages were kept.
    Unknown,
}

/// The strength left, in thousandths of what was mixed.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct StrengthLeft {
    /// If plants take out water and product alike.
    pub alike_permille: u32,
    /// If what they take out is stronger by a fifth.
    pub faster_permille: u32,
}

impl Life {
    /// A batch came out.
    pub(super) fn came_out(&mut self, lying: &[TreatedPart]) {
        let pieces = lying.iter().map(|part| match part {
            TreatedPart::Lot { plants, .. } | TreatedPart::Pieces { plants, .. } => *plants,
        });
        self.pieces = pieces.fold(self.pieces, u32::saturating_add);
        self.worst_in = self.worst_in.max(self.worst_lying);
    }
}

impl BathDraft {
    /// It is mixed now: a new life begins.
    pub fn mixed(&mut self, now_ms: i64, dev: Dev) {
        self.step = super::BathStep::Load;
        self.life = Life {
            mixed_ms: Some(now_ms),
            mixed_by: Some(dev),
            ..Life::default()
        };
    }

    /// What is in the tub as far as anybody read it.
    ///
    /// # Errors
    /// The tub itself.
    pub fn level(&self) -> Result<Volume, TubFault> {
        let full = self.tub.water()?.ul();
        let now = self
            .life
            .levels
            .iter()
            .fold(full, |now, level| match level {
                Level::Read { ul } => *ul,
                Level::Added { ul } => now.saturating_add(*ul),
            });
        Ok(Volume::from_ul(now))
    }

    /// The level as typed: litres, or how high the water stands in the tub that was measured.
    ///
    /// # Errors
    /// What cannot be read, or a level above the one before.
    pub fn level_typed(&self) -> Result<Volume, LevelFault> {
        let mut tub = self.tub.clone();
        let typed = self.life.level_typed.clone();
        match tub.shape {
            TubShape::Litres => tub.litres = typed,
            _ => drop(tub.sides.insert(Side::Water, typed)),
        }
        let read = tub.water().map_err(LevelFault::Tub)?;
        let before = self.level().map_err(LevelFault::Tub)?;
        if read > before {
            return Err(LevelFault::Higher);
        }
        Ok(read)
    }

    /// Keeps the level as typed.
    ///
    /// # Errors
    /// As [`BathDraft::level_typed`].
    pub fn read_level(&mut self) -> Result<(), LevelFault> {
        let ul = self.level_typed()?.ul();
        self.life.levels.push(Level::Read { ul });
        self.life.level_typed.clear();
        Ok(())
    }

    /// Water that is missing to the first level.
    #[must_use]
    pub fn fell(&self) -> Option<Volume> {
        let full = self.tub.water().ok()?;
        let fell = full.checked_sub(self.level().ok()?)?;
        (fell.ul() > 0).then_some(fell)
    }

    /// What every piece carried away, as far as the level says.
    #[must_use]
    pub fn per_piece(&self) -> Option<Volume> {
        let pieces = i64::from(self.life.pieces);
        let full = self.tub.water().ok()?.ul();
        let added = self.life.levels.iter().map(|level| match level {
            Level::Added { ul } => *ul,
            Level::Read { .. } => 0,
        });
        let carried = full
            .saturating_add(added.sum::<i64>())
            .saturating_sub(self.level().ok()?.ul());
        (pieces > 0 && carried > 0).then(|| Volume::from_ul(carried / pieces))
    }

    /// How strong the rest still is; `None` until somebody read a level.
    #[must_use]
    pub fn strength_left(&self) -> Option<StrengthLeft> {
        if self.life.levels.is_empty() {
            return None;
        }
        let full = self.tub.water().ok()?.ul();
        Some(StrengthLeft {
            alike_permille: after(full, &self.life.levels, ALIKE_PERMILLE),
            faster_permille: after(full, &self.life.levels, FASTER_PERMILLE),
        })
    }

    /// How old it is.
    #[must_use]
    pub fn age(&self, now_ms: i64) -> Age {
        let Some(mixed_ms) = self.life.mixed_ms else {
            return Age::Unknown;
        };
        let since = now_ms.saturating_sub(mixed_ms);
        if since < 0 {
            return Age::ClockBehind;
        }
        Age::Minutes(u32::try_from(since / 60_000).unwrap_or(u32::MAX))
    }

    /// Why it is thrown out now; nothing while it may go on.
    #[must_use]
    pub fn throw_out(&self, today: NaiveDate, off_min: i16) -> Vec<ThrowOut> {
        let mixed_on = self.life.mixed_ms.and_then(|ms| civil_day(ms, off_min));
        let mut why = Vec::new();
        if mixed_on.is_some_and(|on| on < today) {
            why.push(ThrowOut::DayOver);
        }
        if self.life.dirty {
            why.push(ThrowOut::Dirty);
        }
        match self.life.worst_in {
            Suspicion::Nothing => {}
            Suspicion::Symptoms => why.push(ThrowOut::SymptomsDipped),
            Suspicion::Virus => why.push(ThrowOut::VirusDipped),
        }
        why
    }
}
