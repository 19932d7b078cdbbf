//! What can be treated now: pieces lying bare on the bench, class by class, and what was treated already.

use std::collections::BTreeMap;

use chrono::NaiveDate;

use crate::bath::uses;
use crate::event::{ActiveCopy, AgentClass, Event, Method, PieceClass, TreatedPart};
use crate::id::{ClumpId, EntryRef, FindingId, ProductId, TreatmentId};
use crate::label_draft::content_of;
use crate::quantity::{ContentBy, Rate, RateKind, Ratio};
use crate::state::{Product, State};

/// Pieces of one class of an open clump that lie bare.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct BarePieces {
    pub clump: ClumpId,
    pub tray: u32,
    pub class: PieceClass,
    pub plants: u32,
    /// Pieces of this class were in a bath already.
    pub bathed: bool,
}

/// Bare pieces of all open clumps.
#[must_use]
pub fn bare_pieces(state: &State) -> Vec<BarePieces> {
    let mut pieces = Vec::new();
    for (clump, known) in state.facts().open_clumps() {
        let tray = known.opened.as_ref().map_or(0, |opened| opened.tray);
        for class in PieceClass::ALL {
            let plants = u32::try_from(known.bare_of(class)).unwrap_or(u32::MAX);
            if plants > 0 {
                pieces.push(BarePieces {
                    clump,
                    tray,
                    class,
                    plants,
                    bathed: known.treated.iter().any(|(_, of, _)| *of == class),
                });
            }
        }
    }
    pieces
}

/// A treatment on record.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct TreatedRow {
    pub entry: EntryRef,
    pub on: NaiveDate,
    pub event: Event,
    /// Hours until re-entry, as the label said when it was recorded.
    pub reentry_h: Option<u32>,
}

/// The newest treatments, at most so many.
#[must_use]
pub fn treated(state: &State, most: usize) -> Vec<TreatedRow> {
    let mut known: Vec<_> = state.facts().treatments.values().collect();
    known.sort_by_key(|treatment| std::cmp::Reverse((treatment.on, treatment.entry)));
    let rows = known.into_iter().take(most).map(|treatment| TreatedRow {
        entry: treatment.entry,
        on: treatment.on,
        event: treatment.event.clone().into(),
        reentry_h: treatment.event.product.reentry_h,
    });
    rows.collect()
}

/// What is still missing of a product.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum StillMissing {
    Rate,
    Actives,
    Registration,
    Reentry,
    Uses,
}

/// A product on the shelf.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct ProductRow {
    pub product: ProductId,
    pub label_name: String,
    pub rate_typed: String,
    pub label_photo: Option<String>,
    pub missing: Vec<StillMissing>,
    pub last_used_on: Option<NaiveDate>,
}

/// Products in use, the one used last first.
#[must_use]
pub fn products(state: &State) -> Vec<ProductRow> {
    let mut used: BTreeMap<ProductId, NaiveDate> = BTreeMap::new();
    for treatment in state.facts().treatments.values() {
        if let Some(id) = treatment.event.product.product {
            let on = used.entry(id).or_insert(treatment.on);
            *on = treatment.on.max(*on);
        }
    }
    let here = state.facts().products.iter();
    let mut rows: Vec<ProductRow> = here
        .filter(|(_, product)| !product.retired.or_default())
        .map(|(id, product)| ProductRow {
            product: *id,
            label_name: product.label_name.or_default(),
            rate_typed: product.rate_typed.or_default(),
            label_photo: product.label_photo.get().cloned(),
            missing: missing(product),
            last_used_on: used.get(id).copied(),
        })
        .collect();
    rows.sort_by(|a, b| {
        let key = |row: &ProductRow| (std::cmp::Reverse(row.last_used_on), row.product);
        key(a).cmp(&key(b))
    });
    rows
}

fn missing(product: &Product) -> Vec<StillMissing> {
    let uses = uses(product);
    let no_rate = product.rate_typed.or_default().is_empty()
        && uses.iter().all(|one| one.rate_typed.is_empty());
    let no_reentry =
        product.reentry_h.get().is_none() && uses.iter().all(|one| one.reentry_h.is_none());
    [
        (no_rate, StillMissing::Rate),
        (uses.is_empty(), StillMissing::Uses),
        (
            product.actives.or_default().is_empty(),
            StillMissing::Actives,
        ),
        (no_reentry, StillMissing::Reentry),
        (
            product.registration.or_default().is_empty(),
            StillMissing::Registration,
        ),
    ]
    .into_iter()
    .filter_map(|(is_missing, what)| is_missing.then_some(what))
    .collect()
}

/// Active ingredients in a mixture at this rate, in milligrams per litre, where the label's two figures meet.
///
/// Content in milligrams per litre or per kilogram; which of the two follows from the rate: a rate by volume takes a
/// content by volume. A content typed in the other form has no figure here.
#[must_use]
pub fn active_mg_per_l(actives: &[ActiveCopy], rate: &Rate) -> Vec<(String, i64)> {
    let Ok((kind, exact)) = rate.exact() else {
        return Vec::new();
    };
    actives
        .iter()
        .filter_map(|active| {
            let held = content_of(active)?;
            let by_volume = held.by == ContentBy::Litre;
            let meets = match kind {
                RateKind::MlPerLitre => by_volume,
                RateKind::GramsPerLitre => !by_volume,
                RateKind::MlPerSquareMetre | RateKind::GramsPerSquareMetre => false,
            };
            // mL/L x mg/L of product is µg/L of water; g/L x mg/kg is the same.
            let mg = exact
                .checked_mul(Ratio::whole(i128::from(held.mg)))
                .filter(|_| meets)?
                .checked_mul(Ratio::of(1, 1_000))?;
            Some((active.name.clone(), mg.round_i64()?))
        })
        .collect()
}

/// Pieces on the drying table: out of a bath and not potted yet.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Drying {
    pub clump: ClumpId,
    pub tray: u32,
    pub plants: u32,
    pub out_ms: i64,
    pub off_min: i16,
}

/// What lies on the drying table, the longest first.
#[must_use]
pub fn drying(state: &State) -> Vec<Drying> {
    let facts = state.facts();
    let mut rows: Vec<Drying> = Vec::new();
    for (clump, known) in facts.open_clumps() {
        let tray = known.opened.as_ref().map_or(0, |opened| opened.tray);
        let mut wet: BTreeMap<PieceClass, (u64, i64, i16)> = BTreeMap::new();
        for (treatment, class, plants) in &known.treated {
            let Some(treatment) = facts.treatments.get(treatment) else {
                continue;
            };
            let Some(out_ms) = treatment.event.ended_ms else {
                continue;
            };
            let off_min = state
                .log()
                .entry(treatment.entry)
                .map_or(0, |entry| entry.header.off_min);
            let row = wet.entry(*class).or_insert((0, out_ms, off_min));
            row.0 = row.0.saturating_add(u64::from(*plants));
            row.1 = row.1.max(out_ms);
        }
        let lying = wet
            .iter()
            .map(|(class, (plants, ..))| known.bare_of(*class).min(*plants));
        let plants = u32::try_from(lying.sum::<u64>()).unwrap_or(u32::MAX);
        let last = wet
            .iter()
            .filter(|(class, _)| known.bare_of(**class) > 0)
            .map(|(_, (_, out_ms, off_min))| (*out_ms, *off_min))
            .max();
        if let Some((out_ms, off_min)) = last.filter(|_| plants > 0) {
            rows.push(Drying {
                clump,
                tray,
                plants,
                out_ms,
                off_min,
            });
        }
    }
    rows.sort_by_key(|row| (row.out_ms, row.tray));
    rows
}

/// What a bath for a clump would be for.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct BathWanted {
    /// Kept pieces that lie bare and were in no bath yet.
    pub pieces: Vec<(ClumpId, PieceClass)>,
    /// What was seen at the bench, by its key.
    pub signs: Vec<String>,
    pub finding: Option<FindingId>,
    pub against: Option<AgentClass>,
}

/// What a bath for a clump would be for; without pieces there is nothing to bathe.
#[must_use]
pub fn bath_wanted(state: &State, id: ClumpId) -> BathWanted {
    let facts = state.facts();
    let Some(clump) = facts.clumps.get(&id).filter(|clump| clump.is_open()) else {
        return BathWanted::default();
    };
    let treated = |class: PieceClass| clump.treated.iter().any(|(_, of, _)| *of == class);
    let pieces = PieceClass::ALL
        .into_iter()
        .filter(|class| clump.bare_of(*class) > 0 && !treated(*class))
        .map(|class| (id, class))
        .collect();
    let seen: Vec<_> = clump
        .findings
        .iter()
        .filter_map(|finding| Some((*finding, &facts.findings.get(finding)?.event)))
        .collect();
    BathWanted {
        pieces,
        signs: seen.iter().map(|(_, found)| found.sign.clone()).collect(),
        finding: seen.first().map(|(finding, _)| *finding),
        against: seen.iter().find_map(|(_, found)| found.agent),
    }
}

/// A bath that stands, as the book knows it: the first batch is out, and nobody emptied it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct StandingBath {
    pub bath: TreatmentId,
    pub entry: EntryRef,
    pub label_name: String,
    /// When its first batch came out, and the offset of the phone.
    pub out_ms: Option<i64>,
    pub off_min: i16,
    pub pieces: u32,
    pub topped: usize,
}

/// Baths of a day that stand, whoever mixed them.
#[must_use]
pub fn standing_baths(state: &State, today: NaiveDate) -> Vec<StandingBath> {
    let facts = state.facts();
    let mixed = facts.treatments.iter().filter(|(_, known)| {
        let event = &known.event;
        let first = event.same_mix_as.is_none() && event.tank_with.is_none();
        let measured = first && event.water_ul.is_some();
        known.on == today && event.method == Method::Bath && measured && known.ended.is_none()
    });
    mixed
        .map(|(id, known)| {
            let after = facts.treatments.values();
            let after = after.filter(|other| other.event.same_mix_as == Some(*id));
            let pieces = after
                .chain(std::iter::once(known))
                .flat_map(|one| &one.event.parts)
                .map(TreatedPart::plants);
            let header = state.log().entry(known.entry).map(|entry| &entry.header);
            StandingBath {
                bath: *id,
                entry: known.entry,
                label_name: known.event.product.label_name.clone(),
                out_ms: known.event.ended_ms,
                off_min: header.map_or(0, |header| header.off_min),
                pieces: pieces.fold(0, u32::saturating_add),
                topped: known.topped.len(),
            }
        })
        .collect()
}
