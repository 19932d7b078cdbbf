//! Treatments as the record has them: what counts, and what was said first.

use std::collections::BTreeSet;

use chrono::NaiveDate;

use crate::event::{BathTopped, Cover, Event, Treated, TreatedPart, WithdrawWhy};
use crate::id::{EntryRef, LotId, PlaceId, Subject, TreatmentId};
use crate::state::{Facts, State};
use crate::time::Stamp;
use crate::view::book::row_of;

/// How a line stands.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Standing {
    Counts,
    /// What was said before a correction.
    Replaced,
    Withdrawn(WithdrawWhy),
}

/// One line of the record.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Row {
    pub entry: EntryRef,
    pub standing: Standing,
    /// The civil day of the treatment, where the phone was.
    pub on: NaiveDate,
    /// When it was written down, and the offset of the phone then.
    pub made_ms: i64,
    pub off_min: i16,
    /// When this reading was written as a correction, and why.
    pub corrected: Option<(i64, String)>,
    pub treated: Treated,
    /// Names of the plants, each once.
    pub crops: Vec<String>,
    pub codes: Vec<String>,
    pub places: Vec<String>,
    /// Latitude and longitude of the places that have them, in degrees.
    pub coordinates: Vec<String>,
    pub plants: u32,
    /// Under a roof; `None` where no place is known.
    pub closed_space: Option<bool>,
    /// Where the rest went, said of the treatment or at the end of its bath.
    pub disposal: String,
    /// How the bath was filled up.
    pub topped: Vec<BathTopped>,
    /// The mixture it went into was measured for this treatment.
    pub mixed_for: Option<Treated>,
}

/// The whole record, oldest first; all that was replaced stands right before what counts, in the order it was said.
#[must_use]
pub fn rows(state: &State) -> Vec<Row> {
    let mut rows = Vec::new();
    for entry in state.log().in_order() {
        let any = entry
            .events
            .iter()
            .flatten()
            .any(|event| matches!(event, Event::Treated(_)));
        let Some(book_row) = any.then(|| row_of(state, entry.id)).flatten() else {
            continue;
        };
        let withdrawn = book_row.withdrawn.map(|(_, why)| Standing::Withdrawn(why));
        let written = When {
            on: book_row.on,
            order: book_row.order,
            made_ms: book_row.at_ms,
            off_min: entry.header.off_min,
        };
        for (index, event) in (0u16..).zip(entry.events.iter().flatten()) {
            let first = std::iter::once((None, event));
            let later = state.log().amendments_of(entry.id, index).map(|(by, it)| {
                let at_ms = row_of(state, by).map_or(0, |row| row.at_ms);
                (Some((at_ms, it.why.clone())), it.event.as_ref())
            });
            let said: Vec<_> = first.chain(later).collect();
            let last = said.len().saturating_sub(1);
            for (at, (corrected, event)) in said.into_iter().enumerate() {
                let Event::Treated(treated) = event else {
                    continue;
                };
                let standing = if at < last {
                    Standing::Replaced
                } else {
                    withdrawn.unwrap_or(Standing::Counts)
                };
                let mut row = row(state, entry.id, standing, written, treated);
                row.corrected = corrected;
                rows.push(row);
            }
        }
    }
    rows
}

/// When a treatment was, and when it was written down.
#[derive(Clone, Copy)]
struct When {
    on: NaiveDate,
    order: Stamp,
    made_ms: i64,
    off_min: i16,
}

fn row(state: &State, entry: EntryRef, standing: Standing, when: When, treated: &Treated) -> Row {
    let facts = state.facts();
    let mut about = About::default();
    about.place(facts, treated.place);
    for part in &treated.parts {
        about.part(state, part, when);
    }
    Row {
        entry,
        standing,
        on: when.on,
        made_ms: when.made_ms,
        off_min: when.off_min,
        corrected: None,
        crops: about.crops.into_iter().collect(),
        codes: about.codes.into_iter().collect(),
        places: about.places.into_iter().collect(),
        coordinates: about.coordinates.into_iter().collect(),
        plants: about.plants,
        closed_space: about.closed,
        disposal: disposal(facts, treated),
        topped: facts
            .treatments
            .get(&treated.treatment)
            .map(|known| known.topped.iter().map(|(.., it)| it.clone()).collect())
            .unwrap_or_default(),
        mixed_for: treated
            .same_mix_as
            .and_then(|id: TreatmentId| facts.treatments.get(&id))
            .map(|known| known.event.clone()),
        treated: treated.clone(),
    }
}

/// Where the rest went: as the treatment says, else as was said when its bath was emptied.
fn disposal(facts: &Facts, treated: &Treated) -> String {
    if !treated.disposal.is_empty() {
        return treated.disposal.clone();
    }
    let bath = treated.same_mix_as.unwrap_or(treated.treatment);
    let ended = facts.treatments.get(&bath).and_then(|it| it.ended.as_ref());
    ended.map_or_else(String::new, |(_, it)| it.disposal.clone())
}

/// Where a lot stood at a treatment: moved since, it was still treated there.
fn place_then(state: &State, id: LotId, when: When) -> Option<PlaceId> {
    let mut stood = None;
    for at in state.log().about(Subject::Lot(id)) {
        for fact in state.log().facts(at.id) {
            let header = &fact.entry.header;
            if (header.on, header.order) > (when.on, when.order) && stood.is_some() {
                continue;
            }
            let to = match fact.event {
                Event::LotReceived(it) if it.lot == id => it.place,
                Event::PiecesPotted(it) if it.lot == id => it.place,
                Event::LotSplit(it) if it.lot == id => it.place,
                Event::Moved(it) if it.lot == id => Some(it.to),
                _ => None,
            };
            stood = to.or(stood);
        }
    }
    stood
}

/// What a treatment was on.
#[derive(Default)]
struct About {
    crops: BTreeSet<String>,
    codes: BTreeSet<String>,
    places: BTreeSet<String>,
    coordinates: BTreeSet<String>,
    plants: u32,
    closed: Option<bool>,
}

impl About {
    fn part(&mut self, state: &State, part: &TreatedPart, when: When) {
        let facts = state.facts();
        match part {
            TreatedPart::Lot { lot, plants } => {
                self.plants = self.plants.saturating_add(*plants);
                let Some(known) = facts.lots.get(lot) else {
                    return;
                };
                self.crop(&known.name.or_default().plain());
                if let Some(code) = known.code.get() {
                    self.codes.insert(code.to_string());
                }
                self.place(facts, place_then(state, *lot, when));
            }
            TreatedPart::Pieces { clump, plants, .. } => {
                self.plants = self.plants.saturating_add(*plants);
                let Some(opened) = facts
                    .clumps
                    .get(clump)
                    .and_then(|known| known.opened.as_ref())
                else {
                    return;
                };
                self.crop(&opened.name.plain());
                self.place(facts, opened.place);
                for lot in &opened.lots {
                    let Some(known) = facts.lots.get(&lot.lot) else {
                        continue;
                    };
                    self.crop(&known.name.or_default().plain());
                    self.place(facts, place_then(state, lot.lot, when));
                }
            }
        }
    }

    fn crop(&mut self, name: &str) {
        if !name.is_empty() {
            self.crops.insert(name.to_owned());
        }
    }

    fn place(&mut self, facts: &Facts, place: Option<PlaceId>) {
        let Some(known) = place.and_then(|place| facts.places.get(&place)) else {
            return;
        };
        self.places.insert(known.name.or_default());
        let at = known.coordinates.get().map(ToString::to_string);
        self.coordinates.extend(at);
        let roofed = known.cover.or_default() == Cover::Roofed;
        // Where anything of it was in the open, the use was not in a closed space.
        self.closed = Some(self.closed.unwrap_or(true) && roofed);
    }
}
