//! A drench, a spray, a swab or a dusting in hand: how, on what, with what, how much of it, and done.
//!
//! It shares the mixing with a bath and ends in one treatment. A treatment by place is for every lot that stands in it
//! when it is done, but for those that were tapped out.

use chrono::NaiveDate;
use serde::{Deserialize, Serialize};

use super::drench::{Drench, drench};
use super::{MixFault, Mixing, Mixture, dust, spray, swab};
use crate::bath::{parts, switch};
use crate::command::{Command, RecordTreatment};
use crate::event::{AgentClass, Airing, Method, PieceClass, TreatedPart};
use crate::id::{ClumpId, FindingId, LotId, PlaceId};
use crate::limits::TUB_UL_MAX;
use crate::measure::Dose;
use crate::quantity::{Amount, Dimension, QuantityError, Volume, parse_volume};
use crate::reference::airing::{after_hours, hours_out};
use crate::rotation::Target;
use crate::state::State;

/// Where in the work it is.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum ApplyStep {
    /// Which way.
    #[default]
    How,
    /// On what.
    What,
    /// Which bottle, against what, how much.
    Mix,
    /// Gloves, goggles, air, and who keeps away.
    Safety,
    /// It is being done.
    Work,
}

/// Amounts as typed; a bare number is in the unit its box shows.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct WaterDraft {
    /// Litres for a spray.
    #[serde(default)]
    pub litres: String,
    /// By the area of the place instead.
    #[serde(default)]
    pub by_area: bool,
    /// Millilitres on a square metre; empty takes the usual.
    #[serde(default)]
    pub per_m2: String,
    /// Millilitres on a pot; empty takes the pot's own share.
    #[serde(default)]
    pub per_pot: String,
    /// Millilitres in the cup of a swab; empty takes the small one.
    #[serde(default)]
    pub cup: String,
    /// A swab with the product as it is in the bottle.
    #[serde(default)]
    pub neat: bool,
    /// Grams of dust.
    #[serde(default)]
    pub grams: String,
}

/// How a house is aired after a spray, as far as it was said.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Aired {
    #[default]
    NotSaid,
    /// A coarse spray, and the label asks for none.
    NotCalledFor,
    By(Airing),
}

/// A treatment in hand.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct ApplyDraft {
    #[serde(default)]
    pub version: u16,
    #[serde(default)]
    pub step: ApplyStep,
    #[serde(default)]
    pub method: Option<Method>,
    #[serde(flatten)]
    pub mixing: Mixing,
    /// Everything in this place,
    #[serde(default)]
    pub place: Option<PlaceId>,
    /// but for these.
    #[serde(default)]
    pub left_out: Vec<LotId>,
    #[serde(default)]
    pub lots: Vec<LotId>,
    #[serde(default)]
    pub pieces: Vec<(ClumpId, PieceClass)>,
    #[serde(default)]
    pub search: String,
    #[serde(default)]
    pub water: WaterDraft,
    #[serde(default)]
    pub aired: Aired,
    #[serde(default)]
    pub started_ms: Option<i64>,
    #[serde(default)]
    pub note: String,
}

/// What is still in the way.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum ApplyFault {
    NoMethod,
    NothingTreated,
    Mix(MixFault),
    Water(WaterFault),
    AiringNotSaid,
}

/// What is wrong with an amount.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum WaterFault {
    Missing,
    Unreadable(QuantityError),
    Nothing,
    TooMuch,
    /// Pots of which no volume is known: the amount for each has to be typed.
    NoPotVolume {
        pots: u32,
    },
    /// The area of the place is not typed, or no place is chosen.
    NoArea,
}

impl From<MixFault> for ApplyFault {
    fn from(fault: MixFault) -> Self {
        Self::Mix(fault)
    }
}

/// What is measured out, worked out.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Measured {
    /// Into so much water.
    Mixed(Mixture),
    /// As it is: dust, or neat on a swab.
    AsItIs(Amount),
}

impl ApplyDraft {
    /// The ways, in the order they are offered; a bath is not made here.
    pub const METHODS: [Method; 4] = [Method::Drench, Method::Spray, Method::Swab, Method::DustCut];

    fn how(&self) -> Result<Method, ApplyFault> {
        self.method.ok_or(ApplyFault::NoMethod)
    }

    /// Takes a way; what was said of the label for another one goes.
    pub fn take_way(&mut self, state: &State, method: Method) {
        if let Some(before) = self.method.filter(|before| *before != method) {
            self.mixing.another_way(state, before, method);
        }
        self.method = Some(method);
        self.step = ApplyStep::What;
    }

    /// Lots that stand in the place chosen.
    #[must_use]
    pub fn in_place(&self, state: &State) -> Vec<LotId> {
        let Some(place) = self.place else {
            return Vec::new();
        };
        let lots = state.facts().live_lots();
        lots.filter(|(_, lot)| lot.place.get() == Some(&place) && lot.plants > 0)
            .map(|(id, _)| id)
            .collect()
    }

    /// Takes a place, or lets go of it.
    pub fn switch_place(&mut self, place: PlaceId) {
        self.place = (self.place != Some(place)).then_some(place);
        self.left_out.clear();
    }

    /// Takes up a finding on a place: what stands there, against what was seen. What is in hand already keeps its own
    /// answers, and what is being done is left alone.
    pub fn take_up(&mut self, place: PlaceId, finding: FindingId, against: AgentClass) {
        if self.step == ApplyStep::Work {
            return;
        }
        if self.place.is_none() {
            self.place = Some(place);
            self.left_out.clear();
        }
        if self.place == Some(place) {
            self.mixing.finding.get_or_insert(finding);
            self.mixing.against.get_or_insert(against);
        }
    }

    /// Takes these lots along, unless something else is being mixed already; tells whether it did.
    pub fn take_lots(&mut self, lots: &[LotId]) -> bool {
        if !matches!(self.step, ApplyStep::How | ApplyStep::What) {
            return false;
        }
        for lot in lots {
            if !self.lots.contains(lot) {
                self.lots.push(*lot);
            }
        }
        true
    }

    /// Leaves a lot of the place out, or takes it in again.
    pub fn switch_left_out(&mut self, lot: LotId) {
        switch(&mut self.left_out, lot);
    }

    /// Takes a lot from anywhere, or lets go of it.
    pub fn switch_lot(&mut self, lot: LotId) {
        switch(&mut self.lots, lot);
    }

    /// Takes a class of bare pieces, or lets go of it.
    pub fn switch_pieces(&mut self, clump: ClumpId, class: PieceClass) {
        switch(&mut self.pieces, (clump, class));
    }

    /// What is treated, with what there is of it now.
    #[must_use]
    pub fn parts(&self, state: &State) -> Vec<TreatedPart> {
        let mut lots: Vec<LotId> = self.in_place(state);
        lots.retain(|lot| !self.left_out.contains(lot));
        for lot in &self.lots {
            if !lots.contains(lot) {
                lots.push(*lot);
            }
        }
        parts(state, &lots, &self.pieces)
    }

    /// The same, as what has a history.
    #[must_use]
    pub fn targets(&self, state: &State) -> Vec<Target> {
        self.parts(state).iter().map(Target::from).collect()
    }

    /// What a drench takes, for what is shown beside the amount.
    #[must_use]
    pub fn drenched(&self, state: &State) -> Option<Drench> {
        let per_pot = optional(&self.water.per_pot, "mL").ok()?;
        Some(drench(state, &self.parts(state), per_pot))
    }

    /// The water it is made up in; `None` where there is none.
    ///
    /// # Errors
    /// What is missing, unreadable or impossible.
    pub fn water(&self, state: &State) -> Result<Option<Volume>, WaterFault> {
        let water = match self.method {
            None | Some(Method::DustCut) => return Ok(None),
            Some(Method::Swab) if self.water.neat => return Ok(None),
            Some(Method::Swab) => swab::cup(optional(&self.water.cup, "mL")?),
            Some(Method::Drench) => {
                let per_pot = optional(&self.water.per_pot, "mL")?;
                let all = drench(state, &self.parts(state), per_pot);
                if all.unknown > 0 {
                    return Err(WaterFault::NoPotVolume { pots: all.unknown });
                }
                all.water
            }
            Some(Method::Spray | Method::Bath | Method::Plunge) if self.water.by_area => {
                let area = self.place.and_then(|place| spray::area_of(state, place));
                let area = area.ok_or(WaterFault::NoArea)?;
                let per_m2 = optional(&self.water.per_m2, "mL")?;
                let usual = Volume::from_ul(spray::ML_PER_M2.saturating_mul(1_000));
                spray::on_area(area, per_m2.unwrap_or(usual))
            }
            Some(Method::Spray | Method::Bath | Method::Plunge) => {
                optional(&self.water.litres, "L")?.ok_or(WaterFault::Missing)?
            }
        };
        within(water).map(Some)
    }

    /// What to measure out.
    ///
    /// # Errors
    /// What is missing or cannot be read.
    pub fn measured(&self, state: &State) -> Result<Measured, ApplyFault> {
        let method = self.how()?;
        if method == Method::DustCut {
            if self.water.grams.trim().is_empty() {
                return Err(ApplyFault::Water(WaterFault::Missing));
            }
            let mass = dust::grams(&self.water.grams)
                .map_err(|fault| ApplyFault::Water(WaterFault::Unreadable(fault)))?;
            if mass.mg() <= 0 {
                return Err(ApplyFault::Water(WaterFault::Nothing));
            }
            return Ok(Measured::AsItIs(Amount::Mass(mass)));
        }
        if method == Method::Swab && self.water.neat {
            let cup = optional(&self.water.cup, "mL").map_err(ApplyFault::Water)?;
            let cup = within(swab::cup(cup)).map_err(ApplyFault::Water)?;
            return Ok(Measured::AsItIs(Amount::Volume(cup)));
        }
        let read = self.mixing.rate_read(state, method)?;
        let by_area = read.rate.is_per().map_err(MixFault::BadRate)? == Dimension::Area;
        let area = self.place.and_then(|place| spray::area_of(state, place));
        let area = area.filter(|_| by_area && matches!(method, Method::Spray | Method::Drench));
        if by_area && area.is_none() {
            return Err(ApplyFault::Mix(MixFault::RateByArea));
        }
        let water = self.water(state).map_err(ApplyFault::Water)?;
        let water = water.ok_or(ApplyFault::Water(WaterFault::Missing))?;
        let Some(area) = area else {
            return Ok(Measured::Mixed(read.in_water(water)?));
        };
        let amount = read.rate.amount_for_area(area);
        Ok(Measured::Mixed(Mixture {
            water,
            amount: amount.map_err(MixFault::BadRate)?,
            rate: read.rate,
            active_mg_per_l: Vec::new(),
        }))
    }

    /// The dose to be measured with what is on the shelf; nothing for dust, for neat and for a rate by area.
    #[must_use]
    pub fn dose(&self, state: &State) -> Option<(Dose, Volume)> {
        let water = self.water(state).ok()??;
        let dose = self.mixing.dose(state, self.method?, water)?;
        Some((dose, water))
    }

    /// Whether it has to be said how the house is aired: a spray under a roof, or where the label calls for it.
    #[must_use]
    pub fn asks_airing(&self, state: &State) -> bool {
        self.method == Some(Method::Spray)
            && (self.airing_called_for(state)
                || self
                    .place
                    .is_some_and(|place| spray::is_roofed(state, place)))
    }

    /// Whether the label calls for airing: then it cannot be left out.
    #[must_use]
    pub fn airing_called_for(&self, state: &State) -> bool {
        self.mixing.label(state, Method::Spray).airing
    }

    /// How it is aired, where that is asked.
    #[must_use]
    pub fn airing(&self, state: &State) -> Option<Airing> {
        match self.aired {
            Aired::By(how) if self.asks_airing(state) => Some(how),
            _ => None,
        }
    }

    /// Whether something is chosen to be treated.
    ///
    /// # Errors
    /// `NoMethod`, `NothingTreated`.
    pub fn ready_to_choose(&self, state: &State) -> Result<(), ApplyFault> {
        self.how()?;
        if self.parts(state).is_empty() {
            return Err(ApplyFault::NothingTreated);
        }
        Ok(())
    }

    /// Whether it may be mixed. A rotation reason for nothing is dropped.
    ///
    /// # Errors
    /// The first thing in the way, from top to bottom of the screen.
    pub fn ready_to_mix(
        &mut self,
        state: &State,
        today: NaiveDate,
    ) -> Result<Measured, ApplyFault> {
        self.ready_to_choose(state)?;
        let method = self.how()?;
        let needs_rate = match method {
            Method::Swab => !self.water.neat,
            Method::DustCut => false,
            _ => true,
        };
        self.mixing.settled(state, method, needs_rate)?;
        let measured = self.measured(state)?;
        if let Measured::Mixed(mixture) = &measured {
            self.mixing.within_label(state, method)?;
            let tank = self.mixing.tank(state, method, mixture.water);
            tank.map_err(MixFault::Tank)?;
        }
        let left_out = self.aired == Aired::NotCalledFor && self.airing_called_for(state);
        if self.asks_airing(state) && (self.aired == Aired::NotSaid || left_out) {
            return Err(ApplyFault::AiringNotSaid);
        }
        let targets = self.targets(state);
        self.mixing.go_on_rotated(state, method, &targets, today)?;
        Ok(measured)
    }

    /// It begins at that instant.
    pub fn begin(&mut self, now_ms: i64) {
        self.started_ms = Some(now_ms);
        self.step = ApplyStep::Work;
    }

    /// Until when nobody goes near, if it is done at that instant.
    #[must_use]
    pub fn until_ms(&self, state: &State, done_ms: i64) -> Option<i64> {
        let label_h = self.mixing.reentry_hours(state, self.method?);
        let hours = hours_out(label_h, self.airing(state))?;
        Some(after_hours(done_ms, hours))
    }

    /// The record of it, done at that instant.
    ///
    /// # Errors
    /// What is missing.
    pub fn record(&self, state: &State, done_ms: i64) -> Result<RecordTreatment, ApplyFault> {
        let method = self.how()?;
        let treated = self.parts(state);
        if treated.is_empty() {
            return Err(ApplyFault::NothingTreated);
        }
        let product = self.mixing.product_copy(state, method)?;
        let against = self.mixing.against.ok_or(MixFault::NoAgent)?;
        let (amount, water) = match self.measured(state)? {
            Measured::Mixed(mixture) => (mixture.amount, Some(mixture.water)),
            Measured::AsItIs(amount) => (amount, None),
        };
        let tank = match water {
            Some(water) => self.mixing.tank(state, method, water),
            None => Ok(None),
        };
        let tank = tank.map_err(MixFault::Tank)?;
        let (amount_ul, amount_mg) = match amount {
            Amount::Volume(volume) => (Some(volume.ul()), None),
            Amount::Mass(mass) => (None, Some(mass.mg())),
        };
        Ok(RecordTreatment {
            treated,
            method,
            against,
            aim: self.mixing.aim(),
            product,
            place: self.place,
            finding: self.mixing.finding,
            water_ul: water.map(Volume::ul),
            amount_ul,
            amount_mg,
            same_mix_as: None,
            started_ms: self.started_ms.filter(|started| *started <= done_ms),
            ended_ms: Some(done_ms),
            soak_s: None,
            soaked_s: None,
            soak_own: false,
            pots: 0,
            until_ms: self.until_ms(state, done_ms),
            airing: self.airing(state),
            tank: tank.map(Box::new),
            then: None,
            person: String::new(),
            licence: String::new(),
            gear: self.mixing.label(state, method).gear,
            reason: self.mixing.reasons(state, method),
            note: self.note.trim().to_owned(),
        })
    }

    /// The same as a command.
    ///
    /// # Errors
    /// As [`ApplyDraft::record`].
    pub fn command(&self, state: &State, done_ms: i64) -> Result<Command, ApplyFault> {
        self.record(state, done_ms).map(Command::RecordTreatment)
    }
}

/// A volume that may be left empty.
fn optional(typed: &str, unit: &str) -> Result<Option<Volume>, WaterFault> {
    let typed = typed.trim();
    if typed.is_empty() {
        return Ok(None);
    }
    let read = match parse_volume(typed) {
        Err(QuantityError::NoUnit { .. }) => parse_volume(&format!("{typed} {unit}")),
        read => read,
    };
    match read {
        Ok((volume, _)) => within(volume).map(Some),
        Err(fault) => Err(WaterFault::Unreadable(fault)),
    }
}

fn within(water: Volume) -> Result<Volume, WaterFault> {
    match water.ul() {
        ..=0 => Err(WaterFault::Nothing),
        ul if ul > TUB_UL_MAX => Err(WaterFault::TooMuch),
        _ => Ok(water),
    }
}
