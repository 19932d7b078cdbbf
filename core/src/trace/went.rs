//! Where a bag of mix, a load of stone, a bath or a bottle went: the lots it met and whether it is with them still.
//!
//! Read from the same entries as the ties. What is in a pot goes with a part that is split off, and is over when the lot is
//! potted anew. Stone that was washed and taken again may be of any load that lay in its pile, and says so.

use std::collections::{BTreeMap, BTreeSet};

use chrono::NaiveDate;
use serde::{Deserialize, Serialize};

use crate::event::{Event, Potting, Treated, TreatedPart};
use crate::id::{LotId, PlaceId, Subject, TreatmentId};
use crate::log::Fact;
use crate::state::MaterialKind;
use crate::time::Stamp;

use super::ties::Ties;

/// Something whose way through the nursery is asked for.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Thing {
    /// A bag or pile of mix, as its label said.
    MixBatch(String),
    StoneBatch(String),
    /// One filling of a tub or sprayer, from whichever of its treatments.
    Bath(TreatmentId),
    /// A bottle or bag of a product.
    ProductBatch {
        name: String,
        batch: String,
    },
}

/// What it met.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Met {
    Lot(LotId),
    /// A place as a whole: nobody wrote down which lots stood there.
    Place(PlaceId),
}

/// How it got there.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum How {
    Potted,
    /// With a part split off from that lot.
    PartOf(LotId),
    /// In stone that was washed and taken again: possible, not certain.
    UsedAgain,
    Treated,
}

/// One thing it met.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Went {
    pub met: Met,
    pub on: NaiveDate,
    pub how: How,
    /// Whether the lot stands in it still; a treatment is never in anything.
    pub still: bool,
}

/// What lots stand in.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
struct Inside {
    mix: String,
    stone: String,
}

#[derive(Clone, Debug)]
struct Filled {
    lot: LotId,
    order: Stamp,
    on: NaiveDate,
    /// The lot it was split from; what is inside came along.
    of: Option<LotId>,
    inside: Inside,
}

#[derive(Clone, Debug)]
struct Applied {
    root: TreatmentId,
    order: Stamp,
    on: NaiveDate,
    event: Treated,
}

/// Fillings of pots and treatments, in the order of entries.
#[derive(Clone, Debug, Default)]
pub(super) struct Fillings {
    filled: Vec<Filled>,
    inside: BTreeMap<LotId, Inside>,
    applied: Vec<Applied>,
}

impl Fillings {
    pub(super) fn note(&mut self, fact: &Fact<'_>, root: impl Fn(&Treated) -> TreatmentId) {
        let (order, on) = (fact.entry.header.order, fact.entry.header.on);
        let potted = |potting: &Potting| Inside {
            mix: potting.mix_batch.trim().to_owned(),
            stone: potting.stone_batch.trim().to_owned(),
        };
        let (lot, of, inside) = match fact.event {
            Event::LotReceived(it) => (it.lot, None, potted(&it.potting)),
            Event::PiecesPotted(it) => (it.lot, None, potted(&it.potting)),
            Event::Repotted(it) => (it.lot, None, potted(&it.potting)),
            Event::LotSplit(it) => {
                let inside = self.inside.get(&it.from).cloned().unwrap_or_default();
                (it.lot, Some(it.from), inside)
            }
            Event::Treated(it) => {
                self.applied.push(Applied {
                    root: root(it),
                    order,
                    on,
                    event: (**it).clone(),
                });
                return;
            }
            _ => return,
        };
        self.inside.insert(lot, inside.clone());
        self.filled.push(Filled {
            lot,
            order,
            on,
            of,
            inside,
        });
    }

    fn still(&self, lot: LotId, of: impl Fn(&Inside) -> bool) -> bool {
        self.inside.get(&lot).is_some_and(of)
    }
}

/// Collects what is met, each thing once.
#[derive(Default)]
struct Rows {
    seen: BTreeSet<Met>,
    rows: Vec<Went>,
}

impl Rows {
    fn push(&mut self, row: Went) {
        if self.seen.insert(row.met) {
            self.rows.push(row);
        }
    }
}

impl Ties {
    pub(super) fn went(&self, thing: &Thing) -> Vec<Went> {
        let mut rows = Rows::default();
        match thing {
            Thing::MixBatch(batch) => self.filled_with(&mut rows, |inside| inside.mix == *batch),
            Thing::StoneBatch(batch) => {
                let of = |inside: &Inside| inside.stone == *batch;
                self.filled_with(&mut rows, of);
                self.used_again(&mut rows, of);
            }
            Thing::Bath(treatment) => {
                let known = self.fillings.applied.iter();
                let root = known
                    .clone()
                    .find(|it| it.event.treatment == *treatment)
                    .map_or(*treatment, |it| it.root);
                for it in known.filter(|it| it.root == root) {
                    self.treated(&mut rows, it);
                }
            }
            Thing::ProductBatch { name, batch } => {
                let is_it = |it: &&Applied| {
                    it.event.product.label_name.trim() == name
                        && it.event.product.batch.trim() == batch
                };
                for it in self.fillings.applied.iter().filter(is_it) {
                    self.treated(&mut rows, it);
                }
            }
        }
        rows.rows
    }

    fn filled_with(&self, rows: &mut Rows, of: impl Fn(&Inside) -> bool) {
        for filled in self.fillings.filled.iter().filter(|it| of(&it.inside)) {
            rows.push(Went {
                met: Met::Lot(filled.lot),
                on: filled.on,
                how: filled.of.map_or(How::Potted, How::PartOf),
                still: self.fillings.still(filled.lot, &of),
            });
        }
    }

    /// Lots potted into stone that may be of what these lots stood in, and those potted after them in turn.
    fn used_again(&self, rows: &mut Rows, of: impl Fn(&Inside) -> bool) {
        let filled = self.fillings.filled.iter().filter(|it| of(&it.inside));
        let mut open: Vec<(LotId, Stamp)> = filled.map(|it| (it.lot, it.order)).collect();
        let mut seen: BTreeSet<(LotId, Stamp)> = open.iter().copied().collect();
        while let Some((lot, since)) = open.pop() {
            for reuse in self.stone_after(lot, since) {
                rows.push(Went {
                    met: Met::Lot(reuse.0),
                    on: reuse.2,
                    how: How::UsedAgain,
                    // Nobody knows which stones are in it; until it is potted anew they may be.
                    still: self.last_filled(reuse.0) == Some(reuse.1),
                });
                if seen.insert((reuse.0, reuse.1)) {
                    open.push((reuse.0, reuse.1));
                }
            }
        }
        rows.rows.sort_by_key(|row| row.on);
    }

    fn last_filled(&self, lot: LotId) -> Option<Stamp> {
        let mut filled = self.fillings.filled.iter().rev();
        Some(filled.find(|it| it.lot == lot)?.order)
    }

    /// Where the stone of a lot potted then turned up when the lot was next potted anew or cut.
    fn stone_after(&self, lot: LotId, since: Stamp) -> Vec<(LotId, Stamp, NaiveDate)> {
        let next = self.fillings.filled.iter();
        let until = next
            .filter(|it| it.lot == lot && it.order > since)
            .map(|it| it.order)
            .min();
        let cut = self.cut_in(lot).map(Subject::Clump);
        let whose = std::iter::once(Subject::Lot(lot)).chain(cut);
        let off = whose.flat_map(|whose| self.stuff.off(whose, Some(since)));
        let off = off.filter(|(batch, trail)| {
            batch.kind == MaterialKind::Stone
                && trail.order != since
                && until.is_none_or(|until| trail.order <= until)
        });
        off.flat_map(|(_, trail)| trail.reuses.iter().map(|it| (it.lot, it.order, it.on)))
            .collect()
    }

    fn treated(&self, rows: &mut Rows, it: &Applied) {
        let mut push = |met: Met| {
            rows.push(Went {
                met,
                on: it.on,
                how: How::Treated,
                still: false,
            });
        };
        for part in &it.event.parts {
            match part {
                TreatedPart::Lot { lot, .. } => push(Met::Lot(*lot)),
                TreatedPart::Pieces { clump, class, .. } => {
                    let lots = self.potted_of(*clump, *class, it.order);
                    lots.for_each(|(lot, _)| push(Met::Lot(lot)));
                }
            }
        }
        if let (true, Some(place)) = (it.event.parts.is_empty(), it.event.place) {
            push(Met::Place(place));
        }
    }

    /// Everything that can be asked for: bags of mix, loads of stone, bottles, then fillings of tubs, the last first.
    pub(super) fn things(&self) -> Vec<Thing> {
        let mut things = BTreeSet::new();
        for filled in &self.fillings.filled {
            let Inside { mix, stone } = &filled.inside;
            if !mix.is_empty() {
                things.insert(Thing::MixBatch(mix.clone()));
            }
            if !stone.is_empty() {
                things.insert(Thing::StoneBatch(stone.clone()));
            }
        }
        let mut baths: Vec<TreatmentId> = Vec::new();
        for it in &self.fillings.applied {
            let product = &it.event.product;
            if !product.batch.trim().is_empty() {
                things.insert(Thing::ProductBatch {
                    name: product.label_name.trim().to_owned(),
                    batch: product.batch.trim().to_owned(),
                });
            }
            if !baths.contains(&it.root) {
                baths.push(it.root);
            }
        }
        let baths = baths.into_iter().rev().map(Thing::Bath);
        things.into_iter().chain(baths).collect()
    }
}
