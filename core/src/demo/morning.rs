//! What is told of single days, so that the morning the example is opened on has something of everything.
//!
//! Days are counted back from that morning. The last walk lies eight days before, so what falls due after it is open.
//! A season would move work at the bench out of sight for months; the clump of three pots is put off to this morning
//! by the grower instead, whom no season overrules.

use crate::command::Command;
use crate::event::{
    AgentClass, Event, GainWhy, LossCause, Method, Outcome, Sight, SplitWhy, TaskAnswer, Urgency,
    WithdrawWhy,
};
use crate::id::{LotId, NoteTaskId};
use crate::task::TaskKind;
use crate::task::derive;
use crate::time::plus_days;

use super::{Nursery, table};

/// Days before the morning on which the last walk was made.
pub(super) const LAST_WALK: i64 = 8;

/// Days before the morning on which newly potted plants were last watered: none of them stands dry.
pub(super) const LAST_WATER: i64 = 6;

const LABELS_EVERY_DAYS: u32 = 28;

impl Nursery {
    /// What is told of the day so many days before the morning.
    pub(super) fn told(&mut self, ago: i64) {
        self.on(ago, 16 * 60);
        let phrases = self.phrases;
        match ago {
            630 => self.note(phrases.look_for_labels, -14, Some(LABELS_EVERY_DAYS), None),
            500 => self.sold_by_mistake(),
            480 => self.lost_and_put_right(),
            300 => self.set_apart(),
            200 => self.offshoot(),
            20 => self.pot_on_young_plants(),
            15 => {
                self.spotted = self.find_in(table::COOL_RIGHT, "black_spots", AgentClass::Fungus);
            }
            14 => self.bathe_the_spotted(),
            13 => self.swab_the_scale(),
            12 => drop(self.find_in(table::SHELF, "slugs", AgentClass::Mollusc)),
            10 => self.three_pots(),
            7 => self.more_needed(),
            6 => self.note(phrases.wash_pots, -3, None, None),
            5 => self.note(phrases.order_bark, 5, None, None),
            1 => self.spots_seen(),
            _ => {}
        }
    }

    /// A task of the grower's own, due so many days after the morning.
    fn note(&mut self, text: &str, due: i64, repeat_days: Option<u32>, lot: Option<LotId>) {
        let due_on = plus_days(self.opened.today, due);
        let due_on = repeat_days.map_or(due_on, |every| {
            // The first of a row that meets the morning.
            let days = i64::from(every);
            plus_days(self.opened.today, -days * (600 / days))
        });
        self.act(Command::NoteTask {
            task: None::<NoteTaskId>,
            text: text.to_owned(),
            due_on,
            repeat_days,
            lot,
            place: None,
        });
    }

    fn sold_by_mistake(&mut self) {
        let before = self.lines.len();
        self.sell();
        let sold = self.lines.get(before).map(|(entry, _)| *entry);
        if let Some(sold) = sold {
            self.wait(2);
            self.act(Command::Withdraw {
                targets: vec![sold],
                with_dependents: false,
                why: WithdrawWhy::Mistake,
                note: self.phrases.another_pot.to_owned(),
            });
        }
    }

    fn lost_and_put_right(&mut self) {
        let Some(lot) = self.any(|lot| lot.plants > 3) else {
            return;
        };
        let lost = self.record(Command::LoseFromLot {
            lot,
            plants: 2,
            stands: self.emptied(lot, 2),
            cause: LossCause::Unknown,
            note: String::new(),
        });
        let Some(lost) = lost else { return };
        if let Some(Event::Lost(event)) = lost.events.first() {
            let mut event = event.clone();
            let stands = self.emptied(lot, 1);
            (event.plants, event.stands, event.cause) = (1, stands, LossCause::Dried);
            self.wait(30);
            self.act(Command::Amend {
                target: lost.entry,
                index: 0,
                event: Event::Lost(event),
                why: self.phrases.behind_the_post.to_owned(),
            });
        }
    }

    /// One plant with streaks is set apart, and thrown away on the walk later if nobody buys it.
    fn set_apart(&mut self) {
        let Some(from) = self.any(|lot| lot.flowers && lot.plants > 2) else {
            return;
        };
        self.find(from, "streaks", AgentClass::Virus, Urgency::Today);
        self.act(Command::SplitLot {
            from,
            plants: 1,
            stands: self.emptied(from, 1),
            place: self.place(table::APART),
            why: SplitWhy::Quarantined,
        });
    }

    fn offshoot(&mut self) {
        let rain = self.place(table::RAIN);
        if let Some(lot) = self.any(|lot| lot.place == rain) {
            self.act(Command::GainInLot {
                lot,
                plants: 2,
                stands: 1,
                why: GainWhy::Offshoot,
                note: String::new(),
            });
        }
    }

    fn pot_on_young_plants(&mut self) {
        let apart = self.place(table::APART);
        let Some(lot) = self
            .any(|lot| lot.place == apart)
            .or_else(|| self.any(|lot| !lot.flowers))
            .or_else(|| self.any(|_| true))
        else {
            return;
        };
        if let Some((_, stands)) = self.count_of(lot) {
            let potting = self.potting(stands, true);
            self.act(Command::RepotLot {
                lot,
                stands,
                potting,
                class: None,
            });
        }
    }

    /// Something seen on a lot of a place, on one that nothing was seen on before where there is one.
    fn find_in(&mut self, place: usize, sign: &str, agent: AgentClass) -> Option<LotId> {
        let place = self.place(place);
        let facts = self.state.facts();
        let clean = |id: &LotId| {
            let lot = facts.lots.get(id);
            lot.is_some_and(|lot| lot.findings.is_empty() && lot.treatments.is_empty())
        };
        let here = self.lots(|lot| lot.place == place);
        let clean: Vec<LotId> = here.iter().copied().filter(clean).collect();
        let from = [clean, here, self.lots(|_| true)];
        let from = from.iter().find(|lots| !lots.is_empty())?;
        let lot = self.chance.pick(from).copied()?;
        self.left_alone.push(lot);
        self.find(lot, sign, agent, Urgency::ThisWeek);
        Some(lot)
    }

    fn bathe_the_spotted(&mut self) {
        if let Some(lot) = self.spotted {
            let findings = self.state.facts().lots.get(&lot);
            let finding = findings.and_then(|lot| lot.findings.last().copied());
            self.treat(
                lot,
                AgentClass::Fungus,
                table::COPPER,
                Method::Bath,
                finding,
            );
        }
    }

    fn swab_the_scale(&mut self) {
        if let Some(lot) = self.find_in(table::MILD, "scale", AgentClass::Insect) {
            self.treat(lot, AgentClass::Insect, table::SOAP, Method::Swab, None);
        }
    }

    fn three_pots(&mut self) {
        let Some(lot) = self.grown_together else {
            return;
        };
        self.act(Command::Observe {
            lots: vec![lot],
            what: Sight::Outgrown,
            good: None,
            note: self.phrases.grown_together.to_owned(),
        });
        let mut tasks = derive::of_lot(self.state.facts(), lot);
        tasks.retain(|task| task.kind == TaskKind::ToTheBench);
        let to = self.opened.today;
        self.act(Command::DecideTasks {
            tasks,
            answer: TaskAnswer::PutOff { to },
            why: self.phrases.splitting.to_owned(),
        });
    }

    /// The bath of a week before did not do it, so it is due again on the morning.
    fn more_needed(&mut self) {
        let Some(lot) = self.spotted else { return };
        let mut tasks = derive::of_lot(self.state.facts(), lot);
        tasks.retain(|task| task.kind == TaskKind::ResultLook);
        let outcome = Some(Outcome::NeedsMore);
        self.act(Command::DecideTasks {
            tasks,
            answer: TaskAnswer::Done { outcome },
            why: String::new(),
        });
    }

    /// Spots on another bench, the evening before: a bath to make.
    fn spots_seen(&mut self) {
        if let Some(lot) = self.find_in(table::COOL_RIGHT, "leaf_spots", AgentClass::Fungus) {
            self.note(self.phrases.bath_for_spots, 0, None, Some(lot));
        }
    }
}
