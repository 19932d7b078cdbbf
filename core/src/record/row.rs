//! Treatments as the record has them: what counts, and what was said first.

use std::collections::BTreeSet;

use chrono::NaiveDate;

use crate::event::{Cover, Event, Treated, TreatedPart, WithdrawWhy};
use crate::id::{EntryRef, PlaceId, TreatmentId};
use crate::state::{Facts, State};
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
    pub treated: Treated,
    /// Names of the plants, each once.
    pub crops: Vec<String>,
    pub codes: Vec<String>,
    pub places: Vec<String>,
    pub plants: u32,
    /// Under a roof; `None` where no place is known.
    pub closed_space: Option<bool>,
    /// The mixture it went into was measured for this treatment.
    pub mixed_for: Option<Treated>,
}

/// The whole record, oldest first; what was replaced stands right before what counts.
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
        for (index, event) in (0u16..).zip(&book_row.events) {
            let first = book_row
                .amended_from
                .iter()
                .find(|(of, _)| *of == index)
                .map(|(_, event)| (event, Standing::Replaced));
            let now = (event, withdrawn.unwrap_or(Standing::Counts));
            for (event, standing) in first.into_iter().chain([now]) {
                if let Event::Treated(treated) = event {
                    rows.push(row(
                        state,
                        entry.id,
                        standing,
                        (book_row.on, book_row.at_ms, entry.header.off_min),
                        treated,
                    ));
                }
            }
        }
    }
    rows
}

fn row(
    state: &State,
    entry: EntryRef,
    standing: Standing,
    (on, made_ms, off_min): (NaiveDate, i64, i16),
    treated: &Treated,
) -> Row {
    let facts = state.facts();
    let mut about = About::default();
    about.place(facts, treated.place);
    for part in &treated.parts {
        about.part(facts, part);
    }
    Row {
        entry,
        standing,
        on,
        made_ms,
        off_min,
        crops: about.crops.into_iter().collect(),
        codes: about.codes.into_iter().collect(),
        places: about.places.into_iter().collect(),
        plants: about.plants,
        closed_space: about.closed,
        mixed_for: treated
            .same_mix_as
            .and_then(|id: TreatmentId| facts.treatments.get(&id))
            .map(|known| known.event.clone()),
        treated: treated.clone(),
    }
}

/// What a treatment was on.
#[derive(Default)]
struct About {
    crops: BTreeSet<String>,
    codes: BTreeSet<String>,
    places: BTreeSet<String>,
    plants: u32,
    closed: Option<bool>,
}

impl About {
    fn part(&mut self, facts: &Facts, part: &TreatedPart) {
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
                self.place(facts, known.place.get().copied());
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
                    self.place(facts, known.place.get().copied());
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
        let roofed = known.cover.or_default() == Cover::Roofed;
        // Where anything of it was in the open, the use was not in a closed space.
        self.closed = Some(self.closed.unwrap_or(true) && roofed);
    }
}
