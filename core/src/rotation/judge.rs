//! Fine, or advised against and why.
//!
//! A use of a code counts whatever it was against: the pest was there all the same. Only a product for the same target
//! breaks a run. A mixture of two counts for both its codes.

use chrono::NaiveDate;

use super::codes::acts_on;
use super::{CodeRule, Line, RotationRules, Target, Use, codes_of, history};
use crate::bath::{Named, copy, label_for, use_for};
use crate::event::{AgentClass, LabelUse, Method};
use crate::id::ProductId;
use crate::reference::actives::Code;
use crate::state::{Product, State};
use crate::time::{days_between, plus_days};

/// Days over which a year's uses are counted.
const YEAR_DAYS: i64 = 365;

/// A product about to be used.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Proposed {
    pub product: Option<ProductId>,
    pub label_name: String,
    pub against: AgentClass,
    pub codes: Vec<Code>,
    /// Actives of which no code is known.
    pub unknown: Vec<String>,
    pub on: NaiveDate,
    /// The label's days between two uses, and its uses a year.
    pub interval_days: Option<u16>,
    pub most_per_year: Option<u16>,
}

/// Why it is advised against.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Advice {
    /// It would be one use too many in a row, or one generation of the pest too many.
    Run {
        code: Code,
        used: u16,
        most: u16,
        last_on: NaiveDate,
        generations: bool,
    },
    /// The table's uses of this code a year are used up.
    Year { code: Code, used: u16, most: u16 },
    /// The label's days since the last use are not over.
    TooSoon {
        last_on: NaiveDate,
        days: u16,
        again_on: NaiveDate,
    },
    /// The label's uses a year are used up.
    LabelYear { used: u16, most: u16 },
}

/// What was judged together: plants with the same line and the same answer.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Judged {
    pub targets: Vec<Target>,
    /// The line that speaks most against it; the longest where none does.
    pub line: Line,
    /// Several possible parents have other lines.
    pub several: bool,
    /// Empty: fine.
    pub advice: Vec<Advice>,
}

/// A product on the shelf that would be a true change.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct TrueChange {
    pub product: ProductId,
    pub label_name: String,
    pub codes: Vec<Code>,
}

/// A product from the shelf, for one way of using it.
#[must_use]
pub fn proposed(
    state: &State,
    id: ProductId,
    method: Method,
    against: AgentClass,
    on: NaiveDate,
) -> Option<Proposed> {
    let product = state.facts().products.get(&id)?;
    let copied = copy(id, product, &label_for(product, method, Some(against)));
    let known = codes_of(state, &copied, against);
    let limits = named_for(product, method, against);
    Some(Proposed {
        product: Some(id),
        label_name: copied.label_name,
        against,
        codes: known.codes.into_iter().collect(),
        unknown: known.unknown,
        on,
        interval_days: limits.and_then(|one| one.interval_days),
        most_per_year: limits.and_then(|one| one.most_per_year),
    })
}

/// The use that names the way for the target, or one whose ways nobody typed yet.
fn named_for(product: &Product, method: Method, against: AgentClass) -> Option<&LabelUse> {
    let (found, named) = use_for(product, method, Some(against))?;
    (named != Named::No).then_some(found)
}

/// Judges a product for these plants; plants that stand alike are told together, what is advised against first.
#[must_use]
pub fn judge(state: &State, targets: &[Target], new: &Proposed) -> Vec<Judged> {
    let rules = state.facts().book.rotation();
    let mut judged: Vec<Judged> = Vec::new();
    for target in targets {
        let lines = history(state, *target);
        let several = lines.len() > 1;
        let worst = lines
            .into_iter()
            .map(|line| (advice(state, &rules, &line, new), line))
            .max_by_key(|(advice, line)| (advice.len(), line.len()));
        let Some((advice, line)) = worst else {
            continue;
        };
        let alike = judged.iter_mut().find(|known| {
            known.advice == advice
                && known.several == several
                && known.line.iter().map(told).eq(line.iter().map(told))
        });
        match alike {
            Some(known) => known.targets.push(*target),
            None => judged.push(Judged {
                targets: vec![*target],
                line,
                several,
                advice,
            }),
        }
    }
    judged.sort_by_key(|one| std::cmp::Reverse((one.advice.len(), one.line.len())));
    judged
}

fn told(one: &Use) -> (NaiveDate, &[Code], &str, bool) {
    (one.on, &one.codes, &one.label_name, one.inherited)
}

fn advice(state: &State, rules: &RotationRules, line: &[Use], new: &Proposed) -> Vec<Advice> {
    // What this product did today already is one use with what is to come: a second batch is not a second use.
    let before: Line = line
        .iter()
        .filter(|one| one.on != new.on || !is_same_product(one, new))
        .cloned()
        .collect();
    let line = before.as_slice();
    let mut advice = Vec::new();
    for code in &new.codes {
        let Some(rule) = rules.of(code) else {
            continue;
        };
        advice.extend(too_long(state, rules, rule, code, line, new));
        let year_of = |one: &&Use| one.codes.iter().any(|known| known.same_group(code));
        advice.extend(
            over_the_year(rule.per_year, line, new, year_of).map(|(used, most)| Advice::Year {
                code: code.clone(),
                used,
                most,
            }),
        );
    }
    let same = |one: &&Use| is_same_product(one, new);
    if let (Some(days), Some(last)) = (new.interval_days, line.iter().rev().find(same))
        && days_between(last.on, new.on) < i64::from(days)
    {
        advice.push(Advice::TooSoon {
            last_on: last.on,
            days,
            again_on: plus_days(last.on, i64::from(days)),
        });
    }
    let by_label = over_the_year(new.most_per_year, line, new, same);
    advice.extend(by_label.map(|(used, most)| Advice::LabelYear { used, most }));
    advice
}

fn is_same_product(one: &Use, new: &Proposed) -> bool {
    match (one.product, new.product) {
        (Some(one), Some(new)) => one == new,
        _ => one.label_name.eq_ignore_ascii_case(&new.label_name),
    }
}

fn over_the_year(
    most: Option<u16>,
    line: &[Use],
    new: &Proposed,
    counts: impl Fn(&&Use) -> bool,
) -> Option<(u16, u16)> {
    let most = most?;
    let within = line
        .iter()
        .filter(|one| days_between(one.on, new.on) < YEAR_DAYS)
        .filter(counts)
        .count();
    let used = u16::try_from(within).unwrap_or(u16::MAX);
    (used >= most).then_some((used, most))
}

fn too_long(
    state: &State,
    rules: &RotationRules,
    rule: &CodeRule,
    code: &Code,
    line: &[Use],
    new: &Proposed,
) -> Option<Advice> {
    let most = rule.in_a_row?;
    let mut run: Vec<NaiveDate> = Vec::new();
    for one in line.iter().rev() {
        if one.codes.iter().any(|known| known.same_group(code)) {
            run.push(one.on);
        } else if breaks(state, rules, one, new.against) {
            break;
        }
    }
    let last_on = *run.first()?;
    run.reverse();
    run.push(new.on);
    let in_all = match rule.together_days {
        None => run.len(),
        Some(days) => generations(&run, days),
    };
    let used = u16::try_from(in_all).unwrap_or(u16::MAX).saturating_sub(1);
    (used >= most).then(|| Advice::Run {
        code: code.clone(),
        used,
        most,
        last_on,
        generations: rule.together_days.is_some(),
    })
}

/// Runs of days, each beginning with the first use that no earlier one reaches.
fn generations(run: &[NaiveDate], days: u16) -> usize {
    let mut count = 0_usize;
    let mut began: Option<NaiveDate> = None;
    for on in run {
        if began.is_none_or(|began| days_between(began, *on) > i64::from(days)) {
            began = Some(*on);
            count = count.saturating_add(1);
        }
    }
    count
}

/// Whether a use breaks the run of a code it does not have: for the same target, and really acting on it as far as the
/// table knows.
fn breaks(state: &State, rules: &RotationRules, one: &Use, against: AgentClass) -> bool {
    let acts = || {
        let known = state.facts().treatments.get(&one.treatment)?;
        acts_on(state, &known.event.product, against)
    };
    one.against == against
        && one.codes.iter().any(|code| rules.breaks(code))
        && acts() != Some(false)
}

/// Products on the shelf that act on the target, share no code with what these plants had last against it, and have
/// nothing against them.
#[must_use]
pub fn true_changes(
    state: &State,
    targets: &[Target],
    instead_of: &Proposed,
    method: Method,
) -> Vec<TrueChange> {
    let rules = state.facts().book.rotation();
    let shelf = state.facts().products.iter();
    let others = shelf
        .filter(|(id, product)| Some(**id) != instead_of.product && !product.retired.or_default());
    others
        .filter_map(|(id, product)| {
            let against = instead_of.against;
            let new = proposed(state, *id, method, against, instead_of.on)?;
            let changes = new.unknown.is_empty()
                && new.codes.iter().any(|code| rules.breaks(code))
                && !new
                    .codes
                    .iter()
                    .any(|code| instead_of.codes.iter().any(|known| known.same_group(code)));
            let fits = changes
                && is_for(state, *id, product, method, against)
                && judge(state, targets, &new)
                    .iter()
                    .all(|judged| judged.advice.is_empty());
            fits.then_some(TrueChange {
                product: *id,
                label_name: new.label_name,
                codes: new.codes,
            })
        })
        .collect()
}

/// Whether the label, or else the table, names the target.
fn is_for(
    state: &State,
    id: ProductId,
    product: &Product,
    method: Method,
    against: AgentClass,
) -> bool {
    let typed = named_for(product, method, against).filter(|one| !one.against.is_empty());
    if let Some(typed) = typed {
        return typed.against.contains(&against);
    }
    let copied = copy(id, product, &label_for(product, method, Some(against)));
    acts_on(state, &copied, against) == Some(true)
}
