//! What every way of using a product shares: which bottle, what its label says of this way, at which rate, against what.

use chrono::NaiveDate;
use serde::{Deserialize, Serialize};

use super::TakenFrom;
use super::never::{Meeting, meetings};
use super::pair::{TankFault, ThenDraft};
use super::target::{Fit, fit};
use crate::bath::{LabelFor, Named, copy, label_for, use_for, uses};
use crate::command::{Command, ProductTraits};
use crate::event::{AgentClass, Aim, LabelUse, Method, PhotoRef, ProductCopy};
use crate::id::{FindingId, ProductId};
use crate::measure::Dose;
use crate::quantity::{Amount, Dimension, QuantityError, Rate, Volume, parse_rate};
use crate::reference::airing::after_hours;
use crate::reference::never::of_product;
use crate::rotation::Target;
use crate::state::{Product, State};

/// A bottle being put on the shelf: its name, its rate and a picture of its label are enough to begin with.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct BottleDraft {
    #[serde(default)]
    pub name: String,
    #[serde(default)]
    pub rate: String,
    #[serde(default)]
    pub label_photo: Option<PhotoRef>,
}

impl BottleDraft {
    /// The command that puts it on the shelf. Without a rate it is put there all the same: that is still missing.
    #[must_use]
    pub fn command(&self) -> Command {
        let rate = self.rate.trim();
        Command::SetProduct {
            product: None,
            traits: ProductTraits {
                label_name: Some(self.name.trim().to_owned()),
                rate_typed: (!rate.is_empty()).then(|| rate.to_owned()),
                label_photo: self.label_photo.as_ref().map(|photo| photo.sha256.clone()),
                ..ProductTraits::default()
            },
        }
    }
}

/// The part of a draft that every way of using a product has. Its fields lie among the draft's own.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct Mixing {
    #[serde(default)]
    pub product: Option<ProductId>,
    #[serde(default)]
    pub bottle: Option<BottleDraft>,
    /// A rate typed here: for a bottle that has none yet, or another within the label's range.
    #[serde(default)]
    pub rate: String,
    /// Batch number as it stands on the bottle.
    #[serde(default)]
    pub batch: String,
    /// The container it is taken from.
    #[serde(default)]
    pub from: TakenFrom,
    #[serde(default)]
    pub against: Option<AgentClass>,
    #[serde(default)]
    pub preventing: bool,
    #[serde(default)]
    pub finding: Option<FindingId>,
    /// The grower's answer where it is not typed yet whether the label names this way.
    #[serde(default, alias = "dipping_named")]
    pub method_named: Option<bool>,
    /// Why it is gone on with although the label is silent on this way.
    #[serde(default)]
    pub reason: String,
    /// Why it is gone on with although the product is not known to act on what it is for.
    #[serde(default)]
    pub target_reason: String,
    /// Why it is gone on with although it is advised against by what the plants had before.
    #[serde(default)]
    pub rotation_reason: String,
    #[serde(default)]
    pub reentry_h: Option<u32>,
    /// A second product in the same tank.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub partner: Option<Box<Mixing>>,
    /// A second treatment that follows after days.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub then: Option<ThenDraft>,
}

/// What is still in the way of a mixture.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum MixFault {
    NoProduct,
    NoRate,
    BadRate(QuantityError),
    /// The label's rate is for an area: here one for a volume is needed.
    RateByArea,
    /// The rate counts the active, and the product's content of it is not typed, or it has several.
    NoContent,
    /// More than the label's highest: refused.
    AboveLabel {
        most_typed: String,
    },
    /// It counts something else than the label's rate, so it cannot be held against it.
    NotTheLabels {
        most_typed: String,
    },
    NoAgent,
    /// It is not said whether the label names this way.
    MethodNotSaid,
    NoReason,
    /// Not known to act on what it is for, and no reason is typed.
    NoTargetReason,
    /// Advised against by what the plants had before, and no reason is typed.
    NoRotationReason,
    /// The second product does not go into this tank.
    Tank(TankFault),
}

/// What goes into the water, worked out.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Mixture {
    pub water: Volume,
    pub amount: Amount,
    pub rate: Rate,
    /// Active ingredients in the water, by name, in milligrams per litre; only where the label's figures meet.
    pub active_mg_per_l: Vec<(String, i64)>,
}

/// A rate of product as read from the label, and whose.
#[derive(Debug)]
pub struct RateRead<'a> {
    product: &'a Product,
    pub rate: Rate,
}

impl RateRead<'_> {
    /// What it comes to in so much water.
    ///
    /// # Errors
    /// A rate that is not for a volume, or more than can be counted.
    pub fn in_water(&self, water: Volume) -> Result<Mixture, MixFault> {
        let amount = self.rate.amount_for(water).map_err(MixFault::BadRate)?;
        Ok(Mixture {
            water,
            amount,
            rate: self.rate,
            active_mg_per_l: crate::view::treat::active_mg_per_l(
                &self.product.actives.or_default(),
                &self.rate,
            ),
        })
    }
}

impl Mixing {
    pub(super) fn known<'a>(&self, state: &'a State) -> Option<(ProductId, &'a Product)> {
        let id = self.product?;
        state.facts().products.get(&id).map(|product| (id, product))
    }

    /// The bottle goes back: what was typed for it, and said of its label, goes with it.
    pub fn put_back(&mut self) {
        self.product = None;
        self.method_named = None;
        self.rate.clear();
        self.batch.clear();
        self.from = TakenFrom::Next;
        self.reentry_h = None;
        self.reason.clear();
        self.target_reason.clear();
        self.rotation_reason.clear();
    }

    /// It is put on in another way: what was said of its label was said of the way before.
    pub fn another_way(&mut self, state: &State, before: Method, now: Method) {
        let then = self.on_label(state, before);
        self.method_named = None;
        self.reason.clear();
        self.rate.clear();
        self.label_turned(&then, &self.on_label(state, now));
        if let Some(partner) = self.partner.as_mut() {
            partner.another_way(state, before, now);
        }
    }

    /// It is against something: the label may have another rate and other hours for that.
    pub fn go_against(&mut self, state: &State, method: Method, against: Option<AgentClass>) {
        let then = self.on_label(state, method);
        let read = |mixing: &Self| {
            let known = mixing.known(state);
            known.and_then(|(_, product)| Some(use_for(product, method, mixing.against)?.0.clone()))
        };
        let read_before = read(self);
        self.against = against;
        // What was answered of one use of the label says nothing of another.
        if read(self) != read_before {
            self.method_named = None;
            self.reason.clear();
        }
        self.label_turned(&then, &self.on_label(state, method));
    }

    /// What was typed in place of a figure of the label goes where another figure stands there now.
    fn label_turned(&mut self, then: &LabelFor, now: &LabelFor) {
        if (&then.rate_typed, &then.most_typed) != (&now.rate_typed, &now.most_typed) {
            self.rate.clear();
        }
        // Hours typed where the label has none are the only ones there are.
        if now.reentry_h.is_some() && now.reentry_h != then.reentry_h {
            self.reentry_h = None;
        }
    }

    /// The label for this way against what it is for, with what was answered here in place of what is not typed yet.
    #[must_use]
    pub fn label(&self, state: &State, method: Method) -> LabelFor {
        let mut label = self
            .known(state)
            .map(|(_, product)| label_for(product, method, self.against))
            .unwrap_or_default();
        if label.named == Named::NotTyped {
            label.named = match self.method_named {
                Some(true) => Named::Yes,
                Some(false) => Named::No,
                None => Named::NotTyped,
            };
        }
        let rate = self.rate.trim();
        if !rate.is_empty() {
            rate.clone_into(&mut label.rate_typed);
        }
        label.reentry_h = self.reentry_h.or(label.reentry_h);
        label
    }

    /// The label for this way as it stands on the shelf, without what was typed here.
    #[must_use]
    pub fn on_label(&self, state: &State, method: Method) -> LabelFor {
        Self {
            product: self.product,
            against: self.against,
            ..Self::default()
        }
        .label(state, method)
    }

    /// The rate of product it is to be.
    ///
    /// # Errors
    /// What is missing or cannot be read.
    pub fn rate_read<'a>(
        &self,
        state: &'a State,
        method: Method,
    ) -> Result<RateRead<'a>, MixFault> {
        let (_, product) = self.known(state).ok_or(MixFault::NoProduct)?;
        let label = self.label(state, method);
        if label.rate_typed.is_empty() {
            return Err(MixFault::NoRate);
        }
        let rate = super::strength::product_rate(product, &label.rate_typed)?;
        Ok(RateRead { product, rate })
    }

    /// The same, for so much water.
    ///
    /// # Errors
    /// As [`Mixing::rate_read`], and a rate for an area.
    pub fn rate_for_water<'a>(
        &self,
        state: &'a State,
        method: Method,
    ) -> Result<RateRead<'a>, MixFault> {
        let read = self.rate_read(state, method)?;
        if read.rate.is_per().map_err(MixFault::BadRate)? != Dimension::Volume {
            return Err(MixFault::RateByArea);
        }
        Ok(read)
    }

    /// The dose in so much water as an exact amount, with what the label allows; `None` until it can be worked out.
    ///
    /// Where the label gives a second, higher rate that counts the same thing, that is the most; else its one rate is.
    #[must_use]
    pub fn dose(&self, state: &State, method: Method, water: Volume) -> Option<Dose> {
        let rate = self.rate_for_water(state, method).ok()?.rate;
        let most = parse_rate(&self.label(state, method).most_typed).ok();
        Dose::of(&rate, &rate, most.as_ref(), water)
            .or_else(|_| Dose::of(&rate, &rate, None, water))
            .ok()
    }

    /// Whether the bottle, its label and what it is for are settled; dust, and a swab from the bottle, need no rate.
    ///
    /// # Errors
    /// The first thing in the way, from top to bottom of the screen.
    pub fn settled(&self, state: &State, method: Method, needs_rate: bool) -> Result<(), MixFault> {
        if self.known(state).is_none() {
            return Err(MixFault::NoProduct);
        }
        let label = self.label(state, method);
        if needs_rate && label.rate_typed.is_empty() {
            return Err(MixFault::NoRate);
        }
        match label.named {
            Named::NotTyped => return Err(MixFault::MethodNotSaid),
            Named::No if self.reason.trim().is_empty() => return Err(MixFault::NoReason),
            Named::No | Named::Yes => {}
        }
        if self.against.is_none() {
            return Err(MixFault::NoAgent);
        }
        let held = matches!(self.fit(state, method), Some(Fit::Held(_)));
        if held && self.target_reason.trim().is_empty() {
            return Err(MixFault::NoTargetReason);
        }
        Ok(())
    }

    /// Whether the product acts on what it is for; `None` until both are known.
    #[must_use]
    pub fn fit(&self, state: &State, method: Method) -> Option<Fit> {
        let (id, _) = self.known(state)?;
        Some(fit(state, id, method, self.against?))
    }

    /// What the product must not meet and would, in tub and measures or on these plants.
    #[must_use]
    pub fn meetings(&self, state: &State, targets: &[Target], today: NaiveDate) -> Vec<Meeting> {
        let Some((_, product)) = self.known(state) else {
            return Vec::new();
        };
        let mut new = of_product(&product.actives.or_default());
        if let Some((_, partner)) = self.partner.as_ref().and_then(|one| one.known(state)) {
            new.extend(of_product(&partner.actives.or_default()));
        }
        meetings(state, &new, targets, today)
    }

    /// Curing, or only preventing.
    #[must_use]
    pub fn aim(&self) -> Aim {
        if self.preventing {
            Aim::Preventing
        } else {
            Aim::Curing
        }
    }

    /// What goes into the record of the bottle.
    ///
    /// # Errors
    /// No bottle.
    pub fn product_copy(&self, state: &State, method: Method) -> Result<ProductCopy, MixFault> {
        let (id, product) = self.known(state).ok_or(MixFault::NoProduct)?;
        let copy = copy(id, product, &self.label(state, method));
        Ok(self.taken_from(state, copy))
    }

    /// Why it was gone on with, every caution's own reason a paragraph. A reason for a target that no longer holds is dropped.
    #[must_use]
    pub fn reasons(&self, state: &State, method: Method) -> String {
        let held = matches!(self.fit(state, method), Some(Fit::Held(_)));
        let each = [
            Some(&self.reason),
            Some(&self.target_reason).filter(|_| held),
            Some(&self.rotation_reason),
        ];
        let said = each.into_iter().flatten().map(|one| one.trim());
        let said: Vec<&str> = said.filter(|one| !one.is_empty()).collect();
        said.join("\n")
    }

    /// Hours until re-entry: the longer of the two where two are in one tank.
    #[must_use]
    pub fn reentry_hours(&self, state: &State, method: Method) -> Option<u32> {
        let partner = self.partner.as_ref();
        let of_partner = partner.and_then(|one| one.label(state, method).reentry_h);
        self.label(state, method).reentry_h.max(of_partner)
    }

    /// Until when nobody goes near, counted from an instant.
    #[must_use]
    pub fn until_ms(&self, state: &State, method: Method, from_ms: i64) -> Option<i64> {
        let hours = self.reentry_hours(state, method)?;
        Some(after_hours(from_ms, hours))
    }

    /// What was typed here that belongs on the bottle, for next time; `None` when nothing is new.
    #[must_use]
    pub fn to_the_bottle(&self, state: &State, method: Method) -> Option<Command> {
        let (id, product) = self.known(state)?;
        let on_it = label_for(product, method, self.against);
        let rate = self.rate.trim();
        let new_rate = on_it.rate_typed.is_empty() && !rate.is_empty();
        let new_use = on_it.named == Named::NotTyped && self.method_named == Some(true);
        let new_reentry = on_it.reentry_h.is_none() && self.reentry_h.is_some();
        if !(new_rate || new_use || new_reentry) {
            return None;
        }
        let traits = ProductTraits {
            rate_typed: new_rate.then(|| rate.to_owned()),
            reentry_h: new_reentry.then_some(self.reentry_h).flatten(),
            uses: new_use.then(|| with_method(product, method, self.against)),
            ..ProductTraits::default()
        };
        Some(Command::SetProduct {
            product: Some(id),
            traits,
        })
    }
}

/// The uses on the bottle with this way among them. A soak is the label's only if it says one: the one typed here stays
/// the grower's own.
fn with_method(product: &Product, method: Method, against: Option<AgentClass>) -> Vec<LabelUse> {
    let read_by = use_for(product, method, against).map(|(found, _)| found);
    let open = uses(product)
        .iter()
        .position(|one| read_by.is_some_and(|found| std::ptr::eq(found, one)));
    let mut uses = uses(product).to_vec();
    match open.and_then(|at| uses.get_mut(at)) {
        Some(open) => open.methods.push(method),
        None => {
            let key = (1..).map(|n| format!("use-{n}"));
            let taken: Vec<String> = uses.iter().map(|one| one.key.clone()).collect();
            let free = key.into_iter().find(|key| !taken.contains(key));
            uses.push(LabelUse {
                key: free.unwrap_or_default(),
                methods: vec![method],
                ..LabelUse::default()
            });
        }
    }
    uses
}
