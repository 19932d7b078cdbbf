//! The containers of a product: what is left, what is past its date, and which one is taken next.
//!
//! The one taken next is the oldest open one that is not past its date and not reckoned empty. Any other may be chosen.

use std::collections::BTreeMap;

use chrono::NaiveDate;

use crate::event::{Held, TreatedPart};
use crate::id::{ContainerId, ProductId, TreatmentId};
use crate::quantity::Amount;
use crate::state::{Container, Facts, Level, State, levels};
use crate::time::days_between;

/// Days before its date at which a container is said to expire soon.
const SOON_DAYS: i64 = 30;
/// Uses looked back over for what is commonly taken.
pub(super) const USES_BACK: usize = 5;

/// A container on the shelf.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct ContainerRow {
    pub container: ContainerId,
    pub product: ProductId,
    pub batch: String,
    /// As said, else the day of its first use.
    pub opened_on: Option<NaiveDate>,
    pub expires_on: Option<NaiveDate>,
    pub held: Held,
    /// What is left, never below nothing; `None` where that cannot be reckoned.
    pub left: Option<Amount>,
    /// More was taken than it held: it wants to be counted again.
    pub overdrawn: bool,
    pub counted_on: Option<NaiveDate>,
    pub dated: Dated,
    /// Not enough for what the last uses commonly took, or less than a tenth of what it held.
    pub low: bool,
    /// Uses measured in the other unit, which took nothing off.
    pub other_unit: u32,
}

/// How a container stands to its date.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Dated {
    Good,
    /// Within thirty days.
    Soon,
    Expired,
}

impl ContainerRow {
    /// What is left as a figure in its own unit.
    #[must_use]
    pub fn left_figure(&self) -> Option<i64> {
        self.left.map(|left| match left {
            Amount::Volume(volume) => volume.ul(),
            Amount::Mass(mass) => mass.mg(),
        })
    }

    fn is_empty(&self) -> bool {
        self.left_figure() == Some(0)
    }

    /// Whether it lacks what is about to be measured; `None` where that cannot be told.
    #[must_use]
    pub fn lacks(&self, amount: Amount) -> Option<bool> {
        let wanted = in_unit(self.held, amount)?;
        Some(wanted > self.left_figure()?)
    }
}

/// An amount in a container's unit.
pub(super) fn in_unit(held: Held, amount: Amount) -> Option<i64> {
    match (held, amount) {
        (Held::Ul(_), Amount::Volume(volume)) => Some(volume.ul()),
        (Held::Mg(_), Amount::Mass(mass)) => Some(mass.mg()),
        _ => None,
    }
}

/// The containers of a product in use, the one to take next first.
#[must_use]
pub fn of_product(state: &State, product: ProductId, today: NaiveDate) -> Vec<ContainerRow> {
    let mut rows = all(state, today);
    rows.retain(|row| row.product == product);
    rows
}

/// All containers in use, by product, each product's next one first.
#[must_use]
pub fn all(state: &State, today: NaiveDate) -> Vec<ContainerRow> {
    let facts = state.facts();
    if facts.containers.is_empty() {
        return Vec::new();
    }
    let mut rows: Vec<ContainerRow> = levels(state)
        .into_iter()
        .filter_map(|(id, level)| {
            let known = facts.containers.get(&id)?;
            let in_use = !known.retired.or_default();
            in_use.then(|| row(facts, id, known, &level, today))?
        })
        .collect();
    rows.sort_by_key(|row| {
        let sealed = row.opened_on.is_none();
        let expired = row.dated == Dated::Expired;
        let dates = (row.opened_on, row.expires_on.unwrap_or(NaiveDate::MAX));
        (
            row.product,
            expired,
            row.is_empty(),
            sealed,
            dates,
            row.container,
        )
    });
    rows
}

fn row(
    facts: &Facts,
    id: ContainerId,
    known: &Container,
    level: &Level,
    today: NaiveDate,
) -> Option<ContainerRow> {
    let (product, held) = (known.product?, *known.held.get()?);
    let expires_on = known.expires_on.get().copied();
    let left = level.left.map(|left| left.max(0));
    let tenth = left.is_some_and(|left| left.saturating_mul(10) < held.figure());
    let common = commonly(facts, product, held);
    let short = left.zip(common).is_some_and(|(left, common)| left < common);
    Some(ContainerRow {
        container: id,
        product,
        batch: known.batch.or_default(),
        opened_on: known.opened_on.get().copied().or(level.first_use_on),
        expires_on,
        held,
        left: left.map(|left| held.amount(left)),
        overdrawn: level.left.is_some_and(|left| left < 0),
        counted_on: known.counted().map(|count| count.on),
        dated: dated(expires_on, today),
        low: tenth || short,
        other_unit: level.other_unit,
    })
}

fn dated(expires_on: Option<NaiveDate>, today: NaiveDate) -> Dated {
    match expires_on.map(|on| days_between(today, on)) {
        Some(days) if days < 0 => Dated::Expired,
        Some(days) if days <= SOON_DAYS => Dated::Soon,
        _ => Dated::Good,
    }
}

/// What one measuring of a product commonly took: the median of the last uses, in the unit of a container.
fn commonly(facts: &Facts, product: ProductId, held: Held) -> Option<i64> {
    let uses = measured_uses(facts, product);
    let figures = uses.iter().filter_map(|used| match held {
        Held::Ul(_) => used.ul,
        Held::Mg(_) => used.mg,
    });
    median(figures.take(USES_BACK).collect())
}

/// A use something was measured for, with the plants that mixture took in all.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct MeasuredUse {
    pub(super) on: NaiveDate,
    pub(super) treatment: TreatmentId,
    pub(super) ul: Option<i64>,
    pub(super) mg: Option<i64>,
    pub(super) plants: u32,
}

/// The uses of a product something was measured for, the last first.
pub(super) fn measured_uses(facts: &Facts, product: ProductId) -> Vec<MeasuredUse> {
    let of_it = || {
        let known = facts.treatments.iter();
        known.filter(|(_, it)| it.event.product.product == Some(product))
    };
    // A mixture takes the plants of every batch that went into it.
    let mut plants: BTreeMap<TreatmentId, u32> = BTreeMap::new();
    for (id, it) in of_it() {
        let mixture = it.event.same_mix_as.unwrap_or(*id);
        let there = plants.entry(mixture).or_default();
        let more = it.event.parts.iter().map(TreatedPart::plants);
        *there = more.fold(*there, u32::saturating_add);
    }
    let mut uses: Vec<MeasuredUse> = of_it()
        .filter(|(_, it)| it.event.same_mix_as.is_none())
        .filter(|(_, it)| it.event.amount_ul.is_some() || it.event.amount_mg.is_some())
        .map(|(id, it)| MeasuredUse {
            on: it.on,
            treatment: *id,
            ul: it.event.amount_ul,
            mg: it.event.amount_mg,
            plants: plants.get(id).copied().unwrap_or(0),
        })
        .collect();
    uses.sort_by_key(|used| std::cmp::Reverse((used.on, used.treatment)));
    uses
}

/// The middle one; of an even number the mean of the two in the middle, rounded up.
pub(super) fn median(mut figures: Vec<i64>) -> Option<i64> {
    figures.sort_unstable();
    let upper = *figures.get(figures.len() / 2)?;
    if figures.len() % 2 == 1 {
        return Some(upper);
    }
    let lower = *figures.get((figures.len() / 2).checked_sub(1)?)?;
    let sum = lower.saturating_add(upper);
    Some(sum / 2 + sum % 2)
}

/// The day a container may last be taken from.
pub(super) fn good_on(expires_on: Option<NaiveDate>, on: NaiveDate) -> bool {
    expires_on.is_none_or(|last| last >= on)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_median_of_an_even_number_is_rounded_up() {
        assert_eq!(median(vec![]), None);
        assert_eq!(median(vec![7]), Some(7));
        assert_eq!(median(vec![9, 1, 4]), Some(4));
        assert_eq!(median(vec![5, 2]), Some(4));
    }

    #[test]
    fn a_container_is_good_through_its_day() {
        let day = |text: &str| text.parse::<NaiveDate>().unwrap();
        let today = day("2027-03-11");
        assert_eq!(dated(Some(today), today), Dated::Soon);
        assert_eq!(dated(Some(day("2027-03-10")), today), Dated::Expired);
        assert_eq!(dated(Some(day("2027-04-11")), today), Dated::Good);
        assert_eq!(dated(None, today), Dated::Good);
        assert!(good_on(Some(today), today));
    }
}
