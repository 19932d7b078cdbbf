//! What stands on a label, from what the book knows of the lot, the place or the clump.

use std::collections::BTreeMap;

use chrono::NaiveDate;

use crate::code::LotCode;
use crate::id::{ClumpId, LotId, PlaceId};
use crate::name::PlantName;
use crate::state::{Facts, State};
use crate::view::reentry::{Bound, BoundWhat, bound};

use super::choice::LabelOf;

/// What has to be heeded at a plant that was treated, as the label of the product and the record said.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Caution {
    pub on: NaiveDate,
    pub until_ms: i64,
    /// Of the phone that recorded it.
    pub off_min: i16,
    pub label_name: String,
    /// As the label asked; empty where nobody wrote it down.
    pub gear: String,
}

/// The facts of a label.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct LabelText {
    pub of: LabelOf,
    pub code: Option<LotCode>,
    pub name: PlantName,
    /// A place as it is called.
    pub place: String,
    /// The tag on the tray of a clump.
    pub tray: Option<u32>,
    /// When it was potted, else when it came; when a clump came to the bench.
    pub on: Option<NaiveDate>,
    pub potted: bool,
    pub pot: String,
    pub stands: i64,
    /// There while it holds, and not after.
    pub caution: Option<Caution>,
}

/// A word of a name with its face. What a space must not part (the sign of a hybrid and its name) is one word.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Word {
    pub text: String,
    pub italic: bool,
}

/// The labels of things, in the order asked; what the book does not know is left out.
#[must_use]
pub fn label_texts(state: &State, things: &[LabelOf], now_ms: i64) -> Vec<LabelText> {
    let mut bounds: BTreeMap<BoundWhat, Bound> = BTreeMap::new();
    for row in bound(state, now_ms) {
        bounds.insert(row.what, row);
    }
    let things = things.iter();
    things
        .filter_map(|of| match of {
            LabelOf::Lot(lot) => of_lot(state, *lot, &bounds),
            LabelOf::Place(place) => of_place(state, *place),
            LabelOf::Clump(clump) => of_clump(state, *clump),
        })
        .collect()
}

fn nothing(of: LabelOf) -> LabelText {
    LabelText {
        of,
        code: None,
        name: PlantName::default(),
        place: String::new(),
        tray: None,
        on: None,
        potted: false,
        pot: String::new(),
        stands: 0,
        caution: None,
    }
}

fn of_lot(state: &State, id: LotId, bounds: &BTreeMap<BoundWhat, Bound>) -> Option<LabelText> {
    let facts = state.facts();
    let lot = facts.lots.get(&id)?;
    let potted = lot.potted.as_ref();
    let pot = potted.map(|potted| potted.potting.pot_name.clone());
    let bound = bounds.get(&BoundWhat::Lot(id));
    Some(LabelText {
        code: lot.code.get().copied(),
        name: lot.name.or_default(),
        on: potted.map(|potted| potted.on).or(lot.born_on),
        potted: potted.is_some(),
        pot: pot.unwrap_or_default(),
        stands: lot.stands,
        caution: bound.map(|row| caution(facts, row)),
        ..nothing(LabelOf::Lot(id))
    })
}

/// A place carries no caution: what is on its door while it is closed is a paper of its own.
fn of_place(state: &State, id: PlaceId) -> Option<LabelText> {
    let place = state.facts().places.get(&id)?;
    Some(LabelText {
        place: place.name.or_default(),
        ..nothing(LabelOf::Place(id))
    })
}

fn of_clump(state: &State, id: ClumpId) -> Option<LabelText> {
    let opened = state.facts().clumps.get(&id)?.opened.as_ref()?;
    Some(LabelText {
        name: opened.name.clone(),
        tray: Some(opened.tray),
        on: Some(opened.on),
        ..nothing(LabelOf::Clump(id))
    })
}

fn caution(facts: &Facts, row: &Bound) -> Caution {
    let treatment = facts.treatments.get(&row.treatment);
    Caution {
        on: treatment.map_or_else(NaiveDate::default, |known| known.on),
        until_ms: row.until_ms,
        off_min: row.off_min,
        label_name: row.label_name.clone(),
        gear: treatment
            .map(|known| known.event.gear.clone())
            .unwrap_or_default(),
    }
}

/// A name in words. Every word keeps its face; put together again with spaces they are the name as printed.
#[must_use]
pub fn name_words(name: &PlantName) -> Vec<Vec<Word>> {
    let mut words: Vec<Vec<Word>> = Vec::new();
    let mut open = false;
    for run in name.runs() {
        for (at, piece) in run.text.split(' ').enumerate() {
            if at > 0 {
                open = false;
            }
            if piece.is_empty() {
                continue;
            }
            let part = Word {
                text: piece.to_owned(),
                italic: run.italic,
            };
            match words.last_mut() {
                Some(word) if open || is_sign(word) => {
                    if !open {
                        word.push(Word {
                            text: "\u{a0}".to_owned(),
                            italic: false,
                        });
                    }
                    word.push(part);
                }
                _ => words.push(vec![part]),
            }
            open = true;
        }
    }
    words
}

/// A cross by itself belongs to what follows.
fn is_sign(word: &[Word]) -> bool {
    matches!(word, [only] if only.text == "×")
}

#[cfg(test)]
mod tests {
    use super::*;

    fn plain(name: &str) -> Vec<String> {
        let words = name_words(&PlantName::from_typed(name));
        let joined = |word: &Vec<Word>| word.iter().map(|part| part.text.as_str()).collect();
        words.iter().map(joined).collect()
    }

    #[test]
    fn a_name_falls_into_words_and_a_sign_stays_with_what_it_marks() {
        assert_eq!(
            plain("Cymbidium Winter Window 'Slow Bell'"),
            ["Cymbidium", "Winter", "Window", "'Slow", "Bell'"]
        );
        assert_eq!(
            plain("Dendrobium × delicatum"),
            ["Dendrobium", "×\u{a0}delicatum"]
        );
        assert_eq!(
            plain("Cymbidium ensifolium subsp. haematodes"),
            ["Cymbidium", "ensifolium", "subsp.", "haematodes"]
        );
        assert!(plain("").is_empty());
    }

    #[test]
    fn words_lean_as_the_name_does() {
        let words = name_words(&PlantName::from_typed("Pleione Fujiyama 'Teal'"));
        let lean: Vec<bool> = words.iter().flatten().map(|part| part.italic).collect();
        assert_eq!(lean, [true, false, false]);
    }
}
