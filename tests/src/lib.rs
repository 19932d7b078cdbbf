//! What several suites of tests share: phones without a screen, in a greenhouse without glass.

// All of it is test code: what goes wrong here has to stop the test.
#![allow(clippy::panic)]

pub mod readers;

use chrono::NaiveDate;
use velamen_core::code::Prefix;
use velamen_core::command::{
    Command, OpenBook, OpenDivision, PlaceTraits, ReceiveLot, RecordTreatment,
};
use velamen_core::decide::{Decision, decide};
use velamen_core::event::{AgentClass, Aim, Event, Method, OpenedLot, ProductCopy, TreatedPart};
use velamen_core::exchange;
use velamen_core::id::{ClumpId, Dev, LotId, PlaceId};
use velamen_core::name::PlantName;
use velamen_core::potting::Pot;
use velamen_core::quantity::Length;
use velamen_core::rejection::Rejection;
use velamen_core::season::{Hemisphere, Warmth};
use velamen_core::state::State;
use velamen_core::task::derive;
use velamen_core::time::Moment;

/// The folder of these tests, asked of cargo at run time: with a target folder shared by several checkouts, a test may
/// have been built in another one.
#[must_use]
pub fn folder() -> std::path::PathBuf {
    std::env::var_os("CARGO_MANIFEST_DIR").map_or_else(
        || env!("CARGO_MANIFEST_DIR").into(),
        std::path::PathBuf::from,
    )
}

/// A civil day, `day("2027-03-11")`.
#[must_use]
pub fn day(text: &str) -> NaiveDate {
    text.parse()
        .unwrap_or_else(|_| panic!("{text} is not a day"))
}

/// A phone with its copy of the book and its own clock.
#[derive(Clone, Debug)]
pub struct Phone {
    pub state: State,
    pub dev: Dev,
    pub now_ms: i64,
    pub off_min: i16,
    pub today: NaiveDate,
}

const DAY_MS: i64 = 86_400_000;

impl Phone {
    /// A phone that has never seen a book, at nine in the morning.
    #[must_use]
    pub fn new(dev: u64, today: &str) -> Self {
        let mut phone = Self {
            state: State::default(),
            dev: Dev(dev),
            now_ms: 0,
            off_min: 60,
            today: NaiveDate::MIN,
        };
        phone.state.keep_work();
        phone.on(today);
        phone
    }

    /// Puts the calendar to a day, nine in the morning.
    pub fn on(&mut self, today: &str) -> &mut Self {
        self.today = day(today);
        let days = self
            .today
            .signed_duration_since(day("1970-01-01"))
            .num_days();
        self.now_ms = days * DAY_MS + 8 * 3_600_000;
        self
    }

    /// Lets minutes pass.
    pub fn wait_min(&mut self, minutes: i64) -> &mut Self {
        self.now_ms += minutes * 60_000;
        self
    }

    #[must_use]
    pub fn moment(&self) -> Moment {
        Moment {
            now_ms: self.now_ms,
            off_min: self.off_min,
            today: self.today,
            dev: self.dev,
        }
    }

    /// Decides without recording.
    pub fn decide(&self, command: Command) -> Result<Decision, Rejection> {
        decide(&self.state, &self.moment(), command)
    }

    /// Decides, records, and lets a minute pass.
    ///
    /// # Panics
    /// When the command is refused.
    #[track_caller]
    pub fn act(&mut self, command: Command) -> Decision {
        let decision = self
            .decide(command)
            .unwrap_or_else(|no| panic!("refused: {no:?}"));
        self.take(&decision.line);
        self.wait_min(1);
        decision
    }

    /// Why the command is refused.
    ///
    /// # Panics
    /// When it is not.
    #[track_caller]
    pub fn refusal(&self, command: Command) -> Rejection {
        match self.decide(command) {
            Err(no) => no,
            Ok(decision) => panic!("not refused: {:?}", decision.events),
        }
    }

    /// Takes a line in.
    ///
    /// # Panics
    /// When it is not an entry.
    #[track_caller]
    pub fn take(&mut self, line: &str) {
        self.state
            .take(line)
            .unwrap_or_else(|no| panic!("{no}: {line}"));
        // Whatever a test does: the work kept as entries come in is the work there is.
        let mut kept = Vec::new();
        self.state.each_task(|task| kept.push(task.clone()));
        assert_eq!(kept, derive::all(self.state.facts()));
    }

    /// Writes the whole book out.
    ///
    /// # Panics
    /// When there is none.
    #[must_use]
    pub fn hand_over(&self) -> String {
        exchange::write(&self.state, &self.moment()).unwrap_or_else(|| panic!("no book"))
    }

    /// Takes a file in, as far as it goes.
    ///
    /// # Panics
    /// When it is refused.
    #[track_caller]
    pub fn take_in(&mut self, file: &str) -> exchange::Plan {
        let incoming = exchange::read(file).unwrap_or_else(|no| panic!("refused: {no:?}"));
        let plan = exchange::plan(&self.state, &self.moment(), incoming)
            .unwrap_or_else(|no| panic!("refused: {no:?}"));
        for line in &plan.new {
            self.take(line);
        }
        plan
    }

    /// Opens a book with two pots and a mix.
    pub fn open_book(&mut self, hemisphere: Hemisphere) -> &mut Self {
        self.act(Command::OpenBook(opening(hemisphere, self.dev.0)));
        self
    }

    pub fn place(&mut self, name: &str, warmth: Warmth) -> PlaceId {
        let about = PlaceTraits {
            warmth: Some(warmth),
            ..PlaceTraits::default()
        };
        let done = self.act(Command::SetPlace {
            place: None,
            name: Some(name.to_owned()),
            walk: None,
            about,
        });
        match done.events.first() {
            Some(Event::PlaceSet(set)) => set.place,
            other => panic!("{other:?}"),
        }
    }

    pub fn lot(&mut self, name: &str, plants: u32, place: PlaceId) -> LotId {
        self.receive(ReceiveLot {
            plants,
            stands: plants,
            place: Some(place),
            ..named(name)
        })
    }

    pub fn receive(&mut self, lot: ReceiveLot) -> LotId {
        match self.act(Command::ReceiveLot(lot)).events.first() {
            Some(Event::LotReceived(received)) => received.lot,
            other => panic!("{other:?}"),
        }
    }

    /// Brings whole lots to the bench as one clump.
    pub fn open_clump(&mut self, lots: &[LotId]) -> ClumpId {
        let facts = self.state.facts();
        let opened = lots.iter().map(|id| {
            let count = |number: i64| u32::try_from(number).unwrap_or(0);
            facts.lots.get(id).map_or(
                OpenedLot {
                    lot: *id,
                    plants: 0,
                    stands: 0,
                },
                |lot| OpenedLot {
                    lot: *id,
                    plants: count(lot.plants),
                    stands: count(lot.stands),
                },
            )
        });
        let lots_opened: Vec<OpenedLot> = opened.collect();
        let name = lots
            .first()
            .and_then(|lot| facts.lots.get(lot))
            .map(|lot| lot.name.or_default())
            .unwrap_or_default();
        let tray = velamen_core::view::repot::next_tray(&self.state);
        let open = OpenDivision {
            tray,
            lots: lots_opened,
            name,
            ..OpenDivision::default()
        };
        match self.act(Command::OpenDivision(open)).events.first() {
            Some(Event::DivisionOpened(opened)) => opened.clump,
            other => panic!("{other:?}"),
        }
    }
}

/// A lot of one plant of that name, as typed.
#[must_use]
pub fn named(name: &str) -> ReceiveLot {
    ReceiveLot {
        name: PlantName::from_typed(name),
        plants: 1,
        stands: 1,
        ..ReceiveLot::default()
    }
}

/// A small book to begin with.
#[must_use]
pub fn opening(hemisphere: Hemisphere, seed: u64) -> OpenBook {
    let pot = |top, base, height| Pot::Round {
        top: Length::from_mm(top),
        base: Length::from_mm(base),
        height: Length::from_mm(height),
    };
    OpenBook {
        book: Dev(seed ^ 0xb00c),
        nursery: "Under the Ash".to_owned(),
        hemisphere,
        latitude_cdeg: None,
        demo: false,
        prefix: Prefix::pick(seed),
        phone_name: "first".to_owned(),
        pots: vec![
            ("17 cm".to_owned(), pot(170, 120, 130)),
            ("9 cm".to_owned(), pot(90, 60, 85)),
        ],
        mixes: vec![("coarse bark".to_owned(), Vec::new(), 36)],
    }
}

/// A bath of these parts, with everything else left empty.
#[must_use]
pub fn treatment(
    treated: Vec<TreatedPart>,
    against: AgentClass,
    product: ProductCopy,
) -> RecordTreatment {
    RecordTreatment {
        treated,
        method: Method::Bath,
        against,
        aim: Aim::Curing,
        product,
        place: None,
        finding: None,
        water_ul: None,
        amount_ul: None,
        amount_mg: None,
        same_mix_as: None,
        started_ms: None,
        ended_ms: None,
        soak_s: None,
        soaked_s: None,
        soak_own: false,
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
    }
}
