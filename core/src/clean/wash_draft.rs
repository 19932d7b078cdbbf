//! The wash in hand: a pile taken up, or pots and stone being put in.

use serde::{Deserialize, Serialize};

use crate::command::Command;
use crate::event::{Material, Stage};
use crate::id::Subject;
use crate::state::MaterialKind;

/// A pile taken up to go on; of how much is still open.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct TakenUp {
    pub material: Material,
    pub stage: Stage,
    #[serde(default)]
    pub apart: Option<Subject>,
    /// Pots, or microlitres of stone; all of it when `None`.
    #[serde(default)]
    pub amount: Option<i64>,
}

/// Pots or stone being put in.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct PutIn {
    /// The kind: a pot of the book, a name, or stone.
    #[serde(default)]
    pub material: Material,
    #[serde(default)]
    pub stone: bool,
    /// Found dirty, instead of bought.
    #[serde(default)]
    pub dirty: bool,
    /// Pots, or microlitres.
    #[serde(default)]
    pub amount: i64,
}

/// What is in hand at the wash.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct WashDraft {
    #[serde(default)]
    pub version: u16,
    #[serde(default)]
    pub taken: Option<TakenUp>,
    #[serde(default)]
    pub put_in: Option<PutIn>,
}

/// The stage after one of the four; a disinfectant lies between washed and disinfected.
#[must_use]
pub const fn next_stage(stage: Stage) -> Option<Stage> {
    match stage {
        Stage::Dirty => Some(Stage::Washed),
        Stage::Washed => Some(Stage::Disinfected),
        Stage::Disinfected => Some(Stage::Clean),
        _ => None,
    }
}

impl TakenUp {
    /// All there is of it.
    #[must_use]
    pub fn most(&self) -> i64 {
        MaterialKind::of(&self.material).1
    }

    /// How much of it goes.
    #[must_use]
    pub fn going(&self) -> i64 {
        let most = self.most();
        self.amount.unwrap_or(most).clamp(most.min(1), most)
    }

    /// The command that moves it there.
    #[must_use]
    pub fn to(&self, to: Stage) -> Command {
        let (kind, _) = MaterialKind::of(&self.material);
        Command::MoveMaterials {
            moved: vec![kind.row(self.going())],
            from: self.stage,
            to,
            apart: self.apart,
            note: String::new(),
        }
    }
}

impl PutIn {
    /// The command that puts it in: bought ones are clean, found ones dirty.
    #[must_use]
    pub fn command(&self) -> Command {
        let row = if self.stone {
            Material::stone(self.amount)
        } else {
            Material {
                pots: u32::try_from(self.amount).unwrap_or(0),
                stone_ul: 0,
                pot_name: self.material.pot_name.trim().to_owned(),
                ..self.material.clone()
            }
        };
        let (from, to) = if self.dirty {
            (Stage::Uncounted, Stage::Dirty)
        } else {
            (Stage::New, Stage::Clean)
        };
        Command::MoveMaterials {
            moved: vec![row],
            from,
            to,
            apart: None,
            note: String::new(),
        }
    }
}
