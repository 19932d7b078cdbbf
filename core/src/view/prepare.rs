//! What to bring and make ready for the bench work of the next weeks: pots by kind, parts of mixes, stone and labels
//! against what stands there clean or waits to be washed, with minutes and ground.
//!
//! Work is what is planned to be cut by then and what is due to be repotted. A lot without a plan is reckoned whole, in
//! a pot with two years' room. What nobody counted is never said to be short.

use std::collections::{BTreeMap, BTreeSet};

use chrono::NaiveDate;

use crate::cut::{Choice, Known, Needs, choice, needs, of_clump, of_lots};
use crate::event::{Pack, PieceClass, PriceOf, Stage, Way};
use crate::id::{LotId, MixId, PotId};
use crate::outlook::Span;
use crate::potting::parts;
use crate::quantity::Volume;
use crate::reference::labour::{Work, labour};
use crate::state::{Facts, Lot, MaterialKind, State};
use crate::time::plus_days;

use super::cut::of_plan;
use super::{LotLabel, lot_label};

/// Days ahead the list looks.
pub const AHEAD_DAYS: i64 = 28;

/// What is brought.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Item {
    Pot(PotId),
    /// Pots of a width in millimetres that the shelf has no kind for.
    Width(u32),
    Trays,
    /// A mix nobody said the parts of.
    Mix(MixId),
    /// A part of a mix, by its key.
    Part(String),
    /// Mix where no mix is in the book.
    AnyMix,
    Stone,
    Labels,
}

impl Item {
    /// Name of its tick; never changes.
    #[must_use]
    pub fn key(&self) -> String {
        match self {
            Self::Pot(id) => format!("pot-{id}"),
            Self::Width(mm) => format!("width-{mm}"),
            Self::Trays => "trays".to_owned(),
            Self::Mix(id) => format!("mix-{id}"),
            Self::Part(key) => format!("part-{key}"),
            Self::AnyMix => "any_mix".to_owned(),
            Self::Stone => "stone".to_owned(),
            Self::Labels => "labels".to_owned(),
        }
    }

    /// Whether it is measured in microlitres instead of counted.
    #[must_use]
    pub fn is_volume(&self) -> bool {
        matches!(
            self,
            Self::Mix(_) | Self::Part(_) | Self::AnyMix | Self::Stone
        )
    }
}

/// One row of the list.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct PrepareRow {
    pub item: Item,
    pub name: String,
    pub needed: i64,
    /// Clean and ready; `None` where nobody ever counted them.
    pub ready: Option<i64>,
    /// Waiting for the wash or in it, as far as they are needed.
    pub to_wash: i64,
    /// Missing after that; `None` where nobody counted.
    pub short: Option<i64>,
    /// Bags of the size the grower buys, for all of it, or for what is missing where that is known.
    pub bags: Option<Bags>,
}

/// Whole bags, boxes or packs.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Bags {
    pub bags: u32,
    /// What one holds: microlitres, or pieces.
    pub holds: i64,
}

impl Item {
    /// What it is bought as.
    fn price_of(&self) -> Option<PriceOf> {
        match self {
            Self::Pot(id) => Some(PriceOf::Pot(*id)),
            Self::Mix(id) => Some(PriceOf::Mix(*id)),
            Self::Part(key) => Some(PriceOf::Part(key.clone())),
            Self::Stone => Some(PriceOf::Stone),
            Self::Labels => Some(PriceOf::Label),
            Self::Width(_) | Self::Trays | Self::AnyMix => None,
        }
    }
}

/// Bags for so much, in the size the grower said; none is needed for nothing.
fn bags_of(facts: &Facts, item: &Item, needed: i64) -> Option<Bags> {
    let pack = facts.book.prices.get(&item.price_of()?)?.pack()?;
    let holds = match (pack, item.is_volume()) {
        (Pack::Ul(ul), true) => ul,
        (Pack::Pieces(pieces), false) => pieces,
        _ => return None,
    };
    // Pieces and microlitres round up alike.
    let bags = parts::bags(Volume::from_ul(needed), Volume::from_ul(holds))?;
    (bags > 0).then_some(Bags { bags, holds })
}

/// Work that is prepared for.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct PreparedWork {
    pub lots: Vec<LotLabel>,
    pub on: NaiveDate,
    pub way: Way,
    pub planned: bool,
    pub pieces: u32,
}

/// The list.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Preparing {
    pub work: Vec<PreparedWork>,
    pub rows: Vec<PrepareRow>,
    /// Minutes at the bench, and for washing what is needed.
    pub minutes: Span,
    pub wash_minutes: u32,
    /// Ground the new pots take rim to rim and the old ones leave, in square centimetres.
    pub bench_cm2: u64,
    pub freed_cm2: u64,
    /// Pots nobody measured: in no sum of litres or ground.
    pub unmeasured: u32,
}

/// One job with what it takes.
struct Job {
    work: PreparedWork,
    needs: Needs,
}

/// What the bench work of the next four weeks takes.
#[must_use]
pub fn preparing(state: &State, today: NaiveDate) -> Preparing {
    let mut jobs = jobs(state, today);
    jobs.sort_by_key(|job| (job.work.on, job.work.lots.first().map(|label| label.lot)));
    let mut list = Preparing::default();
    let mut items: BTreeMap<Item, i64> = BTreeMap::new();
    let mut mixes: BTreeMap<Option<MixId>, i64> = BTreeMap::new();
    let mut add = |item: Item, amount: i64| {
        if amount > 0 {
            let known = items.entry(item).or_insert(0);
            *known = known.saturating_add(amount);
        }
    };
    for Job { work, needs } in jobs {
        for need in &needs.pots {
            let item = match (need.pot, need.tray) {
                (Some(pot), _) => Item::Pot(pot),
                (None, true) => Item::Trays,
                (None, false) => Item::Width(need.room_mm),
            };
            add(item, i64::from(need.stands));
            add(Item::Stone, need.stone.ul());
            let mix = mixes.entry(need.mix).or_insert(0);
            *mix = mix.saturating_add(need.mix_volume.ul());
        }
        add(Item::Labels, i64::from(needs.labels));
        list.minutes = Span {
            low: list.minutes.low.saturating_add(needs.minutes.low),
            middle: list.minutes.middle.saturating_add(needs.minutes.middle),
            high: list.minutes.high.saturating_add(needs.minutes.high),
        };
        list.bench_cm2 = list.bench_cm2.saturating_add(needs.bench_cm2);
        list.freed_cm2 = list.freed_cm2.saturating_add(needs.freed_cm2);
        list.unmeasured = list.unmeasured.saturating_add(needs.unmeasured);
        list.work.push(work);
    }
    for (mix, amount) in mixes {
        for (item, amount) in parts_of(state.facts(), mix, Volume::from_ul(amount)) {
            add(item, amount);
        }
    }
    list.rows = items
        .into_iter()
        .map(|(item, needed)| row(state.facts(), item, needed))
        .collect();
    list.wash_minutes = wash_minutes(&list.rows);
    list
}

fn jobs(state: &State, today: NaiveDate) -> Vec<Job> {
    let facts = state.facts();
    let last = plus_days(today, AHEAD_DAYS);
    let mut done: BTreeSet<LotId> = BTreeSet::new();
    let mut jobs: Vec<Job> = Vec::new();
    for (_, lot) in facts.live_lots().filter(|(_, lot)| lot.plants > 0) {
        let Some(cut) = &lot.plan else { continue };
        let on = cut.plan.by_on.unwrap_or(today).max(today);
        let lots = cut.lots.iter().copied();
        let fresh: Vec<LotId> = lots.filter(|lot| done.insert(*lot)).collect();
        let known = of_lots(facts, &cut.lots).map(|known| known.as_planned(&cut.plan));
        if let (true, false, Some(known)) = (on <= last, fresh.is_empty(), known) {
            jobs.push(job(state, &known, &of_plan(&cut.plan), on, true));
        }
    }
    for (id, clump) in facts.open_clumps() {
        let uncut = PieceClass::ALL
            .into_iter()
            .all(|class| clump.taken_of(class) == 0);
        if let (Some(plan), Some(known), true) = (&clump.plan, of_clump(state, id), uncut) {
            let known = known.as_planned(plan);
            jobs.push(job(state, &known, &of_plan(plan), today, true));
        }
    }
    let mut due: BTreeMap<LotId, NaiveDate> = BTreeMap::new();
    state.each_task(|task| {
        if let (true, Some(lot)) = (task.kind.def().at_bench && task.due_on <= last, task.lot) {
            let on = due.entry(lot).or_insert(task.due_on);
            *on = task.due_on.min(*on);
        }
    });
    for (id, on) in due {
        let there = facts.lots.get(&id).filter(|lot| lot.plants > 0);
        if let (Some(lot), false) = (there, done.contains(&id))
            && let Some(known) = of_lots(facts, &[id])
        {
            let known = as_large_as_its_class(known, lot);
            let whole = choice(&known, Way::KeepWhole);
            jobs.push(job(state, &known, &whole, on.max(today), false));
        }
    }
    jobs
}

/// Growths of a plant that was potted as a piece: those it had, and one or two since (our own reading).
fn as_large_as_its_class(mut known: Known, lot: &Lot) -> Known {
    let row = known.row().pieces;
    let each = match lot.class {
        Some(PieceClass::Flowering) | None => None,
        Some(PieceClass::Starter) => Some(u32::from(row.starter.1).saturating_add(1)),
        Some(_) => Some(2),
    };
    known.growths = each.map(|each| each.saturating_mul(known.wholes));
    known.leads = each.map(|_| known.wholes);
    known
}

fn job(state: &State, known: &Known, choice: &Choice, on: NaiveDate, planned: bool) -> Job {
    let lots = known.lots.iter();
    let kept = choice.pieces.iter().filter(|(class, _)| class.is_kept());
    Job {
        work: PreparedWork {
            lots: lots.map(|lot| lot_label(state.facts(), *lot)).collect(),
            on,
            way: choice.way,
            planned,
            pieces: kept.fold(choice.whole, |sum, (_, span)| {
                sum.saturating_add(span.middle)
            }),
        },
        needs: needs(state, known, choice),
    }
}

/// A mix as its parts; as itself where nobody said them.
fn parts_of(facts: &Facts, mix: Option<MixId>, amount: Volume) -> Vec<(Item, i64)> {
    let Some(id) = mix else {
        return vec![(Item::AnyMix, amount.ul())];
    };
    let shares = facts.mixes.get(&id).map(|mix| mix.shares.or_default());
    let shares = shares.unwrap_or_default();
    let parts = parts::parts(amount, &shares).filter(|parts| !parts.is_empty());
    match parts {
        Some(parts) => parts
            .into_iter()
            .map(|part| (Item::Part(part.component), part.volume.ul()))
            .collect(),
        None => vec![(Item::Mix(id), amount.ul())],
    }
}

fn row(facts: &Facts, item: Item, needed: i64) -> PrepareRow {
    let kind = match &item {
        Item::Pot(pot) => Some(MaterialKind::Pot(*pot)),
        Item::Stone => Some(MaterialKind::Stone),
        _ => None,
    };
    let name = match &item {
        Item::Pot(pot) => facts.pots.get(pot).map(|pot| pot.name.or_default()),
        Item::Mix(mix) => facts.mixes.get(mix).map(|mix| mix.name.or_default()),
        _ => None,
    };
    let materials = &facts.book.materials;
    let at = |stage| {
        kind.as_ref()
            .map_or(0, |kind| materials.at(None, kind, stage))
    };
    let counted = kind
        .as_ref()
        .is_some_and(|kind| materials.counted.contains(kind));
    let ready = counted.then(|| at(Stage::Clean).min(needed));
    let waiting = [Stage::Dirty, Stage::Washed, Stage::Disinfected]
        .map(at)
        .into_iter()
        .fold(0, i64::saturating_add);
    let open = needed.saturating_sub(ready.unwrap_or(0));
    let to_wash = waiting.min(open);
    let short = open.saturating_sub(to_wash);
    let known = counted || waiting > 0;
    let short = known.then_some(short);
    PrepareRow {
        bags: bags_of(facts, &item, short.unwrap_or(needed)),
        item,
        name: name.unwrap_or_default(),
        needed,
        ready,
        to_wash,
        short,
    }
}

fn wash_minutes(rows: &[PrepareRow]) -> u32 {
    let tenths = rows.iter().map(|row| {
        let amount = u64::try_from(row.to_wash).unwrap_or(0);
        match row.item {
            // Ten litres at a time; a part of it takes its part.
            Item::Stone => {
                amount.saturating_mul(u64::from(labour(Work::WashStone).tenths)) / 10_000_000
            }
            Item::Pot(_) => amount.saturating_mul(u64::from(labour(Work::WashPot).tenths)),
            _ => 0,
        }
    });
    let tenths = tenths.fold(0, u64::saturating_add);
    u32::try_from(tenths.div_ceil(10)).unwrap_or(u32::MAX)
}
