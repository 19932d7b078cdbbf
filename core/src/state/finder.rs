//! Finding a lot by what was typed: the words of every lot made ready once, and again only when the book has changed.
//!
//! A nursery has many lots, few names and fewer places. So a word asked for is held against each name and each place
//! once, and against what is a lot's own: its code, its number elsewhere and for whom it is kept.

use std::collections::BTreeMap;

use crate::code::LotCode;
use crate::id::{LotId, PlaceId};
use crate::name::PlantName;
use crate::text::{Closeness, Question, fold};

use super::{Born, Facts, Lot};

/// Every lot in stock, ready to be looked for.
#[derive(Clone, Debug, Default)]
pub struct Finder {
    lots: Vec<Ready>,
    /// Folded, in the order in which they are printed.
    names: Vec<String>,
    /// Folded, in the order of their numbers; at the end that of lots without a place.
    places: Vec<String>,
    plants: i64,
}

/// A lot ready to be looked for.
#[derive(Clone, Debug)]
struct Ready {
    id: LotId,
    name: usize,
    place: usize,
    walk: u32,
    code: Option<LotCode>,
    own: String,
}

/// A lot that answers to what was typed: nearest first, then as it stands on the walk, by name and by code.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Hit {
    closeness: Option<Closeness>,
    walk: u32,
    name: usize,
    code: Option<LotCode>,
    pub lot: LotId,
}

impl Finder {
    pub(super) fn of(facts: &Facts) -> Self {
        let none = PlantName::default();
        let mut numbers: BTreeMap<&PlantName, usize> = BTreeMap::new();
        for (_, lot) in stocked(facts) {
            numbers.entry(lot.name.get().unwrap_or(&none)).or_default();
        }
        let mut printed: Vec<(String, &mut usize)> = numbers
            .iter_mut()
            .map(|(name, number)| (name.plain(), number))
            .collect();
        printed.sort_unstable_by(|(a, _), (b, _)| a.cmp(b));
        let mut names: Vec<String> = Vec::new();
        let mut last = None;
        for (plain, number) in &mut printed {
            // Names that are printed alike stand alike in the list.
            if last.as_ref() != Some(plain) {
                names.push(fold(plain));
                last = Some(plain.clone());
            }
            **number = names.len().saturating_sub(1);
        }
        let mut places: Vec<String> = Vec::new();
        let mut walks: BTreeMap<PlaceId, (usize, u32)> = BTreeMap::new();
        for (id, place) in &facts.places {
            walks.insert(*id, (places.len(), place.walk.or_default()));
            places.push(place.name.get().map(|name| fold(name)).unwrap_or_default());
        }
        let nowhere = (places.len(), u32::MAX);
        places.push(String::new());

        let ready = stocked(facts).map(|(id, lot)| {
            let place = lot.place.get().and_then(|place| walks.get(place));
            let (place, walk) = *place.unwrap_or(&nowhere);
            Ready {
                id,
                name: *numbers.get(lot.name.get().unwrap_or(&none)).unwrap_or(&0),
                place,
                walk,
                code: lot.code.get().copied(),
                own: own_words(lot),
            }
        });
        let lots: Vec<Ready> = ready.collect();
        let plants = stocked(facts).map(|(_, lot)| lot.plants);
        Self {
            plants: plants.fold(0, i64::saturating_add),
            lots,
            names,
            places,
        }
    }

    /// Lots in stock.
    #[must_use]
    pub fn lots(&self) -> usize {
        self.lots.len()
    }

    /// Plants of all of them.
    #[must_use]
    pub const fn plants(&self) -> i64 {
        self.plants
    }

    /// Lots that match, in no order; all of them where nothing was asked for.
    #[must_use]
    pub fn find(&self, typed: &str) -> Vec<Hit> {
        let question = Question::new(typed);
        if question.is_empty() {
            return self.lots.iter().map(|lot| lot.hit(None)).collect();
        }
        let names: Vec<_> = self.names.iter().map(|it| question.words_in(it)).collect();
        let places: Vec<_> = self.places.iter().map(|it| question.words_in(it)).collect();
        let across = question.may_run_across();
        let hits = self.lots.iter().filter_map(|lot| {
            let (name, place) = (names.get(lot.name)?, places.get(lot.place)?);
            let near = question.nearest([name, place], &lot.own);
            // Most lots do not match, and few questions could run from one part into the next.
            let closeness = match near {
                None if across => question.find_in(&self.whole(lot)?)?,
                near => near?,
            };
            Some(lot.hit(Some(closeness)))
        });
        hits.collect()
    }

    /// All that is written of a lot, in one text.
    fn whole(&self, lot: &Ready) -> Option<String> {
        let (name, place) = (self.names.get(lot.name)?, self.places.get(lot.place)?);
        let code = lot.code.map(LotCode::folded).unwrap_or_default();
        Some(format!("{name} {code} {place} {}", lot.own))
    }
}

impl Ready {
    const fn hit(&self, closeness: Option<Closeness>) -> Hit {
        Hit {
            closeness,
            walk: self.walk,
            name: self.name,
            code: self.code,
            lot: self.id,
        }
    }
}

fn stocked(facts: &Facts) -> impl Iterator<Item = (LotId, &Lot)> {
    facts.live_lots().filter(|(_, lot)| lot.is_stocked())
}

/// Its code, what another program calls it and for whom it is kept, folded.
fn own_words(lot: &Lot) -> String {
    let mut words = lot.code.get().map(|code| code.folded()).unwrap_or_default();
    let number = match &lot.born {
        Some(Born::Received { outside_ref, .. }) => outside_ref.as_str(),
        _ => "",
    };
    let kept = lot.reserved.values().map(|kept| kept.to.as_str());
    for more in std::iter::once(number).chain(kept) {
        if !more.is_empty() {
            words.push(' ');
            words.push_str(&fold(more));
        }
    }
    words
}
