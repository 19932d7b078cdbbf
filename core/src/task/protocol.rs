//! A protocol: what is due after something happened.
//!
//! The whole stored form exists from the start, although its editor may show less of it. Step keys are names, never
//! numbers, and never used again for something else.

use serde::{Deserialize, Serialize};

use crate::event::{Outcome, PieceClass, is_default};
use crate::limits;
use crate::reference::taxa::Habit;
use crate::season::Warmth;

use super::TaskKind;

/// What sets a protocol going.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Trigger {
    /// Pieces of a divided clump were potted.
    Divided,
    /// Potted anew or potted on without being divided.
    Repotted,
    Treated,
    /// Came from outside.
    Received,
    /// Stood in its pot since a known day when it came into the book.
    Standing,
    /// Seen to want the bench: outgrown, fallen over.
    WantsBench,
    /// A finding to look at again.
    Found,
}

impl Trigger {
    pub const ALL: [Self; 7] = [
        Self::Divided,
        Self::Repotted,
        Self::Treated,
        Self::Received,
        Self::Standing,
        Self::WantsBench,
        Self::Found,
    ];

    /// Whether it set the plants into fresh mix: then older plans for the next repot are over.
    #[must_use]
    pub fn is_potting(self) -> bool {
        matches!(self, Self::Divided | Self::Repotted | Self::Standing)
    }
}

/// When a step is due, in days from its event.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Timing {
    pub due_days: i32,
    pub from_days: i32,
    pub until_days: i32,
}

impl Timing {
    /// Due `due` days after, not before `from`, late after `until`.
    #[must_use]
    pub const fn new(due_days: i32, from_days: i32, until_days: i32) -> Self {
        Self {
            due_days,
            from_days,
            until_days,
        }
    }
}

impl Timing {
    /// Due on another day, the window with it.
    #[must_use]
    pub fn moved_to(self, due_days: i32) -> Self {
        let by = due_days.saturating_sub(self.due_days);
        Self {
            due_days,
            from_days: self.from_days.saturating_add(by),
            until_days: self.until_days.saturating_add(by),
        }
    }
}

/// What becomes of a step for tough kinds.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Light {
    #[default]
    Same,
    LeftOut,
    Other(Timing),
}

/// Again and again until a last day.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Repeat {
    pub every_days: u16,
    pub until_days: i32,
}

/// What the season does to a step.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum SeasonRule {
    #[default]
    None,
    /// Moved to the next opening of a repot window of the plant and the house.
    IntoRepotWindow,
    /// Moved to the day after the plant's rest, where it would fall into it.
    AfterRest,
}

/// Which lots a step is for; an empty list means all.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Condition {
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub classes: Vec<PieceClass>,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub habits: Vec<Habit>,
    /// How warm the kind likes it.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub warmths: Vec<Warmth>,
    /// Only where the mean of the house lay below or above, in thousandths of a degree Celsius; where nothing was read,
    /// all the same.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub mean_below_mc: Option<i32>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub mean_above_mc: Option<i32>,
    /// Only once another step was done with this outcome.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub after: Option<AfterStep>,
}

/// Another step and what came of it.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct AfterStep {
    pub step: String,
    pub outcome: Outcome,
}

/// Days added when the mean temperature of the house lies beyond a bound, in thousandths of a degree Celsius.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct WeatherShift {
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub below_mc: Option<i32>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub above_mc: Option<i32>,
    pub days: i32,
}

/// One step of a protocol.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Step {
    pub key: String,
    pub kind: TaskKind,
    pub when: Timing,
    #[serde(default, skip_serializing_if = "is_default")]
    pub light: Light,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub repeat: Option<Repeat>,
    #[serde(default, skip_serializing_if = "is_default")]
    pub season: SeasonRule,
    #[serde(default, skip_serializing_if = "is_default")]
    pub only: Condition,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub weather: Vec<WeatherShift>,
    /// 1 first, 3 last.
    pub priority: u8,
    /// Minutes a plant, in tenths.
    #[serde(default, skip_serializing_if = "is_default")]
    pub minutes_tenths: u16,
    /// Closed by the next event of the same protocol.
    #[serde(default, skip_serializing_if = "is_default")]
    pub until_next: bool,
    /// Switched off by the grower.
    #[serde(default, skip_serializing_if = "is_default")]
    pub off: bool,
}

/// What is due after something happened.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Protocol {
    /// Key in the built-in table, or the grower's own.
    pub key: String,
    pub trigger: Trigger,
    pub steps: Vec<Step>,
    /// Where the figures come from.
    pub source: String,
}

/// What is wrong with a protocol.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum ProtocolFault {
    NoSteps,
    TooManySteps {
        most: usize,
    },
    SameKeyTwice {
        step: String,
    },
    /// The name of a step stood for other work in an earlier revision.
    KeyUsedBefore {
        step: String,
    },
    TooFar {
        step: String,
        most_days: i32,
    },
    WindowTurned {
        step: String,
    },
    NeverEnds {
        step: String,
    },
    /// The last repeat would lie before the first.
    EmptyRepeat {
        step: String,
    },
    /// It waits for a step the protocol does not have.
    NoSuchStep {
        step: String,
        after: String,
    },
    /// It waits for itself, through whatever steps between.
    Loop {
        step: String,
    },
    /// The weather moves it too far, by nothing, or at a temperature no house has.
    BadWeather {
        step: String,
        most_days: i32,
    },
    BadPriority {
        step: String,
    },
}

impl Protocol {
    /// Checks what a grower may have typed.
    ///
    /// # Errors
    /// The first [`ProtocolFault`] found.
    pub fn check(&self) -> Result<(), ProtocolFault> {
        if self.steps.is_empty() {
            return Err(ProtocolFault::NoSteps);
        }
        if self.steps.len() > limits::STEPS_MAX {
            return Err(ProtocolFault::TooManySteps {
                most: limits::STEPS_MAX,
            });
        }
        for (at, step) in self.steps.iter().enumerate() {
            if self
                .steps
                .iter()
                .skip(at + 1)
                .any(|other| other.key == step.key)
            {
                return Err(ProtocolFault::SameKeyTwice {
                    step: step.key.clone(),
                });
            }
            step.check()?;
        }
        self.steps.iter().try_for_each(|step| self.follows(step))
    }

    /// Whether what a step waits for leads to a step that waits for nothing.
    fn follows(&self, first: &Step) -> Result<(), ProtocolFault> {
        let mut step = first;
        for _ in 0..=self.steps.len() {
            let Some(after) = &step.only.after else {
                return Ok(());
            };
            step = self
                .step(&after.step)
                .ok_or_else(|| ProtocolFault::NoSuchStep {
                    step: step.key.clone(),
                    after: after.step.clone(),
                })?;
        }
        Err(ProtocolFault::Loop {
            step: first.key.clone(),
        })
    }

    /// The step of that key.
    #[must_use]
    pub fn step(&self, key: &str) -> Option<&Step> {
        self.steps.iter().find(|step| step.key == key)
    }
}

impl Step {
    /// A step for every lot, due after a week, in no season.
    #[must_use]
    pub fn plain(key: String, kind: TaskKind) -> Self {
        Self {
            key,
            kind,
            when: Timing::new(7, 5, 10),
            light: Light::Same,
            repeat: None,
            season: SeasonRule::None,
            only: Condition::default(),
            weather: Vec::new(),
            priority: 2,
            minutes_tenths: 5,
            until_next: false,
            off: false,
        }
    }

    fn check(&self) -> Result<(), ProtocolFault> {
        let far = |days: i32| !(-limits::OFFSET_DAYS_MAX..=limits::OFFSET_DAYS_MAX).contains(&days);
        let timings = match self.light {
            Light::Other(light) => vec![self.when, light],
            Light::Same | Light::LeftOut => vec![self.when],
        };
        for when in timings {
            if [when.due_days, when.from_days, when.until_days]
                .into_iter()
                .any(far)
            {
                return Err(ProtocolFault::TooFar {
                    step: self.key.clone(),
                    most_days: limits::OFFSET_DAYS_MAX,
                });
            }
            if when.from_days > when.due_days || when.due_days > when.until_days {
                return Err(ProtocolFault::WindowTurned {
                    step: self.key.clone(),
                });
            }
        }
        if let Some(repeat) = self.repeat
            && (repeat.every_days == 0 || far(repeat.until_days))
        {
            return Err(ProtocolFault::NeverEnds {
                step: self.key.clone(),
            });
        }
        if self
            .repeat
            .is_some_and(|repeat| repeat.until_days < self.when.due_days)
        {
            return Err(ProtocolFault::EmptyRepeat {
                step: self.key.clone(),
            });
        }
        if !(1..=3).contains(&self.priority) {
            return Err(ProtocolFault::BadPriority {
                step: self.key.clone(),
            });
        }
        self.check_weather()
    }

    fn check_weather(&self) -> Result<(), ProtocolFault> {
        let air = |mc: Option<i32>| {
            mc.is_none_or(|mc| (limits::AIR_MC_MIN..=limits::AIR_MC_MAX).contains(&mc))
        };
        let most_days = limits::WEATHER_DAYS_MAX;
        let sound = self.weather.iter().all(|shift| {
            (-most_days..=most_days).contains(&shift.days)
                && shift.days != 0
                && (shift.below_mc.is_some() || shift.above_mc.is_some())
                && air(shift.below_mc)
                && air(shift.above_mc)
        });
        if sound && air(self.only.mean_below_mc) && air(self.only.mean_above_mc) {
            Ok(())
        } else {
            Err(ProtocolFault::BadWeather {
                step: self.key.clone(),
                most_days,
            })
        }
    }

    /// Moves the step to another day, its window with it.
    pub fn move_to(&mut self, due_days: i32) {
        self.when = self.when.moved_to(due_days);
    }

    /// Timing for a plant that gets the light or the full strength; `None` when left out.
    #[must_use]
    pub fn timing(&self, light: bool) -> Option<Timing> {
        match (light, self.light) {
            (true, Light::LeftOut) => None,
            (true, Light::Other(timing)) => Some(timing),
            _ => Some(self.when),
        }
    }
}
