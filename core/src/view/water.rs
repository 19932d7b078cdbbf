//! The round with the hose: every bench in walking order, what on it is to be looked at, who gets none, and its feed.

use std::collections::BTreeMap;

use chrono::NaiveDate;

use crate::event::{Cover, Nitrogen, WaterHow};
use crate::id::{EntryRef, FeedId, LotId, PlaceId};
use crate::reference::thirst::{
    FEED_DAYS, FEED_PPM, FEED_WEAK_PPM, FEED_WINTER_DAYS, FEEDS_TO_FLUSH,
};
use crate::season::{Season, season_of};
use crate::state::{Facts, State, Watering};
use crate::time::days_between;
use crate::water::{
    First, Hold, Last, LotWater, Rain, Stand, benches_with_work, firsts, hold, is_weak, rain_since,
    stand, standing, waterings,
};

use super::reentry::{Bound, BoundWhat, bound};
use super::{LotLabel, PlaceLabel, lot_label, places};

/// A bench a few days past the usual is late, not merely due.
const LATE_DAYS: i64 = 3;

/// How a bench stands.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum BenchState {
    Late {
        days: i64,
    },
    Look,
    Later {
        days: i64,
    },
    /// Everything on it is held or rests.
    Nothing,
}

/// When a bench is to be fed.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum FeedState {
    /// Nothing on record: nobody is told to begin.
    Never,
    Due {
        late: i64,
    },
    Later {
        days: i64,
    },
}

/// The feed of a bench.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct BenchFeed {
    pub state: FeedState,
    pub last_on: Option<NaiveDate>,
    pub last_ppm: Option<u32>,
    /// Nitrogen to begin with, in milligrams a litre: the last that was given, less where plants were divided.
    pub ppm: u32,
    /// Plants divided not long ago, for whom it is the weakest.
    pub weak: usize,
    /// So many feeds since plain water ran through.
    pub since_flush: usize,
    pub flush_due: bool,
    pub days: u16,
    pub own_days: bool,
}

/// A bench in the list.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Bench {
    /// `None` for lots without a place.
    pub place: Option<PlaceLabel>,
    pub state: BenchState,
    pub lots: usize,
    pub stands: i64,
    /// Lots to be looked at, and of them those with nothing on record.
    pub look: usize,
    pub unknown: usize,
    /// First waters that may be given.
    pub first: usize,
    pub held: Vec<(LotLabel, NaiveDate)>,
    /// With the day a sign was seen for which they are kept dry.
    pub kept_dry: Vec<(LotLabel, NaiveDate)>,
    /// Treated, and not to be touched yet.
    pub bound: Vec<(LotLabel, Bound)>,
    pub resting: Vec<(LotLabel, Option<NaiveDate>)>,
    pub look_at_rest: usize,
    pub last: Option<Last>,
    /// Fewest and most days between looks, and whether they are the grower's own.
    pub days: (u16, u16),
    pub open_to_rain: bool,
    pub rained: Option<Rain>,
    pub feed: BenchFeed,
}

/// A lot of a bench, for the bench's own page.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct BenchLot {
    pub label: LotLabel,
    pub water: LotWater,
    /// Until when nobody goes near it, where that is so: it or its place was treated.
    pub bound: Option<Bound>,
    /// Why it gets no feed.
    pub no_feed: Option<Hold>,
    pub is_weak: bool,
}

/// A feed of the shelf.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct FeedRow {
    pub feed: FeedId,
    pub name: String,
    pub npk_typed: String,
    pub nitrogen: Option<Nitrogen>,
    pub ec_us_cm: u32,
}

/// Something a lot got, for its page.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Got {
    pub on: NaiveDate,
    pub entry: EntryRef,
    pub how: WaterHow,
    pub flush: bool,
    /// Parts of nitrogen, where it was fed.
    pub fed: Option<Option<u32>>,
}

/// Every bench with plants on it, in walking order; lots without a place last.
#[must_use]
pub fn benches(state: &State, on: NaiveDate, now_ms: i64) -> Vec<Bench> {
    let facts = state.facts();
    let asked = Asked::of(state, on, now_ms);
    let known = places(facts).into_iter().map(Some).chain([None]);
    let rows = known.filter_map(|place| {
        let id = place.as_ref().map(|place| place.place);
        let lots = asked.lots(facts, id);
        (!lots.is_empty()).then(|| bench(facts, place, &lots, on))
    });
    rows.collect()
}

/// Benches with something to look at; `None` in a book of so many lots that it is not counted beside other work.
#[must_use]
pub fn benches_to_look(state: &State, on: NaiveDate, now_ms: i64) -> Option<usize> {
    let asked = Asked::of(state, on, now_ms);
    let bound = |lot, place| asked.binds(lot, place).is_some();
    benches_with_work(state, &asked.firsts, on, bound)
}

/// One bench with its lots.
#[must_use]
pub fn one_bench(
    state: &State,
    place: Option<PlaceId>,
    on: NaiveDate,
    now_ms: i64,
) -> Option<(Bench, Vec<BenchLot>)> {
    let facts = state.facts();
    let label = match place {
        Some(id) => Some(super::place_label(facts, id)?),
        None => None,
    };
    let lots = Asked::of(state, on, now_ms).lots(facts, place);
    Some((bench(facts, label, &lots, on), lots))
}

/// What holds for all benches of a walk.
struct Asked {
    on: NaiveDate,
    firsts: BTreeMap<LotId, First>,
    bound: Vec<Bound>,
}

impl Asked {
    fn of(state: &State, on: NaiveDate, now_ms: i64) -> Self {
        Self {
            on,
            firsts: firsts(state, on),
            bound: bound(state, now_ms),
        }
    }

    /// What binds a lot in a place; the longest stands last.
    fn binds(&self, lot: LotId, place: Option<PlaceId>) -> Option<Bound> {
        let whole = place.map(BoundWhat::Place);
        let rows = self.bound.iter().rev();
        let mut rows =
            rows.filter(|row| row.what == BoundWhat::Lot(lot) || Some(row.what) == whole);
        rows.next().cloned()
    }

    fn lots(&self, facts: &Facts, place: Option<PlaceId>) -> Vec<BenchLot> {
        let rain = place.map(|place| rain_since(facts, place, self.on));
        let rain = rain.unwrap_or_default();
        let lots = standing(facts, place).map(|(id, lot)| {
            let first = self.firsts.get(&id).copied().unwrap_or_default();
            BenchLot {
                label: lot_label(facts, id),
                water: stand(facts, id, lot, first, &rain, self.on),
                bound: self.binds(id, lot.place.get().copied()),
                no_feed: hold(facts, lot, first, self.on, true),
                is_weak: is_weak(lot, self.on),
            }
        });
        lots.collect()
    }
}

impl BenchLot {
    /// Whether it is to be looked at now.
    #[must_use]
    pub fn is_to_look(&self) -> bool {
        self.bound.is_none() && matches!(self.water.stand, Stand::Look { .. })
    }

    /// Whether it is left out by itself.
    #[must_use]
    pub fn is_held(&self, feeding: bool) -> bool {
        self.bound.is_some()
            || if feeding {
                self.no_feed.is_some()
            } else {
                matches!(self.water.stand, Stand::Held(_))
            }
    }
}

fn bench(facts: &Facts, place: Option<PlaceLabel>, lots: &[BenchLot], on: NaiveDate) -> Bench {
    let id = place.as_ref().map(|place| place.place);
    let known = id.and_then(|id| facts.places.get(&id));
    let open_to_rain = known.is_some_and(|it| it.cover.or_default() == Cover::OpenToRain);
    let (mut look, mut late, mut next) = (0, 0, None::<i64>);
    let (mut held, mut resting) = (Vec::new(), Vec::new());
    let (mut kept_dry, mut bound) = (Vec::new(), Vec::new());
    for lot in lots {
        if let Some(by) = &lot.bound {
            bound.push((lot.label.clone(), by.clone()));
            continue;
        }
        match lot.water.stand {
            Stand::Look { late: days } => {
                look += 1;
                late = late.max(days);
            }
            Stand::Later { days } => next = Some(next.map_or(days, |next| next.min(days))),
            Stand::Held(Hold::NoWaterBefore(until) | Hold::NoFeedBefore(until)) => {
                held.push((lot.label.clone(), until));
            }
            Stand::Held(Hold::KeptDry(seen_on)) => kept_dry.push((lot.label.clone(), seen_on)),
            Stand::Held(Hold::Rest(until)) => resting.push((lot.label.clone(), until)),
        }
    }
    let state = match (look, next) {
        (0, None) => BenchState::Nothing,
        (0, Some(days)) => BenchState::Later { days },
        _ if late >= LATE_DAYS => BenchState::Late { days: late },
        _ => BenchState::Look,
    };
    let count = |which: &dyn Fn(&BenchLot) -> bool| lots.iter().filter(|lot| which(lot)).count();
    let days = lots.iter().map(|lot| lot.water.rhythm.days);
    Bench {
        state,
        lots: lots.len(),
        stands: lots.iter().map(|lot| lot.label.stands).sum(),
        look,
        unknown: count(&|lot| lot.is_to_look() && lot.water.last.is_none()),
        first: count(&|lot| lot.is_to_look() && lot.water.is_first),
        look_at_rest: count(&|lot| lot.water.look_at_rest),
        held,
        kept_dry,
        bound,
        resting,
        last: lots
            .iter()
            .filter_map(|lot| lot.water.last)
            .max_by_key(|last| last.on),
        days: (days.clone().min().unwrap_or(0), days.max().unwrap_or(0)),
        rained: id.and_then(|id| rain_since(facts, id, on).pop()),
        open_to_rain,
        feed: bench_feed(facts, id, lots, on),
        place,
    }
}

fn bench_feed(
    facts: &Facts,
    place: Option<PlaceId>,
    lots: &[BenchLot],
    on: NaiveDate,
) -> BenchFeed {
    let known = place.and_then(|place| facts.places.get(&place));
    let here: &[Watering] = known
        .map(|place| &place.waterings.0[..])
        .unwrap_or_default();
    let last = here.iter().rev().find(|it| it.fed.is_some() && it.on <= on);
    let last_ppm = last.and_then(|it| it.fed.as_ref()?.nitrogen_ppm);
    let since = here.iter().rev().take_while(|it| !it.flush);
    let since_flush = since.filter(|it| it.fed.is_some()).count();
    let own = known.and_then(|place| place.feed_days.get().copied());
    let own = own.filter(|days| *days > 0);
    let winter = season_of(on, facts.book.hemisphere()).0 == Season::Winter;
    let days = own.unwrap_or(if winter { FEED_WINTER_DAYS } else { FEED_DAYS });
    let fed = lots.iter().filter(|lot| !lot.is_held(true));
    let weak = fed.clone().filter(|lot| lot.is_weak).count();
    let usual = last_ppm.unwrap_or(FEED_PPM);
    let state = match last {
        None => FeedState::Never,
        Some(_) if fed.count() == 0 => FeedState::Later { days: 0 },
        Some(last) => match days_between(last.on, on) - i64::from(days) {
            late @ 0.. => FeedState::Due { late },
            days => FeedState::Later { days: -days },
        },
    };
    BenchFeed {
        state,
        last_on: last.map(|it| it.on),
        last_ppm,
        ppm: if weak > 0 {
            usual.min(FEED_WEAK_PPM)
        } else {
            usual
        },
        weak,
        since_flush,
        flush_due: since_flush >= FEEDS_TO_FLUSH,
        days,
        own_days: own.is_some(),
    }
}

/// Feeds of the shelf, by name.
#[must_use]
pub fn feeds(facts: &Facts) -> Vec<FeedRow> {
    let in_use = facts
        .feeds
        .iter()
        .filter(|(_, it)| !it.retired.or_default());
    let mut rows: Vec<FeedRow> = in_use
        .map(|(id, it)| FeedRow {
            feed: *id,
            name: it.name.or_default(),
            npk_typed: it.npk_typed.or_default(),
            nitrogen: it.nitrogen.get().copied(),
            ec_us_cm: it.ec_us_cm.or_default(),
        })
        .collect();
    rows.sort_by(|a, b| (&a.name, a.feed).cmp(&(&b.name, b.feed)));
    rows
}

/// How a lot stands for water, and what it got last, newest first.
#[must_use]
pub fn of_lot(
    state: &State,
    id: LotId,
    on: NaiveDate,
    most: usize,
) -> Option<(LotWater, Vec<Got>)> {
    let facts = state.facts();
    let lot = facts.lots.get(&id).filter(|lot| lot.plants > 0)?;
    let place = lot.place.get().copied();
    let rain = place.map(|place| rain_since(facts, place, on));
    let first = crate::water::first_of(state, id, on);
    let water = stand(facts, id, lot, first, &rain.unwrap_or_default(), on);
    let mut had = waterings(facts, id, lot);
    had.sort_by_key(|it| std::cmp::Reverse((it.on, it.order)));
    let got = had.into_iter().take(most).map(|it| Got {
        on: it.on,
        entry: it.entry,
        how: it.how,
        flush: it.flush,
        fed: it.fed.as_ref().map(|fed| fed.nitrogen_ppm),
    });
    Some((water, got.collect()))
}
