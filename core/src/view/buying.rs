//! What to buy before the next planned treatments: what they will take against what is left and still good then.
//!
//! Nobody knows what the next bath will take. It is reckoned as the median of the product's last uses, each brought to
//! as many plants as the planned one has, and said as that. Invariants: a container past its date on the day counts for
//! nothing; a product whose containers are not kept here is never said to be short.

use std::collections::BTreeMap;

use chrono::NaiveDate;

use super::containers::{
    ContainerRow, MeasuredUse, USES_BACK, all, good_on, measured_uses, median,
};
use crate::event::Held;
use crate::id::ProductId;
use crate::quantity::Amount;
use crate::state::{Facts, State};

use crate::task::TaskKind;
use crate::task::derive::Task;
use crate::time::plus_days;

/// Days ahead the list looks.
pub const AHEAD_DAYS: i64 = 28;
/// Days ahead a missing product is a row of the Round.
pub const ON_THE_ROUND_DAYS: i64 = 14;

/// The list.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct ToBuy {
    /// By the day of the first treatment that needs it.
    pub rows: Vec<BuyRow>,
    /// Planned treatments nobody chose a product for yet: the day, and how many plants.
    pub open: Vec<(NaiveDate, u32)>,
}

/// A product that is needed.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct BuyRow {
    pub product: ProductId,
    pub label_name: String,
    pub first_on: NaiveDate,
    /// Planned treatments, and the plants in all of them.
    pub times: u32,
    pub plants: u32,
    /// What they will take by the last uses; `None` where nothing was ever measured for counted plants.
    pub needed: Option<Amount>,
    /// Uses that figure is the median of.
    pub uses: u32,
    pub shelf: Shelf,
    /// What is missing; nothing where there is enough.
    pub short: Option<Amount>,
}

/// What stands on the shelf of a product.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Shelf {
    /// Its containers are not kept here.
    NotKept,
    /// A container whose level nobody knows, or in another unit than it was measured in: look at it.
    Unknown,
    /// So much is left that is not past its date on the day it is first needed.
    Left(Amount),
}

/// One planned treatment with one product.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
struct Occasion {
    on: NaiveDate,
    plants: u32,
}

/// What the treatments of the next four weeks need.
#[must_use]
pub fn to_buy(state: &State, today: NaiveDate) -> ToBuy {
    within(state, today, AHEAD_DAYS)
}

/// What is missing for a treatment of the next two weeks; a row of the Round.
pub(super) fn missing_soon(state: &State, today: NaiveDate) -> Vec<BuyRow> {
    if state.facts().containers.is_empty() {
        return Vec::new();
    }
    let mut rows = within(state, today, ON_THE_ROUND_DAYS).rows;
    rows.retain(|row| row.short.is_some());
    rows
}

/// Whether a task is a treatment to come, for which products are wanted.
pub(super) fn is_planned(facts: &Facts, task: &Task) -> bool {
    task.kind == TaskKind::RepeatTreatment || planned_pair(facts, task).is_some()
}

fn within(state: &State, today: NaiveDate, days: i64) -> ToBuy {
    let facts = state.facts();
    let last = plus_days(today, days);
    let mut planned: BTreeMap<ProductId, BTreeMap<NaiveDate, u32>> = BTreeMap::new();
    let mut open: BTreeMap<NaiveDate, u32> = BTreeMap::new();
    state.each_task(|task| {
        if task.due_on > last || !is_planned(facts, task) {
            return;
        }
        let planned_pair = planned_pair(facts, task);
        // What is late is needed today.
        let on = task.due_on.max(today);
        let (products, plants) = match planned_pair {
            Some((product, plants)) => (vec![product], plants),
            None => (products_of(facts, task), plants_of(facts, task)),
        };
        for product in &products {
            let days = planned.entry(*product).or_default();
            let there = days.entry(on).or_default();
            *there = there.saturating_add(plants);
        }
        if products.is_empty() {
            let there = open.entry(on).or_default();
            *there = there.saturating_add(plants);
        }
    });
    let containers = all(state, today);
    let mut rows: Vec<BuyRow> = planned
        .into_iter()
        .filter_map(|(product, days)| {
            let days = days.into_iter();
            let occasions: Vec<Occasion> =
                days.map(|(on, plants)| Occasion { on, plants }).collect();
            row(facts, product, &occasions, &containers)
        })
        .collect();
    rows.sort_by_key(|row| (row.first_on, row.product));
    ToBuy {
        rows,
        open: open.into_iter().collect(),
    }
}

/// The second of two treatments, planned with the first: its product, and the plants the first was on.
fn planned_pair(facts: &Facts, task: &Task) -> Option<(ProductId, u32)> {
    let (entry, noted) = facts.note_tasks.get(&task.note_task?)?.noted.as_ref()?;
    let product = noted.product?;
    let first = facts.treatments.values();
    let first = first.filter(|known| known.entry == *entry && known.event.tank_with.is_none());
    let plants = first
        .flat_map(|known| &known.event.parts)
        .map(crate::event::TreatedPart::plants);
    Some((product, plants.fold(0, u32::saturating_add)))
}

fn plants_of(facts: &Facts, task: &Task) -> u32 {
    let lot = task.lot.and_then(|lot| facts.lots.get(&lot));
    lot.map_or(0, |lot| u32::try_from(lot.plants).unwrap_or(0))
}

/// The products of the treatment a task repeats.
fn products_of(facts: &Facts, task: &Task) -> Vec<ProductId> {
    let of_it = facts.treatments.values();
    let of_it = of_it.filter(|known| known.entry == task.key.anchor);
    let mut products: Vec<ProductId> = of_it
        .filter_map(|known| known.event.product.product)
        .collect();
    products.sort_unstable();
    products.dedup();
    products
}

fn row(
    facts: &Facts,
    product: ProductId,
    occasions: &[Occasion],
    containers: &[ContainerRow],
) -> Option<BuyRow> {
    let first_on = occasions.first()?.on;
    let uses = measured_uses(facts, product);
    let last = uses.iter().find(|used| used.plants > 0);
    let held = last.map(|last| match last.mg {
        Some(mg) => Held::Mg(mg),
        None => Held::Ul(last.ul.unwrap_or(0)),
    });
    let basis: Vec<(i64, u32)> = uses
        .iter()
        .filter_map(|used| taken(used, held?))
        .take(USES_BACK)
        .collect();
    let each: Vec<(NaiveDate, i64)> = occasions
        .iter()
        .filter_map(|one| Some((one.on, needed(&basis, one.plants)?)))
        .collect();
    let sum = each.iter().map(|(_, amount)| *amount);
    let sum = sum.fold(0, i64::saturating_add);
    let kept = facts
        .containers
        .values()
        .any(|container| container.product == Some(product));
    let here: Vec<&ContainerRow> = containers
        .iter()
        .filter(|row| row.product == product)
        .collect();
    let unknown = here
        .iter()
        .any(|row| row.left.is_none() || held.is_some_and(|it| it.weighs() != row.held.weighs()));
    let (shelf, short) = match held {
        _ if !kept => (Shelf::NotKept, None),
        _ if unknown => (Shelf::Unknown, None),
        None => (Shelf::Unknown, None),
        Some(held) => {
            let good = here
                .iter()
                .filter(|row| good_on(row.expires_on, first_on))
                .filter_map(|row| row.left_figure());
            let left = good.fold(0, i64::saturating_add);
            let short = missing(&each, &here);
            (
                Shelf::Left(held.amount(left)),
                (short > 0).then(|| held.amount(short)),
            )
        }
    };
    let plants = occasions.iter().map(|one| one.plants);
    Some(BuyRow {
        product,
        label_name: facts.products.get(&product)?.label_name.or_default(),
        first_on,
        times: u32::try_from(occasions.len()).unwrap_or(u32::MAX),
        plants: plants.fold(0, u32::saturating_add),
        needed: held
            .filter(|_| each.len() == occasions.len())
            .map(|held| held.amount(sum)),
        uses: u32::try_from(basis.len()).unwrap_or(u32::MAX),
        shelf,
        short,
    })
}

/// What a use took and for how many plants, in the unit of the last one.
fn taken(used: &MeasuredUse, held: Held) -> Option<(i64, u32)> {
    let amount = if held.weighs() { used.mg } else { used.ul }?;
    (used.plants > 0).then_some((amount, used.plants))
}

/// The median of the last uses, each brought to so many plants and rounded up.
fn needed(basis: &[(i64, u32)], plants: u32) -> Option<i64> {
    let scaled = basis.iter().map(|(amount, of)| {
        let whole = i128::from(*amount).saturating_mul(i128::from(plants));
        let of = i128::from((*of).max(1));
        let up = whole.saturating_add(of.saturating_sub(1));
        i64::try_from(up.checked_div(of).unwrap_or(whole)).unwrap_or(i64::MAX)
    });
    median(scaled.collect())
}

/// What is missing when each treatment, in the order of days, takes from what is still good then, the soonest to expire
/// first.
fn missing(each: &[(NaiveDate, i64)], here: &[&ContainerRow]) -> i64 {
    let mut shelf: Vec<(NaiveDate, i64)> = here
        .iter()
        .map(|row| {
            let last = row.expires_on.unwrap_or(NaiveDate::MAX);
            (last, row.left_figure().unwrap_or(0))
        })
        .collect();
    shelf.sort_unstable();
    let mut short = 0_i64;
    for (on, amount) in each {
        let mut open = *amount;
        for (_, left) in shelf.iter_mut().filter(|(last, _)| last >= on) {
            let taken = open.min(*left);
            *left = left.saturating_sub(taken);
            open = open.saturating_sub(taken);
        }
        short = short.saturating_add(open);
    }
    short
}
