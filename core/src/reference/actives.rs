//! Active ingredients: mode-of-action code, group, risk of resistance, what they act on, what to mind.
//!
//! A table to begin with, never a permission: whether a product may be used, where and on what, stands on its label and
//! in local rules, and nothing here speaks of it. What the grower typed from the label goes before a row. Each cell
//! says where it was read, or that it is from memory.

use std::collections::BTreeSet;

use crate::event::{ActiveCopy, AgentClass};

mod code;
mod diseases;
mod pests;
mod spanish;

pub use code::{Code, CodeList};

const MEMORY: &str = "from memory";

/// How soon an agent gets used to a group, as publications grade it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Level {
    Low,
    Medium,
    High,
}

/// Risk of resistance: one word, or a range of two.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Risk {
    pub least: Level,
    pub most: Level,
    pub origin: &'static str,
}

/// What to mind with an active, beside its label.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Minding {
    /// Repeated drenches shorten the growth.
    GrowthRegulating,
    /// One use, then another group.
    OneUseThenChange,
    NotWithOil,
    NotInHeat,
    /// Not within weeks of copper.
    NotNearCopper,
    /// Not within weeks of a phosphonate.
    NotNearPhosphonate,
    /// Falls apart in alkaline water.
    AlkalineWater,
    /// Harms Dendrobium, and flowers and buds of Phalaenopsis and Paphiopedilum.
    TenderPlants,
    /// Solvents of a concentrate mark flowers and soft growth.
    MarksFlowers,
    /// Works by waking the plant's own defence.
    HostDefence,
    /// Alive: not in one bath with what kills it.
    Living,
    /// A label may ask for a partner of another code.
    PartnerAsked,
    /// Kept out of many nurseries by law: look twice at local rules.
    OftenRestricted,
    Bees,
    HighHazard,
    /// Mites may multiply after it.
    MiteFlare,
    /// Eggs and young stages, not adults.
    YoungStagesOnly,
    /// Only where the liquid touches.
    ContactOnly,
    /// Of one main group with its neighbours by letter: no change from them.
    SameMainGroup,
}

/// An active ingredient.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Active {
    /// Common name, as on labels.
    pub name: &'static str,
    /// Other names and spellings of it.
    pub also: &'static [&'static str],
    /// Mode-of-action codes with their list: `FRAC 3`. None where no list has it.
    pub codes: &'static [&'static str],
    /// Chemical or target group.
    pub group: &'static str,
    /// Where code and group were read.
    pub origin: &'static str,
    pub risk: Option<Risk>,
    /// Another publication's word, where it differs.
    pub risk_elsewhere: Option<Risk>,
    /// What it acts on; empty where it acts on the plant alone.
    pub acts_on: &'static [AgentClass],
    /// What it reaches in part, or some kinds of.
    pub partly_on: &'static [AgentClass],
    pub acts_origin: &'static str,
    pub minding: &'static [Minding],
    pub minding_origin: &'static str,
}

impl Active {
    const fn new(
        name: &'static str,
        codes: &'static [&'static str],
        group: &'static str,
        origin: &'static str,
    ) -> Self {
        Self {
            name,
            also: &[],
            codes,
            group,
            origin,
            risk: None,
            risk_elsewhere: None,
            acts_on: &[],
            partly_on: &[],
            acts_origin: MEMORY,
            minding: &[],
            minding_origin: MEMORY,
        }
    }

    const fn also(mut self, also: &'static [&'static str]) -> Self {
        self.also = also;
        self
    }

    const fn risk(mut self, least: Level, most: Level, origin: &'static str) -> Self {
        self.risk = Some(Risk {
            least,
            most,
            origin,
        });
        self
    }

    const fn elsewhere(mut self, word: Level, origin: &'static str) -> Self {
        self.risk_elsewhere = Some(Risk {
            least: word,
            most: word,
            origin,
        });
        self
    }

    const fn on(mut self, on: &'static [AgentClass], partly: &'static [AgentClass]) -> Self {
        self.acts_on = on;
        self.partly_on = partly;
        self
    }

    const fn on_by(mut self, origin: &'static str) -> Self {
        self.acts_origin = origin;
        self
    }

    const fn mind(mut self, minding: &'static [Minding]) -> Self {
        self.minding = minding;
        self
    }

    const fn mind_by(mut self, origin: &'static str) -> Self {
        self.minding_origin = origin;
        self
    }

    /// Its codes, read.
    #[must_use]
    pub fn read_codes(&self) -> Vec<Code> {
        self.codes
            .iter()
            .filter_map(|code| Code::read(code))
            .collect()
    }

    /// Where its cells come from, cell by cell.
    #[must_use]
    pub fn sources(&self) -> String {
        let mut cells = vec![format!("code and group {}", self.origin)];
        if let Some(risk) = self.risk {
            cells.push(format!("risk {}", risk.origin));
        }
        if let Some(risk) = self.risk_elsewhere {
            cells.push(format!("another word for the risk {}", risk.origin));
        }
        cells.push(format!("what it acts on {}", self.acts_origin));
        if !self.minding.is_empty() {
            cells.push(format!("what to mind {}", self.minding_origin));
        }
        cells.join("; ")
    }
}

/// Every row, those against diseases first.
pub fn all() -> impl Iterator<Item = &'static Active> {
    diseases::ROWS.iter().chain(pests::ROWS)
}

/// What labels call an active, in either language.
fn names(row: &'static Active) -> impl Iterator<Item = &'static str> {
    let spanish = spanish::NAMES.iter().filter(|(_, of)| *of == row.name);
    std::iter::once(row.name)
        .chain(row.also.iter().copied())
        .chain(spanish.map(|(name, _)| *name))
}

/// The row of an active by any of its names; case, hyphens, spaces and the salt make no difference.
#[must_use]
pub fn find(name: &str) -> Option<&'static Active> {
    let by = |wanted: &str| all().find(|row| names(row).any(|known| folded(known) == wanted));
    let mut words: Vec<String> = name
        .split(|c: char| c.is_whitespace() || c == ',' || c == '-')
        .map(folded)
        .filter(|word| !word.is_empty())
        .collect();
    while !words.is_empty() {
        if let Some(row) = by(&words.concat()) {
            return Some(row);
        }
        if !words
            .last()
            .is_some_and(|word| SALTS.contains(&word.as_str()))
        {
            break;
        }
        words.pop();
    }
    None
}

/// The rows whose name holds what was typed, at most so many; all that begin with it first.
#[must_use]
pub fn like(typed: &str, most: usize) -> Vec<&'static Active> {
    let typed = folded(typed);
    if typed.is_empty() {
        return Vec::new();
    }
    let named = |row: &&'static Active, fits: fn(&str, &str) -> bool| {
        names(row).any(|name| fits(&folded(name), &typed))
    };
    let begins = all().filter(|row| named(row, |name, typed| name.starts_with(typed)));
    let holds = all().filter(|row| {
        !named(row, |name, typed| name.starts_with(typed))
            && named(row, |name, typed| name.contains(typed))
    });
    begins.chain(holds).take(most).collect()
}

/// What a salt adds to a name.
const SALTS: [&str; 27] = [
    "hydrochloride",
    "hcl",
    "sulfate",
    "sulphate",
    "nitrate",
    "acetate",
    "phosphate",
    "benzoate",
    "carbonate",
    "hydrate",
    "monohydrate",
    "dihydrate",
    "pentahydrate",
    "sodium",
    "potassium",
    "calcium",
    "aluminium",
    "aluminum",
    "al",
    "zinc",
    "manganese",
    "salt",
    "salts",
    "technical",
    "fosetylate",
    "subsp",
    "sp",
];

/// Letters and digits alone, small; one spelling of sulfur and of aluminium.
fn folded(text: &str) -> String {
    let small: String = crate::text::fold(text)
        .chars()
        .filter(|c| c.is_alphanumeric())
        .collect();
    small
        .replace("sulph", "sulf")
        .replace("aluminum", "aluminium")
}

/// What a product reaches, from its actives.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Reach {
    pub on: BTreeSet<AgentClass>,
    pub partly: BTreeSet<AgentClass>,
    /// Actives nothing is known of.
    pub unknown: Vec<String>,
}

impl Reach {
    /// Whether it acts on an agent; `None` where an active is not known, or none is typed.
    #[must_use]
    pub fn acts_on(&self, agent: AgentClass) -> Option<bool> {
        if self.on.contains(&agent) || self.partly.contains(&agent) {
            return Some(true);
        }
        let known = !self.on.is_empty() || !self.partly.is_empty();
        (known && self.unknown.is_empty()).then_some(false)
    }
}

/// What actives reach together. One that is not in the table is judged by the code typed from its label.
#[must_use]
pub fn acts_on(actives: &[ActiveCopy]) -> Reach {
    let mut reach = Reach::default();
    for active in actives {
        let rows: Vec<&Active> = match find(&active.name) {
            Some(row) => vec![row],
            None => of_codes(&codes(active)),
        };
        if rows.is_empty() {
            reach.unknown.push(active.name.clone());
        }
        for row in rows {
            reach.on.extend(row.acts_on);
            reach.partly.extend(row.partly_on);
        }
    }
    let on = &reach.on;
    reach.partly.retain(|agent| !on.contains(agent));
    reach
}

/// Rows that share a code of a known list exactly.
fn of_codes(codes: &[Code]) -> Vec<&'static Active> {
    all()
        .filter(|row| {
            row.read_codes()
                .iter()
                .any(|code| code.list.is_some() && codes.contains(code))
        })
        .collect()
}

/// Mode-of-action codes of an active: those typed from its label, else the table's. A code typed without its list takes
/// the list of the active's row.
#[must_use]
pub fn codes(active: &ActiveCopy) -> Vec<Code> {
    let row = find(&active.name);
    let typed: Vec<Code> = active
        .codes
        .iter()
        .filter_map(|code| Code::read(code))
        .map(|code| Code {
            list: code.list.or_else(|| row?.read_codes().first()?.list),
            ..code
        })
        .collect();
    if typed.is_empty() {
        row.map(Active::read_codes).unwrap_or_default()
    } else {
        typed
    }
}

#[cfg(test)]
mod tests;
