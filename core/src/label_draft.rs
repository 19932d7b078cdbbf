//! A product's label being typed out or put right, until it is kept.
//!
//! Invariants: every figure stays as typed until it is read here; a fault says at which field it is; only what differs
//! from the shelf is recorded; codes typed are kept as typed, in one spelling.

use serde::{Deserialize, Serialize};

use crate::command::{Command, ProductTraits};
use crate::event::{ActiveCopy, AgentClass, LabelUse, Method, PhotoRef};
use crate::id::ProductId;
use crate::limits;
use crate::quantity::{
    Content, ContentBy, ContentFault, QuantityError, Rate, parse_content, parse_rate,
};
use crate::reference::actives::{Active, Code};
use crate::state::Product;

/// An active being typed.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct ActiveDraft {
    #[serde(default)]
    pub name: String,
    /// As on the label: `190 g/L`, `50 % w/w`.
    #[serde(default)]
    pub content: String,
    /// Codes with commas between.
    #[serde(default)]
    pub codes: String,
}

/// A number of a use, typed.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum UseNumber {
    SoakMin,
    IntervalDays,
    MostPerYear,
    ReentryHours,
    PhLeast,
    PhMost,
}

impl UseNumber {
    pub const ALL: [Self; 6] = [
        Self::SoakMin,
        Self::IntervalDays,
        Self::MostPerYear,
        Self::ReentryHours,
        Self::PhLeast,
        Self::PhMost,
    ];

    /// The largest taken.
    #[must_use]
    pub const fn most(self) -> u32 {
        match self {
            Self::SoakMin => limits::SOAK_S_MAX / 60,
            Self::IntervalDays => 366,
            Self::MostPerYear => 60,
            Self::ReentryHours => 8_760,
            Self::PhLeast | Self::PhMost => 14,
        }
    }
}

/// A use being typed.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct UseDraft {
    #[serde(default)]
    pub key: String,
    #[serde(default)]
    pub methods: Vec<Method>,
    #[serde(default)]
    pub against: Vec<AgentClass>,
    #[serde(default)]
    pub rate: String,
    #[serde(default)]
    pub most: String,
    #[serde(default)]
    pub soak_min: String,
    #[serde(default)]
    pub interval_days: String,
    #[serde(default)]
    pub most_per_year: String,
    #[serde(default)]
    pub reentry_h: String,
    #[serde(default)]
    pub ph_least: String,
    #[serde(default)]
    pub ph_most: String,
    #[serde(default)]
    pub gear: String,
    #[serde(default)]
    pub never_with: String,
    #[serde(default)]
    pub mix_with: Vec<ProductId>,
    #[serde(default)]
    pub airing: bool,
    #[serde(default)]
    pub pots_too: bool,
    #[serde(default)]
    pub note: String,
}

/// A whole label being typed.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct LabelDraft {
    #[serde(default)]
    pub version: u16,
    #[serde(default)]
    pub name: String,
    #[serde(default)]
    pub registration: String,
    #[serde(default)]
    pub formulation: String,
    /// Before the uses are told apart.
    #[serde(default)]
    pub rate: String,
    #[serde(default)]
    pub reentry_h: String,
    #[serde(default)]
    pub actives: Vec<ActiveDraft>,
    #[serde(default)]
    pub uses: Vec<UseDraft>,
    /// A new photograph of the label.
    #[serde(default)]
    pub photo: Option<PhotoRef>,
}

/// A field of the label; uses and actives by their place in the list.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum LabelField {
    Name,
    Rate,
    Reentry,
    ActiveName(usize),
    Content(usize),
    UseRate(usize),
    UseMost(usize),
    Number(usize, UseNumber),
}

/// What is wrong there.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum LabelFault {
    Missing,
    Rate(QuantityError),
    Content(ContentFault),
    /// Not a number from 0 to this.
    Number {
        most: u32,
    },
    /// The highest rate is lower than the lowest.
    MostBelowLeast,
    /// The two rates count different things.
    RatesDiffer,
    /// The least pH lies above the most.
    PhTurned,
}

impl LabelDraft {
    /// The label as it stands on the shelf.
    #[must_use]
    pub fn of(product: &Product) -> Self {
        Self {
            version: crate::draft::DRAFT_VERSION,
            name: product.label_name.or_default(),
            registration: product.registration.or_default(),
            formulation: product.formulation.or_default(),
            rate: product.rate_typed.or_default(),
            reentry_h: typed(product.reentry_h.get().copied()),
            actives: product.actives.or_default().iter().map(active_of).collect(),
            uses: product.uses.or_default().iter().map(use_of).collect(),
            photo: None,
        }
    }

    /// An active of the table, with its codes; nothing where it stands there already.
    pub fn add_known(&mut self, row: &Active) {
        let there = self
            .actives
            .iter()
            .any(|active| crate::reference::actives::find(&active.name) == Some(row));
        if !there {
            self.actives.push(ActiveDraft {
                name: row.name.to_owned(),
                content: String::new(),
                codes: row.codes.join(", "),
            });
        }
    }

    /// A use more, under a key of its own.
    pub fn add_use(&mut self) {
        let taken: Vec<String> = self.uses.iter().map(|one| one.key.clone()).collect();
        let free = (1..)
            .map(|n| format!("use-{n}"))
            .find(|key| !taken.contains(key));
        self.uses.push(UseDraft {
            key: free.unwrap_or_default(),
            ..UseDraft::default()
        });
    }

    /// What keeping it would record; `None` when nothing differs from the shelf.
    ///
    /// # Errors
    /// The first field, from top to bottom, that cannot be read.
    pub fn change(
        &self,
        id: ProductId,
        product: &Product,
    ) -> Result<Option<Command>, (LabelField, LabelFault)> {
        let name = self.name.trim().to_owned();
        if name.is_empty() {
            return Err((LabelField::Name, LabelFault::Missing));
        }
        let rate = rate_text(&self.rate).map_err(|fault| (LabelField::Rate, fault))?;
        let reentry_h = number(&self.reentry_h, UseNumber::ReentryHours.most())
            .map_err(|fault| (LabelField::Reentry, fault))?;
        let actives = (0..)
            .zip(&self.actives)
            .map(|(at, active)| active.read(at))
            .collect::<Result<Vec<_>, _>>()?;
        let uses = (0..)
            .zip(&self.uses)
            .map(|(at, one)| one.read(at))
            .collect::<Result<Vec<_>, _>>()?;
        let text = |new: &str, old: &str| (new.trim() != old).then(|| new.trim().to_owned());
        let traits = ProductTraits {
            label_name: text(&name, &product.label_name.or_default()),
            registration: text(&self.registration, &product.registration.or_default()),
            formulation: text(
                &self.formulation.to_uppercase(),
                &product.formulation.or_default(),
            ),
            rate_typed: text(&rate, &product.rate_typed.or_default()),
            reentry_h: reentry_h.filter(|hours| product.reentry_h.get() != Some(hours)),
            actives: (actives != product.actives.or_default()).then_some(actives),
            uses: (uses != product.uses.or_default()).then_some(uses),
            label_photo: self.photo.as_ref().map(|photo| photo.sha256.clone()),
            retired: None,
        };
        let changed = traits != ProductTraits::default();
        Ok(changed.then_some(Command::SetProduct {
            product: Some(id),
            traits,
        }))
    }
}

impl ActiveDraft {
    fn read(&self, at: usize) -> Result<ActiveCopy, (LabelField, LabelFault)> {
        let name = self.name.trim().to_owned();
        if name.is_empty() {
            return Err((LabelField::ActiveName(at), LabelFault::Missing));
        }
        let content = match self.content.trim() {
            "" => None,
            typed => Some(
                parse_content(typed)
                    .map_err(|fault| (LabelField::Content(at), LabelFault::Content(fault)))?,
            ),
        };
        let codes = self.codes.split([',', ';']).filter_map(Code::read);
        Ok(ActiveCopy {
            name,
            content_mg: content.map(|content| content.mg),
            content_typed: self.content.trim().to_owned(),
            codes: codes.map(|code| code.to_string()).collect(),
        })
    }
}

impl UseDraft {
    /// A number of this use as typed.
    #[must_use]
    pub fn number(&self, which: UseNumber) -> &str {
        match which {
            UseNumber::SoakMin => &self.soak_min,
            UseNumber::IntervalDays => &self.interval_days,
            UseNumber::MostPerYear => &self.most_per_year,
            UseNumber::ReentryHours => &self.reentry_h,
            UseNumber::PhLeast => &self.ph_least,
            UseNumber::PhMost => &self.ph_most,
        }
    }

    /// Types a number of this use.
    pub fn set_number(&mut self, which: UseNumber, typed: String) {
        *match which {
            UseNumber::SoakMin => &mut self.soak_min,
            UseNumber::IntervalDays => &mut self.interval_days,
            UseNumber::MostPerYear => &mut self.most_per_year,
            UseNumber::ReentryHours => &mut self.reentry_h,
            UseNumber::PhLeast => &mut self.ph_least,
            UseNumber::PhMost => &mut self.ph_most,
        } = typed;
    }

    fn read(&self, at: usize) -> Result<LabelUse, (LabelField, LabelFault)> {
        let rate_typed = rate_text(&self.rate).map_err(|fault| (LabelField::UseRate(at), fault))?;
        let most_typed = rate_text(&self.most).map_err(|fault| (LabelField::UseMost(at), fault))?;
        in_order(&rate_typed, &most_typed).map_err(|fault| (LabelField::UseMost(at), fault))?;
        let read = |which: UseNumber| {
            number(self.number(which), which.most())
                .map_err(|fault| (LabelField::Number(at, which), fault))
        };
        let tenths = |which: UseNumber| {
            tenths(self.number(which)).map_err(|fault| (LabelField::Number(at, which), fault))
        };
        let small = |value: Option<u32>| value.and_then(|value| u16::try_from(value).ok());
        let soak_s = read(UseNumber::SoakMin)?.map(|minutes| minutes.saturating_mul(60));
        let (interval, per_year) = (
            read(UseNumber::IntervalDays)?,
            read(UseNumber::MostPerYear)?,
        );
        let reentry_h = read(UseNumber::ReentryHours)?;
        let (ph_least, ph_most) = (tenths(UseNumber::PhLeast)?, tenths(UseNumber::PhMost)?);
        if matches!((ph_least, ph_most), (Some(least), Some(most)) if least > most) {
            return Err((
                LabelField::Number(at, UseNumber::PhMost),
                LabelFault::PhTurned,
            ));
        }
        Ok(LabelUse {
            key: self.key.clone(),
            methods: self.methods.clone(),
            against: self.against.clone(),
            rate_typed,
            most_typed,
            soak_s,
            interval_days: small(interval),
            most_per_year: small(per_year),
            reentry_h,
            gear: self.gear.trim().to_owned(),
            ph_least,
            ph_most,
            never_with: self.never_with.trim().to_owned(),
            mix_with: self.mix_with.clone(),
            airing: self.airing,
            pots_too: self.pots_too,
            note: self.note.trim().to_owned(),
        })
    }
}

fn active_of(active: &ActiveCopy) -> ActiveDraft {
    ActiveDraft {
        name: active.name.clone(),
        content: active.content_typed.clone(),
        codes: active.codes.join(", "),
    }
}

fn use_of(one: &LabelUse) -> UseDraft {
    UseDraft {
        key: one.key.clone(),
        methods: one.methods.clone(),
        against: one.against.clone(),
        rate: one.rate_typed.clone(),
        most: one.most_typed.clone(),
        soak_min: typed(one.soak_s.map(|s| s / 60)),
        interval_days: typed(one.interval_days),
        most_per_year: typed(one.most_per_year),
        reentry_h: typed(one.reentry_h),
        ph_least: one.ph_least.map(ph_text).unwrap_or_default(),
        ph_most: one.ph_most.map(ph_text).unwrap_or_default(),
        gear: one.gear.clone(),
        never_with: one.never_with.clone(),
        mix_with: one.mix_with.clone(),
        airing: one.airing,
        pots_too: one.pots_too,
        note: one.note.clone(),
    }
}

fn typed<T: ToString>(value: Option<T>) -> String {
    value.map(|value| value.to_string()).unwrap_or_default()
}

fn ph_text(tenths: u8) -> String {
    match tenths % 10 {
        0 => (tenths / 10).to_string(),
        rest => format!("{}.{rest}", tenths / 10),
    }
}

/// A rate as typed: nothing, or one that can be read.
fn rate_text(typed: &str) -> Result<String, LabelFault> {
    let typed = typed.trim();
    if !typed.is_empty() {
        parse_rate(typed).map_err(LabelFault::Rate)?;
    }
    Ok(typed.to_owned())
}

fn in_order(least: &str, most: &str) -> Result<(), LabelFault> {
    if least.is_empty() || most.is_empty() {
        return Ok(());
    }
    let exact = |text: &str| -> Result<_, LabelFault> {
        parse_rate(text)
            .and_then(|rate| {
                let ppm = matches!(rate, Rate::PartsPerMillion { .. });
                rate.exact().map(|(kind, exact)| ((kind, ppm), exact))
            })
            .map_err(LabelFault::Rate)
    };
    let ((of, low), (as_of, high)) = (exact(least)?, exact(most)?);
    if of != as_of {
        return Err(LabelFault::RatesDiffer);
    }
    if high < low {
        return Err(LabelFault::MostBelowLeast);
    }
    Ok(())
}

fn number(typed: &str, most: u32) -> Result<Option<u32>, LabelFault> {
    match typed.trim() {
        "" => Ok(None),
        typed => typed
            .parse::<u32>()
            .ok()
            .filter(|number| *number <= most)
            .map(Some)
            .ok_or(LabelFault::Number { most }),
    }
}

fn tenths(typed: &str) -> Result<Option<u8>, LabelFault> {
    let fault = LabelFault::Number { most: 14 };
    let typed = typed.trim().replace(',', ".");
    if typed.is_empty() {
        return Ok(None);
    }
    let (whole, part) = typed.split_once('.').unwrap_or((&typed, "0"));
    let digit = |text: &str| text.parse::<u8>().ok();
    match (digit(whole), digit(part)) {
        (Some(whole), Some(part)) if part < 10 && part.to_string() == part_of(&typed) => whole
            .checked_mul(10)
            .and_then(|tenths| tenths.checked_add(part))
            .filter(|tenths| *tenths <= 140)
            .map(Some)
            .ok_or(fault),
        _ => Err(fault),
    }
}

/// The one digit behind the point; "0" where there is none.
fn part_of(typed: &str) -> &str {
    typed.split_once('.').map_or("0", |(_, part)| part)
}

/// Content of an active on a label, read again from what was typed; older labels hold the figure alone.
#[must_use]
pub fn content_of(active: &ActiveCopy) -> Option<Content> {
    if let Ok(content) = parse_content(&active.content_typed) {
        return Some(content);
    }
    let small = active.content_typed.trim_end().to_lowercase();
    let by = if small.ends_with("/l") {
        ContentBy::Litre
    } else {
        ContentBy::Kilogram
    };
    active.content_mg.map(|mg| Content { by, mg })
}
