//! The facts of pots and stone: how many of each kind stand where on the way from dirty to clean.
//!
//! Every change is a move on record; nothing here looks at lots or clumps. A balance below nothing comes of phones that
//! moved the same pots without knowing of each other, and is shown as nothing.

use std::collections::{BTreeMap, BTreeSet};

use chrono::NaiveDate;
use serde::Serialize;

use crate::event::{Event, Material, MaterialsMoved, Sanitised, Stage};
use crate::id::{EntryRef, PotId, Subject};
use crate::log::Fact;

use super::lot::as_list;

/// What is counted apart: a kind of pot, a kind in words, or stone.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize)]
pub enum MaterialKind {
    Pot(PotId),
    /// In the grower's words; empty where nobody noted the kind.
    Named(String),
    /// In microlitres.
    Stone,
}

impl MaterialKind {
    /// The kind a row is of, and how much of it.
    #[must_use]
    pub fn of(material: &Material) -> (Self, i64) {
        if material.is_stone() {
            return (Self::Stone, material.stone_ul);
        }
        let kind = match material.pot {
            Some(pot) => Self::Pot(pot),
            None => Self::Named(material.pot_name.clone()),
        };
        (kind, i64::from(material.pots))
    }

    /// A row of so many of this kind.
    #[must_use]
    pub fn row(&self, amount: i64) -> Material {
        let pots = u32::try_from(amount).unwrap_or(0);
        match self {
            Self::Pot(pot) => Material::pots_of(*pot, pots),
            Self::Named(name) => Material::pots_called(name, pots),
            Self::Stone => Material::stone(amount.max(0)),
        }
    }
}

/// A kind, and the clump or lot under suspicion it came of.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize)]
pub struct Heap {
    pub apart: Option<Subject>,
    pub kind: MaterialKind,
}

/// How much of a heap stands at each stage.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize)]
pub struct Standing {
    pub dirty: i64,
    pub washed: i64,
    pub disinfected: i64,
    pub clean: i64,
}

impl Standing {
    /// How much stands there; never below nothing.
    #[must_use]
    pub fn at(&self, stage: Stage) -> i64 {
        let amount = match stage {
            Stage::Dirty => self.dirty,
            Stage::Washed => self.washed,
            Stage::Disinfected => self.disinfected,
            Stage::Clean => self.clean,
            Stage::Uncounted | Stage::New | Stage::InUse | Stage::Discarded => 0,
        };
        amount.max(0)
    }

    fn change(&mut self, stage: Stage, by: i64) {
        let amount = match stage {
            Stage::Dirty => &mut self.dirty,
            Stage::Washed => &mut self.washed,
            Stage::Disinfected => &mut self.disinfected,
            Stage::Clean => &mut self.clean,
            Stage::Uncounted | Stage::New | Stage::InUse | Stage::Discarded => return,
        };
        *amount = amount.saturating_add(by);
    }
}

/// A disinfection as recorded.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Cleaning {
    pub on: NaiveDate,
    pub entry: EntryRef,
    pub event: Sanitised,
}

/// The facts of all pots and stone.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize)]
pub struct Materials {
    #[serde(serialize_with = "as_list")]
    pub heaps: BTreeMap<Heap, Standing>,
    /// Kinds whose clean ones were ever counted: from then on a potting counts them down.
    pub counted: BTreeSet<MaterialKind>,
    /// How much of a batch kept apart lies there disinfected by heat that reached both viruses.
    #[serde(serialize_with = "as_list")]
    pub freed: BTreeMap<Heap, i64>,
    /// Washed and clean again, so far.
    pub reused_pots: u64,
    pub reused_stone_ul: i64,
    pub discarded_pots: u64,
    pub discarded_stone_ul: i64,
    pub cleanings: Vec<Cleaning>,
}

impl Materials {
    /// Whether nobody ever moved or disinfected anything.
    #[must_use]
    pub fn never_moved(&self) -> bool {
        *self == Self::default()
    }

    /// How much of a kind stands at a stage.
    #[must_use]
    pub fn at(&self, apart: Option<Subject>, kind: &MaterialKind, stage: Stage) -> i64 {
        let heap = Heap {
            apart,
            kind: kind.clone(),
        };
        self.heaps.get(&heap).map_or(0, |heap| heap.at(stage))
    }

    pub(super) fn apply(&mut self, fact: &Fact<'_>) {
        match fact.event {
            Event::MaterialsMoved(event) => self.moved(event),
            Event::Sanitised(event) => {
                self.sanitised(event);
                self.cleanings.push(Cleaning {
                    on: fact.entry.header.on,
                    entry: fact.entry.id,
                    event: (**event).clone(),
                });
            }
            _ => {}
        }
    }

    fn moved(&mut self, event: &MaterialsMoved) {
        for material in &event.moved {
            let (kind, amount) = MaterialKind::of(material);
            if event.to == Stage::Clean {
                self.counted.insert(kind.clone());
                if event.from.is_counted() {
                    self.reused(&kind, amount);
                }
            }
            if event.to == Stage::Discarded {
                self.discarded(&kind, amount);
            }
            // What is clean is kept apart no longer.
            let apart_at = |stage| event.apart.filter(|_| stage != Stage::Clean);
            for (stage, by) in [(event.from, amount.saturating_neg()), (event.to, amount)] {
                let heap = Heap {
                    apart: apart_at(stage),
                    kind: kind.clone(),
                };
                // Nobody can tell which of a pile were taken: they count as the ones that went through heat.
                if stage == Stage::Disinfected && by < 0 {
                    self.free(&heap, by);
                }
                if stage.is_counted() {
                    self.heaps.entry(heap).or_default().change(stage, by);
                }
            }
        }
    }

    fn sanitised(&mut self, event: &Sanitised) {
        if event.apart.is_some() && event.frees() {
            for material in &event.materials {
                let (kind, amount) = MaterialKind::of(material);
                let apart = event.apart;
                self.free(&Heap { apart, kind }, amount);
            }
        }
    }

    /// So much more of a heap went through heat, or less of it lies there.
    fn free(&mut self, heap: &Heap, by: i64) {
        let freed = self.freed.get(heap).copied().unwrap_or(0);
        match freed.saturating_add(by) {
            ..=0 => drop(self.freed.remove(heap)),
            freed => drop(self.freed.insert(heap.clone(), freed)),
        }
    }

    /// How much of a kind that is kept apart may join the clean ones.
    #[must_use]
    pub fn freed(&self, apart: Subject, kind: &MaterialKind) -> i64 {
        let heap = Heap {
            apart: Some(apart),
            kind: kind.clone(),
        };
        self.freed.get(&heap).copied().unwrap_or(0)
    }

    fn reused(&mut self, kind: &MaterialKind, amount: i64) {
        if *kind == MaterialKind::Stone {
            self.reused_stone_ul = self.reused_stone_ul.saturating_add(amount);
        } else {
            let pots = u64::try_from(amount).unwrap_or(0);
            self.reused_pots = self.reused_pots.saturating_add(pots);
        }
    }

    fn discarded(&mut self, kind: &MaterialKind, amount: i64) {
        if *kind == MaterialKind::Stone {
            self.discarded_stone_ul = self.discarded_stone_ul.saturating_add(amount);
        } else {
            let pots = u64::try_from(amount).unwrap_or(0);
            self.discarded_pots = self.discarded_pots.saturating_add(pots);
        }
    }
}
