//! A cleaning in hand: what, with which agent, from which bottle, how long it lies.
//!
//! One mixture takes one batch after another until it is too old or dirty; every batch becomes a record when it comes
//! out. Like a bath it is a draft until then, and its contact time is a stored instant.

use serde::{Deserialize, Serialize};

use crate::bath::{Soak, TubDraft, TubFault};
use crate::command::{Command, Sanitise};
use crate::event::{Material, Object};
use crate::id::Subject;
use crate::limits::SOAK_S_MAX;
use crate::quantity::Amount;
use crate::reference::sanitizers::{self, Agent, Means, Suspected, Usual};

use super::{Dilution, DilutionFault, Form, PPM_WHOLE, dilute, parse_strength};

const MINUTE_MS: i64 = 60_000;

/// Where in the work a cleaning is.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum CleanStep {
    /// What is cleaned, with what, how strong.
    #[default]
    Make,
    /// Made; the next batch goes in.
    Load,
    /// It lies in it.
    Contact,
}

/// A cleaning in hand.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct CleaningDraft {
    #[serde(default)]
    pub version: u16,
    #[serde(default)]
    pub step: CleanStep,
    #[serde(default)]
    pub object: Object,
    /// Key of the agent; empty takes the usual one.
    #[serde(default)]
    pub agent: String,
    /// The strength on the bottle, as typed.
    #[serde(default)]
    pub stock: String,
    /// The strength wanted, as typed; empty takes the usual one.
    #[serde(default)]
    pub strength: String,
    #[serde(default)]
    pub bath: TubDraft,
    #[serde(default)]
    pub contact_s: Option<u32>,
    /// It touched plants suspected of a virus.
    #[serde(default)]
    pub suspect: bool,
    #[serde(default)]
    pub apart: Option<Subject>,
    #[serde(default)]
    pub cleaned_first: bool,
    /// What goes in next.
    #[serde(default)]
    pub load: Vec<Material>,
    /// What lies in it, as it was when it went in.
    #[serde(default)]
    pub lying: Vec<Material>,
    #[serde(default)]
    pub soak: Option<Soak>,
    #[serde(default)]
    pub mixed_ms: Option<i64>,
    /// Somebody said it looks dirty.
    #[serde(default)]
    pub dirty: bool,
    #[serde(default)]
    pub batches: u32,
    #[serde(default)]
    pub note: String,
}

/// What is still in the way.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum CleanFault {
    NoAgent,
    Dilution(DilutionFault),
    Bath(TubFault),
    NoContact,
    ContactTooLong,
    NotCleanedFirst,
    NothingIn,
    /// Too old or dirty: make it anew.
    Spent,
    NotLying,
}

/// How a mixture stands.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Standing {
    /// Good until that instant; `None` where no time is known.
    Good {
        until_ms: Option<i64>,
    },
    TooOld {
        since_ms: i64,
    },
    Dirty,
}

impl CleaningDraft {
    /// The usual way for its object.
    #[must_use]
    pub fn usual(&self) -> Option<&'static Usual> {
        sanitizers::usual(self.object)
    }

    /// Whether it touched plants suspected of a virus.
    #[must_use]
    pub const fn suspected(&self) -> bool {
        self.suspect || self.apart.is_some()
    }

    /// The agent chosen, or the usual one; heat for a batch that is kept apart.
    #[must_use]
    pub fn agent(&self) -> Option<&'static Agent> {
        if !self.agent.is_empty() {
            return sanitizers::agent(&self.agent);
        }
        let usual = self.usual()?;
        match usual.suspected {
            Suspected::HeatOrDiscard { agent } if self.suspected() => sanitizers::agent(agent),
            _ => sanitizers::agent(usual.agent?),
        }
    }

    /// Whether an agent was chosen that is not known to reach what is suspected.
    #[must_use]
    pub fn falls_short(&self) -> bool {
        self.suspected() && self.agent().is_some_and(|agent| !agent.reaches.viruses())
    }

    /// Whether what was chosen could reach both viruses, but not so weak or so short.
    #[must_use]
    pub fn too_weak_for_virus(&self) -> bool {
        let strength = self.wanted_ppm().ok().flatten();
        self.agent().is_some_and(|agent| {
            agent.reaches.viruses() && !agent.reached_viruses(strength, self.wanted_s())
        })
    }

    /// The strength wanted in parts per million; `None` where the label or heat says.
    ///
    /// # Errors
    /// What was typed is no strength.
    pub fn wanted_ppm(&self) -> Result<Option<u32>, CleanFault> {
        let typed = self.strength.trim();
        if !typed.is_empty() {
            return parse_strength(typed)
                .map(Some)
                .map_err(|fault| CleanFault::Dilution(DilutionFault::BadStock(fault)));
        }
        let agent = self.agent().ok_or(CleanFault::NoAgent)?;
        Ok(match agent.means {
            Means::Liquid { ppm } | Means::Powder { ppm } => {
                let usual = self.usual().filter(|usual| usual.agent == Some(agent.key));
                Some(usual.and_then(|usual| usual.strength_ppm).unwrap_or(ppm.0))
            }
            Means::AsLabel | Means::Heat { .. } | Means::Flame => None,
        })
    }

    /// Seconds it is to lie: as typed; else the usual for the object and what is suspected, and for another agent the
    /// longest published.
    #[must_use]
    pub fn wanted_s(&self) -> Option<u32> {
        if self.contact_s.is_some() {
            return self.contact_s;
        }
        let (agent, usual) = (self.agent()?, self.usual()?);
        let published = agent.contact_s.map(|(_, longest)| longest);
        if agent.is_heat() || matches!(agent.means, Means::Flame) {
            return published;
        }
        let own = usual.agent == Some(agent.key) || agent.key.starts_with("chlorine");
        match usual.suspected {
            Suspected::Longer { contact_s } if self.suspected() => {
                Some(contact_s.max(if own { 0 } else { published.unwrap_or(0) }))
            }
            _ if own => Some(usual.contact_s),
            _ => published,
        }
    }

    /// What of the bottle makes the bath; `None` where nothing is diluted.
    ///
    /// # Errors
    /// What is missing or cannot be.
    pub fn mixture(&self) -> Result<Option<Dilution>, CleanFault> {
        let agent = self.agent().ok_or(CleanFault::NoAgent)?;
        let form = match agent.means {
            Means::Liquid { .. } => Form::Liquid,
            Means::Powder { .. } => Form::Powder,
            Means::AsLabel | Means::Heat { .. } | Means::Flame => return Ok(None),
        };
        let fault = CleanFault::Dilution;
        let wanted = self.wanted_ppm()?.ok_or(fault(DilutionFault::NoStrength))?;
        let stock = self.stock_ppm(agent)?;
        let bath = self.bath.water().map_err(CleanFault::Bath)?;
        dilute(form, stock, wanted, bath).map(Some).map_err(fault)
    }

    /// The strength on the bottle. Salts that are weighed whole have none to type: a blank is all of it.
    fn stock_ppm(&self, agent: &Agent) -> Result<u32, CleanFault> {
        let typed = self.stock.trim();
        if typed.is_empty() {
            return if weighed_whole(agent) {
                Ok(PPM_WHOLE)
            } else {
                Err(CleanFault::Dilution(DilutionFault::NoStock))
            };
        }
        parse_strength(typed).map_err(|fault| CleanFault::Dilution(DilutionFault::BadStock(fault)))
    }

    /// Whether it may be made.
    ///
    /// # Errors
    /// The first thing in the way.
    pub fn ready(&self) -> Result<Option<Dilution>, CleanFault> {
        let mixture = self.mixture()?;
        match self.wanted_s() {
            None | Some(0) => Err(CleanFault::NoContact),
            Some(s) if s > SOAK_S_MAX => Err(CleanFault::ContactTooLong),
            Some(_) => Ok(mixture),
        }
    }

    /// It is made, at that instant.
    ///
    /// # Errors
    /// As [`Self::ready`].
    pub fn made(&mut self, now_ms: i64) -> Result<(), CleanFault> {
        self.ready()?;
        self.mixed_ms = Some(now_ms);
        self.dirty = false;
        self.batches = 0;
        self.step = CleanStep::Load;
        Ok(())
    }

    /// How the mixture stands at an instant.
    #[must_use]
    pub fn standing(&self, now_ms: i64) -> Standing {
        if self.dirty {
            return Standing::Dirty;
        }
        let life = self.agent().and_then(|agent| agent.remade_min);
        let until_ms = life
            .zip(self.mixed_ms)
            .map(|(min, mixed)| mixed.saturating_add(i64::from(min).saturating_mul(MINUTE_MS)));
        match until_ms {
            Some(since_ms) if since_ms <= now_ms => Standing::TooOld { since_ms },
            until_ms => Standing::Good { until_ms },
        }
    }

    /// The last one is in at that instant.
    ///
    /// # Errors
    /// Nothing is in, it was not cleaned first, or the mixture is spent.
    pub fn start(&mut self, now_ms: i64) -> Result<(), CleanFault> {
        if self.counts() && self.load.is_empty() {
            return Err(CleanFault::NothingIn);
        }
        if !self.counts() && !self.cleaned_first {
            return Err(CleanFault::NotCleanedFirst);
        }
        if !matches!(self.standing(now_ms), Standing::Good { .. }) {
            return Err(CleanFault::Spent);
        }
        let wanted_s = self.wanted_s().ok_or(CleanFault::NoContact)?;
        self.lying = self.load.clone();
        self.soak = Some(Soak::new(now_ms, wanted_s));
        self.step = CleanStep::Contact;
        Ok(())
    }

    /// Whether what lies in it is counted: pots and stone, washed before they come here.
    #[must_use]
    pub const fn counts(&self) -> bool {
        matches!(self.object, Object::Pots | Object::Stone)
    }

    /// Nothing went in after all.
    pub fn stop(&mut self) {
        self.soak = None;
        self.lying.clear();
        self.step = CleanStep::Load;
    }

    /// The record of what lay in it, out at that instant.
    ///
    /// # Errors
    /// Nothing lies in it.
    pub fn record(&self, out_ms: i64) -> Result<Command, CleanFault> {
        let soak = self.soak.ok_or(CleanFault::NotLying)?;
        let agent = self.agent().ok_or(CleanFault::NoAgent)?;
        let first = self.batches == 0;
        let mixture = self.mixture()?.filter(|_| first);
        let (stock_ul, stock_mg) = match mixture.map(|mixture| mixture.stock) {
            Some(Amount::Volume(volume)) => (Some(volume.ul()), None),
            Some(Amount::Mass(mass)) => (None, Some(mass.mg())),
            None => (None, None),
        };
        let stock_ppm = self.stock_ppm(agent).ok();
        Ok(Command::Sanitise(Sanitise {
            what: self.object,
            materials: self.lying.clone(),
            agent: agent.key.to_owned(),
            strength_ppm: self.wanted_ppm()?,
            stock_ppm: stock_ppm.filter(|_| mixture.is_some()),
            bath_ul: mixture.map(|mixture| mixture.bath.ul()),
            stock_ul,
            stock_mg,
            mixed_ms: self.mixed_ms,
            wanted_s: Some(soak.wanted_s),
            contact_s: soak.soaked_s(out_ms),
            started_ms: Some(soak.in_ms),
            ended_ms: Some(out_ms),
            cleaned_first: self.counts() || self.cleaned_first,
            suspect_source: self.suspected(),
            apart: self.apart,
            note: self.note.trim().to_owned(),
        }))
    }

    /// It is out, in the same step that records it: the mixture waits for the next batch.
    pub fn taken_out(&mut self) {
        self.batches = self.batches.saturating_add(1);
        self.load.clear();
        self.cleaned_first = false;
        self.note.clear();
        self.stop();
    }

    /// The mixture is thrown out and made anew, with the same bottle.
    pub fn make_anew(&mut self) {
        self.mixed_ms = None;
        self.dirty = false;
        self.batches = 0;
        self.step = CleanStep::Make;
    }
}

/// A salt weighed as it comes; chlorine powders carry their available chlorine on the label.
#[must_use]
pub fn weighed_whole(agent: &Agent) -> bool {
    matches!(agent.means, Means::Powder { .. }) && !agent.key.starts_with("chlorine")
}

#[cfg(test)]
mod tests {
    use super::*;

    const NOW: i64 = 1_800_000_000_000;

    fn pots_in_chlorine() -> CleaningDraft {
        CleaningDraft {
            object: Object::Pots,
            stock: "5.25".to_owned(),
            bath: TubDraft {
                litres: "10".to_owned(),
                ..TubDraft::default()
            },
            load: vec![Material::pots_called("13 cm", 12)],
            ..CleaningDraft::default()
        }
    }

    #[test]
    fn pots_lie_half_an_hour_in_half_a_per_cent_and_the_bath_follows_from_the_bottle() {
        let draft = pots_in_chlorine();
        assert_eq!(
            (draft.wanted_ppm(), draft.wanted_s()),
            (Ok(Some(5_000)), Some(1_800))
        );
        let Amount::Volume(stock) = draft.mixture().unwrap().unwrap().stock else {
            panic!("bleach is measured by volume")
        };
        assert_eq!(stock.ul(), 952_381);
    }

    #[test]
    fn chlorine_is_spent_at_two_hours_or_when_it_is_dirty() {
        let mut draft = pots_in_chlorine();
        draft.made(NOW).unwrap();
        let end = NOW + 120 * MINUTE_MS;
        assert_eq!(
            draft.standing(end - 1),
            Standing::Good {
                until_ms: Some(end)
            }
        );
        assert_eq!(draft.standing(end), Standing::TooOld { since_ms: end });
        assert_eq!(draft.start(end), Err(CleanFault::Spent));
        draft.dirty = true;
        assert_eq!(draft.start(NOW + 1), Err(CleanFault::Spent));
        draft.make_anew();
        draft.made(end).unwrap();
        assert_eq!(draft.start(end), Ok(()));
        assert_eq!(draft.soak.unwrap().out_ms(), end + 1_800_000);
    }

    #[test]
    fn a_virus_lengthens_the_dip_of_a_blade_and_sends_stone_to_the_oven() {
        let mut tools = CleaningDraft::default();
        assert_eq!(tools.wanted_s(), Some(60));
        tools.suspect = true;
        assert_eq!(tools.wanted_s(), Some(600));
        tools.agent = "alcohol".to_owned();
        assert!(tools.falls_short());
        let stone = CleaningDraft {
            object: Object::Stone,
            suspect: true,
            ..CleaningDraft::default()
        };
        assert_eq!(stone.agent().map(|agent| agent.key), Some("oven"));
        assert_eq!(stone.wanted_s(), Some(3_600));
        assert_eq!(stone.mixture(), Ok(None));
    }

    #[test]
    fn whatever_is_usual_for_a_blade_is_strong_and_long_enough_for_a_virus_where_the_agent_reaches_it()
     {
        let usual = sanitizers::usual(Object::Tools).unwrap();
        for key in usual.agent.iter().chain(usual.others) {
            let mut tools = CleaningDraft {
                agent: (*key).to_owned(),
                ..CleaningDraft::default()
            };
            assert!(!tools.too_weak_for_virus(), "{key}");
            let reaches = sanitizers::agent(key).unwrap().reaches.viruses();
            tools.contact_s = Some(1);
            assert_eq!(tools.too_weak_for_virus(), reaches, "{key}");
        }
        let weak = CleaningDraft {
            strength: "0.05".to_owned(),
            ..CleaningDraft::default()
        };
        assert!(weak.too_weak_for_virus());
        assert!(!CleaningDraft::default().too_weak_for_virus());
    }

    #[test]
    fn a_blade_is_scrubbed_before_it_is_dipped() {
        let mut tools = CleaningDraft {
            stock: "5 %".to_owned(),
            bath: TubDraft {
                litres: "2".to_owned(),
                ..TubDraft::default()
            },
            ..CleaningDraft::default()
        };
        tools.made(NOW).unwrap();
        assert_eq!(tools.start(NOW), Err(CleanFault::NotCleanedFirst));
        tools.cleaned_first = true;
        assert_eq!(tools.start(NOW), Ok(()));
    }

    #[test]
    fn only_the_first_batch_says_what_was_measured() {
        let mut draft = pots_in_chlorine();
        draft.made(NOW).unwrap();
        let measured = |draft: &CleaningDraft, out_ms| match draft.record(out_ms) {
            Ok(Command::Sanitise(of)) => (of.stock_ul, of.contact_s),
            other => panic!("{other:?}"),
        };
        draft.start(NOW).unwrap();
        assert_eq!(
            measured(&draft, NOW + 1_860_000),
            (Some(952_381), Some(1_860))
        );
        draft.taken_out();
        draft.load = vec![Material::pots_called("13 cm", 3)];
        draft.start(NOW + 1_900_000).unwrap();
        assert_eq!(measured(&draft, NOW + 3_700_000), (None, Some(1_800)));
    }
}
