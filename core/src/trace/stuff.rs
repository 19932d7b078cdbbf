//! Pots and stone between the plants they came off and the plants they went to.
//!
//! One pot of a kind is like another, so nobody knows which of a pile is taken: a batch that came off plants may lie in
//! every pile some of it may have been moved to, and in a pile no longer once that was used up. Heat that rids a batch of
//! both viruses ends it; other disinfection makes it less likely. What was thrown away or went missing is not followed,
//! nor is a kind whose clean ones nobody counts.

use std::collections::{BTreeMap, BTreeSet};

use chrono::NaiveDate;

use crate::event::{Event, Material, MaterialsMoved, Stage};
use crate::id::{EntryRef, LotId, PotId, Subject};
use crate::log::Fact;
use crate::state::MaterialKind;
use crate::time::Stamp;

/// Pots of one kind, or stone, that came off plants in one entry.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Emptied {
    pub by: EntryRef,
    pub index: u16,
    pub kind: MaterialKind,
}

/// Plants potted into what may be of a batch.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Reuse {
    pub(super) lot: LotId,
    pub(super) order: Stamp,
    pub(super) on: NaiveDate,
    /// Disinfected in between, by something that does not rid it of both viruses for certain.
    pub(super) disinfected: bool,
}

/// A batch, when it came off, and where it turned up again.
#[derive(Clone, Debug)]
pub(super) struct Trail {
    pub(super) order: Stamp,
    pub(super) on: NaiveDate,
    pub(super) reuses: Vec<Reuse>,
}

type PileKey = (Option<Subject>, MaterialKind, Stage);

/// What lies at one stage, and the batches that may be in it, disinfected or not.
#[derive(Clone, Debug, Default)]
struct Pile {
    amount: i64,
    may_hold: BTreeMap<Emptied, bool>,
}

/// Who was potted so far in the entry at hand, into what.
#[derive(Clone, Debug)]
struct Potted {
    lot: LotId,
    pot: Option<PotId>,
    stone: bool,
}

/// The piles as they stand while the entries are read, and every batch's trail.
#[derive(Clone, Debug, Default)]
pub(super) struct Stuff {
    piles: BTreeMap<PileKey, Pile>,
    trails: BTreeMap<Emptied, Trail>,
    off: BTreeMap<Subject, Vec<Emptied>>,
    entry: Option<EntryRef>,
    potted: Vec<Potted>,
    /// Whose pots the next emptied ones of this entry are.
    whose: Option<Subject>,
    /// What was last disinfected in this entry: whether that frees.
    disinfected: Option<bool>,
}

impl Stuff {
    /// Reads one fact; facts come in the order of entries.
    pub(super) fn note(&mut self, fact: &Fact<'_>) {
        if self.entry != Some(fact.entry.id) {
            self.entry = Some(fact.entry.id);
            self.potted.clear();
            self.whose = None;
            self.disinfected = None;
        }
        match fact.event {
            Event::PiecesPotted(it) => self.potted.push(Potted {
                lot: it.lot,
                pot: it.potting.pot,
                stone: it.potting.stone_ul > 0,
            }),
            Event::Repotted(it) => {
                self.potted.push(Potted {
                    lot: it.lot,
                    pot: it.potting.pot,
                    stone: it.potting.stone_ul > 0,
                });
                self.whose = Some(Subject::Lot(it.lot));
            }
            Event::DivisionClosed(it) => self.whose = Some(Subject::Clump(it.clump)),
            Event::Sanitised(it) => {
                self.disinfected = it.long_enough().then_some(it.frees());
            }
            Event::MaterialsMoved(it) => {
                for material in &it.moved {
                    self.moved(it, material, fact);
                }
            }
            _ => {}
        }
    }

    fn moved(&mut self, event: &MaterialsMoved, material: &Material, fact: &Fact<'_>) {
        let (kind, amount) = MaterialKind::of(material);
        let mut going = if event.from == Stage::InUse {
            self.comes_off(&kind, fact)
        } else {
            self.taken(event, &kind, amount)
        };
        match (event.from, event.to, self.disinfected) {
            (Stage::Washed, Stage::Disinfected, Some(true)) => going.clear(),
            (Stage::Washed, Stage::Disinfected, _) => {
                for disinfected in going.values_mut() {
                    *disinfected = true;
                }
            }
            _ => {}
        }
        if event.to == Stage::InUse {
            self.potted_into(&kind, &going, fact);
        } else if event.to.is_counted() {
            let pile = self.piles.entry(key(event, &kind, event.to)).or_default();
            if pile.amount <= 0 {
                // Used up before: what it held is gone.
                pile.may_hold.clear();
            }
            pile.amount = pile.amount.saturating_add(amount);
            for (batch, disinfected) in going {
                let worse = pile.may_hold.entry(batch).or_insert(disinfected);
                *worse = *worse && disinfected;
            }
        }
    }

    /// A new batch, off the plants this entry speaks of.
    fn comes_off(&mut self, kind: &MaterialKind, fact: &Fact<'_>) -> BTreeMap<Emptied, bool> {
        let Some(whose) = self.whose else {
            return BTreeMap::new();
        };
        let batch = Emptied {
            by: fact.entry.id,
            index: fact.index,
            kind: kind.clone(),
        };
        self.trails.insert(
            batch.clone(),
            Trail {
                order: fact.entry.header.order,
                on: fact.entry.header.on,
                reuses: Vec::new(),
            },
        );
        self.off.entry(whose).or_default().push(batch.clone());
        BTreeMap::from([(batch, false)])
    }

    /// What some of a pile may be. A pile that is used up keeps its batches until the next is laid there: two phones may
    /// both have taken the last.
    fn taken(
        &mut self,
        event: &MaterialsMoved,
        kind: &MaterialKind,
        amount: i64,
    ) -> BTreeMap<Emptied, bool> {
        let Some(pile) = self.piles.get_mut(&key(event, kind, event.from)) else {
            return BTreeMap::new();
        };
        pile.amount = pile.amount.saturating_sub(amount);
        pile.may_hold.clone()
    }

    fn potted_into(
        &mut self,
        kind: &MaterialKind,
        going: &BTreeMap<Emptied, bool>,
        fact: &Fact<'_>,
    ) {
        let takes = |potted: &&Potted| match kind {
            MaterialKind::Pot(pot) => potted.pot == Some(*pot),
            MaterialKind::Named(_) => false,
            MaterialKind::Stone => potted.stone,
        };
        let lots: BTreeSet<LotId> = self.potted.iter().filter(takes).map(|it| it.lot).collect();
        for (batch, disinfected) in going {
            let Some(trail) = self.trails.get_mut(batch) else {
                continue;
            };
            for lot in &lots {
                trail.reuses.push(Reuse {
                    lot: *lot,
                    order: fact.entry.header.order,
                    on: fact.entry.header.on,
                    disinfected: *disinfected,
                });
            }
        }
    }

    pub(super) fn trail(&self, batch: &Emptied) -> Option<&Trail> {
        self.trails.get(batch)
    }

    /// Batches that came off a lot, or off a clump, since then.
    pub(super) fn off(
        &self,
        whose: Subject,
        since: Option<Stamp>,
    ) -> impl Iterator<Item = (&Emptied, &Trail)> {
        let batches = self.off.get(&whose).into_iter().flatten();
        let trails = batches.filter_map(|batch| Some((batch, self.trails.get(batch)?)));
        trails.filter(move |(_, trail)| since <= Some(trail.order))
    }
}

/// The pile of a kind at a stage. What is clean is kept apart no longer.
fn key(event: &MaterialsMoved, kind: &MaterialKind, stage: Stage) -> PileKey {
    let apart = event.apart.filter(|_| stage != Stage::Clean);
    (apart, kind.clone(), stage)
}
