//! Commands of cleaning, and what other commands do to pots and stone on the way.
//!
//! A closed clump and a potting on empty pots; a potting takes clean ones where they are counted. Neither is ever
//! refused over that: what is not counted came from somewhere.

use crate::clean::PPM_WHOLE;
use crate::command::Sanitise;
use crate::event::*;
use crate::id::{LotId, Subject};
use crate::limits;
use crate::potting::{Layers, MOST_POTS};
use crate::quarantine::{clump_is_suspect, suspicion};
use crate::rejection::{Caution, Input, Rejection};
use crate::state::{Clump, MaterialKind};
use crate::view::potting::bill_of;

use super::{Desk, Done};

impl Desk<'_> {
    pub(super) fn move_materials(
        &mut self,
        moved: Vec<Material>,
        (from, to): (Stage, Stage),
        apart: Option<Subject>,
        note: String,
    ) -> Done {
        if from == to || !(from.is_counted() || to.is_counted()) {
            return Err(Rejection::NothingToDo);
        }
        self.materials_are_sound(&moved)?;
        let apart = apart.filter(|_| from != Stage::Clean);
        if let Some(source) = apart {
            self.may_leave(source, &moved, (from, to))?;
        }
        self.stand_there(&moved, from, apart)?;
        let note = Self::note(&note)?;
        self.push(MaterialsMoved {
            moved,
            from,
            to,
            apart,
            note,
        });
        Ok(())
    }

    pub(super) fn sanitise(&mut self, done: Sanitise) -> Done {
        let agent = Self::needed(Input::Text, &done.agent)?;
        let counted = matches!(done.what, Object::Pots | Object::Stone);
        if counted {
            self.materials_are_sound(&done.materials)?;
        }
        let materials = if counted { done.materials } else { Vec::new() };
        let event = Sanitised {
            what: done.what,
            materials: materials.clone(),
            agent,
            strength_ppm: done.strength_ppm,
            stock_ppm: done.stock_ppm,
            bath_ul: done.bath_ul,
            stock_ul: done.stock_ul,
            stock_mg: done.stock_mg,
            mixed_ms: done.mixed_ms,
            wanted_s: done.wanted_s,
            contact_s: done.contact_s,
            started_ms: done.started_ms,
            ended_ms: done.ended_ms,
            cleaned_first: done.cleaned_first,
            suspect_source: done.suspect_source || done.apart.is_some(),
            apart: done.apart,
            place: None,
            person: String::new(),
            note: Self::note(&done.note)?,
        };
        Self::sanitised_holds(&event)?;
        let long_enough = event.long_enough();
        self.push(event);
        if counted && long_enough {
            // What lay too short stays washed: it goes in again.
            let stages = (Stage::Washed, Stage::Disinfected);
            self.move_materials(materials, stages, done.apart, String::new())?;
        }
        Ok(())
    }

    /// Something disinfected was so with something, and within the limits.
    pub(super) fn sanitised_holds(done: &Sanitised) -> Done {
        Self::needed(Input::Text, &done.agent)?;
        let strong = |ppm: Option<u32>| ppm.is_some_and(|ppm| ppm == 0 || ppm > PPM_WHOLE);
        if strong(done.strength_ppm) || strong(done.stock_ppm) {
            return Err(Rejection::OutOfRange {
                input: Input::Strength,
                least: 1,
                most: i64::from(PPM_WHOLE),
            });
        }
        Self::soaks_hold([done.wanted_s, done.contact_s])?;
        Self::short(Input::Person, &done.person)?;
        Self::note(&done.note).map(drop)
    }

    /// Nothing lies in anything for longer than the limit.
    pub(super) fn soaks_hold(times: [Option<u32>; 2]) -> Done {
        let most = limits::SOAK_S_MAX;
        if times.into_iter().flatten().any(|s| s > most) {
            return Err(Rejection::OutOfRange {
                input: Input::Soak,
                least: 0,
                most: i64::from(most / 60),
            });
        }
        Ok(())
    }

    pub(super) fn materials_are_sound(&self, moved: &[Material]) -> Done {
        if moved.is_empty() {
            return Err(Rejection::Missing { input: Input::Pots });
        }
        if moved.len() > limits::MOVED_MAX {
            return Err(Rejection::TooMany {
                input: Input::Pots,
                most: u64::try_from(limits::MOVED_MAX).unwrap_or(u64::MAX),
            });
        }
        for material in moved {
            Self::number(Input::Pots, material.pots)?;
            Self::short(Input::Pot, &material.pot_name)?;
            let most = limits::TUB_UL_MAX;
            if !(0..=most).contains(&material.stone_ul) {
                return Err(Rejection::OutOfRange {
                    input: Input::Stone,
                    least: 0,
                    most: most / 1_000_000,
                });
            }
            // A row is pots or stone, and some of it.
            if (material.pots == 0) == (material.stone_ul == 0) {
                return Err(Rejection::Missing { input: Input::Pots });
            }
            if let Some(pot) = material.pot
                && !self.state.facts().pots.contains_key(&pot)
            {
                return Err(Rejection::NotInTheBook {
                    subject: Subject::Pot(pot),
                });
            }
        }
        Ok(())
    }

    /// As much of a batch kept apart joins the clean ones as went through heat that reached both viruses; or all of it,
    /// once nothing is suspected of its source any more.
    fn may_leave(&self, source: Subject, moved: &[Material], (from, to): (Stage, Stage)) -> Done {
        if to != Stage::Clean {
            return Ok(());
        }
        let facts = self.state.facts();
        let suspect = match source {
            Subject::Clump(id) => clump_is_suspect(facts, id),
            Subject::Lot(id) => suspicion(facts, id).is_some(),
            _ => true,
        };
        if !suspect {
            return Ok(());
        }
        for material in moved {
            let (kind, _) = MaterialKind::of(material);
            let freed = match from {
                Stage::Disinfected => facts.book.materials.freed(source, &kind),
                _ => 0,
            };
            if amount_of(moved, &kind) > freed {
                return Err(Rejection::KeptApart {
                    freed,
                    stone: kind == MaterialKind::Stone,
                });
            }
        }
        Ok(())
    }

    /// Checks that so much stands at a stage, with what this entry has moved so far.
    fn stand_there(&self, moved: &[Material], from: Stage, apart: Option<Subject>) -> Done {
        if !from.is_counted() {
            return Ok(());
        }
        for material in moved {
            let (kind, _) = MaterialKind::of(material);
            let wanted = amount_of(moved, &kind);
            let left = self.standing(&kind, from, apart);
            if wanted > left {
                return Err(Rejection::FewerThere {
                    stage: from,
                    left,
                    stone: kind == MaterialKind::Stone,
                });
            }
        }
        Ok(())
    }

    /// How much of a kind stands at a stage, with what this entry has moved so far.
    fn standing(&self, kind: &MaterialKind, stage: Stage, apart: Option<Subject>) -> i64 {
        let apart = apart.filter(|_| stage != Stage::Clean);
        let known = self.state.facts().book.materials.at(apart, kind, stage);
        let mut standing = known;
        for event in &self.events {
            let Event::MaterialsMoved(event) = event else {
                continue;
            };
            for material in &event.moved {
                let (of, amount) = MaterialKind::of(material);
                let here = |at: Stage| {
                    at == stage && (stage == Stage::Clean || event.apart == apart) && of == *kind
                };
                standing +=
                    i64::from(here(event.to)) * amount - i64::from(here(event.from)) * amount;
            }
        }
        standing.max(0)
    }

    /// Pots and stone of a potting come from the clean ones, where they are counted.
    pub(super) fn draw_clean(&mut self, potting: &Potting, stands: u32) {
        let mut drawn: Vec<Material> = Vec::new();
        let counted = &self.state.facts().book.materials.counted;
        if let Some(pot) = potting.pot {
            let kind = MaterialKind::Pot(pot);
            if counted.contains(&kind) {
                let clean = self.standing(&kind, Stage::Clean, None);
                let wanted = i64::from(stands);
                if clean < wanted {
                    self.cautions.push(Caution::FewCleanPots {
                        pot,
                        clean,
                        wanted: stands,
                    });
                }
                drawn.push(kind.row(clean.min(wanted)));
            }
        }
        let counted = &self.state.facts().book.materials.counted;
        if counted.contains(&MaterialKind::Stone) {
            let clean = self.standing(&MaterialKind::Stone, Stage::Clean, None);
            drawn.push(Material::stone(clean.min(potting.stone_ul)));
        }
        self.push_moved(drawn, (Stage::Clean, Stage::InUse), None);
    }

    /// Emptied pots and their stone are dirty.
    pub(super) fn empty(&mut self, emptied: Vec<Material>, apart: Option<Subject>) {
        self.push_moved(emptied, (Stage::InUse, Stage::Dirty), apart);
    }

    fn push_moved(
        &mut self,
        moved: Vec<Material>,
        (from, to): (Stage, Stage),
        apart: Option<Subject>,
    ) {
        let some = |material: &Material| material.pots > 0 || material.stone_ul > 0;
        let moved: Vec<Material> = moved.into_iter().filter(some).collect();
        if !moved.is_empty() {
            self.push(MaterialsMoved {
                moved,
                from,
                to,
                apart,
                note: String::new(),
            });
        }
    }

    /// What a clump empties: each lot's pots as they were potted, then those nobody booked, up to the number said.
    pub(super) fn emptied_of(&self, clump: &Clump, dirty_pots: u32) -> Vec<Material> {
        let mut left = dirty_pots;
        let mut emptied: Vec<Material> = Vec::new();
        for opened in clump.opened.iter().flat_map(|opened| &opened.lots) {
            let pots = opened.stands.min(left);
            left -= pots;
            self.add_emptied(&mut emptied, opened.lot, pots);
        }
        add(
            &mut emptied,
            &MaterialKind::Named(String::new()),
            i64::from(left),
        );
        emptied
    }

    /// What potting a lot on empties: all its pots.
    pub(super) fn emptied_by(&self, lot: LotId) -> Vec<Material> {
        let mut emptied: Vec<Material> = Vec::new();
        let pots = self
            .state
            .facts()
            .lots
            .get(&lot)
            .map_or(0, |lot| lot.stands);
        let pots = u32::try_from(pots.max(0)).unwrap_or(0).min(MOST_POTS);
        self.add_emptied(&mut emptied, lot, pots);
        emptied
    }

    fn add_emptied(&self, emptied: &mut Vec<Material>, lot: LotId, pots: u32) {
        let facts = self.state.facts();
        let potting = facts
            .lots
            .get(&lot)
            .and_then(|lot| lot.potted.as_ref())
            .map(|potted| &potted.potting);
        let kind = match potting.and_then(|potting| potting.pot) {
            Some(pot) => MaterialKind::Pot(pot),
            None => MaterialKind::Named(
                potting.map_or_else(String::new, |potting| potting.pot_name.clone()),
            ),
        };
        add(emptied, &kind, i64::from(pots));
        let stone = potting.and_then(|potting| {
            let layers: &Layers = &potting.layers;
            let bill = bill_of(facts, potting.pot?, layers, pots).ok()??;
            Some(bill.stone.ul())
        });
        add(emptied, &MaterialKind::Stone, stone.unwrap_or(0));
    }
}

/// How much of a kind several rows are.
fn amount_of(moved: &[Material], kind: &MaterialKind) -> i64 {
    let rows = moved.iter().map(MaterialKind::of);
    let same = rows.filter(|(other, _)| other == kind);
    same.map(|(_, amount)| amount).fold(0, i64::saturating_add)
}

/// Adds to the row of a kind.
fn add(emptied: &mut Vec<Material>, kind: &MaterialKind, amount: i64) {
    let known = emptied
        .iter_mut()
        .find(|material| MaterialKind::of(material).0 == *kind);
    match known {
        Some(row) => {
            let (_, before) = MaterialKind::of(row);
            *row = kind.row(before.saturating_add(amount));
        }
        None if amount > 0 => emptied.push(kind.row(amount)),
        None => {}
    }
}
