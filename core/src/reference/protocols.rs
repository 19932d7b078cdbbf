//! The protocols a new book is opened with. They are written into the book whole and are the grower's to change.
//!
//! Days are common practice among growers where no publication is named; each protocol says so.

use crate::event::{Outcome, PieceClass};
use crate::task::{
    AfterStep, Condition, Light, Protocol, Repeat, SeasonRule, Step, TaskKind, Timing, Trigger,
    WeatherShift,
};

use super::taxa::Habit;

const COMMON: &str = "common practice, no source";

const ROOTED: [PieceClass; 2] = [PieceClass::Flowering, PieceClass::Starter];
const WEAK: [PieceClass; 2] = [PieceClass::BrokenShoot, PieceClass::Keiki];
const BACK_BULB: [PieceClass; 1] = [PieceClass::BackBulb];
const WITH_BULBS: [Habit; 2] = [Habit::Bulbs, Habit::Canes];
const WITHOUT_BULBS: [Habit; 2] = [Habit::Growths, Habit::Monopodial];

fn step(key: &str, kind: TaskKind, priority: u8, (due, from, until): (i32, i32, i32)) -> Step {
    Step {
        key: key.to_owned(),
        kind,
        when: Timing::new(due, from, until),
        light: Light::Same,
        repeat: None,
        season: SeasonRule::None,
        only: Condition::default(),
        weather: Vec::new(),
        priority,
        minutes_tenths: 5,
        until_next: false,
        off: false,
    }
}

impl Step {
    fn light(self, light: Light) -> Self {
        Self { light, ..self }
    }

    fn classes(mut self, classes: &[PieceClass]) -> Self {
        self.only.classes = classes.to_vec();
        self
    }

    fn habits(mut self, habits: &[Habit]) -> Self {
        self.only.habits = habits.to_vec();
        self
    }

    /// Work at the bench, in its season, until the plants are next potted.
    fn at_bench(self) -> Self {
        Self {
            season: SeasonRule::IntoRepotWindow,
            until_next: true,
            minutes_tenths: 30,
            ..self
        }
    }
}

/// All built-in protocols.
#[must_use]
pub fn built_in() -> Vec<Protocol> {
    vec![
        protocol("after_dividing", Trigger::Divided, after_dividing()),
        protocol("after_potting_on", Trigger::Repotted, after_potting_on()),
        protocol("next_repot", Trigger::Standing, vec![next_repot()]),
        protocol("after_treatment", Trigger::Treated, after_treatment()),
        protocol(
            "bring_to_the_bench",
            Trigger::WantsBench,
            vec![step("to_the_bench", TaskKind::ToTheBench, 2, (7, 0, 30)).at_bench()],
        ),
        protocol(
            "after_finding",
            Trigger::Found,
            vec![Step {
                until_next: true,
                ..step("look_again", TaskKind::LookAgain, 2, (7, 5, 10))
            }],
        ),
    ]
}

fn protocol(key: &str, trigger: Trigger, steps: Vec<Step>) -> Protocol {
    Protocol {
        key: key.to_owned(),
        trigger,
        steps,
        source: COMMON.to_owned(),
    }
}

fn next_repot() -> Step {
    step("next_repot", TaskKind::Repot, 2, (730, 670, 850)).at_bench()
}

fn after_dividing() -> Vec<Step> {
    let weather = vec![
        WeatherShift {
            below_mc: Some(15_000),
            above_mc: None,
            days: 3,
        },
        WeatherShift {
            below_mc: None,
            above_mc: Some(28_000),
            days: -2,
        },
    ];
    let first_water = step("first_water", TaskKind::FirstWater, 1, (7, 3, 10))
        .light(Light::Other(Timing::new(3, 1, 7)));
    let shoot_check = step("shoot_check", TaskKind::ShootCheck, 3, (45, 38, 55));
    vec![
        Step {
            weather,
            ..first_water.classes(&ROOTED).habits(&WITH_BULBS)
        },
        step("first_water_thin", TaskKind::FirstWater, 1, (2, 1, 3))
            .classes(&ROOTED)
            .habits(&WITHOUT_BULBS),
        step("rot_check", TaskKind::RotCheck, 1, (10, 7, 14))
            .classes(&ROOTED)
            .light(Light::LeftOut),
        step("normal_light", TaskKind::NormalLight, 2, (28, 21, 42)).classes(&ROOTED),
        Step {
            season: SeasonRule::AfterRest,
            ..step("first_feed", TaskKind::FirstFeed, 2, (35, 28, 42)).classes(&ROOTED)
        },
        step("root_check_45", TaskKind::RootCheck, 2, (45, 38, 52))
            .classes(&ROOTED)
            .light(Light::LeftOut),
        step("root_check_90", TaskKind::RootCheck, 2, (90, 83, 97)).classes(&ROOTED),
        step("restake", TaskKind::Restake, 3, (120, 113, 140))
            .classes(&ROOTED)
            .light(Light::LeftOut),
        next_repot().classes(&[PieceClass::Flowering]),
        step("pot_on", TaskKind::PotOn, 2, (365, 270, 450))
            .classes(&[PieceClass::Starter])
            .at_bench(),
        Step {
            repeat: Some(Repeat {
                every_days: 21,
                until_days: 270,
            }),
            ..shoot_check.classes(&BACK_BULB)
        },
        step("pot_shoots", TaskKind::PotShoots, 2, (135, 90, 180)).classes(&BACK_BULB),
        step("write_off", TaskKind::WriteOff, 3, (270, 180, 365)).classes(&BACK_BULB),
        step("moss_check_14", TaskKind::MossCheck, 3, (14, 10, 18)).classes(&WEAK),
        step("moss_check_42", TaskKind::MossCheck, 3, (42, 35, 49)).classes(&WEAK),
        step("pot_on_weak", TaskKind::PotOn, 3, (365, 270, 450))
            .classes(&WEAK)
            .at_bench(),
    ]
}

fn after_potting_on() -> Vec<Step> {
    vec![
        step("water", TaskKind::FirstWater, 1, (1, 0, 2)),
        step("feed", TaskKind::FirstFeed, 2, (21, 14, 28)),
        step("root_check_45", TaskKind::RootCheck, 3, (45, 38, 60)).light(Light::LeftOut),
        next_repot(),
    ]
}

fn after_treatment() -> Vec<Step> {
    let after = Some(AfterStep {
        step: "result_look".to_owned(),
        outcome: Outcome::NeedsMore,
    });
    let only = Condition {
        after,
        ..Condition::default()
    };
    vec![
        step("result_look", TaskKind::ResultLook, 2, (7, 5, 10)),
        Step {
            only,
            ..step(
                "repeat_treatment",
                TaskKind::RepeatTreatment,
                2,
                (14, 10, 21),
            )
        },
    ]
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_built_in_protocol_is_sound_and_says_where_it_is_from() {
        let protocols = built_in();
        for protocol in &protocols {
            assert_eq!(protocol.check(), Ok(()), "{}", protocol.key);
            assert!(!protocol.source.is_empty());
        }
        let keys: std::collections::BTreeSet<&str> = protocols
            .iter()
            .map(|protocol| protocol.key.as_str())
            .collect();
        assert_eq!(keys.len(), protocols.len());
    }
}
