//! What the Round shows beside tasks, as it is kept with them.

use crate::id::{ClumpId, LotId, PlaceId, TreatmentId};
use crate::pack::{Packer, Unpacker};
use crate::state::State;
use crate::view::reentry::{Bound, BoundWhat, bound};
use crate::view::round::{BenchRow, on_the_bench};
use crate::view::{PlaceLabel, buying, places};

use super::task::{name, pack_name};

/// Bound things that are kept; with more of them the Round waits for the whole book.
const BOUNDS_MAX: usize = 100;

/// What the Round shows beside tasks.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub(super) struct Beside {
    pub(super) places: Vec<PlaceLabel>,
    pub(super) on_the_bench: Vec<BenchRow>,
    pub(super) questions: usize,
    pub(super) no_lots: bool,
    /// What treatments keep people away from, as of when it was kept: that is never left unsaid, not for a moment.
    pub(super) bounds: Vec<Bound>,
    /// What the Round says is worked out of the whole book: more is bound than is kept, treatments are planned where
    /// containers are kept (what is missing for them), or a pest's next generation is looked for.
    pub(super) needs_all: bool,
}

impl Beside {
    pub(super) fn of(state: &State, now_ms: i64) -> Self {
        let facts = state.facts();
        let bounds = bound(state, now_ms);
        let many = bounds.len() > BOUNDS_MAX;
        Self {
            places: places(facts),
            on_the_bench: on_the_bench(state),
            questions: state.anomalies().len(),
            no_lots: facts.lots.is_empty(),
            needs_all: many || is_to_treat(state) || facts.looks().next().is_some(),
            bounds: if many { Vec::new() } else { bounds },
        }
    }

    pub(super) fn pack(&self, packer: &mut Packer) {
        packer.size(self.places.len());
        for place in &self.places {
            packer.thing(place.place.0);
            packer.once(&place.name);
            packer.num(place.walk);
            packer.num(u8::from(place.open_to_rain));
        }
        packer.size(self.on_the_bench.len());
        for row in &self.on_the_bench {
            packer.thing(row.clump.0);
            packer.num(row.tray);
            pack_name(packer, &row.name);
            packer.num(row.pots);
            packer.num(row.bare);
            packer.maybe(row.bare_since, |packer, (on, minute)| {
                packer.day(on);
                packer.num(minute);
            });
            packer.day(row.opened_on);
        }
        packer.size(self.questions);
        packer.num(u8::from(self.no_lots));
        packer.size(self.bounds.len());
        for row in &self.bounds {
            let (kind, thing) = match row.what {
                BoundWhat::Lot(lot) => (0_u8, Some(lot.0)),
                BoundWhat::Clump(clump) => (1, Some(clump.0)),
                BoundWhat::Place(place) => (2, Some(place.0)),
                BoundWhat::TableAndTub => (3, None),
            };
            packer.num(kind);
            packer.maybe(thing, Packer::thing);
            packer.thing(row.treatment.0);
            packer.once(&row.label_name);
            packer.int(row.until_ms);
            packer.int(i64::from(row.off_min));
        }
        packer.num(u8::from(self.needs_all));
    }

    pub(super) fn unpack(reader: &mut Unpacker<'_>) -> Option<Self> {
        let mut beside = Self::default();
        for _ in 0..reader.num()? {
            beside.places.push(PlaceLabel {
                place: PlaceId(reader.thing()?),
                name: reader.once()?.to_owned(),
                walk: reader.small()?,
                open_to_rain: reader.num()? == 1,
            });
        }
        for _ in 0..reader.num()? {
            beside.on_the_bench.push(BenchRow {
                clump: ClumpId(reader.thing()?),
                tray: reader.small()?,
                name: name(reader)?,
                pots: reader.num()?,
                bare: reader.num()?,
                bare_since: reader.maybe(|reader| Some((reader.day()?, reader.small()?)))?,
                opened_on: reader.day()?,
            });
        }
        beside.questions = reader.small()?;
        beside.no_lots = reader.num()? == 1;
        for _ in 0..reader.num()? {
            beside.bounds.push(bound_row(reader)?);
        }
        beside.needs_all = reader.num()? == 1;
        Some(beside)
    }
}

fn bound_row(reader: &mut Unpacker<'_>) -> Option<Bound> {
    let kind: u8 = reader.small()?;
    let thing = reader.maybe(Unpacker::thing)?;
    Some(Bound {
        what: match (kind, thing) {
            (0, Some(thing)) => BoundWhat::Lot(LotId(thing)),
            (1, Some(thing)) => BoundWhat::Clump(ClumpId(thing)),
            (2, Some(thing)) => BoundWhat::Place(PlaceId(thing)),
            (3, None) => BoundWhat::TableAndTub,
            _ => return None,
        },
        treatment: TreatmentId(reader.thing()?),
        label_name: reader.once()?.to_owned(),
        until_ms: reader.int()?,
        off_min: i16::try_from(reader.int()?).ok()?,
    })
}

/// Whether containers are kept and a treatment is to come, on whatever day: what is missing for it is said on the Round.
fn is_to_treat(state: &State) -> bool {
    let facts = state.facts();
    if facts.containers.is_empty() {
        return false;
    }
    let mut found = false;
    state.each_task(|task| found = found || buying::is_planned(facts, task));
    found
}
