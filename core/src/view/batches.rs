//! Bags of mix, loads of stone, fillings of tubs and bottles: which are known, which are in use, and where one went.

use chrono::NaiveDate;

use crate::event::Method;
use crate::id::MixId;
use crate::state::State;
use crate::trace::{self, How, Met, Thing};

use super::{LotLabel, PlaceLabel, lot_label, place_label};

/// Fillings named, the last ones.
const FILLINGS_MOST: usize = 40;

/// Something that can be followed.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct ThingRow {
    pub thing: Thing,
    /// Of a filling: the day, how it was used, and the product.
    pub filling: Option<(NaiveDate, Method, String)>,
}

/// Something a thing met.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct MetRow {
    pub lot: Option<LotLabel>,
    pub place: Option<PlaceLabel>,
    pub on: NaiveDate,
    pub how: How,
    /// The lot a part was split from.
    pub of: Option<LotLabel>,
    /// The lot stands in it still.
    pub still: bool,
    pub stocked: bool,
}

/// What is in use now.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct InUse {
    /// Each mix with its name and the batch of its open bag.
    pub mixes: Vec<(MixId, String, String)>,
    pub stone: String,
}

/// Everything that can be followed.
#[must_use]
pub fn things(state: &State) -> Vec<ThingRow> {
    let treatments = &state.facts().treatments;
    let mut fillings = 0;
    let rows = trace::things(state).into_iter().filter_map(|thing| {
        let filling = match &thing {
            Thing::Bath(id) => {
                let known = treatments.get(id)?;
                fillings += 1;
                if fillings > FILLINGS_MOST {
                    return None;
                }
                let name = known.event.product.label_name.clone();
                Some((known.on, known.event.method, name))
            }
            _ => None,
        };
        Some(ThingRow { thing, filling })
    });
    rows.collect()
}

/// Where one went.
#[must_use]
pub fn went(state: &State, thing: &Thing) -> Vec<MetRow> {
    let facts = state.facts();
    let stocked = |met: Met| match met {
        Met::Lot(lot) => facts.lots.get(&lot).is_some_and(|lot| lot.is_stocked()),
        Met::Place(_) => true,
    };
    let rows = trace::went(state, thing).into_iter().map(|went| MetRow {
        lot: match went.met {
            Met::Lot(lot) => Some(lot_label(facts, lot)),
            Met::Place(_) => None,
        },
        place: match went.met {
            Met::Lot(_) => None,
            Met::Place(place) => place_label(facts, place),
        },
        on: went.on,
        how: went.how,
        of: match went.how {
            How::PartOf(lot) => Some(lot_label(facts, lot)),
            _ => None,
        },
        still: went.still,
        stocked: stocked(went.met),
    });
    rows.collect()
}

/// What is potted from now.
#[must_use]
pub fn in_use(state: &State) -> InUse {
    let book = &state.facts().book;
    let mixes = super::shed::mixes(state).into_iter().map(|row| {
        let open = book.mix_open.get(&row.mix).and_then(|open| open.get());
        (row.mix, row.name, open.cloned().unwrap_or_default())
    });
    InUse {
        mixes: mixes.collect(),
        stone: book.stone_open.or_default(),
    }
}
