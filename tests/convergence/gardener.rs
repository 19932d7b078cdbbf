//! Somebody who does one thing after another in a nursery, whatever the dice say.
//!
//! What the book refuses stays undone: a refusal is an answer like another and changes nothing.

use velamen_core::code::Prefix;
use velamen_core::command::{Batch, Command, CountedPieces, OpenDivision, PlaceTraits};
use velamen_core::entry::LineHash;
use velamen_core::event::{
    AgentClass, ClosedHow, CutPlan, GainWhy, LossCause, OpenedLot, Outcome, PieceClass,
    PlannedPieces, Potting, ProductCopy, SeenOn, Sight, SplitWhy, TaskAnswer, ToolChange,
    TreatedPart, Urgency, Way, WithdrawWhy,
};
use velamen_core::id::{Dev, LotId};
use velamen_core::name::PlantName;
use velamen_core::rejection::Rejection;
use velamen_core::season::Warmth;
use velamen_core::task::derive;
use velamen_core::time::plus_days;
use velamen_tests::{Phone, named};

/// Names that grow differently.
const NAMES: [&str; 5] = [
    "Cymbidium lowianum",
    "Paphiopedilum insigne",
    "Oncidium flexuosum",
    "Vanda coerulea",
    "Dendrobium nobile",
];

/// One thing done, as numbers to choose with.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Deed {
    pub(crate) kind: u8,
    pub(crate) which: usize,
    pub(crate) number: u32,
}

/// A phone in somebody's hand, which may find out that it was copied.
#[derive(Clone, Debug)]
pub(crate) struct Gardener {
    pub(crate) phone: Phone,
    /// The last entry written here: by it the phone finds its own name again.
    pub(crate) last: Option<(u32, LineHash)>,
}

impl Gardener {
    pub(crate) fn new(dev: u64, today: &str) -> Self {
        Self {
            phone: Phone::new(dev, today),
            last: None,
        }
    }

    /// Records a command if the book lets it.
    pub(crate) fn try_to(&mut self, command: Command) -> Result<(), Rejection> {
        let decision = self.phone.decide(command)?;
        self.phone.take(&decision.line);
        self.phone.wait_min(1);
        self.last = Some((decision.entry.seq, LineHash::of(&decision.line)));
        Ok(())
    }

    /// Takes lines in as they come, and goes on under the name this phone now has.
    pub(crate) fn take_all<'a>(&mut self, lines: impl IntoIterator<Item = &'a str>) {
        for line in lines {
            self.phone.take(line);
        }
        if let Some((seq, hash)) = self.last
            && let Some(name) = self.phone.state.log().name_of(self.phone.dev, seq, hash)
        {
            self.phone.dev = name;
        }
    }

    pub(crate) fn lines(&self) -> Vec<String> {
        self.phone.state.log().lines().map(str::to_owned).collect()
    }

    /// Joins the book under the name this phone has now.
    pub(crate) fn join_if_new(&mut self) {
        let phones = &self.phone.state.facts().phones;
        if !phones.contains_key(&self.phone.dev) {
            let prefix = Prefix::pick(self.phone.dev.0);
            let name = "another".to_owned();
            self.try_to(Command::JoinPhone { prefix, name }).unwrap();
        }
    }

    /// Does one thing, if there is anything to do it with and the book lets it.
    pub(crate) fn carry_out(&mut self, deed: Deed) {
        self.phone.wait_min(i64::from(deed.number % 1_000));
        self.join_if_new();
        if deed.number.is_multiple_of(11) {
            self.phone.today = plus_days(self.phone.today, i64::from(deed.number % 200));
            self.phone.now_ms += i64::from(deed.number % 200) * 86_400_000;
        }
        let command = match deed.kind % 4 {
            0 => self.with_a_lot(deed),
            1 => self.at_the_bench(deed),
            2 => self.on_the_shelf(deed),
            _ => self.in_the_book(deed),
        };
        if let Some(command) = command {
            drop(self.try_to(command));
        }
    }

    fn a_lot(&self, which: usize) -> Option<LotId> {
        let lots: Vec<LotId> = self
            .phone
            .state
            .facts()
            .live_lots()
            .map(|(id, _)| id)
            .collect();
        pick(&lots, which)
    }

    fn with_a_lot(&self, deed: Deed) -> Option<Command> {
        let facts = self.phone.state.facts();
        let places: Vec<_> = facts.places.keys().copied().collect();
        let (number, place) = (deed.number % 7 + 1, pick(&places, deed.which));
        let note = String::new();
        let kind = deed.kind / 4 % 14;
        if kind < 3 {
            let mut lot = named(pick(&NAMES, deed.which)?);
            (lot.plants, lot.stands, lot.place) = (number * 3, number, place);
            lot.potted_on = deed
                .number
                .is_multiple_of(2)
                .then(|| plus_days(self.phone.today, -i64::from(deed.number % 900)));
            return Some(Command::ReceiveLot(lot));
        }
        let lot = self.a_lot(deed.which)?;
        let (plants, stands) = (number, number / 2);
        Some(match kind {
            3 => Command::MoveLot { lot, to: place? },
            4 => Command::CountLot {
                lot,
                plants: deed.number % 20,
                stands: deed.number % 9,
            },
            5 => Command::SplitLot {
                from: lot,
                plants,
                stands,
                place,
                why: SplitWhy::Moved,
            },
            6 => Command::SellFromLot {
                lot,
                plants,
                stands,
                to: "somebody".to_owned(),
                price_cents: Some(i64::from(deed.number)),
                note,
            },
            7 => Command::LoseFromLot {
                lot,
                plants,
                stands,
                cause: LossCause::Rot,
                note,
            },
            8 => Command::GainInLot {
                lot,
                plants,
                stands,
                why: GainWhy::Offshoot,
                note,
            },
            9 => Command::NameLot {
                lot,
                name: PlantName::from_typed(pick(&NAMES, deed.which / 2)?),
            },
            10 => Command::RepotLot {
                lot,
                stands: number,
                potting: Potting::default(),
                class: Some(PieceClass::Flowering),
            },
            11 => Command::ReserveInLot {
                lot,
                plants,
                to: pick(&NAMES, deed.which)?.to_owned(),
                until_on: None,
                note,
            },
            12 => {
                let kept = &facts.lots.get(&lot)?.reserved;
                let kept: Vec<_> = kept.keys().copied().collect();
                let reserved = pick(&kept, deed.which)?;
                if deed.number.is_multiple_of(2) {
                    Command::ReleaseInLot {
                        lot,
                        reserved,
                        plants,
                    }
                } else {
                    Command::SellReserved {
                        lot,
                        reserved,
                        plants,
                        stands,
                        price_cents: None,
                        note,
                    }
                }
            }
            _ => Command::RecodeLot { lot, code: None },
        })
    }

    fn at_the_bench(&self, deed: Deed) -> Option<Command> {
        let facts = self.phone.state.facts();
        let open: Vec<_> = facts.open_clumps().map(|(id, _)| id).collect();
        let class = pick(&PieceClass::ALL, deed.which)?;
        let number = deed.number % 6 + 1;
        if open.is_empty() || (deed.kind / 4).is_multiple_of(6) {
            let lot = self.a_lot(deed.which)?;
            let plants = u32::try_from(facts.lots.get(&lot)?.plants).ok()?;
            let plants = plants.min(number);
            let lots = vec![OpenedLot {
                lot,
                plants,
                stands: 0,
            }];
            let plan = deed
                .number
                .is_multiple_of(2)
                .then(|| planned(class, number));
            if deed.number.is_multiple_of(5) {
                let lots = vec![lot];
                let clump = None;
                return Some(Command::PlanDivision { lots, clump, plan });
            }
            let tray = deed.number % 9 + 1;
            return Some(Command::OpenDivision(OpenDivision {
                tray,
                lots,
                unbooked_pots: deed.number % 3,
                plan,
                ..OpenDivision::default()
            }));
        }
        let clump = pick(&open, deed.which)?;
        let known = facts.clumps.get(&clump)?;
        let piece = CountedPieces {
            class,
            plants: i32::try_from(number).ok()? - 1,
            bulbs: deed.number.is_multiple_of(3).then_some(number),
        };
        let batch = |class, plants| Batch {
            class,
            code: None,
            name: None,
            plants,
            stands: 1,
            with: None,
            potting: Potting::default(),
            place: facts.places.keys().next().copied(),
        };
        let bare = PieceClass::ALL.map(|class| (class, known.bare_of(class)));
        let mut batches = bare
            .iter()
            .filter(|(_, bare)| *bare > 0)
            .map(|(class, bare)| batch(*class, u32::try_from(*bare).unwrap_or(1)));
        let close = |how| Command::CloseDivision {
            clump,
            how,
            dirty_pots: number,
            note: String::new(),
        };
        Some(match deed.kind / 4 % 6 {
            1 | 2 => Command::TakePieces {
                clump,
                pieces: vec![piece],
            },
            3 => Command::PotPieces {
                clump,
                batches: vec![batches.next()?],
            },
            4 => {
                let batches: Vec<Batch> = batches.collect();
                Command::Together(vec![
                    Command::PotPieces { clump, batches },
                    close(ClosedHow::Done),
                ])
            }
            _ => close(ClosedHow::PutBack),
        })
    }

    fn on_the_shelf(&self, deed: Deed) -> Option<Command> {
        let facts = self.phone.state.facts();
        let places: Vec<_> = facts.places.keys().copied().collect();
        let pots: Vec<_> = facts.pots.keys().copied().collect();
        let protocols: Vec<_> = facts.protocols.keys().copied().collect();
        let word = format!("word {}", deed.number % 5);
        Some(match deed.kind / 4 % 6 {
            0 => Command::SetPlace {
                place: None,
                name: Some(word),
                walk: None,
                about: PlaceTraits::default(),
            },
            1 => Command::SetPlace {
                place: pick(&places, deed.which),
                name: Some(word),
                walk: Some(deed.number % 50),
                about: PlaceTraits {
                    warmth: pick(
                        &[Warmth::Cool, Warmth::Intermediate, Warmth::Warm],
                        deed.which,
                    ),
                    retired: Some(deed.number.is_multiple_of(13)),
                    ..PlaceTraits::default()
                },
            },
            2 => Command::SetPot {
                pot: Some(pick(&pots, deed.which)?),
                name: Some(word),
                form: None,
                retired: None,
            },
            3 => Command::SetBook(velamen_core::event::BookSet {
                nursery: Some(word),
                ..Default::default()
            }),
            4 => {
                let id = pick(&protocols, deed.which)?;
                let mut content = facts.protocols.get(&id)?.current()?.content.clone();
                let steps = content.steps.len();
                let step = content.steps.get_mut(deed.which % steps)?;
                let days = i32::try_from(deed.number % 40).ok()?;
                step.when.due_days += days;
                step.when.until_days += days;
                Command::AdoptProtocol {
                    protocol: Some(id),
                    content,
                }
            }
            _ => Command::ConfirmHygiene {
                tool_change: ToolChange::BetweenClumps,
                tools: None,
            },
        })
    }

    fn in_the_book(&self, deed: Deed) -> Option<Command> {
        let state = &self.phone.state;
        let facts = state.facts();
        let today = self.phone.today;
        let why = String::new();
        Some(match deed.kind / 4 % 8 {
            0 => Command::NoteTask {
                task: None,
                text: "clean the glass".to_owned(),
                due_on: plus_days(today, i64::from(deed.number % 60)),
                repeat_days: deed.number.is_multiple_of(2).then_some(deed.number % 30),
                lot: self.a_lot(deed.which),
                place: None,
            },
            1 | 2 => {
                let tasks = derive::all(facts);
                let task = pick_ref(&tasks, deed.which)?.clone();
                let answer = match deed.number % 4 {
                    0 => TaskAnswer::NotNeeded,
                    1 => TaskAnswer::PutOff {
                        to: plus_days(today, i64::from(deed.number % 30)),
                    },
                    2 => TaskAnswer::Done { outcome: None },
                    _ => TaskAnswer::Done {
                        outcome: Some(Outcome::NeedsMore),
                    },
                };
                Command::DecideTasks {
                    tasks: vec![task],
                    answer,
                    why,
                }
            }
            3 | 4 => {
                let entries: Vec<_> = state.log().in_order().map(|entry| entry.id).collect();
                Command::Withdraw {
                    targets: vec![pick(&entries, deed.which)?],
                    with_dependents: deed.number.is_multiple_of(3),
                    why: WithdrawWhy::Undone,
                    note: why,
                }
            }
            5 => Command::Observe {
                lots: vec![self.a_lot(deed.which)?],
                what: pick(&Sight::ALL, deed.which)?,
                good: None,
                note: why,
            },
            6 => {
                let mut done = treatment(self.a_lot(deed.which)?, deed.number % 3);
                let hours = i64::from(deed.number % 4) * 6;
                done.until_ms = (hours > 0).then_some(self.phone.now_ms + hours * 3_600_000);
                Command::RecordTreatment(done)
            }
            _ => {
                let anomalies = state.anomalies();
                match pick_ref(&anomalies, deed.which) {
                    Some(open) => Command::Settle {
                        subject: open.subject(),
                        anomaly: open.key(),
                        note: why,
                    },
                    None => Command::RecordFinding(velamen_core::command::RecordFinding {
                        on: SeenOn::Lot(self.a_lot(deed.which)?),
                        sign: "spots".to_owned(),
                        part: String::new(),
                        agent: None,
                        affected: None,
                        looked_at: None,
                        severity: None,
                        urgency: Urgency::Today,
                        photos: Vec::new(),
                        note: why,
                    }),
                }
            }
        })
    }
}

fn treatment(lot: LotId, plants: u32) -> velamen_core::command::RecordTreatment {
    velamen_tests::treatment(
        vec![TreatedPart::Lot { lot, plants }],
        AgentClass::Fungus,
        ProductCopy {
            label_name: "a product".to_owned(),
            ..ProductCopy::default()
        },
    )
}

/// One of them, whatever the number.
pub(crate) fn pick<T: Copy>(from: &[T], which: usize) -> Option<T> {
    pick_ref(from, which).copied()
}

fn pick_ref<T>(from: &[T], which: usize) -> Option<&T> {
    from.get(which.checked_rem(from.len())?)
}

/// A phone's random name, by its place among the phones of a test.
pub(crate) fn dev(at: usize) -> u64 {
    Dev(0x1000 + at as u64).0
}

/// A cut as somebody may plan it.
fn planned(class: PieceClass, plants: u32) -> CutPlan {
    let row = PlannedPieces {
        class,
        plants,
        low: None,
        high: Some(plants + 2),
    };
    CutPlan {
        way: Way::Own,
        pieces: vec![row],
        whole: 1,
        leads: None,
        growths: Some(plants * 4),
        size: None,
        by_on: None,
    }
}
