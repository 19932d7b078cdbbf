//! An example book: an invented nursery with about two seasons behind it, to look around in before starting one's own.
//!
//! It is made as a grower would make it: every entry goes through [`decide`](crate::decide), by one of two phones, one
//! day after the other, so no rule of the book is broken in it. The same moment, opening and phrases give the same
//! bytes. Nothing is dated later than the evening before, so that the day it is opened on is untouched: some work is
//! late, some is due, a clump of three pots waits for the bench and a bath is to be made, whatever the season.
//!
//! Names of plants are species or invented; places, products and people are invented. Rates are examples, never advice.

mod bench;
mod morning;
mod phrases;
mod shelf;
mod table;
mod walk;

use chrono::NaiveDate;

use crate::code::{Prefix, spread};
use crate::command::{Command, OpenBook};
use crate::decide::{Decision, decide};
use crate::event::Event;
use crate::id::{Dev, EntryRef, LotId, PlaceId, ProductId};
use crate::rejection::Rejection;
use crate::state::State;
use crate::time::{Moment, days_between, plus_days};

pub use phrases::{ENGLISH, Phrases};

/// Days before the day it is opened on that the example begins.
const DAYS: i64 = 640;
/// Days until everything that was there stands in the book.
const FIRST_DAYS: i64 = 6;
/// The nursery that is shown; any other number gives another.
pub const SEED: u64 = 7;

const DAY_MS: i64 = 86_400_000;

/// The example as the storage wants it.
#[derive(Debug, Default)]
pub struct Demo {
    /// Each entry with its stored line, in the order they were written.
    pub lines: Vec<(EntryRef, String)>,
    /// What the book would not take; empty unless a rule has changed under the example.
    pub refused: Vec<Rejection>,
}

/// The example while it is being made: a piece at a time, so that a slow phone can say how far it is.
pub struct Making {
    nursery: Nursery,
    /// Days before the morning that are told next.
    ago: i64,
}

impl std::fmt::Debug for Making {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.debug_struct("Making")
            .field("ago", &self.ago)
            .finish_non_exhaustive()
    }
}

/// Makes the whole example for the day of a moment, written by that phone and one other.
///
/// `open` says the nursery's name, those of pots and mixes, the hemisphere and the identity of the book; `phrases` what
/// else is said in words. What happens in it follows from `seed` alone.
#[must_use]
pub fn book(at: &Moment, seed: u64, open: OpenBook, phrases: &'static Phrases) -> Demo {
    let mut making = begin(at, seed, open, phrases);
    while making.go_on(DAYS) < 100 {}
    making.done()
}

/// Begins the example: the first days, in which everything that was there is written down.
#[must_use]
pub fn begin(at: &Moment, seed: u64, open: OpenBook, phrases: &'static Phrases) -> Making {
    let second = Dev(spread(open.book.0));
    let mut nursery = Nursery::new(at, second, seed, phrases);
    let prefix = open.prefix;
    nursery.on(DAYS, 7 * 60);
    nursery.act(Command::OpenBook(OpenBook { demo: true, ..open }));
    nursery.join(prefix);
    nursery.set_up();
    Making {
        nursery,
        ago: DAYS - FIRST_DAYS,
    }
}

impl Making {
    /// Goes on by so many days of the nursery, and says how far it is, in per cent.
    pub fn go_on(&mut self, days: i64) -> u32 {
        for _ in 0..days {
            if self.ago > 0 {
                self.nursery.live(self.ago);
                self.ago -= 1;
            }
        }
        u32::try_from((DAYS - self.ago) * 100 / DAYS).unwrap_or(100)
    }

    /// The example as far as it has come.
    #[must_use]
    pub fn done(self) -> Demo {
        Demo {
            lines: self.nursery.lines,
            refused: self.nursery.refused,
        }
    }
}

/// The invented nursery while its book is being written.
struct Nursery {
    state: State,
    /// The moment of the next entry.
    at: Moment,
    /// The moment the book is made for: nothing is dated after it.
    opened: Moment,
    phones: [Dev; 2],
    chance: Chance,
    phrases: &'static Phrases,
    places: Vec<PlaceId>,
    products: Vec<ProductId>,
    /// The lot of three pots that have grown together.
    grown_together: Option<LotId>,
    /// The lot whose bath did not do it.
    spotted: Option<LotId>,
    /// Lots that the last morning is about: until then nobody sells or divides them.
    left_alone: Vec<LotId>,
    lines: Vec<(EntryRef, String)>,
    refused: Vec<Rejection>,
}

impl Nursery {
    fn new(at: &Moment, second: Dev, seed: u64, phrases: &'static Phrases) -> Self {
        Self {
            state: State::default(),
            at: *at,
            opened: *at,
            phones: [at.dev, second],
            chance: Chance(seed),
            phrases,
            places: Vec::new(),
            products: Vec::new(),
            grown_together: None,
            spotted: None,
            left_alone: Vec::new(),
            lines: Vec::new(),
            refused: Vec::new(),
        }
    }

    /// The second phone joins under a prefix of its own.
    fn join(&mut self, taken: Prefix) {
        self.hand_to(1);
        if let Some(prefix) = Prefix::pick_free(self.at.dev.0, &[taken].into()) {
            let name = self.phrases.second_phone.to_owned();
            self.act(Command::JoinPhone { prefix, name });
        }
        self.hand_to(0);
    }

    fn today(&self) -> NaiveDate {
        self.at.today
    }

    fn day(&self, ago: i64) -> NaiveDate {
        plus_days(self.opened.today, -ago)
    }

    /// Goes on so many days before the example is opened, at a minute of the civil day.
    fn on(&mut self, ago: i64, minute: i64) {
        self.at.today = self.day(ago);
        let days = days_between(NaiveDate::default(), self.at.today);
        let midnight = days
            .saturating_mul(DAY_MS)
            .saturating_sub(i64::from(self.at.off_min).saturating_mul(60_000));
        self.at.now_ms = midnight.saturating_add(minute.saturating_mul(60_000));
    }

    fn wait(&mut self, minutes: i64) {
        self.at.now_ms = self
            .at
            .now_ms
            .saturating_add(minutes.saturating_mul(60_000));
    }

    /// Gives the book to one of the phones.
    fn hand_to(&mut self, phone: usize) {
        if let Some(dev) = self.phones.get(phone) {
            self.at.dev = *dev;
        }
    }

    /// Records a command and lets a little time pass; what happened, or nothing when it was refused.
    fn act(&mut self, command: Command) -> Vec<Event> {
        self.record(command)
            .map(|decision| decision.events)
            .unwrap_or_default()
    }

    fn record(&mut self, command: Command) -> Option<Decision> {
        self.at.now_ms = self.at.now_ms.min(self.opened.now_ms);
        let decided = decide(&self.state, &self.at, command);
        self.wait(1);
        match decided {
            Ok(decision) => {
                // What was just decided is an entry.
                let _ = self.state.take(&decision.line);
                self.lines.push((decision.entry, decision.line.clone()));
                Some(decision)
            }
            Err(no) => {
                self.refused.push(no);
                None
            }
        }
    }

    fn place(&self, at: usize) -> Option<PlaceId> {
        self.places.get(at).copied()
    }
}

/// Numbers that follow from a seed alone: SplitMix64 (Steele, Lea, Flood: "Fast splittable pseudorandom number
/// generators", OOPSLA 2014).
struct Chance(u64);

impl Chance {
    fn draw(&mut self) -> u64 {
        let number = spread(self.0);
        self.0 = self.0.wrapping_add(0x9E37_79B9_7F4A_7C15);
        number
    }

    /// A number below `most`; 0 for 0.
    fn below(&mut self, most: u32) -> u32 {
        let number = self.draw().checked_rem(u64::from(most)).unwrap_or(0);
        u32::try_from(number).unwrap_or(0)
    }

    /// True once in so many times.
    fn once_in(&mut self, times: u32) -> bool {
        self.below(times) == 0
    }

    fn pick<'a, T>(&mut self, from: &'a [T]) -> Option<&'a T> {
        let count = u32::try_from(from.len()).unwrap_or(u32::MAX);
        from.get(usize::try_from(self.below(count)).unwrap_or(0))
    }
}
