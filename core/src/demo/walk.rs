//! The weeks between: the walk with what is due on it, what is seen, sold, lost, counted and treated.

use std::collections::BTreeMap;

use crate::command::{Command, RecordFinding, RecordTreatment};
use crate::event::{
    AgentClass, Aim, LossCause, Method, Outcome, PieceClass, SeenOn, Sight, TaskAnswer,
    TreatedPart, Urgency,
};
use crate::id::{FindingId, LotId, PlaceId};
use crate::quantity::{Amount, Volume, parse_rate};
use crate::task::TaskKind;
use crate::task::derive::{self, Task};
use crate::time::plus_days;
use crate::view::round::{Row, RowState, round};

use super::{Nursery, morning, table};

impl Nursery {
    /// One day of the nursery: a walk once a week, and what is told of single days.
    pub(super) fn live(&mut self, ago: i64) {
        if ago >= morning::LAST_WALK && (ago - morning::LAST_WALK) % 7 == 0 {
            let week = (ago - morning::LAST_WALK) / 7;
            self.on(ago, 7 * 60 + 30);
            self.hand_to(usize::from(week % 3 == 1));
            self.walk();
            self.week(week);
            self.hand_to(0);
        }
        if ago >= morning::LAST_WATER && (ago - morning::LAST_WATER) % 7 == 0 {
            self.on(ago, 15 * 60);
            let mut rows = self.to_do();
            rows.retain(|row| row.kind == TaskKind::FirstWater);
            self.answer(rows);
        }
        self.told(ago);
    }

    fn to_do(&self) -> Vec<Row> {
        let stops = round(&self.state, self.today()).stops;
        let to_do = |row: &Row| matches!(row.state, RowState::Late { .. } | RowState::Due);
        let rows = stops.into_iter().flat_map(|stop| stop.rows);
        rows.filter(to_do).collect()
    }

    fn walk(&mut self) {
        let rows = self.to_do().into_iter();
        let (bench, walk): (Vec<Row>, Vec<Row>) = rows.partition(|row| row.kind.def().at_bench);
        self.answer(walk);
        self.sights();
        let wanting: Vec<Task> = bench.into_iter().flat_map(|row| row.tasks).collect();
        self.bench(&wanting);
    }

    /// Says of rows that they are done, those of one kind and place together.
    fn answer(&mut self, rows: Vec<Row>) {
        let mut alike: BTreeMap<(Option<PlaceId>, TaskKind), Vec<Task>> = BTreeMap::new();
        for task in rows.into_iter().flat_map(|row| row.tasks) {
            let key = (task.place, task.kind);
            alike.entry(key).or_default().push(task);
        }
        for ((_, kind), tasks) in alike {
            self.wait(2);
            self.decide(kind, tasks);
        }
    }

    fn decide(&mut self, kind: TaskKind, tasks: Vec<Task>) {
        let mut why = String::new();
        let answer = match kind {
            TaskKind::WriteOff => {
                for lot in tasks.into_iter().filter_map(|task| task.lot) {
                    if let Some((plants, _)) = self.count_of(lot) {
                        self.lose(lot, plants, LossCause::NoShoot);
                    }
                }
                return;
            }
            TaskKind::ResultLook => TaskAnswer::Done {
                outcome: Some(Outcome::Well),
            },
            TaskKind::FirstFeed if self.chance.once_in(8) => {
                self.phrases.weather.clone_into(&mut why);
                TaskAnswer::PutOff {
                    to: plus_days(self.today(), 6),
                }
            }
            TaskKind::Restake if self.chance.once_in(3) => TaskAnswer::NotNeeded,
            _ => TaskAnswer::Done { outcome: None },
        };
        self.act(Command::DecideTasks { tasks, answer, why });
    }

    fn lose(&mut self, lot: LotId, plants: u32, cause: LossCause) {
        self.act(Command::LoseFromLot {
            lot,
            plants,
            stands: self.emptied(lot, plants),
            cause,
            note: String::new(),
        });
    }

    /// Pots that are empty once so many plants have left a lot: none while a tray still holds others.
    pub(super) fn emptied(&self, lot: LotId, plants: u32) -> u32 {
        let (all, stands) = self.count_of(lot).unwrap_or_default();
        stands.saturating_sub(all.saturating_sub(plants))
    }

    /// Plants and pots of a lot that is there.
    pub(super) fn count_of(&self, lot: LotId) -> Option<(u32, u32)> {
        let lot = self.state.facts().lots.get(&lot)?;
        let plants = u32::try_from(lot.plants)
            .ok()
            .filter(|plants| *plants > 0)?;
        Some((plants, u32::try_from(lot.stands).ok()?))
    }

    /// Spikes, first flowers and the last, as the plants' own seasons have them.
    fn sights(&mut self) {
        let today = self.today();
        for (what, now, before) in [
            (Sight::SpikeSeen, 42, 35),
            (Sight::FirstOpen, 0, -7),
            (Sight::FlowerOver, -7, 0),
        ] {
            for place in self.places.clone() {
                let lots = self.lots(|lot| lot.place == Some(place) && lot.flowers);
                let begins = lots.into_iter().filter(|id| {
                    let facts = self.state.facts();
                    facts.lots.get(id).is_some_and(|lot| {
                        let windows = derive::flowering_windows(facts, lot);
                        let open = |days| {
                            let day = plus_days(today, days);
                            windows.iter().any(|window| window.contains(day))
                        };
                        open(now) && !open(before)
                    })
                });
                let begins: Vec<LotId> = begins.collect();
                let lots: Vec<LotId> = begins
                    .into_iter()
                    .filter(|_| !self.chance.once_in(3))
                    .collect();
                if lots.is_empty() {
                    continue;
                }
                let good = u8::try_from(2 + self.chance.below(4)).ok();
                self.act(Command::Observe {
                    lots,
                    what,
                    good: good.filter(|_| what == Sight::FirstOpen),
                    note: String::new(),
                });
            }
        }
    }

    /// Lots with plants that anything may happen to.
    pub(super) fn lots(&self, fits: impl Fn(&Standing) -> bool) -> Vec<LotId> {
        let facts = self.state.facts();
        let lots = facts.live_lots().filter(|(id, lot)| {
            let standing = Standing {
                place: lot.place.get().copied(),
                plants: lot.plants,
                flowers: lot.class == Some(PieceClass::Flowering),
            };
            !self.left_alone.contains(id) && lot.plants > 0 && fits(&standing)
        });
        lots.map(|(id, _)| id).collect()
    }

    /// What comes up in a week beside the work that is due.
    fn week(&mut self, week: i64) {
        self.wait(30);
        if week % 9 == 4 {
            self.buy();
        }
        if week % 9 == 8 {
            self.bring_in();
        }
        if self.chance.once_in(4) {
            self.sell();
        }
        if self.chance.once_in(6) {
            self.lose_one();
        }
        if week % 13 == 6 {
            self.count();
        }
        if self.chance.once_in(12)
            && let Some(trouble) = self.chance.pick(&table::TROUBLES).copied()
            && let Some(lot) = self.any(|lot| lot.plants > 1)
        {
            let (sign, agent, product, method) = trouble;
            let finding = self.find(lot, sign, agent, Urgency::ThisWeek);
            self.wait(40);
            self.treat(lot, agent, product, method, finding);
        }
    }

    /// Some lot that fits.
    pub(super) fn any(&mut self, fits: impl Fn(&Standing) -> bool) -> Option<LotId> {
        let lots = self.lots(fits);
        self.chance.pick(&lots).copied()
    }

    pub(super) fn sell(&mut self) {
        let Some(lot) = self.any(|lot| lot.flowers && lot.plants > 2) else {
            return;
        };
        let plants = 1 + self.chance.below(2);
        let price = i64::from(plants) * (1_500 + 100 * i64::from(self.chance.below(20)));
        let to = self
            .chance
            .pick(&self.phrases.buyers)
            .copied()
            .unwrap_or("");
        self.act(Command::SellFromLot {
            lot,
            plants,
            stands: self.emptied(lot, plants),
            to: to.to_owned(),
            price_cents: Some(price),
            note: String::new(),
        });
    }

    fn lose_one(&mut self) {
        let lot = self.any(|lot| lot.plants > 3);
        let cause = self.chance.pick(&table::CAUSES).copied();
        if let (Some(lot), Some(cause)) = (lot, cause) {
            self.lose(lot, 1, cause);
        }
    }

    /// Counts what stands in one place.
    fn count(&mut self) {
        let Some(place) = self.chance.pick(&self.places).copied() else {
            return;
        };
        let lots = self.lots(|lot| lot.place == Some(place));
        for lot in lots.into_iter().take(3) {
            if let Some((plants, stands)) = self.count_of(lot) {
                self.act(Command::CountLot {
                    lot,
                    plants,
                    stands,
                });
            }
        }
    }

    /// What stood apart long enough joins the others.
    fn bring_in(&mut self) {
        let (apart, to) = (self.place(table::APART), self.place(table::MILD));
        for lot in self.lots(|lot| lot.place == apart) {
            let held = crate::quarantine::is_held(self.state.facts(), lot);
            if let Some(to) = to.filter(|_| !held) {
                self.act(Command::MoveLot { lot, to });
            }
        }
    }

    pub(super) fn find(
        &mut self,
        lot: LotId,
        sign: &str,
        agent: AgentClass,
        urgency: Urgency,
    ) -> Option<FindingId> {
        let looked_at = self.count_of(lot)?.0;
        let seen = self.act(Command::RecordFinding(RecordFinding {
            on: SeenOn::Lot(lot),
            sign: sign.to_owned(),
            part: String::new(),
            agent: Some(agent),
            affected: Some(looked_at.min(2)),
            looked_at: Some(looked_at),
            severity: None,
            urgency,
            photos: Vec::new(),
            note: String::new(),
        }));
        seen.iter().find_map(|event| match event {
            crate::event::Event::Found(found) => Some(found.finding),
            _ => None,
        })
    }

    pub(super) fn treat(
        &mut self,
        lot: LotId,
        against: AgentClass,
        product: usize,
        method: Method,
        finding: Option<FindingId>,
    ) {
        let Some((plants, _)) = self.count_of(lot) else {
            return;
        };
        let started_ms = self.at.now_ms;
        self.wait(20);
        let product = self.label(product);
        let water = Volume::from_ul(5_000_000);
        let amount = parse_rate(&product.rate_typed).and_then(|rate| rate.amount_for(water));
        let soak_s = (method == Method::Bath).then_some(20 * 60);
        self.act(Command::RecordTreatment(RecordTreatment {
            treated: vec![TreatedPart::Lot { lot, plants }],
            method,
            against,
            aim: Aim::Curing,
            product,
            place: None,
            finding,
            water_ul: Some(water.ul()),
            amount_ul: match amount {
                Ok(Amount::Volume(volume)) => Some(volume.ul()),
                _ => None,
            },
            amount_mg: match amount {
                Ok(Amount::Mass(mass)) => Some(mass.mg()),
                _ => None,
            },
            same_mix_as: None,
            started_ms: Some(started_ms),
            ended_ms: Some(self.at.now_ms),
            soak_s,
            soaked_s: soak_s,
            soak_own: soak_s.is_some(),
            pots: 0,
            until_ms: None,
            airing: None,
            tank: None,
            then: None,
            person: String::new(),
            licence: String::new(),
            gear: String::new(),
            reason: String::new(),
            note: String::new(),
        }));
    }
}

/// What a lot is chosen by.
pub(super) struct Standing {
    pub(super) place: Option<PlaceId>,
    pub(super) plants: i64,
    pub(super) flowers: bool,
}
