//! What was taken at its price, with what has none.

use std::collections::BTreeMap;

use crate::event::{Held, Pack, PriceOf};
use crate::id::{MixId, TreatmentId};
use crate::potting::parts;
use crate::quantity::{Ratio, Volume};
use crate::state::{Facts, PriceFacts, State};
use crate::view::prices::name_of;

use super::took::Took;
use super::{Cost, CostLine, LeftOut};

/// Microlitres a price of a mix, a part or stone is for, where no size of bag was said: a litre.
const LITRE_UL: i64 = 1_000_000;
const MM2_IN_M2: i128 = 1_000_000;
/// A month is a twelfth of 365 days.
const MONTHS: i128 = 12;
const YEAR_DAYS: i128 = 365;

/// What was measured for a mixture, by everybody who went into it.
struct Mixture {
    of: PriceOf,
    /// `None` where a measured amount is missing.
    measured: Option<Held>,
    plants: i128,
}

impl Took<'_> {
    pub(super) fn bill(self) -> Cost {
        let facts = self.state.facts();
        let mut cost = Cost {
            money: facts.book.money.or_default(),
            plants: u32::try_from(self.plants).unwrap_or(u32::MAX),
            alive: u32::try_from(self.alive).unwrap_or(u32::MAX),
            ..Cost::default()
        };
        let mut bill = Bill {
            facts,
            cost: &mut cost,
        };
        for (pot, pots) in &self.pots {
            bill.add(PriceOf::Pot(*pot), *pots, None);
        }
        for (mix, ul) in &self.mixes {
            bill.mix(*mix, *ul);
        }
        bill.add(PriceOf::Stone, self.stone_ul, None);
        bill.add(PriceOf::Label, self.labels, None);
        bill.products(self.state, &self.treated);
        let minutes = self.minutes.and_then(Ratio::round_i64).unwrap_or(0);
        bill.add(PriceOf::Hour, minutes, self.minutes);
        let square_metre_months = Ratio::new(
            self.bench.saturating_mul(MONTHS),
            MM2_IN_M2.saturating_mul(YEAR_DAYS),
        );
        let hundredths = square_metre_months
            .and_then(|months| months.checked_mul(Ratio::whole(100))?.round_i64());
        bill.add(
            PriceOf::BenchMonth,
            hundredths.unwrap_or(0),
            square_metre_months,
        );
        if self.untimed {
            cost.left_out.push(LeftOut::NoTime);
        }
        if self.unmeasured > 0 {
            let stands = self.unmeasured;
            cost.left_out.push(LeftOut::NotMeasured { stands });
        }
        cost.left_out.extend([LeftOut::Plant, LeftOut::Care]);
        cost.left_out.dedup();
        let sum = cost.lines.iter().map(|line| line.cents);
        cost.cents = sum.fold(0, i64::saturating_add);
        cost
    }
}

struct Bill<'a> {
    facts: &'a Facts,
    cost: &'a mut Cost,
}

impl Bill<'_> {
    fn leave_out(&mut self, left: LeftOut) {
        if !self.cost.left_out.contains(&left) {
            self.cost.left_out.push(left);
        }
    }

    fn no_price(&mut self, of: PriceOf) {
        let name = name_of(self.facts, &of);
        self.leave_out(LeftOut::NoPrice { of, name });
    }

    /// So much of something at its price; `exact` where what is shown of the amount is rounded.
    fn add(&mut self, of: PriceOf, amount: i64, exact: Option<Ratio>) {
        if amount <= 0 && exact.is_none_or(Ratio::is_zero) {
            return;
        }
        let known = self.facts.book.prices.get(&of);
        let Some(cents) = known.and_then(PriceFacts::cents) else {
            return self.no_price(of);
        };
        let pack = known.and_then(PriceFacts::pack);
        let (exact, pack) = match &of {
            PriceOf::Hour => (exact.unwrap_or(Ratio::whole(i128::from(amount))), 60),
            PriceOf::BenchMonth => (exact.unwrap_or(Ratio::ZERO), 1),
            PriceOf::Pot(_) | PriceOf::Label => {
                let pack = pack.map_or(1, Pack::figure);
                (Ratio::whole(i128::from(amount)), pack)
            }
            _ => {
                let pack = pack.map_or(LITRE_UL, Pack::figure);
                (Ratio::whole(i128::from(amount)), pack)
            }
        };
        let cents = price(cents, pack, exact);
        self.line(of, amount, false, cents);
    }

    fn line(&mut self, of: PriceOf, amount: i64, weighs: bool, cents: Option<i64>) {
        let name = name_of(self.facts, &of);
        match cents {
            Some(cents) => self.cost.lines.push(CostLine {
                of,
                name,
                amount,
                weighs,
                cents,
            }),
            // More than any book can pay: told, not cut.
            None => self.leave_out(LeftOut::NoPrice { of, name }),
        }
    }

    /// A mix at its own price, else its parts at theirs.
    fn mix(&mut self, mix: Option<MixId>, ul: i64) {
        let Some(id) = mix else {
            return self.leave_out(LeftOut::NoMix);
        };
        let of = PriceOf::Mix(id);
        let priced = self.facts.book.prices.get(&of).and_then(|it| it.cents());
        let shares = self.facts.mixes.get(&id).map(|mix| mix.shares.or_default());
        let parts = parts::parts(Volume::from_ul(ul), &shares.unwrap_or_default());
        match parts.filter(|parts| priced.is_none() && !parts.is_empty()) {
            Some(parts) => {
                for part in parts {
                    self.add(PriceOf::Part(part.component), part.volume.ul(), None);
                }
            }
            None => self.add(of, ul, None),
        }
    }

    fn products(&mut self, state: &State, treated: &BTreeMap<TreatmentId, Ratio>) {
        let mut no_amount = 0_u32;
        let mut sums: BTreeMap<(PriceOf, bool), Ratio> = BTreeMap::new();
        for (id, plants) in treated {
            let Some(mixture) = mixture(state, *id) else {
                continue;
            };
            let share = Ratio::new(1, mixture.plants).and_then(|one| one.checked_mul(*plants));
            let (Some(measured), Some(share)) = (mixture.measured, share) else {
                no_amount = no_amount.saturating_add(1);
                continue;
            };
            let amount = Ratio::whole(i128::from(measured.figure())).checked_mul(share);
            let of = (mixture.of, measured.weighs());
            let known = sums.entry(of).or_insert(Ratio::ZERO);
            let sum = amount.and_then(|amount| known.checked_add(amount));
            *known = sum.unwrap_or(*known);
        }
        for ((of, weighs), amount) in sums {
            self.product(of, amount, weighs);
        }
        if no_amount > 0 {
            let treatments = no_amount;
            self.leave_out(LeftOut::NoAmount { treatments });
        }
    }

    fn product(&mut self, of: PriceOf, amount: Ratio, weighs: bool) {
        let known = self.facts.book.prices.get(&of);
        let Some(cents) = known.and_then(PriceFacts::cents) else {
            return self.no_price(of);
        };
        let pack = match known.and_then(PriceFacts::pack) {
            Some(Pack::Ul(ul)) if !weighs => Some(ul),
            Some(Pack::Mg(mg)) if weighs => Some(mg),
            _ => None,
        };
        let Some(pack) = pack else {
            let name = name_of(self.facts, &of);
            return self.leave_out(LeftOut::NoSize { of, name });
        };
        let shown = amount.round_i64().unwrap_or(0);
        self.line(of, shown, weighs, price(cents, pack, amount));
    }
}

/// The price of so much, rounded once.
fn price(cents: i64, pack: i64, amount: Ratio) -> Option<i64> {
    let one = Ratio::new(i128::from(cents), i128::from(pack))?;
    one.checked_mul(amount)?.round_i64()
}

/// The mixture a treatment was made with: what was measured for it at first and when it was topped up, and all plants
/// that went through it.
fn mixture(state: &State, id: TreatmentId) -> Option<Mixture> {
    let treatments = &state.facts().treatments;
    let root = treatments.get(&id)?.event.same_mix_as.unwrap_or(id);
    let first = treatments.get(&root)?;
    let of = PriceOf::Product(first.event.product.product?);
    let topped = first.topped.iter();
    let measured = topped
        .map(|(_, _, topped)| Held::of(topped.amount_ul, topped.amount_mg))
        .fold(
            Held::of(first.event.amount_ul, first.event.amount_mg),
            |sum, more| match (sum?, more?) {
                (Held::Ul(sum), Held::Ul(more)) => Some(Held::Ul(sum.saturating_add(more))),
                (Held::Mg(sum), Held::Mg(more)) => Some(Held::Mg(sum.saturating_add(more))),
                _ => None,
            },
        );
    let all = treatments
        .iter()
        .filter(|(id, treatment)| **id == root || treatment.event.same_mix_as == Some(root));
    let plants = all
        .flat_map(|(_, treatment)| &treatment.event.parts)
        .fold(0_i128, |sum, part| {
            sum.saturating_add(i128::from(part.plants()))
        });
    Some(Mixture {
        of,
        measured,
        plants,
    })
}
