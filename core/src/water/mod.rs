//! When plants are to be looked at for water, who must get none yet, and how much feed goes into a can.
//!
//! Invariants: nothing here knows whether a pot is dry; it says when one is to be lifted. The grower's own days for a
//! bench, then for a group, stand before what is reckoned. Plants whose first water may not be given yet, plants at rest,
//! and plants with a sign that water feeds are left out of a bench by themselves, and are named.

mod feed;
mod last;
mod rhythm;

pub use feed::{Mixed, MixedFor, amount, expected_ec, mixed};
pub(crate) use feed::{is_injector, is_sound, is_water};
pub use last::{By, Last, Rain, last, rain_since, waterings};
pub use rhythm::{Factor, Rhythm, RhythmFrom, rhythm};

use std::collections::{BTreeMap, BTreeSet};

use chrono::{Datelike, NaiveDate};

use crate::event::Sight;
use crate::id::{LotId, PlaceId};
use crate::reference::thirst::{self, WEAK_DAYS};
use crate::season::Window;
use crate::state::{Facts, Lot, State};
use crate::task::derive::{Task, group_row};
use crate::task::{TaskKind, Trigger, looks, windows};
use crate::time::{days_between, plus_days};

/// Up to so many lots the benches to look at are counted on the Round, at every change of the book.
const COUNTED_LOTS: usize = 2_000;

/// After so many days what was written down last says nothing of today.
const STALE_DAYS: i64 = 45;

/// Why a lot of a bench gets none.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Hold {
    /// No water before that day: after dividing, later in the cold.
    NoWaterBefore(NaiveDate),
    /// Kept dry or nearly so; until the end of its window, where there is one.
    Rest(Option<NaiveDate>),
    /// A sign that water feeds was seen on that day, and nobody has looked again.
    KeptDry(NaiveDate),
    /// No feed before that day. Of water it gets its share.
    NoFeedBefore(NaiveDate),
}

/// Open work that says whether plants may be watered or fed.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct First {
    /// From when on and when the first water is due.
    pub water: Option<(NaiveDate, NaiveDate)>,
    pub feed: Option<(NaiveDate, NaiveDate)>,
    /// When a sign was seen for which it is kept dry until somebody looks again.
    pub kept_dry: Option<NaiveDate>,
}

/// First water and first feed of every lot that waits for one.
#[must_use]
pub fn firsts(state: &State, on: NaiveDate) -> BTreeMap<LotId, First> {
    let mut firsts: BTreeMap<LotId, First> = BTreeMap::new();
    state.each_task(|task| take(&mut firsts, task));
    for (lot, seen_on) in looks::kept_dry(state.facts(), on) {
        firsts.entry(lot).or_default().kept_dry = Some(seen_on);
    }
    firsts
}

/// The same of one lot.
#[must_use]
pub fn first_of(state: &State, lot: LotId, on: NaiveDate) -> First {
    let mut firsts = BTreeMap::new();
    for task in state.tasks_of(lot) {
        take(&mut firsts, &task);
    }
    let first = firsts.remove(&lot).unwrap_or_default();
    First {
        kept_dry: looks::kept_dry_since(state.facts(), lot, on),
        ..first
    }
}

fn take(firsts: &mut BTreeMap<LotId, First>, task: &Task) {
    let Some(lot) = task.lot else { return };
    let kept = match task.kind {
        TaskKind::FirstWater => &mut firsts.entry(lot).or_default().water,
        TaskKind::FirstFeed => &mut firsts.entry(lot).or_default().feed,
        _ => return,
    };
    // The later of two is the one that holds.
    if kept.is_none_or(|(_, due_on)| due_on < task.due_on) {
        *kept = Some((task.from_on.min(task.due_on), task.due_on));
    }
}

/// Until when a lot rests, if it does: by what was seen of it, else by the table. New growth ends a rest.
#[must_use]
pub fn rests(facts: &Facts, lot: &Lot, on: NaiveDate) -> Option<Option<NaiveDate>> {
    let resting = windows::rest(facts, lot);
    let window = resting
        .windows
        .into_iter()
        .find(|window| window.contains(on))?;
    let closes_on = window.closes_on(on);
    // Whatever woke within the last half year of days before it closes woke in this rest.
    let opened_after = plus_days(closes_on.unwrap_or(on), -200);
    let woke = lot.sights.iter().any(|seen| {
        is_waking(seen.what) && (opened_after..=on).contains(&seen.on) && window.contains(seen.on)
    });
    (!woke).then_some(closes_on)
}

/// The day its last rest was over: what fell due in it fell due on that day.
fn awake_since(facts: &Facts, lot: &Lot, on: NaiveDate) -> Option<NaiveDate> {
    let windows = windows::rest(facts, lot).windows;
    let last_day = |window: &Window| {
        let years = [on.year(), on.year().saturating_sub(1)];
        let ends = years.map(|year| window.to.in_year(year));
        ends.into_iter().flatten().find(|end| *end < on)
    };
    let closed = windows.iter().filter_map(last_day).max();
    let woke = lot.sights.iter().filter(|seen| is_waking(seen.what));
    let woke = woke.map(|seen| seen.on).filter(|woke| *woke <= on).max();
    closed.map(|closed| plus_days(closed, 1)).max(woke)
}

const fn is_waking(seen: Sight) -> bool {
    matches!(seen, Sight::NewGrowth | Sight::RootTips)
}

/// Why a lot gets no water, or no feed, on a day.
#[must_use]
pub fn hold(facts: &Facts, lot: &Lot, first: First, on: NaiveDate, feeding: bool) -> Option<Hold> {
    if let Some(seen_on) = first.kept_dry.filter(|seen_on| *seen_on <= on) {
        return Some(Hold::KeptDry(seen_on));
    }
    if let Some((from_on, _)) = first.water.filter(|(from_on, _)| on < *from_on) {
        return Some(Hold::NoWaterBefore(from_on));
    }
    // The first water after dividing is given even where the kind would rest.
    if first.water.is_none()
        && let Some(until) = rests(facts, lot, on)
    {
        return Some(Hold::Rest(until));
    }
    let too_early = first.feed.filter(|(from_on, _)| feeding && on < *from_on);
    too_early.map(|(from_on, _)| Hold::NoFeedBefore(from_on))
}

/// Where a lot is watered: its place, as long as that is in use.
fn watered_at(facts: &Facts, lot: &Lot) -> Option<PlaceId> {
    let in_use = |id: &PlaceId| {
        let place = facts.places.get(id);
        place.is_some_and(|place| !place.is_retired())
    };
    lot.place.get().copied().filter(in_use)
}

/// Lots that stand in a place; `None` for those whose place nobody knows, or that is no longer used.
pub fn standing(facts: &Facts, place: Option<PlaceId>) -> impl Iterator<Item = (LotId, &Lot)> {
    let lots = facts.live_lots().filter(|(_, lot)| lot.plants > 0);
    lots.filter(move |(_, lot)| watered_at(facts, lot) == place)
}

/// Benches with something to look at, without lots nobody goes near; `None` in a book of so many lots that it is not
/// counted beside other work.
pub(crate) fn benches_with_work(
    state: &State,
    firsts: &BTreeMap<LotId, First>,
    on: NaiveDate,
    is_bound: impl Fn(LotId, Option<PlaceId>) -> bool,
) -> Option<usize> {
    let facts = state.facts();
    if facts.lots.len() > COUNTED_LOTS {
        return None;
    }
    let mut rains: BTreeMap<PlaceId, Vec<Rain>> = BTreeMap::new();
    let mut benches: BTreeSet<Option<PlaceId>> = BTreeSet::new();
    for (id, lot) in facts.live_lots().filter(|(_, lot)| lot.plants > 0) {
        let place = watered_at(facts, lot);
        if benches.contains(&place) || is_bound(id, lot.place.get().copied()) {
            continue;
        }
        let first = firsts.get(&id).copied().unwrap_or_default();
        let rain: &[Rain] = match place {
            Some(place) => rains
                .entry(place)
                .or_insert_with(|| rain_since(facts, place, on)),
            None => &[],
        };
        let water = stand(facts, id, lot, first, rain, on);
        if matches!(water.stand, Stand::Look { .. }) {
            benches.insert(place);
        }
    }
    Some(benches.len())
}

/// Whether the weakest feed is the one for it: divided not long ago.
#[must_use]
pub fn is_weak(lot: &Lot, on: NaiveDate) -> bool {
    let divided = lot
        .anchors
        .iter()
        .filter(|anchor| anchor.trigger == Trigger::Divided);
    let last = divided.map(|anchor| anchor.on).max();
    last.is_some_and(|divided_on| (0..=WEAK_DAYS).contains(&days_between(divided_on, on)))
}

/// How a lot stands for water on a day.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Stand {
    /// Look, and lift a pot: so many days past the usual.
    Look {
        late: i64,
    },
    /// To be looked at in so many days.
    Later {
        days: i64,
    },
    Held(Hold),
}

/// A lot, its last water and what its next look rests on.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct LotWater {
    pub stand: Stand,
    /// It waits for the first water after dividing or potting.
    pub is_first: bool,
    pub last: Option<Last>,
    pub rhythm: Rhythm,
    /// At rest, and not looked at for long: look for shrivelling.
    pub look_at_rest: bool,
}

/// How a lot stands for water.
#[must_use]
pub fn stand(
    facts: &Facts,
    id: LotId,
    lot: &Lot,
    first: First,
    rain: &[Rain],
    on: NaiveDate,
) -> LotWater {
    let rhythm = rhythm(facts, lot, on);
    let last = last(facts, id, lot, rain, on);
    let since = last.map(|last| days_between(last.on, on));
    let rest_days = i64::from(thirst::of(group_row(lot).group).rest_days);
    let held = hold(facts, lot, first, on, false);
    let stand = match (held, first.water) {
        (Some(held), _) => Stand::Held(held),
        (None, Some((_, due_on))) => match days_between(due_on, on) {
            days @ 0.. => Stand::Look { late: days },
            days => Stand::Later { days: -days },
        },
        (None, None) => {
            // An old line says that water is not written down here, not that nobody gave any.
            let kept = since.filter(|since| *since < STALE_DAYS);
            let days = kept.map(|since| since - i64::from(rhythm.days));
            match days.unwrap_or(0) {
                days @ 0.. => {
                    let awake = awake_since(facts, lot, on).map(|since| days_between(since, on));
                    Stand::Look {
                        late: awake.map_or(days, |awake| days.min(awake)),
                    }
                }
                days => Stand::Later { days: -days },
            }
        }
    };
    let at_rest = matches!(stand, Stand::Held(Hold::Rest(_)));
    LotWater {
        look_at_rest: at_rest && since.is_none_or(|since| since >= rest_days),
        is_first: first.water.is_some(),
        stand,
        last,
        rhythm,
    }
}
